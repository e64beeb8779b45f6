//! The billing: the sheet, the rate card and the problems that adding up brings to light.
//!
//! In: typed prices with their places; out: plain amounts in the workshop's currency. A price that
//! cannot be taken is reported once, however many bills and options it is in.

use rust_decimal::Decimal;

use super::amount;
use crate::assessment::problems::cost as problems;
use crate::diagnostic::source::Source;
use crate::diagnostic::{Diagnostic, Place};
use crate::sheet::price::{Currency, Price};
use crate::sheet::reader::Marked;
use crate::sheet::vocabulary::OptionKind;
use crate::sheet::yaml::{Content, Node};
use crate::sheet::{ProfileFile, Sheet};

/// What is needed to add up.
pub(super) struct Billing<'a> {
    pub(super) sheet: &'a Sheet,
    pub(super) workshop: &'a ProfileFile,
    pub(super) currency: Currency,
    found: Vec<Diagnostic>,
}

impl<'a> Billing<'a> {
    pub(super) fn new(sheet: &'a Sheet, workshop: &'a ProfileFile) -> Self {
        Self { sheet, workshop, currency: workshop.fields.currency, found: Vec::new() }
    }

    /// The problems, each once.
    pub(super) fn into_problems(self) -> Vec<Diagnostic> {
        self.found
    }

    pub(super) fn report(&mut self, problem: Diagnostic) {
        let is_same = |one: &Diagnostic| {
            one.code == problem.code
                && one.place.source.name() == problem.place.source.name()
                && one.place.range == problem.place.range
        };
        if !self.found.iter().any(is_same) {
            self.found.push(problem);
        }
    }

    /// An amount that may have grown too large; it counts as zero.
    pub(super) fn held(
        &mut self,
        amount: Option<Decimal>,
        place: impl FnOnce() -> Place,
    ) -> Decimal {
        amount.unwrap_or_else(|| {
            self.report(problems::too_large(place()));
            Decimal::ZERO
        })
    }

    /// A price of the sheet.
    pub(super) fn price(&mut self, price: &Marked<Price>) -> Decimal {
        self.taken(price.value, self.sheet.place(&price.span))
    }

    /// A price of the workshop's file, found by its path there.
    pub(super) fn own_price(&mut self, price: Price, path: &[&str]) -> Decimal {
        self.taken(price, place_in(&self.workshop.source, &self.workshop.tree, path))
    }

    /// The fixed price of an option: of this model, else of the rate card.
    pub(super) fn fixed_price(&mut self, kind: OptionKind) -> Option<Decimal> {
        let model = self.sheet.fields.unit.model.as_ref().map(|model| model.0.as_str());
        let profile = &self.workshop.fields;
        let price = profile.fixed_price(model, kind)?;
        let own = profile.models.iter().filter(|one| Some(one.model.0.as_str()) == model);
        let is_own = own.flat_map(|one| &one.options).any(|line| line.kind == kind);
        let path: &[&str] = if is_own { &["models"] } else { &["rates", "options"] };
        Some(self.own_price(price, path))
    }

    /// A place in the sheet, by its path.
    pub(super) fn place(&self, path: &[&str]) -> Place {
        place_in(&self.sheet.source, &self.sheet.tree, path)
    }

    /// The place of the tax rate.
    pub(super) fn rate_place(&self) -> Place {
        place_in(&self.workshop.source, &self.workshop.tree, &["tax", "rate"])
    }

    /// A price with its place.
    pub(super) fn taken(&mut self, price: Price, place: Place) -> Decimal {
        if price.currency != self.currency {
            let (found, own) = (price.currency.code, self.currency.code);
            self.report(problems::other_currency(place.clone(), found, own));
        }
        self.held(amount::bounded(price.amount), || place)
    }
}

/// The place of a value under its keys, or of the last key that is there.
fn place_in(source: &Source, tree: &Node, path: &[&str]) -> Place {
    let (mut node, mut place) = (tree, Place::whole(source));
    for key in path {
        let Content::Map(entries) = &node.content else { break };
        let Some(entry) = entries.iter().find(|entry| entry.key == *key) else { break };
        node = &entry.value;
        let is_scalar = matches!(node.content, Content::Scalar(_));
        let span = if is_scalar { &node.span } else { &entry.key_span };
        place = Place::at(source, span.clone());
    }
    place
}
