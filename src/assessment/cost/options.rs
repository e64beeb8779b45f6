//! The options that were offered, each with its price, side by side.
//!
//! In: `options` of the sheet and the rate card; out: [`OptionCost`]s in the order of the sheet. An
//! offer's own price goes before its parts and time, these before a fixed price of the rate card.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use super::billing::Billing;
use super::lines::{Line, LineKind};
use super::tax::TaxShare;
use crate::assessment::problems::cost as problems;
use crate::sheet::asked_price::AskedPrice;
use crate::sheet::charges::Offer;
use crate::sheet::quantity::Duration;
use crate::sheet::vocabulary::OptionKind;

/// One option with what it costs.
#[derive(Clone, Debug, PartialEq)]
pub struct OptionCost {
    /// Which one.
    pub kind: OptionKind,
    /// What it costs; `None` if neither sheet nor rate card says.
    pub price: Option<Quote>,
    /// Working time at each rate, if it was typed.
    pub times: Vec<Duration>,
    /// Days until the unit can go back.
    pub days: Option<u32>,
    /// What it leaves unsolved.
    pub leaves: Option<String>,
    /// Months of guarantee, if the sheet has its own.
    pub guarantee_months: Option<u32>,
    /// The parts that it renews, as typed: how many, and what.
    pub parts: Vec<(u32, String)>,
    /// The last day on which its price holds.
    pub valid_to: Option<NaiveDate>,
    /// True for the one that the owner chose.
    pub chosen: bool,
}

/// The price of an option.
#[derive(Clone, Debug, PartialEq)]
pub struct Quote {
    /// Its lines.
    pub lines: Vec<Line>,
    /// Sum of its parts as typed; `None` for a price that is not made of parts and time.
    pub parts: Option<Decimal>,
    /// Sum of its working time as typed; `None` as for parts.
    pub labour: Option<Decimal>,
    /// Its postage, if there is any.
    pub postage: Option<Decimal>,
    /// Its taxes.
    pub taxes: Vec<TaxShare>,
    /// What the owner would pay, tax in it; the most, if it is not one price.
    pub total: Decimal,
    /// How firm that price is.
    pub firm: Firm,
}

/// How firm a price is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Firm {
    /// It is this.
    Fixed,
    /// It starts here, tax in it, and ends at the total.
    From(Decimal),
    /// It will not be more.
    AtMost,
}

impl Billing<'_> {
    /// Every option of the sheet. Of two of the chosen kind, the first is the one chosen.
    pub(super) fn options(&mut self) -> Vec<OptionCost> {
        let fields = &self.sheet.fields;
        let chose = fields.decision.as_ref().map(|decision| decision.option.value);
        let chosen = fields.options.iter().position(|offer| Some(offer.kind) == chose);
        let offers = fields.options.iter().enumerate();
        offers.map(|(at, offer)| self.option(offer, Some(at) == chosen)).collect()
    }

    pub(super) fn option(&mut self, offer: &Offer, chosen: bool) -> OptionCost {
        let lines = self.of_option(offer.kind, Some(offer));
        let price = self.quote(lines).map(|quote| self.firmed(quote, offer));
        let all = self.sheet.fields.options_valid_to.as_ref();
        let valid_to = offer.valid_to.as_ref().or(all);
        if let Some(valid_to) = valid_to.filter(|_| chosen) {
            self.check_decided_in_time(valid_to.value.0, valid_to.span.clone());
        }
        let times = offer.labour.as_ref().map_or(&[][..], |labour| &labour.lines);
        let parts = offer.parts.iter();
        let parts = parts.map(|part| (part.quantity.unwrap_or_default().0, part.what.0.clone()));
        OptionCost {
            kind: offer.kind,
            price,
            times: times.iter().map(|line| line.time.value.clone()).collect(),
            days: offer.days.map(|days| days.0),
            leaves: offer.remaining.as_ref().map(|leaves| leaves.0.clone()),
            guarantee_months: offer.guarantee_months.map(|months| months.0),
            parts: parts.collect(),
            valid_to: valid_to.map(|day| day.value.0),
            chosen,
        }
    }

    /// The quote with how firm it is; a price from-to has its tax at both ends.
    fn firmed(&mut self, mut quote: Quote, offer: &Offer) -> Quote {
        let Some(asked) = &offer.price else { return quote };
        quote.firm = match asked.value {
            AskedPrice::Fixed(_) => Firm::Fixed,
            AskedPrice::AtMost(_) => Firm::AtMost,
            AskedPrice::Between(from, _) => {
                let from = self.taken(from, self.sheet.place(&asked.span));
                let tax = offer.tax.as_ref();
                let mut lines = vec![self.agreed(from, Some(offer.kind), tax, &["options"])];
                lines.extend(self.postage(offer.postage.as_ref()));
                Firm::From(self.quote(lines).map_or(from, |least| least.total))
            }
        };
        quote
    }

    fn check_decided_in_time(&mut self, valid_to: NaiveDate, span: std::ops::Range<usize>) {
        let decision = self.sheet.fields.decision.as_ref();
        let Some(date) = decision.and_then(|decision| decision.date.as_ref()) else { return };
        if valid_to < date.value.0 {
            let (place, until) = (self.sheet.place(&date.span), self.sheet.place(&span));
            self.report(problems::decided_late(place, until));
        }
    }

    pub(super) fn quote(&mut self, lines: Vec<Line>) -> Option<Quote> {
        if lines.is_empty() {
            return None;
        }
        let place = self.place(&["options"]);
        let sum = self.sum(&lines, place);
        let added = self.added(&lines, sum, None);
        let is_agreed = |line: &Line| matches!(line.kind, LineKind::Agreed | LineKind::Examination);
        let is_listed = !lines.iter().any(is_agreed);
        let sum_of = |is_one: fn(&LineKind) -> bool| {
            lines.iter().filter(|line| is_one(&line.kind)).map(|line| line.sum).sum()
        };
        let is_part = |kind: &LineKind| {
            matches!(
                kind,
                LineKind::Part { .. } | LineKind::CoreCharge(_) | LineKind::CoreReturned(..)
            )
        };
        let postage: Decimal = sum_of(|kind| matches!(kind, LineKind::Postage));
        Some(Quote {
            parts: is_listed.then(|| sum_of(is_part)),
            labour: is_listed.then(|| sum_of(|kind| matches!(kind, LineKind::Labour { .. }))),
            postage: (!postage.is_zero()).then_some(postage),
            taxes: added.taxes,
            total: added.total,
            firm: Firm::Fixed,
            lines,
        })
    }

    /// What an option would cost, tax in it: as offered on this sheet, else as fixed.
    pub(super) fn known_price(
        &mut self,
        options: &[OptionCost],
        kind: OptionKind,
    ) -> Option<Decimal> {
        let offered = options.iter().filter(|option| option.kind == kind);
        let offered = offered.filter_map(|option| option.price.as_ref()).map(|price| price.total);
        offered.min().or_else(|| {
            let lines = self.of_option(kind, None);
            self.quote(lines).map(|quote| quote.total)
        })
    }
}
