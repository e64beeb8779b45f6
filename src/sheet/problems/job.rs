//! Messages about a job whose values can all be read: what does not fit together, or is not there.

use super::nearest::nearest;
use crate::diagnostic::{Diagnostic, Place};

/// A part that the catalogue lacks, left without a name.
pub fn other_is_not_called(place: Place) -> Diagnostic {
    Diagnostic::error("sheet/other-not-called", place, "this part has no name")
        .hint("add `called: NAME`, the words that the papers print for it")
}

/// Text that is still the blank sheet's example.
pub fn example_left(place: Place, key: &str) -> Diagnostic {
    let message = format!("`{key}` still says what the blank sheet shows as an example");
    Diagnostic::warning("sheet/example-left", place, message)
        .hint("write what is true of this job, or take the line out")
}

/// Text that a `#` cuts off.
pub fn cut_text(place: Place, lost: &str) -> Diagnostic {
    let message = format!("`{lost}` is not read: a `#` after a blank starts a remark");
    Diagnostic::warning("sheet/cut-text", place, message)
        .hint("put the text in quotes, such as `\"error #503\"`; a remark starts with `# `")
}

/// Two days of the job in the wrong order.
pub fn date_order(place: Place, later: &str, earlier: &str, first: Place) -> Diagnostic {
    let message = format!("{later} comes before {earlier}");
    Diagnostic::error("sheet/date-order", place, message)
        .also(first, earlier)
        .hint("correct the day that was mistyped")
}

/// A photo that is not in the job folder.
pub fn photo_missing(place: Place, name: &str, in_folder: &[&str]) -> Diagnostic {
    let unlike_case = in_folder.iter().find(|other| other.eq_ignore_ascii_case(name));
    let hint = match unlike_case {
        Some(other) => format!("the folder has `{other}`: capitals count"),
        None => nearest(name, in_folder).unwrap_or_else(|| {
            "copy the photo into the job folder, or take it off the sheet".into()
        }),
    };
    Diagnostic::error(
        "photo/missing",
        place,
        format!("there is no photo `{name}` in the job folder"),
    )
    .hint(hint)
}

/// A track that the sheet names and the folder does not hold.
pub fn track_missing(place: Place, name: &str, files: &[&str]) -> Diagnostic {
    let hint = nearest(name, files).unwrap_or_else(|| {
        "put the track beside the sheet, or leave out `track:` and type the values".into()
    });
    let message = format!("there is no track `{name}` in the job folder");
    Diagnostic::error("ride/no-track", place, message).hint(hint)
}

/// A quantity that no job of this trade has: a slip of the unit or of a zero.
pub fn implausible(place: Place, found: &str, what: &str, usual: &str) -> Diagnostic {
    let message = format!("`{found}` is hardly right for {what}");
    Diagnostic::warning("sheet/implausible", place, message)
        .hint(format!("check the unit and the zeros; {usual} is usual"))
}

/// One part judged in two ways that exclude each other.
pub fn judged_twice(place: Place, part: &str, first: Place) -> Diagnostic {
    let message = format!("`{part}` is judged twice, sound and not sound");
    Diagnostic::warning("sheet/judged-twice", place, message)
        .also(first, "judged here first")
        .hint("keep one finding for one part, or say in `note:` which of several is meant")
}

/// A file name that climbs out of the job folder.
pub fn path_climbs(place: Place, name: &str) -> Diagnostic {
    let message = format!("`{name}` leads out of the folder of this file");
    Diagnostic::error("sheet/path", place, message)
        .hint("copy that file beside this one and give its name alone")
}

/// A photo that nothing on the sheet names.
pub fn photo_unused(place: Place) -> Diagnostic {
    Diagnostic::warning("photo/unused", place, "no finding uses this photo")
        .hint("add it to a finding's `photos:`; it is listed as evidence all the same")
}

/// A film or AVIF beside the photos.
pub fn passed_over(place: Place, what: &str) -> Diagnostic {
    Diagnostic::warning("photo/passed-over", place, format!("{what} is passed over"))
        .hint("only still photos are printed: JPEG, PNG, WebP, TIFF, BMP, HEIC")
}

/// A part that such a unit does not have.
pub fn not_on_this_kind(place: Place, part: &str, kind: &str) -> Diagnostic {
    let message = format!("a {kind} unit has no `{part}`");
    Diagnostic::warning("sheet/part-of-other-kind", place, message)
        .hint("check `unit: kind:` and the part's name; it is printed, but not on the drawing")
}

/// A sign observed and also listed as looked for and not found.
pub fn seen_and_not_seen(place: Place, sign: &str, seen: Place) -> Diagnostic {
    let message = format!("`{sign}` is listed as not seen, but a finding has it");
    Diagnostic::error("sheet/contradiction", place, message).also(seen, "seen here")
}

/// A sign on a part that cannot show it.
pub fn sign_elsewhere(place: Place, sign: &str, part: &str, on: &str) -> Diagnostic {
    let message = format!("`{sign}` is not a sign of `{part}`");
    Diagnostic::warning("sheet/sign-elsewhere", place, message)
        .hint(format!("it can be on: {on}; is it the right sign, on the right part?"))
}

/// An outcome that the rest of the sheet does not carry.
pub fn outcome_lacks(place: Place, outcome: &str, lacks: &str) -> Diagnostic {
    Diagnostic::error("sheet/outcome", place, format!("the outcome `{outcome}` needs `{lacks}`"))
        .hint(format!("add `{lacks}:` to the sheet"))
}

/// An outcome that a finding contradicts.
pub fn outcome_doubted(place: Place, outcome: &str, part: &str, finding: Place) -> Diagnostic {
    let message = format!("the outcome is `{outcome}`, and `{part}` says otherwise");
    Diagnostic::warning("sheet/outcome-doubted", place, message)
        .also(finding, "by its condition or by what was done to it")
        .hint("correct the outcome, the condition or the action: the report is written from all three")
}

/// An outcome without a fault beside a cause that is one.
pub fn cause_of_no_fault(place: Place, cause: &str, stated: Place) -> Diagnostic {
    let message = format!("the outcome is `no-fault-found`, and the cause is `{cause}`");
    Diagnostic::warning("sheet/outcome-doubted", place, message)
        .also(stated, "the cause of a fault")
        .hint("correct one of them; `main: undetermined` leaves the cause open")
}

/// A cause without a fault beside a part that failed or was damaged.
pub fn no_fault_doubted(place: Place, part: &str, finding: Place) -> Diagnostic {
    let message = format!("the cause is `no-fault-found`, and `{part}` says otherwise");
    Diagnostic::warning("sheet/outcome-doubted", place, message)
        .also(finding, "by its condition")
        .hint("correct the cause or the condition; `main: undetermined` leaves the cause open")
}

/// One photo for a part as found and as left.
pub fn photo_found_and_left(place: Place, name: &str, found: Place) -> Diagnostic {
    let message = format!("`{name}` cannot show both what was found and what was left");
    Diagnostic::error("photo/found-and-left", place, message)
        .also(found, "as found")
        .hint("name it in one of the two places")
}

/// One photo twice in the same list.
pub fn photo_twice(place: Place, name: &str, first: Place) -> Diagnostic {
    Diagnostic::warning("photo/twice", place, format!("`{name}` is named twice in this list"))
        .also(first, "first here")
        .hint("leave one out, or is another photo meant?")
}

/// A first sign at a higher mileage than the unit has now.
pub fn noticed_too_far(place: Place) -> Diagnostic {
    let message = "the first sign was noticed at a higher mileage than the unit has now";
    Diagnostic::error("sheet/distance-order", place, message)
        .hint("check `arrival: noticed: at:` and `unit: ridden:`, with their units")
}
