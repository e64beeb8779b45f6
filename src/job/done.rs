//! What is wanted of a job, and what came of it.

use chrono::NaiveDate;
use serde::Serialize;

use crate::assessment::recognition::Look;
use crate::diagnostic::{Diagnostic, Place, Problems};
use crate::document::papers::asked::Asked;
use crate::document::papers::progress::Progress;
use crate::document::{self, Document};
use crate::intake::JobFolder;
use crate::photo::{Facts, NamedPhoto};
use crate::sheet::prices::fill::Priced;
use crate::sheet::text::Language;
use crate::sheet::{ProfileFile, Sheet};

/// Which papers are wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// None: the job is only checked.
    Check,
    /// Papers of the job.
    Papers(Asked),
    /// The contact sheet.
    PhotoSheet,
    /// The marking page.
    MarkingPage,
}

impl Wanted {
    /// True for what belongs into the job's own folder and needs no valid sheet.
    pub fn is_beside_photos(&self) -> bool {
        matches!(self, Self::PhotoSheet | Self::MarkingPage)
    }

    /// One word for it, which names its records.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Check => "check",
            Self::Papers(_) => "papers",
            Self::PhotoSheet => "photos",
            Self::MarkingPage => "marking",
        }
    }
}

/// The result of a job.
#[derive(Default)]
pub struct Done {
    /// Problems in reading order.
    pub problems: Vec<Diagnostic>,
    /// The papers; none if there is an error.
    pub papers: Vec<Document>,
    /// How far its papers are; unknown if there is an error.
    pub progress: Option<Progress>,
    /// What the papers were made from.
    pub basis: Option<Basis>,
    /// The photos by name, for comparison with other jobs; none if there is an error.
    pub photos: Vec<(String, Look)>,
    /// Earlier visits of the unit, each in words.
    pub visits: Vec<String>,
    /// The prices that came from the workshop's list.
    pub priced: Vec<FromList>,
}

/// A price that came from the workshop's list.
#[derive(Clone, Debug, Serialize)]
pub struct FromList {
    /// The part as the papers print it.
    pub what: String,
    /// The price as the list has it.
    pub price: String,
    /// The file of the list.
    pub file: String,
    /// The line of its row there, from 1.
    pub line: Option<usize>,
}

impl FromList {
    /// The price with the place that it came from.
    pub fn in_words(&self) -> String {
        let line = self.line.map_or_else(String::new, |line| format!(":{line}"));
        format!("{}, {} ({}{line})", self.what, self.price, self.file)
    }

    pub(super) fn of(priced: &Priced) -> Self {
        let Place { source, range } = &priced.place;
        Self {
            what: priced.what.clone(),
            price: priced.price.clone(),
            file: source.name().to_owned(),
            line: range.as_ref().map(|range| source.line_column(range.start).0),
        }
    }
}

/// What the papers of a job were made from, for sealing.
pub struct Basis {
    /// Number of the job.
    pub job: String,
    /// The last day that the sheet has.
    pub day: NaiveDate,
    /// The day of return, if the unit went back.
    pub returned: Option<NaiveDate>,
    /// The photos that the sheet uses.
    pub used: Vec<String>,
    /// The sheet as issued.
    pub issued: String,
    /// The part of the profile that bears on the job.
    pub profile: String,
    /// The photos, in the order of the manifest.
    pub photos: Vec<NamedPhoto>,
    /// Earlier visits of the unit as text, if there are any.
    pub visits: Option<String>,
    /// Language of the customer's papers.
    pub language: Language,
}

impl Basis {
    pub(super) fn of(
        sheet: &Sheet,
        workshop: &ProfileFile,
        photos: Vec<NamedPhoto>,
        issued: String,
        profile: String,
    ) -> Self {
        Self {
            day: document::day(sheet),
            returned: sheet.fields.returned.as_ref().map(|date| date.0),
            used: sheet.fields.photo_uses().map(|used| used.file.0.clone()).collect(),
            job: sheet.fields.job.0.clone(),
            issued,
            profile,
            photos,
            visits: None,
            language: document::material::language(sheet, workshop),
        }
    }
}

/// What each photo looks like, by name.
pub(super) fn looks(photos: &[NamedPhoto]) -> Vec<(String, Look)> {
    photos.iter().map(|one| (one.name.clone(), Look::of(&one.photo))).collect()
}

/// A job that was refused.
pub(super) fn refused(problems: Problems) -> Done {
    Done { problems: problems.into_sorted(), ..Done::default() }
}

/// The facts of photos under the names that the files have: evidence is looked for under those.
pub(super) fn on_disk<'a>(
    folder: &'a JobFolder,
    photos: &'a [NamedPhoto],
) -> Vec<(&'a str, &'a Facts)> {
    photos.iter().map(|one| (folder.on_disk(&one.name), &one.photo.facts)).collect()
}
