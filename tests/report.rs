//! What the return report says: the view that templates see, made from sheets with one thing each.

/// Money on paper: options in every form, words of settlement.
mod money;

use serde_json::Value;

use crate::paper;

/// Bench rows: what was typed, whose limit, which of several.
mod bench;
/// Page 1: questions, days, the drawing, dangers.
mod page_one;

pub const PROFILE: &str = "name: Hollowmere Drive Works\ncurrency: GBP\nrates: {hour: £44.00}\n\
    tax: {name: VAT, rate: 20 %, prices: including, rounding: by-invoice}\n";
const HEAD: &str = "job: A-1\ncustomer: {name: Nadia Ferrow}\n\
    unit: {kind: mid-drive, model: Kestmar C2, mileage: 900 km}\n";

/// The view of a sheet as the templates get it, without photos.
pub fn view(profile: &str, text: &str, track: Option<&[u8]>) -> Value {
    paper::made_of_faulty(profile, text, track).view(&paper::english())
}

/// Every text of a part of the view on one line.
pub fn said(part: &Value) -> String {
    match part {
        Value::String(text) => text.clone() + " ",
        Value::Array(items) => items.iter().map(said).collect(),
        Value::Object(fields) => fields.values().map(said).collect(),
        _ => String::new(),
    }
}

#[test]
fn house_scores_are_said_beside_the_signs() {
    let text = format!(
        "{HEAD}arrival: {{date: 2026-03-02, signs: [brown-water]}}\n\
         cause: {{main: ingress}}\n"
    );
    let table = view(PROFILE, &text, None);
    assert_eq!(table["cause"]["signs"]["note"], Value::Null);
    let own = format!("{PROFILE}scores: [{{sign: brown-water, ingress: 1}}]\n");
    let house = view(&own, &text, None);
    let note = house["cause"]["signs"]["note"].as_str().unwrap();
    assert!(note.contains("this workshop has set"), "{note}");
}

#[test]
fn what_the_bike_did_points_to_the_unit_or_past_it() {
    let told = |check: &str| {
        let arrival = format!("arrival: {{date: 2026-03-02, bike-check: {{{check}}}}}\n");
        said(
            &view(
                PROFILE,
                &format!(
                    "{HEAD}{arrival}strip-down: {{date: 2026-03-04, findings: []}}\ncause: {{main: undetermined}}\n"
                ),
                None,
            )["cause"],
        )
    };
    let unit = told("display: on, battery: on, assistance: weak, noise: grinding");
    assert!(unit.contains("the assistance and the sound pointed to the drive unit"), "{unit}");
    let elsewhere = told("display: flickering, battery: on, noise: silent");
    assert!(elsewhere.contains("the display pointed away from the drive unit"), "{elsewhere}");
    assert!(!told("display: on").contains("pointed"));
}

#[test]
fn at_arrival_page_1_says_where_the_fault_is_likelier() {
    let text = format!(
        "{HEAD}arrival: {{date: 2026-03-02, water: 40 ml, \
         bike-check: {{display: flickering, noise: silent}}}}\n"
    );
    let answers = view(PROFILE, &text, None)["answers"].clone();
    assert_eq!(answers[0]["question"], "What we found");
    let found = said(&answers[0]);
    assert!(
        found.contains("40\u{202f}ml of water ran out of it. Before anything was opened"),
        "{found}"
    );
    assert!(found.contains("pointed away from the drive unit"), "{found}");
}

#[test]
fn riding_on_is_worded_as_time_run_without_a_dated_sign() {
    let strip = "strip-down: {date: 2026-03-04, findings: [{part: main-bearing-drive-side, \
        condition: failed, signs: [moisture-corrosion, races-worn-deep]}]}\n\
        cause: {main: ingress, contributing: [neglect]}\n";
    let bare = format!("{HEAD}arrival: {{date: 2026-03-02}}\n{strip}");
    let undated = said(&view(PROFILE, &bare, None));
    assert!(undated.contains("From when it could be noticed we cannot tell"), "{undated}");
    assert!(!undated.contains("neglect") && !undated.contains("ridden on"), "{undated}");
    let noticed = "first-noticed: {date: 2025-12-01, sign: noise}";
    let dated = format!("{HEAD}arrival: {{date: 2026-03-02, {noticed}}}\n{strip}");
    let dated = said(&view(PROFILE, &dated, None));
    assert!(dated.contains("first sign was noticed on 1 December 2025"), "{dated}");
    assert!(!dated.contains("neglect"), "{dated}");
}

#[test]
fn words_of_ones_own_never_hide_a_doubt_a_code_or_a_reading_outside_its_limit() {
    let text = format!(
        "{HEAD}arrival: {{date: 2026-03-02}}\n\
         strip-down: {{date: 2026-03-04, evidence-lost: Rinsed by the owner, findings: [{{part: \
         main-bearing-drive-side, condition: failed, signs: [gritty-by-hand]}}]}}\n\
         cause: {{main: ingress}}\nwork: {{labour: 60 min}}\n\
         bench: [{{check: crank-radial-play, of: drive side, after: 0.80 mm}}]\n\
         ride: {{error-codes: E12, noise: a tick, note: It rode well.}}\noutcome: repaired\n\
         in-short: {{lead: Water ruined it., why: It was washed., rides: It rides., did: All done.}}\n"
    );
    let profile = format!("{PROFILE}limits: {{crank-radial-play: 0.25 mm}}\n");
    let view = view(&profile, &text, None);
    let lead = view["lead"].as_str().unwrap();
    assert!(lead.starts_with("Water ruined it. In our judgement the cause is water"), "{lead}");
    let page_1 = said(&view["answers"]);
    for said in [
        "It was washed. Some evidence was gone before we opened it.",
        "Fault codes on the ride: E12.",
        "Sound on the ride: a tick.",
        "Outside its limit: Play at the crank, up and down: drive side.",
    ] {
        assert!(page_1.contains(said), "{said} is not in {page_1}");
    }
    // The note that page 1 has no room for is in its section.
    assert!(said(&view["ride"]["text"]).starts_with("It rode well."), "{}", view["ride"]);
}

#[test]
fn a_part_that_can_hurt_somebody_brings_a_caution_whatever_the_cause() {
    let text = format!(
        "{HEAD}arrival: {{date: 2026-03-02}}\n\
         strip-down: {{date: 2026-03-04, findings: [{{part: crank-axle, condition: failed, \
         signs: [axle-cracked-or-bent]}}]}}\ncause: {{main: undetermined}}\noutcome: repaired\n\
         work: {{note: New axle.}}\n"
    );
    let cautions = said(&view(PROFILE, &text, None)["care"]["cautions"]);
    assert!(cautions.starts_with("This concerns safety:"), "{cautions}");
    assert!(cautions.contains("qualified person"), "{cautions}");
}

#[test]
fn money_adds_up_as_it_is_printed() {
    let text = format!(
        "{HEAD}arrival: {{date: 2026-03-02}}\n\
         options: [{{kind: overhaul, price: £250.00, days: 6}}, {{kind: exchange, price: £420.00}}]\n\
         decision: {{option: overhaul, deposit: £50.00}}\n\
         work:\n  parts: [{{what: bearing, quantity: 2, price: £9.80}}]\n  labour: 90 min\n  \
         discount: {{share: 10 %, reason: second repair}}\n"
    );
    let view = view(PROFILE, &text, None);
    let totals = &view["work"]["totals"];
    let amount = |label: &str| {
        let line = totals.as_array().unwrap().iter().find(|line| line["label"] == label);
        line.unwrap_or_else(|| panic!("no {label} in {totals}"))["amount"].as_str().unwrap()
    };
    // 2 * 9.80 + 1.5 * 44.00 = 85.60, a tenth off = 77.04, a sixth of it VAT.
    assert_eq!(amount("Discount of 10 %: second repair"), "−£8.56");
    assert_eq!(amount("Total"), "£77.04");
    assert_eq!(amount("of which VAT at 20 %"), "£12.84");
    assert_eq!(amount("Paid before as a deposit"), "−£50.00");
    assert_eq!(amount("To pay"), "£27.04");
    let options = &view["options"];
    assert_eq!(options["rows"][0]["cells"][1], "£250.00");
    assert_eq!(options["rows"][0]["chosen"], "your choice");
    assert_eq!(options["rows"][1]["chosen"], Value::Null);
    // Page 1 shows what is left in large figures.
    assert_eq!(view["paid"]["label"], "To pay");
    assert_eq!(view["paid"]["amount"], "£27.04");
    assert_eq!(view["paid"]["notes"][0], "of a total of £77.04");
}

#[test]
fn a_recorded_ride_is_drawn_with_its_ends_clipped_and_no_place_leaves_it() {
    let profile = format!("{PROFILE}rules: gb\nunits: metric\n");
    let text = format!(
        "{HEAD}arrival: {{date: 2026-03-02}}\nride: {{track: ride.gpx, cut-off: 24.6 km/h ± 0.2 km/h}}\n"
    );
    let track = include_bytes!("../samples/hd-2614/ride.gpx");
    let view = view(&profile, &text, Some(track));
    let ride = &view["ride"];
    let all = said(ride) + &said(&view["every-reading-of-the-ride"]);
    assert!(all.contains("11.9\u{202f}km in 33\u{202f}min"), "{all}");
    assert!(all.contains("long and fast enough to judge by"), "{all}");
    assert!(all.contains("The first and last 200\u{202f}m are left out"), "{all}");
    assert!(all.contains("within its limit"), "{all}");
    assert!(all.contains("the motor stops assisting at 24.6"), "{all}");
    assert!(!all.contains("54.5") && !all.contains("2026-03-10"), "{all}");
    let curve = &ride["curve"];
    let speed = curve["speed"][0].as_array().unwrap();
    let (first, last) = (&speed[0], &speed[speed.len() - 1]);
    assert_eq!((first[0].as_f64(), last[0].as_f64()), (Some(0.0), Some(1.0)));
    // The first mark of the axis: the ride starts at 0.2 km on paper.
    assert_eq!(curve["way"][0]["text"], "2\u{202f}km");
    assert!(curve["alt"].as_str().unwrap().contains("judge by"));
}

#[test]
fn a_ride_too_short_to_prove_the_repair_says_so_on_paper() {
    let text = format!(
        "{HEAD}arrival: {{date: 2026-03-02}}\nride: {{distance: 600 m, cut-off: 24 km/h}}\n"
    );
    let ride = view(PROFILE, &text, None)["ride"].clone();
    assert_eq!(ride["heading"], "The test ride was too short or too slow to judge by");
    assert!(said(&ride["text"]).contains("too short to judge by"));
}

#[test]
fn a_figure_that_cannot_be_computed_prints_its_reason() {
    let text = format!(
        "{HEAD}arrival: {{date: 2026-03-02}}\n\
         bench: [{{check: winding-resistance, after: [212 mohm, 213 mohm], at: 21 degC}}]\n"
    );
    let bench = said(&view(PROFILE, &text, None)["every-reading"]);
    assert!(bench.contains("not determined: too few readings"), "{bench}");
}

#[test]
fn seats_print_the_fit_that_they_give() {
    let text = format!(
        "{HEAD}arrival: {{date: 2026-03-02}}\n\
         bench: [{{check: shaft-seat, after: 20.006 mm, bearing: 6804-2RS, zone: k5}}]\n"
    );
    let bench = said(&view(PROFILE, &text, None)["every-reading"]);
    // ISO 286-2: k5 of 20 mm is +2 to +11 um; ISO 492 normal: bore 0 to -10 um (F-rows).
    assert!(
        bench.contains(
            "A seat of this tolerance holds the bearing with 2 to 21\u{202f}µm of interference"
        ) || bench
            .contains("A seat of this tolerance holds the bearing with 2 to 21 µm of interference"),
        "{bench}"
    );
    assert!(bench.contains("As measured it sits with"), "{bench}");
}

#[test]
fn checks_are_dated_by_the_riders_own_pace() {
    let text = "job: A-1\ncustomer: {name: Nadia Ferrow}\n\
        unit: {kind: mid-drive, mileage: 3000 km, in-use-since: 2025-12-02, \
        washed-with: pressure-washer}\narrival: {date: 2026-03-02}\n\
        strip-down: {date: 2026-03-04, findings: []}\ncause: {main: ingress}\n\
        work: {note: Rebuilt.}\noutcome: repaired\nreturned: 2026-03-11\n";
    let care = view(PROFILE, text, None)["care"].clone();
    let schedule = said(&care["schedule"]);
    assert!(schedule.contains("your own pace of about 33.3\u{202f}km a day"), "{schedule}");
    // 80 km at 33.3 km a day are 2.4 days: whole days, rounded down.
    assert!(schedule.contains("13 March 2026"), "{schedule}");
    assert_eq!(care["hand-test"]["steps"].as_array().unwrap().len(), 4);
    assert_eq!(care["refit"]["lines"].as_array().unwrap().len(), 9);
}

#[test]
fn a_cracked_axle_is_not_to_be_ridden_and_nothing_is_said_of_charging_or_of_first_miles() {
    let text = |action: &str| {
        format!(
            "{HEAD}arrival: {{date: 2026-03-02}}\n\
             strip-down: {{date: 2026-03-04, findings: [{{part: crank-axle, condition: failed, \
             signs: [axle-cracked-or-bent], action: {action}}}]}}\ncause: {{main: mechanical}}\n\
             outcome: repaired\nwork: {{note: Bearings new.}}\nreturned: 2026-03-11\n"
        )
    };
    let open = view(PROFILE, &text("kept"), None);
    let first = open["todo"]["items"][0]["what"].as_str().unwrap();
    assert!(first.starts_with("Do not ride it yet:") && !first.contains("charge"), "{first}");
    let todo = said(&open["todo"]);
    assert!(!todo.contains("hand test"), "{todo}");
    for part in ["refit", "schedule", "hand-test"] {
        assert_eq!(open["care"][part], Value::Null, "{part}");
    }
    assert!(!said(&open["care"]).contains("first minutes"));
    let closed = view(PROFILE, &text("replaced"), None);
    assert!(said(&closed["todo"]).contains("hand test"), "{}", closed["todo"]);
    assert!(closed["care"]["refit"].is_object());
}

#[test]
fn the_look_is_a_dealers_for_a_unit_that_came_by_post() {
    let text = |packing: &str| {
        format!(
            "{HEAD}arrival: {{date: 2026-03-02{packing}}}\ncause: {{main: mechanical}}\n\
             strip-down: {{date: 2026-03-04, findings: [{{part: planet-gear, condition: worn, action: replaced}}]}}\n\
             work: {{note: Rebuilt.}}\noutcome: repaired\nreturned: 2026-03-11\n"
        )
    };
    let schedule = |packing| said(&view(PROFILE, &text(packing), None)["care"]["schedule"]);
    let posted = schedule(", packing: cardboard box");
    assert!(posted.contains("A look by your dealer, or by us"), "{posted}");
    assert!(posted.contains("closed bag") && posted.contains("never the battery"), "{posted}");
    let brought = schedule("");
    assert!(brought.contains("A look by us") && !brought.contains("post it"), "{brought}");
}

#[test]
fn an_owner_who_declined_a_small_job_is_not_told_to_scrap_the_unit() {
    let text = |condition: &str| {
        format!(
            "{HEAD}arrival: {{date: 2026-03-02}}\n\
             strip-down: {{date: 2026-03-04, findings: [{{part: main-bearing-drive-side, \
             condition: {condition}, signs: [glazed-race]}}]}}\ncause: {{main: mechanical}}\n\
             outcome: returned-unrepaired\nreturned: 2026-03-11\n"
        )
    };
    let todo = |condition| said(&view(PROFILE, &text(condition), None)["todo"]);
    let small = todo("worn");
    assert!(small.contains("ride little until then") && !small.contains("waste"), "{small}");
    assert!(!small.contains("Do not ride"), "{small}");
    let unfit = todo("failed");
    assert!(unfit.contains("Do not ride with this unit") && unfit.contains("waste"), "{unfit}");
    // Nothing speaks of rust where none was found.
    assert!(!unfit.contains("rust"), "{unfit}");
}
