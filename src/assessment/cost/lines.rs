//! The lines of a bill or an option: parts, working time, an agreed or fixed price.
//!
//! In: what is typed under `work` or `options`; out: [`Line`]s. Tax and totals are not here.

use rust_decimal::Decimal;

use super::amount;
use super::problems;
use super::till::Till;
use crate::sheet::findings::{Offer, PartLine};
use crate::sheet::price::Price;
use crate::sheet::quantity::Duration;
use crate::sheet::reader::Marked;
use crate::sheet::vocabulary::OptionKind;

/// What one line is for.
#[derive(Clone, Debug, PartialEq)]
pub enum LineKind {
    /// A part, by the words of the sheet.
    Part(String),
    /// Working time.
    Labour(Duration),
    /// An agreed or fixed price.
    Agreed,
}

/// One line of a bill.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What for.
    pub kind: LineKind,
    /// How many; none for time and agreed prices.
    pub quantity: Option<u32>,
    /// Price of one, or of an hour.
    pub each: Option<Decimal>,
    /// Quantity times price, rounded.
    pub sum: Decimal,
}

impl Till<'_> {
    /// Lines of listed parts and working time.
    pub(super) fn listed(
        &mut self,
        parts: &[PartLine],
        labour: Option<&Marked<Duration>>,
    ) -> Vec<Line> {
        let mut lines: Vec<Line> = parts.iter().map(|part| self.part(part)).collect();
        lines.extend(labour.and_then(|labour| self.labour(labour)));
        lines
    }

    /// The one line of an agreed price.
    pub(super) fn agreed(&mut self, price: &Marked<Price>) -> Vec<Line> {
        let sum = self.price(price);
        vec![self.flat(sum)]
    }

    /// Lines of a way out: its own price, else its parts and time, else the fixed price of its
    /// kind.
    ///
    /// Empty where the sheet and the rate card name none of them.
    pub(super) fn of_option(&mut self, kind: OptionKind, offer: Option<&Offer>) -> Vec<Line> {
        if let Some(price) = offer.and_then(|offer| offer.price.as_ref()) {
            return self.agreed(price);
        }
        let listed = offer.filter(|offer| !offer.parts.is_empty() || offer.labour.is_some());
        if let Some(offer) = listed {
            return self.listed(&offer.parts, offer.labour.as_ref());
        }
        self.fixed_price(kind).map(|sum| self.flat(sum)).into_iter().collect()
    }

    fn flat(&self, sum: Decimal) -> Line {
        let sum = amount::rounded(sum, self.currency);
        Line { kind: LineKind::Agreed, quantity: None, each: None, sum }
    }

    fn part(&mut self, part: &PartLine) -> Line {
        let each = self.price(&part.price);
        let quantity = part.quantity.unwrap_or_default().0;
        let sum = amount::part_of(each, Decimal::from(quantity), Decimal::ONE, self.currency);
        let sheet = self.sheet;
        let sum = self.held(sum, || sheet.place(&part.price.span));
        let each = Some(amount::rounded(each, self.currency));
        Line { kind: LineKind::Part(part.what.0.clone()), quantity: Some(quantity), each, sum }
    }

    fn labour(&mut self, labour: &Marked<Duration>) -> Option<Line> {
        let sheet = self.sheet;
        let Some(rates) = &self.workshop.fields.rates else {
            self.report(problems::no_rate(sheet.place(&labour.span)));
            return None;
        };
        let each = self.own_price(rates.hour, &["rates", "hour"]);
        // Base unit: minutes.
        let sum = amount::part_of(labour.0.in_base(), each, Decimal::from(60), self.currency);
        let sum = self.held(sum, || sheet.place(&labour.span));
        let each = Some(amount::rounded(each, self.currency));
        Some(Line { kind: LineKind::Labour(labour.value.clone()), quantity: None, each, sum })
    }
}
