//! How a sheet names a photo, and what it marks on it.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::grid::GridPlace;
use super::number;
use super::problems;
use super::quantity::{Length, Quantity};
use super::reader::{Marked, Reader, Value, record};
use super::shape::Shape;
use super::text::{FileName, Text};
use super::yaml::{Content, Node};

/// A photo at the place that it belongs to.
#[derive(Clone, Debug, Default)]
pub struct PhotoUse {
    /// Its file in the job folder.
    pub file: Marked<FileName>,
    /// Words under the photo, if the finding's own do not fit.
    pub caption: Option<Text>,
    /// What is drawn over it.
    pub marks: Vec<Mark>,
}

record! {
    /// A photo with marks or words of its own.
    pub struct PhotoFields {
        /// File name of the photo in the job folder.
        file: Marked<FileName>, "bearing-close.jpg";
        /// Words under the photo; without them the part and its state are named.
        caption: Option<Text>, "The track under the loupe";
        /// What to draw over the photo; `splitcase photos JOB` prints the grid to read places off.
        marks: Vec<Mark>, "[{ring: F4, size: 2, text: pitted track}]";
    }
}

impl Value for PhotoUse {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        match &node.content {
            Content::Map(_) => {
                let PhotoFields { file, caption, marks } = PhotoFields::read(node, reader);
                Self { file, caption, marks }
            }
            _ => Self { file: Value::read(node, reader), ..Self::default() },
        }
    }

    fn shape() -> Shape {
        Shape::Either(vec![FileName::shape(), PhotoFields::shape()])
    }
}

/// A drawing over a photo.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What is drawn, and where.
    pub kind: MarkKind,
    /// Words beside it.
    pub text: Option<Text>,
}

/// The kinds of marks with their places.
#[derive(Clone, Debug, PartialEq)]
pub enum MarkKind {
    /// A ring of a diameter in cells.
    Ring(GridPlace, f64),
    /// An arrow with its tip at the first place, coming from the second.
    Arrow(GridPlace, GridPlace),
    /// A box between two corners.
    Box(GridPlace, GridPlace),
    /// Words alone.
    Label(GridPlace),
    /// A measured length between two places.
    Length(GridPlace, GridPlace, Quantity),
}

impl Default for Mark {
    fn default() -> Self {
        Self { kind: MarkKind::Label(GridPlace::default()), text: None }
    }
}

record! {
    /// A drawing over a photo: one of `ring`, `arrow`, `box`, `label`, `length`.
    pub struct MarkFields {
        /// Draws a ring around this place.
        ring: Option<GridPlace>, "F4" => Decides;
        /// Points an arrow at this place; `from` is its other end.
        arrow: Option<GridPlace>, "F4" => Decides;
        /// Draws a box from this corner to the one in `to`.
        boxed as "box": Option<GridPlace>, "D3" => Decides;
        /// Writes the text at this place.
        label: Option<GridPlace>, "C2" => Decides;
        /// Draws a measured length from this place to the one in `to`.
        length: Option<GridPlace>, "D5" => Decides;
        /// Diameter of a ring in cells of the grid, 0.5 to 12; 2 if nothing is said.
        size: Option<Cells>, "2" => Decides;
        /// Where an arrow comes from.
        from: Option<GridPlace>, "H2" => Decides;
        /// The other corner of a box or end of a length.
        to: Option<GridPlace>, "H6" => Decides;
        /// What a length measures.
        measures: Option<Length>, "12 mm";
        /// Words beside the mark.
        text: Option<Text>, "pitted track";
    }
}

impl Value for Mark {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let before = reader.n_errors();
        let fields = MarkFields::read(node, reader);
        if before < reader.n_errors() {
            // What it lacks is only known of a mark that could be read.
            reader.give_up();
            return Self::default();
        }
        let place = reader.place(node);
        let MarkFields { ring, arrow, boxed, label, length, size, from, to, measures, text } =
            fields;
        let n_kinds = [ring, arrow, boxed, label, length].iter().flatten().count();
        let kind = match (ring, arrow, boxed, label, length, from, to, measures, &text) {
            _ if n_kinds != 1 => Err(problems::mark_kind(place, n_kinds)),
            (Some(at), ..) => Ok(MarkKind::Ring(at, size.map_or(2.0, |cells| cells.0))),
            (_, Some(tip), _, _, _, Some(tail), ..) => Ok(MarkKind::Arrow(tip, tail)),
            (_, Some(_), ..) => {
                Err(problems::mark_lacks(place, "arrow", "from", "{arrow: F4, from: H2}"))
            }
            (_, _, Some(at), _, _, _, Some(to), ..) => Ok(MarkKind::Box(at, to)),
            (_, _, Some(_), ..) => {
                Err(problems::mark_lacks(place, "box", "to", "{box: D3, to: H6}"))
            }
            (_, _, _, Some(at), _, _, _, _, Some(_)) => Ok(MarkKind::Label(at)),
            (_, _, _, Some(_), ..) => {
                Err(problems::mark_lacks(place, "label", "text", "{label: C2, text: seal}"))
            }
            (_, _, _, _, Some(at), _, Some(to), Some(length), _) => {
                Ok(MarkKind::Length(at, to, length.0))
            }
            _ => {
                let example = "{length: D5, to: H5, measures: 12 mm}";
                Err(problems::mark_lacks(place, "length", "to` and `measures", example))
            }
        };
        match kind {
            Ok(kind) => Self { kind, text },
            Err(problem) => {
                reader.report(problem);
                Self::default()
            }
        }
    }

    fn shape() -> Shape {
        MarkFields::shape()
    }
}

/// A diameter in cells of the grid.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Cells(pub f64);

impl Value for Cells {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, "a number of cells") else { return Self::default() };
        let cells = number::decimal(text, reader.decimal_comma).ok();
        let bounds = Decimal::new(5, 1)..=Decimal::from(12);
        match cells.filter(|cells| bounds.contains(cells)).and_then(|cells| cells.to_f64()) {
            Some(cells) => Self(cells),
            None => {
                let place = reader.place(node);
                reader.report(problems::wrong_form(
                    place,
                    "number of cells from 0.5 to 12",
                    text,
                    "2",
                ));
                Self::default()
            }
        }
    }

    fn shape() -> Shape {
        Shape::Number { name: "number of cells", least: 0.5, most: 12.0 }
    }
}
