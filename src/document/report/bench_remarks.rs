//! What is said beside a bench figure: a sentence for each remark of the assessment.

use rust_decimal::Decimal;

use super::Writer;
use crate::assessment::bench::fit::Fit;
use crate::assessment::bench::hall::Placing;
use crate::assessment::bench::line::Line;
use crate::assessment::bench::remark::Remark;
use crate::document::format;

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
        texts
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
            Remark::FrictionAssumed => plain("friction-assumed"),
            Remark::SteelUpperBound => plain("steel-upper-bound"),
            Remark::DoNotCharge => plain("do-not-charge"),
            Remark::MissingStates(states) => listed("missing-states", states),
            Remark::InvalidStates(states) => listed("invalid-states", states),
            Remark::PackWindow { full, empty } => {
                let text = self.wording.choice("remarks", "pack-window");
                let text = text.replace("{full}", &format::number(*full, self.wording));
                Some(text.replace("{empty}", &format::number(*empty, self.wording)))
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
            // Said once, in the sentences of the ride.
            Remark::CheckLocalRules => None,
        }
    }

    /// How tight or loose a bearing sits on its seat.
    fn fit(&self, key: &str, fit: &Fit) -> String {
        let number = |value: Decimal| format::number(value.abs().normalize(), self.wording);
        let zero = Decimal::ZERO;
        let (word, from, to) = if fit.loosest >= zero {
            ("interference", fit.loosest, fit.tightest)
        } else if fit.tightest <= zero {
            ("clearance", fit.tightest, fit.loosest)
        } else {
            ("transition", fit.loosest, fit.tightest)
        };
        let fit = self.wording.choice("fits", word);
        let fit = fit.replace("{from}", &number(from)).replace("{to}", &number(to));
        self.wording.choice("remarks", key).replace("{fit}", &fit)
    }
}
