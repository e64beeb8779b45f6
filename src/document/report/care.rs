//! Care: three things for page 1, then the rest of the advice, the card for the first fit, the dated
//! checks, the hand test.
//!
//! In: [`Care`](crate::assessment::care::Care); out: its view. Which advice fits is decided there.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use super::Writer;
use crate::assessment::care::reason::Reason;
use crate::assessment::care::schedule::{Interval, NextCheck, Span, WORKSHOP_LOOK};
use crate::assessment::care::state::Hazard;
use crate::assessment::care::table::Source;
use crate::assessment::care::todo::Todo;
use crate::document::format;
use crate::document::view::care::{Card, CareItem, CareView, CheckRow, Schedule, Steps};
use crate::document::view::{Advice, AdviceList};
use crate::sheet::vocabulary::Outcome;

/// Most pieces of advice beyond page 1.
const MOST_ADVICE: usize = 3;

impl Writer<'_> {
    pub(super) fn todo(&self) -> Option<AdviceList> {
        let todo = self.material.assessment.care.todo();
        let items: Vec<Advice> = todo.iter().map(|todo| self.thing(todo)).collect();
        let heading = self.wording.item("things-to-do", items.len()).to_owned();
        (!items.is_empty()).then_some(AdviceList { heading, items })
    }

    fn thing(&self, todo: &Todo<'_>) -> Advice {
        let words = self.wording.care();
        let filled = |key: &str, gap: &str, value: &str| {
            let text = |which| words.page_one(key, which).replace(gap, value);
            Advice { what: text("what"), more: text("why") }
        };
        let dated = |key: &str, date| filled(key, "{day}", &format::day(date, self.wording));
        match todo {
            Todo::Danger(danger) => {
                let sign = self.wording.sign(danger.sign.name(), "plain");
                filled(&format!("danger-{}", danger.hazard.word()), "{sign}", sign)
            }
            Todo::Advice(one) => {
                let text = |which| words.advice(one.rule, which).to_owned();
                Advice { what: text("what"), more: text("why") }
            }
            Todo::Fastenings { date } => dated("fastenings", *date),
            Todo::HandTest { kind, date } => dated(&format!("hand-test-{}", kind.word()), *date),
        }
    }

    pub(super) fn care(&self) -> Option<CareView> {
        let care = &self.material.assessment.care;
        let words = self.wording.care();
        let own = self.fields().advice.iter();
        let mut items: Vec<CareItem> = own
            .map(|own| CareItem { what: own.0.clone(), why: String::new(), because: String::new() })
            .collect();
        items.extend(care.beyond_page_one().iter().take(MOST_ADVICE).map(|one| {
            let text = |which| words.advice(one.rule, which).to_owned();
            let mut because = String::new();
            self.add(&mut because, "fits", self.reasons(&one.because));
            if let Source::Published(source) = &one.source {
                let source = words.form("source").replace("{source}", source);
                join(&mut because, &source);
            }
            CareItem { what: text("what"), why: text("why"), because }
        }));
        let steps = care.hand_test.map(|kind| Steps {
            heading: words.check("hand-test", "what").to_owned(),
            steps: words.hand_test(kind).to_vec(),
        });
        let schedule = self.schedule();
        let safety = care.dangers.iter().map(|danger| {
            let caution = self.wording.label(match danger.hazard {
                Hazard::Battery => "danger-caution-battery",
                Hazard::Ride => "danger-caution-ride",
            });
            caution.replace("{sign}", self.wording.sign(danger.sign.name(), "plain"))
        });
        let cautions = care.cautions.iter().map(|name| words.caution(name).to_owned());
        if items.is_empty() && schedule.is_none() && care.cautions.is_empty() {
            return None;
        }
        let heading = match self.fields().outcome.as_ref().map(|outcome| outcome.value) {
            Some(Outcome::ReturnedUnrepaired) | None => "care-heading-unrepaired",
            _ if !care.dangers.is_empty() => "care-heading-unrepaired",
            _ => "care-heading",
        };
        Some(CareView {
            heading: self.wording.label(heading).to_owned(),
            items,
            refit: self.refit(),
            schedule,
            hand_test: steps,
            cautions: safety.chain(cautions).collect(),
        })
    }

    fn refit(&self) -> Option<Card> {
        let words = self.wording.care();
        let lines = self.material.assessment.care.refit.iter();
        let lines: Vec<String> = lines.map(|name| words.refit(name).to_owned()).collect();
        (!lines.is_empty()).then(|| Card {
            heading: words.refit_card("heading").to_owned(),
            text: words.refit_card("text").to_owned(),
            lines,
        })
    }

    fn schedule(&self) -> Option<Schedule> {
        let care = &self.material.assessment.care;
        let words = self.wording.care();
        let rows: Vec<CheckRow> =
            care.checks.iter().filter_map(|check| self.check_row(check)).collect();
        let note = match &care.pace {
            Ok(pace) => {
                words.form("by-pace").replace("{distance}", &self.pace_a_day(pace.km_a_day()))
            }
            Err(_) => words.form("by-calendar").to_owned(),
        };
        let label = |key| self.wording.label(key).to_owned();
        (!rows.is_empty()).then(|| Schedule {
            heading: label("next-checks"),
            columns: vec![label("check-when"), label("check-what")],
            rows,
            note,
        })
    }

    /// Without a day there is nothing to put on a calendar.
    fn check_row(&self, check: &NextCheck) -> Option<CheckRow> {
        let words = self.wording.care();
        let day: NaiveDate = check.date?;
        let or = match check.odometer {
            Some(reading) => words.form("or-at").replace("{distance}", &self.way(reading)),
            None => words.form("or-after").replace("{distance}", &self.way(check.after)),
        };
        // Whoever posted the unit seldom lives near us.
        let is_posted = self.material.assessment.care.posted && check.kind == WORKSHOP_LOOK;
        let key = if is_posted { "workshop-look-posted" } else { check.kind };
        let mut more =
            check.every.map_or_else(|| words.form("once").to_owned(), |every| self.every(every));
        more = format::capitalised(&more) + ".";
        self.add(&mut more, "sooner", self.reasons(&check.because));
        if let Source::Published(source) = &check.source {
            more = format!("{more} {}", words.form("source").replace("{source}", source));
        }
        Some(CheckRow {
            when: format::day(day, self.wording),
            or,
            what: words.check(key, "what").to_owned(),
            how: words.check(key, "how").to_owned(),
            more,
        })
    }

    fn every(&self, every: Interval) -> String {
        let (key, n) = match every.span {
            Span::Weeks(1) => ("every-week", 1),
            Span::Weeks(n) => ("every-weeks", n),
            Span::Months(1) => ("every-month", 1),
            Span::Months(n) => ("every-months", n),
        };
        let form = self.wording.care().form(key).replace("{n}", &n.to_string());
        form.replace("{distance}", &self.way(every.km))
    }

    fn reasons(&self, because: &[Reason]) -> Vec<String> {
        let words = because.iter().filter_map(|reason| self.wording.care().because(*reason));
        let mut reasons: Vec<String> = Vec::new();
        for word in words {
            if !reasons.iter().any(|known| known == word) {
                reasons.push(word.to_owned());
            }
        }
        reasons
    }

    fn add(&self, text: &mut String, form: &str, list: Vec<String>) {
        if !list.is_empty() {
            let list = list.join("; ");
            let form = self.wording.care().form(form).replace("{list}", &list);
            join(text, &form);
        }
    }

    /// Kilometres in the paper's units, rounded down so that no check comes late.
    fn way(&self, km: Decimal) -> String {
        let units = self.material.workshop.fields.units.unwrap_or_default();
        format::interval(km, units, self.wording)
    }

    fn pace_a_day(&self, km: Decimal) -> String {
        let units = self.material.workshop.fields.units.unwrap_or_default();
        format::way_a_day(km, units, self.wording)
    }
}

/// Adds a sentence after those that are there.
fn join(text: &mut String, sentence: &str) {
    if !text.is_empty() {
        text.push(' ');
    }
    text.push_str(sentence);
}
