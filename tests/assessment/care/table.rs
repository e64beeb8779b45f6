//! The table of care rules, and the English words for everything in it.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;
use splitcase::assessment::care::fact::{Aspect, Facts};
use splitcase::assessment::care::state::{Fitness, Hazard};
use splitcase::assessment::care::table::{IntervalRow, Row, TABLE};
use splitcase::sheet::vocabulary::{CauseKind, Outcome, Storage, UnitKind, Use, Washing};

const ENGLISH: &str = include_str!("../../../report-templates/wording/en/care.yaml");

/// The forms that a schedule is put together from.
const FORMS: &[&str] = &[
    "by",
    "by-calendar",
    "by-pace",
    "every-month",
    "every-months",
    "every-week",
    "every-weeks",
    "fits",
    "no-source",
    "once",
    "or-after",
    "or-at",
    "sooner",
    "source",
];

type Words = BTreeMap<String, String>;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WhatWhy {
    what: String,
    why: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WhatHow {
    what: String,
    how: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Wording {
    advice: BTreeMap<String, WhatWhy>,
    checks: BTreeMap<String, WhatHow>,
    refit_card: Words,
    refit: Words,
    hand_test: BTreeMap<String, Vec<String>>,
    page_one: BTreeMap<String, WhatWhy>,
    cautions: Words,
    schedule: Words,
    because_cause: Words,
    because_use: Words,
    because_washing: Words,
    because_storage: Words,
    because_ridden: Words,
}

fn wording() -> Wording {
    serde_yaml::from_str(ENGLISH).unwrap()
}

fn names<T>(words: &BTreeMap<String, T>) -> BTreeSet<&str> {
    words.keys().map(String::as_str).collect()
}

fn all_rows() -> impl Iterator<Item = &'static Row> {
    TABLE.advice.iter().chain(&TABLE.checks).chain(&TABLE.refit).chain(&TABLE.cautions)
}

fn words_of(aspect: Aspect) -> Vec<&'static str> {
    match aspect {
        Aspect::Cause | Aspect::Contributing => {
            CauseKind::ALL.iter().map(|one| one.word()).collect()
        }
        Aspect::Use => Use::ALL.iter().map(|one| one.word()).collect(),
        Aspect::Washing => Washing::ALL.iter().map(|one| one.word()).collect(),
        Aspect::Storage => Storage::ALL.iter().map(|one| one.word()).collect(),
        Aspect::Kind => UnitKind::ALL.iter().map(|one| one.word()).collect(),
        Aspect::Outcome => Outcome::ALL.iter().map(|one| one.word()).collect(),
        Aspect::Work => vec!["greased"],
        Aspect::Fitness => {
            use Fitness::{Dead, Fit, NotFit, NotOpened, Worn};
            [NotOpened, Fit, Worn, Dead, NotFit].map(Fitness::word).to_vec()
        }
        Aspect::Danger => [Hazard::Battery, Hazard::Ride].map(Hazard::word).to_vec(),
        Aspect::Found => vec!["water", "rust"],
        Aspect::Battery => vec!["wet"],
        Aspect::Offer => vec!["repair"],
        Aspect::Ridden => vec![],
    }
}

#[test]
fn every_fact_of_a_rule_is_a_word_of_the_sheet() {
    for row in all_rows() {
        for (aspect, words) in
            [&row.only, &row.when, &row.unless].into_iter().flat_map(Facts::lists)
        {
            for word in words {
                assert!(words_of(aspect).contains(&word.as_str()), "{}: {word}", row.name);
            }
        }
    }
}

#[test]
fn advice_has_ranks_of_its_own_and_sources_and_no_intervals() {
    let mut ranks = BTreeSet::new();
    for row in &TABLE.advice {
        assert!(row.rank.is_some_and(|rank| ranks.insert(rank)), "{}", row.name);
        assert!(
            row.source.as_ref().is_some_and(|source| !source.trim().is_empty()),
            "{}",
            row.name
        );
        assert!(row.first.is_none() && row.every.is_none(), "{}", row.name);
        assert!(!row.only.outcome.is_empty(), "{} must say for which outcomes", row.name);
    }
}

#[test]
fn checks_have_whole_intervals_and_a_row_for_everybody() {
    let is_whole = |interval: &IntervalRow| {
        let spans = [interval.weeks, interval.months];
        interval.km != 0 && spans.iter().flatten().count() == 1 && !spans.contains(&Some(0))
    };
    let mut kinds: BTreeSet<&str> = BTreeSet::new();
    for row in &TABLE.checks {
        let is_first = kinds.insert(&row.name);
        assert_eq!(row.when.is_empty(), is_first, "{}: the first row is everybody's", row.name);
        assert!(row.first.is_some() || row.every.is_some(), "{}", row.name);
        assert!(row.first.iter().chain(&row.every).all(is_whole), "{}", row.name);
        assert!(
            row.source.as_ref().is_some_and(|source| !source.trim().is_empty()),
            "{}",
            row.name
        );
        assert!(row.rank.is_none() && row.unless.is_empty(), "{}", row.name);
    }
}

#[test]
fn every_harsher_row_shortens_a_distance_or_a_time() {
    let days = |interval: IntervalRow| {
        interval.weeks.unwrap_or_default() * 7 + interval.months.unwrap_or_default() * 30
    };
    for row in TABLE.checks.iter().filter(|row| !row.when.is_empty()) {
        let usual = TABLE.checks.iter().find(|first| first.name == row.name).unwrap();
        let is_shorter = |own: Option<IntervalRow>, usual: Option<IntervalRow>| {
            own.zip(usual).is_some_and(|(own, usual)| own.km < usual.km || days(own) < days(usual))
        };
        let usual_first = usual.first.or(usual.every);
        let shortens = is_shorter(row.first, usual_first) || is_shorter(row.every, usual.every);
        assert!(shortens, "{}", row.name);
    }
}

#[test]
fn cautions_and_the_lines_of_the_card_have_neither_rank_nor_interval_nor_source() {
    let mut seen = BTreeSet::new();
    for row in TABLE.refit.iter().chain(&TABLE.cautions) {
        assert!(seen.insert(&row.name), "{} twice", row.name);
        assert!(row.rank.is_none() && row.source.is_none(), "{}", row.name);
        assert!(row.first.is_none() && row.every.is_none(), "{}", row.name);
    }
}

#[test]
fn every_rule_check_and_caution_has_its_words_and_no_word_is_unused() {
    let words = wording();
    let rows = |rows: &'static [Row]| -> BTreeSet<&str> {
        rows.iter().map(|row| row.name.as_str()).collect()
    };
    assert_eq!(names(&words.advice), rows(&TABLE.advice));
    assert_eq!(TABLE.advice.len(), words.advice.len(), "a name of advice stands twice");
    let mut checks = rows(&TABLE.checks);
    checks.insert("workshop-look-posted");
    assert_eq!(names(&words.checks), checks);
    assert_eq!(names(&words.refit), rows(&TABLE.refit));
    assert_eq!(names(&words.refit_card), BTreeSet::from(["heading", "text"]));
    assert_eq!(names(&words.cautions), rows(&TABLE.cautions));
    assert_eq!(names(&words.schedule), FORMS.iter().copied().collect());
    let kinds: BTreeSet<&str> = UnitKind::ALL.iter().map(|kind| kind.family().word()).collect();
    assert_eq!(names(&words.hand_test), kinds);
    let mut page_one: BTreeSet<String> =
        ["danger-battery", "danger-ride", "fastenings"].map(str::to_owned).into();
    page_one.extend(kinds.iter().map(|kind| format!("hand-test-{kind}")));
    assert_eq!(names(&words.page_one), page_one.iter().map(String::as_str).collect());
    assert!(words.hand_test.values().all(|steps| steps.len() == 4), "four steps each");
}

#[test]
fn every_reason_has_its_words_and_no_words_lack_a_reason() {
    let words = wording();
    let mut wanted: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for row in all_rows() {
        for (aspect, named) in row.when.lists() {
            let of = match aspect {
                Aspect::Cause | Aspect::Contributing => "cause",
                Aspect::Use => "use",
                Aspect::Washing => "washing",
                Aspect::Storage => "storage",
                _ => {
                    assert!(named.is_empty(), "{}: no words for {aspect:?} as a reason", row.name);
                    continue;
                }
            };
            wanted.entry(of).or_default().extend(named.iter().map(String::as_str));
        }
        if row.when.ridden_over.is_some() {
            wanted.entry("ridden").or_default().insert("far");
        }
    }
    let found = BTreeMap::from([
        ("cause", names(&words.because_cause)),
        ("use", names(&words.because_use)),
        ("washing", names(&words.because_washing)),
        ("storage", names(&words.because_storage)),
        ("ridden", names(&words.because_ridden)),
    ]);
    assert_eq!(found, wanted);
}

/// Every text of the wording, with the words that lead to it.
fn texts(value: &serde_yaml::Value) -> Vec<String> {
    match value {
        serde_yaml::Value::String(text) => vec![text.clone()],
        serde_yaml::Value::Mapping(map) => map.values().flat_map(texts).collect(),
        serde_yaml::Value::Sequence(list) => list.iter().flat_map(texts).collect(),
        _ => panic!("a text is not text"),
    }
}

#[test]
fn no_sentence_is_longer_than_twenty_five_words() {
    let texts = texts(&serde_yaml::from_str(ENGLISH).unwrap());
    assert!(100 < texts.len());
    for text in &texts {
        for sentence in text.split_inclusive(['.', '?', '!']) {
            assert!(sentence.split_whitespace().count() <= 25, "{sentence}");
        }
    }
}

#[test]
fn sentences_end_and_short_forms_do_not() {
    let words = wording();
    let whole = words.advice.values().flat_map(|one| [&one.what, &one.why]);
    let whole = whole.chain(words.page_one.values().flat_map(|one| [&one.what, &one.why]));
    let whole = whole.chain(words.cautions.values()).chain(words.hand_test.values().flatten());
    let whole = whole.chain(words.refit.values()).chain([&words.refit_card["text"]]);
    for text in whole.chain(words.checks.values().map(|one| &one.how)) {
        assert!(text.ends_with('.') && text.starts_with(char::is_uppercase), "{text}");
    }
    let because = [&words.because_cause, &words.because_use, &words.because_washing];
    let because = because.into_iter().chain([&words.because_storage, &words.because_ridden]);
    for text in because.flat_map(BTreeMap::values) {
        assert!(!text.ends_with('.') && text.starts_with(char::is_lowercase), "{text}");
    }
    assert!(words.checks.values().all(|one| !one.what.ends_with('.')));
}

#[test]
fn the_cautions_and_the_card_defer_to_qualified_people_the_maker_and_local_rules() {
    let words = wording();
    for caution in ["try-before-traffic", "wet-battery", "leave-closed", "no-opening"] {
        assert!(words.cautions[caution].contains("qualified"), "{caution}");
    }
    for caution in ["leave-closed", "wet-battery"] {
        assert!(words.cautions[caution].to_lowercase().contains("local rules"), "{caution}");
    }
    for line in ["who-and-torque", "mounting-bolts", "cranks", "axle-nuts"] {
        assert!(words.refit[line].contains("the maker's torque"), "{line}");
    }
    assert!(words.refit["who-and-torque"].contains("qualified person"));
    assert!(words.page_one["fastenings"].what.contains("qualified person"));
}

#[test]
fn play_is_said_to_come_late_wherever_a_rider_is_asked_to_listen_and_never_early() {
    let words = wording();
    let says = |text: &str| text.contains("play") && (text.contains("late"));
    let hand_tests = ["hand-test-mid-drive", "hand-test-hub"];
    assert!(hand_tests.iter().all(|key| says(&words.page_one[*key].why)));
    assert!(
        ["workshop-look", "workshop-look-posted"].iter().all(|key| says(&words.checks[*key].how))
    );
    assert!(["first-sound", "mend-soon"].iter().all(|key| says(&words.advice[*key].why)));
    for text in texts(&serde_yaml::from_str(ENGLISH).unwrap()) {
        assert!(!text.contains("Play and noise show early"), "{text}");
    }
}

/// A claim that a test code or a pressure does not bear, and words that the trade does not use.
#[test]
fn no_text_claims_what_its_row_does_not_show() {
    for text in texts(&serde_yaml::from_str(ENGLISH).unwrap()) {
        for word in
            ["270", "any seal", "the help", "without help", "lowest help", "without a nozzle"]
        {
            assert!(!text.contains(word), "{word}: {text}");
        }
    }
    for row in all_rows() {
        let source = row.source.as_deref().unwrap_or_default();
        for word in ["15243", "ASME", "Council", "tribology", "memory"] {
            assert!(!source.contains(word), "{}: {source}", row.name);
        }
    }
}
