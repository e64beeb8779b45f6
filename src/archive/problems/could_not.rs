//! What could not be looked at or judged, in words.
//!
//! Facts -> failures. Not here: what is wrong (the file above).

use std::path::Path;

use crate::archive::bag::names;
use crate::failure::Failure;

pub(crate) fn unknown_algorithm(path: &Path, name: &str) -> Failure {
    Failure::on(
        "use the manifest",
        path,
        format_args!("nothing is known here of `{}`", names::shown(name)),
    )
    .hint("md5, sha1, sha224, sha256, sha384 and sha512 are known")
}

pub(crate) fn unknown_encoding(path: &Path, name: &str) -> Failure {
    let cause = format!("nothing is known here of the encoding `{}`", names::shown(name));
    Failure::on("read the text files of", path, cause)
}

pub(crate) fn short_head(head: &str, least: usize) -> Failure {
    let cause = format!("it has {} digits, and so short a one can be forged", head.len());
    Failure::new("look for the noted head", cause).hint(format!(
        "give at least {least} digits; `splitcase verify --archive DIR --head` prints all 64"
    ))
}

pub(crate) fn no_workshops_bag(archive: &Path, job: &str) -> Failure {
    let cause = format!(
        "only an owner's copy is here, and no workshop's bag of the job `{}`",
        names::shown(job)
    );
    Failure::on("hold the PDF against the originals in", archive, cause)
        .hint("ask the workshop for its own bag; an owner's copy holds no originals")
}

pub(crate) fn nothing_sealed(path: &Path) -> Failure {
    Failure::on("verify", path, "nothing is sealed here: its register names no bag")
}

pub(crate) fn not_an_archive(path: &Path) -> Failure {
    Failure::on("hold the noted head against", path, "it is not an archive")
        .hint("`--known-head` goes with the folder that holds `register.jsonl`")
}

pub(crate) fn not_a_paper(path: &Path) -> Failure {
    Failure::on("hold the originals against", path, "it is not a PDF")
        .hint("`--against` goes with a PDF")
}
