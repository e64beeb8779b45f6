//! Words: every language has every key, every catalogue row its words, every word of a sheet its print.

mod choices;

use std::collections::{BTreeMap, BTreeSet};

use splitcase::document::templates::Templates;
use splitcase::document::text::fill;
use splitcase::document::wording::Wording;
use splitcase::sheet::catalogue::{PARTS, SIGNS};
use splitcase::sheet::findings::FindingsSheet;
use splitcase::sheet::reader::Value;
use splitcase::sheet::shape::{Printed, RecordShape, Shape};

type Rows = BTreeMap<String, BTreeMap<String, String>>;

fn rows(templates: &Templates, language: &str, file: &str) -> Rows {
    let path = format!("wording/{language}/{file}.yaml");
    serde_yaml::from_str(templates.get(&path).unwrap_or_else(|| panic!("no {path}")).text())
        .unwrap()
}

/// What the keys of words in another form, or of the class of a name, end in.
fn forms(language: &str) -> BTreeSet<String> {
    let Ok(wording) = Wording::read(&Templates::built_in(), language, None) else {
        panic!("{language}")
    };
    wording.grammar().forms().map(str::to_owned).chain(["class".to_owned()]).collect()
}

fn labels(templates: &Templates, language: &str) -> BTreeMap<String, serde_yaml::Value> {
    let path = format!("wording/{language}/labels.yaml");
    serde_yaml::from_str(templates.get(&path).unwrap().text()).unwrap()
}

#[test]
fn every_part_and_sign_has_its_words_and_no_words_lack_a_row() {
    let templates = Templates::built_in();
    for language in templates.languages() {
        let parts = rows(&templates, language, "parts");
        let signs = rows(&templates, language, "signs");
        let names = |rows: &Rows| rows.keys().cloned().collect::<Vec<_>>();
        let mut wanted: Vec<String> = PARTS.iter().map(|row| row.part.clone()).collect();
        wanted.sort();
        assert_eq!(names(&parts), wanted, "{language}");
        let mut wanted: Vec<String> = SIGNS.iter().map(|row| row.sign.clone()).collect();
        wanted.sort();
        assert_eq!(names(&signs), wanted, "{language}");
        assert!(
            parts
                .values()
                .all(|words| ["plain", "gloss"].iter().all(|key| words.contains_key(*key)))
        );
        assert!(
            signs.values().all(|words| ["heading", "plain", "trade"]
                .iter()
                .all(|key| words.contains_key(*key)))
        );
    }
}

/// What a sign says happened to a part. Clauses name the part once, and hold no word that changes with the
/// number of parts.
#[test]
fn every_sign_that_can_be_on_a_part_has_its_clauses() {
    let templates = Templates::built_in();
    for language in templates.languages() {
        let stories = rows(&templates, language, "stories");
        let on_parts = SIGNS.iter().filter(|row| row.on.iter().any(|place| place.word() != "unit"));
        let mut wanted: Vec<String> = on_parts.map(|row| row.sign.clone()).collect();
        wanted.sort();
        assert_eq!(stories.keys().cloned().collect::<Vec<_>>(), wanted, "{language}");
        for (sign, clauses) in &stories {
            assert!(["told", "more"].iter().all(|key| clauses.contains_key(*key)), "{sign}");
            for clause in clauses.values() {
                let n_named = clause.matches("{part}").count() + clause.matches("{part:").count();
                assert!(n_named <= 1 && !clause.ends_with('.'), "{language}: {sign}");
                let changes = ["{part} was ", "{part} is ", "{part} has "];
                assert!(!changes.iter().any(|one| clause.starts_with(one)), "{sign}");
            }
            assert!(!clauses["more"].contains("{part"), "{language}: {sign}");
        }
    }
}

/// What a language's `noted.yaml` must hold: labels by the path of a field, words by choice.
#[derive(Debug, Default, PartialEq)]
struct NotedWords {
    headings: BTreeSet<String>,
    labels: BTreeSet<String>,
    words: BTreeMap<String, BTreeSet<String>>,
}

impl NotedWords {
    fn gather(&mut self, record: &RecordShape, path: &str, is_list: bool) {
        for field in &record.fields {
            let path = format!("{path}{}", field.key);
            match (field.printed, field.shape.record()) {
                (_, Some(record)) if field.printed != Printed::AsNoted => {
                    let is_list = matches!(field.shape, Shape::List(_));
                    self.gather(record, &format!("{path}."), is_list);
                }
                (Printed::AsNoted, _) => {
                    self.headings.insert(path.split('.').next().unwrap().to_owned());
                    // An entry of a list is named by what its first field says.
                    if let Some(first) = record.fields.first().filter(|_| is_list) {
                        self.words_of(&first.shape);
                    }
                    self.labels.insert(path);
                    self.words_of(&field.shape);
                }
                _ => {}
            }
        }
    }

    fn words_of(&mut self, shape: &Shape) {
        match shape {
            Shape::Words { name, words } if !["part", "sign"].contains(name) => {
                self.words
                    .insert((*name).to_owned(), words.iter().map(|one| one.word.clone()).collect());
            }
            Shape::List(of) => self.words_of(of),
            Shape::Either(forms) => forms.iter().for_each(|form| self.words_of(form)),
            Shape::Record(record) => {
                record.fields.iter().for_each(|field| self.words_of(&field.shape));
            }
            _ => {}
        }
    }
}

#[test]
fn every_field_that_is_printed_as_noted_has_its_label_and_its_words() {
    let Shape::Record(sheet) = FindingsSheet::shape() else { panic!("a sheet is a block") };
    let mut wanted = NotedWords::default();
    wanted.gather(&sheet, "", false);
    let templates = Templates::built_in();
    for language in templates.languages() {
        let path = format!("wording/{language}/noted.yaml");
        let file: serde_yaml::Value =
            serde_yaml::from_str(templates.get(&path).unwrap().text()).unwrap();
        let keys = |value: &serde_yaml::Value| -> BTreeSet<String> {
            let keys = value.as_mapping().unwrap().keys();
            keys.map(|key| key.as_str().unwrap().to_owned()).collect()
        };
        let words = file["words"].as_mapping().unwrap().iter();
        let words = words.map(|(name, words)| (name.as_str().unwrap().to_owned(), keys(words)));
        let there = NotedWords {
            headings: keys(&file["headings"]),
            labels: keys(&file["labels"]),
            words: words.collect(),
        };
        assert_eq!(there.headings, wanted.headings, "{language}");
        assert_eq!(there.labels, wanted.labels, "{language}");
        assert_eq!(there.words, wanted.words, "{language}");
    }
}

/// A sentence without a licence cannot be said, and a licence without words prints nothing.
#[test]
fn every_clause_has_its_words_in_every_language_and_no_words_lack_a_licence() {
    let templates = Templates::built_in();
    let mut keys: Vec<&str> = splitcase::document::clauses::TABLE
        .values()
        .flatten()
        .flat_map(splitcase::document::clauses::Entry::clauses)
        .map(|clause| clause.say.as_str())
        .collect();
    keys.sort_unstable();
    keys.dedup();
    for language in templates.languages() {
        let path = format!("wording/{language}/clauses.yaml");
        let text = templates.get(&path).unwrap().text();
        let words: BTreeMap<String, String> = serde_yaml::from_str(text).unwrap();
        assert_eq!(words.keys().map(String::as_str).collect::<Vec<_>>(), keys, "{language}");
        // When a sentence may be said stands in the table, where it can be checked.
        assert!(words.values().all(|words| !words.contains("{%")), "{language}");
    }
}

#[test]
fn every_language_has_every_label_and_sentence_of_english() {
    let templates = Templates::built_in();
    let english: Vec<String> = labels(&templates, "en").into_keys().collect();
    for language in templates.languages() {
        assert_eq!(
            labels(&templates, language).into_keys().collect::<Vec<_>>(),
            english,
            "{language}"
        );
        for (path, _) in templates.iter().filter(|(path, _)| path.starts_with("wording/en/")) {
            let other = path.replacen("/en/", &format!("/{language}/"), 1);
            assert!(templates.get(&other).is_some(), "{other} is missing");
        }
    }
}

#[test]
fn every_label_that_the_program_asks_for_is_there_and_none_is_unused() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut asked = String::new();
    let mut folders = vec![root.join("src/document"), root.join("report-templates")];
    while let Some(folder) = folders.pop() {
        for path in std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            match path.extension().and_then(|ending| ending.to_str()) {
                None if path.is_dir() => folders.push(path),
                Some("rs" | "typ") => asked += &std::fs::read_to_string(path).unwrap(),
                _ => {}
            }
        }
    }
    let labels = labels(&Templates::built_in(), "en");
    for key in labels.keys() {
        let used = asked.contains(&format!("\"{key}\"")) || asked.contains(&format!("words.{key}"));
        assert!(used, "the label `{key}` is never printed");
    }
    // In Rust by the text in brackets, in the layouts as a field of the words that they are given.
    let in_rust = asked.split("label(\"").skip(1).chain(asked.split(".item(\"").skip(1));
    let in_rust = in_rust.filter_map(|part| part.split('"').next());
    let is_of_key = |c: char| c.is_ascii_lowercase() || c == '-';
    let in_layouts = asked.split("d.words.").skip(1);
    let in_layouts = in_layouts.filter_map(|part| part.split(|c| !is_of_key(c)).next());
    let mut n_asked = 0;
    for key in in_rust.chain(in_layouts).filter(|key| key.chars().all(is_of_key)) {
        n_asked += 1;
        assert!(labels.contains_key(key), "the label `{key}` is missing");
    }
    assert!(100 < n_asked, "{n_asked}");
}

/// The scores of the table of signs are whole numbers from -2 to +2, and every id is there once.
#[test]
fn the_table_of_signs_is_whole() {
    let ids: std::collections::BTreeSet<&str> =
        SIGNS.iter().map(|row| row.r#ref.as_str()).collect();
    assert_eq!(ids.len(), SIGNS.len());
    for row in SIGNS.iter() {
        let scores = &row.scores;
        for score in [scores.ingress, scores.neglect, scores.mechanical, scores.electrical] {
            assert!((-2..=2).contains(&score), "{}", row.sign);
        }
        assert!(!row.on.is_empty(), "{}", row.sign);
    }
}

#[test]
fn the_customer_never_reads_the_bare_word_neglect() {
    let templates = Templates::built_in();
    for (path, source) in templates.iter().filter(|(path, _)| path.starts_with("wording/en/")) {
        let without_keys: String = source
            .text()
            .lines()
            .filter(|line| {
                !line.trim_start().starts_with(['#', '{']) || path.ends_with("signs.yaml")
            })
            .map(|line| line.strip_prefix("  neglect:").unwrap_or(line))
            .collect();
        assert!(!without_keys.to_lowercase().contains("neglect"), "{path}");
    }
}

#[test]
fn a_form_is_filled_in_one_pass_so_that_braces_in_what_somebody_typed_stay() {
    let values = [("what", "{amount} of {what}"), ("amount", "£4.00")];
    let filled = fill("{what}: {amount}, {nobody} {", &values);
    assert_eq!(filled, "{amount} of {what}: £4.00, {nobody} {");
}

/// A name in braces that no code fills would be printed as it is.
#[test]
fn every_name_in_braces_of_a_form_is_filled_somewhere() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let receipt = std::fs::read_to_string(root.join("src/archive/receipt.rs")).unwrap();
    let (mut code, mut folders) =
        (receipt, vec![root.join("src/document"), root.join("report-templates")]);
    while let Some(folder) = folders.pop() {
        for path in std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            match path.extension().and_then(|ending| ending.to_str()) {
                None if path.is_dir() => folders.push(path),
                Some("rs" | "typ") => code += &std::fs::read_to_string(path).unwrap(),
                _ => {}
            }
        }
    }
    let code: String = code.split_whitespace().collect();
    let templates = Templates::built_in();
    let forms = templates
        .iter()
        .filter(|(path, _)| path.starts_with("wording/") && !path.ends_with("clauses.yaml"));
    let mut n_names = 0;
    for (path, source) in forms {
        for line in source.text().lines().filter(|line| !line.trim_start().starts_with('#')) {
            for name in line.split('{').skip(1).filter_map(|part| part.split_once('}')) {
                let name = name.0;
                if name.is_empty() || !name.chars().all(|c| c.is_ascii_lowercase() || c == '-') {
                    continue;
                }
                n_names += 1;
                let is_filled = code.contains(&format!("(\"{name}\","))
                    || code.contains(&format!("\"{{{name}}}\""));
                assert!(is_filled, "{path}: nothing fills {{{name}}}: {line}");
            }
        }
    }
    assert!(100 < n_names, "{n_names}");
}

/// A form that a language does not have, or choices that are neither two nor one for each class of names,
/// would be filled with the wrong word.
#[test]
fn every_clause_asks_for_forms_and_choices_that_its_language_has() {
    let templates = Templates::built_in();
    let mut n_clauses = 0;
    for language in templates.languages() {
        let Ok(wording) = Wording::read(&templates, language, None) else { panic!("{language}") };
        let told = rows(&templates, language, "conditions").remove("conditions-told").unwrap();
        let clauses = ["signs", "stories"].map(|file| rows(&templates, language, file));
        let clauses = clauses.into_iter().flat_map(BTreeMap::into_values).chain([told]);
        for clause in clauses.flat_map(BTreeMap::into_values) {
            n_clauses += 1;
            let faults = wording.grammar().faults(&clause);
            assert!(faults.is_empty(), "{language}: {faults:?} in `{clause}`");
        }
    }
    assert!(1000 < n_clauses, "{n_clauses}");
}

/// In a language whose articles differ, a name without its class gets the wrong one.
#[test]
fn every_name_has_a_class_of_its_language_and_no_form_lacks_the_words_that_it_is_of() {
    let templates = Templates::built_in();
    for language in templates.languages().into_iter().filter(|language| *language != "en") {
        let Ok(wording) = Wording::read(&templates, language, None) else { panic!("{language}") };
        let forms = forms(language);
        for (part, words) in rows(&templates, language, "parts") {
            let class =
                words.get("class").unwrap_or_else(|| panic!("{language}: {part} has no class"));
            assert!(wording.grammar().classes().contains(class), "{language}: {part} is `{class}`");
            for key in words.keys() {
                let form = key.rsplit_once('-').filter(|(_, form)| forms.contains(*form));
                let known = ["class", "plain", "gloss", "brief", "kind", "kinds", "other", "there"];
                let of = form.map_or(key.as_str(), |(of, _)| of);
                assert!(known.contains(&of) && words.contains_key(of), "{language}: {part}: {key}");
            }
        }
    }
}
