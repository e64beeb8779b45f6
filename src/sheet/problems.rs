//! Every message of the sheet stage, with its code.
//!
//! One function a message; nothing is decided here.

use super::shape::Shape;
use super::yaml::slip::Slip;
use crate::diagnostic::{Diagnostic, Place};

/// The file is longer than any sheet can sensibly be; it is not read to its end, so its length is unknown.
pub fn too_long(place: Place, limit: usize) -> Diagnostic {
    let message = format!("the file has more than {limit} bytes, the most that are read");
    Diagnostic::error("sheet/too-long", place, message)
        .hint("a findings sheet is a few pages of text; is this another file under its name?")
}

/// UTF-16 and the like.
pub fn other_encoding(place: Place, encoding: &str) -> Diagnostic {
    Diagnostic::error("sheet/encoding", place, format!("the file is saved as {encoding}"))
        .hint("save it as UTF-8: `Save as…`, encoding `UTF-8`")
}

/// Bytes that are no UTF-8, by line since there is no text to point into.
pub fn not_utf8(place: Place, line: usize) -> Diagnostic {
    let message = format!("line {line} holds bytes that are no UTF-8 text");
    Diagnostic::error("sheet/encoding", place, message)
        .hint("save the file as UTF-8: `Save as…`, encoding `UTF-8`")
}

/// NUL, escape sequences and the like.
pub fn control_character(place: Place, c: char) -> Diagnostic {
    let message = format!("a control character (U+{:04X}) stands here", u32::from(c));
    Diagnostic::error("sheet/control-character", place, message)
        .hint("delete it; it may have come in with copied text")
}

/// The YAML parser gave up.
pub fn not_yaml(place: Place, cause: &str) -> Diagnostic {
    let tabs = cause.contains("tab");
    let hint = if tabs {
        "indent with spaces; a tab does not count"
    } else if cause.contains("block scalar") {
        "put text that starts with `>` or `|` in quotes; a meter over its range is `over 100 Mohm` too"
    } else if cause.contains("anchor") {
        "put text that starts with `*` in quotes; aliases (`*name`) are not read"
    } else {
        "check the indent of this line and the one above, and that quotes and brackets are closed"
    };
    Diagnostic::error("sheet/not-yaml", place, format!("this is no YAML: {cause}")).hint(hint)
}

/// The YAML parser gave up on text that quotes would have kept together.
pub fn needs_quotes(place: Place, cause: &str, slip: Slip<'_>) -> Diagnostic {
    let hint = match slip {
        Slip::Colon(key) => {
            format!("put text that holds `: ` in quotes: `{key}: \"…: …\"`")
        }
        Slip::First(key, first) => {
            format!("put text that starts with `{first}` in quotes: `{key}: \"{first}…\"`")
        }
        Slip::Apostrophe(key) => {
            format!("put text that holds `'` in double quotes: `{key}: \"…'…\"`")
        }
        Slip::Behind(key, last) => format!(
            "text goes on behind `{last}`: put all of it in quotes, with other quotes inside: `{key}: '…\"…\"…'`"
        ),
    };
    Diagnostic::error("sheet/not-yaml", place, format!("this is no YAML: {cause}")).hint(hint)
}

/// An anchor such as `&name`.
pub fn anchor(place: Place) -> Diagnostic {
    Diagnostic::error("sheet/anchor", place, "anchors (`&name`) are not read")
        .hint("write the value out, or put text that starts with `&` in quotes")
}

/// A tag such as `!kind`.
pub fn tag(place: Place) -> Diagnostic {
    Diagnostic::error("sheet/tag", place, "tags (`!kind`) are not read")
        .hint("put text that starts with `!` in quotes")
}

/// A second document after `---`.
pub fn second_document(place: Place) -> Diagnostic {
    Diagnostic::error("sheet/second-document", place, "a second document starts here")
        .hint("one sheet a file: give the other job a folder of its own")
}

/// A list or block in the place of a key.
pub fn key_is_no_word(place: Place) -> Diagnostic {
    Diagnostic::error(
        "sheet/not-yaml",
        place,
        "a list or block stands where a field's name belongs",
    )
    .hint("put text that holds `{` or `[` in quotes")
}

/// Deeper than any sheet needs.
pub fn too_deep(place: Place, limit: usize) -> Diagnostic {
    let message = format!("lists and blocks stand more than {limit} deep in each other");
    Diagnostic::error("sheet/too-deep", place, message).hint("is a bracket left open?")
}

/// More values than any sheet needs.
pub fn too_many_nodes(place: Place, limit: usize) -> Diagnostic {
    let message = format!("the file holds more than {limit} keys and values");
    Diagnostic::error("sheet/too-long", place, message)
        .hint("split the job, or check that this is a findings sheet")
}

/// The same key twice in one block.
pub fn duplicate_key(place: Place, key: &str, first: Place) -> Diagnostic {
    Diagnostic::error("sheet/duplicate-key", place, format!("`{key}` stands twice in this block"))
        .also(first, "first here")
        .hint("keep one of the two")
}

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

/// One value where a list belongs.
pub fn not_a_list(place: Place, of: &str) -> Diagnostic {
    Diagnostic::error("sheet/wrong-type", place, format!("expected a list ({of})"))
        .hint("put it in square brackets: `[…]`, or on lines that start with `- `")
}

/// A key that the block does not know.
pub fn unknown_field(place: Place, key: &str, known: &[String]) -> Diagnostic {
    let known: Vec<&str> = known.iter().map(String::as_str).collect();
    Diagnostic::error("sheet/unknown-field", place, format!("there is no field `{key}` here")).hint(
        nearest(key, &known).unwrap_or_else(|| format!("the fields here are {}", listed(&known))),
    )
}

/// A required key that is not there or has nothing after it.
pub fn missing_field(place: Place, key: &str, shape: &Shape) -> Diagnostic {
    Diagnostic::error("sheet/missing-field", place, format!("`{key}` is needed here"))
        .hint(format!("add `{key}: …` ({})", shape.name()))
}

/// A word that is not in the list.
pub fn unknown_word(place: Place, what: &str, found: &str, words: &[&str]) -> Diagnostic {
    Diagnostic::error("sheet/unknown-word", place, format!("there is no {what} `{found}`"))
        .hint(nearest(found, words).unwrap_or_else(|| format!("one of {}", listed(words))))
}

/// A part that the catalogue does not know; `near` are the nearest ones that it has.
pub fn unknown_part(place: Place, found: &str, near: &[&str]) -> Diagnostic {
    let message =
        format!("there is no part `{found}` in the list: the papers print it under that name");
    let problem = Diagnostic::warning("sheet/unknown-part", place, message);
    let problem = match near {
        [] => problem,
        near => problem.hint(format!("did you mean {}?", either(near))),
    };
    problem.hint("for a part that is in no list, write `part: other` and `called: NAME`")
}

/// A part that the catalogue lacks, left without a name.
pub fn other_is_not_called(place: Place) -> Diagnostic {
    Diagnostic::error("sheet/other-not-called", place, "this part has no name")
        .hint("add `called: NAME`, the words that the papers print for it")
}

/// Text that is still the blank sheet's example.
pub fn example_left(place: Place, key: &str) -> Diagnostic {
    let message = format!("`{key}` still says what the blank sheet shows as an example");
    Diagnostic::warning("sheet/example-left", place, message)
        .hint("write what is true of this job, or take the line out")
}

/// Text that a `#` cuts off.
pub fn cut_text(place: Place, lost: &str) -> Diagnostic {
    let message = format!("`{lost}` is not read: a `#` after a blank starts a remark");
    Diagnostic::warning("sheet/cut-text", place, message)
        .hint("put the text in quotes, such as `\"error #503\"`; a remark starts with `# `")
}

/// A sign that the catalogue does not know, in a list of signs: kept as words of one's own.
pub fn unknown_sign(place: Place, found: &str, words: &[&str]) -> Diagnostic {
    let message = format!("there is no sign `{found}`; it is printed as typed and not weighed");
    Diagnostic::warning("sheet/unknown-sign", place, message).hint(nearest_few(found, words))
}

/// A sign that the catalogue does not know, where only a known one will do.
pub fn no_such_sign(place: Place, found: &str, words: &[&str]) -> Diagnostic {
    Diagnostic::error("sheet/unknown-sign", place, format!("there is no sign `{found}`"))
        .hint(nearest_few(found, words))
}

/// Up to three words that are like the one found or share a part between hyphens with it.
fn nearest_few(found: &str, words: &[&str]) -> String {
    let parts: Vec<&str> = found.split(|c: char| !c.is_alphanumeric()).collect();
    let shares = |word: &str| {
        let own = |part: &&&str| part.len() > 2 && word.split('-').any(|one| one == **part);
        parts.iter().filter(own).count()
    };
    let mut near: Vec<(usize, f64, &str)> = words
        .iter()
        .map(|word| (shares(word), strsim::jaro_winkler(found, word), *word))
        .filter(|(shared, likeness, _)| 0 < *shared || 0.85 < *likeness)
        .collect();
    near.sort_by(|a, b| {
        let rank = |one: &(usize, f64, &str)| (0.9 < one.1, one.0);
        rank(b).cmp(&rank(a)).then(b.1.total_cmp(&a.1))
    });
    let names: Vec<String> = near.iter().take(3).map(|(_, _, word)| format!("`{word}`")).collect();
    match names.as_slice() {
        [] => "`splitcase schema` lists every sign; `{other: …}` takes words of your own".into(),
        [first @ .., last] if !first.is_empty() => {
            format!("did you mean {} or {last}?", first.join(", "))
        }
        names => format!("did you mean {}?", names.join("")),
    }
}

/// Empty text, or text of a form that the field does not take.
pub fn wrong_form(place: Place, what: &str, found: &str, example: &str) -> Diagnostic {
    Diagnostic::error("sheet/wrong-form", place, format!("`{found}` is no {what}"))
        .hint(format!("write it like `{example}`"))
}

/// A bare number where a unit is needed.
pub fn missing_unit(place: Place, found: &str, units: &[&str]) -> Diagnostic {
    let unit = units.first().copied().unwrap_or_default();
    Diagnostic::error("sheet/missing-unit", place, format!("`{found}` has no unit"))
        .hint(format!("write `{found} {unit}`; units here are {}", listed(units)))
}

/// A unit of another kind, or none that is known.
pub fn wrong_unit(place: Place, unit: &str, what: &str, units: &[&str]) -> Diagnostic {
    Diagnostic::error("sheet/wrong-unit", place, format!("`{unit}` is no unit of {what}"))
        .hint(nearest(unit, units).unwrap_or_else(|| format!("units here are {}", listed(units))))
}

/// A decimal comma where the language has none, or a point that may stand for thousands.
pub fn doubtful_number(place: Place, found: &str, hint: &str) -> Diagnostic {
    Diagnostic::error("sheet/doubtful-number", place, format!("`{found}` can be read in two ways"))
        .hint(hint)
}

/// A day that is not on the calendar.
pub fn impossible_date(place: Place, found: &str) -> Diagnostic {
    Diagnostic::error("sheet/impossible-date", place, format!("`{found}` is not on the calendar"))
        .hint("write year-month-day, such as `2026-03-02`")
}

/// Two days of the job in the wrong order.
pub fn date_order(place: Place, later: &str, earlier: &str, first: Place) -> Diagnostic {
    let message = format!("{later} comes before {earlier}");
    Diagnostic::error("sheet/date-order", place, message)
        .also(first, earlier)
        .hint("correct the day that was mistyped")
}

/// A place that is not on the 12 x 9 grid.
pub fn outside_grid(place: Place, found: &str) -> Diagnostic {
    Diagnostic::error("sheet/outside-grid", place, format!("`{found}` is no place on the photo's grid"))
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

/// A photo that is not in the job folder.
pub fn photo_missing(place: Place, name: &str, in_folder: &[&str]) -> Diagnostic {
    let unlike_case = in_folder.iter().find(|other| other.eq_ignore_ascii_case(name));
    let hint = match unlike_case {
        Some(other) => format!("the folder has `{other}`: capitals count"),
        None => nearest(name, in_folder).unwrap_or_else(|| {
            "copy the photo into the job folder, or take it off the sheet".into()
        }),
    };
    Diagnostic::error(
        "photo/missing",
        place,
        format!("there is no photo `{name}` in the job folder"),
    )
    .hint(hint)
}

/// A track that the sheet names and the folder does not hold.
pub fn track_missing(place: Place, name: &str, files: &[&str]) -> Diagnostic {
    let hint = nearest(name, files).unwrap_or_else(|| {
        "put the track beside the sheet, or leave out `track:` and type the values".into()
    });
    let message = format!("there is no track `{name}` in the job folder");
    Diagnostic::error("ride/no-track", place, message).hint(hint)
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
        .hint("shorten it; a longer account can lie beside the sheet as a file of its own")
}

/// A quantity that no job of this trade has: a slip of the unit or of a zero.
pub fn implausible(place: Place, found: &str, what: &str, usual: &str) -> Diagnostic {
    let message = format!("`{found}` is hardly right for {what}");
    Diagnostic::warning("sheet/implausible", place, message)
        .hint(format!("check the unit and the zeros; {usual} is usual"))
}

/// One part judged in two ways that exclude each other.
pub fn judged_twice(place: Place, part: &str, first: Place) -> Diagnostic {
    let message = format!("`{part}` is judged twice, sound and not sound");
    Diagnostic::warning("sheet/judged-twice", place, message)
        .also(first, "judged here first")
        .hint("keep one finding for one part, or say in `note:` which of several is meant")
}

/// A file name that climbs out of the job folder.
pub fn path_climbs(place: Place, name: &str) -> Diagnostic {
    let message = format!("`{name}` leads out of the folder of this file");
    Diagnostic::error("sheet/path", place, message)
        .hint("copy that file beside this one and give its name alone")
}

/// A photo that nothing on the sheet speaks of.
pub fn photo_unused(place: Place) -> Diagnostic {
    Diagnostic::warning("photo/unused", place, "no finding uses this photo")
        .hint("add it to a finding's `photos:`; it is listed as evidence all the same")
}

/// A film or AVIF beside the photos.
pub fn passed_over(place: Place, what: &str) -> Diagnostic {
    Diagnostic::warning("photo/passed-over", place, format!("{what} is passed over"))
        .hint("only still photos are printed: JPEG, PNG, WebP, TIFF, BMP, HEIC")
}

/// A part that such a unit does not have.
pub fn not_on_this_kind(place: Place, part: &str, kind: &str) -> Diagnostic {
    let message = format!("a {kind} unit has no `{part}`");
    Diagnostic::warning("sheet/part-of-other-kind", place, message)
        .hint("check `unit: kind:` and the part's name; it is printed, but not on the drawing")
}

/// A sign observed and also listed as looked for and not found.
pub fn seen_and_not_seen(place: Place, sign: &str, seen: Place) -> Diagnostic {
    let message = format!("`{sign}` is listed as not seen, but a finding has it");
    Diagnostic::error("sheet/contradiction", place, message).also(seen, "seen here")
}

/// A sign on a part that cannot show it.
pub fn sign_elsewhere(place: Place, sign: &str, part: &str, on: &str) -> Diagnostic {
    let message = format!("`{sign}` is no sign of `{part}`");
    Diagnostic::warning("sheet/sign-elsewhere", place, message)
        .hint(format!("it can stand on: {on}; is it the right sign, on the right part?"))
}

/// An outcome that the rest of the sheet does not carry.
pub fn outcome_lacks(place: Place, outcome: &str, lacks: &str) -> Diagnostic {
    Diagnostic::error("sheet/outcome", place, format!("the outcome `{outcome}` needs `{lacks}`"))
        .hint(format!("add `{lacks}:` to the sheet"))
}

/// An outcome that a finding contradicts.
pub fn outcome_doubted(place: Place, outcome: &str, part: &str, finding: Place) -> Diagnostic {
    let message = format!("the outcome is `{outcome}`, and `{part}` says otherwise");
    Diagnostic::warning("sheet/outcome-doubted", place, message)
        .also(finding, "by its condition or by what was done to it")
        .hint("correct the outcome, the condition or the action: the report is written from all three")
}

/// A first sign that lies further on than the unit has gone.
pub fn noticed_too_far(place: Place) -> Diagnostic {
    let message = "the first sign was noticed at a longer way than the unit has gone";
    Diagnostic::error("sheet/distance-order", place, message)
        .hint("check `arrival: noticed: at:` and `unit: ridden:`, with their units")
}

/// `did you mean` for the nearest word, where one is near.
pub fn nearest(word: &str, words: &[&str]) -> Option<String> {
    let near = words.iter().map(|known| (strsim::jaro_winkler(word, known), known));
    let (likeness, known) = near.max_by(|a, b| a.0.total_cmp(&b.0))?;
    (0.85 < likeness).then(|| format!("did you mean `{known}`?"))
}

/// `a`, `b` or `c`.
fn either(words: &[&str]) -> String {
    match words {
        [front @ .., last] if !front.is_empty() => format!("{} or `{last}`", listed(front)),
        words => listed(words),
    }
}

fn listed(words: &[&str]) -> String {
    words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ")
}

/// An accent that can hardly be read on paper.
pub fn faint_colour(place: Place, found: &str, contrast: f64, least: f64) -> Diagnostic {
    let message = format!("`{found}` stands out from the paper by only {contrast:.1} : 1");
    Diagnostic::error("sheet/faint-colour", place, message)
        .hint(format!("choose a darker colour, with at least {least} : 1"))
}

/// A file without any field.
pub fn empty(place: Place) -> Diagnostic {
    Diagnostic::error("sheet/empty", place, "the file holds no fields")
        .hint("`splitcase new FOLDER` writes a sheet to fill in")
}

/// Two folders of one batch with the same job number.
pub fn duplicate_job(place: Place, number: &str, other: &str) -> Diagnostic {
    Diagnostic::error("sheet/duplicate-job", place, format!("another job has the number `{number}` too: `{other}`"))
        .hint("give one of them another number; neither is written, so that no paper replaces the other's")
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
