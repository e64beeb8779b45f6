//! Messages about a file as such: its size, its letters, its YAML.

use crate::diagnostic::{Diagnostic, Place};
use crate::sheet::yaml::slip::Slip;

/// The file is longer than any sheet can sensibly be; it is not read to its end, so its length is unknown.
pub fn too_long(place: Place, limit: usize) -> Diagnostic {
    let message = format!("the file has more than {limit} bytes, the most that are read");
    Diagnostic::error("sheet/too-long", place, message)
        .hint("a findings sheet is a few pages of text; is this another file under its name?")
}

/// A file in another encoding than UTF-8, such as UTF-16.
pub fn other_encoding(place: Place, encoding: &str) -> Diagnostic {
    Diagnostic::error("sheet/encoding", place, format!("the file is saved as {encoding}"))
        .hint("save it as UTF-8: `Save as…`, encoding `UTF-8`")
}

/// Bytes that are not UTF-8, by line since there is no text to point into.
pub fn not_utf8(place: Place, line: usize) -> Diagnostic {
    let message = format!("line {line} holds bytes that are not UTF-8 text");
    Diagnostic::error("sheet/encoding", place, message)
        .hint("save the file as UTF-8: `Save as…`, encoding `UTF-8`")
}

/// Characters that are not text, such as NUL.
pub fn control_character(place: Place, c: char) -> Diagnostic {
    let message = format!("a control character (U+{:04X}) is here", u32::from(c));
    Diagnostic::error("sheet/control-character", place, message)
        .hint("delete it; it may have come in with copied text")
}

/// Text that is not YAML.
pub fn not_yaml(place: Place, cause: &str) -> Diagnostic {
    let tabs = cause.contains("tab");
    let hint = if tabs {
        "indent with spaces; a tab does not count"
    } else if cause.contains("block scalar") {
        "put text that starts with `>` or `|` in quotes; a meter over its range is `over 100 Mohm` too"
    } else if cause.contains("anchor") {
        "put text that starts with `*` in quotes; aliases (`*name`) are not read"
    } else if cause.contains("in quoted scalar") || cause.contains("while scanning a quoted scalar")
    {
        "close the quote that opens here: `\"…\"`"
    } else {
        "check the indent of this line and the one above, and that quotes and brackets are closed"
    };
    Diagnostic::error("sheet/not-yaml", place, format!("this is not YAML: {cause}")).hint(hint)
}

/// Text that needs quotes.
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
        Slip::Mark(key) => {
            format!(
                "write a photo with its marks as `{key}: [{{file: NAME.jpg, marks: [{{ring: F4}}]}}]`"
            )
        }
        Slip::Behind(key, last) => format!(
            "text goes on behind `{last}`: put all of it in quotes, with other quotes inside: `{key}: '…\"…\"…'`"
        ),
    };
    Diagnostic::error("sheet/not-yaml", place, format!("this is not YAML: {cause}")).hint(hint)
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

/// A list or block in the place of a field's name.
pub fn key_is_no_word(place: Place) -> Diagnostic {
    Diagnostic::error("sheet/not-yaml", place, "a list or block is in the place of a field's name")
        .hint("put text that holds `{` or `[` in quotes")
}

/// Lists and blocks nested too deep.
pub fn too_deep(place: Place, limit: usize) -> Diagnostic {
    let message = format!("lists and blocks are nested more than {limit} deep");
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
    Diagnostic::error("sheet/duplicate-key", place, format!("`{key}` is in this block twice"))
        .also(first, "first here")
        .hint("keep one of the two")
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
