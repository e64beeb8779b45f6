//! The ways out that were offered, each with its price, side by side.
//!
//! In: `options` of the sheet and the rate card; out: [`OptionCost`]s in the order of the sheet. An
//! offer's own price goes before its parts and time, these before a fixed price of the rate card.

use rust_decimal::Decimal;

use super::lines::{Line, LineKind};
use super::tax::TaxShare;
use super::till::Till;
use crate::sheet::findings::Offer;
use crate::sheet::quantity::Duration;
use crate::sheet::vocabulary::OptionKind;

/// One way out with what it costs.
#[derive(Clone, Debug, PartialEq)]
pub struct OptionCost {
    /// Which way.
    pub kind: OptionKind,
    /// What it costs; `None` where neither sheet nor rate card tells.
    pub price: Option<Quote>,
    /// Working time, where it was typed.
    pub time: Option<Duration>,
    /// Days until the unit can go back.
    pub days: Option<u32>,
    /// What it leaves unsolved.
    pub leaves: Option<String>,
    /// True for the one that the owner chose.
    pub chosen: bool,
}

/// The price of a way out.
#[derive(Clone, Debug, PartialEq)]
pub struct Quote {
    /// Its lines.
    pub lines: Vec<Line>,
    /// Sum of its parts as typed; `None` for a price that is not made of parts and time.
    pub parts: Option<Decimal>,
    /// Sum of its working time as typed; `None` as for parts.
    pub labour: Option<Decimal>,
    /// The tax, where the profile has one.
    pub tax: Option<TaxShare>,
    /// What the owner would pay, tax in it.
    pub total: Decimal,
}

impl Quote {
    /// The price without the tax.
    pub fn without_tax(&self) -> Decimal {
        self.total - self.tax.as_ref().map_or(Decimal::ZERO, |tax| tax.amount)
    }
}

impl Till<'_> {
    /// Every option of the sheet. Of two of the chosen kind, the first is the one chosen.
    pub(super) fn options(&mut self) -> Vec<OptionCost> {
        let fields = &self.sheet.fields;
        let chose = fields.decision.as_ref().map(|decision| decision.chose.value);
        let chosen = fields.options.iter().position(|offer| Some(offer.kind) == chose);
        let offers = fields.options.iter().enumerate();
        offers.map(|(at, offer)| self.option(offer, Some(at) == chosen)).collect()
    }

    fn option(&mut self, offer: &Offer, chosen: bool) -> OptionCost {
        let lines = self.of_option(offer.kind, Some(offer));
        OptionCost {
            kind: offer.kind,
            price: self.quote(lines),
            time: offer.labour.as_ref().map(|labour| labour.value.clone()),
            days: offer.days.map(|days| days.0),
            leaves: offer.leaves.as_ref().map(|leaves| leaves.0.clone()),
            chosen,
        }
    }

    fn quote(&mut self, lines: Vec<Line>) -> Option<Quote> {
        if lines.is_empty() {
            return None;
        }
        let place = self.place(&["options"]);
        let sum = self.sum(&lines, place);
        let added = self.added(&lines, sum, Decimal::ZERO);
        let is_listed = lines.iter().all(|line| line.kind != LineKind::Agreed);
        let of = |is_one: fn(&Line) -> bool| {
            let those = lines.iter().filter(|line| is_one(line));
            is_listed.then(|| those.map(|line| line.sum).sum())
        };
        let parts = of(|line| matches!(line.kind, LineKind::Part(_)));
        let labour = of(|line| matches!(line.kind, LineKind::Labour(_)));
        Some(Quote { parts, labour, tax: added.tax, total: added.total, lines })
    }

    /// What a way out would cost, tax in it: as offered on this sheet, else as fixed.
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
