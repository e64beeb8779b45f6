//! The two tables: every stage of a folder of jobs, and layout and export alone.

use std::collections::BTreeMap;
use std::path::Path;
use std::time::{Duration, Instant};

use splitcase::intake;
use splitcase::photo::PixelBudget;

use crate::clock::{Spent, ms, timed};
use crate::desk::{Desk, Gathered, shop_of};
use crate::hall::share;

/// Photos of a report in the second table, at most.
const PHOTOS: usize = 6;
/// How often each report is set on each number of workers.
const ROUNDS: usize = 9;

/// Takes every job below a folder through all stages and prints what each stage took of a job.
pub fn run(folder: &Path, workers: usize) {
    let shop = shop_of(folder);
    let (jobs, _) = intake::find_jobs(folder).unwrap();
    let budget = PixelBudget::default();
    let per_job = share(workers, jobs.len(), |at| {
        let (desk, sheet) = timed(|| Desk::open(&jobs[at], &shop));
        let (photos, photo) = timed(|| desk.photos(usize::MAX, &budget));
        let (gathered, assessment) = timed(|| desk.gather(&shop, photos));
        let (_, press) = timed(|| gathered.report(&shop));
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
    let desks: Vec<Desk> = jobs.iter().map(|job| Desk::open(job, &shop)).collect();
    let ready: Vec<Gathered<'_>> =
        desks.iter().map(|desk| desk.gather(&shop, desk.photos(PHOTOS, &budget))).collect();

    let on = |workers| {
        let start = Instant::now();
        let n = ready.len() * ROUNDS;
        let spent = share(workers, n, |at| timed(|| ready[at % ready.len()].report(&shop)).1);
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
        "{:18}  {:>6}  {:>13}  {:>13}",
        "report of", "photos", "ms, 1 worker", "ms, 2 workers"
    );
    for (at, one) in ready.iter().enumerate() {
        // Two workers that have a core each make two reports in the time of one.
        let (alone, together) = (alone[at], together[at] / 2.0);
        let (job, photos) = (one.desk.job(), one.photos.len());
        println!("{job:18}  {photos:6}  {alone:13.1}  {together:13.1}");
    }
    println!("{:18}  {:>6}  {wall_alone:13.1}  {wall_together:13.1}", "all, by the wall", "");
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times[times.len() / 2]
}
