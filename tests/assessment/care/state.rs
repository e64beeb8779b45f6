//! In which state the unit goes back, read from whole sheets.

use splitcase::assessment::care::state::{Fitness, Hazard, State};
use splitcase::assessment::cause;
use splitcase::sheet::catalogue::{SIGNS, Sign};

use super::sheet;

fn sign(name: &str) -> Sign {
    Sign(SIGNS.iter().find(|row| row.sign == name).unwrap())
}

/// The state of a sheet with these findings, this outcome and more of its arrival.
fn state(outcome: &str, findings: &str, arrival: &str) -> State {
    let fields = sheet(&format!(
        "job: QB-1\ncustomer: {{name: Elin Varga}}\nunit: {{kind: mid-drive}}\n\
         arrival: {{date: 2026-03-02{arrival}}}\n\
         strip-down: {{date: 2026-03-03, findings: [{findings}]}}\noutcome: {outcome}\n"
    ));
    State::of(&fields, &cause::weigh(&fields, Vec::new(), &[]).safety)
}

fn fitness(findings: &str) -> Fitness {
    state("returned-unrepaired", findings, "").fitness
}

fn hazards(outcome: &str, findings: &str) -> Vec<Hazard> {
    state(outcome, findings, "").dangers.iter().map(|danger| danger.hazard).collect()
}

#[test]
fn only_a_part_that_carries_load_and_no_longer_works_makes_a_unit_unfit() {
    assert_eq!(fitness("{part: main-bearing-drive-side, condition: failed}"), Fitness::NotFit);
    assert_eq!(fitness("{part: case-half-drive-side, condition: failed}"), Fitness::NotFit);
    assert_eq!(fitness("{part: mounting-bolt, condition: missing}"), Fitness::NotFit);
    assert_eq!(fitness("{part: main-bearing-drive-side, condition: worn}"), Fitness::Worn);
    assert_eq!(fitness("{part: planet-gear, condition: damaged}"), Fitness::Worn);
    assert_eq!(fitness("{part: crank-seal-drive-side, condition: failed}"), Fitness::Worn);
    assert_eq!(fitness("{part: controller-board, condition: failed}"), Fitness::Dead);
    assert_eq!(fitness("{part: stator-winding, condition: failed}"), Fitness::Dead);
    assert_eq!(fitness("{part: output-gear, condition: sound}"), Fitness::Fit);
}

#[test]
fn where_no_part_was_judged_nothing_is_said_of_fitness() {
    assert_eq!(fitness(""), Fitness::NotOpened);
    assert_eq!(fitness("{part: output-gear, condition: not-examined}"), Fitness::NotOpened);
}

#[test]
fn what_was_mended_or_stays_here_is_not_left_in_the_unit() {
    let bearing = |action: &str| {
        format!("{{part: main-bearing-drive-side, condition: failed, action: {action}}}")
    };
    let of = |outcome: &str, action: &str| state(outcome, &bearing(action), "").fitness;
    assert_eq!(of("repaired", "replaced"), Fitness::Fit);
    assert_eq!(of("repaired", "kept"), Fitness::NotFit);
    assert_eq!(of("exchanged", "kept"), Fitness::Fit);
}

#[test]
fn a_cracked_axle_forbids_to_ride_and_a_battery_out_of_range_to_charge() {
    let axle = "{part: crank-axle, condition: failed, signs: [axle-cracked-or-bent]}";
    let cell = "{part: battery-pack, condition: failed, signs: [cell-voltage-out-of-range]}";
    assert_eq!(hazards("repaired", axle), [Hazard::Ride]);
    assert_eq!(hazards("repaired", cell), [Hazard::Battery]);
    assert!(state("repaired", axle, "").forbids_riding());
    assert!(!state("repaired", cell, "").forbids_riding());
    assert_eq!(hazards("repaired", &format!("{axle}, {cell}")).len(), 2);
}

#[test]
fn a_danger_is_closed_by_a_new_part_or_by_a_unit_in_exchange_and_by_nothing_less() {
    let axle = |action: &str| {
        format!(
            "{{part: crank-axle, condition: failed, signs: [axle-cracked-or-bent], action: {action}}}"
        )
    };
    for action in ["kept", "cleaned", "repaired"] {
        assert_eq!(hazards("repaired", &axle(action)), [Hazard::Ride], "{action}");
    }
    assert_eq!(hazards("repaired", &axle("replaced")), []);
    assert_eq!(hazards("exchanged", &axle("kept")), []);
    // The battery is the owner's own, whichever unit goes back.
    let cell = "{part: battery-pack, condition: failed, signs: [cell-voltage-out-of-range]}";
    assert_eq!(hazards("exchanged", cell), [Hazard::Battery]);
}

#[test]
fn water_and_rust_are_known_by_signs_and_by_what_poured_out() {
    let of = |findings: &str, arrival: &str| {
        let state = state("returned-unrepaired", findings, arrival);
        (state.water, state.rust)
    };
    assert_eq!(of("", ""), (false, false));
    assert_eq!(of("", ", water: 40 ml"), (true, false));
    assert_eq!(of("", ", water: 0 ml"), (false, false));
    assert_eq!(of("", ", signs: [brown-water]"), (true, false));
    let rust = "{part: main-bearing-drive-side, condition: failed, signs: [moisture-corrosion]}";
    assert_eq!(of(rust, ""), (false, true));
}

#[test]
fn a_battery_is_wet_only_where_the_sheet_says_so() {
    let wet = |arrival: &str| state("repaired", "", arrival).battery_is_wet;
    assert!(wet(", bike-check: {battery: wet}"));
    assert!(!wet(", bike-check: {battery: on}, water: 40 ml, signs: [brown-water]"));
}

/// What the bench read of the cells is on no part; the battery is the owner's own, whichever unit goes back.
#[test]
fn cells_out_of_range_that_the_bench_read_forbid_to_charge_whatever_goes_back() {
    let read = |outcome: &str, more: &str| {
        let fields = sheet(&format!(
            "job: QB-1\ncustomer: {{name: Elin Varga}}\nunit: {{kind: mid-drive}}\n\
             arrival: {{date: 2026-03-02}}\nstrip-down: {{date: 2026-03-03, findings: [{more}]}}\n\
             outcome: {outcome}\n"
        ));
        let safety = [sign("cell-voltage-out-of-range"), sign("axle-cracked-or-bent")];
        let state = State::of(&fields, &safety);
        state.dangers.iter().map(|danger| danger.hazard).collect::<Vec<_>>()
    };
    assert_eq!(read("repaired", ""), [Hazard::Battery, Hazard::Ride]);
    // The axle stays here with the unit that is exchanged.
    assert_eq!(read("exchanged", ""), [Hazard::Battery]);
    let axle =
        "{part: crank-axle, condition: failed, signs: [axle-cracked-or-bent], action: replaced}";
    assert_eq!(read("repaired", axle), [Hazard::Battery]);
    // Of two parts that show it the open one counts.
    let both =
        format!("{axle}, {{part: wheel-axle, condition: failed, signs: [axle-cracked-or-bent]}}");
    assert_eq!(read("repaired", &both), [Hazard::Battery, Hazard::Ride]);
}
