//! The owner's copy: its own rules, and which of two bags speaks for a report.

use std::fs;
use std::path::{Path, PathBuf};

use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::verify;

use super::made::{Made, WORKSHOP, held, manifest, pdf, sheet};

const ISSUED: &str = "job: HD-2614\nnote: as the owner has it\n";

/// A sealed job with its owner's copy, and the report of both.
struct Pair {
    made: Made,
    bag: PathBuf,
    copy: PathBuf,
    report: PathBuf,
}

/// How a pair is made.
struct Wish<'a> {
    photos: bool,
    copied_sheet: &'a str,
    note_in_bag: &'a str,
}

const USUAL: Wish<'_> = Wish { photos: true, copied_sheet: ISSUED, note_in_bag: "grinding" };

impl Pair {
    fn new(wish: &Wish<'_>) -> Self {
        let made = Made::new();
        let folder = made.job_folder("HD-2614", "grinding");
        let mut form: serde_json::Value =
            serde_json::from_slice(&manifest(&folder, "HD-2614")).unwrap();
        let issued = splitcase::digest::Digest::of(ISSUED.as_bytes()).hex();
        form["findings-yaml"]["issued-sha256"] = issued.into();
        let (mut originals, mut copies) = (vec!["bearing.jpg", "photos/seal.jpg"], Vec::new());
        if wish.photos {
            copies.push(held("photos/bearing.jpg", "a bearing without a place"));
        } else {
            originals.clear();
            form["photos"] = serde_json::json!([]);
        }
        let form = serde_json::to_vec(&form).unwrap();
        let paper = |note: &str| held("papers/return-report.pdf", pdf(&form, note));
        let report = folder.parent().unwrap().join("report.pdf");
        fs::write(&report, pdf(&form, "grinding")).unwrap();
        let contents = [
            held("findings.yaml", sheet("HD-2614", "grinding")),
            held("workshop.yaml", WORKSHOP),
            paper(wish.note_in_bag),
        ];
        let bag = made.seal_with("HD-2614", &originals, &contents, &[], false);
        copies.extend([held("findings.yaml", wish.copied_sheet), paper("grinding")]);
        let copy = made.seal_with("HD-2614-owner", &[], &copies, &[], true);
        Self { made, bag, copy, report }
    }

    fn against(&self, place: &Path) -> Judgement {
        verify(&self.report, &Against { originals: Some(place), ..Against::default() })
    }
}

fn proves(judged: &Judgement, text: &str) -> bool {
    judged.shown.iter().any(|one| one.text == text)
}

fn leaves_open(judged: &Judgement, code: &str) -> bool {
    judged.not_shown.iter().any(|one| one.code == code)
}

const OF_THE_BAG: &str =
    "the bag `HD-2614/HD-2614-v1` holds a paper with the same list of material";
const OF_THE_COPY: &str =
    "the bag `HD-2614-owner/HD-2614-owner-v1` holds a paper with the same list of material";
const SAME: &str = "the PDF has the same bytes as `data/papers/return-report.pdf` in the bag";

#[test]
fn a_sound_report_is_not_accused_where_an_owners_copy_lies_in_the_archive() {
    let pair = Pair::new(&USUAL);
    let judged = pair.against(&pair.made.archive);
    assert_eq!(judged.outcome(), Outcome::VouchedFor, "{judged:#?}");
    assert!(proves(&judged, OF_THE_BAG) && !proves(&judged, OF_THE_COPY), "{judged:#?}");
    assert!(proves(&judged, SAME) && !leaves_open(&judged, "archive/owners-copy"));
    let whole = verify(&pair.made.archive, &Against::default());
    assert_eq!(whole.outcome(), Outcome::AgreesWithItself, "{whole:#?}");
}

#[test]
fn a_report_is_held_against_an_owners_copy_by_the_sheet_as_it_was_issued() {
    let pair = Pair::new(&USUAL);
    for place in [&pair.copy, &pair.copy.with_extension("tar")] {
        let judged = pair.against(place);
        assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
        assert!(proves(&judged, SAME) && leaves_open(&judged, "archive/owners-copy"));
    }
    let other = Pair::new(&Wish { copied_sheet: "job: HD-2614\nnote: gentler\n", ..USUAL });
    let judged = other.against(&other.copy);
    let said = "it lists another `findings.yaml` than the one there";
    assert!(judged.flaws.iter().any(|flaw| flaw.message == said), "{judged:#?}");
}

#[test]
fn a_report_whose_bytes_lie_in_the_owners_copy_alone_does_not_agree() {
    let pair = Pair::new(&Wish { note_in_bag: "reprinted", ..USUAL });
    let judged = pair.against(&pair.made.archive);
    assert_eq!(judged.outcome(), Outcome::DoesNotAgree, "{judged:#?}");
    let codes: Vec<&str> = judged.flaws.iter().map(|flaw| flaw.code).collect();
    assert_eq!(codes, ["archive/workshops-bag"], "{judged:#?}");
    for text in [OF_THE_BAG, OF_THE_COPY, SAME] {
        assert!(proves(&judged, text), "{text} {judged:#?}");
    }
    fs::write(pair.copy.join("data/photos/bearing.jpg"), "another").unwrap();
    let judged = pair.against(&pair.made.archive);
    let place = "HD-2614-owner/HD-2614-owner-v1/data/photos/bearing.jpg";
    assert!(judged.flaws.iter().any(|flaw| flaw.place == place), "{judged:#?}");
    fs::write(&pair.report, b"%PDF-1.7 none of them").unwrap();
    assert_ne!(pair.against(&pair.made.archive).outcome(), Outcome::AgreesWithItself);
}

#[test]
fn where_the_bag_of_the_originals_is_gone_a_paper_cannot_be_judged() {
    let pair = Pair::new(&USUAL);
    fs::remove_dir_all(pair.bag.parent().unwrap()).unwrap();
    let judged = pair.against(&pair.made.archive);
    assert_eq!(judged.outcome(), Outcome::CannotBeJudged, "{judged:#?}");
    assert!(proves(&judged, OF_THE_COPY) && leaves_open(&judged, "archive/owners-copy"));
}

#[test]
fn an_owners_copy_with_photos_says_that_they_are_not_the_originals() {
    let pair = Pair::new(&USUAL);
    let judged = verify(&pair.copy, &Against::default());
    let said = "this is an owner's copy: its photos have no metadata";
    assert!(judged.not_shown.iter().any(|one| one.text.starts_with(said)), "{judged:#?}");
}

#[test]
fn an_owners_copy_without_photos_agrees_with_itself() {
    let pair = Pair::new(&Wish { photos: false, ..USUAL });
    let judged = verify(&pair.copy, &Against::default());
    assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
    let said = "this is an owner's copy, without photos; the workshop's own bag holds what the paper \
                lists";
    assert!(judged.not_shown.iter().any(|one| one.text == said), "{judged:#?}");
    assert_eq!(pair.against(&pair.made.archive).outcome(), Outcome::VouchedFor);
    assert!(!leaves_open(&verify(&pair.bag, &Against::default()), "archive/owners-copy"));
}

#[test]
fn a_bag_that_lost_its_profile_and_originals_does_not_pass_for_an_owners_copy() {
    let pair = Pair::new(&USUAL);
    fs::remove_dir_all(pair.bag.join("data/originals")).unwrap();
    fs::remove_file(pair.bag.join("data/workshop.yaml")).unwrap();
    let judged = verify(&pair.bag, &Against::default());
    assert_eq!(judged.outcome(), Outcome::DoesNotAgree);
    assert!(!leaves_open(&judged, "archive/owners-copy"), "{judged:#?}");
}
