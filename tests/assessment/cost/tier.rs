//! How large a job was, from what was done to which part.

use proptest::prelude::{ProptestConfig, Strategy, prop, prop_assert, prop_assert_eq, proptest};
use splitcase::assessment::cost::tier::{Tier, of_findings};
use splitcase::sheet::catalogue::{PARTS, Part};
use splitcase::sheet::findings::Finding;
use splitcase::sheet::reader::Marked;
use splitcase::sheet::vocabulary::Action;

use super::{codes, costs_of, marked, pounds};

fn finding(part: usize, action: Option<Action>) -> Finding {
    let part = Marked { value: Part(&PARTS[part]), span: 0..0 };
    Finding { part, action, ..Finding::default() }
}

fn by_name(done: &[(&str, Action)]) -> Option<Tier> {
    let row = |name: &str| PARTS.iter().position(|row| row.part == name).unwrap();
    let findings: Vec<Finding> =
        done.iter().map(|(part, action)| finding(row(part), Some(*action))).collect();
    of_findings(&findings)
}

/// Common practice, no source (T14): one bearing or seal, all of them, mechanical parts beside
/// them.
#[test]
fn the_tier_follows_from_the_parts() {
    let replaced = |parts: &[&str]| {
        by_name(&parts.iter().map(|part| (*part, Action::Replaced)).collect::<Vec<_>>())
    };
    let (drive, other) = ("main-bearing-drive-side", "main-bearing-non-drive-side");
    assert_eq!(replaced(&[drive]), Some(Tier::SingleBearing));
    assert_eq!(replaced(&["axle-seal"]), Some(Tier::SingleBearing));
    assert_eq!(
        replaced(&[drive, "crank-seal-drive-side", "case-gasket", "gear-grease", "case-screw"]),
        Some(Tier::SingleBearing)
    );
    // Two findings on one bearing are one bearing.
    assert_eq!(replaced(&[drive, drive]), Some(Tier::SingleBearing));
    assert_eq!(replaced(&[drive, other]), Some(Tier::Overhaul));
    let seals = ["crank-seal-drive-side", "crank-seal-non-drive-side"];
    assert_eq!(replaced(&seals), Some(Tier::Overhaul));
    assert_eq!(replaced(&[drive, other, "planet-gear"]), Some(Tier::OverhaulPlusParts));
    assert_eq!(replaced(&["controller-board"]), Some(Tier::OverhaulPlusParts));
    assert_eq!(by_name(&[("bearing-seat", Action::Repaired)]), Some(Tier::OverhaulPlusParts));
    // Nothing that counts: greased, closed, cleaned, or no part of the unit.
    assert_eq!(replaced(&["gear-grease", "case-gasket", "battery-pack"]), None);
    assert_eq!(by_name(&[(drive, Action::Cleaned), ("rotor", Action::Kept)]), None);
    assert_eq!(by_name(&[]), None);
}

fn job(chose: &str, actions: &[&str], rest: &str) -> String {
    let parts =
        ["main-bearing-drive-side", "main-bearing-non-drive-side", "planet-gear", "rotor-shaft"];
    let findings: Vec<String> = parts
        .iter()
        .zip(actions)
        .map(|(part, action)| format!("{{part: {part}, condition: failed, action: {action}}}"))
        .collect();
    let findings = findings.join(", ");
    format!(
        "strip-down: {{date: 2026-03-03, findings: [{findings}]}}\ndecision: {{option: {chose}}}\n{rest}"
    )
}

const DONE: &str = "work: {labour: 60 min}\noutcome: repaired\n";

#[test]
fn a_choice_that_is_not_what_was_done_is_told_at_the_choice() {
    let (costs, problems) = costs_of(&pounds(""), &job("single-bearing", &["replaced"; 2], DONE));
    assert_eq!(costs.tier, Some(Tier::Overhaul));
    assert_eq!(
        (codes(&problems), marked(&problems[0])),
        (vec!["cost/other-tier"], "single-bearing")
    );
    assert!(problems[0].hints[0].contains("`main-bearing-non-drive-side`"));
    for (chose, actions, rest) in [
        ("overhaul", &["replaced"][..], DONE),
        ("overhaul", &["replaced", "replaced", "repaired"], DONE),
        ("exchange", &["replaced", "replaced"], DONE),
        ("return-as-it-is", &["replaced"], DONE),
        ("overhaul", &["kept"], "exchange: {serial: K-1}\noutcome: exchanged\n"),
        ("return-as-it-is", &["kept"], "exchange: {serial: K-1}\n"),
    ] {
        let (_, problems) = costs_of(&pounds(""), &job(chose, actions, rest));
        assert_eq!(codes(&problems), ["cost/other-tier"], "{chose} {actions:?}");
    }
    for (chose, actions, rest) in [
        ("single-bearing", &["replaced"][..], DONE),
        ("overhaul", &["replaced", "replaced"], DONE),
        ("overhaul-plus-parts", &["replaced", "replaced", "replaced"], DONE),
        ("exchange", &["kept"], "exchange: {serial: K-1}\noutcome: exchanged\n"),
        ("new-unit", &["kept"], "exchange: {serial: K-1}\noutcome: exchanged\n"),
        ("return-as-it-is", &["kept"], "outcome: returned-unrepaired\n"),
        // Nothing is listed that would tell.
        ("overhaul", &["kept"], DONE),
    ] {
        let (_, problems) = costs_of(&pounds(""), &job(chose, actions, rest));
        assert!(problems.is_empty(), "{chose} {actions:?} {problems:?}");
    }
}

#[test]
fn while_a_job_is_open_only_more_than_was_chosen_is_told() {
    let told = |chose: &str, actions: &[&str]| {
        codes(&costs_of(&pounds(""), &job(chose, actions, "work: {labour: 60 min}\n")).1).len()
    };
    assert_eq!(told("overhaul", &["replaced"]), 0);
    assert_eq!(told("single-bearing", &["replaced", "replaced"]), 1);
}

fn any_work() -> impl Strategy<Value = Vec<(usize, usize)>> {
    prop::collection::vec((0..PARTS.len(), 0..=Action::ALL.len()), 0..12)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_order_of_findings_changes_no_tier(
        work in any_work(),
        keys in prop::collection::vec(0_u32..1000, 12),
    ) {
        let of = |work: &[(usize, usize)]| {
            let findings = work.iter().map(|(part, at)| finding(*part, Action::ALL.get(*at).copied()));
            of_findings(&findings.collect::<Vec<_>>())
        };
        let mut mixed: Vec<(u32, (usize, usize))> = keys.into_iter().zip(work.clone()).collect();
        mixed.sort_by_key(|(key, _)| *key);
        let mixed: Vec<(usize, usize)> = mixed.into_iter().map(|(_, one)| one).collect();
        prop_assert_eq!(of(&work), of(&mixed));
        // More work never makes a smaller job.
        prop_assert!(of(&work[..work.len() / 2]) <= of(&work));
    }
}
