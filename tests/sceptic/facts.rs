//! A second reading of the sheet: what holds, from its text and lists of signs by name.
//!
//! How far signs carry a cause and whether a reading is outside its limit are the assessment's, which
//! has tests of its own.

/// Which facts hold.
mod held;

use serde_yaml::Value;
use splitcase::assessment::Assessment;
use splitcase::assessment::bench::measure::Measure;
use splitcase::assessment::bench::verdict::Verdict;
use splitcase::assessment::cause::continued_use::ContinuedUse;
use splitcase::assessment::cause::evidence::Origin;
use splitcase::assessment::cause::scores::RootCause;
use splitcase::assessment::cause::triage::{Site, Suspect};
use splitcase::assessment::cause::verdict::Support;
use splitcase::assessment::ride::Proof;
use splitcase::document::clauses::fact::Fact;
use splitcase::document::wording::Wording;
use splitcase::sheet::catalogue::sign::{Link, Role, SignKind, SignRow};
use splitcase::sheet::catalogue::{PARTS, SIGNS};

/// Rust on steel inside the unit.
pub const RUST: &[&str] = &[
    "seized-after-storage",
    "even-rust-no-path",
    "moisture-corrosion",
    "standstill-etching",
    "rust-pits-rolled-flat",
    "spall-at-rust-pit",
    "all-bearings-rusty",
    "gear-rust",
    "clutch-rust",
    "magnets-rusty",
];
/// A way in.
pub const WAY_IN: &[&str] = &[
    "seal-lip-damaged",
    "gland-open",
    "rust-trail-inward",
    "seal-groove-in-shaft",
    "bearing-seal-torn",
    "shields-not-seals",
];
/// Water on contacts, boards and sensors.
const WET_CONTACT: &[&str] = &[
    "pins-corroded",
    "board-corrosion",
    "flux-haze",
    "water-poured-out",
    "clear-water-no-rust",
    "brown-water",
    "tide-line-inside",
    "free-water-inside",
    "dew-without-rust",
    "white-alloy-corrosion",
];

/// One finding as typed.
pub struct Found {
    pub part: String,
    pub group: String,
    pub is_safety: bool,
    pub condition: String,
    pub action: String,
    pub signs: Vec<String>,
}

impl Found {
    pub fn is_harmed(&self) -> bool {
        !["sound", "not-examined"].contains(&self.condition.as_str())
    }

    /// The signs that say what happened: of a sound part those that lie on it, of a harmed part all but
    /// what is in order or only told.
    fn telling(&self) -> impl Iterator<Item = &str> {
        let on_it =
            [Link::Water, Link::Solids, Link::Grease, Link::Debris, Link::Path, Link::Tamper];
        self.signs.iter().map(String::as_str).filter(move |sign| match self.condition.as_str() {
            "sound" => on_it.contains(&row(sign).link),
            "worn" | "damaged" | "failed" => {
                !row(sign).roles.contains(&Role::InOrder) && row(sign).kind != SignKind::Told
            }
            _ => false,
        })
    }

    fn is_told(&self) -> bool {
        self.is_harmed() || self.telling().next().is_some()
    }

    fn shows(&self, list: &[&str]) -> bool {
        self.signs.iter().any(|sign| list.contains(&sign.as_str()))
    }
}

/// A sheet as the sceptic reads it.
pub struct Reading<'a> {
    tree: Value,
    pub findings: Vec<Found>,
    assessment: &'a Assessment,
    wording: &'a Wording,
}

/// The clause that a sign is told by, as the wording has it.
pub fn clause_of(found: &Found, sign: &str, wording: &Wording) -> Option<String> {
    let failed = wording.story(sign, "failed").filter(|_| found.condition == "failed");
    failed.or_else(|| wording.story(sign, "told")).map(str::to_owned)
}

fn row(sign: &str) -> &'static SignRow {
    SIGNS.iter().find(|row| row.sign == sign).unwrap()
}

fn text(value: &Value) -> Option<String> {
    match value {
        Value::String(text) => Some(text.clone()),
        Value::Null => None,
        other => serde_yaml::to_string(other).ok().map(|text| text.trim().to_owned()),
    }
}

fn texts(value: &Value) -> Vec<String> {
    value.as_sequence().into_iter().flatten().filter_map(text).collect()
}

impl<'a> Reading<'a> {
    pub fn of(sheet_text: &str, assessment: &'a Assessment, wording: &'a Wording) -> Self {
        let tree: Value = serde_yaml::from_str(sheet_text).unwrap();
        let findings = tree["strip-down"]["findings"].as_sequence().cloned().unwrap_or_default();
        let findings = findings
            .iter()
            .map(|one| {
                let part = text(&one["part"]).unwrap();
                let row = PARTS.iter().find(|row| row.part == part).unwrap();
                Found {
                    group: row.group.word().to_owned(),
                    is_safety: row.safety,
                    condition: text(&one["condition"]).unwrap(),
                    action: text(&one["action"]).unwrap_or_default(),
                    signs: texts(&one["signs"]),
                    part,
                }
            })
            .collect();
        Self { tree, findings, assessment, wording }
    }

    pub fn at(&self, path: &str) -> Option<String> {
        text(path.split('.').fold(&self.tree, |value, key| &value[key]))
    }

    fn is(&self, path: &str, word: &str) -> bool {
        self.at(path).as_deref() == Some(word)
    }

    fn is_opened(&self) -> bool {
        !self.tree["strip-down"].is_null()
    }

    /// Every sign typed anywhere.
    pub fn signs(&self) -> Vec<String> {
        let mut signs = texts(&self.tree["arrival"]["signs"]);
        signs.extend(self.findings.iter().flat_map(|one| one.signs.clone()));
        signs
    }

    pub fn saw(&self, list: &[&str]) -> bool {
        self.signs().iter().any(|sign| list.contains(&sign.as_str()))
    }

    fn also(&self, cause: &str) -> bool {
        texts(&self.tree["cause"]["contributing"]).iter().any(|one| one == cause)
    }

    /// A sign that was seen on the bench or follows from a typed field.
    fn derived(&self, list: &[&str]) -> bool {
        self.assessment.weighing.signs.iter().any(|one| one.seen && list.contains(&one.sign.name()))
    }

    fn any(&self, is_one: impl Fn(&Found) -> bool) -> bool {
        self.findings.iter().any(is_one)
    }

    /// Failed before missing before damaged before worn; beside water not the part that let it in.
    fn worst(&self) -> Option<&Found> {
        let wet = self.is("cause.main", "ingress");
        let harmed: Vec<&Found> = ["failed", "missing", "damaged", "worn"]
            .iter()
            .flat_map(|word| self.findings.iter().filter(move |one| one.condition == **word))
            .collect();
        let other = harmed.iter().find(|one| !(wet && one.shows(WAY_IN)));
        other.or(harmed.first()).copied()
    }

    fn way_in(&self) -> Option<&Found> {
        self.findings.iter().find(|one| one.shows(WAY_IN))
    }

    /// The reading of play as found or as left, in mm.
    fn play(&self, when: &str) -> Option<f64> {
        let check = self.tree["bench"].as_sequence()?.first()?;
        text(&check[when])?.strip_suffix(" mm")?.parse().ok()
    }

    /// How many different things are told of harmed parts.
    fn harmed_clauses(&self) -> usize {
        let harmed = self.findings.iter().filter(|one| one.is_harmed());
        let clauses = harmed.map(|one| {
            let sign = one.telling().next();
            sign.and_then(|sign| clause_of(one, sign, self.wording))
                .unwrap_or_else(|| one.condition.clone())
        });
        clauses.collect::<std::collections::BTreeSet<_>>().len()
    }

    /// `shows`, `points`, `mixed` or `judged`, of an opened unit with a stated cause.
    fn support(&self) -> &'static str {
        let weighing = &self.assessment.weighing;
        if !self.is_opened() || self.at("cause.main").is_none() {
            return "";
        }
        match weighing.verdict.support {
            _ if weighing.is_judgement() => "judged",
            Support::WellSupported | Support::NoFaultFound => "shows",
            Support::PointsTo => "points",
            Support::Mixed => "mixed",
            Support::NotDeterminable => "judged",
        }
    }

    fn is_outside(&self) -> bool {
        let ride = self.assessment.ride.iter().flat_map(|ride| &ride.lines);
        self.assessment
            .bench
            .iter()
            .chain(ride)
            .any(|line| line.after.as_ref().is_some_and(|stage| stage.verdict == Verdict::Outside))
    }

    /// Signs that can hurt somebody, on parts that were not replaced; nothing of a unit that stays
    /// here goes back to its owner, but for its battery.
    fn is_dangerous(&self, on_battery: bool) -> bool {
        let is_one = |sign: &str| (sign == "cell-voltage-out-of-range") == on_battery;
        let list: Vec<&str> = self
            .assessment
            .weighing
            .safety
            .iter()
            .map(|sign| sign.name())
            .filter(|sign| is_one(sign))
            .collect();
        let stays = self.is("outcome", "exchanged") && !on_battery;
        let before_opening = texts(&self.tree["arrival"]["signs"]);
        !stays
            && (self.any(|one| one.action != "replaced" && one.shows(&list))
                || before_opening.iter().any(|sign| list.contains(&sign.as_str())))
    }

    fn proof(&self) -> Option<Proof> {
        self.assessment.ride.as_ref().map(|ride| ride.typed.proof())
    }

    fn shown_by(&self) -> bool {
        let Some(main) = self.at("cause.main") else { return false };
        let fault = RootCause::ALL.into_iter().find(|fault| fault.kind().word() == main);
        let Some(fault) = fault else { return false };
        let is_told_as_way = main == "ingress" && self.support() == "shows";
        self.assessment.weighing.signs.iter().any(|one| {
            if is_told_as_way && WAY_IN.contains(&one.sign.name()) {
                return false;
            }
            let is_seen =
                |origin: &Origin| !matches!(origin, Origin::Derived(_) | Origin::NotSeenList(_));
            one.seen && 0 < one.used_points.of(fault) && one.origins.iter().any(is_seen)
        })
    }

    fn days_noticed_before(&self) -> Option<i64> {
        let day = |path: &str| chrono::NaiveDate::parse_from_str(&self.at(path)?, "%Y-%m-%d").ok();
        Some((day("arrival.date")? - day("arrival.first-noticed.date")?).num_days())
    }

    fn code(&self, path: &str) -> Option<bool> {
        self.at(path).map(|codes| codes != "none")
    }
}
