//! Which facts hold of a job: the licences of its sentences.
//!
//! In: the sheet's fields and the assessment; out: [`Facts`]. Nothing here depends on a language.

use super::derived::{
    Firmness, arrival_signs, dangers, noticed_days_before, outside_lines, proof, ridden_since,
    shown_by, unfit, years_in_use,
};
use super::signs::{self, is_harmed, seen, shows};
use super::{before, derived, ride};
use crate::assessment::Assessment;
use crate::assessment::bench::measure::Measure;
use crate::assessment::bench::verdict::Verdict;
use crate::assessment::care::state::{Fitness, Hazard};
use crate::assessment::cause::continued_use::ContinuedUse;
use crate::assessment::cause::evidence::Noticing;
use crate::assessment::cause::triage::{Site, Suspect};
use crate::assessment::ride::CutOff;
use crate::assessment::ride::Proof;
use crate::document::clauses::Facts;
use crate::document::clauses::fact::Fact;
use crate::sheet::catalogue::group::PartGroup;
use crate::sheet::catalogue::sign::Role;
use crate::sheet::findings::{Finding, FindingsSheet, Ride};
use crate::sheet::handling::{Warranty, WhoseBike};
use crate::sheet::text::Text;
use crate::sheet::vocabulary::{
    Action, CauseKind, CodesPointTo, Condition, OptionKind, OriginKind, Outcome, Use, Washing,
    YesNo,
};

/// Collects facts.
struct Known(Facts);

impl Known {
    fn add(&mut self, holds: bool, fact: Fact) {
        if holds {
            self.0.insert(fact);
        }
    }
}

/// The facts of a job.
pub(super) fn known(fields: &FindingsSheet, assessment: &Assessment) -> Facts {
    let findings = fields.strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
    let mut known = Known(Facts::new());
    on_arrival(fields, assessment, &mut known);
    outcome(fields, findings, assessment, &mut known);
    cause(fields, assessment, &mut known);
    worst(fields, findings, &mut known);
    parts(findings, &mut known);
    harm(findings, assessment, &mut known);
    if let Some(ride) = &fields.ride {
        ridden(ride, assessment, &mut known);
    }
    known.add(before::given(&assessment.visits).is_some(), Fact::GivenInExchange);
    if let Some(last) = before::came_in(&assessment.visits).next_back() {
        known.add(true, Fact::SeenBefore);
        known.add(last.returned_on().is_some(), Fact::SeenBeforeReturned);
        known.add(last.outcome().is_some(), Fact::SeenBeforeOutcome);
        known.add(1 < before::came_in(&assessment.visits).count(), Fact::SeenBeforeOften);
    }
    known.0
}

/// True for a field of codes that names one, and not that there was none.
pub(super) fn is_code(codes: &Text) -> bool {
    !matches!(codes.0.trim().to_lowercase().as_str(), "" | "none" | "no" | "-")
}

/// True for a sound that is none.
fn is_silent(noise: &Text) -> bool {
    noise.0.trim().eq_ignore_ascii_case("silent")
}

fn on_arrival(fields: &FindingsSheet, assessment: &Assessment, known: &mut Known) {
    let arrival = &fields.arrival;
    known.add(arrival.complaint.is_some(), Fact::Complaint);
    if let Some(noticed) = &arrival.first_noticed {
        known.add(true, Fact::Noticed);
        known.add(noticed.date.is_some(), Fact::NoticedDated);
        known.add(noticed.at.is_some(), Fact::NoticedAt);
        let promptly = matches!(assessment.weighing.noticing, Noticing::Promptly(_));
        known.add(promptly, Fact::CamePromptly);
        known.add(noticed_days_before(fields).is_some(), Fact::NoticedBefore);
        known.add(ridden_since(fields).is_some(), Fact::RiddenSince);
    }
    let codes = arrival.bike_check.as_ref().and_then(|check| check.error_codes.as_ref());
    known.add(codes.is_some_and(is_code), Fact::ArrivalCodes);
    let point = arrival.bike_check.as_ref().and_then(|check| check.codes_point_to);
    let elsewhere = matches!(
        point,
        Some(
            CodesPointTo::Battery
                | CodesPointTo::Sensor
                | CodesPointTo::Display
                | CodesPointTo::Wiring
        )
    );
    known.add(elsewhere, Fact::CodesPointElsewhere);
    known.add(
        arrival.water.as_ref().is_some_and(|water| !water.0.number.is_zero()),
        Fact::WaterAmount,
    );
    let billing = fields.billing.as_ref();
    let fee = billing.is_some_and(|billing| billing.inspection.is_some());
    known.add(arrival.bike_check.is_some(), Fact::BikeChecked);
    known.add(arrival.reply_by.is_some(), Fact::ReplyDay);
    known.add(fee, Fact::ExaminationFee);
    let credited = billing.and_then(|billing| billing.inspection_credited);
    known.add(fee && credited == Some(YesNo::Yes), Fact::FeeCredited);
    known.add(fields.unit.warranty == Some(Warranty::In), Fact::WarrantyRuns);
    known.add(!arrival_signs(fields).is_empty(), Fact::ArrivalSigns);
    known.add(years_in_use(fields).is_some(), Fact::InUseYears);
    known.add(fields.unit.mileage.is_some(), Fact::Mileage);
    known.add(fields.unit.used_for.contains(&Use::Cargo), Fact::CarriesLoads);
    let washed = fields.unit.washed_with;
    known.add(washed == Some(Washing::PressureWasher), Fact::JetWashed);
    let likelier = assessment.triage.as_ref().map(|triage| triage.likelier);
    known.add(likelier == Some(Suspect::Only(Site::DriveUnit)), Fact::TriageUnit);
    known.add(likelier == Some(Suspect::Only(Site::ElsewhereOnBike)), Fact::TriageElsewhere);
    known.add(likelier == Some(Suspect::Both), Fact::TriageBoth);
    known.add(likelier == Some(Suspect::NotTold), Fact::TriageNowhere);
}

fn outcome(
    fields: &FindingsSheet,
    findings: &[Finding],
    assessment: &Assessment,
    known: &mut Known,
) {
    let outcome = fields.outcome.as_ref().map(|outcome| outcome.value);
    known.add(fields.strip_down.is_some(), Fact::Opened);
    let lost = fields.strip_down.as_ref().and_then(|strip| strip.evidence_lost.as_ref());
    known.add(lost.is_some(), Fact::EvidenceLost);
    known.add(outcome.is_none(), Fact::OutcomeOpen);
    known.add(outcome == Some(Outcome::Repaired), Fact::OutcomeRepaired);
    known.add(outcome == Some(Outcome::Exchanged), Fact::OutcomeExchanged);
    known.add(outcome == Some(Outcome::ReturnedUnrepaired), Fact::OutcomeUnrepaired);
    known.add(outcome == Some(Outcome::NoFaultFound), Fact::OutcomeNoFault);
    known.add(outcome == Some(Outcome::Serviced), Fact::OutcomeServiced);
    known.add(derived::is_work_done(fields), Fact::WorkDone);
    let chose = fields.decision.as_ref().map(|decision| decision.option.value);
    known.add(chose == Some(OptionKind::ReturnAsItIs), Fact::ChoseReturn);
    let model = fields.exchange.as_ref().and_then(|unit| unit.model.as_ref());
    known.add(model.is_some(), Fact::ExchangeModel);
    known.add(!dangers(assessment, Hazard::Ride).is_empty(), Fact::DangerOpen);
    known.add(!dangers(assessment, Hazard::Battery).is_empty(), Fact::BatteryDanger);
    let is_unfit = assessment.care.fitness == Fitness::NotFit;
    known.add(is_unfit && !unfit(findings).is_empty(), Fact::Unfit);
    known.add(outside_lines(assessment).next().is_some(), Fact::Outside);
    let done = |action| findings.iter().filter(move |one| one.action == Some(action));
    for (action, fact) in [
        (Action::Added, Fact::AnyAdded),
        (Action::Repaired, Fact::AnyRepaired),
        (Action::Cleaned, Fact::AnyCleaned),
        (Action::Resealed, Fact::AnyResealed),
        (Action::Coated, Fact::AnyCoated),
        (Action::Tested, Fact::AnyTested),
    ] {
        known.add(done(action).next().is_some(), fact);
    }
    work(fields, findings, known);
    let is_new = |one: &Finding| matches!(one.action, Some(Action::Replaced | Action::Added));
    known.add(findings.iter().any(is_new), Fact::AnyNew);
    let on_bill = fields.work.as_ref().is_some_and(|work| !work.parts.is_empty());
    known.add(!on_bill && !findings.iter().any(is_new), Fact::NothingNew);
    let touched = |one: &&Finding| is_new(one) || one.action == Some(Action::Repaired);
    let mut touched = findings.iter().filter(touched);
    let only = touched.next().filter(|_| touched.next().is_none());
    let is_bearing = |one: &Finding| {
        one.part.group() == PartGroup::Bearings && one.action == Some(Action::Replaced)
    };
    let billed = fields.work.iter().flat_map(|work| &work.parts);
    let n_billed: u32 = billed.map(|part| part.quantity.as_ref().map_or(1, |count| count.0)).sum();
    known.add(only.is_some_and(is_bearing) && n_billed < 2, Fact::OnlyOneBearingNew);
}

/// What was renewed, greased and dried.
fn work(fields: &FindingsSheet, findings: &[Finding], known: &mut Known) {
    let replaced = || findings.iter().filter(|one| one.action == Some(Action::Replaced));
    known.add(replaced().any(is_harmed), Fact::HarmedNew);
    known.add(replaced().any(|one| one.condition == Condition::Sound), Fact::SoundNew);
    known.add(replaced().any(|one| one.condition == Condition::NotExamined), Fact::OtherNew);
    known.add(replaced().any(derived::is_grease), Fact::GreaseNew);
    let Some(work) = &fields.work else { return };
    known.add(work.grease.is_some(), Fact::Greased);
    if let Some(drying) = &work.drying {
        known.add(true, Fact::Dried);
        known.add(drying.time.is_some(), Fact::DriedFor);
        known.add(drying.at.is_some(), Fact::DriedAt);
    }
}

fn cause(fields: &FindingsSheet, assessment: &Assessment, known: &mut Known) {
    let Some(cause) = &fields.cause else { return };
    let main = cause.main.value;
    let also = |kind| cause.contributing.iter().any(|one| one.value == kind);
    for (kind, fact, too) in [
        (CauseKind::Ingress, Fact::CauseIngress, Some(Fact::AlsoIngress)),
        (CauseKind::Mechanical, Fact::CauseMechanical, Some(Fact::AlsoMechanical)),
        (CauseKind::Electrical, Fact::CauseElectrical, Some(Fact::AlsoElectrical)),
        (CauseKind::Neglect, Fact::CauseNeglect, None),
    ] {
        known.add(main == kind, Fact::CauseNamed);
        known.add(main == kind, fact);
        known.0.extend(too.filter(|_| also(kind) && main != kind));
    }
    known.add(main == CauseKind::Undetermined, Fact::CauseUndetermined);
    known.add(main == CauseKind::NoFaultFound, Fact::CauseNoFault);
    let states = |kind| main == kind || also(kind);
    known.add(states(CauseKind::Ingress), Fact::StatesIngress);
    known.add(states(CauseKind::Neglect), Fact::StatesNeglect);
    if fields.strip_down.is_some() {
        let firm = match derived::firmness(assessment) {
            Firmness::Shows => Fact::Firm,
            Firmness::Points => Fact::Points,
            Firmness::Mixed => Fact::Mixed,
            Firmness::Judged => Fact::Judged,
        };
        known.add(true, firm);
    }
    if let Some(origin) = &cause.origin {
        let origins = &assessment.weighing.origins;
        let shown = origins.iter().any(|(kind, signs)| *kind == origin.value && !signs.is_empty());
        known.add(true, Fact::Origin);
        known.add(shown, Fact::OriginShown);
        known.add(origin.value == OriginKind::Age, Fact::OriginAge);
        known.add(origin.value == OriginKind::Wear, Fact::OriginWear);
        known.add(origin.value == OriginKind::Overload, Fact::OriginOverload);
    }
    known.add(!shown_by(fields, assessment).is_empty(), Fact::ShownBy);
    match assessment.weighing.continued_use {
        ContinuedUse::Dated(_) => known.add(true, Fact::RanOnDated),
        ContinuedUse::Undated => known.add(true, Fact::RanOnUndated),
        ContinuedUse::No => {}
    }
    known.add(!assessment.weighing.beside_no_fault.is_empty(), Fact::Beside);
}

fn worst(fields: &FindingsSheet, findings: &[Finding], known: &mut Known) {
    let Some(worst) = derived::worst(fields, findings) else { return };
    known.add(true, Fact::HasWorst);
    known.add(worst.condition == Condition::Missing, Fact::WorstMissing);
    let way_in = signs::way_in(findings);
    known.add(way_in.is_some_and(|way| std::ptr::eq(way, worst)), Fact::WayInWorst);
}

fn parts(findings: &[Finding], known: &mut Known) {
    let found = |condition| findings.iter().filter(move |one| one.condition == condition).count();
    known.add(0 < found(Condition::Failed), Fact::AnyFailed);
    known.add(0 < found(Condition::Missing), Fact::AnyMissing);
    known.add(0 < found(Condition::Damaged), Fact::AnyDamaged);
    known.add(0 < found(Condition::Worn), Fact::AnyWorn);
    known.add(findings.iter().any(is_harmed), Fact::AnyHarmed);
    known.add(0 < found(Condition::NotExamined), Fact::AnyNotExamined);
    known.add(found(Condition::NotExamined) < findings.len(), Fact::AnyExamined);
    known.add(0 < found(Condition::Sound), Fact::AnySound);
}

/// What was seen, and on what.
fn harm(findings: &[Finding], assessment: &Assessment, known: &mut Known) {
    let weighing = &assessment.weighing;
    known.add(signs::way_in(findings).is_some(), Fact::WayIn);
    let rust = seen(weighing, signs::is_rust);
    known.add(rust, Fact::RustSeen);
    known.add(!rust && seen(weighing, signs::is_without_rust), Fact::NoRustSeen);
    known.add(seen(weighing, |sign| sign.0.has(Role::MilkyGrease)), Fact::GreaseMilky);
    known.add(seen(weighing, |sign| sign.0.has(Role::Swap)), Fact::Swapped);
    known.add(seen(weighing, signs::is_blow), Fact::ImpactSeen);
    let came_in = seen(weighing, signs::is_mud) || seen(weighing, signs::is_water);
    known.add(came_in, Fact::CameIn);
    known.add(seen(weighing, signs::is_burnt_switch), Fact::SwitchBurnt);
    known.add(seen(weighing, signs::is_winding_fault), Fact::WindingHarmed);
    let harmed = |group| findings.iter().any(|one| is_harmed(one) && one.part.group() == group);
    known.add(harmed(PartGroup::Bearings), Fact::BearingHarmed);
    known.add(harmed(PartGroup::Bearings) || harmed(PartGroup::Gears), Fact::BearingOrGearHarmed);
    known.add(harmed(PartGroup::Sensors), Fact::SensorHarmed);
    known.add(harmed(PartGroup::Wiring), Fact::WiringHarmed);
    let wet = |one: &Finding| is_electrical(one) && shows(one, signs::is_wet_contact);
    known.add(findings.iter().any(wet), Fact::ElectricalWet);
}

fn is_electrical(one: &Finding) -> bool {
    PartGroup::ELECTRICAL.contains(&one.part.group())
}

fn ridden(ride: &Ride, assessment: &Assessment, known: &mut Known) {
    let judged = assessment.ride.as_ref();
    let recorded = judged.and_then(|judged| judged.recorded.as_ref());
    let climb = recorded.is_some_and(ride::has_climb);
    known.add(true, Fact::Ridden);
    known.add(ride.bike == Some(WhoseBike::Workshop), Fact::WorkshopsBike);
    known.add(ride.distance.is_some(), Fact::RideTypedWay);
    known.add(ride.climb.is_some(), Fact::RideTypedClimb);
    known.add(ride.distance.is_some() || recorded.is_some(), Fact::RideWay);
    known.add(ride.climb.is_some() || climb, Fact::RideClimb);
    known.add(ride.noise.is_some(), Fact::RideNoise);
    known.add(ride.noise.as_ref().is_some_and(is_silent), Fact::RideSilent);
    known.add(ride.cut_off.is_some(), Fact::RideCutOff);
    let within = judged.iter().flat_map(|judged| &judged.lines).any(|line| {
        line.measure == Measure::CutOffSpeed
            && line.after.as_ref().is_some_and(|stage| stage.verdict == Verdict::Within)
    });
    known.add(within, Fact::CutOffWithin);
    known.add(ride.run_on.is_some(), Fact::RideRunOn);
    known.add(ride.walk_assist.is_some(), Fact::RideWalk);
    known.add(ride.error_codes.as_ref().is_some_and(is_code), Fact::RideCodes);
    known.add(ride.error_codes.as_ref().is_some_and(|codes| !is_code(codes)), Fact::RideCodesNone);
    match judged.map(proof) {
        Some(Proof::Enough) => known.add(true, Fact::RideEnough),
        Some(Proof::TooShort) => known.0.extend([Fact::RideTooShort, Fact::RideShort]),
        Some(Proof::TooSlow) => known.0.extend([Fact::RideTooSlow, Fact::RideShort]),
        Some(Proof::NotDetermined(_)) | None => {}
    }
    if let Some(track) = recorded {
        known.add(true, Fact::RideRecorded);
        known.add(track.moving_s.is_some(), Fact::RecordedMoving);
        known.add(climb, Fact::RecordedClimb);
        known.add(!track.gaps.is_empty(), Fact::RecordedGaps);
        let limited = judged.is_some_and(|judged| judged.limit.is_some());
        known.add(limited && matches!(track.cut_off, CutOff::Held { .. }), Fact::RecordedHeld);
        known.add(limited && matches!(track.cut_off, CutOff::Passed { .. }), Fact::RecordedPassed);
        let reached = matches!(track.cut_off, CutOff::NotReached { .. });
        known.add(limited && reached, Fact::RecordedNotReached);
    }
}
