//! The workshop profile, `workshop.yaml`: who the workshop is, how it charges, how its papers look.
//!
//! Found by walking up from the job folder; one profile serves every job below it.

use super::bench::CheckLimit;
use super::catalogue::Sign;
use super::colour::Accent;
use super::number::{Count, Score};
use super::price::{Currency, Price};
use super::prices::ListedPart;
use super::quantity::{Current, Length, Resistance, Share, SoundLevel, Torque};
use super::reader::{Marked, record, words};
use super::text::{FileName, Language, Text};
use super::vocabulary::{InsulationRule, OptionKind, RulesOf, WindingClass};

record! {
    /// The workshop: one file above its job folders.
    pub struct Profile {
        /// Name of the workshop.
        name: Text, "Hollowmere Drive Works";
        /// Address, line by line.
        address: Vec<Text>, "[4 Cooper's Slip, Wexcombe]";
        /// Telephone, mail and the like, line by line.
        contact: Vec<Text>, "[post@hollowmere.example]";
        /// Logo, an SVG, PNG or JPEG beside this file.
        logo: Option<Marked<FileName>>, "logo.svg";
        /// Colour of numerals and rules; its contrast to white paper must be 4.5 : 1.
        accent: Option<Accent>, "#7a3b1e";
        /// Currency of every price.
        currency: Currency, "GBP";
        /// Tax on prices; without it none is shown.
        tax: Option<Tax>, "";
        /// Language of the papers, if a sheet says nothing.
        language: Option<Marked<Language>>, "en";
        /// Units of distance and speed on the papers in its own language.
        units: Option<Units>, "imperial";
        /// Paper size.
        paper: Option<Paper>, "a4";
        /// What is charged.
        rates: Option<Rates>, "";
        /// What parts cost; a longer list stands in `parts.yaml` beside this file.
        parts: Vec<ListedPart>, "[{name: bearing 6804-2RS, price: £9.80}]";
        /// Rules for assistance while riding, where the bikes are ridden.
        rules: Option<RulesOf>, "epac";
        /// The workshop's own scores of signs, in place of the built-in ones.
        scores: Vec<OwnScore>, "";
        /// The workshop's own limits, for every unit.
        limits: Option<Limits>, "";
        /// Limits and prices that hang on a model.
        models: Vec<Model>, "";
        /// Guarantee on repairs.
        guarantee: Option<Guarantee>, "";
        /// Terms that are printed as typed.
        terms: Option<Terms>, "";
        /// How papers, and the copy of the sheet that a PDF carries, name who did the work; as typed if
        /// nothing is said.
        technicians: Option<Naming>, "initials";
        /// How long the sealed evidence of a job is kept.
        evidence: Option<EvidencePolicy>, "";
        /// Folder beside this file whose templates and wordings replace the built-in ones.
        templates: Option<Marked<FileName>>, "house-templates";
    }
}

words! {
    /// Units of distance and speed on the papers in its own language.
    "system of units" pub enum Units {
        /// Kilometres.
        Metric = "metric",
        /// Miles and feet.
        Imperial = "imperial",
    }
}

words! {
    /// How papers name who did the work.
    "way to name technicians" pub enum Naming {
        /// As typed.
        Full = "full",
        /// By initials.
        Initials = "initials",
        /// Not at all.
        LeftOut = "left-out",
    }
}

words! {
    /// Paper size.
    "paper size" pub enum Paper {
        /// 210 x 297 mm (ISO 216).
        A4 = "a4",
        /// 8.5 x 11 in (ANSI A).
        Letter = "us-letter",
    }
}

words! {
    /// How tax is rounded to the minor unit.
    "way of rounding" pub enum Rounding {
        /// Once, on the total.
        ByInvoice = "by-invoice",
        /// On each line.
        ByLine = "by-line",
    }
}

words! {
    /// Whether typed prices hold the tax.
    "way of giving prices" pub enum TaxedPrices {
        /// Prices hold the tax, as owners expect.
        Including = "including",
        /// The tax comes on top.
        Excluding = "excluding",
    }
}

record! {
    /// Tax on prices.
    pub struct Tax {
        /// Its name on the papers.
        name: Text, "VAT";
        /// Its rate.
        rate: Share, "20 %";
        /// Whether the prices of sheets and this file hold the tax.
        prices: TaxedPrices, "including";
        /// How it is rounded.
        rounding: Rounding, "by-invoice";
        /// The workshop's registration number, printed with every bill.
        number: Option<Text>, "GB 000 0000 00";
        /// What it falls on: everything if nothing is said.
        on: Option<TaxedKind>, "parts";
        /// Taxes beside it, with the same `prices` and `rounding`.
        further: Vec<FurtherTax>, "[{name: PST, rate: 7 %, on: parts}]";
    }
}

words! {
    /// What a tax falls on by itself; what is taxed where: check local rules.
    "what a tax falls on" pub enum TaxedKind {
        /// Every line.
        All = "all",
        /// Parts and whole units.
        Parts = "parts",
        /// Working time and examination.
        Labour = "labour",
        /// Lines that name it under `tax:`.
        Named = "named",
    }
}

record! {
    /// A tax beside the first.
    pub struct FurtherTax {
        /// Its name on the papers.
        name: Text, "PST";
        /// Its rate.
        rate: Share, "7 %";
        /// What it falls on: everything if nothing is said.
        on: Option<TaxedKind>, "parts";
        /// The workshop's registration number for it, printed with every bill.
        number: Option<Text>, "PST-0000-0000";
    }
}

record! {
    /// What is charged.
    pub struct Rates {
        /// An hour of work.
        hour: Price, "£48.00";
        /// Hourly rates beside it, for labour lines that name them under `rate:`.
        hours: Vec<HourlyRate>, "[{name: electronics, price: £60.00}]";
        /// Repairs that cost more than this share of an exchange unit are called uneconomic.
        uneconomic_from: Option<Share>, "80 %";
        /// More than its price that a job may cost if the owner ticks that on the options letter; without it they write the limit.
        overrun: Option<Price>, "£25.00";
        /// Fixed prices of the usual options.
        options: Vec<RateLine>, "[{kind: exchange, price: £420.00}]";
    }
}

record! {
    /// An hourly rate with a name.
    pub struct HourlyRate {
        /// Its name, as sheets use it and papers print it.
        name: Text, "electronics";
        /// An hour of that work.
        price: Price, "£60.00";
    }
}

record! {
    /// Terms that are printed as typed. What they may say: check local rules.
    pub struct Terms {
        /// Under the options: how long a unit is kept, how an order can be withdrawn, and the like.
        options: Vec<Text>, "[Units not collected within 60 days are stored at £2.00 a week]";
        /// Under the bill.
        bill: Vec<Text>, "[Payable within 14 days]";
    }
}

record! {
    /// What a sign supports in this workshop's experience, from -2 (clearly against) to 2 (clearly for).
    pub struct OwnScore {
        /// The sign.
        sign: Sign, "grease-red-gritty";
        /// For water or dirt that came in.
        ingress: Option<Score>, "1";
        /// For a part that broke or wore out.
        mechanical: Option<Score>, "0";
        /// For winding, board, sensor or wire.
        electrical: Option<Score>, "0";
        /// For riding on after it had worn.
        wear_over_time was "neglect": Option<Score>, "1";
    }
}

record! {
    /// How long the sealed evidence of a job is kept.
    pub struct EvidencePolicy {
        /// Months from the day of return; nothing deletes by itself.
        keep_months: Count, "72";
        /// Folder of the archive, from this file: `check` and `render` look there for earlier jobs.
        archive: Option<Text>, "archive";
    }
}

record! {
    /// A fixed price.
    pub struct RateLine {
        /// For which option.
        kind: OptionKind, "exchange";
        /// Its price.
        price: Price, "£420.00";
    }
}

record! {
    /// Limits and prices that hang on a model.
    pub struct Model {
        /// The model as sheets name it.
        model: Text, "Kestmar C4";
        /// The workshop's own limits for this model; they go before the general ones.
        limits: Option<Limits>, "";
        /// Fixed prices for this model.
        options: Vec<RateLine>, "[{kind: exchange, price: £420.00}]";
    }
}

record! {
    /// The workshop's own limits and baselines; each goes before a published figure.
    pub struct Limits {
        /// Most play of the crank along its axle.
        crank_axial_play: Option<Length>, "0.30 mm";
        /// Most play of the crank across its axle.
        crank_radial_play: Option<Length>, "0.25 mm";
        /// Most play of a hub's axle.
        axle_play: Option<Length>, "0.15 mm";
        /// Resistance between two phases at 20 degC.
        winding_resistance: Option<Resistance>, "212 mohm";
        /// How far the mean may be from it.
        winding_tolerance: Option<Share>, "5 %";
        /// Most unbalance of the three resistances.
        winding_unbalance: Option<Share>, "2 %";
        /// Least insulation resistance at 40 degC.
        insulation_resistance: Option<Resistance>, "5 Mohm";
        /// Rule by which insulation resistance is carried to 40 degC.
        insulation_correction: Option<InsulationRule>, "halving";
        /// No-load current of a good unit.
        no_load_current: Option<Current>, "0.9 A";
        /// How many times that current is still taken, in per cent.
        no_load_factor: Option<Share>, "130 %";
        /// Most sound level.
        running_noise: Option<SoundLevel>, "50 dB";
        /// Most unbalance of the driven motor's voltage.
        back_emf_unbalance: Option<Share>, "3 %";
        /// Thermal class of the winding.
        thermal_class: Option<WindingClass>, "F";
        /// Most temperature rise of the winding, in kelvin.
        temperature_rise: Option<Count>, "60";
        /// Cells in series in the battery pack.
        cells: Option<Count>, "10";
        /// Torques of screws, by the names that sheets use.
        torques: Vec<TorqueLimit>, "[{screws: casing screws, set: 8 Nm, tolerance: 10 %}]";
        /// Limits of checks that read one figure directly.
        checks: Vec<CheckLimit>, "[{check: crank-drag, at-most: 0.4 Nm}]";
    }
}

record! {
    /// The torque that screws are to be set to.
    pub struct TorqueLimit {
        /// Which screws, as sheets name them.
        screws: Text, "casing screws";
        /// The torque.
        set: Torque, "8 Nm";
        /// How far off it may be.
        tolerance: Option<Share>, "10 %";
    }
}

record! {
    /// Guarantee on repairs.
    pub struct Guarantee {
        /// How many months from the day of return.
        months: Count, "12";
        /// Its terms, as they are to be printed.
        terms: Option<Text>, "Covers the parts and work of this repair; your legal rights stand beside it.";
    }
}

impl Profile {
    /// The fixed price of an option for a model: the model's own, else the rate card's.
    pub fn fixed_price(&self, model: Option<&str>, kind: OptionKind) -> Option<Price> {
        let of_model = self.models.iter().filter(|one| Some(one.model.0.as_str()) == model);
        let lines = of_model
            .flat_map(|one| &one.options)
            .chain(self.rates.iter().flat_map(|rates| &rates.options));
        lines.into_iter().find(|line| line.kind == kind).map(|line| line.price)
    }
}
