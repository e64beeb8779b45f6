//! The assessment stage: what follows from a sheet and its photos.
//!
//! In: [`Sheet`] and [`ProfileFile`]; out: [`Assessment`]. A value that cannot be computed is absent with
//! its reason; nothing is guessed and nothing is worded here.

pub mod bench;
pub mod care;
pub mod cause;
pub mod cost;
pub mod earlier;
pub mod plausibility;
pub mod problems;
pub mod recognition;
pub mod ride;
pub mod sources;

use crate::diagnostic::Problems;
use crate::sheet::catalogue::Sign;
use crate::sheet::findings::FindingsSheet;
use crate::sheet::profile::{OwnScore, Profile};
use crate::sheet::{ProfileFile, Sheet};
use bench::check_result::CheckResult;
use bench::input::Input;
use bench::shop_limits::ShopLimits;
use bench::torque::Screws;
use care::Care;
use care::input::CareInput;
use cause::Weighing;
use cause::evidence::{Evidence, Origin};
use cause::scores::{HouseScore, RootCause};
use cause::triage::{self, Triage};
use cost::Costs;
use earlier::Visit;
use ride::judged::TestRide;

/// What follows from a sheet.
pub struct Assessment {
    /// Money: the bill, the options, what catching it early would have cost.
    pub costs: Costs,
    /// What the signs say of the cause.
    pub weighing: Weighing,
    /// Where the fault is more likely to be, by what the bike did before the unit was taken out.
    pub triage: Option<Triage>,
    /// Bench checks and torques, each figure with its limit and verdict.
    pub bench: Vec<CheckResult>,
    /// The test ride.
    pub ride: Option<TestRide>,
    /// What to do to make it last.
    pub care: Care,
    /// Earlier visits of the unit, the first one first; nothing that is assessed hangs on them.
    pub visits: Vec<Visit>,
}

/// Assesses a job.
///
/// `track` is the file that the sheet's `ride: track:` names.
pub fn assess(
    sheet: &Sheet,
    workshop: &ProfileFile,
    track: Option<&[u8]>,
    problems: &mut Problems,
) -> Assessment {
    let bench = bench_lines(sheet, workshop, problems);
    let house = house_scores(&workshop.fields);
    let weighing = cause::weigh(&sheet.fields, shown(&sheet.fields, &bench), &house);
    let kind = sheet.fields.unit.kind;
    let check = sheet.fields.arrival.bike_check.as_ref();
    let triage = check.map(|check| triage::triage(check, kind));
    problems.extend(cause::doubts::doubts(sheet, &weighing, triage.as_ref()));
    let costs = cost::assess(sheet, workshop, problems);
    let care = CareInput::of(&sheet.fields, &weighing.safety);
    Assessment {
        costs,
        weighing,
        triage,
        bench,
        ride: ride::judged::judge(sheet, workshop, track, problems),
        care: care::advise(&care),
        visits: Vec::new(),
    }
}

/// What speaks of the cause: the signs of a sheet, and those that its bench lines show.
pub fn evidence(sheet: &FindingsSheet, bench: &[CheckResult]) -> Evidence {
    Evidence::gather(sheet, shown(sheet, bench))
}

/// The signs that bench lines show.
fn shown(sheet: &FindingsSheet, bench: &[CheckResult]) -> Vec<(Sign, Origin)> {
    let shown = bench::shown::shown(sheet, bench).into_iter();
    shown.map(|(sign, check)| (sign, Origin::Bench(check))).collect()
}

/// The scores that a workshop sets in place of the table's.
pub fn house_scores(profile: &Profile) -> Vec<HouseScore> {
    let of = |own: &OwnScore| {
        [
            (RootCause::Ingress, own.ingress),
            (RootCause::Mechanical, own.mechanical),
            (RootCause::Electrical, own.electrical),
            (RootCause::Neglect, own.wear_over_time),
        ]
        .map(|(fault, score)| {
            score.map(|score| HouseScore { sign: own.sign, fault, score: score.0 })
        })
    };
    profile.scores.iter().flat_map(of).flatten().collect()
}

/// The lines of every bench check and of every torque, in the order of the sheet.
fn bench_lines(sheet: &Sheet, workshop: &ProfileFile, problems: &mut Problems) -> Vec<CheckResult> {
    let fields = &sheet.fields;
    let own =
        ShopLimits::of(&workshop.fields, fields.unit.model.as_ref().map(|model| model.0.as_str()));
    let mut lines = Vec::new();
    for (index, check) in fields.bench.iter().enumerate() {
        let mut found = bench::run(&Input::from(check), &own);
        for line in &mut found {
            line.typed = Some(index);
            line.of = check.named();
        }
        let place = sheet.place(&check.check.span);
        // One check may have several figures that lack the same.
        let lacks =
            found.iter().find_map(|line| problems::bench::undetermined(place.clone(), line));
        problems.extend(lacks);
        lines.extend(found);
    }
    for torque in fields.work.iter().flat_map(|work| &work.torque) {
        let screws = Screws {
            screws: torque.screws.0.clone(),
            set: torque.set.0.clone(),
            thread: torque.thread.as_ref().map(|thread| thread.0.clone()),
            friction: torque.friction.map(|friction| friction.0),
        };
        lines.push(bench::torque::run(&screws, &own));
    }
    lines
}
