//! Texts of a sheet that are still the examples of the blank one.
//!
//! In: a [`Sheet`]; out: a warning for every field of free text that says word for word what the
//! blank sheet shows. Fields whose example is the usual thing to write are passed over.

use std::sync::LazyLock;

use crate::diagnostic::{Place, Problems};
use crate::sheet::findings::FindingsSheet;
use crate::sheet::problems;
use crate::sheet::reader::Value;
use crate::sheet::shape::Shape;
use crate::sheet::typed::Sheet;
use crate::sheet::yaml::{Content, Node};

static SHAPE: LazyLock<Shape> = LazyLock::new(FindingsSheet::shape);

/// Fields whose example is one word and still nobody's own.
const ONE_WORD: [&str; 2] = ["contact", "serial"];
/// Fields whose example is what many sheets rightly say.
const USUAL: [&str; 6] = ["what", "with", "grease", "assist", "of", "text"];

/// Looks through the whole sheet.
pub(super) fn check(sheet: &Sheet, problems: &mut Problems) {
    look(&sheet.tree, &SHAPE, sheet, problems);
}

fn look(node: &Node, shape: &Shape, sheet: &Sheet, problems: &mut Problems) {
    match (&node.content, shape) {
        (Content::List(items), Shape::List(of)) => {
            for item in items {
                look(item, of, sheet, problems);
            }
        }
        (content, Shape::Either(forms)) => {
            let is_block = matches!(content, Content::Map(_));
            let form = forms.iter().find(|form| is_block == matches!(form, Shape::Record(_)));
            if let Some(form) = form {
                look(node, form, sheet, problems);
            }
        }
        (Content::Map(_), Shape::Record(record)) => {
            for field in &record.fields {
                let Some(value) = node.get(&field.key) else { continue };
                look(value, &field.shape, sheet, problems);
                let key = field.key.as_str();
                let is_own =
                    field.example.contains(' ') && !USUAL.contains(&key) || ONE_WORD.contains(&key);
                let Content::Scalar(text) = &value.content else { continue };
                if is_own && matches!(field.shape, Shape::Text) && text.trim() == field.example {
                    let place = Place::at(&sheet.source, value.span.clone());
                    problems.push(problems::example_left(place, key));
                }
            }
        }
        _ => {}
    }
}
