//! The weighing of the cause for an assessor: every sign with where it comes from and what it counts.
//!
//! In: the weighing; out: one table a side, the points of every cause, and what was not examined.

#![allow(clippy::similar_names, reason = "a list and what it is made from")]

use crate::assessment::cause::evidence::{Derivation, Origin};
use crate::assessment::cause::scored_sign::{ScoredSign, SetAside};
use crate::assessment::cause::scores::{RootCause, Scale, weight};
use crate::diagnostic::Diagnostic;
use crate::document::format;
use crate::document::sections::cause;
use crate::document::sections::findings;
use crate::document::sections::record::parts;
use crate::document::sections::record::words::word;
use crate::document::text;
use crate::document::view::fact::Fact;
use crate::document::view::record::{Ledger, SignRecord};
use crate::document::writer::Writer;
use crate::sheet::catalogue::group::{PartGroup, SignPlace};
use crate::sheet::catalogue::sign::SignKind;
use crate::sheet::catalogue::{OTHER, PARTS, SIGNS, Sign};
use crate::sheet::vocabulary::Condition;

/// Score and weight of the signs that say most.
const MOST_SCORE: i32 = 2;
const MOST_WEIGHT: i32 = 3;

/// The weighing, sign by sign.
///
/// # Errors
/// A sentence whose template does not work, placed in its own file.
pub fn signs(writer: &Writer<'_>) -> Result<SignRecord, Diagnostic> {
    let stated = writer.fields().cause.as_ref().map(|cause| cause.main.value);
    let text = match cause::cause(writer)? {
        Some(view) => std::iter::once(view.heading)
            .map(|heading| text::ended(&heading))
            .chain(view.text)
            .collect(),
        None => vec![word(writer, "no-cause").to_owned()],
    };
    let fault = stated.and_then(RootCause::of);
    Ok(SignRecord {
        heading: word(writer, "cause").to_owned(),
        text,
        label: word(writer, "as-told").to_owned(),
        groups: groups(writer, fault),
        notes: notes(writer, fault),
    })
}

/// One table for each side that has signs.
fn groups(writer: &Writer<'_>, fault: Option<RootCause>) -> Vec<Ledger> {
    let weighing = &writer.material.assessment.weighing;
    let seen = |one: &&ScoredSign| one.seen;
    let absent: Vec<&ScoredSign> = weighing.signs.iter().filter(|one| !one.seen).collect();
    let sides = match fault {
        Some(fault) => {
            let (for_it, against) = weighing.for_and_against(fault);
            let beside = weighing.signs.iter().filter(|one| one.points.of(fault) == 0);
            vec![
                ("for", for_it.into_iter().filter(seen).collect()),
                ("against", against.into_iter().filter(seen).collect()),
                ("beside", beside.filter(seen).collect()),
                ("absent", absent),
            ]
        }
        None => vec![("seen", weighing.signs.iter().filter(seen).collect()), ("absent", absent)],
    };
    let tables = sides.into_iter().filter(|(_, signs): &(_, Vec<&ScoredSign>)| !signs.is_empty());
    tables.map(|(key, signs)| table(writer, key, &signs, fault)).collect()
}

fn table(
    writer: &Writer<'_>,
    key: &str,
    signs: &[&ScoredSign],
    fault: Option<RootCause>,
) -> Ledger {
    let wording = writer.wording;
    let subject = fault.map_or("", |fault| cause_name(writer, fault));
    let heading = text::fill(wording.choice("record", key), &[("cause", subject)]);
    let rows = signs.iter().map(|one| {
        let trade = text::capitalised(wording.sign(one.sign.name(), "trade"));
        vec![trade, shown_by(writer, one), counts(writer, one, fault)]
    });
    Ledger {
        heading,
        text: Vec::new(),
        columns: ["sign", "shown-by", "counts"].map(|key| word(writer, key).to_owned()).to_vec(),
        holds: vec!["wide", "words", "words"],
        rows: rows.collect(),
    }
}

fn cause_name<'a>(writer: &Writer<'a>, fault: RootCause) -> &'a str {
    writer.wording.choice("causes-as-subject", fault.kind().word())
}

/// A count of points with its sign.
fn signed(points: i32) -> String {
    match points {
        0 => "0".to_owned(),
        some if some < 0 => format!("\u{2212}{}", some.abs()),
        some => format!("+{some}"),
    }
}

/// What a sign gave to the stated cause, or to each cause; and why it gave less than its score.
fn counts(writer: &Writer<'_>, one: &ScoredSign, fault: Option<RootCause>) -> String {
    let why = |fault: RootCause| {
        let (taken, amount) = (one.used_points.of(fault), one.points.of(fault));
        if taken == amount {
            return None;
        }
        let key = one.set_aside.map_or("same-link", set_aside_word);
        Some(writer.wording.choice("set-aside", key))
    };
    let points = |fault: RootCause| {
        let (taken, amount) = (one.used_points.of(fault), one.points.of(fault));
        match taken == 0 && amount != 0 {
            true => text::fill(word(writer, "counts-nothing"), &[("amount", &signed(amount))]),
            false => signed(taken),
        }
    };
    match fault {
        Some(fault) => match why(fault) {
            Some(why) => format!("{}{}{why}", points(fault), writer.wording.grammar().colon()),
            None => points(fault),
        },
        None => {
            let faults = RootCause::ALL.into_iter().filter(|fault| one.points.of(*fault) != 0);
            let each = faults.map(|fault| {
                let values = [("cause", cause_name(writer, fault)), ("points", &points(fault))];
                text::fill(word(writer, "total"), &values)
            });
            let each: Vec<String> = each.collect();
            if each.is_empty() { signed(0) } else { each.join(", ") }
        }
    }
}

fn set_aside_word(why: SetAside) -> &'static str {
    match why {
        SetAside::TransportWater => "transport-water",
        SetAside::HistoryAlone => "history-alone",
        SetAside::Undated => "undated",
        SetAside::ClearsAnotherPlace => "clears-another-place",
        SetAside::LinkWasSeen => "link-was-seen",
        SetAside::BesideDamage => "beside-damage",
        SetAside::NotTheUnit => "not-the-unit",
        SetAside::WaterIsFresh => "water-is-fresh",
        SetAside::HeatExplained => "heat-explained",
    }
}

/// Everywhere that a sign comes from.
fn shown_by(writer: &Writer<'_>, one: &ScoredSign) -> String {
    let mut places: Vec<String> = Vec::new();
    for origin in &one.origins {
        let place = origin_words(writer, origin);
        if !places.contains(&place) {
            places.push(place);
        }
    }
    places.join("; ")
}

fn origin_words(writer: &Writer<'_>, origin: &Origin) -> String {
    let wording = writer.wording;
    let plain = |key| wording.choice("shown-by", key).to_owned();
    match origin {
        Origin::Finding { finding, .. } => {
            let photos = parts::photos_of(writer, *finding);
            let key = if photos.is_some() { "finding-photos" } else { "finding" };
            let photos = photos.unwrap_or_default();
            let number = (finding + 1).to_string();
            text::fill(&plain(key), &[("number", &number), ("photos", &photos)])
        }
        Origin::Arrival { .. } => {
            let photos = findings::numbers_of(writer, writer.fields().arrival.photos.iter());
            match photos {
                Some(photos) => text::fill(&plain("arrival-photos"), &[("photos", &photos)]),
                None => plain("arrival"),
            }
        }
        Origin::NotSeenList(_) => plain("looked-for"),
        Origin::Derived(Derivation::WaterPoured) => plain("water"),
        Origin::Derived(Derivation::WashedWithJet) => plain("washed"),
        Origin::Derived(Derivation::NoticedLongBefore(_)) => plain("noticed"),
        Origin::Bench(check) => {
            let measure = wording.choice("measures", check.word());
            text::fill(&plain("bench"), &[("measure", measure)])
        }
    }
}

/// The points of every cause, how they come about, and what was not examined.
fn notes(writer: &Writer<'_>, fault: Option<RootCause>) -> Vec<Fact> {
    let weighing = &writer.material.assessment.weighing;
    let fact = |key, value: String| Fact::plain(word(writer, key), value);
    let mut notes = Vec::new();
    if !weighing.signs.is_empty() {
        let totals = weighing.totals.iter().map(|(fault, points)| {
            let values = [("cause", cause_name(writer, fault)), ("points", &signed(points))];
            text::fill(word(writer, "total"), &values)
        });
        let totals = totals.collect::<Vec<_>>().join(", ");
        let house = weighing.house_values.then(|| word(writer, "points-house"));
        let how = [Some(word(writer, "points")), house].into_iter().flatten();
        let how = how.collect::<Vec<_>>().join(" ");
        notes.push(fact("totals", format!("{}. {how}", text::capitalised(&totals))));
    }
    let strip = writer.fields().strip_down.as_ref();
    let others = strip.iter().flat_map(|strip| strip.looked_for_absent.others());
    let others: Vec<String> = others.map(str::to_owned).collect();
    if !others.is_empty() {
        let own = word(writer, "in-own-words");
        let list = format::listed(&others, writer.wording);
        notes.push(fact("absent", format!("{} ({own})", text::capitalised(&list))));
    }
    let lost = strip.and_then(|strip| strip.evidence_lost.as_ref());
    notes.extend(lost.map(|lost| fact("lost", text::ended(&lost.0))));
    let skipped = writer.fields().findings().iter();
    let skipped = skipped.filter(|one| one.condition == Condition::NotExamined);
    let skipped: Vec<String> = skipped.map(|one| writer.wording.part_of(one).to_owned()).collect();
    if !skipped.is_empty() {
        let list = format::listed(&skipped, writer.wording);
        notes.push(fact("not-examined", text::ended(&text::capitalised(&list))));
    }
    if strip.is_some() {
        notes.extend(not_noted(writer, fault));
    }
    notes
}

/// The groups of parts that no finding examines, and the signs on them that would have weighed most.
fn not_noted(writer: &Writer<'_>, fault: Option<RootCause>) -> Vec<Fact> {
    let fact = |key, value: String| Fact::plain(word(writer, key), value);
    let groups = open_groups(writer);
    if groups.is_empty() {
        return Vec::new();
    }
    let names =
        groups.iter().map(|group| writer.wording.choice("part-groups", group.word()).to_owned());
    let list = format::listed(&names.collect::<Vec<_>>(), writer.wording);
    let mut notes = vec![fact("no-finding", text::ended(&text::capitalised(&list)))];
    let silent = fault.map_or_else(Vec::new, |fault| silent(writer, fault, &groups));
    if !silent.is_empty() {
        let list = text::capitalised(&silent.join("; "));
        let text = text::fill(word(writer, "not-noted-signs"), &[("list", &list)]);
        notes.push(fact("not-noted", text));
    }
    notes
}

/// Groups of parts that such a unit has, and of which no finding examines any; what is outside the
/// unit is not among them.
fn open_groups(writer: &Writer<'_>) -> Vec<PartGroup> {
    let kind = writer.fields().unit.kind;
    let findings = writer.fields().findings().iter();
    let examined = findings.filter(|one| one.condition != Condition::NotExamined);
    let examined: Vec<PartGroup> = examined.map(|one| one.part.group()).collect();
    let mut groups: Vec<PartGroup> = Vec::new();
    for row in PARTS.iter().filter(|row| row.part != OTHER && row.is_of(kind)) {
        let group = row.group;
        if group != PartGroup::OutsideTheUnit
            && !examined.contains(&group)
            && !groups.contains(&group)
        {
            groups.push(group);
        }
    }
    groups
}

/// Signs that would have weighed most for or against a cause and are on nothing but these groups:
/// in trade words, in the order of the table.
fn silent(writer: &Writer<'_>, fault: RootCause, groups: &[PartGroup]) -> Vec<String> {
    let (scale, most) = (Scale::default(), MOST_SCORE * MOST_WEIGHT);
    let silent = SIGNS.iter().map(Sign).filter(|sign| {
        let amount = scale.score(*sign, fault) * weight(*sign);
        let is_open =
            sign.0.on.iter().all(|on| matches!(on, SignPlace::On(group) if groups.contains(group)));
        amount.abs() == most && sign.0.kind != SignKind::Told && is_open
    });
    silent.map(|sign| writer.wording.sign(sign.name(), "trade").to_owned()).collect()
}
