//! Paints the sample photos: `paint OUT_DIR [JOB ...]` writes `OUT_DIR/<job>/<name>.jpg`; the ride of
//! HD-2614 is written as `hd-2614/ride.gpx`, and `paint OUT_DIR ride` writes only that.
//!
//! In: a folder, optional job folder names (or `job/name` for one photo) and `--draft` for a
//! quarter of the pixels. Out: JPEG files with EXIF, one PNG, the same bytes on every run.
//! A small ray marcher draws made-up parts, so no photo of a real workshop or unit is needed.
//! `hd-2620/unit-exchange` is written as PNG; the stored `unit-exchange.heic` was made from it
//! once by a HEIC encoder, because no permissively licensed one exists in Rust. Its PNG is
//! painted only when it is asked for by name.

#![allow(
    clippy::many_single_char_names,
    clippy::similar_names,
    reason = "x, y, z, p, q, r, n, d are the language of geometry"
)]
#![allow(clippy::cast_possible_wrap, reason = "pixel and cell numbers are far below the limit")]
#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    clippy::disallowed_methods,
    reason = "a tool of its own beside the program: it prints its progress and writes its pictures"
)]

mod bearing;
mod bench;
mod board;
mod casing;
mod decay;
mod exif;
mod gear;
mod job_hd2611;
mod job_hd2614;
mod job_hd2618;
mod job_hd2620;
mod job_hd2623;
mod job_hd2625;
mod job_hd2630;
mod job_hd2631;
mod job_hd2640;
mod job_hd2642;
mod lens;
mod light;
mod math;
mod motor;
mod noise;
mod photo;
mod render;
mod resin;
mod shape;
mod skin;
mod store;
mod stuff;
mod track;
mod water;

use std::path::Path;
use std::process::ExitCode;

fn main() -> ExitCode {
    let mut words: Vec<String> = std::env::args().skip(1).collect();
    let draft = words.iter().any(|w| w == "--draft");
    words.retain(|w| w != "--draft");
    let Some((folder, wanted)) = words.split_first() else {
        eprintln!("usage: paint OUT_DIR [JOB | JOB/NAME ...] [--draft]");
        return ExitCode::from(2);
    };
    if wanted.is_empty() || wanted.iter().any(|w| w == "ride" || w == "hd-2614") {
        let path = Path::new(folder).join("hd-2614").join("ride.gpx");
        if let Err(reason) = std::fs::write(&path, track::gpx()) {
            eprintln!("cannot write `{}`: {reason}", path.display());
            return ExitCode::FAILURE;
        }
    }
    for photo in photo::all() {
        let full = format!("{}/{}", photo.job, photo.name);
        let asked = wanted.contains(&full);
        let in_job = wanted.is_empty() || wanted.iter().any(|w| w == photo.job);
        if !asked && (!in_job || photo.on_request) {
            continue;
        }
        match store::save(&photo, Path::new(folder), draft) {
            Ok(bytes) => println!("{full} {bytes} bytes"),
            Err(reason) => {
                eprintln!("cannot paint `{full}`: {reason}");
                return ExitCode::FAILURE;
            }
        }
    }
    ExitCode::SUCCESS
}
