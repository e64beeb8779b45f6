//! Exact fractions, so that tax is rounded once and on its true value.
//!
//! In: decimals; out: fractions of whole numbers, or `None` if they grow beyond 38 digits.

use rust_decimal::Decimal;

/// A fraction in lowest terms; what is below its line is positive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Fraction {
    above: i128,
    below: i128,
}

impl Fraction {
    pub(super) const ZERO: Self = Self { above: 0, below: 1 };
    pub(super) const ONE: Self = Self { above: 1, below: 1 };

    /// The value of a decimal.
    pub(super) fn of(value: Decimal) -> Option<Self> {
        Self::lowest(value.mantissa(), 10_i128.checked_pow(value.scale())?)
    }

    pub(super) fn times(self, other: Self) -> Option<Self> {
        // Crosswise first, so that products stay small.
        let (first, second) =
            (Self::lowest(self.above, other.below)?, Self::lowest(other.above, self.below)?);
        Self::lowest(first.above.checked_mul(second.above)?, first.below.checked_mul(second.below)?)
    }

    /// `None` also if `other` is zero.
    pub(super) fn over(self, other: Self) -> Option<Self> {
        self.times(Self::lowest(other.below, other.above)?)
    }

    pub(super) fn plus(self, other: Self) -> Option<Self> {
        let shared = common(self.below, other.below);
        let (own, others) = (other.below / shared, self.below / shared);
        let above = self.above.checked_mul(own)?.checked_add(other.above.checked_mul(others)?)?;
        Self::lowest(above, self.below.checked_mul(own)?)
    }

    /// Half up, away from zero, to `places` decimal places.
    pub(super) fn rounded(self, places: u32) -> Option<Decimal> {
        let above = self.above.checked_mul(10_i128.checked_pow(places)?)?;
        let doubled = above.checked_abs()?.checked_mul(2)?.checked_add(self.below)?;
        let whole = doubled / self.below.checked_mul(2)?;
        Decimal::try_from_i128_with_scale(whole * above.signum(), places).ok()
    }

    fn lowest(above: i128, below: i128) -> Option<Self> {
        if below == 0 {
            return None;
        }
        let shared = common(above, below) * below.signum();
        Some(Self { above: above.checked_div(shared)?, below: below.checked_div(shared)? })
    }
}

/// The greatest common divisor, at least 1.
fn common(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a.unsigned_abs(), b.unsigned_abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    i128::try_from(a).unwrap_or(1).max(1)
}
