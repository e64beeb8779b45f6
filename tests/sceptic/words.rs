//! Words that need a fact wherever they stand, whatever the table of clauses says.
//!
//! No source but the trade's own: these are the sentences that a dispute is lost by.

use super::Case;
use splitcase::document::wording::Wording;
use splitcase::sheet::catalogue::{PARTS, SIGNS};

use super::facts::{RUST, Reading};

/// Words of page 1 and of the cause that need one of these signs.
const NEED_A_SIGN: &[(&str, &[&str])] = &[
    ("milky", &["grease-milky"]),
    (
        "burns through",
        &["transistor-burnt-dry", "transistor-burnt-blocked", "transistor-burnt-wet"],
    ),
    ("known to be good", &["faultless-on-swap"]),
    ("a blow", &["casing-crack-or-dent"]),
    ("hard blow", &["casing-crack-or-dent"]),
];

/// What no paper says of any job.
const NEVER: &[&str] = &[
    "neglect",
    "not by water",
    "rest of the unit",
    "any seal",
    "270 times",
    "from memory",
    "second hand",
    "as good as new",
    "proves",
    "rebuilt",
];

/// Checks that a paper says nothing of what no paper says.
pub fn check_never(name: &str, view: &serde_json::Value) {
    // The labels of every section are handed to every paper.
    let mut printed = view.clone();
    printed["words"].take();
    let all = super::super::report::said(&printed).to_lowercase();
    for never in NEVER {
        assert!(!all.contains(never), "{name}: {never:?} in {all}");
    }
}

/// Checks the words of page 1, of the section on the cause and of the findings.
pub fn check(case: &Case, reading: &Reading) {
    let page_1 = format!("{} {}", case.view["lead"], case.view["answers"]);
    let why_text =
        case.view["cause"]["text"].to_string() + &case.view["cause"]["heading"].to_string();
    check_never(&case.name, &case.view);
    let own = format!("{page_1} {why_text}").to_lowercase();
    for (word, signs) in NEED_A_SIGN {
        // A sign may be quoted by its own words.
        let quoted = own.matches(word).count();
        // The technician may state a blow without a sign of it; then it is said to be a judgement.
        let is_stated =
            *word == "a blow" && reading.at("cause.origin").as_deref() == Some("impact");
        assert!(
            quoted == 0 || is_stated || reading.saw(signs),
            "{}: {word:?} without its sign: {own}",
            case.name
        );
    }
    if own.contains("rusted") && !own.contains("had rusted yet") {
        assert!(reading.saw(RUST), "{}: rust without its sign: {own}", case.name);
    }
    if own.contains("ridden on") {
        assert!(
            reading.at("arrival.first-noticed.date").is_some(),
            "{}: no date: {own}",
            case.name
        );
    }
    if own.contains("pressure washer") {
        let washed = reading.at("unit.washed-with");
        assert_eq!(washed.as_deref(), Some("pressure-washer"), "{}", case.name);
    }
    if own.contains("checked and sound") {
        assert!(
            reading.findings.iter().any(|one| one.condition == "sound"),
            "{}: {own}",
            case.name
        );
    }
    if !page_1.contains("has not been opened") && reading.findings.is_empty() {
        assert!(!own.contains("water got in"), "{}: unopened, yet {own}", case.name);
    }
}

/// Clauses about parts: each that stands on page 1 has its sign on a part of the sheet, and one of a part
/// that failed has a part that failed.
pub fn check_clauses(case: &Case, reading: &Reading, wording: &Wording) {
    let page_1 = format!("{} {}", case.view["lead"], case.view["answers"]).to_lowercase();
    for row in SIGNS.iter() {
        for which in ["told", "failed", "more"] {
            let Some(clause) = wording.story(&row.sign, which) else { continue };
            let longest = clause.split("{part}").max_by_key(|piece| piece.len()).unwrap().trim();
            // Words that stand in the name of a part tell of no sign.
            let names = PARTS.iter().any(|row| wording.part(&row.part, "plain").contains(longest));
            let names = names || longest.ends_with(" of");
            if longest.len() < 12 || names || !page_1.contains(longest) {
                continue;
            }
            let says_so = |sign: &String, is_failed: bool| {
                ["told", "failed", "more"].iter().any(|which| {
                    (*which != "failed" || is_failed)
                        && wording.story(sign, which).is_some_and(|other| other.contains(longest))
                })
            };
            let licensed = reading
                .findings
                .iter()
                .any(|one| one.signs.iter().any(|sign| says_so(sign, one.condition == "failed")));
            // A sign may be quoted by its plain words as well.
            let quoted = reading
                .signs()
                .iter()
                .any(|sign| wording.sign(sign, "plain").to_lowercase().contains(longest));
            assert!(licensed || quoted, "{}: {longest:?} without its sign: {page_1}", case.name);
        }
    }
}
