//! Whether a repair is worth its price beside a unit in exchange.
//!
//! In: prices of the options, the bill, the rate card; out: [`Economy`]. That a repair from 80 % of
//! an exchange unit's price on is uneconomic is common practice, no source; `uneconomic-from` of
//! the profile sets another share. An expensive repair is reported; what is done is the owner's choice.

use rust_decimal::{Decimal, RoundingStrategy};

use super::bill::Bill;
use super::billing::Billing;
use super::options::{Firm, OptionCost};
use super::tier::Tier;
use crate::sheet::vocabulary::{OptionKind, Outcome};

/// The share from which a repair is uneconomic, in per cent (common practice, no source).
pub const UNECONOMIC_FROM: Decimal = Decimal::from_parts(80, 0, 0, false, 0);

/// Repairs beside a unit in exchange; every price with its tax, before credit and deposit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Economy {
    /// The cheapest repair that was offered or billed.
    pub cheapest: Decimal,
    /// The repair that the owner chose, as billed, else as offered.
    pub chosen: Option<Decimal>,
    /// A unit in exchange.
    pub exchange: Decimal,
    /// The share in per cent from which a repair is uneconomic.
    pub from: Decimal,
}

impl Economy {
    /// True if even the cheapest repair reaches the share.
    pub fn is_beyond(&self) -> bool {
        self.reaches(self.cheapest)
    }

    /// The chosen repair, if it reaches the share.
    pub fn dear_choice(&self) -> Option<Decimal> {
        self.chosen.filter(|price| self.reaches(*price))
    }

    /// A price in whole per cent of the exchange unit's, rounded down.
    pub fn per_cent(&self, price: Decimal) -> Option<Decimal> {
        let share = price.checked_mul(Decimal::ONE_HUNDRED)?.checked_div(self.exchange)?;
        Some(share.round_dp_with_strategy(0, RoundingStrategy::ToZero))
    }

    fn reaches(&self, price: Decimal) -> bool {
        let hundredfold = price.checked_mul(Decimal::ONE_HUNDRED);
        // A share too large to multiply by is one that no price reaches.
        self.exchange.checked_mul(self.from).zip(hundredfold).is_some_and(|(from, own)| from <= own)
    }
}

/// A repair whose stated price reaches the share of the stated price of a unit in exchange.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dear {
    /// The repair.
    pub kind: OptionKind,
    /// Its price.
    pub repair: Decimal,
    /// The price of a unit in exchange.
    pub exchange: Decimal,
    /// The repair in whole per cent of the exchange, rounded down.
    pub share: Decimal,
}

impl Economy {
    /// The chosen repair, else the cheapest, if it is dear beside an exchange that was offered too;
    /// both as fixed prices of these options.
    pub fn dear(&self, options: &[OptionCost]) -> Option<Dear> {
        let fixed = |option: &OptionCost| {
            option.price.as_ref().filter(|price| price.firm == Firm::Fixed).map(|price| price.total)
        };
        let priced = || options.iter().filter_map(|option| Some((option, fixed(option)?)));
        let exchanges = priced().filter(|(option, _)| option.kind == OptionKind::Exchange);
        let exchange = exchanges.map(|(_, price)| price).min().filter(|price| !price.is_zero())?;
        let repairs = || priced().filter(|(option, _)| Tier::of_repair(option.kind).is_some());
        let chosen = repairs().find(|(option, _)| option.chosen);
        let (option, repair) = chosen.or_else(|| repairs().min_by_key(|(_, price)| *price))?;
        let own = Self { exchange, ..*self };
        let share = own.per_cent(repair).filter(|_| own.reaches(repair))?;
        Some(Dear { kind: option.kind, repair, exchange, share })
    }
}

impl Billing<'_> {
    /// Compares; `None` if no repair or no exchange unit has a price.
    pub(super) fn economy(
        &mut self,
        options: &[OptionCost],
        bill: Option<&Bill>,
    ) -> Option<Economy> {
        let fields = &self.sheet.fields;
        let chose = fields.decision.as_ref().map(|decision| decision.option.value);
        let is_repaired = fields.outcome.as_ref().map(|outcome| outcome.value);
        let is_repaired = is_repaired == Some(Outcome::Repaired);
        let is_repair = chose.map_or(is_repaired, |chose| Tier::of_repair(chose).is_some());
        let billed = bill
            .filter(|bill| is_repair && bill.is_borne_by_owner() && !bill.lines.is_empty())
            .map(|bill| bill.total);
        let repairs = options.iter().filter(|option| Tier::of_repair(option.kind).is_some());
        let priced = repairs.filter_map(|option| Some((option, option.price.as_ref()?.total)));
        let priced: Vec<(&OptionCost, Decimal)> = priced.collect();
        let cheapest = priced.iter().map(|(_, price)| *price).chain(billed).min()?;
        let offered = priced.iter().find(|(option, _)| option.chosen).map(|(_, price)| *price);
        let exchange = self.known_price(options, OptionKind::Exchange);
        let exchange = exchange.filter(|price| !price.is_zero())?;
        let from =
            self.workshop.fields.rates.as_ref().and_then(|rates| rates.uneconomic_from.as_ref());
        let from = from.map_or(UNECONOMIC_FROM, |share| share.0.number);
        Some(Economy { cheapest, chosen: billed.or(offered), exchange, from })
    }
}
