//! The photos that lie in a folder already, as lines of comment for its new sheet.
//!
//! In: a folder; out: text, and what could not be read. The lines are in the order in which the photos
//! were taken, each with a guess that says that it is one.

use std::fmt::Write;
use std::path::Path;

use chrono::NaiveDateTime;

use super::guess;
use crate::diagnostic::source::escape_control;
use crate::failure::Failure;
use crate::import::timed::{self, Timed};
use crate::intake::card;
use crate::photo::Kind;

/// The photos of a folder as comments, empty if there are none, and what could not be read.
///
/// # Errors
/// The folder cannot be read.
pub fn comments(
    folder: &Path,
    threads: usize,
    local: &(dyn Fn(u128) -> NaiveDateTime + Sync),
) -> Result<(String, Vec<Failure>), Failure> {
    let found = card::look(folder, None)?;
    let pictures: Vec<_> =
        found.files.into_iter().filter(|file| matches!(file.kind, Kind::Picture(_))).collect();
    let (mut photos, mut failures): (Vec<Timed>, Vec<Failure>) = (Vec::new(), found.failures);
    for photo in timed::read(&pictures, threads, local) {
        match photo {
            Ok(photo) => photos.push(photo),
            Err(failure) => failures.push(failure),
        }
    }
    photos.sort_by(|a, b| (a.at, &a.file.name).cmp(&(b.at, &b.file.name)));
    Ok((lines(&photos), failures))
}

fn lines(photos: &[Timed]) -> String {
    if photos.is_empty() {
        return String::new();
    }
    let named: Vec<_> = photos.iter().map(|one| (one.file.name.as_str(), one.at)).collect();
    let (guesses, divide) = guess::guess(&named);
    let width = named.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0).min(40);
    let why = match divide {
        Some(_) => "from the longest pause between them and from their names",
        None => "from their names alone",
    };
    let mut text = format!(
        "# Photos in this folder, in the order in which they were taken. Before and after are guessed\n\
         # {why}: put each name under `photos:` or `photos-after:` of its part.\n"
    );
    for (photo, guess) in photos.iter().zip(guesses) {
        let name = escape_control(&photo.file.name);
        let at = photo.at.format("%Y-%m-%d %H:%M");
        let clock = if photo.by_camera { "" } else { ", time of the file" };
        let _ = writeln!(text, "#   {name:width$}  {at}  {}?{clock}", guess.word());
    }
    text
}
