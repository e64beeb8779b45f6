//! The command line: what can be typed, and nothing of what it does.

mod day;
pub mod glimpse;
pub mod manner;
pub mod share;
pub mod shell;
pub mod starting;
pub mod survey;
mod verb;

use std::path::PathBuf;

use chrono::NaiveDate;
use clap::builder::{ArgPredicate, PossibleValuesParser};
use clap::{Parser, Subcommand, ValueEnum};

use crate::document::papers;
use day::day;
use manner::{Manner, Output};
use share::Share;
use shell::{Completions, Man};
use starting::{Import, New};
use survey::{Jobs, Overview};

/// Turns photos and one findings sheet a job into the papers of a drive-unit repair.
///
/// Exit code: 0 all good, 1 some job was refused, 2 nothing could be run.
#[derive(Debug, Parser)]
#[command(name = "splitcase", version, max_term_width = 80)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
    /// How it is said.
    #[command(flatten)]
    pub manner: Manner,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Start a job: write a findings sheet to fill in, or a workshop profile.
    New(New),
    /// Copy photos from a card or cable into a job, by the time at which they were taken.
    Import(Import),
    /// List every job: where it stands, how long it waits, what its next paper needs.
    Jobs(Jobs),
    /// Say what the closed jobs have in common: causes, distances, repairs that held, bills, days.
    Overview(Overview),
    /// Read jobs and say what is wrong with them and what their next paper needs; writes nothing.
    Check(Check),
    /// Make the papers of every job in a folder that are due by its sheet.
    Render(Render),
    /// Make a contact sheet of a job's photos with the lettered grid on them.
    Photos(Photos),
    /// Make a page to mark photos and put findings together on, and take what it saved into the sheet.
    Mark(Mark),
    /// Seal jobs into the evidence archive: originals, sheet and papers, each a bag that anybody can check.
    Seal(Seal),
    /// Say whether a bag, a tar, an archive or a PDF agrees with itself and who vouches for it; writes nothing.
    ///
    /// Exit code: 0 it agrees with itself or is vouched for, 1 it does not agree, 2 it cannot be judged.
    Verify(Verify),
    /// Write the archive's register head into a file that one signature or time stamp can cover.
    ///
    /// That covers every bag so far. `seal --reply` stores an authority's reply beside it.
    Head(Head),
    /// Take the sealed bags of a job away, for a reason that the register keeps.
    Erase(Erase),
    /// Take one file out of the sealed bags of a job, for a reason that the register keeps.
    ///
    /// The file's digest stays in the bag's list, and the bag's seal and signature stay good.
    Redact(Redact),
    /// Find words for a sheet by what people say: plain, of the trade, in six languages.
    Words(Words),
    /// Print the JSON Schemas of sheet, profile, price list and of what scripts get.
    Schema(Schema),
    /// Print the completions of a shell: verbs, options and choices by the tab key.
    Completions(Completions),
    /// Print the manual page, or write one for every verb into a folder.
    Man(Man),
    /// Does one task of another run of this program within bounds; not for people.
    #[command(hide = true)]
    Apart,
}

/// Arguments of `check`.
#[derive(Debug, clap::Args)]
pub struct Check {
    /// Job folders or their sheets, or folders with jobs below them.
    #[arg(
        value_name = "JOB",
        default_value = ".",
        default_value_if("jobs_from", ArgPredicate::IsPresent, None)
    )]
    pub jobs: Vec<PathBuf>,
    /// Which of many jobs.
    #[command(flatten)]
    pub share: Share,
    /// Look for earlier jobs of a unit and for like photos in this archive too; the profile can name one.
    #[arg(long, value_name = "DIR")]
    pub archive: Option<PathBuf>,
    /// Say which prices came from the price list `parts.yaml`; JSON always does.
    #[arg(long)]
    pub prices: bool,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}

/// Arguments of `render`.
#[derive(Debug, clap::Args)]
pub struct Render {
    /// Job folders or their sheets, or folders with jobs below them.
    #[arg(
        value_name = "JOB",
        default_value = ".",
        default_value_if("jobs_from", ArgPredicate::IsPresent, None)
    )]
    pub jobs: Vec<PathBuf>,
    /// Which of many jobs.
    #[command(flatten)]
    pub share: Share,
    /// Folder for the papers; each job gets a folder of its number in it.
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
    /// Look for earlier jobs of a unit and for like photos in this archive too; the profile can name one.
    #[arg(long, value_name = "DIR")]
    pub archive: Option<PathBuf>,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
    /// Make this paper and no other, due or not; may be given several times.
    #[arg(long = "paper", value_name = "NAME", value_parser = of_jobs())]
    pub papers: Vec<String>,
    /// Make the return report in this edition too, beside the one for paper.
    #[arg(long, value_enum, value_name = "EDITION")]
    pub edition: Option<EditionWanted>,
    /// Write a covering message beside each paper: as text, as HTML, and whole with the paper attached.
    /// Nothing is sent.
    #[arg(long)]
    pub message: bool,
    /// Go on until Ctrl-C: whenever a sheet, a photo or the profile is saved, make the papers again.
    #[arg(long, conflicts_with_all = ["jobs_from", "shard"])]
    pub watch: bool,
    /// Make every paper again, also if nothing has changed.
    #[arg(long, alias = "afresh")]
    pub force: bool,
    /// Number of jobs to work on at once; all cores if nothing is said.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=256))]
    pub workers: Option<u16>,
}

/// Editions of the return report beside the one for paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum EditionWanted {
    /// For the screen of a telephone: one narrow column, large type.
    Phone,
}

/// Names of the papers that jobs give.
fn of_jobs() -> PossibleValuesParser {
    PossibleValuesParser::new(papers::of_jobs().map(|paper| paper.name))
}

/// Arguments of `photos`.
#[derive(Debug, clap::Args)]
pub struct Photos {
    /// Job folders or their sheets, or folders with jobs below them; `photo-sheet.pdf` is written into each job.
    #[arg(value_name = "JOB", default_value = ".")]
    pub jobs: Vec<PathBuf>,
    /// Write the contact sheets below this folder instead.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}

/// Arguments of `mark`.
#[derive(Debug, clap::Args)]
pub struct Mark {
    /// Job folders or their sheets, or folders with jobs below them; `marking-page.html` is written into each job.
    #[arg(value_name = "JOB", default_value = ".")]
    pub jobs: Vec<PathBuf>,
    /// Take a file that the page saved into the sheet, which keeps every other byte.
    #[arg(long, value_name = "FILE", conflicts_with = "out")]
    pub take: Option<PathBuf>,
    /// Write the page below this folder instead.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}

/// Arguments of `seal`.
#[derive(Debug, clap::Args)]
pub struct Seal {
    /// Job folders or their sheets, or folders with jobs below them.
    #[arg(value_name = "JOB", required_unless_present = "reply")]
    pub jobs: Vec<PathBuf>,
    /// Folder of the archive; made if it is not there.
    #[arg(long, value_name = "DIR")]
    pub archive: PathBuf,
    /// Seal the papers that `render --out` wrote there, as they were issued.
    #[arg(long, value_name = "DIR")]
    pub papers: Option<PathBuf>,
    /// Write each bag as one tar file too.
    #[arg(long)]
    pub tar: bool,
    /// Write a copy for the owner too: photos without metadata, so that no place is given away.
    #[arg(long)]
    pub for_owner: bool,
    /// Write a copy for handing over too: originals whole, the sheet without what is for the workshop alone.
    #[arg(long)]
    pub for_handover: bool,
    /// Sign each bag with this OpenSSH private key; `SPLITCASE_KEY_PASSPHRASE` unlocks it.
    #[arg(long, value_name = "KEY")]
    pub key: Option<PathBuf>,
    /// Put a question to a time-stamp authority (RFC 3161) into each bag.
    #[arg(long)]
    pub stamp_query: bool,
    /// Write a page for the customer of each job: the register's head after it, to be kept elsewhere.
    #[arg(long, value_name = "DIR")]
    pub receipts: Option<PathBuf>,
    /// Store an authority's reply beside the bag, or the noted head, that it is about.
    #[arg(long, value_name = "REPLY.tsr", conflicts_with = "jobs")]
    pub reply: Option<PathBuf>,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}

/// Arguments of `verify`.
#[derive(Debug, clap::Args)]
pub struct Verify {
    /// A bag, its tar, an archive, or one PDF.
    pub path: Option<PathBuf>,
    /// What a PDF is held against: a bag, a tar, an archive or the folder of its originals.
    #[arg(long, value_name = "PATH")]
    pub against: Option<PathBuf>,
    /// A public key, or a file of allowed signers, that the seal must be signed by.
    #[arg(long, value_name = "FILE")]
    pub signer: Option<PathBuf>,
    /// Certificates of the time-stamp authority that is trusted (PEM).
    #[arg(long, value_name = "CERT.pem")]
    pub authority: Option<PathBuf>,
    /// The register's head as it was noted earlier, at least 32 digits.
    #[arg(long, alias = "head-was", value_name = "DIGEST")]
    pub known_head: Option<String>,
    /// The archive that `--head`, `--due` and `--digest` ask about.
    #[arg(long, value_name = "DIR")]
    pub archive: Option<PathBuf>,
    /// Print the register's head digest, to be noted elsewhere.
    #[arg(long, conflicts_with_all = ["due", "digest"])]
    pub head: bool,
    /// List the bags that may be deleted on a day; today if none is given. Nothing is deleted.
    #[arg(long, value_name = "DAY", num_args = 0..=1, value_parser = day, conflicts_with = "digest")]
    pub due: Option<Option<NaiveDate>>,
    /// Find the bag that the short digest or the QR code of a paper belongs to.
    #[arg(long, value_name = "SHORT")]
    pub digest: Option<String>,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}

/// Arguments of `head`.
#[derive(Debug, clap::Args)]
pub struct Head {
    /// Folder of the archive.
    pub archive: PathBuf,
    /// Sign the head with this OpenSSH private key; `SPLITCASE_KEY_PASSPHRASE` unlocks it.
    #[arg(long, value_name = "KEY")]
    pub key: Option<PathBuf>,
    /// Put a question to a time-stamp authority (RFC 3161) beside it.
    #[arg(long)]
    pub stamp_query: bool,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}

/// Arguments of `erase`.
#[derive(Debug, clap::Args)]
pub struct Erase {
    /// Number of the job; an owner's copy is erased by its own number, `JOB-owner`.
    pub job: String,
    /// Folder of the archive.
    #[arg(long, value_name = "DIR")]
    pub archive: PathBuf,
    /// Why: the register always keeps it, so name nobody in it.
    #[arg(long, value_name = "WHY")]
    pub because: String,
    /// Erase this version alone; all of the job if none is given.
    #[arg(long = "sealed-version", value_name = "N")]
    pub sealed_version: Option<u32>,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}

/// Arguments of `redact`.
#[derive(Debug, clap::Args)]
pub struct Redact {
    /// Number of the job; an owner's copy has its own number, `JOB-owner`.
    pub job: String,
    /// The file: its name in the job folder, or its path below the bag's `data/`.
    pub file: String,
    /// Folder of the archive.
    #[arg(long, value_name = "DIR")]
    pub archive: PathBuf,
    /// Why: the register always keeps it, so name nobody in it.
    #[arg(long, value_name = "WHY")]
    pub because: String,
    /// Take it out of this version alone; out of all if none is given.
    #[arg(long = "sealed-version", value_name = "N")]
    pub sealed_version: Option<u32>,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}

/// Arguments of `words`.
#[derive(Debug, clap::Args)]
pub struct Words {
    /// What to look for, such as `rusty bearing` or `Dichtung`; an overview if nothing is said.
    pub text: Vec<String>,
    /// Look at one kind of words alone, such as `part`, `sign` or `bench-check`.
    #[arg(long, value_name = "KIND")]
    pub kind: Option<String>,
    /// Show everything that was found, not only what comes nearest.
    #[arg(long)]
    pub all: bool,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}

/// Arguments of `schema`.
#[derive(Debug, clap::Args)]
pub struct Schema {
    /// Which schema; those of all three files if nothing is said.
    #[arg(value_enum)]
    pub of: Option<SchemaOf>,
}

/// What has a schema.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum SchemaOf {
    /// `findings.yaml`.
    Findings,
    /// `workshop.yaml`.
    Workshop,
    /// `parts.yaml`.
    Parts,
    /// What `--format json` prints.
    Output,
}
