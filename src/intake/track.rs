//! The track of a test ride: named by the sheet, looked for in the job folder, read.

use super::JobFolder;
use crate::diagnostic::Problems;
use crate::failure::Failure;
use crate::sheet::{Sheet, problems};

/// A track as it is in a job folder.
pub struct Track {
    /// Its name as the sheet has it.
    pub name: String,
    /// Its bytes, up to a little more than the longest that is taken.
    pub bytes: Vec<u8>,
}

impl JobFolder {
    /// The track that a sheet names; `None` if it names none, or one that is not here.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn track(&self, sheet: &Sheet, problems: &mut Problems) -> Result<Option<Track>, Failure> {
        let names = self.names();
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let Some(name) = track_name(sheet, &names, problems) else { return Ok(None) };
        Ok(Some(Track { name: name.to_owned(), bytes: self.read_track(name)? }))
    }
}

/// The track that a sheet names, if it is among the names of all files of the folder.
pub fn track_name<'a>(
    sheet: &'a Sheet,
    files: &[&str],
    problems: &mut Problems,
) -> Option<&'a str> {
    let track = sheet.fields.ride.as_ref()?.track.as_ref()?;
    let name = track.0.as_str();
    if !files.contains(&name) {
        problems.push(problems::track_missing(sheet.place(&track.span), name, files));
        return None;
    }
    Some(name)
}
