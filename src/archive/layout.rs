//! How an archive and its bags are laid out: names of files and folders, labels, numbers of bags.
//!
//! Job number and version -> names and paths, and back. Everything that spells such a name takes it
//! from here. Not here: what the files hold.

/// The register of an archive.
pub const REGISTER: &str = "register.jsonl";
/// The file whose lock a writer of the register holds.
pub const LOCK: &str = "register.lock";
/// How the names begin of the folders in which bags are made; none of them is a bag.
pub const STAGING: &str = ".making-";

/// The page in each bag and at the top of an archive on how to check them with other people's tools;
/// `.ci/outside/archive_how_to.py` runs its indented lines as they are.
pub const HOW_TO_CHECK: &str = "how-to-check.txt";
/// The page of a bag; one of its tag files.
pub const HOW_TO_CHECK_BAG: &str = include_str!("how_to_check/bag.txt");
/// The page of an archive; it is on no list, so it must be as it is here. A later version of this
/// program that words it again has to know this one too.
pub const HOW_TO_CHECK_ARCHIVE: &str = include_str!("how_to_check/archive.txt");

/// The declaration of a bag.
pub const DECLARATION: &str = "bagit.txt";
/// The description of a bag.
pub const INFO: &str = "bag-info.txt";
/// The list of digests of the payload.
pub const MANIFEST: &str = "manifest-sha256.txt";
/// The list of digests of the tag files, whose own digest is the bag's.
pub const TAG_MANIFEST: &str = "tagmanifest-sha256.txt";
/// What a bag holds of the register before it.
pub const REGISTER_HEAD: &str = "register-head.txt";
/// Files that a bag may have to be fetched from elsewhere (RFC 8493, 2.2.3); ours have none.
pub const FETCH: &str = "fetch.txt";
/// The signature over the list of tag files.
pub const SIGNATURE: &str = "tagmanifest-sha256.txt.sig";
/// The question to a time-stamp authority about the list of tag files.
pub const STAMP_QUERY: &str = "tagmanifest-sha256.txt.tsq";

/// Ending of a signature, after the name of what is signed.
pub const SIGNATURE_END: &str = ".sig";
/// Ending of a question to a time-stamp authority.
pub const QUERY_END: &str = ".tsq";
/// Ending of an authority's reply.
pub const REPLY_END: &str = ".tsr";

/// The payload of a bag.
pub const DATA: &str = "data/";
/// The files of the job folder.
pub const ORIGINALS: &str = "data/originals/";
/// In an owner's copy, the photos, whose metadata were taken out.
pub const COPIES: &str = "data/photos/";
/// The PDFs.
pub const PAPERS: &str = "data/papers/";
/// The findings sheet.
pub const SHEET: &str = "data/findings.yaml";
/// The part of the profile that bears on the job; an owner's copy lacks it.
pub const PROFILE: &str = "data/workshop.yaml";
/// The earlier visits of the unit that the papers tell of, from sheets that this bag does not hold.
pub const VISITS: &str = "data/earlier-visits.json";
/// In an owner's copy, how many files of the job are not in it.
pub const LEFT_OUT: &str = "data/left-out.txt";

/// What the job number of an owner's copy ends with.
pub const OWNER: &str = "-owner";
/// What the job number of a copy for handing over ends with.
pub const HANDOVER: &str = "-handover";
/// Longest number of a bag in bytes: the 40 that a sheet may give a job, and the ending of a copy.
pub const MAX_JOB: usize = 40 + HANDOVER.len();

/// Label and value of `bag-info.txt` if a paper was issued before the sheet beside it was changed.
pub const ISSUED_EARLIER: (&str, &str) =
    ("Internal-Sender-Description", "papers as issued earlier than this sheet");
/// Label of `bag-info.txt` for the job's number.
pub const JOB_LABEL: &str = "External-Identifier";
/// Label of `bag-info.txt` for the program that made the bag.
pub const AGENT_LABEL: &str = "Bag-Software-Agent";
/// Name and version of this program, as bags and the manifests of papers name it.
pub const PROGRAM: &str = concat!("splitcase ", env!("CARGO_PKG_VERSION"));

/// Path below a bag of a file of the job folder.
pub fn original(name: &str) -> String {
    format!("{ORIGINALS}{name}")
}

/// Name of the bag of a job in a version: its folder, and the stem of what is beside it.
pub fn bag_name(job: &str, version: u32) -> String {
    format!("{job}-v{version}")
}

/// Path of a bag below the archive, with `/`.
pub fn bag_path(job: &str, version: u32) -> String {
    format!("{job}/{}", bag_name(job, version))
}

/// Path of the tar of a bag, given by its own path.
pub fn tar_of(bag: &str) -> String {
    format!("{bag}.tar")
}

/// Path of the reply of a time-stamp authority for a bag, given by the bag's path.
pub fn stamp_of(bag: &str) -> String {
    format!("{bag}.tsr")
}

/// The version in a name that begins as those of a job's bags do, and the ending after it.
pub fn version_in<'a>(name: &'a str, job: &str) -> Option<(u32, Option<&'a str>)> {
    let rest = name.strip_prefix(job)?.strip_prefix("-v")?;
    let (number, ending) = rest.split_once('.').map_or((rest, None), |(one, two)| (one, Some(two)));
    let version = number.parse().ok().filter(|_| !number.starts_with(['0', '+']))?;
    Some((version, ending))
}

/// What an entry in the folder of a job is, by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// A bag's folder, of this version.
    Bag(u32),
    /// A bag as tar.
    Tar(u32),
    /// The reply of a time-stamp authority.
    Stamp(u32),
    /// The place in which a bag is being made, or was.
    Staging,
    /// Anything else.
    Foreign,
}

impl Part {
    /// What a name in the folder of a job stands for.
    pub fn of(name: &str, job: &str) -> Self {
        if name.starts_with(STAGING) {
            return Self::Staging;
        }
        match version_in(name, job) {
            Some((version, None)) => Self::Bag(version),
            Some((version, Some("tar"))) => Self::Tar(version),
            Some((version, Some("tsr"))) => Self::Stamp(version),
            _ => Self::Foreign,
        }
    }

    /// The version that it belongs to, if it belongs to one.
    pub fn version(self) -> Option<u32> {
        match self {
            Self::Bag(version) | Self::Tar(version) | Self::Stamp(version) => Some(version),
            Self::Staging | Self::Foreign => None,
        }
    }
}

/// True for the name under which the bytes of a torn line of the register are put aside.
pub fn is_torn_line(name: &str) -> bool {
    let number = name.strip_prefix("register.torn-").and_then(|rest| rest.strip_suffix(".txt"));
    number.is_some_and(|number| number.bytes().all(|byte| byte.is_ascii_digit()))
}

/// The name under which the bytes of a torn line are put aside.
pub fn torn_line(number: u32) -> String {
    format!("register.torn-{number}.txt")
}

/// The file at the top of an archive that holds the register's head after a line, for others to sign.
pub fn head_file(line: u64) -> String {
    format!("register.head-{line}.txt")
}

/// The line in the name of a head file, or of what is beside one, and the ending after `.txt`.
pub fn head_line(name: &str) -> Option<(u64, &str)> {
    let (line, ending) = name.strip_prefix("register.head-")?.split_once(".txt")?;
    let line = line.parse().ok().filter(|_| !line.starts_with(['0', '+']))?;
    matches!(ending, "" | SIGNATURE_END | QUERY_END | REPLY_END).then_some((line, ending))
}
