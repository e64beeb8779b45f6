//! Every reading for an assessor: as read, as computed, its uncertainty, limit, method, source.
//!
//! In: the bench lines and those of the ride, none left out; out: one record a figure.

use crate::assessment::bench::check_result::{CheckResult, Stage};
use crate::assessment::bench::measure::Measure;
use crate::document::figure;
use crate::document::format;
use crate::document::sections::bench::{limit_text, remarks, typed, verdict};
use crate::document::sections::record::words::word;
use crate::document::text;
use crate::document::view::fact::Fact;
use crate::document::view::record::{ReadingRecord, Readings};
use crate::document::writer::Writer;
use crate::sheet::bench::Reading;

/// When a reading of the test ride was taken, as the wordings name it.
const RIDE: &str = "on-the-ride";

/// Every reading; `None` if there are none.
pub fn readings(writer: &Writer<'_>) -> Option<Readings> {
    let assessment = writer.material.assessment;
    let bench = assessment.bench.iter().map(|line| record(writer, line, "after"));
    let ride = assessment.ride.iter().flat_map(|ride| &ride.lines);
    let ride = ride.map(|line| record(writer, line, RIDE));
    let records: Vec<ReadingRecord> = bench.chain(ride).collect();
    (!records.is_empty()).then(|| Readings {
        heading: word(writer, "readings").to_owned(),
        text: vec![word(writer, "readings-text").to_owned()],
        records,
    })
}

fn record(writer: &Writer<'_>, line: &CheckResult, last: &str) -> ReadingRecord {
    let columns = ["stage", "as-read", "comes-to", "uncertainty", "verdict"];
    let before = line.before.as_ref().map(|stage| row(writer, line, stage, "before"));
    let after = line.after.as_ref().map(|stage| row(writer, line, stage, last));
    ReadingRecord {
        label: text::capitalised(&writer.wording.measure_of(line)),
        columns: columns.map(|key| word(writer, key).to_owned()).to_vec(),
        rows: before.into_iter().chain(after).collect(),
        facts: facts(writer, line),
    }
}

fn row(writer: &Writer<'_>, line: &CheckResult, stage: &Stage, when: &str) -> Vec<String> {
    let plain = |key| word(writer, key).to_owned();
    let is_before = when == "before";
    let figure = stage.figure.as_ref();
    let computed = figure.map(|one| figure::printed(one, line.unit, writer.wording));
    let raw = match when {
        RIDE => of_ride(writer, line.measure),
        _ => typed::raw(writer, line, is_before),
    };
    let raw = raw.or_else(|| computed.clone());
    let uncertainty = figure.and_then(|one| one.uncertainty).filter(|one| !one.is_zero());
    let uncertainty = uncertainty.map(|one| {
        let number = format::number(one.normalize().round_dp(3), writer.wording);
        format!("± {number}{}", figure::with_space(line.unit))
    });
    vec![
        writer.wording.choice("record", when).to_owned(),
        raw.unwrap_or_else(|| plain("not-computed")),
        computed.unwrap_or_else(|| plain("not-computed")),
        uncertainty.unwrap_or_else(|| plain("uncertainty-not-noted")),
        text::capitalised(&verdict(writer, &stage.verdict)),
    ]
}

/// A reading of the test ride as typed.
fn of_ride(writer: &Writer<'_>, measure: Measure) -> Option<String> {
    let ride = writer.fields().ride.as_ref()?;
    let reading = match measure {
        Measure::CutOffSpeed => ride.cut_off.as_ref()?.0.clone(),
        Measure::RunOn => ride.run_on.as_ref()?.0.clone(),
        Measure::WalkSpeed => ride.walk_assist.as_ref()?.0.clone(),
        Measure::RideDistance => Reading::of(ride.distance.as_ref()?.0.clone()),
        _ => return None,
    };
    Some(typed::reading_text(writer, &reading))
}

/// Limit, method, circumstances, change and remarks of a line.
fn facts(writer: &Writer<'_>, line: &CheckResult) -> Vec<Fact> {
    let fact = |key, value: String| Fact::plain(word(writer, key), value);
    let limit = match &line.limit {
        Some(limit) => text::capitalised(&limit_text(writer, limit, line)),
        None => text::capitalised(word(writer, "limit-none")),
    };
    let method = line.method.as_ref().map(|method| remarks::method_text(writer, method, line));
    let mut remarks = remarks::remarks(writer, line);
    remarks.retain(|one| Some(one) != method.as_ref());
    let conditions = match line.measure {
        Measure::Torque => Vec::new(),
        _ => typed::circumstances(writer, line),
    };
    // How a torque was set is not noted; everything else is read off unless a rule carries it over.
    let is_set = line.measure == Measure::Torque;
    let read = || (!is_set).then(|| word(writer, "read-directly").to_owned());
    let mut facts = vec![fact("limit", limit)];
    facts.extend(method.or_else(read).map(|method| fact("method", method)));
    if !conditions.is_empty() {
        facts.push(fact("conditions", conditions.join(" ")));
    }
    facts.extend(line.change.map(|change| {
        let sign = if change.amount.is_sign_negative() { "" } else { "+" };
        let stages = [&line.before, &line.after].into_iter().flatten();
        let places = stages.filter_map(|stage| stage.figure.as_ref()).map(|one| one.places).max();
        let amount = change.amount.round_dp(places.unwrap_or_default());
        let number = format::number(amount, writer.wording);
        fact("change", format!("{sign}{number}{}", figure::with_space(line.unit)))
    }));
    if !remarks.is_empty() {
        facts.push(fact("remarks", remarks.join(" ")));
    }
    facts
}
