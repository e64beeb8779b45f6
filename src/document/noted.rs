//! What the sheet says and no section of the report prints by itself, as typed, block by block.
//!
//! In: the marked tree and the definition of the sheet; out: labels with values. Which fields these
//! are is said beside each field (`=> AsNoted` in `sheet/findings.rs`); nothing is judged here.

use chrono::NaiveDate;

use super::format;
use super::view::fact::Fact;
use super::view::noted::{Noted, NotedGroup};
use super::wording::Wording;
use crate::sheet::findings::FindingsSheet;
use crate::sheet::reader::Value;
use crate::sheet::shape::{Printed, RecordShape, Shape};
use crate::sheet::yaml::{Content, Node};

/// Field that counts what the other fields of its block name; it is printed before them.
const COUNT: &str = "quantity";

/// The notes of a job; `None` if every field is printed elsewhere.
pub fn noted(tree: &Node, wording: &Wording) -> Option<Noted> {
    let groups = groups(tree, wording, |_| true);
    let heading = wording.label("noted-heading").to_owned();
    (!groups.is_empty()).then_some(Noted { heading, groups })
}

/// Those notes whose field is wanted, by its path: `arrival.packing`.
pub fn groups(tree: &Node, wording: &Wording, is_wanted: impl Fn(&str) -> bool) -> Vec<NotedGroup> {
    let Shape::Record(sheet) = FindingsSheet::shape() else { return Vec::new() };
    let Content::Map(blocks) = &tree.content else { return Vec::new() };
    let mut groups = Vec::new();
    for field in &sheet.fields {
        let Some(block) = blocks.iter().find(|entry| entry.key == field.key) else { continue };
        let mut values = Values { wording, found: Vec::new() };
        values.field(&block.value, field.printed, &field.shape, &field.key, None);
        values.found.retain(|(path, _)| is_wanted(path));
        if !values.found.is_empty() {
            let heading = wording.noted("headings", &field.key).to_owned();
            groups.push(NotedGroup { heading, facts: values.facts() });
        }
    }
    groups
}

/// Values by the path of their field, in the order of the sheet's definition.
struct Values<'a> {
    wording: &'a Wording,
    found: Vec<(String, Vec<String>)>,
}

impl Values<'_> {
    /// Collects what is printed as noted in a field and in all blocks below it. `subject` names the
    /// entry of a list that the field belongs to, such as the screws of a torque.
    fn field(
        &mut self,
        node: &Node,
        printed: Printed,
        shape: &Shape,
        path: &str,
        subject: Option<&str>,
    ) {
        match (printed, &node.content, shape.record()) {
            (
                Printed::Decides
                | Printed::WorkshopOnly
                | Printed::ArrivalNote
                | Printed::OptionsLetter,
                ..,
            )
            | (_, Content::Empty, _) => {}
            (Printed::InItsSection, Content::List(items), Some(record)) => {
                for item in items {
                    let subject = self.subject(item, record);
                    self.block(item, record, path, subject.as_deref());
                }
            }
            (Printed::InItsSection, Content::Map(_), Some(record)) => {
                self.block(node, record, path, subject);
            }
            (Printed::AsNoted, ..) => {
                let text = self.text(node, shape);
                let text = match subject {
                    Some(subject) => format!("{subject}{}{text}", self.wording.grammar().colon()),
                    None => text,
                };
                match self.found.iter_mut().find(|(known, _)| known == path) {
                    Some((_, texts)) => texts.push(text),
                    None => self.found.push((path.to_owned(), vec![text])),
                }
            }
            (Printed::InItsSection, ..) => {}
        }
    }

    fn block(&mut self, node: &Node, record: &RecordShape, path: &str, subject: Option<&str>) {
        let Content::Map(entries) = &node.content else { return };
        for field in &record.fields {
            if let Some(entry) = entries.iter().find(|entry| entry.key == field.key) {
                let path = format!("{path}.{}", field.key);
                self.field(&entry.value, field.printed, &field.shape, &path, subject);
            }
        }
    }

    /// What the first field of an entry says: which part, which screws, which check.
    fn subject(&self, item: &Node, record: &RecordShape) -> Option<String> {
        let first = record.fields.first()?;
        let Content::Map(entries) = &item.content else { return None };
        let entry = entries.iter().find(|entry| entry.key == first.key)?;
        Some(self.text(&entry.value, &first.shape))
    }

    fn text(&self, node: &Node, shape: &Shape) -> String {
        match &node.content {
            Content::Empty => String::new(),
            Content::Scalar(text) => self.scalar(text, shape),
            Content::List(items) => {
                let of = if let Shape::List(of) = shape { of } else { shape };
                let texts: Vec<String> = items.iter().map(|item| self.text(item, of)).collect();
                match items.iter().any(|item| matches!(item.content, Content::Map(_))) {
                    true => texts.join("; "),
                    false => format::listed(&texts, self.wording),
                }
            }
            Content::Map(entries) => {
                let fields = shape.record().map_or(&[][..], |record| &record.fields);
                let typed = |key: &str| entries.iter().find(|entry| entry.key == key);
                let texts = fields.iter().filter(|field| field.key != COUNT).filter_map(|field| {
                    let text = self.text(&typed(&field.key)?.value, &field.shape);
                    Some(text).filter(|text| !text.is_empty())
                });
                let texts = texts.collect::<Vec<_>>().join(", ");
                match typed(COUNT) {
                    Some(count) => format!("{} × {texts}", self.text(&count.value, &Shape::Text)),
                    None => texts,
                }
            }
        }
    }

    fn scalar(&self, text: &str, shape: &Shape) -> String {
        match shape {
            Shape::Words { name: "part", .. } => self.wording.part(text, "plain").to_owned(),
            Shape::Words { name: "sign", .. } => self.wording.sign(text, "plain").to_owned(),
            Shape::Words { name, words } if words.iter().any(|one| one.word == text) => {
                self.wording.noted_word(name, text).to_owned()
            }
            Shape::Form { name: "date", .. } => NaiveDate::parse_from_str(text, "%Y-%m-%d")
                .map_or_else(|_| text.to_owned(), |date| format::day(date, self.wording)),
            Shape::Form { .. } => format::tied(text).replace("degC", "°C"),
            Shape::Either(of) => match of.iter().find(|one| !matches!(one, Shape::Record(_))) {
                Some(one) => self.scalar(text, one),
                None => text.to_owned(),
            },
            _ => text.to_owned(),
        }
    }

    fn facts(self) -> Vec<Fact> {
        let label = |path: &str| self.wording.noted("labels", path).to_owned();
        self.found.iter().map(|(path, texts)| Fact::plain(&label(path), texts.join("; "))).collect()
    }
}
