//! Limits and verdicts: a figure, its uncertainty and a limit -> within, outside or not decidable.
//!
//! The guard band is as wide as the reading's uncertainty, after JCGM 106:2012 and ILAC-G8:09/2019
//! (both from memory). A reading beyond its meter's range is judged from its one side. How a figure comes about and how it is worded are not here.

use rust_decimal::Decimal;

use crate::assessment::sources::SourceId;

/// Nothing on a bench is larger than this, in any unit.
pub const MOST: i64 = 1_000_000_000_000_000;

/// Where a figure has to be; the edges are inside.
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
    /// `middle` ± `per_cent` %; `None` if that is not a number.
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

    /// How far inside a value is; negative outside.
    pub fn margin(self, value: Decimal) -> Decimal {
        match self {
            Self::AtMost(most) => most - value,
            Self::AtLeast(least) => value - least,
            Self::Between(least, most) => (value - least).min(most - value),
        }
    }
}

/// Where a limit comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// A standard or a regulation.
    Published(SourceId),
    /// The workshop's own figure for this model.
    ShopModel,
    /// The workshop's own figure for every unit.
    Workshop,
    /// Common practice, no published limit; a workshop can set its own in its place.
    Practice,
}

/// A limit with its origin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Limit {
    /// Where the figure has to be, in the unit of its line.
    pub bounds: Bounds,
    /// How far beyond an edge a figure still counts as on it, because the source rounds; zero
    /// for most limits.
    pub slack: Decimal,
    /// Where it comes from.
    pub origin: Origin,
    /// True if the source is about other machines and its figure is only borrowed.
    pub borrowed: bool,
}

impl Limit {
    /// A limit that is taken as it is.
    pub fn new(bounds: Bounds, origin: Origin) -> Self {
        Self { bounds, slack: Decimal::ZERO, origin, borrowed: false }
    }

    /// A published limit for machines like these.
    pub fn published(bounds: Bounds, source: SourceId) -> Self {
        Self::new(bounds, Origin::Published(source))
    }

    /// A figure that is common in the trade and has no source.
    pub fn common(bounds: Bounds) -> Self {
        Self::new(bounds, Origin::Practice)
    }

    /// The same limit, marked as borrowed from other machines.
    #[must_use]
    pub fn borrowed(mut self) -> Self {
        self.borrowed = true;
        self
    }

    /// The same limit, whose edges are stated no finer than to twice this.
    #[must_use]
    pub fn with_slack(mut self, slack: Decimal) -> Self {
        self.slack = slack;
        self
    }

    /// The bounds by which a figure is judged: those printed, widened by the slack.
    pub fn judged_by(&self) -> Bounds {
        match self.bounds {
            Bounds::AtMost(most) => Bounds::AtMost(most + self.slack),
            Bounds::AtLeast(least) => Bounds::AtLeast(least - self.slack),
            Bounds::Between(least, most) => Bounds::Between(least - self.slack, most + self.slack),
        }
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
    /// The temperature is where the correction rule does not hold.
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
    /// The meter was over its range, and the figure needs a number.
    OverRange,
    /// It is not known whether every brake lever cuts the motor off.
    BrakeSwitchesUnknown,
    /// Something typed as a hall state is none.
    NotAState,
}

/// The verdict on a figure by its limit.
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

/// On which side of a figure the true value is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The true value is at most the figure.
    AtMost,
    /// The true value is at least the figure.
    AtLeast,
}

/// Judges a value of which only one side is known; what the other side would decide stays undecided.
pub fn judge_one_side(
    value: Decimal,
    uncertainty: Option<Decimal>,
    side: Side,
    bounds: Bounds,
) -> Verdict {
    let kept = |bounds: Bounds, keep: Verdict| {
        if judge(value, uncertainty, bounds) == keep { keep } else { Verdict::Undecided }
    };
    match (side, bounds) {
        (Side::AtMost, Bounds::AtMost(_)) | (Side::AtLeast, Bounds::AtLeast(_)) => {
            kept(bounds, Verdict::Within)
        }
        (Side::AtMost, Bounds::AtLeast(_)) | (Side::AtLeast, Bounds::AtMost(_)) => {
            kept(bounds, Verdict::Outside)
        }
        (Side::AtMost, Bounds::Between(least, _)) => kept(Bounds::AtLeast(least), Verdict::Outside),
        (Side::AtLeast, Bounds::Between(_, most)) => kept(Bounds::AtMost(most), Verdict::Outside),
    }
}
