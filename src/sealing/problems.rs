//! Every message on what is sealed, with its code.

use crate::archive::request::Remark;
use crate::diagnostic::{Diagnostic, Place};

/// Something in the job folder that no bag takes.
pub fn left_out(place: Place) -> Diagnostic {
    Diagnostic::warning("archive/left-out", place, "this is not sealed with the job")
        .hint("only files with plain names inside the job folder are, and no links out of it")
}

/// A file of the system or an editor, which is no evidence.
pub fn of_system(place: Place) -> Diagnostic {
    Diagnostic::warning("archive/of-system", place, "a system left this here; it is not sealed")
        .hint("if it belongs to the job, give it another name")
}

/// A job that is sealed before its unit went back.
pub fn unfinished(place: Place) -> Diagnostic {
    let message = "the sheet has no day of return: what is sealed here is an unfinished job";
    Diagnostic::warning("archive/unfinished", place, message)
        .hint("seal it again when it is closed; that makes a new version beside this one")
}

/// Something that was noticed in the archive on the way.
pub fn noticed(place: Place, remark: &Remark) -> Diagnostic {
    Diagnostic::warning("archive/noticed", place, remark.to_string())
}

/// A paper that was issued before the job was changed.
pub fn papers_differ(place: Place) -> Diagnostic {
    let message = "this paper is not what the job gives now; it is sealed as it was issued";
    Diagnostic::warning("archive/papers-differ", place, message)
        .hint("`render` it again and issue it again, if the change should count")
}
