//! What the work costs and what follows from it: bill, options, tier, what catching it early saves.
//!
//! In: [`Sheet`] and [`ProfileFile`]; out: [`Costs`] in exact decimals. Every printed number adds up:
//! the total is the sum of the lines, less the discount, with the tax if it comes on top; what
//! is left to pay is the total less credit and deposit. Nothing is worded here.

mod amount;
mod as_it_is;
mod bill;
mod billing;
pub mod discount;
pub mod early;
pub mod economy;
mod fraction;
pub mod gap;
pub mod levy;
pub mod lines;
pub mod options;
pub mod settlement;
pub mod tax;
pub mod tier;
mod unused;

use rust_decimal::Decimal;

use super::problems::cost as problems;
use crate::diagnostic::Problems;
use crate::sheet::catalogue::Part;
use crate::sheet::charges::BillKind;
use crate::sheet::vocabulary::{OptionKind, Outcome, YesNo};
use crate::sheet::{ProfileFile, Sheet};
pub use bill::Bill;
use billing::Billing;
use early::{Caught, NotTold, Offered};
use economy::Economy;
use gap::Gap;
use levy::Taxed;
pub use lines::{Line, LineKind};
use options::OptionCost;
use tier::Tier;

/// Everything about money that follows from a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Costs {
    /// What is charged; `None` if nothing is, or if the sheet does not say.
    pub bill: Option<Bill>,
    /// The options side by side, in the order of the sheet.
    pub options: Vec<OptionCost>,
    /// How far the bill is from the price of the option that was chosen.
    pub gap: Option<Gap>,
    /// How large the job was.
    pub tier: Option<Tier>,
    /// Repairs beside an exchange unit, if both have a price.
    pub economy: Option<Economy>,
    /// What it would have cost at the first sign, or why that cannot be said.
    pub early: Result<Caught, NotTold>,
    /// The same beside repairs that are offered.
    pub early_offered: Option<Offered>,
    /// The way that is always open, to have it back as it is, if the sheet offers others alone.
    pub as_it_is: Option<OptionCost>,
    /// The fee for looking into it, tax in it.
    pub examination: Option<Decimal>,
}

/// Adds up a job.
pub fn assess(sheet: &Sheet, workshop: &ProfileFile, problems: &mut Problems) -> Costs {
    let mut billing = Billing::new(sheet, workshop);
    let options = billing.options();
    let bill = billing.bill();
    let economy = billing.economy(&options, bill.as_ref());
    let tier = tier::tier(&sheet.fields, economy.is_some_and(|economy| economy.is_beyond()));
    let gap = billing.gap(&options, bill.as_ref());
    billing.doubts(tier, economy);
    billing.unused(bill.as_ref(), gap.as_ref());
    let early = billing.early(tier, bill.as_ref(), &options);
    let early_offered = billing.early_offered(&options);
    let (as_it_is, examination) = (billing.as_it_is(&options), billing.examination_fee());
    problems.extend(billing.into_problems());
    Costs { bill, options, gap, tier, economy, early, early_offered, as_it_is, examination }
}

impl Billing<'_> {
    /// The bill of a job.
    ///
    /// A deposit or credit is settled without any line only once the job has ended.
    fn bill(&mut self) -> Option<Bill> {
        let fields = &self.sheet.fields;
        let lines = self.bill_lines();
        let place = self.place(&["work"]);
        let sum = self.sum(&lines, place);
        let discount = fields.work.as_ref().and_then(|work| work.discount.as_ref());
        let discount = discount.and_then(|discount| self.discount(discount, &lines));
        let added = self.added(&lines, sum, discount.as_ref());
        let billing = fields.billing.as_ref();
        let kind = billing.and_then(|billing| billing.kind.as_ref());
        let kind = kind.map_or(BillKind::Charged, |kind| kind.value);
        let due = if kind == BillKind::Charged { added.total } else { Decimal::ZERO };
        let settlement = settlement::settle(due, self.payments());
        if lines.is_empty() && (fields.outcome.is_none() || settlement.is_none()) {
            return None;
        }
        let (taxes, total, currency, scheme) =
            (added.taxes, added.total, self.currency, self.scheme());
        Some(Bill { kind, scheme, lines, discount, taxes, total, settlement, currency })
    }

    /// What is charged: the work or the option chosen, and the fee for looking into it.
    ///
    /// If nothing else is charged, the fee is the whole bill; a price that was typed for returning
    /// the unit as it is, is that fee already.
    fn bill_lines(&mut self) -> Vec<Line> {
        let mut lines = self.work_lines();
        let Some(billing) = &self.sheet.fields.billing else { return lines };
        let has_fee = lines.iter().any(|line| line.kind == LineKind::Examination);
        let Some(fee) = billing.inspection.as_ref().filter(|_| !has_fee) else { return lines };
        let is_credited = billing.inspection_credited == Some(YesNo::Yes) && !lines.is_empty();
        let charged = self.fee(fee, LineKind::Examination, Taxed::Labour);
        if is_credited {
            let (kind, sum) = (LineKind::ExaminationCredited, -charged.sum);
            lines.push(Line { kind, sum, ..charged.clone() });
        }
        lines.insert(0, charged);
        lines
    }

    /// True if the unit went back as it came, and something else had been chosen.
    fn is_unwanted(&self) -> bool {
        let fields = &self.sheet.fields;
        let outcome = fields.outcome.as_ref().map(|outcome| outcome.value);
        let chose = fields.decision.as_ref().map(|decision| decision.option.value);
        matches!(outcome, Some(Outcome::ReturnedUnrepaired | Outcome::NoFaultFound))
            && chose.is_some_and(|chose| chose != OptionKind::ReturnAsItIs)
    }

    /// The agreed price of the work, else its parts and time, else the option chosen.
    ///
    /// What `work` lists is the whole bill: a unit in exchange that is charged beside it is one of
    /// its parts. An option that repairs or exchanges is not charged if the unit went back as it
    /// came.
    fn work_lines(&mut self) -> Vec<Line> {
        let fields = &self.sheet.fields;
        let postage = fields.work.as_ref().and_then(|work| work.postage.as_ref());
        let chose = fields.decision.as_ref().map(|decision| decision.option.value);
        if let Some(work) = &fields.work {
            if let Some(price) = &work.price {
                let sum = self.price(price);
                let own = self.agreed(sum, chose, work.tax.as_ref(), &["work", "price"]);
                return [own].into_iter().chain(self.postage(postage)).collect();
            }
            if !work.parts.is_empty() || work.labour.is_some() {
                return self.listed(&work.parts, work.labour.as_ref(), postage);
            }
        }
        let Some(chose) = chose else { return self.postage(postage).into_iter().collect() };
        if self.is_unwanted() {
            return self.postage(postage).into_iter().collect();
        }
        let offer = fields.options.iter().find(|offer| offer.kind == chose);
        if let Some(asked) =
            offer.and_then(|offer| offer.price.as_ref()).filter(|price| !price.is_fixed())
        {
            if fields.outcome.is_some() {
                self.report(problems::price_left_open(self.sheet.place(&asked.span)));
            }
            return Vec::new();
        }
        let mut lines = self.of_option(chose, offer);
        if !lines.iter().any(|line| line.kind == LineKind::Postage) {
            lines.extend(self.postage(postage));
        }
        lines
    }

    /// If the option chosen is not what was done, or costs nearly as much as another unit.
    fn doubts(&mut self, tier: Option<Tier>, economy: Option<Economy>) {
        let fields = &self.sheet.fields;
        self.exchange_doubts();
        let Some(decision) = &fields.decision else { return };
        let place = self.sheet.place(&decision.option.span);
        let chose = decision.option.value;
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
