//! Published and computed examples of rounding: HMRC internal manual VATREC12010 and VATREC12030
//! (L06).

use splitcase::assessment::cost::lines::LineKind;

use super::{bill_of, dec, pounds};

/// Three lines of 10.03 at 20 %.
const THREE: &str = "work: {parts: [{what: a, price: £10.03}, {what: b, price: £10.03}, {what: c, price: £10.03}]}\n";

fn taxed(prices: &str, rounding: &str) -> String {
    pounds(&format!("tax: {{name: VAT, rate: 20 %, prices: {prices}, rounding: {rounding}}}\n"))
}

/// L07 (arithmetic): each line 2.006 goes up to 2.01, three of them 6.03; on the total 6.018 goes
/// to 6.02.
#[test]
fn by_line_and_by_invoice_differ_by_a_penny() {
    for (rounding, tax, total) in [("by-line", "6.03", "36.12"), ("by-invoice", "6.02", "36.11")] {
        let bill = bill_of(&taxed("excluding", rounding), THREE);
        assert_eq!(bill.sum(), dec("30.09"));
        assert_eq!(bill.taxes[0].amount, dec(tax), "{rounding}");
        assert_eq!(bill.total, dec(total), "{rounding}");
    }
}

/// L06: an amount below 0.5 p is rounded down, one of 0.5 p or more is rounded up.
#[test]
fn half_a_penny_goes_up_and_less_goes_down() {
    for (price, tax) in [("£0.12", "0.02"), ("£0.13", "0.03"), ("£0.02", "0.00"), ("£0.03", "0.01")]
    {
        for rounding in ["by-line", "by-invoice"] {
            let work = format!("work: {{parts: [{{what: a, price: {price}}}]}}\n");
            let bill = bill_of(&taxed("excluding", rounding), &work);
            assert_eq!(bill.taxes[0].amount, dec(tax), "{price}");
        }
    }
    // Exactly half a penny: 12.5 % of 0.20 is 0.025.
    let tax = "tax: {name: VAT, rate: 12.5 %, prices: excluding, rounding: by-invoice}\n";
    let bill = bill_of(&pounds(tax), "work: {parts: [{what: a, price: £0.20}]}\n");
    assert_eq!(bill.taxes[0].amount, dec("0.03"));
}

/// L08: nothing passes through a float. In doubles 1.005 is below itself and rounds to 1.00.
#[test]
fn decimals_stay_exact_where_doubles_do_not() {
    let tax = "tax: {name: VAT, rate: 10 %, prices: excluding, rounding: by-invoice}\n";
    let bill = bill_of(&pounds(tax), "work: {parts: [{what: a, price: £10.05}]}\n");
    assert_eq!(bill.taxes[0].amount, dec("1.01"));
    assert!((1.005_f64 * 100.0).round() < 101.0);
    let many = "work: {parts: [{what: a, quantity: 3, price: £0.10}]}\n";
    assert_eq!(bill_of(&pounds(""), many).total, dec("0.30"));
}

/// Prices that hold the tax: a sixth of the price at 20 %, and the total is what was typed.
#[test]
fn tax_that_is_held_in_prices_does_not_change_the_total() {
    let bill = bill_of(&taxed("including", "by-invoice"), THREE);
    let tax = &bill.taxes[0];
    assert!(tax.included);
    // 30.09 / 6 is 5.015.
    assert_eq!((tax.amount, bill.total), (dec("5.02"), dec("30.09")));
    // 10.03 / 6 is 1.671...; three times 1.67.
    let bill = bill_of(&taxed("including", "by-line"), THREE);
    assert_eq!((bill.taxes[0].amount, bill.total), (dec("5.01"), dec("30.09")));
}

#[test]
fn time_is_charged_by_the_minute_and_rounded_once() {
    let labour = |time: &str, hour: &str| {
        let profile = format!("currency: GBP\nrates: {{hour: {hour}}}\n");
        bill_of(&profile, &format!("work: {{labour: {time}}}\n"))
    };
    assert_eq!(labour("20 min", "£48.00").total, dec("16.00"));
    assert_eq!(labour("2.5 h", "£48.00").total, dec("120.00"));
    // 50 min at 49.95 is 41.625.
    assert_eq!(labour("50 min", "£49.95").total, dec("41.63"));
    let bill = labour("20 min", "£48");
    assert!(matches!(bill.lines[0].kind, LineKind::Labour { .. }));
    assert_eq!(bill.lines[0].each.unwrap().to_string(), "48.00");
    assert_eq!(bill.total.to_string(), "16.00");
}

#[test]
fn a_currency_without_a_minor_unit_has_none_on_the_bill() {
    let profile = "currency: JPY\nrates: {hour: ¥7000}\ntax: {name: tax, rate: 10 %, prices: excluding, rounding: by-line}\n";
    let bill = bill_of(profile, "work: {labour: 25 min}\n");
    // 2916.6... and 291.7.
    assert_eq!(bill.lines[0].sum.to_string(), "2917");
    assert_eq!(bill.taxes[0].amount.to_string(), "292");
    assert_eq!(bill.total.to_string(), "3209");
}

/// Ten lines of a penny each round up to a penny of tax at 900 %, and are held in six pence.
#[test]
fn tax_that_is_held_in_a_total_is_never_more_than_it() {
    let tax = "tax: {name: VAT, rate: 900 %, prices: including, rounding: by-line}\n";
    let parts = ["{what: a, price: £0.01}"; 10].join(", ");
    let work = format!("work: {{parts: [{parts}], discount: {{amount: £0.04}}}}\n");
    let bill = bill_of(&pounds(tax), &work);
    assert_eq!((bill.taxes[0].amount, bill.total), (dec("0.06"), dec("0.06")));
}

#[test]
fn a_workshop_without_tax_shows_none() {
    let bill = bill_of(&pounds(""), THREE);
    assert_eq!((bill.taxes.len(), bill.total), (0, dec("30.09")));
}

#[test]
fn an_agreed_price_goes_before_parts_and_time() {
    let work = "work: {price: £250.00, labour: 90 min, parts: [{what: a, price: £9.00}]}\n";
    let bill = bill_of(&pounds(""), work);
    assert_eq!(bill.lines.len(), 1);
    assert_eq!(bill.lines[0].kind, LineKind::Agreed);
    assert_eq!(bill.total, dec("250.00"));
}
