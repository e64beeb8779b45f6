//! Everything that can be wrong with what was sealed, in words, each with a stable code.
//!
//! Facts -> [`Flaw`]s. Not here: what could not be judged (`could_not`), what is shown (`verify::words`).

pub mod could_not;

use super::bag::names;
use super::layout::{DECLARATION, FETCH, INFO, REGISTER, TAG_MANIFEST};

/// Something that is not as it was sealed, or not as the rules of its form are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Flaw {
    /// Stable code for scripts, `archive/what`.
    pub code: &'static str,
    /// The file in question below the verified path, with `/`; empty for the whole.
    pub place: String,
    /// What is wrong: lower case, no full stop, names in backticks.
    pub message: String,
    /// What to do about it.
    pub hint: Option<String>,
}

impl Flaw {
    /// A flaw in words, at a place as it is written there.
    pub fn new(code: &'static str, place: &str, message: impl Into<String>) -> Self {
        Self { code, place: names::shown(place), message: message.into(), hint: None }
    }

    fn hint(self, hint: impl Into<String>) -> Self {
        Self { hint: Some(hint.into()), ..self }
    }

    /// The same flaw with its place below a folder, or beside it for what `../` leads to.
    #[must_use]
    pub fn below(mut self, folder: &str) -> Self {
        let folder = names::shown(folder);
        let above = folder.rsplit_once('/').map(|(above, _)| above);
        self.place = match (self.place.strip_prefix("../"), above) {
            _ if self.place.is_empty() => folder,
            (Some(beside), Some(above)) => format!("{above}/{beside}"),
            _ => format!("{folder}/{}", self.place),
        };
        self
    }
}

// Files.

pub(super) fn changed(path: &str, algorithms: &str) -> Flaw {
    let message = format!("changed: it has other bytes than its list says, by {algorithms}");
    Flaw::new("archive/changed", path, message)
}

pub(super) fn missing(path: &str) -> Flaw {
    Flaw::new("archive/missing", path, "missing: it is listed and not there")
}

pub(super) fn not_fetched(path: &str, url: &str) -> Flaw {
    let message = format!("missing: it is still to be fetched from `{}`", names::shown(url));
    Flaw::new("archive/not-fetched", path, message)
}

pub(super) fn added(path: &str) -> Flaw {
    Flaw::new("archive/added", path, "added: it is there and on no list")
}

pub(super) fn renamed(old: &str, new: &str) -> Flaw {
    let message = format!("renamed: listed as `{}`, with the same bytes", names::shown(old));
    Flaw::new("archive/renamed", new, message)
}

pub(super) fn not_in_manifest(path: &str, manifest: &str) -> Flaw {
    let message = format!("not in `{manifest}`, and every manifest must list every file");
    Flaw::new("archive/not-in-manifest", path, message)
}

pub(super) fn link(path: &str) -> Flaw {
    let message = "a link and no file: what it leads to can change without any list noticing";
    Flaw::new("archive/link", path, message)
}

pub(super) fn device(path: &str) -> Flaw {
    Flaw::new("archive/no-file", path, "neither a file nor a folder; it was not opened")
}

pub(super) fn name_is_no_text(path: &str) -> Flaw {
    Flaw::new("archive/name", path, "its name is not UTF-8, so no manifest can name it")
}

// The form of a bag.

pub(super) fn no_declaration() -> Flaw {
    Flaw::new("archive/declaration", DECLARATION, "missing: without it this is not a bag")
}

pub(super) fn declaration(message: &str) -> Flaw {
    Flaw::new("archive/declaration", DECLARATION, message)
        .hint("its two lines are `BagIt-Version: 1.0` and `Tag-File-Character-Encoding: UTF-8`")
}

pub(super) fn no_data() -> Flaw {
    Flaw::new("archive/no-data", "data", "missing: a bag keeps its files in this folder")
}

pub(super) fn no_manifest() -> Flaw {
    let message = "there is no manifest of digests, so nothing in this bag is listed";
    Flaw::new("archive/no-manifest", "", message)
}

pub(super) fn empty_manifest(manifest: &str) -> Flaw {
    Flaw::new("archive/empty-manifest", manifest, "it lists nothing")
}

pub(super) fn no_tag_manifest() -> Flaw {
    let message = "missing: a bag of this archive has one, and the register holds its digest";
    Flaw::new("archive/no-tag-manifest", TAG_MANIFEST, message)
}

pub(super) fn line(file: &str, line: usize, message: &str) -> Flaw {
    Flaw::new("archive/line", file, format!("line {line}: {message}"))
}

pub(super) fn listed_twice(file: &str, line: usize, path: &str) -> Flaw {
    let message = format!("line {line}: `{}` is listed a second time", names::shown(path));
    Flaw::new("archive/listed-twice", file, message)
}

pub(super) fn danger(file: &str, line: usize, path: &str, what: &str) -> Flaw {
    let message =
        format!("line {line}: `{}` is {what}; nothing there was opened", names::shown(path));
    Flaw::new("archive/path", file, message)
}

pub(super) fn text(file: &str, message: &str) -> Flaw {
    Flaw::new("archive/text", file, message)
}

pub(super) fn oxum(says: &str, is: &str) -> Flaw {
    let message = format!("it counts `{}` (bytes.files), and there is `{is}`", names::shown(says));
    Flaw::new("archive/oxum", INFO, message)
}

pub(super) fn fetch_not_listed(path: &str, manifest: &str) -> Flaw {
    let message = format!("`{}` is to be fetched and not in `{manifest}`", names::shown(path));
    Flaw::new("archive/fetch", FETCH, message)
}

pub(super) fn query(path: &str) -> Flaw {
    Flaw::new("archive/query", path, "this time-stamp query asks for something else than this seal")
}

pub(super) fn no_signature(path: &str) -> Flaw {
    let message = "this bag has no signature, and you asked whose it is";
    Flaw::new("archive/no-signature", path, message)
}

pub(super) fn no_stamp() -> Flaw {
    let message = "this bag has no time stamp, and you asked whose it is";
    Flaw::new("archive/no-stamp", "", message)
}

pub(super) fn seal_file_alone(path: &str) -> Flaw {
    Flaw::new(
        "archive/seal-file",
        path,
        "there is no `tagmanifest-sha256.txt` that it could be for",
    )
}

// Tars.

pub(super) fn tar(name: &str, message: impl Into<String>) -> Flaw {
    Flaw::new("archive/tar", name, message)
}

// The register and the archive around the bags.

pub(super) fn register(message: String) -> Flaw {
    Flaw::new("archive/register", REGISTER, message)
}

pub(super) fn no_register() -> Flaw {
    let message = "missing: without it nobody can know which bags there were";
    Flaw::new("archive/register", REGISTER, message)
}

pub(super) fn torn(message: String) -> Flaw {
    register(message).hint("a power cut can do that; the next `seal` puts the register in order")
}

pub(super) fn register_path(line: u64, path: &str) -> Flaw {
    let path = names::shown(path);
    register(format!("line {line} names `{path}`, which is not where that bag would be"))
}

pub(super) fn registered_twice(line: u64, path: &str) -> Flaw {
    register(format!("line {line} registers `{}` a second time", names::shown(path)))
}

pub(super) fn stamped_unsealed(line: u64, path: &str) -> Flaw {
    let path = names::shown(path);
    register(format!("line {line} names `{path}`, and no line before it names that bag"))
}

pub(super) fn head_unknown(head: &str) -> Flaw {
    register(format!(
        "the head `{}` that was noted is not in it: lines were changed or taken out since",
        names::shown(head)
    ))
}

pub(super) fn bag_missing(path: &str, line: u64) -> Flaw {
    let message = format!("missing: line {line} of the register says that this bag was sealed");
    Flaw::new("archive/bag-missing", path, message)
}

pub(super) fn other_seal(path: &str, line: u64, found: &str) -> Flaw {
    let message = format!(
        "its seal is not the one in line {line} of the register: the digest here is `{found}`"
    );
    Flaw::new("archive/other-seal", path, message)
}

pub(super) fn not_registered(path: &str) -> Flaw {
    Flaw::new("archive/not-registered", path, "no line of the register names this bag")
        .hint("a `seal` that was broken off can leave it so; the next one of this job registers it")
}

pub(super) fn foreign(path: &str) -> Flaw {
    Flaw::new("archive/foreign", path, "it is not part of an archive").hint("move it elsewhere")
}

pub(super) fn stamp_missing(path: &str, line: u64) -> Flaw {
    let message = format!("missing: line {line} of the register says that this time stamp came");
    Flaw::new("archive/stamp", path, message)
}

pub(super) fn stamp_changed(path: &str, line: u64) -> Flaw {
    let message =
        format!("changed since it came: line {line} of the register holds another digest");
    Flaw::new("archive/stamp", path, message)
}

pub(super) fn erased_unsealed(line: u64, path: &str) -> Flaw {
    let path = names::shown(path);
    register(format!("line {line} erases `{path}`, and no line before it sealed such a bag"))
}

pub(super) fn erased_and_there(line: u64) -> Flaw {
    let message = format!("line {line} of the register says that it was erased, and it is there");
    Flaw::new("archive/erased", "", message).hint("`splitcase erase` takes it away")
}

pub(super) fn redacted_and_there(path: &str, line: u64) -> Flaw {
    let message =
        format!("line {line} of the register says that it was taken out, and it is there");
    Flaw::new("archive/redacted", path, message).hint("`splitcase redact` takes it out")
}

pub(super) fn redacted_unlisted(path: &str, line: u64) -> Flaw {
    let message = format!(
        "line {line} of the register says that this file was taken out, and the bag's list has no \
         such file with that digest"
    );
    Flaw::new("archive/redacted", path, message)
}

pub(super) fn time(line: u64, says: &str, why: &str) -> Flaw {
    let says = names::shown(says);
    register(format!("line {line} is dated `{says}`, {why}"))
}

pub(super) fn history(place: &str, line: u64) -> Flaw {
    let message = format!(
        "`register-head.txt` does not hold the digest of line {line} of the register, or that line \
         is not before this bag's own"
    );
    Flaw::new("archive/history", place, message)
}

pub(super) fn head_file(name: &str, line: u64) -> Flaw {
    let message = format!("it does not hold the digest of line {line} of the register");
    Flaw::new("archive/head-file", name, message)
        .hint("either this file was changed, or lines of the register were since it was written")
}

pub(super) fn head_alone(name: &str) -> Flaw {
    Flaw::new("archive/head-file", name, "the head that it could be for is not there")
}

pub(super) fn page(name: &str) -> Flaw {
    let message = "this page is not as this program writes it, so its lines may mislead";
    Flaw::new("archive/page", name, message).hint("take it away; the next `seal` writes it again")
}

pub(super) fn stamp_time(place: &str, says: &str, why: &str) -> Flaw {
    Flaw::new("archive/stamp-time", place, format!("it is dated {says}, {why}"))
}

pub(super) fn more(code: &'static str, count: usize) -> Flaw {
    let message = format!("and {count} more of this kind, which are not listed here");
    Flaw::new(code, "", message)
}

pub(super) fn disagrees(label: &str, says: &str, line: u64, there: &str) -> Flaw {
    let message = format!(
        "`{label}` is `{}`, and `{}` in line {line} of the register",
        names::shown(says),
        names::shown(there)
    );
    Flaw::new("archive/disagrees", INFO, message)
}

// Papers.

pub(super) fn paper_of_other(paper: &str, what: &str) -> Flaw {
    Flaw::new("archive/paper", paper, format!("it lists another {what}"))
}

pub(super) fn paper_of_missing(paper: &str, what: &str) -> Flaw {
    Flaw::new("archive/paper", paper, format!("it lists {what}, which is not there"))
}

pub(super) fn paper_of_other_job(paper: &str, job: &str) -> Flaw {
    let message = format!("it was made for another job: `{}`", names::shown(job));
    Flaw::new("archive/paper", paper, message)
}

pub(super) fn paper_not_made_again(paper: &str) -> Flaw {
    let message = "it lists this bag's material and was made by this version, but making it again \
                   from the bag gives other bytes: its pages or what it carries were changed";
    Flaw::new("archive/paper-differs", paper, message).hint("read what this bag gives: `render` it")
}

pub(super) fn picture_of_nothing(paper: &str, page: usize) -> Flaw {
    let message = format!("a picture on its page {page} shows none of the photos of this bag");
    Flaw::new("archive/picture-differs", paper, message)
        .hint("hold the page beside the photos: what it shows is not in evidence here")
}

pub(super) fn picture_retouched(paper: &str, page: usize, photo: &str) -> Flaw {
    let photo = names::shown(photo);
    let message = format!("the picture on its page {page} differs from `{photo}` in a part");
    Flaw::new("archive/picture-differs", paper, message)
        .hint("hold the page beside the photo: one of them was changed")
}

pub(super) fn picture_unreadable(paper: &str, page: usize) -> Flaw {
    let message = format!("a picture on its page {page} cannot be read");
    Flaw::new("archive/picture-differs", paper, message)
}

pub(super) fn carried_sheet_differs(paper: &str) -> Flaw {
    let message = "the findings sheet that it carries is not the one that it lists: it was changed";
    Flaw::new("archive/carried-sheet", paper, message)
}

pub(super) fn workshops_bag_differs(bag: &str) -> Flaw {
    let bag = names::shown(bag);
    let message = format!(
        "the workshop's bag `{bag}` of the same job does not hold this paper, only an owner's copy \
         does: the two differ"
    );
    Flaw::new("archive/workshops-bag", "", message)
}

pub(super) fn paper_in_no_bag(paper: &str) -> Flaw {
    let message = "no bag of the archive holds a paper with the same list of material";
    Flaw::new("archive/paper", paper, message)
}

pub(super) fn paper_goes_on(sealed: &str, more: u64) -> Flaw {
    let message = format!(
        "it begins as `{}` in the bag and goes on for {more} bytes, which can show something else",
        names::shown(sealed)
    );
    Flaw::new("archive/paper-goes-on", "", message).hint("read the one in the bag")
}

pub(super) fn no_sealed_paper(sealed: &[&str]) -> Flaw {
    let message = format!(
        "it is none of the PDFs in the bag, so its pages can show something else: {}",
        names::named(sealed)
    );
    Flaw::new("archive/paper-not-sealed", "", message).hint("read the one in the bag")
}
