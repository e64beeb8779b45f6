//! Readings beyond a meter's range, and checks whose figure is the reading itself.

use super::{
    Limits, Reason, ShopLimits, Verdict, after, figure, number, of_model, only, quantity, readings,
    run, stage,
};
use splitcase::assessment::bench::verdict::{Bounds, Origin, Side, judge_one_side};
use splitcase::sheet::bench::CheckLimit;
use splitcase::sheet::quantity::Length;
use splitcase::sheet::vocabulary::CheckKind;

/// By the meaning of `more than` and `less than` alone; JCGM 106:2012 has no rule for a censored reading.
#[test]
fn what_only_one_side_is_known_of_is_judged_from_that_side() {
    let judge = |value: &str, side, bounds| judge_one_side(number(value), None, side, bounds);
    let (least, most) = (Bounds::AtLeast(number("5")), Bounds::AtMost(number("5")));
    let between = Bounds::Between(number("4"), number("6"));
    assert_eq!(judge("100", Side::AtLeast, least), Verdict::Within);
    assert_eq!(judge("2", Side::AtLeast, least), Verdict::Undecided);
    assert_eq!(judge("100", Side::AtLeast, most), Verdict::Outside);
    assert_eq!(judge("2", Side::AtLeast, most), Verdict::Undecided);
    assert_eq!(judge("2", Side::AtMost, most), Verdict::Within);
    assert_eq!(judge("100", Side::AtMost, most), Verdict::Undecided);
    assert_eq!(judge("2", Side::AtMost, least), Verdict::Outside);
    assert_eq!(judge("100", Side::AtMost, least), Verdict::Undecided);
    assert_eq!(judge("7", Side::AtLeast, between), Verdict::Outside);
    assert_eq!(judge("5", Side::AtLeast, between), Verdict::Undecided);
    assert_eq!(judge("3", Side::AtMost, between), Verdict::Outside);
    assert_eq!(judge("5", Side::AtMost, between), Verdict::Undecided);
}

/// 100 megohm at 20 degC are 25 at 40 degC by halving; more than that is above the 5 of IEEE Std 43-2013.
#[test]
fn a_tester_over_its_range_proves_insulation() {
    let mut input = after("insulation-resistance", &[">100 Mohm"]);
    input.at = Some(quantity("20 degC"));
    let line = only(run(&input, &ShopLimits::default()));
    assert_eq!((figure(&line).value, figure(&line).side), (number("25"), Some(Side::AtLeast)));
    assert_eq!(stage(&line).verdict, Verdict::Within);
    input.after = readings(&[">2 Mohm"]);
    assert_eq!(stage(&only(run(&input, &ShopLimits::default()))).verdict, Verdict::Undecided);
    // Of two the one that is surely low counts.
    input.after = readings(&[">100 Mohm", "0.4 Mohm"]);
    assert_eq!(stage(&only(run(&input, &ShopLimits::default()))).verdict, Verdict::Outside);
}

#[test]
fn what_is_computed_from_several_readings_needs_numbers() {
    let mut input = after("winding-resistance", &["<0.1 ohm", "0.2 ohm", "0.2 ohm"]);
    input.at = Some(quantity("20 degC"));
    for line in run(&input, &ShopLimits::default()) {
        assert_eq!(stage(&line).verdict, Verdict::NotDetermined(Reason::OverRange));
    }
}

#[test]
fn an_unknown_reading_is_not_hidden_by_a_good_one() {
    let own = of_model(Limits {
        crank_radial_play: Some(Length(quantity("5.5 mm"))),
        ..Limits::default()
    });
    let verdict = |texts: &[&str]| {
        stage(&only(run(&after("crank-radial-play", texts), &own))).verdict.clone()
    };
    assert_eq!(verdict(&["5.2 mm", ">5 mm"]), Verdict::Undecided);
    assert_eq!(verdict(&["5.2 mm", ">5 mm", "6 mm"]), Verdict::Outside);
}

#[test]
fn a_check_that_reads_one_figure_is_judged_by_the_workshop_alone() {
    for (check, text) in [
        (CheckKind::VacuumHold, "18 kPa"),
        (CheckKind::CrankDrag, "0.3 Nm"),
        (CheckKind::TorqueSensorOutput, "1620 mV"),
        (CheckKind::UnitMass, "2.94 kg"),
        (CheckKind::RollerPower, "240 W"),
        (CheckKind::SpeedPulses, "18 pulses"),
    ] {
        let input = after(check.word(), &[text]);
        let line = only(run(&input, &ShopLimits::default()));
        assert_eq!(stage(&line).verdict, Verdict::NotDetermined(Reason::NoLimit), "{text}");
        let read = quantity(text).in_base();
        assert_eq!(figure(&line).value, read);
        let edge = |off: &str| {
            Some(super::Quantity { number: quantity(text).number + number(off), ..quantity(text) })
        };
        let limited = |at_least, at_most| {
            let limits = Limits {
                checks: vec![CheckLimit { check, at_least, at_most }],
                ..Limits::default()
            };
            let line = only(run(&input, &of_model(limits)));
            (stage(&line).verdict.clone(), line.limit.unwrap().origin)
        };
        assert_eq!(limited(edge("-0.1"), None), (Verdict::Within, Origin::ShopModel));
        assert_eq!(limited(edge("0.1"), None).0, Verdict::Outside);
        assert_eq!(limited(None, edge("-0.1")).0, Verdict::Outside);
        assert_eq!(limited(edge("-0.1"), edge("0.1")).0, Verdict::Within);
    }
}
