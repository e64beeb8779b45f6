//! The options side by side: what each costs, how long it takes, what it leaves.

use super::Writer;
use crate::assessment::cost::options::{Firm, OptionCost, Quote};
use crate::assessment::cost::{Line, LineKind};
use crate::document::format;
use crate::document::view::costs::{OptionRow, OptionsView};
use crate::sheet::charges::Offer;
use crate::sheet::vocabulary::{OptionKind, YesNo};

/// Heads of the columns, and what each holds: words that wrap, a figure, something brief.
const COLUMNS: [(&str, &str); 5] = [
    ("option-what", "words"),
    ("option-price", "figure"),
    ("option-made-of", "words"),
    ("option-days", "brief"),
    ("option-leaves", "words"),
];

impl Writer<'_> {
    /// The table; `None` where there was no choice to make.
    pub(super) fn options(&self) -> Option<OptionsView> {
        let wording = self.wording;
        let options = &self.material.assessment.costs.options;
        if options.len() < 2 {
            return None;
        }
        let rows: Vec<OptionRow> = options.iter().map(|option| self.option_row(option)).collect();
        // A column that no option fills is left out.
        let filled: Vec<usize> = (0..COLUMNS.len())
            .filter(|&at| rows.iter().any(|row| !row.cells[at].is_empty()))
            .collect();
        let kept = |cells: &[String]| filled.iter().map(|&at| cells[at].clone()).collect();
        let heads = filled.iter().map(|&at| wording.label(COLUMNS[at].0).to_owned());
        Some(OptionsView {
            heading: wording.label("options-heading").to_owned(),
            columns: heads.collect(),
            holds: filled.iter().map(|&at| COLUMNS[at].1).collect(),
            rows: rows
                .iter()
                .map(|row| OptionRow { cells: kept(&row.cells), chosen: row.chosen.clone() })
                .collect(),
            notes: self.option_notes(options),
        })
    }

    /// The tax in the prices, how long they hold, what stands beside them, terms.
    fn option_notes(&self, options: &[OptionCost]) -> Vec<String> {
        let wording = self.wording;
        let mut notes: Vec<String> =
            self.taxes_in(options).into_iter().chain(self.scheme_note()).collect();
        notes.extend(self.validity(options));
        notes.extend(self.inspection());
        let economy = self.material.assessment.costs.economy;
        notes.extend(economy.and_then(|economy| economy.dear(options)).map(|dear| {
            let repair = format::capitalised(wording.choice("option-kinds", dear.kind.word()));
            let words = wording.label("dear-repair").replace("{repair}", &repair);
            words
                .replace("{price}", &self.amount(dear.repair))
                .replace("{share}", &dear.share.normalize().to_string())
                .replace("{exchange}", &self.amount(dear.exchange))
        }));
        notes.extend(self.early_sentence());
        let terms = self.material.workshop.fields.terms.as_ref();
        notes.extend(terms.into_iter().flat_map(|terms| &terms.options).map(|text| text.0.clone()));
        notes
    }

    fn taxes_in(&self, options: &[OptionCost]) -> Option<String> {
        let wording = self.wording;
        let quotes = options.iter().filter_map(|option| option.price.as_ref());
        let mut taxes: Vec<String> = Vec::new();
        for tax in quotes.flat_map(|quote| &quote.taxes).filter(|tax| !tax.rate.is_zero()) {
            let words = wording.label("tax-at-rate").replace("{tax}", &tax.name);
            let words = words.replace("{rate}", &format::number(tax.rate, wording));
            if !taxes.contains(&words) {
                taxes.push(words);
            }
        }
        let list = format::listed(&taxes, wording);
        (!taxes.is_empty()).then(|| wording.label("prices-with-tax").replace("{list}", &list))
    }

    /// Until when the prices hold: once for all, or option by option.
    fn validity(&self, options: &[OptionCost]) -> Vec<String> {
        let wording = self.wording;
        let first = options.first().and_then(|option| option.valid_to);
        if options.iter().all(|option| option.valid_to == first) {
            let words = wording.label("prices-hold");
            let day = first.map(|day| words.replace("{day}", &format::day(day, wording)));
            return day.into_iter().collect();
        }
        let each = options.iter().filter_map(|option| {
            let name = format::capitalised(wording.choice("option-kinds", option.kind.word()));
            let words = wording.label("price-holds").replace("{option}", &name);
            Some(words.replace("{day}", &format::day(option.valid_to?, wording)))
        });
        each.collect()
    }

    /// The fee for looking into it, where it is not the price of an option already.
    fn inspection(&self) -> Option<String> {
        let billing = self.fields().billing.as_ref()?;
        let fee = self.amount(billing.inspection.as_ref()?.price.amount);
        let is_credited = billing.inspection_credited == Some(YesNo::Yes);
        let is_offered =
            |offer: &Offer| offer.kind == OptionKind::ReturnAsItIs && offer.price.is_some();
        if !is_credited && self.fields().options.iter().any(is_offered) {
            return None;
        }
        let key = if is_credited { "inspection-fee-credited" } else { "inspection-fee" };
        Some(self.wording.label(key).replace("{amount}", &fee))
    }

    fn option_row(&self, option: &OptionCost) -> OptionRow {
        let wording = self.wording;
        let what = format::capitalised(wording.choice("option-kinds", option.kind.word()));
        let price = option.price.as_ref().map_or_else(
            || wording.label("option-not-priced").to_owned(),
            |price| self.asked(price),
        );
        let made_of = option.price.as_ref().map_or_else(String::new, |price| self.made_of(price));
        let days = option.days.map_or_else(String::new, |days| {
            let key = if days == 1 { "one-day" } else { "days" };
            wording.label(key).replace("{days}", &days.to_string())
        });
        let leaves = option.leaves.as_deref().map_or_else(String::new, format::capitalised);
        OptionRow {
            cells: vec![what, price, made_of, days, leaves],
            chosen: option.chosen.then(|| wording.label("option-chosen").to_owned()),
        }
    }

    /// A price as it is asked: fixed, from-to, or at most.
    fn asked(&self, price: &Quote) -> String {
        let most = self.amount(price.total);
        match price.firm {
            Firm::Fixed => most,
            Firm::AtMost => self.wording.label("price-at-most").replace("{amount}", &most),
            Firm::From(least) => self
                .wording
                .label("price-from-to")
                .replace("{from}", &self.amount(least))
                .replace("{to}", &most),
        }
    }

    /// What the price is the sum of: parts, work, postage, and tax that comes on top.
    fn made_of(&self, price: &Quote) -> String {
        let wording = self.wording;
        let named = |key, amount| wording.label(key).replace("{amount}", &self.amount(amount));
        let is_fee = |line: &&Line| line.kind == LineKind::Examination;
        let fee = price.lines.iter().find(is_fee).filter(|_| price.firm == Firm::Fixed);
        let sums = [
            ("option-examination", fee.map(|line| line.sum)),
            ("option-parts", price.parts),
            ("option-labour", price.labour),
            ("option-postage", price.postage),
        ];
        let sums = sums.into_iter().filter_map(|(key, sum)| Some((key, sum?)));
        let sums = sums.filter(|(_, sum)| !sum.is_zero()).map(|(key, sum)| named(key, sum));
        let sums: Vec<String> = sums.collect();
        let is_split = price.parts.is_some() || fee.is_some();
        let on_top =
            price.taxes.iter().filter(|tax| is_split && !tax.included && !tax.rate.is_zero());
        let on_top = on_top.map(|tax| named("option-tax", tax.amount).replace("{tax}", &tax.name));
        sums.into_iter().chain(on_top).collect::<Vec<_>>().join(", ")
    }

    fn amount(&self, amount: rust_decimal::Decimal) -> String {
        format::money(amount, self.material.workshop.fields.currency, self.wording)
    }
}
