//! Finding words: by what people say, in the schema, in "did you mean", on the command line.

use std::collections::BTreeSet;

use serde_json::Value as Json;

use splitcase::diagnostic::Problems;
use splitcase::scaffold;
use splitcase::sheet;
use splitcase::sheet::lexicon::all::{self, FIELD, UNIT, WORDS};
use splitcase::sheet::lexicon::everyday::ROWS;
use splitcase::sheet::lexicon::fold;

use crate::workshop::Workshop;

/// The list of phrases: each with the word that is meant.
fn phrases() -> Vec<(&'static str, &'static str)> {
    let lines = include_str!("words/phrases.txt").lines();
    let lines = lines.filter(|line| !line.starts_with('#'));
    lines.filter_map(|line| line.split_once(" => ")).collect()
}

#[test]
fn of_a_hundred_everyday_phrases_95_find_their_word_among_the_first_three() {
    let phrases = phrases();
    assert_eq!(phrases.len(), 100);
    let mut missed = Vec::new();
    for (phrase, meant) in &phrases {
        assert!(WORDS.iter().any(|one| one.entry.word == *meant), "there is no word `{meant}`");
        let found = all::find(phrase, None);
        let first: Vec<&str> = found.iter().take(3).map(|one| one.entry.word.as_str()).collect();
        if !first.contains(meant) {
            let at = found.iter().position(|one| one.entry.word == *meant);
            missed.push(format!("{phrase}: {meant} is at {at:?}, first are {first:?}"));
        }
    }
    assert!(missed.len() <= 5, "{} missed: {missed:#?}", missed.len());
}

#[test]
fn every_word_that_the_dictionary_leads_to_is_there() {
    let words: BTreeSet<&str> = WORDS.iter().map(|one| one.entry.word.as_str()).collect();
    // English words that stand in the texts of the entries, those of the dictionary itself aside.
    let mut known = BTreeSet::new();
    for one in WORDS.iter() {
        let reading = &one.entry.reading;
        let texts = [&reading.paper, &reading.gloss, &reading.trade].into_iter().flatten();
        let texts = texts.chain(&one.entry.also).chain([&one.entry.word, &one.entry.about]);
        known.extend(texts.flat_map(|text| fold::words(text)));
    }
    let mut lost = Vec::new();
    for row in ROWS.iter() {
        assert!(row.say.is_empty() != row.word.is_empty(), "a row says or spells: {row:?}");
        assert_ne!(row.spoken().count(), 0, "{row:?}");
        lost.extend(row.word.iter().filter(|word| !words.contains(word.as_str())));
        lost.extend(row.say.iter().filter(|say| !known.contains(say.as_str())));
    }
    assert!(lost.is_empty(), "{lost:?}");
}

#[test]
fn a_slip_an_accent_or_an_ending_does_not_hide_a_word() {
    let first = |text: &str| {
        let found = all::find(text, None).into_iter().take(3);
        found.map(|one| one.entry.word.as_str()).collect::<Vec<_>>().join(" ")
    };
    for (text, word) in [
        ("Dichtungen", "seal"),
        ("roulements", "bearing"),
        ("Cuscinetti", "bearing"),
        ("koelpasta", "heat-pad"),
        ("oring", "o-ring"),
        ("cranck axle", "crank-axle"),
        ("bateria", "battery"),
        ("TORQUE SENSOR", "torque-sensor"),
    ] {
        assert!(first(text).contains(word), "{text}: {}", first(text));
    }
    assert!(all::find("xylophone", None).is_empty());
    assert!(all::find("", None).is_empty());
    assert!(all::find("§ % —", None).len() < WORDS.len());
}

/// The advice for one line under `findings`, its part and signs as typed.
fn advice(finding: &str) -> Vec<String> {
    let text = format!(
        "job: W-1\ncustomer: {{name: Ansel Brook}}\nunit: {{kind: mid-drive}}\n\
         arrival: {{date: 2026-03-02}}\nstrip-down:\n  date: 2026-03-03\n  findings:\n    - {{{finding}}}\n"
    );
    let mut problems = Problems::default();
    let workshop = crate::messages::workshop();
    sheet::read("findings.yaml", text.as_bytes(), &workshop, &mut problems);
    problems.into_sorted().into_iter().flat_map(|one| one.hints).collect()
}

#[test]
fn a_word_that_no_list_has_is_answered_by_what_it_means() {
    let order =
        |hint: &str| hint.split('`').skip(1).step_by(2).map(str::to_owned).collect::<Vec<_>>();
    let crank_seal = order(&advice("part: crank-seal, condition: worn")[0]);
    assert_eq!(crank_seal[..2], ["crank-seal-drive-side", "crank-seal-non-drive-side"]);
    for (finding, meant) in [
        ("part: Dichtung, condition: worn", "crank-seal-drive-side"),
        ("part: accu, condition: worn", "battery-pack"),
        ("part: capteur de couple, condition: worn", "torque-sensor"),
        ("part: main-bearing-drive-side, condition: worn, signs: [rusty]", "moisture-corrosion"),
        (
            "part: main-bearing-drive-side, condition: worn, signs: [rusty bearing]",
            "moisture-corrosion",
        ),
        (
            "part: main-bearing-drive-side, condition: worn, signs: [verrostet]",
            "moisture-corrosion",
        ),
        ("part: main-bearing-drive-side, condition: kaputt", "damaged"),
        ("part: main-bearing-drive-side, condition: dead", "failed"),
        ("part: main-bearing-drive-side, condition: worn, action: swapped", "replaced"),
    ] {
        let hints = advice(finding);
        let offered = hints.first().map(|hint| order(hint)).unwrap_or_default();
        assert!(offered.iter().any(|word| word == meant), "{finding}: {hints:?}");
    }
}

#[test]
fn a_part_and_a_sign_are_read_in_any_letters() {
    let hints = advice(
        "part: Main bearing drive side, condition: Worn, signs: [Races worn deep, moisture_corrosion]",
    );
    assert_eq!(hints, Vec::<String>::new());
}

#[test]
fn every_value_of_the_schema_says_what_it_means() {
    let mut n_values = 0;
    for schema in [scaffold::findings_schema(), scaffold::workshop_schema()] {
        for (name, list) in schema["$defs"].as_object().unwrap() {
            for value in list["oneOf"].as_array().into_iter().flatten() {
                n_values += 1;
                let said = value["description"].as_str().unwrap_or_default();
                assert!(3 < said.len(), "{name}: {value} says nothing");
            }
        }
        assert!(!schema.to_string().contains("\"enum\""), "a list without descriptions");
    }
    assert!(546 <= n_values, "{n_values}");
    let parts = &scaffold::findings_schema()["$defs"]["sign"]["oneOf"];
    let one = parts.as_array().unwrap().iter().find(|one| one["const"] == "brown-water").unwrap();
    let said = one["description"].as_str().unwrap();
    assert!(said.contains("The customer reads: The water inside was brown with rust."), "{said}");
}

/// Words that only steer what is charged or how papers look: no paper prints them.
const UNPRINTED: &[&str] = &[
    "insulation rule",
    "placing of hall sensors",
    "set of rules",
    "kind of bill",
    "part of a bill",
    "tax scheme",
    "thermal class",
    "currency",
];

#[test]
fn every_word_of_a_sheet_has_what_the_customer_reads() {
    for one in WORDS.iter().filter(|one| !one.is_of_profile() && one.entry.kind != FIELD) {
        let is_printed = !UNPRINTED.contains(&one.entry.kind.as_str());
        let reads = one.entry.reading.paper.as_ref();
        assert_eq!(reads.is_some(), is_printed, "{}: {}", one.entry.kind, one.entry.word);
        assert!(!one.places.is_empty());
    }
    assert!(WORDS.iter().any(|one| one.entry.kind.starts_with(UNIT)));
}

/// Who looks for a word of a sheet is not sent to the profile, even where the profile takes it too.
#[test]
fn a_word_that_a_sheet_takes_has_places_of_the_sheet_alone() {
    let is_of_profile = |place: &&String| place.starts_with("workshop.yaml: ");
    let (mut n_sheet, mut n_profile) = (0, 0);
    for listed in WORDS.iter() {
        let n = listed.places.iter().filter(is_of_profile).count();
        assert!(n == 0 || n == listed.places.len(), "{:?}", listed.places);
        n_sheet += usize::from(n == 0);
        n_profile += usize::from(0 < n);
    }
    assert!(300 < n_sheet && 30 < n_profile, "{n_sheet} {n_profile}");
}

#[test]
fn the_command_shows_a_word_its_place_and_what_the_customer_reads_in_80_columns() {
    let shop = Workshop::new();
    let run = shop.run(&["words", "rusty", "bearing"]);
    assert_eq!(run.code, 0, "{}", run.err);
    for said in [
        "moisture-corrosion (sign; bearings)",
        "papers  Rust has begun on the track that the balls run in",
        "trade   moisture corrosion",
        "sheet   strip-down: findings: signs:, strip-down: looked-for-absent:",
    ] {
        assert!(run.out.contains(said), "{said}: {}", run.out);
    }
    let overview = shop.run(&["words"]);
    assert!(overview.out.lines().count() <= 45, "{}", overview.out);
    let outputs = [
        run.out,
        overview.out,
        shop.run(&["words", "--kind", "parts"]).out,
        shop.run(&["words", "--kind", "field"]).out,
        shop.run(&["words", "water", "--all"]).out,
        shop.run(&["words", "xylophone"]).out,
    ];
    for line in outputs.iter().flat_map(|out| out.lines()) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    let unknown = shop.run(&["words", "--kind", "colour"]);
    assert_eq!(unknown.code, 2);
    assert!(unknown.err.contains("there is no kind `colour`"), "{}", unknown.err);
}

#[test]
fn for_scripts_each_word_is_a_result() {
    let shop = Workshop::new();
    let results = |arguments: &[&str]| {
        let run = shop.run(arguments);
        let answer: Json = serde_json::from_str(&run.out).unwrap();
        assert_eq!(answer["verb"], "words");
        answer["results"].as_array().unwrap().clone()
    };
    let found = results(&["words", "Drehmomentsensor", "--format", "json"]);
    assert_eq!(found[0]["word"], "torque-sensor");
    assert_eq!(found[0]["paper"], "pedal-force sensor");
    assert_eq!(found[0]["places"][0], "strip-down: findings: part:");
    assert_eq!(results(&["words", "--format", "json"]).len(), WORDS.len());
}
