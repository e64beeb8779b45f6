//! The cases that stand beside the table of signs, with their points.

use splitcase::assessment::cause::judge;
use splitcase::assessment::cause::ran_on::RanOn;
use splitcase::assessment::cause::scores::Fault;
use splitcase::assessment::cause::verdict::{Limit, Support};
use splitcase::sheet::catalogue::SIGNS;
use splitcase::sheet::vocabulary::CauseKind;

use super::{dated, day, evidence, of, points, says, sign};

#[test]
fn brown_water_trail_rust_and_recovery_are_ingress() {
    let weighing = of(&["SA03", "SB10", "SC20", "SE04"]);
    assert_eq!(says(&weighing), (Support::WellSupported, CauseKind::Ingress, vec![]));
    // Four links, 6 each; rust trail and rusty bearings are each 3 against mechanics.
    assert_eq!(points(&weighing), [24, 3, -6, -3]);
}

#[test]
fn long_noise_and_running_damage_are_continued_use() {
    let weighing = dated(&["SA15", "SA11", "SB05", "SC13", "SD08"], &["SB07"]);
    assert_eq!(says(&weighing), (Support::WellSupported, CauseKind::Neglect, vec![]));
    assert_eq!(weighing.ran_on, RanOn::Dated(day()));
    assert_eq!(weighing.totals.of(Fault::Neglect), 30);
}

#[test]
fn clean_grease_and_a_local_spall_are_mechanical() {
    let weighing = of(&["SB07", "SC05", "SC19"]);
    assert_eq!(says(&weighing), (Support::WellSupported, CauseKind::Mechanical, vec![]));
    assert_eq!(points(&weighing), [-11, -3, 11, 3]);
}

#[test]
fn a_switch_burnt_on_a_dry_board_is_electrical() {
    let weighing = judge(&evidence(&["SE15", "SB07"], &["SE08"]), None, &[]);
    assert_eq!(says(&weighing), (Support::WellSupported, CauseKind::Electrical, vec![]));
    assert_eq!(points(&weighing), [-12, -3, 3, 9]);
}

#[test]
fn rust_rolled_flat_with_a_history_is_ingress_and_then_continued_use() {
    let weighing = dated(&["SC04", "SA15", "SB10"], &[]);
    assert_eq!(says(&weighing), (Support::Mixed, CauseKind::Ingress, vec![Fault::Neglect]));
    assert_eq!(points(&weighing), [12, 12, -3, -3]);
}

#[test]
fn a_faultless_swap_is_no_fault_found() {
    assert_eq!(of(&["SA02", "SE28"]).verdict.support, Support::NoFaultFound);
}

#[test]
fn a_seized_bearing_in_wet_paper_settles_nothing() {
    let weighing = of(&["SC23", "SA05"]);
    assert_eq!(says(&weighing), (Support::NotDeterminable, CauseKind::Undetermined, vec![]));
}

#[test]
fn a_switch_burnt_by_blocked_gears_points_to_mechanics() {
    let weighing = of(&["SE16", "SD02"]);
    assert_eq!(says(&weighing), (Support::PointsTo, CauseKind::Mechanical, vec![]));
    assert_eq!(weighing.verdict.limits, [Limit::OneGroup]);
    assert_eq!(of(&["SE16"]).verdict.support, Support::NotDeterminable);
    assert_eq!(points(&of(&["SE16"])), [0, 2, 4, 0]);
}

#[test]
fn every_sign_of_the_rules_stands_in_the_table() {
    let strengths: Vec<&str> = SIGNS.iter().map(|row| row.strength.as_str()).collect();
    assert!(strengths.iter().all(|word| ["strong", "medium", "weak"].contains(word)));
    let code = [
        include_str!("../../../src/assessment/cause/order.rs"),
        include_str!("../../../src/assessment/cause/weighing.rs"),
        include_str!("../../../src/assessment/cause/verdict.rs"),
        include_str!("../../../src/assessment/cause/ran_on.rs"),
        include_str!("../../../src/assessment/cause/evidence.rs"),
    ]
    .concat();
    let quoted: Vec<&str> = code.split('"').skip(1).step_by(2).collect();
    let shorts = quoted.iter().filter(|text| {
        text.len() == 4 && text.starts_with('S') && text.ends_with(|c: char| c.is_ascii_digit())
    });
    let shorts: Vec<&&str> = shorts.collect();
    assert!(shorts.len() > 30, "found {}", shorts.len());
    for short in shorts {
        sign(short);
    }
    let words = [
        "water",
        "steel-rust",
        "board-corrosion",
        "grease",
        "hall",
        "sensor",
        "connection",
        "electrical-burn",
        "battery",
        "path",
        "grease-sound",
        "bearing-sound",
        "winding-sound",
        "board-sound",
        "none-found",
    ];
    for link in words {
        assert!(SIGNS.iter().any(|row| row.link == link), "no link {link}");
        assert!(quoted.contains(&link), "{link} is not used");
    }
}
