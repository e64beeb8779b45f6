//! What the work costs and what follows from it: bill, options, tier, what catching it early saves.
//!
//! In: [`Sheet`] and [`Workshop`]; out: [`Costs`] in exact decimals. Every printed number adds up:
//! the total is the sum of the lines, less the discount, with the tax where it comes on top; what
//! is left to pay is the total less credit and deposit. Nothing is worded here.

mod amount;
pub mod discount;
pub mod early;
pub mod economy;
pub mod lines;
pub mod options;
pub mod settlement;
pub mod tax;
pub mod tier;
mod till;

use rust_decimal::Decimal;

use super::problems::cost as problems;
use crate::diagnostic::Problems;
use crate::sheet::catalogue::Part;
use crate::sheet::price::Currency;
use crate::sheet::vocabulary::{OptionKind, Outcome};
use crate::sheet::{Sheet, Workshop};
use discount::TakenOff;
use early::{Caught, NotTold};
use economy::Economy;
pub use lines::{Line, LineKind};
use options::OptionCost;
use settlement::Settlement;
use tax::TaxShare;
use tier::Tier;
use till::Till;

/// A bill in one currency.
#[derive(Clone, Debug, PartialEq)]
pub struct Bill {
    /// Its lines, as typed prices tell: with the tax in them or without. Empty where nothing is
    /// charged and only a deposit or credit is to be settled.
    pub lines: Vec<Line>,
    /// What is taken off the lines.
    pub discount: Option<TakenOff>,
    /// The tax, where the profile has one.
    pub tax: Option<TaxShare>,
    /// Lines less discount, tax in it.
    pub total: Decimal,
    /// From the total to what is left to pay; `None` where nothing was given or paid before.
    pub settlement: Option<Settlement>,
    /// The currency.
    pub currency: Currency,
}

impl Bill {
    /// The sum of the lines, before discount.
    pub fn sum(&self) -> Decimal {
        self.lines.iter().map(|line| line.sum).sum()
    }
}

/// Everything about money that follows from a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Costs {
    /// What is charged; `None` where nothing is, or where the sheet does not tell.
    pub bill: Option<Bill>,
    /// The ways out side by side, in the order of the sheet.
    pub options: Vec<OptionCost>,
    /// How large the job was.
    pub tier: Option<Tier>,
    /// Repairs beside an exchange unit, where both have a price.
    pub economy: Option<Economy>,
    /// What it would have cost at the first sign, or why that cannot be said.
    pub early: Result<Caught, NotTold>,
}

/// Adds up a job; `ran_on` is true where the damage needed running time after a first fault.
pub fn assess(sheet: &Sheet, workshop: &Workshop, ran_on: bool, problems: &mut Problems) -> Costs {
    let mut till = Till::new(sheet, workshop);
    let options = till.options();
    let bill = till.bill();
    let economy = till.economy(&options, bill.as_ref());
    let tier = tier::tier(&sheet.fields, economy.is_some_and(|economy| economy.is_beyond()));
    till.doubts(tier, economy);
    let early = till.early(ran_on, tier, bill.as_ref(), &options);
    problems.extend(till.into_problems());
    Costs { bill, options, tier, economy, early }
}

impl Till<'_> {
    /// The bill of a job.
    ///
    /// A deposit or credit is settled without any line only once the job has ended.
    fn bill(&mut self) -> Option<Bill> {
        let fields = &self.sheet.fields;
        let lines = self.bill_lines();
        let place = self.place(&["work"]);
        let sum = self.sum(&lines, place);
        let discount = fields.work.as_ref().and_then(|work| work.discount.as_ref());
        let discount = discount.and_then(|discount| self.discount(discount, sum));
        let off = discount.as_ref().map_or(Decimal::ZERO, |discount| discount.amount);
        let added = self.added(&lines, sum, off);
        let payments = self.payments();
        let settlement = settlement::settle(added.total, payments);
        if lines.is_empty() && (fields.outcome.is_none() || settlement.is_none()) {
            return None;
        }
        let (tax, total, currency) = (added.tax, added.total, self.currency);
        Some(Bill { lines, discount, tax, total, settlement, currency })
    }

    /// What is charged: the agreed price of the work, else its parts and time, else the way chosen.
    ///
    /// What `work` lists is the whole bill: a unit in exchange that is charged beside it is one of
    /// its parts. A way out that repairs or exchanges is not charged where the unit went back as it
    /// came.
    fn bill_lines(&mut self) -> Vec<Line> {
        let fields = &self.sheet.fields;
        if let Some(work) = &fields.work {
            if let Some(price) = &work.price {
                return self.agreed(price);
            }
            if !work.parts.is_empty() || work.labour.is_some() {
                return self.listed(&work.parts, work.labour.as_ref());
            }
        }
        let Some(decision) = &fields.decision else { return Vec::new() };
        let chose = decision.chose.value;
        let outcome = fields.outcome.as_ref().map(|outcome| outcome.value);
        let as_it_came =
            matches!(outcome, Some(Outcome::ReturnedUnrepaired | Outcome::NoFaultFound));
        if as_it_came && chose != OptionKind::ReturnAsItIs {
            return Vec::new();
        }
        self.of_option(chose, fields.options.iter().find(|offer| offer.kind == chose))
    }

    /// Where the way chosen is not what was done, or costs nearly as much as another unit.
    fn doubts(&mut self, tier: Option<Tier>, economy: Option<Economy>) {
        let fields = &self.sheet.fields;
        self.exchange_doubts();
        let Some(decision) = &fields.decision else { return };
        let place = self.sheet.place(&decision.chose.span);
        let chose = decision.chose.value;
        if let Some(tier) =
            tier.filter(|one| tier::disagrees(chose, *one, fields.outcome.is_some()))
        {
            let findings = fields.strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
            let renewed: Vec<&str> = tier::renewed(findings).into_iter().map(Part::name).collect();
            self.report(problems::other_tier(place.clone(), chose, tier, &renewed));
        }
        if let Some((economy, price)) = economy.and_then(|one| Some((one, one.dear_choice()?))) {
            let (pair, share) = ((price, economy.exchange), economy.per_cent(price));
            self.report(problems::uneconomic(place, self.currency.symbol, pair, share));
        }
    }

    /// An exchange whose own price is not in the bill, and a credit for a unit that went back.
    fn exchange_doubts(&mut self) {
        let fields = &self.sheet.fields;
        let Some(outcome) = &fields.outcome else { return };
        let is_exchanged = outcome.value == Outcome::Exchanged;
        let lists_work = fields.work.as_ref().is_some_and(|work| {
            work.price.is_none() && (!work.parts.is_empty() || work.labour.is_some())
        });
        if is_exchanged && lists_work {
            self.report(problems::exchange_not_billed(self.sheet.place(&outcome.span)));
        }
        let credit = fields.exchange.as_ref().and_then(|exchange| exchange.credit.as_ref());
        if let Some(credit) = credit.filter(|_| !is_exchanged) {
            let place = self.sheet.place(&credit.span);
            self.report(problems::credit_without_exchange(place, outcome.word()));
        }
    }
}
