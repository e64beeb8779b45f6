//! Electrics: windings, insulation, hall states, currents, temperature rise, battery.

use super::{
    Input, Limits, Reason, ShopLimits, Verdict, after, assert_near, figure, number, of_model, only,
    quantity, reading, readings, run, share, stage,
};
use splitcase::assessment::bench::battery::window;
use splitcase::assessment::bench::hall::state;
use splitcase::assessment::bench::measure::Measure;
use splitcase::assessment::bench::remark::Remark;
use splitcase::assessment::bench::temperature_rise::hot_temperature;
use splitcase::assessment::bench::unbalance::unbalance;
use splitcase::assessment::bench::verdict::{Bounds, Origin};
use splitcase::assessment::bench::winding::{COPPER_IN_MACHINES, copper_factor};
use splitcase::assessment::sources::SourceId;
use splitcase::sheet::number::Count;
use splitcase::sheet::quantity::Current;
use splitcase::sheet::vocabulary::{CheckKind, Chemistry, InsulationRule, Placing, WindingClass};

/// E05: NEMA MG 1 (14.36): 460, 467, 450 V: mean 459, largest deviation 9, 1.96 %.
#[test]
fn the_printed_unbalance_of_nema() {
    let volts = readings(&["460 V", "467 V", "450 V"]);
    let found = unbalance(&volts, number("1")).unwrap();
    assert_eq!(found.mean, number("459"));
    assert_near(found.percent, "1.96", "0.005");
    assert_eq!((found.reading, found.low), (2, true));
    // Each of +-2 V: the mean is known to sqrt(3 x 2 x 2) / 3 = 1.1547 V.
    let volts = readings(&["460 V ± 2 V", "467 V ± 2 V", "450 V ± 2 V"]);
    let found = unbalance(&volts, number("1")).unwrap();
    assert_near(found.mean_uncertainty.unwrap(), "1.1547", "0.0001");
    let line = only(run(&after("back-emf", &["460 V", "467 V", "450 V"]), &ShopLimits::default()));
    assert_eq!(stage(&line).verdict, Verdict::NotDetermined(Reason::NoLimit));
    let own = of_model(Limits { back_emf_unbalance: Some(share("1.9")), ..Limits::default() });
    let line = only(run(&after("back-emf", &["460 V", "467 V", "450 V"]), &own));
    assert_eq!(stage(&line).verdict, Verdict::Outside);
}

/// E02: ANSI/EASA AR100-2020, random-wound: 2 % from the average.
#[test]
fn winding_unbalance_against_its_published_limit() {
    let lines = |texts: &[&str], at: Option<&str>| {
        let mut input = after("winding-resistance", texts);
        input.at = at.map(quantity);
        run(&input, &ShopLimits::default())
    };
    let good = lines(&["212 mohm", "213 mohm", "211 mohm"], Some("21 degC"));
    let limit = good[0].limit.as_ref().unwrap();
    let published = Origin::Published(SourceId::MotorRepair);
    assert_eq!((limit.bounds, limit.origin), (Bounds::AtMost(number("2")), published));
    assert_eq!(
        (SourceId::MotorRepair.row().unwrap().edition.as_str(), limit.borrowed),
        ("2020", false)
    );
    assert_eq!(stage(&good[0]).verdict, Verdict::Within);
    // E07: 212 x (235 + 20) / (235 + 21), by hand 211.171875 mohm.
    assert_eq!((good[1].measure, good[1].unit), (Measure::Of(CheckKind::WindingResistance), "mΩ"));
    assert_near(figure(&good[1]).value, "211.171875", "0.000001");

    let bad = lines(&["212 mohm", "213 mohm", "190 mohm"], None);
    assert_eq!(stage(&bad[0]).verdict, Verdict::Outside);
    assert_eq!(stage(&bad[0]).remarks, [Remark::DeviatesMost { reading: 2, low: true }]);
    assert_eq!(stage(&bad[1]).verdict, Verdict::NotDetermined(Reason::MissingTemperature));
    let two = lines(&["212 mohm", "213 mohm"], Some("21 degC"));
    let count = Reason::ReadingCount { needed: 3, found: 2 };
    assert_eq!(stage(&two[0]).verdict, Verdict::NotDetermined(count.clone()));
    assert_eq!(stage(&two[1]).verdict, Verdict::NotDetermined(count));
    // Each of +-2 mohm on 212: 100 x 2 x sqrt(4/9 + 1/9 + 1/9) / 212 = 0.77 % around 1.4 %.
    let near = lines(&["215 mohm ± 2 mohm", "212 mohm ± 2 mohm", "209 mohm ± 2 mohm"], None);
    assert_near(figure(&near[0]).uncertainty.unwrap(), "0.77", "0.01");
    assert_eq!(stage(&near[0]).verdict, Verdict::Undecided);
}

/// E10: 20 to 75 degC x1.21611, 25 to 40 degC x1.05780 with 234.5 (a wire table prints 1.058).
#[test]
fn copper_between_temperatures() {
    // IEC 60028: 1 / 0.00393 - 20 = 234.5 degC for copper as a conductor.
    let copper = number("234.5");
    let factor = |from: &str, to: &str| copper_factor(copper, number(from), number(to)).unwrap();
    assert_near(factor("20", "75"), "1.21611", "0.000005");
    assert_near(factor("25", "40"), "1.05780", "0.000005");
    assert_near(factor("25", "75"), "1.193", "0.0005");
    assert_eq!(
        copper_factor(COPPER_IN_MACHINES, number("-235"), number("20")),
        Err(Reason::OutOfRange)
    );
}

/// E09: a meter maker's manual, p. 318: 200 mohm at 20 degC, 210 mohm at 25 degC around: 7.75 K.
#[test]
fn rise_by_resistance_as_printed() {
    // A resistance of nothing is none, cold or hot.
    for (cold, hot) in [("0", "210"), ("200", "0"), ("-1", "210"), ("200", "-1")] {
        let none = hot_temperature(number(cold), number("20"), number(hot));
        assert_eq!(none, Err(Reason::NotPositive), "{cold} {hot}");
    }
    let winding = hot_temperature(number("200"), number("20"), number("210")).unwrap();
    assert_eq!(winding, number("32.75"));
    let mut input = Input {
        check: CheckKind::TemperatureRise,
        cold: Some(reading("200 mohm")),
        hot: Some(reading("210 mohm")),
        at: Some(quantity("20 degC")),
        ambient: Some(quantity("77 degF")),
        ..Input::default()
    };
    let line = only(run(&input, &ShopLimits::default()));
    assert_near(figure(&line).value, "7.75", "0.000001");
    assert_eq!(stage(&line).verdict, Verdict::NotDetermined(Reason::NoLimit));
    // From memory: the row of IEC 60034-1 for outputs below 600 W has 85, 110 and 130 K.
    let rises = [WindingClass::B, WindingClass::F, WindingClass::H].map(WindingClass::most_rise);
    assert_eq!(rises, ["85", "110", "130"].map(number));
    let class = Limits { thermal_class: Some(WindingClass::F), ..Limits::default() };
    let line = only(run(&input, &of_model(class.clone())));
    let limit = line.limit.as_ref().unwrap();
    assert_eq!((limit.bounds, limit.origin), (Bounds::AtMost(number("110")), Origin::Practice));
    // A workshop's own limit goes before that of the class.
    let own = Limits { temperature_rise: Some(Count(7)), ..class };
    assert_eq!(stage(&only(run(&input, &of_model(own)))).verdict, Verdict::Outside);
    input.ambient = None;
    let verdict = |input: &Input| stage(&only(run(input, &ShopLimits::default()))).verdict.clone();
    assert_eq!(verdict(&input), Verdict::NotDetermined(Reason::MissingAmbient));
    input.at = None;
    assert_eq!(verdict(&input), Verdict::NotDetermined(Reason::MissingTemperature));
    input.hot = None;
    assert_eq!(verdict(&input), Verdict::NotDetermined(Reason::MissingColdOrHot));
}

#[test]
fn rise_by_thermometer_needs_the_surroundings() {
    let mut input = after("temperature-rise", &["61 degC", "63 degC"]);
    let line = only(run(&input, &ShopLimits::default()));
    assert_eq!(stage(&line).verdict, Verdict::NotDetermined(Reason::MissingAmbient));
    input.ambient = Some(quantity("21 degC"));
    let own = Limits { temperature_rise: Some(Count(45)), ..Limits::default() };
    let line = only(run(&input, &of_model(own)));
    assert_eq!((line.measure, figure(&line).value), (Measure::RiseByThermometer, number("42")));
    assert_eq!(stage(&line).verdict, Verdict::Within);
}

/// E16: halving rule to 40 degC; E17: thermosetting rule, 20 degC x0.762; E18: threefold apart.
#[test]
fn insulation_factors() {
    let halving = |at: &str| InsulationRule::Halving.factor(number(at)).unwrap();
    for (at, factor) in
        [("10", "0.125"), ("20", "0.25"), ("25", "0.35355"), ("30", "0.5"), ("40", "1")]
    {
        assert_near(halving(at), factor, "0.000005");
    }
    let soft = |at: &str| InsulationRule::Thermosetting.factor(number(at));
    assert_near(soft("20").unwrap(), "0.762", "0.0005");
    assert_near(soft("40").unwrap(), "1", "0.000001");
    assert_near(soft("20").unwrap() / halving("20"), "3", "0.1");
    assert_eq!(soft("9.9"), Err(Reason::TemperatureOutsideRule));
    assert_eq!(soft("41"), Err(Reason::TemperatureOutsideRule));
}

/// E12, E13: 5 megohm at 40 degC of IEEE 43-2013, borrowed from machines of 750 W and more.
#[test]
fn insulation_against_a_borrowed_limit() {
    let mut input = after("insulation-resistance", &["240 Mohm"]);
    input.before = readings(&["0.8 Mohm"]);
    input.test_voltage = Some(quantity("250 V"));
    let line = only(run(&input, &ShopLimits::default()));
    assert_eq!(stage(&line).verdict, Verdict::NotDetermined(Reason::MissingTemperature));
    input.at = Some(quantity("20 degC"));
    let line = only(run(&input, &ShopLimits::default()));
    assert_near(figure(&line).value, "60", "0.000001");
    assert_eq!(stage(&line).verdict, Verdict::Within);
    assert_eq!(line.before.as_ref().unwrap().verdict, Verdict::Outside);
    let (limit, method) = (line.limit.unwrap(), line.method.unwrap());
    assert_eq!((limit.bounds, limit.borrowed), (Bounds::AtLeast(number("5")), true));
    assert_eq!((method.rule, method.source), ("insulation-halving-per-10-k", None));
    assert_eq!(limit.origin, Origin::Published(SourceId::Insulation));
    assert!(line.remarks.is_empty());
    input.test_voltage = Some(quantity("500 V"));
    assert_eq!(only(run(&input, &ShopLimits::default())).remarks, [Remark::HighTestVoltage]);
    input.test_voltage = None;
    assert_eq!(only(run(&input, &ShopLimits::default())).remarks, [Remark::TestVoltageNotStated]);
    // The softer rule, chosen by the workshop, is named.
    input.after = readings(&["10 Mohm"]);
    let own =
        Limits { insulation_correction: Some(InsulationRule::Thermosetting), ..Limits::default() };
    assert_eq!(stage(&only(run(&input, &ShopLimits::default()))).verdict, Verdict::Outside);
    let line = only(run(&input, &of_model(own)));
    assert_eq!(stage(&line).verdict, Verdict::Within);
    assert_eq!(line.method.unwrap().rule, "insulation-thermosetting");
}

fn halls(states: &[&str], placing: Option<Placing>) -> (Verdict, Vec<Remark>) {
    let states_after = states.iter().map(ToString::to_string).collect();
    let input = Input { check: CheckKind::HallStates, states_after, placing, ..Input::default() };
    let line = only(run(&input, &ShopLimits::default()));
    (stage(&line).verdict.clone(), stage(&line).remarks.clone())
}

/// E22: a drive maker's support article: 1-3-2-6-4-5 or the reverse; 0 and 7 cannot be.
#[test]
fn hall_states_at_120_degrees() {
    let placed = Remark::Placing(Placing::Degrees120);
    let whole = (Verdict::Within, vec![placed.clone()]);
    assert_eq!(halls(&["1", "3", "2", "6", "4", "5"], None), whole);
    assert_eq!(halls(&["101", "100", "110", "010", "011", "001", "101"], None), whole);
    let (verdict, remarks) = halls(&["1", "3", "2", "6", "4", "5", "7"], None);
    assert_eq!(verdict, Verdict::Outside);
    assert!(remarks.contains(&Remark::InvalidStates(vec![7])));
    // The first line stuck low: 1, 3, 2 show, then 2, 0, 1 in place of 6, 4, 5.
    let (verdict, remarks) = halls(&["1", "3", "2", "2", "0", "1"], None);
    assert_eq!(verdict, Verdict::Outside);
    assert!(remarks.contains(&Remark::StuckLine { line: 0, high: false }));
    assert!(remarks.contains(&Remark::MissingStates(vec![6, 4, 5])));
    assert!(remarks.contains(&Remark::InvalidStates(vec![0])));
    let sorted = halls(&["1", "2", "3", "4", "5", "6"], None);
    assert_eq!(sorted, (Verdict::Within, vec![placed, Remark::OutOfOrder]));
    let skipped = halls(&["001", "011", "110", "100", "101"], None);
    assert!(skipped.1.contains(&Remark::OutOfOrder), "two lines changed at once");
    assert!(skipped.1.contains(&Remark::MissingStates(vec![2])));
    for typed in ["8", "12", "1011", "102", "+10", "on", ""] {
        assert_eq!(state(typed), None, "{typed}");
        let verdict = halls(&["1", typed], None).0;
        assert_eq!(verdict, Verdict::NotDetermined(Reason::NotAState));
    }
}

/// E23: states seen on one bench with 60 degrees: 111, 110, 100, 000, 001, 011.
#[test]
fn hall_states_at_60_degrees() {
    let seen = ["111", "110", "100", "000", "001", "011"];
    let whole = (Verdict::Within, vec![Remark::Placing(Placing::Degrees60)]);
    assert_eq!(halls(&seen, None), whole);
    assert_eq!(halls(&seen, Some(Placing::Degrees60)), whole);
    let (verdict, remarks) = halls(&seen, Some(Placing::Degrees120));
    assert_eq!(verdict, Verdict::Outside);
    assert!(remarks.contains(&Remark::InvalidStates(vec![0, 7])));
    assert!(remarks.contains(&Remark::MissingStates(vec![2, 5])));
}

/// E22 and E23: neighbours of either cycle differ in one line, the last and the first too.
#[test]
fn hall_cycles_turn_one_line_at_a_time() {
    for placing in [Placing::Degrees120, Placing::Degrees60] {
        let cycle = placing.cycle();
        for (at, state) in cycle.iter().enumerate() {
            assert_eq!((state ^ cycle[(at + 1) % 6]).count_ones(), 1, "{placing:?}");
        }
    }
}

/// E27: no published limit; 1.3 times the baseline is common practice and can be set.
#[test]
fn no_load_current_hangs_on_the_baseline_of_the_model() {
    let input = after("no-load-current", &["1.1 A", "1180 mA"]);
    let line = only(run(&input, &ShopLimits::default()));
    assert_eq!(stage(&line).verdict, Verdict::NotDetermined(Reason::NoLimit));
    assert_eq!(stage(&line).remarks, [Remark::Rising]);
    let own = Limits { no_load_current: Some(Current(quantity("0.9 A"))), ..Limits::default() };
    let line = only(run(&input, &of_model(own.clone())));
    let limit = line.limit.clone().unwrap();
    assert_eq!((limit.bounds, limit.origin), (Bounds::AtMost(number("1.17")), Origin::Practice));
    assert_eq!(stage(&line).verdict, Verdict::Outside);
    let own = Limits { no_load_factor: Some(share("150")), ..own };
    let line = only(run(&input, &of_model(own)));
    assert_eq!(line.limit.as_ref().unwrap().origin, Origin::ShopModel);
    assert_eq!(stage(&line).verdict, Verdict::Within);
}

/// E28 to E30: 10 cells 42.0 V full, 13 cells 54.6 and 39 V, 14 cells 58.8 V.
#[test]
fn battery_windows() {
    for (cells, full, empty) in
        [(10, "42.00", "30.00"), (13, "54.60", "39.00"), (14, "58.80", "42.00")]
    {
        assert_eq!(window(Chemistry::LithiumIon, cells), (number(full), number(empty)));
    }
    let mut input = after("battery-voltage", &["54.6 V"]);
    let line = only(run(&input, &ShopLimits::default()));
    assert_eq!(stage(&line).verdict, Verdict::NotDetermined(Reason::MissingCells));
    input.cells = Some(13);
    assert_eq!(stage(&only(run(&input, &ShopLimits::default()))).verdict, Verdict::Within);
    // E31: below 2.5 V a cell at rest: do not charge, refer.
    input.after = readings(&["32.4 V"]);
    let line = only(run(&input, &ShopLimits::default()));
    assert_eq!(stage(&line).verdict, Verdict::Outside);
    assert_eq!(stage(&line).remarks, [Remark::DoNotCharge]);
    assert_eq!(line.limit.unwrap().origin, Origin::Practice);
}

/// E31: a spread of more than 0.1 V between groups of cells.
#[test]
fn battery_groups_are_compared_with_one_another() {
    let mut input = after("battery-voltage", &["3.61 V", "3.60 V", "3.44 V"]);
    input.cells = Some(3);
    let [cell, spread] = <[_; 2]>::try_from(run(&input, &ShopLimits::default())).unwrap();
    assert_eq!(stage(&cell).verdict, Verdict::Within);
    assert_eq!((spread.measure, figure(&spread).value), (Measure::CellSpread, number("0.17")));
    assert_eq!(stage(&spread).remarks, [Remark::DoNotCharge]);
}

/// Lithium iron phosphate, as cell makers' sheets have it: full at 3.65 V, empty at 2.5 V a cell. 48 V are
/// a full pack of 13 of them and more, though lithium-ion cells would be half empty.
#[test]
fn the_window_of_a_pack_follows_its_chemistry() {
    assert_eq!(window(Chemistry::Lfp, 12), (number("43.80"), number("30.00")));
    let verdict = |volts: &str, chemistry| {
        let mut input = after("battery-voltage", &[volts]);
        (input.cells, input.chemistry) = (Some(12), chemistry);
        stage(&only(run(&input, &ShopLimits::default()))).verdict.clone()
    };
    assert_eq!(verdict("48 V", None), Verdict::Within);
    assert_eq!(verdict("48 V", Some(Chemistry::Lfp)), Verdict::Outside);
    assert_eq!(verdict("27 V", None), Verdict::Outside, "2.25 V a cell");
    assert_eq!(verdict("27 V", Some(Chemistry::Lfp)), Verdict::Within);
}
