//! Whole sheets of many jobs, each under its workshop's profile: no photo is read.
//!
//! In: job folders; out: a sheet with its profile, or why there is none. Each profile is read once.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use crate::diagnostic::Problems;
use crate::intake::{self, house};
use crate::sheet::{self, ProfileFile, Sheet};

/// The profiles of job folders by their paths; one that cannot be used is `None`.
pub struct Sheets {
    profiles: BTreeMap<PathBuf, Option<ProfileFile>>,
}

/// A job whose sheet cannot be used.
#[derive(Clone, Debug)]
pub struct Unread {
    /// Its number, if the sheet tells it.
    pub job: Option<String>,
    /// Why.
    pub why: String,
}

impl Sheets {
    /// Ready for the jobs of these folders.
    pub fn of(folders: &[PathBuf]) -> Self {
        let mut profiles = BTreeMap::new();
        for path in folders.iter().filter_map(|folder| intake::find_profile(folder)) {
            profiles.entry(path).or_insert_with_key(|path| profile(path));
        }
        Self { profiles }
    }

    /// The sheet of a job, if it is whole and has no errors, with its profile.
    ///
    /// # Errors
    /// Why it cannot be used.
    pub fn read(&self, folder: &Path) -> Result<(Sheet, &ProfileFile), Unread> {
        let bytes = intake::read_text_file(&folder.join(intake::SHEET), "read the sheet")
            .map_err(|failure| Unread { job: None, why: failure.cause })?;
        let unread = |why: String| Unread { job: sheet::peek_number(&bytes), why };
        let path = intake::find_profile(folder)
            .ok_or_else(|| unread(format!("no `{}` in it or above it", intake::PROFILE)))?;
        let profile = self.profiles.get(&path).and_then(Option::as_ref);
        let profile = profile
            .ok_or_else(|| unread(format!("`{}` above it cannot be used", intake::PROFILE)))?;
        let mut problems = Problems::default();
        let sheet = sheet::read(intake::SHEET, &bytes, profile, &mut problems);
        let sheet = sheet.filter(|sheet| sheet.is_whole && !problems.has_errors());
        let errors = problems.n_errors();
        let count = if errors == 1 { "1 error".to_owned() } else { format!("{errors} errors") };
        let sheet = sheet.ok_or_else(|| unread(format!("{count} in its sheet")))?;
        Ok((sheet, profile))
    }

    /// The first of the profiles, by its path.
    pub fn first_profile(&self) -> Option<&ProfileFile> {
        self.profiles.values().flatten().next()
    }
}

fn profile(path: &Path) -> Option<ProfileFile> {
    let bytes = intake::read_text_file(path, "read the workshop profile").ok()?;
    let mut problems = Problems::default();
    let mut profile = sheet::read_profile(intake::PROFILE, &bytes, &mut problems);
    if let (Some(profile), Some((_, list))) = (&mut profile, house::read_prices(path).ok()?) {
        sheet::read_prices(intake::PRICES, &list, profile, &mut problems);
    }
    profile.filter(|_| !problems.has_errors())
}
