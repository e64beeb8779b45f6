//! What the figures of bench lines are, and how they are computed. Values are not here.

use crate::assessment::sources::SourceId;

/// What a figure is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Play as read from a dial gauge, mm.
    Play,
    /// Largest deviation of three readings from their mean, %.
    Unbalance,
    /// Mean phase-to-phase resistance at 20 degC, in the unit of the first reading.
    ResistanceAt20,
    /// Insulation resistance at 40 degC, megohm.
    InsulationAt40,
    /// Current with nothing to drive, A.
    NoLoadCurrent,
    /// Sound level of the unit alone, dB.
    NoiseLevel,
    /// Rise above the surroundings by the winding's resistance, K.
    RiseByResistance,
    /// Rise above the surroundings by a thermometer, K.
    RiseByThermometer,
    /// Different valid hall states, of six.
    HallStates,
    /// Size of a bearing's seat, mm.
    SeatSize,
    /// Radial clearance of a bearing, micrometre.
    RadialClearance,
    /// Pressure that is left of a vacuum after some time, mbar.
    VacuumHold,
    /// Torque that turns the crank, N m.
    CrankDrag,
    /// Output of the torque sensor at a known weight, V.
    SensorOutput,
    /// Mass of the unit, g.
    Mass,
    /// Power that a roller takes, W.
    RollerPower,
    /// Pulses of the speed sensor in one turn.
    SpeedPulses,
    /// Torque that screws were set to, N m.
    Torque,
    /// Voltage of a battery pack, V.
    PackVoltage,
    /// Voltage of the worst group of cells, V.
    CellVoltage,
    /// Difference between the highest and the lowest group of cells, V.
    CellSpread,
    /// Speed at which the motor stops assisting, km/h.
    CutOffSpeed,
    /// Distance that the motor runs on, m.
    RunOn,
    /// Speed of the walk assistance, km/h.
    WalkSpeed,
    /// Length of the test ride, km.
    RideDistance,
}

/// How a figure was computed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Method {
    /// Stable key, by which a wording is chosen.
    pub rule: &'static str,
    /// The source that it follows, if one was read.
    pub source: Option<SourceId>,
}
