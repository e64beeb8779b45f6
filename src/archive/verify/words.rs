//! What was found and what that does not show, in words for a workshop's owner and an assessor.
//!
//! Facts -> [`Statement`]s. Not here: flaws (`archive::problems`), papers (`papers`), who vouches
//! (`vouchers`).

pub mod papers;
pub mod vouchers;

use chrono::NaiveDate;

use crate::archive::bag::names;

/// One sentence on what is shown or not: lower case, no full stop, names in backticks.
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
pub fn files(count: usize) -> String {
    if count == 1 { "1 file".to_owned() } else { format!("{count} files") }
}

/// Every file of the payload matches its list.
pub fn whole(count: usize, algorithms: &str) -> Statement {
    let text = match count {
        1 => format!("the one file matches this bag's own list ({algorithms})"),
        2 => format!("both files match this bag's own list ({algorithms})"),
        _ => format!("all {count} files match this bag's own list ({algorithms})"),
    };
    Statement::new("archive/whole", text)
}

/// Some files of the payload match their list.
pub fn partly(good: usize, listed: usize, algorithms: &str) -> Statement {
    let text = match (good, listed) {
        (1, 1) => format!("the one listed file matches this bag's own list ({algorithms})"),
        (1, _) => {
            format!("1 of the {listed} listed files matches this bag's own list ({algorithms})")
        }
        _ if good == listed => {
            format!("the {listed} listed files match this bag's own list ({algorithms})")
        }
        _ => {
            format!("{good} of the {listed} listed files match this bag's own list ({algorithms})")
        }
    };
    Statement::new("archive/partly", text)
}

/// The files that describe the bag match their list.
pub fn tags(count: usize) -> Statement {
    let text = match count {
        1 => "the one file that describes the bag matches its own list".to_owned(),
        _ => format!("the {count} files that describe the bag match their own list"),
    };
    Statement::new("archive/tag-files", text)
}

/// The bag has no manifest of its tag files.
pub fn no_tag_manifest() -> Statement {
    let text = "what describes the bag is on no list: it has no `tagmanifest`, so labels, dates \
                and the list of digests itself could have been written anew";
    Statement::new("archive/no-tag-manifest", text)
}

/// Tag files that no tag manifest lists.
pub fn unlisted(paths: &[&str]) -> Statement {
    let text = format!("beside the listed files, and covered by nothing: {}", names::named(paths));
    Statement::new("archive/unlisted", text)
}

/// Folders without files, which no manifest can name.
pub fn empty_folders(paths: &[&str]) -> Statement {
    let text = format!("folders without files, which no list can name: {}", names::named(paths));
    Statement::new("archive/empty-folder", text)
}

/// Two names that some disks take for one.
pub fn clash(one: &str, other: &str) -> Statement {
    let (one, other) = (names::shown(one), names::shown(other));
    let text = format!(
        "`{one}` and `{other}` differ in case or letter form only: a copy onto another disk can \
         lose one of them"
    );
    Statement::new("archive/clash", text)
}

/// A file under a name that is the listed one in another Unicode form.
pub fn other_form(path: &str) -> Statement {
    let text = format!(
        "the name `{}` is kept in another Unicode form than it is listed in",
        names::shown(path)
    );
    Statement::new("archive/unicode-form", text)
}

/// Anybody can make a seal.
pub fn unsigned() -> Statement {
    let text = "the bag has no signature: whoever can write to this folder could have made it \
                anew; the register's head noted elsewhere would show it";
    Statement::new("archive/unsigned", text)
}

/// A weak digest alone.
pub fn weak(algorithms: &str) -> Statement {
    let text = format!(
        "{algorithms} shows damage, not forgery: files with the same digest can be made on purpose"
    );
    Statement::new("archive/weak-digest", text)
}

/// The register dates the sealing, by a clock of the workshop.
pub fn clock_of_the_workshop() -> Statement {
    let text = "when it was sealed rests on the workshop's own clock: there is no time stamp of \
                an authority";
    Statement::new("archive/own-clock", text)
}

/// Photos carry the camera's time.
pub fn clock_of_the_camera() -> Statement {
    let text = "when the photos were taken rests on the camera's clock, and what they show on \
                whoever took them";
    Statement::new("archive/camera-clock", text)
}

/// A bag that need not be kept any longer and is gone.
pub fn bag_gone(line: u64, keep_until: NaiveDate) -> Statement {
    let text =
        format!("line {line}: its bag is gone, and its last day to be kept was {keep_until}");
    Statement::new("archive/bag-gone", text)
}

/// All bags of an archive match their lists.
pub fn all_bags(bags: usize, files: usize) -> Statement {
    let text = match bags {
        1 => format!("the one bag matches its own list: {}", self::files(files)),
        _ => format!("all {bags} bags match their own lists: {}", self::files(files)),
    };
    Statement::new("archive/all-whole", text)
}

/// Some bags of an archive match their lists.
pub fn some_bags(good: usize, bags: usize) -> Statement {
    let text = match (good, bags) {
        (1, 0) => "1 bag matches its own list, and the register names none".to_owned(),
        (_, 0) => format!("{good} bags match their own lists, and the register names none"),
        (1, _) => format!("1 bag matches its own list, and the register names {bags}"),
        _ => format!("{good} bags match their own lists, and the register names {bags}"),
    };
    Statement::new("archive/some-whole", text)
}

/// A bag that was taken away for a reason, and is gone.
pub fn bag_erased(line: u64, erased: u64, because: &str) -> Statement {
    let because = names::shown(because);
    let text =
        format!("line {line}: its bag was erased, by line {erased} of the register: {because}");
    Statement::new("archive/bag-erased", text)
}

/// A file that was taken out of a bag for a reason.
pub fn redacted(path: &str, line: u64, because: &str) -> Statement {
    let (path, because) = (names::shown(path), names::shown(because));
    let text = format!(
        "`{path}` was taken out, by line {line} of the register: {because}; its digest stays in the \
         bag's list, by which a copy kept elsewhere is known again"
    );
    Statement::new("archive/redacted", text)
}

/// The register's lines hang together.
pub fn chained(lines: u64, head: &str) -> Statement {
    let text = match lines {
        1 => format!("the register has one line; head `{head}`"),
        _ => format!(
            "each of the {lines} lines of the register holds the digest of the line before; head \
             `{head}`"
        ),
    };
    Statement::new("archive/chained", text)
}

/// Nothing behind the last line holds it.
pub fn head_not_noted() -> Statement {
    let text = "nothing behind it holds the register's last line, and whoever can write here \
                could make the whole register anew: note its head where nobody else can write, \
                and ask with `--known-head` later";
    Statement::new("archive/head-not-noted", text)
}

/// A head that was noted earlier is in the chain.
pub fn head_found(line: u64, lines: u64) -> Statement {
    let text = if line == lines {
        format!(
            "the head that was noted is that of the last line ({line}): no line was changed since"
        )
    } else {
        format!(
            "the head that was noted is that of line {line} of {lines}: no line up to there \
             was changed, and {} came after it",
            if lines - line == 1 { "1 line".to_owned() } else { format!("{} lines", lines - line) }
        )
    };
    Statement::new("archive/head-found", text)
}

/// Some seals have no signature.
pub fn unsigned_bags(unsigned: usize, bags: usize) -> Statement {
    let text = format!(
        "{unsigned} of {bags} bags have no signature: for those there is the register alone, and \
         its head noted elsewhere"
    );
    Statement::new("archive/unsigned", text)
}

/// Bytes of a torn line that were put aside when the register was mended.
pub fn torn_aside(path: &str) -> Statement {
    let path = names::shown(path);
    let text = format!("`{path}` keeps the bytes of a line that was torn, as by a power cut");
    Statement::new("archive/torn-aside", text)
}

/// A reply that no line of the register names.
pub fn stamp_not_registered(path: &str) -> Statement {
    let path = names::shown(path);
    let text =
        format!("no line of the register names the time stamp `{path}`; it is judged by itself");
    Statement::new("archive/stamp-not-registered", text)
}

/// How many more bags the same is said of.
pub fn more_bags(code: &'static str, count: usize) -> Statement {
    let bags = if count == 1 { "1 more bag".to_owned() } else { format!("{count} more bags") };
    Statement::new(code, format!("and the like in {bags}"))
}

/// Says which bag a statement is about.
pub fn of_bag(bag: &str, statement: &Statement) -> Statement {
    Statement::new(statement.code, format!("in `{}`: {}", names::shown(bag), statement.text))
}

/// A folder in which a seal was being made.
pub fn staging(path: &str) -> Statement {
    let text = format!(
        "`{}` is left from a sealing that was broken off, or one that is going on; no bag",
        names::shown(path)
    );
    Statement::new("archive/making", text)
}

/// A bag that is kept as tar alone.
pub fn tar_alone(path: &str) -> Statement {
    let text = format!("`{}` is kept as tar alone", names::shown(path));
    Statement::new("archive/tar-alone", text)
}

/// A bag holds the digest of a line before it.
pub fn history(line: u64) -> Statement {
    let text = match line {
        0 => "the bag says that no line of the register was there before it".to_owned(),
        _ => format!(
            "the bag holds the digest of line {line} of the register: a signature or time stamp of \
             the bag covers all lines up to that one"
        ),
    };
    Statement::new("archive/history", text)
}

/// The bags of an archive hold the digests of lines before them.
pub fn histories(bags: usize) -> Statement {
    let text = format!(
        "bags that hold the digest of the register's last line before them: {bags}; a signature or \
         time stamp of such a bag covers all lines up to that one"
    );
    Statement::new("archive/history", text)
}

/// A file that holds the register's head.
pub fn head_file(name: &str, line: u64, lines: u64) -> Statement {
    let text = format!(
        "`{}` holds the digest of line {line} of {lines} of the register: a signature or time stamp \
         of it covers all lines up to that one, and the bags that they name",
        names::shown(name)
    );
    Statement::new("archive/head-file", text)
}

/// Nothing outside vouches.
pub fn no_voucher() -> Statement {
    let text = "whoever can write here could have made all of it again, digests, dates, papers and \
                register included. A signer, a time-stamp authority, a noted head or a customer's \
                paper can vouch for it: `--signer`, `--authority`, `--known-head`, `verify PAPER.pdf \
                --against`";
    Statement::new("archive/no-voucher", text)
}

/// The register above a bag names it with this seal.
pub fn registered(line: u64) -> Statement {
    let text = format!("line {line} of the register above names this bag with this digest");
    Statement::new("archive/registered", text)
}

/// What the stamp's time leaves open.
pub fn stamped_late(days: i64) -> Statement {
    let text = format!(
        "between the sealing by the workshop's clock and the time stamp are {days} days: for those \
         the workshop's clock alone speaks"
    );
    Statement::new("archive/stamped-late", text)
}

/// Names that the usual tools for digests cannot take.
pub fn names_for_tools(paths: &[&str]) -> Statement {
    let text = format!(
        "`sha256sum` and the like cannot check these names, which the list has to write with \
         percent codes: {}",
        names::named(paths)
    );
    Statement::new("archive/tool-names", text)
}
