//! The words of bench and ride: checks, and the circumstances and rules that they are judged by.
//!
//! Not here: the readings (`sheet/bench.rs`), and what a check's figure and limits are
//! (`assessment/bench`).

use crate::sheet::quantity::unit::Dimension;
use crate::sheet::reader::words;

words! {
    /// A bench check by its name.
    "bench check" pub enum CheckKind {
        /// Play of the crank along its axle.
        CrankAxialPlay = "crank-axial-play",
        /// Play of the crank across its axle.
        CrankRadialPlay = "crank-radial-play",
        /// Play of the wheel's axle in a hub.
        AxlePlay = "axle-play",
        /// Resistance between the motor's phases.
        WindingResistance = "winding-resistance",
        /// Resistance from winding to case.
        InsulationResistance = "insulation-resistance",
        /// Current with nothing to drive.
        NoLoadCurrent = "no-load-current",
        /// Sound while running.
        RunningNoise = "running-noise",
        /// Voltage of the driven motor.
        BackEmf = "back-emf",
        /// Temperature after a run.
        TemperatureRise = "temperature-rise",
        /// States of the position sensors while the rotor is turned by hand.
        HallStates = "hall-states",
        /// Diameter of a shaft where a bearing sits.
        ShaftSeat = "shaft-seat",
        /// Diameter of a bore where a bearing sits.
        HousingSeat = "housing-seat",
        /// Radial clearance of a bearing.
        BearingClearance = "bearing-clearance",
        /// Voltage of the battery pack or of its groups of cells.
        BatteryVoltage = "battery-voltage",
        /// Pressure that is left of a vacuum after some time.
        VacuumHold = "vacuum-hold",
        /// Torque that turns the crank by hand.
        CrankDrag = "crank-drag",
        /// Output of the pedal-force sensor under a known weight.
        TorqueSensorOutput = "torque-sensor-output",
        /// Mass of the unit; water inside makes it heavier.
        UnitMass = "unit-mass",
        /// Power that a roller takes.
        RollerPower = "roller-power",
        /// Pulses of the speed sensor in one turn.
        SpeedPulses = "speed-pulses",
    }
}

impl CheckKind {
    /// What the check measures; `None` if it takes states and no readings.
    pub fn dimension(self) -> Option<Dimension> {
        Some(match self {
            Self::CrankAxialPlay
            | Self::CrankRadialPlay
            | Self::AxlePlay
            | Self::ShaftSeat
            | Self::HousingSeat
            | Self::BearingClearance => Dimension::Length,
            Self::WindingResistance | Self::InsulationResistance => Dimension::Resistance,
            Self::NoLoadCurrent => Dimension::Current,
            Self::RunningNoise => Dimension::SoundLevel,
            Self::BackEmf | Self::BatteryVoltage => Dimension::Voltage,
            Self::TemperatureRise => Dimension::Temperature,
            Self::VacuumHold => Dimension::Pressure,
            Self::CrankDrag => Dimension::Torque,
            Self::TorqueSensorOutput => Dimension::Voltage,
            Self::UnitMass => Dimension::Mass,
            Self::RollerPower => Dimension::Power,
            Self::SpeedPulses => Dimension::Pulses,
            Self::HallStates => return None,
        })
    }

    /// True if the figure is the reading itself, so that a workshop's limit needs nothing more.
    pub fn reads_directly(self) -> bool {
        matches!(
            self,
            Self::VacuumHold
                | Self::CrankDrag
                | Self::TorqueSensorOutput
                | Self::UnitMass
                | Self::RollerPower
                | Self::SpeedPulses
        )
    }
}

words! {
    /// Chemistry of a battery's cells.
    "chemistry" pub enum Chemistry {
        /// Lithium-ion with nickel, manganese or cobalt.
        LithiumIon = "li-ion",
        /// Lithium iron phosphate.
        Lfp = "lfp",
    }
}

words! {
    /// How hall sensors are placed, in electrical degrees.
    "placing of hall sensors" pub enum Placing {
        /// 120 degrees apart.
        Degrees120 = "120-degrees",
        /// 60 degrees apart.
        Degrees60 = "60-degrees",
    }
}

words! {
    /// Which ring of a bearing turns.
    "ring of a bearing" pub enum TurningRing {
        /// The inner one, as on a crank.
        Inner = "inner",
        /// The outer one, as in a hub.
        Outer = "outer",
    }
}

words! {
    /// Rule by which insulation resistance is carried to 40 degC.
    "insulation rule" pub enum InsulationRule {
        /// Half for every 10 K.
        Halving = "halving",
        /// The rule for thermosetting insulation.
        Thermosetting = "thermosetting",
    }
}

words! {
    /// Thermal class of a winding (IEC 60085).
    "thermal class" pub enum WindingClass {
        /// 130 degC.
        B = "B",
        /// 155 degC.
        F = "F",
        /// 180 degC.
        H = "H",
    }
}

words! {
    /// Rules for help while riding, by which a ride is judged; check local rules.
    "set of rules" pub enum RulesOf {
        /// EN 15194, as most of Europe has it.
        Epac = "epac",
        /// Great Britain.
        Gb = "gb",
        /// United States, class 1.
        UsClass1 = "us-class-1",
        /// United States, class 2.
        UsClass2 = "us-class-2",
        /// United States, class 3.
        UsClass3 = "us-class-3",
        /// Australia.
        Au = "au",
        /// Fast pedelec of the European Union, up to 45 km/h.
        SPedelec = "s-pedelec",
        /// Switzerland.
        Ch = "ch",
        /// Canada.
        Ca = "ca",
    }
}
