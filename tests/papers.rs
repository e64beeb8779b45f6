//! Which papers a sheet gives: by the stage of its job, by name, sealed and made again; and how the
//! papers before the report are set.

/// The pages of the arrival note and of the options letter.
mod pages;

use std::fs;

use crate::workshop::{Workshop, closed, jpeg, sheet};

const STRIP: &str = "strip-down:\n  date: 2026-03-04\n  findings: [{part: main-bearing-drive-side, condition: failed, signs: [races-worn-deep]}]\n";
const OFFER: &str = "options:\n  - {kind: overhaul, price: £240.00, days: 9}\n  - {kind: return-as-it-is, price: £35.00}\n";
const DECIDED: &str = "decision: {option: overhaul, date: 2026-03-06}\n";
const CLOSED: &str = "work: {price: £240.00}\noutcome: repaired\nreturned: 2026-03-11\n";

/// A workshop with one job.
fn one(text: &str) -> Workshop {
    let shop = Workshop::new();
    shop.file("jobs/A-1/findings.yaml", text);
    shop
}

fn render(shop: &Workshop, more: &[&str]) -> crate::workshop::Run {
    shop.run(&[&["render", "jobs", "--out", "out"], more].concat())
}

/// The papers in the job's folder, in order.
fn papers(shop: &Workshop) -> Vec<String> {
    let files = fs::read_dir(shop.path("out/A-1")).into_iter().flatten();
    let names = files.map(|file| file.unwrap().file_name().into_string().unwrap());
    let mut names: Vec<String> = names.filter(|name| name.ends_with(".pdf")).collect();
    names.sort();
    names
}

/// A sheet at each of its stages, with the papers that are due then and what `check` ends with.
fn stages() -> [(String, &'static [&'static str], &'static str); 5] {
    let arrived = sheet("A-1");
    let opened = format!("{arrived}{STRIP}");
    let offered = format!("{opened}{OFFER}");
    let decided = format!("{offered}{DECIDED}");
    let closed = format!("{decided}{CLOSED}");
    [
        (arrived, &["arrival-note.pdf"], "arrival-note is due; options-letter: needs `options`"),
        (opened, &[], "options-letter: needs `options`"),
        (offered, &["options-letter.pdf"], "options-letter is due; return-report: needs `outcome`"),
        (decided, &[], "return-report: needs `work`, `outcome`"),
        (
            closed,
            &["evidence-file.pdf", "return-report.pdf"],
            "return-report and evidence-file are due",
        ),
    ]
}

#[test]
fn each_stage_of_a_job_gives_its_papers_and_check_says_what_the_next_one_needs() {
    for (text, due, words) in stages() {
        let shop = one(&text);
        let run = render(&shop, &[]);
        assert_eq!(run.code, 0, "{}", run.err);
        assert_eq!(papers(&shop), due, "{text}");
        assert!(due.is_empty() == run.out.contains("none due"), "{}", run.out);
        let check = shop.run(&["check", "jobs"]);
        assert_eq!(check.code, 0, "{}", check.err);
        let row = check.out.lines().find(|line| line.starts_with("A-1  ")).unwrap();
        assert!(row.ends_with(words), "{row}");
        // A job whose case was opened or that has ended gets no other stage's paper.
        assert!(!shop.has("out/A-1/photo-sheet.pdf"));
    }
}

#[test]
fn check_says_it_to_scripts_too() {
    let shop = one(&stages()[3].0);
    let run = shop.run(&["check", "jobs", "--format", "json"]);
    let told: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let job = &told["results"][0];
    assert_eq!(job["due"], serde_json::json!([]));
    let next = serde_json::json!({"paper": "return-report", "needs": ["work", "outcome"]});
    assert_eq!(job["next"], next);
    // A job that is skipped says it from its record.
    for status in ["none-due", "unchanged"] {
        let run = render(&shop, &["--format", "json"]);
        let told: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        let job = &told["results"][0];
        assert_eq!((&job["status"], &job["next"]), (&status.into(), &next));
    }
    assert!(!shop.has("out/A-1"), "a folder without papers");
}

#[test]
fn what_the_owner_decided_says_what_the_report_needs() {
    for (option, needs) in [
        ("exchange", "`exchange`, `outcome`"),
        ("new-unit", "`exchange`, `outcome`"),
        ("return-as-it-is", "`strip-down`, `outcome`"),
        ("single-bearing", "`work`, `outcome`"),
    ] {
        let shop = one(&format!("{}decision: {{option: {option}}}\n", sheet("A-1")));
        let check = shop.run(&["check", "jobs"]);
        assert!(check.out.contains(&format!("return-report: needs {needs}")), "{}", check.out);
    }
}

#[test]
fn a_paper_is_made_by_its_name_alone_and_one_that_lacks_something_is_refused() {
    let shop = one(&stages()[4].0);
    let run = render(&shop, &["--paper", "options-letter", "--paper", "arrival-note"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert_eq!(papers(&shop), ["arrival-note.pdf", "options-letter.pdf"]);
    let shop = one(&sheet("A-1"));
    let run = render(&shop, &["--paper", "return-report"]);
    assert_eq!((run.code, papers(&shop).len()), (1, 0));
    assert!(run.err.contains("error[paper/lacks]"), "{}", run.err);
    assert!(run.err.contains("a paper `return-report` yet: it needs `outcome`"), "{}", run.err);
    let run = render(&shop, &["--paper", "photo-sheet"]);
    assert_eq!(run.code, 2, "a contact sheet is asked for by `photos`");
}

#[test]
fn an_earlier_paper_stays_and_is_known_as_ours_when_it_is_made_again() {
    let shop = Workshop::new();
    let mut issued = Vec::new();
    for (text, ..) in stages() {
        shop.file("jobs/A-1/findings.yaml", &text);
        assert_eq!(render(&shop, &[]).code, 0);
        issued = papers(&shop);
    }
    let all = ["arrival-note.pdf", "evidence-file.pdf", "options-letter.pdf", "return-report.pdf"];
    assert_eq!(issued, all);
    let before = shop.read("out/A-1/options-letter.pdf");
    // It is known as ours, though four runs lie between.
    let run = render(&shop, &["--paper", "options-letter"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let after = shop.read("out/A-1/options-letter.pdf");
    assert!(before != after, "it lists another sheet");
    // And the report is still ours after that.
    let run = render(&shop, &["--force"]);
    assert_eq!(run.code, 0, "{}", run.err);
}

#[test]
fn issued_papers_of_every_stage_are_sealed_and_verify() {
    let shop = Workshop::new();
    for (text, ..) in stages() {
        shop.file("jobs/A-1/findings.yaml", &text);
        assert_eq!(render(&shop, &[]).code, 0);
    }
    let seal = shop.run(&["seal", "jobs", "--archive", "archive", "--papers", "out"]);
    assert_eq!((seal.code, seal.err.as_str()), (0, ""));
    for (stage, name) in [("arrival-note", true), ("options-letter", true), ("return-report", true)]
    {
        let sealed = format!("archive/A-1/A-1-v1/data/papers/{stage}.pdf");
        assert_eq!(shop.has(&sealed), name, "{sealed}");
        assert_eq!(shop.read(&sealed), shop.read(&format!("out/A-1/{stage}.pdf")));
    }
    let verify = shop.run(&["verify", "archive/A-1/A-1-v1"]);
    assert_eq!(verify.code, 0, "{}", verify.out);
    assert!(
        verify.out.contains("`data/papers/options-letter.pdf` was issued before"),
        "{}",
        verify.out
    );
    // A letter of another job in its place is refused.
    let other = one(&format!("{}{STRIP}{OFFER}", sheet("B-1")));
    assert_eq!(render(&other, &[]).code, 0);
    shop.file("out/A-1/options-letter.pdf", other.read("out/B-1/options-letter.pdf"));
    let seal = shop.run(&["seal", "jobs", "--archive", "archive", "--papers", "out"]);
    assert_eq!(seal.code, 1);
    assert!(seal.err.contains("it is a paper of the job `B-1`"), "{}", seal.err);
}

#[test]
fn a_letter_made_again_and_sealed_with_the_closed_job_is_made_again_by_verify() {
    let shop = one(&stages()[4].0);
    render(&shop, &[]);
    render(&shop, &["--paper", "options-letter"]);
    let seal = shop.run(&["seal", "jobs", "--archive", "archive", "--papers", "out"]);
    assert_eq!((seal.code, seal.err.as_str()), (0, ""));
    let verify = shop.run(&["verify", "archive/A-1/A-1-v1"]);
    assert_eq!(verify.code, 0, "{}", verify.out);
    let again = verify.out.lines().filter(|line| line.contains("options-letter.pdf"));
    let again = again.filter(|line| line.contains("made again")).count();
    assert_eq!(again, 1, "{}", verify.out);
}

#[test]
fn the_letter_always_has_the_unit_back_as_it_is_and_says_if_that_has_no_price() {
    let offer = "options: [{kind: overhaul, price: £240.00}]\n";
    let warned = |text: &str, profile: &str| {
        let shop = Workshop::with_profile(profile);
        shop.file("jobs/A-1/findings.yaml", text);
        let run = render(&shop, &[]);
        assert_eq!(run.code, 0, "{}", run.err);
        run.err.contains("warning[cost/return-not-priced]")
    };
    let own = crate::workshop::PROFILE;
    let open = format!("{}{STRIP}{offer}", sheet("A-1"));
    assert!(warned(&open, own));
    // The rate card, the fee for looking into it, a price of its own: each is one.
    let card = own.replace(
        "{hour: £44.00}",
        "{hour: £44.00, options: [{kind: return-as-it-is, price: £30.00}]}",
    );
    assert!(!warned(&open, &card));
    assert!(!warned(&format!("{open}billing: {{inspection: £35.00}}\n"), own));
    assert!(!warned(&format!("{}{STRIP}{OFFER}", sheet("A-1")), own));
    // Nobody is asked any more.
    assert!(!warned(&format!("{open}{DECIDED}"), own));
}

#[test]
fn a_closed_job_without_findings_owes_no_earlier_paper() {
    let shop = one(&closed("A-1"));
    shop.file("jobs/A-1/a.jpg", jpeg(80, 60, 1));
    render(&shop, &[]);
    assert!(!papers(&shop).iter().any(|name| name.starts_with("arrival")), "{:?}", papers(&shop));
}
