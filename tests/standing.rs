//! The list of jobs: states, waiting days, what the next paper needs, as table, CSV and JSON.

use serde_json::Value;

use crate::workshop::{Workshop, closed, sheet};

/// A job in each state, in the order of a job.
fn stages() -> Vec<(&'static str, String)> {
    let opened = |job: &str| {
        format!(
            "{}strip-down: {{date: 2026-03-04, findings: [{{part: rotor, condition: worn}}]}}\n",
            sheet(job)
        )
    };
    let offered = |job: &str| opened(job) + "options: [{kind: exchange, price: £200.00}]\n";
    let decided = |job: &str| offered(job) + "decision: {option: overhaul, date: 2026-03-06}\n";
    vec![
        ("A-1", sheet("A-1")),
        ("A-2", opened("A-2")),
        ("A-3", offered("A-3")),
        ("A-4", decided("A-4")),
        ("A-5", decided("A-5") + "work: {date: 2026-03-09}\n"),
        ("A-6", closed("A-6")),
        ("A-10", closed("A-10") + "returned: 2026-03-11\n"),
    ]
}

fn shop() -> Workshop {
    let shop = Workshop::new();
    for (job, text) in stages() {
        shop.file(&format!("jobs/{job}/findings.yaml"), text);
    }
    shop
}

#[test]
fn every_job_is_a_row_with_its_state_its_days_and_what_it_still_needs() {
    let run = shop().run(&["jobs", "--today", "2026-03-12"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    assert_eq!(
        run.out,
        "job   customer      state            days  still needs\n\
         A-1   Nadia Ferrow  arrived            10  options for options-letter\n\
         A-2   Nadia Ferrow  stripped down       8  options for options-letter\n\
         A-3   Nadia Ferrow  options offered     8  outcome for return-report\n\
         A-4   Nadia Ferrow  decided             6  work, outcome for return-report\n\
         A-5   Nadia Ferrow  at work             3  outcome for return-report\n\
         A-6   Nadia Ferrow  ready to return    10\n\
         A-10  Nadia Ferrow  returned\n"
    );
}

#[test]
fn a_broken_sheet_is_one_row_that_says_so_and_the_others_stand() {
    let shop = shop();
    shop.file("jobs/A-2/findings.yaml", "job: A-2\narrival: [\n");
    shop.file("jobs/A-3/findings.yaml", sheet("A-3").replace("mid-drive", "middrive"));
    let run = shop.run(&["jobs", "jobs", "--today", "2026-03-12"]);
    assert_eq!((run.code, run.err.as_str()), (1, ""));
    assert_eq!(run.out.lines().count(), 8, "{}", run.out);
    for row in run.out.lines().filter(|row| row.starts_with("A-2 ") || row.starts_with("A-3 ")) {
        assert!(row.contains("not readable") && row.contains("in its sheet"), "{row}");
    }
}

#[test]
fn a_job_without_a_workshop_is_a_row_too() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::create_dir(folder.path().join("A-1")).unwrap();
    std::fs::write(folder.path().join("A-1/findings.yaml"), sheet("A-1")).unwrap();
    let run = crate::workshop::run_in(folder.path(), &["jobs"]);
    assert_eq!(run.code, 1);
    assert!(run.out.contains("A-1") && run.out.contains("no `workshop.yaml`"), "{}", run.out);
}

#[test]
fn the_table_keeps_to_80_columns_whatever_names_there_are() {
    let shop = Workshop::new();
    let long = sheet("HD-2614-with-a-very-long-number")
        .replace("Nadia Ferrow", "Maximiliana Featherstonehaugh-Cholmondeley")
        .replace("02}", "02, reply-by: 2026-03-06}");
    shop.file("jobs/x/findings.yaml", long);
    let run = shop.run(&["jobs", "--today", "2026-03-12"]);
    assert_eq!(run.code, 0, "{}", run.err);
    for line in run.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    // What would not fit beside a long name stands below it, whole.
    assert!(
        run.out.contains("\n                reply-by is past; options for options-letter\n"),
        "{}",
        run.out
    );
}

#[test]
fn a_promise_that_has_passed_is_said_while_it_is_open() {
    let shop = Workshop::new();
    let late = sheet("A-1").replace("02}", "02, reply-by: 2026-03-06}");
    shop.file("jobs/A-1/findings.yaml", &late);
    let said = |day: &str| shop.run(&["jobs", "--today", day]).out.contains("reply-by is past");
    assert!(!said("2026-03-06"));
    assert!(said("2026-03-07"));
    shop.file("jobs/A-1/findings.yaml", late + "outcome: no-fault-found\n");
    assert!(!said("2026-03-07"));
}

#[test]
fn days_are_never_below_nothing() {
    let run = shop().run(&["jobs", "jobs/A-1", "--today", "2026-01-01"]);
    assert!(run.out.contains("arrived     0 "), "{}", run.out);
}

#[test]
fn a_spreadsheet_reads_the_list_and_takes_no_name_for_a_formula() {
    let shop = Workshop::new();
    shop.file("jobs/A-1/findings.yaml", sheet("A-1").replace("Nadia Ferrow", "'=1+1, \"and\" co'"));
    let run = shop.run(&["jobs", "--format", "csv", "--today", "2026-03-12"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let mut table = csv::Reader::from_reader(run.out.as_bytes());
    let heads = table.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = table.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 1);
    let cell =
        |name: &str| rows[0].get(heads.iter().position(|head| head == name).unwrap()).unwrap();
    assert_eq!(cell("customer"), "'=1+1, \"and\" co");
    assert_eq!(
        (cell("state"), cell("since"), cell("days-waiting")),
        ("arrived", "2026-03-02", "10")
    );
    assert_eq!((cell("next-paper"), cell("needs")), ("options-letter", "options"));
}

#[test]
fn scripts_get_every_state_in_the_spelling_of_the_sheet() {
    let run = shop().run(&["jobs", "--format", "json", "--today", "2026-03-12"]);
    let told: Value = serde_json::from_str(&run.out).unwrap();
    let states: Vec<&str> = told["results"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| row["state"].as_str().unwrap())
        .collect();
    let all = [
        "arrived",
        "stripped-down",
        "options-offered",
        "decided",
        "at-work",
        "ready-to-return",
        "returned",
    ];
    assert_eq!(states, all);
    assert_eq!(told["results"][3]["next"]["needs"], serde_json::json!(["work", "outcome"]));
    assert_eq!(told["results"][6]["days-waiting"], Value::Null);
}
