//! Jobs written down as a repairer would, each with the cause that the trade would name.
//!
//! The table is `cases.txt`; its expectations are judgement of the trade, no source, and were
//! written before the rules were run on them.

use splitcase::assessment::cause::scores::Fault;
use splitcase::assessment::cause::verdict::Support;
use splitcase::assessment::cause::{Weighing, weigh};
use splitcase::sheet::vocabulary::CauseKind;

use super::sheet::sheet;

/// One line of the table.
pub struct Case {
    pub name: &'static str,
    /// The sheet that says it.
    pub text: String,
    pub main: CauseKind,
    pub with: Vec<CauseKind>,
}

/// Every case of the table.
pub fn cases() -> Vec<Case> {
    let lines = include_str!("cases.txt").lines();
    let lines = lines.filter(|line| !line.is_empty() && !line.starts_with('#'));
    lines.map(case).collect()
}

fn case(line: &'static str) -> Case {
    let columns: Vec<&'static str> = line.split('|').map(str::trim).collect();
    let [name, signs, when, main, with] = columns[..] else { panic!("five columns: {line}") };
    let cause = |word: &&str| *CauseKind::ALL.iter().find(|kind| kind.word() == *word).unwrap();
    let with = with.split_whitespace().map(|word| cause(&word)).collect();
    Case { name, text: sheet_text(signs, when), main: cause(&main), with }
}

/// The sheet of a case: brought in on 2026-03-02 with 3000 km.
fn sheet_text(signs: &str, when: &str) -> String {
    let is_hub = signs.contains("hub-")
        || ["wheel-axle", "motor-cable"].iter().any(|part| signs.contains(part));
    let kind = if is_hub { "hub" } else { "mid-drive" };
    let noticed = match when {
        "-" => "",
        "long" => ", noticed: {date: 2025-09-02, sign: noise, at: 2100 km}",
        "weeks" => ", noticed: {date: 2026-01-26, sign: noise, at: 2800 km}",
        "days" => ", noticed: {date: 2026-02-25, sign: noise, at: 2980 km}",
        other => panic!("no time `{other}`"),
    };
    let (mut whole, mut looked, mut findings) = (String::new(), String::new(), String::new());
    for place in signs.split(';') {
        let (part, list) = place.split_once(':').unwrap();
        let list = list.split_whitespace().collect::<Vec<_>>().join(", ");
        match part.trim() {
            "unit" => whole = format!(", signs: [{list}]"),
            "not-seen" => looked = format!("  not-seen: [{list}]\n"),
            part => findings.push_str(&format!(
                "    - {{part: {part}, condition: damaged, signs: [{list}], photos: [a.jpg]}}\n"
            )),
        }
    }
    let strip = format!("strip-down:\n  date: 2026-03-04\n{looked}");
    let strip = match findings.is_empty() {
        true => strip,
        false => format!("{strip}  findings:\n{findings}"),
    };
    format!(
        "job: QB-1\ncustomer: {{name: Elin Varga}}\nunit: {{kind: {kind}, ridden: 3000 km}}\n\
         arrival: {{date: 2026-03-02{noticed}{whole}}}\n{strip}"
    )
}

fn weighed(case: &Case) -> Weighing {
    weigh(&sheet(&case.text), Vec::new(), &[])
}

fn line(case: &Case, weighing: &Weighing) -> String {
    let verdict = &weighing.verdict;
    format!(
        "{}: {:?} {} {:?}, expected {} {:?}; {:?} {:?}",
        case.name,
        verdict.support,
        verdict.main.word(),
        verdict.contributing,
        case.main.word(),
        case.with,
        weighing.ranking,
        verdict.limits,
    )
}

#[test]
fn the_cause_that_the_trade_would_name_is_found_in_95_of_100_and_never_missed_with_confidence() {
    let cases = cases();
    assert!(cases.len() >= 100);
    let wrong: Vec<(Case, Weighing)> = cases
        .into_iter()
        .map(|case| {
            let weighing = weighed(&case);
            (case, weighing)
        })
        .filter(|(case, weighing)| weighing.verdict.main != case.main)
        .collect();
    let listed: Vec<String> = wrong.iter().map(|(case, weighing)| line(case, weighing)).collect();
    let confident =
        wrong.iter().filter(|(_, weighing)| weighing.verdict.support == Support::WellSupported);
    let confident: Vec<&str> = confident.map(|(case, _)| case.name).collect();
    assert!(
        confident.is_empty() && wrong.len() * 20 <= self::cases().len(),
        "{} of {} wrong, {} of them with confidence: {confident:?}\n{}",
        wrong.len(),
        self::cases().len(),
        confident.len(),
        listed.join("\n")
    );
}

#[test]
fn the_causes_that_had_a_part_are_named() {
    for case in cases().iter().filter(|case| !case.with.is_empty()) {
        let weighing = weighed(case);
        for cause in &case.with {
            let fault = Fault::of(*cause).unwrap();
            assert!(weighing.verdict.contributing.contains(&fault), "{}", line(case, &weighing));
        }
    }
}
