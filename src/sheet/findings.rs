//! The findings sheet: its blocks and fields in the order in which the job fills them in.
//!
//! This is the definition: reader, JSON Schema, blank sheet and `docs/fields.md` all come from it.

mod in_short;
mod ride;

use super::bench::BenchCheck;
use super::catalogue::Part;
pub use super::charges::{Billing, Discount, Fee, Labour, LabourLine, Offer, Overrun, PartLine};
use super::date::Date;
use super::handling::{Cleaning, Drying, Known, OldParts, SentBy, Warranty};
use super::line_tax::LineTax;
use super::number::Friction;
use super::photo_use::PhotoUse;
use super::price::Price;
use super::quantity::{Distance, Torque, Volume};
use super::reader::{Marked, record};
use super::signs::Signs;
use super::text::{FileName, JobNumber, Language, Text};
use super::vocabulary::{
    Action, AnsweredBy, Assistance, BatteryState, BikeNoise, CauseKind, CodesPointTo, Condition,
    DisplayState, NoticedSign, OptionKind, OriginKind, Outcome, RulesOf, Storage, Tried, UnitKind,
    Use, Washing,
};

pub use in_short::InShort;
pub use ride::Ride;

record! {
    /// One job, from arrival to return. Only `job`, `customer`, `unit` and `arrival` are needed at first.
    pub struct FindingsSheet {
        /// Number of the job; names the folder of its papers.
        job: Marked<JobNumber>, "HD-2614";
        /// Language of the customer's papers, if it is not the workshop's.
        language: Option<Marked<Language>>, "en" => Decides;
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
        outcome: Option<Marked<Outcome>>, "repaired" => Decides;
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
        /// Name as it is to be on the papers.
        name: Text, "Imre Castellane";
        /// How to reach them; not printed. A mail address in it is the recipient of covering messages.
        contact: Option<Text>, "imre@example.org" => WorkshopOnly;
    }
}

record! {
    /// The drive unit as it came.
    pub struct Unit {
        /// Where the motor sits.
        kind: UnitKind, "mid-drive";
        /// Maker's model name; limits and prices of `workshop.yaml` can hang on it.
        model: Option<Text>, "Corvane M2";
        /// Serial number.
        serial: Option<Text>, "CV2-0098417";
        /// How far it was ridden.
        mileage was "ridden": Option<Distance>, "1840 mi";
        /// What the bike is used for.
        used_for: Vec<Use>, "[trail, commuting]" => AsNoted;
        /// How the bike is washed, as the owner says.
        washed_with: Option<Washing>, "pressure-washer" => AsNoted;
        /// Where the bike is kept when it is not ridden.
        stored_in: Option<Storage>, "shed-or-garage" => AsNoted;
        /// Day since which it has been ridden, for the rider's pace.
        in_use_since: Option<Marked<Date>>, "2023-04-01" => AsNoted;
        /// Rules of assistance by which this bike is judged, if they are not the workshop's.
        rules: Option<RulesOf>, "s-pedelec" => Decides;
        /// Day on which it was bought, for the maker's warranty.
        bought: Option<Marked<Date>>, "2023-03-24" => AsNoted;
        /// Whether the maker's warranty still runs.
        warranty: Option<Warranty>, "out" => AsNoted;
        /// Whether somebody had opened the unit before this job.
        opened_before: Option<Known>, "no" => AsNoted;
        /// Wheel and tyre, and the size that is set in the unit.
        wheel_size: Option<Text>, "29 x 2.4 inch, set to 2290 mm" => AsNoted;
        /// Version of its program, before and after if it was changed.
        firmware: Option<Text>, "4.18, left as it was" => AsNoted;
        /// What it is paired with, and whether that had to be done again.
        pairing: Option<Text>, "paired again with the owner's own display" => AsNoted;
    }
}

record! {
    /// How the unit came in.
    pub struct Arrival {
        /// Day of arrival.
        date: Marked<Date>, "2026-03-02";
        /// Who sent it.
        sent_by: Option<SentBy>, "dealer" => AsNoted;
        /// Name of the sender, if it is not the owner.
        sender: Option<Text>, "Tarnbeck Cycles" => AsNoted;
        /// How it was packed.
        packing: Option<Text>, "carton of thin board, bubble wrap, no inner bag" => AsNoted;
        /// Damage that it took on the way to the workshop.
        transit_damage: Option<Text>, "One corner of the box crushed, the plug's cap split" => AsNoted;
        /// What the rider says.
        complaint: Option<Text>, "Clicks under load, loudest on the first climb";
        /// The first sign that the rider noticed.
        first_noticed was "noticed": Option<Noticed>, "";
        /// What the bike did before the unit was taken out.
        bike_check: Option<BikeCheck>, "";
        /// Water that poured out.
        water: Option<Volume>, "40 ml";
        /// Signs on the whole unit, before it was opened.
        signs: Signs, "[brown-water]";
        /// Photos of the arrival.
        photos: Vec<PhotoUse>, "[unit-arrived.jpg]";
        /// Remarks.
        note: Option<Text>, "Water still ran out when the unit was turned over" => AsNoted;
        /// Day by which the owner hears what was found.
        reply_by: Option<Marked<Date>>, "2026-03-06" => ArrivalNote;
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
    /// What the bike did, to separate faults of the drive unit from those of the rest of the bike.
    pub struct BikeCheck {
        /// The display.
        display: Option<DisplayState>, "on" => AsNoted;
        /// The battery.
        battery: Option<BatteryState>, "on" => AsNoted;
        /// Codes on the display, or `none`.
        error_codes: Option<Text>, "none" => AsNoted;
        /// Where the codes point, by the maker's list of codes; the codes themselves are never read.
        codes_point_to: Option<CodesPointTo>, "unit" => AsNoted;
        /// The assistance while pedalling.
        assistance: Option<Assistance>, "weak" => AsNoted;
        /// The sound.
        noise: Option<BikeNoise>, "grinding" => AsNoted;
        /// The remote at the handlebar.
        remote: Option<Tried>, "ok" => AsNoted;
        /// The switches of the brake levers.
        brake_switch: Option<Tried>, "ok" => AsNoted;
        /// The throttle.
        throttle: Option<Tried>, "ok" => AsNoted;
        /// Cables and plugs on the frame.
        wiring: Option<Tried>, "ok" => AsNoted;
        /// The charger.
        charger: Option<Tried>, "ok" => AsNoted;
    }
}

record! {
    /// What was found when the case was split.
    pub struct StripDown {
        /// Day of the strip-down.
        date: Marked<Date>, "2026-03-04";
        /// Who did it.
        by: Option<Text>, "M. Oduya";
        /// Findings, part by part.
        findings: Vec<Finding>, "";
        /// Signs that were looked for and not found; silence means not examined.
        looked_for_absent was "not-seen": Signs, "[tamper-marks]";
        /// Evidence that was gone before the unit was opened, and how.
        evidence_lost: Option<Text>, "The owner had rinsed and dried the inside before it was sent";
        /// Remarks.
        note: Option<Text>, "Opened over a tray" => AsNoted;
    }
}

record! {
    /// One part with its state, its signs and what was done to it.
    pub struct Finding {
        /// Which part.
        part: Marked<Part>, "main-bearing-drive-side";
        /// Its name on the papers in words of one's own; needed if the part is `other`.
        called: Option<Text>, "clamp of the sensor's cable";
        /// Its state as found.
        condition: Condition, "failed";
        /// Signs on it, the one that says most first.
        signs: Signs, "[moisture-corrosion, races-worn-deep]";
        /// Designation of a bearing.
        bearing: Option<Text>, "6804-2RS";
        /// A heading for this finding, if the one of its first sign does not fit.
        heading: Option<Text>, "Rust has eaten the track";
        /// What there is to see, in plain words.
        note: Option<Text>, "Track pitted all round, one ball split.";
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
        contributing: Vec<Marked<CauseKind>>, "[wear-over-time]";
        /// Where a mechanical or electrical fault comes from.
        origin: Option<Marked<OriginKind>>, "assembly";
        /// How it came about, in plain words.
        note: Option<Text>, "A jet from a pressure washer passes the seal around the crank.";
    }
}

record! {
    /// What the owner decided.
    pub struct Decision {
        /// The option chosen.
        option was "chose": Marked<OptionKind>, "overhaul";
        /// When.
        date: Option<Marked<Date>>, "2026-03-06";
        /// How they answered.
        via was "by": Option<AnsweredBy>, "email" => AsNoted;
        /// What was paid when they decided.
        deposit: Option<Marked<Price>>, "£50.00";
        /// What they agreed to beyond the price of their choice.
        overrun: Option<Overrun>, "{up-to: £25.00, agreed: 2026-03-08, via: phone}";
    }
}

record! {
    /// What was done.
    pub struct Work {
        /// Day on which it was finished.
        date: Option<Marked<Date>>, "2026-03-09" => AsNoted;
        /// Who did it.
        by: Option<Text>, "M. Oduya" => AsNoted;
        /// Parts used.
        parts: Vec<PartLine>, "[{what: bearing 6804-2RS, quantity: 2, price: £9.80}]";
        /// Working time, charged at the rates of `workshop.yaml`; a list if there are several.
        labour: Option<Labour>, "150 min";
        /// An agreed price in place of parts and labour.
        price: Option<Marked<Price>>, "£250.00";
        /// Tax on that price, if it is not the workshop's usual.
        tax: Option<Marked<LineTax>>, "all" => Decides;
        /// Postage that is charged.
        postage: Option<Fee>, "£8.50";
        /// What is taken off.
        discount: Option<Discount>, "";
        /// Screws and what they were set to.
        torque: Vec<TorqueLine>, "[{screws: case, set: 8 Nm}]";
        /// How parts were cleaned.
        cleaning: Vec<Cleaning>, "[{how: ultrasonic-bath, with: neutral cleaner, what: gears and shafts}]" => AsNoted;
        /// How the unit was dried.
        drying: Option<Drying>, "{how: oven, for: 48 h, at: 45 degC}" => AsNoted;
        /// What an outside specialist did.
        outside: Option<Text>, "Bearing seat sleeved by a machine shop" => AsNoted;
        /// Where the old parts went.
        old_parts: Option<OldParts>, "returned" => AsNoted;
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
        /// The part that they hold, if the screws do not say it.
        of: Option<Text>, "gear cover" => AsNoted;
        /// Torque they were set to.
        set: Torque, "8 Nm";
        /// Their thread, by which a torque is looked up if the model has none of its own.
        thread: Option<Text>, "M5" => AsNoted;
        /// Coefficient of friction of thread and head, if it is known.
        friction: Option<Friction>, "0.12" => AsNoted;
    }
}

record! {
    /// The unit that goes back in place of the customer's.
    pub struct Exchange {
        /// Its model, if it is another.
        model: Option<Text>, "Corvane M2";
        /// Its serial number.
        serial: Option<Text>, "CV2-0071190";
        /// Remarks, such as what was renewed in it.
        note: Option<Text>, "Reconditioned here, with new bearings and seals.";
        /// What is given for the unit that stays here.
        credit: Option<Marked<Price>>, "£60.00";
        /// Photos of it.
        photos: Vec<PhotoUse>, "[unit-exchange.jpg]";
    }
}

impl FindingsSheet {
    /// The findings, part by part; none before the strip-down.
    pub fn findings(&self) -> &[Finding] {
        self.strip_down.as_ref().map_or(&[], |strip| &strip.findings)
    }

    /// Every photo that the sheet names, in its order.
    pub fn photo_uses(&self) -> impl Iterator<Item = &PhotoUse> {
        let findings = self.findings().iter();
        let of_findings =
            findings.flat_map(|finding| finding.photos.iter().chain(&finding.photos_after));
        let of_exchange = self.exchange.iter().flat_map(|exchange| &exchange.photos);
        self.arrival.photos.iter().chain(of_findings).chain(of_exchange)
    }

    /// The names of every file that the sheet names: photos and the track of the ride.
    pub fn file_names_mut(&mut self) -> impl Iterator<Item = &mut FileName> {
        let findings = self.strip_down.iter_mut().flat_map(|strip| &mut strip.findings);
        let of_findings =
            findings.flat_map(|finding| finding.photos.iter_mut().chain(&mut finding.photos_after));
        let of_exchange = self.exchange.iter_mut().flat_map(|exchange| &mut exchange.photos);
        let photos = self.arrival.photos.iter_mut().chain(of_findings).chain(of_exchange);
        let track = self.ride.iter_mut().filter_map(|ride| ride.value.track.as_mut());
        photos.map(|photo| &mut photo.file.value).chain(track.map(|track| &mut track.value))
    }
}
