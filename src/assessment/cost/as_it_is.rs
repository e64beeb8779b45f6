//! The way that is always open: to have the unit back as it is, and what looking into it costs.
//!
//! In: `options` and `billing` of the sheet, the rate card; out: an [`OptionCost`] if the sheet offers
//! other ways alone, and a warning while the owner is asked and it has no price.

use rust_decimal::Decimal;

use super::billing::Billing;
use super::levy::Taxed;
use super::lines::LineKind;
use super::options::{OptionCost, Quote};
use crate::assessment::problems::cost as problems;
use crate::sheet::charges::Offer;
use crate::sheet::vocabulary::OptionKind;

impl Billing<'_> {
    /// The option that the sheet leaves unsaid; `None` if it is said, or if nothing is offered.
    ///
    /// Without a price of its own it costs the fee for looking into it, which is what a job without a
    /// repair is billed.
    pub(super) fn as_it_is(&mut self, options: &[OptionCost]) -> Option<OptionCost> {
        let is_one = |option: &&OptionCost| option.kind == OptionKind::ReturnAsItIs;
        let offered = options.iter().find(is_one);
        let unsaid = match offered {
            Some(_) => None,
            None if options.is_empty() => return None,
            None => {
                let offer = Offer { kind: OptionKind::ReturnAsItIs, ..Offer::default() };
                let mut option = self.option(&offer, false);
                option.price = option.price.or_else(|| self.examination());
                Some(option)
            }
        };
        let is_priced = offered.or(unsaid.as_ref()).is_some_and(|option| option.price.is_some());
        let fields = &self.sheet.fields;
        if !is_priced && fields.decision.is_none() && fields.outcome.is_none() {
            self.report(problems::return_not_priced(self.place(&["options"])));
        }
        unsaid
    }

    /// The fee for looking into it, tax in it.
    pub(super) fn examination_fee(&mut self) -> Option<Decimal> {
        self.examination().map(|quote| quote.total)
    }

    fn examination(&mut self) -> Option<Quote> {
        let fee = self.sheet.fields.billing.as_ref()?.inspection.as_ref()?;
        let line = self.fee(fee, LineKind::Examination, Taxed::Labour);
        self.quote(vec![line])
    }
}
