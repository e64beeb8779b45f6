//! Work, parts and costs as a table that adds up.

mod gap;
mod line_name;
pub mod settled;

use crate::assessment::cost::discount::TakenOff;
use crate::assessment::cost::settlement::Settlement;
use crate::assessment::cost::tax::TaxShare;
use crate::assessment::cost::{Bill, Line, LineKind};
use crate::diagnostic::Diagnostic;
use crate::document::clauses::Slot;
use crate::document::format;
use crate::document::text;
use crate::document::view::{BillItem, Total, WorkView};
use crate::document::writer::Writer;
use crate::sheet::charges::TakenFrom;

/// Heads of the columns of costs: what, how much, each, tax, sum.
const COLUMNS: [&str; 5] = ["cost-what", "cost-how-much", "cost-each", "cost-tax", "cost-sum"];
/// Rows of a bill that is small enough to stand beside page 1.
const SMALL_BILL: usize = 6;

/// Work, parts and costs; `None` if there is nothing of them.
///
/// # Errors
/// A sentence whose template does not work, placed in its own file.
pub fn work(writer: &Writer<'_>) -> Result<Option<WorkView>, Diagnostic> {
    let wording = writer.wording;
    let text = work_text(writer);
    let bill = writer.material.assessment.costs.bill.as_ref();
    if text.is_empty() && bill.is_none() {
        return Ok(None);
    }
    let terms =
        writer.material.workshop.fields.guarantee.as_ref().and_then(|terms| terms.terms.as_ref());
    let is_guaranteed = writer.facts.guaranteed_to().is_some();
    let terms = terms.filter(|_| is_guaranteed).map(|terms| terms.0.clone());
    let lines = bill.map_or(&[][..], |bill| &bill.lines);
    let rows: Vec<[String; 5]> = bill
        .map_or_else(Vec::new, |bill| lines.iter().map(|line| row(writer, line, bill)).collect());
    let kept = kept_columns(&rows, lines);
    let totals = bill.map_or_else(Vec::new, |bill| totals(writer, bill));
    let items = items(writer, &rows, &kept, &totals);
    let early = early_sentence(writer).filter(|_| writer.fields().options.len() < 2);
    let gap = bill.and_then(|bill| gap::gap_sentence(writer, bill));
    let notes = early.into_iter().chain(gap).chain(settled::bill_notes(writer, bill)).chain(terms);
    Ok(Some(WorkView {
        heading: writer.said(Slot::WorkHeading)?,
        text,
        columns: kept.iter().map(|&at| wording.label(COLUMNS[at]).to_owned()).collect(),
        rows: rows.iter().map(|row| kept.iter().map(|&at| row[at].clone()).collect()).collect(),
        items,
        totals,
        // If the options are shown, the early price is beside them.
        notes: notes.collect(),
    }))
}

/// A small bill in few words: its rows, then the lines that lead from them to the total. A tax that is in the
/// prices is told with the total. Empty if there are too many, or if they differ in their taxes.
fn items(
    writer: &Writer<'_>,
    rows: &[[String; 5]],
    kept: &[usize],
    totals: &[Total],
) -> Vec<BillItem> {
    let wording = writer.wording;
    let last = totals.iter().position(|total| total.strong).unwrap_or(totals.len());
    if SMALL_BILL < rows.len() + last || kept.contains(&3) {
        return Vec::new();
    }
    let item = |[what, count, each, _, amount]: &[String; 5]| {
        let key = match (count.as_str(), each.as_str()) {
            ("" | "1", _) => None,
            (_, "") => Some("bill-item-counted"),
            _ => Some("bill-item"),
        };
        let label = key.map_or(what.clone(), |key| {
            text::fill(wording.label(key), &[("what", what), ("count", count), ("each", each)])
        });
        BillItem { label, amount: amount.clone() }
    };
    // What it would have cost is said with what is to be paid.
    let would = wording.label("would-have-cost");
    let before = totals[..last].iter().filter(|total| total.label != would);
    let before =
        before.map(|total| BillItem { label: total.label.clone(), amount: total.amount.clone() });
    rows.iter().map(item).chain(before).collect()
}

fn work_text(writer: &Writer<'_>) -> Vec<String> {
    let wording = writer.wording;
    let mut text: Vec<String> = Vec::new();
    if let Some(work) = &writer.fields().work {
        text.extend(writer.note_beside(|short| &short.did, work.note.as_ref()));
        text.extend(
            work.grease
                .iter()
                .map(|grease| text::fill(wording.label("grease-used"), &[("grease", &grease.0)])),
        );
    }
    text
}

fn row(writer: &Writer<'_>, line: &Line, bill: &Bill) -> [String; 5] {
    let wording = writer.wording;
    let money = |amount| format::money(amount, bill.currency, wording);
    let how_much = match &line.kind {
        LineKind::Labour { time, .. } => format::working_time(&time.0, wording),
        _ => line.quantity.map_or_else(String::new, |count| count.to_string()),
    };
    let each = line.each.filter(|each| !each.is_sign_negative()).map(money);
    let each = each.map(|each| match line.kind {
        LineKind::Labour { .. } => text::fill(wording.label("an-hour"), &[("amount", &each)]),
        _ => each,
    });
    let taxes = line.taxes.iter().filter(|tax| !tax.rate.is_zero()).map(|tax| {
        text::fill(
            wording.label("line-tax"),
            &[("tax", &tax.name), ("rate", &format::number(tax.rate, wording))],
        )
    });
    let taxes: Vec<String> = taxes.collect();
    let taxes = match taxes.is_empty() {
        true => wording.label("no-tax").to_owned(),
        false => taxes.join(", "),
    };
    let what = text::capitalised(&line_name::of(writer, &line.kind));
    let sum = match line.sum.is_sign_negative() && !line.sum.is_zero() {
        true => text::fill(wording.label("taken-off"), &[("amount", &money(line.sum.abs()))]),
        false => money(line.sum),
    };
    [what, how_much, each.unwrap_or_default(), taxes, sum]
}

/// What is under the lines: discount, tax, total, and the way from there to what is left.
fn totals(writer: &Writer<'_>, bill: &Bill) -> Vec<Total> {
    let wording = writer.wording;
    let money = |amount| format::money(amount, bill.currency, wording);
    let plain = |label: &str, amount| Total {
        label: label.to_owned(),
        amount: money(amount),
        strong: false,
    };
    let taxes = || bill.taxes.iter().filter(|tax| !tax.rate.is_zero());
    let mut totals: Vec<Total> =
        bill.discount.iter().map(|discount| discount_total(writer, discount, bill)).collect();
    let on_top: Vec<Total> =
        taxes().filter(|tax| !tax.included).map(|tax| tax_total(writer, tax, bill)).collect();
    if !on_top.is_empty() {
        let off = bill.discount.as_ref().map(|discount| discount.amount).unwrap_or_default();
        totals.push(plain(wording.label("subtotal"), bill.sum() - off));
    }
    totals.extend(on_top);
    let settled = settled::settled(writer, bill);
    let label = match &settled.detail {
        Some(detail) => text::fill(
            wording.label("with-detail"),
            &[("label", &settled.label), ("detail", detail)],
        ),
        None => settled.label,
    };
    let last = Total { label, amount: money(settled.amount), strong: true };
    let included = taxes().filter(|tax| tax.included).map(|tax| tax_total(writer, tax, bill));
    if !bill.is_borne_by_owner() {
        totals.push(plain(wording.label("would-have-cost"), bill.total));
    } else if bill.settlement.is_some() {
        totals.push(plain(wording.label("total"), bill.total));
        totals.extend(included);
    } else {
        // With nothing paid before, the total is what is left.
        totals.push(last);
        totals.extend(included);
        return totals;
    }
    totals.extend(bill.settlement.iter().flat_map(|paid| paid_before(writer, paid, bill)));
    totals.push(last);
    totals
}

fn tax_total(writer: &Writer<'_>, tax: &TaxShare, bill: &Bill) -> Total {
    let key = if tax.included { "tax-included" } else { "tax-on-top" };
    let label = text::fill(
        writer.wording.label(key),
        &[("tax", &tax.name), ("rate", &format::number(tax.rate, writer.wording))],
    );
    let amount = format::money(tax.amount, bill.currency, writer.wording);
    Total { label, amount, strong: false }
}

fn discount_total(writer: &Writer<'_>, discount: &TakenOff, bill: &Bill) -> Total {
    let wording = writer.wording;
    let mut label = match discount.share {
        Some(share) => text::fill(
            wording.label("discount-share"),
            &[("rate", &format::number(share, wording))],
        ),
        None => wording.label("discount").to_owned(),
    };
    let on = match discount.on {
        TakenFrom::All => None,
        TakenFrom::Labour => Some("discount-labour"),
        TakenFrom::Parts => Some("discount-parts"),
    };
    if let Some(key) = on {
        label = text::fill(wording.label(key), &[("discount", &label)]);
    }
    if let Some(reason) = &discount.reason {
        label = text::fill(
            wording.label("discount-reason"),
            &[("discount", &label), ("reason", reason)],
        );
    }
    let amount = format::money(discount.amount, bill.currency, wording);
    Total {
        label,
        amount: text::fill(wording.label("taken-off"), &[("amount", &amount)]),
        strong: false,
    }
}

fn paid_before(writer: &Writer<'_>, settled: &Settlement, bill: &Bill) -> Vec<Total> {
    let wording = writer.wording;
    let money = |amount| format::money(amount, bill.currency, wording);
    let off = |key, amount| Total {
        label: wording.label(key).to_owned(),
        amount: text::fill(wording.label("taken-off"), &[("amount", &money(amount))]),
        strong: false,
    };
    let credit = settled.credit.map(|credit| off("exchange-credit", credit));
    let deposit = settled.deposit.map(|deposit| off("deposit-paid", deposit));
    credit.into_iter().chain(deposit).collect()
}

/// What a single bearing costs if the owner heard it on a known day.
pub fn early_sentence(writer: &Writer<'_>) -> Option<String> {
    let told = writer.material.assessment.costs.early.as_ref().ok()?;
    let currency = writer.material.workshop.fields.currency;
    let money = |amount| format::money(amount, currency, writer.wording);
    let day = format::day(told.heard, writer.wording);
    Some(text::fill(
        writer.wording.label("early-price"),
        &[("day", &day), ("price", &money(told.price))],
    ))
}

/// The columns that say something: tax if lines differ in it, quantities if one is not 1.
fn kept_columns(rows: &[[String; 5]], lines: &[Line]) -> Vec<usize> {
    let has_count = rows.iter().any(|row| !matches!(row[1].as_str(), "" | "1"));
    let first = lines.first().map(|line| &line.taxes);
    let is_mixed = lines.iter().any(|line| Some(&line.taxes) != first);
    let is_kept = |at: &usize| match at {
        1 | 2 => has_count,
        3 => is_mixed,
        _ => true,
    };
    (0..COLUMNS.len()).filter(is_kept).collect()
}
