//! Tax and total of lines, so that the total is the sum of what is printed.
//!
//! In: lines with their taxes, a discount, the profile's way of rounding; out: `Added`. The share of
//! tax follows the discounted prices. Rounding is half up to the minor unit, on each line or once on
//! the invoice as the profile says; the two may differ (HMRC internal manual VATREC12010 and
//! VATREC12030: below half a penny down, from half a penny up, by line or by invoice; L06, L07).
//! Which way is allowed: check local rules.

use rust_decimal::Decimal;

use super::amount;
use super::billing::Billing;
use super::discount::TakenOff;
use super::fraction::Fraction;
use super::levy::Levy;
use super::lines::Line;
use crate::diagnostic::Place;
use crate::sheet::profile::{Rounding, TaxedPrices};

/// One tax of a bill at one rate.
#[derive(Clone, Debug, PartialEq)]
pub struct TaxShare {
    /// Its name, such as `VAT`.
    pub name: String,
    /// Its rate in per cent.
    pub rate: Decimal,
    /// Its amount.
    pub amount: Decimal,
    /// True if it is held in the lines, false if it comes on top.
    pub included: bool,
}

/// Lines added up.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Added {
    /// The taxes, each name and rate once, in the order in which lines have them.
    pub taxes: Vec<TaxShare>,
    /// Lines less discount, with the tax.
    pub total: Decimal,
}

/// How the taxes of a bill are computed.
#[derive(Clone, Copy)]
struct Way {
    included: bool,
    by_line: bool,
    places: u32,
}

impl Billing<'_> {
    /// The sum of lines; `place` is where a sum that grows too large is reported.
    pub(super) fn sum(&mut self, lines: &[Line], place: Place) -> Decimal {
        let sum = amount::sum(lines.iter().map(|line| line.sum));
        amount::rounded(self.held(sum, || place), self.currency)
    }

    /// Taxes and total of lines with this sum, less a discount of at most what it is taken from.
    pub(super) fn added(&mut self, lines: &[Line], sum: Decimal, off: Option<&TakenOff>) -> Added {
        let net = sum - off.map_or(Decimal::ZERO, |off| off.amount);
        let taxes = self.taxes(lines, net, off);
        let on_top = taxes.iter().filter(|tax| !tax.included).map(|tax| tax.amount);
        let total = amount::sum([net].into_iter().chain(on_top));
        let place = self.rate_place();
        Added { taxes, total: amount::rounded(self.held(total, || place), self.currency) }
    }

    fn taxes(&mut self, lines: &[Line], net: Decimal, off: Option<&TakenOff>) -> Vec<TaxShare> {
        let Some(tax) = &self.workshop.fields.tax else { return Vec::new() };
        let way = Way {
            included: tax.prices == TaxedPrices::Including,
            by_line: tax.rounding == Rounding::ByLine,
            places: self.currency.places,
        };
        let mut levies: Vec<&Levy> = Vec::new();
        for levy in lines.iter().flat_map(|line| &line.taxes) {
            if !levies.contains(&levy) {
                levies.push(levy);
            }
        }
        // Many tiny lines that each round up could come to more than all they are held in.
        let mut left = net;
        let mut taxes = Vec::new();
        for levy in levies {
            let place = self.rate_place();
            let amount = tax_of(levy, lines, off, way).and_then(amount::bounded);
            let amount = self.held(amount, || place);
            let amount = if way.included { amount.min(left) } else { amount };
            left -= amount;
            let (name, rate) = (levy.name.clone(), levy.rate);
            let amount = amount::rounded(amount, self.currency);
            taxes.push(TaxShare { name, rate, amount, included: way.included });
        }
        taxes
    }
}

/// One tax on all lines that have it.
///
/// A discount is spread over the lines that it is taken from, in proportion. By line, each line's tax is
/// rounded by itself; the order of the lines is of no matter, and a discount of the whole leaves no
/// tax.
fn tax_of(levy: &Levy, lines: &[Line], off: Option<&TakenOff>, way: Way) -> Option<Decimal> {
    let (mut whole, mut rounded) = (Fraction::ZERO, Decimal::ZERO);
    for line in lines.iter().filter(|line| line.taxes.contains(levy)) {
        let rates = amount::sum(line.taxes.iter().map(|one| one.rate))?;
        let hundred = Decimal::ONE_HUNDRED;
        let per = if way.included { hundred.checked_add(rates)? } else { hundred };
        let left =
            off.filter(|off| off.is_from(&line.kind)).map_or(Some(Fraction::ONE), left_of)?;
        let net = Fraction::of(line.sum)?.times(left)?;
        let tax = net.times(Fraction::of(levy.rate)?.over(Fraction::of(per)?)?)?;
        if way.by_line {
            rounded = rounded.checked_add(tax.rounded(way.places)?)?;
        } else {
            whole = whole.plus(tax)?;
        }
    }
    if way.by_line { Some(rounded) } else { whole.rounded(way.places) }
}

/// The share of a line that a discount leaves.
fn left_of(off: &TakenOff) -> Option<Fraction> {
    Fraction::of(off.from - off.amount)?.over(Fraction::of(off.from)?)
}
