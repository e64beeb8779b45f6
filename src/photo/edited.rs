//! What a file's metadata say of changes after it was taken: times, program and XMP packet ->
//! [`Edited`], or nothing.
//!
//! A fact is taken only if the file states it. The name of a program alone states nothing: phones
//! write their system there. Nor does a missing thumbnail, which many phones never write, nor missing
//! metadata, which messengers strip. Not here: reading the Exif block (`exif_block`) and wording.

mod xmp;

use chrono::TimeDelta;

use crate::photo::taken::Taken;

/// A camera writes the file's time when it has developed the picture; longer than this, in seconds,
/// and something else wrote it. Own judgement, no source.
const DEVELOPING_SECONDS: i64 = 60;

/// Longest name of a program in characters.
const NAME_CHARS: usize = 80;

/// A change after the picture was taken, as the file itself states it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edited {
    /// What states it.
    pub sign: EditSign,
    /// The program that is named as the last to write the file.
    pub by: Option<String>,
}

/// What states a change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EditSign {
    /// IPTC's digital source type: put together from several pictures, or made by a program.
    Composed,
    /// Exif `DateTime` (0x0132, when the file was changed) is later than `DateTimeOriginal` by
    /// this much.
    Later(TimeDelta),
    /// `xmpMM:History` (ISO 16684-1) lists this many changes to the picture.
    Steps(u32),
}

/// What the Exif block says of the file's last change.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct LastChange {
    /// `DateTime` with its fraction and offset.
    pub(super) at: Option<Taken>,
    /// `Software`.
    pub(super) by: Option<String>,
}

/// The change that the metadata state, the plainest statement first.
pub(super) fn of(
    taken: Option<&Taken>,
    last: &LastChange,
    packet: Option<&[u8]>,
) -> Option<Edited> {
    let xmp = packet.map(xmp::read).unwrap_or_default();
    let later = taken.zip(last.at.as_ref()).and_then(|(taken, changed)| later(taken, changed));
    let sign = if xmp.is_composed {
        EditSign::Composed
    } else if let Some(by) = later {
        EditSign::Later(by)
    } else if 0 < xmp.steps {
        EditSign::Steps(xmp.steps)
    } else {
        return None;
    };
    let by = xmp.by.or_else(|| last.by.clone()).and_then(|name| program(&name));
    Some(Edited { sign, by })
}

/// By how much `changed` is later, if that is more than developing takes.
///
/// Two clocks of known zone are compared as instants, others as they show. If a zone is unknown, a
/// difference of whole quarter hours up to 14 hours may be nothing but the zone, and is passed over.
fn later(taken: &Taken, changed: &Taken) -> Option<TimeDelta> {
    let shown = changed.local - taken.local;
    let (by, known) = match (taken.offset, changed.offset) {
        (Some(own), Some(other)) => {
            let zones = i64::from(other.local_minus_utc()) - i64::from(own.local_minus_utc());
            (shown - TimeDelta::seconds(zones), true)
        }
        _ => (shown, false),
    };
    let seconds = by.num_seconds();
    let beside = (seconds + 450).rem_euclid(900) - 450;
    let may_be_zone = !known && beside.abs() <= 2 && seconds <= 14 * 3600 + 2;
    (DEVELOPING_SECONDS < seconds && !may_be_zone).then_some(by)
}

/// A program's name on one clean line; `None` for a bare version or build number, as phones write
/// their system's: a name starts with three letters.
fn program(text: &str) -> Option<String> {
    let clean: String = text
        .chars()
        .map(|sign| if sign.is_whitespace() { ' ' } else { sign })
        .filter(|sign| sign.is_ascii_graphic() || sign.is_alphanumeric() || *sign == ' ')
        .filter(|sign| *sign != '`')
        .collect();
    let words: Vec<&str> = clean.split_whitespace().collect();
    let name: String = words.join(" ").chars().take(NAME_CHARS).collect();
    let letters = name.chars().take_while(|sign| sign.is_alphabetic()).count();
    (3 <= letters).then_some(name)
}
