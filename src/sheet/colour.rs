//! The workshop's accent colour, checked for contrast against paper and the wash behind lists.
//!
//! Contrast ratio and its 4.5 : 1 for text after WCAG 2.2, success criterion 1.4.3.

use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::yaml::Node;

/// Least contrast of text on paper (WCAG 2.2, 1.4.3).
const LEAST_CONTRAST: f64 = 4.5;

/// A colour as `#rrggbb`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Accent(pub String);

impl Default for Accent {
    fn default() -> Self {
        Self("#7a3b1e".into())
    }
}

/// The darkest ground that the accent is printed on, the wash of `report-templates/shared/ink.typ`.
const WASH: [u8; 3] = [0xf1, 0xef, 0xe9];

/// Contrast ratio of two sRGB colours, 1 to 21 (WCAG 2.2, contrast ratio).
pub fn contrast(one: [u8; 3], other: [u8; 3]) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// Relative luminance of an sRGB colour, 0 to 1 (WCAG 2.2, relative luminance).
fn luminance(rgb: [u8; 3]) -> f64 {
    let [r, g, b] = rgb.map(|channel| {
        let value = f64::from(channel) / 255.0;
        if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    });
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

fn rgb(text: &str) -> Option<[u8; 3]> {
    let digits = text.strip_prefix('#')?;
    let is_hex = digits.len() == 6 && digits.bytes().all(|byte| byte.is_ascii_hexdigit());
    let channel = |at: usize| u8::from_str_radix(&digits[at..at + 2], 16).ok();
    is_hex.then_some(())?;
    Some([channel(0)?, channel(2)?, channel(4)?])
}

impl Value for Accent {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, "a colour") else { return Self::default() };
        let place = reader.place(node);
        match rgb(text).map(|colour| contrast(colour, WASH)) {
            None => reader.report(problems::wrong_form(place, "colour", text, "\"#7a3b1e\"")),
            Some(contrast) if contrast < LEAST_CONTRAST => {
                reader.report(problems::faint_colour(place, text, contrast, LEAST_CONTRAST));
            }
            Some(_) => return Self(text.to_ascii_lowercase()),
        }
        Self::default()
    }

    fn shape() -> Shape {
        Shape::Form { name: "colour", pattern: "^#[0-9A-Fa-f]{6}$".into(), example: "\"#7a3b1e\"" }
    }
}
