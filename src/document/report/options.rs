//! The ways out side by side: what each costs, how long it takes, what it leaves.

use super::Writer;
use crate::assessment::cost::options::{OptionCost, Quote};
use crate::document::format;
use crate::document::view::costs::{OptionRow, OptionsView};

impl Writer<'_> {
    /// The table; `None` where there was no choice to make.
    pub(super) fn options(&self) -> Option<OptionsView> {
        let wording = self.wording;
        let options = &self.material.assessment.costs.options;
        if options.len() < 2 {
            return None;
        }
        let columns =
            ["option-what", "option-price", "option-made-of", "option-days", "option-leaves"];
        let rows: Vec<OptionRow> = options.iter().map(|option| self.option_row(option)).collect();
        // A column that no way out fills is left out.
        let filled: Vec<usize> = (0..columns.len())
            .filter(|&at| rows.iter().any(|row| !row.cells[at].is_empty()))
            .collect();
        let kept = |cells: &[String]| filled.iter().map(|&at| cells[at].clone()).collect();
        let heads: Vec<String> = columns.iter().map(|key| wording.label(key).to_owned()).collect();
        let tax = options.iter().find_map(|option| option.price.as_ref()?.tax.as_ref());
        let with_tax = tax.map(|tax| {
            let words = wording.label("prices-with-tax").replace("{tax}", &tax.name);
            words.replace("{rate}", &format::number(tax.rate, wording))
        });
        Some(OptionsView {
            heading: wording.label("options-heading").to_owned(),
            columns: kept(&heads),
            rows: rows
                .iter()
                .map(|row| OptionRow { cells: kept(&row.cells), chosen: row.chosen.clone() })
                .collect(),
            notes: with_tax.into_iter().chain(self.early_sentence()).collect(),
        })
    }

    fn option_row(&self, option: &OptionCost) -> OptionRow {
        let wording = self.wording;
        let what = format::capitalised(wording.choice("option-kinds", option.kind.word()));
        let price = option.price.as_ref().map_or_else(
            || wording.label("option-not-priced").to_owned(),
            |price| self.amount(price.total),
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

    /// Parts, work and, where it comes on top, the tax: what the price is the sum of.
    fn made_of(&self, price: &Quote) -> String {
        let wording = self.wording;
        let named = |key, amount| wording.label(key).replace("{amount}", &self.amount(amount));
        let parts = price.parts.filter(|sum| !sum.is_zero()).map(|sum| named("option-parts", sum));
        let labour =
            price.labour.filter(|sum| !sum.is_zero()).map(|sum| named("option-labour", sum));
        let on_top = price.tax.as_ref().filter(|tax| !tax.included && price.parts.is_some());
        let on_top = on_top.map(|tax| named("option-tax", tax.amount).replace("{tax}", &tax.name));
        parts.into_iter().chain(labour).chain(on_top).collect::<Vec<_>>().join(", ")
    }

    fn amount(&self, amount: rust_decimal::Decimal) -> String {
        format::money(amount, self.material.workshop.fields.currency, self.wording)
    }
}
