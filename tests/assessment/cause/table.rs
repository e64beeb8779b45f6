//! The cases that stand beside the table of signs, with their points.

use splitcase::assessment::cause::continued_use::ContinuedUse;
use splitcase::assessment::cause::judge;
use splitcase::assessment::cause::scores::RootCause;
use splitcase::assessment::cause::verdict::{Limit, Support};
use splitcase::sheet::vocabulary::CauseKind;

use super::{dated, day, evidence, of, points, says};

#[test]
fn brown_water_trail_rust_and_recovery_are_ingress() {
    let weighing = of(&["SA03", "SB10", "SC20", "SE04"]);
    assert_eq!(says(&weighing), (Support::WellSupported, CauseKind::Ingress, vec![]));
    // Four links, 6 each; rust trail and rusty bearings are each 3 against mechanics.
    // What brown water says of riding on counts only with a date.
    assert_eq!(points(&weighing), [24, 0, -6, -3]);
}

#[test]
fn long_noise_and_running_damage_are_continued_use() {
    let weighing = dated(&["SA15", "SA11", "SB05", "SC13", "SD08"], &["SB07"]);
    assert_eq!(
        says(&weighing),
        (Support::PointsTo, CauseKind::Neglect, vec![RootCause::Mechanical])
    );
    // The first fault that it followed is not to be seen any more.
    assert_eq!(weighing.verdict.limits, [Limit::NoFirstFault]);
    assert_eq!(weighing.continued_use, ContinuedUse::Dated(day()));
    // History 6, worn teeth edge 6, play, glitter and worn races 3 each.
    assert_eq!(weighing.totals.of(RootCause::Neglect), 21);
}

#[test]
fn clean_grease_and_a_local_spall_are_mechanical() {
    let weighing = of(&["SB07", "SC05", "SC19"]);
    assert_eq!(says(&weighing), (Support::PointsTo, CauseKind::Mechanical, vec![]));
    // Clean grease clears nothing where nothing speaks for water, and is no second proof.
    assert_eq!(points(&weighing), [-5, 0, 11, 3]);
}

#[test]
fn a_switch_burnt_on_a_dry_board_is_electrical() {
    let weighing = judge(&evidence(&["SE15", "SB07"], &["SE08"]), None, &[]);
    assert_eq!(says(&weighing), (Support::PointsTo, CauseKind::Electrical, vec![]));
    assert_eq!(points(&weighing), [-6, 0, 3, 9]);
}

#[test]
fn rust_rolled_flat_with_a_history_is_ingress_and_then_continued_use() {
    let weighing = dated(&["SC04", "SA15", "SB10"], &[]);
    assert_eq!(says(&weighing), (Support::Mixed, CauseKind::Ingress, vec![RootCause::Neglect]));
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
    assert_eq!(points(&of(&["SE16"])), [0, 0, 4, 0]);
}
