//! Earlier visits of a unit to the workshop, and jobs that gave it out in exchange: sheets with the
//! same serial number -> what was done, when.
//!
//! In: other jobs' sheets and the one that is asked about; out: visits in order of arrival. As text
//! they go into the bag, so that a paper can be made again from it. Not here: finding the sheets
//! (neighbours).

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::sheet::findings::FindingsSheet;
use crate::sheet::serial;
use crate::sheet::vocabulary::Outcome;

/// One visit, or the day on which the unit was given out in exchange.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Visit {
    /// Number of the job.
    pub job: String,
    /// Model as that sheet names it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub model: Option<String>,
    /// Day of arrival.
    pub arrived: String,
    /// Day of return, if the unit went back.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub returned: Option<String>,
    /// How it ended, by the sheet's word.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub outcome: Option<String>,
    /// Parts on which something was done, by the sheet's words: part, action.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub done: Vec<(String, String)>,
    /// True if this unit did not come in: that job gave it out in exchange for the one that did.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub is_given: bool,
}

impl Visit {
    /// Of a sheet.
    pub fn of(fields: &FindingsSheet) -> Self {
        let findings = fields.strip_down.iter().flat_map(|strip| &strip.findings);
        let done = findings
            .filter_map(|one| Some((one.part.name().to_owned(), one.action?.word().to_owned())));
        Self {
            job: fields.job.0.clone(),
            model: fields.unit.model.as_ref().map(|model| model.0.clone()),
            arrived: fields.arrival.date.0.to_string(),
            returned: fields.returned.as_ref().map(|date| date.0.to_string()),
            outcome: fields.outcome.as_ref().map(|outcome| outcome.word().to_owned()),
            done: done.collect(),
            is_given: false,
        }
    }

    /// Of the unit that a job gave out in exchange, with its serial number as compared.
    fn of_exchange(fields: &FindingsSheet) -> Option<(String, Self)> {
        let is_exchanged = fields.outcome.as_ref()?.value == Outcome::Exchanged;
        let exchange = fields.exchange.as_ref().filter(|_| is_exchanged)?;
        let serial = serial::compared(&exchange.serial.as_ref()?.0)?;
        let model = exchange.model.as_ref().or(fields.unit.model.as_ref());
        let model = model.map(|model| model.0.clone());
        Some((serial, Self { model, done: Vec::new(), is_given: true, ..Self::of(fields) }))
    }

    /// The day on which the unit went back.
    pub fn returned_on(&self) -> Option<NaiveDate> {
        self.returned.as_ref()?.parse().ok()
    }

    /// How it ended.
    pub fn outcome(&self) -> Option<Outcome> {
        let word = self.outcome.as_deref()?;
        Outcome::ALL.iter().copied().find(|outcome| outcome.word() == word)
    }

    /// In the words of the sheet, for whoever works on the job now.
    pub fn in_words(&self) -> String {
        if self.is_given {
            let given = format!("job `{}`, given out in exchange", self.job);
            return self.returned.as_ref().map_or(given.clone(), |day| format!("{given} {day}"));
        }
        let mut text = format!("job `{}`, came in {}", self.job, self.arrived);
        if let Some(returned) = &self.returned {
            text += ", went back ";
            text += returned;
        }
        if let Some(outcome) = &self.outcome {
            text += ", ";
            text += outcome;
        }
        if !self.done.is_empty() {
            let done = self.done.iter().map(|(part, action)| format!("{part} {action}"));
            text += ": ";
            text += &done.collect::<Vec<_>>().join(", ");
        }
        text
    }
}

/// What is known of the earlier visits of a job's unit.
#[derive(Clone, Debug)]
pub enum Earlier {
    /// These, as the job's bag holds them.
    Known(Vec<Visit>),
    /// Those among the visits of many units.
    Among(Arc<Visits>),
}

impl Default for Earlier {
    fn default() -> Self {
        Self::Known(Vec::new())
    }
}

impl Earlier {
    /// The visits before the one of a sheet, the first one first.
    pub fn of(&self, fields: &FindingsSheet) -> Vec<Visit> {
        match self {
            Self::Known(visits) => visits.clone(),
            Self::Among(visits) => visits.before(fields),
        }
    }

    /// All that may be said of them, as text; `sheet` is read for its serial numbers alone.
    pub fn state(&self, sheet: &[u8]) -> String {
        match self {
            Self::Known(visits) => text(visits),
            Self::Among(visits) => {
                serial::glimpsed(sheet).iter().map(|serial| visits.state_of(serial)).collect()
            }
        }
    }
}

/// Visits of many units by their serial numbers, as these are compared.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Visits {
    by_serial: BTreeMap<String, Vec<Visit>>,
}

impl Visits {
    /// Adds the visit of a sheet, and the unit that it gave out in exchange; of two with one number
    /// the later call counts.
    pub fn add(&mut self, fields: &FindingsSheet) {
        let own = serial_of(fields).map(|serial| (serial, Visit::of(fields)));
        for (serial, visit) in own.into_iter().chain(Visit::of_exchange(fields)) {
            let visits = self.by_serial.entry(serial).or_default();
            visits.retain(|other| !other.job.eq_ignore_ascii_case(&visit.job));
            visits.push(visit);
            visits
                .sort_by(|one, other| (&one.arrived, &one.job).cmp(&(&other.arrived, &other.job)));
        }
    }

    /// All visits of a unit, as text; `serial` is as it is compared.
    fn state_of(&self, serial: &str) -> String {
        let visits = self.by_serial.get(serial);
        visits.map_or_else(String::new, |visits| text(visits))
    }

    /// The visits of the unit of a sheet that began before this one, the first one first.
    ///
    /// Two makers may use one number: a unit of another model is another unit.
    pub fn before(&self, fields: &FindingsSheet) -> Vec<Visit> {
        let visits = serial_of(fields).and_then(|serial| self.by_serial.get(&serial));
        let own = Visit::of(fields);
        let is_earlier = |one: &&Visit| {
            !one.job.eq_ignore_ascii_case(&own.job)
                && one.arrived < own.arrived
                && !(one.is_given && one.returned.as_ref().is_some_and(|day| own.arrived < *day))
                && are_one_model(one.model.as_deref(), own.model.as_deref())
        };
        visits.into_iter().flatten().filter(is_earlier).cloned().collect()
    }
}

fn serial_of(fields: &FindingsSheet) -> Option<String> {
    serial::compared(&fields.unit.serial.as_ref()?.0)
}

/// False only if both models are known and differ.
fn are_one_model(one: Option<&str>, other: Option<&str>) -> bool {
    let plain = |model: &str| -> String {
        let letters = model.chars().filter(|letter| letter.is_alphanumeric());
        letters.flat_map(char::to_lowercase).collect()
    };
    one.zip(other).is_none_or(|(one, other)| plain(one) == plain(other))
}

/// Visits as text.
fn text(visits: &[Visit]) -> String {
    // Texts and lists of them always serialise.
    serde_json::to_string_pretty(visits).unwrap_or_default() + "\n"
}

/// Visits as text, if there are any.
pub fn text_of_any(visits: &[Visit]) -> Option<String> {
    (!visits.is_empty()).then(|| text(visits))
}

/// Reads that text.
pub fn read(text: &[u8]) -> Option<Vec<Visit>> {
    serde_json::from_slice(text).ok()
}
