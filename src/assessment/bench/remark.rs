//! What is to be said beside a figure: facts, from which a wording can be chosen.

use rust_decimal::Decimal;

use super::fit::Fit;
use crate::sheet::vocabulary::Placing;

/// Something to be said beside a figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Remark {
    /// The reading that deviates most: its place in the list, from 0, and whether it is low.
    DeviatesMost {
        /// Place in the list of three.
        reading: usize,
        /// True if it is below the mean.
        low: bool,
    },
    /// Readings went up from the first to the last.
    Rising,
    /// The test voltage is above 250 V, which can harm electronics that are still connected.
    HighTestVoltage,
    /// The test voltage is not stated.
    TestVoltageNotStated,
    /// The background is 3 to 6 dB below: the level is at most the one given.
    UpperBoundOnly,
    /// No background was measured: the level holds it.
    BackgroundNotMeasured,
    /// The hall sensors are placed like this, as typed or as their states show.
    Placing(Placing),
    /// Valid states that never showed.
    MissingStates(Vec<u8>),
    /// States that cannot be with this placing.
    InvalidStates(Vec<u8>),
    /// A line (0 for the first digit) that stayed at one level through all states.
    StuckLine {
        /// Which line.
        line: usize,
        /// Its level.
        high: bool,
    },
    /// Neighbouring states differ in more than one line: typed out of order, or a step was lost.
    OutOfOrder,
    /// The tolerance zone is the usual one, not a typed one.
    UsualZone(&'static str),
    /// The fit of a seat in this zone with this bearing.
    FitOfZone(Fit),
    /// The fit of the seat as measured with this bearing.
    FitAsMeasured(Fit),
    /// The bearing is finer than the normal class, whose tolerances are the ones known here.
    FinerBearing,
    /// The limit is for a bearing that is not mounted; fits and warmth take from it.
    UnmountedOnly,
    /// The most that a table gives steel screws of this thread, N m; light alloy bears less.
    SteelAtMost(Decimal),
    /// Full at this voltage, empty at the other.
    PackWindow {
        /// Volts when full (4.20 V a cell).
        full: Decimal,
        /// Volts at the usual cut-off (3.0 V a cell).
        empty: Decimal,
    },
    /// Not to be charged; to be looked at by somebody who is trained for it.
    DoNotCharge,
    /// An uncertainty of 2 % was assumed, the accuracy that the test procedure asks of the meter.
    MeterAccuracyAssumed,
    /// The rule states its speed to a tenth at most, and to a tenth the reading is not above it.
    ComparedToTenths,
    /// Rules differ from place to place and change.
    CheckLocalRules,
}
