//! Short sheets: what a blank does, and that each starter, filled in, makes the papers of its kind.

#![allow(clippy::similar_names, reason = "a line and what it is like")]

use std::collections::BTreeSet;

use splitcase::scaffold::starter::STARTERS;
use splitcase::sheet::blanks::BLANK;

use crate::workshop::{Workshop, jpeg};

/// What a technician would write over a blank, by the field that it is in and what stands around it.
fn answer(like: &str, field: &str, line: &str) -> &'static str {
    let is = |words: &str| line.contains(words);
    match field {
        "name" => "Nadia Ferrow",
        "contact" => "nadia@example.org",
        "kind" if is("unit:") || is("mid-drive or hub") => "mid-drive",
        "kind" => "overhaul-plus-parts",
        "model" => "Kestmar C2",
        "serial" => "KC2-210466",
        "mileage" => "1840 mi",
        "used-for" => "commuting",
        "washed-with" => "garden-hose",
        "warranty" | "opened-before" => "unknown",
        "bought" => "2025-02-21",
        "packing" => "stout box",
        "complaint" => "It makes a noise",
        "sign" => "noise",
        "display" | "battery" => "on",
        "error-codes" => "none",
        "codes-point-to" => "unit",
        "assistance" => "weak",
        "noise" if is("ride:") => "silent",
        "noise" => "grinding",
        "water" => "40 ml",
        "by" => "S. Lindqvist",
        "condition" if like == "no-fault" || is("stator") || is("clutch") || is("connector") => {
            "sound"
        }
        "condition" if is("controller-board") && like == "overhaul" => "sound",
        "condition" => "damaged",
        "signs" if is("faultless") => "faultless-on-swap",
        "signs" if is("grease-clean") => "grease-clean-and-full",
        "signs" if is("glazed") || is("races") => "moisture-corrosion",
        "signs" if is("main-bearing") => "moisture-corrosion",
        "signs" if is("rust-trail") || is("crank-seal") => "seal-lip-damaged",
        "signs" if is("gear-grease") => "grease-black-glitter",
        "signs" if is("plastic-teeth") => "tooth-overload-break",
        "signs" if is("tooth-scuffing") => "tooth-scuffing",
        "signs" if is("transistor") => "transistor-burnt-dry",
        "signs" if is("winding") => "winding-bright",
        "bearing" => "6804-2RS",
        "action" if is("stator") || is("clutch") => "kept",
        "action" if is("controller-board") => "cleaned",
        "action" if is("kept, cleaned, repaired, replaced") => "kept",
        "action" => "replaced",
        "looked-for-absent" => "tamper-marks",
        "main" if like == "no-fault" => "no-fault-found",
        "main" if like == "board" => "electrical",
        "main" if like == "gear" => "mechanical",
        "main" => "ingress",
        "origin" if like == "gear" => "overload",
        "price" => "£54.00",
        "inspection" => "£35.00",
        "inspected" => "one hour on the bench",
        "days" => "5",
        "remaining" => "the gears",
        "option" if like == "early-bearing" => "single-bearing",
        "option" if like == "overhaul" => "overhaul",
        "option" if like == "board" => "exchange",
        "option" => "overhaul-plus-parts",
        "via" => "phone",
        "what" => "bearing 6804-2RS",
        "quantity" => "2",
        "labour" => "150 min",
        "grease" => "lithium complex",
        "set" => "5.5",
        "thread" => "M5",
        "before" if is("axle-play") || is("radial-play") => "0.40",
        "before" if is("winding") => "212",
        "before" => "180",
        "after" if is("play") => "0.05",
        "after" => "240",
        "test-voltage" => "250",
        "at" => "21",
        "distance" => "4.1 mi",
        "cut-off" => "24.5 km/h",
        "note" => "Measured from the plug",
        "photos" if is("exchange:") => "b.jpg",
        "photos" => "a.jpg",
        "photos-after" => "b.jpg",
        "outcome" if like == "no-fault" => "no-fault-found",
        "outcome" if like == "board" => "exchanged",
        "outcome" => "repaired",
        "date" if is("first-noticed") => "2026-02-20",
        "date" => "2026-03-04",
        "returned" => "2026-03-05",
        other => panic!("{like}: nobody knows what to write for `{other}`: {line}"),
    }
}

/// A starter with every blank written over. Of two the same signs on a line that cannot have them, the
/// line's comment tells which fit.
fn filled(like: &str, text: &str) -> String {
    let mut sheet = String::new();
    for line in text.lines() {
        let mut line = line.to_owned();
        while let Some(at) = line.find(BLANK) {
            let before = &line[..at];
            if before.starts_with('#') {
                break;
            }
            // An origin belongs to what is mechanical or electrical; a bearing that let water in has none.
            if like == "early-bearing" && before.trim_end().ends_with("origin:") {
                line = line.replace(", origin: ___", "");
                continue;
            }
            let key = before.rfind(": ").map_or(before.len(), |at| at);
            let field = before[..key].rsplit(|c: char| !c.is_ascii_lowercase() && c != '-').next();
            let field = field.unwrap().to_owned();
            line.replace_range(at..at + BLANK.len(), answer(like, &field, &line));
        }
        sheet += &line;
        sheet.push('\n');
    }
    sheet
}

#[test]
fn each_starter_filled_in_is_in_order_and_makes_its_papers() {
    for (like, _) in STARTERS {
        let shop = Workshop::new();
        let run = shop.run(&["new", "jobs/HD-1", "--like", like]);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{like}");
        let blank = String::from_utf8(shop.read("jobs/HD-1/findings.yaml")).unwrap();
        assert!(blank.lines().count() < 70, "{like} is not short");
        let today =
            blank.lines().find_map(|line| line.strip_prefix("  date: ")).unwrap().to_owned();
        let sheet = filled(like, &blank).replace(&today, "2026-03-02");
        shop.file("jobs/HD-1/findings.yaml", &sheet);
        for (n, name) in ["a.jpg", "b.jpg"].into_iter().enumerate() {
            shop.file(&format!("jobs/HD-1/{name}"), jpeg(400, 300, n as u32 + 1));
        }
        let run = shop.run(&["check", "jobs"]);
        assert_eq!(run.code, 0, "{like}: {}\n{sheet}", run.err);
        assert!(!run.err.contains("blank-left"), "{like}: {}", run.err);
        let run = shop.run(&["render", "jobs", "--out", "out"]);
        assert_eq!(run.code, 0, "{like}: {}", run.err);
        let paper = if *like == "arrival" { "arrival-note" } else { "return-report" };
        assert!(shop.has(&format!("out/HD-1/{paper}.pdf")), "{like}: {}", run.out);
    }
}

#[test]
fn a_starter_says_nothing_that_nobody_has_seen() {
    // What is left blank is as if it were not there: of a starter that nobody filled in, only the name,
    // the kind of unit and what a finding needs are missing, and no judgement stands in it.
    for (like, text) in STARTERS {
        for line in text.lines() {
            let line = line.split('#').next().unwrap();
            for field in [
                "condition",
                "signs",
                "main",
                "outcome",
                "looked-for-absent",
                "before",
                "after",
                "price",
            ] {
                if let Some((_, rest)) = line.split_once(&format!("{field}: ")) {
                    assert!(rest.trim_start_matches('[').starts_with(BLANK), "{like}: {line}");
                }
            }
        }
    }
}

#[test]
fn a_blank_that_is_left_is_passed_over_and_named_once_for_all() {
    let shop = Workshop::new();
    shop.run(&["new", "jobs/HD-1"]);
    let blank = String::from_utf8(shop.read("jobs/HD-1/findings.yaml")).unwrap();
    let sheet =
        blank.replacen("name: ___", "name: Nadia Ferrow", 1).replacen("kind: ___", "kind: hub", 1);
    shop.file("jobs/HD-1/findings.yaml", sheet);
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert_eq!(run.err.matches("warning").count(), 1, "{}", run.err);
    assert!(run.err.contains("warning[sheet/blank-left]: 17 blanks `___` are left"), "{}", run.err);
    assert!(shop.has("out/HD-1/arrival-note.pdf"));
    let pdf = String::from_utf8_lossy(&shop.read("out/HD-1/arrival-note.pdf")).into_owned();
    assert!(!pdf.contains("___"), "a blank is carried by the paper");
    // A field that is needed is missing, as if nothing stood there.
    shop.file("jobs/HD-1/findings.yaml", &blank);
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 1);
    assert_eq!(run.err.matches("error[sheet/missing-field]").count(), 2, "{}", run.err);
}

#[test]
fn every_word_that_a_starter_offers_is_one_that_a_sheet_takes() {
    let known: BTreeSet<String> = {
        let words =
            std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/docs/words.md")).unwrap();
        words.split('`').skip(1).step_by(2).map(str::to_owned).collect()
    };
    let mut n_words = 0;
    for (like, text) in STARTERS {
        for line in text.lines().filter(|line| line.contains(BLANK)) {
            let Some((_, comment)) = line.split_once('#') else { continue };
            for word in comment.split(|c: char| !c.is_ascii_lowercase() && c != '-') {
                if word.trim_matches('-').contains('-') {
                    n_words += 1;
                    assert!(known.contains(word), "{like}: `{word}` in {line}");
                }
            }
        }
    }
    assert!(40 < n_words, "{n_words}");
}
