//! Words that need a fact wherever they stand, whatever the table of clauses says.
//!
//! No source but the trade's own: these are the sentences that a dispute is lost by.

use super::Case;
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

/// Checks the words of page 1, of the section on the cause and of the findings.
pub fn check(case: &Case, reading: &Reading) {
    let page_1 = format!("{} {}", case.view["lead"], case.view["answers"]);
    let why_text =
        case.view["cause"]["text"].to_string() + &case.view["cause"]["heading"].to_string();
    // The labels of every section are handed to every paper.
    let mut printed = case.view.clone();
    printed["words"].take();
    let all = super::super::report::said(&printed).to_lowercase();
    for never in NEVER {
        assert!(!all.contains(never), "{}: {never:?} in {all}", case.name);
    }
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
    let sound = reading.findings.iter().filter(|one| one.condition == "sound").count();
    if own.contains("other parts that we checked are sound") {
        assert!(1 < sound, "{}: {own}", case.name);
    }
    if !page_1.contains("has not been opened") && reading.findings.is_empty() {
        assert!(!own.contains("water got in"), "{}: unopened, yet {own}", case.name);
    }
}
