//! Fields on money that nothing on the papers rests on, so that none is lost without a word.
//!
//! In: the sheet, its bill, how far that is from the offer; out: warnings for the workshop.

use super::bill::Bill;
use super::billing::Billing;
use super::gap::Gap;
use super::lines::LineKind;
use crate::assessment::problems::cost as problems;
use crate::sheet::charges::BillKind;

impl Billing<'_> {
    /// Warns of what is typed and said nowhere.
    pub(super) fn unused(&mut self, bill: Option<&Bill>, gap: Option<&Gap>) {
        let fields = &self.sheet.fields;
        let has_ended = fields.outcome.is_some();
        let overrun = fields.decision.as_ref().and_then(|decision| decision.overrun.as_ref());
        let is_above = gap.is_some_and(|gap| gap.is_above);
        self.warn(
            has_ended && overrun.is_some() && !is_above,
            &["decision", "overrun"],
            "a bill above the price of the option chosen",
        );
        let Some(billing) = &fields.billing else { return };
        let kind = billing.kind.as_ref().map_or(BillKind::Charged, |kind| kind.value);
        let guaranteed = "`kind: guarantee` under `billing:`";
        let is_other = kind != BillKind::Guarantee;
        self.warn(
            is_other && billing.guarantee_of.is_some(),
            &["billing", "guarantee-of"],
            guaranteed,
        );
        self.warn(
            is_other && billing.earlier_job.is_some(),
            &["billing", "earlier-job"],
            guaranteed,
        );
        let is_free = kind != BillKind::Charged;
        let charged = "a bill that the customer pays";
        self.warn(is_free && billing.paid.is_some(), &["billing", "paid"], charged);
        self.warn(is_free && billing.paid_by.is_some(), &["billing", "paid-by"], charged);
        let has_fee = bill
            .is_some_and(|bill| bill.lines.iter().any(|line| line.kind == LineKind::Examination));
        let fee = "an examination fee in the bill";
        self.warn(
            has_ended && billing.inspected.is_some() && !has_fee,
            &["billing", "inspected"],
            fee,
        );
        let is_credited = billing.inspection_credited.is_some() && billing.inspection.is_none();
        self.warn(
            is_credited,
            &["billing", "inspection-credited"],
            "`inspection:` under `billing:`",
        );
    }

    fn warn(&mut self, is_unused: bool, path: &[&str], needs: &str) {
        if is_unused {
            self.report(problems::said_nowhere(self.place(path), needs));
        }
    }
}
