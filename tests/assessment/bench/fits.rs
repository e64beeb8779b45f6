//! Fits: every cell of the zones, and worked interference and clearance.

use super::{Input, Reason, ShopLimits, Verdict, after, number, only, run, stage};
use splitcase::assessment::bench::check_result::CheckResult;
use splitcase::assessment::bench::fit::{
    Fit, FitKind, bearing_bore, bearing_outside, is_zone, zone,
};
use splitcase::assessment::bench::remark::Remark;
use splitcase::assessment::bench::verdict::Bounds;
use splitcase::sheet::vocabulary::TurningRing;

/// F20 to F32 and the rows beside them: catalogue 2202/E, appendix II (ISO 286-2), in micrometres.
///
/// Upper and lower edge for 3-6, 6-10, 10-18, 18-30, 30-50 and 50-65 (housings 50-80) mm.
const PRINTED: &[(&str, [(&str, &str); 6])] = &[
    (
        "g5",
        [("-4", "-9"), ("-5", "-11"), ("-6", "-14"), ("-7", "-16"), ("-9", "-20"), ("-10", "-23")],
    ),
    (
        "g6",
        [("-4", "-12"), ("-5", "-14"), ("-6", "-17"), ("-7", "-20"), ("-9", "-25"), ("-10", "-29")],
    ),
    ("h5", [("0", "-5"), ("0", "-6"), ("0", "-8"), ("0", "-9"), ("0", "-11"), ("0", "-13")]),
    ("h6", [("0", "-8"), ("0", "-9"), ("0", "-11"), ("0", "-13"), ("0", "-16"), ("0", "-19")]),
    ("h7", [("0", "-12"), ("0", "-15"), ("0", "-18"), ("0", "-21"), ("0", "-25"), ("0", "-30")]),
    ("j5", [("3", "-2"), ("4", "-2"), ("5", "-3"), ("5", "-4"), ("6", "-5"), ("6", "-7")]),
    ("j6", [("6", "-2"), ("7", "-2"), ("8", "-3"), ("9", "-4"), ("11", "-5"), ("12", "-7")]),
    (
        "js5",
        [
            ("2.5", "-2.5"),
            ("3", "-3"),
            ("4", "-4"),
            ("4.5", "-4.5"),
            ("5.5", "-5.5"),
            ("6.5", "-6.5"),
        ],
    ),
    (
        "js6",
        [
            ("4", "-4"),
            ("4.5", "-4.5"),
            ("5.5", "-5.5"),
            ("6.5", "-6.5"),
            ("8", "-8"),
            ("9.5", "-9.5"),
        ],
    ),
    ("k5", [("6", "1"), ("7", "1"), ("9", "1"), ("11", "2"), ("13", "2"), ("15", "2")]),
    ("k6", [("9", "1"), ("10", "1"), ("12", "1"), ("15", "2"), ("18", "2"), ("21", "2")]),
    ("m5", [("9", "4"), ("12", "6"), ("15", "7"), ("17", "8"), ("20", "9"), ("24", "11")]),
    ("m6", [("12", "4"), ("15", "6"), ("18", "7"), ("21", "8"), ("25", "9"), ("30", "11")]),
    ("G6", [("12", "4"), ("14", "5"), ("17", "6"), ("20", "7"), ("25", "9"), ("29", "10")]),
    ("G7", [("16", "4"), ("20", "5"), ("24", "6"), ("28", "7"), ("34", "9"), ("40", "10")]),
    ("H6", [("8", "0"), ("9", "0"), ("11", "0"), ("13", "0"), ("16", "0"), ("19", "0")]),
    ("H7", [("12", "0"), ("15", "0"), ("18", "0"), ("21", "0"), ("25", "0"), ("30", "0")]),
    ("H8", [("18", "0"), ("22", "0"), ("27", "0"), ("33", "0"), ("39", "0"), ("46", "0")]),
    ("J6", [("5", "-3"), ("5", "-4"), ("6", "-5"), ("8", "-5"), ("10", "-6"), ("13", "-6")]),
    ("J7", [("6", "-6"), ("8", "-7"), ("10", "-8"), ("12", "-9"), ("14", "-11"), ("18", "-12")]),
    (
        "JS6",
        [
            ("4", "-4"),
            ("4.5", "-4.5"),
            ("5.5", "-5.5"),
            ("6.5", "-6.5"),
            ("8", "-8"),
            ("9.5", "-9.5"),
        ],
    ),
    (
        "JS7",
        [
            ("6", "-6"),
            ("7.5", "-7.5"),
            ("9", "-9"),
            ("10.5", "-10.5"),
            ("12.5", "-12.5"),
            ("15", "-15"),
        ],
    ),
    ("K6", [("2", "-6"), ("2", "-7"), ("2", "-9"), ("2", "-11"), ("3", "-13"), ("4", "-15")]),
    ("K7", [("3", "-9"), ("5", "-10"), ("6", "-12"), ("6", "-15"), ("7", "-18"), ("9", "-21")]),
    ("M7", [("0", "-12"), ("0", "-15"), ("0", "-18"), ("0", "-21"), ("0", "-25"), ("0", "-30")]),
    (
        "N7",
        [("-4", "-16"), ("-4", "-19"), ("-5", "-23"), ("-7", "-28"), ("-8", "-33"), ("-9", "-39")],
    ),
    (
        "P7",
        [
            ("-8", "-20"),
            ("-9", "-24"),
            ("-11", "-29"),
            ("-14", "-35"),
            ("-17", "-42"),
            ("-21", "-51"),
        ],
    ),
];

/// F34: "over" and "up to and including": the first and the last whole millimetre of every row.
const ROWS: [(u32, u32); 6] = [(4, 6), (7, 10), (11, 18), (19, 30), (31, 50), (51, 80)];

#[test]
fn every_cell_of_the_printed_zones_at_both_ends_of_its_row() {
    for (name, cells) in PRINTED {
        assert!(is_zone(name));
        for ((first, last), (upper, lower)) in ROWS.into_iter().zip(cells) {
            for size in [first, last] {
                let found = zone(name, size).unwrap();
                assert_eq!(
                    (found.upper, found.lower),
                    (number(upper), number(lower)),
                    "{size} {name}"
                );
            }
        }
        assert_eq!((zone(name, 3), zone(name, 81)), (None, None));
    }
    assert_eq!(zone("x5", 20), None);
}

/// F33 and F35: standard tolerances IT5 to IT8 (ISO 286-1); in every printed cell the edges are one
/// grade apart.
#[test]
fn printed_edges_are_one_grade_apart() {
    let grades = [
        ("5", [5, 6, 8, 9, 11, 13]),
        ("6", [8, 9, 11, 13, 16, 19]),
        ("7", [12, 15, 18, 21, 25, 30]),
        ("8", [18, 22, 27, 33, 39, 46]),
    ];
    for (name, cells) in PRINTED {
        let grade = name.trim_start_matches(|c: char| c.is_alphabetic());
        let (_, widths) = grades.iter().find(|(own, _)| *own == grade).unwrap();
        for (width, (upper, lower)) in widths.iter().zip(cells) {
            assert_eq!(number(upper) - number(lower), (*width).into(), "{name}");
        }
    }
}

/// F36, F37: catalogue 2202/E, appendix I, class 0.
#[test]
fn bearing_tolerances() {
    let lower = |found: Option<splitcase::assessment::bench::fit::Deviations>| {
        let found = found.unwrap();
        assert_eq!(found.upper, number("0"));
        found.lower
    };
    for (bore, edge) in [(8, "-8"), (10, "-8"), (18, "-8"), (20, "-10"), (30, "-10"), (40, "-12")] {
        assert_eq!(lower(bearing_bore(bore)), number(edge), "{bore}");
    }
    for (outside, edge) in
        [(19, "-9"), (30, "-9"), (32, "-11"), (42, "-11"), (52, "-13"), (72, "-13")]
    {
        assert_eq!(lower(bearing_outside(outside)), number(edge), "{outside}");
    }
}

/// F39: 20 k5 in the bore of a 6804: 2 to 21 tight. F40: 42 mm in H7: 0 to 36 loose, N7: 33 tight
/// to 3 loose.
#[test]
fn worked_fits() {
    let fit = |loosest: &str, tightest: &str| Fit {
        loosest: number(loosest),
        tightest: number(tightest),
    };
    let shaft = Fit::of(zone("k5", 20).unwrap(), bearing_bore(20).unwrap());
    assert_eq!(shaft, fit("2", "21"));
    let in_hole = |name| Fit::of(bearing_outside(42).unwrap(), zone(name, 42).unwrap());
    assert_eq!(in_hole("H7"), fit("-36", "0"));
    assert_eq!(in_hole("N7"), fit("-3", "33"));
    let kinds = [in_hole("N7"), in_hole("H7"), shaft].map(|fit| fit.kind());
    assert_eq!(kinds, [FitKind::Transition, FitKind::Clearance, FitKind::Interference]);
}

fn seat(
    check: &'static str,
    bearing: &str,
    text: &str,
    change: impl Fn(&mut Input),
) -> CheckResult {
    let mut input = after(check, &[text]);
    input.bearing = Some(bearing.into());
    change(&mut input);
    only(run(&input, &ShopLimits::default()))
}

#[test]
fn a_seat_is_judged_by_its_zone_and_tells_the_fit() {
    let k5 = |input: &mut Input| input.zone = Some("k5".into());
    let line = seat("shaft-seat", "6804-2RS", "20.006 mm", k5);
    assert_eq!(stage(&line).verdict, Verdict::Within);
    assert_eq!(
        line.limit.as_ref().unwrap().bounds,
        Bounds::Between(number("20.002"), number("20.011"))
    );
    let fit = |loosest: &str, tightest: &str| Fit {
        loosest: number(loosest),
        tightest: number(tightest),
    };
    assert_eq!(line.remarks, [Remark::FitOfZone(fit("2", "21"))]);
    // 6 over with a bore of 0 to -10: 6 to 16 tight.
    assert_eq!(stage(&line).remarks, [Remark::FitAsMeasured(fit("6", "16"))]);
    // Worn 12 under: 2 to 12 loose; the ring creeps.
    let line = seat("shaft-seat", "6804-2RS", "19.988 mm ± 0.002 mm", k5);
    assert_eq!(stage(&line).verdict, Verdict::Outside);
    assert_eq!(stage(&line).remarks, [Remark::FitAsMeasured(fit("-14", "0"))]);
    let line = seat("shaft-seat", "6804-2RS", "20.003 mm ± 0.002 mm", k5);
    assert_eq!(stage(&line).verdict, Verdict::Undecided);
    let line = seat("shaft-seat", "6804-2RS P5", "20.006 mm", k5);
    assert_eq!(line.remarks, [Remark::FinerBearing]);
    assert!(stage(&line).remarks.is_empty());
}

/// F41: catalogue 2202/E, tables 5.2 and 5.4; the row of 18 mm is "up to and including".
#[test]
fn the_usual_zone_follows_from_the_turning_ring() {
    let usual = |check, bearing: &str, turning| {
        let line = seat(check, bearing, "20 mm", |input| input.turning = Some(turning));
        let remark = line.remarks.first().cloned();
        let Some(Remark::UsualZone(zone)) = remark else { panic!("{remark:?}") };
        zone
    };
    assert_eq!(usual("shaft-seat", "6804", TurningRing::Inner), "k5");
    assert_eq!(usual("shaft-seat", "6803", TurningRing::Inner), "js5");
    assert_eq!(usual("shaft-seat", "60/18", TurningRing::Inner), "js5");
    assert_eq!(usual("shaft-seat", "6001", TurningRing::Outer), "h6");
    assert_eq!(usual("housing-seat", "6004", TurningRing::Inner), "H7");
    assert_eq!(usual("housing-seat", "6001", TurningRing::Outer), "N7");
}

#[test]
fn a_seat_without_its_particulars_is_not_determined() {
    let reason = |check, bearing: &str, zone: Option<&str>| {
        let line = seat(check, bearing, "20 mm", |input| input.zone = zone.map(Into::into));
        stage(&line).verdict.clone()
    };
    let none = Verdict::NotDetermined;
    assert_eq!(reason("shaft-seat", "6804", None), none(Reason::MissingZone));
    assert_eq!(reason("shaft-seat", "6804", Some("H7")), none(Reason::UnknownZone));
    assert_eq!(reason("housing-seat", "6804", Some("k5")), none(Reason::UnknownZone));
    assert_eq!(reason("housing-seat", "6020", Some("H7")), none(Reason::NotInTable));
    // A suffix that is not known takes nothing from bore and outside.
    assert_ne!(reason("shaft-seat", "6804-XYZ", Some("k5")), none(Reason::UnknownBearing));
    assert_eq!(reason("shaft-seat", "NU204", Some("k5")), none(Reason::UnknownBearing));
}
