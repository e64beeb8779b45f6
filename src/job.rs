//! The whole life of one job: every stage called in order.
//!
//! In: a job folder, the shop and the hands of the run; out: papers or problems. One job knows no other.

mod contact_sheet;

use std::path::Path;

use chrono::NaiveDate;

use crate::assessment;
use crate::assessment::plausibility::{self, Seen};
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
    /// What the papers were made from.
    pub basis: Option<Basis>,
    /// The photos by name, for comparison with other jobs; none where there is an error.
    pub photos: Vec<(String, Digest)>,
}

/// What the papers of a job were made from, for sealing.
pub struct Basis {
    /// Number of the job.
    pub job: String,
    /// The last day that the sheet tells.
    pub day: NaiveDate,
    /// The day of return, where the unit went back.
    pub returned: Option<NaiveDate>,
    /// The photos that the sheet uses.
    pub used: Vec<String>,
    /// The sheet as issued.
    pub issued: String,
    /// The part of the profile that bears on the job.
    pub profile: String,
    /// The photos, in the order of the manifest.
    pub photos: Vec<NamedPhoto>,
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
    if wanted == Wanted::PhotoSheet {
        return contact_sheet::run(folder, shop, hands);
    }
    let mut problems = Problems::default();
    let name = folder.shown_name(crate::intake::SHEET);
    let sheet = sheet::read(&name, &folder.sheet, &shop.workshop, &mut problems);
    let Some(sheet) = sheet else { return Ok(refused(problems)) };
    problems.extend(document::check_letters(&sheet, &shop.workshop));
    problems.extend(document::check_language(&shop.press, &sheet, &shop.workshop));
    problems.extend(document::check_words(&shop.press, &sheet, &shop.workshop));

    let files = folder.photos()?;
    let files = choose_photos(folder, &sheet, files, &mut problems);
    let photos = prepare(folder, &sheet, &files, hands, &mut problems)?;
    problems.extend(doubts(folder, &sheet, &photos));

    let all = folder.names();
    let all: Vec<&str> = all.iter().map(String::as_str).collect();
    let track = checks::check_track(&sheet, &all, &mut problems);
    let track = track.map(|name| Ok((name, folder.read_track(name)?))).transpose()?;
    let track = track.as_ref().map(|(name, bytes)| (*name, bytes.as_slice()));
    if !sheet.is_whole {
        // What follows from a sheet is only known of a whole one.
        return Ok(refused(problems));
    }
    let bytes = track.map(|(_, bytes)| bytes);
    let assessment = assessment::assess(&sheet, &shop.workshop, bytes, &mut problems);
    if problems.has_errors() {
        return Ok(refused(problems));
    }

    let digests: Vec<(String, Digest)> =
        photos.iter().map(|one| (one.name.clone(), one.photo.facts.sha256)).collect();
    let issued = issued::copy(&sheet.tree);
    let model = sheet.fields.unit.model.as_ref().map(|model| model.0.as_str());
    let profile = issued::relevant_profile(&shop.workshop.tree, model);
    let manifest = manifest::manifest(&Inputs {
        job: &sheet.fields.job.0,
        sheet: &folder.sheet,
        issued: Some(&issued),
        profile: profile.as_bytes(),
        templates: shop.press.templates().digest(),
        // Evidence is looked for under the names that it has.
        photos: photos.iter().map(|one| (folder.on_disk(&one.name), &one.photo.facts)).collect(),
        track: track.map(|(name, bytes)| (folder.on_disk(name), bytes)),
    });
    let material = Material {
        sheet: &sheet,
        workshop: &shop.workshop,
        photos: &photos,
        assessment: &assessment,
        manifest: &manifest,
        issued: &issued,
        digest: Digest::of(manifest.as_bytes()),
        logo: shop.logo(),
    };
    let made = match wanted {
        Wanted::Check => document::check_report(&shop.press, &material).map(|()| Vec::new()),
        _ => document::return_report(&shop.press, &material).map(|paper| vec![paper]),
    };
    match made {
        Ok(papers) => {
            let basis = Basis {
                job: sheet.fields.job.0.clone(),
                day: document::day(&sheet),
                returned: sheet.fields.returned.as_ref().map(|date| date.0),
                used: checks::photo_uses(&sheet.fields).map(|used| used.file.0.clone()).collect(),
                issued,
                profile,
                photos,
            };
            let problems = problems.into_sorted();
            Ok(Done { problems, papers, basis: Some(basis), photos: digests })
        }
        Err(Refusal::Failure(failure)) => Err(failure),
        Err(Refusal::Problems(found)) => {
            problems.extend(found);
            Ok(refused(problems))
        }
    }
}

fn refused(problems: Problems) -> Done {
    Done { problems: problems.into_sorted(), ..Done::default() }
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
    for name in folder.photos_left_out() {
        problems.push(photo::problems::left_out(photo_file(folder, name)));
    }
    for file in
        files.iter().filter(|file| is_passed_over(file.kind) && !used.contains(&file.name.as_str()))
    {
        let place = photo_file(folder, &file.name);
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
        let place = photo_place(folder, sheet, &file.name);
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

/// The file of a photo as a place.
fn photo_file(folder: &JobFolder, name: &str) -> Place {
    Place::whole(&SourceText::named(folder.shown_name(name)))
}

/// Where a photo is told: where the sheet first names it, else its file.
fn photo_place(folder: &JobFolder, sheet: &Sheet, name: &str) -> Place {
    match checks::photo_uses(&sheet.fields).find(|used| used.file.0 == name) {
        Some(used) => sheet.place(&used.file.span),
        None => photo_file(folder, name),
    }
}

/// What is implausible about the photos.
fn doubts(folder: &JobFolder, sheet: &Sheet, photos: &[NamedPhoto]) -> Vec<Diagnostic> {
    let seen: Vec<Seen<'_>> = photos.iter().map(|one| Seen::of(&one.name, &one.photo)).collect();
    let arrival = Some(sheet.fields.arrival.date.0);
    let returned = sheet.fields.returned.as_ref().map(|date| date.0);
    let doubts = plausibility::judge(&seen, arrival, returned);
    let place = |at: usize| photos.get(at).map(|one| photo_place(folder, sheet, &one.name));
    doubts
        .iter()
        .filter_map(|doubt| {
            let photos = doubt.photos();
            let (first, others) = photos.split_first()?;
            let told = Diagnostic::warning(doubt.code(), place(*first)?, doubt.message(&seen))
                .hint(doubt.hint());
            // The message counts those that are left.
            let others = others.iter().take(3).filter_map(|at| place(*at));
            Some(others.fold(told, |told, other| told.also(other, "and this one")))
        })
        .collect()
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

/// The name under which papers of a job without a number are kept: its folder's, as far as it can name
/// a job.
pub fn number_of_folder(folder: &JobFolder) -> String {
    let real = crate::intake::real_path(&folder.path);
    let name = real.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let plain = |c: char| if c.is_ascii_alphanumeric() || matches!(c, '-' | '_') { c } else { '-' };
    let name: String = name.trim().chars().map(plain).take(40).collect();
    if sheet::text::is_job_number(&name) { name } else { "job".to_owned() }
}
