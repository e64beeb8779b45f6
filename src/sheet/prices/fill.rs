//! Prices of the list put into a sheet: a part that is named without a price takes that of the list.
//!
//! In: the marked tree of a sheet and the list; out: the tree with prices and full names, as if they had
//! been typed, so that papers, bills and the copy of the sheet agree. A price in the sheet stays.

use super::{Found, Prices, Row};
use crate::diagnostic::source::Source;
use crate::diagnostic::{Place, Problems};
use crate::sheet::problems;
use crate::sheet::shape::Shape;
use crate::sheet::yaml::{Content, Entry, Node};

/// The block whose price may come from the list, and its fields.
const PART_LINE: &str = "PartLine";
const WHAT: &str = "what";
const PRICE: &str = "price";

/// A price that came from the list.
#[derive(Clone, Debug)]
pub struct Priced {
    /// The part as the papers print it.
    pub what: String,
    /// The price as the list has it.
    pub price: String,
    /// The row of the list as typed.
    pub row: Node,
    /// Where it stands.
    pub place: Place,
}

/// The sheet that is filled.
pub struct Filled<'a> {
    /// Its text.
    pub source: &'a Source,
    /// True if its numbers may carry a decimal comma, and if those of the list may.
    pub decimal_commas: [bool; 2],
}

/// Gives every part without a price that of the list; returns what came from it.
pub fn fill(
    tree: &mut Node,
    shape: &Shape,
    sheet: &Filled<'_>,
    list: &Prices,
    problems: &mut Problems,
) -> Vec<Priced> {
    let mut priced = Vec::new();
    walk(tree, shape, &mut |entries| {
        priced.extend(fill_line(entries, sheet, list, problems));
    });
    priced
}

fn walk(tree: &mut Node, shape: &Shape, line: &mut impl FnMut(&mut Vec<Entry>)) {
    match shape {
        Shape::List(of) => match &mut tree.content {
            Content::List(items) => items.iter_mut().for_each(|item| walk(item, of, line)),
            _ => walk(tree, of, line),
        },
        Shape::Either(forms) => forms.iter().for_each(|form| walk(tree, form, line)),
        Shape::Record(record) => {
            let Content::Map(entries) = &mut tree.content else { return };
            if record.name == PART_LINE {
                line(entries);
            }
            for field in &record.fields {
                let entry = entries.iter_mut().find(|entry| entry.key == field.key);
                if let Some(entry) = entry {
                    walk(&mut entry.value, &field.shape, line);
                }
            }
        }
        _ => {}
    }
}

fn fill_line(
    entries: &mut Vec<Entry>,
    sheet: &Filled<'_>,
    list: &Prices,
    problems: &mut Problems,
) -> Option<Priced> {
    let price = entries.iter().position(|entry| entry.key == PRICE);
    let is_blank = |content: &Content| match content {
        Content::Empty => true,
        Content::Scalar(text) => text.trim().is_empty(),
        _ => false,
    };
    if price.is_some_and(|at| !is_blank(&entries[at].value.content)) {
        return None;
    }
    let called = entries.iter_mut().find(|entry| entry.key == WHAT)?;
    let Content::Scalar(what) = &mut called.value.content else { return None };
    if what.trim().is_empty() {
        return None;
    }
    let place = Place::at(sheet.source, called.value.span.clone());
    let row = match list.find(what) {
        Found::One(row) => row,
        Found::Several(rows) => {
            let names: Vec<&str> = rows.iter().map(|row| row.part.name.0.as_str()).collect();
            problems.push(problems::price_of_several(place, what, &names));
            return None;
        }
        Found::None(near) => {
            problems.push(problems::no_price(place, what, list.file.as_deref(), &near));
            return None;
        }
    };
    *what = row.printed();
    let priced = Priced {
        what: what.clone(),
        price: row.price.clone(),
        row: row.node.clone(),
        place: row.place.clone(),
    };
    let value = Node {
        span: called.value.span.clone(),
        whole: called.value.whole.clone(),
        content: Content::Scalar(in_sheet(row, sheet)),
    };
    match price {
        Some(at) => entries[at].value = value,
        None => {
            let key_span = value.span.clone();
            entries.push(Entry { key: PRICE.to_owned(), key_span, value });
        }
    }
    Some(priced)
}

/// The price as the sheet's language writes it.
fn in_sheet(row: &Row, sheet: &Filled<'_>) -> String {
    let [of_sheet, of_list] = sheet.decimal_commas;
    if of_sheet == of_list {
        return row.price.clone();
    }
    let price = &row.part.price;
    let amount = price.amount.to_string();
    let amount = if of_sheet { amount.replace('.', ",") } else { amount };
    format!("{amount} {}", price.currency.code)
}
