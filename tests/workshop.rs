//! A folder with a workshop and jobs, made for one test, and the program run on it.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use image::{ImageFormat, Rgb, RgbImage};

/// A temporary folder with `workshop.yaml`, gone when dropped.
pub struct Workshop {
    folder: tempfile::TempDir,
}

/// What the program printed, and how it ended.
pub struct Run {
    pub code: i32,
    pub out: String,
    pub err: String,
}

pub const PROFILE: &str = "name: Hollowmere Drive Works\naddress: [4 Cooper's Slip, Wexcombe]\n\
    currency: GBP\ntax: {name: VAT, rate: 20 %, prices: including, rounding: by-invoice}\n\
    rates: {hour: £44.00}\nguarantee: {months: 12, terms: Parts and work.}\n";

/// The least that a sheet needs.
pub fn sheet(job: &str) -> String {
    format!(
        "job: {job}\ncustomer: {{name: Nadia Ferrow}}\nunit: {{kind: mid-drive, model: Kestmar C2}}\n\
         arrival: {{date: 2026-03-02}}\n"
    )
}

/// The least that a closed job needs, which owes a return report.
pub fn closed(job: &str) -> String {
    sheet(job) + "outcome: no-fault-found\n"
}

/// How a job ended that has findings and no work.
pub const RETURNED: &str = "outcome: returned-unrepaired\n";

impl Workshop {
    pub fn new() -> Self {
        Self::with_profile(PROFILE)
    }

    pub fn with_profile(profile: &str) -> Self {
        // A name that ends in a digit would look like a job's.
        let folder = tempfile::Builder::new().suffix("-shop").tempdir().unwrap();
        fs::write(folder.path().join("workshop.yaml"), profile).unwrap();
        Self { folder }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Writes a file, making the folders above it.
    pub fn file(&self, name: &str, bytes: impl AsRef<[u8]>) -> &Self {
        let path = self.path(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
        self
    }

    pub fn read(&self, name: &str) -> Vec<u8> {
        fs::read(self.path(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
    }

    pub fn has(&self, name: &str) -> bool {
        self.path(name).exists()
    }

    /// Runs the program in the folder, with no terminal.
    pub fn run(&self, arguments: &[&str]) -> Run {
        run_in(self.folder.path(), arguments)
    }
}

/// Runs the program in a folder.
pub fn run_in(folder: &Path, arguments: &[&str]) -> Run {
    run_fed(folder, arguments, b"")
}

/// Runs the program in a folder with something on its standard input.
pub fn run_fed(folder: &Path, arguments: &[&str], input: &[u8]) -> Run {
    let mut child = Command::new(env!("CARGO_BIN_EXE_splitcase"))
        .args(arguments)
        .current_dir(folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A program that asks for nothing may have ended before.
    let _ = child.stdin.take().unwrap().write_all(input);
    let output: Output = child.wait_with_output().unwrap();
    Run {
        code: output.status.code().unwrap_or(-1),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

/// A small JPEG of a pattern, other for every seed.
pub fn jpeg(width: u32, height: u32, seed: u32) -> Vec<u8> {
    // Patches of their own for every seed, so that no two pictures look alike.
    let patch = |x: u32, y: u32| {
        let place = x * 12 / width + 12 * (y * 9 / height) + 108 * seed;
        let mixed = (place ^ (place >> 7)).wrapping_mul(2_654_435_761);
        (mixed ^ (mixed >> 15)).wrapping_mul(2_246_822_519) >> 24
    };
    let picture = RgbImage::from_fn(width, height, |x, y| {
        let value = patch(x, y);
        Rgb([value as u8, (255 - value) as u8, (seed * 53 % 256) as u8])
    });
    let mut bytes = Vec::new();
    picture.write_to(&mut std::io::Cursor::new(&mut bytes), ImageFormat::Jpeg).unwrap();
    bytes
}
