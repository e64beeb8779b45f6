//! Seals a job: an order and an archive -> a bag beside the older ones, and a line in the register.
//!
//! The bag is made aside and put into its place by one rename, under the archive's lock, before the
//! line is added. A kill at any moment leaves the archive as it was, or with a whole bag that the
//! next seal of the job registers. Not here: what belongs into a bag (job), verifying (verify).

use std::path::{Path, PathBuf};

use super::bag::{self, Bag};
use super::entry::{Entry, Event};
use super::history::History;
use super::how_to_check;
use super::making::Making;
use super::names;
use super::order::{SealOrder, Sealed};
use super::register;
use super::registrar::{News, Registrar};
use super::remark::Remark;
use super::shelf::Shelf;
use super::{durable, tar, whole};
use crate::failure::Failure;
use crate::photo::Digest;

/// Seals a job, unless the same bytes were sealed before.
///
/// # Errors
/// A file is refused or changes meanwhile, the register has a flaw, signing fails or the disk
/// refuses. The archive holds what it held before.
pub fn seal(order: &SealOrder<'_>, archive: &Path) -> Result<Sealed, Failure> {
    let mut remarks = bag::check_names(order)?;
    let shelf = Shelf { archive, job: order.job };
    let making = begin(order, shelf, &mut remarks)?;
    let history = History::of(&register::read(archive)?);
    let bag = bag::make(order, &making.bag(), &history)?;
    let mut is_signed = false;
    loop {
        let register = register::read(archive)?;
        let (before, noticed) = shelf.sealed_before(&register, &bag);
        add(&mut remarks, noticed);
        if let Some(entry) = before {
            add(&mut remarks, not_added(order, shelf, &bag, entry.version)?);
            let tar = make_missing_tar(order, shelf, &making, entry.version, &mut remarks)?;
            return Ok(sealed(shelf, &entry, false, tar, remarks));
        }
        if let Some(sign) = order.sign.filter(|_| !is_signed) {
            bag::lay_beside(&sign(&bag.tag_manifest)?, &making.bag())?;
            is_signed = true;
        }
        let version = shelf.next_version(&register)?;
        if order.tar {
            tar::write(&making.bag(), &shelf.name(version), order.bagging_date, &making.tar())?;
        }
        let mut registrar = open_register(order, archive, &mut remarks)?;
        let now = registrar.register();
        let is_as_seen = now.sealed(order.job).eq(register.sealed(order.job));
        if !is_as_seen || shelf.next_version(now)? != version {
            // Somebody else sealed this job meanwhile.
            making.drop_tar()?;
            continue;
        }
        let entry = shelf.put(&making.bag(), &mut registrar, &news(order, shelf, version, &bag))?;
        let tar = order.tar.then(|| shelf.tar(version));
        if order.tar {
            shelf.put_tar(making.tar(), version)?;
        }
        let page = archive.join(how_to_check::NAME);
        if page.symlink_metadata().is_err() {
            durable::write_new(&page, how_to_check::ARCHIVE.as_bytes())?;
        }
        drop(registrar);
        remarks.extend(replaced(shelf, version));
        return Ok(sealed(shelf, &entry, true, tar, remarks));
    }
}

/// Registers what was left unregistered, and makes a place for the bag.
fn begin(
    order: &SealOrder<'_>,
    shelf: Shelf<'_>,
    remarks: &mut Vec<Remark>,
) -> Result<Making, Failure> {
    let mut registrar = open_register(order, shelf.archive, remarks)?;
    let found = shelf.register_found(&mut registrar, order.sealed_at)?;
    add(remarks, found);
    Making::begin(&shelf.folder(), &registrar)
}

/// Opens the register. Where its last line was torn, the bag of any job may have lost its line.
fn open_register(
    order: &SealOrder<'_>,
    archive: &Path,
    remarks: &mut Vec<Remark>,
) -> Result<Registrar, Failure> {
    let mut registrar = Registrar::open(archive)?;
    let Some(mended) = registrar.mended().cloned() else { return Ok(registrar) };
    add(remarks, vec![mended]);
    for job in Shelf::jobs(archive)?.iter().filter(|job| names::check_job(job).is_ok()) {
        let found = Shelf { archive, job }.register_found(&mut registrar, order.sealed_at)?;
        add(remarks, found);
    }
    Ok(registrar)
}

/// A tar for a bag that was sealed before without one.
fn make_missing_tar(
    order: &SealOrder<'_>,
    shelf: Shelf<'_>,
    making: &Making,
    version: u32,
    remarks: &mut Vec<Remark>,
) -> Result<Option<PathBuf>, Failure> {
    let place = shelf.tar(version);
    if !order.tar {
        return Ok(None);
    }
    let (bag, name) = (shelf.bag(version), shelf.name(version));
    making.drop_tar()?;
    tar::write(&bag, &name, order.bagging_date, &making.tar())?;
    if place.symlink_metadata().is_err() {
        shelf.put_tar(making.tar(), version)?;
    } else if !whole::are_alike(&making.tar(), &place)? {
        let tar = format!("{}.tar", shelf.below(version));
        add(remarks, vec![Remark::ForeignTar { tar }]);
        return Ok(None);
    }
    Ok(Some(place))
}

/// What a new version holds otherwise than the newest one before it that is still there.
fn replaced(shelf: Shelf<'_>, version: u32) -> Option<Remark> {
    let old = (1..version).rev().find_map(|old| Some((old, whole::listed(&shelf.bag(old))?)));
    let ((old, before), now) = (old?, whole::listed(&shelf.bag(version))?);
    let changes = whole::changes(&before, &now);
    Some(Remark::Replaces { bag: shelf.below(old), changes })
}

/// What was wanted beside a bag that was sealed before without it.
fn not_added(
    order: &SealOrder<'_>,
    shelf: Shelf<'_>,
    bag: &Bag,
    version: u32,
) -> Result<Vec<Remark>, Failure> {
    let Some(sign) = order.sign else { return Ok(Vec::new()) };
    let history = whole::history(&shelf.bag(version)).unwrap_or_default();
    let wanted = sign(&bag.tag_manifest_with(&history))?;
    let lies =
        |(name, bytes): &(String, Vec<u8>)| whole::holds(&shelf.bag(version).join(name), bytes);
    let is_there = wanted.iter().all(lies);
    let remark = Remark::NotAdded { bag: shelf.below(version) };
    Ok(if is_there { Vec::new() } else { vec![remark] })
}

fn news<'a>(order: &SealOrder<'a>, shelf: Shelf<'_>, version: u32, bag: &Bag) -> News<'a> {
    News {
        event: Event::Sealed,
        job: order.job,
        version,
        bag: shelf.below(version),
        sha256: bag.digest.hex(),
        time: order.sealed_at,
        keep_until: order.keep_until,
        because: None,
    }
}

fn sealed(
    shelf: Shelf<'_>,
    entry: &Entry,
    is_new: bool,
    tar: Option<PathBuf>,
    remarks: Vec<Remark>,
) -> Sealed {
    let (version, line) = (entry.version, entry.line);
    // Lines that this program wrote or read hold whole digests.
    let digest = Digest::parse(&entry.sha256).unwrap_or_else(|| Digest::of(&[]));
    Sealed { path: shelf.bag(version), version, digest, line, is_new, tar, remarks }
}

/// Adds what was not said yet.
fn add(remarks: &mut Vec<Remark>, more: Vec<Remark>) {
    for remark in more {
        if !remarks.contains(&remark) {
            remarks.push(remark);
        }
    }
}
