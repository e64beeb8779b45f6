//! Arguments of the verbs that look over all jobs.

use std::path::PathBuf;

use chrono::NaiveDate;
use clap::ValueEnum;

use super::day::day;
use super::manner::Output;
use crate::console::Format;

/// Arguments of `jobs`.
#[derive(Debug, clap::Args)]
pub struct Jobs {
    /// Job folders or their sheets, or folders with jobs below them.
    #[arg(value_name = "JOB", default_value = ".")]
    pub jobs: Vec<PathBuf>,
    /// Count the days that a job waits up to this day; today if none is given.
    #[arg(long, value_name = "DAY", value_parser = day)]
    pub today: Option<NaiveDate>,
    /// Form of the output; `splitcase schema output` describes the JSON.
    #[arg(long, value_enum, default_value_t = TableFormat::Text)]
    pub format: TableFormat,
}

/// Arguments of `overview`.
#[derive(Debug, clap::Args)]
pub struct Overview {
    /// Folders with jobs below them, or archives, of which the newest bag of each job is read.
    #[arg(value_name = "JOB", default_value = ".")]
    pub jobs: Vec<PathBuf>,
    /// Folder for `overview.pdf`, `overview.json` and the tables as CSV.
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
    /// Compare the scores of signs with the causes that the jobs state, and propose other rows.
    #[arg(long)]
    pub scores: bool,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}

/// Form of a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum TableFormat {
    /// For people, within 80 columns.
    Text,
    /// One JSON object for scripts.
    Json,
    /// Comma-separated values with a heading, for a spreadsheet.
    Csv,
}

impl From<TableFormat> for Format {
    fn from(format: TableFormat) -> Self {
        match format {
            TableFormat::Text | TableFormat::Csv => Self::Text,
            TableFormat::Json => Self::Json,
        }
    }
}
