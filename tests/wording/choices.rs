//! Keys of the words for fixed choices: every one that the program asks for is there, none is unused.
//!
//! Where the keys are words of a sheet, they come from its types; where the program makes them
//! itself, from the texts of the functions that do.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use splitcase::assessment::cause::triage::CheckField;
use splitcase::document::papers;
use splitcase::document::templates::Templates;
use splitcase::sheet::catalogue::group::PartGroup;
use splitcase::sheet::charges::PartState;
use splitcase::sheet::handling::DryingWay;
use splitcase::sheet::vocabulary::{
    Action, AnsweredBy, CauseKind, CheckKind, Chemistry, CodesPointTo, Condition, NoticedSign,
    OptionKind, OriginKind, Outcome, TurningRing, UnitKind,
};

/// The words of a choice of the sheet.
macro_rules! all {
    ($of:ident) => {
        $of::ALL.iter().map(|one| one.word().to_owned()).collect()
    };
}

fn source(file: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(file)).unwrap()
}

/// The body of a function, up to the brace that ends it at the margin.
fn function(file: &str, name: &str) -> String {
    let text = source(file);
    let start = text.find(&format!("fn {name}(")).unwrap_or_else(|| panic!("{file}: no {name}"));
    text[start..].split("\n}").next().unwrap().to_owned()
}

/// The texts between quotes that look like keys, those left out that fill a form.
fn keys(text: &str, not: &[&str]) -> BTreeSet<String> {
    let lines = text.lines().filter(|line| !line.trim_start().starts_with("//"));
    let parts = lines.flat_map(|line| line.split('"').skip(1).step_by(2).map(str::to_owned));
    let is_key = |part: &String| {
        !part.is_empty()
            && part.chars().all(|c| c.is_ascii_lowercase() || "-0123456789".contains(c))
    };
    let is_word = |part: &String| part.chars().any(char::is_alphabetic);
    parts.filter(|part| is_key(part) && is_word(part) && !not.contains(&part.as_str())).collect()
}

/// What `choice("KIND", "KEY")` asks for in a file.
fn asked(file: &str, kind: &str) -> BTreeSet<String> {
    let (text, start) = (source(file), format!("choice(\"{kind}\", \""));
    let parts = text.split(&start).skip(1);
    parts.map(|part| part.split('"').next().unwrap().to_owned()).collect()
}

/// What follows a text in a file, up to the next quote.
fn after_in(file: &str, start: &str) -> BTreeSet<String> {
    let text = source(file);
    let parts = text.split(start).skip(1);
    parts.map(|part| part.split('"').next().unwrap().to_owned()).collect()
}

/// The labels of a kind that the sections of the record ask for, many of them by way of lists: those
/// after the texts that ask, and those words of the kind that are named anywhere else in the document.
fn labels_of_the_record(kind: &str, asking: &[&str]) -> BTreeSet<String> {
    let text = document();
    let mut found = BTreeSet::new();
    let record = super::rows(&Templates::built_in(), "en", "record");
    found.extend(record[kind].keys().filter(|key| text.contains(&format!("\"{key}\""))).cloned());
    let mut files = vec!["document/papers/evidence_file.rs".to_owned()];
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/document/sections/record");
    for entry in fs::read_dir(folder).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        files.push(format!("document/sections/record/{name}"));
    }
    for start in asking {
        found.extend(files.iter().flat_map(|file| after_in(file, start)));
    }
    found
}

/// What follows a text in the files of a folder, up to the next quote.
fn after(folder: &str, start: &str) -> BTreeSet<String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(folder);
    let mut found = BTreeSet::new();
    for entry in fs::read_dir(path).unwrap() {
        let path = entry.unwrap().path();
        if path.is_file() {
            let text = fs::read_to_string(path).unwrap();
            let parts = text.split(start).skip(1);
            found.extend(parts.map(|part| part.split('"').next().unwrap().to_owned()));
        }
    }
    found
}

/// Every kind of choice with its keys.
fn wanted() -> BTreeMap<&'static str, BTreeSet<String>> {
    let bench = "document/sections/bench.rs";
    let remarks = "document/sections/bench/remarks.rs";
    let signs = "document/sections/record/signs.rs";
    let mut measures: BTreeSet<String> = all!(CheckKind);
    measures.extend(keys(&function_of("assessment/bench/measure.rs", "word"), &[]));
    let mut methods = after("assessment/bench", "rule: \"");
    methods.extend(keys(&function_of("assessment/bench/insulation.rs", "method"), &[]));
    let gaps =
        ["most", "full", "empty", "reading", "line", "level", "zone", "fit", "from", "to", "list"];
    BTreeMap::from([
        ("conditions", all!(Condition)),
        ("conditions-told", all!(Condition)),
        ("actions-in-caption", all!(Action)),
        ("several-of-group", all!(PartGroup)),
        ("the-same", all!(PartGroup)),
        ("codes-point", all!(CodesPointTo)),
        ("dried-how", all!(DryingWay)),
        ("came-in", keys(&function("document/facts.rs", "came_in"), &["came-in"])),
        ("as-found", checks_with("as-found")),
        ("improved", checks_with("improved")),
        ("actions", all!(Action)),
        ("causes", all!(CauseKind)),
        ("causes-as-subject", all!(CauseKind)),
        ("cause-origins", all!(OriginKind)),
        ("noticed-signs", all!(NoticedSign)),
        ("triage-by", all!(CheckField)),
        ("outcomes", all!(Outcome)),
        ("unit-kinds", all!(UnitKind)),
        ("unit-kinds-short", all!(UnitKind)),
        ("option-kinds", all!(OptionKind)),
        ("option-kinds-short", all!(OptionKind)),
        ("option-renews", all!(OptionKind)),
        ("answered-by", all!(AnsweredBy)),
        ("part-states", all!(PartState)),
        ("turning-rings", all!(TurningRing)),
        ("chemistries", all!(Chemistry)),
        ("measures", measures),
        ("methods", methods),
        ("verdicts", asked(bench, "verdicts")),
        ("origins", asked(bench, "origins")),
        ("reasons", keys(&function(bench, "reason_key"), &[])),
        ("remarks", {
            let mut found = keys(&function(remarks, "remark"), &[&gaps[..], &["remarks"]].concat());
            found.extend(asked(remarks, "remarks"));
            found
        }),
        ("fits", keys(&function(remarks, "fit_text"), &["from", "to", "fit", "fits", "remarks"])),
        ("typed", {
            let file = "document/sections/bench/typed.rs";
            let not = ["list", "value", "typed", "turning-rings", "chemistries"];
            keys(&source(file), &not)
        }),
        ("weights", keys(&function("document/sections/cause.rs", "weight"), &[])),
        ("who", asked("document/sections/record/chronicle.rs", "who")),
        ("edited", asked("document/sections/record/plates.rs", "edited")),
        ("mark-kinds", ["ring", "arrow", "box", "label", "length"].map(str::to_owned).into()),
        ("colours", keys(&function("document/sections/record/plates.rs", "colour_word"), &[])),
        ("set-aside", {
            let mut found = keys(&function(signs, "set_aside_word"), &[]);
            found.extend(after_in(signs, "set_aside.map_or(\""));
            found
        }),
        ("shown-by", {
            let not = ["number", "photos", "measure", "measures", "shown-by"];
            keys(&function(signs, "origin_words"), &not)
        }),
        ("message", {
            let mut found = after_in("document/message/letter.rs", "word(\"");
            found.extend(asked("document/message/letter.rs", "message"));
            found
        }),
        ("receipt", after_in("archive/receipt.rs", "word(\"")),
        ("record", labels_of_the_record("record", &["word(writer, \"", "fact(\""])),
        ("chronicle", labels_of_the_record("chronicle", &["form(writer, \""])),
        ("message-papers", papers::of_jobs().map(|paper| paper.name.to_owned()).collect()),
        ("calendar", {
            let mut found = asked("document/calendar.rs", "calendar");
            found.extend(asked("document/papers/return_report.rs", "calendar"));
            found
        }),
        ("part-groups", {
            // Parts that are outside the unit, or in no list, are no group of its parts.
            let is_inside =
                |one: &PartGroup| !matches!(one, PartGroup::OutsideTheUnit | PartGroup::Other);
            let inside = PartGroup::ALL.into_iter().filter(is_inside);
            inside.map(|one| one.word().to_owned()).collect()
        }),
        ("closures", {
            let text = function("document/sections/findings.rs", "bearing_text");
            let arms = text.split("Closure::").skip(1).map(|arm| arm.split('\n').next().unwrap());
            keys(&arms.collect::<Vec<_>>().join("\n"), &[])
        }),
    ])
}

/// Checks of the bench that page 1 has a clause for, in English: some have none.
fn checks_with(clause: &str) -> BTreeSet<String> {
    let words = super::rows(&Templates::built_in(), "en", "bench");
    let is_check = |word: &&String| CheckKind::ALL.iter().any(|check| check.word() == *word);
    words[clause].keys().filter(is_check).cloned().collect()
}

/// The body of a method.
fn function_of(file: &str, name: &str) -> String {
    let text = source(file);
    let start = text.find(&format!("fn {name}(")).unwrap_or_else(|| panic!("{file}: no {name}"));
    text[start..].split("\n    }").next().unwrap().to_owned()
}

#[test]
fn every_key_of_a_choice_has_its_words_and_no_words_lack_a_key() {
    let templates = Templates::built_in();
    let wanted = wanted();
    for language in templates.languages() {
        let mut there: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for file in ["conditions", "bench", "record", "message"] {
            let rows = super::rows(&templates, language, file);
            let keys = |words: BTreeMap<String, String>| words.into_keys().collect();
            there.extend(rows.into_iter().map(|(kind, words)| (kind, keys(words))));
        }
        // Words in another form stand beside those that they are of, for no other key than those have.
        for kind in there.keys().cloned().collect::<Vec<_>>() {
            let Some((of, form)) = kind.rsplit_once('-') else { continue };
            if wanted.contains_key(of) && super::forms(language).contains(form) {
                let keys = there.remove(&kind).unwrap();
                assert!(keys.is_subset(&there[of]), "{language}: {kind}");
            }
        }
        let kinds: Vec<&str> = there.keys().map(String::as_str).collect();
        assert_eq!(kinds, wanted.keys().copied().collect::<Vec<_>>(), "{language}");
        for (kind, keys) in &wanted {
            assert!(!keys.is_empty(), "{kind}");
            assert_eq!(&there[*kind], keys, "{language}: {kind}");
        }
    }
}

/// The sources of the document stage.
fn document() -> String {
    let mut text = String::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("src/document")];
    while let Some(folder) = folders.pop() {
        for path in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                text += &fs::read_to_string(path).unwrap();
            }
        }
    }
    text
}

/// A kind that the program asks for by a mistyped name would print the bare key.
#[test]
fn every_kind_of_choice_is_asked_for_by_its_name() {
    let (text, wanted) = (document() + &source("archive/receipt.rs"), wanted());
    for part in text.split("choice(\"").skip(1) {
        let kind = part.split('"').next().unwrap();
        assert!(wanted.contains_key(kind), "there are no words of the kind `{kind}`");
    }
    for kind in wanted.keys() {
        assert!(text.contains(&format!("(\"{kind}\"")), "nothing asks for `{kind}`");
    }
}
