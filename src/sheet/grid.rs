//! Places on a photo's lettered grid: columns A-L, rows 1-9, finer by up to three digits (`F4.5`).
//!
//! The grid covers the upright picture. A digit after the point is a ninth of the cell, counted
//! as one reads: 1 top left, 5 the middle, 9 bottom right; without it the middle is meant. A further
//! digit is a ninth of that ninth.

use std::fmt;

use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::yaml::Node;

/// Number of columns, A to L.
pub const COLUMNS: u8 = 12;
/// Number of rows, 1 to 9.
pub const ROWS: u8 = 9;

/// Number of digits after the point: three tell places apart by a 324th of the width.
const DIGITS: usize = 3;
/// The ninth in the middle, which a digit that is left out means.
const MIDDLE: u8 = 4;

/// A place on the grid. Two spellings of one place are equal: `F4`, `F4.5`, `F4.55`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct GridPlace {
    column: u8,
    row: u8,
    ninths: [u8; DIGITS],
}

impl GridPlace {
    /// Reads `F4`, `F4.5` or `F4.527`; the letter may be small.
    pub fn parse(text: &str) -> Option<Self> {
        let (cell, digits) = match text.split_once('.') {
            Some((cell, digits)) => (cell, digits.as_bytes()),
            None => (text, &b"5"[..]),
        };
        let &[letter, figure] = cell.as_bytes() else { return None };
        let column = letter.to_ascii_uppercase().checked_sub(b'A')?;
        let row = figure.checked_sub(b'1')?;
        let mut ninths = [MIDDLE; DIGITS];
        let is_fine = (1..=DIGITS).contains(&digits.len())
            && digits.iter().all(|digit| (b'1'..=b'9').contains(digit));
        if !is_fine || COLUMNS <= column || ROWS <= row {
            return None;
        }
        for (ninth, digit) in ninths.iter_mut().zip(digits) {
            *ninth = digit - b'1';
        }
        Some(Self { column, row, ninths })
    }

    /// The place as fractions of the upright picture's width and height, from its top left.
    pub fn fractions(self) -> (f64, f64) {
        let along = |cell: u8, third: fn(u8) -> u8, cells: u8| {
            let fine = |place: u32, ninth: &u8| 3 * place + u32::from(third(*ninth));
            let place = self.ninths.iter().fold(u32::from(cell), fine);
            let parts = self.ninths.iter().fold(u32::from(cells), |parts, _| 3 * parts);
            f64::from(2 * place + 1) / f64::from(2 * parts)
        };
        (along(self.column, |ninth| ninth % 3, COLUMNS), along(self.row, |ninth| ninth / 3, ROWS))
    }
}

impl fmt::Display for GridPlace {
    /// The shortest spelling of the place.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", char::from(b'A' + self.column), self.row + 1)?;
        let digits = self.ninths.iter().rposition(|&ninth| ninth != MIDDLE).map_or(0, |at| at + 1);
        for (at, ninth) in self.ninths[..digits].iter().enumerate() {
            write!(f, "{}{}", if at == 0 { "." } else { "" }, ninth + 1)?;
        }
        Ok(())
    }
}

impl Value for GridPlace {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, "a place on the grid") else { return Self::default() };
        Self::parse(text).unwrap_or_else(|| {
            let place = reader.place(node);
            reader.report(problems::outside_grid(place, text));
            Self::default()
        })
    }

    fn shape() -> Shape {
        let pattern = r"^[A-La-l][1-9](\.[1-9]{1,3})?$".into();
        Shape::Form { name: "grid place", pattern, example: "F4" }
    }
}
