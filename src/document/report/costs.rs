//! Work, parts and costs as a table that adds up.

use rust_decimal::Decimal;

use super::Writer;
use crate::assessment::cost::discount::TakenOff;
use crate::assessment::cost::settlement::{Balance, Settlement};
use crate::assessment::cost::tax::TaxShare;
use crate::assessment::cost::{Bill, Line, LineKind};
use crate::diagnostic::Diagnostic;
use crate::document::clauses::Slot;
use crate::document::format;
use crate::document::view::{Total, WorkView};

impl Writer<'_> {
    pub(super) fn work(&self) -> Result<Option<WorkView>, Diagnostic> {
        let wording = self.wording;
        let text = self.work_text();
        let bill = self.material.assessment.costs.bill.as_ref();
        if text.is_empty() && bill.is_none() {
            return Ok(None);
        }
        let terms =
            self.material.workshop.fields.guarantee.as_ref().and_then(|terms| terms.terms.as_ref());
        let is_guaranteed = self.facts.guaranteed_to().is_some();
        let terms = terms.filter(|_| is_guaranteed).map(|terms| terms.0.clone());
        let columns = ["cost-what", "cost-how-much", "cost-each", "cost-sum"];
        Ok(Some(WorkView {
            heading: self.said(Slot::WorkHeading)?,
            text,
            columns: columns.iter().map(|key| wording.label(key).to_owned()).collect(),
            rows: bill.map_or_else(Vec::new, |bill| {
                bill.lines.iter().map(|line| self.row(line, bill)).collect()
            }),
            totals: bill.map_or_else(Vec::new, |bill| self.totals(bill)),
            // Where the ways out are shown, it stands beside them.
            notes: self
                .early_sentence()
                .filter(|_| self.fields().options.len() < 2)
                .into_iter()
                .chain(bill.and_then(|bill| self.more_than_chosen(bill)))
                .chain(terms)
                .collect(),
        }))
    }

    fn work_text(&self) -> Vec<String> {
        let wording = self.wording;
        let mut text: Vec<String> = Vec::new();
        if let Some(work) = &self.fields().work {
            text.extend(self.note_beside(|short| &short.did, work.note.as_ref()));
            let set = work.torque.iter().map(|line| {
                let screws = &line.screws.0;
                format!("{screws} {}", format::quantity(&line.set.0, wording))
            });
            let set: Vec<String> = set.collect();
            if !set.is_empty() {
                text.push(
                    wording.label("screws-set").replace("{list}", &format::listed(&set, wording)),
                );
            }
            text.extend(
                work.grease
                    .iter()
                    .map(|grease| wording.label("grease-used").replace("{grease}", &grease.0)),
            );
        }
        text
    }

    fn row(&self, line: &Line, bill: &Bill) -> Vec<String> {
        let wording = self.wording;
        let money = |amount| format::money(amount, bill.currency, wording);
        let (what, how_much) = match &line.kind {
            LineKind::Part(what) => {
                (format::capitalised(what), line.quantity.map(|count| count.to_string()))
            }
            LineKind::Labour(time) => {
                (wording.label("labour").to_owned(), Some(format::working_time(&time.0, wording)))
            }
            LineKind::Agreed => {
                let chose = self.fields().decision.as_ref().map(|decision| decision.chose.word());
                let what = chose.map_or(wording.label("agreed-price"), |word| {
                    wording.choice("option-kinds", word)
                });
                (format::capitalised(what), None)
            }
        };
        let each = line.each.map(money).map(|each| match line.kind {
            LineKind::Labour(_) => wording.label("an-hour").replace("{amount}", &each),
            _ => each,
        });
        vec![what, how_much.unwrap_or_default(), each.unwrap_or_default(), money(line.sum)]
    }

    /// What stands under the lines: discount, tax, total, and the way from there to what is left.
    fn totals(&self, bill: &Bill) -> Vec<Total> {
        let total = Total {
            label: self.wording.label("total").to_owned(),
            amount: format::money(bill.total, bill.currency, self.wording),
            strong: bill.settlement.is_none(),
        };
        let mut totals: Vec<Total> =
            bill.discount.iter().map(|discount| self.discount(discount, bill)).collect();
        let tax = bill.tax.as_ref();
        totals.extend(tax.filter(|tax| !tax.included).map(|tax| self.tax(tax, bill)));
        totals.push(total);
        totals.extend(tax.filter(|tax| tax.included).map(|tax| self.tax(tax, bill)));
        totals.extend(bill.settlement.iter().flat_map(|settled| self.settled(settled, bill)));
        totals
    }

    fn tax(&self, tax: &TaxShare, bill: &Bill) -> Total {
        let key = if tax.included { "tax-included" } else { "tax-on-top" };
        let label = self.wording.label(key).replace("{tax}", &tax.name);
        let label = label.replace("{rate}", &format::number(tax.rate, self.wording));
        let amount = format::money(tax.amount, bill.currency, self.wording);
        Total { label, amount, strong: false }
    }

    fn discount(&self, discount: &TakenOff, bill: &Bill) -> Total {
        let wording = self.wording;
        let mut label = match discount.share {
            Some(share) => {
                wording.label("discount-share").replace("{rate}", &format::number(share, wording))
            }
            None => wording.label("discount").to_owned(),
        };
        if let Some(reason) = &discount.reason {
            let with_reason = wording.label("discount-reason").replace("{discount}", &label);
            label = with_reason.replace("{reason}", reason);
        }
        let amount = format::money(discount.amount, bill.currency, wording);
        Total {
            label,
            amount: wording.label("taken-off").replace("{amount}", &amount),
            strong: false,
        }
    }

    fn settled(&self, settled: &Settlement, bill: &Bill) -> Vec<Total> {
        let wording = self.wording;
        let money = |amount| format::money(amount, bill.currency, wording);
        let off = |key, amount| Total {
            label: wording.label(key).to_owned(),
            amount: wording.label("taken-off").replace("{amount}", &money(amount)),
            strong: false,
        };
        let (key, left) = balance_of(settled.balance, bill);
        let credit = settled.credit.map(|credit| off("exchange-credit", credit));
        let deposit = settled.deposit.map(|deposit| off("deposit-paid", deposit));
        let left =
            Total { label: wording.label(key).to_owned(), amount: money(left), strong: true };
        credit.into_iter().chain(deposit).chain([left]).collect()
    }

    /// What is left to pay or given back, for page 1; `None` where nothing was paid before.
    pub(super) fn balance(&self, bill: &Bill) -> Option<(String, String)> {
        let (key, amount) = balance_of(bill.settlement?.balance, bill);
        let amount = format::money(amount, bill.currency, self.wording);
        Some((self.wording.label(key).to_owned(), amount))
    }

    /// By how much the bill is above the price of the way that was chosen.
    fn more_than_chosen(&self, bill: &Bill) -> Option<String> {
        let chosen = self.material.assessment.costs.options.iter().find(|option| option.chosen)?;
        let more = bill.total.checked_sub(chosen.price.as_ref()?.total)?;
        let difference = format::money(more, bill.currency, self.wording);
        let text = self.wording.label("more-than-chosen").replace("{difference}", &difference);
        (Decimal::ZERO < more).then_some(text)
    }

    /// What catching it at the first sign would have cost, where that can be said.
    pub(super) fn early_sentence(&self) -> Option<String> {
        let told = self.material.assessment.costs.early.as_ref().ok()?;
        let currency = self.material.workshop.fields.currency;
        let money = |amount| format::money(amount, currency, self.wording);
        Some(self.wording.label("early-price").replace("{price}", &money(told.price)))
    }
}

/// The label of what is left, and the amount.
fn balance_of(balance: Balance, bill: &Bill) -> (&'static str, Decimal) {
    match balance {
        Balance::ToPay(left) => ("balance-to-pay", left),
        Balance::Settled => ("balance-settled", Decimal::new(0, bill.currency.places)),
        Balance::GiveBack(back) => ("balance-give-back", back),
    }
}
