//! The tables of the documents, made from what the program knows: fields, words, units, messages.
//!
//! In: shapes, catalogues, the messages' own sources; out: Markdown. Where they go is said in the parent.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

use splitcase::document::templates::Templates;
use splitcase::sheet::catalogue::{PARTS, SIGNS};
use splitcase::sheet::findings::FindingsSheet;
use splitcase::sheet::profile::Profile;
use splitcase::sheet::quantity::unit::UNITS;
use splitcase::sheet::reader::Value;
use splitcase::sheet::shape::{Printed, RecordShape, Shape};

/// The fields of a shape and of all its blocks; for a findings sheet with the column that says where
/// the papers print them. A block that belongs in several places is written out at the first.
pub fn fields(shape: &Shape, with_papers: bool) -> String {
    let (head, rule) = if with_papers { (" printed |", " --- |") } else { ("", "") };
    let mut rows = format!(
        "| field | form | needed |{head} what it is for |\n| --- | --- | --- |{rule} --- |\n"
    );
    if let Shape::Record(record) = shape {
        write_fields(record, "", with_papers, &mut BTreeMap::new(), &mut rows);
    }
    rows
}

fn write_fields(
    record: &RecordShape,
    path: &str,
    with_papers: bool,
    written: &mut BTreeMap<&'static str, String>,
    rows: &mut String,
) {
    for field in &record.fields {
        let key = format!("{path}{}", field.key);
        let needed = if field.required { "yes" } else { "" };
        let papers = match field.printed {
            Printed::InItsSection => " report |",
            Printed::ArrivalNote => " arrival note |",
            Printed::OptionsLetter => " options letter |",
            Printed::AsNoted => " report, as noted |",
            Printed::Decides => " decides |",
            Printed::WorkshopOnly => " workshop only |",
        };
        let papers = if with_papers { papers } else { "" };
        let block = field.shape.record();
        let first = block.and_then(|block| written.get(block.name));
        let first = first.map(|first| format!(" Its fields are those of `{first}`."));
        let first = first.unwrap_or_default();
        let form = field.shape.name();
        let _ = writeln!(rows, "| `{key}` | {form} | {needed} |{papers} {}{first} |", field.about);
        if let Some(block) = block.filter(|_| first.is_empty()) {
            written.insert(block.name, key.clone());
            write_fields(block, &format!("{key}."), with_papers, written, rows);
        }
    }
}

/// The words of the customer for a part or sign, as in the English wording.
fn words(file: &str) -> BTreeMap<String, BTreeMap<String, String>> {
    let templates = Templates::built_in();
    serde_yaml::from_str(templates.get(&format!("wording/en/{file}.yaml")).unwrap().text()).unwrap()
}

/// Every part with the kinds of unit that have it, its other names and its name on the papers.
pub fn parts() -> String {
    let words = words("parts");
    let mut rows = String::from(
        "| part | on | other words of the trade | on the papers |\n| --- | --- | --- | --- |\n",
    );
    for row in PARTS.iter() {
        let kinds: Vec<&str> = row.kinds.iter().map(|kind| kind.word()).collect();
        let (kinds, also) = (kinds.join(", "), row.also.join(", "));
        let words = &words[&row.part];
        let _ = writeln!(rows, "| `{}` | {kinds} | {also} | {} |", row.part, words["plain"]);
    }
    rows
}

/// Every sign with what can show it and the heading that the customer reads.
pub fn signs() -> String {
    let words = words("signs");
    let mut rows = String::from(
        "| sign | on | the customer reads | the trade says |\n| --- | --- | --- | --- |\n",
    );
    for row in SIGNS.iter() {
        let words = &words[&row.sign];
        let heading = words["heading"].replace("{part}", "*part*");
        let on: Vec<&str> = row.on.iter().map(|place| place.word()).collect();
        let (sign, on, trade) = (&row.sign, on.join(", "), &words["trade"]);
        let _ = writeln!(rows, "| `{sign}` | {on} | {heading} | {trade} |");
    }
    rows
}

/// Every choice of fixed words by the name that the tables of fields call it.
pub fn choices() -> String {
    let mut found = BTreeMap::new();
    gather(&FindingsSheet::shape(), &mut found);
    gather(&Profile::shape(), &mut found);
    let mut rows = String::from("| form | words |\n| --- | --- |\n");
    for (name, words) in found {
        let words: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
        let _ = writeln!(rows, "| {name} | {} |", words.join(", "));
    }
    rows
}

fn gather(shape: &Shape, found: &mut BTreeMap<&'static str, Vec<String>>) {
    match shape {
        Shape::Words { name, words } if !["part", "sign"].contains(name) => {
            let words: Vec<String> = words.iter().map(|one| one.word.clone()).collect();
            let known = found.entry(name).or_insert_with(|| words.clone());
            let [known, words] = [&*known, &words].map(|all| all.iter().collect::<BTreeSet<_>>());
            assert_eq!(known, words, "two choices are called {name}");
        }
        Shape::List(of) => gather(of, found),
        Shape::Either(forms) => forms.iter().for_each(|form| gather(form, found)),
        Shape::Record(record) => record.fields.iter().for_each(|one| gather(&one.shape, found)),
        _ => {}
    }
}

/// Every unit with its spellings, by what it measures.
pub fn units() -> String {
    let mut rows = String::from("| quantity | units |\n| --- | --- |\n");
    let mut written = Vec::new();
    for first in UNITS {
        if written.contains(&first.dimension) {
            continue;
        }
        written.push(first.dimension);
        let of_it = UNITS.iter().filter(|unit| unit.dimension == first.dimension);
        let spellings = of_it.flat_map(|unit| unit.spellings).map(|one| format!("`{one}`"));
        let spellings: Vec<String> = spellings.collect();
        let _ = writeln!(rows, "| {} | {} |", first.dimension.word(), spellings.join(", "));
    }
    rows
}

/// Every code of a problem with the comment above it in the sources, those of `verify` left out.
pub fn messages(sources: &[(String, String)]) -> String {
    let mut found: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for (file, text) in sources {
        if !file.contains("problems") && !text.contains("const CODE:") || file.contains("archive") {
            continue;
        }
        let (mut about, mut comment) = (String::new(), String::new());
        for line in text.lines().map(str::trim) {
            if let Some(words) = line.strip_prefix("//") {
                let words = words.trim_start_matches('/').trim();
                [comment.as_str(), words].join(" ").trim().clone_into(&mut comment);
                continue;
            }
            if !comment.is_empty() && !line.starts_with("#[") {
                about = std::mem::take(&mut comment);
            }
            // A list of codes that another message carries says nothing of them.
            let is_listed =
                line.starts_with('"') && line.ends_with("\",") && about.contains("own code");
            for code in line.split('"').skip(1).step_by(2).filter(|part| is_code(part)) {
                let abouts = found.entry(code).or_default();
                if !is_listed && !abouts.contains(&about) {
                    abouts.push(about.clone());
                }
            }
        }
    }
    let mut rows = String::from("| code | what it is for |\n| --- | --- |\n");
    let mut said: BTreeMap<String, &str> = BTreeMap::new();
    for (code, abouts) in found {
        assert!(!abouts.is_empty(), "{code} has no comment");
        let other = said.insert(abouts.join(" "), code);
        assert!(other.is_none(), "{code} and {other:?} are explained by the same words");
        let _ = writeln!(rows, "| `{code}` | {} |", abouts.join(" "));
    }
    rows
}

fn is_code(part: &str) -> bool {
    let is_word =
        |word: &str| !word.is_empty() && word.chars().all(|c| c.is_ascii_lowercase() || c == '-');
    part.split_once('/').is_some_and(|(stage, what)| is_word(stage) && is_word(what))
}
