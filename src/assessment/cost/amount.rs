//! Arithmetic on amounts: checked, bounded, rounded half up to the currency's minor unit.
//!
//! In: decimals as typed; out: decimals, or `None` if an amount is too large to compute with
//! exactly. No floats, and no amount ever wraps or loses a digit unseen.

use rust_decimal::{Decimal, RoundingStrategy};

use crate::sheet::price::Currency;

/// Amounts from a thousand million on are refused: the product of two amounts and a rate of four
/// decimal places still fits the 28 digits of a decimal (the program's own bound).
pub(super) const TOO_LARGE: Decimal = Decimal::from_parts(1_000_000_000, 0, 0, false, 0);

/// Rounds half up to the currency's minor unit (VAT rounding as in L06: 0.5 p and more go up).
pub(super) fn rounded(amount: Decimal, currency: Currency) -> Decimal {
    let mut amount =
        amount.round_dp_with_strategy(currency.places, RoundingStrategy::MidpointAwayFromZero);
    amount.rescale(currency.places);
    amount
}

/// The amount, if it is not too large.
pub(super) fn bounded(amount: Decimal) -> Option<Decimal> {
    (amount < TOO_LARGE).then_some(amount)
}

/// The sum of amounts.
pub(super) fn sum(amounts: impl IntoIterator<Item = Decimal>) -> Option<Decimal> {
    amounts.into_iter().try_fold(Decimal::ZERO, |sum, one| bounded(sum.checked_add(one)?))
}

/// `amount * times / per`, rounded once at the end; multiplied first, so that thirds stay whole.
pub(super) fn part_of(
    amount: Decimal,
    times: Decimal,
    per: Decimal,
    currency: Currency,
) -> Option<Decimal> {
    bounded(rounded(amount.checked_mul(times)?.checked_div(per)?, currency))
}
