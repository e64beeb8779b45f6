//! The fixed words of the sheet: kinds, conditions, actions, causes, outcomes, habits.
//!
//! Their printed wording per language is in `report-templates/wording/<language>/`.

mod bench;
mod origin;
mod tried;

use super::reader::words;
pub use origin::OriginKind;
pub use tried::{CodesPointTo, Tried};

pub use bench::{
    CheckKind, Chemistry, InsulationRule, Placing, RulesOf, TurningRing, WindingClass,
};

words! {
    /// Where the motor sits.
    "kind of unit" pub enum UnitKind {
        /// At the crank.
        MidDrive = "mid-drive",
        /// In the wheel; whether it has gears is not known.
        Hub = "hub",
        /// In the wheel, with planet gears and a freewheel between motor and shell.
        HubGeared = "hub-geared",
        /// In the wheel, whose shell is the motor's own turning part.
        HubDirect = "hub-direct",
    }
}

impl UnitKind {
    /// True for every motor in a wheel.
    pub fn is_hub(self) -> bool {
        self != Self::MidDrive
    }

    /// At the crank or in the wheel, and no more: all that advice depends on.
    #[must_use]
    pub fn family(self) -> Self {
        if self.is_hub() { Self::Hub } else { self }
    }
}

words! {
    /// State of a part as found.
    "condition" pub enum Condition {
        /// As it should be.
        Sound = "sound",
        /// Used up in the ordinary way.
        Worn = "worn",
        /// Harmed, but still doing its work.
        Damaged = "damaged",
        /// No longer doing its work.
        Failed = "failed",
        /// Not there.
        Missing = "missing",
        /// Nobody looked.
        NotExamined = "not-examined",
    }
}

words! {
    /// What was done to a part.
    "action" pub enum Action {
        /// Left as it was.
        Kept = "kept",
        /// Cleaned and used again.
        Cleaned = "cleaned",
        /// Mended and used again.
        Repaired = "repaired",
        /// Exchanged for another.
        Replaced = "replaced",
        /// Not there before.
        Added = "added",
        /// Sealed again with a paste or a bead, the part itself kept.
        Resealed = "resealed",
        /// Given a coating against water, the part itself kept.
        Coated = "coated",
        /// Measured or tried and left as it was.
        Tested = "tested",
    }
}

words! {
    /// What a failure comes from.
    "cause" pub enum CauseKind {
        /// Water or dirt came in.
        Ingress = "ingress" or "water",
        /// Ridden on after it had worn.
        Neglect = "wear-over-time" or "neglect",
        /// A part broke or wore out.
        Mechanical = "mechanical",
        /// Winding, board, sensor or wire.
        Electrical = "electrical",
        /// The signs do not settle it.
        Undetermined = "undetermined",
        /// The unit does what it should.
        NoFaultFound = "no-fault-found",
    }
}

words! {
    /// How the job ended.
    "outcome" pub enum Outcome {
        /// The unit was repaired.
        Repaired = "repaired",
        /// Another unit goes back.
        Exchanged = "exchanged",
        /// The unit goes back as it came.
        ReturnedUnrepaired = "returned-unrepaired",
        /// Nothing was wrong with it.
        NoFaultFound = "no-fault-found",
        /// A healthy unit was opened and cared for before anything failed.
        Serviced = "serviced",
    }
}

words! {
    /// A way out that is offered to the owner.
    "option" pub enum OptionKind {
        /// One bearing, caught early.
        SingleBearing = "single-bearing",
        /// All wearing parts.
        Overhaul = "overhaul",
        /// All wearing parts and others that failed.
        OverhaulPlusParts = "overhaul-plus-parts",
        /// A reconditioned unit.
        Exchange = "exchange",
        /// A new unit.
        NewUnit = "new-unit",
        /// Back as it came.
        ReturnAsItIs = "return-as-it-is",
    }
}

words! {
    /// How the owner answered.
    "way of answering" pub enum AnsweredBy {
        /// A written message.
        Email = "email",
        /// A call.
        Phone = "phone",
        /// A text message.
        Message = "message",
        /// A letter.
        Letter = "letter",
        /// At the counter.
        InPerson = "in-person",
    }
}

words! {
    /// How the bike is washed.
    "washing habit" pub enum Washing {
        /// By hand.
        BucketAndSponge = "bucket-and-sponge",
        /// With a hose.
        GardenHose = "garden-hose",
        /// With a jet.
        PressureWasher = "pressure-washer",
        /// Not at all.
        NotWashed = "not-washed",
        /// Nobody said.
        Unknown = "unknown",
    }
}

words! {
    /// Where the bike is kept when it is not ridden.
    "place of storage" pub enum Storage {
        /// In a heated room.
        Indoors = "indoors",
        /// Dry and unheated.
        ShedOrGarage = "shed-or-garage",
        /// Under a roof or a cover, open to the air.
        UnderCover = "under-cover",
        /// In the rain.
        Outside = "outside",
        /// Nobody said.
        Unknown = "unknown",
    }
}

words! {
    /// The display before the unit was taken out.
    "state of a display" pub enum DisplayState {
        /// It shows what it should.
        On = "on",
        /// Dark.
        Off = "off",
        /// Comes and goes.
        Flickering = "flickering",
    }
}

words! {
    /// The battery before the unit was taken out.
    "state of a battery" pub enum BatteryState {
        /// It gives power.
        On = "on",
        /// It takes charge.
        Charging = "charging",
        /// Dead.
        Off = "off",
        /// Wet inside, or it has been under water.
        Wet = "wet",
    }
}

words! {
    /// The help while pedalling.
    "state of the help" pub enum Assistance {
        /// As it should be.
        Full = "full",
        /// Less than before.
        Weak = "weak",
        /// None at all.
        NoHelp = "none",
        /// Comes and goes.
        CutsOut = "cuts-out",
    }
}

words! {
    /// The sound on the bike.
    "sound" pub enum BikeNoise {
        /// Nothing to hear.
        Silent = "silent",
        /// As of air through a gap.
        Hissing = "hissing",
        /// As of a wheel that turns freely.
        Whirring = "whirring",
        /// As of stones.
        Grinding = "grinding",
        /// Once a turn.
        Clicking = "clicking",
        /// A high tone.
        Whining = "whining",
        /// A low tone.
        Humming = "humming",
        /// Heavy and slow.
        Knocking = "knocking",
        /// As of dry rubber.
        Squeaking = "squeaking",
    }
}

words! {
    /// Yes or no.
    "answer" pub enum YesNo {
        /// It is so.
        Yes = "yes",
        /// It is not so.
        No = "no",
    }
}

words! {
    /// What the bike is used for.
    "use" pub enum Use {
        /// On roads, for pleasure.
        Road = "road",
        /// Off roads.
        Trail = "trail",
        /// To work and back.
        Commuting = "commuting",
        /// With loads.
        Cargo = "cargo",
        /// With a trailer.
        Towing = "towing",
        /// Long ways with luggage.
        Touring = "touring",
        /// Whatever the weather.
        AllWeather = "all-weather",
        /// Lent to many.
        Rental = "rental",
    }
}

words! {
    /// The first sign that the rider could notice.
    "sign that a rider notices" pub enum NoticedSign {
        /// A sound.
        Noise = "noise",
        /// A feeling in the pedals.
        Feel = "feel",
        /// Play at the crank.
        Play = "play",
        /// Less help than before.
        LessHelp = "less-help",
        /// Help that stops.
        CutOut = "cut-out",
        /// A code on the display.
        ErrorCode = "error-code",
        /// Water that runs out.
        Water = "water",
    }
}
