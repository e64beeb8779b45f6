//! What care advice is made from: cause, use, habits, the rider's pace and the day to count from.
//!
//! In: a findings sheet; out: [`CareInput`]. What the sheet does not say stays unknown.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use super::fact::Aspect;
use super::pace::{NoPace, Pace, kilometres};
use super::state::State;
use crate::sheet::catalogue::Sign;
use crate::sheet::findings::{FindingsSheet, Offer};
use crate::sheet::vocabulary::{CauseKind, OptionKind, Outcome, Storage, UnitKind, Use, Washing};

/// What care advice is made from.
#[derive(Clone, Debug, PartialEq)]
pub struct CareInput {
    /// Where the motor sits.
    pub kind: UnitKind,
    /// How the job ended; advice and checks need it.
    pub outcome: Option<Outcome>,
    /// The main cause, as the technician states it.
    pub cause: Option<CauseKind>,
    /// Causes that had a part in it, as stated; the main one is not repeated.
    pub contributing: Vec<CauseKind>,
    /// What the bike is used for.
    pub used_for: Vec<Use>,
    /// How it is washed; `Unknown` if nobody said.
    pub washing: Washing,
    /// Where it is kept; `Unknown` if nobody said.
    pub storage: Storage,
    /// In which state it goes back.
    pub state: State,
    /// True if it came in a parcel: the sheet names its packing.
    pub posted: bool,
    /// True if a repair was offered, or nothing was, so that one may still be asked for.
    pub mendable: bool,
    /// True if the sheet names the grease that was put in, and not into one bearing alone.
    pub greased: bool,
    /// Kilometres that the unit had been ridden when it came in.
    pub ridden: Option<Decimal>,
    /// The day to count from: that of the return, or of the arrival if that is not yet known.
    pub from: Option<NaiveDate>,
    /// The rider's pace, or why it is not known.
    pub pace: Result<Pace, NoPace>,
}

impl CareInput {
    /// Gathers it from a sheet and from the signs that can hurt somebody.
    pub fn of(fields: &FindingsSheet, safety: &[Sign]) -> Self {
        let main = fields.cause.as_ref().map(|cause| cause.main.value);
        let parts = fields.cause.iter().flat_map(|cause| &cause.contributing);
        let unit = &fields.unit;
        let days = [fields.returned.as_ref(), Some(&fields.arrival.date)];
        let mut days = days.into_iter().flatten().map(|day| day.value);
        Self {
            kind: unit.kind,
            outcome: fields.outcome.as_ref().map(|outcome| outcome.value),
            cause: main,
            contributing: parts.map(|one| one.value).filter(|one| Some(*one) != main).collect(),
            used_for: unit.used_for.clone(),
            washing: unit.washed_with.unwrap_or(Washing::Unknown),
            storage: unit.stored_in.unwrap_or(Storage::Unknown),
            state: State::of(fields, safety),
            posted: fields.arrival.packing.is_some(),
            mendable: fields.options.is_empty() || fields.options.iter().any(is_repair),
            greased: is_greased(fields),
            ridden: unit.mileage.as_ref().and_then(kilometres),
            from: days.find(|day| day.is_known()).map(|day| day.0),
            pace: Pace::of(fields),
        }
    }

    /// The words of an aspect that hold for this job.
    pub fn words(&self, aspect: Aspect) -> Vec<&'static str> {
        let those = |facts: &[(&'static str, bool)]| {
            facts.iter().filter(|(_, holds)| *holds).map(|(word, _)| *word).collect()
        };
        let state = &self.state;
        match aspect {
            Aspect::Cause => self.cause.iter().map(|one| one.word()).collect(),
            Aspect::Contributing => self.contributing.iter().map(|one| one.word()).collect(),
            Aspect::Use => self.used_for.iter().map(|one| one.word()).collect(),
            Aspect::Washing => vec![self.washing.word()],
            Aspect::Storage => vec![self.storage.word()],
            Aspect::Kind => vec![self.kind.family().word()],
            // A serviced unit is looked after like a repaired one.
            Aspect::Outcome => {
                let outcome = self.outcome.map(|one| match one {
                    Outcome::Serviced => Outcome::Repaired,
                    other => other,
                });
                outcome.iter().map(|one| one.word()).collect()
            }
            Aspect::Work => those(&[("greased", self.greased)]),
            Aspect::Fitness => vec![state.fitness.word()],
            Aspect::Found => those(&[("water", state.water), ("rust", state.rust)]),
            Aspect::Battery => those(&[("wet", state.battery_is_wet)]),
            Aspect::Danger => state.dangers.iter().map(|danger| danger.hazard.word()).collect(),
            Aspect::Offer => those(&[("repair", self.mendable)]),
            Aspect::Ridden => Vec::new(),
        }
    }
}

fn is_repair(offer: &Offer) -> bool {
    matches!(
        offer.kind,
        OptionKind::SingleBearing | OptionKind::Overhaul | OptionKind::OverhaulPlusParts
    )
}

fn is_greased(fields: &FindingsSheet) -> bool {
    let chose = fields.decision.as_ref().map(|decision| decision.option.value);
    let grease = fields.work.as_ref().and_then(|work| work.grease.as_ref());
    grease.is_some() && chose != Some(OptionKind::SingleBearing)
}
