//! What every verb has in common: help that fits, paths, quiet, colours, one shape of JSON, one order.

mod schema;

use std::fs;
use std::process::Command;

use clap::CommandFactory;
use serde_json::{Value, json};
use splitcase::cli::Arguments;

use crate::workshop::{Run, Workshop, jpeg, sheet};
use schema::faults;

fn shop(jobs: &[&str]) -> Workshop {
    let shop = Workshop::new();
    for job in jobs {
        shop.file(&format!("jobs/{job}/findings.yaml"), sheet(job));
    }
    shop
}

/// Every verb that is for people.
fn verbs() -> Vec<String> {
    let command = Arguments::command();
    let verbs = command.get_subcommands().filter(|verb| !verb.is_hide_set());
    verbs.map(|verb| verb.get_name().to_owned()).collect()
}

/// The one object that a run printed.
fn envelope(run: &Run) -> Value {
    assert_eq!(run.out.lines().count(), 1, "{}", run.out);
    serde_json::from_str(&run.out).unwrap()
}

/// What runs wrote behind `: written` and the like, in order.
fn order(run: &Run) -> Vec<&str> {
    let told = run.out.lines().filter_map(|line| line.split_once(": ")).map(|(job, _)| job);
    told.filter(|job| !job.contains("  ")).collect()
}

#[test]
fn every_help_page_fits_80_columns() {
    let shop = Workshop::new();
    let mut pages = vec![vec!["--help".to_owned()], vec!["-h".to_owned()]];
    for verb in verbs() {
        pages.push(vec![verb.clone(), "--help".to_owned()]);
        pages.push(vec![verb, "-h".to_owned()]);
    }
    assert!(20 < pages.len());
    for page in pages {
        let words: Vec<&str> = page.iter().map(String::as_str).collect();
        let run = shop.run(&words);
        assert_eq!(run.code, 0, "{page:?}");
        for line in run.out.lines() {
            assert!(line.chars().count() <= 80, "{page:?}: {line}");
        }
    }
}

#[test]
fn a_job_is_named_by_its_folder_its_sheet_or_nothing_at_all() {
    let shop = shop(&["A-1", "A-2", "A-3"]);
    let run = shop.run(&["check", "jobs/A-3/findings.yaml", "jobs/A-1"]);
    assert_eq!((run.code, order(&run)), (0, vec!["A-1", "A-3", "2 jobs"]), "{}", run.out);
    let run = shop.run(&["render", "jobs/A-1/findings.yaml", "jobs/A-2", "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(shop.has("out/A-1/arrival-note.pdf") && shop.has("out/A-2/arrival-note.pdf"));
    assert!(!shop.has("out/A-3"));
    let run = shop.run(&["photos", "jobs/A-1", "jobs/A-2/findings.yaml"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(shop.has("jobs/A-1/photo-sheet.pdf") && shop.has("jobs/A-2/photo-sheet.pdf"));
    let run = shop.run(&["seal", "jobs/A-2/findings.yaml", "--archive", "archive"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let run = shop.run(&["check"]);
    assert_eq!((run.code, order(&run).len()), (0, 4), "{}{}", run.out, run.err);
    // Inside a job's folder its own sheet is named without a detour.
    shop.file("jobs/A-2/findings.yaml", sheet("A-2").replace("02}", "02, water: 5}"));
    let run = crate::workshop::run_in(&shop.path("jobs/A-2"), &["check", "findings.yaml"]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("--> findings.yaml:4:"), "{}", run.err);
}

#[test]
fn a_path_that_is_no_job_says_what_to_give_instead() {
    let shop = shop(&["A-1"]);
    shop.file("jobs/A-1/a.jpg", jpeg(40, 30, 1)).file("jobs/B-1/findings.yml", sheet("B-1"));
    for (path, words) in [
        ("jobs/A-9", "could not find `jobs/A-9`: there is nothing of that name"),
        ("jobs/A-1/a.jpg", "`jobs/A-1/a.jpg`: it is a file, and no sheet"),
        ("jobs/B-1/findings.yml", "help: rename it to `findings.yaml`"),
    ] {
        let run = shop.run(&["check", path]);
        assert_eq!(run.code, 2);
        assert!(run.err.contains(words), "{}", run.err);
    }
}

#[test]
fn jobs_come_in_the_order_in_which_people_count() {
    let shop = shop(&["HD-10", "HD-9", "HD-2", "HD-100", "PA-1"]);
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(order(&run), ["HD-2", "HD-9", "HD-10", "HD-100", "PA-1", "5 jobs"]);
}

#[test]
fn a_quiet_run_says_only_what_is_wrong() {
    let shop = shop(&["A-1", "A-2"]);
    let run = shop.run(&["render", "jobs", "--out", "out", "-q"]);
    assert_eq!((run.code, run.out.as_str(), run.err.as_str()), (0, "", ""));
    assert!(shop.has("out/A-1/arrival-note.pdf"));
    let run = shop.run(&["new", "jobs/A-3", "--quiet"]);
    assert_eq!((run.code, run.out.as_str()), (0, ""));
    let run = shop.run(&["-q", "seal", "jobs/A-1", "jobs/A-2", "--archive", "archive"]);
    assert_eq!((run.code, run.out.as_str()), (0, ""));
    let run = shop.run(&["verify", "archive", "-q"]);
    assert_eq!((run.code, run.out.as_str()), (0, ""));
    // What was asked for by name is said all the same, and so is what is wrong.
    assert!(shop.run(&["verify", "archive", "--head", "-q"]).out.contains("head: "));
    shop.file("archive/A-1/A-1-v1/data/findings.yaml", "job: A-1\n");
    assert!(shop.run(&["verify", "archive", "-q"]).out.contains("does not agree"));
    shop.file("jobs/A-2/findings.yaml", "job: A-2\n");
    let run = shop.run(&["check", "-q", "jobs/A-2"]);
    assert_eq!((run.code, run.out.as_str()), (1, ""));
    assert!(run.err.contains("error[sheet/missing-field]"), "{}", run.err);
}

#[test]
fn colours_come_when_they_are_asked_for_and_never_where_no_color_is_set() {
    let shop = shop(&["A-1"]);
    shop.file("jobs/A-1/findings.yaml", "job: A-1\n");
    let run = |words: &[&str], no_color: bool| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_splitcase"));
        command.args(words).current_dir(shop.path("")).env_remove("NO_COLOR");
        if no_color {
            command.env("NO_COLOR", "1").env("CLICOLOR_FORCE", "1");
        }
        let output = command.output().unwrap();
        [output.stdout, output.stderr].concat().contains(&0x1b)
    };
    assert!(!run(&["check", "jobs"], false), "no terminal, no colours");
    assert!(run(&["check", "jobs", "--color", "always"], false));
    assert!(run(&["--color=always", "check", "jobs"], true), "asked for by name");
    assert!(!run(&["check", "jobs", "--color", "never"], false));
    assert!(!run(&["check", "jobs"], true), "https://no-color.org: set and not empty");
    assert!(run(&["--color", "always", "--help"], false));
    assert!(!run(&["--help"], false));
    assert!(run(&["chekc", "--color=always"], false));
}

#[test]
fn every_verb_answers_scripts_in_the_one_shape_that_its_schema_describes() {
    let shop = shop(&["A-1", "A-2", "A-10"]);
    let described: Value = serde_json::from_str(&shop.run(&["schema", "output"]).out).unwrap();
    shop.file("jobs/A-1/a.jpg", jpeg(80, 60, 1)).file("jobs/B-1/findings.yaml", "job: [\n");
    shop.file("closed/C-1/findings.yaml", crate::workshop::closed("C-1"));
    shop.run(&["seal", "jobs/A-2", "--archive", "sealed"]);
    shop.run(&["seal", "jobs/A-1", "--archive", "broken"]);
    shop.file("broken/A-1/A-1-v1/data/findings.yaml", "job: A-1\n");
    let mut told = std::collections::BTreeSet::new();
    for (words, code, n_results, n_errors) in [
        ("check jobs", 1, 4, 1),
        ("check jobs/A-1", 0, 1, 0),
        ("check nowhere", 2, 0, 1),
        ("check --nonsense", 2, 0, 1),
        ("render jobs/A-1 --out out", 0, 1, 0),
        ("render jobs/A-1 --out out", 0, 1, 0),
        ("render jobs/A-1", 2, 0, 1),
        ("photos jobs/A-1", 0, 1, 0),
        ("mark jobs/A-1", 0, 1, 0),
        ("mark jobs/A-1 --take nothing.txt", 1, 1, 1),
        ("seal jobs/A-1 --archive archive", 0, 1, 0),
        ("seal --reply none.tsr --archive archive", 2, 0, 1),
        ("verify archive", 0, 1, 0),
        ("verify broken", 1, 1, 1),
        ("verify nothing", 2, 1, 1),
        ("verify", 2, 0, 1),
        ("verify archive --head", 0, 1, 0),
        ("verify archive --due 2090-01-01", 0, 0, 0),
        ("verify archive --digest 01234567", 1, 0, 0),
        ("head archive", 0, 1, 0),
        ("redact A-2 nothing.jpg --archive sealed --because asked", 2, 0, 1),
        ("erase A-2 --archive sealed --because asked", 0, 1, 0),
        ("words rusty bearing", 0, 4, 0),
        ("words --kind nothing", 2, 0, 1),
        ("jobs jobs", 1, 4, 0),
        ("jobs nowhere", 2, 0, 1),
        ("overview closed --out overview", 0, 1, 0),
        ("overview nowhere --out overview", 2, 0, 1),
        ("import jobs/A-1 jobs/A-2", 0, 1, 0),
        ("import nowhere jobs/A-2", 2, 0, 1),
        ("new jobs/A-11", 0, 2, 0),
        ("new jobs/A-11", 2, 0, 1),
    ] {
        let words: Vec<&str> = words.split(' ').chain(["--format", "json"]).collect();
        let run = shop.run(&words);
        let answer = envelope(&run);
        assert_eq!((run.code, run.err.as_str()), (code, ""), "{words:?}: {}", run.out);
        assert_eq!(faults(&answer, &described), Vec::<String>::new(), "{words:?}: {answer}");
        assert_eq!(answer["exit-code"], code, "{words:?}");
        assert_eq!(answer["verb"], words[0], "{words:?}");
        let results = answer["results"].as_array().unwrap().len();
        let problems = answer["problems"].as_array().unwrap().iter();
        let errors = problems.filter(|one| one["severity"] == "error").count();
        assert_eq!((0 < results, 0 < errors), (0 < n_results, 0 < n_errors), "{answer}");
        told.insert(words[0].to_owned());
    }
    let silent = ["schema", "completions", "man"];
    let missing: Vec<String> = verbs()
        .into_iter()
        .filter(|verb| !told.contains(verb) && !silent.contains(&verb.as_str()))
        .collect();
    assert!(missing.is_empty(), "{missing:?} are not tried");
    // A word that is no verb is refused in the same shape.
    let run = shop.run(&["chekc", "--format=json"]);
    let answer = envelope(&run);
    assert_eq!((run.code, faults(&answer, &described)), (2, Vec::new()));
    assert_eq!(
        (&answer["verb"], &answer["problems"][0]["code"]),
        (&json!(null), &json!("arguments"))
    );
}

#[test]
fn the_schema_of_the_output_refuses_what_is_not_so() {
    let described: Value = serde_json::from_str(splitcase::console::envelope::SCHEMA).unwrap();
    let good = json!({
        "format": "splitcase-output-1", "verb": "head", "version": "0.1.0", "exit-code": 0,
        "results": [{"file": "head.txt"}],
        "problems": [{"subject": "", "severity": "error", "code": "failure", "file": null, "line": 1,
                      "column": null, "message": "m", "hints": []}],
    });
    assert_eq!(faults(&good, &described), Vec::<String>::new());
    for (pointer, wrong) in [
        ("/format", json!("splitcase-output-2")),
        ("/verb", json!("lock")),
        ("/exit-code", json!(3)),
        ("/results/0", json!({"file": 1})),
        ("/results/0", json!({"file": "a", "more": 1})),
        ("/results/0", json!({})),
        ("/problems/0/severity", json!("note")),
        ("/problems/0/line", json!(0)),
        ("/problems/0/message", json!("")),
        ("/problems/0", json!({})),
    ] {
        let mut bad = good.clone();
        *bad.pointer_mut(pointer).unwrap() = wrong.clone();
        assert!(!faults(&bad, &described).is_empty(), "{pointer}: {wrong} is taken");
    }
}

#[test]
fn an_unchanged_paper_is_named_with_its_path() {
    let shop = shop(&["A-1"]);
    for status in ["written", "unchanged"] {
        let run = shop.run(&["render", "jobs", "--out", "out", "--format", "json"]);
        let answer = envelope(&run);
        assert_eq!(answer["results"][0]["status"], status);
        assert_eq!(answer["results"][0]["papers"], json!(["out/A-1/arrival-note.pdf"]));
    }
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert!(
        run.out.contains("A-1  unchanged                          out/A-1/arrival-note.pdf"),
        "{}",
        run.out
    );
}

#[test]
fn a_shell_gets_its_completions_with_every_verb_and_choice() {
    let shop = Workshop::new();
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let run = shop.run(&["completions", shell]);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{shell}");
        for word in verbs().iter().map(String::as_str).chain(["stamp-query"]) {
            assert!(run.out.contains(word), "{shell} lacks {word}");
        }
    }
    for shell in ["bash", "zsh", "fish"] {
        assert!(shop.run(&["completions", shell]).out.contains("return-report"), "{shell}");
    }
    // The one shell that is everywhere reads its script.
    fs::write(shop.path("bash"), shop.run(&["completions", "bash"]).out).unwrap();
    let read = "source ./bash && COMP_WORDS=(splitcase ren) && COMP_CWORD=1 && \
                _splitcase splitcase ren splitcase && echo \"${COMPREPLY[@]}\"";
    let bash = Command::new("bash").args(["-c", read]).current_dir(shop.path("")).output();
    if let Ok(output) = bash {
        assert_eq!(String::from_utf8_lossy(&output.stdout).trim(), "render", "{output:?}");
    }
}

#[test]
fn manual_pages_are_written_for_every_verb_and_never_over_another_file() {
    let shop = Workshop::new();
    let run = shop.run(&["man", "--out", "man1"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    for verb in verbs() {
        let page = String::from_utf8(shop.read(&format!("man1/splitcase-{verb}.1"))).unwrap();
        assert!(page.contains(&format!(".TH splitcase-{verb} 1")), "{page}");
        assert!(page.contains(".SH SYNOPSIS") && page.contains(".SH OPTIONS"), "{verb}");
    }
    assert_eq!(shop.run(&["man", "--out", "man1"]).code, 0, "the same pages once more");
    shop.file("man1/splitcase.1", "mine");
    let run = shop.run(&["man", "--out", "man1"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("it is there already"), "{}", run.err);
    assert_eq!(shop.read("man1/splitcase.1"), b"mine");
    assert!(shop.run(&["man"]).out.contains(".TH splitcase 1"));
}
