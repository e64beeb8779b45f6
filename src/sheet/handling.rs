//! How a unit was handled: whose it was before, who sent it, how it was cleaned, dried and ridden.
//!
//! These are the blocks and words of such fields; the fields themselves are in `findings.rs`. The
//! printed words are wordings.

use super::quantity::{Duration, Temperature};
use super::reader::{record, words};
use super::text::Text;

record! {
    /// How parts were cleaned.
    pub struct Cleaning {
        /// By which method.
        how: CleaningWay, "ultrasonic-bath";
        /// With what.
        with: Option<Text>, "neutral cleaner, water-free rinse";
        /// Which parts.
        what: Option<Text>, "gears and shafts";
    }
}

record! {
    /// How the unit was dried.
    pub struct Drying {
        /// By which method.
        how: DryingWay, "oven";
        /// How long.
        time as "for": Option<Duration>, "48 h";
        /// At which temperature.
        at: Option<Temperature>, "45 degC";
    }
}

words! {
    /// Yes, no, or nobody knows.
    "answer or unknown" pub enum Known {
        /// It is so.
        Yes = "yes",
        /// It is not so.
        No = "no",
        /// Nobody knows.
        Unknown = "unknown",
    }
}

words! {
    /// Whether the maker's warranty still runs.
    "state of a warranty" pub enum Warranty {
        /// It runs.
        In = "in",
        /// It has run out or is lost.
        Out = "out",
        /// Nobody knows.
        Unknown = "unknown",
    }
}

words! {
    /// Who sent a unit.
    "sender" pub enum SentBy {
        /// Whoever it belongs to.
        Owner = "owner",
        /// A trader on the owner's behalf.
        Dealer = "dealer",
    }
}

words! {
    /// How parts were cleaned.
    "way of cleaning" pub enum CleaningWay {
        /// In a bath with ultrasound.
        UltrasonicBath = "ultrasonic-bath",
        /// With a solvent.
        Solvent = "solvent",
        /// With water and a cleaner.
        WaterBased = "water-based",
        /// With a cloth and a cleaner that holds no water.
        WaterFreeWipe = "water-free-wipe",
        /// By brush.
        Brush = "brush",
        /// With compressed air.
        CompressedAir = "compressed-air",
        /// By hand, dry.
        DryWipe = "dry-wipe",
    }
}

words! {
    /// How a unit was dried.
    "way of drying" pub enum DryingWay {
        /// In an oven or a heated cabinet.
        Oven = "oven",
        /// In a stream of warm air.
        WarmAir = "warm-air",
        /// In a vacuum chamber.
        Vacuum = "vacuum",
        /// With a drying agent in a closed box.
        Desiccant = "desiccant",
        /// Open, in the air of the room.
        Air = "air",
    }
}

words! {
    /// Where the old parts went.
    "way of old parts" pub enum OldParts {
        /// Back to the owner with the unit.
        Returned = "returned",
        /// Kept by the workshop.
        Kept = "kept",
        /// To the proper waste.
        Disposed = "disposed",
    }
}

words! {
    /// Whose bike a unit was ridden in.
    "owner of a bike" pub enum WhoseBike {
        /// The customer's own.
        Owner = "owner",
        /// The workshop's.
        Workshop = "workshop",
    }
}
