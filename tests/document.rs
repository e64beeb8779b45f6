//! The papers: what stands in the PDF, which standards it claims, and that every size of job sets well.
//!
//! Typst does not check table headers or a defaulted language, so this does. The full standards are
//! judged by outside validators in `.ci/run`.

/// Few and many findings, long names.
mod stress;

use std::collections::BTreeMap;

use hayro_syntax::Pdf;
use hayro_syntax::object::{Array, Dict, Name, Object, Stream, String as Text};

use crate::workshop::{PROFILE, RETURNED, Run, Workshop, closed, jpeg, sheet};

/// A finished paper, opened.
pub struct Paper {
    bytes: Vec<u8>,
}

impl Paper {
    /// Renders one job and opens its paper; any complaint fails the test.
    fn of(shop: &Workshop, job: &str) -> Self {
        let run: Run = shop.run(&["render", "jobs", "--out", "out"]);
        assert_eq!((run.code, run.err.as_str()), (0, ""));
        Self { bytes: shop.read(&format!("out/{job}/return-report.pdf")) }
    }

    /// A paper that was written.
    pub fn read(shop: &Workshop, path: &str) -> Self {
        Self { bytes: shop.read(path) }
    }

    /// True if it holds this text outside its streams.
    pub fn has(&self, text: &str) -> bool {
        String::from_utf8_lossy(&self.bytes).contains(text)
    }

    fn pdf(&self) -> Pdf {
        Pdf::new(self.bytes.clone()).unwrap()
    }

    /// How many pages it has.
    pub fn n_pages(&self) -> usize {
        self.pdf().pages().len()
    }

    /// How many structure elements there are of each kind, after checking what each kind needs.
    pub fn structure(&self) -> BTreeMap<String, usize> {
        let pdf = self.pdf();
        let mut kinds = BTreeMap::new();
        for object in pdf.objects() {
            let Object::Dict(element) = object else { continue };
            let Some(kind) = element.get::<Name<'_>>("S") else { continue };
            if !element.contains_key("P") {
                continue;
            }
            if kind.as_str() == "Figure" {
                let alt = element.get::<Text<'_>>("Alt").expect("a figure without words");
                assert!(!alt.as_bytes().is_empty(), "a figure with empty words");
            }
            if kind.as_str() == "TH" {
                assert!(has_scope(&element), "a table head without scope");
            }
            *kinds.entry(kind.as_str().to_owned()).or_insert(0) += 1;
        }
        kinds
    }

    /// The JPEG streams of the photos.
    pub fn photos(&self) -> Vec<Vec<u8>> {
        let pdf = self.pdf();
        let streams = pdf.objects().into_iter().filter_map(|object| match object {
            Object::Stream(stream) => Some(stream),
            _ => None,
        });
        let is_photo = |stream: &Stream<'_>| {
            stream.dict().get::<Name<'_>>("Filter").is_some_and(|name| name.as_str() == "DCTDecode")
        };
        streams.filter(is_photo).map(|stream| stream.raw_data().into_owned()).collect()
    }

    /// Attached files by name.
    pub fn attached(&self) -> BTreeMap<String, Vec<u8>> {
        let pdf = self.pdf();
        let mut files = BTreeMap::new();
        for object in pdf.objects() {
            let Object::Dict(spec) = object else { continue };
            let (Some(name), Some(held)) = (spec.get::<Text<'_>>("F"), spec.get::<Dict<'_>>("EF"))
            else {
                continue;
            };
            let stream = held.get::<Stream<'_>>("F").unwrap();
            let name = std::str::from_utf8(name.as_bytes()).unwrap().to_owned();
            files.insert(name, stream.decoded().unwrap().into_owned());
        }
        files
    }
}

fn has_scope(element: &Dict<'_>) -> bool {
    let scoped = |attributes: &Dict<'_>| attributes.get::<Name<'_>>("Scope").is_some();
    element.get::<Dict<'_>>("A").is_some_and(|one| scoped(&one))
        || element
            .get::<Array<'_>>("A")
            .is_some_and(|all| all.iter::<Dict<'_>>().any(|one| scoped(&one)))
}

fn finding(part: &str, photos: &str) -> String {
    format!(
        "    - {{part: {part}, condition: failed, signs: [moisture-corrosion], note: Rust all over it., {photos}}}\n"
    )
}

fn strip(findings: &str) -> String {
    format!("strip-down:\n  date: 2026-03-04\n  by: R. Adeyemi\n  findings:\n{findings}{RETURNED}")
}

#[test]
fn a_paper_claims_both_standards_and_names_language_title_and_files() {
    let shop = Workshop::new();
    shop.file("jobs/A-1/findings.yaml", closed("A-1"));
    let paper = Paper::of(&shop, "A-1");
    let text = String::from_utf8_lossy(&paper.bytes);
    for claim in [
        "<pdfaid:part>3</pdfaid:part>",
        "<pdfaid:conformance>A</pdfaid:conformance>",
        "<pdfuaid:part>1</pdfuaid:part>",
    ] {
        assert!(text.contains(claim), "{claim}");
    }
    assert!(text.contains("/Lang(en-GB)") || text.contains("/Lang (en-GB)"), "no language");
    assert!(text.contains("Return report A-1, Kestmar C2"));
    assert!(paper.bytes.ends_with(b"%%EOF\n"));
    let attached = paper.attached();
    assert_eq!(
        attached.keys().map(String::as_str).collect::<Vec<_>>(),
        ["findings.yaml", "manifest.json", "next-checks.ics"]
    );
}

#[test]
fn remarks_for_the_workshop_alone_are_in_no_copy_that_leaves_it() {
    let shop = Workshop::new();
    let text = sheet("A-1")
        .replace("arrival: {date: 2026-03-02}", "arrival: {date: 2026-03-02, internal: SECRET-1}")
        + "internal:\n  cost: £3.10 # SECRET-2\n# SECRET-3\n"
        + &strip("    - {part: rotor, condition: sound, internal: {paid: SECRET-4}}\n");
    shop.file("jobs/A-1/findings.yaml", &text);
    let paper = Paper::of(&shop, "A-1");
    let attached = paper.attached();
    let copy = String::from_utf8(attached["findings.yaml"].clone()).unwrap();
    assert!(!copy.contains("SECRET") && !copy.contains("3.10"), "{copy}");
    assert!(!String::from_utf8_lossy(&paper.bytes).contains("SECRET"));
    // The manifest holds the digests of both, computed here by the reference implementation at hand.
    let manifest: serde_json::Value = serde_json::from_slice(&attached["manifest.json"]).unwrap();
    let digest = |bytes: &[u8]| splitcase::digest::Digest::of(bytes).hex();
    assert_eq!(manifest["findings-yaml"]["sha256"], digest(text.as_bytes()));
    assert_eq!(manifest["findings-yaml"]["issued-sha256"], digest(copy.as_bytes()));
    assert_ne!(manifest["findings-yaml"]["sha256"], manifest["findings-yaml"]["issued-sha256"]);
}

#[test]
fn the_copy_for_the_customer_has_no_contact_and_no_word_of_blame_and_means_the_same() {
    use splitcase::diagnostic::Problems;
    use splitcase::sheet::vocabulary::CauseKind;
    let shop = Workshop::new();
    let text = sheet("A-1").replace("customer: {", "customer: {contact: SECRET-5, ")
        + &strip(
            "    - {part: other, called: neglect, condition: worn, signs: [{other: neglect}]}\n",
        )
        + "cause: {main: neglect, contributing: [neglect], note: Neglect of the vent}\n";
    shop.file("jobs/A-1/findings.yaml", &text);
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let paper = Paper { bytes: shop.read("out/A-1/return-report.pdf") };
    let copy = String::from_utf8(paper.attached()["findings.yaml"].clone()).unwrap();
    assert!(!copy.contains("SECRET-5") && !copy.contains("contact"), "{copy}");
    assert!(!copy.contains("main: neglect") && !copy.contains("- neglect"), "{copy}");
    // What the technician wrote in words of their own is as typed.
    assert!(copy.contains("other: neglect") && copy.contains("Neglect of the vent"), "{copy}");
    let mut problems = Problems::default();
    let profile =
        splitcase::sheet::read_profile("workshop.yaml", PROFILE.as_bytes(), &mut problems);
    let back =
        splitcase::sheet::read("copy", copy.as_bytes(), &profile.unwrap(), &mut problems).unwrap();
    let cause = back.fields.cause.unwrap();
    assert_eq!(cause.main.value, CauseKind::Neglect);
    assert_eq!(cause.contributing[0].value, CauseKind::Neglect);
}

#[test]
fn technicians_are_named_on_paper_and_in_the_copy_as_the_profile_says() {
    use splitcase::diagnostic::Problems;
    use splitcase::sheet::profile::Naming;
    use splitcase::sheet::technicians;
    let read = |text: &str| {
        let problems = &mut Problems::default();
        let profile = splitcase::sheet::read_profile("workshop.yaml", PROFILE.as_bytes(), problems);
        splitcase::sheet::read("sheet", text.as_bytes(), &profile.unwrap(), problems).unwrap()
    };
    for (choice, naming, printed) in [
        ("full", Naming::Full, Some("M. Oduya-Brandt")),
        ("initials", Naming::Initials, Some("M. O.-B.")),
        ("left-out", Naming::LeftOut, None),
    ] {
        let shop = Workshop::new();
        shop.file("workshop.yaml", format!("{PROFILE}technicians: {choice}\n"));
        let found = finding("main-bearing-drive-side", "action: replaced");
        let strip = strip(&found).replace("R. Adeyemi", "M. Oduya-Brandt");
        let strip = strip.replace(RETURNED, "");
        let work = "work: {date: 2026-03-09, by: M. Oduya-Brandt}\noutcome: repaired\n\
                    returned: 2026-03-11\n";
        let text = sheet("A-1") + &strip + work;
        assert!(text.matches("Oduya-Brandt").count() == 2);
        shop.file("jobs/A-1/findings.yaml", &text);
        let run = shop.run(&["render", "jobs", "--out", "out"]);
        assert_eq!(run.code, 0, "{}", run.err);
        let paper = Paper { bytes: shop.read("out/A-1/return-report.pdf") };
        let copy = String::from_utf8(paper.attached()["findings.yaml"].clone()).unwrap();
        // What is printed comes from the same fields, named in the same way.
        let mut sheet = read(&text);
        technicians::name(&mut sheet.fields, naming);
        let strip = sheet.fields.strip_down.unwrap().by.map(|by| by.0);
        let work = sheet.fields.work.unwrap().by.map(|by| by.0);
        assert_eq!((strip.as_deref(), work.as_deref()), (printed, printed));
        assert_eq!(copy.matches("Oduya").count(), if choice == "full" { 2 } else { 0 }, "{copy}");
        assert!(printed.is_none_or(|printed| copy.contains(printed)), "{copy}");
        assert_eq!(copy.matches("by:").count(), if printed.is_some() { 2 } else { 0 }, "{copy}");
    }
}

#[test]
fn the_copy_of_a_sheet_reads_back_to_the_same_copy() {
    use splitcase::diagnostic::Problems;
    use splitcase::sheet::profile::Naming;
    use splitcase::sheet::{issued, yaml};
    let text = std::fs::read_to_string(concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/samples/hd-2614/findings.yaml"
    ))
    .unwrap();
    let tree = |text: &str| {
        let source = splitcase::diagnostic::source::SourceText::new("copy", text);
        yaml::parse(&source, &mut Problems::default()).unwrap()
    };
    let copy = issued::copy(&tree(&text), Naming::Full);
    assert_eq!(issued::copy(&tree(&copy), Naming::Full), copy);
    assert!(copy.contains("It grinds when I pedal hard"));
}

#[test]
fn photos_in_a_paper_hold_pixels_and_nothing_else() {
    let shop = Workshop::new();
    shop.file(
        "jobs/A-1/findings.yaml",
        sheet("A-1") + &strip(&finding("main-bearing-drive-side", "photos: [before.jpg]")),
    );
    let original =
        std::fs::read(concat!(env!("CARGO_MANIFEST_DIR"), "/samples/hd-2614/bearing-before.jpg"))
            .unwrap();
    assert!(original.windows(4).any(|part| part == b"Exif"), "the sample has lost its Exif");
    shop.file("jobs/A-1/before.jpg", &original);
    let photos = Paper::of(&shop, "A-1").photos();
    assert_eq!(photos.len(), 1);
    for marker in [&b"Exif"[..], b"http://ns.adobe.com", b"ICC_PROFILE", b"GPS"] {
        assert!(!photos[0].windows(marker.len()).any(|part| part == marker));
    }
}

#[test]
fn the_manifest_names_every_photo_with_its_digest_and_its_clock() {
    let shop = Workshop::new();
    shop.file(
        "jobs/A-1/findings.yaml",
        sheet("A-1") + &strip(&finding("rotor", "photos: [b.jpg]")),
    );
    shop.file("jobs/A-1/a.jpg", jpeg(80, 60, 1)).file("jobs/A-1/b.jpg", jpeg(80, 60, 2));
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert!(run.err.contains("warning[photo/unused]"), "{}", run.err);
    let paper = Paper { bytes: shop.read("out/A-1/return-report.pdf") };
    let manifest: serde_json::Value =
        serde_json::from_slice(&paper.attached()["manifest.json"]).unwrap();
    let photos = manifest["photos"].as_array().unwrap();
    assert_eq!(
        photos.iter().map(|photo| photo["file"].as_str().unwrap()).collect::<Vec<_>>(),
        ["b.jpg", "a.jpg"]
    );
    assert_eq!(photos[1]["sha256"], splitcase::digest::Digest::of(&jpeg(80, 60, 1)).hex());
    assert_eq!(photos[0]["zone"], "no capture time recorded");
}

#[test]
fn house_templates_replace_the_built_in_ones_and_their_mistakes_are_told_in_their_own_file() {
    let shop = Workshop::with_profile(&format!("{PROFILE}templates: house\n"));
    shop.file("jobs/A-1/findings.yaml", closed("A-1"))
        .file("house/wording/en/clauses.yaml", "lead-no-fault: \"Ours since {{ arrived_on }}.\"\n");
    Paper::of(&shop, "A-1");
    let broken = "# Ours.\nlead-no-fault: \"{{ no.such.thing }}\"\n";
    shop.file("house/wording/en/clauses.yaml", broken);
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 1);
    assert!(
        run.err.contains("error[template/sentence]")
            && run.err.contains("house/wording/en/clauses.yaml:2:"),
        "{}",
        run.err
    );
    shop.file(
        "house/wording/en/clauses.yaml",
        "lead-no-fault: \"{% for n in range(100000) %}{% for m in range(100000) %}x{% endfor %}{% endfor %}\"\n",
    );
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert!(run.err.contains("error[template/sentence]"), "{}", run.err);
    std::fs::remove_file(shop.path("house/wording/en/clauses.yaml")).unwrap();
    shop.file("house/return-report.typ", "#let paper(d) = [\n  #d.nothing\n]\n");
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert!(
        run.err.contains("error[template/typst]") && run.err.contains("house/return-report.typ:2:"),
        "{}",
        run.err
    );
    shop.file("house/return-report.typ", "#let paper(d) = read(\"../../../etc/passwd\")\n");
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert!(run.err.contains("error[template/typst]"), "{}", run.err);
}

#[test]
fn a_language_without_wordings_is_refused_where_it_is_named() {
    let shop = Workshop::new();
    shop.file("jobs/A-1/findings.yaml", sheet("A-1") + "language: eo\n");
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 1, "{}", run.err);
    assert!(
        run.err.contains("error[sheet/unknown-language]") && run.err.contains("findings.yaml:5:11"),
        "{}",
        run.err
    );
}
