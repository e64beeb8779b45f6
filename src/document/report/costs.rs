//! Work, parts and costs as a table that adds up.

use super::Writer;
use crate::assessment::cost::{Bill, Line, LineKind};
use crate::diagnostic::Diagnostic;
use crate::document::format;
use crate::document::view::{Total, WorkView};

impl Writer<'_> {
    pub(super) fn work(&self) -> Result<Option<WorkView>, Diagnostic> {
        let wording = self.wording;
        let work = self.fields().work.as_ref();
        let mut text: Vec<String> = Vec::new();
        if let Some(work) = work {
            // Where page 1 has said it, it is not said twice.
            let said = self.fields().in_short.as_ref().is_none_or(|short| short.did.is_none());
            text.extend(work.note.iter().filter(|_| !said).map(|note| note.0.clone()));
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
        let bill = self.material.assessment.bill.as_ref();
        if text.is_empty() && bill.is_none() {
            return Ok(None);
        }
        let terms =
            self.material.workshop.fields.guarantee.as_ref().and_then(|terms| terms.terms.as_ref());
        let is_guaranteed = self.facts.guaranteed_to().is_some();
        let notes = terms.filter(|_| is_guaranteed).map(|terms| terms.0.clone());
        let columns = ["cost-what", "cost-how-much", "cost-each", "cost-sum"];
        Ok(Some(WorkView {
            heading: self.sentence("work-heading")?,
            text,
            columns: columns.iter().map(|key| wording.label(key).to_owned()).collect(),
            rows: bill.map_or_else(Vec::new, |bill| {
                bill.lines.iter().map(|line| self.row(line, bill)).collect()
            }),
            totals: bill.map_or_else(Vec::new, |bill| self.totals(bill)),
            notes: notes.into_iter().collect(),
        }))
    }

    fn row(&self, line: &Line, bill: &Bill) -> Vec<String> {
        let wording = self.wording;
        let money = |amount| format::money(amount, bill.currency, wording);
        let (what, how_much) = match &line.kind {
            LineKind::Part(what) => {
                (format::capitalised(what), line.quantity.map(|count| count.to_string()))
            }
            LineKind::Labour(time) => {
                (wording.label("labour").to_owned(), Some(format::quantity(&time.0, wording)))
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

    fn totals(&self, bill: &Bill) -> Vec<Total> {
        let money = |amount| format::money(amount, bill.currency, self.wording);
        let total = Total {
            label: self.wording.label("total").to_owned(),
            amount: money(bill.total),
            strong: true,
        };
        let Some(tax) = &bill.tax else { return vec![total] };
        let key = if tax.included { "tax-included" } else { "tax-on-top" };
        let label = self.wording.label(key).replace("{tax}", &tax.name);
        let label = label.replace("{rate}", &format::number(tax.rate, self.wording));
        let tax_line = Total { label, amount: money(tax.amount), strong: false };
        if tax.included { vec![total, tax_line] } else { vec![tax_line, total] }
    }
}
