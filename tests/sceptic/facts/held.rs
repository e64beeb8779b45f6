//! Which facts hold, one arm a fact.

use super::*;

impl Reading<'_> {
    /// True if the fact holds of a part, or of the job that it belongs to.
    pub fn holds_of(&self, found: &Found, fact: Fact) -> bool {
        let is = |condition: &str| found.condition == condition;
        match fact {
            Fact::PartSound => is("sound"),
            Fact::PartWorn => is("worn"),
            Fact::PartDamaged => is("damaged"),
            Fact::PartFailed => is("failed"),
            Fact::PartMissing => is("missing"),
            Fact::PartNotExamined => is("not-examined"),
            Fact::PartReplaced => found.action == "replaced",
            Fact::PartSignsBesideHeading => 1 < found.signs.len(),
            Fact::PartGlossed => found.part != "other",
            fact => self.holds(fact),
        }
    }

    /// True if the fact holds.
    #[allow(clippy::too_many_lines, reason = "one arm a fact")]
    pub fn holds(&self, fact: Fact) -> bool {
        let outcome = |word| self.is("outcome", word);
        let cause = |word| self.is("cause.main", word);
        let named = ["ingress", "mechanical", "electrical", "wear-over-time"];
        let is_named = self.at("cause.main").is_some_and(|main| named.contains(&main.as_str()));
        let condition = |word: &str| self.any(|one| one.condition == word);
        let action = |word: &str| self.any(|one| one.action == word);
        let harmed = |group: &str| self.any(|one| one.is_harmed() && one.group == group);
        let electrical = ["sensors", "electronics", "wiring"];
        let continued_use = self.assessment.weighing.continued_use;
        let triage = self.assessment.triage.as_ref().map(|triage| triage.likelier);
        let ride = |field: &str| self.at(&format!("ride.{field}")).is_some();
        let is_new = |one: &Found| ["replaced", "added"].contains(&one.action.as_str());
        match fact {
            Fact::Complaint => self.at("arrival.complaint").is_some(),
            Fact::Noticed => self.at("arrival.first-noticed.sign").is_some(),
            Fact::NoticedDated => self.at("arrival.first-noticed.date").is_some(),
            Fact::NoticedAt => self.at("arrival.first-noticed.at").is_some(),
            Fact::NoticedBefore => self.days_noticed_before().is_some_and(|days| 0 < days),
            Fact::RiddenSince => {
                let km = |path: &str| self.at(path)?.strip_suffix(" km")?.parse::<i64>().ok();
                km("unit.mileage")
                    .zip(km("arrival.first-noticed.at"))
                    .is_some_and(|(now, then)| then < now)
            }
            Fact::CodesPointElsewhere => ["battery", "sensor", "display", "wiring"]
                .iter()
                .any(|place| self.is("arrival.bike-check.codes-point-to", place)),
            Fact::InUseYears => {
                let since = self.at("unit.in-use-since");
                since.is_some_and(|day| day.as_str() < "2025-03-02")
            }
            Fact::Mileage => self.at("unit.mileage").is_some(),
            Fact::CarriesLoads => {
                texts(&self.tree["unit"]["used-for"]).iter().any(|one| one == "cargo")
            }
            Fact::BlowTold => self
                .any(|one| one.is_harmed() && one.telling().next() == Some("casing-crack-or-dent")),
            Fact::HarmBesideBlow => {
                self.any(|one| one.is_harmed() && !one.shows(&["casing-crack-or-dent"]))
            }
            Fact::CameIn => {
                let water = |sign: &str| {
                    sign == "mud-inside"
                        || row(sign).link == Link::Water && sign != "heavier-than-reference"
                };
                let derived = &self.assessment.weighing.signs;
                self.at("arrival.water").is_some()
                    || self.signs().iter().any(|sign| water(sign))
                    || derived.iter().any(|one| one.seen && water(one.sign.name()))
            }
            Fact::FoundTold => self.any(Found::is_told),
            Fact::FoundBesideWayIn => {
                let way = self.way_in();
                self.findings
                    .iter()
                    .any(|one| one.is_told() && !way.is_some_and(|way| std::ptr::eq(way, one)))
            }
            Fact::HarmBeyondTold => 4 < self.harmed_clauses(),
            Fact::ReadingOutsideAsFound => self.play("before").is_some_and(|before| 0.25 < before),
            Fact::ReadingImproved => {
                let both = self.play("before").zip(self.play("after"));
                both.is_some_and(|(before, after)| after < before && after <= 0.25)
            }
            Fact::OriginAge => self.is("cause.origin", "age"),
            Fact::OriginWear => self.is("cause.origin", "wear"),
            Fact::OriginOverload => self.is("cause.origin", "overload"),
            Fact::RideSilent => self.is("ride.noise", "silent"),
            Fact::CutOffWithin => {
                let lines = self.assessment.ride.iter().flat_map(|ride| &ride.lines);
                let mut cut_off = lines.filter(|line| line.measure == Measure::CutOffSpeed);
                cut_off.any(|line| {
                    line.after.as_ref().is_some_and(|stage| stage.verdict == Verdict::Within)
                })
            }
            Fact::ArrivalCodes => self.code("arrival.bike-check.error-codes") == Some(true),
            Fact::BikeChecked => !self.tree["arrival"]["bike-check"].is_null(),
            Fact::ReplyDay => self.at("arrival.reply-by").is_some(),
            Fact::ExaminationFee => self.at("billing.inspection").is_some(),
            Fact::FeeCredited => {
                self.at("billing.inspection").is_some()
                    && ["yes", "true"].iter().any(|yes| self.is("billing.inspection-credited", yes))
            }
            Fact::WarrantyRuns => self.is("unit.warranty", "in"),
            Fact::Opened => self.is_opened(),
            Fact::EvidenceLost => self.at("strip-down.evidence-lost").is_some(),
            Fact::OutcomeOpen => self.at("outcome").is_none(),
            Fact::OutcomeRepaired => outcome("repaired"),
            Fact::OutcomeExchanged => outcome("exchanged"),
            Fact::OutcomeUnrepaired => outcome("returned-unrepaired"),
            Fact::OutcomeNoFault => outcome("no-fault-found"),
            Fact::OutcomeServiced => outcome("serviced"),
            Fact::WorkDone => outcome("repaired") || outcome("exchanged") || outcome("serviced"),
            Fact::HasWorst => self.worst().is_some(),
            Fact::WorstMissing => self.worst().is_some_and(|one| one.condition == "missing"),
            Fact::WayIn => self.way_in().is_some(),
            Fact::WayInWorst => {
                self.worst().zip(self.way_in()).is_some_and(|(one, other)| std::ptr::eq(one, other))
            }
            Fact::CauseNamed => is_named,
            Fact::CauseIngress => cause("ingress"),
            Fact::CauseMechanical => cause("mechanical"),
            Fact::CauseElectrical => cause("electrical"),
            Fact::CauseNeglect => cause("wear-over-time"),
            Fact::CauseUndetermined => cause("undetermined"),
            Fact::CauseNoFault => cause("no-fault-found"),
            Fact::StatesIngress => cause("ingress") || self.also("ingress"),
            Fact::StatesNeglect => cause("wear-over-time") || self.also("wear-over-time"),
            Fact::AlsoIngress => self.also("ingress") && !cause("ingress"),
            Fact::AlsoMechanical => self.also("mechanical") && !cause("mechanical"),
            Fact::AlsoElectrical => self.also("electrical") && !cause("electrical"),
            Fact::Firm => self.support() == "shows",
            Fact::Points => self.support() == "points",
            Fact::Mixed => self.support() == "mixed",
            Fact::Judged => self.support() == "judged",
            Fact::Origin => self.at("cause.origin").is_some(),
            Fact::OriginShown => {
                let origins = &self.assessment.weighing.origins;
                origins.iter().any(|(kind, _)| self.is("cause.origin", kind.word()))
            }
            Fact::ShownBy => self.shown_by(),
            Fact::RanOnDated => {
                matches!(continued_use, ContinuedUse::Dated(_))
                    && self.at("arrival.first-noticed.date").is_some()
            }
            Fact::RanOnUndated => continued_use == ContinuedUse::Undated,
            Fact::CamePromptly => {
                // At most 14 days, and less than 100 km if that is known.
                let km = |path: &str| self.at(path)?.strip_suffix(" km")?.parse::<i64>().ok();
                let ridden = km("unit.mileage").zip(km("arrival.first-noticed.at"));
                self.days_noticed_before().is_some_and(|days| (0..=14).contains(&days))
                    && ridden.is_none_or(|(now, then)| now - then < 100)
            }
            Fact::AnyFailed => condition("failed"),
            Fact::AnyMissing => condition("missing"),
            Fact::AnyDamaged => condition("damaged"),
            Fact::AnyWorn => condition("worn"),
            Fact::AnyHarmed => self.any(Found::is_harmed),
            Fact::AnySound => condition("sound"),
            Fact::AnyExamined => self.any(|one| one.condition != "not-examined"),
            Fact::AnyNotExamined => condition("not-examined"),
            Fact::AnyNew => self.any(is_new),
            Fact::HarmedNew => self.any(|one| one.action == "replaced" && one.is_harmed()),
            Fact::SoundNew => self.any(|one| one.action == "replaced" && one.condition == "sound"),
            Fact::OtherNew => {
                self.any(|one| one.action == "replaced" && one.condition == "not-examined")
            }
            Fact::GreaseNew => {
                self.any(|one| one.action == "replaced" && one.part == "gear-grease")
            }
            Fact::Greased => self.at("work.grease").is_some(),
            Fact::Dried => !self.tree["work"]["drying"].is_null(),
            Fact::DriedFor => self.at("work.drying.for").is_some(),
            Fact::DriedAt => self.at("work.drying.at").is_some(),
            Fact::AnyAdded => action("added"),
            Fact::AnyRepaired => action("repaired"),
            Fact::AnyCleaned => action("cleaned"),
            Fact::AnyResealed => action("resealed"),
            Fact::AnyCoated => action("coated"),
            Fact::AnyTested => action("tested"),
            Fact::NothingNew => !self.any(is_new) && self.tree["work"]["parts"].is_null(),
            Fact::OnlyOneBearingNew => {
                let done: Vec<&Found> = self
                    .findings
                    .iter()
                    .filter(|one| ["replaced", "added", "repaired"].contains(&one.action.as_str()))
                    .collect();
                let billed =
                    self.tree["work"]["parts"].as_sequence().map_or(&[][..], Vec::as_slice);
                let is_more = billed.len() > 1
                    || billed.iter().any(|part| part["quantity"].as_u64().is_some_and(|n| n > 1));
                let is_one = matches!(done[..], [one] if one.action == "replaced" && one.group == "bearings");
                is_one && !is_more
            }
            Fact::WaterAmount => self.at("arrival.water").is_some(),
            Fact::ArrivalSigns => texts(&self.tree["arrival"]["signs"])
                .iter()
                .any(|sign| sign != "faultless-on-swap" || !outcome("no-fault-found")),
            Fact::RustSeen => self.saw(RUST) || self.derived(RUST),
            Fact::NoRustSeen => {
                self.saw(&["clear-water-no-rust", "dew-without-rust"]) && !self.saw(RUST)
            }
            Fact::GreaseMilky => self.saw(&["grease-milky"]),
            Fact::JetWashed => self.is("unit.washed-with", "pressure-washer"),
            Fact::BearingHarmed => harmed("bearings"),
            Fact::BearingOrGearHarmed => harmed("bearings") || harmed("gears"),
            Fact::ElectricalWet => {
                self.any(|one| electrical.contains(&one.group.as_str()) && one.shows(WET_CONTACT))
            }
            Fact::SensorHarmed => harmed("sensors"),
            Fact::WiringHarmed => harmed("wiring"),
            Fact::WindingHarmed => {
                let list = [
                    "cuts-out-hot",
                    "winding-pair-low",
                    "winding-pair-open",
                    "winding-phase-burnt",
                    "winding-dark-evenly",
                ];
                self.saw(&list) || self.derived(&list)
            }
            Fact::SwitchBurnt => self.signs().iter().any(|one| one.starts_with("transistor-burnt")),
            Fact::ImpactSeen => self.saw(&["casing-crack-or-dent"]),
            Fact::Beside => !self.assessment.weighing.beside_no_fault.is_empty(),
            Fact::TriageUnit => triage == Some(Suspect::Only(Site::DriveUnit)),
            Fact::TriageElsewhere => triage == Some(Suspect::Only(Site::ElsewhereOnBike)),
            Fact::TriageBoth => triage == Some(Suspect::Both),
            Fact::TriageNowhere => triage == Some(Suspect::NotTold),
            Fact::Swapped => self.saw(&["faultless-on-swap"]),
            Fact::ExchangeModel => self.at("exchange.model").is_some(),
            Fact::ChoseReturn => self.is("decision.option", "return-as-it-is"),
            Fact::DangerOpen => self.is_dangerous(false),
            Fact::BatteryDanger => self.is_dangerous(true),
            Fact::Unfit => {
                let carries = ["case", "bearings", "gears", "clutch", "shaft", "fasteners"];
                let is_out = |one: &Found| {
                    ["failed", "missing"].contains(&one.condition.as_str())
                        && !["replaced", "repaired", "added"].contains(&one.action.as_str())
                };
                // What only carries current, and a seal, keeps nobody from riding.
                let current = ["stator-winding", "battery-pack", "display"];
                let is_load = |one: &Found| {
                    !electrical.contains(&one.group.as_str())
                        && !current.contains(&one.part.as_str())
                        && one.group != "seals"
                };
                (self.is_dangerous(false) || self.any(|one| is_out(one) && is_load(one)))
                    && self.any(|one| {
                        is_out(one) && (one.is_safety || carries.contains(&one.group.as_str()))
                    })
            }
            Fact::Outside => self.is_outside(),
            Fact::Ridden => !self.tree["ride"].is_null(),
            Fact::WorkshopsBike => self.is("ride.bike", "workshop"),
            Fact::RideWay | Fact::RideTypedWay => ride("distance"),
            Fact::RideClimb | Fact::RideTypedClimb => ride("climb"),
            Fact::RideNoise => ride("noise"),
            Fact::RideCutOff => ride("cut-off"),
            Fact::RideRunOn => ride("run-on"),
            Fact::RideWalk => ride("walk-assist"),
            Fact::RideCodes => self.code("ride.error-codes") == Some(true),
            Fact::RideCodesNone => self.code("ride.error-codes") == Some(false),
            Fact::RideEnough => self.proof() == Some(Proof::Enough),
            Fact::RideTooShort => self.proof() == Some(Proof::TooShort),
            Fact::RideTooSlow => self.proof() == Some(Proof::TooSlow),
            Fact::RideShort => matches!(self.proof(), Some(Proof::TooShort | Proof::TooSlow)),
            Fact::RideRecorded
            | Fact::RecordedMoving
            | Fact::RecordedClimb
            | Fact::RecordedGaps
            | Fact::RecordedHeld
            | Fact::RecordedPassed
            | Fact::RecordedNotReached
            | Fact::SeenBefore
            | Fact::SeenBeforeReturned
            | Fact::SeenBeforeOutcome
            | Fact::SeenBeforeOften
            | Fact::GivenInExchange => false,
            Fact::PartSound
            | Fact::PartWorn
            | Fact::PartDamaged
            | Fact::PartFailed
            | Fact::PartMissing
            | Fact::PartNotExamined
            | Fact::PartReplaced
            | Fact::PartSignsBesideHeading
            | Fact::PartGlossed => panic!("a part has facts of its own"),
        }
    }
}
