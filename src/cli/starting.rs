//! Arguments of the verbs with which a job begins: `new`, `import`.

use std::path::PathBuf;

use chrono::NaiveDate;
use clap::builder::PossibleValuesParser;

use super::day::day;
use super::manner::Output;
use crate::scaffold::starter::STARTERS;

/// Arguments of `new`.
#[derive(Debug, clap::Args)]
pub struct New {
    /// Folder of the new job, or a folder of jobs, in which the number after the last one is taken.
    #[arg(default_value = ".")]
    pub folder: PathBuf,
    /// Kind of job that the sheet is laid out for.
    #[arg(long, value_name = "KIND", default_value = "arrival", value_parser = starters())]
    pub like: String,
    /// Write the long sheet, with every field in a comment.
    #[arg(long, conflicts_with = "like")]
    pub all_fields: bool,
    /// Write a workshop profile instead of a findings sheet.
    #[arg(long, conflicts_with_all = ["like", "all_fields"])]
    pub workshop: bool,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}

fn starters() -> PossibleValuesParser {
    PossibleValuesParser::new(STARTERS.iter().map(|(name, _)| *name))
}

/// Arguments of `import`.
#[derive(Debug, clap::Args)]
pub struct Import {
    /// Folder of the card or cable, or one photo; nothing in it is changed.
    pub from: PathBuf,
    /// The job folder, or its sheet.
    #[arg(default_value = ".")]
    pub job: PathBuf,
    /// Take the photos of this day alone, such as 2026-03-11.
    #[arg(long, value_name = "DAY", value_parser = day, conflicts_with_all = ["since", "until"])]
    pub day: Option<NaiveDate>,
    /// Take photos from this day on.
    #[arg(long, value_name = "DAY", value_parser = day)]
    pub since: Option<NaiveDate>,
    /// Take photos up to this day.
    #[arg(long, value_name = "DAY", value_parser = day)]
    pub until: Option<NaiveDate>,
    /// How the answer is printed.
    #[command(flatten)]
    pub output: Output,
}
