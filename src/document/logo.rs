//! A first try of a workshop's drawn logo, before any job is worked on.
//!
//! In: a logo; out: what is wrong with it. It is drawn inside the bounds of a child process: see `apart`.

use chrono::NaiveDate;
use typst::foundations::Bytes;

use super::apart::{self, Answer, Task};
use super::frame;
use super::order::Order;
use super::papers::PHOTO_SHEET;
use super::problems;
use super::templates::Templates;
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place};
use crate::failure::Failure;

/// A template that shows nothing but the logo.
const LOGO: &str = "#let paper(data) = {\n  set document(title: \"Logo\")\n  set text(lang: \"en\")\n  \
    [= Logo]\n  image(data.file, alt: \"Logo\", height: 14mm)\n}\n";

/// Tries a drawn logo on an empty page; returns what is wrong with it.
///
/// # Errors
/// No process can be started.
pub fn tried(place: &Place, name: &str, bytes: &[u8]) -> Result<Option<Diagnostic>, Failure> {
    let template = SourceText::new("logo", LOGO);
    let path = format!("{}.typ", PHOTO_SHEET.name);
    let templates = Templates::with_house(vec![(path, template)]);
    let file = frame::logo_file(name);
    let data = serde_json::json!({"file": &file}).to_string();
    let files = vec![
        ("/job/data.json".to_owned(), Bytes::from_string(data)),
        (file, Bytes::new(bytes.to_vec())),
    ];
    let (paper, ident) = (PHOTO_SHEET.name.to_owned(), "logo".to_owned());
    let order = Order { paper, files, ident, day: NaiveDate::default() };
    Ok(match apart::ask(&templates, &Task::Print(&order))? {
        Answer::Done(_) => None,
        Answer::RanOut => {
            Some(problems::logo(place.clone(), "it takes too much time or memory to draw"))
        }
        Answer::Problems(found) => {
            let cause = found.first().map_or("it cannot be drawn", |one| one.message.as_str());
            Some(problems::logo(place.clone(), &format!("`{name}`: {cause}")))
        }
    })
}
