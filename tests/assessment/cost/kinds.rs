//! Fees, rates, surcharges and kinds of bill.

use splitcase::assessment::cost::lines::LineKind;
use splitcase::assessment::cost::options::Firm;
use splitcase::assessment::cost::settlement::Balance;
use splitcase::sheet::charges::{BillKind, PartState};
use splitcase::sheet::price::CURRENCIES;

use super::{bill_of, codes, costs_of, dec, marked, pounds};

const WORK: &str = "parts: [{what: a, price: £60.00}], labour: 60 min, postage: £9.00";

#[test]
fn a_discount_is_taken_from_what_it_names_and_never_from_postage_or_fees() {
    let off = |discount: &str| {
        let rest =
            format!("work: {{{WORK}, discount: {discount}}}\nbilling: {{inspection: £35.00}}\n");
        let bill = bill_of(&pounds(""), &rest);
        assert_eq!(bill.sum(), dec("152.00"));
        bill.sum() - bill.total
    };
    assert_eq!(off("{share: 100 %}"), dec("108.00"));
    assert_eq!(off("{share: 50 %, on: labour}"), dec("24.00"));
    assert_eq!(off("{share: 50 %, on: parts}"), dec("30.00"));
    assert_eq!(off("{share: 50 %, on: all}"), dec("54.00"));
    let rest = format!("work: {{{WORK}, discount: {{amount: £48.01, on: labour}}}}\n");
    let (_, problems) = costs_of(&pounds(""), &rest);
    let [problem] = &problems[..] else { panic!("{problems:?}") };
    assert_eq!((problem.code, marked(problem)), ("cost/discount-too-large", "£48.01"));
}

#[test]
fn work_can_be_charged_at_several_rates() {
    let rates =
        "currency: GBP\nrates: {hour: £44.00, hours: [{name: electronics, price: £60.00}]}\n";
    let lines = "[{time: 60 min}, {time: 90 min, rate: electronics, for: soldering}]";
    let bill = bill_of(rates, &format!("work: {{labour: {lines}}}\n"));
    assert_eq!(
        bill.lines.iter().map(|line| line.sum).collect::<Vec<_>>(),
        [dec("44.00"), dec("90.00")]
    );
    let plain = bill_of(rates, "work: {labour: 60 min}\n");
    assert_eq!(plain.lines[0], bill.lines[0]);
    let (_, problems) = costs_of(rates, "work: {labour: {time: 1 h, rate: welding}}\n");
    assert_eq!((codes(&problems), marked(&problems[0])), (vec!["cost/unknown-rate"], "welding"));
}

#[test]
fn a_surcharge_for_an_old_part_is_charged_and_given_back_with_its_tax() {
    let tax = "tax: {name: VAT, rate: 20 %, prices: excluding, rounding: by-line}\n";
    let part = |more: &str| {
        let part =
            format!("what: board, state: reconditioned, price: £90.00, core-charge: £40.00{more}");
        bill_of(&pounds(tax), &format!("work: {{parts: [{{{part}}}]}}\n"))
    };
    let bill = part("");
    let state = Some(PartState::Reconditioned);
    assert_eq!(bill.lines[0].kind, LineKind::Part { what: "board".into(), state });
    assert_eq!((bill.sum(), bill.total), (dec("130.00"), dec("156.00")));
    let bill = part(", core-returned: 2026-03-20");
    assert_eq!((bill.lines.len(), bill.total), (3, dec("108.00")));
}

#[test]
fn looking_into_it_is_billed_as_such_and_can_be_credited() {
    let ended = "strip-down: {date: 2026-03-03, findings: []}\noutcome: returned-unrepaired\n";
    let fee = "billing: {inspection: £35.00, inspection-credited: yes}\n";
    let kinds = |rest: &str| -> Vec<LineKind> {
        bill_of(&pounds(""), rest).lines.into_iter().map(|line| line.kind).collect()
    };
    let returned = "decision: {option: return-as-it-is}\n";
    assert_eq!(kinds(&format!("{returned}{fee}{ended}")), [LineKind::Examination]);
    // A price of returning it as it is, is that fee already.
    let priced = format!("options: [{{kind: return-as-it-is, price: £35.00}}]\n{returned}");
    assert_eq!(kinds(&format!("{priced}{ended}")), [LineKind::Examination]);
    assert_eq!(kinds(&format!("{priced}{fee}{ended}")), [LineKind::Examination]);
    // Chosen was a repair, and it went back as it came.
    let chosen = "options: [{kind: overhaul, price: £250.00}]\ndecision: {option: overhaul}\n";
    assert_eq!(kinds(&format!("{chosen}{fee}{ended}")), [LineKind::Examination]);
    let bill = bill_of(&pounds(""), &format!("work: {{{WORK}}}\n{fee}"));
    assert_eq!(bill.lines.last().unwrap().kind, LineKind::ExaminationCredited);
    assert_eq!(bill.total, dec("117.00"));
}

#[test]
fn under_a_guarantee_or_as_goodwill_the_owner_pays_nothing_and_gets_a_deposit_back() {
    for (kind, is) in [("guarantee", BillKind::Guarantee), ("goodwill", BillKind::Goodwill)] {
        let rest = format!("work: {{{WORK}}}\nbilling: {{kind: {kind}}}\n");
        let bill = bill_of(&pounds(""), &rest);
        assert_eq!((bill.kind, bill.total, bill.settlement), (is, dec("117.00"), None));
        let paid = format!("{rest}decision: {{option: overhaul, deposit: £50.00}}\n");
        let bill = costs_of(&pounds(""), &paid).0.bill.unwrap();
        assert_eq!(bill.settlement.unwrap().balance, Balance::GiveBack(dec("50.00")));
    }
}

#[test]
fn a_price_can_be_left_open_within_bounds_and_is_settled_by_the_work() {
    let tax = "tax: {name: VAT, rate: 20 %, prices: excluding, rounding: by-invoice}\n";
    let rest = "options: [{kind: overhaul, price: £180.00 to £240.00}, {kind: exchange, price: at most £400.00}]\n\
        options-valid-to: 2026-03-31\ndecision: {option: overhaul, date: 2026-04-01}\n";
    let (costs, problems) = costs_of(&pounds(tax), rest);
    assert_eq!(codes(&problems), ["cost/decided-late"]);
    let [overhaul, exchange] = &costs.options[..] else { panic!() };
    let (overhaul, exchange) = (overhaul.price.as_ref().unwrap(), exchange.price.as_ref().unwrap());
    assert_eq!((overhaul.firm, overhaul.total), (Firm::From(dec("216.00")), dec("288.00")));
    assert_eq!((exchange.firm, exchange.total), (Firm::AtMost, dec("480.00")));
    assert_eq!(costs.bill, None);
    let ended = "strip-down: {date: 2026-03-03, findings: []}\noutcome: repaired\n";
    let open = format!("{rest}work: {{note: cleaned}}\n{ended}");
    let (_, problems) = costs_of(&pounds(tax), &open);
    assert!(codes(&problems).contains(&"cost/price-left-open"));
    let work = "work: {price: £200.00}\n";
    let (costs, problems) = costs_of(&pounds(tax), &format!("{rest}{work}{ended}"));
    assert_eq!((costs.gap, codes(&problems)), (None, vec!["cost/decided-late"]));
}

/// The codes of ISO 4217 with their minor units; those with other than two places from memory of its
/// table A.1, which names no other.
#[test]
fn a_currency_has_the_places_of_its_minor_unit() {
    let places = |code: &str| CURRENCIES.iter().find(|one| one.code == code).unwrap().places;
    for code in ["JPY", "KRW", "ISK", "VND", "CLP", "XOF"] {
        assert_eq!(places(code), 0, "{code}");
    }
    for code in ["KWD", "BHD", "TND", "OMR", "JOD", "IQD", "LYD"] {
        assert_eq!(places(code), 3, "{code}");
    }
    let others = CURRENCIES.iter().filter(|one| one.places == 2).count();
    assert!(120 < others && CURRENCIES.len() == others + 16 + 7);
    let mut codes: Vec<&str> = CURRENCIES.iter().map(|one| one.code).collect();
    codes.sort_unstable();
    codes.dedup();
    assert_eq!(codes.len(), CURRENCIES.len());
    let profile = "currency: KWD\nrates: {hour: KWD 7.500}\n";
    assert_eq!(bill_of(profile, "work: {labour: 1 min}\n").total.to_string(), "0.125");
}

#[test]
fn what_is_typed_and_said_nowhere_is_doubted() {
    let ended = "strip-down: {date: 2026-03-03, findings: []}\noutcome: repaired\n";
    let told = |rest: &str| {
        let rest = format!("work: {{labour: 60 min}}\n{rest}{ended}");
        let (_, problems) = costs_of(&pounds(""), &rest);
        let nowhere = problems.iter().filter(|one| one.code == "cost/said-nowhere");
        nowhere.map(|one| marked(one).to_owned()).collect::<Vec<_>>()
    };
    let billing = |fields: &str| told(&format!("billing: {{{fields}}}\n"));
    assert_eq!(billing("guarantee-of: 2025-10-03, earlier-job: HD-1"), ["2025-10-03", "HD-1"]);
    assert!(billing("kind: guarantee, guarantee-of: 2025-10-03, earlier-job: HD-1").is_empty());
    assert_eq!(billing("kind: goodwill, paid: 2026-03-11, paid-by: card"), ["2026-03-11", "card"]);
    assert_eq!(billing("inspected: an hour, inspection-credited: yes"), ["an hour", "yes"]);
    assert!(billing("inspected: an hour, inspection: £5.00, inspection-credited: yes").is_empty());
    let agreed = "decision: {option: overhaul, overrun: {agreed: 2026-03-08}}\n";
    assert_eq!(told(agreed), ["overrun"]);
}
