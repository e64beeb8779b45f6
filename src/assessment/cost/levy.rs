//! Which taxes fall on a line: by the kind of the line, its own `tax:`, and the scheme of the job.
//!
//! In: the workshop's taxes, what a line is for, what is typed beside it; out: [`Levy`]s and the
//! price to charge. What is taxed where, and who may use which scheme, is a question of law: check
//! local rules.

use rust_decimal::Decimal;

use super::amount;
use super::billing::Billing;
use crate::assessment::problems::cost as problems;
use crate::sheet::charges::TaxScheme;
use crate::sheet::line_tax::LineTax;
use crate::sheet::profile::{TaxedKind, TaxedPrices};
use crate::sheet::reader::Marked;

/// A tax at a rate.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Levy {
    /// Its name, such as `VAT`.
    pub name: String,
    /// Its rate in per cent.
    pub rate: Decimal,
}

/// What a line is to a tax.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Taxed {
    /// A part or a whole unit.
    Part,
    /// Working time or examination.
    Labour,
    /// Postage.
    Other,
    /// A price in which parts and work are not separate.
    Mixed,
}

/// What is known of a line when its taxes are looked up.
pub(super) struct Taxable<'a> {
    pub(super) is: Taxed,
    pub(super) typed: Option<&'a Marked<LineTax>>,
    /// Keys of the place where a price that has to be split is reported.
    pub(super) path: &'a [&'a str],
}

impl Billing<'_> {
    /// A price of a line and the taxes on it.
    ///
    /// Under a reverse charge no tax is charged: if the workshop's prices hold the tax, it is
    /// taken out of the price, rounded to the minor unit.
    pub(super) fn levied(&mut self, price: Decimal, line: &Taxable<'_>) -> (Decimal, Vec<Levy>) {
        let levies = self.levies(line);
        match self.scheme() {
            None => (price, levies),
            Some(TaxScheme::MarginScheme) => (price, Vec::new()),
            Some(TaxScheme::ReverseCharge) => (self.without(price, &levies), Vec::new()),
        }
    }

    /// The scheme of this job.
    pub(super) fn scheme(&self) -> Option<TaxScheme> {
        let billing = self.sheet.fields.billing.as_ref();
        billing.and_then(|billing| billing.scheme.as_ref()).map(|scheme| scheme.value)
    }

    /// What is taken off under a reverse charge holds the first tax as prices do.
    pub(super) fn taken_off_without_tax(&mut self, off: Decimal) -> Decimal {
        if self.scheme() != Some(TaxScheme::ReverseCharge) {
            return off;
        }
        let first: Vec<Levy> = self.own_taxes().into_iter().take(1).map(|(levy, _)| levy).collect();
        self.without(off, &first)
    }

    fn without(&mut self, price: Decimal, levies: &[Levy]) -> Decimal {
        let tax = self.workshop.fields.tax.as_ref();
        if tax.is_none_or(|tax| tax.prices == TaxedPrices::Excluding) {
            return price;
        }
        let rates = amount::sum(levies.iter().map(|levy| levy.rate));
        let hundred = Decimal::ONE_HUNDRED;
        let per = rates.and_then(|rates| hundred.checked_add(rates));
        let net = per.and_then(|per| amount::part_of(price, hundred, per, self.currency));
        let place = self.rate_place();
        self.held(net, || place)
    }

    /// The workshop's taxes, in the order of its file, with what they fall on.
    fn own_taxes(&self) -> Vec<(Levy, TaxedKind)> {
        let Some(tax) = &self.workshop.fields.tax else { return Vec::new() };
        let first = (&tax.name, &tax.rate, tax.on);
        let further = tax.further.iter().map(|one| (&one.name, &one.rate, one.on));
        let all = [first].into_iter().chain(further);
        all.map(|(name, rate, on)| {
            (Levy { name: name.0.clone(), rate: rate.0.number }, on.unwrap_or_default())
        })
        .collect()
    }

    fn levies(&mut self, line: &Taxable<'_>) -> Vec<Levy> {
        let own = self.own_taxes();
        let all = || own.iter().map(|(levy, _)| levy.clone());
        let Some(typed) = line.typed else { return self.usual(&own, line) };
        let place = self.sheet.place(&typed.span);
        match &typed.value {
            LineTax::None => Vec::new(),
            LineTax::All => all()
                .zip(&own)
                .filter(|(_, (_, on))| *on != TaxedKind::Named)
                .map(|(levy, _)| levy)
                .collect(),
            LineTax::Named(name) => {
                let named: Vec<Levy> = all().filter(|levy| levy.name == *name).collect();
                if named.is_empty() {
                    let known: Vec<&str> = own.iter().map(|(levy, _)| levy.name.as_str()).collect();
                    self.report(problems::unknown_tax(place, name, &known));
                }
                named
            }
            LineTax::Rate(rate) => match &own[..] {
                [(levy, _)] => vec![Levy { rate: rate.0.number, ..levy.clone() }],
                several => {
                    let names: Vec<&str> =
                        several.iter().map(|(levy, _)| levy.name.as_str()).collect();
                    self.report(problems::rate_of_which_tax(place, &names));
                    Vec::new()
                }
            },
        }
    }

    /// The taxes that fall on such a line by themselves.
    fn usual(&mut self, own: &[(Levy, TaxedKind)], line: &Taxable<'_>) -> Vec<Levy> {
        let is_split = |on: TaxedKind| matches!(on, TaxedKind::Parts | TaxedKind::Labour);
        if line.is == Taxed::Mixed
            && let Some((levy, _)) = own.iter().find(|(_, on)| is_split(*on))
        {
            let place = self.place(line.path);
            self.report(problems::price_not_split(place, &levy.name));
        }
        let falls = |on: TaxedKind| match on {
            TaxedKind::All => true,
            TaxedKind::Parts => line.is == Taxed::Part,
            TaxedKind::Labour => line.is == Taxed::Labour,
            TaxedKind::Named => false,
        };
        own.iter().filter(|(_, on)| falls(*on)).map(|(levy, _)| levy.clone()).collect()
    }
}
