//! Parts: every one has its words and its place on the section or is told beside it; a part that no
//! list has costs no job and is printed by the name that was typed.

use std::collections::BTreeSet;

use serde_json::Value as Json;

use splitcase::diagnostic::{Problems, Severity};
use splitcase::document::sections::unit_map::{Drawn, drawn, known, place};
use splitcase::document::templates::Templates;
use splitcase::document::wording::Wording;
use splitcase::sheet::catalogue::sign::SignRow;
use splitcase::sheet::catalogue::{OTHER, PARTS, Part, PartRow};
use splitcase::sheet::vocabulary::UnitKind;
use splitcase::sheet::{self, Sheet};

use crate::paper;

const DRAWN: [Drawn; 4] = [Drawn::MidDrive, Drawn::Hub, Drawn::HubGeared, Drawn::HubDirect];

fn read(text: &str) -> (Sheet, Vec<(Severity, &'static str, String)>) {
    let mut problems = Problems::default();
    let sheet =
        sheet::read("findings.yaml", text.as_bytes(), &crate::messages::workshop(), &mut problems);
    let told = problems.into_sorted().into_iter();
    let told = told.map(|one| (one.severity, one.code, one.hints.join(" | "))).collect();
    (sheet.unwrap(), told)
}

/// A sheet of one kind of unit with these findings, each as typed inside its braces.
fn job(kind: &str, findings: &[String]) -> String {
    let findings: String = findings.iter().map(|one| format!("    - {{{one}}}\n")).collect();
    format!(
        "job: PT-1\ncustomer: {{name: Ansel Brook}}\nunit: {{kind: {kind}}}\n\
         arrival: {{date: 2026-03-02}}\nstrip-down:\n  date: 2026-03-03\n  findings:\n{findings}"
    )
}

/// The drawing of a sheet as the layout gets it.
fn map(text: &str) -> Json {
    let problems = Problems::default();
    let made = paper::made_in(crate::messages::workshop(), text, None, problems);
    made.view(&paper::english())["map"].clone()
}

#[test]
fn every_part_has_a_place_for_each_of_its_kinds_or_is_outside_by_name() {
    let places: Vec<_> = known().collect();
    let named: BTreeSet<&str> = places.iter().map(|(part, _)| *part).collect();
    assert_eq!(named, PARTS.iter().map(|row| row.part.as_str()).collect());
    for (part, kinds) in places {
        let row = PARTS.iter().find(|row| row.part == part).unwrap();
        for drawn in DRAWN.iter().filter(|drawn| row.is_of(drawn.kind())) {
            let kind = drawn.kind();
            // A part of geared hubs alone makes the drawing one of a geared hub.
            let is_geared_alone = kind == UnitKind::Hub && !row.is_of(UnitKind::HubDirect);
            let is_told = [kind.word(), kind.family().word()].iter().any(|one| kinds.contains(one));
            assert!(is_told || is_geared_alone, "{part}: no place on a {}", kind.word());
            if let Some(at) = place(Part(row), *drawn) {
                assert!(at.iter().all(|one| (0.0..=38.0).contains(one)), "{part}: {at:?}");
            }
        }
        for kind in kinds {
            let kind = UnitKind::ALL.iter().find(|one| one.word() == kind).expect("a kind of unit");
            assert!(row.is_of(*kind), "{part}: a place on a {} that lacks it", kind.word());
        }
    }
}

#[test]
fn a_misspelt_group_kind_role_or_place_of_a_sign_does_not_load() {
    let part = |fields: &str| serde_yaml::from_str::<PartRow>(&format!("{{part: shim, {fields}}}"));
    assert!(part("group: shaft, kinds: [hub], roles: [routine]").is_ok());
    for (fields, word) in [
        ("group: shafts, kinds: [hub]", "no group of parts `shafts`"),
        ("group: shaft, kinds: [hubs]", "no kind of unit `hubs`"),
        ("group: shaft, kinds: [hub], roles: [routin]", "routin"),
    ] {
        let message = part(fields).unwrap_err().to_string();
        assert!(message.contains(word), "{message}");
    }
    let sign = |on: &str| {
        serde_yaml::from_str::<SignRow>(&format!(
            "{{sign: dust, ref: SA99, group: A, on: [{on}], kind: seen, strength: weak, link: grease, \
             scores: {{ingress: 0, neglect: 0, mechanical: 0, electrical: 0}}}}"
        ))
    };
    assert!(sign("unit, shaft").is_ok());
    for on in ["units", "bearing", "other"] {
        let message = sign(on).unwrap_err().to_string();
        assert!(message.contains(&format!("no place of signs `{on}`")), "{message}");
    }
}

#[test]
fn no_part_is_lost_and_each_is_named_beside_the_drawing_or_under_it() {
    let wording = Wording::read(&Templates::built_in(), "en", None).unwrap();
    for kind in UnitKind::ALL {
        let rows = || PARTS.iter().filter(|row| row.part != OTHER && row.is_of(*kind));
        let findings: Vec<String> =
            rows().map(|row| format!("part: {}, condition: damaged", row.part)).collect();
        let map = map(&job(kind.word(), &findings));
        let names: Vec<&Json> = map["names"].as_array().unwrap().iter().collect();
        let caption = map["caption"].as_str().unwrap();
        let beside = caption.split_once("Not on the drawing: ").unwrap().1;
        for row in rows() {
            let name = wording.part(&row.part, "plain");
            let is_drawn = names.iter().any(|one| one["part"] == row.part.as_str());
            let is_beside = beside.contains(&format!("{name} (damaged)"));
            assert!(is_drawn != is_beside || is_beside, "{}: {name}", kind.word());
            assert!(map["alt"].as_str().unwrap().contains(name), "{name}");
        }
        assert!(8 <= names.len(), "{}: only {} names", kind.word(), names.len());
        let number = |one: &Json, key: &str| one[key].as_f64().unwrap();
        for (index, one) in names.iter().enumerate() {
            let at = [number(one, "x"), number(one, "y")];
            assert!(at.iter().all(|side| (1.7..=36.3).contains(side)), "off the drawing: {one:?}");
            for other in &names[index + 1..] {
                let apart = (at[0] - number(other, "x")).hypot(at[1] - number(other, "y"));
                assert!(3.5 < apart, "{}: {one:?} hides {other:?}", kind.word());
                // Two names on one side keep a line of 3.5 mm apart.
                let is_beside = one["side"] == other["side"];
                let apart = (number(one, "at") - number(other, "at")).abs();
                assert!(!is_beside || 3.5 <= apart, "{}: {one:?} on {other:?}", kind.word());
            }
        }
    }
}

#[test]
fn planet_gears_are_drawn_only_where_the_hub_has_them() {
    let worn = |kind: &str, part: &str| {
        let map = map(&job(
            kind,
            &[
                format!("part: {part}, condition: worn"),
                "part: hub-bearing-drive-side, condition: worn".into(),
            ],
        ));
        assert!(map.is_object(), "{kind} {part}: {map}");
        map["kind"].as_str().unwrap().to_owned()
    };
    assert_eq!(worn("hub-direct", "rotor-magnets"), "hub-direct");
    assert_eq!(worn("hub-geared", "rotor-magnets"), "hub-geared");
    assert_eq!(worn("hub", "rotor-magnets"), "hub");
    assert_eq!(worn("hub", "planet-gear"), "hub-geared");
    let layout = Templates::built_in().get("shared/unit-map.typ").unwrap().text().to_owned();
    assert!(layout.contains("if kind == \"hub-geared\" { draw-hub-gears }"));
    let (sheet, told) = read(&job("hub-direct", &["part: planet-gear, condition: worn".into()]));
    assert_eq!(told.len(), 1);
    assert_eq!((told[0].0, told[0].1), (Severity::Warning, "sheet/part-of-other-kind"));
    let findings = &sheet.fields.strip_down.as_ref().unwrap().findings;
    assert_eq!(drawn(UnitKind::HubDirect, findings), Drawn::HubDirect);
    assert_eq!(place(findings[0].part.value, Drawn::HubDirect), None);
}

#[test]
fn a_harmed_part_outside_the_unit_alone_draws_nothing() {
    let outside = job("hub", &["part: remote, condition: failed".into()]);
    assert_eq!(map(&outside), Json::Null);
}

#[test]
fn a_part_of_no_list_keeps_its_name_scores_nothing_and_costs_no_job() {
    let text = job(
        "mid-drive",
        &[
            "part: other, called: The clamp of the sensor\'s lead, condition: failed".into(),
            "part: water_sensor-strip, condition: damaged".into(),
            "part: planet-gear, called: third planet gear, condition: worn".into(),
            "part: planet-gear, condition: worn".into(),
            "part: case-screw, condition: sound".into(),
            "part: case-screw, condition: sound".into(),
        ],
    );
    let (sheet, told) = read(&text);
    let codes: Vec<_> = told.iter().map(|one| (one.0, one.1)).collect();
    assert_eq!(codes, [(Severity::Warning, "sheet/unknown-part")]);
    let findings = &sheet.fields.strip_down.as_ref().unwrap().findings;
    let wording = Wording::read(&Templates::built_in(), "en", None).unwrap();
    let names: Vec<&str> = findings.iter().map(|finding| wording.part_of(finding)).collect();
    assert_eq!(
        names,
        [
            "The clamp of the sensor's lead",
            "water sensor strip",
            "third planet gear",
            "planet gear",
            "casing screw",
            "casing screw"
        ]
    );
    assert!(findings[0].part.is_other() && findings[1].part.is_other());
    let caption = map(&text)["caption"].as_str().unwrap().to_owned();
    let beside = "The clamp of the sensor's lead (failed), water sensor strip (damaged)";
    assert!(caption.contains(beside), "{caption}");
}

/// Names as technicians typed them before they knew the list, with what they meant.
#[test]
fn a_name_as_people_type_it_is_answered_with_the_part_that_is_meant() {
    let typed = [
        ("bearings", "main-bearing-drive-side"),
        ("drive-side-bearing", "main-bearing-drive-side"),
        ("main-bearing", "main-bearing-drive-side"),
        ("motor-bearing", "rotor-bearing-inner"),
        ("clutch", "freewheel-clutch"),
        ("controller", "controller-board"),
        ("pcb", "controller-board"),
        ("gear", "planet-gear"),
        ("planet-gears", "planet-gear"),
        ("grease", "gear-grease"),
        ("seal", "axle-seal"),
        ("crank-seal", "crank-seal-drive-side"),
        ("spindle", "crank-axle"),
        ("cranck-axle", "crank-axle"),
        ("breather", "vent"),
        ("oring", "o-ring"),
        ("snap-ring", "circlip"),
        ("spacer", "shim"),
        ("mosfet", "power-transistor"),
        ("plug", "main-connector"),
        ("housing", "case-half-drive-side"),
        ("winding", "stator-winding"),
        ("magnets", "rotor-magnets"),
        ("one-way-clutch", "freewheel-clutch"),
        ("cassette-body", "freehub-body"),
        ("freehub", "freehub-body"),
        ("ntc", "thermistor"),
        ("bms", "battery-management-board"),
        ("battery", "battery-pack"),
        ("pulley", "front-pulley"),
        ("belt", "drive-belt"),
        ("tensioner", "belt-tensioner"),
        ("strain-gauge", "torque-sensor-gauge"),
        ("thermal-pad", "heat-pad"),
        ("external-controller", "outside-controller"),
        ("wiring-loom", "harness"),
    ];
    let mut missed = Vec::new();
    for (word, meant) in typed {
        let (_, told) = read(&job("mid-drive", &[format!("part: {word}, condition: worn")]));
        let unknown = told.iter().find(|one| one.1 == "sheet/unknown-part").unwrap();
        assert_eq!(unknown.0, Severity::Warning);
        if !unknown.2.contains(&format!("`{meant}`")) {
            missed.push(format!("{word}: {}", unknown.2));
        }
    }
    assert!(missed.is_empty(), "{missed:#?}");
    let (_, told) = read(&job("mid-drive", &["part: xylophone, condition: worn".into()]));
    assert!(!told[0].2.contains("did you mean"), "{}", told[0].2);
}
