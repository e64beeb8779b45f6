//! A bill beside the price that was agreed: what is more, and who said yes.

use splitcase::assessment::cost::gap::Gap;

use super::{codes, costs_of, dec, pounds};

const OFFER: &str = "options:\n  - {kind: overhaul, parts: [{what: motor bearing, quantity: 2, price: £7.40}], labour: 60 min}\n";
const WORK: &str = "work:\n  parts:\n    - {what: motor bearing 6902-2RS, quantity: 2, price: £7.40}\n    \
    - {what: lip seal, price: £6.50}\n    - {what: gasket and grease, price: £14.00}\n  labour: 60 min\n";

fn gap(profile: &str, decision: &str, work: &str) -> (Option<Gap>, Vec<&'static str>) {
    let rest = format!("{OFFER}decision: {{option: overhaul{decision}}}\n{work}");
    let (costs, problems) = costs_of(profile, &rest);
    (costs.gap, codes(&problems))
}

#[test]
fn what_is_more_is_named_line_by_line_and_doubted_until_it_was_agreed() {
    let (found, codes) = gap(&pounds(""), "", WORK);
    let found = found.unwrap();
    assert_eq!((found.agreed, found.by, found.is_above), (dec("62.80"), dec("20.50"), true));
    let sums: Vec<_> = found.items.iter().map(|(_, sum)| *sum).collect();
    assert_eq!((sums, found.consent), (vec![dec("6.50"), dec("14.00")], None));
    assert_eq!(codes, ["cost/overrun-not-agreed"]);
    let said = |up_to: &str| {
        let overrun = format!(", overrun: {{{up_to}agreed: 2026-03-08, via: phone}}");
        let (found, codes) = gap(&pounds(""), &overrun, WORK);
        assert_eq!(found.unwrap().consent.unwrap().on.to_string(), "2026-03-08");
        codes
    };
    assert!(said("").is_empty() && said("up-to: £20.50, ").is_empty());
    assert_eq!(said("up-to: £20.49, "), ["cost/overrun-too-large"]);
}

#[test]
fn lines_are_named_only_where_they_make_up_the_difference() {
    let on_top = "tax: {name: VAT, rate: 20 %, prices: excluding, rounding: by-invoice}\n";
    let found = gap(&pounds(on_top), "", WORK).0.unwrap();
    assert_eq!((found.by, found.items.len(), found.before_tax), (dec("24.60"), 2, true));
    let off = format!("{WORK}  discount: {{amount: £1.00}}\n");
    let found = gap(&pounds(""), "", &off).0.unwrap();
    assert_eq!((found.by, found.items.len()), (dec("19.50"), 0));
    // Less time and more parts: no list says why it is more.
    let less = WORK.replace("60 min", "50 min");
    assert!(gap(&pounds(""), "", &less).0.unwrap().items.is_empty());
}

#[test]
fn a_bill_below_its_offer_is_said_once_the_job_has_ended_and_doubted_where_it_is_far() {
    let work = "work: {price: £60.00}\n";
    assert_eq!(gap(&pounds(""), "", work), (None, Vec::new()));
    let findings = "strip-down: {date: 2026-03-03, findings: []}\noutcome: repaired\n";
    let (found, codes) = gap(&pounds(""), "", &format!("{work}{findings}"));
    let found = found.unwrap();
    assert_eq!((found.by, found.is_above), (dec("2.80"), false));
    assert!(codes.is_empty(), "{codes:?}");
    let far = format!("work: {{price: £41.00}}\n{findings}");
    assert_eq!(gap(&pounds(""), "", &far).1, ["cost/far-below-offer"]);
    // What the owner does not pay is above and below nothing.
    let waived = format!("{far}billing: {{kind: goodwill}}\n");
    assert_eq!(gap(&pounds(""), "", &waived), (None, Vec::new()));
}

#[test]
fn a_price_from_to_and_one_of_at_most_are_gone_past_at_their_ends() {
    let by = |asked: &str, charged: &str| {
        let rest = format!(
            "options: [{{kind: overhaul, price: {asked}}}]\ndecision: {{option: overhaul}}\n\
             work: {{price: {charged}}}\n\
             strip-down: {{date: 2026-03-03, findings: []}}\noutcome: repaired\n"
        );
        costs_of(&pounds(""), &rest).0.gap.map(|gap| (gap.is_above, gap.by))
    };
    assert_eq!(by("£180.00 to £240.00", "£240.01"), Some((true, dec("0.01"))));
    assert_eq!(by("£180.00 to £240.00", "£179.00"), Some((false, dec("1.00"))));
    assert_eq!(by("£180.00 to £240.00", "£180.00"), None);
    assert_eq!(by("at most £240.00", "£10.00"), None);
    assert_eq!(by("at most £240.00", "£250.00"), Some((true, dec("10.00"))));
}
