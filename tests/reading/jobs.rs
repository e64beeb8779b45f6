//! Forty jobs of all kinds, as a workshop meets them in a year: made by counting, never by chance.

use std::fmt::Write;

/// What was found and why, and how such a job ends.
struct Story {
    name: &'static str,
    kind: &'static str,
    unit: &'static str,
    arrival: &'static str,
    findings: &'static [&'static str],
    cause: &'static str,
    end: End,
}

#[derive(Clone, Copy)]
enum End {
    Repaired,
    Exchanged,
    Unrepaired,
    NoFault,
    Serviced,
    Open,
}

const STORIES: [Story; 20] = [
    Story {
        name: "water past the seal",
        kind: "mid-drive",
        unit: ", washed-with: pressure-washer",
        arrival: "first-noticed: {date: 2025-12-20, sign: noise, at: 2100 km}, water: 40 ml",
        findings: &[
            "main-bearing-drive-side, condition: failed, signs: [moisture-corrosion, races-worn-deep], action: replaced",
            "main-bearing-non-drive-side, condition: damaged, signs: [moisture-corrosion], action: replaced",
            "crank-seal-drive-side, condition: damaged, signs: [rust-trail-inward, seal-lip-damaged], action: replaced",
            "gear-grease, condition: damaged, signs: [grease-milky], action: replaced",
            "rotor-bearing-inner, condition: sound, action: replaced",
            "rotor-bearing-outer, condition: sound, action: replaced",
            "crank-seal-non-drive-side, condition: sound, action: replaced",
            "stator-winding, condition: sound, action: kept",
            "controller-board, condition: sound, action: kept",
        ],
        cause: "main: ingress, contributing: [wear-over-time]",
        end: End::Repaired,
    },
    Story {
        name: "one dry bearing",
        kind: "mid-drive",
        unit: ", in-use-since: 2019-03-30",
        arrival: "first-noticed: {date: 2026-02-21, sign: noise}",
        findings: &[
            "main-bearing-drive-side, condition: worn, signs: [grease-dried-out, glazed-race], action: replaced",
            "main-bearing-non-drive-side, condition: sound, action: kept",
            "output-gear, condition: sound, action: kept",
        ],
        cause: "main: mechanical, origin: age",
        end: End::Repaired,
    },
    Story {
        name: "broken gear in a hub",
        kind: "hub",
        unit: ", used-for: [cargo]",
        arrival: "first-noticed: {date: 2026-02-27, sign: less-help}",
        findings: &[
            "planet-gear, condition: failed, signs: [tooth-overload-break], action: replaced",
            "ring-gear, condition: damaged, signs: [tooth-scuffing], action: repaired",
            "gear-grease, condition: damaged, signs: [grease-black-glitter], action: replaced",
            "hub-bearing-drive-side, condition: worn, signs: [particle-dents], action: replaced",
            "hub-bearing-non-drive-side, condition: sound, action: replaced",
            "stator-winding, condition: sound, action: kept",
        ],
        cause: "main: mechanical, origin: overload",
        end: End::Repaired,
    },
    Story {
        name: "burnt switch",
        kind: "mid-drive",
        unit: "",
        arrival: "first-noticed: {date: 2026-02-25, sign: cut-out}, bike-check: {display: on, battery: on, error-codes: E21, codes-point-to: unit, assistance: none, noise: silent}",
        findings: &[
            "controller-board, condition: failed, signs: [transistor-burnt-dry, measured-short]",
            "stator-winding, condition: sound, signs: [winding-bright]",
            "output-gear, condition: sound",
        ],
        cause: "main: electrical",
        end: End::Exchanged,
    },
    Story {
        name: "a blow, then water",
        kind: "mid-drive",
        unit: ", washed-with: garden-hose",
        arrival: "first-noticed: {date: 2026-02-28, sign: feel}, water: 15 ml",
        findings: &[
            "case-half-drive-side, condition: failed, signs: [casing-crack-or-dent]",
            "rotor, condition: failed, signs: [magnets-rusty]",
            "main-bearing-drive-side, condition: failed, signs: [moisture-corrosion]",
            "gear-grease, condition: damaged, signs: [mud-inside]",
        ],
        cause: "main: mechanical, contributing: [ingress], origin: impact",
        end: End::Unrepaired,
    },
    Story {
        name: "no fault",
        kind: "mid-drive",
        unit: "",
        arrival: "bike-check: {display: flickering, battery: on, error-codes: E07, codes-point-to: wiring, assistance: cuts-out, noise: silent}, signs: [faultless-on-swap]",
        findings: &[
            "main-connector, condition: sound",
            "output-gear, condition: sound, signs: [grease-clean-and-full]",
            "controller-board, condition: sound",
        ],
        cause: "main: no-fault-found",
        end: End::NoFault,
    },
    Story {
        name: "worn plastic gear",
        kind: "mid-drive",
        unit: "",
        arrival: "first-noticed: {date: 2025-11-10, sign: noise, at: 4000 km}",
        findings: &[
            "intermediate-gear, condition: worn, signs: [plastic-teeth-worn], action: replaced",
            "motor-pinion, condition: worn, signs: [tooth-pitting], action: replaced",
            "freewheel-clutch, condition: sound, action: cleaned",
        ],
        cause: "main: mechanical, origin: wear",
        end: End::Repaired,
    },
    Story {
        name: "corroded plug",
        kind: "hub",
        unit: "",
        arrival: "first-noticed: {date: 2026-01-31, sign: cut-out}",
        findings: &[
            "main-connector, condition: damaged, signs: [pins-corroded], action: replaced",
            "cable-gland, condition: damaged, signs: [gland-open], action: replaced",
            "controller-board, condition: damaged, signs: [board-corrosion], action: cleaned",
            "stator-winding, condition: sound, signs: [winding-bright], action: kept",
        ],
        cause: "main: ingress",
        end: End::Repaired,
    },
    Story {
        name: "slipping clutch",
        kind: "mid-drive",
        unit: "",
        arrival: "first-noticed: {date: 2026-02-10, sign: less-help}",
        findings: &[
            "freewheel-clutch, condition: failed, signs: [clutch-slips, clutch-track-dented], action: replaced",
            "output-gear, condition: sound, action: kept",
        ],
        cause: "main: mechanical",
        end: End::Repaired,
    },
    Story {
        name: "bent spindle after a fall",
        kind: "mid-drive",
        unit: "",
        arrival: "first-noticed: {date: 2026-02-22, sign: play}",
        findings: &[
            "crank-axle, condition: failed, signs: [axle-cracked-or-bent], action: replaced",
            "main-bearing-drive-side, condition: damaged, signs: [true-brinelling], action: replaced",
            "main-bearing-non-drive-side, condition: damaged, signs: [true-brinelling], action: replaced",
        ],
        cause: "main: mechanical, origin: impact",
        end: End::Repaired,
    },
    Story {
        name: "dead torque sensor",
        kind: "mid-drive",
        unit: "",
        arrival: "bike-check: {display: on, battery: on, error-codes: E30, codes-point-to: unit, assistance: weak, noise: silent}",
        findings: &[
            "torque-sensor, condition: failed, signs: [torque-sensor-offset, sensor-drift], action: replaced",
            "controller-board, condition: sound, action: kept",
            "main-bearing-drive-side, condition: sound, action: kept",
        ],
        cause: "main: electrical, origin: material",
        end: End::Repaired,
    },
    Story {
        name: "bearing creep",
        kind: "hub",
        unit: "",
        arrival: "first-noticed: {date: 2025-10-01, sign: play, at: 6100 km}",
        findings: &[
            "bearing-seat, condition: damaged, signs: [ring-turned-in-seat], action: repaired",
            "hub-bearing-drive-side, condition: worn, signs: [races-worn-deep, play-with-worn-seat], action: replaced",
            "hub-bearing-non-drive-side, condition: worn, signs: [races-worn-deep], action: replaced",
            "axle-seal, condition: worn, action: replaced",
        ],
        cause: "main: wear-over-time",
        end: End::Repaired,
    },
    Story {
        name: "service before anything failed",
        kind: "mid-drive",
        unit: "",
        arrival: "packing: a box",
        findings: &[
            "gear-grease, condition: worn, signs: [grease-dried-out], action: replaced",
            "crank-seal-drive-side, condition: sound, action: replaced",
            "crank-seal-non-drive-side, condition: sound, action: replaced",
            "intermediate-gear, condition: sound, action: kept",
        ],
        cause: "main: mechanical, origin: age",
        end: End::Serviced,
    },
    Story {
        name: "stuck and undetermined",
        kind: "mid-drive",
        unit: "",
        arrival: "first-noticed: {date: 2026-02-26, sign: feel}",
        findings: &[
            "main-bearing-drive-side, condition: failed, signs: [bearing-seized]",
            "main-bearing-non-drive-side, condition: not-examined",
        ],
        cause: "main: undetermined",
        end: End::Unrepaired,
    },
    Story {
        name: "burnt winding",
        kind: "hub",
        unit: ", used-for: [cargo]",
        arrival: "first-noticed: {date: 2026-02-18, sign: less-help}",
        findings: &[
            "stator-winding, condition: failed, signs: [winding-phase-burnt, winding-pair-low]",
            "controller-board, condition: sound",
            "hub-bearing-drive-side, condition: sound",
            "hub-bearing-non-drive-side, condition: sound",
        ],
        cause: "main: electrical, origin: overload",
        end: End::Exchanged,
    },
    Story {
        name: "many things at once",
        kind: "mid-drive",
        unit: ", washed-with: pressure-washer",
        arrival: "first-noticed: {date: 2025-09-01, sign: noise, at: 3000 km}, water: 60 ml",
        findings: &[
            "main-bearing-drive-side, condition: failed, signs: [cage-broken, moisture-corrosion], action: replaced",
            "main-bearing-non-drive-side, condition: failed, signs: [moisture-corrosion], action: replaced",
            "rotor-bearing-inner, condition: failed, signs: [moisture-corrosion], action: replaced",
            "rotor-bearing-outer, condition: damaged, signs: [moisture-corrosion], action: replaced",
            "crank-seal-drive-side, condition: damaged, signs: [seal-lip-damaged], action: replaced",
            "crank-seal-non-drive-side, condition: damaged, signs: [seal-lip-damaged], action: replaced",
            "o-ring, condition: worn, action: replaced",
            "intermediate-gear, condition: damaged, signs: [debris-in-mesh], action: replaced",
            "output-gear, condition: damaged, signs: [gear-rust], action: replaced",
            "freewheel-clutch, condition: damaged, signs: [clutch-rust], action: replaced",
            "speed-sensor, condition: sound, action: kept",
            "controller-board, condition: sound, action: kept",
            "stator-winding, condition: sound, action: kept",
            "rotor, condition: sound, action: kept",
            "main-connector, condition: sound, action: kept",
        ],
        cause: "main: ingress",
        end: End::Repaired,
    },
    Story {
        name: "wrong grease of an earlier repair",
        kind: "mid-drive",
        unit: "",
        arrival: "first-noticed: {date: 2026-01-20, sign: noise}",
        findings: &[
            "gear-grease, condition: damaged, signs: [grease-wrong-or-mixed], action: replaced",
            "intermediate-gear, condition: damaged, signs: [plastic-swollen], action: replaced",
            "case-screw, condition: damaged, signs: [thread-stripped, tamper-marks], action: replaced",
        ],
        cause: "main: mechanical, origin: assembly",
        end: End::Repaired,
    },
    Story {
        name: "gnawed cable",
        kind: "hub",
        unit: "",
        arrival: "first-noticed: {date: 2026-02-27, sign: error-code}",
        findings: &[
            "motor-cable, condition: failed, signs: [gnawed-cable], action: replaced",
            "motor-connector, condition: sound, action: cleaned",
        ],
        cause: "main: electrical",
        end: End::Repaired,
    },
    Story {
        name: "on the bench",
        kind: "mid-drive",
        unit: "",
        arrival: "water: 5 ml, bike-check: {display: on, battery: on, assistance: weak, noise: grinding}",
        findings: &[],
        cause: "",
        end: End::Open,
    },
    Story {
        name: "water without a way",
        kind: "hub",
        unit: ", washed-with: garden-hose",
        arrival: "first-noticed: {date: 2026-02-02, sign: noise}",
        findings: &[
            "hub-bearing-drive-side, condition: damaged, signs: [standstill-etching], action: replaced",
            "hub-bearing-non-drive-side, condition: damaged, signs: [standstill-etching], action: replaced",
            "hub-shell, condition: sound, signs: [tide-line-inside], action: cleaned",
            "gear-grease, condition: damaged, signs: [grease-milky], action: replaced",
        ],
        cause: "main: ingress",
        end: End::Repaired,
    },
];

/// Each job with its name: every story twice, the second time with other figures and another end of it.
pub fn all() -> Vec<(String, String)> {
    let mut jobs = Vec::new();
    for round in 0..2 {
        for (at, story) in STORIES.iter().enumerate() {
            jobs.push((format!("{}, round {round}", story.name), sheet(story, at + 20 * round)));
        }
    }
    jobs
}

fn sheet(story: &Story, at: usize) -> String {
    let complaints =
        ["It grinds uphill", "There is a tick at the pedals", "It hums and does not pull"];
    let mut text = format!(
        "job: R-{at}\ncustomer: {{name: Nadia Ferrow}}\nunit: {{kind: {}, mileage: {} km{}}}\n\
         arrival: {{date: 2026-03-02, complaint: {}, {}}}\n",
        story.kind,
        6500 + 83 * at,
        story.unit,
        complaints[at % 3],
        story.arrival,
    );
    if !story.findings.is_empty() {
        text += "strip-down:\n  date: 2026-03-04\n  findings:\n";
        for finding in story.findings {
            let _ = writeln!(text, "    - {{part: {finding}}}");
        }
        let _ = writeln!(text, "cause: {{{}}}", story.cause);
    }
    text + &end(story.end, at)
}

fn end(end: End, at: usize) -> String {
    let noise = ["silent", "a faint hum", "an even whirr"][at % 3];
    let ride = format!(
        "ride: {{bike: workshop, distance: {}.{} km, climb: {} m, cut-off: 24.{} km/h, error-codes: none, noise: {noise}}}\n",
        5 + at % 7,
        at % 10,
        40 + 11 * at,
        3 + at % 6,
    );
    let bench = format!(
        "bench: [{{check: crank-radial-play, before: 0.{} mm, after: 0.0{} mm}}]\n",
        30 + at,
        3 + at % 6
    );
    let drying =
        ["", ", drying: {how: warm-air, for: 48 h, at: 45 degC}", ", grease: lithium complex"]
            [at % 3];
    let work = format!("work: {{labour: 60 min{drying}}}\n");
    match end {
        End::Repaired => format!("{work}{bench}{ride}outcome: repaired\n"),
        End::Serviced => format!("{work}{ride}outcome: serviced\n"),
        End::Exchanged => {
            format!("exchange: {{model: Kestmar C{}}}\n{ride}outcome: exchanged\n", at % 9)
        }
        End::Unrepaired => {
            "decision: {option: return-as-it-is}\noutcome: returned-unrepaired\n".into()
        }
        End::NoFault => "outcome: no-fault-found\n".into(),
        End::Open => String::new(),
    }
}
