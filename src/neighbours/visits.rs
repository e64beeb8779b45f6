//! Earlier visits of units: serial numbers of a run -> what other sheets with these numbers say.
//!
//! Every sheet of the tree and of the archive is looked through for its serial number once a run; only
//! a sheet with a number that is asked for is read whole.

use std::collections::BTreeSet;
use std::path::Path;

use super::neighbourhood::Neighbourhood;
use crate::archive::holdings;
use crate::assessment::earlier::Visits;
use crate::diagnostic::Problems;
use crate::intake::{self, SHEET};
use crate::sheet::{self, ProfileFile, serial};

/// The visits of the units with these serial numbers, as they are compared. Of a job that is both in
/// the tree and sealed, the sealed sheet counts.
pub fn visits(around: &[Neighbourhood], serials: &BTreeSet<String>) -> Visits {
    let mut visits = Visits::default();
    if serials.is_empty() {
        return visits;
    }
    for one in around {
        let jobs = intake::around::around(&one.root).jobs.into_iter();
        let bags = one.archive.as_deref().map(holdings::newest_bags).into_iter().flatten();
        let sheets = jobs.chain(bags.map(|(_, bag)| bag.join("data"))).map(|at| at.join(SHEET));
        for sheet in sheets {
            add(&mut visits, &sheet, &one.workshop.profile, serials);
        }
    }
    visits
}

fn add(visits: &mut Visits, path: &Path, profile: &ProfileFile, serials: &BTreeSet<String>) {
    let Ok(bytes) = intake::read_text_file(path, "read the sheet") else { return };
    if !serial::glimpsed(&bytes).iter().any(|serial| serials.contains(serial)) {
        return;
    }
    let name = path.display().to_string();
    if let Some(sheet) = sheet::read(&name, &bytes, profile, &mut Problems::default())
        && sheet.is_whole
    {
        visits.add(&sheet.fields);
    }
}

/// What a sheet says its serial number is, as it is compared, without reading it whole.
pub(super) fn serials_of(sheet: &Path) -> Vec<String> {
    let bytes = intake::read_text_file(sheet, "read the sheet");
    bytes.map(|bytes| serial::glimpsed(&bytes)).unwrap_or_default()
}
