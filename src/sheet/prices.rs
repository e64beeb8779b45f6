//! The price list: what parts cost, under the names by which sheets call them.
//!
//! In: `parts.yaml` beside the profile, or `parts:` in it; out: [`Prices`], in which a name is looked up.
//! How a price comes into a sheet is `fill`.

pub mod fill;

use super::catalogue::Part;
use super::lexicon::entry::Entry;
use super::lexicon::fold;
use super::lexicon::index::{Index, Spelling};
use super::price::{Currency, Price};
use super::problems;
use super::reader::{Marked, Reader, Value, record};
use super::shape::Shape;
use super::text::Text;
use super::yaml::{Content, Node};
use crate::diagnostic::source::Source;
use crate::diagnostic::{Place, Problems};

record! {
    /// The workshop's price list: a part that a sheet names by it needs no price there.
    pub struct PriceList {
        /// Parts with their prices.
        parts: Vec<ListedPart>, "";
    }
}

record! {
    /// A part with its price.
    pub struct ListedPart {
        /// Its name, as papers print it.
        name: Text, "bearing 6804-2RS";
        /// Its designation; printed behind the name, unless the name holds it.
        designation: Option<Text>, "6804-2RS";
        /// Price of one.
        price: Marked<Price>, "£9.80";
        /// Other names by which sheets call it.
        also: Vec<Text>, "[main bearing, 6804]";
        /// The part that it is, by which sheets may name it too if no other row is that part.
        part: Option<KnownPart>, "main-bearing-drive-side";
    }
}

/// A part of the catalogue, where no other name will do.
#[derive(Clone, Copy, Debug, Default)]
pub struct KnownPart(pub Part);

impl Value for KnownPart {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, "part") else { return Self::default() };
        Part::known(text).map_or_else(
            || {
                let place = reader.place(node);
                reader.report(problems::no_such_part(place, text, &Part::choices()));
                Self::default()
            },
            Self,
        )
    }

    fn shape() -> Shape {
        Part::shape()
    }
}

/// A row of the list.
#[derive(Clone, Debug)]
pub struct Row {
    /// What it says.
    pub part: ListedPart,
    /// The row as typed.
    pub node: Node,
    /// Where it stands.
    pub place: Place,
    /// The price as typed.
    pub price: String,
    price_place: Place,
}

/// Every row of the list.
#[derive(Clone, Debug, Default)]
pub struct Prices {
    rows: Vec<Row>,
    /// The file beside the profile, if there is one, as messages show it.
    pub file: Option<String>,
}

/// What a name leads to.
pub enum Found<'a> {
    /// One row.
    One(&'a Row),
    /// Several rows of one part of the catalogue.
    Several(Vec<&'a Row>),
    /// No row; those that come nearest, by name.
    None(Vec<String>),
}

/// Most names that are offered for one that the list lacks.
const MOST_OFFERED: usize = 3;
/// Likeness from which a row may be meant, and how far behind the nearest it may be.
const LIKE: f64 = 0.35;
const BEHIND: f64 = 0.2;
/// What the words for the part of the catalogue count beside the names of the row.
const OF_CATALOGUE: f64 = 0.7;

impl Row {
    /// The name as papers print it.
    pub fn printed(&self) -> String {
        let name = &self.part.name.0;
        match &self.part.designation {
            Some(one) if !key(name).contains(&key(&one.0)) => format!("{name}, {}", one.0),
            _ => name.clone(),
        }
    }

    /// Its names, as they are looked up.
    fn keys(&self) -> Vec<String> {
        let part = &self.part;
        let names = [&part.name].into_iter().chain(&part.designation).chain(&part.also);
        let mut keys: Vec<String> = names.map(|name| key(&name.0)).collect();
        keys.push(key(&self.printed()));
        keys.sort();
        keys.dedup();
        keys
    }

    fn spellings(&self) -> Vec<Spelling> {
        let of = |text: &str, weight| Spelling { text: text.to_owned(), weight, whole: 0.35 };
        let mut all = vec![of(&self.printed(), 1.0)];
        all.extend(self.part.also.iter().map(|also| of(&also.0, 1.0)));
        let choice = self.part.part.map(|part| part.0.0.choice());
        let words = choice.iter().flat_map(|choice| Entry::of("part", choice).spellings());
        all.extend(words.map(|one| Spelling { weight: OF_CATALOGUE * one.weight, ..one }));
        all
    }
}

impl Prices {
    /// Adds the rows of a file. `tree` is the file's block with `parts:`; a name that two rows have and
    /// a price in another currency than the workshop's are reported.
    pub(super) fn add(
        &mut self,
        source: &Source,
        tree: &Node,
        parts: &[ListedPart],
        currency: Currency,
        problems: &mut Problems,
    ) {
        let Some(typed) = tree.get("parts") else { return };
        let items = match &typed.content {
            Content::List(items) => items.as_slice(),
            _ => std::slice::from_ref(typed),
        };
        // A row that could not be read is in the tree and not among the parts.
        for part in parts {
            let own = items.iter().find_map(|node| {
                let price = node.get("price").filter(|price| price.span == part.price.span)?;
                match &price.content {
                    Content::Scalar(price) => Some((node, price.clone())),
                    _ => None,
                }
            });
            let Some((node, price)) = own else { continue };
            let price_place = Place::at(source, part.price.span.clone());
            let place = Place::at(source, node.span.clone());
            let row = Row { part: part.clone(), node: node.clone(), place, price, price_place };
            self.check(&row, currency, problems);
            self.rows.push(row);
        }
    }

    fn check(&self, row: &Row, currency: Currency, problems: &mut Problems) {
        let own = row.part.price.currency;
        if own != currency {
            let place = row.price_place.clone();
            problems.push(problems::list_currency(place, own.code, currency.code));
        }
        for key in row.keys() {
            if let Some(first) = self.rows.iter().find(|one| one.keys().contains(&key)) {
                let (place, first) = (row.place.clone(), first.place.clone());
                problems.push(problems::listed_twice(place, &key, first));
                return;
            }
        }
    }

    /// The row of a name: as typed in any letters, else the only one of that part of the catalogue.
    pub fn find(&self, typed: &str) -> Found<'_> {
        let meant = key(typed);
        if let Some(row) = self.rows.iter().find(|row| row.keys().contains(&meant)) {
            return Found::One(row);
        }
        let is_it = |row: &&Row| {
            Part::known(typed).is_some_and(|part| row.part.part.is_some_and(|own| own.0 == part))
        };
        let of_part: Vec<&Row> = self.rows.iter().filter(is_it).collect();
        match of_part.as_slice() {
            [] => Found::None(self.near(typed)),
            [row] => Found::One(row),
            _ => Found::Several(of_part),
        }
    }

    fn near(&self, typed: &str) -> Vec<String> {
        let (hits, known) = Index::of(self.rows.iter().map(Row::spellings)).find(typed);
        let best = hits.first().map_or(0.0, |hit| hit.likeness);
        let is_near = |likeness: f64| LIKE <= likeness * known && best - BEHIND <= likeness;
        let near = hits.iter().filter(|hit| is_near(hit.likeness)).take(MOST_OFFERED);
        near.filter_map(|hit| Some(self.rows.get(hit.at)?.part.name.0.clone())).collect()
    }
}

/// A name as it is compared: small letters without accents and signs.
fn key(name: &str) -> String {
    fold::words(name).join(" ")
}
