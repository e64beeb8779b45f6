//! Boundary dimensions of deep groove ball bearings (ISO 15), a table for a person to edit.
//!
//! Read in a bearing maker's catalogue (2202/E, size tables); the series 60, 160 and 608 agree with
//! an open parts library, the first rows of 68 and 69 with a second maker's catalogue. Load ratings
//! differ from maker to maker and are left out.

/// A row of the table, all in mm.
#[derive(Debug, PartialEq, Eq)]
pub struct Size {
    /// Basic number.
    pub number: &'static str,
    /// Bore.
    pub bore: u32,
    /// Outside diameter.
    pub outside: u32,
    /// Width.
    pub width: u32,
}

const fn size(number: &'static str, bore: u32, outside: u32, width: u32) -> Size {
    Size { number, bore, outside, width }
}

/// Every bearing whose dimensions are known here.
pub const SIZES: &[Size] = &[
    size("626", 6, 19, 6),
    size("607", 7, 19, 6),
    size("627", 7, 22, 7),
    size("608", 8, 22, 7),
    size("628", 8, 24, 8),
    size("609", 9, 24, 7),
    size("629", 9, 26, 8),
    size("699", 9, 20, 6),
    size("6000", 10, 26, 8),
    size("6001", 12, 28, 8),
    size("6002", 15, 32, 9),
    size("6003", 17, 35, 10),
    size("6004", 20, 42, 12),
    size("6005", 25, 47, 12),
    size("6006", 30, 55, 13),
    size("6201", 12, 32, 10),
    size("6202", 15, 35, 11),
    size("6205", 25, 52, 15),
    size("6207", 35, 72, 17),
    size("6800", 10, 19, 5),
    size("6801", 12, 21, 5),
    size("6802", 15, 24, 5),
    size("6803", 17, 26, 5),
    size("6804", 20, 32, 7),
    size("6805", 25, 37, 7),
    size("6806", 30, 42, 7),
    size("6807", 35, 47, 7),
    size("6808", 40, 52, 7),
    size("6900", 10, 22, 6),
    size("6901", 12, 24, 6),
    size("6902", 15, 28, 7),
    size("6903", 17, 30, 7),
    size("6904", 20, 37, 9),
    size("6905", 25, 42, 9),
    size("6906", 30, 47, 9),
    size("16001", 12, 28, 7),
    size("16002", 15, 32, 8),
    size("16003", 17, 35, 8),
    size("16004", 20, 42, 8),
    size("16005", 25, 47, 8),
    size("16006", 30, 55, 9),
];
