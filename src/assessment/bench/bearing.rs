//! Designations of bearings: kind, bore, outside diameter, width, closure, clearance class.
//!
//! In: a text such as `6804-2RS C3`, `63803 LLU MAX` or `HK1512`; out: [`Bearing`]. Bore codes and the
//! commonest suffixes as a bearing maker's tables explain them; other makers' suffixes, the long names
//! 618xx and 619xx, stainless prefixes and needle cups from memory.

pub mod sizes;

use sizes::{NARROWER_OPEN, SIZES, Size};

/// The kinds of bearing whose designations are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Single-row deep groove ball bearing.
    DeepGroove,
    /// Double-row ball bearing.
    DoubleRow,
    /// Drawn cup with needle rollers.
    NeedleCup,
}

/// What closes a bearing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Closure {
    /// Nothing.
    Open,
    /// Steel shields: against dust, not against water.
    Shields,
    /// Rubber that does not touch the ring.
    NonContactSeals,
    /// Rubber that touches the ring lightly.
    LightContactSeals,
    /// Rubber that touches the ring: the closure that is good against water.
    ContactSeals,
}

/// Class of radial clearance (ISO 5753-1), and the clearance for electric motors.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClearanceClass {
    /// Smaller than normal.
    C2,
    /// Normal; not written.
    Normal,
    /// Larger than normal.
    C3,
    /// Larger than C3.
    C4,
    /// Larger than C4.
    C5,
    /// For electric motors (not of the standard).
    Motor,
}

/// A bearing by its designation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bearing {
    /// What kind it is.
    pub kind: Kind,
    /// The basic number in its short form, such as `6804`.
    pub number: String,
    /// Bore in mm.
    pub bore: u32,
    /// Its row of the table of sizes; `None` if only the bore follows from the number.
    pub size: Option<&'static Size>,
    /// What closes it.
    pub closure: Closure,
    /// How many sides are closed: 0, 1 or 2.
    pub closed_sides: u8,
    /// Its clearance class.
    pub clearance: ClearanceClass,
    /// True if it is finer than the normal tolerance class of ISO 492.
    pub is_finer: bool,
    /// True if it is full of balls, without a cage.
    pub is_full: bool,
}

/// What a suffix says.
#[derive(Clone, Copy)]
enum Suffix {
    /// A closure with the sides it closes.
    Closed(Closure, u8),
    /// A clearance class.
    Clear(ClearanceClass),
    /// A tolerance class that is finer than normal.
    Finer,
    /// No cage, more balls.
    Full,
    /// Grease, cage, snap ring and the like: nothing that is asked here.
    Other,
}

/// Suffixes. Z, ZZ, LLB, LLH, LLU, the clearance classes and NR as a bearing maker's tables explain
/// them; the rest of other makers, from memory.
const SUFFIXES: &[(&str, Suffix)] = &[
    ("Z", Suffix::Closed(Closure::Shields, 1)),
    ("ZZ", Suffix::Closed(Closure::Shields, 2)),
    ("2Z", Suffix::Closed(Closure::Shields, 2)),
    ("2ZR", Suffix::Closed(Closure::Shields, 2)),
    ("LB", Suffix::Closed(Closure::NonContactSeals, 1)),
    ("LLB", Suffix::Closed(Closure::NonContactSeals, 2)),
    ("RZ", Suffix::Closed(Closure::NonContactSeals, 1)),
    ("2RZ", Suffix::Closed(Closure::NonContactSeals, 2)),
    ("V", Suffix::Closed(Closure::NonContactSeals, 1)),
    ("VV", Suffix::Closed(Closure::NonContactSeals, 2)),
    ("LH", Suffix::Closed(Closure::LightContactSeals, 1)),
    ("LLH", Suffix::Closed(Closure::LightContactSeals, 2)),
    ("RSL", Suffix::Closed(Closure::LightContactSeals, 1)),
    ("2RSL", Suffix::Closed(Closure::LightContactSeals, 2)),
    ("DW", Suffix::Closed(Closure::LightContactSeals, 1)),
    ("DDW", Suffix::Closed(Closure::LightContactSeals, 2)),
    ("LU", Suffix::Closed(Closure::ContactSeals, 1)),
    ("LLU", Suffix::Closed(Closure::ContactSeals, 2)),
    ("RS", Suffix::Closed(Closure::ContactSeals, 1)),
    ("RS1", Suffix::Closed(Closure::ContactSeals, 1)),
    ("RSH", Suffix::Closed(Closure::ContactSeals, 1)),
    ("RSR", Suffix::Closed(Closure::ContactSeals, 1)),
    ("2RS", Suffix::Closed(Closure::ContactSeals, 2)),
    ("2RS1", Suffix::Closed(Closure::ContactSeals, 2)),
    ("2RS2", Suffix::Closed(Closure::ContactSeals, 2)),
    ("2RSH", Suffix::Closed(Closure::ContactSeals, 2)),
    ("2RSR", Suffix::Closed(Closure::ContactSeals, 2)),
    ("2RSV", Suffix::Closed(Closure::ContactSeals, 2)),
    ("2RK", Suffix::Closed(Closure::ContactSeals, 2)),
    ("2NSE", Suffix::Closed(Closure::ContactSeals, 2)),
    ("D", Suffix::Closed(Closure::ContactSeals, 1)),
    ("DD", Suffix::Closed(Closure::ContactSeals, 2)),
    ("DU", Suffix::Closed(Closure::ContactSeals, 1)),
    ("DDU", Suffix::Closed(Closure::ContactSeals, 2)),
    ("C2", Suffix::Clear(ClearanceClass::C2)),
    ("CN", Suffix::Clear(ClearanceClass::Normal)),
    ("C0", Suffix::Clear(ClearanceClass::Normal)),
    ("C3", Suffix::Clear(ClearanceClass::C3)),
    ("C4", Suffix::Clear(ClearanceClass::C4)),
    ("C5", Suffix::Clear(ClearanceClass::C5)),
    ("CM", Suffix::Clear(ClearanceClass::Motor)),
    ("P6", Suffix::Finer),
    ("P5", Suffix::Finer),
    ("P4", Suffix::Finer),
    ("P2", Suffix::Finer),
    ("P0", Suffix::Other),
    ("MAX", Suffix::Full),
    ("N", Suffix::Other),
    ("NR", Suffix::Other),
    ("E", Suffix::Other),
    ("J", Suffix::Other),
    ("TN", Suffix::Other),
    ("TN9", Suffix::Other),
    ("TVH", Suffix::Other),
    ("5K", Suffix::Other),
    ("2AS", Suffix::Other),
    ("AS", Suffix::Other),
    ("SRL", Suffix::Other),
    ("MT33", Suffix::Other),
    ("MT47", Suffix::Other),
];

/// Series with the long names that mean the same (ISO 15); the longest names first.
const SERIES: &[(&str, Kind, &[&str])] = &[
    ("638", Kind::DeepGroove, &[]),
    ("160", Kind::DeepGroove, &[]),
    ("68", Kind::DeepGroove, &["618"]),
    ("69", Kind::DeepGroove, &["619"]),
    ("60", Kind::DeepGroove, &[]),
    ("62", Kind::DeepGroove, &[]),
    ("63", Kind::DeepGroove, &[]),
    ("38", Kind::DoubleRow, &[]),
];

/// A basic number: kind, short form, bore in mm.
struct Basic {
    kind: Kind,
    number: String,
    bore: u32,
}

impl Bearing {
    /// Reads a designation; `None` if it is none of a bearing known here.
    ///
    /// A suffix that is not known makes the whole designation unknown: it could change the bearing.
    pub fn parse(designation: &str) -> Option<Self> {
        let (mut bearing, suffixes) = Self::open(designation)?;
        for suffix in suffixes.split(['-', ' ', '/', '.', ',']).filter(|one| !one.is_empty()) {
            bearing.add_all(suffix)?;
        }
        if bearing.closed_sides == 0 {
            let narrower = NARROWER_OPEN.iter().find(|size| size.number == bearing.number);
            bearing.size = narrower.or(bearing.size);
        }
        Some(bearing)
    }

    /// Bore and size by the basic number alone, whatever its suffixes; for seats, which hang on nothing
    /// else but the tolerance class.
    pub fn by_number(designation: &str) -> Option<Self> {
        Self::parse(designation).or_else(|| Some(Self::open(designation)?.0))
    }

    /// The bearing without its suffixes, and the suffixes.
    fn open(designation: &str) -> Option<(Self, String)> {
        let text = designation.trim().to_ascii_uppercase();
        let (basic, suffixes) = lettered(&text).or_else(|| numbered(without_prefix(&text)))?;
        let size = SIZES.iter().find(|size| size.number == basic.number);
        let bearing = Self {
            kind: basic.kind,
            number: basic.number,
            bore: size.map_or(basic.bore, |size| size.bore),
            size,
            closure: Closure::Open,
            closed_sides: 0,
            clearance: ClearanceClass::Normal,
            is_finer: false,
            is_full: false,
        };
        Some((bearing, suffixes))
    }

    /// Reads suffixes that may be written as one, such as `ZZC3` or `LLU5K`: the longest first.
    fn add_all(&mut self, mut text: &str) -> Option<()> {
        while !text.is_empty() {
            let known = SUFFIXES.iter().filter(|(name, _)| text.starts_with(name));
            let (name, suffix) = known.max_by_key(|(name, _)| name.len())?;
            match *suffix {
                Suffix::Closed(..) if self.closed_sides != 0 => return None,
                Suffix::Closed(closure, sides) => {
                    (self.closure, self.closed_sides) = (closure, sides);
                }
                Suffix::Clear(class) => self.clearance = class,
                Suffix::Finer => self.is_finer = true,
                Suffix::Full => self.is_full = true,
                Suffix::Other => {}
            }
            text = &text[name.len()..];
        }
        Some(())
    }
}

/// Stainless rings have a letter before the number: `S6804`, `SS6804`, `W6804`.
fn without_prefix(text: &str) -> &str {
    let rest = text.trim_start_matches(['S', 'W']);
    let is_prefix = text.len() - rest.len() <= 2 && rest.len() < text.len();
    if is_prefix { rest.trim_start_matches(['-', ' ']) } else { text }
}

/// `HK1512` is a needle cup of 15 mm bore and 12 mm width; `MR17287` has its sizes for a name.
fn lettered(text: &str) -> Option<(Basic, String)> {
    let (kind, name) = match text.get(..2)? {
        "HK" => (Kind::NeedleCup, "HK"),
        "MR" => (Kind::DeepGroove, "MR"),
        _ => return None,
    };
    let rest = text[2..].trim_start();
    let end = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
    let number = format!("{name}{}", &rest[..end]);
    let bore = match kind {
        Kind::NeedleCup if end == 4 => rest[..2].parse().ok().filter(|bore| 3 <= *bore)?,
        _ => SIZES.iter().find(|size| size.number == number)?.bore,
    };
    Some((Basic { kind, number, bore }, rest[end..].to_owned()))
}

/// `6804-2RS`: series and bore code, then suffixes.
fn numbered(text: &str) -> Option<(Basic, String)> {
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '/')).unwrap_or(text.len());
    let (number, suffixes) = number_and_suffixes(text, end);
    let (series, kind, code) = split(number)?;
    let basic = Basic { kind, number: format!("{series}{code}"), bore: bore(code)? };
    Some((basic, suffixes.to_owned()))
}

/// Parts number and suffixes: `6804-2RS` and `60042RS` have digits on both sides of the border.
fn number_and_suffixes(text: &str, end: usize) -> (&str, &str) {
    let (number, rest) = text.split_at(end);
    let number = number.trim_end_matches('/');
    if rest.starts_with(['R', 'Z']) {
        let shorter = number.strip_suffix('2').map(|shorter| shorter.trim_end_matches('/'));
        if let Some(plain) = shorter.filter(|plain| split(plain).is_some_and(is_listed)) {
            return (plain, &text[number.len() - 1..]);
        }
    }
    (number, rest)
}

fn is_listed((series, _, code): (&'static str, Kind, &str)) -> bool {
    SIZES.iter().any(|size| size.number.strip_prefix(series) == Some(code))
}

/// Series in its short form and bore code.
fn split(number: &str) -> Option<(&'static str, Kind, &str)> {
    for (series, kind, long) in SERIES {
        for name in long.iter().chain([series]) {
            if let Some(code) = number.strip_prefix(name)
                && bore(code).is_some()
            {
                return Some((
                    series,
                    *kind,
                    code.strip_prefix('/').filter(|own| own.len() == 1).unwrap_or(code),
                ));
            }
        }
    }
    None
}

/// Bore in mm by its code: one digit as it is, 00 to 03 by the list, two digits times five, `/22`.
fn bore(code: &str) -> Option<u32> {
    if let Some(plain) = code.strip_prefix('/') {
        return plain.parse().ok().filter(|bore| (1..=500).contains(bore));
    }
    if !code.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let number: u32 = code.parse().ok()?;
    match (code.len(), number) {
        (1, 1..=9) => Some(number),
        (2, 0) => Some(10),
        (2, 1) => Some(12),
        (2, 2) => Some(15),
        (2, 3) => Some(17),
        (2, 4..=99) => Some(number * 5),
        _ => None,
    }
}
