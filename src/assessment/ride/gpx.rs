//! GPX bytes to the points of a track, and nothing else of the file.
//!
//! One pass over the bytes without building a tree: depth, points and lengths are bounded, a document
//! type is refused before any entity could be defined, entities are never resolved, and extensions
//! are stepped over. Fields after the GPX 1.1 schema (topografix.com/GPX/1/1); a point outside the
//! schema's ranges is counted and left out. Cleaning is not here.

use chrono::{DateTime, NaiveDateTime};
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};

use super::refusal::Refusal;
use super::rule;

/// A recorded point. It stays within this module's siblings.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fix {
    /// Degrees, -90 to 90, and degrees, -180 to below 180.
    pub place: (f64, f64),
    /// Metres above the sea.
    pub height: Option<f64>,
    /// Milliseconds since 1970 in UTC.
    pub time: Option<i64>,
    /// Number of its segment; nothing is measured from one to the next.
    pub segment: u32,
}

/// The points of a file in its order.
#[derive(Debug, Default)]
pub(super) struct Track {
    /// Usable points.
    pub fixes: Vec<Fix>,
    /// Points without a place, or with one outside the schema's ranges.
    pub off_earth: usize,
}

/// Elements that are read; the rest is skipped.
#[derive(Clone, Copy, PartialEq)]
enum Element {
    Gpx,
    Track,
    Segment,
    Point,
    Height,
    Time,
    Other,
}

/// Reads the points of a file.
pub(super) fn track(bytes: &[u8]) -> Result<Track, Refusal> {
    if bytes.is_empty() {
        return Err(Refusal::Empty);
    }
    if bytes.len() > rule::BYTES {
        return Err(Refusal::TooLarge(bytes.len()));
    }
    if bytes.contains(&0) {
        return Err(Refusal::NotUtf8);
    }
    // Other codes than UTF-8 differ in names, which are not read; numbers and tags are ASCII.
    let text = String::from_utf8_lossy(bytes);
    let mut reader = Reader::from_str(text.strip_prefix('\u{feff}').unwrap_or(&text));
    reader.config_mut().expand_empty_elements = true;
    let mut walk = Walk::default();
    loop {
        let event = match reader.read_event() {
            Ok(event) => event,
            Err(error) => return Err(Refusal::broken(reader.error_position(), error)),
        };
        match event {
            Event::Start(start) => walk.open(&start)?,
            Event::End(_) => walk.close(),
            Event::Text(text) => walk.text(&text),
            Event::CData(text) => walk.text(&text),
            // A number with an entity in it is none; elsewhere text does not matter.
            Event::GeneralRef(_) => walk.text("&"),
            Event::DocType(_) => return Err(Refusal::DocumentType),
            Event::Eof => return walk.end(),
            Event::Empty(_) | Event::Comment(_) | Event::Decl(_) | Event::PI(_) => {}
        }
    }
}

/// Longest number or time that is read, in bytes.
const VALUE: usize = 64;

/// Where the reader is.
#[derive(Default)]
struct Walk {
    open: Vec<Element>,
    seen_root: bool,
    route: bool,
    points: usize,
    segment: u32,
    /// The point being read; `None` while none is, or if it has no usable place.
    fix: Option<Fix>,
    value: Vec<u8>,
    track: Track,
}

impl Walk {
    fn open(&mut self, start: &BytesStart<'_>) -> Result<(), Refusal> {
        if self.open.len() == rule::DEPTH {
            return Err(Refusal::TooDeep);
        }
        let name = start.local_name();
        let element = match (self.open.last(), name.as_ref()) {
            (None, name) => {
                if name != "gpx" || self.seen_root {
                    return Err(Refusal::NotGpx);
                }
                self.seen_root = true;
                check_version(start)?;
                Element::Gpx
            }
            (Some(Element::Gpx), "trk") => Element::Track,
            (Some(Element::Gpx), "rte") => {
                self.route = true;
                Element::Other
            }
            (Some(Element::Track), "trkseg") => {
                self.segment = self.segment.saturating_add(1);
                Element::Segment
            }
            (Some(Element::Segment), "trkpt") => {
                self.point(start)?;
                Element::Point
            }
            (Some(Element::Point), "ele") => Element::Height,
            (Some(Element::Point), "time") => Element::Time,
            _ => Element::Other,
        };
        self.value.clear();
        self.open.push(element);
        Ok(())
    }

    fn point(&mut self, start: &BytesStart<'_>) -> Result<(), Refusal> {
        self.points += 1;
        if self.points > rule::POINTS {
            return Err(Refusal::TooManyPoints);
        }
        let latitude = attribute(start, "lat").and_then(|text| number(text.as_bytes()));
        let longitude = attribute(start, "lon").and_then(|text| number(text.as_bytes()));
        self.fix = match (latitude, longitude) {
            (Some(latitude), Some(longitude))
                if (-90.0..=90.0).contains(&latitude) && (-180.0..180.0).contains(&longitude) =>
            {
                let place = (latitude, longitude);
                Some(Fix { place, height: None, time: None, segment: self.segment })
            }
            _ => None,
        };
        Ok(())
    }

    fn text(&mut self, text: &str) {
        if matches!(self.open.last(), Some(Element::Height | Element::Time)) {
            let room = (VALUE + 1).saturating_sub(self.value.len());
            self.value.extend(text.bytes().take(room));
        }
    }

    fn close(&mut self) {
        match (self.open.pop(), &mut self.fix) {
            (Some(Element::Height), Some(fix)) => {
                fix.height = number(&self.value).filter(is_height);
            }
            (Some(Element::Time), Some(fix)) => fix.time = time(&self.value),
            (Some(Element::Point), fix) => match fix.take() {
                Some(fix) => self.track.fixes.push(fix),
                None => self.track.off_earth += 1,
            },
            _ => {}
        }
    }

    fn end(self) -> Result<Track, Refusal> {
        if !self.seen_root {
            Err(Refusal::NotGpx)
        } else if !self.open.is_empty() {
            Err(Refusal::CutShort)
        } else if self.points == 0 {
            Err(Refusal::NoTrack { route: self.route })
        } else {
            Ok(self.track)
        }
    }
}

fn check_version(root: &BytesStart<'_>) -> Result<(), Refusal> {
    match attribute(root, "version").as_deref() {
        Some("1.1" | "1.0") => Ok(()),
        Some(other) => {
            let clean = other.chars().filter(char::is_ascii_graphic).take(8).collect();
            Err(Refusal::Version(Some(clean)))
        }
        None => Err(Refusal::Version(None)),
    }
}

/// The raw text of an attribute among the first few. Without the reader's check for repeated names,
/// which compares each with all before it.
fn attribute(start: &BytesStart<'_>, name: &str) -> Option<String> {
    let mut attributes = start.attributes();
    attributes
        .with_checks(false)
        .take(32)
        .filter_map(Result::ok)
        .find(|attribute| attribute.key.as_ref() == name)
        .map(|attribute| attribute.value.chars().take(VALUE + 1).collect())
}

/// A finite decimal number.
fn number(text: &[u8]) -> Option<f64> {
    let text = value(text)?;
    text.parse::<f64>().ok().filter(|number| number.is_finite())
}

/// From below the lowest shore to above the highest summit, with the drift of a receiver.
fn is_height(height: &f64) -> bool {
    (-600.0..=9200.0).contains(height)
}

/// ISO 8601 with or without fraction and offset, UTC if it names none, from 1980 (before which no
/// receiver had a time) to 2200.
fn time(text: &[u8]) -> Option<i64> {
    let text = value(text)?;
    let zoned = DateTime::parse_from_rfc3339(text).map(|time| time.timestamp_millis());
    let plain = || {
        NaiveDateTime::parse_from_str(text, "%Y-%m-%dT%H:%M:%S%.f")
            .map(|time| time.and_utc().timestamp_millis())
    };
    let time = zoned.or_else(|_| plain()).ok()?;
    (315_532_800_000..7_258_118_400_000).contains(&time).then_some(time)
}

fn value(text: &[u8]) -> Option<&str> {
    if text.len() > VALUE {
        return None;
    }
    std::str::from_utf8(text).ok().map(str::trim)
}
