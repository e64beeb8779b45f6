//! Many jobs on many machines: shares, lists of jobs, several runs into one folder.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::thread;

use splitcase::batch::shard::Shard;

use crate::workshop::{Run, Workshop, closed, run_fed};

/// A workshop with this many jobs.
fn with_jobs(n: usize) -> Workshop {
    let shop = Workshop::new();
    for at in 1..=n {
        shop.file(&format!("jobs/A-{at}/findings.yaml"), closed(&format!("A-{at}")));
    }
    shop
}

/// Every paper below a folder with its bytes.
fn papers(out: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    for job in fs::read_dir(out).unwrap().map(|job| job.unwrap().path()) {
        if job.ends_with(".splitcase") {
            continue;
        }
        let files = fs::read_dir(&job).unwrap().map(|file| file.unwrap().path());
        for file in files.filter(|file| file.extension().is_some_and(|end| end == "pdf")) {
            let name = file.strip_prefix(out).unwrap().display().to_string();
            found.insert(name, fs::read(&file).unwrap());
        }
    }
    found
}

fn render(shop: &Workshop, more: &[&str]) -> Run {
    let args = ["render", "jobs", "--out", "out", "--paper", "return-report"];
    shop.run(&[&args[..], more].concat())
}

#[test]
fn every_job_is_in_one_share_whatever_other_jobs_there_are() {
    let shards: Vec<Shard> = (1..=7).map(|part| format!("{part}/7").parse().unwrap()).collect();
    let mut sizes = [0; 7];
    for at in 0..7000 {
        let number = format!("HD-{at}");
        let own: Vec<usize> = (0..7).filter(|part| shards[*part].takes(&number)).collect();
        assert_eq!(own.len(), 1, "{number}");
        // Numbers that differ only in case are refused as one, so they must meet.
        assert!(shards[own[0]].takes(&number.to_lowercase()));
        sizes[own[0]] += 1;
    }
    // Thirty is one standard deviation of such a share (binomial, 7000 jobs, one in seven).
    assert!(sizes.iter().all(|size| (850..1150).contains(size)), "{sizes:?}");
    for wrong in ["", "1", "0/3", "4/3", "1/0", "-1/3", "1/3/5", "a/b", "1/200000", " 1/3"] {
        assert!(wrong.parse::<Shard>().is_err(), "{wrong}");
    }
}

#[test]
fn shares_together_give_what_one_run_gives_and_no_job_twice() {
    let (whole, shared) = (with_jobs(12), with_jobs(12));
    assert_eq!(render(&whole, &[]).code, 0);
    let mut seen = BTreeSet::new();
    for part in 1..=3 {
        let run = render(&shared, &["--shard", &format!("{part}/3")]);
        assert_eq!(run.code, 0, "{}", run.err);
        for line in run.out.lines().filter(|line| line.ends_with(": written")) {
            assert!(seen.insert(line.to_owned()), "{line}");
        }
    }
    assert_eq!(seen.len(), 12);
    let (one, many) = (whole.path("out"), shared.path("out"));
    assert_eq!(papers(&one), papers(&many));
    // A share that was killed is taken up again: what is there stays, what is not is made.
    fs::remove_dir_all(many.join("A-7")).unwrap();
    let runs: Vec<Run> =
        (1..=3).map(|part| render(&shared, &["--shard", &format!("{part}/3")])).collect();
    let made: usize = runs.iter().map(|run| run.out.matches(": written").count()).sum();
    let kept: usize = runs.iter().map(|run| run.out.matches(": unchanged").count()).sum();
    assert_eq!((made, kept), (1, 11), "{}", runs[0].out);
    assert_eq!(papers(&one), papers(&many));
}

#[test]
fn two_jobs_of_one_number_meet_in_one_share() {
    let shop = with_jobs(3);
    shop.file("jobs/elsewhere/findings.yaml", closed("a-2"));
    let refused: Vec<Run> =
        (1..=5).map(|part| render(&shop, &["--shard", &format!("{part}/5")])).collect();
    let told: usize = refused.iter().map(|run| run.err.matches("sheet/duplicate").count()).sum();
    assert_eq!(told, 2, "{}", refused.iter().map(|run| run.err.as_str()).collect::<String>());
    assert!(!shop.has("out/A-2") && !shop.has("out/a-2"));
}

#[test]
fn a_list_of_jobs_is_read_from_standard_input_and_a_wrong_line_costs_no_other_job() {
    let shop = with_jobs(4);
    let args = ["render", "--jobs-from", "-", "--out", "out", "--paper", "return-report"];
    let run = run_fed(&shop.path(""), &args, b"jobs/A-1\njobs/A-9\r\n\njobs/A-3/findings.yaml\n");
    assert_eq!(run.code, 1, "{}", run.err);
    assert_eq!(run.err.matches("jobs/A-9").count(), 1, "{}", run.err);
    let made = papers(&shop.path("out"));
    assert_eq!(
        made.keys().map(String::as_str).collect::<Vec<_>>(),
        ["A-1/return-report.pdf", "A-3/return-report.pdf"]
    );
    // As `find -print0` gives them, and from a file.
    let check = run_fed(&shop.path(""), &["check", "--jobs-from", "-"], b"jobs/A-1\0jobs/A-2\0");
    assert_eq!((check.code, check.out.matches(": ").count() >= 2), (0, true), "{}", check.out);
    shop.file("list.txt", "jobs/A-4\n");
    let listed = shop.run(&["check", "--jobs-from", "list.txt"]);
    assert!(listed.out.contains("A-4") && !listed.out.contains("A-1"), "{}", listed.out);
    for nothing in [&b""[..], b"\n\n"] {
        let run = run_fed(&shop.path(""), &["check", "--jobs-from", "-"], nothing);
        assert_eq!(run.code, 2);
        assert!(run.err.contains("it names no job"), "{}", run.err);
        assert!(
            run.err.contains("help: give a file with a job folder on each line"),
            "{}",
            run.err
        );
    }
    let wrong = run_fed(&shop.path(""), &["check", "--jobs-from", "-"], b"jobs/A-9\n");
    assert_eq!((wrong.code, wrong.out.trim()), (1, "no job"));
    let both = shop.run(&["check", "--jobs-from", "missing.txt"]);
    assert_eq!(both.code, 2);
    assert!(
        both.err.contains("read the list of jobs") && both.err.contains("help: "),
        "{}",
        both.err
    );
}

/// Machines reach a shared folder by paths of their own.
#[test]
fn a_job_without_a_readable_number_keeps_its_share_wherever_the_run_starts() {
    let shop = Workshop::new();
    for at in 0..12 {
        shop.file(&format!("jobs/box-{at}/findings.yaml"), "customer: {name: Nadia Ferrow}\n");
    }
    let own = |from: &str, jobs: &str| {
        let args = ["check", jobs, "--shard", "1/2", "--quiet"];
        let run = run_fed(&shop.path(from), &args, b"");
        let names: BTreeSet<String> =
            (0..12).map(|at| format!("box-{at}/")).filter(|name| run.err.contains(name)).collect();
        names
    };
    let here = own("", "jobs");
    assert!((1..12).contains(&here.len()), "{here:?}");
    assert_eq!(own("jobs", "."), here);
    assert_eq!(own("", shop.path("jobs").to_str().unwrap()), here);
}

/// Several machines on a shared folder, some at the same jobs: every paper is whole, and nobody is refused.
#[test]
fn runs_side_by_side_into_one_folder_spoil_nothing() {
    let (whole, shared) = (with_jobs(6), with_jobs(6));
    assert_eq!(render(&whole, &[]).code, 0);
    thread::scope(|scope| {
        let runs: Vec<_> = (0..4).map(|_| scope.spawn(|| render(&shared, &["--force"]))).collect();
        for run in runs {
            let run = run.join().unwrap();
            assert_eq!(run.code, 0, "{}", run.err);
        }
    });
    let (one, many) = (whole.path("out"), shared.path("out"));
    assert_eq!(papers(&one), papers(&many));
    let again = render(&shared, &[]);
    assert_eq!(again.out.matches(": unchanged").count(), 6, "{}", again.out);
}
