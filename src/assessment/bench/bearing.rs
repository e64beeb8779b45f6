//! Designations of deep groove ball bearings: bore, outside diameter, width, closure, clearance
//! class.
//!
//! In: a text such as `6804-2RS C3`; out: [`Bearing`]. Bore codes and suffixes after a bearing
//! maker's catalogue (2202/E, tables 2.3 to 2.5); other makers' suffixes and the long names 618xx
//! and 619xx from memory. Other kinds of bearing are not known here.

pub mod sizes;

use sizes::{SIZES, Size};

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

/// A deep groove ball bearing by its designation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bearing {
    /// The basic number in its short form, such as `6804`.
    pub number: String,
    /// Bore in mm.
    pub bore: u32,
    /// Its row of the table of sizes; `None` where only the bore follows from the number.
    pub size: Option<&'static Size>,
    /// What closes it.
    pub closure: Closure,
    /// How many sides are closed: 0, 1 or 2.
    pub closed_sides: u8,
    /// Its clearance class.
    pub clearance: ClearanceClass,
    /// True where it is finer than the normal tolerance class of ISO 492.
    pub is_finer: bool,
}

/// Suffixes of closures with the sides they close.
///
/// Z, ZZ, LLB, LLH, LLU: catalogue 2202/E, tables 2.5 and 7.3; the rest of other makers, from
/// memory.
const CLOSURES: &[(&str, Closure, u8)] = &[
    ("Z", Closure::Shields, 1),
    ("ZZ", Closure::Shields, 2),
    ("2Z", Closure::Shields, 2),
    ("LB", Closure::NonContactSeals, 1),
    ("LLB", Closure::NonContactSeals, 2),
    ("LH", Closure::LightContactSeals, 1),
    ("LLH", Closure::LightContactSeals, 2),
    ("LU", Closure::ContactSeals, 1),
    ("LLU", Closure::ContactSeals, 2),
    ("RS", Closure::ContactSeals, 1),
    ("RS1", Closure::ContactSeals, 1),
    ("2RS", Closure::ContactSeals, 2),
    ("2RS1", Closure::ContactSeals, 2),
    ("2RSR", Closure::ContactSeals, 2),
    ("DDU", Closure::ContactSeals, 2),
];

/// Suffixes of clearance classes (catalogue 2202/E, table 2.5).
const CLEARANCES: &[(&str, ClearanceClass)] = &[
    ("C2", ClearanceClass::C2),
    ("CN", ClearanceClass::Normal),
    ("C3", ClearanceClass::C3),
    ("C4", ClearanceClass::C4),
    ("C5", ClearanceClass::C5),
    ("CM", ClearanceClass::Motor),
];

/// Suffixes of tolerance classes (ISO 492) that are finer than normal.
const FINER: &[&str] = &["P6", "P5", "P4", "P2"];

/// Series with the long names that mean the same (ISO 15; long names from memory).
const SERIES: &[(&str, &[&str])] =
    &[("68", &["618"]), ("69", &["619"]), ("160", &[]), ("60", &[]), ("62", &[]), ("63", &[])];

impl Bearing {
    /// Reads a designation; `None` where it is none of a deep groove ball bearing known here.
    ///
    /// A suffix that is not known makes the whole designation unknown: it could change the bearing.
    pub fn parse(designation: &str) -> Option<Self> {
        let text: String = designation.trim().to_ascii_uppercase();
        let end = text.find(|c: char| !(c.is_ascii_digit() || c == '/')).unwrap_or(text.len());
        let (number, suffixes) = number_and_suffixes(&text, end);
        let (series, code) = split(number)?;
        let bore = bore(code)?;
        let number = format!("{series}{code}");
        let size = SIZES.iter().find(|size| size.number == number);
        let mut bearing = Self {
            number,
            bore: size.map_or(bore, |size| size.bore),
            size,
            closure: Closure::Open,
            closed_sides: 0,
            clearance: ClearanceClass::Normal,
            is_finer: false,
        };
        let suffixes = suffixes.split(['-', ' ', '/', '.']).filter(|one| !one.is_empty());
        for suffix in suffixes {
            bearing.add(suffix)?;
        }
        Some(bearing)
    }

    fn add(&mut self, suffix: &str) -> Option<()> {
        if let Some((_, closure, sides)) = CLOSURES.iter().find(|row| row.0 == suffix) {
            if self.closed_sides != 0 {
                return None;
            }
            (self.closure, self.closed_sides) = (*closure, *sides);
        } else if let Some((_, class)) = CLEARANCES.iter().find(|row| row.0 == suffix) {
            self.clearance = *class;
        } else if FINER.contains(&suffix) {
            self.is_finer = true;
        } else if suffix != "P0" {
            // A closure and a class may be written as one: `ZZC3`.
            let (closure, class) = suffix.split_at_checked(suffix.len().checked_sub(2)?)?;
            if closure.is_empty() || !CLEARANCES.iter().any(|row| row.0 == class) {
                return None;
            }
            self.add(closure)?;
            self.add(class)?;
        }
        Some(())
    }
}

/// Parts number and suffixes: `6804-2RS` and `60042RS` have digits on both sides of the border.
fn number_and_suffixes(text: &str, end: usize) -> (&str, &str) {
    let (number, rest) = text.split_at(end);
    let number = number.trim_end_matches('/');
    if rest.starts_with("RS") || rest.starts_with('Z') {
        let shorter = number.strip_suffix('2').map(|shorter| shorter.trim_end_matches('/'));
        if let Some(plain) = shorter.filter(|plain| split(plain).is_some_and(is_listed)) {
            return (plain, &text[number.len() - 1..]);
        }
    }
    (number, rest)
}

fn is_listed((series, code): (&'static str, &str)) -> bool {
    SIZES.iter().any(|size| size.number.strip_prefix(series) == Some(code))
}

/// Series in its short form and bore code.
fn split(number: &str) -> Option<(&'static str, &str)> {
    for (series, long) in SERIES {
        for name in long.iter().chain([series]) {
            if let Some(code) = number.strip_prefix(name)
                && bore(code).is_some()
            {
                return Some((
                    series,
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
