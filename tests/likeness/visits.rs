//! The same serial number in an earlier job: `check` says when and what was done, the report has a
//! sentence for it, and the papers can be made again from the bag.

use crate::workshop::Workshop;

fn sheet(job: &str, serial: &str, arrived: &str, more: &str) -> String {
    format!(
        "job: {job}\ncustomer: {{name: Nadia Ferrow}}\n\
         unit: {{kind: mid-drive, model: Kestmar C2, serial: {serial}}}\n\
         arrival: {{date: {arrived}}}\n{more}"
    )
}

const REPAIRED: &str = "strip-down:\n  date: 2025-04-29\n  findings:\n    - {part: \
    main-bearing-drive-side, condition: worn, signs: [races-worn-deep], action: replaced}\n\
    work: {note: Renewed.}\noutcome: repaired\nreturned: 2025-05-02\n";

const NOW: &str = "strip-down: {date: 2026-03-04, findings: [{part: main-bearing-drive-side, condition: \
    worn, signs: [races-worn-deep]}]}\noutcome: returned-unrepaired\nreturned: 2026-03-11\n";

fn shop() -> Workshop {
    let shop = Workshop::new();
    shop.file("jobs/A-1/findings.yaml", sheet("A-1", "KC2-0012345", "2025-04-28", REPAIRED));
    shop.file("jobs/A-2/findings.yaml", sheet("A-2", "kc2 0012345", "2026-03-02", NOW));
    shop
}

#[test]
fn check_says_when_a_unit_was_here_before_and_what_was_done() {
    let shop = shop();
    let run = shop.run(&["check", "jobs/A-2"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let line = "A-2: seen before: job `A-1`, came in 2025-04-28, went back 2025-05-02, repaired: \
                main-bearing-drive-side replaced\n";
    assert!(run.out.contains(line), "{}", run.out);
    // The first visit has none before it.
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.out.matches("seen before").count(), 1, "{}", run.out);
    let json = shop.run(&["check", "jobs/A-2", "--format", "json"]).out;
    assert!(json.contains("\"seen-before\":[\"job `A-1`, came in 2025-04-28"), "{json}");
}

#[test]
fn another_unit_is_not_taken_for_this_one() {
    let shop = shop();
    let kept = |name: &str, text: String, seen: bool| {
        shop.file("jobs/A-1/findings.yaml", text);
        let run = shop.run(&["check", "jobs/A-2"]);
        assert_eq!(run.out.contains("seen before"), seen, "{name}: {}", run.out);
    };
    let first = |serial: &str, day: &str| sheet("A-1", serial, day, "");
    kept("another number", first("KC2-0012346", "2025-04-28"), false);
    kept("a later day", first("KC2-0012345", "2026-03-09"), false);
    let other = first("KC2-0012345", "2025-04-28").replace("Kestmar C2", "Corvane M2");
    kept("another model", other, false);
    let comment = "# serial: KC2-0012345\n".to_owned() + &first("KC2-0000001", "2025-04-28");
    kept("a number in a comment", comment, false);
    let broken = first("KC2-0012345", "2025-04-28") + "outcome: mended\n";
    kept("a sheet with errors", broken, false);
    kept("another spelling", first("'KC2 0012345'", "2025-04-28"), true);
    shop.file("jobs/A-2/findings.yaml", sheet("A-2", "unknown", "2026-03-02", ""));
    kept("no number", first("unknown", "2025-04-28"), false);
}

#[test]
fn a_unit_that_was_given_out_in_exchange_is_known_when_it_comes_in() {
    let shop = shop();
    let exchanged = "exchange: {serial: KC2-0055501, model: Kestmar C2}\noutcome: exchanged\n\
                     returned: 2025-05-02\n";
    shop.file("jobs/A-1/findings.yaml", sheet("A-1", "KC2-0012345", "2025-04-28", exchanged));
    shop.file("jobs/A-2/findings.yaml", sheet("A-2", "kc2 0055501", "2026-03-02", NOW));
    let check = || shop.run(&["check", "jobs/A-2"]).out;
    let line = "A-2: seen before: job `A-1`, given out in exchange 2025-05-02\n";
    assert!(check().contains(line), "{}", check());
    // The paper says that it was given out, and not that it came in.
    let run = shop.run(&["render", "jobs/A-2", "--out", "out", "--message"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert_eq!(shop.run(&["seal", "jobs/A-2", "--archive", "archive"]).code, 0);
    let kept = shop.read("archive/A-2/A-2-v1/data/earlier-visits.json");
    assert!(String::from_utf8_lossy(&kept).contains("\"is-given\": true"));
    let run = shop.run(&["verify", "archive/A-2/A-2-v1"]);
    assert!(run.code == 0 && run.out.contains("lists these `earlier-visits.json`"), "{}", run.out);
    // It went out after this one came in; it was only offered.
    let later = exchanged.replace("2025-05-02", "2026-03-20");
    shop.file("jobs/A-1/findings.yaml", sheet("A-1", "KC2-0012345", "2025-04-28", &later));
    assert!(!check().contains("seen before"), "{}", check());
    let offered = exchanged.replace("outcome: exchanged", "outcome: returned-unrepaired");
    shop.file("jobs/A-1/findings.yaml", sheet("A-1", "KC2-0012345", "2025-04-28", &offered));
    assert!(!check().contains("seen before"), "{}", check());
}

#[test]
fn a_sealed_job_whose_folder_is_gone_is_found_in_the_archive() {
    let shop = shop();
    let sealed = shop.run(&["seal", "jobs/A-1", "--archive", "archive"]);
    assert_eq!(sealed.code, 0, "{}", sealed.err);
    std::fs::remove_dir_all(shop.path("jobs/A-1")).unwrap();
    assert!(!shop.run(&["check", "jobs"]).out.contains("seen before"));
    let run = shop.run(&["check", "jobs", "--archive", "archive"]);
    assert!(run.out.contains("A-2: seen before: job `A-1`, came in 2025-04-28"), "{}", run.out);
    // The profile can name it once for all.
    let profile =
        crate::workshop::PROFILE.to_owned() + "evidence: {keep-months: 72, archive: archive}\n";
    shop.file("workshop.yaml", profile);
    let run = shop.run(&["check", "jobs"]);
    assert!(run.out.contains("A-2: seen before: job `A-1`"), "{}", run.out);
}

#[test]
fn a_report_that_speaks_of_an_earlier_visit_is_made_again_from_its_bag() {
    let shop = shop();
    let run = shop.run(&["render", "jobs/A-2", "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let first = shop.read("out/A-2/return-report.pdf");
    shop.run(&["render", "jobs/A-2", "--out", "again"]);
    assert!(shop.read("again/A-2/return-report.pdf") == first);
    assert_eq!(shop.run(&["seal", "jobs/A-2", "--archive", "archive"]).code, 0);
    let visits = shop.read("archive/A-2/A-2-v1/data/earlier-visits.json");
    assert!(String::from_utf8_lossy(&visits).contains("\"outcome\": \"repaired\""));
    let run = shop.run(&["verify", "archive/A-2/A-2-v1"]);
    assert_eq!(run.code, 0, "{}", run.out);
    assert!(run.out.contains("the same bytes"), "{}", run.out);
    // What the earlier sheet says has changed: the report is made again.
    let run = shop.run(&["render", "jobs/A-2", "--out", "out"]);
    assert!(run.out.contains("A-2: unchanged"), "{}", run.out);
    let changed = REPAIRED.replace("repaired", "serviced");
    shop.file("jobs/A-1/findings.yaml", sheet("A-1", "KC2-0012345", "2025-04-28", &changed));
    let run = shop.run(&["render", "jobs/A-2", "--out", "out"]);
    assert!(run.out.contains("A-2: written"), "{}", run.out);
    assert!(shop.read("out/A-2/return-report.pdf") != first);
}
