//! `overview`: what the closed jobs of folders or of an archive say together, as PDF, JSON and CSV.
//!
//! In: typed arguments; out: how the run ended. What is learnt is `overview`'s.

use std::path::{Path, PathBuf};

use serde_json::json;

use crate::archive::holdings;
use crate::archive::layout::DATA;
use crate::assessment;
use crate::cli::survey::Overview;
use crate::console::{Console, RunOutcome};
use crate::diagnostic::print;
use crate::digest::Digest;
use crate::document::material::Cover;
use crate::document::press::Press;
use crate::document::templates::Templates;
use crate::document::{self, Companion, Document, Refusal};
use crate::failure::Failure;
use crate::intake::{self, find};
use crate::output::{self, Made, OutputFolder};
use crate::overview::{self, learned, paper, table};
use crate::sheet::text::Language;
use crate::standing::sheets::Sheets;

/// The word for this kind of papers in the record of an output folder.
const KIND: &str = "overview";

pub(super) fn run(
    arguments: &Overview,
    cores: usize,
    console: &Console,
) -> Result<RunOutcome, Failure> {
    let (folders, failures) = folders(&arguments.jobs)?;
    let sheets = Sheets::of(&folders);
    let house = sheets.first_profile().map(|profile| assessment::house_scores(&profile.fields));
    let scores = arguments.scores.then(|| house.unwrap_or_default());
    let overview = overview::of(&folders, &sheets, scores.as_deref(), cores);
    if overview.jobs.closed == 0 {
        let cause = "no job in it is closed: a job is closed by its `outcome`";
        return Err(Failure::new("look over the jobs", cause));
    }
    intake::refuse_sealed(&arguments.out)?;
    let document = document(&overview, &sheets)?;
    output::make_folder(&arguments.out)?;
    let folder = OutputFolder::beside(&arguments.out, KIND);
    let inputs = Digest::of(&document.pdf).hex();
    let made = Made { inputs, warnings: 0, photos: &[], progress: None };
    let path = folder.path(&document.name).display().to_string();
    folder.write_papers(&[document], made)?;
    for failure in &failures {
        console.fail("", failure);
    }
    let jobs = &overview.jobs;
    let (closed, open, unread) = (jobs.closed, jobs.open, jobs.unread);
    let said = format!("{path}: {closed} closed, {open} open, {unread} not readable");
    console.tell(&said, || json!({ "file": path }))?;
    Ok(if failures.is_empty() { RunOutcome::AllGood } else { RunOutcome::SomeRefused })
}

/// The job folders below the paths; of an archive the newest bag of each job.
fn folders(paths: &[PathBuf]) -> Result<(Vec<PathBuf>, Vec<Failure>), Failure> {
    let (mut folders, mut failures) = (Vec::new(), Vec::new());
    for path in paths {
        let bags = holdings::newest_bags(path);
        if !bags.is_empty() {
            folders.extend(bags.into_iter().map(|(_, bag)| bag.join(DATA)));
            continue;
        }
        let (found, unread) = find::find_jobs(path)?;
        folders.extend(found);
        failures.extend(unread);
    }
    find::keep_each_once(&mut folders);
    if folders.is_empty() {
        let first = paths.first().map_or(Path::new("."), PathBuf::as_path);
        let cause = format!("there is no `{}` in it or below it", intake::SHEET);
        return Err(Failure::on("find a job in", first, cause));
    }
    Ok((folders, failures))
}

/// The PDF with its JSON in it and beside it, and the tables.
fn document(overview: &learned::Overview, sheets: &Sheets) -> Result<Document, Failure> {
    let workshop = sheets.first_profile().ok_or_else(|| {
        let cause = format!("no `{}` above the jobs can be used", intake::PROFILE);
        Failure::new("look over the jobs", cause)
    })?;
    let press = Press::new(Templates::built_in())?;
    let json = table::json(overview)?;
    let digest = Digest::of(json.as_bytes());
    let cover = Cover {
        job: KIND,
        language: Language("en".into()),
        day: overview.jobs.to.unwrap_or_default(),
        workshop,
        photos: &[],
        manifest: &json,
        issued: None,
        digest,
        logo: None,
    };
    let told = |refusal: Refusal| match refusal {
        Refusal::Failure(failure) => failure,
        Refusal::Problems(found) => {
            let said: Vec<String> = found.iter().map(print::drawn).collect();
            Failure::new("set the overview", said.join("\n"))
        }
    };
    let wording = press.wording("en", cover.region()).map_err(|found| told(found.into()))?;
    let view = paper::view(overview, &cover, &wording);
    let scores = overview.scores.as_ref().map(table::scores).transpose()?;
    let files = table::csvs(overview)?.into_iter().chain(scores.into_iter().flatten());
    let files = files.map(|(name, text)| (name.to_owned(), text));
    let files = files.chain([("overview.json".to_owned(), json.clone())]);
    let beside = files.map(|(name, text)| Companion { name, bytes: text.into_bytes() });
    document::overview(&press, &cover, &view, beside.collect()).map_err(told)
}
