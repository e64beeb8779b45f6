//! Several taxes, taxes on some lines alone, schemes of one job.

use proptest::prelude::{ProptestConfig, Strategy, prop, prop_assert_eq, proptest};
use rust_decimal::Decimal;
use splitcase::assessment::cost::Bill;

use super::{bill_of, codes, costs_of, dec, marked, pounds};

fn profile(prices: &str, more: &str) -> String {
    format!(
        "currency: GBP\nrates: {{hour: £44.00}}\n\
         tax: {{name: VAT, rate: 20 %, prices: {prices}, rounding: by-invoice{more}}}\n"
    )
}

/// Canada: a federal tax on everything and a provincial one on goods alone.
fn two(prices: &str, on: &str) -> String {
    format!(
        "currency: CAD\nrates: {{hour: C$100.00}}\n\
         tax: {{name: GST, rate: 5 %, prices: {prices}, rounding: by-invoice, \
         further: [{{name: PST, rate: 5 %, on: {on}}}]}}\n"
    )
}

fn shares(bill: &Bill) -> Vec<(&str, String)> {
    bill.taxes.iter().map(|tax| (tax.name.as_str(), tax.amount.to_string())).collect()
}

/// Worked example of a public source: Math Central, University of Regina, question of September
/// 2009: $214.00 with two taxes of 5 % in it hold 9.73 of each.
#[test]
fn two_taxes_held_in_one_total_are_each_its_share() {
    let bill = bill_of(&two("including", "all"), "work: {price: C$214.00}\n");
    assert_eq!(shares(&bill), [("GST", "9.73".to_owned()), ("PST", "9.73".to_owned())]);
    assert_eq!(bill.total, dec("214.00"));
}

/// Own arithmetic: 5 % of 150.00 and 5 % of 50.00.
#[test]
fn a_tax_on_parts_alone_leaves_work_postage_and_examination_alone() {
    let work = "work: {parts: [{what: a, price: C$50.00}], labour: 60 min}\n";
    let bill = bill_of(&two("excluding", "parts"), work);
    assert_eq!(shares(&bill), [("GST", "7.50".to_owned()), ("PST", "2.50".to_owned())]);
    assert_eq!(bill.total, dec("160.00"));
    let us = "currency: USD\nrates: {hour: $80.00}\n\
        tax: {name: sales tax, rate: 8.25 %, prices: excluding, rounding: by-invoice, on: parts}\n";
    let work = "work: {parts: [{what: a, price: $40.00}], labour: 60 min, postage: $9.00}\n\
        billing: {inspection: $20.00}\n";
    let bill = bill_of(us, work);
    assert_eq!((bill.taxes[0].amount, bill.total), (dec("3.30"), dec("152.30")));
    // A whole unit is goods.
    let unit = "options: [{kind: exchange, price: $400.00}]\ndecision: {option: exchange}\n";
    assert_eq!(bill_of(us, unit).taxes[0].amount, dec("33.00"));
}

/// Own arithmetic: a fifth of 100.00, a twentieth of 44.00.
#[test]
fn each_line_can_have_a_tax_of_its_own() {
    let work = "work:\n  parts: [{what: a, price: £100.00}, {what: b, price: £10.00, tax: none}]\n  \
        labour: [{time: 60 min, tax: 5 %}]\n  postage: {price: £8.00, tax: none}\n";
    let bill = bill_of(&profile("excluding", ""), work);
    assert_eq!(shares(&bill), [("VAT", "20.00".to_owned()), ("VAT", "2.20".to_owned())]);
    assert_eq!(bill.total, dec("184.20"));
    let named = work.replace("5 %", "PST").replace("tax: none", "tax: all").replace('£', "C$");
    let bill = bill_of(&two("excluding", "named"), &named);
    // `all` leaves a tax that falls on named lines alone to these.
    assert_eq!(shares(&bill), [("GST", "5.90".to_owned()), ("PST", "5.00".to_owned())]);
}

#[test]
fn a_tax_that_cannot_be_taken_is_refused_at_its_place() {
    let refused = |profile: &str, work: &str| {
        let (_, problems) = costs_of(profile, work);
        let [problem] = &problems[..] else { panic!("{work}: {problems:?}") };
        (problem.code, marked(problem).to_owned())
    };
    let part = |tax: &str| format!("work: {{parts: [{{what: a, price: £1.00, tax: {tax}}}]}}\n");
    let unknown = "cost/unknown-tax";
    assert_eq!(refused(&profile("including", ""), &part("GST")), (unknown, "GST".to_owned()));
    assert_eq!(refused(&pounds(""), &part("5 %")), (unknown, "5 %".to_owned()));
    let dollars = part("7 %").replace('£', "C$");
    let which = ("cost/rate-of-which-tax", "7 %".to_owned());
    assert_eq!(refused(&two("excluding", "all"), &dollars), which);
    let agreed = refused(&two("excluding", "parts"), "work: {price: C$90.00}\n");
    assert_eq!(agreed, ("cost/price-not-split", "C$90.00".to_owned()));
    let said = bill_of(&two("excluding", "parts"), "work: {price: C$90.00, tax: all}\n");
    assert_eq!(said.total, dec("99.00"));
}

/// Own arithmetic: 120.00 and 52.80 an hour hold a sixth of tax; 100.00 and 44.00 do not.
#[test]
fn under_a_scheme_no_tax_is_charged_and_under_a_reverse_charge_none_is_left_in_the_price() {
    let work = "work: {parts: [{what: a, price: £120.00}], labour: 60 min}\n";
    let scheme = |prices: &str, scheme: &str| {
        let own = profile(prices, "").replace("£44.00", "£52.80");
        let bill = bill_of(&own, &format!("{work}billing: {{scheme: {scheme}}}\n"));
        assert!(bill.taxes.is_empty());
        bill.total
    };
    assert_eq!(scheme("including", "reverse-charge"), dec("144.00"));
    assert_eq!(scheme("excluding", "reverse-charge"), dec("172.80"));
    assert_eq!(scheme("including", "margin-scheme"), dec("172.80"));
    let off = "work: {parts: [{what: a, price: £120.00}], discount: {amount: £12.00}}\nbilling: {scheme: reverse-charge}\n";
    assert_eq!(bill_of(&profile("including", ""), off).total, dec("90.00"));
}

/// Lines as typed: pence, and which tax: none, the usual 20 %, 5 %, both taxes.
fn lines() -> impl Strategy<Value = Vec<(u64, usize)>> {
    let pence = prop::strategy::Union::new([1..40_u64, 1..60_000, 1..9_000_000]);
    prop::collection::vec((pence, 0..4_usize), 1..9)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    /// Against whole pence by hand: numerators and denominators as integers, half up.
    #[test]
    fn the_taxes_of_lines_add_up(lines in lines(), including: bool, by_line: bool) {
        let words = ["none", "VAT", "LOW", "all"];
        let typed = |(pence, tax): &(u64, usize)| format!(
            "{{what: a, price: £{}.{:02}, tax: {}}}", pence / 100, pence % 100, words[*tax]
        );
        let parts: Vec<String> = lines.iter().map(typed).collect();
        let profile = format!(
            "currency: GBP\ntax: {{name: VAT, rate: 20 %, prices: {}, rounding: {}, further: [{{name: LOW, rate: 5 %}}]}}\n",
            if including { "including" } else { "excluding" },
            if by_line { "by-line" } else { "by-invoice" },
        );
        let bill = bill_of(&profile, &format!("work: {{parts: [{}]}}\n", parts.join(", ")));
        let round = |above: i128, below: i128| (2 * above + below) / (2 * below);
        // Over a common denominator of every sum of rates that can be: 100, 120, 105, 125.
        let common = 100 * 120 * 105 * 125_i128;
        for (name, rate, on) in [("VAT", 20_i128, [1, 3]), ("LOW", 5, [2, 3])] {
            let of = |(pence, tax): &(u64, usize)| {
                if !on.contains(tax) { return 0; }
                let rates = if *tax == 3 { 25 } else { rate };
                let per = if including { 100 + rates } else { 100 };
                i128::from(*pence) * rate * (common / per)
            };
            let right: i128 = match by_line {
                true => lines.iter().map(|line| round(of(line), common)).sum(),
                false => round(lines.iter().map(of).sum(), common),
            };
            let own: Decimal = bill.taxes.iter().filter(|tax| tax.name == name).map(|tax| tax.amount).sum();
            prop_assert_eq!(i128::try_from(own * Decimal::ONE_HUNDRED).unwrap(), right);
        }
        let on_top: Decimal = bill.taxes.iter().filter(|tax| !tax.included).map(|tax| tax.amount).sum();
        prop_assert_eq!(bill.total, bill.sum() + on_top);
    }
}

#[test]
fn a_bill_of_nothing_has_no_tax_to_speak_of() {
    let (costs, problems) = costs_of(&profile("including", ""), "work: {postage: £0.00}\n");
    assert_eq!((codes(&problems), costs.bill.unwrap().total), (Vec::new(), dec("0")));
}
