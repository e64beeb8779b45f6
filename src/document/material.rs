//! Everything that a paper is made from, gathered for one job.

use chrono::NaiveDate;

use crate::assessment::Assessment;
use crate::digest::Digest;
use crate::photo::{NamedPhoto, Photo, PrintSize};
use crate::sheet::profile::Paper;
use crate::sheet::text::Language;
use crate::sheet::{ProfileFile, Sheet};

/// What a paper is made from. Photos are in the order of their numbers, counted from 1.
pub struct Material<'a> {
    /// The findings sheet.
    pub sheet: &'a Sheet,
    /// The workshop profile.
    pub workshop: &'a ProfileFile,
    /// Every photo of the folder that could be read.
    pub photos: &'a [NamedPhoto],
    /// What follows from the sheet.
    pub assessment: &'a Assessment,
    /// The manifest's text, which the PDF carries.
    pub manifest: &'a str,
    /// The customer's copy of the sheet.
    pub issued: &'a str,
    /// SHA-256 of the manifest: the digest of all inputs.
    pub digest: Digest,
    /// The workshop's logo: name and bytes.
    pub logo: Option<(&'a str, &'a [u8])>,
}

/// What every paper has around it, whatever it is about.
pub struct Cover<'a> {
    /// Number of the job.
    pub job: &'a str,
    /// Language of the paper.
    pub language: Language,
    /// The day of the paper.
    pub day: NaiveDate,
    /// The workshop profile.
    pub workshop: &'a ProfileFile,
    /// Every photo of the folder that could be read.
    pub photos: &'a [NamedPhoto],
    /// The manifest's text, which the PDF carries.
    pub manifest: &'a str,
    /// The customer's copy of the sheet; a contact sheet can be made without one.
    pub issued: Option<&'a str>,
    /// SHA-256 of the manifest: the digest of all inputs.
    pub digest: Digest,
    /// The workshop's logo: name and bytes.
    pub logo: Option<(&'a str, &'a [u8])>,
}

impl Cover<'_> {
    /// The region whose forms the paper has.
    pub fn region(&self) -> Option<&str> {
        region(&self.language, self.workshop)
    }
}

impl Material<'_> {
    /// What a paper of this material has around it.
    pub fn cover(&self) -> Cover<'_> {
        Cover {
            job: &self.sheet.fields.job.0,
            language: language(self.sheet, self.workshop),
            day: day(self.sheet),
            workshop: self.workshop,
            photos: self.photos,
            manifest: self.manifest,
            issued: Some(self.issued),
            digest: self.digest,
            logo: self.logo,
        }
    }

    /// A photo with its number, by file name.
    pub fn photo(&self, name: &str) -> Option<(usize, &Photo)> {
        let at = self.photos.iter().position(|photo| photo.name == name)?;
        Some((at + 1, &self.photos[at].photo))
    }
}

/// Language of the customer's papers: the sheet's, else the workshop's, else English.
pub fn language(sheet: &Sheet, workshop: &ProfileFile) -> Language {
    let own = sheet.fields.language.as_ref();
    let language = own.or(workshop.fields.language.as_ref());
    language.map_or_else(|| Language("en".into()), |language| language.value.clone())
}

/// The region whose forms a paper has: that of its language, else that of its paper if only one
/// region uses it; `None` if the language alone decides.
pub fn region<'a>(language: &'a Language, workshop: &ProfileFile) -> Option<&'a str> {
    let is_letter = workshop.fields.paper == Some(Paper::Letter);
    let of_paper = (is_letter && language.base() == "en").then_some("US");
    language.region().or(of_paper)
}

/// The day of a paper: the last one on the sheet.
pub fn day(sheet: &Sheet) -> NaiveDate {
    let fields = &sheet.fields;
    let returned = fields.returned.as_ref().map(|date| date.0);
    let opened = fields.strip_down.as_ref().map(|strip| strip.date.0);
    returned.or(opened).unwrap_or(fields.arrival.date.0)
}

/// The room that a photo gets at most: the story's column, and half a page in height.
pub fn print_size() -> PrintSize {
    PrintSize::of_mm(137.0, 137.0)
}
