//! Every message about the page and what it saved, with its code.

use super::change::Change;
use crate::diagnostic::{Diagnostic, Place, Problems, Severity};
use crate::sheet::Sheet;

/// Problems of a saved file, every one of them an error: the page writes nothing that needs a remark.
pub fn as_errors(problems: Problems) -> Vec<Diagnostic> {
    let mut all = problems.into_sorted();
    for one in &mut all {
        one.severity = Severity::Error;
    }
    all
}

const ANEW: &str = "make the page anew with `splitcase mark`, and put these marks in there";

/// A file that no page has saved.
pub fn not_saved(place: Place) -> Diagnostic {
    Diagnostic::error(
        "marking/not-saved",
        place,
        "this is not a file that the marking page has saved",
    )
    .hint("press `Save for the sheet` on the page, and give the file that the browser puts down")
}

/// A saved file that changes nothing.
pub fn nothing_saved(place: Place) -> Diagnostic {
    Diagnostic::error(
        "marking/nothing-saved",
        place,
        "there is neither a photo nor a finding in this file",
    )
    .hint("mark a photo or put a finding together, then save once more")
}

/// A saved file of another job.
pub fn other_job(place: Place, saved: &str, own: &str) -> Diagnostic {
    let message =
        format!("this file was saved for the job `{saved}`, and the sheet is that of `{own}`");
    Diagnostic::error("marking/other-job", place, message).hint("give the folder of that job")
}

/// A photo that the job does not have.
pub fn photo_unknown(place: Place, file: &str, photos: &[&str]) -> Diagnostic {
    let message = format!("there is no photo `{file}` in the job's folder");
    let problem = Diagnostic::error("marking/photo-unknown", place, message);
    let some: Vec<String> = photos.iter().take(12).map(|name| format!("`{name}`")).collect();
    match some.as_slice() {
        [] => problem.hint("the folder has no photos: copy them there first"),
        some => problem.hint(format!("its photos are {}", some.join(", "))),
    }
}

/// A photo that one list names twice.
pub fn photo_twice(place: Place, file: &str) -> Diagnostic {
    let message =
        format!("`{file}` is there twice in one list, and its marks cannot be told apart");
    Diagnostic::error("marking/photo-twice", place, message)
        .hint("take one of the two out of the list, then take the marks once more")
}

/// A photo whose marks in the sheet have errors.
pub fn marks_unreadable(place: Place, file: &str) -> Diagnostic {
    let message = format!("the marks that the sheet has for `{file}` cannot be read");
    Diagnostic::error("marking/marks-unreadable", place, message)
        .hint("`splitcase check` says what is wrong with them: mend the sheet first")
}

/// Marks that somebody else put into the sheet since the page was made.
pub fn marks_changed(place: Place, file: &str, own: Place) -> Diagnostic {
    let message =
        format!("the marks of `{file}` in the sheet are not those that the page has shown");
    Diagnostic::error("marking/marks-changed", place, message)
        .also(own, "changed since the page was made")
        .hint(ANEW)
}

/// A finding that cannot be found again.
pub fn finding_unknown(place: Place, part: &str, file: &str) -> Diagnostic {
    let message = match part {
        "" => format!("the finding that `{file}` goes to is not in the sheet any more"),
        part => {
            format!("`{file}` goes to a finding on `{part}`, and the sheet has none or several")
        }
    };
    Diagnostic::error("marking/finding-unknown", place, message).hint(ANEW)
}

/// A list whose block the sheet does not have.
pub fn block_missing(place: Place, block: &str, file: &str) -> Diagnostic {
    let message = format!("`{file}` goes to `{block}`, and the sheet has no such block");
    Diagnostic::error("marking/block-missing", place, message)
        .hint(format!("write `{block}:` with what it needs into the sheet first"))
}

/// A new finding on a part that the sheet has got a finding on since.
pub fn finding_since(place: Place, part: &str) -> Diagnostic {
    let message = format!("the sheet has got another finding on `{part}` since the page was made");
    Diagnostic::error("marking/finding-since", place, message)
        .hint("make the page anew with `splitcase mark`: it shows what the sheet says now")
}

/// Findings for a sheet without a strip-down and without its day.
pub fn no_strip_down(place: Place) -> Diagnostic {
    let message = "the sheet has no strip-down yet, and this file does not say its day";
    Diagnostic::error("marking/no-strip-down", place, message).hint(
        "choose the day of the strip-down on the page, or write `strip-down: {date: 2026-03-04}`",
    )
}

/// A change that would touch more than it may.
pub fn unsafe_change(sheet: &Sheet, changes: &[Change]) -> Diagnostic {
    let lines: Vec<String> = changes.iter().map(Change::lines).collect();
    let message = "the sheet is written in a way in which this cannot be changed without touching \
                   other text, so nothing was changed";
    Diagnostic::error("marking/unsafe", Place::whole(&sheet.source), message)
        .hint(format!("put these lines in by hand:\n{}", lines.join("\n")))
}
