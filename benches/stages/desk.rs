//! One job taken through its stages one call at a time, as `job.rs` does it in one go.

use std::path::Path;

use splitcase::assessment;
use splitcase::diagnostic::{Diagnostic, Problems};
use splitcase::document::manifest::{self, Inputs};
use splitcase::document::material::{Material, NamedPhoto};
use splitcase::document::{self, Document, Refusal};
use splitcase::intake::{self, JobFolder};
use splitcase::photo::{self, Digest, PixelBudget};
use splitcase::sheet::{self, Sheet, checks, issued};
use splitcase::shop::{self, Shop, ShopRefusal};

/// A job whose sheet was read.
pub struct Desk {
    folder: JobFolder,
    sheet: Sheet,
}

/// The workshop of the jobs below a folder.
pub fn shop_of(jobs: &Path) -> Shop {
    let profile = intake::find_profile(jobs).unwrap();
    shop::open(&profile).unwrap_or_else(|refusal| match refusal {
        ShopRefusal::Problems(problems) => panic!("{}", told(&problems)),
        ShopRefusal::Failure(failure) => panic!("{failure}"),
    })
}

fn told(problems: &[Diagnostic]) -> String {
    let lines = problems.iter().map(|one| format!("{}: {}", one.place.source.name(), one.message));
    lines.collect::<Vec<_>>().join("\n")
}

impl Desk {
    /// Reads folder and sheet.
    pub fn open(path: &Path, shop: &Shop) -> Self {
        let folder = intake::open(path).unwrap();
        let mut problems = Problems::default();
        let name = folder.shown_name(intake::SHEET);
        let sheet = sheet::read(&name, &folder.sheet, &shop.workshop, &mut problems);
        let letters = sheet.as_ref().map(|sheet| document::check_letters(sheet, &shop.workshop));
        problems.extend(letters.into_iter().flatten());
        assert!(!problems.has_errors(), "{}", told(&problems.into_sorted()));
        Self { folder, sheet: sheet.unwrap() }
    }

    /// Number of the job.
    pub fn job(&self) -> &str {
        &self.sheet.fields.job.0
    }

    /// Prepares the photos that the sheet names, at most so many.
    pub fn photos(&self, most: usize, budget: &PixelBudget) -> Vec<NamedPhoto> {
        let mut names: Vec<&str> = Vec::new();
        for used in checks::photo_uses(&self.sheet.fields) {
            if !names.contains(&used.file.0.as_str()) {
                names.push(used.file.0.as_str());
            }
        }
        let prepared = names.into_iter().take(most).map(|name| {
            let bytes = self.folder.read_photo(name).unwrap();
            let photo = photo::prepare(&bytes, document::print_size(), budget);
            let photo = photo.unwrap_or_else(|refusal| panic!("{name}: {refusal:?}"));
            NamedPhoto { name: name.to_owned(), photo }
        });
        prepared.collect()
    }

    /// Assesses the job and gathers what its paper is made from.
    pub fn gather(&self, shop: &Shop, photos: Vec<NamedPhoto>) -> Gathered<'_> {
        let mut problems = Problems::default();
        let names: Vec<&str> = self.folder.files.iter().map(|file| file.name.as_str()).collect();
        let track = checks::check_track(&self.sheet, &names, &mut problems);
        let track = track.map(|name| (name, self.folder.read_track(name).unwrap()));
        let track = track.as_ref().map(|(name, bytes)| (*name, bytes.as_slice()));
        let bytes = track.map(|(_, bytes)| bytes);
        let assessment = assessment::assess(&self.sheet, &shop.workshop, bytes, &mut problems);
        assert!(!problems.has_errors(), "{}", told(&problems.into_sorted()));
        let issued = issued::copy(&self.sheet.tree);
        let manifest = manifest::manifest(&Inputs {
            job: self.job(),
            sheet: &self.folder.sheet,
            issued: Some(&issued),
            profile: &shop.bytes,
            templates: shop.press.templates().digest(),
            photos: photos.iter().map(|one| (one.name.as_str(), &one.photo.facts)).collect(),
            track,
        });
        Gathered { desk: self, photos, assessment, issued, manifest }
    }
}

/// A job with everything that its paper is made from.
pub struct Gathered<'a> {
    /// The job.
    pub desk: &'a Desk,
    /// Its photos, ready.
    pub photos: Vec<NamedPhoto>,
    assessment: assessment::Assessment,
    issued: String,
    manifest: String,
}

impl Gathered<'_> {
    /// Sets the report and writes it as PDF: layout and export.
    pub fn report(&self, shop: &Shop) -> Document {
        let material = Material {
            sheet: &self.desk.sheet,
            workshop: &shop.workshop,
            photos: &self.photos,
            assessment: &self.assessment,
            manifest: &self.manifest,
            issued: &self.issued,
            digest: Digest::of(self.manifest.as_bytes()),
            logo: shop.logo.as_ref().map(|(name, bytes)| (name.as_str(), bytes.as_slice())),
        };
        document::return_report(&shop.press, &material).unwrap_or_else(|refusal| match refusal {
            Refusal::Problems(problems) => panic!("{}", told(&problems)),
            Refusal::Failure(failure) => panic!("{failure}"),
        })
    }
}
