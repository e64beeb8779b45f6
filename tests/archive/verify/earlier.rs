//! Papers that were issued before the sheet beside them was changed, and bags that say so.

use std::fs;
use std::path::PathBuf;

use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::verify;

use super::made::{Made, WORKSHOP, held, manifest, pdf, sheet};

const LABEL: &str = "Internal-Sender-Description";
const EARLIER: &str = "papers as issued earlier than this sheet";

/// A bag with a later sheet than its paper. `job` is the one that the paper names.
fn sealed(made: &Made, job: &str, fields: &[(&str, &str)], swap: bool) -> PathBuf {
    let folder = made.job_folder("HD-2614", "grinding");
    let paper = pdf(&manifest(&folder, job), "grinding");
    fs::write(folder.parent().unwrap().join("report.pdf"), &paper).unwrap();
    if swap {
        fs::write(folder.join("bearing.jpg"), "another bearing").unwrap();
    }
    let contents = [
        held("findings.yaml", sheet("HD-2614", "grinding, and a bent shaft")),
        held("workshop.yaml", WORKSHOP),
        held("papers/return-report.pdf", paper),
    ];
    made.seal_with("HD-2614", &["bearing.jpg", "photos/seal.jpg"], &contents, fields, false)
}

fn judged(job: &str, fields: &[(&str, &str)], swap: bool) -> Judgement {
    let made = Made::new();
    verify(&sealed(&made, job, fields, swap), &Against::default())
}

fn messages(judged: &Judgement) -> Vec<&str> {
    judged.flaws.iter().map(|flaw| flaw.message.as_str()).collect()
}

#[test]
fn a_paper_older_than_its_sheet_is_no_flaw_where_the_bag_says_so() {
    let judged = judged("HD-2614", &[(LABEL, EARLIER)], false);
    assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
    let said = "the paper `data/papers/return-report.pdf` was issued before the sheet beside it \
                was changed: it lists the photos that are here, its text rests on the earlier sheet";
    assert!(judged.not_shown.iter().any(|one| one.text == said), "{judged:#?}");
    assert!(!judged.shown.iter().any(|one| one.code == "archive/paper-fits"), "{judged:#?}");
}

#[test]
fn a_report_older_than_the_sheet_is_held_against_such_a_bag_and_its_archive() {
    let made = Made::new();
    let bag = sealed(&made, "HD-2614", &[(LABEL, EARLIER)], false);
    let report = made.job_folder("HD-2614", "grinding").with_file_name("report.pdf");
    for place in [&bag, &made.archive] {
        let judged = verify(&report, &Against { originals: Some(place), ..Against::default() });
        assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
        assert!(judged.shown.iter().any(|one| one.code == "archive/same-paper"));
    }
}

#[test]
fn a_bag_that_does_not_say_so_in_these_very_words_keeps_the_flaw() {
    let said = ["it lists another `findings.yaml` than the one there"];
    for fields in [
        vec![],
        vec![(LABEL, "papers as issued earlier")],
        vec![(LABEL, "Papers as issued earlier than this sheet")],
        vec![("External-Description", EARLIER)],
    ] {
        assert_eq!(messages(&judged("HD-2614", &fields, false)), said, "{fields:?}");
    }
}

#[test]
fn photos_that_differ_stay_flaws_of_an_earlier_paper() {
    let judged = judged("HD-2614", &[(LABEL, EARLIER)], true);
    let said = ["it lists another `bearing.jpg` than the one there"];
    assert_eq!(messages(&judged), said);
    let claim = "it lists the photos that are here";
    assert!(!judged.not_shown.iter().any(|one| one.text.contains(claim)), "{judged:#?}");
}

#[test]
fn a_paper_that_names_another_job_is_a_flaw_whatever_the_bag_says() {
    let said = "it was made for another job: `HD-2620`";
    for fields in [vec![], vec![(LABEL, EARLIER)]] {
        assert!(messages(&judged("HD-2620", &fields, false)).contains(&said), "{fields:?}");
    }
}
