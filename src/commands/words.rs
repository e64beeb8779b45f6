//! `words`: finds words for a sheet by what people say, or gives an overview of them.

use serde_json::{Value, json};

use crate::cli::Words;
use crate::console::{Console, RunOutcome};
use crate::failure::Failure;
use crate::sheet::lexicon::all::{self, Listed, UNIT, WORDS};
use crate::sheet::spelling::as_word;

/// Most columns of a line.
const WIDTH: usize = 80;
/// How many words are shown unless all are asked for.
const SHOWN: usize = 6;
/// Most places that one word is shown with.
const PLACES: usize = 3;
/// Columns before what is said of a word, its label included.
const INDENT: usize = 12;

pub(super) fn run(words: &Words, console: &Console) -> Result<RunOutcome, Failure> {
    let text = words.text.join(" ");
    let kind = words.kind.as_deref().map(known_kind).transpose()?;
    let found: Vec<&Listed> = match (text.trim(), kind) {
        ("", kind) => {
            let of_kind = |one: &&Listed| kind.is_none_or(|kind| one.entry.kind == kind);
            WORDS.iter().filter(of_kind).collect()
        }
        (text, kind) => all::find(text, kind),
    };
    let is_asked = !text.trim().is_empty();
    if console.is_json() {
        for listed in &found {
            console.result(word_as_json(listed));
        }
        return Ok(RunOutcome::AllGood);
    }
    let lines = if is_asked || kind.is_some() {
        let most = if words.all || !is_asked { found.len() } else { SHOWN };
        as_text(text.trim(), &found, most)
    } else {
        overview()
    };
    console.answer(lines.join("\n").trim_end(), || Value::Null)?;
    Ok(RunOutcome::AllGood)
}

/// The kind that is meant, as the list has it.
fn known_kind(typed: &str) -> Result<&'static str, Failure> {
    let meant = as_word(typed);
    let is_it = |kind: &&str| {
        let own = as_word(kind);
        own == meant || format!("{own}s") == meant
    };
    all::kinds().into_iter().find(is_it).ok_or_else(|| {
        Failure::new("look for words", format!("there is no kind `{typed}`"))
            .hint("`splitcase words` lists the kinds; `part`, `sign` and `field` are the largest")
    })
}

fn as_text(text: &str, found: &[&Listed], most: usize) -> Vec<String> {
    if found.is_empty() {
        let advice = format!(
            "nothing comes near `{text}`; `splitcase words` gives an overview, and a part or a sign \
             that no list has can be written in words of your own"
        );
        return wrapped("", &advice, 0);
    }
    let mut text: Vec<String> = found.iter().take(most).flat_map(|listed| lines(listed)).collect();
    let more = found.len().saturating_sub(most);
    if 0 < more {
        text.push(format!("{more} more: add `--all`, or `--kind part` and the like"));
    }
    text
}

/// What is shown of a word, a blank line after it.
fn lines(listed: &Listed) -> Vec<String> {
    let entry = &listed.entry;
    let on = if entry.on.is_empty() { String::new() } else { format!("; {}", entry.on.join(", ")) };
    let mut lines = wrapped("", &format!("{} ({}{on})", entry.word, entry.kind), INDENT);
    let mut add = |label: &str, text: &str| {
        if !text.is_empty() {
            lines.extend(wrapped(&format!("    {label:<8}"), text, INDENT));
        }
    };
    let reading = &entry.reading;
    add("same as", entry.same_as.as_deref().unwrap_or_default());
    add("means", &entry.about);
    add("papers", reading.paper.as_deref().unwrap_or_default());
    add("trade", reading.trade.as_deref().unwrap_or_default());
    add("also", &entry.also.join(", "));
    let mut places = listed.places.iter().take(PLACES).cloned().collect::<Vec<_>>().join(", ");
    if PLACES < listed.places.len() {
        let more = listed.places.len() - PLACES;
        places = format!("{places}, and {more} more");
    }
    add("sheet", &places);
    lines.push(String::new());
    lines
}

/// A text in lines of at most 80 columns, the first behind a label, the others indented.
fn wrapped(label: &str, text: &str, indent: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = label.to_owned();
    let mut is_empty = true;
    for word in text.split_whitespace() {
        if !is_empty && WIDTH < line.chars().count() + 1 + word.chars().count() {
            lines.push(std::mem::replace(&mut line, " ".repeat(indent)));
            is_empty = true;
        }
        if !is_empty {
            line.push(' ');
        }
        line += word;
        is_empty = false;
    }
    lines.push(line);
    lines
}

/// Fewest words of a kind that has a line of its own.
const LONG_LIST: usize = 5;
/// Kinds that most people look for.
const FIRST: [&str; 3] = ["part", "sign", "condition"];

/// One line a kind, and the small ones, units and those of the profile alone in one paragraph each.
fn overview() -> Vec<String> {
    let mut lines = vec![
        "splitcase words TEXT finds a word by what you would say: rusty, Dichtung.".into(),
        "splitcase words --kind KIND lists one kind.".into(),
        String::new(),
    ];
    let mut kinds = all::kinds();
    kinds.sort_by_key(|kind| FIRST.iter().position(|one| one == kind).unwrap_or(FIRST.len()));
    let of = |kind: &str| WORDS.iter().filter(|one| one.entry.kind == kind).collect::<Vec<_>>();
    let is_of_profile = |kind: &str| of(kind).iter().all(|one| one.is_of_profile());
    let name_width = 26;
    let is_of_sheet = |kind: &str| !kind.starts_with(UNIT) && !is_of_profile(kind);
    let is_long = |kind: &str| LONG_LIST <= of(kind).len();
    for kind in kinds.iter().filter(|kind| is_of_sheet(kind) && is_long(kind)) {
        let words = of(kind);
        let label = format!("{:>4}  {:<name_width$}", words.len(), as_word(kind));
        lines.push(cut(&label, words.iter().map(|one| one.entry.word.as_str())));
    }
    let rest = |wanted: &dyn Fn(&str) -> bool| {
        kinds.iter().filter(|kind| wanted(kind)).map(|kind| as_word(kind)).collect::<Vec<_>>()
    };
    lines.push(String::new());
    for (label, kinds) in [
        ("short lists:", rest(&|kind| is_of_sheet(kind) && !is_long(kind))),
        ("units:", rest(&|kind| kind.starts_with(UNIT))),
        ("of workshop.yaml alone:", rest(&|kind| !kind.starts_with(UNIT) && is_of_profile(kind))),
    ] {
        lines.extend(wrapped(&format!("{label} "), &kinds.join(", "), 6));
    }
    lines
}

/// As many words as a line holds.
fn cut<'a>(label: &str, words: impl Iterator<Item = &'a str>) -> String {
    const MORE: &str = ", …";
    let mut line = label.to_owned();
    for (n, word) in words.enumerate() {
        let join = if n == 0 { "" } else { ", " };
        if WIDTH < line.chars().count() + join.len() + word.chars().count() + MORE.chars().count() {
            return line + MORE;
        }
        line = line + join + word;
    }
    line
}

fn word_as_json(listed: &Listed) -> Value {
    let entry = &listed.entry;
    json!({
        "word": entry.word,
        "kind": entry.kind,
        "same-as": entry.same_as,
        "about": entry.about,
        "paper": entry.reading.paper,
        "trade": entry.reading.trade,
        "also": entry.also,
        "on": entry.on,
        "places": listed.places,
    })
}
