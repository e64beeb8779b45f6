//! Parts of a sheet against its kind of unit, and names for parts that the catalogue lacks.
//!
//! In: a [`Sheet`]; out: problems. Words near an unknown one are looked for by the reader.

use crate::diagnostic::Problems;
use crate::sheet::catalogue::OTHER;
use crate::sheet::problems;
use crate::sheet::typed::Sheet;

/// Checks every finding's part.
pub(super) fn check(sheet: &Sheet, problems: &mut Problems) {
    let kind = sheet.fields.unit.kind;
    for finding in sheet.fields.findings() {
        let place = sheet.place(&finding.part.span);
        if !finding.part.0.is_of(kind) {
            problems.push(problems::not_on_this_kind(place, finding.part.name(), kind.word()));
            continue;
        }
        let typed = sheet.source.text().get(finding.part.span.clone()).unwrap_or_default();
        let is_other = typed.trim_matches(['\'', '"']) == OTHER;
        if is_other && finding.own_name().is_none() {
            problems.push(problems::other_is_not_called(place));
        }
    }
}
