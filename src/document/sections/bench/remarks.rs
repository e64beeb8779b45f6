//! What is said beside a bench figure: a sentence for each remark of the assessment.

use rust_decimal::Decimal;

use crate::assessment::bench::check_result::{CheckResult, Figure};
use crate::assessment::bench::fit::{Fit, FitKind};
use crate::assessment::bench::measure::Method;
use crate::assessment::bench::remark::Remark;
use crate::assessment::bench::verdict::Origin;
use crate::document::figure;
use crate::document::format;
use crate::document::text;
use crate::document::writer::Writer;
use crate::sheet::vocabulary::Placing;

/// The sentences beside a line.
pub fn remarks(writer: &Writer<'_>, line: &CheckResult) -> Vec<String> {
    let of_stages =
        [&line.before, &line.after].into_iter().flatten().flat_map(|stage| &stage.remarks);
    let mut texts: Vec<String> = Vec::new();
    for text in of_stages.chain(&line.remarks).filter_map(|one| remark(writer, one)) {
        if !texts.contains(&text) {
            texts.push(text);
        }
    }
    texts.extend(line.method.as_ref().map(|method| method_text(writer, method, line)));
    let at_least = line.change.filter(|change| change.at_least && change.amount < Decimal::ZERO);
    texts.extend(at_least.map(|change| {
        let amount = Figure::computed(change.amount.abs(), None, 1);
        let text = writer.wording.choice("remarks", "lower-by-at-least");
        text::fill(text, &[("amount", &figure::printed(&amount, line.unit, writer.wording))])
    }));
    texts
}

/// How a figure was computed, with the source that it follows.
pub fn method_text(writer: &Writer<'_>, method: &Method, line: &CheckResult) -> String {
    let text = writer.wording.choice("methods", method.rule);
    // A source that the limit names already is not named twice.
    let of_limit = line.limit.as_ref().map(|limit| limit.origin);
    match method.source.filter(|source| of_limit != Some(Origin::Published(*source))) {
        Some(source) => format!("{text} ({}).", source.citation()),
        None => format!("{text}."),
    }
}

fn remark(writer: &Writer<'_>, remark: &Remark) -> Option<String> {
    let plain = |key| Some(writer.wording.choice("remarks", key).to_owned());
    let listed = |key, states: &[u8]| {
        let states: Vec<String> = states.iter().map(|state| format!("{state:03b}")).collect();
        Some(text::fill(writer.wording.choice("remarks", key), &[("list", &states.join(", "))]))
    };
    match remark {
        Remark::Rising => plain("rising"),
        Remark::HighTestVoltage => plain("high-test-voltage"),
        Remark::TestVoltageNotStated => plain("test-voltage-not-stated"),
        Remark::UpperBoundOnly => plain("upper-bound-only"),
        Remark::BackgroundNotMeasured => plain("background-not-measured"),
        Remark::OutOfOrder => plain("out-of-order"),
        Remark::FinerBearing => plain("finer-bearing"),
        Remark::UnmountedOnly => plain("unmounted-only"),
        Remark::SteelAtMost(most) => {
            let text = writer.wording.choice("remarks", "steel-at-most");
            Some(text::fill(text, &[("most", &format::number(*most, writer.wording))]))
        }
        Remark::DoNotCharge => plain("do-not-charge"),
        Remark::MissingStates(states) => listed("missing-states", states),
        Remark::InvalidStates(states) => listed("invalid-states", states),
        Remark::PackWindow { full, empty } => {
            let text = writer.wording.choice("remarks", "pack-window");
            let number = |value: Decimal| format::number(value.normalize(), writer.wording);
            Some(text::fill(text, &[("full", &number(*full)), ("empty", &number(*empty))]))
        }
        Remark::DeviatesMost { reading, low } => {
            let key = if *low { "deviates-low" } else { "deviates-high" };
            let text = writer.wording.choice("remarks", key);
            Some(text::fill(text, &[("reading", &(reading + 1).to_string())]))
        }
        Remark::Placing(placing) => plain(match placing {
            Placing::Degrees120 => "placing-120",
            Placing::Degrees60 => "placing-60",
        }),
        Remark::StuckLine { line, high } => {
            let text = writer.wording.choice("remarks", "stuck-line");
            let (line, level) = ((line + 1).to_string(), if *high { "1" } else { "0" });
            Some(text::fill(text, &[("line", &line), ("level", level)]))
        }
        Remark::UsualZone(zone) => {
            Some(text::fill(writer.wording.choice("remarks", "usual-zone"), &[("zone", zone)]))
        }
        Remark::FitOfZone(fit) => Some(fit_text(writer, "fit-of-zone", fit)),
        Remark::FitAsMeasured(fit) => Some(fit_text(writer, "fit-as-measured", fit)),
        Remark::MeterAccuracyAssumed => plain("meter-accuracy"),
        Remark::ComparedToTenths => plain("compared-to-tenths"),
        // Said once, in the sentences of the ride.
        Remark::CheckLocalRules => None,
    }
}

/// How tight or loose a bearing sits on its seat.
fn fit_text(writer: &Writer<'_>, key: &str, fit: &Fit) -> String {
    let number = |value: Decimal| format::number(value.abs().normalize(), writer.wording);
    let (word, from, to) = match fit.kind() {
        FitKind::Interference => ("interference", fit.loosest, fit.tightest),
        FitKind::Clearance => ("clearance", fit.tightest, fit.loosest),
        FitKind::Transition => ("transition", fit.loosest, fit.tightest),
    };
    let fit = writer.wording.choice("fits", word);
    let fit = text::fill(fit, &[("from", &number(from)), ("to", &number(to))]);
    text::fill(writer.wording.choice("remarks", key), &[("fit", &fit)])
}
