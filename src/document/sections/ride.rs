//! The test ride: sentences, the recorded ride as a curve, readings against the rules of the place.

use crate::document::sections::bench;
use rust_decimal::Decimal;

use crate::assessment::bench::check_result::CheckResult;
use crate::assessment::bench::verdict::Bounds;
use crate::assessment::ride::{CurvePoint, Ride, rule};
use crate::diagnostic::Diagnostic;
use crate::document::clauses::Slot;
use crate::document::format;
use crate::document::text;
use crate::document::view::assessed::{BenchRow, Curve, RideView, Tick};
use crate::document::writer::{Writer, joined};
use crate::sheet::profile::Units;

/// Most marks on the axis of the way, and on that of the speed.
const MOST_TICKS: (usize, usize) = (7, 5);
/// Part of the drawing's height that the ground may fill.
const GROUND: f64 = 0.38;

/// The test ride; `None` if there was none.
///
/// # Errors
/// A sentence whose template does not work, placed in its own file.
pub fn ride(writer: &Writer<'_>) -> Result<Option<RideView>, Diagnostic> {
    let Some(judged) = &writer.material.assessment.ride else { return Ok(None) };
    let note = writer.fields().ride.as_ref().and_then(|ride| ride.note.as_ref());
    let said = writer.said(Slot::Ride)?;
    let note = writer.note_beside(|short| &short.rides, note).unwrap_or_default();
    let text = joined(&note, &said);
    let curve = judged
        .recorded
        .as_ref()
        .and_then(|track| curve(writer, track, judged.limit.map(|limit| limit.kmh), &text));
    // What is within its limit is told in the sentences.
    let within = writer.wording.choice("verdicts", "within");
    let rows = readings(writer).into_iter().filter(|row| row.verdict != within).collect();
    Ok(Some(RideView { heading: writer.said(Slot::RideHeading)?, text: vec![text], curve, rows }))
}

/// Every reading of the ride that has a limit; one without is told in the sentences alone.
pub fn readings(writer: &Writer<'_>) -> Vec<BenchRow> {
    let units = writer.units();
    let results = writer.material.assessment.ride.iter().flat_map(|ride| &ride.lines);
    let results = results.filter(|result| result.limit.is_some());
    results.map(|result| bench::bench_row(writer, &in_units(result, units))).collect()
}

/// Both ends are clipped already; without speeds there is nothing to draw.
fn curve(writer: &Writer<'_>, track: &Ride, limit: Option<f64>, alt: &str) -> Option<Curve> {
    let units = writer.units();
    let (way, way_symbol, speed, speed_symbol) = format::long_unit(units);
    let points = &track.curve;
    let (first, last) = (points.first()?.distance_m, points.last()?.distance_m);
    let fastest = points.iter().filter_map(|point| point.speed_kmh).fold(0.0, f64::max);
    let top = fastest.max(limit.unwrap_or_default()) * 1.08;
    if fastest <= 0.0 || last <= first {
        return None;
    }
    let across = |metres: f64| rounded((metres - first) / (last - first));
    let up = |kmh: f64| rounded(kmh / top);
    let tick = |at: f64, value: f64, symbol: &str| Tick {
        at,
        text: format!("{}\u{202f}{symbol}", plain(value, writer.wording)),
    };
    let along = steps(first / way, last / way, MOST_TICKS.0);
    let height = steps(0.0, top / speed, MOST_TICKS.1);
    let limit_text = |kmh| {
        let words = writer.wording.label("ride-limit");
        text::fill(words, &[("speed", &format::kmh(kmh, units, writer.wording))])
    };
    let ground = ground(points, &across);
    let caption = if ground.is_empty() { "ride-caption" } else { "ride-caption-ground" };
    let highest = points.iter().filter_map(|point| point.height_m).fold(0.0, f64::max);
    let clipped = format::height(rule::CLIP.value, units, writer.wording);
    let caption = text::fill(writer.wording.label(caption), &[("clipped", &clipped)]);
    Some(Curve {
        speed: stretches(points, &across, &up),
        ground,
        limit: limit.map(|kmh| Tick { at: up(kmh), text: limit_text(kmh) }),
        way: along.into_iter().map(|at| tick(across(at * way), at, way_symbol)).collect(),
        height: height.into_iter().map(|at| tick(up(at * speed), at, speed_symbol)).collect(),
        caption: text::fill(
            &caption,
            &[("height", &format::height(highest, units, writer.wording))],
        ),
        alt: text::fill(writer.wording.label("ride-alt"), &[("text", alt)]),
    })
}

/// A line of the ride in the paper's units; short ways stay in metres.
fn in_units(line: &CheckResult, units: Units) -> CheckResult {
    let symbol = match (units, line.unit) {
        (Units::Imperial, "km/h") => "mph",
        (Units::Imperial, "km") => "mi",
        _ => return line.clone(),
    };
    let mile = Decimal::new(1_609_344, 6);
    let scaled = |value: Decimal| value.checked_div(mile).unwrap_or_default();
    let mut line = CheckResult { unit: symbol, ..line.clone() };
    if let Some(limit) = &mut line.limit {
        limit.bounds = match limit.bounds {
            Bounds::AtMost(most) => Bounds::AtMost(scaled(most)),
            Bounds::AtLeast(least) => Bounds::AtLeast(scaled(least)),
            Bounds::Between(least, most) => Bounds::Between(scaled(least), scaled(most)),
        };
    }
    for figure in [&mut line.before, &mut line.after]
        .into_iter()
        .flatten()
        .filter_map(|stage| stage.figure.as_mut())
    {
        figure.places += 1;
        figure.value = scaled(figure.value);
        figure.uncertainty = figure.uncertainty.map(scaled);
    }
    line
}

/// Four places are finer than print.
fn rounded(share: f64) -> f64 {
    (share.clamp(0.0, 1.0) * 10_000.0).round() / 10_000.0
}

fn plain(value: f64, wording: &crate::document::wording::Wording) -> String {
    let tenths = Decimal::new((value * 10.0).round() as i64, 1).normalize();
    format::number(tenths, wording)
}

/// Round values from one edge to the other: steps of 1, 2 or 5 times a power of ten.
fn steps(from: f64, to: f64, most: usize) -> Vec<f64> {
    let widths = (-1..5).flat_map(|power| [1.0, 2.0, 5.0].map(|step| step * 10_f64.powi(power)));
    let count = |width: f64| (to / width).floor() - (from / width).ceil() + 1.0;
    let Some(width) = widths.into_iter().find(|width| count(*width) <= most as f64) else {
        return Vec::new();
    };
    let first = (from / width).ceil() as i64;
    let last = (to / width).floor() as i64;
    (first..=last).map(|step| step as f64 * width).collect()
}

/// The speed, broken if it is not known.
fn stretches(
    points: &[CurvePoint],
    across: &dyn Fn(f64) -> f64,
    up: &dyn Fn(f64) -> f64,
) -> Vec<Vec<(f64, f64)>> {
    let mut stretches = vec![Vec::new()];
    for point in points {
        match (point.speed_kmh, stretches.last_mut()) {
            (Some(speed), Some(stretch)) => stretch.push((across(point.distance_m), up(speed))),
            _ => stretches.push(Vec::new()),
        }
    }
    stretches.retain(|stretch| 1 < stretch.len());
    stretches
}

/// The ground in its own measure; empty if it is flat or a height is missing.
fn ground(points: &[CurvePoint], across: &dyn Fn(f64) -> f64) -> Vec<(f64, f64)> {
    let heights: Option<Vec<f64>> = points.iter().map(|point| point.height_m).collect();
    let Some(heights) = heights else { return Vec::new() };
    let highest = heights.iter().copied().fold(0.0, f64::max);
    if highest < 1.0 {
        return Vec::new();
    }
    let place = |(point, height): (&CurvePoint, f64)| {
        (across(point.distance_m), rounded(height / highest * GROUND + 0.02))
    };
    points.iter().zip(heights).map(place).collect()
}
