//! Bench readings as dots on a line against their limit, each with its source and its verdict in words.

use rust_decimal::{Decimal, RoundingStrategy};

use super::Writer;
use super::bench_scale::Scale;
use crate::assessment::bench::line::{Figure, Line, Stage};
use crate::assessment::bench::measure::Measure;
use crate::assessment::bench::verdict::{Bounds, Limit, Origin, Reason, Side, Verdict};
use crate::document::format;
use crate::document::view::assessed::{Bench, BenchRow, Dot};

impl Writer<'_> {
    pub(super) fn bench(&self) -> Option<Bench> {
        let lines = self.material.assessment.bench.iter();
        // A torque that nothing judges or compares is listed with the work alone.
        let told = lines.filter(|line| {
            line.measure != Measure::Torque || line.limit.is_some() || !line.remarks.is_empty()
        });
        let mut rows = Vec::new();
        let mut last = None;
        for line in told {
            // What was typed stands at the first figure of its check.
            let is_first = line.typed.is_none() || line.typed != last;
            last = line.typed;
            let row = self.bench_row(line);
            rows.push(if is_first { row } else { BenchRow { typed: Vec::new(), ..row } });
        }
        (!rows.is_empty()).then(|| Bench {
            heading: self.wording.label("bench-heading").to_owned(),
            text: self.wording.label("bench-text").to_owned(),
            rows,
        })
    }

    pub(super) fn bench_row(&self, line: &Line) -> BenchRow {
        let is_setting = line.measure == Measure::Torque;
        let figure = |stage: &Option<Stage>| stage.as_ref()?.figure.clone().filter(|_| !is_setting);
        let (before, after) = (figure(&line.before), figure(&line.after));
        let figures: Vec<Decimal> =
            [&before, &after].into_iter().flatten().map(|one| one.value).collect();
        let bounds = line.limit.as_ref().map(|limit| limit.bounds);
        let scale = Scale::of(&figures, bounds);
        let typed = self.typed(line);
        let dot = |figure: Option<Figure>, key| {
            let figure = figure?;
            let text = format!("{} {}", self.wording.label(key), self.figure(&figure, line.unit));
            Some(Dot { at: scale.place(figure.value), text })
        };
        let (before, after) = (dot(before, "before"), dot(after, "after"));
        let last = line.after.as_ref().or(line.before.as_ref());
        // A setting that nothing judges has no verdict: no limit is missing there.
        let last = last.filter(|_| !is_setting || line.limit.is_some());
        let verdict = last.map_or_else(String::new, |stage| self.verdict(&stage.verdict));
        let label = self.wording.measure_of(line);
        let limit = line.limit.as_ref().map_or_else(String::new, |limit| self.limit(limit, line));
        let dots = [&before, &after].into_iter().flatten().map(|dot| dot.text.as_str());
        let readings: Vec<&str> = dots.collect();
        let readings =
            [readings.join(", "), limit.clone()].into_iter().filter(|part| !part.is_empty());
        let alt = self.wording.label("bench-alt").replace("{measure}", &label);
        let alt =
            alt.replace("{readings}", &format!("{}.", readings.collect::<Vec<_>>().join("; ")));
        BenchRow {
            alt: alt.replace("{verdict}", &format::capitalised(&verdict)),
            label,
            drawn: before.is_some() || after.is_some(),
            before,
            after,
            allowed: bounds.map(|bounds| scale.allowed(bounds)),
            limit,
            verdict,
            remarks: self.remarks(line),
            typed,
        }
    }

    /// A figure rounded for print, with its uncertainty and unit.
    pub(super) fn figure(&self, figure: &Figure, unit: &str) -> String {
        // An uncertainty is not rounded away: it keeps two places that count.
        let fine = |one: Decimal| {
            let first = one.normalize().to_string();
            let zeros = first.trim_start_matches("0.").chars().take_while(|c| *c == '0').count();
            if one < Decimal::ONE { zeros as u32 + 2 } else { 1 }
        };
        let of_uncertainty = figure.uncertainty.filter(|one| !one.is_zero()).map_or(0, fine);
        let own = figure.uncertainty.map_or(0, |one| one.normalize().scale());
        let places = figure.places.max(of_uncertainty.min(own));
        let rounded = |value: Decimal| {
            value.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero)
        };
        let number = format::number(rounded(figure.value), self.wording);
        let bound = match figure.side {
            None => "",
            Some(Side::AtMost) => "≤ ",
            Some(Side::AtLeast) => "≥ ",
        };
        let uncertainty = figure
            .uncertainty
            .filter(|one| !one.is_zero())
            .map(|one| format!(" ± {}", format::number(rounded(one), self.wording)));
        format!("{bound}{number}{}{}", uncertainty.unwrap_or_default(), with_space(unit))
    }

    fn limit(&self, limit: &Limit, line: &Line) -> String {
        let wording = self.wording;
        let edge = |edge: Decimal| {
            let rounded =
                edge.round_dp_with_strategy(3, RoundingStrategy::MidpointAwayFromZero).normalize();
            format!("{}{}", format::number(rounded, wording), with_space(line.unit))
        };
        let bounds = match limit.bounds {
            Bounds::AtMost(most) => wording.label("limit-most").replace("{limit}", &edge(most)),
            Bounds::AtLeast(least) => wording.label("limit-least").replace("{limit}", &edge(least)),
            Bounds::Between(least, most) => wording
                .label("limit-between")
                .replace("{least}", &edge(least))
                .replace("{most}", &edge(most)),
        };
        let source = match limit.origin {
            Origin::Published(source) => source.citation(),
            Origin::ShopModel => wording.choice("origins", "workshop-model"),
            Origin::Shop => wording.choice("origins", "workshop"),
            Origin::Practice => wording.choice("origins", "common"),
        };
        let borrowed = if limit.borrowed {
            format!(" ({})", wording.choice("origins", "borrowed"))
        } else {
            String::new()
        };
        format!("{bounds} · {source}{borrowed}")
    }

    fn verdict(&self, verdict: &Verdict) -> String {
        match verdict {
            Verdict::Within => self.wording.choice("verdicts", "within").to_owned(),
            Verdict::Outside => self.wording.choice("verdicts", "outside").to_owned(),
            Verdict::Undecided => self.wording.choice("verdicts", "undecided").to_owned(),
            Verdict::NotDetermined(reason) => {
                self.wording.choice("reasons", reason_key(reason)).to_owned()
            }
        }
    }
}

/// A unit after a number, tied to it.
pub(super) fn with_space(unit: &str) -> String {
    if unit.is_empty() { String::new() } else { format!("\u{202f}{unit}") }
}

fn reason_key(reason: &Reason) -> &'static str {
    match reason {
        Reason::NoLimit => "no-limit",
        Reason::MissingTemperature => "missing-temperature",
        Reason::MissingAmbient => "missing-ambient",
        Reason::MissingColdOrHot => "missing-cold-or-hot",
        Reason::ReadingCount { .. } => "reading-count",
        Reason::NotPositive | Reason::OutOfRange => "out-of-range",
        Reason::TemperatureOutsideRule => "outside-rule",
        Reason::BackgroundTooLoud | Reason::MissingBackground => "background",
        Reason::MissingBearing | Reason::UnknownBearing | Reason::NotInTable => "bearing",
        Reason::MissingZone | Reason::UnknownZone => "zone",
        Reason::MissingCells => "cells",
        Reason::OverRange => "over-range",
        Reason::BrakeSwitchesUnknown => "brake-switches",
        Reason::NotAState => "state",
    }
}
