//! The covering message of a paper: as text, as HTML, and whole with its papers attached. It is written
//! if it is asked for and never sent.
//!
//! ```text
//! writer ─► letter (subject, paragraphs, who to whom) ─► text, HTML, .eml
//! ```

pub mod address;
pub mod attachment;
mod eml;
pub mod letter;
mod problems;

use super::companion::Companion;
use super::papers::Paper;
use crate::diagnostic::{Diagnostic, Place};
use crate::failure::Failure;
use crate::sheet::{ProfileFile, Sheet};
use address::address_in;
use attachment::Attachment;
use letter::Letter;

/// The files of the covering message of a paper: text, HTML and, if a sender is known, the whole message.
///
/// # Errors
/// A message that cannot be written.
pub fn files(
    letter: &Letter,
    paper: &Paper,
    attachments: &[Attachment<'_>],
) -> Result<Vec<Companion>, Failure> {
    let name = |ending: &str| format!("{}-message.{ending}", paper.name);
    let mut files = vec![
        Companion { name: name("txt"), bytes: letter.text().into_bytes() },
        Companion { name: name("html"), bytes: letter.html().into_bytes() },
    ];
    if let Some(from) = &letter.from {
        let bytes = eml::eml(letter, from, paper, attachments)
            .map_err(|error| Failure::new("write the covering message", error))?;
        files.push(Companion { name: name("eml"), bytes });
    }
    Ok(files)
}

/// What keeps covering messages from being whole: no address to send from, none to send to.
pub fn doubts(sheet: &Sheet, workshop: &ProfileFile) -> Vec<Diagnostic> {
    let sender = workshop.fields.contact.iter().find_map(|line| address_in(&line.0));
    let contact = sheet.fields.customer.contact.as_ref();
    let recipient = contact.and_then(|contact| address_in(&contact.0));
    let no_sender = sender.is_none().then(|| problems::no_sender(Place::whole(&workshop.source)));
    let no_recipient =
        recipient.is_none().then(|| problems::no_recipient(Place::whole(&sheet.source)));
    no_sender.into_iter().chain(no_recipient).collect()
}
