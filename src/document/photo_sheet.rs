//! Builds the view of the contact sheet: a folder's photos with the lettered grid.

use super::format;
use super::frame;
use super::material::Cover;
use super::press;
use super::view::{PhotoSheet, SheetPhoto};
use super::wording::Wording;

/// Builds the view.
pub fn view(cover: &Cover<'_>, wording: &Wording) -> PhotoSheet {
    let title = format!("{} {}", wording.label("photo-sheet"), cover.job);
    let photos = cover.photos.iter().enumerate().map(|(at, named)| SheetPhoto {
        file: format!("/job/photo/{at}.svg"),
        width: named.photo.width,
        height: named.photo.height,
        name: press::printable(&named.name),
        taken: format::taken(named.photo.facts.taken.as_ref(), wording),
        alt: wording.label("photo-alt").replace("{name}", &named.name),
    });
    PhotoSheet {
        frame: frame::frame(cover, wording, title),
        text: vec![wording.label("grid-how-to").to_owned()],
        photos: photos.collect(),
    }
}
