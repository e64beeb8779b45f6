//! Readings that page 1 names: what was outside its limit as the unit came, and what the work did to it.
//!
//! In: the checks of the sheet and their results; out: clauses (`as-found` and `improved` of `bench.yaml`)
//! with the readings as typed. Verdicts are the assessment's.

use crate::assessment::Assessment;
use crate::assessment::bench::check_result::CheckResult;
use crate::assessment::bench::measure::Measure;
use crate::assessment::bench::verdict::Verdict;
use crate::document::figure;
use crate::document::format;
use crate::document::text;
use crate::document::wording::Wording;
use crate::sheet::bench::Reading;
use crate::sheet::findings::FindingsSheet;
use crate::sheet::vocabulary::CheckKind;

/// Most readings as found that page 1 gives.
const MOST_AS_FOUND: usize = 1;

/// Most readings before and after the work that page 1 gives.
const MOST_IMPROVED: usize = 2;

/// A check with one reading as found and one as left, or one of them.
struct Check<'a> {
    result: &'a CheckResult,
    before: Option<&'a Reading>,
    after: Option<&'a Reading>,
}

/// The checks that page 1 has words for, in the order of the sheet. A check of one of several parts, a
/// list of readings and a meter that was over its range stay in their section.
fn checks<'a>(fields: &'a FindingsSheet, assessment: &'a Assessment) -> Vec<Check<'a>> {
    let one = |readings: &'a [Reading]| match readings {
        [one] if one.beyond.is_none() => Some(one),
        _ => None,
    };
    let of = |result: &'a CheckResult| {
        let typed = fields.bench.get(result.typed?)?;
        let is_first = matches!(result.measure, Measure::Of(_)) && result.of.is_none();
        is_first.then(|| Check { result, before: one(&typed.before), after: one(&typed.after) })
    };
    assessment.bench.iter().filter_map(of).collect()
}

/// What was outside its limit as the unit came.
pub(super) fn as_found(
    fields: &FindingsSheet,
    assessment: &Assessment,
    wording: &Wording,
) -> Vec<String> {
    let clause = |check: Check<'_>| {
        let form = wording.choice_if("as-found", check.result.measure.word())?;
        let stage = check.result.before.as_ref()?;
        let limit = check.result.limit.as_ref()?;
        let before = format::quantity(&check.before?.value, wording);
        let limit = figure::bounds(limit.bounds, check.result.unit, wording);
        (stage.verdict == Verdict::Outside)
            .then(|| text::fill(form, &[("value", &before), ("limit", &limit)]))
    };
    checks(fields, assessment).into_iter().filter_map(clause).take(MOST_AS_FOUND).collect()
}

/// What the work made better, and is not outside its limit now.
pub(super) fn improved(
    fields: &FindingsSheet,
    assessment: &Assessment,
    wording: &Wording,
) -> Vec<String> {
    let clause = |check: Check<'_>| {
        let form = wording.choice_if("improved", check.result.measure.word())?;
        let stage = check.result.after.as_ref()?;
        let (before, after) = (&check.before?.value, &check.after?.value);
        // Good insulation resists more; of all else that has words here, less is better.
        let is_better = match check.result.measure {
            Measure::Of(CheckKind::InsulationResistance) => before.in_base() < after.in_base(),
            _ => after.in_base() < before.in_base(),
        };
        let printed = |value| format::quantity(value, wording);
        (is_better && stage.verdict != Verdict::Outside)
            .then(|| text::fill(form, &[("before", &printed(before)), ("after", &printed(after))]))
    };
    checks(fields, assessment).into_iter().filter_map(clause).take(MOST_IMPROVED).collect()
}
