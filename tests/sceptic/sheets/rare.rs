//! Sheets of what few jobs have.

use super::pick;

/// A job by its name, and what is written of unit, arrival, findings and cause.
type Rare = (&'static str, &'static str, &'static str, &'static str, &'static str);

/// What few jobs have.
fn rare_jobs() -> Vec<Rare> {
    const WORN: &str = "main-bearing-drive-side, condition: worn, signs: [races-worn-deep]; bearing-seat, condition: worn, signs: [ring-turned-in-seat, play-with-worn-seat]";
    const BLOW: &str = "case-half-drive-side, condition: failed, signs: [casing-crack-or-dent]; main-bearing-drive-side, condition: damaged, signs: [true-brinelling]; output-gear, condition: damaged, signs: [tooth-overload-break]";
    let noticed = ", first-noticed: {date: 2025-12-20, sign: noise}";
    vec![
        (
            "noticed on the day",
            "",
            ", first-noticed: {date: 2026-03-02, sign: noise, at: 500 km}",
            WORN,
            "cause: {main: wear-over-time}",
        ),
        (
            "noticed on the day, no distance",
            "",
            ", first-noticed: {date: 2026-03-02, sign: noise}",
            WORN,
            "cause: {main: wear-over-time}",
        ),
        ("ridden on, no distance", "", noticed, WORN, "cause: {main: wear-over-time}"),
        (
            "a blow that let water in",
            "",
            ", water: 15 ml",
            BLOW,
            "cause: {main: mechanical, contributing: [ingress], origin: impact}",
        ),
        (
            "a blow, water and wear",
            "",
            ", water: 15 ml",
            "case-half-drive-side, condition: damaged, signs: [casing-crack-or-dent]; main-bearing-drive-side, condition: failed, signs: [moisture-corrosion]; gear-grease, condition: damaged, signs: [grease-milky]",
            "cause: {main: mechanical, contributing: [ingress], origin: impact}",
        ),
        (
            "a switch that was overloaded",
            "",
            "",
            "stator-winding, condition: failed, signs: [winding-phase-burnt, winding-dark-evenly]; power-transistor, condition: failed, signs: [transistor-burnt-dry]",
            "cause: {main: electrical, origin: overload}",
        ),
        (
            "a plug that ran hot",
            "",
            "",
            "main-connector, condition: failed, signs: [pins-melted]; controller-board, condition: failed, signs: [transistor-burnt-dry, measured-short]",
            "cause: {main: electrical, origin: overload}",
        ),
        (
            "a blow that let fresh water in",
            "",
            "",
            "case-half-drive-side, condition: failed, signs: [casing-crack-or-dent]; rotor, condition: failed, signs: [magnet-sleeve-burst]; intermediate-gear, condition: damaged, signs: [tooth-fatigue-break]; case-half-non-drive-side, condition: worn, signs: [dew-without-rust]",
            "cause: {main: mechanical, contributing: [ingress], origin: impact}",
        ),
        (
            "age",
            ", mileage: 9000 km, in-use-since: 2015-03-30",
            "",
            WORN,
            "cause: {main: mechanical, origin: age}",
        ),
        (
            "age, no distance",
            ", in-use-since: 2015-03-30",
            "",
            WORN,
            "cause: {main: mechanical, origin: age}",
        ),
        (
            "wear over its way",
            ", mileage: 19000 km",
            "",
            WORN,
            "cause: {main: mechanical, origin: wear}",
        ),
        (
            "loads",
            ", used-for: [cargo]",
            "",
            "output-gear, condition: failed, signs: [tooth-overload-break]",
            "cause: {main: mechanical, origin: overload}",
        ),
        (
            "new without a look",
            ", rules: epac",
            "",
            "main-bearing-drive-side, condition: failed, signs: [races-worn-deep]; rotor-bearing-inner, condition: not-examined, action: replaced",
            "cause: {main: mechanical}",
        ),
    ]
}

/// Sheets of what few jobs have.
pub fn add(sheets: &mut Vec<(String, String)>) {
    for (at, (name, unit, arrival, findings, cause)) in rare_jobs().into_iter().enumerate() {
        let list = |one: &str| {
            let action = if one.contains("action:") { "" } else { ", action: replaced" };
            format!("    - {{part: {one}{action}}}\n")
        };
        let findings: String = findings.split("; ").map(list).collect();
        let text = format!(
            "job: R-{at}\ncustomer: {{name: Nadia Ferrow}}\nunit: {{kind: mid-drive{unit}}}\n\
             arrival: {{date: 2026-03-02{arrival}}}\nstrip-down:\n  date: 2026-03-04\n  findings:\n{findings}\
             {cause}\nwork: {{labour: 60 min}}\nride: {{distance: 7.4 km, climb: 310 m, cut-off: {}, error-codes: none}}\n\
             outcome: repaired\n",
            pick(&["24.6 km/h", "24.2 km/h ± 0.2 km/h"], at)
        );
        sheets.push((format!("rare: {name}"), text));
    }
}
