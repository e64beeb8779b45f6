//! Reading a photo's Exif block: raw TIFF-structured block -> capture time, camera, location flag.
//!
//! Tags are those of CIPA DC-008 (Exif 2.32). A damaged block gives the fields that can still be
//! read. Not here: the orientation (turn), and serial numbers and the place itself, which are never
//! read at all.

use chrono::{FixedOffset, NaiveDate, NaiveDateTime, TimeDelta};
use exif::{Context, Exif, In, Reader, Tag, Value};

use crate::photo::edited::LastChange;
use crate::photo::taken::Taken;

/// Longest camera name in characters.
const CAMERA_CHARS: usize = 80;

/// `NewSubfileType` of TIFF 6.0: bit 0 says that a picture is a reduced copy of another.
const NEW_SUBFILE_TYPE: Tag = Tag(Context::Tiff, 0x00fe);

/// `DNGVersion`: the file is a digital negative.
const DNG_VERSION: Tag = Tag(Context::Tiff, 0xc612);

/// What this stage takes from an Exif block.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct ExifFacts {
    pub(super) taken: Option<Taken>,
    pub(super) camera: Option<String>,
    pub(super) last_change: LastChange,
    pub(super) has_location: bool,
    /// The file's first picture is only a preview of a camera's raw data.
    pub(super) is_raw: bool,
}

/// Reads a block that starts with its TIFF header, with or without `Exif\0\0` before it.
pub(super) fn read(block: Option<&[u8]>) -> ExifFacts {
    let Some(block) = block else {
        return ExifFacts::default();
    };
    let tiff = block.strip_prefix(b"Exif\0\0").unwrap_or(block);
    let Ok(exif) = Reader::new()
        .continue_on_error(true)
        .read_raw(tiff.to_vec())
        .or_else(|error| error.distill_partial_result(|_| ()))
    else {
        return ExifFacts::default();
    };
    let original = (Tag::DateTimeOriginal, Tag::SubSecTimeOriginal, Tag::OffsetTimeOriginal);
    let changed = (Tag::DateTime, Tag::SubSecTime, Tag::OffsetTime);
    let digitized = (Tag::DateTimeDigitized, Tag::SubSecTimeDigitized, Tag::OffsetTimeDigitized);
    ExifFacts {
        taken: taken(&exif, original).or_else(|| taken(&exif, digitized)),
        camera: camera(&exif),
        last_change: LastChange { at: taken(&exif, changed), by: ascii(&exif, Tag::Software) },
        has_location: exif.fields().any(|field| {
            matches!(field.tag, Tag::GPSLatitude | Tag::GPSLongitude) && !is_blank(&field.value)
        }),
        is_raw: exif.get_field(DNG_VERSION, In::PRIMARY).is_some()
            || exif
                .get_field(NEW_SUBFILE_TYPE, In::PRIMARY)
                .and_then(|field| field.value.get_uint(0))
                .is_some_and(|flags| flags & 1 == 1),
    }
}

fn is_blank(value: &Value) -> bool {
    match value {
        Value::Rational(parts) => parts.iter().all(|part| part.num == 0),
        _ => false,
    }
}

fn taken(exif: &Exif, (time, fraction, offset): (Tag, Tag, Tag)) -> Option<Taken> {
    let second = local_time(&ascii(exif, time)?)?;
    let fraction = ascii(exif, fraction).and_then(|digits| fraction_of_second(&digits));
    Some(Taken {
        local: second + fraction.unwrap_or_default(),
        offset: ascii(exif, offset).and_then(|text| utc_offset(&text)),
    })
}

/// `2026:03:02 14:05:09`; some cameras write other separators.
fn local_time(text: &str) -> Option<NaiveDateTime> {
    let mut numbers = text.split(|sign: char| !sign.is_ascii_digit()).filter(|n| !n.is_empty());
    let mut next = || numbers.next()?.parse::<u32>().ok();
    let (year, month, day) = (i32::try_from(next()?).ok()?, next()?, next()?);
    if !(1900..=2200).contains(&year) {
        return None;
    }
    NaiveDate::from_ymd_opt(year, month, day)?.and_hms_opt(next()?, next()?, next()?)
}

/// `164` is 164 thousandths, `5` is five tenths: the digits are behind the decimal point.
fn fraction_of_second(digits: &str) -> Option<TimeDelta> {
    let digits = digits.get(..digits.len().min(9))?;
    if digits.is_empty() || !digits.bytes().all(|digit| digit.is_ascii_digit()) {
        return None;
    }
    format!("{digits:0<9}").parse().ok().map(TimeDelta::nanoseconds)
}

/// `+01:00`, `-03:30` or `Z`.
fn utc_offset(text: &str) -> Option<FixedOffset> {
    if text == "Z" {
        return FixedOffset::east_opt(0);
    }
    let (sign, clock) = match text.split_at_checked(1)? {
        ("+", clock) => (1, clock),
        ("-", clock) => (-1, clock),
        _ => return None,
    };
    let (hours, minutes) = clock.split_once(':')?;
    let (hours, minutes): (u8, u8) = (hours.parse().ok()?, minutes.parse().ok()?);
    if hours > 14 || minutes > 59 {
        return None;
    }
    FixedOffset::east_opt(sign * (i32::from(hours) * 3600 + i32::from(minutes) * 60))
}

/// Maker and model; many models repeat the maker.
fn camera(exif: &Exif) -> Option<String> {
    let make = ascii(exif, Tag::Make);
    let model = ascii(exif, Tag::Model);
    let name = match (make, model) {
        (Some(make), Some(model)) => {
            if model.to_lowercase().starts_with(&make.to_lowercase()) {
                model
            } else {
                format!("{make} {model}")
            }
        }
        (make, model) => model.or(make)?,
    };
    Some(name.chars().take(CAMERA_CHARS).collect())
}

/// A text field on one clean line: printable signs only, without direction marks, so that a camera
/// name cannot disturb the page it is set on.
fn ascii(exif: &Exif, tag: Tag) -> Option<String> {
    let Value::Ascii(lines) = &exif.get_field(tag, In::PRIMARY)?.value else {
        return None;
    };
    let text = String::from_utf8_lossy(lines.first()?);
    let clean: String =
        text.chars().filter(|sign| sign.is_ascii_graphic() || *sign == ' ').collect();
    let words: Vec<&str> = clean.split_whitespace().collect();
    if words.is_empty() { None } else { Some(words.join(" ")) }
}
