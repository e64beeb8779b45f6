//! The two tables: every stage of a folder of jobs, and layout and export alone.

use std::collections::BTreeMap;
use std::path::Path;
use std::time::{Duration, Instant};

use hayro_syntax::Pdf;
use splitcase::diagnostic::{Diagnostic, Problems};
use splitcase::document::papers::asked::Asked;
use splitcase::document::papers::choice::Choice;
use splitcase::document::{Document, Refusal};
use splitcase::intake::{self, JobFolder};
use splitcase::job::{Assessed, Job, Means, Wanted};
use splitcase::photo::{NamedPhoto, PixelBudget};
use splitcase::workers;
use splitcase::workshop::{self, Workshop, WorkshopRefusal};

use crate::clock::{Spent, ms, timed};

/// Photos of a report in the second table, at most.
const PHOTOS: usize = 6;
/// How often each report is set on each number of workers.
const ROUNDS: usize = 9;

/// Takes every job below a folder through all stages and prints what each stage took of a job.
pub fn run(folder: &Path, workers: usize) {
    let shop = shop_of(folder);
    let (jobs, _) = intake::find_jobs(folder).unwrap();
    let budget = PixelBudget::default();
    let means = Means { threads: 1, budget: &budget };
    let per_job = workers::map_jobs(workers, jobs.len(), |at| {
        let folder = intake::open(&jobs[at]).unwrap();
        let (job, sheet) = timed(|| open(&folder, &shop));
        let (photos, photo) = timed(|| photos(&job, &means));
        let (ready, assessment) = timed(|| assess(job, photos));
        let (_, press) = timed(|| report(&ready));
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

/// Sets the report of every job below a folder again and again and prints what one took.
///
/// The jobs take turns, so that a report finds in the caches what a run would have left there from
/// other jobs, and nothing of itself.
pub fn warm(folder: &Path) {
    let shop = shop_of(folder);
    let (jobs, _) = intake::find_jobs(folder).unwrap();
    assert!(4 < jobs.len(), "fewer than 5 jobs would meet themselves in the caches");
    let budget = PixelBudget::default();
    let means = Means { threads: 1, budget: &budget };
    let folders: Vec<JobFolder> = jobs.iter().map(|job| intake::open(job).unwrap()).collect();
    let ready: Vec<(String, Assessed<'_>)> = folders
        .iter()
        .map(|folder| {
            let job = open(folder, &shop);
            let number = job.sheet.fields.job.0.clone();
            let mut photos = photos(&job, &means);
            photos.truncate(PHOTOS);
            (number, assess(job, photos))
        })
        .collect();

    let on = |workers| {
        let start = Instant::now();
        let n = ready.len() * ROUNDS;
        let spent =
            workers::map_jobs(workers, n, |at| timed(|| report(&ready[at % ready.len()].1)).1);
        let mut of_job: BTreeMap<usize, Vec<Duration>> = BTreeMap::new();
        // The first round warms up.
        for (at, one) in spent.iter().enumerate().skip(ready.len()) {
            of_job.entry(at % ready.len()).or_default().push(one.processor);
        }
        let medians: Vec<f64> = of_job.into_values().map(|times| ms(median(times))).collect();
        (medians, ms(start.elapsed()) / n as f64)
    };
    let (alone, wall_alone) = on(1);
    let (together, wall_together) = on(2);
    println!(
        "{:18}  {:>6}  {:>13}  {:>13}  {:>6}  {:>9}",
        "report of", "photos", "ms, 1 worker", "ms, 2 workers", "pages", "ms a page"
    );
    for (at, (job, one)) in ready.iter().enumerate() {
        // Two workers that have a core each make two reports in the time of one.
        let (alone, together) = (alone[at], together[at] / 2.0);
        let photos = one.photos.len();
        let pages = pages(&report(one));
        let a_page = alone / pages as f64;
        println!("{job:18}  {photos:6}  {alone:13.1}  {together:13.1}  {pages:6}  {a_page:9.1}");
    }
    println!("{:18}  {:>6}  {wall_alone:13.1}  {wall_together:13.1}", "all, by the wall", "");
}

/// The workshop of the jobs below a folder.
fn shop_of(jobs: &Path) -> Workshop {
    let profile = intake::find_profile(jobs).unwrap();
    workshop::open(&profile).unwrap_or_else(|refusal| match refusal {
        WorkshopRefusal::Problems(problems) => panic!("{}", lines(&problems)),
        WorkshopRefusal::Failure(failure) => panic!("{failure}"),
    })
}

fn open<'a>(folder: &'a JobFolder, shop: &'a Workshop) -> Job<'a> {
    let mut problems = Problems::default();
    let job = Job::open(folder, shop, &mut problems);
    assert!(!problems.has_errors(), "{}", lines(&problems.into_sorted()));
    job.unwrap()
}

fn photos(job: &Job<'_>, means: &Means<'_>) -> Vec<NamedPhoto> {
    let mut problems = Problems::default();
    let photos = job.photos(means, &mut problems).unwrap();
    assert!(!problems.has_errors(), "{}", lines(&problems.into_sorted()));
    photos
}

fn assess(job: Job<'_>, photos: Vec<NamedPhoto>) -> Assessed<'_> {
    let mut problems = Problems::default();
    let ready = job.assess(photos, &mut problems).unwrap();
    ready.unwrap_or_else(|| panic!("{}", lines(&problems.into_sorted())))
}

/// Pages of finished papers.
fn pages(papers: &[Document]) -> usize {
    papers.iter().map(|paper| Pdf::new(paper.pdf.clone()).unwrap().pages().len()).sum()
}

/// Sets the report and writes it as PDF: layout and export.
fn report(ready: &Assessed<'_>) -> Vec<Document> {
    let asked = Asked::from(Choice::Named(vec!["return-report".to_owned()]));
    ready.papers(&Wanted::Papers(asked)).unwrap_or_else(|refusal| match refusal {
        Refusal::Problems(problems) => panic!("{}", lines(&problems)),
        Refusal::Failure(failure) => panic!("{failure}"),
    })
}

fn lines(problems: &[Diagnostic]) -> String {
    let lines = problems.iter().map(|one| format!("{}: {}", one.place.source.name(), one.message));
    lines.collect::<Vec<_>>().join("\n")
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times[times.len() / 2]
}
