//! What a paper was made from: its attached manifest held against originals, and itself against what
//! the bag gives when it is made again.
//!
//! In: the bytes of `manifest.json`, and for each name of the job folder the digest of what is
//! there; out: what fits and what does not. Not here: opening the PDF (pdf); making papers, which
//! the caller brings along ([`Maker`]), since it is above the archive.

use std::cell::OnceCell;
use std::collections::BTreeSet;
use std::path::Path;

use serde::Deserialize;

use super::judgement::{Judgement, Made, Maker};
use super::pdf;
use super::words::papers;
use crate::archive::bag::names;
use crate::archive::layout::PROGRAM;
use crate::archive::problems::{self, Flaw};
use crate::digest::Digest;

/// The file of the earlier visits that a paper tells of, as manifests and messages name it.
pub(super) const VISITS: &str = "earlier-visits.json";

/// A file that the paper was made from.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
struct TextForm {
    sha256: String,
    /// Of the copy that the customer has.
    #[serde(default)]
    issued_sha256: Option<String>,
}

#[derive(Debug, Deserialize)]
struct PhotoForm {
    file: String,
    sha256: String,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
struct Form {
    job: String,
    #[serde(default)]
    made_by: String,
    findings_yaml: TextForm,
    workshop_yaml: TextForm,
    photos: Vec<PhotoForm>,
    /// The recorded ride, if there was one.
    #[serde(default)]
    track: Option<PhotoForm>,
    /// What the paper tells of earlier visits, if it tells of any.
    #[serde(default)]
    earlier_visits_json: Option<TextForm>,
}

/// What is there of a file of the job folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum There {
    /// A file with this SHA-256, in digits.
    Is(String),
    /// A file that could not be read; that is reported elsewhere.
    Unread,
    /// No such file.
    Not,
}

/// How a paper and what it was made from go together.
#[derive(Debug, Default)]
pub(super) struct Held {
    /// What is wrong with the sheet and the profile.
    pub texts: Vec<Flaw>,
    /// What is wrong with the photos and the recorded ride.
    pub photos: Vec<Flaw>,
    /// True if a file could not be read, so that it is neither right nor wrong.
    pub is_unread: bool,
}

/// The manifest that a paper carries.
#[derive(Debug)]
pub(super) struct Carried {
    /// Digest of its bytes: the one printed on the paper and in its QR code.
    pub digest: Digest,
    form: Form,
}

impl Carried {
    /// Reads a manifest.
    ///
    /// # Errors
    /// It is not of the form that this program writes.
    pub(super) fn read(bytes: &[u8]) -> Result<Self, &'static str> {
        let form = serde_json::from_slice(bytes)
            .map_err(|_| "its `manifest.json` is not of the form that this program writes")?;
        Ok(Self { digest: Digest::of(bytes), form })
    }

    /// The job that it names.
    pub(super) fn job(&self) -> &str {
        &self.form.job
    }

    /// Name and version of the program that made the paper, as it says.
    pub(super) fn made_by(&self) -> &str {
        &self.form.made_by
    }

    /// Digest of the customer's copy of the sheet, where it lists one.
    pub(super) fn issued_sheet(&self) -> Option<&str> {
        self.form.findings_yaml.issued_sha256.as_deref()
    }

    /// Digest of the earlier visits that the paper tells of.
    pub(super) fn visits(&self) -> Option<&str> {
        self.form.earlier_visits_json.as_ref().map(|text| text.sha256.as_str())
    }

    /// How many photos it names.
    pub(super) fn n_photos(&self) -> usize {
        self.form.photos.len()
    }

    /// The names of its photos.
    pub(super) fn photos(&self) -> BTreeSet<&str> {
        self.form.photos.iter().map(|photo| photo.file.as_str()).collect()
    }

    /// The names of all files that it was made from.
    pub(super) fn files(&self) -> BTreeSet<&str> {
        let mut files = self.photos();
        files.extend(["findings.yaml", "workshop.yaml"]);
        files.extend(self.form.track.iter().map(|track| track.file.as_str()));
        files
    }

    /// Holds the sheet of an owner's copy against the copy that the paper carries.
    pub(super) fn hold_issued(&self, paper: &str, there: &There) -> Option<Flaw> {
        let issued = self.issued_sheet()?;
        match there {
            There::Unread => None,
            There::Is(there) if there == issued => None,
            There::Is(_) => {
                Some(problems::paper_of_other(paper, "`findings.yaml` than the one there"))
            }
            There::Not => Some(problems::paper_of_missing(paper, "`findings.yaml`")),
        }
    }

    /// Holds every file that the paper was made from against what is there: `digest` gives the
    /// SHA-256 digits of a file of the job folder. `paper` is the place that flaws name.
    pub(super) fn hold(&self, paper: &str, digest: &dyn Fn(&str) -> There) -> Held {
        let form = &self.form;
        let texts =
            [("findings.yaml", &form.findings_yaml), ("workshop.yaml", &form.workshop_yaml)];
        let texts = texts.iter().map(|(name, text)| (*name, text.sha256.as_str()));
        let texts = texts.chain(self.visits().map(|sha256| (VISITS, sha256)));
        let files = form.photos.iter().chain(&form.track);
        let photos = files.map(|photo| (photo.file.as_str(), photo.sha256.as_str()));
        let mut held = Held::default();
        let mut flaw = |(name, sha256): (&str, &str)| {
            let shown = format!("`{}`", names::shown(name));
            match digest(name) {
                There::Unread => {
                    // A folder of originals holds neither, and no statement is about them.
                    held.is_unread |= !["workshop.yaml", VISITS].contains(&name);
                    None
                }
                There::Is(there) if there == sha256 => None,
                There::Is(_) => {
                    Some(problems::paper_of_other(paper, &format!("{shown} than the one there")))
                }
                There::Not => Some(problems::paper_of_missing(paper, &shown)),
            }
        };
        let texts: Vec<Flaw> = texts.filter_map(&mut flaw).collect();
        let photos: Vec<Flaw> = photos.filter_map(&mut flaw).collect();
        Held { texts, photos, ..held }
    }
}

/// True for a name that photos have.
pub(super) fn is_photo(name: &str) -> bool {
    const ENDINGS: &[&str] =
        &["jpg", "jpeg", "png", "webp", "heic", "heif", "hif", "tif", "tiff", "bmp"];
    let ending = name.rsplit('.').next().unwrap_or_default();
    ENDINGS.iter().any(|one| one.eq_ignore_ascii_case(ending))
}

/// The papers of one bag, made at most once.
pub(super) struct Again<'a> {
    maker: Option<Maker<'a>>,
    bag: &'a Path,
    made: OnceCell<Result<Vec<Made>, String>>,
}

impl<'a> Again<'a> {
    /// For a bag; one that is a tar has no papers made again.
    pub(super) fn of(bag: &'a Path, maker: Option<Maker<'a>>) -> Self {
        Self { maker, bag, made: OnceCell::new() }
    }

    /// Compares a paper of the bag that lists the bag's own material.
    pub(super) fn compare(&self, path: &str, carried: &Carried, own: &Digest) -> Judgement {
        let mut found = Judgement::default();
        let mut open = |why: &str| {
            found.not_shown.push(papers::pages_not_compared(path, why));
        };
        let Some(maker) = self.maker else {
            open("papers are made again where a bag's folder is verified alone");
            return found;
        };
        if carried.made_by() != PROGRAM {
            let by = names::shown(carried.made_by());
            open(&format!("it says that `{by}` made it, and this is `{PROGRAM}`"));
            return found;
        }
        if !self.bag.is_dir() {
            open("a tar has to be unpacked first");
            return found;
        }
        let made = match self.made.get_or_init(|| (maker.0)(self.bag)) {
            Ok(made) => made,
            Err(cause) => {
                open(&format!("it could not be made again: {cause}"));
                return found;
            }
        };
        let name = path.rsplit('/').next().unwrap_or_default();
        let Some((_, again)) = made.iter().find(|(made, _)| made == name) else {
            open("making the papers again gives none of this name");
            return found;
        };
        let is_same_list =
            pdf::manifest(again).is_ok_and(|manifest| Digest::of(&manifest) == carried.digest);
        if Digest::of(again) == *own {
            found.shown.push(papers::made_again(path));
        } else if is_same_list {
            found.flaws.push(problems::paper_not_made_again(path));
        } else {
            open("made again it lists other layouts, or photos read in another way");
        }
        found
    }
}
