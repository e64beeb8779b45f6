//! Seals a job: a request and an archive -> a bag beside the older ones, and a line in the register.
//!
//! The bag is made aside and put into its place by one rename, under the archive's lock, before the
//! line is added. A kill at any moment leaves the archive as it was, or with a whole bag that the
//! next seal of the job registers. Not here: what belongs into a bag (job), verifying (verify).

use std::path::{Path, PathBuf};

use super::bag::staging::Staging;
use super::bag::versions::Versions;
use super::bag::write::{self, Bag};
use super::bag::{names, self_check, tar};
use super::register::entry::{Entry, Event};
use super::register::head::History;
use super::register::read;
use super::register::write::{NewEntry, RegisterWriter};
use super::request::{Remark, SealRequest, Sealed};
use super::{durable, layout};
use crate::digest::Digest;
use crate::failure::Failure;

/// Seals a job, unless the same bytes were sealed before.
///
/// # Errors
/// A file is refused or changes meanwhile, the register has a flaw, signing fails or the disk
/// refuses. The archive holds what it held before.
pub fn seal(request: &SealRequest<'_>, archive: &Path) -> Result<Sealed, Failure> {
    let mut remarks = write::check_names(request)?;
    let versions = Versions { archive, job: request.job };
    let staging = begin(request, versions, &mut remarks)?;
    let history = History::of(&read::register(archive)?);
    let bag = write::make(request, &staging.bag(), &history)?;
    let mut is_signed = false;
    loop {
        let register = read::register(archive)?;
        let (before, noticed) = versions.sealed_before(&register, &bag);
        add(&mut remarks, noticed);
        if let Some(entry) = before {
            add(&mut remarks, not_added(request, versions, &bag, entry.version)?);
            let tar = make_missing_tar(request, versions, &staging, entry.version, &mut remarks)?;
            return Ok(sealed(versions, &entry, false, tar, remarks));
        }
        if let Some(sign) = request.sign.filter(|_| !is_signed) {
            write::lay_beside(&sign(&bag.tag_manifest)?, &staging.bag())?;
            is_signed = true;
        }
        let version = versions.next_version(&register)?;
        if request.tar {
            tar::write(
                &staging.bag(),
                &versions.name(version),
                request.bagging_date,
                &staging.tar(),
            )?;
        }
        let mut writer = open_register(request, archive, &mut remarks)?;
        let now = writer.register();
        let is_as_seen = now.sealed(request.job).eq(register.sealed(request.job));
        if !is_as_seen || versions.next_version(now)? != version {
            // Somebody else sealed this job meanwhile.
            staging.drop_tar()?;
            continue;
        }
        let entry = versions.put(
            &staging.bag(),
            &mut writer,
            &new_entry(request, versions, version, &bag),
        )?;
        let tar = request.tar.then(|| versions.tar(version));
        if request.tar {
            versions.put_tar(staging.tar(), version)?;
        }
        let page = archive.join(layout::HOW_TO_CHECK);
        if page.symlink_metadata().is_err() {
            durable::write_new(&page, layout::HOW_TO_CHECK_ARCHIVE.as_bytes())?;
        }
        drop(writer);
        remarks.extend(replaced(versions, version));
        return Ok(sealed(versions, &entry, true, tar, remarks));
    }
}

/// Registers what was left unregistered, and makes a place for the bag.
fn begin(
    request: &SealRequest<'_>,
    versions: Versions<'_>,
    remarks: &mut Vec<Remark>,
) -> Result<Staging, Failure> {
    let mut writer = open_register(request, versions.archive, remarks)?;
    let found = versions.register_found(&mut writer, request.sealed_at)?;
    add(remarks, found);
    Staging::begin(&versions.folder(), &writer)
}

/// Opens the register. Where its last line was torn, the bag of any job may have lost its line.
fn open_register(
    request: &SealRequest<'_>,
    archive: &Path,
    remarks: &mut Vec<Remark>,
) -> Result<RegisterWriter, Failure> {
    let mut writer = RegisterWriter::open(archive)?;
    let Some(mended) = writer.mended().cloned() else { return Ok(writer) };
    add(remarks, vec![mended]);
    for job in Versions::jobs(archive)?.iter().filter(|job| names::check_job(job).is_ok()) {
        let found = Versions { archive, job }.register_found(&mut writer, request.sealed_at)?;
        add(remarks, found);
    }
    Ok(writer)
}

/// A tar for a bag that was sealed before without one.
fn make_missing_tar(
    request: &SealRequest<'_>,
    versions: Versions<'_>,
    staging: &Staging,
    version: u32,
    remarks: &mut Vec<Remark>,
) -> Result<Option<PathBuf>, Failure> {
    let place = versions.tar(version);
    if !request.tar {
        return Ok(None);
    }
    let (bag, name) = (versions.bag(version), versions.name(version));
    staging.drop_tar()?;
    tar::write(&bag, &name, request.bagging_date, &staging.tar())?;
    if place.symlink_metadata().is_err() {
        versions.put_tar(staging.tar(), version)?;
    } else if !self_check::are_alike(&staging.tar(), &place)? {
        let tar = layout::tar_of(&versions.below(version));
        add(remarks, vec![Remark::ForeignTar { tar }]);
        return Ok(None);
    }
    Ok(Some(place))
}

/// What a new version holds otherwise than the newest one before it that is still there.
fn replaced(versions: Versions<'_>, version: u32) -> Option<Remark> {
    let old =
        (1..version).rev().find_map(|old| Some((old, self_check::listed(&versions.bag(old))?)));
    let ((old, before), now) = (old?, self_check::listed(&versions.bag(version))?);
    let changes = self_check::changes(&before, &now);
    Some(Remark::Replaces { bag: versions.below(old), changes })
}

/// What was wanted beside a bag that was sealed before without it.
fn not_added(
    request: &SealRequest<'_>,
    versions: Versions<'_>,
    bag: &Bag,
    version: u32,
) -> Result<Vec<Remark>, Failure> {
    let Some(sign) = request.sign else { return Ok(Vec::new()) };
    let history = self_check::history(&versions.bag(version)).unwrap_or_default();
    let wanted = sign(&bag.tag_manifest_with(&history))?;
    let lies = |(name, bytes): &(String, Vec<u8>)| {
        self_check::holds(&versions.bag(version).join(name), bytes)
    };
    let is_there = wanted.iter().all(lies);
    let remark = Remark::NotAdded { bag: versions.below(version) };
    Ok(if is_there { Vec::new() } else { vec![remark] })
}

fn new_entry<'a>(
    request: &SealRequest<'a>,
    versions: Versions<'_>,
    version: u32,
    bag: &Bag,
) -> NewEntry<'a> {
    NewEntry {
        event: Event::Sealed,
        job: request.job,
        version,
        bag: versions.below(version),
        sha256: bag.digest.hex(),
        time: request.sealed_at,
        keep_until: request.keep_until,
        because: None,
    }
}

fn sealed(
    versions: Versions<'_>,
    entry: &Entry,
    is_new: bool,
    tar: Option<PathBuf>,
    remarks: Vec<Remark>,
) -> Sealed {
    let (version, line) = (entry.version, entry.line);
    // Lines that this program wrote or read hold whole digests.
    let digest = Digest::parse(&entry.sha256).unwrap_or_else(|| Digest::of(&[]));
    let head = Digest::of(&entry.text().unwrap_or_default());
    let time = entry.time.clone();
    Sealed { path: versions.bag(version), version, digest, line, head, time, is_new, tar, remarks }
}

/// Adds what was not said yet.
fn add(remarks: &mut Vec<Remark>, more: Vec<Remark>) {
    for remark in more {
        if !remarks.contains(&remark) {
            remarks.push(remark);
        }
    }
}
