//! Cases made to break the weighing: doubles, look-alikes, contradictions, tales, house values.

use chrono::NaiveDate;
use splitcase::assessment::cause::Weighing;
use splitcase::assessment::cause::continued_use::ContinuedUse;
use splitcase::assessment::cause::evidence::Evidence;
use splitcase::assessment::cause::judge;
use splitcase::assessment::cause::scored_sign::SetAside;
use splitcase::assessment::cause::scores::{HouseScore, RootCause};
use splitcase::assessment::cause::stated::{Agreement, Reason};
use splitcase::assessment::cause::verdict::{Limit, Support};
use splitcase::sheet::findings::Cause;
use splitcase::sheet::reader::Marked;
use splitcase::sheet::vocabulary::{CauseKind, OriginKind};

use super::{dated, day, evidence, of, points, says, sign};

fn set_aside(weighing: &Weighing, short: &str) -> Option<SetAside> {
    weighing.signs.iter().find(|one| one.sign == sign(short)).unwrap().set_aside
}

fn stating(main: CauseKind, contributing: &[CauseKind]) -> Cause {
    let marked = |value| Marked { value, span: 0..0 };
    Cause {
        main: marked(main),
        contributing: contributing.iter().map(|one| marked(*one)).collect(),
        origin: None,
        note: None,
    }
}

fn agreement(seen: &[&str], main: CauseKind) -> Agreement {
    judge(&evidence(seen, &[]), Some(&stating(main, &[])), &[]).stated.unwrap().agreement
}

#[test]
fn one_observation_under_three_names_counts_once() {
    let one = of(&["SC01"]);
    let three = of(&["SC01", "SC20", "SD05", "SB11", "SE22", "SC01"]);
    assert_eq!(one.totals, three.totals);
    assert_eq!(three.verdict.support, Support::PointsTo);
    let (speak, _) = three.for_and_against(RootCause::Ingress);
    assert_eq!(speak.len(), 5, "the others are shown");
    assert_eq!(speak.iter().filter(|one| one.counted).count(), 1, "but one counts");
}

#[test]
fn one_observation_in_two_groups_is_not_two_proofs() {
    // Rust on a bearing (group C) and on a gear (group D) is one link; the trail is a second one.
    assert_eq!(of(&["SC01", "SD05"]).verdict.limits, [Limit::OneGroup, Limit::WaterHalfShown]);
    assert_eq!(of(&["SC01", "SD05", "SB10"]).verdict.support, Support::WellSupported);
}

#[test]
fn the_bounds_are_six_points_and_two_groups() {
    // Fatigue and an overload mark, 12 points, but both on bearings.
    assert_eq!(of(&["SC05", "SC07"]).verdict.limits, [Limit::OneGroup]);
    // A burnt switch and fluting, of two groups, and mechanics at 6 and then at 7 of 12 points.
    assert_eq!(of(&["SE15", "SC16", "SC05", "SC14"]).verdict.limits, []);
    assert_eq!(of(&["SE15", "SC16", "SC05", "SD12"]).verdict.limits, [Limit::SmallLead]);
}

#[test]
fn contradictory_signs_of_one_link_both_count() {
    // Recovers on drying, and stays low: ingress 6, electrical 6 - 3, mechanics 3.
    let weighing = of(&["SE04", "SE05"]);
    assert_eq!(points(&weighing), [6, 0, 3, 3]);
    let (_, against) = weighing.for_and_against(RootCause::Electrical);
    assert_eq!(against[0].sign, sign("SE04"));
}

#[test]
fn rust_and_an_overload_mark_speak_against_each_other() {
    // 6 - 3 each: neither stands by itself any more.
    let weighing = of(&["SC01", "SC07"]);
    assert_eq!(points(&weighing), [3, 0, 3, 0]);
    assert_eq!(says(&weighing), (Support::NotDeterminable, CauseKind::Undetermined, vec![]));
    assert!(stands_beside(&["SA20", "SE30", "SC07", "SA08"]), "7 to 8, both strong");
    assert!(stands_beside(&["SA20", "SE30", "SC07", "SA08", "SB10"]), "and 7 to 5 is no less");
    // A third voice leads them by three, and no more is said than that.
    let third = of(&["SC01", "SC07", "SE10"]);
    assert_eq!(third.verdict.support, Support::PointsTo);
    let limits = [Limit::SmallLead, Limit::OneGroup, Limit::WaterInside];
    assert_eq!(third.verdict.limits, limits);
}

fn stands_beside(seen: &[&str]) -> bool {
    says(&of(seen)) == (Support::Mixed, CauseKind::Ingress, vec![RootCause::Mechanical])
}

#[test]
fn transport_water_is_no_ingress() {
    let weighing = of(&["SA05", "SA01", "SB01"]);
    assert_eq!(weighing.verdict.support, Support::NotDeterminable);
    assert_eq!(set_aside(&weighing, "SA01"), Some(SetAside::TransportWater));
    assert_eq!(points(&weighing), [-1, 0, 0, 0]);
    // Old rust speaks for itself, wet paper or not.
    assert_eq!(of(&["SA05", "SA01", "SC01", "SB10"]).verdict.main, CauseKind::Ingress);
}

#[test]
fn water_without_a_way_in_is_only_pointed_to() {
    // Brown water (A) and rust (C): two strong groups, 12 points, and no path (rule 1).
    let weighing = of(&["SA03", "SC01"]);
    assert_eq!(weighing.verdict.limits, [Limit::WaterHalfShown]);
    assert_eq!(weighing.verdict.support, Support::PointsTo);
    // A way in without water is less: an open gland points there, and a cut seal may be wear as well
    // until somebody speaks of water.
    assert_eq!(of(&["SA20"]).verdict.support, Support::PointsTo);
    assert!(of(&["SA20"]).verdict.limits.contains(&Limit::WaterHalfShown));
    assert_eq!(points(&of(&["SA19", "SA20"])), [3, 0, 3, 0]);
    assert_eq!(of(&["SA19"]).verdict.support, Support::NotDeterminable);
    assert_eq!(of(&["SA19", "SA14"]).verdict.main, CauseKind::Ingress);
}

#[test]
fn fretting_powder_is_no_rust() {
    let weighing = of(&["SC09"]);
    assert_eq!(points(&weighing), [0, 0, 4, 0]);
    assert_eq!(
        judge(&evidence(&["SC09"], &[]), Some(&stating(CauseKind::Ingress, &[])), &[])
            .stated
            .unwrap()
            .agreement,
        Agreement::Unsupported(Reason::NoSign)
    );
}

#[test]
fn weak_signs_and_tales_alone_settle_nothing() {
    for seen in [&["SA06", "SB02", "SA07", "SC12"][..], &["SA17"], &["SA13", "SA14"], &["SA15"]] {
        assert_eq!(of(seen).verdict.support, Support::NotDeterminable, "{seen:?}");
    }
}

#[test]
fn being_spoken_against_least_is_no_support() {
    let weighing = of(&["SC24", "SA09", "SE20"]);
    assert_eq!(weighing.verdict.main, CauseKind::Undetermined);
    // Two points for a weak field of the magnets lead over minus three by two, not by five.
    assert_eq!(of(&["SE24", "SC24"]).verdict.main, CauseKind::Undetermined);
    // Only good order was found: clean grease leads for mechanics and electrics, and shows no fault.
    let clean = judge(&evidence(&["SB07", "SE08"], &["SC01"]), None, &[]);
    assert_eq!(clean.ranking[0], (RootCause::Mechanical, 3));
    assert_eq!(clean.verdict.main, CauseKind::Undetermined);
}

#[test]
fn a_seized_bearing_caps_what_was_well_supported() {
    let seen = ["SA03", "SB10", "SC20", "SE04"];
    let capped = of(&[&seen[..], &["SC23"]].concat());
    assert_eq!(says(&capped), (Support::PointsTo, CauseKind::Ingress, vec![]));
    assert_eq!(capped.verdict.limits, [Limit::Unreadable]);
}

#[test]
fn a_faultless_swap_beside_rust_still_tells_of_the_rust() {
    let weighing = of(&["SE28", "SC01", "SB10", "SA15"]);
    assert_eq!(says(&weighing), (Support::WellSupported, CauseKind::Ingress, vec![]));
    let slight = of(&["SE28", "SC09", "SA15"]);
    assert_eq!(says(&slight), (Support::NoFaultFound, CauseKind::NoFaultFound, vec![]));
    assert_eq!(slight.beside_no_fault, [sign("SC09")]);
    assert_eq!(of(&["SC01"]).beside_no_fault, []);
}

#[test]
fn running_damage_without_a_date_is_time_run() {
    let seen = ["SA11", "SB05", "SC13", "SD08"];
    let undated = of(&seen);
    assert_eq!(undated.continued_use, ContinuedUse::Undated);
    assert_eq!(says(&undated), (Support::PointsTo, CauseKind::Mechanical, vec![]));
    assert_eq!(undated.verdict.limits, [Limit::NoDate]);
    assert_eq!(undated.totals.of(RootCause::Neglect), 0);
    let cause = stating(CauseKind::Neglect, &[]);
    let stated = judge(&evidence(&seen, &[]), Some(&cause), &[]).stated.unwrap();
    assert!(stated.neglect_undated);
    let other = Agreement::Unsupported(Reason::OtherCause(CauseKind::Mechanical));
    assert_eq!(stated.agreement, other);
    // A history that is claimed without a day is not a date; a day without a long history neither.
    assert_eq!(of(&["SA15", "SC13"]).continued_use, ContinuedUse::Undated);
    assert_eq!(dated(&["SC13"], &[]).continued_use, ContinuedUse::Undated);
    assert_eq!(dated(&["SA15", "SC13"], &[]).continued_use, ContinuedUse::Dated(day()));
}

#[test]
fn a_long_history_without_running_damage_is_no_neglect() {
    let weighing = dated(&["SC01", "SA15"], &[]);
    assert_eq!(weighing.continued_use, ContinuedUse::No);
    assert_eq!(set_aside(&weighing, "SA15"), Some(SetAside::HistoryAlone));
    assert_eq!(says(&weighing), (Support::PointsTo, CauseKind::Ingress, vec![]));
}

#[test]
fn running_on_never_goes_before_the_fault_it_followed() {
    // Running damage on five links outweighs the water, yet the water came first (rule 5).
    let seen = ["SA03", "SB10", "SA15", "SC13", "SB15", "SD11", "SD08", "SE23"];
    let weighing = dated(&seen, &[]);
    assert_eq!(weighing.ranking[0].0, RootCause::Neglect);
    assert!(weighing.totals.of(RootCause::Neglect) > weighing.totals.of(RootCause::Ingress) + 6);
    assert_eq!(weighing.verdict.main, CauseKind::Ingress);
    assert_eq!(weighing.verdict.contributing[0], RootCause::Neglect);
    assert_eq!(weighing.verdict.support, Support::Mixed);
}

#[test]
fn a_cracked_casing_comes_before_its_water_unless_another_way_in_is_found() {
    let seen = ["SA22", "SA01", "SE22", "SC01", "SB14"];
    let weighing = of(&seen);
    assert_eq!(weighing.ranking[0].0, RootCause::Ingress);
    assert_eq!(says(&weighing), (Support::Mixed, CauseKind::Mechanical, vec![RootCause::Ingress]));
    assert_eq!(weighing.verdict.order[0].by, Some(sign("SA22")));
    let other_way = of(&[&seen[..], &["SB10"]].concat());
    assert_eq!(other_way.verdict.main, CauseKind::Ingress);
}

#[test]
fn orders_that_contradict_each_other_are_both_left_out() {
    // A crack that let water in, and fatigue that water started.
    let weighing = of(&["SA22", "SC06", "SA03", "SE04"]);
    assert_eq!(weighing.verdict.order, []);
    assert_eq!(weighing.verdict.main, CauseKind::Ingress);
}

#[test]
fn a_crack_that_other_signs_speak_against_is_not_put_first() {
    let seen = ["SA22", "SA03", "SE04"];
    assert_eq!(of(&seen).verdict.main, CauseKind::Mechanical);
    // A bearing within its clearance says nothing of the casing; recovery on drying is not put after
    // the crack where a trail shows another way in.
    assert_eq!(of(&[&seen[..], &["SC24"]].concat()).verdict.main, CauseKind::Mechanical);
    assert_eq!(of(&[&seen[..], &["SB10"]].concat()).verdict.main, CauseKind::Ingress);
}

#[test]
fn one_medium_sign_of_order_does_not_overturn_what_is_clear() {
    // A spall said to start at a rust pit, in clean grease and beside a sound twin.
    let weighing = of(&["SB07", "SC05", "SC19", "SC06"]);
    assert_eq!(says(&weighing), (Support::PointsTo, CauseKind::Mechanical, vec![]));
    // With water about it does.
    let wet = of(&["SC05", "SC18", "SD17", "SC06", "SA03"]);
    assert_eq!(wet.ranking[0].0, RootCause::Mechanical);
    assert_eq!(says(&wet), (Support::Mixed, CauseKind::Ingress, vec![RootCause::Mechanical]));
}

#[test]
fn a_burnt_switch_is_a_consequence_of_what_blocked_it() {
    let weighing = of(&["SE16", "SE06", "SE10"]);
    assert_eq!(weighing.ranking[0].0, RootCause::Electrical);
    assert_eq!(
        says(&weighing),
        (Support::Mixed, CauseKind::Mechanical, vec![RootCause::Electrical])
    );
}

#[test]
fn a_sound_winding_clears_the_winding_only() {
    // Against a burnt winding it counts; against a burnt switch on a dry board it does not.
    assert_eq!(of(&["SE15", "SE08", "SB07"]).verdict.main, CauseKind::Electrical);
    let beside = of(&["SE15", "SE08"]);
    assert_eq!(set_aside(&beside, "SE08"), Some(SetAside::ClearsAnotherPlace));
    assert_eq!(of(&["SE02", "SE08"]).totals.of(RootCause::Electrical), 2);
}

#[test]
fn what_was_looked_for_and_not_found_only_speaks_against() {
    let absent = |refs: &[&str]| judge(&evidence(&[], refs), None, &[]);
    // Half of a clear score, nothing of a hint, and no support from a missing counter-sign.
    assert_eq!(points(&absent(&["SC01"])), [-3, 0, 0, 0]);
    assert_eq!(points(&absent(&["SE13"])), [-3, 0, 0, 0]);
    assert_eq!(points(&absent(&["SA21"])), [0, 0, 0, 0]);
    assert_eq!(points(&absent(&["SB07", "SE08", "SE01"])), [0, 0, 0, 0]);
    assert_eq!(points(&of(&[])), [0, 0, 0, 0], "silence counts nothing");
    // Not all bearings rusty, but one is: the link was seen.
    let partly = judge(&evidence(&["SC01"], &["SC20"]), None, &[]);
    assert_eq!(partly.totals, of(&["SC01"]).totals);
    assert_eq!(set_aside(&partly, "SC20"), Some(SetAside::LinkWasSeen));
    // Listed as both, which the sheet stage refuses: what was seen stands.
    assert_eq!(judge(&evidence(&["SC01"], &["SC01"]), None, &[]).totals, of(&["SC01"]).totals);
}

#[test]
fn looking_and_not_finding_can_settle_what_was_mixed() {
    // Fresh water and a dead sensor stand side by side, until no trace of water is found within.
    let seen = ["SA01", "SE10"];
    let expected = (Support::Mixed, CauseKind::Ingress, vec![RootCause::Electrical]);
    assert_eq!(says(&of(&seen)), expected);
    let looked = judge(&evidence(&seen, &["SC01", "SE13", "SB10"]), None, &[]);
    assert_eq!(points(&looked), [-3, 0, -3, 6]);
    assert_eq!(says(&looked), (Support::PointsTo, CauseKind::Electrical, vec![]));
}

#[test]
fn house_values_can_flip_a_verdict_and_say_so() {
    let seen = evidence(&["SC10"], &[]);
    let table = judge(&seen, None, &[]);
    assert!(!table.house_values);
    assert_eq!(table.verdict.main, CauseKind::Undetermined);
    let own =
        |short: &str, fault: RootCause, score: i8| HouseScore { sign: sign(short), fault, score };
    let house = [own("SC10", RootCause::Mechanical, 2), own("SC10", RootCause::Ingress, -1)];
    let flipped = judge(&seen, None, &house);
    assert!(flipped.house_values);
    assert_eq!(says(&flipped), (Support::PointsTo, CauseKind::Mechanical, vec![]));
    // Own scores that equal the table's, or of signs that do not occur, change nothing.
    for idle in [own("SC10", RootCause::Mechanical, 1), own("SE10", RootCause::Electrical, -2)] {
        let weighing = judge(&seen, None, &[idle]);
        assert!(!weighing.house_values);
        assert_eq!(weighing.totals, table.totals);
    }
    let beyond = judge(&seen, None, &[own("SC10", RootCause::Ingress, 100)]);
    assert_eq!(beyond.totals.of(RootCause::Ingress), 4, "taken as 2");
}

#[test]
fn a_stated_cause_is_set_against_the_signs() {
    use CauseKind::{Electrical, Ingress, Mechanical, Neglect, NoFaultFound, Undetermined};
    let wet = ["SA03", "SB10", "SC20", "SE04"];
    let no = Agreement::Unsupported;
    assert_eq!(agreement(&wet, Ingress), Agreement::Supported);
    assert_eq!(agreement(&wet, Electrical), no(Reason::NoSign));
    assert_eq!(
        agreement(&[&wet[..], &["SA19"]].concat(), Mechanical),
        no(Reason::OtherCause(Ingress))
    );
    assert_eq!(agreement(&wet, Undetermined), no(Reason::SignsSettleIt(Ingress)));
    assert_eq!(agreement(&wet, NoFaultFound), no(Reason::NotShownFaultless));
    assert_eq!(agreement(&["SE16"], Mechanical), no(Reason::SignsSettleNothing));
    assert_eq!(agreement(&["SE16"], Undetermined), Agreement::Supported);
    assert_eq!(agreement(&["SE16", "SD02"], Undetermined), Agreement::Supported, "may stay open");
    assert_eq!(agreement(&["SE28", "SC01"], Ingress), Agreement::Supported, "strong damage");
    assert_eq!(agreement(&["SE28", "SC09"], Mechanical), no(Reason::OtherCause(NoFaultFound)));
    assert_eq!(agreement(&["SE28"], NoFaultFound), Agreement::Supported);
    assert_eq!(agreement(&["SB07"], Mechanical), no(Reason::NoSign), "good order is not a sign");
    // Of several that are carried a person may name either as the main one.
    assert_eq!(agreement(&["SA01", "SE10"], Electrical), Agreement::Supported);
    assert_eq!(agreement(&["SC04", "SB15"], Neglect), no(Reason::OtherCause(Ingress)), "undated");
    let cause = stating(Ingress, &[Neglect, Electrical]);
    let weighing = judge(&evidence(&wet, &[]), Some(&cause), &[]);
    assert_eq!(weighing.stated.as_ref().unwrap().contributing_not_carried, [Electrical]);
    assert!(!weighing.is_judgement());
}

#[test]
fn parts_that_can_hurt_warn_whatever_the_cause() {
    let weighing = of(&["SE28", "SD17", "SE27"]);
    assert_eq!(weighing.safety, [sign("SD17"), sign("SE27")]);
}

#[test]
fn mechanical_and_then_ridden_on_is_accepted_as_stated() {
    use CauseKind::{Mechanical, Neglect};
    let worn = ["SA15", "SA11", "SB05", "SC13", "SD08"];
    let judged = |cause: &Cause, day: Option<NaiveDate>| {
        let evidence = Evidence { noticed: day, ..evidence(&worn, &[]) };
        judge(&evidence, Some(cause), &[]).stated.unwrap()
    };
    let then = judged(&stating(Mechanical, &[Neglect]), Some(day()));
    assert_eq!(then.agreement, Agreement::Supported);
    assert_eq!(then.contributing_carried, [Neglect]);
    assert!(then.contributing_not_carried.is_empty() && !then.neglect_undated);
    // Wear alone, without the riding on that the signs date, is another matter.
    let bare = judged(&stating(Mechanical, &[]), Some(day()));
    assert_eq!(bare.agreement, Agreement::Unsupported(Reason::OtherCause(Neglect)));
    let undated = judged(&stating(Mechanical, &[Neglect]), None);
    assert_eq!(undated.agreement, Agreement::Supported);
    assert!(undated.neglect_undated && undated.contributing_carried.is_empty());
}

#[test]
fn a_contributing_cause_needs_more_for_it_than_against_it_or_a_clear_sign_of_its_own() {
    use CauseKind::{Electrical, Ingress, Mechanical};
    let bare = |seen: &[&str], contributing: CauseKind| {
        let cause = stating(Ingress, &[contributing]);
        judge(&evidence(seen, &[]), Some(&cause), &[]).stated.unwrap().contributing_not_carried
    };
    let wet = ["SA03", "SB10", "SC01"];
    // A torn bearing seal hints at mechanics, and rust and trail outweigh the hint.
    assert_eq!(bare(&[&wet[..], &["SC21"]].concat(), Mechanical), [Mechanical]);
    assert_eq!(bare(&[&wet[..], &["SC07"]].concat(), Mechanical), []);
    assert_eq!(bare(&[&wet[..], &["SE24"]].concat(), Electrical), [], "nothing against it");
}

#[test]
fn an_origin_is_set_against_the_signs_and_the_main_cause() {
    use CauseKind::{Electrical, Ingress, Mechanical};
    let stated = |seen: &[&str], main: CauseKind, kind: OriginKind| {
        let origin = Some(Marked { value: kind, span: 0..0 });
        let cause = Cause { origin, ..stating(main, &[]) };
        let stated = judge(&evidence(seen, &[]), Some(&cause), &[]).stated.unwrap();
        let origin = stated.origin.unwrap();
        (origin.fits, origin.shown)
    };
    assert_eq!(stated(&["SA22"], Mechanical, OriginKind::Impact), (true, true));
    assert_eq!(stated(&["SC05"], Mechanical, OriginKind::Impact), (true, false));
    assert_eq!(stated(&["SA24"], Electrical, OriginKind::Overload), (true, true));
    assert_eq!(stated(&["SA22"], Electrical, OriginKind::Impact), (false, true));
    assert_eq!(stated(&["SA19"], Ingress, OriginKind::Age), (false, true));
}
