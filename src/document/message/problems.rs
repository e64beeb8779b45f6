//! Messages of the covering messages, all in one place.

use crate::diagnostic::{Diagnostic, Place};

/// The workshop has no address to send from.
pub fn no_sender(place: Place) -> Diagnostic {
    let message = "no line of `contact` is a mail address: covering messages are written as text and \
                   HTML, and not as `.eml`";
    Diagnostic::warning("message/no-sender", place, message)
        .hint("add the workshop's mail address to `contact`, such as `post@hollowmere.example`")
}

/// The customer has no address to send to.
pub fn no_recipient(place: Place) -> Diagnostic {
    let message =
        "`customer: contact` is not a mail address: the covering messages name no recipient";
    Diagnostic::warning("message/no-recipient", place, message)
        .hint("fill it in, or type the recipient in the mail program")
}
