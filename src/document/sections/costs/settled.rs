//! How a bill is settled: paid, to pay, nothing to pay; and the lines that belong with it.
//!
//! In: the bill, `billing` of the sheet, tax numbers and terms of the workshop; out: the amount of
//! page 1, the last row of the table of costs, notes under it. No claim about law is made here.

use rust_decimal::Decimal;

use crate::assessment::cost::Bill;
use crate::assessment::cost::settlement::Balance;
use crate::document::format;
use crate::document::text;
use crate::document::view::Paid;
use crate::document::writer::Writer;
use crate::sheet::charges::{BillKind, Billing, TaxScheme};
use crate::sheet::vocabulary::Outcome;

/// What is left of a bill, in words.
pub struct Settled {
    /// `Paid`, `To pay`, `Nothing to pay` and the like.
    pub label: String,
    /// When and how, or why nothing is to be paid.
    pub detail: Option<String>,
    /// The amount.
    pub amount: Decimal,
}

fn billing<'a>(writer: &Writer<'a>) -> Option<&'a Billing> {
    writer.fields().billing.as_ref()
}

/// The amount of page 1, with what belongs to it.
pub fn paid(writer: &Writer<'_>) -> Option<Paid> {
    let Some(bill) = &writer.material.assessment.costs.bill else { return nothing_billed(writer) };
    let money = |amount| format::money(amount, bill.currency, writer.wording);
    let settled = settled(writer, bill);
    let mut notes: Vec<String> = settled.detail.into_iter().collect();
    if !bill.is_borne_by_owner() {
        let would = writer.wording.label("note-would-have-cost");
        notes.push(text::fill(would, &[("amount", &money(bill.total))]));
    } else if bill.settlement.is_some() {
        let of = writer.wording.label("note-of-total");
        notes.push(text::fill(of, &[("amount", &money(bill.total))]));
    }
    if bill.is_borne_by_owner() {
        notes.extend(bill.taxes.iter().filter(|tax| !tax.rate.is_zero()).map(|tax| {
            text::fill(
                writer.wording.label("incl-tax"),
                &[("tax", &tax.name), ("amount", &money(tax.amount))],
            )
        }));
    }
    notes.extend(writer.guarantee());
    Some(Paid { label: settled.label, amount: money(settled.amount), notes })
}

/// A job that ended without a repair and without a bill.
fn nothing_billed(writer: &Writer<'_>) -> Option<Paid> {
    let outcome = writer.fields().outcome.as_ref()?.value;
    let is_free = matches!(outcome, Outcome::ReturnedUnrepaired | Outcome::NoFaultFound);
    let currency = writer.material.workshop.fields.currency;
    is_free.then(|| Paid {
        label: writer.wording.label("balance-settled").to_owned(),
        amount: format::money(Decimal::new(0, currency.places), currency, writer.wording),
        notes: Vec::new(),
    })
}

/// What is left of the bill.
pub fn settled(writer: &Writer<'_>, bill: &Bill) -> Settled {
    let zero = Decimal::new(0, bill.currency.places);
    let unsettled = match bill.is_borne_by_owner() && !bill.total.is_zero() {
        true => Balance::ToPay(bill.total),
        false => Balance::Settled,
    };
    let balance = bill.settlement.map_or(unsettled, |settled| settled.balance);
    let is_open = writer.fields().returned.is_none() && bill.settlement.is_none();
    let (key, detail, amount) = match balance {
        Balance::GiveBack(back) => ("balance-give-back", waived(writer, bill), back),
        Balance::Settled => ("balance-settled", waived(writer, bill), zero),
        Balance::ToPay(left) => match payment(writer) {
            Some(detail) => ("paid", Some(detail).filter(|detail| !detail.is_empty()), left),
            None if is_open => ("total-so-far", None, left),
            None => ("balance-to-pay", None, left),
        },
    };
    Settled { label: writer.wording.label(key).to_owned(), detail, amount }
}

/// When and how it was paid; `None` if the sheet has neither.
fn payment(writer: &Writer<'_>) -> Option<String> {
    let billing = billing(writer)?;
    let day = billing.paid.as_ref().map(|day| format::day(day.value.0, writer.wording));
    let by = billing.paid_by.as_ref().map(|by| by.0.clone());
    let words: Vec<String> = day.into_iter().chain(by).collect();
    (!words.is_empty()).then(|| words.join(", "))
}

/// Why the owner pays nothing.
fn waived(writer: &Writer<'_>, bill: &Bill) -> Option<String> {
    let (billing, wording) = (billing(writer)?, writer.wording);
    let words = match bill.kind {
        BillKind::Charged => return None,
        BillKind::Goodwill => wording.label("as-goodwill").to_owned(),
        BillKind::Guarantee => match &billing.guarantee_of {
            Some(day) => text::fill(
                wording.label("under-guarantee-of"),
                &[("day", &format::day(day.value.0, wording))],
            ),
            None => wording.label("under-guarantee").to_owned(),
        },
    };
    Some(match &billing.earlier_job {
        Some(job) => {
            text::fill(wording.label("of-earlier-job"), &[("words", &words), ("job", &job.0)])
        }
        None => words,
    })
}

/// The note on a tax scheme of this job; `None` if it has none.
pub fn scheme_note(writer: &Writer<'_>) -> Option<String> {
    let scheme = billing(writer)?.scheme.as_ref()?.value;
    let tax = writer.material.workshop.fields.tax.as_ref();
    let tax = tax.map_or(writer.wording.label("tax-of-any-name"), |tax| tax.name.0.as_str());
    let label = match scheme {
        TaxScheme::ReverseCharge => "scheme-reverse-charge",
        TaxScheme::MarginScheme => "scheme-margin-scheme",
    };
    Some(text::fill(writer.wording.label(label), &[("tax", tax)]))
}

/// What is printed under a bill: why it is so, tax scheme, numbers, terms.
pub fn bill_notes(writer: &Writer<'_>, bill: Option<&Bill>) -> Vec<String> {
    let wording = writer.wording;
    let reason = billing(writer).and_then(|billing| billing.reason.as_ref());
    let mut notes: Vec<String> = reason.map(|reason| reason.0.clone()).into_iter().collect();
    if bill.is_some_and(|bill| !bill.lines.is_empty()) {
        notes.extend(scheme_note(writer));
        notes.extend(tax_numbers(writer));
    }
    let buyer = billing(writer).and_then(|billing| billing.buyer_number.as_ref());
    notes.extend(
        buyer.map(|number| text::fill(wording.label("buyer-number"), &[("number", &number.0)])),
    );
    let terms = writer.material.workshop.fields.terms.as_ref();
    let terms = terms.filter(|_| bill.is_some_and(Bill::is_borne_by_owner));
    notes.extend(terms.into_iter().flat_map(|terms| &terms.bill).map(|text| text.0.clone()));
    notes
}

fn tax_numbers(writer: &Writer<'_>) -> Vec<String> {
    let Some(tax) = &writer.material.workshop.fields.tax else { return Vec::new() };
    let first = (&tax.name, &tax.number);
    let further = tax.further.iter().map(|one| (&one.name, &one.number));
    let all = [first].into_iter().chain(further);
    let said = all.filter_map(|(name, number)| {
        Some(text::fill(
            writer.wording.label("tax-number"),
            &[("tax", &name.0), ("number", &number.as_ref()?.0)],
        ))
    });
    said.collect()
}
