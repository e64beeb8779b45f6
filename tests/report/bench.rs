//! Bench rows on paper: every field of a check is printed, a setting is no dot, every limit says where
//! it comes from.

use serde_json::Value;
use splitcase::sheet::bench::BenchCheck;
use splitcase::sheet::reader::Value as _;

use super::{HEAD, PROFILE, said, view};

/// Checks that fill every field of the block between them, and how each value prints.
///
/// Thin spaces tie numbers and units; they are plain here.
const FILLED: &[(&str, &[(&str, &str)])] = &[
    (
        "{check: insulation-resistance, of: main-bearing-drive-side, before: 0.8 Mohm, after: '>100 Mohm', \
         test-voltage: 250 V, at: 21 degC, note: probe at the star point}",
        &[
            ("check", "Insulation from winding to casing"),
            ("of", "main bearing on the drive side"),
            ("before", "0.8 MΩ"),
            ("after", "> 100 MΩ"),
            ("test-voltage", "250 V"),
            ("at", "21 °C"),
            ("note", "Probe at the star point."),
        ],
    ),
    (
        "{check: temperature-rise, cold: 201 mohm, hot: 233 mohm, at: 20 degC, ambient: 23 degC}",
        &[("cold", "201 mΩ"), ("hot", "233 mΩ"), ("ambient", "23 °C")],
    ),
    (
        "{check: running-noise, before: [52.5 dB, 53.5 dB], after: 44 dB, background: 31 dB}",
        &[("before", "52.5 dB, 53.5 dB"), ("background", "31 dB")],
    ),
    (
        "{check: hall-states, states-before: [001, 011, 010, 110, 100], \
         states-after: [001, 011, 010, 110, 100, 101], placing: 120-degrees}",
        &[
            ("states-before", "001, 011, 010, 110, 100."),
            ("states-after", "001, 011, 010, 110, 100, 101."),
            ("placing", "120 electrical degrees"),
        ],
    ),
    (
        "{check: shaft-seat, of: rotor shaft, after: 20.004 mm, bearing: 6804-2RS, zone: k5, turning-ring: inner}",
        &[
            ("of", "rotor shaft"),
            ("bearing", "6804-2RS"),
            ("zone", "k5"),
            ("turning-ring", "The inner ring turns"),
        ],
    ),
    (
        "{check: battery-voltage, after: 41.1 V, cells: 12, chemistry: lfp}",
        &[("cells", "12 cells in series"), ("chemistry", "Lithium iron phosphate")],
    ),
    (
        "{check: vacuum-hold, after: 188 mbar, drawn-to: 200 mbar, held-for: 60 s}",
        &[("after", "188 mbar"), ("drawn-to", "200 mbar"), ("held-for", "Held for 60 s")],
    ),
    ("{check: torque-sensor-output, after: 1.62 V, load: 10 kg}", &[("load", "10 kg")]),
];

fn bench(profile: &str, checks: &[&str]) -> Value {
    let list: String = checks.iter().map(|check| format!("  - {check}\n")).collect();
    let text = format!("{HEAD}arrival: {{date: 2026-03-02}}\nbench:\n{list}");
    view(profile, &text, None)["every-reading"].take()
}

fn plain(part: &Value) -> String {
    said(part).replace(['\u{202f}', '\u{a0}'], " ")
}

#[test]
fn every_field_of_a_bench_check_is_printed() {
    let mut seen = std::collections::BTreeSet::new();
    for (check, values) in FILLED {
        let printed = plain(&bench(PROFILE, &[check]));
        for (field, value) in *values {
            assert!(printed.contains(value), "{field}: `{value}` is not in\n{printed}");
            seen.insert((*field).to_owned());
        }
    }
    let shape = BenchCheck::shape();
    let all = shape.record().unwrap().fields.iter().map(|field| field.key.clone());
    assert_eq!(seen, all.collect(), "a field of the block is not looked for here");
}

#[test]
fn the_raw_reading_stands_beside_the_one_that_was_carried() {
    let row = bench(
        PROFILE,
        &["{check: insulation-resistance, before: 0.8 Mohm, after: 240 Mohm, at: 21 degC}"],
    );
    let row = plain(&row["rows"][0]);
    for text in [
        "before 0.21 MΩ",
        "Read before the work: 0.8 MΩ.",
        "Read after the work: 240 MΩ.",
        "Part at 21 °C.",
    ] {
        assert!(row.contains(text), "{text}: {row}");
    }
    // A reading that the dot prints as it was typed is not said twice.
    let row = bench(PROFILE, &["{check: crank-radial-play, after: 0.05 mm}"]);
    assert_eq!(row["rows"][0]["typed"], serde_json::json!([]));
    let row = bench(PROFILE, &["{check: crank-radial-play, after: 50 um}"]);
    assert!(plain(&row["rows"][0]).contains("Read after the work: 50 µm."));
}

#[test]
fn a_meter_over_its_range_is_read_in_words_and_in_signs() {
    for typed in ["'>100 Mohm'", "'> 100 Mohm'", "over 100 Mohm", ">100 Mohm"] {
        let check = format!("{{check: insulation-resistance, after: {typed}, at: 20 degC}}");
        let row = plain(&bench(PROFILE, &[&check]));
        assert!(row.contains("≥ 25 MΩ") && row.contains("> 100 MΩ"), "{typed}: {row}");
    }
    let row = plain(&bench(PROFILE, &["{check: crank-radial-play, after: under 0.01 mm}"]));
    assert!(row.contains("≤ 0.01 mm") && row.contains("< 0.01 mm"), "{row}");
}

#[test]
fn what_several_figures_share_is_said_at_the_first() {
    let check = "{check: winding-resistance, after: [212 mohm, 213 mohm, 211 mohm], at: 21 degC}";
    let both = bench(PROFILE, &[check, check]);
    let typed: Vec<bool> = both["rows"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| said(&row["typed"]).contains("213"))
        .collect();
    assert_eq!(typed, [true, false, true, false]);
}

#[test]
fn a_torque_is_words_and_no_dot() {
    let sheet = |screws: &str, profile: &str| {
        let work = format!("work: {{torque: [{{screws: casing screws, set: 25 Nm{screws}}}]}}\n");
        view(profile, &format!("{HEAD}arrival: {{date: 2026-03-02}}\n{work}"), None)["every-reading"].take()
    };
    assert_eq!(sheet("", PROFILE), Value::Null, "listed with the work alone");
    let table = sheet(", thread: M8", PROFILE);
    let row = &table["rows"][0];
    assert_eq!(
        (&row["drawn"], &row["after"], &row["verdict"]),
        (&false.into(), &Value::Null, &"".into())
    );
    let printed = plain(row);
    assert!(printed.contains("casing screws") && printed.contains("24.6 N·m at most"), "{printed}");
    assert!(!printed.contains("outside"), "{printed}");
    let own = format!(
        "{PROFILE}limits: {{torques: [{{screws: casing screws, set: 8 Nm, tolerance: 10 %}}]}}\n"
    );
    let row = plain(&sheet(", thread: M8", &own)["rows"][0]);
    for text in ["Set to 25 N·m.", "7.2 N·m to 8.8 N·m · our own limit", "outside its limit"] {
        assert!(row.contains(text), "{text}: {row}");
    }
}

/// What a customer reads as the source of a limit: an edition, our own limit, or common practice.
#[test]
fn every_limit_on_paper_says_whose_it_is_and_none_how_it_was_learned() {
    let own = format!(
        "{PROFILE}rules: epac\nlimits: {{thermal-class: F, crank-radial-play: 0.25 mm, no-load-current: 1 A, \
         checks: [{{check: crank-drag, at-most: 0.4 Nm}}]}}\n"
    );
    let checks = [
        "{check: crank-radial-play, after: 0.05 mm}",
        "{check: crank-drag, after: 0.3 Nm}",
        "{check: winding-resistance, after: [212 mohm, 213 mohm, 211 mohm], at: 21 degC}",
        "{check: insulation-resistance, after: 240 Mohm, at: 21 degC}",
        "{check: no-load-current, after: 1.1 A}",
        "{check: temperature-rise, cold: 200 mohm, hot: 233 mohm, at: 20 degC, ambient: 23 degC}",
        "{check: hall-states, states-after: [001, 011, 010, 110, 100, 101]}",
        "{check: shaft-seat, after: 20.004 mm, bearing: 6804-2RS, turning-ring: inner}",
        "{check: bearing-clearance, after: 12 um, bearing: 6804-2RS}",
        "{check: battery-voltage, after: 41.1 V, cells: 10}",
    ];
    let list: String = checks.iter().map(|check| format!("  - {check}\n")).collect();
    let text = format!(
        "{HEAD}arrival: {{date: 2026-03-02}}\nbench:\n{list}ride: {{date: 2026-03-10, distance: 4 km, \
         cut-off: 24.6 km/h ± 0.2 km/h, run-on: 1.2 m, walk-assist: 5.5 km/h}}\n"
    );
    let view = view(&own, &text, None);
    let rows = view["every-reading"]["rows"]
        .as_array()
        .unwrap()
        .iter()
        .chain(view["every-reading-of-the-ride"].as_array().unwrap());
    for row in rows {
        let limit = row["limit"].as_str().unwrap();
        if limit.is_empty() {
            assert!(row["verdict"].as_str().unwrap().contains("no limit is known"), "{row}");
            continue;
        }
        let whose = [
            "our own limit",
            "common practice, no published limit",
            "ANSI/EASA AR100-2020",
            "IEEE Std 43-2013",
            "ISO 286-2:2010",
            "ISO 5753-1:2009",
            "EN 15194:2017",
        ];
        assert!(whose.iter().any(|one| limit.contains(one)), "{limit}");
    }
    let all = plain(&view).to_lowercase();
    for word in ["from memory", "second hand", "told by", "tbis", "2202/e", "maker's catalogue"] {
        assert!(!all.contains(word), "{word}");
    }
}

#[test]
fn the_rules_of_a_bike_go_before_those_of_the_workshop() {
    let ride = "ride: {date: 2026-03-10, distance: 4 km, cut-off: 44.5 km/h ± 0.2 km/h}\n";
    let limit = |unit: &str| {
        let text = HEAD.replace("900 km", &format!("900 km{unit}"));
        let text = format!("{text}arrival: {{date: 2026-03-02}}\n{ride}");
        let profile = format!("{PROFILE}rules: epac\n");
        plain(&view(&profile, &text, None)["every-reading-of-the-ride"])
    };
    assert!(limit("").contains("at most 25 km/h · EN 15194:2017"));
    assert!(limit(", rules: s-pedelec").contains("at most 45 km/h · Regulation (EU) No 168/2013"));
}

#[test]
fn a_sound_without_a_background_is_not_said_to_be_freed_of_it() {
    let loud = |background: &str| {
        plain(&bench(
            PROFILE,
            &[&format!("{{check: running-noise, before: 52 dB, after: 44 dB{background}}}")],
        ))
    };
    assert!(!loud("").contains("allowed for") && loud("").contains("Lower by at least 8 dB."));
    assert!(loud(", background: 30 dB").contains("allowed for (ISO 10140-4)"));
}

#[test]
fn no_figure_is_finer_than_what_was_read() {
    let mass = plain(&bench(PROFILE, &["{check: unit-mass, before: 3.02 kg, after: 2.94 kg}"]));
    assert!(mass.contains("before 3 020 g") || mass.contains("before 3020 g"), "{mass}");
}

/// 25.0 km/h are 15.53 mph: the paper says within, and why, and prints no 15.53 beside 15.5.
#[test]
fn fifteen_and_a_half_miles_an_hour_are_twenty_five_kilometres() {
    let text = format!(
        "{HEAD}arrival: {{date: 2026-03-02}}\n\
         ride: {{date: 2026-03-10, distance: 4 mi, cut-off: 25.0 km/h ± 0.0 km/h}}\n"
    );
    let profile = format!("{PROFILE}rules: gb\nunits: imperial\n");
    let row = plain(&view(&profile, &text, None)["every-reading-of-the-ride"][0]);
    for said in ["after 15.5 mph", "within its limit", "at most 15.5 mph", "Compared to a tenth"] {
        assert!(row.contains(said), "{said}: {row}");
    }
    assert!(!row.contains("15.53") && !row.contains("outside"), "{row}");
}

#[test]
fn a_sign_that_a_reading_shows_is_printed_as_found_on_the_bench() {
    let page = |before: &str| {
        let text = format!(
            "{HEAD}arrival: {{date: 2026-03-02}}\nstrip-down: {{date: 2026-03-04}}\n\
             bench:\n  - {{check: winding-resistance, before: [{before}], at: 20 degC}}\n\
             cause: {{main: electrical}}\n"
        );
        said(&view(PROFILE, &text, None)["cause"])
    };
    let low = page("90 mohm, 100 mohm, 100 mohm");
    assert!(
        low.contains("One pair of windings that measures low") && low.contains("bench"),
        "{low}"
    );
    let even = page("100 mohm, 101 mohm, 100 mohm");
    assert!(!even.contains("pair of windings"), "{even}");
}
