//! What follows from the fields and the assessment of a job, and both facts and values need.

use rust_decimal::Decimal;

use super::signs::{self, is_harmed};
use crate::assessment::Assessment;
use crate::assessment::bench::check_result::CheckResult;
use crate::assessment::bench::verdict::Verdict;
use crate::assessment::care::state::Hazard;
use crate::assessment::cause::evidence::Origin;
use crate::assessment::cause::scores::RootCause;
use crate::assessment::cause::verdict::Support;
use crate::assessment::ride::Proof;
use crate::assessment::ride::judged::TestRide;
use crate::sheet::catalogue::Sign;
use crate::sheet::catalogue::group::{PartGroup, PartRole};
use crate::sheet::catalogue::sign::Role;
use crate::sheet::findings::{Finding, FindingsSheet};
use crate::sheet::quantity::Quantity;
use crate::sheet::signs::SignEntry;
use crate::sheet::vocabulary::{Action, CauseKind, Condition, Outcome};

/// Most signs that page 1 names for a cause.
const MOST_SHOWN: usize = 2;

/// Signs that can hurt somebody, on parts that go back as they were found.
pub(super) fn dangers(assessment: &Assessment, hazard: Hazard) -> Vec<Sign> {
    let dangers = assessment.care.dangers.iter().filter(|danger| danger.hazard == hazard);
    dangers.map(|danger| danger.sign).collect()
}

/// Parts that failed or are missing, were not mended, and carry the rider or the drive's force.
pub(super) fn unfit(findings: &[Finding]) -> Vec<&Finding> {
    let carries = [
        PartGroup::Case,
        PartGroup::Bearings,
        PartGroup::Gears,
        PartGroup::Clutch,
        PartGroup::Shaft,
        PartGroup::Fasteners,
    ];
    let is_unfit = |one: &&Finding| {
        matches!(one.condition, Condition::Failed | Condition::Missing)
            && !matches!(one.action, Some(Action::Replaced | Action::Repaired | Action::Added))
            && (one.part.0.safety || carries.contains(&one.part.group()))
    };
    findings.iter().filter(is_unfit).collect()
}

/// Readings of bench and ride whose last value is outside its limit.
pub(super) fn outside_lines(assessment: &Assessment) -> impl Iterator<Item = &CheckResult> {
    let ride = assessment.ride.iter().flat_map(|ride| &ride.lines);
    assessment
        .bench
        .iter()
        .chain(ride)
        .filter(|line| line.after.as_ref().is_some_and(|stage| stage.verdict == Verdict::Outside))
}

/// The strongest signs that were seen and support the stated cause.
pub(super) fn shown_by(fields: &FindingsSheet, assessment: &Assessment) -> Vec<Sign> {
    let main = fields.cause.as_ref().and_then(|cause| RootCause::of(cause.main.value));
    let Some(fault) = main else { return Vec::new() };
    let (for_it, _) = assessment.weighing.for_and_against(fault);
    let is_seen = |origin: &Origin| {
        matches!(origin, Origin::Finding { .. } | Origin::Arrival { .. } | Origin::Bench(_))
    };
    // The way in is named with the part past which the water came.
    let is_firm = firmness(assessment) == Firmness::Shows;
    let is_told = |sign: Sign| is_firm && fault == RootCause::Ingress && signs::is_way_in(sign);
    for_it
        .into_iter()
        .filter(|one| !is_told(one.sign))
        .filter(|one| one.seen && 0 < one.used_points.of(fault) && one.origins.iter().any(is_seen))
        .map(|one| one.sign)
        .take(MOST_SHOWN)
        .collect()
}

/// How firmly a paper may speak of the stated cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Firmness {
    /// The signs show it.
    Shows,
    /// They point to it.
    Points,
    /// They point to more than one.
    Mixed,
    /// It is the judgement of who examined the unit.
    Judged,
}

/// How far the signs carry the stated cause.
pub(super) fn firmness(assessment: &Assessment) -> Firmness {
    match assessment.weighing.verdict.support {
        _ if assessment.weighing.is_judgement() => Firmness::Judged,
        Support::WellSupported | Support::NoFaultFound => Firmness::Shows,
        Support::PointsTo => Firmness::Points,
        Support::Mixed => Firmness::Mixed,
        Support::NotDeterminable => Firmness::Judged,
    }
}

/// What a ride is worth as proof: the recorded one, else the one typed.
pub(super) fn proof(judged: &TestRide) -> Proof {
    judged.recorded.as_ref().map_or_else(|| judged.typed.proof(), |track| track.proof)
}

/// True if a guarantee on parts and work has something to rest on.
pub fn is_work_done(fields: &FindingsSheet) -> bool {
    let outcome = fields.outcome.as_ref().map(|outcome| outcome.value);
    matches!(outcome, Some(Outcome::Repaired | Outcome::Exchanged | Outcome::Serviced))
}

/// Signs before opening, but for the trial that shows a unit faultless, which has sentences of its own.
pub(super) fn arrival_signs(fields: &FindingsSheet) -> Vec<&SignEntry> {
    let outcome = fields.outcome.as_ref().map(|outcome| outcome.value);
    let is_told_else = |entry: &SignEntry| match entry {
        SignEntry::Known(sign) => sign.0.has(Role::Swap) && outcome == Some(Outcome::NoFaultFound),
        SignEntry::Other(_) => false,
    };
    let entries = fields.arrival.signs.entries().iter().map(|entry| &entry.value);
    entries.filter(|entry| !is_told_else(entry)).collect()
}

/// Days from the first sign to the arrival, if there are any.
pub(super) fn noticed_days_before(fields: &FindingsSheet) -> Option<usize> {
    let noticed = fields.arrival.first_noticed.as_ref()?.date.as_ref()?;
    let days = (fields.arrival.date.value.0 - noticed.value.0).num_days();
    usize::try_from(days).ok().filter(|days| 0 < *days)
}

/// More than this many whole years from the first use to the arrival.
pub(super) fn years_in_use(fields: &FindingsSheet) -> Option<usize> {
    let since = fields.unit.in_use_since.as_ref()?.value.0;
    let day_before = fields.arrival.date.value.0.pred_opt()?;
    let years = usize::try_from(day_before.years_since(since)?).ok()?;
    (0 < years).then_some(years)
}

/// The distance ridden between the first sign and the arrival, in the unit of the second.
pub(super) fn ridden_since(fields: &FindingsSheet) -> Option<Quantity> {
    let now = &fields.unit.mileage.as_ref()?.0;
    let then = &fields.arrival.first_noticed.as_ref()?.at.as_ref()?.0;
    let metres = now.in_base() - then.in_base();
    let since = match now.unit.symbol == then.unit.symbol {
        true => Quantity { number: now.number - then.number, unit: now.unit },
        false => Quantity { number: (metres / now.unit.factor()).round(), unit: now.unit },
    };
    (Decimal::ZERO < since.number).then_some(since)
}

/// True for grease, which is found and renewed like a part.
pub(super) fn is_grease(finding: &Finding) -> bool {
    finding.part.has(PartRole::Grease)
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

/// The part that fared worst. Beside water as the cause it is not the part that let the water in, if
/// another was harmed.
pub(super) fn worst<'f>(fields: &FindingsSheet, findings: &'f [Finding]) -> Option<&'f Finding> {
    let wet = fields.cause.as_ref().is_some_and(|cause| cause.main.value == CauseKind::Ingress);
    let harmed = || by_weight(findings).into_iter().filter(|finding| is_harmed(finding));
    let lets_in = |finding: &&Finding| signs::shows(finding, signs::is_way_in);
    harmed().find(|finding| !(wet && lets_in(finding))).or_else(|| harmed().next())
}
