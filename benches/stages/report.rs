//! Layout and export of warm reports, apart: what a page takes, how often its layout is set, how many
//! calls of template code it makes; and the files of a report, for whoever sets it by other means.
//!
//! The jobs take turns, so that a report finds in the caches what a run would have left there from other
//! jobs, and nothing of itself.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use splitcase::diagnostic::Diagnostic;
use splitcase::diagnostic::source::SourceText;
use splitcase::document::order::Order;
use splitcase::document::papers::asked::Asked;
use splitcase::document::papers::choice::Choice;
use splitcase::document::press::{self, Press};
use splitcase::document::templates::Templates;
use splitcase::document::{self, Refusal};
use splitcase::intake;
use splitcase::job::Means;
use splitcase::photo::PixelBudget;
use splitcase::workers;

use crate::clock::{ms, timed};
use crate::tables;

/// Photos of a report, at most.
const PHOTOS: usize = 6;
/// How often each report is set on each number of workers; the first time warms up.
const ROUNDS: usize = 16;

/// A report that is ready to be set.
struct Ready {
    job: String,
    photos: usize,
    order: Order,
}

/// Sets the report of every job below a folder again and again and prints what one took; with layouts of
/// a folder in place of those built in, if there is one, so that a layout can be tried.
pub fn warm(folder: &Path, layouts: Option<&Path>) {
    let press = Press::new(layouts.map_or_else(Templates::built_in, templates)).unwrap();
    let ready = ready(folder, &press);
    assert!(4 < ready.len(), "fewer than 5 jobs would meet themselves in the caches");
    let (alone, _) = on(1, &ready, &press);
    let (_, together) = on(2, &ready, &press);
    println!(
        "{:18}  {:>6}  {:>5}  {:>6}  {:>5}  {:>9}  {:>9}  {:>9}",
        "report of", "photos", "pages", "passes", "calls", "layout ms", "export ms", "ms a page"
    );
    for (one, (layout, export)) in ready.iter().zip(alone) {
        let (pages, passes, calls) = counted(one, &press);
        let a_page = (layout + export) / pages as f64;
        println!(
            "{:18}  {:6}  {pages:5}  {passes:6}  {calls:5}  {layout:9.1}  {export:9.1}  {a_page:9.1}",
            one.job, one.photos
        );
    }
    println!("{:18}  {:6}  {:5}  {together:9.1}", "2 workers, by the wall, ms a report", "", "");
}

/// The templates built in with the layouts below a folder in their place.
fn templates(layouts: &Path) -> Templates {
    let below = |entry: &fs::DirEntry| entry.path().strip_prefix(layouts).unwrap().to_owned();
    let mut own = Vec::new();
    let mut folders = vec![layouts.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
            let path = below(&entry).to_str().unwrap().to_owned();
            match entry.file_type().unwrap().is_dir() {
                true => folders.push(entry.path()),
                false if Path::new(&path).extension().is_some_and(|ending| ending == "typ") => {
                    let text = fs::read_to_string(entry.path()).unwrap();
                    own.push((path.clone(), SourceText::new(path, text)));
                }
                false => {}
            }
        }
    }
    Templates::with_house(own)
}

/// Milliseconds of layout and export of each report, and by the wall of all, on a number of workers.
fn on(workers: usize, ready: &[Ready], press: &Press) -> (Vec<(f64, f64)>, f64) {
    let n = ready.len() * ROUNDS;
    let warm = ready.len();
    let set = |at: usize| {
        let order = &ready[at % ready.len()].order;
        let (pages, layout) = timed(|| order.pages(press).unwrap_or_else(stop));
        let (_, export) = timed(|| order.pdf(press, &pages).unwrap_or_else(stop));
        (layout.processor, export.processor)
    };
    workers::map_jobs(workers, warm, set);
    let start = Instant::now();
    let spent = workers::map_jobs(workers, n, set);
    let wall = ms(start.elapsed()) / n as f64;
    let of = |job: usize| {
        let (layout, export) = spent.iter().skip(job).step_by(ready.len()).copied().unzip();
        (ms(median(layout)), ms(median(export)))
    };
    ((0..ready.len()).map(of).collect(), wall)
}

/// Pages of a report, how often its layout is set, calls of template code.
fn counted(one: &Ready, press: &Press) -> (usize, usize, usize) {
    let counted = workers::map_jobs(1, 1, |_| {
        typst_timing::clear();
        typst_timing::enable();
        let pages = one.order.pages(press).unwrap_or_else(stop);
        typst_timing::disable();
        let mut events = Vec::new();
        typst_timing::export_json(&mut events, |_| (String::new(), 0)).unwrap();
        let events: Vec<serde_json::Value> = serde_json::from_slice(&events).unwrap();
        let n = |name: &str| {
            events.iter().filter(|one| one["name"] == name && one["ph"] == "B").count()
        };
        (pages.pages().len(), n("layout document"), n("func call"))
    });
    counted[0]
}

/// The report of every job below a folder.
fn ready(folder: &Path, press: &Press) -> Vec<Ready> {
    let shop = tables::shop_of(folder);
    let (jobs, _) = intake::find::find_jobs(folder).unwrap();
    let budget = PixelBudget::default();
    let means = Means { threads: 1, budget: &budget };
    let asked = Asked::from(Choice::Named(vec!["return-report".to_owned()]));
    let of = |job: &PathBuf| {
        let folder = intake::open(job).unwrap();
        let job = tables::open(&folder, &shop);
        let number = job.sheet.fields.job.0.clone();
        let mut photos = tables::photos(&job, &means);
        photos.truncate(PHOTOS);
        let n = photos.len();
        let job = tables::assess(job, photos);
        let order = document::orders(press, &job.material(), &asked).ok()?.pop()?;
        Some(Ready { job: number, photos: n, order })
    };
    // A job that is not closed has no report yet.
    jobs.iter().filter_map(of).collect()
}

/// Writes what the report of a job is set from: data, photos, attachments, layouts, the file to begin with.
pub fn content(job: &Path, to: &Path) {
    let shop = tables::shop_of(job);
    let one = ready(job, &shop.press).pop().unwrap();
    let write = |path: &str, bytes: &[u8]| {
        let path = to.join(path.trim_start_matches('/'));
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    };
    one.order.files.iter().for_each(|(path, bytes)| write(path, bytes));
    for (path, source) in shop.press.templates().layouts() {
        write(&format!("templates/{path}"), source.text().as_bytes());
    }
    write("main.typ", press::main_text(&one.order.paper).as_bytes());
}

/// Ends the measurement at what is wrong.
pub fn stop<R>(refusal: Refusal) -> R {
    match refusal {
        Refusal::Problems(problems) => panic!("{}", lines(&problems)),
        Refusal::Failure(failure) => panic!("{failure}"),
    }
}

/// Problems, a line each.
pub fn lines(problems: &[Diagnostic]) -> String {
    let lines = problems.iter().map(|one| format!("{}: {}", one.place.source.name(), one.message));
    lines.collect::<Vec<_>>().join("\n")
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times[times.len() / 2]
}
