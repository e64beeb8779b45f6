//! How well photos of other jobs are known again, and how fast.
//!
//! In: photos of which no two show the same; out: for each change how many copies were found again and
//! how much of them agreed, which of the photos were held to be like another, and what a search among
//! 10,000 takes. Built with the release profile: `cargo bench --bench likeness -- samples/*/*.jpg`.
#![expect(
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "a measurement prints, reads the clock and stops at the first thing that is wrong"
)]

mod changes;
mod speed;

use std::fs;

use image::{ImageFormat, RgbImage};
use splitcase::assessment::recognition::{self, Look, Table};
use splitcase::document;
use splitcase::photo::{self, Agreement, Facts, Photo, PixelBudget, Shade};

/// A prepared photo.
struct Seen {
    name: String,
    photo: Photo,
    shade: Shade,
    facts: Facts,
}

fn main() {
    // Cargo adds a word of its own.
    let files: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let known: Vec<Seen> = files.iter().map(|file| seen(file, &fs::read(file).unwrap())).collect();
    let looks: Vec<Look> = known.iter().map(|one| Look::of(&one.photo)).collect();
    let table = Table::of(&looks);
    println!(
        "photos that look like another: agreement in the middle, lowest quarter, lowest twentieth"
    );
    for (at, one) in known.iter().enumerate() {
        for (other, agreement) in found(one, &table, &known, &|other| other < at) {
            let same = recognition::is_same(&agreement, &one.facts, &known[other].facts);
            let same = if same { "the same" } else { "not the same" };
            let Agreement { middle, quarter, lowest, .. } = agreement;
            println!(
                "  {}  {}  {middle}  {quarter}  {lowest}  {same}",
                one.name, known[other].name
            );
        }
    }
    println!(
        "copies of each: found again of all; least and median in the middle, in the lowest quarter"
    );
    for (name, change) in changes::CHANGES {
        let (mut middles, mut quarters) = (Vec::new(), Vec::new());
        for (at, one) in known.iter().enumerate() {
            let copy = seen(name, &change(&picture(&one.photo)));
            for (other, agreement) in found(&copy, &table, &known, &|other| other == at) {
                if recognition::is_same(&agreement, &copy.facts, &known[other].facts) {
                    middles.push(agreement.middle);
                    quarters.push(agreement.quarter);
                }
            }
        }
        let (middle, quarter) = (ends(&mut middles), ends(&mut quarters));
        println!("  {name:34} {:3} of {}  {middle}  {quarter}", middles.len(), known.len());
    }
    speed::search(&looks);
}

/// Known photos that were laid on this one, and how much agrees.
fn found(
    of: &Seen,
    table: &Table<'_>,
    known: &[Seen],
    is_other: &dyn Fn(usize) -> bool,
) -> Vec<(usize, Agreement)> {
    let found = table.candidates(&Look::of(&of.photo), is_other).into_iter();
    let laid = found
        .filter_map(|one| Some((one.known, of.shade.agreement(&known[one.known].shade, one.fit)?)));
    laid.collect()
}

fn seen(name: &str, bytes: &[u8]) -> Seen {
    let (print, budget) = (document::print_size(), PixelBudget::default());
    let photo = photo::prepare(bytes, print, &budget).unwrap();
    let (shade, facts) = photo::shade(bytes, print, &budget).unwrap();
    Seen { name: name.to_owned(), photo, shade, facts }
}

fn picture(photo: &Photo) -> RgbImage {
    image::load_from_memory_with_format(&photo.jpeg, ImageFormat::Jpeg).unwrap().into_rgb8()
}

/// The least and the median.
fn ends(values: &mut [i32]) -> String {
    values.sort_unstable();
    match (values.first(), values.get(values.len() / 2)) {
        (Some(least), Some(median)) => format!("{least} {median}"),
        _ => "-".to_owned(),
    }
}
