//! The words of one language: fixed labels from YAML, sentences from minijinja.
//!
//! In: [`Templates`] and a language; out: texts with white space made one. Layout is not here.

mod cldr;
mod files;
pub mod grammar;
mod house;

use std::collections::BTreeMap;
use std::sync::Arc;

use minijinja::{AutoEscape, Environment, Error, ErrorKind, UndefinedBehavior, Value};
use serde::Serialize;

use super::care_words::CareWords;
use super::clauses;
use super::problems;
use super::templates::Templates;
use super::text;
use cldr::Cldr;
use files::{CLAUSES, Files, Words};
use grammar::Grammar;

use crate::assessment::bench::check_result::CheckResult;
use crate::diagnostic::Diagnostic;
use crate::sheet::findings::Finding;
use crate::sheet::signs::{SignEntry, Signs};

/// Steps that one sentence may take, so that a house template cannot run without end.
const FUEL: u64 = 100_000;

/// The words of one language.
pub struct Wording {
    language: String,
    /// The region whose forms are used.
    region: String,
    cldr: Arc<Cldr>,
    grammar: Grammar,
    labels: serde_yaml::Value,
    choices: BTreeMap<String, Words>,
    parts: BTreeMap<String, Words>,
    signs: BTreeMap<String, Words>,
    stories: BTreeMap<String, Words>,
    numbers: Arc<[String]>,
    care: CareWords,
    noted: BTreeMap<String, BTreeMap<String, serde_yaml::Value>>,
    sentences: Environment<'static>,
    templates: Templates,
}

impl Wording {
    /// Reads the words of a language with the forms of a region, or of the one that it names itself.
    ///
    /// # Errors
    /// Every problem of its files, with the file's own name and line.
    pub fn read(
        templates: &Templates,
        language: &str,
        region: Option<&str>,
    ) -> Result<Self, Vec<Diagnostic>> {
        let mut files = Files::of(templates, language);
        if files.found.is_empty() {
            let read = Self::of(&mut files, templates, language, region);
            read.filter(|_| files.found.is_empty()).ok_or(files.found)
        } else {
            Err(files.found)
        }
    }

    fn of(
        files: &mut Files<'_>,
        templates: &Templates,
        language: &str,
        region: Option<&str>,
    ) -> Option<Self> {
        let grammar = files.grammar();
        let mut sentences = Environment::new();
        sentences.set_auto_escape_callback(|_| AutoEscape::None);
        sentences.set_undefined_behavior(UndefinedBehavior::Strict);
        sentences.set_fuel(Some(FUEL));
        // A workshop's file need hold only the sentences that it says otherwise.
        let mut words: Words = files.built_in_clauses().unwrap_or_default();
        words.extend(files.read::<Words>(CLAUSES).unwrap_or_default());
        for (key, text) in words {
            let added = sentences.add_template_owned(key, text).err();
            files.found.extend(added.map(|error| clause_problem(templates, language, &error)));
        }
        let labels: Option<serde_yaml::Value> = files.read("labels");
        let choices = ["conditions", "bench", "record", "message"];
        let choices = choices.map(|name| files.read::<BTreeMap<String, Words>>(name));
        let [conditions, ..] = &choices;
        let rows = ["parts", "signs", "stories"];
        let [parts, signs, stories] = rows.map(|name| files.read::<BTreeMap<String, Words>>(name));
        let of_grammar = [
            ("conditions", conditions),
            ("parts", &parts),
            ("signs", &signs),
            ("stories", &stories),
        ];
        for (name, rows) in of_grammar {
            if let (Some(grammar), Some(rows)) = (&grammar, rows) {
                files.held_against(grammar, name, rows);
            }
        }
        let care = files.read("care");
        let noted = files.read("noted");
        let labels = labels?;
        let region = region.map_or_else(|| string(&labels, "region"), str::to_owned);
        let Some(cldr) = Cldr::of(&format!("{language}-{region}")) else {
            files.no_region("labels", &region);
            return None;
        };
        let cldr = Arc::new(cldr);
        let numbers: Arc<[String]> = list(&labels, "numbers").into();
        add_forms(&mut sentences, &cldr, &numbers);
        Some(Self {
            language: language.to_owned(),
            region,
            cldr,
            grammar: grammar?,
            labels,
            choices: choices
                .into_iter()
                .collect::<Option<Vec<_>>>()?
                .into_iter()
                .flatten()
                .collect(),
            parts: parts?,
            signs: signs?,
            stories: stories?,
            numbers,
            care: care?,
            noted: noted?,
            sentences,
            templates: templates.clone(),
        })
    }

    /// The language, without its region.
    pub fn language(&self) -> &str {
        &self.language
    }

    /// The region whose forms the words have.
    pub fn region(&self) -> &str {
        &self.region
    }

    /// Dates, lists, plurals and numbers of the language and region.
    pub fn cldr(&self) -> &Cldr {
        &self.cldr
    }

    /// How names stand in sentences of the language.
    pub fn grammar(&self) -> &Grammar {
        &self.grammar
    }

    /// A fixed label; the key itself if the language lacks it, which [`Wording::read`] forbids.
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

    /// The same, if there are words for it.
    pub fn choice_if(&self, kind: &str, word: &str) -> Option<&str> {
        self.choices.get(kind)?.get(word).map(String::as_str)
    }

    /// A number as a word if it is small, else in digits.
    pub fn counted(&self, number: usize) -> String {
        self.numbers.get(number).cloned().unwrap_or_else(|| number.to_string())
    }

    /// Words of a part: `plain`, `gloss`.
    pub fn part<'a>(&'a self, part: &'a str, which: &str) -> &'a str {
        self.parts.get(part).and_then(|words| words.get(which)).map_or(part, String::as_str)
    }

    /// Words that only some parts have: `kind`, `kinds`, `other`, `there`.
    pub fn part_if(&self, part: &str, which: &str) -> Option<&str> {
        self.parts.get(part)?.get(which).map(String::as_str)
    }

    /// Words of a part in a form, else the same words in the form that they have by themselves.
    pub fn part_in(&self, part: &str, which: &str, form: &str) -> Option<&str> {
        let words = self.parts.get(part)?;
        let of_form = words.get(&grammar::key(which, self.grammar.words_of(form)));
        of_form.or_else(|| words.get(which)).map(String::as_str)
    }

    /// The words of a fixed choice in a form, else in the form that they have by themselves.
    pub fn choice_in<'a>(&'a self, kind: &str, word: &'a str, form: &str) -> &'a str {
        let of_form = self.choice_if(&grammar::key(kind, self.grammar.words_of(form)), word);
        of_form.unwrap_or_else(|| self.choice(kind, word))
    }

    /// Words that only some signs have: `failed`, the heading if the part failed.
    pub fn sign_if(&self, sign: &str, which: &str) -> Option<&str> {
        self.signs.get(sign)?.get(which).map(String::as_str)
    }

    /// What a sign says happened to a part, as a clause: `told`, `failed`, `more`.
    pub fn story(&self, sign: &str, which: &str) -> Option<&str> {
        self.stories.get(sign)?.get(which).map(String::as_str)
    }

    /// The plain name of a finding's part: the sheet's own words for it, else those of the wording.
    pub fn part_of<'a>(&'a self, finding: &'a Finding) -> &'a str {
        finding.own_name().unwrap_or_else(|| self.part(finding.part.name(), "plain"))
    }

    /// The plain words of signs as typed: those of the catalogue, and those in words of one's own.
    pub fn signs_of(&self, signs: &Signs) -> Vec<String> {
        signs.entries().iter().map(|entry| self.sign_entry(&entry.value)).collect()
    }

    /// The plain words of one sign as typed.
    pub fn sign_entry(&self, entry: &SignEntry) -> String {
        match entry {
            SignEntry::Known(sign) => self.sign(sign.name(), "plain").to_owned(),
            SignEntry::Other(own) => own.0.clone(),
        }
    }

    /// Words of a sign: `heading`, `plain`, `trade`.
    pub fn sign<'a>(&'a self, sign: &'a str, which: &str) -> &'a str {
        self.signs.get(sign).and_then(|words| words.get(which)).map_or(sign, String::as_str)
    }

    /// What was measured, and of which of several: a part's plain name, or words as typed.
    pub fn measure_of(&self, line: &CheckResult) -> String {
        let measure = self.choice("measures", line.measure.word());
        match &line.of {
            None => measure.to_owned(),
            Some(of) => format!("{measure}{}{}", self.grammar.colon(), self.part(of, "plain")),
        }
    }

    /// Words of care.
    pub fn care(&self) -> &CareWords {
        &self.care
    }

    /// Words for what is printed as noted: `noted("labels", "arrival.packing")`.
    pub fn noted<'a>(&'a self, kind: &str, key: &'a str) -> &'a str {
        let word = self.noted.get(kind).and_then(|words| words.get(key));
        word.and_then(|word| word.as_str()).unwrap_or(key)
    }

    /// The print of a fixed word that is printed as noted: `noted_word("use", "trail")`.
    pub fn noted_word<'a>(&'a self, list: &str, word: &'a str) -> &'a str {
        let words = self.noted.get("words").and_then(|words| words.get(list));
        words.and_then(|words| words.get(word)).and_then(|word| word.as_str()).unwrap_or(word)
    }

    /// The sentence of a clause, filled with the values of a job.
    ///
    /// # Errors
    /// A problem in the sentence, reported at its file.
    pub fn sentence(&self, key: &str, values: &impl Serialize) -> Result<String, Diagnostic> {
        let template = self.sentences.get_template(key);
        let said = template.and_then(|one| one.render(minijinja::value::Serde(values)));
        said.map(|text| one_line(&text))
            .map_err(|error| clause_problem(&self.templates, &self.language, &error))
    }
}

impl Wording {
    /// Tries every sentence, whatever licenses it, on the values of one job; what that job has no
    /// value for is passed over.
    pub fn try_all(&self, values: &impl Serialize) -> Vec<Diagnostic> {
        let clauses = clauses::TABLE.values().flatten().flat_map(clauses::Entry::clauses);
        let tried = clauses.filter_map(|clause| {
            let template = self.sentences.get_template(&clause.say);
            let error =
                template.and_then(|one| one.render(minijinja::value::Serde(values))).err()?;
            let is_absent = error.kind() == ErrorKind::UndefinedError;
            (!is_absent).then(|| clause_problem(&self.templates, &self.language, &error))
        });
        tried.collect()
    }
}

/// What sentences do with texts, lists, numbers and plurals.
fn add_forms(sentences: &mut Environment<'static>, cldr: &Arc<Cldr>, numbers: &Arc<[String]>) {
    let lists = cldr.clone();
    sentences.add_filter("listed", move |items: Vec<String>| lists.listed(&items));
    let in_words = numbers.clone();
    sentences.add_filter("counted", move |number: Value| {
        let number = number_of(&number)?;
        Ok::<_, Error>(in_words.get(number).cloned().unwrap_or_else(|| number.to_string()))
    });
    sentences.add_filter("ended", |text: String| text::ended(&text));
    sentences.add_filter("capitalised", |text: String| text::capitalised(&text));
    let plurals = cldr.clone();
    sentences.add_filter("some", move |number: Value, one: String, several: String| {
        Ok::<_, Error>(if plurals.is_one(number_of(&number)?) { one } else { several })
    });
}

/// The number that a filter is given; one that this job does not have is as absent as any value.
fn number_of(value: &Value) -> Result<usize, Error> {
    if value.is_none() || value.is_undefined() {
        return Err(ErrorKind::UndefinedError.into());
    }
    usize::try_from(value.clone())
}

/// A mistake in a sentence, reported at its key.
fn clause_problem(templates: &Templates, language: &str, error: &minijinja::Error) -> Diagnostic {
    let path = format!("wording/{language}/{CLAUSES}.yaml");
    match templates.get(&path) {
        Some(source) => problems::sentence(source, error),
        None => problems::no_sentence(&path),
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

fn list(labels: &serde_yaml::Value, key: &str) -> Vec<String> {
    let items = labels.get(key).and_then(|items| items.as_sequence());
    let items = items.into_iter().flatten().filter_map(|item| item.as_str());
    items.map(str::to_owned).collect()
}
