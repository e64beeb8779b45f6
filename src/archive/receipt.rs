//! The receipt of a sealed job: the register's head after it, as a page for the customer.
//!
//! A sealed bag and the words of a language -> text, the same for the same line of the register. A paper that is in the bag cannot
//! name the line that the bag will get; this page can, and whoever keeps it is a witness of the register
//! up to that line. Not here: asking an archive for a head (`verify`).

#![allow(clippy::disallowed_methods, reason = "the archive is one of the ends that touch the disk")]

use std::fs;
use std::path::{Path, PathBuf};

use qrcodegen::{QrCode, QrCodeEcc};

use super::durable;
use super::layout::{REGISTER, TAG_MANIFEST, bag_name};
use super::request::Sealed;
use crate::digest::Digest;
use crate::document::text::fill;
use crate::document::wording::Wording;
use crate::failure::Failure;

/// Empty modules around the code (ISO/IEC 18004 asks for four).
const QUIET: i32 = 4;

/// Writes the receipt of a job below a folder; gives its path. One that is there already stays.
///
/// # Errors
/// Something else is in its place, or the disk refuses.
pub fn write(
    folder: &Path,
    job: &str,
    sealed: &Sealed,
    wording: &Wording,
) -> Result<PathBuf, Failure> {
    let path = folder.join(job).join(format!("receipt-{}.txt", bag_name(job, sealed.version)));
    let text = text(job, sealed, wording);
    durable::make_folder(&folder.join(job))?;
    if path.symlink_metadata().is_err() {
        durable::write_new(&path, text.as_bytes())?;
    } else if !fs::read(&path).is_ok_and(|there| there == text.as_bytes()) {
        return Err(Failure::on("write the receipt", &path, "something else is in its place")
            .hint("the job is sealed; move that file elsewhere and seal the job again"));
    }
    Ok(path)
}

/// The page, in the words of a language; what is typed to check it is the same in all.
pub fn text(job: &str, sealed: &Sealed, wording: &Wording) -> String {
    let Sealed { version, digest, line, head, time, .. } = sealed;
    let word = |key| wording.choice("receipt", key);
    let code = format!("splitcase register head: job {job}, line {line}, SHA-256 {}", head.hex());
    let bag = bag_name(job, *version);
    let facts = [
        (word("bag"), bag.clone()),
        (word("digest"), grouped(digest)),
        (word("line"), line.to_string()),
        (word("head"), grouped(head)),
        (word("sealed"), fill(word("sealed-at"), &[("time", time)])),
    ];
    format!(
        "{}\n\n{}\n\n{}\n{}\n\n\
         \x20   splitcase verify . --known-head {}\n\n\
         {}\n\n\
         \x20   sed -n {line}p {REGISTER} | tr -d '\\n' | sha256sum\n\
         \x20   sha256sum {job}/{bag}/{TAG_MANIFEST}\n\n\
         {}\n\n{}",
        fill(word("title"), &[("job", job)]),
        word("text"),
        columns(&facts),
        word("check"),
        head.hex(),
        word("check-otherwise"),
        fill(word("code"), &[("code", &code)]),
        qr(&code),
    )
}

/// A line for each fact, what they say below each other.
fn columns(facts: &[(&str, String)]) -> String {
    let width = facts.iter().map(|(label, _)| label.chars().count()).max().unwrap_or_default();
    let line = |(label, fact): &(&str, String)| {
        let gap = " ".repeat(width + 2 - label.chars().count());
        format!("{label}:{gap}{fact}\n")
    };
    facts.iter().map(line).collect()
}

/// A digest in groups of eight digits.
fn grouped(digest: &Digest) -> String {
    let digits: Vec<char> = digest.hex().chars().collect();
    digits.chunks(8).map(|group| group.iter().collect::<String>()).collect::<Vec<_>>().join(" ")
}

/// A QR code in half blocks, two rows of it a line; nothing for a text that is too long for one.
fn qr(text: &str) -> String {
    let Ok(code) = QrCode::encode_text(text, QrCodeEcc::Medium) else { return String::new() };
    let side = code.size();
    let mut picture = String::new();
    for y in (-QUIET..side + QUIET).step_by(2) {
        let row = (-QUIET..side + QUIET).map(|x| {
            match (code.get_module(x, y), code.get_module(x, y + 1)) {
                (true, true) => '\u{2588}',
                (true, false) => '\u{2580}',
                (false, true) => '\u{2584}',
                (false, false) => ' ',
            }
        });
        let row: String = row.collect();
        picture.push_str(row.trim_end());
        picture.push('\n');
    }
    picture
}
