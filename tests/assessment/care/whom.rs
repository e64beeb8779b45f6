//! For whom each piece of advice fires, and for whom it does not.

use std::collections::BTreeSet;

use splitcase::assessment::care::input::CareInput;
use splitcase::assessment::care::state::{Fitness, Hazard};
use splitcase::assessment::care::table::TABLE;
use splitcase::sheet::vocabulary::{CauseKind, Outcome, Storage, Use, Washing};

use super::{
    caused, declined, ended, hub, in_danger, in_state, plain, ridden, rules, stored, used, washed,
    with_part,
};

/// A rule, jobs that it fires for, jobs that it does not fire for.
type Case = (&'static str, Vec<CareInput>, Vec<CareInput>);

fn after_the_return() -> Vec<Case> {
    let faultless = || ended(Outcome::NoFaultFound);
    let (rusty, wet) = (
        in_state(declined(Fitness::Worn), |state| (state.rust, state.water) = (true, true)),
        in_state(declined(Fitness::Worn), |state| state.water = true),
    );
    let repaired_wet = in_state(plain(), |state| (state.rust, state.water) = (true, true));
    let other = |fitness: Fitness| {
        let all = [Fitness::NotOpened, Fitness::Fit, Fitness::Worn, Fitness::Dead, Fitness::NotFit];
        let mut rest: Vec<CareInput> =
            all.into_iter().filter(|one| *one != fitness).map(declined).collect();
        rest.extend([plain(), faultless(), ended(Outcome::Exchanged)]);
        rest
    };
    vec![
        ("do-not-ride", vec![declined(Fitness::NotFit)], other(Fitness::NotFit)),
        ("leave-switched-off", vec![declined(Fitness::Dead)], other(Fitness::Dead)),
        ("not-looked-inside", vec![declined(Fitness::NotOpened)], other(Fitness::NotOpened)),
        ("mend-soon", vec![declined(Fitness::Worn)], other(Fitness::Worn)),
        (
            "rust-goes-on",
            vec![rusty.clone()],
            vec![
                declined(Fitness::NotFit),
                wet.clone(),
                repaired_wet.clone(),
                CareInput { mendable: false, ..rusty.clone() },
            ],
        ),
        ("water-is-inside", vec![wet], vec![declined(Fitness::NotFit), rusty, repaired_wet]),
        (
            "hand-in-as-waste",
            vec![declined(Fitness::NotFit), declined(Fitness::Dead)],
            vec![declined(Fitness::Worn), declined(Fitness::Fit), ended(Outcome::Exchanged)],
        ),
        ("look-elsewhere", vec![faultless()], vec![plain(), declined(Fitness::Fit)]),
        ("note-when", vec![faultless()], vec![plain()]),
    ]
}

fn by_cause() -> Vec<Case> {
    let wet = |washing| CareInput { washing, ..caused(CauseKind::Ingress) };
    let jet = || washed(Washing::PressureWasher);
    vec![
        (
            "no-jet",
            vec![
                jet(),
                wet(Washing::PressureWasher),
                wet(Washing::Unknown),
                CareInput { washing: Washing::Unknown, ..with_part(CauseKind::Ingress) },
            ],
            vec![
                plain(),
                wet(Washing::BucketAndSponge),
                wet(Washing::NotWashed),
                wet(Washing::GardenHose),
                caused(CauseKind::Mechanical),
                CareInput { washing: Washing::PressureWasher, ..declined(Fitness::NotFit) },
            ],
        ),
        (
            "hose-got-in",
            vec![wet(Washing::GardenHose)],
            vec![washed(Washing::GardenHose), wet(Washing::Unknown)],
        ),
        (
            "seals-age",
            vec![wet(Washing::BucketAndSponge), wet(Washing::NotWashed)],
            vec![plain(), wet(Washing::PressureWasher), wet(Washing::Unknown)],
        ),
        (
            "cut-out-note",
            vec![caused(CauseKind::Electrical), with_part(CauseKind::Electrical)],
            vec![plain(), caused(CauseKind::Mechanical)],
        ),
        (
            "switch-off-first",
            vec![caused(CauseKind::Electrical), with_part(CauseKind::Electrical)],
            vec![plain(), caused(CauseKind::Ingress)],
        ),
        (
            "gentle-start",
            vec![hub(caused(CauseKind::Mechanical)), hub(used(Use::Cargo)), hub(used(Use::Towing))],
            vec![
                hub(plain()),
                caused(CauseKind::Mechanical),
                used(Use::Cargo),
                in_danger(hub(used(Use::Cargo)), Hazard::Ride),
            ],
        ),
        (
            "first-sound",
            vec![plain(), ended(Outcome::Exchanged), in_danger(plain(), Hazard::Battery)],
            vec![
                ended(Outcome::NoFaultFound),
                declined(Fitness::NotFit),
                in_danger(plain(), Hazard::Ride),
            ],
        ),
        ("tell-riders", vec![used(Use::Rental)], vec![used(Use::Road), plain()]),
        ("new-serial", vec![ended(Outcome::Exchanged)], vec![plain()]),
        (
            "send-it-wet",
            vec![caused(CauseKind::Ingress), used(Use::Trail), used(Use::AllWeather)],
            vec![plain(), used(Use::Commuting), declined(Fitness::Worn)],
        ),
    ]
}

fn by_habit() -> Vec<Case> {
    let wet = |washing| CareInput { washing, ..caused(CauseKind::Ingress) };
    vec![
        (
            "dry-after-wet",
            vec![used(Use::AllWeather), used(Use::Commuting), caused(CauseKind::Ingress)],
            vec![plain(), used(Use::Road), used(Use::Cargo)],
        ),
        (
            "stand-under-a-roof",
            vec![stored(Storage::Outside), stored(Storage::UnderCover)],
            vec![stored(Storage::ShedOrGarage), stored(Storage::Unknown), plain()],
        ),
        (
            "turn-when-standing",
            vec![stored(Storage::ShedOrGarage), with_part(CauseKind::Ingress)],
            vec![plain(), stored(Storage::Unknown)],
        ),
        (
            "bucket-not-hose",
            vec![washed(Washing::GardenHose)],
            vec![plain(), washed(Washing::PressureWasher), wet(Washing::GardenHose)],
        ),
        ("wash-by-hand", vec![washed(Washing::Unknown)], vec![plain(), wet(Washing::Unknown)]),
        ("clean-off-mud", vec![washed(Washing::NotWashed)], vec![plain()]),
        (
            "no-deep-water",
            vec![used(Use::Trail), used(Use::Touring)],
            vec![used(Use::Commuting), plain()],
        ),
        ("wipe-off-salt", vec![used(Use::Commuting)], vec![used(Use::Trail), plain()]),
        (
            "battery-indoors",
            vec![stored(Storage::ShedOrGarage), stored(Storage::Outside)],
            vec![
                plain(),
                stored(Storage::Unknown),
                in_state(stored(Storage::Outside), |state| state.battery_is_wet = true),
            ],
        ),
        (
            "keep-plugs-dry",
            vec![caused(CauseKind::Electrical), stored(Storage::Outside)],
            vec![plain(), stored(Storage::UnderCover)],
        ),
        (
            "low-gear",
            vec![used(Use::Cargo), caused(CauseKind::Mechanical), with_part(CauseKind::Electrical)],
            vec![plain(), used(Use::Commuting), hub(used(Use::Cargo))],
        ),
        (
            "pedal-on-hills",
            vec![hub(used(Use::Trail)), hub(caused(CauseKind::Electrical))],
            vec![hub(plain()), used(Use::Trail)],
        ),
        (
            "fresh-chain",
            vec![used(Use::Towing), caused(CauseKind::Mechanical)],
            vec![plain(), hub(used(Use::Towing))],
        ),
        ("rain-on-the-rack", vec![used(Use::Trail)], vec![used(Use::Commuting)]),
        (
            "many-miles",
            vec![ridden(10_001)],
            vec![ridden(10_000), plain(), CareInput { outcome: None, ..ridden(20_000) }],
        ),
        (
            "keep-washing-by-hand",
            vec![plain()],
            vec![washed(Washing::Unknown), wet(Washing::BucketAndSponge)],
        ),
    ]
}

#[test]
fn each_rule_fires_for_its_jobs_and_for_no_others() {
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    for (rule, fires, fires_not) in
        after_the_return().into_iter().chain(by_cause()).chain(by_habit())
    {
        seen.insert(rule);
        for input in &fires {
            assert!(rules(input).contains(&rule), "{rule} does not fire for {input:?}");
        }
        for input in &fires_not {
            assert!(!rules(input).contains(&rule), "{rule} fires for {input:?}");
        }
    }
    let all: BTreeSet<&str> = TABLE.advice.iter().map(|row| row.name.as_str()).collect();
    assert_eq!(seen, all);
}
