//! The roles of signs: each is used, each does what it says, none is lost from the table unseen.

use splitcase::assessment::cause::order;
use splitcase::assessment::cause::scored_sign::SetAside;
use splitcase::assessment::cause::scores::RootCause;
use splitcase::assessment::cause::verdict::{Limit, Support};
use splitcase::assessment::cause::{Weighing, weigh};
use splitcase::sheet::catalogue::SIGNS;
use splitcase::sheet::catalogue::sign::{Damage, Role};
use splitcase::sheet::vocabulary::{CauseKind, OriginKind};

use super::sheet::sheet;
use super::{dated, of, sign};

fn set_aside(weighing: &Weighing, name: &str) -> Option<SetAside> {
    weighing.signs.iter().find(|one| one.sign == sign(name)).unwrap().set_aside
}

fn with_role(role: Role) -> Vec<&'static str> {
    SIGNS.iter().filter(|row| row.has(role)).map(|row| row.sign.as_str()).collect()
}

/// A mid-drive with these findings, each `part: signs`.
fn findings(findings: &[&str]) -> Weighing {
    let lines = findings.iter().map(|finding| {
        let (part, signs) = finding.split_once(": ").unwrap();
        format!("    - {{part: {part}, condition: damaged, signs: [{signs}], photos: [a.jpg]}}\n")
    });
    let text = format!(
        "job: QB-1\ncustomer: {{name: Elin Varga}}\nunit: {{kind: mid-drive}}\n\
         arrival: {{date: 2026-03-02}}\nstrip-down:\n  date: 2026-03-04\n  findings:\n{}",
        lines.collect::<String>()
    );
    weigh(&sheet(&text), Vec::new(), &[])
}

#[test]
fn every_role_and_origin_is_used_and_every_named_sign_is_in_the_table() {
    for role in Role::ALL {
        assert!(!with_role(role).is_empty(), "{role:?}");
    }
    for kind in OriginKind::ALL {
        assert!(SIGNS.iter().any(|row| row.origin.contains(kind)), "{}", kind.word());
    }
    // A sign that the catalogue lacks cannot load: this reads the table of orders.
    assert!(order::ROWS.iter().all(|row| !row.by.is_empty() && row.first != row.then));
}

#[test]
fn no_row_code_is_left_in_the_rules() {
    for entry in std::fs::read_dir("src/assessment/cause").unwrap() {
        let path = entry.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        let mut words = text.split(|c: char| !c.is_ascii_alphanumeric());
        let is_code = |word: &str| SIGNS.iter().any(|row| row.r#ref == word);
        assert_eq!(words.find(|word| is_code(word)), None, "{}", path.display());
    }
}

#[test]
fn fresh_water_beside_a_wet_parcel_gives_nothing() {
    let fresh = [
        "water-poured-out",
        "clear-water-no-rust",
        "pins-wet-clean",
        "free-water-inside",
        "dew-without-rust",
    ];
    assert_eq!(with_role(Role::FreshWater), fresh);
    for name in fresh {
        let weighing = of(&["wet-packaging", name]);
        assert_eq!(set_aside(&weighing, name), Some(SetAside::TransportWater), "{name}");
        assert!(weighing.totals.of(RootCause::Ingress) <= 0, "{name}");
        assert!(of(&[name]).totals.of(RootCause::Ingress) > 0, "{name}");
    }
}

#[test]
fn a_first_mechanical_fault_stays_first_when_it_was_ridden_on() {
    let first = [
        "casing-crack-or-dent",
        "loose-screws-inside",
        "thread-stripped",
        "insert-loose",
        "wrong-bearing",
        "bearing-badly-fitted",
        "circlip-missing",
        "spall-in-load-zone",
        "true-brinelling",
        "false-brinelling",
        "ring-cracked",
        "plastic-teeth-sheared",
        "tooth-pitting",
        "tooth-fatigue-break",
        "tooth-overload-break",
        "clutch-track-dented",
        "axle-cracked-or-bent",
        "gear-spun-on-insert",
        "key-sheared",
        "magnets-loose",
        "magnet-sleeve-burst",
    ];
    let in_table = |name: &&str| {
        let row = sign(name).0;
        row.damage == Some(Damage::Primary) && row.scores.mechanical == 2
    };
    assert!(first.iter().all(in_table));
    let known = SIGNS
        .iter()
        .filter(|row| row.damage == Some(Damage::Primary) && row.scores.mechanical == 2);
    assert_eq!(known.count(), first.len());
    let worn = ["long-noise-history", "cage-broken", "debris-in-mesh", "rotor-rubbed"];
    assert_eq!(dated(&worn, &[]).verdict.main, CauseKind::Neglect);
    for name in first {
        let weighing = dated(&[&worn[..], &[name]].concat(), &[]);
        assert_eq!(weighing.verdict.main, CauseKind::Mechanical, "{name}");
        assert!(weighing.verdict.contributing.contains(&RootCause::Neglect), "{name}");
    }
}

#[test]
fn damage_that_follows_needs_time() {
    let needs_time = [
        "play-with-worn-seat",
        "ring-turned-in-seat",
        "casing-rubbed",
        "rust-pits-rolled-flat",
        "races-worn-deep",
        "cage-broken",
        "one-edge-tooth-wear",
        "debris-in-mesh",
        "rotor-rubbed",
    ];
    assert_eq!(with_role(Role::NeedsTime), needs_time);
    for row in SIGNS.iter().filter(|row| row.damage == Some(Damage::Secondary)) {
        assert!(row.has(Role::NeedsTime), "{}", row.sign);
    }
}

#[test]
fn riding_on_without_a_date_gives_nothing_whatever_is_worn() {
    for name in with_role(Role::NeedsTime) {
        let weighing = of(&[name, "cage-broken", "rotor-rubbed", "debris-in-mesh"]);
        assert!(weighing.totals.of(RootCause::Neglect) <= 0, "{name}");
        assert_ne!(weighing.verdict.main, CauseKind::Neglect);
        assert!(!weighing.verdict.contributing.contains(&RootCause::Neglect));
        assert!(weighing.signs.iter().any(|one| one.set_aside == Some(SetAside::Undated)));
    }
}

#[test]
fn good_order_clears_its_own_place_only() {
    let drowned = "main-bearing-drive-side: moisture-corrosion";
    let far = findings(&[drowned, "main-bearing-non-drive-side: grease-clean-and-full"]);
    assert_eq!(far.totals.of(RootCause::Ingress), 6);
    assert_eq!(
        set_aside(&far, "grease-clean-and-full"),
        None,
        "it still speaks for mechanics a little"
    );
    let same = findings(&["main-bearing-drive-side: moisture-corrosion, grease-clean-and-full"]);
    assert_eq!(same.totals.of(RootCause::Ingress), 0);
    let board =
        findings(&["controller-board: board-corrosion", "gear-grease: grease-clean-and-full"]);
    assert_eq!(board.totals.of(RootCause::Ingress), 6);
    let gears = findings(&["planet-gear: gear-rust", "gear-grease: grease-clean-and-full"]);
    assert_eq!(gears.totals.of(RootCause::Ingress), 0, "one grease for all gears");
    // A winding in good order says nothing of a sensor or a plug, and something of the motor.
    let sensor =
        findings(&["torque-sensor: torque-sensor-offset", "stator-winding: winding-balanced"]);
    assert_eq!(sensor.totals.of(RootCause::Electrical), 4);
    let winding = findings(&["stator-winding: winding-pair-low, winding-bright"]);
    assert_eq!(winding.totals.of(RootCause::Electrical), 6 - 4);
}

#[test]
fn a_crack_lets_in_the_water_of_its_own_half() {
    let trail = "case-half-drive-side: casing-crack-or-dent, rust-trail-inward";
    let rust = "main-bearing-drive-side: moisture-corrosion";
    let own = findings(&[trail, rust]);
    assert_eq!(own.verdict.main, CauseKind::Mechanical);
    assert_eq!(own.verdict.contributing, [RootCause::Ingress]);
    let other = findings(&[
        "case-half-drive-side: casing-crack-or-dent",
        "main-bearing-non-drive-side: moisture-corrosion, standstill-etching",
        "controller-board: board-corrosion",
    ]);
    assert_eq!(other.verdict.order, []);
}

#[test]
fn mud_is_a_trace_or_a_way_in_and_not_both_by_itself() {
    let alone = of(&["mud-inside"]);
    assert_eq!(alone.verdict.support, Support::PointsTo);
    assert!(alone.verdict.limits.contains(&Limit::WaterHalfShown));
    let with_seal = of(&["mud-inside", "seal-lip-damaged"]);
    assert_eq!(with_seal.totals.of(RootCause::Ingress), 12, "beside a way in it counts too");
    assert_eq!(with_seal.verdict.support, Support::WellSupported);
}

#[test]
fn low_insulation_beside_water_speaks_for_water() {
    let dry = findings(&["stator-winding: insulation-stays-low"]);
    assert_eq!(dry.verdict.main, CauseKind::Electrical);
    let wet = findings(&[
        "stator-winding: insulation-stays-low",
        "case-half-drive-side: free-water-inside",
    ]);
    assert_eq!(wet.verdict.main, CauseKind::Ingress);
    assert_eq!(wet.totals.of(RootCause::Electrical), 0);
    for name in ["pins-corroded", "board-corrosion", "hall-line-stuck-corroded"] {
        assert_eq!(of(&[name]).totals.of(RootCause::Electrical), 0, "{name}");
    }
}

#[test]
fn a_swap_ends_the_matter_only_if_no_strong_damage_was_seen() {
    let clean = findings(&["main-bearing-drive-side: fretting-corrosion"]);
    assert_eq!(clean.verdict.main, CauseKind::Mechanical);
    assert_eq!(
        of(&["faultless-on-swap", "fretting-corrosion"]).verdict.main,
        CauseKind::NoFaultFound
    );
    let rusty = of(&["faultless-on-swap", "moisture-corrosion", "seal-lip-damaged"]);
    assert_eq!(rusty.verdict.main, CauseKind::Ingress);
    assert_eq!(set_aside(&rusty, "faultless-on-swap"), Some(SetAside::BesideDamage));
    // A battery out of range is no damage to the unit.
    let battery = of(&["faultless-on-swap", "cell-voltage-out-of-range"]);
    assert_eq!(battery.verdict.main, CauseKind::NoFaultFound);
    assert_eq!(set_aside(&battery, "cell-voltage-out-of-range"), Some(SetAside::NotTheUnit));
}

#[test]
fn three_electrical_proofs_suffice_though_they_stand_in_one_group() {
    let three = of(&["winding-pair-low", "hall-state-invalid", "no-load-current-high"]);
    assert_eq!(three.verdict.support, Support::WellSupported);
    let two = of(&["winding-pair-low", "hall-state-invalid"]);
    assert_eq!(two.verdict.limits, [Limit::OneGroup]);
    // Clean grease speaks for an electrical fault a little, and is no second proof.
    let grease = of(&["transistor-burnt-dry", "grease-clean-and-full"]);
    assert_eq!(grease.verdict.limits, [Limit::OneGroup]);
}

#[test]
fn something_burnt_beside_blocked_mechanics_is_not_well_supported() {
    let burnt = ["transistor-burnt-dry", "winding-phase-burnt"];
    assert_eq!(of(&burnt).verdict.limits, [Limit::OneGroup]);
    let blocked = of(&[&burnt[..], &["sudden-seizure"]].concat());
    assert!(blocked.verdict.limits.contains(&Limit::MechanicsBlocked));
    // What did not burn is no consequence.
    let sensor = of(&[&burnt[..], &["sudden-seizure", "hall-state-invalid"]].concat());
    assert_eq!(sensor.verdict.support, Support::WellSupported);
}

#[test]
fn origins_are_named_with_their_signs() {
    let kinds = |seen: &[&str]| -> Vec<OriginKind> {
        of(seen).origins.iter().map(|(kind, _)| *kind).collect()
    };
    assert_eq!(kinds(&["casing-crack-or-dent"]), [OriginKind::Impact]);
    assert_eq!(kinds(&["loose-screws-inside", "wrong-bearing"]), [OriginKind::Assembly]);
    assert_eq!(kinds(&["heat-colours", "plastic-teeth-melted"]), [OriginKind::Overload]);
    assert_eq!(kinds(&["magnets-loose"]), [OriginKind::Material]);
    assert_eq!(kinds(&["capacitor-leaking", "grease-dried-out"]), [OriginKind::Age]);
    assert_eq!(kinds(&["moisture-corrosion"]), []);
    let (kind, signs) = of(&["glazed-race", "races-worn-deep"]).origins[0].clone();
    assert_eq!((kind, signs.len()), (OriginKind::Wear, 2));
}

#[test]
fn what_may_have_come_first_keeps_a_cause_from_being_well_supported() {
    let wet = ["brown-water", "seal-lip-damaged", "moisture-corrosion"];
    assert_eq!(of(&wet).verdict.support, Support::WellSupported);
    for name in ["tamper-marks", "sealant-smeared", "foreign-part-fitted"] {
        let repaired = of(&[&wet[..], &[name]].concat());
        assert_eq!(repaired.verdict.main, CauseKind::Ingress, "{name}");
        assert_eq!(repaired.verdict.support, Support::PointsTo, "{name}");
        assert!(repaired.verdict.limits.contains(&Limit::AnotherFirst), "{name}");
    }
    let burnt = ["winding-pair-low", "hall-state-invalid", "no-load-current-high", "pins-melted"];
    assert_eq!(of(&burnt).verdict.support, Support::WellSupported);
    let beside_rust = of(&[&burnt[..], &["moisture-corrosion"]].concat());
    assert_eq!(beside_rust.verdict.main, CauseKind::Electrical);
    assert!(beside_rust.verdict.limits.contains(&Limit::WaterInside));
    assert_eq!(beside_rust.verdict.support, Support::PointsTo);
}

#[test]
fn a_hint_needs_a_second_voice() {
    assert_eq!(of(&["cage-broken"]).verdict.main, CauseKind::Undetermined);
    assert_eq!(of(&["even-rust-no-path"]).verdict.main, CauseKind::Undetermined);
    let dew = of(&["even-rust-no-path", "dew-without-rust"]);
    assert_eq!((dew.verdict.main, dew.verdict.support), (CauseKind::Ingress, Support::PointsTo));
    let stored = of(&["even-rust-no-path", "seized-after-storage"]);
    assert_eq!(stored.verdict.main, CauseKind::Ingress);
    // Hints do not add up where what could have been read was cleaned away.
    let cleaned = of(&["even-rust-no-path", "dew-without-rust", "evidence-cleaned-away"]);
    assert_eq!(cleaned.verdict.main, CauseKind::Undetermined);
}
