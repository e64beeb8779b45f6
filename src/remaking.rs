//! Makes the papers of a sealed job again from its bag, for comparison; nothing is written.
//!
//! In: a bag's folder; out: file names and bytes of the papers, or why they cannot be made. The same
//! stages run as for the job itself, within the same bounds, on a bag that may be a stranger's.

use std::panic::{self, AssertUnwindSafe};
use std::path::Path;

use crate::archive::layout::PROFILE;
use crate::archive::verify::judgement::Made;
use crate::diagnostic::{Diagnostic, Problems, Severity};
use crate::document::papers::choice::Choice;
use crate::failure::Failure;
use crate::intake;
use crate::job::{self, Done, Means, Wanted};
use crate::photo::PixelBudget;
use crate::sheet;
use crate::workshop::{self, WorkshopRefusal};

/// Room for the layout's nesting, as a job's own thread has it.
const STACK_BYTES: usize = 16 << 20;

/// Makes the papers that the sheet in a bag gives, earlier ones too: a bag may hold them.
///
/// # Errors
/// In words: what the bag lacks, or what refuses to be made.
pub fn papers(bag: &Path) -> Result<Vec<Made>, String> {
    // A stranger's material may find a fault of ours; that ends one comparison and no judgement.
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).stack_size(STACK_BYTES).build();
    let pool = pool.map_err(|error| format!("no thread for it: {error}"))?;
    let done = panic::catch_unwind(AssertUnwindSafe(|| pool.install(|| done(bag))));
    comemo::evict(0);
    let done = done.unwrap_or_else(|_| Err("a fault of this program kept it from that".into()))?;
    if done.papers.is_empty() {
        return Err(first(&done.problems, "no paper is due"));
    }
    Ok(done.papers.into_iter().map(|paper| (paper.name, paper.pdf)).collect())
}

fn done(bag: &Path) -> Result<Done, String> {
    let words = |failure: Failure| failure.to_string();
    let path = bag.join(PROFILE);
    let bytes = intake::read_text_file(&path, "read the workshop profile").map_err(words)?;
    let mut problems = Problems::default();
    let profile = sheet::read_profile(intake::PROFILE, &bytes, &mut problems);
    // Layouts of a stranger would run here, and no bag holds them.
    if profile.is_some_and(|profile| profile.fields.templates.is_some()) {
        return Err("the workshop's own layouts are in no bag".to_owned());
    }
    let workshop = workshop::open(&path).map_err(|refusal| match refusal {
        WorkshopRefusal::Failure(failure) => words(failure),
        WorkshopRefusal::Problems(problems) => first(&problems, "the profile is refused"),
    })?;
    let folder = intake::open_sealed(bag).map_err(words)?;
    let budget = PixelBudget::default();
    let means = Means { threads: 1, budget: &budget };
    job::run(&folder, &workshop, &Wanted::Papers(Choice::All.into()), &means).map_err(words)
}

/// The first error among problems, in words.
fn first(problems: &[Diagnostic], otherwise: &str) -> String {
    let error = problems.iter().find(|problem| problem.severity == Severity::Error);
    error.map_or_else(|| otherwise.to_owned(), |problem| problem.message.clone())
}
