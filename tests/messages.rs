//! Every message of the sheet stage stands in a fixture, as a comment under the place it points at:
//!
//! ```yaml
//! water: 40
//! #      ^^ error[sheet/missing-unit]: `40` has no unit
//! #      help: write `40 ml`; units here are `ml`, `l`
//! ```
//!
//! `# files: a.jpg` in the first line names the files of the job folder; tracks lie in `tests/tracks`. `SPLITCASE_BLESS=1` writes the
//! comments anew from what the program says; review them as a diff.

use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

use splitcase::album;
use splitcase::diagnostic::source::SourceText;
use splitcase::diagnostic::{Diagnostic, Problems};
use splitcase::intake::track;
use splitcase::sheet::{self, ProfileFile};

const WORKSHOP: &str = "name: Hollowmere Drive Works\ncurrency: GBP\nrules: epac\n";

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn fixtures(folder: &str) -> Vec<PathBuf> {
    let folder = root().join("tests").join(folder);
    let mut paths: Vec<PathBuf> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
}

pub fn workshop() -> ProfileFile {
    sheet::read_profile("workshop.yaml", WORKSHOP.as_bytes(), &mut Problems::default()).unwrap()
}

/// The fixture without the comments that hold expectations.
fn without_notes(text: &str) -> String {
    text.lines().filter(|line| !is_note(line)).fold(String::new(), |text, line| text + line + "\n")
}

fn is_note(line: &str) -> bool {
    let Some(comment) = line.trim_start().strip_prefix('#') else { return false };
    let comment = comment.trim_start().trim_start_matches('^').trim_start();
    ["error[", "warning[", "help: ", "also "].iter().any(|start| comment.starts_with(start))
}

/// The text with each problem as a comment under its place.
fn with_notes(text: &str, problems: &[Diagnostic]) -> String {
    let mut out = String::new();
    let note = |out: &mut String, column: usize, carets: usize, problem: &Diagnostic| {
        let indent = " ".repeat(column.max(3) - 2);
        let carets = if carets == 0 { String::new() } else { "^".repeat(carets) + " " };
        let (word, code) = (problem.severity.word(), problem.code);
        writeln!(out, "#{indent}{carets}{word}[{code}]: {}", problem.message).unwrap();
        for (place, words) in &problem.also {
            let line =
                place.range.as_ref().map_or(0, |range| place.source.line_column(range.start).0);
            writeln!(out, "#{indent}also line {line}: {words}").unwrap();
        }
        for hint in &problem.hints {
            writeln!(out, "#{indent}help: {hint}").unwrap();
        }
    };
    for (at, line) in text.lines().enumerate() {
        writeln!(out, "{line}").unwrap();
        for problem in problems {
            let Some(range) = problem.place.range.clone() else { continue };
            let (row, column) = problem.place.source.line_column(range.start);
            // What is missing at the end of the text is told under its last line.
            if row.min(text.lines().count()) == at + 1 {
                let marked = problem.place.source.text().get(range).unwrap_or_default();
                let carets = marked.lines().next().unwrap_or_default().chars().count().max(1);
                note(&mut out, column, carets, problem);
            }
        }
    }
    for problem in problems.iter().filter(|problem| problem.place.range.is_none()) {
        writeln!(out, "# also of {}:", problem.place.source.name()).unwrap();
        note(&mut out, 2, 0, problem);
    }
    out
}

fn check(folder: &str, problems_of: impl Fn(&str, &str) -> Vec<Diagnostic>) {
    let bless = std::env::var_os("SPLITCASE_BLESS").is_some();
    let mut wrong = Vec::new();
    for path in fixtures(folder) {
        let expected = fs::read_to_string(&path).unwrap();
        let plain = without_notes(&expected);
        let name = path.file_name().unwrap().to_str().unwrap();
        let found = with_notes(&plain, &problems_of(name, &plain));
        if bless {
            fs::write(&path, &found).unwrap();
        } else if found != expected {
            wrong.push(format!("--- {} says now:\n{found}", path.display()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_message_of_a_sheet_stands_under_its_place() {
    check("sheet", |name, text| {
        let mut problems = Problems::default();
        let sheet = sheet::read(name, text.as_bytes(), &workshop(), &mut problems);
        if let Some(sheet) = sheet {
            let first = text.lines().next().unwrap_or_default();
            let files: Vec<&str> = first
                .strip_prefix("# files: ")
                .map_or(Vec::new(), |files| files.split(", ").collect());
            let (tracks, photos): (Vec<&str>, Vec<&str>) =
                files.iter().partition(|file| file.ends_with(".gpx"));
            album::check_named(&sheet, "job", &photos, &photos, &mut problems);
            let track = track::track_name(&sheet, &tracks, &mut problems);
            let track = track.map(|name| fs::read(root().join("tests/tracks").join(name)).unwrap());
            problems.extend(splitcase::document::check_letters(&sheet, &workshop()));
            // What follows from a sheet is only known of a whole one, as in `job.rs`.
            if sheet.is_whole {
                splitcase::assessment::assess(&sheet, &workshop(), track.as_deref(), &mut problems);
            }
        }
        problems.into_sorted()
    });
}

#[test]
fn every_message_of_a_profile_stands_under_its_place() {
    check("profile", |name, text| {
        let mut problems = Problems::default();
        sheet::read_profile(name, text.as_bytes(), &mut problems);
        problems.into_sorted()
    });
}

#[test]
fn every_message_of_a_price_list_stands_under_its_place() {
    check("prices", |name, text| {
        let (mut workshop, mut problems) = (workshop(), Problems::default());
        sheet::read_prices(name, text.as_bytes(), &mut workshop, &mut problems);
        problems.into_sorted()
    });
}

#[test]
fn every_code_of_the_sheet_stage_has_a_fixture() {
    let codes = |text: &str| -> Vec<String> {
        let strings = text.split('"').skip(1).step_by(2);
        let codes = strings.filter(|part| {
            part.split_once('/').is_some_and(|(stage, _)| {
                matches!(stage, "sheet" | "photo" | "cost" | "cause" | "bench" | "ride")
            })
        });
        codes.map(str::to_owned).collect()
    };
    let mut wanted = codes(&fs::read_to_string(root().join("src/sheet/problems.rs")).unwrap());
    for folder in ["src/sheet/problems", "src/assessment/problems"] {
        for matter in fs::read_dir(root().join(folder)).unwrap() {
            wanted.extend(codes(&fs::read_to_string(matter.unwrap().path()).unwrap()));
        }
    }
    // Told by bytes, folders, batches or a profile's rule, which no fixture here holds; tested in
    // their modules.
    let elsewhere = [
        "sheet/too-long",
        "sheet/encoding",
        "sheet/duplicate-job",
        "photo/passed-over",
        "sheet/control-character",
        "sheet/empty",
        "sheet/too-deep",
        "bench/outside-rule",
        "cost/rate-of-which-tax",
        "cost/price-not-split",
        "cost/unknown-rate",
        "ride/track-large",
        // Of a photo's own bytes and clock.
        "photo/taken-before-arrival",
        "photo/taken-after-return",
        "photo/clock",
        "photo/same-picture",
        "photo/near-duplicate",
        "photo/edited",
        "photo/blurred",
        "photo/dark",
        "photo/bright",
    ];
    let fixtures: String = ["sheet", "profile"]
        .iter()
        .flat_map(|folder| fixtures(folder))
        .map(|path| fs::read_to_string(path).unwrap())
        .collect();
    wanted.retain(|code| !elsewhere.contains(&code.as_str()) && !fixtures.contains(code.as_str()));
    assert!(wanted.is_empty(), "no fixture shows {wanted:?}");
}

#[test]
fn a_snippet_shows_file_line_column_and_the_place_underlined() {
    let source = SourceText::new("job/findings.yaml", "arrival:\n  water: 40\n");
    let place = splitcase::diagnostic::Place::at(&source, 18..20);
    let problem = splitcase::sheet::problems::missing_unit(place, "40", &["ml", "l"]);
    let drawn = splitcase::diagnostic::print::drawn(&problem);
    let plain = anstream::adapter::strip_str(&drawn).to_string();
    let expected = "\
error[sheet/missing-unit]: `40` has no unit
 --> job/findings.yaml:2:10
  |
2 |   water: 40
  |          ^^
  |
  = help: write `40 ml`; units here are `ml`, `l`";
    assert_eq!(plain, expected);
}
