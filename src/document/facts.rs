//! What the sentences may speak of: a job in plain values and plain names, for minijinja.

mod ride;

use chrono::Months;
use serde::Serialize;

use super::format;
use super::wording::Wording;
use crate::assessment::Assessment;
use crate::assessment::bench::verdict::Verdict;
use crate::assessment::cause::ran_on::RanOn;
use crate::assessment::cause::triage::{Likelier, Place};
use crate::assessment::cause::verdict::Support;
use crate::sheet::catalogue::Sign;
use crate::sheet::findings::{Finding, FindingsSheet};
use crate::sheet::profile::Profile;
use crate::sheet::vocabulary::{Action, Condition, Outcome};

/// One part of a job.
#[derive(Clone, Debug, Serialize)]
pub struct PartFacts {
    name: &'static str,
    group: &'static str,
    plain: String,
    gloss: String,
    condition: &'static str,
    action: Option<&'static str>,
    signs: Vec<String>,
    note: Option<String>,
    safety: bool,
}

/// The unit that came in.
#[derive(Debug, Serialize)]
struct UnitFacts {
    kind: &'static str,
    model: Option<String>,
    ridden: Option<String>,
    washed_with: Option<&'static str>,
    used_for: Vec<&'static str>,
}

/// Names of parts by condition or by what was done, each once.
#[derive(Debug, Serialize)]
struct Names {
    failed: Vec<String>,
    damaged: Vec<String>,
    worn: Vec<String>,
    missing: Vec<String>,
    sound: Vec<String>,
    replaced: Vec<String>,
    repaired: Vec<String>,
    cleaned: Vec<String>,
    added: Vec<String>,
}

/// A job as sentences see it.
#[derive(Debug, Serialize)]
pub struct JobFacts {
    outcome: Option<&'static str>,
    unit: UnitFacts,
    water: Option<String>,
    complaint: Option<String>,
    noticed: Option<&'static str>,
    noticed_on: Option<String>,
    noticed_at: Option<String>,
    arrived_on: String,
    cause: Option<&'static str>,
    /// How far the signs carry the stated cause: `shows`, `points`, `mixed`, `open`, or `judgement`.
    carried: &'static str,
    contributing: Vec<&'static str>,
    /// Whether damage that needs running time was seen: `dated` (and a day from which the rider could
    /// notice), `undated`, `no`.
    ran_on: &'static str,
    /// Where the bike's own behaviour points: `unit`, `elsewhere`, `both`, or nowhere.
    triage: Option<&'static str>,
    /// What of the bike's behaviour points there, in plain words.
    triage_by: Vec<&'static str>,
    /// Signs on parts that can hurt somebody and were not renewed, in plain words.
    safety: Vec<String>,
    /// What was measured outside its limit as left, in plain words.
    outside: Vec<String>,
    /// Damage beside a unit that ran without a fault, in plain words.
    beside: Vec<String>,
    /// True where the workshop's own scores of these signs were used.
    house_values: bool,
    parts: Vec<PartFacts>,
    worst: Option<PartFacts>,
    names: Names,
    chose: Option<&'static str>,
    total: Option<String>,
    grease: Option<String>,
    torqued: bool,
    ride: Option<ride::RideFacts>,
    exchange_model: Option<String>,
    exchange_note: Option<String>,
    returned_on: Option<String>,
    guaranteed_to: Option<String>,
}

impl JobFacts {
    /// The parts, in the order of the findings.
    pub fn parts(&self) -> &[PartFacts] {
        &self.parts
    }

    /// Water that came out, as printed.
    pub fn water(&self) -> Option<&str> {
        self.water.as_deref()
    }

    /// Signs that can hurt somebody and still stand, in plain words.
    pub fn safety(&self) -> &[String] {
        &self.safety
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
    let parts: Vec<PartFacts> = findings.iter().map(|finding| part(finding, wording)).collect();
    let units = profile.units.unwrap_or_default();
    let noticed = fields.arrival.noticed.as_ref();
    let day = |date: crate::sheet::date::Date| format::day(date.0, wording);
    let returned = fields.returned.as_ref().map(|date| date.0);
    let after =
        |months: u32| returned.and_then(|date| date.checked_add_months(Months::new(months)));
    let guarantee = profile.guarantee.as_ref().filter(|_| is_work_done(fields));
    JobFacts {
        outcome: fields.outcome.as_ref().map(|outcome| outcome.word()),
        unit: UnitFacts {
            kind: fields.unit.kind.word(),
            model: fields.unit.model.as_ref().map(|model| model.0.clone()),
            ridden: fields.unit.ridden.as_ref().map(|way| format::distance(&way.0, units, wording)),
            washed_with: fields
                .unit
                .washed_with
                .map(super::super::sheet::vocabulary::Washing::word),
            used_for: fields.unit.used_for.iter().map(|one| one.word()).collect(),
        },
        water: fields.arrival.water.as_ref().map(|water| format::quantity(&water.0, wording)),
        complaint: fields.arrival.complaint.as_ref().map(|text| text.0.clone()),
        noticed: noticed.map(|noticed| noticed.sign.word()),
        noticed_on: noticed.and_then(|noticed| noticed.date.as_ref()).map(|date| day(date.value)),
        noticed_at: noticed
            .and_then(|noticed| noticed.at.as_ref())
            .map(|way| format::distance(&way.0, units, wording)),
        arrived_on: day(fields.arrival.date.value),
        cause: fields.cause.as_ref().map(|cause| cause.main.word()),
        carried: carried(assessment),
        contributing: fields
            .cause
            .iter()
            .flat_map(|cause| &cause.contributing)
            .map(|one| one.word())
            .collect(),
        ran_on: match assessment.weighing.ran_on {
            RanOn::Dated(_) => "dated",
            RanOn::Undated => "undated",
            RanOn::No => "no",
        },
        triage: assessment.triage.as_ref().and_then(|triage| match triage.likelier {
            Likelier::Only(Place::DriveUnit) => Some("unit"),
            Likelier::Only(Place::ElsewhereOnBike) => Some("elsewhere"),
            Likelier::Both => Some("both"),
            Likelier::NotTold => None,
        }),
        triage_by: assessment
            .triage
            .iter()
            .flat_map(|triage| &triage.points)
            .map(|(told, _)| told.word())
            .collect(),
        safety: plain_signs(&open_dangers(findings, &assessment.weighing.safety), wording),
        outside: outside(assessment, wording),
        beside: plain_signs(&assessment.weighing.beside_no_fault, wording),
        house_values: assessment.weighing.house_values,
        names: names(&parts),
        worst: by_weight(findings)
            .first()
            .filter(|finding| is_harmed(finding))
            .map(|finding| part(finding, wording)),
        parts,
        chose: fields.decision.as_ref().map(|decision| decision.chose.word()),
        total: assessment
            .costs
            .bill
            .as_ref()
            .map(|bill| format::money(bill.total, bill.currency, wording)),
        grease: fields
            .work
            .as_ref()
            .and_then(|work| work.grease.as_ref())
            .map(|text| text.0.clone()),
        torqued: fields.work.as_ref().is_some_and(|work| !work.torque.is_empty()),
        ride: fields
            .ride
            .as_ref()
            .map(|typed| ride::of(typed, assessment.ride.as_ref(), units, wording)),
        exchange_model: fields
            .exchange
            .as_ref()
            .and_then(|unit| unit.model.as_ref())
            .map(|text| text.0.clone()),
        exchange_note: fields
            .exchange
            .as_ref()
            .and_then(|unit| unit.note.as_ref())
            .map(|text| text.0.clone()),
        returned_on: returned.map(|date| format::day(date, wording)),
        guaranteed_to: guarantee
            .and_then(|terms| after(terms.months.0))
            .map(|date| format::day(date, wording)),
    }
}

/// Signs on parts that can hurt somebody, but for those whose part was replaced.
fn open_dangers(findings: &[Finding], signs: &[Sign]) -> Vec<Sign> {
    let is_renewed = |sign: &Sign| {
        let mut bearers =
            findings.iter().filter(|finding| finding.signs.iter().any(|own| own.value == *sign));
        bearers.clone().next().is_some()
            && bearers.all(|finding| finding.action == Some(Action::Replaced))
    };
    signs.iter().copied().filter(|sign| !is_renewed(sign)).collect()
}

/// Measures whose last reading lies outside its limit, each once.
fn outside(assessment: &Assessment, wording: &Wording) -> Vec<String> {
    let ride = assessment.ride.iter().flat_map(|ride| &ride.lines);
    let mut names: Vec<String> = Vec::new();
    for line in assessment.bench.iter().chain(ride) {
        let is_outside = line.after.as_ref().is_some_and(|stage| stage.verdict == Verdict::Outside);
        let name = wording.choice("measures", line.word()).to_owned();
        if is_outside && !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

fn plain_signs(signs: &[Sign], wording: &Wording) -> Vec<String> {
    signs.iter().map(|sign| wording.sign(sign.name(), "plain").to_owned()).collect()
}

fn carried(assessment: &Assessment) -> &'static str {
    match assessment.weighing.verdict.support {
        _ if assessment.weighing.is_judgement() => "judgement",
        Support::WellSupported | Support::NoFaultFound => "shows",
        Support::PointsTo => "points",
        Support::Mixed => "mixed",
        Support::NotDeterminable => "open",
    }
}

/// True where a guarantee on parts and work has something to stand on.
pub fn is_work_done(fields: &FindingsSheet) -> bool {
    let outcome = fields.outcome.as_ref().map(|outcome| outcome.value);
    matches!(outcome, Some(Outcome::Repaired | Outcome::Exchanged))
}

/// Findings by what they say, worst condition first, each condition in the order of the sheet.
pub fn by_weight(findings: &[Finding]) -> Vec<&Finding> {
    let mut findings: Vec<&Finding> = findings.iter().collect();
    findings.sort_by_key(|finding| match finding.condition {
        Condition::Failed => 0,
        Condition::Missing => 1,
        Condition::Damaged => 2,
        Condition::Worn => 3,
        Condition::Sound => 4,
        Condition::NotExamined => 5,
    });
    findings
}

fn is_harmed(finding: &Finding) -> bool {
    !matches!(finding.condition, Condition::Sound | Condition::NotExamined)
}

fn part(finding: &Finding, wording: &Wording) -> PartFacts {
    let row = finding.part.0;
    PartFacts {
        name: &row.part,
        group: &row.group,
        plain: wording.part(&row.part, "plain").to_owned(),
        gloss: wording.part(&row.part, "gloss").to_owned(),
        condition: finding.condition.word(),
        action: finding.action.map(Action::word),
        signs: finding
            .signs
            .iter()
            .map(|sign| wording.sign(sign.name(), "plain").to_owned())
            .collect(),
        note: finding.note.as_ref().map(|text| text.0.clone()),
        safety: row.safety,
    }
}

fn names(parts: &[PartFacts]) -> Names {
    let those = |is_one: &dyn Fn(&PartFacts) -> bool| {
        let mut names: Vec<String> = Vec::new();
        for part in parts.iter().filter(|part| is_one(part)) {
            if !names.contains(&part.plain) {
                names.push(part.plain.clone());
            }
        }
        names
    };
    let found = |condition: Condition| those(&|part| part.condition == condition.word());
    let done = |action: &str| those(&|part| part.action == Some(action));
    Names {
        failed: found(Condition::Failed),
        damaged: found(Condition::Damaged),
        worn: found(Condition::Worn),
        missing: found(Condition::Missing),
        sound: found(Condition::Sound),
        replaced: done("replaced"),
        repaired: done("repaired"),
        cleaned: done("cleaned"),
        added: done("added"),
    }
}
