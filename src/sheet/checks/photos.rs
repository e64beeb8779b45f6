//! Where a sheet names one photo: not as found and as left at once, and once in a list.
//!
//! In: a [`Sheet`]; out: problems. Whether the folder holds the photo is asked by the album, and
//! whether two files hold the same picture by the photo stage.

use crate::diagnostic::Problems;
use crate::sheet::photo_use::PhotoUse;
use crate::sheet::problems;
use crate::sheet::typed::Sheet;

/// Checks every list of photos.
pub(super) fn check(sheet: &Sheet, problems: &mut Problems) {
    let arrival = &sheet.fields.arrival.photos;
    once(sheet, arrival, problems);
    for finding in sheet.fields.findings() {
        once(sheet, &finding.photos, problems);
        once(sheet, &finding.photos_after, problems);
        apart(sheet, arrival.iter().chain(&finding.photos), &finding.photos_after, problems);
    }
    if let Some(exchange) = &sheet.fields.exchange {
        once(sheet, &exchange.photos, problems);
        apart(sheet, arrival.iter(), &exchange.photos, problems);
    }
}

/// A photo cannot show a part both before and after the work.
fn apart<'a>(
    sheet: &Sheet,
    before: impl Iterator<Item = &'a PhotoUse> + Clone,
    after: &[PhotoUse],
    problems: &mut Problems,
) {
    for left in after {
        if let Some(found) = before.clone().find(|found| found.file.value == left.file.value) {
            let (place, first) = (sheet.place(&left.file.span), sheet.place(&found.file.span));
            problems.push(problems::photo_found_and_left(place, &left.file.0, first));
        }
    }
}

fn once(sheet: &Sheet, list: &[PhotoUse], problems: &mut Problems) {
    for (at, photo) in list.iter().enumerate() {
        if let Some(first) = list[..at].iter().find(|first| first.file.value == photo.file.value) {
            let (place, first) = (sheet.place(&photo.file.span), sheet.place(&first.file.span));
            problems.push(problems::photo_twice(place, &photo.file.0, first));
        }
    }
}
