//! The evidence file: every photo once and large with its full digest, every sign and what it counts, every
//! day and who, what it was made from; and nothing that is for the workshop alone.

use sha2::{Digest as _, Sha256};
use splitcase::diagnostic::Problems;
use splitcase::document::papers::evidence_file;
use splitcase::document::templates::Templates;
use splitcase::document::wording::Wording;
use splitcase::document::writer::Writer;
use splitcase::intake;
use splitcase::job::{Job, Means};
use splitcase::photo::PixelBudget;
use splitcase::workshop;

use crate::workshop::{PROFILE, Workshop, jpeg, sheet};

/// A closed job with photos that the sheet names once, twice and never.
fn closed(job: &str) -> String {
    sheet(job).replace(
        "customer: {name: Nadia Ferrow}",
        "customer: {name: Nadia Ferrow, contact: nadia@ferrow.example, internal: pays late}",
    ) + "strip-down:\n  date: 2026-03-04\n  by: R. Adeyemi\n  findings:\n    \
           - {part: main-bearing-drive-side, condition: failed, signs: [moisture-corrosion], action: replaced,\n       \
              photos: [{file: a.jpg, marks: [{ring: F4, size: 2, text: pitted track}]}, b.jpg], photos-after: [c.jpg]}\n    \
           - {part: controller-board, condition: not-examined}\n    \
           - {part: crank-seal-drive-side, condition: damaged, signs: [rust-trail-inward], photos: [{file: b.jpg, marks: [{arrow: D6, from: B4, text: rust trail}]}]}\n  \
           looked-for-absent: [board-corrosion, tamper-marks]\n\
           cause: {main: ingress}\n\
           bench: [{check: crank-radial-play, before: 0.80 mm ± 0.02 mm, after: 0.05 mm}]\n\
           work: {date: 2026-03-09, by: M. Brightwell}\noutcome: repaired\nreturned: 2026-03-11\n"
}

fn shop(photos: &[(&str, u32)]) -> Workshop {
    let shop = Workshop::with_profile(&format!("{PROFILE}contact: [post@hollowmere.example]\n"));
    shop.file("jobs/A-1/findings.yaml", closed("A-1"));
    for (name, shade) in photos {
        shop.file(&format!("jobs/A-1/{name}"), jpeg(400, 300, *shade));
    }
    shop
}

/// All that the evidence file of the job prints.
fn view(shop: &Workshop) -> serde_json::Value {
    let folder = intake::open(&shop.path("jobs/A-1")).unwrap();
    let Ok(workshop) = workshop::open(&shop.path("workshop.yaml")) else {
        panic!("a good profile")
    };
    let (budget, mut problems) = (PixelBudget::default(), Problems::default());
    let job = Job::open(&folder, &workshop, &mut problems).unwrap();
    let photos = job.photos(&Means { threads: 2, budget: &budget }, &mut problems).unwrap();
    let ready = job.assess(photos, &mut problems).unwrap().expect("a sheet without errors");
    let wording = Wording::read(&Templates::built_in(), "en", None).unwrap();
    let material = ready.material();
    let mut view =
        serde_json::to_value(evidence_file::view(&Writer::new(&material, &wording)).unwrap())
            .unwrap();
    view["words"].take();
    view
}

#[test]
fn every_photo_of_the_folder_has_one_plate_with_all_its_marks_and_its_whole_digest() {
    let shop = shop(&[("a.jpg", 10), ("b.jpg", 20), ("c.jpg", 30), ("unused.jpg", 40)]);
    let view = view(&shop);
    let plates = view["plates"]["plates"].as_array().unwrap();
    assert_eq!(plates.len(), 4);
    for (plate, (name, shade)) in
        plates.iter().zip([("a.jpg", 10), ("b.jpg", 20), ("c.jpg", 30), ("unused.jpg", 40)])
    {
        let digits: String = plate["digest"]
            .as_array()
            .unwrap()
            .iter()
            .map(|line| line.as_str().unwrap().replace(' ', ""))
            .collect();
        let own: String = Sha256::digest(jpeg(400, 300, shade))
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect();
        assert_eq!(digits, own, "{name}");
        assert!(crate::report::said(plate).contains(name), "{name}: {plate}");
    }
    // The second stands at two parts, and bears the marks of both places.
    let shared = &plates[1]["photo"];
    let caption = shared["caption"].as_str().unwrap();
    assert!(
        caption.contains("ain bearing on the drive side") && caption.contains("rank seal"),
        "{caption}"
    );
    assert_eq!(shared["marks"].as_array().unwrap().len(), 1);
    let unused = plates[3]["photo"]["caption"].as_str().unwrap();
    assert!(unused.contains("No place of the findings sheet"), "{unused}");
}

#[test]
fn signs_stand_on_their_side_and_what_was_not_examined_is_said() {
    let shop = shop(&[("a.jpg", 10), ("b.jpg", 20), ("c.jpg", 30)]);
    let view = view(&shop);
    let groups = view["signs"]["groups"].as_array().unwrap();
    let headings: Vec<&str> = groups.iter().map(|one| one["heading"].as_str().unwrap()).collect();
    assert_eq!(headings, ["Signs for water", "Looked for and absent"]);
    let first = &groups[0]["rows"][0];
    assert!(first[1].as_str().unwrap().contains("finding"), "{first}");
    assert_eq!(groups[1]["rows"].as_array().unwrap().len(), 2);
    let notes = crate::report::said(&view["signs"]["notes"]);
    assert!(notes.contains("Not examined") && notes.contains("ontrol board"), "{notes}");
    assert!(
        notes.contains("No finding examines") && notes.contains("the gears, the clutch"),
        "{notes}"
    );
    assert!(!notes.contains(" bearings,"), "a bearing was examined: {notes}");
}

#[test]
fn a_reading_has_what_was_typed_what_it_comes_to_and_its_uncertainty() {
    let shop = shop(&[("a.jpg", 10), ("b.jpg", 20), ("c.jpg", 30)]);
    let view = view(&shop);
    let record = &view["readings"]["records"][0];
    let rows = record["rows"].as_array().unwrap();
    assert_eq!(rows.len(), 2);
    assert_eq!(rows[0][1], "0.80 ± 0.02\u{202f}mm");
    assert_eq!(rows[0][3], "± 0.02\u{202f}mm");
    assert_eq!(rows[1][3], "not noted");
    let facts = crate::report::said(&record["facts"]);
    assert!(facts.contains("Limit") && facts.contains("None known"), "{facts}");
}

#[test]
fn the_time_line_says_who_and_runs_in_order() {
    let shop = shop(&[("a.jpg", 10), ("b.jpg", 20), ("c.jpg", 30)]);
    let view = view(&shop);
    let rows = view["chronicle"]["rows"].as_array().unwrap();
    let text: Vec<String> =
        rows.iter().map(|row| crate::report::said(row).replace('\n', " ")).collect();
    let said = text.join("; ");
    for wanted in ["2 March 2026", "R. Adeyemi", "M. Brightwell", "11 March 2026"] {
        assert!(said.contains(wanted), "{said}");
    }
    let place = |day: &str| text.iter().position(|row| row.contains(day)).unwrap();
    assert!(place("2 March") < place("4 March") && place("9 March") < place("11 March"), "{said}");
}

#[test]
fn what_is_for_the_workshop_alone_is_on_no_paper_and_in_no_file_that_it_carries() {
    let shop = shop(&[("a.jpg", 10), ("b.jpg", 20), ("c.jpg", 30)]);
    let said = crate::report::said(&view(&shop));
    for hidden in ["nadia@", "pays late"] {
        assert!(!said.contains(hidden), "{hidden}");
    }
}

#[test]
fn the_digests_are_those_of_the_files_and_the_last_is_that_of_the_manifest() {
    let shop = shop(&[("a.jpg", 10), ("b.jpg", 20), ("c.jpg", 30)]);
    let view = view(&shop);
    let rows = view["digests"]["rows"].as_array().unwrap();
    let hex = |row: &serde_json::Value| row[2].as_str().unwrap().replace([' ', '\n'], "");
    let own: String = Sha256::digest(shop.read("jobs/A-1/findings.yaml"))
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect();
    assert_eq!(hex(&rows[0]), own);
    assert!(rows.iter().all(|row| hex(row).len() == 64), "{rows:?}");
    assert!(rows.last().unwrap()[1].as_str().unwrap().contains("manifest.json"));
}
