//! The state of jobs and of their workshops' files at one moment, to see which have changed since.
//!
//! In: paths as typed; out: a [`Look`]. Files are listed again and again and never waited for, which works
//! on every system and on network shares, where nobody is told of changes. Not here: how often.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::{Path, PathBuf};

use super::{PROFILE, file, find, find_profile, house, open, read_text_file, real_path};
use crate::diagnostic::Problems;
use crate::digest::Digest;
use crate::sheet;

/// State of a group of files, one digest over names, lengths, times and the texts that people write.
type State = Digest;

/// Jobs and workshops at one moment.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Look {
    /// The state of each job folder's own files.
    jobs: BTreeMap<PathBuf, State>,
    /// The state of each profile with the files that it names.
    houses: BTreeMap<PathBuf, State>,
}

impl Look {
    /// Looks at every job at or below the paths; what is below `out` is our own and does not count.
    ///
    /// What cannot be read now is left out: an editor may be replacing it, and the next look sees it.
    pub fn at(paths: &[PathBuf], out: Option<&Path>) -> Self {
        let out = out.map(real_path);
        let found = paths.iter().filter_map(|path| find::find_jobs(path).ok());
        let mut look = Self::default();
        for job in found.flat_map(|(jobs, _)| jobs) {
            if let Some(profile) = find_profile(&job) {
                look.houses.entry(profile).or_insert_with_key(|profile| house_state(profile));
            }
            if let Some(state) = job_state(&job, out.as_deref()) {
                look.jobs.insert(job, state);
            }
        }
        look
    }

    /// How many jobs there are.
    pub fn n_jobs(&self) -> usize {
        self.jobs.len()
    }

    /// The jobs that are new or other than in an earlier look, themselves or by their workshop's files.
    pub fn changed_since(&self, earlier: &Self) -> Vec<PathBuf> {
        let house_changed = |job: &Path| {
            find_profile(job)
                .is_some_and(|profile| self.houses.get(&profile) != earlier.houses.get(&profile))
        };
        let jobs = self
            .jobs
            .iter()
            .filter(|(job, state)| earlier.jobs.get(*job) != Some(state) || house_changed(job));
        jobs.map(|(job, _)| job.clone()).collect()
    }

    /// True if a workshop's files are other than in an earlier look.
    pub fn has_other_houses(&self, earlier: &Self) -> bool {
        self.houses != earlier.houses
    }

    /// Keeps what an earlier look knew of jobs that are not to be seen at the moment.
    pub fn remember(&mut self, earlier: &Self) {
        for (job, state) in &earlier.jobs {
            self.jobs.entry(job.clone()).or_insert(*state);
        }
    }
}

fn job_state(job: &Path, out: Option<&Path>) -> Option<State> {
    let folder = open(job).ok()?;
    let mut state = Digest::of(&folder.sheet).hex();
    for file in &folder.files {
        let is_ours = out.is_some_and(|out| real_path(&job.join(&file.name)).starts_with(out));
        if !is_ours {
            let _ = write!(state, "\n{} {} {}", file.name, file.bytes, file.changed);
        }
    }
    Some(Digest::of(state.as_bytes()))
}

fn house_state(profile: &Path) -> State {
    let bytes = read_text_file(profile, "read the workshop profile").unwrap_or_default();
    let mut state = Digest::of(&bytes).hex();
    let prices = house::read_prices(profile).ok().flatten();
    let _ = write!(state, "\n{:?}", prices.map(|(_, list)| Digest::of(&list).hex()));
    let read = sheet::read_profile(PROFILE, &bytes, &mut Problems::default());
    let fields = read.map(|read| read.fields);
    let templates = fields.as_ref().and_then(|fields| fields.templates.as_ref());
    let templates = templates.and_then(|folder| house::read_templates(profile, &folder.0).ok());
    for (path, _, bytes) in templates.into_iter().flatten() {
        let _ = write!(state, "\n{path} {}", Digest::of(&bytes));
    }
    let logo = fields.as_ref().and_then(|fields| fields.logo.as_ref());
    let logo = logo.map(|logo| file::state_of(&profile.with_file_name(&logo.0)));
    Digest::of(format!("{state}\n{logo:?}").as_bytes())
}
