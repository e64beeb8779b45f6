//! Photos of a card or cable folder -> copies in a job folder, by the time at which they were taken.
//!
//! In: where from, which job, which days; out: what became of each file. Originals are only read; a copy
//! is there whole or not at all, and never in the place of another file. Not here: the sheet, which
//! nothing but a person changes.

mod naming;
pub mod timed;

use std::collections::BTreeMap;
use std::path::Path;

use chrono::{NaiveDate, NaiveDateTime};

use crate::digest::Digest;
use crate::failure::Failure;
use crate::intake::card::{self, CardFile};
use crate::intake::{self, file};
use crate::output;
use crate::photo::Kind;
use naming::Names;
use timed::Timed;

/// Which photos are wanted, and where they go.
pub struct Asked<'a> {
    /// The card's folder, or one photo.
    pub from: &'a Path,
    /// The job folder.
    pub job: &'a Path,
    /// Number of the job, with which the copies' names begin.
    pub number: &'a str,
    /// First day that is wanted.
    pub since: Option<NaiveDate>,
    /// Last day that is wanted.
    pub until: Option<NaiveDate>,
    /// Threads to read with.
    pub threads: usize,
    /// Nanoseconds since 1970 as clocks showed them here.
    pub local: &'a (dyn Fn(u128) -> NaiveDateTime + Sync),
}

/// What became of a photo.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It was copied under this name.
    Copied(String),
    /// This file of the job is the same, byte for byte.
    HereBefore(String),
}

/// A photo of the card.
#[derive(Clone, Debug)]
pub struct Imported {
    /// Its path below the card's folder.
    pub from: String,
    /// When it was taken.
    pub at: NaiveDateTime,
    /// True if its camera recorded the time; else it is that of the file.
    pub by_camera: bool,
    /// What became of it.
    pub fate: Fate,
}

/// What came of an import.
#[derive(Debug, Default)]
pub struct Told {
    /// The photos that are in the job now, in the order in which they were taken.
    pub photos: Vec<Imported>,
    /// How many photos are of other days.
    pub n_other_days: usize,
    /// Files that may matter and are not taken, with what they are.
    pub passed_over: Vec<(String, Kind)>,
    /// What could not be read or copied.
    pub failures: Vec<Failure>,
}

/// Copies photos into a job.
///
/// # Errors
/// There is no card, or the job folder cannot be read; single files that fail are part of [`Told`].
pub fn import(asked: &Asked<'_>) -> Result<Told, Failure> {
    if intake::real_path(asked.from) == intake::real_path(asked.job) {
        let cause = "that is the job's own folder, and its photos are in it already";
        return Err(Failure::on("import from", asked.from, cause)
            .hint("give the card's folder first, then the job: `splitcase import CARD JOB`"));
    }
    intake::refuse_sealed(asked.job)?;
    let there = card::look(asked.job, None)?;
    let mut told = Told::default();
    let found = card::look(asked.from, Some(asked.job))?;
    told.failures.extend(found.failures);
    let (pictures, others): (Vec<CardFile>, Vec<CardFile>) =
        found.files.into_iter().partition(|file| matches!(file.kind, Kind::Picture(_)));
    let matters = |kind: Kind| {
        matches!(kind, Kind::CameraRaw | Kind::Film(_) | Kind::Avif | Kind::JpegXl | Kind::Gif)
    };
    let others = others.into_iter().filter(|file| matters(file.kind));
    told.passed_over = others.map(|file| (file.name, file.kind)).collect();

    let mut photos = Vec::new();
    for timed in timed::read(&pictures, asked.threads, asked.local) {
        match timed {
            Ok(photo) if asked.wants(photo.at.date()) => photos.push(photo),
            Ok(_) => told.n_other_days += 1,
            Err(failure) => told.failures.push(failure),
        }
    }
    photos.sort_by(|a, b| (a.at, &a.file.name).cmp(&(b.at, &b.file.name)));
    let mut known = known(&there.files, &photos)?;
    let mut names = Names::new(asked.number, there.files.iter().map(|file| file.name.as_str()));
    for photo in photos {
        let fate = match known.get(&photo.sha256) {
            Some(name) => Ok(Fate::HereBefore(name.clone())),
            None => copy(&photo, asked.job, &mut names).map(Fate::Copied),
        };
        match fate {
            Ok(fate) => {
                let (Fate::Copied(name) | Fate::HereBefore(name)) = &fate;
                known.entry(photo.sha256).or_insert_with(|| name.clone());
                let Timed { file, at, by_camera, .. } = photo;
                told.photos.push(Imported { from: file.name, at, by_camera, fate });
            }
            Err(failure) => told.failures.push(failure),
        }
    }
    Ok(told)
}

impl Asked<'_> {
    fn wants(&self, day: NaiveDate) -> bool {
        self.since.is_none_or(|first| first <= day) && self.until.is_none_or(|last| day <= last)
    }
}

/// The names of the job's files by their digests; only files that are as long as a new photo are read.
fn known(there: &[CardFile], photos: &[Timed]) -> Result<BTreeMap<Digest, String>, Failure> {
    let alike = there.iter().filter(|file| photos.iter().any(|one| one.file.bytes == file.bytes));
    let read =
        |file: &CardFile| Ok((Digest::of(&file::read_photo(&file.path)?), file.name.clone()));
    alike.map(read).collect()
}

/// Copies one photo; returns its new name.
fn copy(photo: &Timed, job: &Path, names: &mut Names) -> Result<String, Failure> {
    let bytes = file::read_photo(&photo.file.path)?;
    if Digest::of(&bytes) != photo.sha256 {
        let cause = "it changed while it was read";
        return Err(Failure::on("copy", &photo.file.path, cause).hint("run the import once more"));
    }
    let name = names.next(photo.format);
    output::copy_new(&job.join(&name), &bytes, photo.file.changed)?;
    Ok(name)
}
