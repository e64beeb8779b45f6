//! What the work costs: parts, labour, tax and total in exact decimals.
//!
//! Sums are rounded half up to the currency's minor unit; tax is rounded on each line or once on the
//! invoice, as the profile says, so that the total is always the sum of what is printed.

use rust_decimal::{Decimal, RoundingStrategy};

use super::problems;
use crate::diagnostic::Problems;
use crate::sheet::price::{Currency, Price};
use crate::sheet::profile::{Rounding, Tax, TaxedPrices};
use crate::sheet::quantity::Duration;
use crate::sheet::reader::Marked;
use crate::sheet::{Sheet, Workshop};

/// What one line is for.
#[derive(Clone, Debug, PartialEq)]
pub enum LineKind {
    /// A part, by the words of the sheet.
    Part(String),
    /// Working time.
    Labour(Duration),
    /// An agreed or fixed price.
    Agreed,
}

/// One line of a bill.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What for.
    pub kind: LineKind,
    /// How many; none for time and agreed prices.
    pub quantity: Option<u32>,
    /// Price of one, or of an hour.
    pub each: Option<Decimal>,
    /// Quantity times price, rounded.
    pub sum: Decimal,
}

/// A bill in one currency.
#[derive(Clone, Debug, PartialEq)]
pub struct Bill {
    /// Its lines, as typed prices tell: with the tax in them or without.
    pub lines: Vec<Line>,
    /// The tax, where the profile has one.
    pub tax: Option<TaxShare>,
    /// What is to be paid.
    pub total: Decimal,
    /// The currency.
    pub currency: Currency,
}

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

/// The bill of a job; `None` where nothing is charged or the sheet does not tell.
pub fn bill(sheet: &Sheet, workshop: &Workshop, problems: &mut Problems) -> Option<Bill> {
    let currency = workshop.fields.currency;
    let lines = Lines { sheet, workshop, currency, problems }.collect();
    if lines.is_empty() {
        return None;
    }
    let net: Decimal = lines.iter().map(|line| line.sum).sum();
    let tax = workshop.fields.tax.as_ref().map(|tax| tax_share(tax, &lines, currency));
    let on_top = tax.iter().filter(|tax| !tax.included).map(|tax| tax.amount).sum::<Decimal>();
    Some(Bill { lines, tax, total: net + on_top, currency })
}

/// Rounds half up to the currency's minor unit.
fn rounded(amount: Decimal, currency: Currency) -> Decimal {
    let mut amount =
        amount.round_dp_with_strategy(currency.places, RoundingStrategy::MidpointAwayFromZero);
    amount.rescale(currency.places);
    amount
}

fn tax_share(tax: &Tax, lines: &[Line], currency: Currency) -> TaxShare {
    let rate = tax.rate.0.number;
    let hundred = Decimal::ONE_HUNDRED;
    let included = tax.prices == TaxedPrices::Including;
    let of = |sum: Decimal| {
        let share = if included { sum * rate / (hundred + rate) } else { sum * rate / hundred };
        rounded(share, currency)
    };
    let amount = match tax.rounding {
        Rounding::ByInvoice => of(lines.iter().map(|line| line.sum).sum()),
        Rounding::ByLine => lines.iter().map(|line| of(line.sum)).sum(),
    };
    TaxShare { name: tax.name.0.clone(), rate, amount, included }
}

/// Gathers the lines of a bill.
struct Lines<'a> {
    sheet: &'a Sheet,
    workshop: &'a Workshop,
    currency: Currency,
    problems: &'a mut Problems,
}

impl Lines<'_> {
    fn collect(mut self) -> Vec<Line> {
        let sheet = self.sheet;
        let mut lines = Vec::new();
        if let Some(agreed) = self.agreed() {
            lines.push(agreed);
        } else if let Some(work) = &sheet.fields.work {
            for part in &work.parts {
                let each = self.amount(&part.price);
                let quantity = part.quantity.unwrap_or_default().0;
                let kind = LineKind::Part(part.what.0.clone());
                let sum = rounded(each * Decimal::from(quantity), self.currency);
                lines.push(Line { kind, quantity: Some(quantity), each: Some(each), sum });
            }
            lines.extend(work.labour.as_ref().and_then(|labour| self.labour(labour)));
        }
        lines
    }

    /// The price agreed for the work, or the fixed price of what the owner chose.
    fn agreed(&mut self) -> Option<Line> {
        let sheet = self.sheet;
        let fields = &sheet.fields;
        let of_work = fields.work.as_ref().and_then(|work| work.price.as_ref());
        let has_lines = fields
            .work
            .as_ref()
            .is_some_and(|work| work.labour.is_some() || !work.parts.is_empty());
        let sum = match (of_work, &fields.decision) {
            (Some(price), _) => self.amount(price),
            (None, Some(decision)) if !has_lines => {
                let offered = fields.options.iter().find(|offer| offer.kind == decision.chose);
                match offered.and_then(|offer| offer.price.as_ref()) {
                    Some(price) => self.amount(price),
                    None => {
                        let model = fields.unit.model.as_ref().map(|model| model.0.as_str());
                        self.workshop.fields.fixed_price(model, decision.chose)?.amount
                    }
                }
            }
            _ => return None,
        };
        Some(Line {
            kind: LineKind::Agreed,
            quantity: None,
            each: None,
            sum: rounded(sum, self.currency),
        })
    }

    fn labour(&mut self, labour: &Marked<Duration>) -> Option<Line> {
        let Some(rates) = &self.workshop.fields.rates else {
            self.problems.push(problems::no_rate(self.sheet.place(&labour.span)));
            return None;
        };
        let hours = labour.0.in_base() / Decimal::from(60);
        let each = rates.hour.amount;
        let kind = LineKind::Labour(labour.value.clone());
        let sum = rounded(hours * each, self.currency);
        Some(Line { kind, quantity: None, each: Some(each), sum })
    }

    fn amount(&mut self, price: &Marked<Price>) -> Decimal {
        if price.currency != self.currency {
            let place = self.sheet.place(&price.span);
            self.problems.push(problems::other_currency(
                place,
                price.currency.code,
                self.currency.code,
            ));
        }
        price.amount
    }
}
