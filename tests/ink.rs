//! What is printed, measured in the finished PDFs of every paper and edition: the size and the colour of every
//! letter, the lines of drawings, a bearing at its natural size.

/// What is drawn on the pages of a PDF.
pub mod content;
/// Before and after in one frame.
mod scale;

use std::fs;

use splitcase::sheet::colour::contrast;

use crate::small;
use crate::workshop::{Workshop, jpeg};
use content::{Kind, MM, Mark, marks};

/// Smallest letters in points. (Workshop judgement; no law sets one for such papers.)
const SMALLEST: f64 = 8.0;
const WHITE: [u8; 3] = [255; 3];

/// The papers of a sample on a size of paper, by file name.
fn papers(sample: &str, size: &str) -> Vec<(String, Vec<u8>)> {
    let samples = small::samples();
    let profile = fs::read_to_string(samples.join("workshop.yaml")).unwrap();
    let shop = Workshop::with_profile(&profile.replace("paper: a4", &format!("paper: {size}")));
    shop.file("parts.yaml", fs::read(samples.join("parts.yaml")).unwrap());
    for file in fs::read_dir(samples.join(sample)).unwrap().map(|file| file.unwrap()) {
        let name = format!("jobs/{sample}/{}", file.file_name().to_str().unwrap());
        shop.file(&name, fs::read(file.path()).unwrap());
    }
    let mut arguments = vec!["render", "jobs", "--out", "out", "--edition", "phone"];
    for paper in ["arrival-note", "options-letter", "return-report", "evidence-file"] {
        arguments.extend(["--paper", paper]);
    }
    let run = shop.run(&arguments);
    assert_eq!(run.code, 0, "{}", run.err);
    let run = shop.run(&["photos", "jobs", "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let mut papers = Vec::new();
    for entry in walkdir::WalkDir::new(shop.path("")).sort_by_file_name().into_iter().flatten() {
        let name = entry.file_name().to_str().unwrap();
        if name.ends_with(".pdf") {
            papers.push((format!("{sample}, {size}: {name}"), fs::read(entry.path()).unwrap()));
        }
    }
    let names: Vec<&str> = papers.iter().filter_map(|(name, _)| name.split(": ").nth(1)).collect();
    let wanted = [
        "arrival-note.pdf",
        "evidence-file.pdf",
        "options-letter.pdf",
        "photo-sheet.pdf",
        "return-report-phone.pdf",
        "return-report.pdf",
    ];
    for paper in wanted {
        assert!(names.contains(&paper), "{paper} is not among {names:?}");
    }
    papers
}

/// What is under a point when a mark is painted: the last that fills it before.
fn ground(before: &[Mark], page: usize, at: (f64, f64)) -> Option<[u8; 3]> {
    let fills = |mark: &&Mark| matches!(mark.kind, Kind::Filled | Kind::Picture);
    let under = before.iter().rev().filter(fills).find(|mark| mark.holds(page, at));
    under.map_or(Some(WHITE), |mark| mark.colour)
}

/// Every letter is at least 8 points tall and stands out from its ground by 4.5 : 1, every line and dot of a
/// drawing from the paper by 3 : 1. (WCAG 2.2, 1.4.3 and 1.4.11; relative luminance as defined there.)
#[test]
fn no_letter_is_small_and_no_ink_is_faint_on_any_paper_of_any_size_or_edition() {
    let mut n_letters = 0;
    let mut faintest = f64::MAX;
    for (name, pdf) in papers("hd-2614", "a4").into_iter().chain(papers("hd-2611", "us-letter")) {
        let marks = marks(&pdf);
        let mut n_of_paper = 0;
        for (at, mark) in marks.iter().enumerate() {
            let [left, bottom, right, top] = mark.place;
            let middle = (f64::midpoint(left, right), f64::midpoint(bottom, top));
            let place = format!("{name}, page {}, at {middle:.0?}", mark.page);
            match mark.kind {
                Kind::Letters(size) => {
                    n_of_paper += 1;
                    assert!(SMALLEST - 0.001 <= size, "{place}: {size:.2} points");
                    let inside = (left + 0.2 * size, bottom + 0.3 * size);
                    let ground = ground(&marks[..at], mark.page, inside);
                    let ground = ground.unwrap_or_else(|| panic!("{place}: letters on a photo"));
                    let ratio = contrast(mark.colour.unwrap(), ground);
                    faintest = faintest.min(ratio);
                    assert!(4.5 <= ratio, "{place}: letters at {ratio:.2} : 1");
                }
                Kind::Filled | Kind::Stroked(_) => {
                    let Some(colour) = mark.colour.filter(|colour| *colour != WHITE) else {
                        continue;
                    };
                    if ground(&marks[..at], mark.page, middle).is_some() {
                        let ratio = contrast(colour, WHITE);
                        assert!(3.0 <= ratio, "{place}: ink at {ratio:.2} : 1");
                    }
                }
                Kind::Picture => {}
            }
        }
        assert!(20 < n_of_paper, "{name}: only {n_of_paper} runs of letters");
        n_letters += n_of_paper;
    }
    assert!(2000 < n_letters, "only {n_letters} runs of letters");
    assert!(faintest < 10.0, "no grey was met");
}

/// Diameters in millimetres of the largest set of rings around one centre, largest first, measured over the
/// outside of their lines.
fn rings(marks: &[Mark]) -> Vec<f64> {
    let is_ring = |mark: &&Mark| {
        matches!(mark.kind, Kind::Stroked(_))
            && mark.is_curved
            && (mark.width() - mark.height()).abs() < 0.01
    };
    let rings: Vec<&Mark> = marks.iter().filter(is_ring).collect();
    let centre =
        |mark: &Mark| (mark.page, mark.place[0] + mark.place[2], mark.place[1] + mark.place[3]);
    let around = |one: &Mark| {
        let here = centre(one);
        let same = |other: &&&Mark| {
            let there = centre(other);
            there.0 == here.0 && (there.1 - here.1).abs() < 0.05 && (there.2 - here.2).abs() < 0.05
        };
        let across = |mark: &&Mark| match mark.kind {
            Kind::Stroked(width) => (mark.width() + width) / MM,
            _ => 0.0,
        };
        let mut all: Vec<f64> = rings.iter().filter(same).map(across).collect();
        all.sort_by(|a, b| b.total_cmp(a));
        all
    };
    rings.iter().map(|ring| around(ring)).max_by_key(Vec::len).unwrap_or_default()
}

/// Boundary dimensions of deep-groove ball bearings, bore and outside diameter in millimetres: ISO 15:2017,
/// dimension series 18 (6804, 6805), 10 (6001) and 02 (6202), as every general catalogue of bearings prints
/// them (written down from memory of those tables).
const BEARINGS: [(&str, f64, f64); 4] = [
    ("6804-2RS", 20.0, 32.0),
    ("6805-2RS", 25.0, 37.0),
    ("6001-2Z", 12.0, 28.0),
    ("6202-2RS", 15.0, 35.0),
];

#[test]
fn a_bearing_at_its_natural_size_measures_on_the_page_what_its_standard_says() {
    for size in ["a4", "us-letter"] {
        for (at, (bearing, bore, outside)) in BEARINGS.into_iter().enumerate() {
            // One harmed part stands alone, two are beside a drawing of the unit.
            let second = match at % 2 {
                0 => "",
                _ => "    - {part: output-gear, condition: worn}\n",
            };
            let profile = format!("{}paper: {size}\n", crate::workshop::PROFILE);
            let shop = Workshop::with_profile(&profile);
            shop.file("jobs/A-1/1.jpg", jpeg(400, 300, 1));
            shop.file(
                "jobs/A-1/findings.yaml",
                format!(
                    "{}strip-down:\n  date: 2026-03-04\n  findings:\n    - {{part: main-bearing-drive-side, \
                     condition: failed, bearing: {bearing}, photos: [1.jpg]}}\n{second}{}",
                    crate::workshop::sheet("A-1"),
                    crate::workshop::RETURNED
                ),
            );
            let run = shop.run(&["render", "jobs", "--out", "out", "--paper", "return-report"]);
            assert_eq!(run.code, 0, "{}", run.err);
            let marks = marks(&shop.read("out/A-1/return-report.pdf"));
            let rings = rings(&marks);
            assert_eq!(rings.len(), 4, "{bearing} on {size}: {rings:?}");
            assert!((rings[0] - outside).abs() < 0.05, "{bearing} on {size}: {rings:?}");
            assert!((rings[3] - bore).abs() < 0.05, "{bearing} on {size}: {rings:?}");
            // The bar by which a print is checked.
            let bar = |mark: &&Mark| {
                matches!(mark.kind, Kind::Stroked(_))
                    && mark.height() < 0.01
                    && (mark.width() / MM - 20.0).abs() < 0.02
            };
            assert_eq!(marks.iter().filter(bar).count(), 1, "{bearing} on {size}");
        }
    }
}
