//! A job folder and an archive, made for one test, and sealing the one into the other.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use chrono::{DateTime, NaiveDate, Utc};
use splitcase::archive::request::{InMemory, Original, SealRequest, Sealed, Sign};
use splitcase::archive::seal::seal;
use splitcase::digest::Digest;
use splitcase::failure::Failure;

/// A temporary folder that holds `job/` and `archive/`, gone when dropped.
pub struct Desk {
    folder: tempfile::TempDir,
}

/// What a test wants sealed.
pub struct Wish<'a> {
    pub job: &'a str,
    pub originals: Vec<Original>,
    pub in_memory: Vec<InMemory>,
    pub info: Vec<(String, String)>,
    pub keep_until: Option<NaiveDate>,
    pub tar: bool,
    pub sign: Option<Sign<'a>>,
}

/// A file of the job folder.
pub fn original(name: &str) -> Original {
    Original { name: name.to_owned(), expected: None }
}

/// A file in memory.
pub fn in_memory(path: &str, bytes: impl AsRef<[u8]>) -> InMemory {
    InMemory { path: format!("data/{path}"), bytes: bytes.as_ref().to_vec() }
}

pub fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

impl<'a> Wish<'a> {
    /// Nothing but a sheet.
    pub fn new(job: &'a str) -> Self {
        Self {
            job,
            originals: Vec::new(),
            in_memory: vec![in_memory("findings.yaml", format!("job: {job}\n"))],
            info: vec![("Source-Organization".into(), "Hollowmere Drive Works".into())],
            keep_until: Some(day("2032-11-25")),
            tar: false,
            sign: None,
        }
    }

    pub fn with(mut self, originals: &[&str]) -> Self {
        self.originals = originals.iter().map(|name| original(name)).collect();
        self
    }

    pub fn tar(mut self) -> Self {
        self.tar = true;
        self
    }
}

impl Desk {
    pub fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir(folder.path().join("job")).unwrap();
        Self { folder }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn archive(&self) -> PathBuf {
        self.path("archive")
    }

    /// Writes a file of the job folder, making the folders above it.
    pub fn file(&self, name: &str, bytes: impl AsRef<[u8]>) -> &Self {
        let path = self.path("job").join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
        self
    }

    /// Seals at a fixed time.
    pub fn seal(&self, wish: &Wish<'_>) -> Result<Sealed, Failure> {
        self.seal_into(wish, &self.archive())
    }

    pub fn seal_into(&self, wish: &Wish<'_>, archive: &Path) -> Result<Sealed, Failure> {
        let order = SealRequest {
            job: wish.job,
            folder: &self.path("job"),
            originals: &wish.originals,
            in_memory: &wish.in_memory,
            info: &wish.info,
            bagging_date: day("2026-11-25"),
            keep_until: wish.keep_until,
            sealed_at: DateTime::<Utc>::from_timestamp(1_795_615_508, 0).unwrap(),
            tar: wish.tar,
            sign: wish.sign,
        };
        seal(&order, archive)
    }

    pub fn read(&self, name: &str) -> Vec<u8> {
        fs::read(self.path(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
    }

    pub fn text(&self, name: &str) -> String {
        String::from_utf8(self.read(name)).unwrap()
    }

    /// Names in a folder, sorted.
    pub fn names(&self, name: &str) -> Vec<String> {
        let entries = fs::read_dir(self.path(name)).unwrap();
        let mut names: Vec<String> =
            entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }
}

/// Every file below a folder by its path, with its bytes; a folder ends with `/` and has none.
pub fn tree(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    for entry in walkdir::WalkDir::new(folder).min_depth(1) {
        let entry = entry.unwrap();
        let path = entry.path().strip_prefix(folder).unwrap().to_str().unwrap().to_owned();
        if entry.file_type().is_dir() {
            found.insert(path + "/", Vec::new());
        } else {
            found.insert(path, fs::read(entry.path()).unwrap());
        }
    }
    found
}

/// The line of a manifest for a file.
pub fn manifest_line(path: &str, bytes: impl AsRef<[u8]>) -> String {
    format!("{}  {path}\n", Digest::of(bytes.as_ref()).hex())
}
