//! What is learnt from closed jobs: statistics against published data, and what is told of small numbers.

/// Scores of signs against the stated causes.
mod scores;
/// Shares, curves and distributions against other programs.
mod statistics;

use serde_json::Value;
use splitcase::sheet::vocabulary::CauseKind;

use crate::paper;
use crate::workshop::{PROFILE, Workshop};

/// A closed job: its number, day, serial, kilometres, part, its state and what followed.
fn job(at: usize, day: &str, serial: &str, km: u32, rest: &str) -> String {
    format!(
        "job: N-{at}\ncustomer: {{name: Nadia Ferrow, contact: nadia@example.org}}\n\
         unit: {{kind: mid-drive, model: Kestmar C2, serial: {serial}, mileage: {km} km, washed-with: garden-hose}}\n\
         arrival: {{date: {day}}}\n{rest}"
    )
}

/// A repair of a worn bearing, back a week later.
fn repair(day: &str, back: &str) -> String {
    format!(
        "strip-down: {{date: {day}, findings: [{{part: main-bearing-drive-side, condition: failed, \
         signs: [races-worn-deep], action: replaced}}]}}\ncause: {{main: mechanical}}\n\
         work: {{parts: [{{what: Bearing, price: £10.00}}], labour: 90 min}}\n\
         outcome: repaired\nreturned: {back}\n"
    )
}

const GOOD: &str = "outcome: no-fault-found\ncause: {main: no-fault-found}\nreturned: 2026-03-20\n";

fn shop(n: usize) -> Workshop {
    let shop = Workshop::new();
    for at in 0..n {
        let day = format!("2026-03-{:02}", at + 1);
        let rest = if at % 3 == 2 { GOOD.to_owned() } else { repair(&day, "2026-03-20") };
        let text = job(at, &day, &format!("S-100{at:02}"), 1000 + 100 * at as u32, &rest);
        shop.file(&format!("jobs/N-{at}/findings.yaml"), text);
    }
    shop
}

fn json(shop: &Workshop) -> Value {
    serde_json::from_slice(&shop.read("out/overview.json")).unwrap()
}

fn overview(shop: &Workshop) -> String {
    let run = shop.run(&["overview", "jobs", "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.err);
    run.out
}

#[test]
fn closed_jobs_say_their_causes_distances_repairs_bills_and_days() {
    let shop = shop(15);
    // The first unit comes back failed, 30 days after its return; one job is not closed yet.
    let again = job(90, "2026-04-19", "s10000", 2400, &repair("2026-04-19", "2026-04-21"));
    shop.file("jobs/again/findings.yaml", again);
    shop.file("jobs/open/findings.yaml", job(91, "2026-04-20", "S-1", 10, ""));
    let said = overview(&shop);
    assert!(said.contains("16 closed, 1 open, 0 not readable"), "{said}");
    let told = json(&shop);
    let (first, distance) = (&told["causes"][0], &told["distance"]);
    assert_eq!((&first["name"], &first["share"]["count"]), (&"mechanical".into(), &11.into()));
    // Fifteen units: the one that came twice failed at its first visit.
    assert_eq!((&distance["units"], &distance["failures"]), (&15.into(), &10.into()));
    assert_eq!(distance["steps"][0]["km"], 1000.0);
    assert!(distance["weibull"]["shape"].as_f64().unwrap() > 1.0, "{distance}");
    let held = &told["repairs"][0];
    assert_eq!((&held["kind"], &held["came-back"]["count"]), (&"single-bearing".into(), &1.into()));
    assert_eq!((&held["came-back"]["of"], &held["days"]["median"]), (&11.into(), &30.0.into()));
    let cost = &told["costs"][0];
    // 10.00 and an hour and a half at 44.00.
    assert_eq!((&cost["total"]["median"], &cost["hours"]["median"]), (&76.0.into(), &1.5.into()));
    assert_eq!(told["groups"][0]["groups"][0]["name"], "Kestmar C2");
    for table in ["causes", "distance", "repairs", "costs", "days"] {
        assert!(shop.read(&format!("out/{table}.csv")).ends_with(b"\r\n"), "{table}");
    }
    let pdf = shop.read("out/overview.pdf");
    let text = paper::plain(&String::from_utf8_lossy(&pdf));
    assert!(pdf.starts_with(b"%PDF-") && text.contains("en-GB"));
    // The same jobs, the same bytes.
    overview(&shop);
    assert_eq!(shop.read("out/overview.pdf"), pdf);
}

#[test]
fn small_numbers_draw_no_curve_and_stand_in_no_group() {
    let shop = shop(4);
    overview(&shop);
    let told = json(&shop);
    let distance = &told["distance"];
    assert_eq!((&distance["units"], distance["steps"].as_array().unwrap().len()), (&4.into(), 0));
    assert!(distance["weibull"].is_null() && distance["median-km"].is_null());
    let models = &told["groups"][0];
    assert_eq!((models["groups"].as_array().unwrap().len(), &models["small"]), (0, &1.into()));
    let none = Workshop::new();
    none.file("jobs/open/findings.yaml", job(1, "2026-04-20", "S-1", 10, ""));
    let run = none.run(&["overview", "jobs", "--out", "out"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("no job in it is closed") && !none.has("out"), "{}", run.err);
}

#[test]
fn the_first_sentence_is_what_the_causes_bear() {
    use CauseKind::{Ingress, Mechanical, NoFaultFound, Undetermined};
    let sheet = job(1, "2026-03-02", "S-1", 900, &repair("2026-03-03", "2026-03-04"));
    let made = paper::made(PROFILE, &sheet, None);
    let lead = |causes: &[CauseKind]| {
        let view = made.overview(causes, &paper::english());
        paper::plain(view["lead"].as_str().unwrap())
    };
    let most = |cause: CauseKind| lead(&[cause, cause, cause, cause, Mechanical]);
    assert_eq!(most(Ingress), "Most often the cause was water: in 4 of 5, 80 % (38 to 96 %).");
    assert!(most(NoFaultFound).starts_with("Most often no fault was found: in 4 of 5"));
    assert!(most(Undetermined).starts_with("Most often the signs did not settle the cause: in 4"));
    let tie = [Ingress, Ingress, Mechanical, Mechanical, NoFaultFound];
    assert_eq!(lead(&tie), "No cause was more frequent than all others.");
    assert_eq!(lead(&tie[..4]), "4 closed jobs say little yet.");
    let view = made.overview(&tie, &paper::english());
    let text = paper::plain(&view["text"].to_string());
    for part in [
        "5 closed jobs that came in on 2 March 2026.",
        "1 job without an outcome",
        "2 sheets that cannot be used; `splitcase jobs` says why",
    ] {
        assert!(text.contains(part), "{part} in {text}");
    }
}

#[test]
fn nothing_that_names_a_person_a_unit_or_a_job_is_in_it() {
    let shop = shop(12);
    overview(&shop);
    for file in
        ["overview.json", "causes.csv", "distance.csv", "repairs.csv", "costs.csv", "days.csv"]
    {
        let text = String::from_utf8(shop.read(&format!("out/{file}"))).unwrap();
        for personal in ["Nadia", "Ferrow", "example.org", "S-100", "S100", "N-1"] {
            assert!(!text.contains(personal), "{file}: {personal}");
        }
    }
}

/// Sealed jobs give the same as their folders.
#[test]
fn an_archive_says_what_its_folders_say() {
    let shop = shop(6);
    overview(&shop);
    let own = json(&shop);
    let seal = shop.run(&["seal", "jobs", "--archive", "archive"]);
    assert_eq!(seal.code, 0, "{}", seal.err);
    let run = shop.run(&["overview", "archive", "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert_eq!(json(&shop), own);
}
