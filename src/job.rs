//! The whole life of one job: every stage called in order.
//!
//! ```text
//! open (sheet) ─► photos ─► assess ─► papers
//! ```
//!
//! In: a job folder, its workshop and what the job may use of the machine; out: papers or problems. One
//! job knows no other.

mod contact_sheet;
mod done;
mod marking_page;
mod means;
pub mod number;

use crate::album;
use crate::assessment::earlier::{self, Visit};
use crate::assessment::{self, Assessment};
use crate::diagnostic::Problems;
use crate::digest::Digest;
use crate::document::manifest::{self, Inputs};
use crate::document::material::Material;
use crate::document::papers::progress::Progress;
use crate::document::{self, Document, Refusal};
use crate::failure::Failure;
use crate::intake::{JobFolder, SHEET};
use crate::photo::NamedPhoto;
use crate::sheet::{self, Sheet, issued, technicians};
use crate::workshop::Workshop;

use done::{on_disk, refused};

pub use done::{Basis, Done, FromList, Wanted};
pub use means::Means;

/// Takes a job from its folder to its papers.
///
/// # Errors
/// What the machine refused. Problems of the material are part of [`Done`].
pub fn run(
    folder: &JobFolder,
    workshop: &Workshop,
    wanted: &Wanted,
    means: &Means<'_>,
) -> Result<Done, Failure> {
    if *wanted == Wanted::PhotoSheet {
        return contact_sheet::run(folder, workshop, means);
    }
    if *wanted == Wanted::MarkingPage {
        return marking_page::run(folder, workshop, means);
    }
    let mut problems = Problems::default();
    let Some(job) = Job::open(folder, workshop, &mut problems) else {
        return Ok(refused(problems));
    };
    let photos = job.photos(means, &mut problems)?;
    let Some(job) = job.assess(photos, &mut problems)? else { return Ok(refused(problems)) };
    if matches!(wanted, Wanted::Papers(asked) if asked.message) {
        problems.extend(document::message_doubts(&job.sheet, &job.workshop.profile));
    }
    match job.papers(wanted) {
        Ok(papers) => Ok(job.done(papers, problems)),
        Err(refusal) => refusal.into_problems(&mut problems).map(|()| refused(problems)),
    }
}

/// A job whose sheet was read.
pub struct Job<'a> {
    folder: &'a JobFolder,
    workshop: &'a Workshop,
    /// The sheet as far as it could be read.
    pub sheet: Sheet,
}

impl<'a> Job<'a> {
    /// Reads the sheet and what of it decides whether papers can be written: letters, language, words.
    pub fn open(
        folder: &'a JobFolder,
        workshop: &'a Workshop,
        problems: &mut Problems,
    ) -> Option<Self> {
        let name = folder.shown_name(SHEET);
        let mut sheet = sheet::read(&name, &folder.sheet, &workshop.profile, problems)?;
        folder.spell_names(&mut sheet.fields);
        problems.extend(document::check_letters(&sheet, &workshop.profile));
        problems.extend(document::check_language(&workshop.press, &sheet, &workshop.profile));
        problems.extend(document::check_words(&workshop.press, &sheet, &workshop.profile));
        Some(Self { folder, workshop, sheet })
    }

    /// The photos of the folder, ready for print.
    ///
    /// # Errors
    /// A file cannot be read.
    pub fn photos(
        &self,
        means: &Means<'_>,
        problems: &mut Problems,
    ) -> Result<Vec<NamedPhoto>, Failure> {
        album::of_sheet(self.folder, &self.sheet, &means.of_photos(), problems)
    }

    /// What follows from sheet, photos and track; `None` if there are errors, or if the sheet is not
    /// whole, since nothing follows from a part of one.
    ///
    /// # Errors
    /// A file cannot be read.
    pub fn assess(
        self,
        photos: Vec<NamedPhoto>,
        problems: &mut Problems,
    ) -> Result<Option<Assessed<'a>>, Failure> {
        let Self { folder, workshop, mut sheet } = self;
        let track = folder.track(&sheet, problems)?;
        if !sheet.is_whole || sheet.lacks_prices {
            return Ok(None);
        }
        let bytes = track.as_ref().map(|track| track.bytes.as_slice());
        let mut assessment = assessment::assess(&sheet, &workshop.profile, bytes, problems);
        if problems.has_errors() {
            return Ok(None);
        }
        assessment.visits = folder.earlier.of(&sheet.fields);
        let visits = earlier::text_of_any(&assessment.visits);
        let naming = workshop.profile.fields.technicians.unwrap_or_default();
        technicians::name(&mut sheet.fields, naming);
        let issued = issued::copy(&sheet.tree, naming);
        let model = sheet.fields.unit.model.as_ref().map(|model| model.0.as_str());
        let profile = issued::relevant_profile(&workshop.profile.tree, model, &sheet.priced);
        let manifest = manifest::manifest(&Inputs {
            job: &sheet.fields.job.0,
            sheet: &folder.sheet,
            issued: Some(&issued),
            profile: profile.as_bytes(),
            templates: workshop.press.templates().digest(),
            photos: on_disk(folder, &photos),
            track: track.as_ref().map(|track| (folder.on_disk(&track.name), &*track.bytes)),
            visits: visits.as_deref(),
        });
        Ok(Some(Assessed {
            workshop,
            sheet,
            photos,
            assessment,
            issued,
            profile,
            manifest,
            visits,
        }))
    }
}

/// A job with everything that its papers are made from.
pub struct Assessed<'a> {
    workshop: &'a Workshop,
    sheet: Sheet,
    /// The photos in the order of their numbers.
    pub photos: Vec<NamedPhoto>,
    assessment: Assessment,
    issued: String,
    profile: String,
    manifest: String,
    visits: Option<String>,
}

impl Assessed<'_> {
    /// What its papers are made from.
    pub fn material(&self) -> Material<'_> {
        Material {
            sheet: &self.sheet,
            workshop: &self.workshop.profile,
            photos: &self.photos,
            assessment: &self.assessment,
            manifest: &self.manifest,
            issued: &self.issued,
            digest: Digest::of(self.manifest.as_bytes()),
            logo: self.workshop.logo(),
        }
    }

    /// The papers that are wanted, or none if the job is only checked: then those that are due are tried.
    ///
    /// # Errors
    /// A paper that was asked for and lacks something, or problems in templates or wordings.
    pub fn papers(&self, wanted: &Wanted) -> Result<Vec<Document>, Refusal> {
        let (press, material) = (&self.workshop.press, self.material());
        match wanted {
            Wanted::Papers(asked) => document::make(press, &material, asked),
            Wanted::Check | Wanted::PhotoSheet | Wanted::MarkingPage => {
                document::check(press, &material).map(|()| Vec::new())
            }
        }
    }

    fn done(self, papers: Vec<Document>, problems: Problems) -> Done {
        Done {
            problems: problems.into_sorted(),
            papers,
            progress: Some(Progress::of(&self.sheet.fields)),
            photos: done::looks(&self.photos),
            visits: self.assessment.visits.iter().map(Visit::in_words).collect(),
            priced: self.sheet.priced.iter().map(FromList::of).collect(),
            basis: Some(Basis {
                visits: self.visits,
                ..Basis::of(
                    &self.sheet,
                    &self.workshop.profile,
                    self.photos,
                    self.issued,
                    self.profile,
                )
            }),
        }
    }
}
