//! Every message on photos and units that other jobs have too, with its code.

use super::photos::shapes::{OwnPhoto, Pair, Place};
use crate::assessment::plausibility::Shared;
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place as Where};
use crate::failure::Failure;
use crate::photo::Facts;

/// Share in thousandths from which nothing is said to be cut off.
const WHOLE_FROM: u32 = 960;

/// What is said of a photo of the same unit.
const OF_ONE: &str = "it is the same unit, come again: say in the photo's text from which visit it \
    is, or leave it in the job that it belongs to";

fn whole(name: &str) -> Where {
    Where::whole(&SourceText::named(name))
}

/// One file in the jobs of several units.
pub(super) fn same_file(shown: &str, shared: &Shared<'_>) -> Diagnostic {
    Diagnostic::warning(Shared::CODE, whole(shown), shared.message()).hint(Shared::hint())
}

/// One file in several jobs of one unit.
pub(super) fn same_file_of_unit(shown: &str, shared: &Shared<'_>) -> Diagnostic {
    let message = format!("{}, all for the same serial number", shared.message());
    Diagnostic::warning("photo/earlier-visit", whole(shown), message).hint(OF_ONE)
}

/// Two files that show one picture.
pub(super) fn same_picture(
    own: &OwnPhoto,
    other: &Place,
    pair: &Pair,
    is_one_unit: bool,
) -> Diagnostic {
    let sealed = if other.is_sealed { ", sealed in the archive" } else { "" };
    let message = format!(
        "`{}` of job `{}` shows the same picture as `{}` of job `{}`{sealed}: {}",
        own.name,
        own.job,
        other.name,
        other.job,
        differences(pair).join(", ")
    );
    let place = whole(&own.shown);
    match is_one_unit {
        // A photo that shows the same picture as one of another unit's job.
        false => Diagnostic::warning("photo/other-job", place, message).hint(Shared::hint()),
        // A photo that an earlier job of the same unit has too.
        true => {
            let message = format!("{message}; both jobs are for the same serial number");
            Diagnostic::warning("photo/earlier-visit", place, message).hint(OF_ONE)
        }
    }
}

/// In what the photo of this run differs from the other.
fn differences(pair: &Pair) -> Vec<String> {
    let (own, other) = (&pair.own, &pair.other);
    let mut found = Vec::new();
    if pair.mirrored {
        found.push("mirrored".to_owned());
    }
    if pair.agreement.shown < WHOLE_FROM {
        found.push(format!("cut to {} % of it", pair.agreement.shown / 10));
    }
    if pair.agreement.covered < WHOLE_FROM {
        found.push("with more around it".to_owned());
    }
    let is_whole = found.iter().all(|one| one == "mirrored");
    if is_whole && size(own) != size(other) {
        let ((width, height), (other_width, other_height)) = (size(own), size(other));
        found.push(format!("{width} x {height} pixels in place of {other_width} x {other_height}"));
    }
    match (&own.taken, &other.taken) {
        (None, Some(_)) => found.push("without its capture time".to_owned()),
        (Some(one), Some(two)) if one != two => {
            found.push("with another capture time".to_owned());
        }
        (Some(_), None) => found.push("with a capture time".to_owned()),
        (Some(_), Some(_)) | (None, None) => {}
    }
    if own.camera.is_none() && other.camera.is_some() {
        found.push("without its camera".to_owned());
    }
    if found.is_empty() {
        found.push("saved again".to_owned());
    }
    found
}

fn size(facts: &Facts) -> (u32, u32) {
    (facts.width, facts.height)
}

/// More pairs look alike than are compared.
pub(super) fn too_many_alike(shown: &str, most: usize) -> Diagnostic {
    let message = format!(
        "more photos of these jobs look like those of other jobs than are compared in one run: \
         {most} pairs were"
    );
    let hint = "check fewer jobs at once";
    Diagnostic::warning("photo/many-alike", whole(shown), message).hint(hint)
}

/// More photos than are compared.
pub(super) fn too_many(shown: &str, compared: usize, photos: usize) -> Diagnostic {
    let message = format!(
        "of the {photos} photos of these jobs the first {compared} were compared with those of \
         other jobs, which are many"
    );
    Diagnostic::warning("photo/many-alike", whole(shown), message).hint("check fewer jobs at once")
}

/// Photos of the archive that nobody has looked at yet.
pub(super) fn not_compared(archive: &str, photos: usize, a_run: usize) -> Diagnostic {
    let message = match photos {
        1 => "one photo of the archive is not known yet: it was not compared".to_owned(),
        _ => format!("{photos} photos of the archive are not known yet: they were not compared"),
    };
    let hint = format!(
        "every `render` and `seal` gets to know up to {a_run} of them, and keeps what they look \
         like in `.splitcase` beside `workshop.yaml`"
    );
    Diagnostic::warning("archive/not-compared", whole(archive), message).hint(hint)
}

/// What was learnt cannot be kept.
pub(super) fn not_kept(root: &str, failure: &Failure) -> Diagnostic {
    let message = format!("what photos look like is not kept for other jobs: {failure}");
    Diagnostic::warning("photo/not-kept", whole(root), message)
        .hint("let this program write to `.splitcase` beside `workshop.yaml`; nothing else is lost")
}
