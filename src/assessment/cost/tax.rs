//! Tax and total of lines, so that the total is the sum of what is printed.
//!
//! In: lines, a discount, the profile's tax; out: `Added`. The share of tax follows the
//! discounted prices. Rounding is half up to the minor unit, on each line or once on the invoice as
//! the profile says; the two may differ (HMRC internal manual VATREC12010 and VATREC12030: below
//! half a penny down, from half a penny up, by line or by invoice; L06, L07). Which way is allowed:
//! check local rules.

use rust_decimal::Decimal;

use super::amount;
use super::lines::Line;
use super::till::Till;
use crate::diagnostic::Place;
use crate::sheet::price::Currency;
use crate::sheet::profile::{Rounding, Tax, TaxedPrices};

/// The tax of a bill.
#[derive(Clone, Debug, PartialEq)]
pub struct TaxShare {
    /// Its name, such as `VAT`.
    pub name: String,
    /// Its rate in per cent.
    pub rate: Decimal,
    /// Its amount.
    pub amount: Decimal,
    /// True where it is held in the lines, false where it comes on top.
    pub included: bool,
}

/// Lines added up.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Added {
    /// The tax, where the profile has one.
    pub tax: Option<TaxShare>,
    /// Lines less discount, with the tax.
    pub total: Decimal,
}

impl Till<'_> {
    /// The sum of lines; `place` is where a sum that grows too large is reported.
    pub(super) fn sum(&mut self, lines: &[Line], place: Place) -> Decimal {
        let sum = amount::sum(lines.iter().map(|line| line.sum));
        amount::rounded(self.held(sum, || place), self.currency)
    }

    /// Tax and total of lines with this sum, of which `off` is taken off; `off` is at most the sum.
    pub(super) fn added(&mut self, lines: &[Line], sum: Decimal, off: Decimal) -> Added {
        let net = sum - off;
        let tax = self.workshop.fields.tax.as_ref();
        let tax = tax.filter(|_| !lines.is_empty()).map(|tax| {
            let sums: Vec<Decimal> = lines.iter().map(|line| line.sum).collect();
            let place = self.rate_place();
            let amount = self.held(tax_on(tax, &sums, sum, net, self.currency), || place);
            let included = tax.prices == TaxedPrices::Including;
            TaxShare { name: tax.name.0.clone(), rate: tax.rate.0.number, amount, included }
        });
        let on_top = tax.iter().filter(|tax| !tax.included).map(|tax| tax.amount);
        let total = amount::sum([net].into_iter().chain(on_top));
        let place = self.rate_place();
        Added { tax, total: amount::rounded(self.held(total, || place), self.currency) }
    }
}

/// The tax on lines of these sums, which come to `net` after a discount on `sum`.
///
/// By line, the discount lies on every line in proportion, and each line's tax is rounded by
/// itself; the order of the lines is of no matter, and a discount of the whole leaves no tax.
fn tax_on(
    tax: &Tax,
    sums: &[Decimal],
    sum: Decimal,
    net: Decimal,
    currency: Currency,
) -> Option<Decimal> {
    let rate = tax.rate.0.number;
    let hundred = Decimal::ONE_HUNDRED;
    let included = tax.prices == TaxedPrices::Including;
    let per = if included { hundred.checked_add(rate)? } else { hundred };
    let amount = match tax.rounding {
        Rounding::ByInvoice => amount::part_of(net, rate, per, currency)?,
        Rounding::ByLine if sum.is_zero() => Decimal::ZERO,
        Rounding::ByLine => {
            let per = per.checked_mul(sum)?;
            let each = sums
                .iter()
                .map(|line| amount::part_of(line.checked_mul(net)?, rate, per, currency));
            amount::sum(each.collect::<Option<Vec<_>>>()?)?
        }
    };
    // Many tiny lines that each round up could come to more than all they are held in.
    let amount = if included { amount.min(net) } else { amount };
    Some(amount::rounded(amount, currency))
}
