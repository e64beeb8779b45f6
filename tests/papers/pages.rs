//! The pages of the arrival note and the options letter: how many, on both papers, with no finding and
//! with twelve, with long words; what a screen reader gets.

use crate::document::Paper;
use crate::workshop::{PROFILE, Workshop, jpeg};

const LONG: &str = "Elektrofahrradantriebsgehäusedichtungsaustauschverfahrensbeschreibung";

/// A job with this many findings and photos, options side by side, and a word in every typed text.
fn job(n_findings: usize, n_photos: usize, n_options: usize, word: &str) -> String {
    let photos = |start: usize| {
        let names: Vec<String> = (0..n_photos).map(|n| format!("{}.jpg", start + n)).collect();
        format!("photos: [{}]", names.join(", "))
    };
    let parts = [
        "main-bearing-drive-side",
        "main-bearing-non-drive-side",
        "crank-seal-drive-side",
        "crank-seal-non-drive-side",
        "rotor-bearing-inner",
        "rotor-bearing-outer",
        "intermediate-gear",
        "output-gear",
        "gear-grease",
        "controller-board",
        "main-connector",
        "stator-winding",
    ];
    let conditions = ["failed", "damaged", "worn", "sound"];
    let findings: String = parts[..n_findings]
        .iter()
        .enumerate()
        .map(|(at, part)| {
            let photo = if at == 0 && n_photos > 0 { ", photos: [100.jpg]" } else { "" };
            format!("    - {{part: {part}, condition: {}{photo}}}\n", conditions[at % 4])
        })
        .collect();
    let strip = match n_findings {
        0 => String::new(),
        _ => format!(
            "strip-down:\n  date: 2026-03-04\n  by: {word}\n  findings:\n{findings}cause: {{main: undetermined, note: {word}}}\n"
        ),
    };
    let kinds = ["overhaul", "exchange", "new-unit", "overhaul-plus-parts", "single-bearing"];
    let options: String = kinds[..n_options]
        .iter()
        .map(|kind| {
            format!(
                "  - {{kind: {kind}, parts: [{{what: {word}, quantity: 2, price: £9.80}}, {{what: seal, price: £6.50}}], \
                 labour: 150 min, days: 9, remaining: {word} {word}}}\n"
            )
        })
        .collect();
    let options = match n_options {
        0 => String::new(),
        _ => format!(
            "options:\n{options}  - {{kind: return-as-it-is, price: £35.00, days: 2}}\noptions-valid-to: 2026-04-10\n"
        ),
    };
    format!(
        "job: A-1\ncustomer: {{name: {word}}}\nunit: {{kind: mid-drive, model: {word}, serial: KC4-1, used-for: [trail]}}\n\
         arrival:\n  date: 2026-03-02\n  packing: {word}\n  complaint: {word} {word}\n  note: {word}\n  \
         reply-by: 2026-03-06\n  bike-check: {{display: on, battery: wet, noise: grinding}}\n  {}\n{strip}{options}",
        photos(0)
    )
}

fn shop(paper: &str, n_photos: usize) -> Workshop {
    let profile = format!("{PROFILE}paper: {paper}\nlanguage: en-GB\n");
    let shop = Workshop::with_profile(&profile);
    for n in 0..n_photos {
        let (width, height) = if n % 3 == 2 { (300, 400) } else { (400, 300) };
        shop.file(&format!("jobs/A-1/{n}.jpg"), jpeg(width, height, n as u32));
    }
    if n_photos > 0 {
        shop.file("jobs/A-1/100.jpg", jpeg(400, 300, 100));
    }
    shop
}

fn made(shop: &Workshop, text: &str, name: &str) -> Paper {
    shop.file("jobs/A-1/findings.yaml", text);
    let run = shop.run(&["render", "jobs", "--out", "out", "--paper", name, "--force"]);
    assert_eq!(run.code, 0, "{}\n{text}", run.err);
    Paper::read(shop, &format!("out/A-1/{name}.pdf"))
}

#[test]
fn an_arrival_note_is_one_page_and_an_options_letter_two_at_most_on_both_papers() {
    for paper in ["a4", "us-letter"] {
        for n_photos in [0, 1, 3, 12] {
            let shop = shop(paper, n_photos);
            let note = made(&shop, &job(0, n_photos, 0, "plain words"), "arrival-note");
            assert_eq!(note.n_pages(), 1, "{paper}, {n_photos} photos");
            assert_eq!(note.photos().len(), n_photos, "every photo of the arrival is shown");
        }
        let shop = shop(paper, 1);
        for (n_findings, n_options) in [(0, 1), (1, 2), (12, 3), (12, 5)] {
            for word in ["plain words", LONG] {
                let letter = made(&shop, &job(n_findings, 1, n_options, word), "options-letter");
                let pages = letter.n_pages();
                assert!(pages <= 2, "{paper}, {n_findings}, {n_options}, {word}: {pages} pages");
            }
        }
    }
}

/// A tag a heading, a list a list, a head of each row and each column with its scope; nothing is left
/// without words. (ISO 14289-1:2014, 7.2, 7.3, 7.5.)
#[test]
fn a_screen_reader_gets_headings_rows_columns_lists_and_the_language_with_its_region() {
    let shop = shop("a4", 2);
    let note = made(&shop, &job(0, 2, 0, "plain words"), "arrival-note");
    let letter = made(&shop, &job(3, 2, 2, "plain words"), "options-letter");
    for (paper, title, h2) in [(&note, "Arrival note A-1", 5), (&letter, "Options letter A-1", 5)] {
        for claim in [
            "<pdfaid:part>3</pdfaid:part>",
            "<pdfaid:conformance>A</pdfaid:conformance>",
            "<pdfuaid:part>1</pdfuaid:part>",
            title,
        ] {
            assert!(paper.has(claim), "{claim}");
        }
        assert!(paper.has("/Lang(en-GB)") || paper.has("/Lang (en-GB)"), "no language");
        let structure = paper.structure();
        assert_eq!(structure.get("H1"), Some(&1), "{structure:?}");
        assert!(h2 <= structure["H2"], "{structure:?}");
        assert!(!structure.contains_key("H3"), "{structure:?}");
        assert!(0 < structure["Figure"], "{structure:?}");
        let attached = paper.attached();
        let names: Vec<&str> = attached.keys().map(String::as_str).collect();
        assert_eq!(names, ["findings.yaml", "manifest.json"]);
    }
    let structure = letter.structure();
    // Three choices and the corner; price, time, what is new, what it leaves, guarantee.
    assert_eq!(structure["TH"], 4 + 5, "{structure:?}");
    assert_eq!(structure["TD"], 3 * 5, "{structure:?}");
    assert!(structure["L"] >= 2, "the boxes of the slip are lists: {structure:?}");
}
