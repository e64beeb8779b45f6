//! The words of one language: fixed labels from YAML, sentences from minijinja.
//!
//! In: [`Templates`] and a language; out: texts with white space made one. Layout is not here.

mod house;

use std::collections::BTreeMap;

use minijinja::{AutoEscape, Environment, UndefinedBehavior};
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::care_words::CareWords;
use super::format;
use super::problems;
use super::templates::Templates;
use super::view::Advice;
use crate::diagnostic::{Diagnostic, Place};

/// Steps that one sentence may take, so that a house template cannot run for ever.
const FUEL: u64 = 100_000;

/// Words for one row of a catalogue.
pub type Words = BTreeMap<String, String>;

/// The words of one language.
pub struct Wording {
    language: String,
    labels: serde_yaml::Value,
    choices: BTreeMap<String, Words>,
    parts: BTreeMap<String, Words>,
    signs: BTreeMap<String, Words>,
    care: CareWords,
    sentences: Environment<'static>,
    templates: Templates,
}

impl Wording {
    /// Reads the words of a language.
    ///
    /// # Errors
    /// Every problem of its files, with the file's own name and line.
    pub fn read(templates: &Templates, language: &str) -> Result<Self, Vec<Diagnostic>> {
        let mut problems = Vec::new();
        for path in Templates::built_in().iter().map(|(path, _)| path) {
            let Some(name) = path.strip_prefix("wording/en/") else { continue };
            let own = format!("wording/{language}/{name}");
            if templates.get(&own).is_none() {
                problems.push(problems::no_sentence(&own));
            }
        }
        if problems.is_empty() {
            Self::of(templates, language, &mut problems)
                .filter(|_| problems.is_empty())
                .ok_or(problems)
        } else {
            Err(problems)
        }
    }

    fn of(templates: &Templates, language: &str, found: &mut Vec<Diagnostic>) -> Option<Self> {
        let mut sentences = Environment::new();
        sentences.set_auto_escape_callback(|_| AutoEscape::None);
        sentences.set_undefined_behavior(UndefinedBehavior::Strict);
        sentences.set_fuel(Some(FUEL));
        let folder = format!("wording/{language}/");
        for (path, source) in templates.iter() {
            let Some(name) =
                path.strip_prefix(&folder).and_then(|name| name.strip_suffix(".jinja"))
            else {
                continue;
            };
            let added = sentences.add_template_owned(name.to_owned(), source.text().to_owned());
            found.extend(added.err().map(|error| problems::sentence(source, &error)));
        }
        let labels: Option<serde_yaml::Value> = file(templates, language, "labels", found);
        let conditions: Option<BTreeMap<String, Words>> =
            file(templates, language, "conditions", found);
        let bench: Option<BTreeMap<String, Words>> = file(templates, language, "bench", found);
        let parts = file(templates, language, "parts", found);
        let signs = file(templates, language, "signs", found);
        let care = file(templates, language, "care", found);
        let labels = labels?;
        let mut choices = conditions?;
        choices.extend(bench?);
        let and = string(&labels, "and");
        sentences.add_filter("listed", move |items: Vec<String>| match items.as_slice() {
            [] => String::new(),
            [one] => one.clone(),
            [front @ .., last] => format!("{} {and} {last}", front.join(", ")),
        });
        sentences.add_filter("capitalised", |text: String| format::capitalised(&text));
        Some(Self {
            language: language.to_owned(),
            labels,
            choices,
            parts: parts?,
            signs: signs?,
            care: care?,
            sentences,
            templates: templates.clone(),
        })
    }

    /// A fixed label; the key itself where the language lacks it, which [`Wording::read`] forbids.
    pub fn label<'a>(&'a self, key: &'a str) -> &'a str {
        self.labels.get(key).and_then(|label| label.as_str()).unwrap_or(key)
    }

    /// An item of a list of labels, such as a month.
    pub fn item<'a>(&'a self, key: &'a str, index: usize) -> &'a str {
        self.labels
            .get(key)
            .and_then(|list| list.get(index))
            .and_then(|item| item.as_str())
            .unwrap_or(key)
    }

    /// All labels, for the templates.
    pub fn labels(&self) -> serde_json::Value {
        serde_json::to_value(&self.labels).unwrap_or_default()
    }

    /// The words of a fixed choice: `choice("conditions", "worn")`.
    pub fn choice<'a>(&'a self, kind: &str, word: &'a str) -> &'a str {
        self.choices.get(kind).and_then(|words| words.get(word)).map_or(word, String::as_str)
    }

    /// Words of a part: `plain`, `gloss`.
    pub fn part<'a>(&'a self, part: &'a str, which: &str) -> &'a str {
        self.parts.get(part).and_then(|words| words.get(which)).map_or(part, String::as_str)
    }

    /// Words of a sign: `heading`, `plain`, `trade`.
    pub fn sign<'a>(&'a self, sign: &'a str, which: &str) -> &'a str {
        self.signs.get(sign).and_then(|words| words.get(which)).map_or(sign, String::as_str)
    }

    /// Words of care.
    pub fn care(&self) -> &CareWords {
        &self.care
    }

    /// A sentence about a job; empty where there is nothing to say.
    ///
    /// # Errors
    /// A problem in the sentence's template, with its own name and line.
    pub fn sentence(&self, name: &str, facts: &impl Serialize) -> Result<String, Diagnostic> {
        Ok(one_line(&self.written(name, facts)?))
    }

    /// Pieces of advice, one a line, `what | more`.
    ///
    /// # Errors
    /// As [`Wording::sentence`].
    pub fn advice(&self, name: &str, facts: &impl Serialize) -> Result<Vec<Advice>, Diagnostic> {
        let text = self.written(name, facts)?;
        let lines = text.lines().map(one_line).filter(|line| !line.is_empty());
        let split = |line: String| {
            let (what, more) = line.split_once('|').unwrap_or((&line, ""));
            Advice { what: what.trim().to_owned(), more: more.trim().to_owned() }
        };
        Ok(lines.map(split).collect())
    }

    fn written(&self, name: &str, facts: &impl Serialize) -> Result<String, Diagnostic> {
        let template = self.sentences.get_template(name);
        template.and_then(|template| template.render(minijinja::value::Serde(facts))).map_err(
            |error| {
                let file = error.name().unwrap_or(name);
                let path = format!("wording/{}/{file}.jinja", self.language);
                match self.templates.get(&path) {
                    Some(source) => problems::sentence(source, &error),
                    None => problems::no_sentence(&path),
                }
            },
        )
    }
}

fn one_line(text: &str) -> String {
    text.split(' ')
        .flat_map(|part| part.split(['\n', '\r', '\t']))
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}

fn string(labels: &serde_yaml::Value, key: &str) -> String {
    labels.get(key).and_then(|label| label.as_str()).unwrap_or(key).to_owned()
}

/// One file of a language; what is wrong with it is added to `found`.
fn file<T: DeserializeOwned>(
    templates: &Templates,
    language: &str,
    name: &str,
    found: &mut Vec<Diagnostic>,
) -> Option<T> {
    let path = format!("wording/{language}/{name}.yaml");
    let source = templates.get(&path)?;
    if templates.is_house(&path) {
        let built_in = Templates::built_in();
        let english = built_in.get(&format!("wording/en/{name}.yaml"))?;
        return house::read(source, english, found);
    }
    let read = serde_yaml::from_str(source.text());
    read.map_err(|error| {
        let at = error.location().map_or(0, |location| location.index().min(source.text().len()));
        found.push(problems::wording(Place::at(source, at..at), &error));
    })
    .ok()
}
