//! The findings sheet: its blocks and fields in the order in which the job fills them in.
//!
//! This is the definition: reader, JSON Schema, blank sheet and README's table all come from it.

use super::bench::{BenchCheck, LengthReading, SpeedReading};
use super::catalogue::{Part, Sign};
pub use super::charges::{Billing, Discount, Fee, Labour, LabourLine, Offer, Overrun, PartLine};
use super::date::Date;
use super::line_tax::LineTax;
use super::number::Friction;
use super::photo_use::PhotoUse;
use super::price::Price;
use super::quantity::{Distance, Torque, Volume};
use super::reader::{Marked, record};
use super::text::{FileName, JobNumber, Language, Text};
use super::vocabulary::{
    Action, AnsweredBy, Assistance, BatteryState, BikeNoise, CauseKind, Condition, DisplayState,
    NoticedSign, OptionKind, Outcome, Storage, UnitKind, Use, Washing, YesNo,
};

record! {
    /// One job, from arrival to return. Only `job`, `customer`, `unit` and `arrival` are needed at first.
    pub struct FindingsSheet {
        /// Number of the job; names the folder of its papers.
        job: Marked<JobNumber>, "HD-2614";
        /// Language of the customer's papers, where it is not the workshop's.
        language: Option<Marked<Language>>, "en";
        /// Whose unit it is.
        customer: Customer, "";
        /// The drive unit.
        unit: Unit, "";
        /// How it came in.
        arrival: Arrival, "";
        /// What was found inside.
        strip_down: Option<StripDown>, "";
        /// Why it failed.
        cause: Option<Cause>, "";
        /// Other jobs that it belongs with, such as the bike's second unit.
        with_job: Vec<Marked<JobNumber>>, "[HD-2615]";
        /// Choices that were offered.
        options: Vec<Offer>, "";
        /// Last day on which their prices hold.
        options_valid_to: Option<Marked<Date>>, "2026-03-31";
        /// What the owner decided.
        decision: Option<Decision>, "";
        /// What was done, with parts and time.
        work: Option<Work>, "";
        /// How it is billed and paid.
        billing: Option<Billing>, "";
        /// Bench checks.
        bench: Vec<BenchCheck>, "";
        /// The test ride.
        ride: Option<Marked<Ride>>, "";
        /// How the job ended.
        outcome: Option<Marked<Outcome>>, "repaired";
        /// The unit that goes back in place of the customer's.
        exchange: Option<Exchange>, "";
        /// Day on which the unit went back.
        returned: Option<Marked<Date>>, "2026-03-11";
        /// Page 1 in the technician's own words.
        in_short: Option<InShort>, "";
        /// Advice for this customer, above the usual.
        advice: Vec<Text>, "[Keep the plug's cap on when the bike stands outside]";
    }
}

record! {
    /// Whose unit it is.
    pub struct Customer {
        /// Name as it is to stand on the papers.
        name: Text, "Tomasz Brindley";
        /// How to reach them; not printed.
        contact: Option<Text>, "tomasz@example.org";
    }
}

record! {
    /// The drive unit as it came.
    pub struct Unit {
        /// Where the motor sits.
        kind: UnitKind, "mid-drive";
        /// Maker's model name; limits and prices of `workshop.yaml` can hang on it.
        model: Option<Text>, "Kestmar C4";
        /// Serial number.
        serial: Option<Text>, "KC4-220817";
        /// How far it was ridden.
        ridden: Option<Distance>, "1840 mi";
        /// What the bike is used for.
        used_for: Vec<Use>, "[trail, commuting]";
        /// How the bike is washed, as the owner says.
        washed_with: Option<Washing>, "pressure-washer";
        /// Where the bike stands when it is not ridden.
        stored_in: Option<Storage>, "shed-or-garage";
        /// Day since which it has been ridden, for the rider's pace.
        in_use_since: Option<Marked<Date>>, "2023-04-01";
    }
}

record! {
    /// How the unit came in.
    pub struct Arrival {
        /// Day of arrival.
        date: Marked<Date>, "2026-03-02";
        /// How it was packed.
        packing: Option<Text>, "cardboard box, crumpled newspaper, no inner bag";
        /// What the rider says.
        complaint: Option<Text>, "Grinding under load, worse uphill";
        /// The first sign that the rider noticed.
        noticed: Option<Noticed>, "";
        /// What the bike did before the unit was taken out.
        bike_check: Option<BikeCheck>, "";
        /// Water that poured out.
        water: Option<Volume>, "40 ml";
        /// Signs on the whole unit, before it was opened.
        signs: Vec<Marked<Sign>>, "[brown-water]";
        /// Photos of the arrival.
        photos: Vec<PhotoUse>, "[unit-arrived.jpg]";
        /// Remarks.
        note: Option<Text>, "Water still ran out when the unit was turned over";
    }
}

record! {
    /// The first sign that the rider noticed.
    pub struct Noticed {
        /// When.
        date: Option<Marked<Date>>, "2025-12-20";
        /// What.
        sign: NoticedSign, "noise";
        /// How far the bike had been ridden then.
        at: Option<Distance>, "1410 mi";
    }
}

record! {
    /// What the bike did, to tell the drive unit from the rest of the bike.
    pub struct BikeCheck {
        /// The display.
        display: Option<DisplayState>, "on";
        /// The battery.
        battery: Option<BatteryState>, "on";
        /// Codes on the display, or `none`.
        error_codes: Option<Text>, "none";
        /// The help while pedalling.
        assistance: Option<Assistance>, "weak";
        /// The sound.
        noise: Option<BikeNoise>, "grinding";
    }
}

record! {
    /// What was found when the case was split.
    pub struct StripDown {
        /// Day of the strip-down.
        date: Marked<Date>, "2026-03-04";
        /// Who did it.
        by: Option<Text>, "R. Adeyemi";
        /// Findings, part by part.
        findings: Vec<Finding>, "";
        /// Signs that were looked for and not found; silence means not examined.
        not_seen: Vec<Marked<Sign>>, "[tamper-marks]";
        /// Remarks.
        note: Option<Text>, "Opened over a tray";
    }
}

record! {
    /// One part with its state, its signs and what was done to it.
    pub struct Finding {
        /// Which part.
        part: Marked<Part>, "main-bearing-drive-side";
        /// Its state as found.
        condition: Condition, "failed";
        /// Signs on it, the one that says most first.
        signs: Vec<Marked<Sign>>, "[moisture-corrosion, races-worn-deep]";
        /// Designation of a bearing.
        bearing: Option<Text>, "6804-2RS";
        /// A heading for this finding, where the one of its first sign does not fit.
        heading: Option<Text>, "Rust has eaten the track";
        /// What there is to see, in plain words.
        note: Option<Text>, "Rust through the whole track, cage in pieces.";
        /// Photos as found.
        photos: Vec<PhotoUse>, "[bearing-before.jpg]";
        /// What was done.
        action: Option<Action>, "replaced";
        /// Photos as left.
        photos_after: Vec<PhotoUse>, "[bearing-new.jpg]";
    }
}

record! {
    /// Why it failed, as the technician judges.
    pub struct Cause {
        /// The main cause.
        main: Marked<CauseKind>, "ingress";
        /// Causes that had a part in it.
        contributing: Vec<Marked<CauseKind>>, "[neglect]";
        /// How it came about, in plain words.
        note: Option<Text>, "A jet from a pressure washer passes the seal around the crank.";
    }
}

record! {
    /// What the owner decided.
    pub struct Decision {
        /// The option chosen.
        chose: Marked<OptionKind>, "overhaul";
        /// When.
        date: Option<Marked<Date>>, "2026-03-06";
        /// How they answered.
        by: Option<AnsweredBy>, "email";
        /// What was paid when they decided.
        deposit: Option<Marked<Price>>, "£50.00";
        /// What they agreed to beyond the price of their choice.
        overrun: Option<Overrun>, "{up-to: £25.00, agreed: 2026-03-08, by: phone}";
    }
}

record! {
    /// What was done.
    pub struct Work {
        /// Day on which it was finished.
        date: Option<Marked<Date>>, "2026-03-09";
        /// Who did it.
        by: Option<Text>, "R. Adeyemi";
        /// Parts used.
        parts: Vec<PartLine>, "[{what: bearing 6804-2RS, quantity: 2, price: £9.80}]";
        /// Working time, charged at the rates of `workshop.yaml`; a list where there are several.
        labour: Option<Labour>, "150 min";
        /// An agreed price in place of parts and labour.
        price: Option<Marked<Price>>, "£250.00";
        /// Tax on that price, where it is not the workshop's usual.
        tax: Option<Marked<LineTax>>, "all";
        /// Postage that is charged.
        postage: Option<Fee>, "£8.50";
        /// What is taken off.
        discount: Option<Discount>, "";
        /// Screws and what they were set to.
        torque: Vec<TorqueLine>, "[{screws: case, set: 8 Nm}]";
        /// Grease and where it went.
        grease: Option<Text>, "lithium complex NLGI 2, bearings and gears";
        /// What was done, in plain words.
        note: Option<Text>, "Stripped, dried and cleaned; all bearings and both seals new.";
    }
}

record! {
    /// Screws and what they were set to.
    pub struct TorqueLine {
        /// Which screws.
        screws: Text, "case";
        /// Torque they were set to.
        set: Torque, "8 Nm";
        /// Their thread, by which a torque is looked up where the model has none of its own.
        thread: Option<Text>, "M5";
        /// Coefficient of friction of thread and head, where it is known.
        friction: Option<Friction>, "0.12";
    }
}

record! {
    /// The test ride.
    pub struct Ride {
        /// Day of the ride.
        date: Option<Marked<Date>>, "2026-03-10";
        /// Recorded track in the job folder (GPX).
        track: Option<Marked<FileName>>, "ride.gpx";
        /// Length of the ride.
        distance: Option<Distance>, "7.4 mi";
        /// Height climbed.
        climb: Option<Distance>, "310 ft";
        /// Speed at which the help stops.
        cut_off: Option<SpeedReading>, "25.2 km/h ± 0.3 km/h";
        /// Way that the help runs on after the pedals stop.
        run_on: Option<LengthReading>, "1.2 m";
        /// Whether every brake lever cuts the motor off.
        brake_switches: Option<YesNo>, "yes";
        /// Speed of the walk assistance.
        walk_assist: Option<SpeedReading>, "5.4 km/h";
        /// Codes on the display, or `none`.
        errors: Option<Text>, "none";
        /// The sound: silent, humming, grinding.
        noise: Option<Text>, "silent";
        /// How it rode, in plain words.
        note: Option<Text>, "Even help on every climb.";
    }
}

record! {
    /// Page 1 in the technician's own words; what is left out is written from the rest of the sheet.
    pub struct InShort {
        /// The one sentence that says it all.
        lead: Option<Text>, "Water got past the drive-side seal and rusted the main bearing.";
        /// What we found.
        found: Option<Text>, "Two of four bearings rusted through, grease turned to milk.";
        /// Why it happened.
        why: Option<Text>, "A jet from a pressure washer passes the seal around the crank.";
        /// What we did.
        did: Option<Text>, "Stripped, dried and cleaned it; all bearings and both seals are new.";
        /// How it rides now.
        rides: Option<Text>, "Silent over 7 miles and 300 feet of climbing.";
    }
}

record! {
    /// The unit that goes back in place of the customer's.
    pub struct Exchange {
        /// Its model, where it is another.
        model: Option<Text>, "Kestmar C4";
        /// Its serial number.
        serial: Option<Text>, "KC4-198840";
        /// Remarks, such as what was renewed in it.
        note: Option<Text>, "Reconditioned here, with new bearings and seals.";
        /// What is given for the unit that stays here.
        credit: Option<Marked<Price>>, "£60.00";
        /// Photos of it.
        photos: Vec<PhotoUse>, "[unit-exchange.jpg]";
    }
}
