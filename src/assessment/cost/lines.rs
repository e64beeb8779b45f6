//! The lines of a bill or an option: parts, working time, fees, an agreed or fixed price.
//!
//! In: what is typed under `work`, `options` or `billing`; out: [`Line`]s with their taxes. What the
//! taxes come to, and totals, are not here.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use super::amount;
use super::billing::Billing;
use super::levy::{Levy, Taxable, Taxed};
use crate::assessment::problems::cost as problems;
use crate::sheet::charges::{Fee, Labour, LabourLine, Offer, PartLine, PartState};
use crate::sheet::line_tax::LineTax;
use crate::sheet::price::Price;
use crate::sheet::quantity::Duration;
use crate::sheet::reader::Marked;
use crate::sheet::vocabulary::OptionKind;

/// What one line is for.
#[derive(Clone, Debug, PartialEq)]
pub enum LineKind {
    /// A part.
    Part {
        /// Its name, in the words of the sheet.
        what: String,
        /// Whether it was used before, if that is said.
        state: Option<PartState>,
    },
    /// Working time.
    Labour {
        /// How long.
        time: Duration,
        /// The name of its rate, if it is not the usual one.
        rate: Option<String>,
        /// What for, if that is said.
        what: Option<String>,
    },
    /// An agreed or fixed price.
    Agreed,
    /// The fee for looking into it.
    Examination,
    /// That fee, credited against a repair.
    ExaminationCredited,
    /// Postage.
    Postage,
    /// The surcharge for the old part of this name.
    CoreCharge(String),
    /// That surcharge, refunded on a day.
    CoreReturned(String, NaiveDate),
}

/// One line of a bill.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What for.
    pub kind: LineKind,
    /// How many; none for time, fees and agreed prices.
    pub quantity: Option<u32>,
    /// Price of one, or of an hour.
    pub each: Option<Decimal>,
    /// Quantity times price, rounded; below zero if something is credited.
    pub sum: Decimal,
    /// The taxes on it.
    pub taxes: Vec<Levy>,
}

impl Line {
    /// A line of one amount.
    fn flat(kind: LineKind, (sum, taxes): (Decimal, Vec<Levy>)) -> Self {
        Self { kind, quantity: None, each: None, sum, taxes }
    }
}

impl Billing<'_> {
    /// Lines of listed parts, working time and postage.
    pub(super) fn listed(
        &mut self,
        parts: &[PartLine],
        labour: Option<&Labour>,
        postage: Option<&Fee>,
    ) -> Vec<Line> {
        let mut lines: Vec<Line> = parts.iter().flat_map(|part| self.part(part)).collect();
        let times = labour.map_or(&[][..], |labour| &labour.lines);
        lines.extend(times.iter().filter_map(|time| self.labour(time)));
        lines.extend(self.postage(postage));
        lines
    }

    /// The line of postage.
    pub(super) fn postage(&mut self, postage: Option<&Fee>) -> Option<Line> {
        Some(self.fee(postage?, LineKind::Postage, Taxed::Other))
    }

    /// The one line of an agreed price; `kind` is the option that it is for.
    pub(super) fn agreed(
        &mut self,
        sum: Decimal,
        kind: Option<OptionKind>,
        tax: Option<&Marked<LineTax>>,
        path: &[&str],
    ) -> Line {
        let (line, is) = match kind {
            Some(OptionKind::ReturnAsItIs) => (LineKind::Examination, Taxed::Labour),
            Some(OptionKind::Exchange | OptionKind::NewUnit) => (LineKind::Agreed, Taxed::Part),
            _ => (LineKind::Agreed, Taxed::Mixed),
        };
        let (sum, taxes) = self.levied(sum, &Taxable { is, typed: tax, path });
        Line::flat(line, (amount::rounded(sum, self.currency), taxes))
    }

    /// Lines of an option: its own price, else its parts and time, else the fixed price of its
    /// kind; postage beside them.
    ///
    /// Empty if the sheet and the rate card name none of them.
    pub(super) fn of_option(&mut self, kind: OptionKind, offer: Option<&Offer>) -> Vec<Line> {
        let (tax, path) = (offer.and_then(|offer| offer.tax.as_ref()), &["options"][..]);
        let postage = offer.and_then(|offer| offer.postage.as_ref());
        let listed = offer.filter(|offer| !offer.parts.is_empty() || offer.labour.is_some());
        let mut lines = match (offer.and_then(|offer| offer.price.as_ref()), listed) {
            (Some(price), _) => {
                let most = self.taken(price.value.most(), self.sheet.place(&price.span));
                vec![self.agreed(most, Some(kind), tax, path)]
            }
            (None, Some(offer)) => self.listed(&offer.parts, offer.labour.as_ref(), None),
            (None, None) => match self.fixed_price(kind) {
                Some(sum) => vec![self.agreed(sum, Some(kind), tax, path)],
                None => return Vec::new(),
            },
        };
        lines.extend(self.postage(postage));
        lines
    }

    /// A line of a fee.
    pub(super) fn fee(&mut self, fee: &Fee, kind: LineKind, is: Taxed) -> Line {
        let typed = self.price(&fee.price);
        let taxable = Taxable { is, typed: fee.tax.as_ref(), path: &[] };
        let (sum, taxes) = self.levied(typed, &taxable);
        Line::flat(kind, (amount::rounded(sum, self.currency), taxes))
    }

    fn part(&mut self, part: &PartLine) -> Vec<Line> {
        let quantity = part.quantity.unwrap_or_default().0;
        let what = part.what.0.clone();
        let taxable = Taxable { is: Taxed::Part, typed: part.tax.as_ref(), path: &[] };
        let sheet = self.sheet;
        let line = |billing: &mut Self, kind, price: &Marked<Price>| {
            let each = billing.price(price);
            let (each, taxes) = billing.levied(each, &taxable);
            let sum =
                amount::part_of(each, Decimal::from(quantity), Decimal::ONE, billing.currency);
            let sum = billing.held(sum, || sheet.place(&price.span));
            let each = Some(amount::rounded(each, billing.currency));
            Line { kind, quantity: Some(quantity), each, sum, taxes }
        };
        // A sheet is whole only if each part has a price, its own or that of the list.
        let kind = LineKind::Part { what: what.clone(), state: part.state };
        let mut lines: Vec<Line> =
            part.price.iter().map(|price| line(self, kind.clone(), price)).collect();
        if let Some(charge) = &part.core_charge {
            let charged = line(self, LineKind::CoreCharge(what.clone()), charge);
            let back = part.core_returned.as_ref().map(|day| Line {
                kind: LineKind::CoreReturned(what, day.value.0),
                each: charged.each.map(|each| -each),
                sum: -charged.sum,
                ..charged.clone()
            });
            lines.push(charged);
            lines.extend(back);
        }
        lines
    }

    fn labour(&mut self, labour: &LabourLine) -> Option<Line> {
        let sheet = self.sheet;
        let each = self.hour(labour)?;
        let taxable = Taxable { is: Taxed::Labour, typed: labour.tax.as_ref(), path: &[] };
        let (each, taxes) = self.levied(each, &taxable);
        let (time, sixty) = (&labour.time, Decimal::from(60));
        // Base unit: minutes.
        let sum = amount::part_of(time.0.in_base(), each, sixty, self.currency);
        let sum = self.held(sum, || sheet.place(&time.span));
        let kind = LineKind::Labour {
            time: time.value.clone(),
            rate: labour.rate.as_ref().map(|rate| rate.0.clone()),
            what: labour.what.as_ref().map(|what| what.0.clone()),
        };
        let each = Some(amount::rounded(each, self.currency));
        Some(Line { kind, quantity: None, each, sum, taxes })
    }

    /// The price of an hour of this work.
    fn hour(&mut self, labour: &LabourLine) -> Option<Decimal> {
        let sheet = self.sheet;
        let Some(rates) = &self.workshop.fields.rates else {
            self.report(problems::no_rate(sheet.place(&labour.time.span)));
            return None;
        };
        let Some(name) = &labour.rate else {
            return Some(self.own_price(rates.hour, &["rates", "hour"]));
        };
        let own = rates.hours.iter().find(|one| one.name.0 == name.0);
        let Some(own) = own else {
            let names: Vec<&str> = rates.hours.iter().map(|one| one.name.0.as_str()).collect();
            self.report(problems::unknown_rate(sheet.place(&name.span), &name.0, &names));
            return None;
        };
        Some(self.own_price(own.price, &["rates", "hours"]))
    }
}
