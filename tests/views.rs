//! What the papers of the samples say, kept as files: every text that a layout is given.
//!
//! `SPLITCASE_BLESS=1 cargo test -- views` writes `tests/views/*.json` anew, to be read as a diff. Left
//! out are the fixed labels, which are the language's, and the digest of the job, which changes with
//! every template.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;
use splitcase::archive::receipt;
use splitcase::archive::request::Sealed;
use splitcase::diagnostic::Problems;
use splitcase::document::papers::asked::Asked;
use splitcase::document::papers::choice::Choice;
use splitcase::document::papers::written::written;
use splitcase::document::templates::Templates;
use splitcase::document::wording::Wording;
use splitcase::intake;
use splitcase::job::{Job, Means};
use splitcase::photo::PixelBudget;
use splitcase::workshop;

use crate::small;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn samples() -> Vec<PathBuf> {
    intake::find::find_jobs(&root().join("samples")).unwrap().0
}

/// The views of a sample's papers in the words of each language, by the name of the paper.
fn views<const N: usize>(
    job: &Path,
    wordings: [&Wording; N],
    choice: Choice,
) -> [Vec<(&'static str, Value)>; N] {
    let folder = intake::open(job).unwrap();
    let profile = intake::find_profile(job).unwrap();
    let shop =
        workshop::open(&profile).unwrap_or_else(|_| panic!("{} is in order", profile.display()));
    let budget = PixelBudget::default();
    let mut problems = Problems::default();
    let job = Job::open(&folder, &shop, &mut problems).unwrap();
    let photos = job.photos(&Means { threads: 2, budget: &budget }, &mut problems).unwrap();
    let ready = job.assess(photos, &mut problems).unwrap().unwrap();
    let material = ready.material();
    let asked = Asked::from(choice);
    wordings.map(|wording| {
        let Ok(papers) = written(&material, wording, &asked) else { panic!("a paper is refused") };
        // Read as YAML, which keeps every digit of a number.
        let view = |data: &[u8]| serde_yaml::from_slice(data).unwrap();
        papers.into_iter().map(|one| (one.paper.name, view(&one.data))).collect()
    })
}

/// Keys whose words are for the layouts alone and not printed.
const FOR_LAYOUTS: [&str; 9] =
    ["style", "file", "kind", "condition", "part", "place", "side", "verdict", "holds"];

/// Every text of a view that is printed, in its order.
fn texts(value: &Value, found: &mut Vec<String>) {
    match value {
        Value::String(text) => found.push(text.clone()),
        Value::Array(items) => items.iter().for_each(|item| texts(item, found)),
        Value::Object(fields) => fields
            .iter()
            .filter(|(key, _)| !FOR_LAYOUTS.contains(&key.as_str()))
            .for_each(|(_, field)| texts(field, found)),
        _ => {}
    }
}

/// Numbers of the photos that a view's texts cite, and of those that it shows.
fn photos(value: &Value, cited: &mut BTreeSet<String>, shown: &mut BTreeSet<String>) {
    match value {
        Value::String(text) => {
            for list in ["Photo ", "Photos "].iter().filter_map(|word| text.split_once(word)) {
                let numbers = list.1.split(", ").map(|one| one.trim_end_matches('.'));
                let is_number = |one: &&str| one.parse::<u32>().is_ok();
                cited.extend(numbers.take_while(is_number).map(str::to_owned));
            }
        }
        Value::Array(items) => items.iter().for_each(|item| photos(item, cited, shown)),
        Value::Object(fields) => {
            if let (Some(_), Some(Value::String(number))) =
                (fields.get("alt"), fields.get("number"))
            {
                shown.insert(number.clone());
            }
            fields.values().for_each(|field| photos(field, cited, shown));
        }
        _ => {}
    }
}

#[test]
fn every_sample_says_what_it_said_when_somebody_last_read_it_and_shows_the_photos_that_it_cites() {
    let wording = Wording::read(&Templates::built_in(), "en", None).unwrap();
    let mut wrong = Vec::new();
    let mut n_cited = 0;
    for job in samples() {
        let [papers] = views(&job, [&wording], Choice::Due);
        assert!(!papers.is_empty(), "no paper of {job:?} is due");
        // The evidence file lists every digest; tests of its own read it.
        let papers = papers.into_iter().filter(|(paper, _)| *paper != "evidence-file");
        for (paper, mut view) in papers {
            let (mut cited, mut shown) = (BTreeSet::new(), BTreeSet::new());
            photos(&view, &mut cited, &mut shown);
            if paper == "return-report" {
                assert!(cited.is_subset(&shown), "{job:?} cites {cited:?} and shows {shown:?}");
                n_cited += cited.len();
            }
            let fields = view.as_object_mut().unwrap();
            fields.remove("words");
            fields["foot"].as_object_mut().unwrap().remove("middle");
            if let Some(proof) = fields.get_mut("proof").and_then(Value::as_object_mut) {
                proof.remove("digest");
                proof.remove("qr");
            }
            // Sizes follow from the words, which are kept.
            fields.remove("first-page");
            let name = job.file_name().unwrap().to_str().unwrap();
            let name = match paper {
                "return-report" => name.to_owned(),
                other => format!("{name}-{other}"),
            };
            let path = root().join(format!("tests/views/{name}.json"));
            let found = format!("{view:#}\n");
            let kept = fs::read_to_string(&path).unwrap_or_default();
            if std::env::var_os("SPLITCASE_BLESS").is_some() {
                fs::write(&path, &found).unwrap();
            } else if found != kept {
                let differ = |(one, other): &(&str, &str)| one != other;
                let first = found.lines().zip(kept.lines()).find(differ);
                wrong.push(format!("{}: {first:#?}", path.display()));
            }
        }
    }
    assert!(15 <= n_cited, "only {n_cited} photos are cited");
    assert!(wrong.is_empty(), "now, then as it was kept:\n{}", wrong.join("\n"));
}

/// The letters of English words as Cyrillic and Greek ones that look alike, so that what a paper says in
/// Latin letters did not come from the words of its language.
const STRANGE: [(char, char); 12] = [
    ('a', 'а'),
    ('e', 'е'),
    ('o', 'о'),
    ('i', 'і'),
    ('u', 'υ'),
    ('y', 'у'),
    ('A', 'А'),
    ('E', 'Е'),
    ('O', 'О'),
    ('I', 'І'),
    ('U', 'Υ'),
    ('Y', 'Υ'),
];

/// A text in strange letters, but for what stands in braces, which is filled in.
fn strange(text: &str) -> String {
    let mut depth = 0;
    let letter = |c: char| {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        let other = STRANGE.iter().find(|(own, _)| depth == 0 && *own == c);
        other.map_or(c, |(_, other)| *other)
    };
    text.chars().map(letter).collect()
}

fn all_strange(value: &mut serde_yaml::Value) {
    match value {
        serde_yaml::Value::String(text) => *text = strange(text),
        serde_yaml::Value::Sequence(items) => items.iter_mut().for_each(all_strange),
        serde_yaml::Value::Mapping(fields) => fields.values_mut().for_each(all_strange),
        _ => {}
    }
}

/// The built-in words with a second language `xx` that is English in strange letters.
fn with_second_language() -> Templates {
    let built_in = Templates::built_in();
    let files = built_in.iter().filter_map(|(path, source)| {
        let name = path.strip_prefix("wording/en/")?;
        let mut words: serde_yaml::Value = serde_yaml::from_str(source.text()).unwrap();
        all_strange(&mut words);
        let path = format!("wording/xx/{name}");
        let text = serde_yaml::to_string(&words).unwrap();
        Some((path.clone(), splitcase::diagnostic::source::SourceText::new(path, text)))
    });
    Templates::with_house(files.collect())
}

/// A job that was sealed.
fn sealed() -> Sealed {
    let digest = splitcase::digest::Digest::of(b"a line");
    Sealed {
        path: PathBuf::new(),
        version: 1,
        digest,
        line: 7,
        head: digest,
        time: "2026-03-11T14:05:08Z".to_owned(),
        is_new: true,
        tar: None,
        remarks: Vec::new(),
    }
}

#[test]
fn a_receipt_in_another_language_says_nothing_in_english_but_what_is_typed() {
    let wording =
        Wording::read(&with_second_language(), "xx", None).unwrap_or_else(|_| panic!("xx"));
    let page = receipt::text("HD-2614", &sealed(), &wording);
    let said = page.lines().filter(|line| !line.starts_with("    "));
    let said: Vec<&str> = said.map(|line| line.split("splitcase").next().unwrap()).collect();
    let is_digit = |word: &str| word.len() == 8 && word.chars().all(|c| c.is_ascii_hexdigit());
    let words = said.iter().flat_map(|line| line.split_whitespace()).filter(|word| !is_digit(word));
    let leaks: Vec<&str> =
        words.filter(|word| STRANGE.iter().any(|(own, _)| word.contains(*own))).collect();
    assert!(leaks.is_empty(), "{leaks:?}");
    let n_strange = said.iter().filter(|line| line.contains('е')).count();
    assert!(10 <= n_strange, "{page}");
}

/// ISO/IEC 18004: a code has four empty modules on every side, and a square of seven in three of its corners.
#[test]
fn the_code_on_a_receipt_has_its_quiet_zone() {
    let digest = splitcase::digest::Digest::of(b"a line");
    let page = receipt::text("HD-2614", &sealed(), &crate::paper::english());
    let lines: Vec<&str> = page.lines().collect();
    let top = lines.iter().position(|line| line.contains('\u{2580}')).unwrap();
    // Two modules a line: two empty lines above, two below, and four empty columns before.
    assert!(lines[top - 1].is_empty() && lines[top - 2].is_empty(), "{page}");
    assert!(page.ends_with("\n\n\n"), "{page:?}");
    let code: Vec<&str> = lines[top..].iter().copied().filter(|line| !line.is_empty()).collect();
    assert!(code.iter().all(|line| line.starts_with("    ")), "{page}");
    let corner = "    \u{2588}\u{2580}\u{2580}\u{2580}\u{2580}\u{2580}\u{2588} ";
    assert!(code[0].starts_with(corner), "{}", code[0]);
    let side = code[0].trim().chars().count();
    assert_eq!(code.len(), side.div_ceil(2));
    assert!(page.contains(&digest.hex()));
}

/// Cameras of the samples, and the program itself, whose name the QR code holds.
const CAMERAS: &str = "Lumen & Oak phone, splitcase";

/// Words of English that a paper in another language may carry: those of the sheet and the profile,
/// inside braces of a sentence, in names of files and sources.
#[test]
fn a_paper_in_another_language_says_nothing_in_english() {
    let templates = with_second_language();
    let wording = Wording::read(&templates, "xx", None).unwrap_or_else(|found| {
        panic!("{:?}", found.into_iter().map(|one| one.message).collect::<Vec<_>>())
    });
    let english = Wording::read(&Templates::built_in(), "en", None).unwrap();
    let clauses = Templates::built_in();
    let clauses = clauses.get("wording/en/clauses.yaml").unwrap().text().to_owned();
    let inside: String =
        clauses.split("{{").skip(1).map(|part| part.split("}}").next().unwrap()).collect();
    let profile = ["samples/workshop.yaml", "samples/parts.yaml"]
        .map(|file| fs::read_to_string(root().join(file)).unwrap())
        .concat();
    let sources = fs::read_to_string(root().join("src/assessment/sources.yaml")).unwrap();
    let mut leaks = Vec::new();
    let mut n_strange = 0;
    for job in intake::find::find_jobs(small::samples()).unwrap().0 {
        let sheet = fs::read_to_string(job.join("findings.yaml")).unwrap();
        let known = format!("{sheet} {profile} {sources} {inside} {CAMERAS}").to_lowercase();
        let (mut own, mut plain) = (Vec::new(), Vec::new());
        let without_labels = |mut view: Value| {
            let fields = view.as_object_mut().unwrap();
            for key in ["words", "workshop", "attachments", "paper", "accent", "lang", "author"] {
                fields.remove(key);
            }
            view
        };
        // Every paper that it can give, earlier ones too.
        let [strange, usual] = views(&job, [&wording, &english], Choice::All);
        let both = strange.into_iter().zip(usual);
        // The evidence file names formats and files; tests of its own read it.
        for ((_, strange), (_, usual)) in both.filter(|((paper, _), _)| *paper != "evidence-file") {
            texts(&without_labels(strange), &mut own);
            texts(&without_labels(usual), &mut plain);
        }
        assert_eq!(own.len(), plain.len(), "{job:?}");
        for (own, plain) in own.iter().zip(&plain) {
            n_strange += usize::from(own != plain);
            let words = own.split(|c: char| !c.is_alphabetic()).filter(|word| 3 < word.len());
            let is_digest = |word: &str| word.chars().all(|c| c.is_ascii_hexdigit());
            let is_english = |word: &&str| {
                word.is_ascii() && !is_digest(word) && !known.contains(&word.to_lowercase())
            };
            let vowels = |word: &&str| STRANGE.iter().any(|(own, _)| word.contains(*own));
            leaks.extend(
                words.filter(is_english).filter(vowels).map(|word| format!("{word} in `{own}`")),
            );
        }
    }
    assert!(300 < n_strange, "only {n_strange} texts are of the language");
    assert!(leaks.is_empty(), "{}", leaks.join("\n"));
}
