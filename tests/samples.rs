//! The samples: every job makes its papers without a warning, twice the same bytes, for every outcome.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use crate::small;
use crate::workshop::run_in;

fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("samples")
}

/// How many pages the report of each sample may have.
const MOST_PAGES: [(&str, usize); 6] = [
    ("HD-2611", 2),
    ("HD-2614", 4),
    ("HD-2618", 3),
    ("HD-2620", 3),
    ("HD-2623", 3),
    ("HD-2625", 2),
];

/// The same of those in other languages, whose words are longer.
const IN_OTHER_LANGUAGES: [(&str, usize); 1] = [("HD-2640", 3)];

fn n_pages(pdf: &[u8]) -> usize {
    hayro_syntax::Pdf::new(pdf.to_vec()).unwrap().pages().len()
}

#[test]
fn no_report_takes_more_pages_on_us_letter_and_its_dates_begin_with_the_month() {
    let shop = tempfile::tempdir().unwrap();
    let profile = fs::read_to_string(samples().join("workshop.yaml")).unwrap();
    let profile = profile.replace("paper: a4", "paper: us-letter");
    fs::write(shop.path().join("workshop.yaml"), profile).unwrap();
    fs::copy(samples().join("parts.yaml"), shop.path().join("parts.yaml")).unwrap();
    for (job, _) in MOST_PAGES {
        let folder = shop.path().join(job);
        fs::create_dir(&folder).unwrap();
        for file in fs::read_dir(small::samples().join(job.to_lowercase())).unwrap() {
            let file = file.unwrap();
            fs::copy(file.path(), folder.join(file.file_name())).unwrap();
        }
    }
    let run = run_in(shop.path(), &["render", ".", "--out", "out", "--paper", "return-report"]);
    // Its photos are too small for print, which is said; nothing else is.
    let complaints = run.err.lines().filter(|line| line.starts_with("warning["));
    let others: Vec<&str> = complaints.filter(|line| !line.starts_with("warning[photo/")).collect();
    assert_eq!((run.code, others), (0, Vec::new()), "{}", run.err);
    for (job, most) in MOST_PAGES {
        let pdf = fs::read(shop.path().join(format!("out/{job}/return-report.pdf"))).unwrap();
        assert!(n_pages(&pdf) <= most, "{job}: {} pages", n_pages(&pdf));
        assert!(String::from_utf8_lossy(&pdf).contains("en-US"));
    }
}

/// An ordinary job is written down in the time between two others; the unit with nine findings shows how much
/// a sheet can say.
#[test]
fn the_sheet_of_an_ordinary_job_is_at_most_45_lines() {
    let all = MOST_PAGES.iter().chain(&IN_OTHER_LANGUAGES);
    for (job, _) in all.filter(|(job, _)| *job != "HD-2614") {
        let path = samples().join(job.to_lowercase()).join("findings.yaml");
        let lines = fs::read_to_string(path).unwrap().lines().count();
        assert!(lines <= 45, "{job}: {lines} lines");
    }
}

#[test]
fn every_sample_makes_its_papers_without_a_word_of_complaint() {
    let (papers, complaints) = papers(&samples(), &["."], "2");
    assert_eq!(complaints, "");
    for (name, bytes) in papers.iter().filter(|(name, _)| name.ends_with("return-report.pdf")) {
        let pages = n_pages(bytes);
        let mut known = MOST_PAGES.iter().chain(&IN_OTHER_LANGUAGES);
        let most = known.find(|(job, _)| name.starts_with(job)).unwrap().1;
        assert!(pages <= most, "{}: {pages} pages", name.display());
    }
    let names: BTreeSet<&str> =
        papers.iter().map(|(name, _)| name.file_stem().unwrap().to_str().unwrap()).collect();
    let every = ["arrival-note", "evidence-file", "options-letter", "return-report"];
    assert_eq!(names.into_iter().collect::<Vec<_>>(), every, "the samples show every paper");
    assert!(6 <= papers.len());
}

/// Three of them here; `.ci/run` makes all of them twice, with the photos as they are.
#[test]
fn a_sample_gives_the_same_bytes_twice() {
    let jobs = ["hd-2611", "hd-2614", "hd-2631"];
    let [one, two] = ["1", "2"].map(|workers| papers(small::samples(), &jobs, workers).0);
    assert!(3 < one.len() && one == two);
}

/// The papers of jobs in a folder, with their names, in order, and what the run complained of.
fn papers(samples: &Path, jobs: &[&str], workers: &str) -> (Vec<(PathBuf, Vec<u8>)>, String) {
    let out = tempfile::tempdir().unwrap();
    let options = ["--out", out.path().to_str().unwrap(), "--workers", workers];
    let run = run_in(samples, &[&["render"], jobs, &options].concat());
    assert_eq!(run.code, 0, "{}", run.err);
    let mut found = Vec::new();
    for entry in walkdir::WalkDir::new(out.path()).into_iter().flatten() {
        if entry.path().extension().is_some_and(|ending| ending == "pdf") {
            let name = entry.path().strip_prefix(out.path()).unwrap().to_owned();
            found.push((name, fs::read(entry.path()).unwrap()));
        }
    }
    found.sort();
    (found, run.err)
}

#[test]
fn the_samples_show_every_outcome_and_every_photo_format_of_a_phone() {
    let (mut outcomes, mut endings) = (BTreeSet::new(), BTreeSet::new());
    let mut size = 0;
    for job in fs::read_dir(samples())
        .unwrap()
        .map(|job| job.unwrap().path())
        .filter(|job| job.join("findings.yaml").is_file())
    {
        for file in fs::read_dir(&job).unwrap().map(|file| file.unwrap()) {
            endings.insert(file.path().extension().unwrap().to_str().unwrap().to_owned());
            size += file.metadata().unwrap().len();
        }
        let sheet = fs::read_to_string(job.join("findings.yaml")).unwrap_or_default();
        outcomes.extend(
            sheet.lines().filter_map(|line| line.strip_prefix("outcome: ")).map(str::to_owned),
        );
    }
    let wanted = ["exchanged", "no-fault-found", "repaired", "returned-unrepaired"];
    assert_eq!(outcomes.iter().map(String::as_str).collect::<Vec<_>>(), wanted);
    assert!(["heic", "jpg", "png"].iter().all(|ending| endings.contains(*ending)), "{endings:?}");
    assert!(size < 40 << 20, "the samples hold {size} bytes");
}

/// Common practice, no source: an early single-bearing job comes to about £50-60, a full overhaul to
/// about £250-315.
#[test]
fn the_samples_are_priced_as_the_trade_prices() {
    let total = |job: &str| {
        let text = fs::read_to_string(samples().join(job).join("findings.yaml")).unwrap();
        let profile = fs::read(samples().join("workshop.yaml")).unwrap();
        let mut problems = splitcase::diagnostic::Problems::default();
        let workshop =
            splitcase::sheet::read_profile("workshop.yaml", &profile, &mut problems).unwrap();
        let sheet =
            splitcase::sheet::read("findings.yaml", text.as_bytes(), &workshop, &mut problems)
                .unwrap();
        splitcase::assessment::assess(&sheet, &workshop, None, &mut problems)
            .costs
            .bill
            .unwrap()
            .total
    };
    assert!((50.into()..=60.into()).contains(&total("hd-2611")));
    assert!((250.into()..=315.into()).contains(&total("hd-2614")));
}
