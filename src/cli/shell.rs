//! Arguments of the verbs that a packager needs: completions and manual pages.

use std::path::PathBuf;

use clap_complete::Shell;

/// Arguments of `completions`.
#[derive(Debug, clap::Args)]
pub struct Completions {
    /// The shell.
    #[arg(value_enum)]
    pub shell: Shell,
}

/// Arguments of `man`.
#[derive(Debug, clap::Args)]
pub struct Man {
    /// Write a page for the program and one for every verb into this folder.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
}
