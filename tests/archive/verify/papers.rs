//! PDFs: what they were made from, and whether they are the sealed ones.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::verify;

use super::made::{Made, manifest, pdf, pdf_with};

/// A sealed job, its folder and its paper as a customer has it.
struct Case {
    made: Made,
    bag: PathBuf,
    folder: PathBuf,
    paper: PathBuf,
}

impl Case {
    fn new() -> Self {
        let made = Made::new();
        let bag = made.seal("HD-2614", "grinding", true);
        let folder = made.job_folder("HD-2614", "grinding");
        let paper = folder.parent().unwrap().join("paper.pdf");
        fs::write(&paper, made.paper("HD-2614", "grinding")).unwrap();
        Self { made, bag, folder, paper }
    }

    fn against(&self, originals: &Path) -> Judgement {
        verify(&self.paper, &Against { originals: Some(originals), ..Against::default() })
    }
}

fn proves(judged: &Judgement, code: &str) -> bool {
    judged.shown.iter().any(|one| one.code == code)
}

fn messages(judged: &Judgement) -> Vec<&str> {
    judged.flaws.iter().map(|flaw| flaw.message.as_str()).collect()
}

#[test]
fn a_paper_is_held_against_its_bag_a_tar_of_it_and_the_whole_archive() {
    let case = Case::new();
    for place in [&case.bag, &case.bag.with_extension("tar"), &case.made.archive] {
        let judged = case.against(place);
        assert_eq!(judged.outcome(), Outcome::VouchedFor, "{place:?} {judged:#?}");
        let said = "`paper.pdf` lists these 2 photos and this findings sheet";
        assert!(judged.shown.iter().any(|one| one.text == said), "{judged:#?}");
        let said = "the PDF has the same bytes as `data/papers/return-report.pdf` in the bag";
        assert!(judged.shown.iter().any(|one| one.text == said), "{judged:#?}");
    }
}

#[test]
fn a_folder_of_originals_proves_what_a_paper_was_made_from_but_not_its_pages() {
    let case = Case::new();
    let judged = case.against(&case.folder);
    assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
    assert!(proves(&judged, "archive/paper-fits") && !proves(&judged, "archive/same-paper"));
    assert!(judged.not_shown.iter().any(|one| one.code == "archive/no-paper"));
}

#[test]
fn originals_that_were_changed_taken_away_or_added_are_named() {
    let case = Case::new();
    fs::write(case.folder.join("bearing.jpg"), "another bearing").unwrap();
    fs::remove_file(case.folder.join("photos/seal.jpg")).unwrap();
    fs::write(case.folder.join("late.jpg"), "a late photo").unwrap();
    fs::write(case.folder.join("findings.yaml"), "job: HD-2614\n").unwrap();
    let judged = case.against(&case.folder);
    assert_eq!(
        messages(&judged),
        [
            "it lists another `findings.yaml` than the one there",
            "it lists another `bearing.jpg` than the one there",
            "it lists `photos/seal.jpg`, which is not there",
        ]
    );
    let said = "`paper.pdf` knows nothing of `late.jpg`";
    assert!(judged.not_shown.iter().any(|one| one.text == said), "{judged:#?}");
}

#[test]
fn a_paper_with_other_pages_over_the_same_material_is_no_sealed_one() {
    let case = Case::new();
    let manifest = manifest(&case.folder, "HD-2614");
    fs::write(&case.paper, pdf(&manifest, "a gentler story")).unwrap();
    let judged = case.against(&case.bag);
    assert!(proves(&judged, "archive/paper-fits"));
    let said = "it is none of the PDFs in the bag, so its pages can show something else: \
                `data/papers/return-report.pdf`";
    assert_eq!(messages(&judged), [said]);
}

#[test]
fn a_sealed_paper_that_goes_on_says_by_how_much() {
    let case = Case::new();
    let mut bytes = fs::read(&case.paper).unwrap();
    bytes.extend(b"% a signature, or another page\n");
    fs::write(&case.paper, bytes).unwrap();
    let judged = case.against(&case.bag);
    assert!(
        messages(&judged).iter().any(|said| said.contains("goes on for 31 bytes")),
        "{judged:#?}"
    );
}

#[test]
fn a_paper_of_another_job_belongs_to_no_bag() {
    let case = Case::new();
    fs::write(&case.paper, case.made.paper("HD-2620", "no fault")).unwrap();
    assert_eq!(case.against(&case.bag).outcome(), Outcome::DoesNotAgree);
    let judged = case.against(&case.made.archive);
    assert_eq!(
        messages(&judged),
        ["no bag of the archive holds a paper with the same list of material"]
    );
}

#[test]
fn a_bag_whose_photos_were_swapped_before_sealing_does_not_fit_its_paper() {
    let case = Case::new();
    let other = Made::new();
    // Same job, other photos, old paper: whole as a bag, but telling two stories.
    let bag = other.seal("HD-2614", "swapped", false);
    let paper = bag.join("data/papers/return-report.pdf");
    fs::copy(&case.paper, &paper).unwrap();
    let judged = verify(&bag, &Against::default());
    let said: Vec<&str> = judged.flaws.iter().map(|flaw| flaw.code).collect();
    assert_eq!(said.iter().filter(|code| **code == "archive/paper").count(), 3, "{judged:#?}");
}

#[test]
fn a_paper_alone_says_that_there_is_nothing_to_hold_it_against() {
    let case = Case::new();
    let judged = verify(&case.paper, &Against::default());
    assert_eq!(judged.outcome(), Outcome::CannotBeJudged);
    assert!(judged.could_not[0].hint.as_ref().unwrap().contains("--against"));
    assert_eq!(judged.not_shown[0].code, "archive/paper-digest");
}

#[test]
fn options_that_do_not_fit_the_path_are_told_of() {
    let case = Case::new();
    let against = Against { originals: Some(&case.folder), ..Against::default() };
    assert_eq!(verify(&case.bag, &against).outcome(), Outcome::CannotBeJudged);
    let against = Against { head: Some("12345678"), ..Against::default() };
    assert_eq!(verify(&case.bag, &against).outcome(), Outcome::CannotBeJudged);
}

fn packed(bytes: &[u8]) -> Vec<u8> {
    let mut packer = flate2::write::ZlibEncoder::new(Vec::new(), flate2::Compression::best());
    packer.write_all(bytes).unwrap();
    packer.finish().unwrap()
}

#[test]
fn a_packed_manifest_is_read_and_one_that_unpacks_hugely_is_not() {
    let case = Case::new();
    let good = packed(&manifest(&case.folder, "HD-2614"));
    fs::write(&case.paper, pdf_with(&good, "/Filter/FlateDecode", "grinding")).unwrap();
    assert!(proves(&case.against(&case.folder), "archive/paper-fits"));
    let huge = packed(&vec![b' '; 40 << 20]);
    fs::write(&case.paper, pdf_with(&huge, "/Filter/FlateDecode", "grinding")).unwrap();
    let judged = case.against(&case.folder);
    assert_eq!(judged.outcome(), Outcome::CannotBeJudged);
    assert!(judged.could_not[0].cause.contains("too long"), "{judged:#?}");
}

#[test]
fn broken_papers_are_told_of_and_never_end_the_program() {
    let case = Case::new();
    let good = fs::read(&case.paper).unwrap();
    let mut chance = super::chance::Chance::new(5);
    for _ in 0..400 {
        let mut bad = good.clone();
        for _ in 0..=chance.below(6) {
            let at = chance.below(bad.len());
            bad[at] = u8::try_from(chance.below(256)).unwrap();
        }
        bad.truncate(bad.len() - chance.below(2) * chance.below(good.len()));
        if bad == good {
            continue;
        }
        fs::write(&case.paper, &bad).unwrap();
        assert_eq!(case.against(&case.bag).outcome(), Outcome::DoesNotAgree, "not a sealed paper");
    }
}

#[test]
fn names_in_a_manifest_never_lead_out_of_the_folder() {
    let case = Case::new();
    let mut form: serde_json::Value =
        serde_json::from_slice(&manifest(&case.folder, "HD-2614")).unwrap();
    let outside = case.folder.parent().unwrap().join("outside.jpg");
    fs::write(&outside, "outside").unwrap();
    let sha256 = splitcase::digest::Digest::of(b"outside").hex();
    for name in ["../outside.jpg", outside.to_str().unwrap()] {
        form["photos"] = serde_json::json!([{"file": name, "sha256": sha256}]);
        fs::write(&case.paper, pdf(&serde_json::to_vec(&form).unwrap(), "grinding")).unwrap();
        let judged = case.against(&case.folder);
        assert!(messages(&judged)[0].ends_with("which is not there"), "{judged:#?}");
    }
}

/// A PDF of these objects, the first its catalogue.
fn of_objects(objects: &[String]) -> Vec<u8> {
    let mut pdf = b"%PDF-1.7\n".to_vec();
    let mut table = format!("xref\n0 {}\n0000000000 65535 f \n", objects.len() + 1);
    for (at, object) in objects.iter().enumerate() {
        table += &format!("{:010} 00000 n \n", pdf.len());
        pdf.extend(format!("{} 0 obj\n{object}\nendobj\n", at + 1).into_bytes());
    }
    let start = pdf.len();
    let size = objects.len() + 1;
    table += &format!("trailer\n<</Size {size}/Root 1 0 R>>\nstartxref\n{start}\n%%EOF\n");
    pdf.extend(table.into_bytes());
    pdf
}

#[test]
fn papers_made_to_hurt_are_told_of_within_bounds() {
    let case = Case::new();
    let many = 300_000;
    let catalogue = |rest: &str| format!("<</Type/Catalog{rest}>>");
    let kids = "2 0 R ".repeat(1000);
    for objects in [
        vec![catalogue(&format!("/AF {}{}", "[".repeat(many), "]".repeat(many)))],
        vec![catalogue(&format!(
            "/Names {}{}",
            "<</EmbeddedFiles".repeat(many),
            ">>".repeat(many)
        ))],
        vec![catalogue(&format!("/AF {}", "(".repeat(many)))],
        vec![catalogue("/AF 2 0 R"), "2 0 R".to_owned()],
        vec![catalogue("/AF 2 0 R"), "3 0 R".to_owned(), "2 0 R".to_owned()],
        vec![catalogue("/Names<</EmbeddedFiles 2 0 R>>"), format!("<</Kids[{kids}]>>")],
        vec![catalogue(&format!("/AF[{}]", "1 0 R ".repeat(many)))],
        vec![catalogue("/AF[2 0 R]"), "<</F(manifest.json)/EF<</F 2 0 R>>>>".to_owned()],
        vec![
            catalogue("/AF[<</F(manifest.json)/EF<</F 2 0 R>>>>]"),
            "<</Length 99999999999>>\nstream\n".to_owned(),
        ],
    ] {
        fs::write(&case.paper, of_objects(&objects)).unwrap();
        let judged = case.against(&case.folder);
        assert_eq!(judged.outcome(), Outcome::CannotBeJudged, "{judged:#?}");
    }
    // A table that leads back to itself, and one that claims to be endless.
    let good = String::from_utf8(of_objects(&[catalogue("")])).unwrap();
    let start = good.find("xref\n").unwrap();
    for bad in [
        good.replace("/Root 1", &format!("/Prev {start}/Root 1")),
        good.replace("0 2\n", "0 18446744073709551615\n"),
        good.replace("startxref\n", "startxref\n18446744073709551615"),
    ] {
        fs::write(&case.paper, bad).unwrap();
        assert_eq!(case.against(&case.folder).outcome(), Outcome::CannotBeJudged);
    }
}

/// ISO 32000-1, 7.3.4.3: strings as hexadecimal digits, white space between them, an odd last one before a zero.
#[test]
fn the_name_of_an_attachment_may_be_written_in_hexadecimal() {
    let case = Case::new();
    let own = String::from_utf8(manifest(&case.folder, "HD-2614")).unwrap();
    let hex: String = b"manifest.json".iter().map(|byte| format!("{byte:02x}")).collect();
    let (begin, end) = hex.split_at(9);
    for (name, holds) in [
        (format!("<{hex}>"), true),
        (format!("<{}>", hex.to_uppercase()), true),
        (format!("<{begin} \n{end}>"), true),
        (format!("<{hex}6>"), false),
        (format!("<{}>", hex.replace('6', "g")), false),
    ] {
        let objects = [
            "<</Type/Catalog/AF[2 0 R]>>".to_owned(),
            format!("<</Type/Filespec/F{name}/UF{name}/EF<</F 3 0 R>>>>"),
            format!("<</Length {}>>\nstream\n{own}\nendstream", own.len()),
        ];
        fs::write(&case.paper, of_objects(&objects)).unwrap();
        let judged = case.against(&case.folder);
        assert_eq!(proves(&judged, "archive/paper-fits"), holds, "{name}: {judged:#?}");
    }
}

#[test]
fn a_later_part_of_a_paper_goes_before_the_earlier() {
    let case = Case::new();
    let own = manifest(&case.folder, "HD-2614");
    let first = pdf(b"{}", "grinding");
    let start = first.windows(5).rposition(|part| part == b"xref\n").unwrap();
    let table =
        first[..start].windows(5).rposition(|part| part == b"\nxref").map_or(start, |at| at + 1);
    let mut whole = first.clone();
    let place = whole.len();
    whole.extend(format!("6 0 obj\n<</Length {}>>\nstream\n", own.len()).into_bytes());
    whole.extend(&own);
    whole.extend(b"\nendstream\nendobj\n");
    let next = whole.len();
    let end = format!(
        "xref\n6 1\n{place:010} 00000 n \ntrailer\n<</Size 7/Root 1 0 R/Prev {table}>>\nstartxref\n{next}\n%%EOF\n"
    );
    whole.extend(end.into_bytes());
    fs::write(&case.paper, whole).unwrap();
    let judged = case.against(&case.folder);
    assert!(proves(&judged, "archive/paper-fits"), "{judged:#?}");
}

#[test]
fn a_manifest_that_names_one_photo_without_end_takes_no_longer() {
    let case = Case::new();
    let mut form: serde_json::Value =
        serde_json::from_slice(&manifest(&case.folder, "HD-2614")).unwrap();
    let big = vec![7; 4 << 20];
    fs::write(case.folder.join("bearing.jpg"), &big).unwrap();
    let photo = serde_json::json!({
        "file": "bearing.jpg", "sha256": splitcase::digest::Digest::of(&big).hex(),
    });
    form["photos"] = vec![photo; 20_000].into();
    fs::write(&case.paper, pdf(&serde_json::to_vec(&form).unwrap(), "grinding")).unwrap();
    // Read each time, this would be 80 GB.
    let begun = std::time::Instant::now();
    let judged = case.against(&case.folder);
    assert!(judged.flaws.is_empty(), "{judged:#?}");
    assert!(begun.elapsed().as_secs() < 60);
}
