//! What the sentences may speak of: a job in plain values and plain names, for minijinja.
//!
//! In: fields, profile, assessment, words; out: [`JobFacts`]. Which of these a sentence may assert is
//! decided by the facts of `known` and the table of clauses, never by a sentence itself.

mod derived;
mod known;
mod ride;
pub mod signs;

use chrono::Months;
use serde::Serialize;

use super::clauses::Facts;
use super::format;
use super::wording::Wording;
use crate::assessment::Assessment;
use crate::assessment::care::state::Hazard;
use crate::sheet::catalogue::{OTHER, Sign};
use crate::sheet::findings::{Finding, FindingsSheet};
use crate::sheet::profile::Profile;
use crate::sheet::vocabulary::{Action, Condition};
use derived::{dangers, outside_lines, shown_by, unfit, worst};

pub use derived::{by_weight, is_work_done};

/// One part of a job.
#[derive(Clone, Debug, Serialize)]
pub struct PartFacts {
    /// Its plain name.
    plain: String,
    /// What it does, as half a sentence.
    gloss: String,
    /// What happened to it: `failed`, `had worn`.
    happened: String,
    /// Signs that its heading does not say.
    more_signs: Vec<String>,
    /// What licenses its sentences, beside the facts of the job.
    #[serde(skip)]
    pub(super) known: Facts,
}

/// Names of parts by condition or by what was done, each once.
#[derive(Debug, Serialize)]
struct Names {
    failed: Vec<String>,
    damaged: Vec<String>,
    worn: Vec<String>,
    missing: Vec<String>,
    sound: Vec<String>,
    not_examined: Vec<String>,
    replaced: Vec<String>,
    repaired: Vec<String>,
    cleaned: Vec<String>,
    added: Vec<String>,
    resealed: Vec<String>,
    coated: Vec<String>,
    tested: Vec<String>,
}

/// A job as sentences see it.
#[derive(Debug, Serialize)]
pub struct JobFacts {
    /// What holds of the job: the licences of its sentences.
    #[serde(skip)]
    pub(super) known: Facts,
    complaint: Option<String>,
    /// What the rider noticed first, in plain words.
    noticed: Option<String>,
    noticed_on: Option<String>,
    noticed_at: Option<String>,
    /// The same with a comma before it, or nothing.
    noticed_at_too: String,
    /// The distance at arrival with a comma before it, or nothing.
    ridden_too: String,
    arrival_codes: Option<String>,
    arrival_signs: Vec<String>,
    arrived_on: String,
    opened_on: Option<String>,
    water: Option<String>,
    /// What was gone before it was opened, as typed.
    evidence_lost: Option<String>,
    /// The stated cause, as the subject of a sentence and as a short answer.
    cause_as_subject: Option<String>,
    cause_name: Option<String>,
    /// Where a mechanical or electrical fault comes from, as stated.
    origin: Option<String>,
    /// Signs that speak for the stated cause, the strongest first.
    shown_by: Vec<String>,
    /// The part past which water came in.
    way_in: Option<String>,
    /// What of the bike's behaviour points to or past the unit, in plain words.
    triage_by: Vec<String>,
    /// Open dangers that forbid to ride, in plain words.
    safety: Vec<String>,
    /// Open dangers of the battery, in plain words.
    battery_dangers: Vec<String>,
    /// Parts that failed or are missing and without which it cannot be ridden, each with which.
    unfit: Vec<String>,
    /// What was measured outside its limit as left, in plain words.
    outside: Vec<String>,
    /// Damage beside a unit that ran without a fault, in plain words.
    beside: Vec<String>,
    worst: Option<PartFacts>,
    names: Names,
    n_sound: usize,
    n_examined: usize,
    ride: Option<ride::RideFacts>,
    exchange_model: Option<String>,
    guaranteed_to: Option<String>,
}

impl JobFacts {
    /// Water that came out, as printed.
    pub fn water(&self) -> Option<&str> {
        self.water.as_deref()
    }

    /// Until when parts and work are guaranteed, where they are.
    pub fn guaranteed_to(&self) -> Option<&str> {
        self.guaranteed_to.as_deref()
    }
}

/// Gathers what sentences may speak of.
pub fn of(
    fields: &FindingsSheet,
    profile: &Profile,
    assessment: &Assessment,
    wording: &Wording,
) -> JobFacts {
    let findings = fields.strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
    let units = profile.units.unwrap_or_default();
    let arrival = &fields.arrival;
    let noticed = arrival.first_noticed.as_ref();
    let day = |date: crate::sheet::date::Date| format::day(date.0, wording);
    let way = |way: &crate::sheet::quantity::Distance| format::distance(&way.0, units, wording);
    let noticed_at = noticed.and_then(|noticed| noticed.at.as_ref()).map(way);
    let after_comma =
        |text: Option<&String>| text.map_or(String::new(), |text| format!(", {text}"));
    let ridden = fields.unit.mileage.as_ref().map(way);
    let returned = fields.returned.as_ref().map(|date| date.0);
    let after =
        |months: u32| returned.and_then(|date| date.checked_add_months(Months::new(months)));
    let guarantee = profile.guarantee.as_ref().filter(|_| is_work_done(fields));
    let plain = |finding: &Finding| wording.part_of(finding).to_owned();
    let signs = |list: &[Sign]| -> Vec<String> {
        list.iter().map(|sign| wording.sign(sign.name(), "plain").to_owned()).collect()
    };
    let names = names(findings, wording);
    let main = fields.cause.as_ref().map(|cause| cause.main.word());
    let codes = arrival.bike_check.as_ref().and_then(|check| check.error_codes.as_ref());
    JobFacts {
        known: known::known(fields, assessment),
        complaint: arrival.complaint.as_ref().map(|text| text.0.clone()),
        noticed: noticed
            .map(|noticed| wording.choice("noticed-signs", noticed.sign.word()).to_owned()),
        noticed_on: noticed.and_then(|noticed| noticed.date.as_ref()).map(|date| day(date.value)),
        noticed_at_too: after_comma(noticed_at.as_ref()),
        noticed_at,
        ridden_too: after_comma(ridden.as_ref()),
        arrival_codes: codes.map(|codes| codes.0.clone()),
        arrival_signs: wording.signs_of(&arrival.signs),
        arrived_on: day(arrival.date.value),
        opened_on: fields.strip_down.as_ref().map(|strip| day(strip.date.value)),
        water: arrival.water.as_ref().map(|water| format::quantity(&water.0, wording)),
        evidence_lost: fields
            .strip_down
            .as_ref()
            .and_then(|strip| strip.evidence_lost.as_ref())
            .map(|text| text.0.clone()),
        cause_as_subject: main.map(|main| wording.choice("causes-as-subject", main).to_owned()),
        cause_name: main.map(|main| wording.choice("causes", main).to_owned()),
        origin: fields
            .cause
            .as_ref()
            .and_then(|cause| cause.origin.as_ref())
            .map(|origin| wording.choice("cause-origins", origin.word()).to_owned()),
        shown_by: signs(&shown_by(fields, assessment)),
        way_in: signs::way_in(findings).map(plain),
        triage_by: assessment
            .triage
            .iter()
            .flat_map(|triage| &triage.points)
            .map(|(told, _)| wording.choice("triage-by", told.word()).to_owned())
            .collect(),
        safety: signs(&dangers(assessment, Hazard::Ride)),
        battery_dangers: signs(&dangers(assessment, Hazard::Battery)),
        unfit: unfit(findings)
            .into_iter()
            .map(|one| {
                let condition = wording.choice("conditions", one.condition.word());
                format!("{} ({condition})", wording.part_of(one))
            })
            .collect(),
        outside: outside(assessment, wording),
        beside: signs(&assessment.weighing.beside_no_fault),
        worst: worst(fields, findings).map(|finding| part(finding, wording)),
        n_sound: names.sound.len(),
        n_examined: names_of(findings, wording, |one| one.condition != Condition::NotExamined)
            .len(),
        names,
        ride: fields
            .ride
            .as_ref()
            .map(|typed| ride::of(typed, assessment.ride.as_ref(), units, wording)),
        exchange_model: fields
            .exchange
            .as_ref()
            .and_then(|unit| unit.model.as_ref())
            .map(|text| text.0.clone()),
        guaranteed_to: guarantee
            .and_then(|terms| after(terms.months.0))
            .map(|date| format::day(date, wording)),
    }
}

/// Their names, each once.
fn outside(assessment: &Assessment, wording: &Wording) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for line in outside_lines(assessment) {
        let name = wording.measure_of(line);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// A part and what licenses its sentences. Its heading says its first sign.
pub(super) fn part(finding: &Finding, wording: &Wording) -> PartFacts {
    use super::clauses::fact::Fact;
    // Nobody knows what a part does that the catalogue lacks.
    let is_known = finding.part.name() != OTHER;
    let gloss = if is_known { wording.part(finding.part.name(), "gloss") } else { "" };
    let said = usize::from(finding.heading.is_none());
    let more_signs: Vec<String> = wording.signs_of(&finding.signs).into_iter().skip(said).collect();
    let mut known = Facts::from([match finding.condition {
        Condition::Sound => Fact::PartSound,
        Condition::Worn => Fact::PartWorn,
        Condition::Damaged => Fact::PartDamaged,
        Condition::Failed => Fact::PartFailed,
        Condition::Missing => Fact::PartMissing,
        Condition::NotExamined => Fact::PartNotExamined,
    }]);
    if !more_signs.is_empty() {
        known.insert(Fact::PartSignsBesideHeading);
    }
    if !gloss.is_empty() {
        known.insert(Fact::PartGlossed);
    }
    PartFacts {
        plain: wording.part_of(finding).to_owned(),
        gloss: gloss.to_owned(),
        happened: wording.choice("conditions-happened", finding.condition.word()).to_owned(),
        more_signs,
        known,
    }
}

/// The parts of findings of a kind, each name once, in the order of the sheet.
fn names_of(
    findings: &[Finding],
    wording: &Wording,
    is_one: impl Fn(&Finding) -> bool,
) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for finding in findings.iter().filter(|finding| is_one(finding)) {
        let name = wording.part_of(finding);
        if !names.iter().any(|known| known == name) {
            names.push(name.to_owned());
        }
    }
    names
}

fn names(findings: &[Finding], wording: &Wording) -> Names {
    let found = |condition| names_of(findings, wording, |one| one.condition == condition);
    let done = |action| names_of(findings, wording, |one| one.action == Some(action));
    Names {
        failed: found(Condition::Failed),
        damaged: found(Condition::Damaged),
        worn: found(Condition::Worn),
        missing: found(Condition::Missing),
        sound: found(Condition::Sound),
        not_examined: found(Condition::NotExamined),
        replaced: done(Action::Replaced),
        repaired: done(Action::Repaired),
        cleaned: done(Action::Cleaned),
        added: done(Action::Added),
        resealed: done(Action::Resealed),
        coated: done(Action::Coated),
        tested: done(Action::Tested),
    }
}
