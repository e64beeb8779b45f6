//! The words for what was tried on the bike before the unit was taken out.

use crate::sheet::reader::words;

words! {
    /// Where codes on the display point.
    "place that codes point to" pub enum CodesPointTo {
        /// The drive unit.
        Unit = "unit",
        /// The battery.
        Battery = "battery",
        /// A sensor.
        Sensor = "sensor",
        /// The display or remote.
        Display = "display",
        /// Cables and plugs.
        Wiring = "wiring",
        /// Nobody knows.
        Unknown = "unknown",
    }
}

words! {
    /// Whether a part of the bike was found to work.
    "result of trying it" pub enum Tried {
        /// It works.
        Ok = "ok",
        /// It does not.
        Faulty = "faulty",
    }
}
