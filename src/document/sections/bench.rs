//! Bench readings as dots on a line against their limit, each with its source and its verdict in words.

pub mod record;
mod remarks;
mod scale;
mod typed;

use rust_decimal::Decimal;

use crate::assessment::bench::check_result::{CheckResult, Figure, Stage};
use crate::assessment::bench::measure::Measure;
use crate::assessment::bench::verdict::{Limit, Origin, Reason, Verdict};
use crate::document::figure;
use crate::document::text;
use crate::document::view::assessed::{Bench, BenchRow, Dot};
use crate::document::wording::Wording;
use crate::document::writer::Writer;
use scale::Scale;

/// What an owner asks of the bench: readings before and after the work that have a limit, and those that are
/// not within theirs, are drawn; of the others the figures and their verdicts are said in a line. `None`
/// if there are none to print.
pub fn told(writer: &Writer<'_>) -> Option<Bench> {
    let Bench { heading, text, rows, .. } = bench(writer)?;
    let outside = writer.wording.choice("verdicts", "outside");
    let is_drawn =
        |row: &BenchRow| (row.before.is_some() && row.allowed.is_some()) || row.verdict == outside;
    let (rows, brief): (Vec<BenchRow>, Vec<BenchRow>) = rows.into_iter().partition(is_drawn);
    let text = if rows.is_empty() { String::new() } else { text };
    Some(Bench {
        heading,
        text,
        rows,
        also: brief.into_iter().map(|row| brief_text(row, writer.wording)).collect(),
    })
}

/// A reading in a line: what it is, the figures or what was typed, its verdict; of what no limit judges
/// also what is to be said beside it.
fn brief_text(row: BenchRow, wording: &Wording) -> String {
    let mut said: Vec<String> =
        [row.before, row.after].into_iter().flatten().map(|dot| dot.text).collect();
    if said.is_empty() {
        let typed = row.typed.first().map(|typed| typed.trim_end_matches('.'));
        said.extend(typed.map(|typed| match wording.grammar().lower_after_colon {
            true => text::uncapitalised(typed),
            false => typed.to_owned(),
        }));
    }
    said.extend([row.verdict].into_iter().filter(|verdict| !verdict.is_empty()));
    let colon = wording.grammar().colon();
    let after_label = if row.label.contains(colon) { ", " } else { colon };
    let line = format!("{}{after_label}{}", row.label, said.join(", "));
    match row.allowed {
        None if !row.remarks.is_empty() => format!("{line}. {}", row.remarks.join(" ")),
        _ => line,
    }
}

/// Every bench reading; `None` if there are none to print.
pub fn bench(writer: &Writer<'_>) -> Option<Bench> {
    let results = writer.material.assessment.bench.iter();
    // A torque that nothing judges or compares is listed with the work alone.
    let results = results.filter(|result| {
        result.measure != Measure::Torque || result.limit.is_some() || !result.remarks.is_empty()
    });
    // What was typed is at the first figure of its check.
    let mut last = None;
    let row = |result: &CheckResult| {
        let is_first = result.typed.is_none() || result.typed != last;
        last = result.typed;
        let row = bench_row(writer, result);
        if is_first { row } else { BenchRow { typed: Vec::new(), ..row } }
    };
    let rows: Vec<BenchRow> = results.map(row).collect();
    (!rows.is_empty()).then(|| Bench {
        heading: writer.wording.label("bench-heading").to_owned(),
        text: writer.wording.label("bench-text").to_owned(),
        rows,
        also: Vec::new(),
    })
}

/// One line of readings with its limit and verdict.
pub fn bench_row(writer: &Writer<'_>, line: &CheckResult) -> BenchRow {
    let is_setting = line.measure == Measure::Torque;
    let figure = |stage: &Option<Stage>| stage.as_ref()?.figure.clone().filter(|_| !is_setting);
    let (before, after) = (figure(&line.before), figure(&line.after));
    let figures: Vec<Decimal> =
        [&before, &after].into_iter().flatten().map(|one| one.value).collect();
    let bounds = line.limit.as_ref().map(|limit| limit.bounds);
    let scale = Scale::of(&figures, bounds);
    let typed = typed::typed(writer, line);
    let dot = |figure: Option<Figure>, key| {
        let figure = figure?;
        let text = format!(
            "{} {}",
            writer.wording.label(key),
            figure::printed(&figure, line.unit, writer.wording)
        );
        Some(Dot { at: scale.place(figure.value), text })
    };
    let (before, after) = (dot(before, "before"), dot(after, "after"));
    let last = line.after.as_ref().or(line.before.as_ref());
    // A setting that nothing judges has no verdict: no limit is missing there.
    let last = last.filter(|_| !is_setting || line.limit.is_some());
    let verdict = last.map_or_else(String::new, |stage| verdict(writer, &stage.verdict));
    let label = writer.wording.measure_of(line);
    let limit =
        line.limit.as_ref().map_or_else(String::new, |limit| limit_text(writer, limit, line));
    let dots = [&before, &after].into_iter().flatten().map(|dot| dot.text.as_str());
    let readings: Vec<&str> = dots.collect();
    let readings = [readings.join(", "), limit.clone()].into_iter().filter(|part| !part.is_empty());
    let alt = text::fill(
        writer.wording.label("bench-alt"),
        &[
            ("measure", &label),
            ("readings", &format!("{}.", readings.collect::<Vec<_>>().join("; "))),
        ],
    );
    BenchRow {
        alt: text::fill(&alt, &[("verdict", &text::capitalised(&verdict))]),
        label,
        drawn: before.is_some() || after.is_some(),
        before,
        after,
        allowed: bounds.map(|bounds| scale.allowed(bounds)),
        limit,
        verdict,
        remarks: remarks::remarks(writer, line),
        typed,
    }
}

fn limit_text(writer: &Writer<'_>, limit: &Limit, line: &CheckResult) -> String {
    let wording = writer.wording;
    let bounds = figure::bounds(limit.bounds, line.unit, wording);
    let source = match limit.origin {
        Origin::Published(source) => source.citation(),
        Origin::ShopModel => wording.choice("origins", "workshop-model"),
        Origin::Workshop => wording.choice("origins", "workshop"),
        Origin::Practice => wording.choice("origins", "common"),
    };
    let borrowed = if limit.borrowed {
        format!(" ({})", wording.choice("origins", "borrowed"))
    } else {
        String::new()
    };
    format!("{bounds} · {source}{borrowed}")
}

fn verdict(writer: &Writer<'_>, verdict: &Verdict) -> String {
    match verdict {
        Verdict::Within => writer.wording.choice("verdicts", "within").to_owned(),
        Verdict::Outside => writer.wording.choice("verdicts", "outside").to_owned(),
        Verdict::Undecided => writer.wording.choice("verdicts", "undecided").to_owned(),
        Verdict::NotDetermined(reason) => {
            writer.wording.choice("reasons", reason_key(reason)).to_owned()
        }
    }
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
