//! Sheets of every sign, part, condition, outcome, cause and date, made by counting and never by chance.

/// What few jobs have.
mod rare;

use std::fmt::Write;

use splitcase::sheet::catalogue::group::SignPlace;
use splitcase::sheet::catalogue::{PARTS, SIGNS};
use splitcase::sheet::vocabulary::UnitKind;

const CAUSES: [&str; 6] =
    ["ingress", "mechanical", "electrical", "wear-over-time", "undetermined", "no-fault-found"];
const OUTCOMES: [&str; 6] =
    ["repaired", "exchanged", "serviced", "returned-unrepaired", "no-fault-found", ""];
const CONDITIONS: [&str; 6] = ["failed", "damaged", "worn", "missing", "sound", "not-examined"];
const ACTIONS: [&str; 9] =
    ["replaced", "cleaned", "repaired", "kept", "added", "", "resealed", "coated", "tested"];

/// Every sheet with a name that says how it was made.
pub fn all() -> Vec<(String, String)> {
    let mut sheets = Vec::new();
    by_sign(&mut sheets);
    by_part(&mut sheets);
    by_ending(&mut sheets);
    telling(&mut sheets);
    rare::add(&mut sheets);
    by_case(&mut sheets);
    dangers(&mut sheets);
    many(&mut sheets);
    let faultless = "strip-down:\n  date: 2026-03-04\n  findings:\n    - {part: output-gear, condition: \
        worn, signs: [tooth-pitting]}\ncause: {main: no-fault-found}\noutcome: no-fault-found\n";
    let swapped = format!("{}  signs: [faultless-on-swap]\n{faultless}", head("mid-drive", 8));
    sheets.push(("faultless, beside a worn gear".to_owned(), swapped));
    sheets
}

/// A unit in which many things are harmed in different ways.
fn many(sheets: &mut Vec<(String, String)>) {
    let findings: String = [
        "main-bearing-drive-side, condition: failed, signs: [moisture-corrosion, races-worn-deep]",
        "main-bearing-non-drive-side, condition: damaged, signs: [moisture-corrosion]",
        "output-gear, condition: worn, signs: [tooth-pitting, tooth-scuffing]",
        "controller-board, condition: damaged, signs: [board-corrosion]",
        "torque-sensor, condition: failed, signs: [torque-sensor-corroded]",
        "case-half-drive-side, condition: damaged",
        "freewheel-clutch, condition: worn, signs: [clutch-slips]",
    ]
    .iter()
    .map(|one| format!("    - {{part: {one}, action: replaced}}\n"))
    .collect();
    for (at, cause) in CAUSES.iter().enumerate() {
        let text = format!(
            "{}strip-down:\n  date: 2026-03-04\n  findings:\n{findings}cause: {{main: {cause}}}\n{}",
            head("mid-drive", at),
            ending(at, true)
        );
        sheets.push((format!("many things, {cause}"), text));
    }
}

fn pick<'a>(list: &[&'a str], at: usize) -> &'a str {
    list[at % list.len()]
}

/// What a sheet says before it is opened; `at` chooses.
fn head(kind: &str, at: usize) -> String {
    let mut text = format!("job: S-{at}\ncustomer: {{name: Nadia Ferrow}}\n");
    let washed = ["pressure-washer", "garden-hose", "bucket-and-sponge", "unknown"];
    let _ = writeln!(
        text,
        "unit: {{kind: {kind}, washed-with: {}{}{}{}}}\narrival:\n  date: 2026-03-02",
        pick(&washed, at),
        if at % 5 == 4 { String::new() } else { format!(", mileage: {} km", 800 + 37 * at) },
        pick(&["", ", in-use-since: 2019-03-30"], at),
        pick(&["", "", ", used-for: [cargo, commuting]"], at),
    );
    if at.is_multiple_of(2) {
        text += "  complaint: It grinds under load\n";
    }
    match at % 5 {
        0 => text += "  first-noticed: {date: 2025-12-20, sign: noise, at: 500 km}\n",
        1 => text += "  first-noticed: {date: 2026-02-25, sign: play}\n",
        2 => text += "  first-noticed: {sign: less-help, at: 700 km}\n",
        3 => text += "  first-noticed: {sign: feel}\n",
        _ => {}
    }
    match at % 7 {
        0 => text += "  water: 40 ml\n",
        3 => {
            let point = pick(&["", ", codes-point-to: wiring"], at);
            let _ = writeln!(
                text,
                "  bike-check: {{display: on, battery: on, error-codes: E20{point}, assistance: weak, noise: grinding}}"
            );
        }
        5 => {
            text += "  bike-check: {display: flickering, battery: on, error-codes: none, noise: silent}\n";
        }
        6 => {
            text += "  bike-check: {display: flickering, battery: on, assistance: weak, noise: grinding}\n";
        }
        _ => {}
    }
    text
}

/// What a sheet says after it was opened; `at` chooses.
fn tail(at: usize, opened: bool) -> String {
    let mut text = String::new();
    let cause = pick(&CAUSES, at);
    let also = pick(&CAUSES, at / 2 + 1);
    let is_contributing = at.is_multiple_of(3)
        && also != cause
        && !["undetermined", "no-fault-found"].contains(&also)
        && !["undetermined", "no-fault-found"].contains(&cause);
    let contributing =
        if is_contributing { format!(", contributing: [{also}]") } else { String::new() };
    let _ = writeln!(text, "cause: {{main: {cause}{contributing}}}");
    text += &ending(at, opened);
    text
}

/// `opened` is false for a unit that was not opened, which can only have no outcome or no fault.
fn ending(at: usize, opened: bool) -> String {
    let mut text = String::new();
    match at % 4 {
        0 => text += "decision: {option: return-as-it-is}\n",
        1 => text += "decision: {option: overhaul}\n",
        _ => {}
    }
    if at % 11 == 4 {
        text += "bench: [{check: crank-radial-play, before: 0.80 mm, after: 0.60 mm}]\n";
    }
    if at % 11 == 5 {
        text += "bench: [{check: crank-radial-play, before: 0.80 mm, after: 0.05 mm}]\n";
    }
    match at % 12 {
        6 => text += "ride: {distance: 7.4 km, error-codes: none, noise: silent}\n",
        7 => text += "ride: {distance: 7.4 km, error-codes: none, noise: a faint hum}\n",
        8 => {
            text += "ride: {distance: 7.4 km, climb: 90 m, error-codes: none, cut-off: 29.0 km/h, bike: workshop}\n";
        }
        9 => text += "ride: {noise: silent, cut-off: 29.0 km/h}\n",
        10 => text += "ride: {distance: 3.4 km, climb: 60 m, cut-off: 25.0 km/h}\n",
        0 => {
            text += "ride: {distance: 7.4 km, climb: 310 m, cut-off: 24.6 km/h, error-codes: none, noise: silent}\n";
        }
        1 => text += "ride: {distance: 700 m, error-codes: E12 and E13, run-on: 1.2 m}\n",
        2 => {
            text += "ride: {error-codes: none, walk-assist: 5.4 km/h, cut-off: 24.1 km/h, bike: workshop}\n";
        }
        3 => text += "ride: {climb: 20 m, noise: a faint hum}\n",
        _ => {}
    }
    let outcome = if opened { pick(&OUTCOMES, at / 6 + at) } else { pick(&OUTCOMES[4..], at) };
    if outcome == "exchanged" {
        text += if at.is_multiple_of(2) {
            "exchange: {model: Kestmar C4}\n"
        } else {
            "exchange: {serial: K-1}\n"
        };
    }
    if ["repaired", "serviced"].contains(&outcome) {
        let more = pick(
            &[
                "",
                ", grease: lithium complex",
                ", drying: {how: oven, for: 12 h, at: 40 degC}",
                ", drying: {how: air, for: 24 h}, grease: lithium complex",
                ", drying: {how: vacuum}",
            ],
            at,
        );
        let _ = writeln!(text, "work: {{labour: 60 min{more}}}");
    }
    if !outcome.is_empty() {
        let _ = writeln!(text, "outcome: {outcome}");
    }
    text
}

/// Every sign on the first part of each group that can show it, or before opening.
fn by_sign(sheets: &mut Vec<(String, String)>) {
    for (at, row) in SIGNS.iter().enumerate() {
        for (nth, place) in row.on.iter().enumerate() {
            let at = at * 5 + nth * 3;
            let SignPlace::On(group) = place else {
                let arrived = format!("{}  signs: [{}]\n", head("mid-drive", at), row.sign);
                let opened = "strip-down: {date: 2026-03-04, evidence-lost: Rinsed out, findings: [{part: stator-winding, condition: sound}]}\n";
                let closed = format!("{arrived}{}", tail(at, false));
                sheets.push((format!("{} before opening", row.sign), closed));
                let text = format!("{arrived}{opened}{}", tail(at, true));
                sheets.push((format!("{} on the unit, opened", row.sign), text));
                continue;
            };
            let Some(part) = PARTS.iter().find(|part| part.group == *group) else { continue };
            let kind = if part.kinds.contains(&UnitKind::MidDrive) { "mid-drive" } else { "hub" };
            let finding = finding(&part.part, at, &format!(", signs: [{}]", row.sign));
            let text = format!(
                "{}strip-down:\n  date: 2026-03-04\n  findings:\n{finding}{}",
                head(kind, at),
                tail(at, true)
            );
            sheets.push((format!("{} on {}", row.sign, part.part), text));
        }
    }
}

fn finding(part: &str, at: usize, signs: &str) -> String {
    let action = pick(&ACTIONS, at);
    let action = if action.is_empty() { String::new() } else { format!(", action: {action}") };
    let called = if part == "other" { ", called: clamp of the cable" } else { "" };
    format!(
        "    - {{part: {part}{called}, condition: {}{signs}{action}}}\n",
        pick(&CONDITIONS, at / 2)
    )
}

/// Every part beside two others, in one condition and another.
fn by_part(sheets: &mut Vec<(String, String)>) {
    for (at, row) in PARTS.iter().enumerate() {
        let kind = if row.kinds.contains(&UnitKind::MidDrive) { "mid-drive" } else { "hub" };
        let findings: String = [row.part.as_str(), "stator-winding", "case-gasket"]
            .iter()
            .enumerate()
            .filter(|(nth, part)| *nth == 0 || **part != row.part)
            .map(|(nth, part)| finding(part, at * 3 + nth * 5, ""))
            .collect();
        let text = format!(
            "{}strip-down:\n  date: 2026-03-04\n  findings:\n{findings}{}",
            head(kind, at + 1),
            tail(at * 5 + 2, true)
        );
        sheets.push((format!("{} beside others", row.part), text));
    }
}

/// Every cause with every ending, opened and not.
fn by_ending(sheets: &mut Vec<(String, String)>) {
    let opened = "strip-down:\n  date: 2026-03-04\n  findings:\n    - {part: main-bearing-drive-side, \
        condition: failed, signs: [moisture-corrosion, races-worn-deep], action: replaced}\n    \
        - {part: crank-seal-drive-side, condition: damaged, signs: [rust-trail-inward]}\n";
    for (at, cause) in CAUSES.iter().enumerate() {
        for ending_at in 0..30 {
            let body = if ending_at % 2 == 0 { opened } else { "" };
            let text = format!(
                "{}{body}cause: {{main: {cause}}}\n{}",
                head("mid-drive", at * 30 + ending_at),
                ending(ending_at, !body.is_empty())
            );
            sheets.push((format!("{cause}, ending {ending_at}"), text));
        }
    }
}

/// Jobs whose signs carry a cause, each told as the trade would tell it.
fn telling(sheets: &mut Vec<(String, String)>) {
    let jobs: [(&str, &str, &str); 15] = [
        (
            "water past a seal",
            "main-bearing-drive-side, condition: failed, signs: [moisture-corrosion]; crank-seal-drive-side, condition: damaged, signs: [seal-lip-damaged, rust-trail-inward]; gear-grease, condition: damaged, signs: [grease-milky]",
            "main: ingress",
        ),
        (
            "water, the seal alone harmed",
            "crank-seal-drive-side, condition: damaged, signs: [seal-lip-damaged, rust-trail-inward]; case-half-drive-side, condition: sound, signs: [free-water-inside, tide-line-inside]",
            "main: ingress",
        ),
        (
            "water without a way",
            "main-bearing-drive-side, condition: failed, signs: [moisture-corrosion]; case-half-drive-side, condition: sound, signs: [free-water-inside]; gear-grease, condition: damaged, signs: [grease-milky]",
            "main: ingress",
        ),
        (
            "water on the board",
            "controller-board, condition: failed, signs: [board-corrosion]; main-connector, condition: damaged, signs: [pins-corroded]; cable-gland, condition: damaged, signs: [gland-open]",
            "main: ingress",
        ),
        (
            "a blow",
            "case-half-drive-side, condition: damaged, signs: [casing-crack-or-dent]; output-gear, condition: failed, signs: [tooth-overload-break]",
            "main: mechanical",
        ),
        (
            "a blow and water after it",
            "case-half-drive-side, condition: damaged, signs: [casing-crack-or-dent]; main-bearing-drive-side, condition: worn, signs: [moisture-corrosion]",
            "main: mechanical, contributing: [ingress]",
        ),
        (
            "gears",
            "output-gear, condition: failed, signs: [tooth-fatigue-break, tooth-pitting]; gear-grease, condition: sound, signs: [grease-clean-and-full]",
            "main: mechanical",
        ),
        (
            "a burnt switch",
            "power-transistor, condition: failed, signs: [transistor-burnt-dry]; stator-winding, condition: sound, signs: [winding-balanced, winding-bright]; controller-board, condition: sound, signs: [potting-intact]",
            "main: electrical",
        ),
        (
            "a dead sensor",
            "torque-sensor, condition: failed, signs: [torque-sensor-offset]; controller-board, condition: sound",
            "main: electrical",
        ),
        (
            "a burnt winding",
            "stator-winding, condition: failed, signs: [winding-pair-low, winding-phase-burnt]",
            "main: electrical",
        ),
        (
            "worn and ridden on",
            "main-bearing-drive-side, condition: worn, signs: [races-worn-deep]; bearing-seat, condition: worn, signs: [ring-turned-in-seat, play-with-worn-seat]; gear-grease, condition: worn, signs: [grease-black-glitter]",
            "main: wear-over-time",
        ),
        (
            "mud and rust",
            "main-bearing-drive-side, condition: failed, signs: [moisture-corrosion]; case-half-drive-side, condition: sound, signs: [mud-inside, free-water-inside, tide-line-inside]",
            "main: ingress",
        ),
        (
            "a blow on the casing",
            "case-half-drive-side, condition: failed, signs: [casing-crack-or-dent]; output-gear, condition: damaged, signs: [tooth-overload-break]; main-bearing-drive-side, condition: damaged, signs: [true-brinelling]",
            "main: mechanical",
        ),
        (
            "two sound parts",
            "stator-winding, condition: sound, signs: [winding-bright]; output-gear, condition: sound",
            "main: undetermined",
        ),
        (
            "nothing settled",
            "main-bearing-drive-side, condition: failed, signs: [bearing-seized]",
            "main: undetermined",
        ),
    ];
    for (at, (name, findings, cause)) in jobs.iter().enumerate() {
        for round in 0..5 {
            let findings: String = findings
                .split("; ")
                .map(|finding| {
                    format!(
                        "    - {{part: {finding}, action: {}}}\n",
                        pick(&ACTIONS[..4], at + round)
                    )
                })
                .collect();
            let text = format!(
                "{}strip-down:\n  date: 2026-03-04\n  findings:\n{findings}cause: {{{cause}}}\n{}",
                head("mid-drive", round),
                ending(at * 5 + round, true)
            );
            sheets.push((format!("{name}, round {round}"), text));
        }
    }
}

/// The jobs that the weighing is tried on, each stated as the trade would and ended in another way.
fn by_case(sheets: &mut Vec<(String, String)>) {
    let origins = ["wear", "impact", "overload", "assembly", "material", "age"];
    for (at, case) in crate::assessment::cause::cases::cases().into_iter().enumerate() {
        let main = case.main.word();
        let with: Vec<&str> = case.with.iter().map(|one| one.word()).collect();
        let origin = match main {
            "mechanical" if at % 3 != 0 => format!(", origin: {}", pick(&origins, at)),
            "electrical" if at.is_multiple_of(2) => {
                format!(", origin: {}", pick(&origins[2..], at))
            }
            _ => String::new(),
        };
        let text = format!(
            "{}cause: {{main: {main}, contributing: [{}]{origin}}}\n{}",
            case.text,
            with.join(", "),
            ending(at, true)
        );
        sheets.push((case.name.to_owned(), text));
    }
}

/// Parts that can hurt somebody, mended and left, and a battery that is out of its window.
fn dangers(sheets: &mut Vec<(String, String)>) {
    let parts =
        [("crank-axle", "axle-cracked-or-bent"), ("battery-pack", "cell-voltage-out-of-range")];
    for (part, sign) in parts {
        for (at, action) in ACTIONS.iter().enumerate().filter(|(_, action)| !action.is_empty()) {
            for (nth, outcome) in OUTCOMES.iter().enumerate().filter(|(_, one)| !one.is_empty()) {
                let exchange =
                    if *outcome == "exchanged" { "exchange: {serial: K-1}\n" } else { "" };
                let ride = if (at + nth) % 2 == 0 { "ride: {distance: 7.4 km}\n" } else { "" };
                let text = format!(
                    "{}strip-down:\n  date: 2026-03-04\n  findings:\n    - {{part: {part}, condition: \
                     damaged, signs: [{sign}], action: {action}}}\ncause: {{main: mechanical}}\n\
                     work: {{labour: 60 min}}\n{exchange}{ride}outcome: {outcome}\n",
                    head("mid-drive", at + nth),
                );
                sheets.push((format!("{part} {action}, {outcome}"), text));
            }
        }
    }
}
