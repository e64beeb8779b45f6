//! A closed job as a case: what the statistics need of it, and nothing that names a person.
//!
//! In: a sheet and its profile; out: [`Case`]. Serial numbers tie the visits of a unit together and go no
//! further.

use chrono::NaiveDate;
use rust_decimal::prelude::ToPrimitive;

use super::scores::Observed;
use crate::assessment::cause::scores::RootCause;
use crate::assessment::cause::verdict::Support;
use crate::assessment::cost::tier::Tier;
use crate::assessment::cost::{Bill, LineKind};
use crate::assessment::{self, Assessment};
use crate::diagnostic::Problems;
use crate::sheet::findings::FindingsSheet;
use crate::sheet::serial;
use crate::sheet::vocabulary::{CauseKind, Condition, Outcome, Use, Washing};
use crate::sheet::{ProfileFile, Sheet};

/// Minutes of an hour; they are the base unit of durations.
const MINUTES: f64 = 60.0;

/// A closed job.
#[derive(Clone, Debug)]
pub struct Case {
    /// Number of the job in small letters, by which it is known when it comes twice.
    pub number: String,
    /// The unit that came in, by its serial number as compared.
    pub came: Option<String>,
    /// The unit that went out: the same, or the one given in exchange.
    pub went: Option<String>,
    /// The model, as typed.
    pub model: Option<String>,
    /// What the bike is used for.
    pub uses: Vec<Use>,
    /// How it is washed.
    pub washing: Option<Washing>,
    /// Kilometres ridden.
    pub km: Option<f64>,
    /// Day of arrival.
    pub arrived: NaiveDate,
    /// Day of return.
    pub returned: Option<NaiveDate>,
    /// How it ended.
    pub outcome: Outcome,
    /// The cause that the technician states.
    pub cause: Option<CauseKind>,
    /// True if the signs carry that cause, false if it is a judgement.
    pub is_carried: bool,
    /// True if something in the unit had failed.
    pub failed: bool,
    /// The kind of work: the option that was chosen, or how large the job was.
    pub kind: Option<&'static str>,
    /// What was charged.
    pub charged: Option<Charged>,
    /// What was seen and what the cause was, if the unit was opened and one of the four is stated.
    pub observed: Option<Observed>,
}

/// What a job brought in.
#[derive(Clone, Debug)]
pub struct Charged {
    /// The currency.
    pub currency: String,
    /// The bill, with tax.
    pub total: f64,
    /// Parts on it, as their prices were typed.
    pub parts: f64,
    /// Working time on it, as its price was typed.
    pub labour: f64,
    /// Hours of work on it.
    pub hours: f64,
}

impl Case {
    /// The case of a job; `None` as long as it has no outcome.
    pub fn of(sheet: &Sheet, profile: &ProfileFile) -> Option<Self> {
        let fields = &sheet.fields;
        let outcome = fields.outcome.as_ref()?.value;
        let assessed = assessment::assess(sheet, profile, None, &mut Problems::default());
        let came = fields.unit.serial.as_ref().and_then(|serial| serial::compared(&serial.0));
        let given = fields.exchange.as_ref().and_then(|unit| unit.serial.as_ref());
        let given = given.and_then(|serial| serial::compared(&serial.0));
        let went = if outcome == Outcome::Exchanged { given } else { came.clone() };
        let chosen = fields.decision.as_ref().map(|decision| decision.option.value.word());
        let cause = fields.cause.as_ref().map(|cause| cause.main.value);
        let verdict = &assessed.weighing.verdict;
        let is_carried =
            cause == Some(verdict.main) && !matches!(verdict.support, Support::NotDeterminable);
        Some(Self {
            number: fields.job.0.to_lowercase(),
            came,
            went,
            model: fields.unit.model.as_ref().map(|model| model.0.trim().to_owned()),
            uses: fields.unit.used_for.clone(),
            washing: fields.unit.washed_with,
            km: kilometres(fields),
            arrived: fields.arrival.date.value.0,
            returned: fields.returned.as_ref().map(|day| day.value.0),
            outcome,
            cause,
            is_carried,
            failed: has_failed(fields, outcome),
            kind: chosen.or_else(|| assessed.costs.tier.map(Tier::word)),
            charged: assessed.costs.bill.as_ref().and_then(Charged::of),
            observed: observed(fields, &assessed, cause),
        })
    }
}

impl Charged {
    /// Of a bill that the owner paid.
    fn of(bill: &Bill) -> Option<Self> {
        if !bill.is_borne_by_owner() || bill.lines.is_empty() {
            return None;
        }
        let (mut parts, mut labour, mut hours) = (0.0, 0.0, 0.0);
        for line in &bill.lines {
            let sum = line.sum.to_f64()?;
            match &line.kind {
                LineKind::Part { .. } => parts += sum,
                LineKind::Labour { time, .. } => {
                    labour += sum;
                    hours += time.0.in_base().to_f64()? / MINUTES;
                }
                _ => {}
            }
        }
        let currency = bill.currency.code.to_owned();
        Some(Self { currency, total: bill.total.to_f64()?, parts, labour, hours })
    }
}

fn observed(
    fields: &FindingsSheet,
    assessed: &Assessment,
    cause: Option<CauseKind>,
) -> Option<Observed> {
    fields.strip_down.as_ref()?;
    let cause = RootCause::of(cause?)?;
    Some(Observed { evidence: assessment::evidence(fields, &assessed.bench), cause })
}

fn kilometres(fields: &FindingsSheet) -> Option<f64> {
    let metres = fields.unit.mileage.as_ref()?.0.in_base().to_f64()?;
    (0.0 < metres).then_some(metres / 1000.0)
}

/// Something was harmed, and it was not a unit that was only looked after.
fn has_failed(fields: &FindingsSheet, outcome: Outcome) -> bool {
    let is_closed_well = matches!(outcome, Outcome::NoFaultFound | Outcome::Serviced);
    let is_harmed = |condition: Condition| {
        matches!(
            condition,
            Condition::Worn | Condition::Damaged | Condition::Failed | Condition::Missing
        )
    };
    let findings = fields.strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
    !is_closed_well && findings.iter().any(|finding| is_harmed(finding.condition))
}
