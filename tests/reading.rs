//! Page 1 read as its customer reads it, over forty jobs of all kinds: nothing is said like a stamp, no name
//! comes three times in one answer, no list is long, and what the signs say is said.
//!
//! That each sentence is true of its sheet is the sceptic's to hold (`sceptic.rs`).

/// The jobs.
mod jobs;

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;
use splitcase::document::wording::Wording;
use splitcase::sheet::vocabulary::Condition;

use crate::paper::{self, Made};

const PROFILE: &str = "name: Hollowmere Drive Works\ncurrency: GBP\nrates: {hour: £44.00}\nunits: metric\n\
    tax: {name: VAT, rate: 20 %, prices: including, rounding: by-invoice}\n\
    limits: {crank-radial-play: 0.25 mm}\nrules: epac\n";

/// Words that make no noun phrase by themselves.
const SMALL: &[&str] = &[
    "a", "an", "and", "as", "at", "be", "been", "before", "by", "came", "could", "for", "from",
    "had", "has", "have", "if", "in", "into", "is", "it", "its", "more", "no", "not", "of", "off",
    "on", "one", "or", "other", "our", "out", "over", "past", "so", "some", "than", "that", "the",
    "them", "there", "they", "this", "to", "took", "up", "was", "we", "were", "what", "when",
    "where", "which", "with", "without", "you", "your",
];

/// A job with the texts of its page 1: the lead, then each answer.
struct Page {
    name: String,
    made: Made,
    texts: Vec<String>,
}

fn pages(wording: &Wording) -> Vec<Page> {
    let jobs = jobs::all();
    assert_eq!(jobs.len(), 40);
    let page = |(name, text): (String, String)| {
        let made = paper::made(PROFILE, &text, None);
        let view = made.view(wording);
        let answers = view["answers"].as_array().unwrap().iter();
        // What the customer said is quoted as it was said.
        let ours = answers.filter(|answer| answer["question"] != "You told us");
        let text = |value: &Value| value.as_str().unwrap().to_owned();
        let texts = std::iter::once(text(&view["lead"])).chain(ours.map(|one| text(&one["text"])));
        Page { name, made, texts: texts.collect() }
    };
    jobs.into_iter().map(page).collect()
}

fn sentences(text: &str) -> Vec<&str> {
    text.split_inclusive(". ").map(|one| one.trim().trim_end_matches('.')).collect()
}

/// A sentence that keeps somebody from harm may be the same on every page.
fn is_caution(sentence: &str) -> bool {
    sentence.starts_with("Do not") || sentence.starts_with("Ride the first miles")
}

#[test]
fn no_sentence_but_a_caution_stands_on_more_than_a_third_of_the_pages() {
    let pages = pages(&paper::english());
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    for page in &pages {
        let said: BTreeSet<&str> = page.texts.iter().flat_map(|text| sentences(text)).collect();
        said.into_iter().for_each(|sentence| *count.entry(sentence).or_default() += 1);
    }
    let often: Vec<_> = count
        .iter()
        .filter(|(sentence, n)| pages.len() < 3 * **n && !is_caution(sentence))
        .collect();
    assert!(often.is_empty(), "{often:#?}");
    assert!(200 < count.len(), "only {} different sentences", count.len());
}

/// Neighbouring words, both of which carry meaning: the short noun phrases of a text.
fn phrases(text: &str) -> Vec<String> {
    let text = text.to_lowercase();
    let words: Vec<&str> = text.split(' ').collect();
    let ends = |word: &str| word.ends_with(['.', ',', ';', ':']);
    let bare = |word: &str| word.trim_matches(|c: char| !c.is_alphanumeric()).to_owned();
    let carries = |word: &str| {
        !word.is_empty()
            && !SMALL.contains(&word)
            && word.chars().all(|c| c.is_alphabetic() || c == '\'')
    };
    words
        .windows(2)
        .filter(|pair| !ends(pair[0]))
        .map(|pair| (bare(pair[0]), bare(pair[1])))
        .filter(|(one, other)| carries(one) && carries(other))
        .map(|(one, other)| format!("{one} {other}"))
        .collect()
}

#[test]
fn no_answer_says_a_noun_phrase_three_times() {
    let mut n_phrases = 0;
    let mut wrong = Vec::new();
    for page in pages(&paper::english()) {
        for text in &page.texts {
            let mut count: BTreeMap<String, usize> = BTreeMap::new();
            phrases(text).into_iter().for_each(|phrase| *count.entry(phrase).or_default() += 1);
            n_phrases += count.len();
            let thrice = count.iter().filter(|(_, n)| 2 < **n);
            wrong.extend(thrice.map(|(phrase, _)| format!("{}: {phrase:?} in {text}", page.name)));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(300 < n_phrases, "only {n_phrases} phrases were looked at");
}

#[test]
fn lists_of_more_than_four_things_are_gathered() {
    let mut longest = 0;
    for page in pages(&paper::english()) {
        for sentence in page.texts.iter().flat_map(|text| sentences(text)) {
            let Some((_, list)) = sentence.split_once(": ") else { continue };
            let items = list.split(", ").flat_map(|item| item.split(" and ")).count();
            longest = longest.max(items);
            assert!(items <= 4, "{}: {sentence}", page.name);
        }
    }
    assert!(3 <= longest, "no list of three was met");
    let many =
        pages(&paper::english()).into_iter().find(|page| page.name.starts_with("many")).unwrap();
    let said = many.texts.join(" ");
    assert!(said.contains("four bearings, three seals"), "{said}");
}

/// What stands in the clauses of a sign, without the part.
fn pieces<'w>(wording: &'w Wording, sign: &str) -> Vec<&'w str> {
    let clauses =
        ["told", "failed", "more"].into_iter().filter_map(|which| wording.story(sign, which));
    clauses.map(|one| one.split("{part}").max_by_key(|piece| piece.len()).unwrap().trim()).collect()
}

#[test]
fn where_there_are_signs_the_lead_tells_what_happened() {
    let wording = paper::english();
    let mut n_told = 0;
    for page in pages(&wording) {
        let findings = page.made.sheet.fields.findings();
        let harmed = findings
            .iter()
            .filter(|one| !matches!(one.condition, Condition::Sound | Condition::NotExamined));
        let signs: Vec<&str> = harmed
            .filter_map(|one| one.signs.iter().next())
            .map(|sign| sign.value.name())
            .collect();
        if signs.is_empty() {
            continue;
        }
        let lead = page.texts[0].to_lowercase();
        let is_told = signs.iter().any(|sign| {
            pieces(&wording, sign).iter().any(|piece| lead.contains(&piece.to_lowercase()))
        });
        assert!(is_told, "{}: {lead} tells of none of {signs:?}", page.name);
        for general in ["a part broke", "took damage", " failed"] {
            assert!(!lead.contains(general), "{}: {lead}", page.name);
        }
        n_told += 1;
    }
    assert!(30 <= n_told, "only {n_told} pages have signs");
}

#[test]
fn page_1_stays_short() {
    for page in pages(&paper::english()) {
        let words = |text: &str| text.split(' ').count();
        let lead = words(&page.texts[0]);
        assert!(lead <= 60, "{}: {lead} words: {}", page.name, page.texts[0]);
        for text in &page.texts[1..] {
            assert!(words(text) <= 95, "{}: {} words: {text}", page.name, words(text));
        }
    }
}
