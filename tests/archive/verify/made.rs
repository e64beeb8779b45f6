//! Archives made by sealing small jobs, and small PDFs that carry a manifest.

use std::fs;
use std::path::{Path, PathBuf};

use splitcase::archive::request::{InMemory, Original, SealRequest};
use splitcase::archive::seal::seal;
use splitcase::archive::trust::{rfc3161, ssh};
use splitcase::digest::Digest;
use tempfile::TempDir;

/// The profile in every bag.
pub const WORKSHOP: &str = "name: Hollowmere Drive Works\n";

/// A place with job folders and an archive.
pub struct Made {
    place: TempDir,
    /// The archive.
    pub archive: PathBuf,
    /// True where bags are signed.
    pub signs: bool,
    /// When seals are made.
    pub at: &'static str,
}

impl Made {
    /// An empty place.
    pub fn new() -> Self {
        let place = tempfile::tempdir().unwrap();
        let archive = place.path().join("archive");
        Self { place, archive, signs: false, at: "2026-03-11T14:05:08Z" }
    }

    /// A place with three sealed bags of two jobs, one of them with a tar.
    pub fn with_bags() -> Self {
        let made = Self::new();
        made.seal("HD-2614", "grinding", true);
        made.seal("HD-2614", "grinding, then cured", false);
        made.seal("HD-2620", "no fault", false);
        made
    }

    /// The folder of a job, with two photos and a sheet.
    pub fn job_folder(&self, job: &str, note: &str) -> PathBuf {
        let folder = self.place.path().join("jobs").join(job);
        fs::create_dir_all(folder.join("photos")).unwrap();
        fs::write(self.place.path().join("jobs/workshop.yaml"), WORKSHOP).unwrap();
        fs::write(folder.join("findings.yaml"), sheet(job, note)).unwrap();
        fs::write(folder.join("bearing.jpg"), format!("a bearing of {job}, {note}")).unwrap();
        fs::write(folder.join("photos/seal.jpg"), format!("a seal of {job}, {note}")).unwrap();
        folder
    }

    /// The paper of a job folder.
    pub fn paper(&self, job: &str, note: &str) -> Vec<u8> {
        pdf(&manifest(&self.job_folder(job, note), job), note)
    }

    /// Seals a job with its paper, a time-stamp query and, where wanted, a tar.
    pub fn seal(&self, job: &str, note: &str, tar: bool) -> PathBuf {
        self.job_folder(job, note);
        let contents = [
            held("findings.yaml", sheet(job, note)),
            held("workshop.yaml", WORKSHOP),
            held("papers/return-report.pdf", self.paper(job, note)),
        ];
        self.seal_with(job, &["bearing.jpg", "photos/seal.jpg"], &contents, &[], tar)
    }

    /// Seals files of the job folder beside what is given, with more fields than the number.
    pub fn seal_with(
        &self,
        job: &str,
        originals: &[&str],
        contents: &[InMemory],
        fields: &[(&str, &str)],
        tar: bool,
    ) -> PathBuf {
        let folder = self
            .place
            .path()
            .join("jobs")
            .join(job.trim_end_matches("-owner").trim_end_matches("-handover"));
        let original = |name: &str| Original { name: name.to_owned(), expected: None };
        let query = |sealed: &[u8]| {
            let query = rfc3161::query(&Digest::of(sealed));
            let mut beside = vec![("tagmanifest-sha256.txt.tsq".to_owned(), query)];
            if self.signs {
                let signature = ssh::sign(&key("ed25519"), None, sealed)?;
                beside.push(("tagmanifest-sha256.txt.sig".to_owned(), signature));
            }
            Ok(beside)
        };
        let fields = [("External-Identifier", job)].into_iter().chain(fields.iter().copied());
        let info: Vec<(String, String)> =
            fields.map(|(label, value)| (label.to_owned(), value.to_owned())).collect();
        let order = SealRequest {
            job,
            folder: &folder,
            originals: &originals.iter().copied().map(original).collect::<Vec<_>>(),
            in_memory: contents,
            info: &info,
            bagging_date: "2026-03-11".parse().unwrap(),
            keep_until: Some("2032-03-11".parse().unwrap()),
            sealed_at: self.at.parse().unwrap(),
            tar,
            sign: Some(&query),
        };
        seal(&order, &self.archive).unwrap().path
    }
}

/// A key that was made for tests.
pub fn key(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/archive/keys").join(name)
}

/// A file to seal.
pub fn held(path: &str, bytes: impl AsRef<[u8]>) -> InMemory {
    InMemory { path: format!("data/{path}"), bytes: bytes.as_ref().to_vec() }
}

/// The sheet of a job.
pub fn sheet(job: &str, note: &str) -> String {
    format!("job: {job}\nnote: {note}\n")
}

fn hex(path: &Path) -> String {
    Digest::of(&fs::read(path).unwrap()).hex()
}

/// The manifest that a paper of a job folder carries.
pub fn manifest(folder: &Path, job: &str) -> Vec<u8> {
    let photo = |name: &str| serde_json::json!({"file": name, "sha256": hex(&folder.join(name))});
    let form = serde_json::json!({
        "job": job,
        "made-by": "splitcase 0.1.0",
        "findings-yaml": {"sha256": hex(&folder.join("findings.yaml")), "issued-sha256": null},
        "workshop-yaml": {"sha256": Digest::of(WORKSHOP.as_bytes()).hex(), "issued-sha256": null},
        "photos": [photo("bearing.jpg"), photo("photos/seal.jpg")],
    });
    serde_json::to_vec_pretty(&form).unwrap()
}

/// A PDF of one page with a note on it, and a file `manifest.json` attached.
pub fn pdf(manifest: &[u8], note: &str) -> Vec<u8> {
    pdf_with(manifest, "", note)
}

/// The same with something more in the head of the attached stream.
pub fn pdf_with(attached: &[u8], head: &str, note: &str) -> Vec<u8> {
    let page = format!("BT ({note}) Tj ET");
    let objects: [Vec<u8>; 6] = [
        b"<</Type/Catalog/Pages 2 0 R/AF[5 0 R]/Names<</EmbeddedFiles<</Names[(manifest.json)5 0 R]>>>>>>".to_vec(),
        b"<</Type/Pages/Kids[3 0 R]/Count 1>>".to_vec(),
        b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Contents 4 0 R>>".to_vec(),
        stream("", page.as_bytes()),
        b"<</Type/Filespec/F(manifest.json)/UF(manifest.json)/EF<</F 6 0 R/UF 6 0 R>>>>".to_vec(),
        stream(head, attached),
    ];
    written(&objects)
}

/// A PDF with a page for each JPEG, inside a drawing as layout programs do it, that carries a manifest.
pub fn pdf_of_pages(manifest: &[u8], jpegs: &[Vec<u8>]) -> Vec<u8> {
    let mut objects = vec![
        b"<</Type/Catalog/Pages 4 0 R/AF[2 0 R]>>".to_vec(),
        b"<</Type/Filespec/F(manifest.json)/UF(manifest.json)/EF<</F 3 0 R>>>>".to_vec(),
        stream("", manifest),
    ];
    let pages: String = (0..jpegs.len()).map(|at| format!("{} 0 R ", 5 + at * 3)).collect();
    objects.push(format!("<</Type/Pages/Kids[{pages}]/Count {}>>", jpegs.len()).into_bytes());
    for (at, jpeg) in jpegs.iter().enumerate() {
        let (drawing, picture) = (6 + at * 3, 7 + at * 3);
        let page =
            format!("<</Type/Page/Parent 4 0 R/Resources<</XObject<</x0 {drawing} 0 R>>>>>>");
        objects.push(page.into_bytes());
        let inside =
            format!("/Type/XObject/Subtype/Form/Resources<</XObject<</x0 {picture} 0 R>>>>");
        objects.push(stream(&inside, b"/x0 Do"));
        objects.push(stream("/Type/XObject/Subtype/Image/Filter/DCTDecode", jpeg));
    }
    written(&objects)
}

/// A PDF that carries a manifest and a findings sheet.
pub fn pdf_carrying(manifest: &[u8], sheet: &[u8]) -> Vec<u8> {
    let spec = |name: &str, at: usize| {
        format!("<</Type/Filespec/F({name})/UF({name})/EF<</F {at} 0 R>>>>").into_bytes()
    };
    let objects = [
        b"<</Type/Catalog/AF[2 0 R 3 0 R]>>".to_vec(),
        spec("manifest.json", 4),
        spec("findings.yaml", 5),
        stream("", manifest),
        stream("", sheet),
    ];
    written(&objects)
}

/// Objects as a PDF, the first its catalogue.
fn written(objects: &[Vec<u8>]) -> Vec<u8> {
    let mut pdf = b"%PDF-1.7\n".to_vec();
    let mut places = Vec::new();
    for (at, object) in objects.iter().enumerate() {
        places.push(pdf.len());
        pdf.extend(format!("{} 0 obj\n", at + 1).into_bytes());
        pdf.extend(object);
        pdf.extend(b"\nendobj\n");
    }
    let table = pdf.len();
    pdf.extend(format!("xref\n0 {}\n0000000000 65535 f \n", objects.len() + 1).into_bytes());
    places.iter().for_each(|place| pdf.extend(format!("{place:010} 00000 n \n").into_bytes()));
    let end =
        format!("trailer\n<</Size {}/Root 1 0 R>>\nstartxref\n{table}\n%%EOF\n", objects.len() + 1);
    pdf.extend(end.into_bytes());
    pdf
}

fn stream(head: &str, bytes: &[u8]) -> Vec<u8> {
    let mut object = format!("<</Length {}{head}>>\nstream\n", bytes.len()).into_bytes();
    object.extend(bytes);
    object.extend(b"\nendstream");
    object
}
