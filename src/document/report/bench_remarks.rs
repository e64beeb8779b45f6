//! What is said beside a bench figure: a sentence for each remark of the assessment.

use rust_decimal::Decimal;

use super::Writer;
use crate::assessment::bench::fit::{Fit, FitKind};
use crate::assessment::bench::line::{Figure, Line};
use crate::assessment::bench::measure::Method;
use crate::assessment::bench::remark::Remark;
use crate::assessment::bench::verdict::Origin;
use crate::document::format;
use crate::sheet::vocabulary::Placing;

impl Writer<'_> {
    pub(super) fn remarks(&self, line: &Line) -> Vec<String> {
        let of_stages =
            [&line.before, &line.after].into_iter().flatten().flat_map(|stage| &stage.remarks);
        let mut texts: Vec<String> = Vec::new();
        for text in of_stages.chain(&line.remarks).filter_map(|remark| self.remark(remark)) {
            if !texts.contains(&text) {
                texts.push(text);
            }
        }
        texts.extend(line.method.as_ref().map(|method| self.method(method, line)));
        let at_least =
            line.change.filter(|change| change.at_least && change.amount < Decimal::ZERO);
        texts.extend(at_least.map(|change| {
            let amount = Figure::computed(change.amount.abs(), None, 1);
            let text = self.wording.choice("remarks", "lower-by-at-least");
            text.replace("{amount}", &self.figure(&amount, line.unit))
        }));
        texts
    }

    /// How a figure was computed, with the source that it follows.
    fn method(&self, method: &Method, line: &Line) -> String {
        let text = self.wording.choice("methods", method.rule);
        // A source that the limit names already is not named twice.
        let of_limit = line.limit.as_ref().map(|limit| limit.origin);
        match method.source.filter(|source| of_limit != Some(Origin::Published(*source))) {
            Some(source) => format!("{text} ({}).", source.citation()),
            None => format!("{text}."),
        }
    }

    fn remark(&self, remark: &Remark) -> Option<String> {
        let plain = |key| Some(self.wording.choice("remarks", key).to_owned());
        let listed = |key, states: &[u8]| {
            let states: Vec<String> = states.iter().map(|state| format!("{state:03b}")).collect();
            Some(self.wording.choice("remarks", key).replace("{list}", &states.join(", ")))
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
                let text = self.wording.choice("remarks", "steel-at-most");
                Some(text.replace("{most}", &format::number(*most, self.wording)))
            }
            Remark::DoNotCharge => plain("do-not-charge"),
            Remark::MissingStates(states) => listed("missing-states", states),
            Remark::InvalidStates(states) => listed("invalid-states", states),
            Remark::PackWindow { full, empty } => {
                let text = self.wording.choice("remarks", "pack-window");
                let text = text.replace("{full}", &format::number(full.normalize(), self.wording));
                Some(text.replace("{empty}", &format::number(empty.normalize(), self.wording)))
            }
            Remark::DeviatesMost { reading, low } => {
                let key = if *low { "deviates-low" } else { "deviates-high" };
                let text = self.wording.choice("remarks", key);
                Some(text.replace("{reading}", &(reading + 1).to_string()))
            }
            Remark::Placing(placing) => plain(match placing {
                Placing::Degrees120 => "placing-120",
                Placing::Degrees60 => "placing-60",
            }),
            Remark::StuckLine { line, high } => {
                let text = self.wording.choice("remarks", "stuck-line");
                let text = text.replace("{line}", &(line + 1).to_string());
                Some(text.replace("{level}", if *high { "1" } else { "0" }))
            }
            Remark::UsualZone(zone) => {
                Some(self.wording.choice("remarks", "usual-zone").replace("{zone}", zone))
            }
            Remark::FitOfZone(fit) => Some(self.fit("fit-of-zone", fit)),
            Remark::FitAsMeasured(fit) => Some(self.fit("fit-as-measured", fit)),
            Remark::MeterAccuracyAssumed => plain("meter-accuracy"),
            Remark::ComparedToTenths => plain("compared-to-tenths"),
            // Said once, in the sentences of the ride.
            Remark::CheckLocalRules => None,
        }
    }

    /// How tight or loose a bearing sits on its seat.
    fn fit(&self, key: &str, fit: &Fit) -> String {
        let number = |value: Decimal| format::number(value.abs().normalize(), self.wording);
        let (word, from, to) = match fit.kind() {
            FitKind::Interference => ("interference", fit.loosest, fit.tightest),
            FitKind::Clearance => ("clearance", fit.tightest, fit.loosest),
            FitKind::Transition => ("transition", fit.loosest, fit.tightest),
        };
        let fit = self.wording.choice("fits", word);
        let fit = fit.replace("{from}", &number(from)).replace("{to}", &number(to));
        self.wording.choice("remarks", key).replace("{fit}", &fit)
    }
}
