//! The scores of signs held against the causes that closed jobs state, and rows that would fit those better.
//!
//! In: what was seen in each job, its stated cause, the scores in force; out: [`Compared`]. Nothing is applied:
//! a row goes into force when somebody writes it into the profile.
//!
//! A score stands for a span of likelihood ratios: the bounds are those by which a test's result is called small
//! or moderate (Jaeschke, Guyatt and Sackett, JAMA 271, 1994); that they meet our scores is judgement. A row is
//! proposed if the whole interval lies outside the span of the score in force, and then the nearest score that
//! the interval reaches: no further than the jobs force it.

use std::collections::BTreeMap;

use serde::Serialize;

use super::likelihood::{Counts, Likelihood};
use super::share::FEWEST_JOBS;
use crate::assessment::cause;
use crate::assessment::cause::evidence::Evidence;
use crate::assessment::cause::scores::{HouseScore, RootCause, Scale, row_of};
use crate::sheet::catalogue::{SIGNS, Sign};

/// From which ratio on a score is at least -1, 0, 1, 2.
const BOUNDS: [f64; 4] = [0.2, 0.5, 2.0, 5.0];

/// A job that was opened and whose cause is known.
#[derive(Clone, Debug)]
pub struct Observed {
    /// What was seen, looked for, noticed.
    pub evidence: Evidence,
    /// The cause that the technician states.
    pub cause: RootCause,
}

/// All of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Compared {
    /// Jobs with a known cause.
    pub jobs: usize,
    /// Those in which the scores in force lead to that cause.
    pub agreed: usize,
    /// Those in which they would with rows that are learnt from all other jobs.
    pub would_agree: usize,
    /// Pairs of sign and cause with enough jobs to compare.
    pub pairs: usize,
    /// Rows that would change, in the order of the table.
    pub rows: Vec<Row>,
}

/// A score that would change.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Row {
    /// The sign, as typed in a sheet.
    pub sign: &'static str,
    /// The cause: a word of the sheet.
    pub cause: &'static str,
    /// The score in force.
    pub score: i32,
    /// True if that is the workshop's own.
    pub is_own: bool,
    /// The score that the jobs speak for.
    pub proposed: i32,
    /// The jobs that it rests on.
    pub counts: Counts,
    /// How many times as often it is seen with the cause.
    pub likelihood: Likelihood,
}

/// Compares the scores in force with closed jobs.
pub fn compare(jobs: &[Observed], house: &[HouseScore]) -> Compared {
    let mut tally = Tally::default();
    for job in jobs {
        tally.add(job);
    }
    let (pairs, rows) = tally.rows(house);
    let leads_to = |job: &Observed, house: &[HouseScore]| {
        cause::judge(&job.evidence, None, house).verdict.main == job.cause.kind()
    };
    let agreed = jobs.iter().filter(|job| leads_to(job, house)).count();
    let would_agree = jobs.iter().filter(|job| {
        tally.take_away(job);
        let learnt = tally.rows(house).1;
        tally.add(job);
        leads_to(job, &with_rows(house, &learnt))
    });
    Compared { jobs: jobs.len(), agreed, would_agree: would_agree.count(), pairs, rows }
}

/// The scores in force with rows in place of some.
fn with_rows(house: &[HouseScore], rows: &[Row]) -> Vec<HouseScore> {
    let learnt = rows.iter().filter_map(|row| {
        let sign = SIGNS.iter().map(Sign).find(|sign| sign.name() == row.sign)?;
        let fault = RootCause::ALL.into_iter().find(|fault| fault.kind().word() == row.cause)?;
        Some(HouseScore { sign, fault, score: row.proposed as i8 })
    });
    house.iter().copied().chain(learnt).collect()
}

/// How often each sign was seen with each cause.
#[derive(Default)]
struct Tally {
    /// Jobs by cause.
    jobs: [usize; RootCause::ALL.len()],
    /// By the sign's place in the table: jobs in which it was seen, by cause.
    seen: BTreeMap<usize, [usize; RootCause::ALL.len()]>,
}

impl Tally {
    fn add(&mut self, job: &Observed) {
        self.change(job, |count| *count += 1);
    }

    fn take_away(&mut self, job: &Observed) {
        self.change(job, |count| *count -= 1);
    }

    fn change(&mut self, job: &Observed, change: fn(&mut usize)) {
        let cause = job.cause as usize;
        change(&mut self.jobs[cause]);
        let mut signs: Vec<usize> =
            job.evidence.seen.iter().map(|(sign, _)| row_of(*sign)).collect();
        signs.sort_unstable();
        signs.dedup();
        for sign in signs {
            change(&mut self.seen.entry(sign).or_default()[cause]);
        }
    }

    fn counts(&self, seen: &[usize; RootCause::ALL.len()], fault: RootCause) -> Counts {
        let (with, seen_with) = (self.jobs[fault as usize], seen[fault as usize]);
        let without = self.jobs.iter().sum::<usize>() - with;
        Counts { seen_with, with, seen_without: seen.iter().sum::<usize>() - seen_with, without }
    }

    /// How many pairs have enough jobs, and the rows that would change.
    fn rows(&self, house: &[HouseScore]) -> (usize, Vec<Row>) {
        let scale = Scale { house };
        let (mut pairs, mut rows) = (0, Vec::new());
        for (place, seen) in &self.seen {
            let Some(sign) = SIGNS.get(*place).map(Sign) else { continue };
            // Its score depends on water: one score for both would be wrong in one of them.
            if sign.0.if_wet.is_some() || seen.iter().sum::<usize>() < FEWEST_JOBS {
                continue;
            }
            for fault in RootCause::ALL {
                let counts = self.counts(seen, fault);
                let likelihood = match Likelihood::of(counts) {
                    Some(likelihood) if FEWEST_JOBS <= counts.with.min(counts.without) => {
                        likelihood
                    }
                    _ => continue,
                };
                pairs += 1;
                let score = scale.score(sign, fault);
                let proposed = score.clamp(score_of(likelihood.low), score_of(likelihood.high));
                if proposed != score {
                    let (sign, cause) = (sign.name(), fault.kind().word());
                    let is_own =
                        house.iter().any(|own| own.sign.name() == sign && own.fault == fault);
                    rows.push(Row { sign, cause, score, is_own, proposed, counts, likelihood });
                }
            }
        }
        (pairs, rows)
    }
}

/// The rows as they would stand in a profile, each below what it rests on; nothing reads them there.
pub fn proposal(compared: &Compared) -> String {
    let text = format!(
        "# Scores that would fit {} closed jobs better. Nothing reads this file: what you agree\n\
         # with goes into `workshop.yaml`.\n",
        compared.jobs
    );
    if compared.rows.is_empty() {
        return text + "scores: []\n";
    }
    let rows = compared.rows.iter().map(|row| {
        let Row { sign, cause, score, proposed, .. } = row;
        format!("  # {score} now: {}\n  - {{sign: {sign}, {cause}: {proposed}}}\n", row.evidence())
    });
    text + "scores:\n" + &rows.collect::<Vec<_>>().concat()
}

impl Row {
    /// What it rests on, in words.
    pub fn evidence(&self) -> String {
        let Counts { seen_with, with, seen_without, without } = self.counts;
        let (ratio, interval) = (self.ratio(), self.interval());
        format!(
            "seen in {seen_with} of {with} such jobs and in {seen_without} of {without} others, {ratio} times as \
             often ({interval})"
        )
    }

    /// How many times as often it is seen with the cause.
    pub fn ratio(&self) -> String {
        times(self.likelihood.ratio)
    }

    /// The interval of that.
    pub fn interval(&self) -> String {
        format!("{} to {}", times(self.likelihood.low), times(self.likelihood.high))
    }
}

/// `0.31`, `4.2`, `17`: two digits that count.
fn times(ratio: f64) -> String {
    let digits = if ratio < 0.995 { 2 } else { usize::from(ratio < 9.95) };
    format!("{ratio:.digits$}")
}

/// The score whose span a ratio lies in.
fn score_of(ratio: f64) -> i32 {
    BOUNDS.iter().filter(|bound| **bound <= ratio).count() as i32 - 2
}
