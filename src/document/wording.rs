//! The words of one language: fixed labels from YAML, sentences from minijinja.
//!
//! In: [`Templates`] and a language; out: texts with white space made one. Layout is not here.

mod house;

use std::collections::BTreeMap;

use minijinja::{AutoEscape, Environment, Error, ErrorKind, UndefinedBehavior, Value};
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::care_words::CareWords;
use super::clauses;
use super::problems;
use super::templates::Templates;
use super::text;
use crate::assessment::bench::check_result::CheckResult;
use crate::diagnostic::{Diagnostic, Place};
use crate::sheet::findings::Finding;
use crate::sheet::signs::{SignEntry, Signs};

/// Steps that one sentence may take, so that a house template cannot run without end.
const FUEL: u64 = 100_000;

/// The file that holds a language's sentences.
const CLAUSES: &str = "clauses";

/// Words for one row of a catalogue.
pub type Words = BTreeMap<String, String>;

/// The words of one language.
pub struct Wording {
    language: String,
    /// The region whose forms are used, if it is not the language's own.
    region: Option<String>,
    labels: serde_yaml::Value,
    choices: BTreeMap<String, Words>,
    parts: BTreeMap<String, Words>,
    signs: BTreeMap<String, Words>,
    stories: BTreeMap<String, Words>,
    numbers: Vec<String>,
    care: CareWords,
    noted: BTreeMap<String, BTreeMap<String, serde_yaml::Value>>,
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
        problems.extend(unknown_files(templates, language));
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
        let mut words = BTreeMap::new();
        // A workshop's file need hold only the sentences that it says otherwise.
        for templates in [&Templates::built_in(), templates] {
            let read: Option<Words> = file(templates, language, CLAUSES, found);
            words.extend(read.unwrap_or_default());
        }
        for (key, text) in words {
            let added = sentences.add_template_owned(key, text).err();
            found.extend(added.map(|error| clause_problem(templates, language, &error)));
        }
        let labels: Option<serde_yaml::Value> = file(templates, language, "labels", found);
        let conditions: Option<BTreeMap<String, Words>> =
            file(templates, language, "conditions", found);
        let bench: Option<BTreeMap<String, Words>> = file(templates, language, "bench", found);
        let record: Option<BTreeMap<String, Words>> = file(templates, language, "record", found);
        let message: Option<BTreeMap<String, Words>> = file(templates, language, "message", found);
        let parts = file(templates, language, "parts", found);
        let signs = file(templates, language, "signs", found);
        let stories = file(templates, language, "stories", found);
        let care = file(templates, language, "care", found);
        let noted = file(templates, language, "noted", found);
        let labels = labels?;
        let mut choices = conditions?;
        choices.extend(bench?);
        choices.extend(record?);
        choices.extend(message?);
        let and = string(&labels, "and");
        sentences.add_filter("listed", move |items: Vec<String>| match items.as_slice() {
            [] => String::new(),
            [one] => one.clone(),
            [front @ .., last] => format!("{} {and} {last}", front.join(", ")),
        });
        let numbers: Vec<String> = list(&labels, "numbers");
        let in_words = numbers.clone();
        sentences.add_filter("counted", move |number: Value| {
            let number = number_of(&number)?;
            Ok::<_, Error>(in_words.get(number).cloned().unwrap_or_else(|| number.to_string()))
        });
        sentences.add_filter("some", |number: Value, one: String, several: String| {
            Ok::<_, Error>(if number_of(&number)? == 1 { one } else { several })
        });
        sentences.add_filter("ended", |text: String| text::ended(&text));
        sentences.add_filter("capitalised", |text: String| text::capitalised(&text));
        Some(Self {
            language: language.to_owned(),
            region: None,
            labels,
            choices,
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

    /// The same words with the forms of a region.
    #[must_use]
    pub fn of_region(self, region: Option<&str>) -> Self {
        Self { region: region.map(str::to_owned), ..self }
    }

    /// The region whose forms the words have.
    pub fn region(&self) -> &str {
        self.region.as_deref().unwrap_or_else(|| self.label("region"))
    }

    /// A form that may differ by region, such as that of a date.
    pub fn form<'a>(&'a self, key: &'a str) -> &'a str {
        let of_region = self.labels.get("regions").and_then(|all| all.get(self.region()));
        let form = of_region.and_then(|forms| forms.get(key)).and_then(|form| form.as_str());
        form.unwrap_or_else(|| self.label(key))
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
            Some(of) => format!("{measure}: {}", self.part(of, "plain")),
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
        return house::read(source, english, name == CLAUSES, found);
    }
    let read = serde_yaml::from_str(source.text());
    read.map_err(|error| {
        let at = error.location().map_or(0, |location| location.index().min(source.text().len()));
        found.push(problems::wording(Place::at(source, at..at), &error));
    })
    .ok()
}
