//! Forgeries by somebody who can write to the archive: each is seen, or said to be unseen from inside.

use std::fs;
use std::path::Path;

use serde_json::Value;
use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::verify;
use splitcase::digest::Digest;

use super::made::{Made, WORKSHOP, held, manifest, pdf_carrying, sheet};

fn judged(path: &Path) -> Judgement {
    verify(
        path,
        &Against { now: Some("2026-04-01T08:00:00Z".parse().unwrap()), ..Against::default() },
    )
}

/// Writes the register anew with these times, each line holding the digest of the one before.
fn redate(archive: &Path, times: &[&str]) {
    let path = archive.join("register.jsonl");
    let mut previous = "0".repeat(64);
    let mut text = String::new();
    for (line, time) in fs::read_to_string(&path).unwrap().lines().zip(times) {
        let entry: Value = serde_json::from_str(line).unwrap();
        let old = |key: &str| format!("\"{key}\":{}", entry[key]);
        let line = line
            .replace(&old("time"), &format!("\"time\":\"{time}\""))
            .replace(&old("previous"), &format!("\"previous\":\"{previous}\""));
        previous = Digest::of(line.as_bytes()).hex();
        text += &format!("{line}\n");
    }
    fs::write(path, text).unwrap();
}

#[test]
fn a_register_written_anew_is_not_seen_from_inside_and_the_first_lines_say_so() {
    let made = Made::new();
    made.seal("HD-2614", "grinding", false);
    redate(&made.archive, &["2026-03-11T14:05:09Z"]);
    let judged = judged(&made.archive);
    assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
    let text = judged.text(Path::new("archive"));
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines[0], "archive: agrees with itself; nothing outside this folder vouches for it");
    let said = "  not seen from inside: whoever can write here could have made all of it again";
    assert!(lines[1].starts_with(said), "{text}");
}

#[test]
fn a_register_written_anew_without_its_bags_does_not_agree_with_the_heads_in_them() {
    let made = Made::with_bags();
    redate(&made.archive, &["2026-03-11T14:05:09Z"; 3]);
    let judged = judged(&made.archive);
    let flaws: Vec<(&str, &str)> =
        judged.flaws.iter().map(|flaw| (flaw.code, flaw.place.as_str())).collect();
    let wanted =
        [("archive/history", "HD-2614/HD-2614-v2"), ("archive/history", "HD-2620/HD-2620-v1")];
    assert_eq!(flaws, wanted);
    let alone = verify(&made.archive.join("HD-2620/HD-2620-v1"), &Against::default());
    assert_eq!(alone.flaws[0].code, "archive/history");
}

#[test]
fn times_of_the_register_must_be_times_in_order_after_the_job_and_not_to_come() {
    let made = Made::with_bags();
    let good = "2026-03-11T14:05:08Z";
    for (times, line, why) in [
        ([good, "yesterday", good], 2, "which is not a time in UTC"),
        ([good, "2026-3-11T14:05:08Z", good], 2, "which is not a time in UTC"),
        (["2026-03-12T08:00:00Z", good, good], 2, "before the line before it"),
        (["2001-01-01T00:00:00Z", good, good], 1, "before 2026-03-11, the last day"),
        ([good, good, "2035-01-01T00:00:00Z"], 3, "after the clock of this machine"),
    ] {
        redate(&made.archive, &times);
        let judged = judged(&made.archive);
        assert_eq!(judged.outcome(), Outcome::DoesNotAgree, "{times:?}");
        let said = format!("line {line} is dated `{}`, {why}", times[line - 1]);
        assert!(judged.flaws.iter().any(|flaw| flaw.message.starts_with(&said)), "{judged:#?}");
    }
    redate(&made.archive, &[good; 3]);
    assert_eq!(judged(&made.archive).outcome(), Outcome::AgreesWithItself);
}

#[test]
fn a_bag_made_anew_beside_an_old_register_is_seen_when_asked_about_alone() {
    let made = Made::with_bags();
    let other = Made::new();
    other.seal("HD-2614", "another story", true);
    let bag = made.archive.join("HD-2614/HD-2614-v1");
    let sound = judged(&bag);
    assert!(sound.shown.iter().any(|one| one.code == "archive/registered"), "{sound:#?}");
    fs::remove_dir_all(&bag).unwrap();
    fs::rename(other.archive.join("HD-2614/HD-2614-v1"), &bag).unwrap();
    fs::rename(other.archive.join("HD-2614/HD-2614-v1.tar"), bag.with_extension("tar")).unwrap();
    for path in [bag.clone(), bag.with_extension("tar")] {
        let codes: Vec<&str> = judged(&path).flaws.iter().map(|flaw| flaw.code).collect();
        assert_eq!(codes, ["archive/other-seal"], "{path:?}");
    }
}

#[test]
fn a_sheet_changed_inside_a_paper_is_named() {
    let made = Made::new();
    let folder = made.job_folder("HD-2614", "grinding");
    let mut form: Value = serde_json::from_slice(&manifest(&folder, "HD-2614")).unwrap();
    let issued = b"job: HD-2614\nnote: as the owner has it\n";
    form["findings-yaml"]["issued-sha256"] = Digest::of(issued).hex().into();
    let form = serde_json::to_vec(&form).unwrap();
    let carried = |sheet: &[u8]| {
        let place = tempfile::tempdir().unwrap();
        let paper = place.path().join("report.pdf");
        fs::write(&paper, pdf_carrying(&form, sheet)).unwrap();
        verify(&paper, &Against { originals: Some(&folder), ..Against::default() })
    };
    let sound = carried(issued);
    assert!(sound.shown.iter().any(|one| one.code == "archive/carried-sheet"), "{sound:#?}");
    let forged = carried(b"job: HD-2614\nnote: gentler\n");
    let codes: Vec<&str> = forged.flaws.iter().map(|flaw| flaw.code).collect();
    assert_eq!(codes, ["archive/carried-sheet"]);
    // The same inside a bag.
    let contents = [
        held("findings.yaml", sheet("HD-2614", "grinding")),
        held("workshop.yaml", WORKSHOP),
        held("papers/return-report.pdf", pdf_carrying(&form, b"job: HD-2614\nnote: gentler\n")),
    ];
    let bag = made.seal_with("HD-2614", &["bearing.jpg", "photos/seal.jpg"], &contents, &[], false);
    let codes: Vec<&str> = judged(&bag).flaws.iter().map(|flaw| flaw.code).collect();
    assert_eq!(codes, ["archive/carried-sheet"]);
}

#[test]
fn a_paper_that_carries_nothing_is_said_so_in_the_first_lines() {
    let made = Made::new();
    let contents = [
        held("findings.yaml", sheet("HD-2614", "grinding")),
        held("workshop.yaml", WORKSHOP),
        held("papers/return-report.pdf", "%PDF-1.7 a gentler story"),
    ];
    made.job_folder("HD-2614", "grinding");
    let bag = made.seal_with("HD-2614", &["bearing.jpg"], &contents, &[], false);
    for path in [&bag, &made.archive] {
        let judged = judged(path);
        assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
        let text = judged.text(path);
        let first: Vec<&str> = text.lines().take(4).collect();
        assert!(
            first.iter().any(|line| line.contains("nothing is known of what")
                && line.contains("return-report.pdf")),
            "{text}"
        );
    }
    // The customer's own PDF, held against that archive, finds no bag that knows it.
    let place = made.archive.parent().unwrap().join("report.pdf");
    fs::write(&place, made.paper("HD-2614", "grinding")).unwrap();
    let judged = verify(&place, &Against { originals: Some(&made.archive), ..Against::default() });
    assert_eq!(judged.outcome(), Outcome::DoesNotAgree, "{judged:#?}");
}

#[test]
fn a_register_made_to_hurt_is_judged_within_bounds_and_one_of_fifty_megabytes_refused() {
    let made = Made::with_bags();
    let path = made.archive.join("register.jsonl");
    for bytes in [vec![b'\n'; 39 << 20], vec![b'x'; 39 << 20]] {
        fs::write(&path, bytes).unwrap();
        let begun = std::time::Instant::now();
        let judged = judged(&made.archive);
        assert_eq!(judged.outcome(), Outcome::DoesNotAgree);
        assert!(judged.flaws.len() < 120, "{}", judged.flaws.len());
        assert!(begun.elapsed().as_secs() < 5);
    }
    fs::File::create(&path).unwrap().set_len(50 << 20).unwrap();
    assert_eq!(judged(&made.archive).outcome(), Outcome::CannotBeJudged);
}

#[test]
fn a_paper_that_leads_a_thousand_times_to_one_endless_text_is_judged_within_bounds() {
    let place = tempfile::tempdir().unwrap();
    let path = place.path().join("report.pdf");
    let head =
        format!("%PDF-1.7\n1 0 obj\n<</Type/Catalog/AF[{}]>>\nendobj\n", "2 0 R ".repeat(1000));
    let mut pdf = head.clone().into_bytes();
    pdf.extend(b"2 0 obj\n(");
    pdf.resize(pdf.len() + (50 << 20), b'x');
    pdf.extend(b")\nendobj\n");
    let table = pdf.len();
    let end = format!(
        "xref\n0 3\n0000000000 65535 f \n{:010} 00000 n \n{:010} 00000 n \ntrailer\n<</Root 1 0 R>>\nstartxref\n{table}\n%%EOF\n",
        9,
        head.len(),
    );
    pdf.extend(end.into_bytes());
    fs::write(&path, pdf).unwrap();
    let begun = std::time::Instant::now();
    let judged = verify(&path, &Against { originals: Some(place.path()), ..Against::default() });
    assert_eq!(judged.outcome(), Outcome::CannotBeJudged, "{judged:#?}");
    assert!(begun.elapsed().as_secs() < 20, "{:?}", begun.elapsed());
}

#[test]
fn an_answer_does_not_grow_with_every_bag() {
    let made = Made::new();
    for number in 0..12 {
        let bag = made.seal(&format!("HD-{number}"), "no fault", true);
        fs::remove_dir_all(bag).unwrap();
    }
    let judged = judged(&made.archive);
    let alone: Vec<&str> = judged
        .not_shown
        .iter()
        .filter(|one| one.code == "archive/tar-alone" || one.text.starts_with("and the like"))
        .map(|one| one.text.as_str())
        .collect();
    assert!(alone.len() <= 12, "{alone:#?}");
}
