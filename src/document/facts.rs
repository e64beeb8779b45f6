//! A job in plain values and plain names, for the sentences of minijinja.
//!
//! In: fields, profile, assessment, words; out: [`JobFacts`]. Which of these a sentence may assert is
//! decided by the facts of `known` and the table of clauses, never by a sentence itself.

mod before;
mod derived;
mod known;
mod names;
mod naming;
mod readings;
mod ride;
pub mod signs;
mod told;

use chrono::Months;
use serde::Serialize;

use super::clauses::Facts;
use super::clauses::fact::Fact;
use super::format;
use super::text;
use super::units;
use super::wording::Wording;
use crate::assessment::Assessment;
use crate::assessment::care::state::Hazard;
use crate::sheet::catalogue::Sign;
use crate::sheet::findings::{Finding, FindingsSheet};
use crate::sheet::profile::Profile;
use crate::sheet::vocabulary::{Action, Condition};
use before::{Before, Given};
use derived::{dangers, outside_lines, shown_by, unfit, worst};

pub use derived::by_weight;
use derived::is_work_done;
pub use naming::Named;
pub(super) use told::story;

/// One part of a job.
#[derive(Clone, Debug, Serialize)]
pub struct PartFacts {
    /// Its plain name.
    plain: String,
    /// What it does, as half a sentence.
    gloss: String,
    /// Signs that its heading does not say.
    more_signs: Vec<String>,
    /// What licenses its sentences, beside the facts of the job.
    #[serde(skip)]
    pub(super) known: Facts,
}

/// How a unit was dried.
#[derive(Debug, Serialize)]
struct Dried {
    time: Option<String>,
    at: Option<String>,
    /// After "dried".
    how: String,
}

/// A job as sentences see it.
#[derive(Debug, Serialize)]
pub struct JobFacts {
    /// What holds of the job: the licences of its sentences.
    #[serde(skip)]
    pub(super) known: Facts,
    /// The last visit of the unit before this one.
    before: Option<Before>,
    /// The job that gave the unit out in exchange.
    given: Option<Given>,
    complaint: Option<String>,
    /// What the rider noticed first, in plain words.
    noticed: Option<String>,
    noticed_on: Option<String>,
    noticed_at: Option<String>,
    /// Days from then to the arrival.
    noticed_days: Option<usize>,
    /// The distance ridden from then to the arrival.
    ridden_since: Option<String>,
    /// The same with a comma before it, or nothing.
    noticed_at_too: String,
    /// The distance at arrival.
    ridden: Option<String>,
    /// Whole years in use.
    years_in_use: Option<usize>,
    /// The distance at arrival with a comma before it, or nothing.
    ridden_too: String,
    arrival_codes: Option<String>,
    /// Where the codes point.
    codes_point: Option<String>,
    arrival_signs: Vec<String>,
    arrived_on: String,
    /// Day by which the owner hears what was found.
    reply_by: Option<String>,
    /// The fee for looking into it, as printed.
    examination_fee: Option<String>,
    opened_on: Option<String>,
    water: Option<String>,
    /// What was gone before it was opened, as typed.
    evidence_lost: Option<String>,
    /// The stated cause, as the subject of a sentence and as a short answer.
    cause_as_subject: Option<String>,
    cause_name: Option<String>,
    /// Where a mechanical or electrical fault comes from, as stated.
    origin: Option<String>,
    /// Signs that support the stated cause, the strongest first.
    shown_by: Vec<String>,
    /// What happened to the parts, in clauses.
    told: told::Told,
    /// What was seen to have come in: mud, water.
    came_in: Vec<String>,
    /// Readings outside their limits as the unit came, in clauses.
    as_found: Vec<String>,
    /// Readings that the work made better, in clauses.
    improved: Vec<String>,
    /// How it was dried.
    dried: Option<Dried>,
    /// What of the bike's behaviour points to or past the unit, in plain words.
    triage_by: Vec<String>,
    /// Open dangers that forbid to ride, in plain words.
    safety: Vec<String>,
    /// Open dangers of the battery, in plain words.
    battery_dangers: Vec<String>,
    /// Parts that failed or are missing and without which it cannot be ridden.
    unfit: Vec<String>,
    /// What was measured outside its limit as left, in plain words.
    outside: Vec<String>,
    /// Damage beside a unit that ran without a fault, in plain words.
    beside: Vec<String>,
    worst: Option<PartFacts>,
    names: names::Names,
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

    /// Until when parts and work are guaranteed, if they are.
    pub fn guaranteed_to(&self) -> Option<&str> {
        self.guaranteed_to.as_deref()
    }
}

/// Gathers the values for sentences.
pub fn of(
    fields: &FindingsSheet,
    profile: &Profile,
    assessment: &Assessment,
    wording: &Wording,
) -> JobFacts {
    let findings = fields.strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
    let units = units::of(profile, wording);
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
    let signs = |list: &[Sign]| -> Vec<String> {
        let plain = list.iter().map(|sign| wording.sign(sign.name(), "plain").to_owned());
        few(plain.collect(), wording)
    };
    let told = told::told(findings, wording);
    let as_found = readings::as_found(fields, assessment, wording);
    let improved = readings::improved(fields, assessment, wording);
    let mut known = known::known(fields, assessment);
    known.extend(told.facts());
    known.extend((!as_found.is_empty()).then_some(Fact::ReadingOutsideAsFound));
    known.extend((!improved.is_empty()).then_some(Fact::ReadingImproved));
    let main = fields.cause.as_ref().map(|cause| cause.main.word());
    let codes = arrival.bike_check.as_ref().and_then(|check| check.error_codes.as_ref());
    JobFacts {
        known,
        before: before::of(&assessment.visits, wording),
        given: before::given_in_words(&assessment.visits, wording),
        complaint: arrival.complaint.as_ref().map(|text| text.0.clone()),
        noticed: noticed
            .map(|noticed| wording.choice("noticed-signs", noticed.sign.word()).to_owned()),
        noticed_on: noticed.and_then(|noticed| noticed.date.as_ref()).map(|date| day(date.value)),
        noticed_days: derived::noticed_days_before(fields),
        ridden_since: derived::ridden_since(fields)
            .map(|way| format::distance(&way, units, wording)),
        noticed_at_too: after_comma(noticed_at.as_ref()),
        noticed_at,
        ridden_too: after_comma(ridden.as_ref()),
        ridden,
        years_in_use: derived::years_in_use(fields),
        arrival_codes: codes.map(|codes| codes.0.clone()),
        codes_point: codes_point(fields, wording),
        arrival_signs: arrival_signs(fields, wording),
        arrived_on: day(arrival.date.value),
        reply_by: arrival.reply_by.as_ref().map(|date| day(date.value)),
        examination_fee: assessment
            .costs
            .examination
            .map(|fee| format::money(fee, profile.currency, wording)),
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
        told,
        came_in: came_in(assessment, wording),
        as_found,
        improved,
        dried: dried(fields, wording),
        triage_by: triage_by(assessment, wording),
        safety: signs(&dangers(assessment, Hazard::Ride)),
        battery_dangers: signs(&dangers(assessment, Hazard::Battery)),
        unfit: naming::gathered(&unfit(findings), naming::MOST, wording),
        outside: outside(assessment, wording),
        beside: signs(&assessment.weighing.beside_no_fault),
        worst: worst(fields, findings).map(|finding| part(finding, wording)),
        n_examined: names::count(findings, |one| one.condition != Condition::NotExamined),
        names: names::of(findings, wording),
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
    few(names, wording)
}

fn dried(fields: &FindingsSheet, wording: &Wording) -> Option<Dried> {
    let drying = fields.work.as_ref()?.drying.as_ref()?;
    Some(Dried {
        time: drying.time.as_ref().map(|time| format::quantity(&time.0, wording)),
        at: drying.at.as_ref().map(|at| format::quantity(&at.0, wording)),
        how: wording.choice("dried-how", drying.how.word()).to_owned(),
    })
}

fn triage_by(assessment: &Assessment, wording: &Wording) -> Vec<String> {
    let points = assessment.triage.iter().flat_map(|triage| &triage.points);
    let by = points.map(|(field, _)| wording.choice("triage-by", field.word()).to_owned());
    few(by.collect(), wording)
}

fn codes_point(fields: &FindingsSheet, wording: &Wording) -> Option<String> {
    let place = fields.arrival.bike_check.as_ref()?.codes_point_to?;
    Some(wording.choice("codes-point", place.word()).to_owned())
}

fn arrival_signs(fields: &FindingsSheet, wording: &Wording) -> Vec<String> {
    let signs = derived::arrival_signs(fields).into_iter();
    few(signs.map(|one| wording.sign_entry(one)).collect(), wording)
}

/// What was seen to have come in.
fn came_in(assessment: &Assessment, wording: &Wording) -> Vec<String> {
    let kinds = [("mud", signs::is_mud as fn(Sign) -> bool), ("water", signs::is_water)];
    let seen = kinds.into_iter().filter(|(_, is_one)| signs::seen(&assessment.weighing, *is_one));
    seen.map(|(word, _)| wording.choice("came-in", word).to_owned()).collect()
}

/// A list of at most this many things as page 1 bears; those left out are counted.
fn few(mut list: Vec<String>, wording: &Wording) -> Vec<String> {
    if naming::MOST < list.len() {
        let n = wording.counted(list.len() + 1 - naming::MOST);
        list.truncate(naming::MOST - 1);
        list.push(text::fill(wording.label("more-items"), &[("n", &n)]));
    }
    list
}

/// A part and what licenses its sentences. Its heading says its first sign.
pub(super) fn part(finding: &Finding, wording: &Wording) -> PartFacts {
    // Nobody knows what a part does that the catalogue lacks.
    let is_known = !finding.part.is_other();
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
    if finding.action == Some(Action::Replaced) {
        known.insert(Fact::PartReplaced);
    }
    if !more_signs.is_empty() {
        known.insert(Fact::PartSignsBesideHeading);
    }
    if !gloss.is_empty() {
        known.insert(Fact::PartGlossed);
    }
    PartFacts {
        plain: wording.part_of(finding).to_owned(),
        gloss: gloss.to_owned(),
        more_signs,
        known,
    }
}
