//! The pictures on a paper's pages held against the photos of its bag, by what they show.
//!
//! For papers that cannot be made again byte for byte, as another version of the program made them:
//! each picture on a page is compared with each photo after the same preparation. Which photo is at
//! which place, and what the words say, is not compared here.

use super::judgement::Judgement;
use super::pdf::{self, pictures};
use super::source::{self, Kind, Source};
use super::words::papers;
use crate::archive::layout::{DATA, PAPERS};
use crate::archive::problems;
use crate::document;
use crate::photo::{self, PixelBudget, Shade};

/// Most photos of a bag that are prepared for this.
const MOST_PHOTOS: usize = 400;

/// Photos that are laid on a picture, the nearest ones.
const NEAREST: usize = 2;

/// Compares the pictures of a paper in a bag with the bag's photos.
pub(super) fn compare(source: &dyn Source, paper: &str) -> Judgement {
    let mut found = Judgement::default();
    let pdf = match source::read(source, paper, pdf::MAX_PDF) {
        Ok(pdf) => pdf,
        Err(failure) => {
            found.could_not.push(failure);
            return found;
        }
    };
    let Some(on_pages) = pictures::on_pages(&pdf) else {
        found.not_shown.push(papers::pictures_not_compared(paper, "its pages cannot be read"));
        return found;
    };
    let photos = match photos(source) {
        Ok(photos) => photos,
        Err(cause) => {
            found.not_shown.push(papers::pictures_not_compared(paper, &cause));
            return found;
        }
    };
    let (mut n_same, budget) = (0, PixelBudget::default());
    for picture in &on_pages.jpegs {
        let shade = photo::shade(&picture.jpeg, document::print_size(), &budget);
        let Ok((shade, _)) = shade else {
            found.flaws.push(problems::picture_unreadable(paper, picture.page));
            continue;
        };
        match nearest(&shade, &photos) {
            Nearest::Same => n_same += 1,
            Nearest::InPart(name) => {
                found.flaws.push(problems::picture_retouched(paper, picture.page, name));
            }
            Nearest::None => found.flaws.push(problems::picture_of_nothing(paper, picture.page)),
        }
    }
    if 0 < on_pages.others {
        found.not_shown.push(papers::other_pictures(paper, on_pages.others));
    }
    if found.flaws.is_empty() && 0 < n_same {
        found.shown.push(papers::pictures_fit(paper, n_same));
    }
    found
}

/// What of a bag a picture shows.
enum Nearest<'a> {
    /// One of its photos.
    Same,
    /// One of its photos, changed in a part.
    InPart(&'a str),
    /// None.
    None,
}

fn nearest<'a>(shade: &Shade, photos: &'a [(String, Shade)]) -> Nearest<'a> {
    let mut near: Vec<(u32, &(String, Shade))> =
        photos.iter().map(|photo| (shade.distance(&photo.1), photo)).collect();
    near.sort_by_key(|(distance, _)| *distance);
    let mut in_part = None;
    for (distance, (name, photo)) in near.into_iter().take(NEAREST) {
        match shade.copy_of(photo, distance) {
            photo::Sameness::Whole => return Nearest::Same,
            photo::Sameness::InPart => in_part = in_part.or(Some(name.as_str())),
            photo::Sameness::No => {}
        }
    }
    in_part.map_or(Nearest::None, Nearest::InPart)
}

/// The photos of a bag, and other pictures among its files: a logo may be one.
fn photos(source: &dyn Source) -> Result<Vec<(String, Shade)>, String> {
    let files = source.items().iter().filter(|(path, kind)| {
        path.starts_with(DATA) && !path.starts_with(PAPERS) && matches!(kind, Kind::File(_))
    });
    let (mut photos, budget) = (Vec::new(), PixelBudget::default());
    for (path, _) in files {
        let Ok(bytes) = source::read(source, path, photo::MAX_FILE_BYTES) else { continue };
        if let Ok((shade, _)) = photo::shade(&bytes, document::print_size(), &budget) {
            photos.push((path.strip_prefix(DATA).unwrap_or(path).to_owned(), shade));
        }
        if MOST_PHOTOS < photos.len() {
            return Err(format!("the bag holds more than {MOST_PHOTOS} photos"));
        }
    }
    Ok(photos)
}
