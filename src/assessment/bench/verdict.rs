//! Limits and verdicts: a figure, its uncertainty and a limit -> within, outside or not decidable.
//!
//! The guard band is as wide as the reading's uncertainty, after JCGM 106:2012 and ILAC-G8:09/2019
//! (both from memory). How a figure comes about and how it is worded are not here.

use rust_decimal::Decimal;

/// Nothing on a bench is larger than this, in any unit.
pub const MOST: i64 = 1_000_000_000_000_000;

/// Where a figure has to lie; the edges themselves belong to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bounds {
    /// Not above this.
    AtMost(Decimal),
    /// Not below this.
    AtLeast(Decimal),
    /// Not below the first and not above the second.
    Between(Decimal, Decimal),
}

impl Bounds {
    /// Around a middle, off by at most so many per cent of it; `None` where that is no number.
    pub fn around(middle: Decimal, per_cent: Decimal) -> Option<Self> {
        let off = middle.checked_mul(per_cent.checked_div(Decimal::ONE_HUNDRED)?)?.abs();
        Some(Self::Between(middle.checked_sub(off)?, middle.checked_add(off)?))
    }

    /// The same bounds, unless an edge is larger than anything on a bench.
    pub fn sane(self) -> Option<Self> {
        let is_sane = |edge: Decimal| edge.abs() <= Decimal::from(MOST);
        let both = match self {
            Self::AtMost(edge) | Self::AtLeast(edge) => is_sane(edge),
            Self::Between(least, most) => is_sane(least) && is_sane(most),
        };
        both.then_some(self)
    }

    /// How far inside a value lies; negative outside.
    pub fn margin(self, value: Decimal) -> Decimal {
        match self {
            Self::AtMost(most) => most - value,
            Self::AtLeast(least) => value - least,
            Self::Between(least, most) => (value - least).min(most - value),
        }
    }
}

/// On whose word a limit stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// A standard, a regulation or a handbook.
    Published,
    /// The workshop's own figure.
    Workshop,
    /// Common practice without a source; a workshop can set its own in its place.
    CommonPractice,
}

/// A limit with the word it stands on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Limit {
    /// Where the figure has to lie, in the unit of its line.
    pub bounds: Bounds,
    /// Who says so.
    pub source: &'static str,
    /// Edition of the source; empty where there is none.
    pub edition: &'static str,
    /// On whose word it stands.
    pub origin: Origin,
    /// True where the source speaks of other machines and its figure is only borrowed.
    pub borrowed: bool,
}

impl Limit {
    /// The workshop's own limit, general or for a model.
    pub fn workshop(bounds: Bounds, of_model: bool) -> Self {
        let source = if of_model { "workshop, for this model" } else { "workshop" };
        Self { bounds, source, edition: "", origin: Origin::Workshop, borrowed: false }
    }

    /// A published limit for machines like these.
    pub fn published(bounds: Bounds, source: &'static str, edition: &'static str) -> Self {
        Self { bounds, source, edition, origin: Origin::Published, borrowed: false }
    }

    /// A figure that is common in the trade and has no source.
    pub fn common(bounds: Bounds) -> Self {
        let source = "common practice, no published limit";
        Self { bounds, source, edition: "", origin: Origin::CommonPractice, borrowed: false }
    }

    /// The same limit, marked as borrowed from other machines.
    #[must_use]
    pub fn borrowed(mut self) -> Self {
        self.borrowed = true;
        self
    }
}

/// Why something could not be determined.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// Neither a published limit nor one of the workshop's own.
    NoLimit,
    /// The temperature is missing that a correction needs.
    MissingTemperature,
    /// The temperature of the surroundings is missing.
    MissingAmbient,
    /// The resistance before the run is missing, or the one after it.
    MissingColdOrHot,
    /// Another number of readings is needed.
    ReadingCount {
        /// How many are needed.
        needed: usize,
        /// How many there are.
        found: usize,
    },
    /// A reading that cannot be zero or below it is.
    NotPositive,
    /// A value far outside anything that can be measured on a bench.
    OutOfRange,
    /// The temperature lies where the correction rule does not hold.
    TemperatureOutsideRule,
    /// The background is less than 3 dB below the reading.
    BackgroundTooLoud,
    /// No background was measured, and the reading with the background in it is above the limit.
    MissingBackground,
    /// The bearing's designation is missing.
    MissingBearing,
    /// The designation is none of a deep groove ball bearing that is known here.
    UnknownBearing,
    /// The table has no row for this size.
    NotInTable,
    /// The tolerance zone is missing, and so is which ring turns.
    MissingZone,
    /// The tolerance zone is none that is known here.
    UnknownZone,
    /// The number of cells in series is missing.
    MissingCells,
    /// Neither a model's torque nor a thread to look one up by.
    MissingThread,
    /// It is not known whether every brake lever cuts the motor off.
    BrakeSwitchesUnknown,
    /// Something typed as a hall state is none.
    NotAState,
}

/// What a figure and its limit come to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Inside, by at least its uncertainty.
    Within,
    /// Outside, by more than its uncertainty.
    Outside,
    /// Nearer to the limit than its uncertainty: the reading does not decide.
    Undecided,
    /// There is no figure or no limit.
    NotDetermined(Reason),
}

/// Judges a value against bounds with a guard band as wide as its expanded uncertainty (k = 2).
///
/// Without an uncertainty the value is taken as it is (simple acceptance).
pub fn judge(value: Decimal, uncertainty: Option<Decimal>, bounds: Bounds) -> Verdict {
    let guard = uncertainty.unwrap_or_default().abs();
    let margin = bounds.margin(value);
    if margin >= guard {
        Verdict::Within
    } else if margin < -guard {
        Verdict::Outside
    } else {
        Verdict::Undecided
    }
}
