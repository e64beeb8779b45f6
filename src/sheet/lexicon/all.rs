//! Every word that a sheet or a profile may hold, with the places where it may stand.
//!
//! In: the definitions of both files and the table of units; out: [`Listed`] words in the order of the
//! definitions, and a search over them.

use std::sync::LazyLock;

use super::entry::Entry;
use super::index::{Index, Spelling};
use super::readings::Reading;
use crate::sheet::findings::FindingsSheet;
use crate::sheet::profile::Profile;
use crate::sheet::quantity::unit::UNITS;
use crate::sheet::reader::Value;
use crate::sheet::shape::{FieldShape, Shape};
use crate::sheet::vocabulary::CheckKind;

/// A word with the places where it may stand.
#[derive(Clone, Debug)]
pub struct Listed {
    /// The word.
    pub entry: Entry,
    /// Paths of fields: `strip-down: findings: part:`.
    pub places: Vec<String>,
}

impl Listed {
    /// True for a word that no sheet may hold, but a profile.
    pub fn is_of_profile(&self) -> bool {
        self.places.iter().all(|place| place.starts_with(PROFILE))
    }
}

/// The kind of the names of fields.
pub const FIELD: &str = "field";
/// What the kinds of units begin with.
pub const UNIT: &str = "unit of ";
/// What the places in a profile begin with.
const PROFILE: &str = "workshop.yaml: ";
/// What the forms of quantities end with.
const WITH_UNIT: &str = " with unit";
/// Where a reading of the bench stands, whose unit is that of its check.
const READING: &str = "bench: before:";
/// Where a sign of the whole unit stands, and where one of a part does.
const ON_UNIT: &str = "arrival: signs:";
const ON_PART: &str = "strip-down: findings: signs:";

/// Every word, lists first, then units, then the names of fields.
pub static WORDS: LazyLock<Vec<Listed>> = LazyLock::new(|| {
    let mut found = Found::default();
    found.gather(&FindingsSheet::shape(), "");
    for dimension in CheckKind::ALL.iter().filter_map(|check| check.dimension()) {
        found.units_of(&format!("{}{WITH_UNIT}", dimension.word()), READING);
    }
    found.gather(&Profile::shape(), PROFILE);
    [found.words, found.units, found.fields].concat()
});

/// How much the name of a field counts beside a word of a list.
const OF_FIELD: f64 = 0.85;

static INDEX: LazyLock<Index> = LazyLock::new(|| {
    Index::of(WORDS.iter().map(|listed| {
        let share = if listed.entry.kind == FIELD { OF_FIELD } else { 1.0 };
        let spellings = listed.entry.spellings().into_iter();
        spellings.map(|one| Spelling { weight: share * one.weight, ..one }).collect()
    }))
});

/// Likeness from which a word is shown, and how far behind the nearest one it may be.
const LIKE: f64 = 0.2;
const BEHIND: f64 = 0.4;

/// The words that come nearest to a text, the nearest first, all of this kind if one is given.
pub fn find(text: &str, kind: Option<&str>) -> Vec<&'static Listed> {
    let (hits, _) = INDEX.find(text);
    let of_kind = |listed: &&Listed| kind.is_none_or(|kind| listed.entry.kind == kind);
    let hits = hits.iter().filter_map(|hit| Some((hit.likeness, WORDS.get(hit.at)?)));
    let hits: Vec<_> = hits.filter(|(_, listed)| of_kind(listed)).collect();
    let best = hits.first().map_or(0.0, |hit| hit.0);
    let is_near = |likeness: f64| LIKE <= likeness && best - BEHIND <= likeness;
    hits.into_iter().filter(|hit| is_near(hit.0)).map(|hit| hit.1).collect()
}

/// Every kind of words, in the order of the list.
pub fn kinds() -> Vec<&'static str> {
    let mut kinds: Vec<&str> = Vec::new();
    for listed in WORDS.iter() {
        let kind = listed.entry.kind.as_str();
        if !kinds.contains(&kind) {
            kinds.push(kind);
        }
    }
    kinds
}

#[derive(Default)]
struct Found {
    words: Vec<Listed>,
    units: Vec<Listed>,
    fields: Vec<Listed>,
}

impl Found {
    fn gather(&mut self, shape: &Shape, path: &str) {
        match shape {
            Shape::Words { name, words } => {
                for choice in words {
                    place(&mut self.words, Entry::of(name, choice), path);
                }
            }
            Shape::Form { name, .. } => self.units_of(name, path),
            Shape::List(of) => self.gather(of, path),
            Shape::Either(forms) => forms.iter().for_each(|form| self.gather(form, path)),
            Shape::Record(record) => {
                for field in &record.fields {
                    let path = format!("{path}{}: ", field.key);
                    self.fields.push(listed_field(field, &path));
                    self.gather(&field.shape, &path);
                }
            }
            Shape::Text | Shape::Integer | Shape::Number { .. } => {}
        }
    }

    fn units_of(&mut self, form: &str, path: &str) {
        let Some(dimension) = form.strip_suffix(WITH_UNIT) else { return };
        for unit in UNITS.iter().filter(|unit| unit.dimension.word() == dimension) {
            let Some((word, also)) = unit.spellings.split_first() else { continue };
            let entry = Entry {
                kind: format!("{UNIT}{dimension}"),
                word: (*word).to_owned(),
                same_as: None,
                about: String::new(),
                reading: Reading { paper: Some(unit.symbol.to_owned()), ..Reading::default() },
                also: also.iter().map(|one| (*one).to_owned()).collect(),
                on: Vec::new(),
            };
            place(&mut self.units, entry, path);
        }
    }
}

/// Adds a place to a word that is listed already, or the word with its first place.
fn place(list: &mut Vec<Listed>, entry: Entry, path: &str) {
    let path = path.trim_end().to_owned();
    let is_of = |place: &str| entry.on.iter().any(|on| (on == "unit") == (place == ON_UNIT));
    if entry.kind == "sign" && [ON_UNIT, ON_PART].contains(&path.as_str()) && !is_of(&path) {
        return;
    }
    let known =
        list.iter_mut().find(|one| one.entry.kind == entry.kind && one.entry.word == entry.word);
    let is_of_sheet = |one: &Listed| !one.is_of_profile();
    match known {
        // Where a profile takes words of the sheet too is of little use to who fills in a sheet.
        Some(known) if path.starts_with(PROFILE) && is_of_sheet(known) => {}
        Some(known) if known.places.contains(&path) => {}
        Some(known) => known.places.push(path),
        None => list.push(Listed { entry, places: vec![path] }),
    }
}

fn listed_field(field: &FieldShape, path: &str) -> Listed {
    let entry = Entry {
        kind: FIELD.to_owned(),
        word: field.key.clone(),
        same_as: None,
        about: field.about.clone(),
        reading: Reading::default(),
        also: field.was.iter().map(|was| (*was).to_owned()).collect(),
        on: Vec::new(),
    };
    Listed { entry, places: vec![path.trim_end().to_owned()] }
}
