//! Options side by side, and whether a repair is worth its price.

use rust_decimal::Decimal;
use splitcase::assessment::cost::options::Quote;
use splitcase::assessment::cost::tier::Tier;

use super::{codes, costs_of, dec, marked, pounds};

const CARD: &str = "currency: GBP\n\
    tax: {name: VAT, rate: 20 %, prices: excluding, rounding: by-invoice}\n\
    rates: {hour: £48.00, options: [{kind: exchange, price: £400.00}, {kind: new-unit, price: £700.00}]}\n\
    models: [{model: Kestmar C4, options: [{kind: exchange, price: £420.00}]}]\n";

const OFFERS: &str = "options:\n\
    - {kind: overhaul, parts: [{what: bearing, quantity: 2, price: £9.80}], labour: 150 min, days: 9, remaining: the worn ring gear stays in}\n\
    - {kind: exchange}\n\
    - {kind: overhaul-plus-parts, price: £300.00, labour: 200 min}\n\
    - {kind: return-as-it-is, remaining: it cannot be ridden}\n\
    decision: {option: overhaul}\n";

/// The price without the tax.
fn without_tax(price: &Quote) -> Decimal {
    price.total - price.taxes.iter().map(|tax| tax.amount).sum::<Decimal>()
}

#[test]
fn each_option_stands_with_price_parts_labour_days_and_what_it_leaves() {
    let (costs, problems) = costs_of(CARD, OFFERS);
    assert!(problems.is_empty(), "{problems:?}");
    let [overhaul, exchange, plus, back] = &costs.options[..] else { panic!() };
    let price = overhaul.price.as_ref().unwrap();
    assert_eq!((price.parts, price.labour), (Some(dec("19.60")), Some(dec("120.00"))));
    assert_eq!((without_tax(price), price.total), (dec("139.60"), dec("167.52")));
    assert_eq!((overhaul.days, overhaul.chosen), (Some(9), true));
    assert_eq!(overhaul.leaves.as_deref(), Some("the worn ring gear stays in"));
    assert_eq!(overhaul.times[0].0.number, dec("150"));
    // The model's fixed price goes before the rate card's; tax is on top.
    let price = exchange.price.as_ref().unwrap();
    assert_eq!((price.parts, price.total, exchange.chosen), (None, dec("504.00"), false));
    assert_eq!(without_tax(plus.price.as_ref().unwrap()), dec("300.00"));
    assert_eq!((&back.price, back.days), (&None, None));
    // The chosen way is what is billed until work is listed.
    assert_eq!(costs.bill.unwrap().total, dec("167.52"));
}

#[test]
fn of_two_offers_of_the_chosen_kind_the_first_is_chosen_and_billed() {
    let rest = "options: [{kind: overhaul, price: £200.00}, {kind: overhaul, price: £150.00}]\ndecision: {option: overhaul}\n";
    let (costs, _) = costs_of(&pounds(""), rest);
    assert_eq!(costs.options.iter().map(|one| one.chosen).collect::<Vec<_>>(), [true, false]);
    assert_eq!(costs.bill.unwrap().total, dec("200.00"));
}

#[test]
fn a_price_that_cannot_be_taken_is_told_once_where_it_stands() {
    let rest = "options:\n\
        - {kind: overhaul, parts: [{what: bearing, price: €9.80}], labour: 60 min}\n\
        - {kind: exchange, price: $400.00}\n\
        decision: {option: overhaul}\n";
    let (_, problems) = costs_of("currency: GBP\n", rest);
    let told: Vec<_> = problems.iter().map(|one| (one.code, marked(one))).collect();
    let other = "cost/other-currency";
    assert_eq!(told, [(other, "€9.80"), ("cost/no-rate", "60 min"), (other, "$400.00")]);
}

#[test]
fn a_rate_card_in_another_currency_is_told_in_the_workshop_s_file() {
    let profile =
        "currency: GBP\nrates:\n  hour: €48.00\n  options: [{kind: exchange, price: €400.00}]\n";
    let rest = "options: [{kind: overhaul, labour: 60 min}, {kind: exchange}, {kind: return-as-it-is, price: £1.00}]\nwork: {labour: 60 min}\n";
    let (_, problems) = costs_of(profile, rest);
    let told: Vec<_> = problems.iter().map(|one| (one.place.source.name(), marked(one))).collect();
    assert_eq!(told, [("workshop.yaml", "€48.00"), ("workshop.yaml", "options")]);
    assert_eq!(codes(&problems), ["cost/other-currency", "cost/other-currency"]);
}

fn priced(repair: &str, rest: &str) -> String {
    format!(
        "strip-down: {{date: 2026-03-03, findings: []}}\n\
         options: [{{kind: overhaul, price: {repair}}}, {{kind: exchange, price: £400.00}}]\n{rest}"
    )
}

/// 80 % of the exchange price is common practice, no source.
#[test]
fn a_repair_from_the_share_on_is_beyond_economic_repair_unless_it_was_done() {
    let tier =
        |profile: &str, repair: &str, rest: &str| costs_of(profile, &priced(repair, rest)).0.tier;
    let back = "decision: {option: return-as-it-is}\noutcome: returned-unrepaired\n";
    assert_eq!(tier(&pounds(""), "£319.99", back), None);
    assert_eq!(tier(&pounds(""), "£320.00", back), Some(Tier::BeyondRepair));
    assert_eq!(tier(&pounds(""), "£320.00", ""), Some(Tier::BeyondRepair));
    let own = "currency: GBP\nrates: {hour: £48.00, uneconomic-from: 65 %}\n";
    assert_eq!(tier(own, "£259.99", back), None);
    assert_eq!(tier(own, "£260.00", back), Some(Tier::BeyondRepair));
    // Without a price of either there is nothing to compare.
    let alone = "strip-down: {date: 2026-03-03, findings: []}\noptions: [{kind: overhaul, price: £900.00}]\noutcome: returned-unrepaired\n";
    let (costs, _) = costs_of(&pounds(""), alone);
    assert_eq!((costs.tier, costs.economy), (None, None));
}

#[test]
fn the_cheapest_repair_decides() {
    let rest = "strip-down: {date: 2026-03-03, findings: []}\n\
        options: [{kind: overhaul-plus-parts, price: £390.00}, {kind: overhaul, price: £200.00}, {kind: exchange, price: £400.00}]\n\
        decision: {option: return-as-it-is}\noutcome: returned-unrepaired\n";
    assert_eq!(costs_of(&pounds(""), rest).0.tier, None);
}

#[test]
fn a_dear_repair_that_was_chosen_is_told_and_done_all_the_same() {
    let chosen = "decision: {option: overhaul}\n";
    let (costs, problems) = costs_of(&pounds(""), &priced("£350.00", chosen));
    assert_eq!((codes(&problems), marked(&problems[0])), (vec!["cost/uneconomic"], "overhaul"));
    let message = &problems[0].message;
    assert_eq!(message, "a unit in exchange costs £400.00, the chosen repair £350.00, 87 % of it");
    assert_eq!(costs.bill.unwrap().total, dec("350.00"));
    assert!(costs_of(&pounds(""), &priced("£319.99", chosen)).1.is_empty());
    // What is billed goes before what was offered.
    let billed = format!("{chosen}work: {{price: £330.00}}\n");
    let (costs, problems) = costs_of(&pounds(""), &priced("£250.00", &billed));
    assert_eq!(codes(&problems), ["cost/overrun-not-agreed", "cost/uneconomic"]);
    assert_eq!(costs.economy.unwrap().cheapest, dec("250.00"));
    assert_eq!(costs.economy.unwrap().chosen, Some(dec("330.00")));
}

#[test]
fn the_chosen_repair_is_compared_wherever_it_stands_with_the_cheapest_exchange() {
    let rest = "options:\n\
        - {kind: overhaul, price: £200.00}\n\
        - {kind: overhaul-plus-parts, price: £350.00}\n\
        - {kind: exchange, price: £420.00}\n\
        - {kind: exchange, price: £400.00}\n\
        decision: {option: overhaul-plus-parts}\n";
    let (costs, problems) = costs_of(&pounds(""), rest);
    let chosen: Vec<bool> = costs.options.iter().map(|one| one.chosen).collect();
    assert_eq!(chosen, [false, true, false, false]);
    let economy = costs.economy.unwrap();
    assert_eq!((economy.cheapest, economy.chosen), (dec("200.00"), Some(dec("350.00"))));
    assert_eq!(economy.exchange, dec("400.00"));
    assert_eq!(codes(&problems), ["cost/uneconomic"]);
}

#[test]
fn a_repair_that_was_only_billed_is_compared_and_a_free_exchange_with_nothing() {
    let rest = |exchange: &str| {
        format!(
            "strip-down: {{date: 2026-03-03, findings: []}}\n\
             options: [{{kind: exchange, price: {exchange}}}]\n\
             work: {{price: £330.00}}\noutcome: repaired\n"
        )
    };
    let economy = costs_of(&pounds(""), &rest("£400.00")).0.economy.unwrap();
    assert_eq!((economy.cheapest, economy.chosen), (dec("330.00"), Some(dec("330.00"))));
    assert_eq!(costs_of(&pounds(""), &rest("£0.00")).0.economy, None);
}

#[test]
fn a_dear_repair_that_was_chosen_and_never_done_is_told_as_both() {
    let rest = "strip-down: {date: 2026-03-03, findings: []}\n\
        options:\n\
        - {kind: overhaul, price: £330.00}\n\
        - {kind: overhaul-plus-parts, price: £350.00}\n\
        - {kind: exchange, price: £400.00}\n\
        decision: {option: overhaul-plus-parts}\noutcome: returned-unrepaired\n";
    let (costs, problems) = costs_of(&pounds(""), rest);
    assert_eq!((costs.tier, costs.bill), (Some(Tier::BeyondRepair), None));
    assert_eq!(costs.economy.unwrap().chosen, Some(dec("350.00")));
    assert_eq!(codes(&problems), ["cost/other-tier", "cost/uneconomic"]);
}
