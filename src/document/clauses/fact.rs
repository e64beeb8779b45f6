//! The facts that license sentences, by the names that the table of clauses uses.
//!
//! How each is known from the sheet, the photos and the assessment: [`super::super::facts`].

use serde::Deserialize;

/// Something that a sheet, a reading or the weighing of signs shows.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq, PartialOrd, Ord)]
#[serde(rename_all = "kebab-case")]
pub enum Fact {
    /// The owner's complaint is noted.
    Complaint,
    /// What the rider noticed first is noted.
    Noticed,
    /// The day of that is noted.
    NoticedDated,
    /// The distance ridden at that time is noted.
    NoticedAt,
    /// That day is before the arrival.
    NoticedBefore,
    /// The distance ridden since is known and not nothing.
    RiddenSince,
    /// The display showed a code on arrival.
    ArrivalCodes,
    /// Something of the bike's behaviour is noted.
    BikeChecked,
    /// The day is noted by which the owner hears what was found.
    ReplyDay,
    /// A fee for looking into it is noted.
    ExaminationFee,
    /// That fee is credited against a repair.
    FeeCredited,
    /// It is noted that the maker's warranty still runs.
    WarrantyRuns,
    /// That code is noted to point to something other than the drive unit.
    CodesPointElsewhere,
    /// A strip-down is noted.
    Opened,
    /// Evidence was gone before it was opened.
    EvidenceLost,
    /// No outcome is noted yet.
    OutcomeOpen,
    /// The outcome is a repair.
    OutcomeRepaired,
    /// The outcome is an exchange.
    OutcomeExchanged,
    /// The outcome is a return without repair.
    OutcomeUnrepaired,
    /// The outcome is that no fault was found.
    OutcomeNoFault,
    /// The outcome is a service before anything failed.
    OutcomeServiced,
    /// Repaired, exchanged or serviced.
    WorkDone,
    /// Some part is worn, damaged, failed or missing.
    HasWorst,
    /// The part that fared worst is missing.
    WorstMissing,
    /// The first sign on a harmed part is one of a blow.
    BlowTold,
    /// Another part is harmed that shows no sign of a blow.
    HarmBesideBlow,
    /// Mud or water was seen inside.
    CameIn,
    /// Something was found on a part: harm, or grease or water on a sound one.
    FoundTold,
    /// The same of another part than the one past which water came in.
    FoundBesideWayIn,
    /// More parts are harmed than page 1 names one by one.
    HarmBeyondTold,
    /// A reading as found was outside its limit.
    ReadingOutsideAsFound,
    /// A reading as left is better than as found, and not outside its limit.
    ReadingImproved,
    /// Some part shows the way that water took in.
    WayIn,
    /// That part is the one that fared worst.
    WayInWorst,
    /// The stated cause is one of the four.
    CauseNamed,
    /// The stated cause is water.
    CauseIngress,
    /// The stated cause is mechanical.
    CauseMechanical,
    /// The stated cause is electrical.
    CauseElectrical,
    /// The stated cause is running on.
    CauseNeglect,
    /// The cause is stated as open.
    CauseUndetermined,
    /// It is stated that there is no fault.
    CauseNoFault,
    /// Water is stated as the cause or as a part of it.
    StatesIngress,
    /// Running on is stated as the cause or as a part of it.
    StatesNeglect,
    /// Water is stated as a part of the cause.
    AlsoIngress,
    /// A mechanical fault is stated as a part of the cause.
    AlsoMechanical,
    /// An electrical fault is stated as a part of the cause.
    AlsoElectrical,
    /// The unit was opened and independent signs carry the stated cause.
    Firm,
    /// The signs point to the stated cause.
    Points,
    /// Several causes are carried, the stated one among them.
    Mixed,
    /// The signs do not carry the stated cause.
    Judged,
    /// Where the fault comes from is stated.
    Origin,
    /// A sign that was seen supports that.
    OriginShown,
    /// It is stated to come from age.
    OriginAge,
    /// It is stated to come from wear.
    OriginWear,
    /// It is stated to come from overload or heat.
    OriginOverload,
    /// The unit had been in use for more than a year.
    InUseYears,
    /// The distance that the unit has run is noted.
    Mileage,
    /// The bike is noted to carry loads.
    CarriesLoads,
    /// Some sign that was seen supports the stated cause.
    ShownBy,
    /// Damage that needs running time, and a day from which the rider could notice.
    RanOnDated,
    /// Damage that needs running time, without such a day.
    RanOnUndated,
    /// The rider came soon after the first sign.
    CamePromptly,
    /// Some part failed.
    AnyFailed,
    /// Some part is missing.
    AnyMissing,
    /// Some part is damaged.
    AnyDamaged,
    /// Some part is worn.
    AnyWorn,
    /// Some part is failed, missing, damaged or worn.
    AnyHarmed,
    /// One part or more is sound.
    AnySound,
    /// Some part was examined.
    AnyExamined,
    /// Some part is noted as not examined.
    AnyNotExamined,
    /// Some part was replaced or added.
    AnyNew,
    /// Some harmed part was replaced.
    HarmedNew,
    /// Some sound part was replaced.
    SoundNew,
    /// Some part that was not examined was replaced.
    OtherNew,
    /// The grease of the gears was replaced.
    GreaseNew,
    /// The grease that was used is noted.
    Greased,
    /// It is noted how the unit was dried.
    Dried,
    /// It is noted for how long.
    DriedFor,
    /// It is noted at which temperature.
    DriedAt,
    /// Some part was added.
    AnyAdded,
    /// Some part was repaired.
    AnyRepaired,
    /// Some part was cleaned.
    AnyCleaned,
    /// Some part was sealed again.
    AnyResealed,
    /// Some part was coated.
    AnyCoated,
    /// Some part was tested and kept.
    AnyTested,
    /// No part was replaced or added, and no part is on the bill.
    NothingNew,
    /// One bearing was replaced; nothing else was replaced, added, repaired or billed as a part.
    OnlyOneBearingNew,
    /// Water that came out was measured.
    WaterAmount,
    /// Signs were seen before the unit was opened.
    ArrivalSigns,
    /// A sign of rust inside was seen.
    RustSeen,
    /// A sign of water without rust was seen, and none of rust.
    NoRustSeen,
    /// Grease with water in it was seen.
    GreaseMilky,
    /// The owner says that a pressure washer is used.
    JetWashed,
    /// Some bearing is harmed.
    BearingHarmed,
    /// Some bearing or gear is harmed.
    BearingOrGearHarmed,
    /// A sign of water is on an electrical part.
    ElectricalWet,
    /// Some sensor is harmed.
    SensorHarmed,
    /// Some wire or plug is harmed.
    WiringHarmed,
    /// A sign of a faulty winding was seen.
    WindingHarmed,
    /// A sign of a burnt electronic switch was seen.
    SwitchBurnt,
    /// A sign of a blow was seen.
    ImpactSeen,
    /// Damage was seen that does not belong to the complaint.
    Beside,
    /// The bike's behaviour points to the drive unit.
    TriageUnit,
    /// The bike's behaviour points elsewhere.
    TriageElsewhere,
    /// The bike's behaviour points to both.
    TriageBoth,
    /// The bike's behaviour points nowhere.
    TriageNowhere,
    /// The unit ran as it should with parts that are known to be good.
    Swapped,
    /// The model of the unit in exchange is noted.
    ExchangeModel,
    /// The owner chose to have it back as it is.
    ChoseReturn,
    /// A part that forbids to ride goes back as it was found.
    DangerOpen,
    /// A battery that must not be charged goes back as it was found.
    BatteryDanger,
    /// A part without which it cannot be ridden safely failed or is missing, and was not replaced.
    Unfit,
    /// The last reading of something is outside its limit.
    Outside,
    /// A test ride is noted.
    Ridden,
    /// It was ridden in a bike of the workshop's.
    WorkshopsBike,
    /// Its length is noted or recorded.
    RideWay,
    /// Its climb is noted or recorded.
    RideClimb,
    /// Its length is noted.
    RideTypedWay,
    /// Its climb is noted.
    RideTypedClimb,
    /// The sound on it is noted.
    RideNoise,
    /// It is noted that there was no sound.
    RideSilent,
    /// The speed at which assistance stops was measured.
    RideCutOff,
    /// That speed is within its limit.
    CutOffWithin,
    /// The way that the motor runs on was measured.
    RideRunOn,
    /// The speed of the walk assistance was measured.
    RideWalk,
    /// A fault code came up on it.
    RideCodes,
    /// It is noted that no fault code came up.
    RideCodesNone,
    /// It was long and fast enough to judge by.
    RideEnough,
    /// It was too short or too slow to judge by.
    RideShort,
    /// It was too short to judge by.
    RideTooShort,
    /// It was too slow to judge by.
    RideTooSlow,
    /// It was recorded.
    RideRecorded,
    /// The recording gives the time of riding.
    RecordedMoving,
    /// The recording gives the climb.
    RecordedClimb,
    /// The recording has gaps.
    RecordedGaps,
    /// The speed was held near the limit of assistance.
    RecordedHeld,
    /// The speed went past that limit.
    RecordedPassed,
    /// The speed never reached that limit.
    RecordedNotReached,
    /// The unit was here before, by its serial number.
    SeenBefore,
    /// The day on which it went back the last time is noted.
    SeenBeforeReturned,
    /// How the last visit ended is noted.
    SeenBeforeOutcome,
    /// It was here more than once before.
    SeenBeforeOften,
    /// The unit was given out in exchange by the workshop, by its serial number, on a day that is noted.
    GivenInExchange,
    /// This part is sound.
    PartSound,
    /// This part is worn.
    PartWorn,
    /// This part is damaged.
    PartDamaged,
    /// This part failed.
    PartFailed,
    /// This part is missing.
    PartMissing,
    /// This part was not examined.
    PartNotExamined,
    /// This part was replaced.
    PartReplaced,
    /// This part shows signs that its heading does not say.
    PartSignsBesideHeading,
    /// It is known what this part does.
    PartGlossed,
}
