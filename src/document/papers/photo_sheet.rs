//! The contact sheet: a folder's photos with the lettered grid.
//!
//! In: a [`Cover`]; out: what `photo-sheet.typ` sees.

use serde::Serialize;

use crate::document::fonts;
use crate::document::format;
use crate::document::frame;
use crate::document::material::Cover;
use crate::document::text;
use crate::document::view::Frame;
use crate::document::wording::Wording;

/// A photo on the contact sheet.
#[derive(Debug, Serialize)]
pub struct SheetPhoto {
    /// Virtual file.
    pub file: String,
    /// Pixels of the print copy.
    pub width: u32,
    /// Pixels of the print copy.
    pub height: u32,
    /// Name of the file in the job folder.
    pub name: String,
    /// When it was taken.
    pub taken: String,
    /// Alternative text (PDF/UA-1, 7.3).
    pub alt: String,
}

/// The contact sheet of a folder's photos with the lettered grid.
#[derive(Debug, Serialize)]
pub struct PhotoSheet {
    /// What every paper has.
    #[serde(flatten)]
    pub frame: Frame,
    /// How to read places off.
    pub text: Vec<String>,
    /// The photos.
    pub photos: Vec<SheetPhoto>,
}

/// Builds the view.
pub fn view(cover: &Cover<'_>, wording: &Wording) -> PhotoSheet {
    let title = format!("{} {}", wording.label("photo-sheet"), cover.job);
    let photos = cover.photos.iter().enumerate().map(|(at, named)| SheetPhoto {
        file: format!("/job/photo/{at}.svg"),
        width: named.photo.width,
        height: named.photo.height,
        name: fonts::printable(&named.name),
        taken: format::taken(named.photo.facts.taken.as_ref(), wording),
        alt: text::fill(wording.label("photo-alt"), &[("name", &named.name)]),
    });
    PhotoSheet {
        frame: frame::frame(cover, wording, title),
        text: vec![wording.label("grid-how-to").to_owned()],
        photos: photos.collect(),
    }
}
