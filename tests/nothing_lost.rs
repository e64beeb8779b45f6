//! Nothing typed is lost: sheets that fill every field, and a search for every value on the papers.
//!
//! Which fields a paper prints is said in the definition of the sheet; the table in `docs/fields.md`
//! shows it. Fixtures: `tests/nothing_lost/*.yaml`, which together fill every field.

use std::collections::BTreeSet;
use std::path::Path;

use splitcase::diagnostic::Problems;
use splitcase::document::templates::Templates;
use splitcase::document::wording::Wording;
use splitcase::sheet::findings::FindingsSheet;
use splitcase::sheet::reader::Value;
use splitcase::sheet::shape::{Printed, RecordShape, Shape};
use splitcase::sheet::yaml::{Content, Node};

use crate::paper;

const PROFILE: &str = "name: Hollowmere Drive Works\ncurrency: GBP\nunits: imperial\nrules: gb\n\
    rates: {hour: £44.00, hours: [{name: electronics, price: £61.00}]}\ntax: {name: VAT, rate: 20 %, prices: including, rounding: by-invoice}\n\
    limits: {crank-radial-play: 0.25 mm}\n";

/// Values that are printed in another form than typed, and why.
const OTHERWISE: &[(&str, &str, &str)] = &[
    ("work.labour.time", "72 min", "1\u{202f}h 12\u{202f}min"),
    ("work.discount.on", "labour", "Discount on work"),
    ("billing.scheme", "margin-scheme", "Margin scheme"),
    ("work.labour", "150 min", "2\u{202f}h 30\u{202f}min"),
    ("strip-down.findings.part", "other", "clamp of the cable"),
    ("bench.of", "main-bearing-drive-side", "main bearing on the drive side"),
    ("bench.placing", "120-degrees", "Sensors 120 electrical degrees apart"),
    ("ride.cut-off", "15.3 mph ± 0.2 mph", "15.3\u{202f}mph ± 0.2\u{202f}mph"),
];

fn fixtures() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/nothing_lost");
    let mut files: Vec<_> =
        std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path()).collect();
    files.sort();
    let named = |path: &std::path::PathBuf| path.file_name().unwrap().to_str().unwrap().to_owned();
    files.iter().map(|path| (named(path), std::fs::read_to_string(path).unwrap())).collect()
}

/// One value of a sheet with the path and definition of its field.
struct Typed {
    path: String,
    text: String,
    printed: Printed,
    shape: Shape,
}

/// Every value of a tree, and the path of every field that is filled.
fn walk(node: &Node, record: &RecordShape, path: &str, typed: &mut Vec<Typed>) {
    let Content::Map(entries) = &node.content else { return };
    for entry in entries {
        let field = record.fields.iter().find(|field| field.key == entry.key);
        let Some(field) = field else { continue };
        let path =
            if path.is_empty() { entry.key.clone() } else { format!("{path}.{}", entry.key) };
        value(&entry.value, &field.shape, field.printed, &path, typed);
    }
}

fn value(node: &Node, shape: &Shape, printed: Printed, path: &str, typed: &mut Vec<Typed>) {
    match &node.content {
        Content::Empty => {}
        Content::List(items) => {
            items.iter().for_each(|item| value(item, shape, printed, path, typed));
        }
        Content::Map(_) => walk(node, shape.record().unwrap(), path, typed),
        Content::Scalar(text) => typed.push(Typed {
            path: path.to_owned(),
            text: text.clone(),
            printed,
            shape: shape.clone(),
        }),
    }
}

/// The paths of all fields that hold values and not blocks.
fn leaves(record: &RecordShape, path: &str, paths: &mut BTreeSet<String>) {
    for field in &record.fields {
        let path =
            if path.is_empty() { field.key.clone() } else { format!("{path}.{}", field.key) };
        match field.shape.record() {
            // A photo may be named by its file alone or by a block.
            Some(record) => leaves(record, &path, paths),
            None => {
                paths.insert(photo_alike(&path));
            }
        }
    }
}

/// A photo is read alike wherever it is named.
fn photo_alike(path: &str) -> String {
    match path.split_once("photos") {
        Some((_, rest)) => format!("photo{}", rest.trim_start_matches("-after")),
        None => path.to_owned(),
    }
}

fn typed(text: &str) -> Vec<Typed> {
    let mut problems = Problems::default();
    let source = splitcase::diagnostic::source::SourceText::new("findings.yaml", text.to_owned());
    let tree = splitcase::sheet::yaml::parse(&source, &mut problems).unwrap();
    let Shape::Record(sheet) = FindingsSheet::shape() else { panic!("a sheet is a block") };
    let mut typed = Vec::new();
    walk(&tree, &sheet, "", &mut typed);
    typed
}

#[test]
fn the_fixtures_fill_every_field_of_the_sheet() {
    let Shape::Record(sheet) = FindingsSheet::shape() else { panic!("a sheet is a block") };
    let mut wanted = BTreeSet::new();
    leaves(&sheet, "", &mut wanted);
    for (_, text) in fixtures() {
        for one in typed(&text) {
            wanted.remove(&photo_alike(&one.path));
        }
    }
    assert_eq!(wanted, BTreeSet::new(), "no fixture fills these fields");
}

#[test]
fn every_value_of_a_sheet_is_on_the_paper_or_said_to_be_for_the_workshop_only() {
    let wording = Wording::read(&Templates::built_in(), "en", None).unwrap();
    let prints = prints(&wording);
    for (name, text) in fixtures() {
        let paper = paper(&text, &wording);
        let mut lost = Vec::new();
        for one in typed(&text) {
            let is_there = forms(&one, &wording, &prints).iter().any(|form| contains(&paper, form));
            match one.printed {
                Printed::InItsSection
                | Printed::AsNoted
                | Printed::ArrivalNote
                | Printed::OptionsLetter
                    if !is_there =>
                {
                    lost.push(format!("{}: {}", one.path, one.text));
                }
                Printed::WorkshopOnly if is_there => {
                    lost.push(format!("{}: {} is on the paper", one.path, one.text));
                }
                _ => {}
            }
        }
        assert_eq!(lost, Vec::<String>::new(), "{name}\n{paper}");
    }
}

/// Beside another letter or digit it would be another word or number.
fn contains(paper: &str, form: &str) -> bool {
    let paper = crate::paper::plain(&paper.to_lowercase());
    let form = crate::paper::plain(&form.to_lowercase());
    let is_word = |letter: Option<char>| letter.is_some_and(char::is_alphanumeric);
    paper.match_indices(&form).any(|(at, _)| {
        !is_word(paper[..at].chars().next_back())
            && !is_word(paper[at + form.len()..].chars().next())
    })
}

/// Gathers the texts of a wording by their keys, at every depth.
fn gather(value: &serde_yaml::Value, prints: &mut Vec<(String, String)>) {
    for (key, value) in value.as_mapping().into_iter().flatten() {
        match (key.as_str(), value.as_str()) {
            (Some(key), Some(text)) => prints.push((key.to_owned(), text.to_owned())),
            _ => gather(value, prints),
        }
    }
}

/// Every print of every fixed word, by the word.
fn prints(wording: &Wording) -> Vec<(String, String)> {
    let mut prints = Vec::new();
    let mut files = Vec::new();
    for file in ["conditions", "bench", "noted"] {
        let path = format!("wording/en/{file}.yaml");
        files.push(Templates::built_in().get(&path).unwrap().text().to_owned());
    }
    for file in files {
        gather(&serde_yaml::from_str(&file).unwrap(), &mut prints);
    }
    for part in splitcase::sheet::catalogue::PARTS.iter() {
        prints.push((part.part.clone(), wording.part(&part.part, "plain").to_owned()));
    }
    for sign in splitcase::sheet::catalogue::SIGNS.iter() {
        for which in ["plain", "heading", "trade"] {
            let text = wording.sign(&sign.sign, which).split("{part}").max_by_key(|one| one.len());
            prints.push((sign.sign.clone(), text.unwrap().trim().to_owned()));
        }
        let failed = wording.sign_if(&sign.sign, "failed");
        let told = wording.story(&sign.sign, "told").and_then(|one| one.split("{part}").max());
        for text in failed.into_iter().chain(told).filter(|text| 8 < text.len()) {
            prints.push((sign.sign.clone(), text.trim().to_owned()));
        }
    }
    prints
}

/// The forms in which a value may be printed.
fn forms(one: &Typed, wording: &Wording, prints: &[(String, String)]) -> Vec<String> {
    let otherwise =
        OTHERWISE.iter().filter(|(path, text, _)| one.path == *path && one.text == *text);
    let mut forms: Vec<String> = otherwise.map(|(_, _, form)| (*form).to_owned()).collect();
    let mut shape = &one.shape;
    if let Shape::List(of) = shape {
        shape = of;
    }
    // Of several forms the one that the value has.
    if let Shape::Either(of) = shape {
        let is_word = |shape: &&Shape| matches!(shape, Shape::Words { words, .. } if words.iter().any(|own| own.word == one.text));
        let plain = |shape: &&Shape| matches!(shape, Shape::Text);
        shape = of.iter().find(is_word).or_else(|| of.iter().find(plain)).unwrap_or(&of[0]);
    }
    match shape {
        Shape::Words { .. } => {
            let of_word = prints.iter().filter(|(word, _)| *word == one.text);
            forms.extend(of_word.map(|(_, print)| print.clone()));
        }
        Shape::Form { name: "date", .. } => {
            let day = chrono::NaiveDate::parse_from_str(&one.text, "%Y-%m-%d").unwrap();
            forms.push(splitcase::document::format::day(day, wording));
            forms.push(splitcase::document::format::day_near(day, day, wording));
        }
        Shape::Text if !one.text.starts_with(|c: char| c.is_ascii_digit() || "<>".contains(c)) => {
            forms.push(one.text.trim_end_matches('.').to_owned());
        }
        _ => {
            forms.push(one.text.clone());
            forms.push(splitcase::document::format::tied(&one.text));
            forms.push(one.text.trim_end_matches('.').to_owned());
            // Units have a sign of their own: 0.8 Mohm is printed 0.8 MΩ.
            let number = one.text.split(' ').next().unwrap();
            forms.push(number.trim_start_matches(['£', '>', '<']).to_owned());
        }
    }
    forms
}

/// All that the papers of a sheet print, with a photo for every file that it names.
fn paper(text: &str, wording: &Wording) -> String {
    let mut all = String::new();
    for (_, mut view) in paper::made(PROFILE, text, None).with_photos().views(wording) {
        view["words"].take();
        all += &crate::report::said(&view);
        all += "\n";
    }
    all
}

/// All that a paper prints.
fn words(mut view: serde_json::Value) -> String {
    view["words"].take();
    crate::report::said(&view)
}

/// What the evidence file leaves to the report: page 1 in other words, headings, advice for the owner.
const OWNERS_ALONE: &[&str] = &["in-short.", "advice", "strip-down.findings.heading"];

#[test]
fn the_evidence_file_holds_every_value_but_the_words_that_are_for_the_owner_alone() {
    let wording = Wording::read(&Templates::built_in(), "en", None).unwrap();
    let prints = prints(&wording);
    let mut count = 0;
    for (name, text) in fixtures() {
        let file = words(paper::made(PROFILE, &text, None).with_photos().evidence_file(&wording));
        let mut lost = Vec::new();
        for one in typed(&text) {
            let is_owners = OWNERS_ALONE.iter().any(|path| one.path.starts_with(path));
            if is_owners || !matches!(one.printed, Printed::InItsSection | Printed::AsNoted) {
                continue;
            }
            count += 1;
            if !forms(&one, &wording, &prints).iter().any(|form| contains(&file, form)) {
                lost.push(format!("{}: {}", one.path, one.text));
            }
        }
        assert_eq!(lost, Vec::<String>::new(), "{name}\n{file}");
    }
    assert!(200 < count, "only {count} values");
}

/// The view of the report of a sheet, with a photo for every file that it names.
fn view(text: &str, wording: &Wording) -> serde_json::Value {
    // The samples leave prices to their list, which may stand in the profile too.
    let profile = format!("{PROFILE}\n{}", include_str!("../samples/parts.yaml"));
    paper::made(&profile, text, None).with_photos().view(wording)
}

/// Every number in a text that follows `Photo` or `Photos`.
fn cited(text: &str) -> BTreeSet<String> {
    let mut numbers = BTreeSet::new();
    for part in text.split("Photo").skip(1) {
        let list: String = part
            .trim_start_matches('s')
            .chars()
            .take_while(|c| c.is_ascii_digit() || matches!(c, ' ' | ',' | '\u{a0}'))
            .collect();
        numbers
            .extend(list.split(',').map(|one| one.trim().to_owned()).filter(|one| !one.is_empty()));
    }
    numbers
}

/// The numbers of the photos that the pages show, those as left apart.
fn shown(view: &serde_json::Value) -> (BTreeSet<String>, BTreeSet<String>) {
    let (mut all, mut left) = (BTreeSet::new(), BTreeSet::new());
    let mut open = vec![view];
    while let Some(value) = open.pop() {
        if let (Some(number), Some(lead)) = (value["number"].as_str(), value["lead"].as_str()) {
            all.insert(number.to_owned());
            if lead == "As left." {
                left.insert(number.to_owned());
            }
        }
        match value {
            serde_json::Value::Array(items) => open.extend(items),
            serde_json::Value::Object(fields) => open.extend(fields.values()),
            _ => {}
        }
    }
    (all, left)
}

#[test]
fn every_photo_that_a_sentence_cites_is_shown_and_none_as_left_is_cited() {
    let wording = Wording::read(&Templates::built_in(), "en", None).unwrap();
    let mut sheets = fixtures();
    for job in ["hd-2611", "hd-2614", "hd-2618", "hd-2620", "hd-2623", "hd-2625"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples").join(job);
        sheets.push((job.to_owned(), std::fs::read_to_string(path.join("findings.yaml")).unwrap()));
    }
    let mut count = 0;
    for (name, text) in sheets {
        let mut view = view(&text, &wording);
        view["words"].take();
        let (all, left) = shown(&view);
        let cited = cited(&crate::report::said(&view));
        count += cited.len();
        assert!(cited.is_subset(&all), "{name}: {cited:?} are cited, {all:?} are shown");
        assert!(
            cited.is_disjoint(&left),
            "{name}: {cited:?} are cited, {left:?} show parts as left"
        );
    }
    assert!(10 < count, "only {count} photos are cited");
}
