//! The whole life of one job: every stage called in order.
//!
//! In: a job folder, the shop and the hands of the run; out: papers or problems. One job knows no other.

use std::path::Path;

use crate::assessment;
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place, Problems};
use crate::document::manifest::{self, Inputs};
use crate::document::material::{Material, NamedPhoto};
use crate::document::{self, Document, Refusal};
use crate::failure::Failure;
use crate::intake::{JobFolder, PhotoFile};
use crate::photo::{self, Digest, Hands, Kind, Photo};
use crate::sheet::{self, Sheet, checks, issued};
use crate::shop::Shop;

/// Which papers are wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// None: the job is only checked.
    Check,
    /// The papers that are due.
    Papers,
    /// The contact sheet.
    PhotoSheet,
}

impl Wanted {
    /// One word for it, which names its records.
    pub fn word(self) -> &'static str {
        match self {
            Self::Check => "check",
            Self::Papers => "papers",
            Self::PhotoSheet => "photos",
        }
    }
}

/// What came of a job.
#[derive(Default)]
pub struct Done {
    /// Problems in reading order.
    pub problems: Vec<Diagnostic>,
    /// The papers; none where there is an error.
    pub papers: Vec<Document>,
}

/// Takes a job from its folder to its papers.
///
/// # Errors
/// What the machine refused. Problems of the material are part of [`Done`].
pub fn run(
    folder: &JobFolder,
    shop: &Shop,
    wanted: Wanted,
    hands: &Hands,
) -> Result<Done, Failure> {
    let mut problems = Problems::default();
    let name = folder.shown_name(crate::intake::SHEET);
    let sheet = sheet::read(&name, &folder.sheet, &shop.workshop, &mut problems);
    let Some(sheet) = sheet else { return Ok(refused(problems)) };
    problems.extend(document::check_letters(&sheet, &shop.workshop));
    problems.extend(document::check_language(&shop.press, &sheet, &shop.workshop));

    let files = folder.photos()?;
    let files = choose_photos(folder, &sheet, files, &mut problems);
    let photos = prepare(folder, &sheet, &files, hands, &mut problems)?;

    let all: Vec<&str> = folder.files.iter().map(|file| file.name.as_str()).collect();
    let track = checks::check_track(&sheet, &all, &mut problems);
    let track = track.map(|name| Ok((name, folder.read_track(name)?))).transpose()?;
    let track = track.as_ref().map(|(name, bytes)| (*name, bytes.as_slice()));
    let bytes = track.map(|(_, bytes)| bytes);
    let assessment = assessment::assess(&sheet, &shop.workshop, bytes, &mut problems);
    if problems.has_errors() && wanted != Wanted::PhotoSheet {
        return Ok(refused(problems));
    }

    let issued = issued::copy(&sheet.tree);
    let manifest = manifest::manifest(&Inputs {
        job: &sheet.fields.job.0,
        sheet: &folder.sheet,
        issued: &issued,
        profile: &shop.bytes,
        templates: shop.press.templates().digest(),
        photos: photos.iter().map(|one| (one.name.as_str(), &one.photo.facts)).collect(),
        track,
    });
    let material = Material {
        sheet: &sheet,
        workshop: &shop.workshop,
        photos: &photos,
        assessment: &assessment,
        manifest: &manifest,
        issued: &issued,
        digest: Digest::of(manifest.as_bytes()),
        logo: shop.logo.as_ref().map(|(name, bytes)| (name.as_str(), bytes.as_slice())),
    };
    let paper = match wanted {
        Wanted::Check => return Ok(refused(problems)),
        Wanted::Papers => document::return_report(&shop.press, &material),
        Wanted::PhotoSheet => document::photo_sheet(&shop.press, &material),
    };
    match paper {
        Ok(paper) => {
            let mut problems = problems.into_sorted();
            if wanted == Wanted::PhotoSheet {
                // The rest of the sheet is not this paper's business; `check` tells it.
                problems.retain(|one| photo::problems::is_of_a_file(one.code));
            }
            Ok(Done { problems, papers: vec![paper] })
        }
        Err(Refusal::Failure(failure)) => Err(failure),
        Err(Refusal::Problems(found)) => {
            problems.extend(found);
            Ok(refused(problems))
        }
    }
}

fn refused(problems: Problems) -> Done {
    Done { problems: problems.into_sorted(), papers: Vec::new() }
}

/// The photos to prepare: those of the sheet in its order, then the others of the folder.
fn choose_photos(
    folder: &JobFolder,
    sheet: &Sheet,
    files: Vec<PhotoFile>,
    problems: &mut Problems,
) -> Vec<PhotoFile> {
    let names: Vec<&str> = files.iter().map(|file| file.name.as_str()).collect();
    let still: Vec<&str> = files
        .iter()
        .filter(|file| !is_passed_over(file.kind))
        .map(|file| file.name.as_str())
        .collect();
    checks::check_photos(sheet, &folder.shown, &names, &still, problems);
    let used: Vec<&str> =
        checks::photo_uses(&sheet.fields).map(|photo| photo.file.0.as_str()).collect();
    for file in
        files.iter().filter(|file| is_passed_over(file.kind) && !used.contains(&file.name.as_str()))
    {
        let place = Place::whole(&SourceText::named(folder.shown_name(&file.name)));
        problems.push(sheet::problems::passed_over(place, file.kind.phrase()));
    }
    let mut chosen: Vec<PhotoFile> = Vec::new();
    for name in used.into_iter().chain(still) {
        if let Some(file) = files.iter().find(|file| file.name == name)
            && chosen.iter().all(|one| one.name != name)
        {
            chosen.push(file.clone());
        }
    }
    chosen
}

/// Films and pictures that no paper can hold.
fn is_passed_over(kind: Kind) -> bool {
    matches!(kind, Kind::Avif | Kind::Gif | Kind::JpegXl | Kind::CameraRaw | Kind::Film(_))
}

fn prepare(
    folder: &JobFolder,
    sheet: &Sheet,
    files: &[PhotoFile],
    hands: &Hands,
    problems: &mut Problems,
) -> Result<Vec<NamedPhoto>, Failure> {
    let print = document::print_size();
    let prepared = hands.each(files, |file| {
        let bytes = folder.read_photo(&file.name)?;
        Ok(photo::prepare(&bytes, print, hands.budget()))
    });
    let mut photos = Vec::new();
    for (file, prepared) in files.iter().zip(prepared) {
        let used = checks::photo_uses(&sheet.fields).find(|used| used.file.0 == file.name);
        let place = match used {
            Some(used) => sheet.place(&used.file.span),
            None => Place::whole(&SourceText::named(folder.shown_name(&file.name))),
        };
        match prepared? {
            Ok(photo) => {
                problems.extend(remark(&photo, &file.name, place));
                photos.push(NamedPhoto { name: file.name.clone(), photo });
            }
            Err(refusal) => {
                problems.push(photo::problems::refused(
                    place,
                    &file.name,
                    &refusal,
                    used.is_some(),
                ));
            }
        }
    }
    Ok(photos)
}

fn remark(photo: &Photo, name: &str, place: Place) -> Option<Diagnostic> {
    photo.facts.damaged.then(|| photo::problems::damaged(place, name))
}

/// The number of a job without reading the rest, to find two jobs of one number.
pub fn peek_number(folder: &Path) -> Option<String> {
    let bytes =
        crate::intake::read_text_file(&folder.join(crate::intake::SHEET), "read the sheet").ok()?;
    sheet::peek_number(&bytes)
}
