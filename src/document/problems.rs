//! Every message of the document stage, with its code. Places are in the template's own file.

use crate::diagnostic::source::{Source, SourceText};
use crate::diagnostic::{Diagnostic, Place};
use crate::sheet::problems::nearest;

/// A sentence that minijinja cannot write, shown at its key.
pub fn sentence(source: &Source, error: &minijinja::Error) -> Diagnostic {
    let key = error.name().unwrap_or_default();
    let start = key_start(source.text(), key).unwrap_or_default();
    let cause = error.detail().map_or_else(|| error.kind().to_string(), str::to_owned);
    Diagnostic::error("template/sentence", Place::at(source, start..start + key.len()), cause)
        .hint("mend the sentence, or delete the file to have the built-in one")
}

/// Where a key begins a line.
fn key_start(text: &str, key: &str) -> Option<usize> {
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        if line.strip_prefix(key).is_some_and(|rest| rest.starts_with(':')) {
            return Some(start);
        }
        start += line.len();
    }
    None
}

/// A wording file that is not YAML of the expected form.
pub fn wording(place: Place, error: &dyn std::fmt::Display) -> Diagnostic {
    Diagnostic::error("template/wording", place, error.to_string())
        .hint("mend the wording's file, or delete it to have the built-in one")
}

/// A word that a wording file lacks.
pub fn missing_word(place: Place, key: &str) -> Diagnostic {
    Diagnostic::error(
        "template/missing-word",
        place,
        format!("the words for `{key}` are missing here"),
    )
    .hint("a wording file needs every key of the built-in English one")
}

/// A word that no paper asks for.
pub fn unknown_word(place: Place, key: &str, known: &[&str]) -> Diagnostic {
    Diagnostic::error("template/unknown-word", place, format!("no paper asks for `{key}`"))
        .maybe_hint(nearest(key, known))
        .hint("take it out, or give it the key of the built-in English file")
}

/// A wording file that nothing reads.
pub fn unknown_file(place: Place, name: &str, known: &[&str]) -> Diagnostic {
    Diagnostic::error("template/unknown-file", place, format!("no paper reads a file `{name}`"))
        .maybe_hint(nearest(name, known))
        .hint(format!("the files of a language are {}", known.join(", ")))
}

/// A region that is no code of a country, so that no forms of dates and numbers can be looked up for it.
pub fn no_such_region(place: Place, found: &str) -> Diagnostic {
    let message = format!("`{found}` is not a region");
    Diagnostic::error("template/region", place, message)
        .hint("write the code of a country in two letters, such as `GB`")
}

/// A class or a form of a name, or choices of a word, that the language's grammar does not have.
pub fn no_such_form(place: Place, found: &str) -> Diagnostic {
    Diagnostic::error(
        "template/grammar",
        place,
        format!("the grammar of this language has no `{found}`"),
    )
    .hint("its classes and forms are in its `grammar.yaml`; `{was|were}` has two choices, or one for each class")
}

/// Braces in a word that nothing fills in: they would be printed as they are.
pub fn unknown_gap(place: Place, gap: &str, known: &[&str]) -> Diagnostic {
    let known = known.iter().map(|one| format!("`{{{one}}}`")).collect::<Vec<_>>().join(", ");
    let hint = if known.is_empty() {
        "nothing is filled in here".to_owned()
    } else {
        format!("what is filled in here is {known}")
    };
    Diagnostic::error("template/unknown-gap", place, format!("nothing fills in `{{{gap}}}`"))
        .hint(hint)
}

/// Another kind of words than the key takes.
pub fn word_kind(place: Place, key: &str, expected: &str) -> Diagnostic {
    Diagnostic::error("template/wording", place, format!("`{key}` takes {expected}"))
        .hint("write it like the built-in English file")
}

/// Templates or wordings that did not come to an end within their bounds.
pub fn ran_out(place: Place) -> Diagnostic {
    let message = "these templates take too much time or memory";
    Diagnostic::error("template/ran-out", place, message).hint(
        "look for a loop without an end in the workshop's own templates; the other jobs went on",
    )
}

/// A problem that a child process found, under its own code.
pub fn from_apart(place: Place, code: &str, message: &str, hints: Vec<String>) -> Diagnostic {
    const CODES: &[&str] = &[
        "template/sentence",
        "template/wording",
        "template/missing",
        "template/missing-word",
        "template/unknown-word",
        "template/unknown-file",
        "template/unknown-gap",
        "template/grammar",
        "template/region",
        "sheet/not-yaml",
        "sheet/anchor",
        "sheet/tag",
        "sheet/second-document",
        "sheet/too-deep",
        "sheet/too-long",
        "sheet/duplicate-key",
        "sheet/control-character",
        "sheet/long-text",
    ];
    let code = CODES.iter().find(|known| **known == code).copied().unwrap_or("template/typst");
    let mut diagnostic = Diagnostic::error(code, place, message);
    diagnostic.hints = hints;
    diagnostic
}

/// A wording file that is not there at all.
pub fn no_sentence(path: &str) -> Diagnostic {
    let place = Place::whole(&SourceText::named(format!("report-templates/{path}")));
    Diagnostic::error("template/missing", place, "this wording is missing")
        .hint("a language needs every file of `wording/en`")
}

/// A language without wordings.
pub fn unknown_language(place: Place, found: &str, known: &[&str]) -> Diagnostic {
    let known = known.iter().map(|one| format!("`{one}`")).collect::<Vec<_>>().join(", ");
    Diagnostic::error(
        "sheet/unknown-language",
        place,
        format!("there are no wordings for `{found}`"),
    )
    .hint(format!("papers can be written in {known}"))
}

/// A character that none of the paper's fonts has.
pub fn unprintable(place: Place, c: char) -> Diagnostic {
    let message = format!("the fonts have no `{c}` (U+{:04X})", u32::from(c));
    Diagnostic::error("sheet/unprintable-character", place, message)
        .hint("write it in other words; letters of Latin, Greek and Cyrillic can be printed")
}

/// A paper that was asked for by name and that the sheet does not give yet.
pub fn paper_lacks(place: Place, paper: &str, lacks: &[&str]) -> Diagnostic {
    let fields = lacks.iter().map(|field| format!("`{field}`")).collect::<Vec<_>>().join(", ");
    let message = format!("the sheet does not give a paper `{paper}` yet: it needs {fields}");
    Diagnostic::error("paper/lacks", place, message)
        .hint("fill that in; without `--paper` the papers are made that are due")
}

/// A Typst template that does not compile or set.
pub fn typst(place: Place, message: &str, hints: Vec<String>) -> Diagnostic {
    let mut diagnostic = Diagnostic::error("template/typst", place, message);
    diagnostic.hints = hints;
    diagnostic
}

/// A logo that is not a picture.
pub fn logo(place: Place, cause: &str) -> Diagnostic {
    Diagnostic::error("sheet/logo", place, format!("the logo cannot be used: {cause}"))
        .hint("give an SVG, PNG or JPEG beside `workshop.yaml`")
}
