//! The rules that tell fresh water, heat and first events apart.

use splitcase::assessment::cause::scored_sign::SetAside;
use splitcase::assessment::cause::scores::RootCause;
use splitcase::assessment::cause::verdict::Support;
use splitcase::assessment::cause::{Weighing, judge};
use splitcase::sheet::catalogue::SIGNS;
use splitcase::sheet::vocabulary::{CauseKind, OriginKind};

use super::{evidence, of, sign};

fn set_aside(weighing: &Weighing, name: &str) -> Option<SetAside> {
    weighing.signs.iter().find(|one| one.sign == sign(name)).unwrap().set_aside
}

#[test]
fn fresh_water_that_has_rusted_nothing_yet_is_water_all_the_same() {
    let not_found = ["moisture-corrosion", "board-corrosion"];
    let poured = ["water-poured-out", "clear-water-no-rust"];
    let early = judge(&evidence(&poured, &not_found), None, &[]);
    assert_eq!(set_aside(&early, "board-corrosion"), Some(SetAside::WaterIsFresh));
    // Without a way in it is pointed to and no more.
    let verdict = (early.verdict.main, early.verdict.support);
    assert_eq!(verdict, (CauseKind::Ingress, Support::PointsTo));
    // Something else is clearly damaged, and no trace of water is there: it has not come so far.
    let dead =
        judge(&evidence(&[&poured[..], &["hall-state-invalid"]].concat(), &not_found), None, &[]);
    assert_eq!(set_aside(&dead, "board-corrosion"), None);
    assert_eq!(dead.verdict.main, CauseKind::Electrical);
    // Water that may have come in on the way explains nothing.
    let posted = judge(&evidence(&["water-poured-out", "wet-packaging"], &not_found), None, &[]);
    assert_eq!(set_aside(&posted, "board-corrosion"), None);
    assert_eq!(posted.verdict.main, CauseKind::Undetermined);
}

#[test]
fn heat_speaks_for_a_winding_only_if_no_hot_mechanics_explain_it() {
    let alone = of(&["cuts-out-hot", "overload-heat"]);
    assert_eq!(alone.verdict.main, CauseKind::Electrical);
    let melted = of(&["cuts-out-hot", "overload-heat", "plastic-teeth-melted"]);
    assert_eq!(set_aside(&melted, "cuts-out-hot"), Some(SetAside::HeatExplained));
    assert_eq!(melted.verdict.main, CauseKind::Mechanical);
    // A winding that shows its own damage heats as well.
    let both = of(&["cuts-out-hot", "plastic-teeth-melted", "winding-phase-burnt"]);
    assert_eq!(set_aside(&both, "cuts-out-hot"), None);
    assert_eq!(both.verdict.main, CauseKind::Electrical);
}

#[test]
fn an_origin_of_the_first_event_comes_before_what_wore_after_it() {
    let kinds = |seen: &[&str]| -> Vec<OriginKind> {
        of(seen).origins.iter().map(|(kind, _)| *kind).collect()
    };
    let loose = ["loose-screws-inside", "tooth-scuffing", "one-edge-tooth-wear"];
    assert_eq!(kinds(&loose), [OriginKind::Assembly, OriginKind::Wear]);
    assert_eq!(kinds(&loose[1..]), [OriginKind::Wear]);
}

/// A lead of three settles who leads: such a job is mixed only where a sign puts another cause first.
#[test]
fn two_signs_with_a_lead_of_three_are_mixed_only_by_an_order() {
    let (mut n_led, mut n_close) = (0, 0);
    for (at, one) in SIGNS.iter().enumerate() {
        for other in &SIGNS[at + 1..] {
            let weighing = of(&[&one.sign, &other.sign]);
            let mut totals = RootCause::FIRST.map(|fault| weighing.totals.of(fault));
            totals.sort_unstable();
            let lead = totals[2] - totals[1].max(0);
            let verdict = &weighing.verdict;
            let is_mixed = verdict.support == Support::Mixed && verdict.order.is_empty();
            let (a, b) = (&one.sign, &other.sign);
            assert!(!(3 <= lead && is_mixed), "{a}, {b}: {totals:?} {verdict:?}");
            n_led += usize::from(3 <= lead);
            n_close += usize::from(lead < 3 && is_mixed);
        }
    }
    assert!(1000 < n_led && 10 < n_close, "{n_led} {n_close}");
}
