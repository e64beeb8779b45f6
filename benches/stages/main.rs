//! The stages of a job, timed one by one, and what `measure.py` beside this folder needs for it.
//!
//! In: folders of jobs; out: tables whose columns stand two spaces apart. Whole runs of the program
//! are timed by `measure.py`. Built with the release profile: `cargo bench --bench stages`.
#![expect(
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "a measurement prints, reads the clock and stops at the first thing that is wrong"
)]

mod clock;
mod enlarge;
mod report;
mod tables;

use std::fs;
use std::path::Path;

use splitcase::document;
use splitcase::photo::{self, PixelBudget};

const USAGE: &str = "usage: stages run FOLDER WORKERS   every stage of every job below a folder
       stages warm FOLDER          layout and export of reports alone, photos ready
       stages warm FOLDER LAYOUTS  the same with the layouts of a folder
       stages content JOB TO       the files that a job's report is set from
       stages photos FILE...       the photo step alone, for whoever times this process
       stages enlarge FROM TO      a photo of 48 megapixels made from a smaller one
without arguments: run and warm on the samples";

fn main() {
    // Cargo adds a word of its own.
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        [] => {
            let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
            tables::run(&samples, 2);
            println!();
            report::warm(&samples, None);
        }
        ["run", folder, workers] => tables::run(Path::new(folder), workers.parse().unwrap()),
        ["warm", folder] => report::warm(Path::new(folder), None),
        ["warm", folder, own] => report::warm(Path::new(folder), Some(Path::new(own))),
        ["content", job, to] => report::content(Path::new(job), Path::new(to)),
        ["photos", files @ ..] => prepare(files),
        ["enlarge", from, to] => enlarge::write(Path::new(from), Path::new(to)),
        _ => println!("{USAGE}"),
    }
}

/// Prepares photos one after another and prints the size of each original in pixels.
fn prepare(files: &[&str]) {
    let budget = PixelBudget::default();
    println!("photo  width  height");
    for file in files {
        let photo = photo::prepare(&fs::read(file).unwrap(), document::print_size(), &budget);
        let facts = photo.unwrap_or_else(|refusal| panic!("{file}: {refusal:?}")).facts;
        println!("{file}  {}  {}", facts.width, facts.height);
    }
}
