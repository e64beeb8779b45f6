//! How a bill is settled: paid, to pay, nothing to pay; and the lines that belong with it.
//!
//! In: the bill, `billing` of the sheet, tax numbers and terms of the workshop; out: the amount of
//! page 1, the last row of the table of costs, notes under it. No claim about law is made here.

use rust_decimal::Decimal;

use super::Writer;
use crate::assessment::cost::Bill;
use crate::assessment::cost::settlement::Balance;
use crate::document::format;
use crate::document::view::Paid;
use crate::sheet::charges::{BillKind, Billing, TaxScheme};
use crate::sheet::vocabulary::Outcome;

/// What is left of a bill, in words.
pub(super) struct Settled {
    /// `Paid`, `To pay`, `Nothing to pay` and the like.
    pub(super) label: String,
    /// When and how, or why nothing is to be paid.
    pub(super) detail: Option<String>,
    /// The amount.
    pub(super) amount: Decimal,
}

impl Writer<'_> {
    fn billing(&self) -> Option<&Billing> {
        self.fields().billing.as_ref()
    }

    /// The amount of page 1, with what belongs to it.
    pub(super) fn paid(&self) -> Option<Paid> {
        let Some(bill) = &self.material.assessment.costs.bill else { return self.nothing_billed() };
        let money = |amount| format::money(amount, bill.currency, self.wording);
        let settled = self.settled(bill);
        let mut notes: Vec<String> = settled.detail.into_iter().collect();
        if !bill.is_borne_by_owner() {
            let would = self.wording.label("note-would-have-cost");
            notes.push(would.replace("{amount}", &money(bill.total)));
        } else if bill.settlement.is_some() {
            let of = self.wording.label("note-of-total");
            notes.push(of.replace("{amount}", &money(bill.total)));
        }
        if bill.is_borne_by_owner() {
            notes.extend(bill.taxes.iter().filter(|tax| !tax.rate.is_zero()).map(|tax| {
                let words = self.wording.label("incl-tax").replace("{tax}", &tax.name);
                words.replace("{amount}", &money(tax.amount))
            }));
        }
        notes.extend(self.guarantee());
        Some(Paid { label: settled.label, amount: money(settled.amount), notes })
    }

    /// A job that ended without a repair and without a bill.
    fn nothing_billed(&self) -> Option<Paid> {
        let outcome = self.fields().outcome.as_ref()?.value;
        let is_free = matches!(outcome, Outcome::ReturnedUnrepaired | Outcome::NoFaultFound);
        let currency = self.material.workshop.fields.currency;
        is_free.then(|| Paid {
            label: self.wording.label("balance-settled").to_owned(),
            amount: format::money(Decimal::new(0, currency.places), currency, self.wording),
            notes: Vec::new(),
        })
    }

    /// What is left of the bill.
    pub(super) fn settled(&self, bill: &Bill) -> Settled {
        let zero = Decimal::new(0, bill.currency.places);
        let unsettled = match bill.is_borne_by_owner() && !bill.total.is_zero() {
            true => Balance::ToPay(bill.total),
            false => Balance::Settled,
        };
        let balance = bill.settlement.map_or(unsettled, |settled| settled.balance);
        let is_open = self.fields().returned.is_none() && bill.settlement.is_none();
        let (key, detail, amount) = match balance {
            Balance::GiveBack(back) => ("balance-give-back", self.waived(bill), back),
            Balance::Settled => ("balance-settled", self.waived(bill), zero),
            Balance::ToPay(left) => match self.payment() {
                Some(detail) => ("paid", Some(detail).filter(|detail| !detail.is_empty()), left),
                None if is_open => ("total-so-far", None, left),
                None => ("balance-to-pay", None, left),
            },
        };
        Settled { label: self.wording.label(key).to_owned(), detail, amount }
    }

    /// When and how it was paid; `None` where the sheet has neither.
    fn payment(&self) -> Option<String> {
        let billing = self.billing()?;
        let day = billing.paid.as_ref().map(|day| format::day(day.value.0, self.wording));
        let by = billing.paid_by.as_ref().map(|by| by.0.clone());
        let words: Vec<String> = day.into_iter().chain(by).collect();
        (!words.is_empty()).then(|| words.join(", "))
    }

    /// Why the owner pays nothing.
    fn waived(&self, bill: &Bill) -> Option<String> {
        let (billing, wording) = (self.billing()?, self.wording);
        let words = match bill.kind {
            BillKind::Charged => return None,
            BillKind::Goodwill => wording.label("as-goodwill").to_owned(),
            BillKind::Guarantee => match &billing.guarantee_of {
                Some(day) => wording
                    .label("under-guarantee-of")
                    .replace("{day}", &format::day(day.value.0, wording)),
                None => wording.label("under-guarantee").to_owned(),
            },
        };
        Some(match &billing.earlier_job {
            Some(job) => {
                wording.label("of-earlier-job").replace("{words}", &words).replace("{job}", &job.0)
            }
            None => words,
        })
    }

    /// The note on a tax scheme of this job; `None` where it has none.
    pub(super) fn scheme_note(&self) -> Option<String> {
        let scheme = self.billing()?.scheme.as_ref()?.value;
        let tax = self.material.workshop.fields.tax.as_ref();
        let tax = tax.map_or(self.wording.label("tax-of-any-name"), |tax| tax.name.0.as_str());
        let label = match scheme {
            TaxScheme::ReverseCharge => "scheme-reverse-charge",
            TaxScheme::MarginScheme => "scheme-margin-scheme",
        };
        Some(self.wording.label(label).replace("{tax}", tax))
    }

    /// What is printed under a bill: why it is so, tax scheme, numbers, terms.
    pub(super) fn bill_notes(&self, bill: Option<&Bill>) -> Vec<String> {
        let wording = self.wording;
        let reason = self.billing().and_then(|billing| billing.reason.as_ref());
        let mut notes: Vec<String> = reason.map(|reason| reason.0.clone()).into_iter().collect();
        if bill.is_some_and(|bill| !bill.lines.is_empty()) {
            notes.extend(self.scheme_note());
            notes.extend(self.tax_numbers());
        }
        let buyer = self.billing().and_then(|billing| billing.buyer_number.as_ref());
        notes.extend(
            buyer.map(|number| wording.label("buyer-number").replace("{number}", &number.0)),
        );
        let terms = self.material.workshop.fields.terms.as_ref();
        let terms = terms.filter(|_| bill.is_some_and(Bill::is_borne_by_owner));
        notes.extend(terms.into_iter().flat_map(|terms| &terms.bill).map(|text| text.0.clone()));
        notes
    }

    fn tax_numbers(&self) -> Vec<String> {
        let Some(tax) = &self.material.workshop.fields.tax else { return Vec::new() };
        let first = (&tax.name, &tax.number);
        let further = tax.further.iter().map(|one| (&one.name, &one.number));
        let all = [first].into_iter().chain(further);
        let said = all.filter_map(|(name, number)| {
            let words = self.wording.label("tax-number").replace("{tax}", &name.0);
            Some(words.replace("{number}", &number.as_ref()?.0))
        });
        said.collect()
    }
}
