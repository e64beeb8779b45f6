//! What is proved and what is not, in words for a workshop's owner and an assessor.
//!
//! Facts -> [`Statement`]s. All statements of the archive stage are worded here; not here: flaws
//! (problems).

use chrono::NaiveDate;

use super::names;

/// One sentence on what is proved or not: lower case, no full stop, names in backticks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Statement {
    /// Stable code for scripts, `archive/what`.
    pub code: &'static str,
    /// The sentence.
    pub text: String,
}

impl Statement {
    /// A statement in words.
    pub fn new(code: &'static str, text: impl Into<String>) -> Self {
        Self { code, text: text.into() }
    }
}

/// `1 file`, `14 files`.
pub(super) fn files(count: usize) -> String {
    if count == 1 { "1 file".to_owned() } else { format!("{count} files") }
}

/// Every file of the payload is as sealed.
pub(super) fn whole(count: usize, algorithms: &str) -> Statement {
    let text = match count {
        1 => format!("the one file is byte for byte the one that was sealed ({algorithms})"),
        2 => format!("both files are byte for byte those that were sealed ({algorithms})"),
        _ => format!("all {count} files are byte for byte those that were sealed ({algorithms})"),
    };
    Statement::new("archive/whole", text)
}

/// Some files of the payload are as sealed.
pub(super) fn partly(good: usize, listed: usize, algorithms: &str) -> Statement {
    let text = match (good, listed) {
        (1, 1) => format!("the one sealed file is byte for byte as sealed ({algorithms})"),
        (1, _) => {
            format!("1 of the {listed} sealed files is byte for byte as sealed ({algorithms})")
        }
        _ if good == listed => {
            format!("the {listed} sealed files are byte for byte as sealed ({algorithms})")
        }
        _ => format!(
            "{good} of the {listed} sealed files are byte for byte as sealed ({algorithms})"
        ),
    };
    Statement::new("archive/partly", text)
}

/// The files that describe the bag are as sealed.
pub(super) fn tags(count: usize) -> Statement {
    let text = match count {
        1 => "the one file that describes the bag agrees with its seal".to_owned(),
        _ => format!("the {count} files that describe the bag agree with its seal"),
    };
    Statement::new("archive/tag-files", text)
}

/// The bag has no manifest of its tag files.
pub(super) fn no_tag_manifest() -> Statement {
    let text = "what describes the bag is not sealed: it has no `tagmanifest`, so labels, dates \
                and the list of digests itself could have been written anew";
    Statement::new("archive/no-tag-manifest", text)
}

/// Tag files that no tag manifest lists.
pub(super) fn unlisted(paths: &[&str]) -> Statement {
    let text = format!("beside the sealed files, and covered by nothing: {}", named(paths));
    Statement::new("archive/unlisted", text)
}

/// Folders without files, which no manifest can name.
pub(super) fn empty_folders(paths: &[&str]) -> Statement {
    let text = format!("folders without files, which a seal cannot name: {}", named(paths));
    Statement::new("archive/empty-folder", text)
}

/// Two names that some disks take for one.
pub(super) fn clash(one: &str, other: &str) -> Statement {
    let (one, other) = (names::shown(one), names::shown(other));
    let text = format!(
        "`{one}` and `{other}` differ in case or letter form only: a copy onto another disk can \
         lose one of them"
    );
    Statement::new("archive/clash", text)
}

/// A file under a name that is the listed one in another Unicode form.
pub(super) fn other_form(path: &str) -> Statement {
    let text = format!(
        "the name `{}` is kept in another Unicode form than it was sealed in",
        names::shown(path)
    );
    Statement::new("archive/unicode-form", text)
}

/// Anybody can make a seal.
pub(super) fn unsigned() -> Statement {
    let text = "the seal itself has no signature: somebody who can write to this folder could \
                have made it anew; the register's head noted elsewhere would show it";
    Statement::new("archive/unsigned", text)
}

/// A weak digest alone.
pub(super) fn weak(algorithms: &str) -> Statement {
    let text = format!(
        "{algorithms} shows damage, not forgery: files with the same digest can be made on purpose"
    );
    Statement::new("archive/weak-digest", text)
}

/// The register dates the sealing, by a clock of the workshop.
pub(super) fn clock_of_the_workshop() -> Statement {
    let text = "when it was sealed rests on the workshop's own clock: there is no time stamp of \
                an authority";
    Statement::new("archive/own-clock", text)
}

/// Photos carry the camera's time.
pub(super) fn clock_of_the_camera() -> Statement {
    let text = "when the photos were taken rests on the camera's clock, and what they show on \
                whoever took them";
    Statement::new("archive/camera-clock", text)
}

/// A paper of the bag was made from the bag's own material.
pub(super) fn paper_fits(paper: &str, photos: usize) -> Statement {
    let paper = names::shown(paper);
    let text = match photos {
        0 => format!("the findings sheet is the one that `{paper}` was made from"),
        1 => format!("the photo and the findings sheet are those that `{paper}` was made from"),
        _ => format!(
            "the {photos} photos and the findings sheet are those that `{paper}` was made from"
        ),
    };
    Statement::new("archive/paper-fits", text)
}

/// A paper that is older than the sheet beside it, as its bag says; `photos` are those that fit.
pub(super) fn earlier_paper(paper: &str, photos: usize) -> Statement {
    let text = match photos {
        0 => "its text rests on the earlier sheet",
        _ => "its photos are those sealed here, its text rests on the earlier sheet",
    };
    let paper = names::shown(paper);
    let text =
        format!("the paper `{paper}` was issued before the sheet beside it was changed: {text}");
    Statement::new("archive/earlier-paper", text)
}

/// A bag that need not be kept any longer and is gone.
pub(super) fn bag_gone(line: u64, keep_until: NaiveDate) -> Statement {
    let text =
        format!("line {line}: its bag is gone, and its last day to be kept was {keep_until}");
    Statement::new("archive/bag-gone", text)
}

/// A paper without a manifest.
pub(super) fn paper_silent(paper: &str, cause: &str) -> Statement {
    let paper = names::shown(paper);
    let text = format!("what `{paper}` was made from is not known: {cause}");
    Statement::new("archive/paper-silent", text)
}

/// Photos beside those that a paper knows.
pub(super) fn unknown_photos(paper: &str, paths: &[&str]) -> Statement {
    let text = format!("`{}` knows nothing of {}", names::shown(paper), named(paths));
    Statement::new("archive/unknown-photo", text)
}

/// The PDF is a sealed one.
pub(super) fn same_paper(paper: &str) -> Statement {
    let text = format!("the PDF is byte for byte the sealed `{}`", names::shown(paper));
    Statement::new("archive/same-paper", text)
}

/// The PDF cannot be told from a sealed one, as there is none.
pub(super) fn no_paper_sealed() -> Statement {
    let text = "there is no sealed PDF to hold this one against: what it shows on its pages is \
                not proved by what it was made from";
    Statement::new("archive/no-paper", text)
}

/// The bag that a paper was found in.
pub(super) fn bag_of_paper(bag: &str) -> Statement {
    let text = format!("the PDF belongs to the bag `{}`", names::shown(bag));
    Statement::new("archive/bag-of-paper", text)
}

/// The digest that is printed on a paper.
pub(super) fn paper_digest(job: &str, digest: &str) -> Statement {
    let job = names::shown(job);
    let text = format!("the PDF says of itself: job `{job}`, digest of its material `{digest}`");
    Statement::new("archive/paper-digest", text)
}

/// All bags of an archive are as sealed.
pub(super) fn all_bags(bags: usize, files: usize) -> Statement {
    let text = match bags {
        1 => {
            format!("the one bag is whole: its {} are byte for byte as sealed", self::files(files))
        }
        _ => format!(
            "all {bags} bags are whole: their {} are byte for byte as sealed",
            self::files(files)
        ),
    };
    Statement::new("archive/all-whole", text)
}

/// Some bags of an archive are as sealed.
pub(super) fn some_bags(good: usize, bags: usize) -> Statement {
    let text = match good {
        1 => format!("1 of the {bags} registered bags is whole"),
        _ => format!("{good} of the {bags} registered bags are whole"),
    };
    Statement::new("archive/some-whole", text)
}

/// The register's lines hang together.
pub(super) fn chained(lines: u64, head: &str) -> Statement {
    let text =
        format!("the {lines} lines of the register follow each other without a gap; head `{head}`");
    Statement::new("archive/chained", text)
}

/// Nothing behind the last line holds it.
pub(super) fn head_not_noted() -> Statement {
    let text = "nothing behind it holds the register's last line, and whoever can write here \
                could make the whole register anew: note its head where nobody else can write, \
                and ask with `--head-was` later";
    Statement::new("archive/head-not-noted", text)
}

/// A head that was noted earlier is in the chain.
pub(super) fn head_found(line: u64, lines: u64) -> Statement {
    let text = if line == lines {
        format!("the head that was noted is the last line ({line}): the register is the same")
    } else {
        format!(
            "the head that was noted is line {line} of {lines}: nothing up to there was changed, \
             and {} came after it",
            if lines - line == 1 { "1 line".to_owned() } else { format!("{} lines", lines - line) }
        )
    };
    Statement::new("archive/head-found", text)
}

/// All papers of an archive fit.
pub(super) fn all_papers(papers: usize) -> Statement {
    let text = match papers {
        1 => "the one paper was made from the photos and the sheet that were sealed with it".into(),
        _ => format!(
            "{papers} papers were made from the photos and the sheets that were sealed with them"
        ),
    };
    Statement::new("archive/papers-fit", text)
}

/// Some seals have no signature.
pub(super) fn unsigned_bags(unsigned: usize, bags: usize) -> Statement {
    let text = format!(
        "{unsigned} of {bags} seals have no signature: for those the register alone speaks, and \
         its head noted elsewhere"
    );
    Statement::new("archive/unsigned", text)
}

/// Bytes of a torn line that were put aside when the register was mended.
pub(super) fn torn_aside(path: &str) -> Statement {
    let path = names::shown(path);
    let text = format!("`{path}` keeps the bytes of a line that was torn, as by a power cut");
    Statement::new("archive/torn-aside", text)
}

/// A reply that no line of the register names.
pub(super) fn stamp_not_registered(path: &str) -> Statement {
    let path = names::shown(path);
    let text =
        format!("no line of the register names the time stamp `{path}`; it speaks for itself");
    Statement::new("archive/stamp-not-registered", text)
}

/// Says which bag a statement is about.
pub(super) fn of_bag(bag: &str, statement: &Statement) -> Statement {
    Statement::new(statement.code, format!("in `{}`: {}", names::shown(bag), statement.text))
}

/// A folder in which a seal was being made.
pub(super) fn making(path: &str) -> Statement {
    let text = format!(
        "`{}` is left from a sealing that was broken off, or one that is going on; no bag",
        names::shown(path)
    );
    Statement::new("archive/making", text)
}

/// A bag that is kept as tar alone.
pub(super) fn tar_alone(path: &str) -> Statement {
    let text = format!("`{}` is kept as tar alone", names::shown(path));
    Statement::new("archive/tar-alone", text)
}

/// The first names of a list, and how many more there are.
pub(super) fn named(paths: &[&str]) -> String {
    const SHOWN: usize = 8;
    let mut text: Vec<String> =
        paths.iter().take(SHOWN).map(|path| format!("`{}`", names::shown(path))).collect();
    if paths.len() > SHOWN {
        text.push(format!("{} more", paths.len() - SHOWN));
    }
    text.join(", ")
}

/// The owner's copy holds no originals.
pub(super) fn owners_copy(has_photos: bool) -> Statement {
    let text = match has_photos {
        true => {
            "this is the owner's copy: its photos had their metadata taken out, so that they are \
             not byte for byte those of the report; the workshop's own bag holds the originals"
        }
        false => {
            "this is the owner's copy, without photos; the workshop's own bag holds what the \
             report was made from"
        }
    };
    Statement::new("archive/owners-copy", text)
}
