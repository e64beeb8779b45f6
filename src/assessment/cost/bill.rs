//! A bill: its lines, what is taken off, taxes, total and what is left to pay.

use rust_decimal::Decimal;

use super::discount::TakenOff;
use super::lines::Line;
use super::settlement::Settlement;
use super::tax::TaxShare;
use crate::sheet::charges::{BillKind, TaxScheme};
use crate::sheet::price::Currency;

/// A bill in one currency.
#[derive(Clone, Debug, PartialEq)]
pub struct Bill {
    /// Who bears it.
    pub kind: BillKind,
    /// The tax scheme of this job, if it has one of its own; no tax is shown then.
    pub scheme: Option<TaxScheme>,
    /// Its lines, as prices were typed: with the tax in them or without. Empty if nothing is
    /// charged and only a deposit or credit is to be settled.
    pub lines: Vec<Line>,
    /// What is taken off the lines.
    pub discount: Option<TakenOff>,
    /// The taxes; empty if the profile has none.
    pub taxes: Vec<TaxShare>,
    /// Lines less discount, tax in it; what it would have cost, if the workshop bears it.
    pub total: Decimal,
    /// From the total to what is left to pay; `None` if nothing was given or paid before.
    pub settlement: Option<Settlement>,
    /// The currency.
    pub currency: Currency,
}

impl Bill {
    /// The sum of the lines, before discount.
    pub fn sum(&self) -> Decimal {
        self.lines.iter().map(|line| line.sum).sum()
    }

    /// True if the owner pays, false under a guarantee or as goodwill.
    pub fn is_borne_by_owner(&self) -> bool {
        self.kind == BillKind::Charged
    }
}
