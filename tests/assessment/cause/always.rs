//! What must hold for any signs in any order.

use proptest::prelude::{ProptestConfig, Strategy, prop, prop_assert, prop_assert_eq, proptest};
use splitcase::assessment::cause::continued_use::ContinuedUse;
use splitcase::assessment::cause::evidence::{Evidence, Origin};
use splitcase::assessment::cause::scored_sign::ScoredSign;
use splitcase::assessment::cause::scores::{RootCause, row_of};
use splitcase::assessment::cause::verdict::Support;
use splitcase::assessment::cause::{Weighing, judge};
use splitcase::sheet::catalogue::{PARTS, Part, SIGNS, Sign};
use splitcase::sheet::vocabulary::{CauseKind, CheckKind};

use super::{day, sign};

/// A set of signs by row, each seen (true) or looked for and not found.
fn any_signs() -> impl Strategy<Value = Vec<(usize, bool)>> {
    prop::collection::vec((0..SIGNS.len(), prop::bool::weighted(0.75)), 0..14)
}

/// Every other sign is on a part, so that signs of good order meet their own places and others.
fn origin(row: usize) -> Origin {
    let part = Part(&PARTS[row * 7 % PARTS.len()]);
    match row % 2 {
        0 => Origin::Finding { finding: 0, part, has_photo: true, span: 0..0 },
        _ => Origin::Bench(CheckKind::RunningNoise),
    }
}

fn with_date(signs: &[(usize, bool)]) -> Evidence {
    let pick = |seen: bool| {
        let of_kind = signs.iter().filter(move |(_, own)| *own == seen);
        of_kind.map(|(row, _)| (Sign(&SIGNS[*row]), origin(*row))).collect()
    };
    Evidence {
        seen: pick(true),
        not_seen: pick(false),
        noticed: Some(day()),
        ..Evidence::default()
    }
}

fn judged(signs: &[(usize, bool)]) -> Weighing {
    judge(&with_date(signs), None, &[])
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_sign_for_a_cause_never_lowers_it(signs in any_signs(), row in 0..SIGNS.len()) {
        let before = judged(&signs);
        let after = judged(&[&signs[..], &[(row, true)]].concat());
        for (fault, score) in scores_of(row) {
            let change = after.totals.of(fault) - before.totals.of(fault);
            prop_assert!(score <= 0 || change >= 0, "{fault:?} {change}");
        }
    }

    #[test]
    fn a_sign_that_is_missing_never_raises_a_cause(signs in any_signs(), row in 0..SIGNS.len()) {
        let before = judged(&signs);
        let after = judged(&[&signs[..], &[(row, false)]].concat());
        for fault in RootCause::ALL {
            prop_assert!(after.totals.of(fault) <= before.totals.of(fault));
        }
    }

    #[test]
    fn a_sign_for_the_main_cause_alone_never_weakens_it(signs in any_signs(), row in 0..SIGNS.len()) {
        let before = judged(&signs);
        // Signs that say something else beside water are not for one cause alone.
        let is_fixed = SIGNS[row].if_wet.is_none();
        let alone = |fault: RootCause| {
            is_fixed && scores_of(row).all(|(own, score)| (own == fault) == (score > 0))
        };
        if let Some(main) = RootCause::of(before.verdict.main).filter(|main| alone(*main)) {
            let after = judged(&[&signs[..], &[(row, true)]].concat());
            let place = |weighing: &Weighing| {
                weighing.ranking.iter().position(|(fault, _)| *fault == main)
            };
            prop_assert!(place(&after) <= place(&before));
            // Where several lie close the chain decides, and a third may come into question.
            let held: &[Support] = match before.verdict.support {
                Support::WellSupported => &[Support::WellSupported],
                Support::PointsTo => &[Support::WellSupported, Support::PointsTo],
                _ => return Ok(()),
            };
            prop_assert_eq!(after.verdict.main, main.kind());
            prop_assert!(held.contains(&after.verdict.support));
        }
    }

    #[test]
    fn the_order_of_findings_changes_nothing(
        signs in any_signs(),
        seed in prop::collection::vec(0_u32..1000, 14),
    ) {
        let mut mixed: Vec<(u32, (usize, bool))> = seed.into_iter().zip(signs.clone()).collect();
        mixed.sort_by_key(|(key, _)| *key);
        let mixed: Vec<(usize, bool)> = mixed.into_iter().map(|(_, one)| one).collect();
        prop_assert_eq!(judged(&signs), judged(&mixed));
    }

    #[test]
    fn totals_are_the_sums_of_what_is_listed(signs in any_signs()) {
        let weighing = judged(&signs);
        for fault in RootCause::ALL {
            let (speak, against) = weighing.for_and_against(fault);
            let sum = |list: &[&_]| -> i32 {
                list.iter().map(|one: &&ScoredSign| one.used_points.of(fault)).sum()
            };
            prop_assert!(sum(&speak) >= 0 && sum(&against) <= 0);
            prop_assert_eq!(sum(&speak) + sum(&against), weighing.totals.of(fault));
        }
    }

    #[test]
    fn a_verdict_keeps_to_its_words(signs in any_signs()) {
        let weighing = judged(&signs);
        let verdict = &weighing.verdict;
        let is_open = RootCause::of(verdict.main).is_none();
        let open = matches!(verdict.support, Support::NotDeterminable | Support::NoFaultFound);
        prop_assert_eq!(is_open, open);
        prop_assert!(!open || verdict.contributing.is_empty());
        prop_assert!(verdict.contributing.iter().all(|fault| fault.kind() != verdict.main));
        prop_assert!(verdict.support != Support::WellSupported || verdict.limits.is_empty());
        let neglect = verdict.main == CauseKind::Neglect || verdict.contributing.contains(&RootCause::Neglect);
        prop_assert!(!neglect || matches!(weighing.continued_use, ContinuedUse::Dated(_)));
        let seen = |short: &str| signs.contains(&(row_of(sign(short)), true));
        prop_assert!(seen("SE28") || verdict.support != Support::NoFaultFound);
        prop_assert!(!seen("SC23") || verdict.support != Support::WellSupported);
    }
}

fn scores_of(row: usize) -> impl Iterator<Item = (RootCause, i8)> {
    let scores = &SIGNS[row].scores;
    [
        (RootCause::Ingress, scores.ingress),
        (RootCause::Neglect, scores.neglect),
        (RootCause::Mechanical, scores.mechanical),
        (RootCause::Electrical, scores.electrical),
    ]
    .into_iter()
}
