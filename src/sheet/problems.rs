//! Every message of the sheet stage, with its code.
//!
//! One function a message; nothing is decided here. Here are those about single values; those about
//! the file and about the whole job are in `problems/`.

mod file;
mod job;
mod nearest;
mod prices;

use std::ops::Range;

use super::shape::{Choice, Shape};
use crate::diagnostic::source::Source;
use crate::diagnostic::{Diagnostic, Place};

pub use file::{
    anchor, control_character, duplicate_job, duplicate_key, empty, key_is_no_word, needs_quotes,
    not_utf8, not_yaml, other_encoding, second_document, tag, too_deep, too_long, too_many_nodes,
};
pub use job::{
    cause_of_no_fault, cut_text, date_order, example_left, implausible, judged_twice,
    no_fault_doubted, not_on_this_kind, noticed_too_far, other_is_not_called, outcome_doubted,
    outcome_lacks, passed_over, path_climbs, photo_found_and_left, photo_missing, photo_twice,
    photo_unused, seen_and_not_seen, sign_elsewhere, track_missing,
};
pub use nearest::nearest;
use nearest::{did_you_mean, listed};
pub use prices::{
    list_currency, listed_twice, no_price, no_price_list, no_such_part, price_of_several,
};

/// Another kind of value than the field takes.
pub fn wrong_type(place: Place, expected: &str, found: &str) -> Diagnostic {
    Diagnostic::error("sheet/wrong-type", place, format!("expected {expected}, found {found}"))
}

/// A scalar or list where a block belongs.
pub fn not_a_block(place: Place, name: &str, keys: &[String]) -> Diagnostic {
    let keys: Vec<&str> = keys.iter().take(3).map(String::as_str).collect();
    let name = name.chars().fold(String::new(), |mut words, letter| {
        if letter.is_uppercase() && !words.is_empty() {
            words.push(' ');
        }
        words.extend(letter.to_lowercase());
        words
    });
    Diagnostic::error("sheet/wrong-type", place, format!("expected a block of fields ({name})"))
        .hint(format!("write `{{{}: …}}` or the fields on lines of their own", keys.join(": …, ")))
}

/// A key that the block does not know.
pub fn unknown_field(place: Place, key: &str, known: &[String]) -> Diagnostic {
    let known: Vec<&str> = known.iter().map(String::as_str).collect();
    Diagnostic::error("sheet/unknown-field", place, format!("there is no field `{key}` here")).hint(
        nearest(key, &known).unwrap_or_else(|| format!("the fields here are {}", listed(&known))),
    )
}

/// A field under the name that it had one version ago.
pub fn old_name(place: Place, old: &str, new: &str) -> Diagnostic {
    let message = format!("`{old}` is called `{new}` now");
    Diagnostic::warning("sheet/old-name", place, message)
        .hint(format!("write `{new}:`; the next version no longer reads `{old}:`"))
}

/// A field under its old name and under its new one.
pub fn named_twice(place: Place, old: &str, new: &str) -> Diagnostic {
    let message = format!("`{old}` is the old name of `{new}`, which is here too");
    Diagnostic::error("sheet/named-twice", place, message).hint(format!("keep `{new}:` alone"))
}

/// Most words that advice lists.
const MOST_WORDS: usize = 12;

/// A required key that is not there or has nothing after it.
pub fn missing_field(place: Place, key: &str, shape: &Shape) -> Diagnostic {
    Diagnostic::error("sheet/missing-field", place, format!("`{key}` is needed here")).hint(
        match shape {
            Shape::Words { words, .. } if words.len() <= MOST_WORDS => {
                let words: Vec<&str> = words.iter().map(|one| one.word.as_str()).collect();
                format!("add `{key}: …`, one of {}", listed(&words))
            }
            shape => format!("add `{key}: …` ({})", shape.name()),
        },
    )
}

/// A word that is not in the list of the field.
pub fn unknown_word(place: Place, what: &str, found: &str, choices: &[Choice]) -> Diagnostic {
    let words = choices.iter().filter(|one| one.same_as.is_none());
    let words: Vec<&str> = words.map(|one| one.word.as_str()).collect();
    Diagnostic::error("sheet/unknown-word", place, format!("there is no {what} `{found}`")).hint(
        did_you_mean(what, found, choices).unwrap_or_else(|| format!("one of {}", listed(&words))),
    )
}

/// A part that the catalogue does not know.
pub fn unknown_part(place: Place, found: &str, choices: &[Choice]) -> Diagnostic {
    let message =
        format!("there is no part `{found}` in the list: the papers print it under that name");
    Diagnostic::warning("sheet/unknown-part", place, message)
        .maybe_hint(did_you_mean("part", found, choices))
        .hint("for a part that is in no list, write `part: other` and `called: NAME`")
}

/// A sign that the catalogue does not know, in a list of signs: kept as words of one's own.
pub fn unknown_sign(place: Place, found: &str, choices: &[Choice]) -> Diagnostic {
    let message = format!("there is no sign `{found}`; it is printed as typed and not weighed");
    Diagnostic::warning("sheet/unknown-sign", place, message).hint(nearest_signs(found, choices))
}

/// A sign that the catalogue does not know, where only a known one will do.
pub fn no_such_sign(place: Place, found: &str, choices: &[Choice]) -> Diagnostic {
    Diagnostic::error("sheet/unknown-sign", place, format!("there is no sign `{found}`"))
        .hint(nearest_signs(found, choices))
}

fn nearest_signs(found: &str, choices: &[Choice]) -> String {
    did_you_mean("sign", found, choices).unwrap_or_else(|| {
        "`splitcase words TEXT` searches the signs; `{other: …}` takes words of your own".into()
    })
}

/// Empty text, or text of a form that the field does not take.
pub fn wrong_form(place: Place, what: &str, found: &str, example: &str) -> Diagnostic {
    let article = if what.starts_with(['a', 'e', 'i', 'o']) { "an" } else { "a" };
    Diagnostic::error("sheet/wrong-form", place, format!("`{found}` is not {article} {what}"))
        .hint(format!("write it like `{example}`"))
}

/// A bare number where a unit is needed.
pub fn missing_unit(place: Place, found: &str, units: &[&str]) -> Diagnostic {
    let unit = units.first().copied().unwrap_or_default();
    Diagnostic::error("sheet/missing-unit", place, format!("`{found}` has no unit"))
        .hint(format!("write `{found} {unit}`; units here are {}", listed(units)))
}

/// A bare number as the reading of a check that is not known.
pub fn bare_reading(place: Place, found: &str) -> Diagnostic {
    Diagnostic::error("sheet/missing-unit", place, format!("`{found}` has no unit"))
        .hint(format!("write the unit behind it, such as `{found} mm` or `{found} Mohm`"))
}

/// A unit of another kind, or none that is known.
pub fn wrong_unit(place: Place, unit: &str, what: &str, units: &[&str]) -> Diagnostic {
    Diagnostic::error("sheet/wrong-unit", place, format!("`{unit}` is not a unit of {what}"))
        .hint(nearest(unit, units).unwrap_or_else(|| format!("units here are {}", listed(units))))
}

/// A decimal comma where the language has none, or a point that may separate thousands.
pub fn doubtful_number(place: Place, found: &str, hint: &str) -> Diagnostic {
    Diagnostic::error("sheet/doubtful-number", place, format!("`{found}` can be read in two ways"))
        .hint(hint)
}

/// A day whose month can be either of two numbers.
pub fn doubtful_date(place: Place, found: &str, readings: [String; 2]) -> Diagnostic {
    let [first, second] = readings;
    Diagnostic::error("sheet/doubtful-date", place, format!("`{found}` can be read in two ways"))
        .hint(format!("write `{first}` or `{second}`"))
}

/// A day that is not on the calendar.
pub fn impossible_date(place: Place, found: &str) -> Diagnostic {
    Diagnostic::error("sheet/impossible-date", place, format!("`{found}` is not on the calendar"))
        .hint("write year-month-day, such as `2026-03-02`")
}

/// A place that is not on the 12 x 9 grid.
pub fn outside_grid(place: Place, found: &str) -> Diagnostic {
    Diagnostic::error("sheet/outside-grid", place, format!("`{found}` is not a place on the photo's grid"))
        .hint("columns are A to L, rows 1 to 9: `F4`, or finer `F4.1` (top left) to `F4.9` (bottom right)")
}

/// A mark that says nothing, or two things at once.
pub fn mark_kind(place: Place, n_kinds: usize) -> Diagnostic {
    let message = match n_kinds {
        0 => "this mark has no kind",
        _ => "this mark has more than one kind",
    };
    Diagnostic::error("sheet/mark", place, message)
        .hint("give one of `ring: F4`, `arrow: F4`, `box: F4`, `label: F4`, `length: F4`")
}

/// A mark that lacks what its kind needs.
pub fn mark_lacks(place: Place, kind: &str, lacks: &str, example: &str) -> Diagnostic {
    Diagnostic::error("sheet/mark", place, format!("the mark `{kind}` needs `{lacks}`"))
        .hint(format!("write it like `{example}`"))
}

/// Blanks of a starter that are still to be written over.
pub fn blanks_left(source: &Source, places: &[Range<usize>]) -> Option<Diagnostic> {
    let (first, rest) = places.split_first()?;
    let message = match rest.len() {
        0 => "a blank `___` is left, and nothing is read in its place".to_owned(),
        n => format!("{} blanks `___` are left, and nothing is read in their places", n + 1),
    };
    let place = |range: &Range<usize>| Place::at(source, range.clone());
    let problem = Diagnostic::warning("sheet/blank-left", place(first), message)
        .hint("write over them, or take their lines out");
    Some(rest.iter().fold(problem, |problem, range| problem.also(place(range), "and here")))
}

/// A text without a letter in the place of one.
pub fn blank(place: Place) -> Diagnostic {
    Diagnostic::error("sheet/blank", place, "this text is blank")
        .hint("write what belongs here, or take the line out")
}

/// A word that no line of a page can hold.
pub fn long_word(place: Place, letters: usize, most: usize) -> Diagnostic {
    let message = format!("a word of {letters} letters is here; a page can take {most}");
    Diagnostic::error("sheet/long-text", place, message)
        .hint("is a blank missing, or was a file pasted in?")
}

/// A text that would fill pages by itself.
pub fn long_text(place: Place, letters: usize, most: usize) -> Diagnostic {
    let message = format!("a text of {letters} letters is here; one field takes {most}");
    Diagnostic::error("sheet/long-text", place, message)
        .hint("shorten it; a longer account can be a file beside the sheet")
}

/// An accent that can hardly be read on paper.
pub fn faint_colour(place: Place, found: &str, contrast: f64, least: f64) -> Diagnostic {
    let message = format!("`{found}` has a contrast to the paper of only {contrast:.1} : 1");
    Diagnostic::error("sheet/faint-colour", place, message)
        .hint(format!("choose a darker colour, with at least {least} : 1"))
}

/// Hall states typed as readings.
pub fn states_not_readings(place: Place) -> Diagnostic {
    Diagnostic::error("sheet/states", place, "this check takes states, not readings")
        .hint("write `states-before: [001, 011, …]` and `states-after: […]`")
}

/// A limit without an edge, or whose edges leave nothing between them.
pub fn no_limit(place: Place, check: &str) -> Diagnostic {
    let message = format!("no reading of `{check}` could be judged by this");
    Diagnostic::error("profile/no-limit", place, message)
        .hint("write `at-most:`, `at-least:` or both, the least below the most")
}

/// A limit in `checks:` for a check that has a field of its own, or no limit at all.
pub fn limit_of_check(place: Place, check: &str, words: &[&str]) -> Diagnostic {
    let message = format!("`{check}` takes no limit here");
    Diagnostic::error("profile/limit-of-check", place, message)
        .hint(format!("use its own field of `limits:`; here: {}", words.join(", ")))
}
