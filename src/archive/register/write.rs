//! Adds lines to the register of an archive, one writer at a time, and mends a torn last line.
//!
//! In: an archive and what happened. Out: the line, down to the disk, or the register as before.
//! Not here: reading without writing (read).

use std::fs::{File, OpenOptions};
use std::io::{self, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use chrono::{DateTime, NaiveDate, NaiveDateTime, TimeDelta, Utc};

use super::entry::{Entry, Event};
use super::read;
use super::read::{Flaw, Register};
use crate::archive::durable;
use crate::archive::layout::{self, LOCK, REGISTER};
use crate::archive::request::Remark;
use crate::failure::Failure;

/// What a new line is to say; its number and what it follows are added here.
#[derive(Clone, Debug)]
pub struct NewEntry<'a> {
    /// What happened.
    pub event: Event,
    /// Number of the job.
    pub job: &'a str,
    /// Version of the job's bag, from 1.
    pub version: u32,
    /// Path below the archive, with `/`.
    pub bag: String,
    /// 64 hexadecimal digits.
    pub sha256: String,
    /// When it happened.
    pub time: DateTime<Utc>,
    /// Until which day the bag is to be kept.
    pub keep_until: Option<NaiveDate>,
    /// Why it was taken away, if it was.
    pub because: Option<&'a str>,
}

/// Holds the lock of an archive as long as it lives.
pub struct RegisterWriter {
    path: PathBuf,
    file: File,
    register: Register,
    mended: Option<Remark>,
    is_as_before: bool,
    _lock: File,
}

impl RegisterWriter {
    /// Waits for the lock, reads the register and mends its last line where that is torn. The
    /// archive's folder is made if there is none.
    ///
    /// # Errors
    /// The disk refuses or knows no locks, or the register has a flaw that is not mended by itself.
    pub fn open(archive: &Path) -> Result<Self, Failure> {
        durable::make_folder(archive)?;
        let lock = open(&archive.join(LOCK))?;
        lock.lock().map_err(|error| Failure::on("lock", &archive.join(LOCK), error))?;
        let path = archive.join(REGISTER);
        let register = read::register_now(archive)?;
        let is_torn = |flaw: &&Flaw| matches!(flaw, Flaw::Torn { .. });
        if let Some(flaw) = register.flaws.iter().find(|flaw| !is_torn(flaw)) {
            return Err(Failure::on("add to the register", &path, flaw)
                .hint("nothing was added; find out who changed the register, `verify` says more"));
        }
        let file = open(&path)?;
        durable::sync_folder(archive)?;
        let mut writer =
            Self { path, file, register, mended: None, is_as_before: true, _lock: lock };
        if let Some(Flaw::Torn { line, is_complete, .. }) = writer.register.flaws.first().cloned() {
            writer.mended = Some(writer.mend(archive, line, is_complete)?);
            writer.register = read::register_now(archive)?;
        }
        Ok(writer)
    }

    /// The register as it is.
    pub fn register(&self) -> &Register {
        &self.register
    }

    /// What was mended when the register was opened.
    pub fn mended(&self) -> Option<&Remark> {
        self.mended.as_ref()
    }

    /// False if a line could not be added and not be taken back either.
    pub fn is_as_before(&self) -> bool {
        self.is_as_before
    }

    /// Adds a line, down to the disk.
    ///
    /// # Errors
    /// The disk refuses; the register is as it was, or [`Self::is_as_before`] says otherwise.
    pub fn add(&mut self, new: &NewEntry<'_>) -> Result<Entry, Failure> {
        let entry = Entry {
            line: self.register.whole_lines + 1,
            event: new.event,
            job: new.job.to_owned(),
            version: new.version,
            bag: new.bag.clone(),
            sha256: new.sha256.clone(),
            time: self.time_of(new)?,
            keep_until: new.keep_until.map(|day| day.to_string()),
            because: new.because.map(str::to_owned),
            previous: self.register.next_previous(),
        };
        let text = entry.text();
        let mut text =
            text.map_err(|error| Failure::on("add to the register", &self.path, error))?;
        text.push(b'\n');
        if let Err(error) = self.write_at_end(&text) {
            let old = self.register.whole_bytes;
            let taken_back = self.file.set_len(old).and_then(|()| self.file.sync_all());
            self.is_as_before = taken_back.is_ok();
            return Err(durable::failed("add to the register", &self.path, &error));
        }
        self.register.take(&text);
        Ok(entry)
    }

    /// The time of a new line: never before that of the line before. Runs that go on side by side
    /// may end in another order than they began; a clock that is a day behind is refused.
    fn time_of(&self, new: &NewEntry<'_>) -> Result<String, Failure> {
        const FORM: &str = "%Y-%m-%dT%H:%M:%SZ";
        let last = self.register.entries.last().map(|entry| entry.time.as_str());
        let last = last.and_then(|last| NaiveDateTime::parse_from_str(last, FORM).ok());
        let last = last.map(|last| last.and_utc()).filter(|last| new.time < *last);
        let Some(last) = last else { return Ok(new.time.format(FORM).to_string()) };
        if last - new.time <= TimeDelta::days(1) {
            return Ok(last.format(FORM).to_string());
        }
        let cause =
            format!("its last line is dated {}, after this machine's clock", last.format(FORM));
        Err(Failure::on("add to the register", &self.path, cause).hint(
            "set the clock; if the line is wrong, keep this archive as it is and begin another",
        ))
    }

    fn write_at_end(&mut self, text: &[u8]) -> io::Result<()> {
        self.file.seek(SeekFrom::Start(self.register.whole_bytes))?;
        self.file.write_all(text)?;
        self.file.sync_all()
    }

    /// Ends a line that lacks only its end; puts the bytes of any other aside, and only then takes
    /// them from the register.
    fn mend(&mut self, archive: &Path, line: u64, is_complete: bool) -> Result<Remark, Failure> {
        let failed = |error: io::Error| durable::failed("mend the register", &self.path, &error);
        if is_complete {
            self.file.seek(SeekFrom::End(0)).map_err(failed)?;
            self.file.write_all(b"\n").and_then(|()| self.file.sync_all()).map_err(failed)?;
            return Ok(Remark::LineCompleted { line });
        }
        let mut number = 1;
        let kept_in = loop {
            let name = layout::torn_line(number);
            if archive.join(&name).symlink_metadata().is_err() {
                break name;
            }
            number += 1;
        };
        durable::write_new(&archive.join(&kept_in), &self.register.tail)?;
        durable::sync_folder(archive)?;
        self.file.set_len(self.register.whole_bytes).map_err(failed)?;
        self.file.sync_all().map_err(failed)?;
        Ok(Remark::TornLine { line, kept_in })
    }
}

/// Opens a file of the archive, and nothing that only looks like one: a pipe would wait without end.
fn open(path: &Path) -> Result<File, Failure> {
    if path.symlink_metadata().is_ok_and(|state| !state.is_file()) {
        return Err(Failure::on("open", path, "it is not a plain file")
            .hint("find out who put it there; nothing was written"));
    }
    let mut options = OpenOptions::new();
    options.read(true).write(true).create(true).truncate(false);
    options.open(path).map_err(|error| durable::failed("open", path, &error))
}
