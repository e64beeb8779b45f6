//! Options that give a run a part of many jobs, so that several machines work side by side.

use std::path::PathBuf;

use crate::batch::shard::Shard;

/// Which of many jobs are meant.
#[derive(Clone, Debug, clap::Args)]
pub struct Share {
    /// Take the jobs that this file lists, a path a line, or with `-` standard input; paths may end in NUL
    /// instead. A path that is no job is told and costs no other job.
    #[arg(long, value_name = "FILE")]
    pub jobs_from: Option<PathBuf>,
    /// Take only share I of N; a job's share rests on its number alone.
    #[arg(long, value_name = "I/N")]
    pub shard: Option<Shard>,
}
