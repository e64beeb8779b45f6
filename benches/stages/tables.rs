//! The table of stages: what each of them takes of the jobs below a folder.

use std::path::Path;

use splitcase::diagnostic::Problems;
use splitcase::document::Document;
use splitcase::document::papers::asked::Asked;
use splitcase::document::papers::choice::Choice;
use splitcase::intake::{self, JobFolder};
use splitcase::job::{Assessed, Job, Means, Wanted};
use splitcase::photo::{NamedPhoto, PixelBudget};
use splitcase::workers;
use splitcase::workshop::{self, Workshop, WorkshopRefusal};

use crate::clock::{Spent, ms, timed};
use crate::report::{lines, stop};

/// Takes every job below a folder through all stages and prints what each stage took of a job.
pub fn run(folder: &Path, workers: usize) {
    let shop = shop_of(folder);
    let (jobs, _) = intake::find::find_jobs(folder).unwrap();
    let budget = PixelBudget::default();
    let means = Means { threads: 1, budget: &budget };
    let per_job = workers::map_jobs(workers, jobs.len(), |at| {
        let folder = intake::open(&jobs[at]).unwrap();
        let (job, sheet) = timed(|| open(&folder, &shop));
        let (photos, photo) = timed(|| photos(&job, &means));
        let (ready, assessment) = timed(|| assess(job, photos));
        let (_, press) = timed(|| papers(&ready));
        [sheet, photo, assessment, press]
    });
    let mut sums = [Spent::default(); 4];
    for (stage, spent) in per_job.iter().flat_map(|spent| spent.iter().enumerate()) {
        sums[stage] += *spent;
    }
    println!("{:18}  {:>12}  {:>12}", "stage", "processor ms", "wall ms");
    let n = jobs.len() as f64;
    for (name, sum) in ["sheet", "photos", "assessment", "layout and export"].iter().zip(sums) {
        println!("{name:18}  {:12.2}  {:12.2}", ms(sum.processor) / n, ms(sum.wall) / n);
    }
}

/// The workshop of the jobs below a folder.
pub fn shop_of(jobs: &Path) -> Workshop {
    let profile = intake::find_profile(jobs).unwrap();
    workshop::open(&profile).unwrap_or_else(|refusal| match refusal {
        WorkshopRefusal::Problems(problems) => panic!("{}", lines(&problems)),
        WorkshopRefusal::Failure(failure) => panic!("{failure}"),
    })
}

pub fn open<'a>(folder: &'a JobFolder, shop: &'a Workshop) -> Job<'a> {
    let mut problems = Problems::default();
    let job = Job::open(folder, shop, &mut problems);
    assert!(!problems.has_errors(), "{}", lines(&problems.into_sorted()));
    job.unwrap()
}

pub fn photos(job: &Job<'_>, means: &Means<'_>) -> Vec<NamedPhoto> {
    let mut problems = Problems::default();
    let photos = job.photos(means, &mut problems).unwrap();
    assert!(!problems.has_errors(), "{}", lines(&problems.into_sorted()));
    photos
}

pub fn assess(job: Job<'_>, photos: Vec<NamedPhoto>) -> Assessed<'_> {
    let mut problems = Problems::default();
    let ready = job.assess(photos, &mut problems).unwrap();
    ready.unwrap_or_else(|| panic!("{}", lines(&problems.into_sorted())))
}

/// Sets the papers that are due and writes them as PDF: layout and export.
fn papers(ready: &Assessed<'_>) -> Vec<Document> {
    ready.papers(&Wanted::Papers(Asked::from(Choice::Due))).unwrap_or_else(stop)
}
