//! The words of one language: fixed labels from YAML, sentences from minijinja.
//!
//! In: [`Templates`] and a language; out: texts with white space made one. Layout is not here.

use std::collections::BTreeMap;

use minijinja::{AutoEscape, Environment, UndefinedBehavior};
use serde::Serialize;

use super::care_words::CareWords;
use super::format;
use super::problems;
use super::templates::Templates;
use super::view::Advice;
use crate::diagnostic::{Diagnostic, Place};
use crate::sheet::findings::Finding;

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
    /// A problem in one of its files, with the file's own name and line.
    pub fn read(templates: &Templates, language: &str) -> Result<Self, Diagnostic> {
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
            added.map_err(|error| problems::sentence(source, &error))?;
        }
        let and = string(&file(templates, language, "labels")?, "and");
        sentences.add_filter("listed", move |items: Vec<String>| match items.as_slice() {
            [] => String::new(),
            [one] => one.clone(),
            [front @ .., last] => format!("{} {and} {last}", front.join(", ")),
        });
        sentences.add_filter("capitalised", |text: String| format::capitalised(&text));
        Ok(Self {
            language: language.to_owned(),
            labels: file(templates, language, "labels")?,
            choices: choices(templates, language)?,
            parts: file(templates, language, "parts")?,
            signs: file(templates, language, "signs")?,
            care: file(templates, language, "care")?,
            sentences,
            templates: templates.clone(),
        })
    }

    /// A fixed label; the key itself where the language lacks it, which a test forbids.
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

    /// The plain name of a finding's part: the sheet's own words for it, else those of the wording.
    pub fn part_of<'a>(&'a self, finding: &'a Finding) -> &'a str {
        finding.own_name().unwrap_or_else(|| self.part(finding.part.name(), "plain"))
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

/// The words of every fixed choice, from the two files that hold them.
fn choices(templates: &Templates, language: &str) -> Result<BTreeMap<String, Words>, Diagnostic> {
    let mut choices: BTreeMap<String, Words> = file(templates, language, "conditions")?;
    choices.extend(file::<BTreeMap<String, Words>>(templates, language, "bench")?);
    Ok(choices)
}

fn string(labels: &serde_yaml::Value, key: &str) -> String {
    labels.get(key).and_then(|label| label.as_str()).unwrap_or(key).to_owned()
}

fn file<T: for<'a> serde::Deserialize<'a>>(
    templates: &Templates,
    language: &str,
    name: &str,
) -> Result<T, Diagnostic> {
    let path = format!("wording/{language}/{name}.yaml");
    let Some(source) = templates.get(&path) else { return Err(problems::no_sentence(&path)) };
    serde_yaml::from_str(source.text()).map_err(|error| {
        let at = error.location().map_or(0, |location| location.index().min(source.text().len()));
        problems::wording(Place::at(source, at..at), &error)
    })
}
