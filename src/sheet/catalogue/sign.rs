//! A row of the table of signs, with every word of it as a type: a misspelt one cannot load.
//!
//! In: `signs.yaml`, by serde; out: [`SignRow`]. What follows from a row is decided in
//! `assessment/cause`.

use serde::de::Error;
use serde::{Deserialize, Deserializer};

use super::group::SignPlace;
use crate::sheet::shape::Choice;
use crate::sheet::vocabulary::OriginKind;

/// A row of the table of signs.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SignRow {
    /// Name as typed in a sheet.
    pub sign: String,
    /// Id in the table of signs, such as `SC01`; for people who compare tables, never for rules.
    pub r#ref: String,
    /// Where it may be.
    pub on: Vec<SignPlace>,
    /// How it is found.
    pub kind: SignKind,
    /// What it supports (+2) or is against (-2), by cause.
    pub scores: Scores,
    /// The scores in force if water or its trace was seen inside.
    #[serde(default, rename = "if-wet")]
    pub if_wet: Option<Scores>,
    /// How much it weighs by itself.
    pub strength: Strength,
    /// Term of ISO 15243:2017 or ISO 10825, if there is one.
    #[serde(default)]
    pub iso: Option<String>,
    /// The link of the chain of events that it is an observation of.
    pub link: Link,
    /// First event, consequence, or either.
    #[serde(default)]
    pub damage: Option<Damage>,
    /// What rules do with it, beyond its scores.
    #[serde(default)]
    pub roles: Vec<Role>,
    /// The field of the sheet that carries it by itself.
    #[serde(default)]
    pub field: Option<SheetField>,
    /// Where a mechanical or electrical fault comes from, if the sign supports that.
    #[serde(default, deserialize_with = "origin_kinds")]
    pub origin: Vec<OriginKind>,
    /// The part of the table that it belongs to.
    pub group: SignGroup,
    /// Ids of the facts that its scores rest on; none means judgement.
    #[serde(default)]
    pub source: Vec<String>,
}

impl SignRow {
    /// The sign as one of a list to choose from.
    pub fn choice(&self) -> Choice {
        let on = self.on.iter().map(|place| place.word().to_owned()).collect();
        Choice { on, ..Choice::plain(&*self.sign) }
    }

    /// True if the sign has a role.
    pub fn has(&self, role: Role) -> bool {
        self.roles.contains(&role)
    }
}

/// Scores of a sign, from -2 (clearly against) to +2 (clearly for).
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the causes are documented at `CauseKind`")]
pub struct Scores {
    pub ingress: i8,
    pub neglect: i8,
    pub mechanical: i8,
    pub electrical: i8,
}

/// How a sign is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SignKind {
    /// By eye, loupe or photo.
    Seen,
    /// By hand.
    Felt,
    /// As a figure of an instrument.
    Measured,
    /// Made to happen.
    Tested,
    /// Reported by the rider or another person.
    Told,
    /// Read out of the unit.
    Logged,
}

/// How much a sign weighs by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "the words say it")]
pub enum Strength {
    Weak,
    Medium,
    Strong,
}

/// Place of damage in the chain of events.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Damage {
    /// A first event.
    Primary,
    /// Needs running time after a first event.
    Secondary,
    /// Can be both.
    Either,
}

/// The parts of the table of signs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum SignGroup {
    /// Before opening.
    A,
    /// Housing, grease and seals on opening.
    B,
    /// Bearings.
    C,
    /// Gears, clutch, shafts and their sensors.
    D,
    /// Motor and electronics.
    E,
    /// After the repair.
    F,
}

/// A field of the sheet that carries a sign by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SheetField {
    /// `arrival: water:` above zero.
    ArrivalWater,
    /// `unit: washed-with: pressure-washer`.
    WashedWithJet,
    /// `arrival: noticed:` long before arrival.
    NoticedLongBefore,
}

/// The links of the chain of events, in its order; the head of `signs.yaml` groups them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "the words of the table")]
pub enum Link {
    Path,
    WetHistory,
    Water,
    Solids,
    Outside,
    SteelRust,
    BoardCorrosion,
    Insulation,
    Grease,
    Fit,
    Fasteners,
    Tamper,
    Fatigue,
    OverloadMark,
    StandingVibration,
    LocalDamage,
    BearingCurrent,
    NoiseHistory,
    Running,
    Debris,
    Play,
    SeatWear,
    RaceWear,
    ToothWear,
    Rub,
    Heat,
    BearingBreakUp,
    Clutch,
    Sensor,
    Hall,
    Connection,
    Winding,
    Short,
    Supply,
    RotorMagnets,
    NoLoadCurrent,
    ElectricalBurn,
    Battery,
    GreaseSound,
    BearingSound,
    WindingSound,
    BoardSound,
    NoneFound,
    AfterRepair,
}

/// What rules do with a sign beyond its scores.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Water may have come in on the way to the workshop: fresh water beside it gives nothing.
    Transport,
    /// Water that may have come in on the way.
    FreshWater,
    /// Water or dirt inside, or what it left there.
    WaterTrace,
    /// A way in for water or dirt.
    WayIn,
    /// A crack: a way in for what is found on its own casing half.
    Crack,
    /// Insulation that came back on drying: proves water by itself.
    Recovery,
    /// Damage that comes only with running time after a first fault.
    NeedsTime,
    /// A fault that the rider could notice long before arrival.
    History,
    /// Something in good order: clears its own place, shows no fault.
    InOrder,
    /// What could have been read is lost: no cause is more than pointed to.
    Unreadable,
    /// Mechanics that may have been blocked: a burnt part may be the consequence.
    Blocked,
    /// The unit ran with parts of the bike that are known to be good.
    Swap,
    /// A part that can hurt somebody: warned of whatever the cause.
    Safety,
    /// Says nothing of the unit itself.
    NotTheUnit,
    /// Names its own first fault, which has to show in another sign.
    Consequence,
    /// Heat that was noticed or logged, whatever made it.
    HeatNoticed,
    /// Grease that water turned to milk.
    MilkyGrease,
    /// Mud or sand inside the unit.
    Mud,
    /// Water that is inferred, not seen.
    WaterInferred,
    /// Water that has rusted nothing yet.
    NoRustYet,
    /// A burnt electronic switch.
    BurntSwitch,
}

impl Role {
    /// Every role.
    pub const ALL: [Self; 21] = [
        Self::Transport,
        Self::FreshWater,
        Self::WaterTrace,
        Self::WayIn,
        Self::Crack,
        Self::Recovery,
        Self::NeedsTime,
        Self::History,
        Self::InOrder,
        Self::Unreadable,
        Self::Blocked,
        Self::Swap,
        Self::Safety,
        Self::NotTheUnit,
        Self::Consequence,
        Self::HeatNoticed,
        Self::MilkyGrease,
        Self::Mud,
        Self::WaterInferred,
        Self::NoRustYet,
        Self::BurntSwitch,
    ];
}

/// The words of the sheet for where a fault comes from.
fn origin_kinds<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<OriginKind>, D::Error> {
    let words = Vec::<String>::deserialize(from)?;
    let kind = |word: &String| {
        let kind = OriginKind::ALL.iter().find(|kind| kind.word() == word);
        kind.copied().ok_or_else(|| D::Error::custom(format!("there is no origin `{word}`")))
    };
    words.iter().map(kind).collect()
}
