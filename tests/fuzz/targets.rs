//! What is held of every reader whatever bytes it is given: it ends, does not panic, points only at
//! places that are there, says the same twice, and what it changes can be read again.
//!
//! Each function takes one input. A fuzzer calls them with bytes that it makes up (`bins/`), the
//! tests with every seed.

use std::cell::RefCell;
use std::fs;
use std::path::PathBuf;
use std::sync::LazyLock;

use splitcase::archive::register::entry::Entry;
use splitcase::archive::register::head::History;
use splitcase::archive::register::read;
use splitcase::archive::verify;
use splitcase::archive::verify::judgement::{Against, Maker};
use splitcase::assessment::ride::{self, AssistLimit};
use splitcase::diagnostic::{Diagnostic, Problems, print};
use splitcase::digest::Digest;
use splitcase::marking::{self, Given};
use splitcase::sheet::{self, ProfileFile};
use tar::{Builder, EntryType, Header};
use tempfile::TempDir;

/// Most files of a bag that is put together.
const MOST_FILES: usize = 32;

/// A reader under trial.
pub type Target = fn(&[u8]);

/// Every target by the name of its seeds' folder.
pub const TARGETS: &[(&str, Target)] = &[
    ("sheet", sheet),
    ("profile", profile),
    ("marks", marks),
    ("track", track),
    ("register", register),
    ("bag", bag),
    ("tar", tar),
    ("paper", paper),
];

/// The workshop of the samples.
static WORKSHOP: LazyLock<ProfileFile> = LazyLock::new(workshop);

fn workshop() -> ProfileFile {
    let bytes = include_bytes!("../../samples/workshop.yaml");
    sheet::read_profile("workshop.yaml", bytes, &mut Problems::default())
        .expect("the samples' workshop can be read")
}

thread_local! {
    /// Where readers of files find their input; one for each thread and gone with it.
    static PLACE: RefCell<TempDir> = RefCell::new(tempfile::tempdir().expect("a folder"));
}

/// A findings sheet.
pub fn sheet(bytes: &[u8]) {
    let once = || {
        let mut problems = Problems::default();
        let read = sheet::read("findings.yaml", bytes, &WORKSHOP, &mut problems).is_some();
        (read, drawn(problems.into_sorted()))
    };
    let (read, problems) = once();
    assert!(read || !problems.is_empty(), "a sheet is given up with a reason");
    assert_eq!((read, problems), once(), "the same sheet is told alike twice");
    sheet::peek_number(bytes);
    sheet::peek_arrival(bytes);
}

/// A workshop profile, and the same bytes as the price list beside one.
pub fn profile(bytes: &[u8]) {
    let mut problems = Problems::default();
    let read = sheet::read_profile("workshop.yaml", bytes, &mut problems);
    assert!(read.is_some() || problems.has_errors(), "a profile is given up with a reason");
    drawn(problems.into_sorted());
    let (mut problems, mut workshop) = (Problems::default(), workshop());
    sheet::read_prices("parts.yaml", bytes, &mut workshop, &mut problems);
    drawn(problems.into_sorted());
}

/// A sheet and what the marking page saved, parted as in `tests/mark/`.
pub fn marks(bytes: &[u8]) {
    const PHOTOS: [&str; 4] = ["a.jpg", "b.jpg", "c d's.jpg", "d.jpg"];
    let (before, saved) = parted(bytes, b"=== saved\n");
    let (saved, _) = parted(saved, b"=== gives\n");
    let take = |sheet: &[u8]| {
        let before = Given { name: "findings.yaml", bytes: sheet };
        let saved = Given { name: "marks.yaml", bytes: saved };
        marking::take(before, &WORKSHOP, saved, &PHOTOS)
    };
    match take(before) {
        Ok(taken) => {
            let again = take(&taken.sheet).map(|again| again.sheet);
            assert_eq!(again.ok(), Some(taken.sheet), "what was taken is there the second time");
        }
        Err(problems) => assert!(!drawn(problems).is_empty(), "a refusal has a reason"),
    }
}

/// The recorded track of a ride.
pub fn track(bytes: &[u8]) {
    for limit in [None, Some(AssistLimit { kmh: 25.0 })] {
        let Ok(ride) = ride::read(bytes, limit) else { continue };
        assert!(ride.distance_m.is_finite() && 0.0 <= ride.distance_m);
        assert!(ride.elapsed_s.is_none_or(f64::is_finite));
        for point in &ride.curve {
            assert!(point.distance_m.is_finite(), "a point of the curve lies somewhere");
        }
    }
}

/// A register, its lines, and its head as it is noted elsewhere.
pub fn register(bytes: &[u8]) {
    if let Some(head) = History::read(bytes) {
        assert_eq!(
            History::read(head.text().as_bytes()),
            Some(head),
            "a head reads as it is written"
        );
    }
    for line in bytes.split(|byte| *byte == b'\n') {
        let Ok(entry) = Entry::read(line) else { continue };
        let text = entry.text().expect("what was read can be written");
        assert_eq!(Entry::read(&text).as_ref(), Ok(&entry), "a line reads as it is written");
    }
    let folder = written("register.jsonl", bytes).with_file_name("");
    let register = read::register_now(&folder).expect("flaws of a register are no errors");
    assert!(register.entries.len() as u64 <= register.whole_lines);
    for flaw in &register.flaws {
        assert!(!flaw.to_string().is_empty() && 0 < flaw.line());
    }
}

/// A bag given as in `tests/archive/bags/`, as a tar.
pub fn bag(bytes: &[u8]) {
    let Some(tar) = as_tar(&String::from_utf8_lossy(bytes)) else { return };
    judged("bag.tar", &tar);
}

/// The bytes of a tar as they come.
pub fn tar(bytes: &[u8]) {
    judged("bag.tar", bytes);
}

/// A PDF: its manifest, what is said of it by itself, and its pictures beside the photo of its bag.
pub fn paper(bytes: &[u8]) {
    if let Some(job) = verify::job_of_paper(bytes) {
        assert!(verify::lists_the_same(bytes, bytes), "the manifest of {job} is its own");
    }
    judged("paper.pdf", bytes);
    let files = [
        ("bagit.txt", &b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"[..]),
        ("data/findings.yaml", b"job: HD-2614\n"),
        ("data/originals/bearing.jpg", include_bytes!("seeds/bearing.jpg")),
        ("data/papers/return-report.pdf", bytes),
        ("data/workshop.yaml", b"name: Hollowmere Drive Works\n"),
    ];
    let listed =
        files[1..].iter().map(|(path, body)| format!("{}  {path}\n", Digest::of(body).hex()));
    let manifest: String = listed.collect();
    let list = ("manifest-sha256.txt", manifest.as_bytes());
    if let Some(tar) = tar_of(files.into_iter().chain([list])) {
        judged("bag.tar", &tar);
    }
}

/// Draws problems as a terminal shows them; each place must be one of its source.
fn drawn(problems: Vec<Diagnostic>) -> Vec<String> {
    for place in problems
        .iter()
        .flat_map(|one| std::iter::once(&one.place).chain(one.also.iter().map(|(place, _)| place)))
    {
        let text = place.source.text();
        let is_there = place.range.as_ref().is_none_or(|range| text.get(range.clone()).is_some());
        assert!(is_there, "a problem points into its source");
    }
    problems.iter().map(print::drawn).collect()
}

/// Holds that `verify` ends and says the same of a file twice.
fn judged(name: &str, bytes: &[u8]) {
    let path = written(name, bytes);
    // No paper can be made again, so that its pictures are looked at.
    let maker = Maker(&|_| Err("nothing is made here".to_owned()));
    let judge = || verify::verify(&path, &Against { maker: Some(maker), ..Against::default() });
    assert_eq!(judge().outcome(), judge().outcome(), "the same file is judged alike twice");
}

/// Writes an input where readers of files find it.
fn written(name: &str, bytes: &[u8]) -> PathBuf {
    let path = PLACE.with_borrow(|place| place.path().join(name));
    fs::write(&path, bytes).expect("the input is written");
    path
}

/// Cuts bytes in two at a word; all of them come before a word that is not there.
fn parted<'a>(bytes: &'a [u8], word: &[u8]) -> (&'a [u8], &'a [u8]) {
    match bytes.windows(word.len()).position(|part| part == word) {
        Some(at) => (&bytes[..at], &bytes[at + word.len()..]),
        None => (bytes, b""),
    }
}

/// The files of a described bag as a tar; digests are put in where `{sha256 PATH}` asks for them.
fn as_tar(text: &str) -> Option<Vec<u8>> {
    let text = text.split("== says\n").next()?.strip_prefix("== ")?;
    let mut files: Vec<(&str, String)> = Vec::new();
    for part in text.split("\n== ") {
        let (path, body) = part.split_once('\n').unwrap_or((part, ""));
        files.push((path, format!("{body}\n")));
    }
    files.truncate(MOST_FILES);
    // Twice, since the list of the lists comes after these.
    for _ in 0..2 {
        let digests: Vec<(String, String)> = files
            .iter()
            .map(|(path, body)| (format!("{{sha256 {path}}}"), Digest::of(body.as_bytes()).hex()))
            .collect();
        for (_, body) in &mut files {
            for (asked, digest) in &digests {
                *body = body.replace(asked, digest);
            }
        }
    }
    tar_of(files.iter().map(|(path, body)| (*path, body.as_bytes())))
}

/// Files as a tar, their names as they come.
fn tar_of<'a>(files: impl Iterator<Item = (&'a str, &'a [u8])>) -> Option<Vec<u8>> {
    let mut tar = Builder::new(Vec::new());
    for (path, body) in files {
        let mut header = Header::new_gnu();
        let name = path.as_bytes().get(..path.len().min(80))?;
        let full = [b"bag/", name].concat();
        header.as_mut_bytes()[..full.len()].copy_from_slice(&full);
        header.set_entry_type(EntryType::Regular);
        header.set_size(body.len() as u64);
        header.set_mode(0o644);
        header.set_cksum();
        tar.append(&header, body).ok()?;
    }
    tar.into_inner().ok()
}
