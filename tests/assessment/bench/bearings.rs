//! Bearings: designations, dimensions and clearance rows with their edges.

use super::{Reason, ShopLimits, Verdict, after, figure, number, only, run, stage};
use splitcase::assessment::bench::bearing::sizes::SIZES;
use splitcase::assessment::bench::bearing::{Bearing, ClearanceClass, Closure, Kind};
use splitcase::assessment::bench::clearance::range;
use splitcase::assessment::bench::verdict::{Bounds, Origin};
use splitcase::assessment::sources::SourceId;

/// B01 to B05: bore codes of catalogue 2202/E, table 2.4; the times-five rule alone fails on five.
#[test]
fn bores_follow_from_the_number() {
    for (number, bore) in [
        ("608", 8),
        ("626", 6),
        ("6000", 10),
        ("6801", 12),
        ("6002", 15),
        ("6803", 17),
        ("6804", 20),
        ("6005", 25),
        ("6906", 30),
        ("6010", 50),
        ("62/22", 22),
        ("60/28", 28),
        ("61804", 20),
        ("61903", 17),
        ("618/8", 8),
        ("16001", 12),
        ("6203", 17),
    ] {
        assert_eq!(Bearing::parse(number).map(|own| own.bore), Some(bore), "{number}");
    }
}

/// ISO 15, dimension series 18, 19, 10, 02, 03 and 00 as a bearing maker's tables of size reprint them
/// (its pages 26 to 34): d, D, B in mm. Last the rows from memory: 688 closed, series 38, MR, HK.
#[test]
#[allow(clippy::too_many_lines, reason = "a table, one row a bearing")]
fn dimensions_are_those_of_iso_15() {
    let rows = [
        ("638", 8, 28, 9),
        ("60/22", 22, 44, 12),
        ("60/28", 28, 52, 12),
        ("60/32", 32, 58, 13),
        ("6007", 35, 62, 14),
        ("6008", 40, 68, 15),
        ("6009", 45, 75, 16),
        ("6010", 50, 80, 16),
        ("6200", 10, 30, 9),
        ("6203", 17, 40, 12),
        ("6204", 20, 47, 14),
        ("62/22", 22, 50, 14),
        ("62/28", 28, 58, 16),
        ("6206", 30, 62, 16),
        ("62/32", 32, 65, 17),
        ("6208", 40, 80, 18),
        ("6209", 45, 85, 19),
        ("6210", 50, 90, 20),
        ("6300", 10, 35, 11),
        ("6301", 12, 37, 12),
        ("6302", 15, 42, 13),
        ("6303", 17, 47, 14),
        ("6304", 20, 52, 15),
        ("63/22", 22, 56, 16),
        ("6305", 25, 62, 17),
        ("63/28", 28, 68, 18),
        ("6306", 30, 72, 19),
        ("63/32", 32, 75, 20),
        ("6307", 35, 80, 21),
        ("6809", 45, 58, 7),
        ("6810", 50, 65, 7),
        ("6907", 35, 55, 10),
        ("6908", 40, 62, 12),
        ("6909", 45, 68, 12),
        ("6910", 50, 72, 12),
        ("16007", 35, 62, 9),
        ("16008", 40, 68, 9),
        ("608", 8, 22, 7),
        ("6000", 10, 26, 8),
        ("6001", 12, 28, 8),
        ("6002", 15, 32, 9),
        ("6003", 17, 35, 10),
        ("6004", 20, 42, 12),
        ("6005", 25, 47, 12),
        ("6006", 30, 55, 13),
        ("6201", 12, 32, 10),
        ("6202", 15, 35, 11),
        ("6205", 25, 52, 15),
        ("6207", 35, 72, 17),
        ("6800", 10, 19, 5),
        ("6801", 12, 21, 5),
        ("6802", 15, 24, 5),
        ("6803", 17, 26, 5),
        ("6804", 20, 32, 7),
        ("6805", 25, 37, 7),
        ("6806", 30, 42, 7),
        ("6807", 35, 47, 7),
        ("6808", 40, 52, 7),
        ("6900", 10, 22, 6),
        ("6901", 12, 24, 6),
        ("6902", 15, 28, 7),
        ("6903", 17, 30, 7),
        ("6904", 20, 37, 9),
        ("6905", 25, 42, 9),
        ("6906", 30, 47, 9),
        ("16001", 12, 28, 7),
        ("16002", 15, 32, 8),
        ("16003", 17, 35, 8),
        ("16004", 20, 42, 8),
        ("16005", 25, 47, 8),
        ("16006", 30, 55, 9),
        ("626", 6, 19, 6),
        ("607", 7, 19, 6),
        ("627", 7, 22, 7),
        ("628", 8, 24, 8),
        ("609", 9, 24, 7),
        ("629", 9, 26, 8),
        ("699", 9, 20, 6),
        ("688-2RS", 8, 16, 5),
        ("63800", 10, 19, 7),
        ("63801", 12, 21, 7),
        ("63802", 15, 24, 7),
        ("63803", 17, 26, 10),
        ("63804", 20, 32, 10),
        ("63805", 25, 37, 10),
        ("63806", 30, 42, 10),
        ("3800", 10, 19, 7),
        ("3801", 12, 21, 7),
        ("3802", 15, 24, 7),
        ("3803", 17, 26, 10),
        ("3804", 20, 32, 10),
        ("3805", 25, 37, 10),
        ("3806", 30, 42, 10),
        ("MR15267", 15, 26, 7),
        ("MR17287", 17, 28, 7),
        ("MR18307", 18, 30, 7),
        ("HK0808", 8, 12, 8),
        ("HK0810", 8, 12, 10),
        ("HK1010", 10, 14, 10),
        ("HK1012", 10, 14, 12),
        ("HK1210", 12, 16, 10),
        ("HK1212", 12, 18, 12),
        ("HK1412", 14, 20, 12),
        ("HK1512", 15, 21, 12),
        ("HK1516", 15, 21, 16),
        ("HK1612", 16, 22, 12),
        ("HK1712", 17, 23, 12),
        ("HK1812", 18, 24, 12),
        ("HK2010", 20, 26, 10),
        ("HK2012", 20, 26, 12),
        ("HK2016", 20, 26, 16),
        ("HK2512", 25, 32, 12),
        ("HK2516", 25, 32, 16),
    ];
    assert_eq!(rows.len(), SIZES.len());
    // An open 688 is a millimetre narrower than a closed one.
    assert_eq!(Bearing::parse("688").unwrap().size.unwrap().width, 4);
    for (number, bore, outside, width) in rows {
        let size = Bearing::parse(number).unwrap().size.unwrap();
        assert_eq!((size.bore, size.outside, size.width), (bore, outside, width), "{number}");
    }
    // B07: long and short names are one bearing.
    assert_eq!(Bearing::parse("61804"), Bearing::parse("6804"));
    assert_eq!(Bearing::parse("61905-2RS"), Bearing::parse("6905-2RS"));
}

/// B01 to B04 against the table, and the plan of ISO 15: one bore and one diameter series have one
/// outside diameter, whatever the width.
#[test]
fn codes_and_printed_sizes_agree() {
    for size in SIZES {
        let number = size.number;
        let by_rule = if let Some(sizes) = number.strip_prefix("MR") {
            assert_eq!(sizes, format!("{}{}{}", size.bore, size.outside, size.width));
            continue;
        } else if let Some(code) = number.strip_prefix("HK") {
            assert_eq!(code[2..].parse::<u32>().unwrap(), size.width, "{number}");
            code[..2].parse().unwrap()
        } else if let Some((_, bore)) = number.split_once('/') {
            bore.parse().unwrap()
        } else {
            match (number.len(), &number[number.len() - 2..]) {
                (3, digits) => digits[1..].parse().unwrap(),
                (_, "00") => 10,
                (_, "01") => 12,
                (_, "02") => 15,
                (_, "03") => 17,
                (_, digits) => 5 * digits.parse::<u32>().unwrap(),
            }
        };
        assert_eq!(size.bore, by_rule, "{number}");
        assert!(size.bore < size.outside && size.width < size.outside);
    }
    let outside = |number: &str| Bearing::parse(number).unwrap().size.unwrap().outside;
    for code in ["00", "01", "02", "03", "04", "05", "06"] {
        assert_eq!(outside(&format!("638{code}")), outside(&format!("68{code}")), "{code}");
        assert_eq!(outside(&format!("38{code}")), outside(&format!("68{code}")), "{code}");
    }
}

/// B08, B09, B11, B12: closures and classes of catalogue 2202/E, table 2.5; other makers' from
/// memory.
#[test]
fn suffixes_are_read_in_the_ways_people_write_them() {
    let is = |text: &str, closure, sides, clearance| {
        let own = Bearing::parse(text).unwrap_or_else(|| panic!("{text}"));
        assert_eq!(
            (own.closure, own.closed_sides, own.clearance),
            (closure, sides, clearance),
            "{text}"
        );
    };
    let normal = ClearanceClass::Normal;
    is("6804", Closure::Open, 0, normal);
    is("6804-2RS", Closure::ContactSeals, 2, normal);
    is("61804-2RS1", Closure::ContactSeals, 2, normal);
    is("6001-2rs c3", Closure::ContactSeals, 2, ClearanceClass::C3);
    is("60042RS", Closure::ContactSeals, 2, normal);
    is("6001/2RS/C3", Closure::ContactSeals, 2, ClearanceClass::C3);
    is("6804/C2", Closure::Open, 0, ClearanceClass::C2);
    is("608ZZ", Closure::Shields, 2, normal);
    is("608 ZZC4", Closure::Shields, 2, ClearanceClass::C4);
    is("6902LLB", Closure::NonContactSeals, 2, normal);
    is("6902LLU/C5", Closure::ContactSeals, 2, ClearanceClass::C5);
    is("6902LLH", Closure::LightContactSeals, 2, normal);
    is("6003DDU CM", Closure::ContactSeals, 2, ClearanceClass::Motor);
    is("6003-Z", Closure::Shields, 1, normal);
    is("62/22-2RS", Closure::ContactSeals, 2, normal);
    is("6804-2RSH/C3", Closure::ContactSeals, 2, ClearanceClass::C3);
    is("6902 VV", Closure::NonContactSeals, 2, normal);
    is("6902DD", Closure::ContactSeals, 2, normal);
    is("6902 LLU/5K", Closure::ContactSeals, 2, normal);
    is("6902LLUC3/5K", Closure::ContactSeals, 2, ClearanceClass::C3);
    is("6902-2RSV", Closure::ContactSeals, 2, normal);
    is("6902-2RZ", Closure::NonContactSeals, 2, normal);
    is("6001-2RS NR", Closure::ContactSeals, 2, normal);
    is("63803 LLU MAX", Closure::ContactSeals, 2, normal);
    is("S6804-2RS", Closure::ContactSeals, 2, normal);
    is("SS6804 2RS", Closure::ContactSeals, 2, normal);
    is("W 608-2Z", Closure::Shields, 2, normal);
    is("3804-2RS", Closure::ContactSeals, 2, normal);
    is("MR17287 LLU", Closure::ContactSeals, 2, normal);
    is("HK 1512", Closure::Open, 0, normal);
    assert!(Bearing::parse("63803LLUMAX").unwrap().is_full);
    let kind = |text: &str| Bearing::parse(text).unwrap().kind;
    assert_eq!(kind("3804-2RS"), Kind::DoubleRow);
    assert_eq!([kind("HK1512"), kind("HK0912")], [Kind::NeedleCup, Kind::NeedleCup]);
    assert_eq!(Bearing::parse("HK0912").unwrap().size, None);
    assert_eq!(Bearing::parse("HK0912").unwrap().bore, 9);
    assert!(Bearing::parse("6804 P5").unwrap().is_finer);
    assert!(!Bearing::parse("6804 P0").unwrap().is_finer);
    for unknown in
        ["", "NU204", "7204", "6804-XYZ", "600", "6804-2RS-ZZ", "681", "6ü", "/", "62/", "HK", "Mü"]
    {
        let known = Bearing::parse(unknown);
        // 681 is a real bearing of 1 mm bore: its bore is known, its dimensions are not.
        assert!(known.is_none() || unknown == "681", "{unknown}: {known:?}");
    }
    assert_eq!(Bearing::parse("681").unwrap().size, None);
}

/// B60 to B66: ISO 5753-1 in catalogue 2202/E, table 6.1, in micrometres; B67: 13 to 28, not 25.
#[test]
fn clearance_rows_and_their_edges() {
    use ClearanceClass::{C2, C3, C4, C5, Motor, Normal};
    let rows = [
        ((7, 10), [(0, 7), (2, 13), (8, 23), (14, 29), (20, 37)]),
        ((12, 18), [(0, 9), (3, 18), (11, 25), (18, 33), (25, 45)]),
        ((20, 24), [(0, 10), (5, 20), (13, 28), (20, 36), (28, 48)]),
        ((25, 30), [(1, 11), (5, 20), (13, 28), (23, 41), (30, 53)]),
        ((35, 40), [(1, 11), (6, 20), (15, 33), (28, 46), (40, 64)]),
        ((45, 50), [(1, 11), (6, 23), (18, 36), (30, 51), (45, 73)]),
    ];
    for ((first, last), ranges) in rows {
        for bore in [first, last] {
            for (class, expected) in [C2, Normal, C3, C4, C5].into_iter().zip(ranges) {
                assert_eq!(range(bore, class), Some(expected), "{bore} {class:?}");
            }
        }
    }
    assert_eq!(range(6, Normal), Some((2, 13)));
    assert_eq!(range(6, C4), None, "not made");
    // B65: table 6.2, whose first row includes 10 mm while that of table 6.1 does not.
    for (bore, expected) in [
        (9, None),
        (10, Some((4, 11))),
        (18, Some((4, 11))),
        (20, Some((5, 12))),
        (24, Some((5, 12))),
        (25, Some((5, 12))),
        (30, Some((5, 12))),
        (31, Some((9, 17))),
        (40, Some((9, 17))),
        (51, None),
    ] {
        assert_eq!(range(bore, Motor), expected, "{bore}");
    }
}

#[test]
fn clearance_is_judged_by_the_class_of_the_designation() {
    let mut input = after("bearing-clearance", &["0.021 mm"]);
    let judge = |input: &_| only(run(input, &ShopLimits::default()));
    assert_eq!(stage(&judge(&input)).verdict, Verdict::NotDetermined(Reason::MissingBearing));
    input.bearing = Some("6804-2RS".into());
    let line = judge(&input);
    assert_eq!(figure(&line).value, number("21"));
    assert_eq!(line.limit.as_ref().unwrap().bounds, Bounds::Between(number("5"), number("20")));
    let origin = |line: &splitcase::assessment::bench::check_result::CheckResult| {
        line.limit.as_ref().unwrap().origin
    };
    assert_eq!(origin(&line), Origin::Published(SourceId::BearingClearance));
    input.bearing = Some("6804 CM".into());
    assert_eq!(origin(&judge(&input)), Origin::Practice, "CM is a maker's own");
    assert_eq!(stage(&line).verdict, Verdict::Outside);
    input.bearing = Some("6804-2RS C3".into());
    assert_eq!(stage(&judge(&input)).verdict, Verdict::Within);
    input.bearing = Some("NU204".into());
    assert_eq!(stage(&judge(&input)).verdict, Verdict::NotDetermined(Reason::UnknownBearing));
}

#[test]
fn clearance_of_other_kinds_is_not_in_the_table() {
    for bearing in ["3804-2RS", "HK1512", "63803 LLU MAX"] {
        let mut input = after("bearing-clearance", &["0.012 mm"]);
        input.bearing = Some(bearing.into());
        let verdict = stage(&only(run(&input, &ShopLimits::default()))).verdict.clone();
        assert_eq!(verdict, Verdict::NotDetermined(Reason::NotInTable), "{bearing}");
    }
}
