//! Places on a photo's lettered grid: columns A-L, rows 1-9, finer by a digit (`F4.5`).
//!
//! The grid covers the upright picture. A digit after the point is a ninth of the cell, counted
//! as one reads: 1 top left, 5 the middle, 9 bottom right; without it the middle is meant.

use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::yaml::Node;

/// Number of columns, A to L.
pub const COLUMNS: u8 = 12;
/// Number of rows, 1 to 9.
pub const ROWS: u8 = 9;

/// A place on the grid.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct GridPlace {
    column: u8,
    row: u8,
    ninth: u8,
}

impl GridPlace {
    /// Reads `F4` or `F4.5`; the letter may be small.
    pub fn parse(text: &str) -> Option<Self> {
        let mut bytes = text.bytes();
        let column = bytes.next()?.to_ascii_uppercase().checked_sub(b'A')?;
        let row = bytes.next()?.checked_sub(b'1')?;
        let ninth = match (bytes.next(), bytes.next(), bytes.next()) {
            (None, ..) => 4,
            (Some(b'.'), Some(digit @ b'1'..=b'9'), None) => digit - b'1',
            _ => return None,
        };
        (column < COLUMNS && row < ROWS).then_some(Self { column, row, ninth })
    }

    /// The place as fractions of the upright picture's width and height, from its top left.
    pub fn fractions(self) -> (f64, f64) {
        let along = |cell: u8, third: u8, cells: u8| {
            (f64::from(cell) + (f64::from(third) * 2.0 + 1.0) / 6.0) / f64::from(cells)
        };
        (along(self.column, self.ninth % 3, COLUMNS), along(self.row, self.ninth / 3, ROWS))
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
        let pattern = r"^[A-La-l][1-9](\.[1-9])?$".into();
        Shape::Form { name: "grid place", pattern, example: "F4" }
    }
}
