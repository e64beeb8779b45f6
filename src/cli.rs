//! The command line: what can be typed, and nothing of what it does.

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

/// Turns photos and one findings sheet a job into the papers of a drive-unit repair.
///
/// Exit code: 0 all good, 1 some job was refused, 2 nothing could be run.
#[derive(Debug, Parser)]
#[command(name = "splitcase", version, max_term_width = 96)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Start a job: write a findings sheet to fill in, or a workshop profile.
    New(New),
    /// Read jobs and tell what is wrong with them; writes nothing.
    Check(Check),
    /// Make the papers of every job in a folder.
    Render(Render),
    /// Make a contact sheet of a job's photos with the lettered grid on them.
    Photos(Photos),
    /// Print the JSON Schema of the findings sheet and of the workshop profile.
    Schema(Schema),
}

/// Arguments of `new`.
#[derive(Debug, clap::Args)]
pub struct New {
    /// Folder of the new job; made if it is not there.
    pub folder: PathBuf,
    /// Write a workshop profile instead of a findings sheet.
    #[arg(long)]
    pub workshop: bool,
}

/// How to tell what comes of the jobs.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum OutputFormat {
    /// For people.
    Text,
    /// One JSON object a line, for scripts.
    Json,
}

/// Arguments of `check`.
#[derive(Debug, clap::Args)]
pub struct Check {
    /// A job folder, or a folder with jobs below it.
    pub folder: PathBuf,
    /// How to tell what comes of the jobs.
    #[arg(long, value_enum, default_value_t = OutputFormat::Text)]
    pub format: OutputFormat,
}

/// Arguments of `render`.
#[derive(Debug, clap::Args)]
pub struct Render {
    /// A job folder, or a folder with jobs below it.
    pub folder: PathBuf,
    /// Folder for the papers; each job gets a folder of its number in it.
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
    /// How to tell what comes of the jobs.
    #[arg(long, value_enum, default_value_t = OutputFormat::Text)]
    pub format: OutputFormat,
    /// Make every paper again, also where nothing has changed.
    #[arg(long)]
    pub afresh: bool,
    /// Number of jobs to work on at once; all cores where nothing is said.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=256))]
    pub workers: Option<u16>,
}

/// Arguments of `photos`.
#[derive(Debug, clap::Args)]
pub struct Photos {
    /// The job folder; `photo-sheet.pdf` is written into it.
    pub job: PathBuf,
    /// Write the contact sheet below this folder instead.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
}

/// Arguments of `schema`.
#[derive(Debug, clap::Args)]
pub struct Schema {
    /// Which file's schema; both where nothing is said.
    #[arg(value_enum)]
    pub of: Option<SchemaOf>,
}

/// Files that have a schema.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum SchemaOf {
    /// `findings.yaml`.
    Findings,
    /// `workshop.yaml`.
    Workshop,
}
