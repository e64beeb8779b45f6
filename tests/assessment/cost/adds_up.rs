//! What is printed adds up, whatever is typed, and the order of lines is of no matter.

use proptest::prelude::{ProptestConfig, Strategy, prop, prop_assert, prop_assert_eq, proptest};
use rust_decimal::Decimal;
use splitcase::assessment::cost::settlement::Balance;
use splitcase::assessment::cost::{Bill, Costs};

use super::costs_of;

/// A bill as typed: parts (quantity, pence), minutes, pence an hour, rate in hundredths of a per
/// cent.
#[derive(Clone, Debug)]
struct Typed {
    parts: Vec<(u32, u64)>,
    minutes: Option<u32>,
    hour: u64,
    rate: u32,
    including: bool,
    by_line: bool,
    discount: Option<(bool, u64)>,
    credit: Option<u64>,
    deposit: Option<u64>,
}

fn pence(amount: u64) -> String {
    format!("£{}.{:02}", amount / 100, amount % 100)
}

/// Small amounts, where rounding shows, and large ones.
fn amount() -> impl Strategy<Value = u64> {
    prop::strategy::Union::new([0..40_u64, 0..60_000, 0..9_000_000])
}

fn typed() -> impl Strategy<Value = Typed> {
    let lines = (prop::collection::vec((1..9_u32, amount()), 0..8), prop::option::of(0..2000_u32));
    let tax = (0..20_000_u64, 0..3000_u32, prop::bool::ANY, prop::bool::ANY);
    let off = prop::option::of((prop::bool::ANY, 0..=10_000_u64));
    let paid = (prop::option::of(amount()), prop::option::of(amount()));
    (lines, tax, off, paid).prop_map(|((parts, minutes), tax, discount, (credit, deposit))| {
        let (hour, rate, including, by_line) = tax;
        Typed { parts, minutes, hour, rate, including, by_line, discount, credit, deposit }
    })
}

impl Typed {
    fn costs(&self) -> Costs {
        let prices = if self.including { "including" } else { "excluding" };
        let rounding = if self.by_line { "by-line" } else { "by-invoice" };
        let rate = Decimal::new(self.rate.into(), 2);
        let profile = format!(
            "currency: GBP\nrates: {{hour: {}}}\n\
             tax: {{name: VAT, rate: {rate} %, prices: {prices}, rounding: {rounding}}}\n",
            pence(self.hour)
        );
        let part = |(quantity, price): &(u32, u64)| {
            format!("{{what: part, quantity: {quantity}, price: {}}}", pence(*price))
        };
        let parts: Vec<String> = self.parts.iter().map(part).collect();
        let mut rest = format!("work:\n  parts: [{}]\n", parts.join(", "));
        if let Some(minutes) = self.minutes {
            rest += &format!("  labour: {minutes} min\n");
        }
        // An amount is a share of the parts in whole pence, so that it is never too large.
        let whole: u64 =
            self.parts.iter().map(|(quantity, price)| u64::from(*quantity) * price).sum();
        match self.discount {
            Some((true, share)) => {
                rest += &format!("  discount: {{share: {} %}}\n", Decimal::new(share as i64, 2));
            }
            Some((false, share)) => {
                rest += &format!("  discount: {{amount: {}}}\n", pence(whole * share / 10_000));
            }
            None => {}
        }
        if let Some(credit) = self.credit {
            rest += &format!("exchange: {{credit: {}}}\n", pence(credit));
        }
        if let Some(deposit) = self.deposit {
            rest += &format!("decision: {{option: exchange, deposit: {}}}\n", pence(deposit));
        }
        let (costs, problems) = costs_of(&profile, &rest);
        assert!(problems.is_empty(), "{problems:?}");
        costs
    }
}

/// A number as it is printed, read back.
fn printed(amount: Decimal) -> Decimal {
    let text = amount.to_string();
    assert_eq!(text.split_once('.').map(|(_, places)| places.len()), Some(2), "{text}");
    text.parse().unwrap()
}

/// The total by the printed numbers alone.
fn total_of(bill: &Bill) -> Decimal {
    let lines: Decimal = bill.lines.iter().map(|line| printed(line.sum)).sum();
    let off = bill.discount.iter().map(|discount| printed(discount.amount)).sum::<Decimal>();
    let on_top = bill.taxes.iter().filter(|tax| !tax.included).map(|tax| printed(tax.amount));
    lines - off + on_top.sum::<Decimal>()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn totals_are_the_sums_of_what_is_printed(typed in typed()) {
        let Some(bill) = typed.costs().bill else {
            prop_assert!(typed.parts.is_empty() && typed.minutes.is_none());
            return Ok(());
        };
        prop_assert_eq!(printed(bill.total), total_of(&bill));
        for line in &bill.lines {
            if let (Some(quantity), Some(each)) = (line.quantity, line.each) {
                prop_assert_eq!(printed(line.sum), printed(each) * Decimal::from(quantity));
            }
        }
        let tax = &bill.taxes[0];
        prop_assert!(Decimal::ZERO <= tax.amount && tax.amount <= bill.total);
        prop_assert!(Decimal::ZERO <= bill.total);
        let paid = [typed.credit, typed.deposit].into_iter().flatten();
        let paid: Decimal = paid.map(|pence| Decimal::new(pence as i64, 2)).sum();
        let left = match bill.settlement.map(|settled| settled.balance) {
            None => bill.total,
            Some(Balance::ToPay(left)) => printed(left),
            Some(Balance::Settled) => Decimal::ZERO,
            Some(Balance::GiveBack(back)) => -printed(back),
        };
        prop_assert_eq!(left, bill.total - paid);
        prop_assert_eq!(bill.settlement.is_some(), typed.credit.or(typed.deposit).is_some());
    }

    #[test]
    fn the_tax_is_that_of_whole_pence_by_hand(typed in typed()) {
        let Some(bill) = typed.costs().bill else { return Ok(()) };
        let in_pence = |amount: Decimal| i128::try_from(amount * Decimal::ONE_HUNDRED).unwrap();
        let (rate, included) = (i128::from(typed.rate), i128::from(typed.including));
        let off = bill.discount.as_ref().map_or(0, |discount| in_pence(discount.amount));
        let sum: i128 = bill.lines.iter().map(|line| in_pence(line.sum)).sum();
        // Rate in hundredths of a per cent: numerator and denominator of a rounded share, half up.
        let share = |above: i128, below: i128| {
            let (above, below) = (above * rate, below * (10_000 + included * rate));
            (2 * above + below) / (2 * below)
        };
        let tax = match typed.by_line {
            true if sum == 0 => 0,
            true => bill.lines.iter().map(|line| share(in_pence(line.sum) * (sum - off), sum)).sum(),
            false => share(sum - off, 1),
        };
        prop_assert_eq!(in_pence(bill.taxes[0].amount), tax);
    }

    #[test]
    fn the_order_of_parts_changes_no_amount(
        typed in typed(),
        keys in prop::collection::vec(0_u32..1000, 8),
    ) {
        let mut mixed: Vec<(u32, (u32, u64))> = keys.into_iter().zip(typed.parts.clone()).collect();
        mixed.sort_by_key(|(key, _)| *key);
        let parts = mixed.into_iter().map(|(_, part)| part).collect();
        let amounts = |costs: Costs| {
            costs.bill.map(|bill| (bill.total, bill.discount, bill.taxes, bill.settlement))
        };
        prop_assert_eq!(amounts(Typed { parts, ..typed.clone() }.costs()), amounts(typed.costs()));
    }
}
