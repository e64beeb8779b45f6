//! The files of one language: the built-in ones as they are, a workshop's own held against them.
//!
//! In: [`Templates`] and a language; out: the words of a file, or what is wrong with it.

use std::collections::BTreeMap;

use serde::de::DeserializeOwned;

use super::grammar::{self, Grammar};
use super::house;
use crate::diagnostic::source::Source;
use crate::diagnostic::{Diagnostic, Place};
use crate::document::problems;
use crate::document::templates::Templates;

/// Words for one row of a catalogue.
pub type Words = BTreeMap<String, String>;

/// The file that holds a language's sentences.
pub const CLAUSES: &str = "clauses";
/// The file that holds how names stand in them.
const GRAMMAR: &str = "grammar";

/// What the key of the class of words under another key ends in.
const CLASS_ENDING: &str = "-class";

/// The files of one language, and what was found wrong with those that were read.
pub struct Files<'a> {
    templates: &'a Templates,
    language: &'a str,
    /// What the keys of words in a form of the grammar end in.
    endings: Vec<String>,
    /// What is wrong with the files.
    pub found: Vec<Diagnostic>,
}

impl<'a> Files<'a> {
    /// The files of a language, which has every file of English and no other.
    pub fn of(templates: &'a Templates, language: &'a str) -> Self {
        let mut found = Vec::new();
        for path in Templates::built_in().iter().map(|(path, _)| path) {
            let Some(name) = path.strip_prefix("wording/en/") else { continue };
            let own = format!("wording/{language}/{name}");
            if templates.get(&own).is_none() {
                found.push(problems::no_sentence(&own));
            }
        }
        found.extend(unknown_files(templates, language));
        Self { templates, language, endings: vec![grammar::CLASS.to_owned()], found }
    }

    /// How names stand in sentences. Words in its forms are known from here on.
    pub fn grammar(&mut self) -> Option<Grammar> {
        let source = self.templates.get(&self.path(GRAMMAR))?;
        let read: Grammar = self.as_it_is(source)?;
        self.endings.extend(read.forms().map(str::to_owned));
        Some(read)
    }

    /// The words of a file.
    pub fn read<T: DeserializeOwned>(&mut self, name: &str) -> Option<T> {
        let path = self.path(name);
        let source = self.templates.get(&path)?;
        if !self.templates.is_house(&path) {
            return self.as_it_is(source);
        }
        let built_in = Templates::built_in();
        let english = format!("wording/en/{name}.yaml");
        let expected = built_in.get(&path).or_else(|| built_in.get(&english))?;
        let endings: Vec<&str> = self.endings.iter().map(String::as_str).collect();
        house::read(source, expected, &endings, name == CLAUSES, &mut self.found)
    }

    /// Says that a text of a file is not the region that it is meant to be.
    pub fn no_region(&mut self, name: &str, text: &str) {
        let Some(source) = self.templates.get(&self.path(name)) else { return };
        self.found.push(problems::no_such_region(place_of(source, text), text));
    }

    /// Holds the names and clauses of a file against the grammar: classes that it does not have, forms and
    /// choices that it cannot fill.
    pub fn held_against(&mut self, grammar: &Grammar, name: &str, rows: &BTreeMap<String, Words>) {
        let Some(source) = self.templates.get(&self.path(name)) else { return };
        for (key, text) in rows.values().flatten() {
            let faults = match key == grammar::CLASS || key.ends_with(CLASS_ENDING) {
                true if grammar.classes().contains(text) => Vec::new(),
                true => vec![text.as_str()],
                false => grammar.faults(text),
            };
            let problems = faults
                .into_iter()
                .map(|fault| problems::no_such_form(place_of(source, text), fault));
            self.found.extend(problems);
        }
    }

    /// The sentences of the built-in files of the language, if there are any.
    pub fn built_in_clauses<T: DeserializeOwned>(&mut self) -> Option<T> {
        self.as_it_is(Templates::built_in().get(&self.path(CLAUSES))?)
    }

    fn as_it_is<T: DeserializeOwned>(&mut self, source: &Source) -> Option<T> {
        let read = serde_yaml::from_str(source.text());
        read.map_err(|error| {
            let index = error.location().map_or(0, |location| location.index());
            let at = index.min(source.text().len());
            self.found.push(problems::wording(Place::at(source, at..at), &error));
        })
        .ok()
    }

    fn path(&self, name: &str) -> String {
        format!("wording/{}/{name}.yaml", self.language)
    }
}

/// Where a text first stands in a file.
fn place_of(source: &Source, text: &str) -> Place {
    let at = source.text().find(text);
    at.map_or_else(|| Place::whole(source), |at| Place::at(source, at..at + text.len()))
}

/// Files of a language that nothing reads, such as one under a mistyped name.
fn unknown_files(templates: &Templates, language: &str) -> Vec<Diagnostic> {
    let folder = format!("wording/{language}/");
    let built_in = Templates::built_in();
    let known: Vec<&str> =
        built_in.iter().filter_map(|(path, _)| path.strip_prefix("wording/en/")).collect();
    let own =
        templates.iter().filter_map(|(path, source)| Some((path.strip_prefix(&folder)?, source)));
    own.filter(|(name, _)| !known.contains(name))
        .map(|(name, source)| problems::unknown_file(Place::whole(source), name, &known))
        .collect()
}
