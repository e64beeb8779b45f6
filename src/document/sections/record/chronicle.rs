//! The time line: every dated step of the sheet with who did it, and the days on which photos were taken.

use chrono::NaiveDate;

use crate::document::format;
use crate::document::sections::record::words::word;
use crate::document::text;
use crate::document::view::record::Ledger;
use crate::document::writer::Writer;
use crate::sheet::date::Date;
use crate::sheet::handling::SentBy;
use crate::sheet::reader::Marked;
use crate::sheet::text::Text;

/// A step: its day, what was done, by whom.
struct Step {
    day: NaiveDate,
    what: String,
    who: Option<String>,
}

/// The time line, the earliest day first; of one day in the order in which a job goes.
pub fn chronicle(writer: &Writer<'_>) -> Ledger {
    let mut steps = Vec::new();
    steps.extend(before_arrival(writer));
    steps.extend(in_the_workshop(writer));
    steps.extend(photo_days(writer));
    steps.sort_by_key(|step| step.day);
    let rows = steps.into_iter().map(|step| {
        let who = step.who.unwrap_or_else(|| word(writer, "who-not-noted").to_owned());
        vec![format::day(step.day, writer.wording), step.what, who]
    });
    Ledger {
        heading: word(writer, "chronicle").to_owned(),
        text: vec![word(writer, "chronicle-text").to_owned()],
        columns: ["day", "what", "who"].map(|key| word(writer, key).to_owned()).to_vec(),
        holds: vec!["brief", "wide", "words"],
        rows: rows.collect(),
    }
}

fn form<'a>(writer: &Writer<'a>, key: &'a str) -> &'a str {
    writer.wording.choice("chronicle", key)
}

fn step(date: Option<&Marked<Date>>, what: &str, who: Option<String>) -> Option<Step> {
    Some(Step { day: date?.0, what: what.to_owned(), who })
}

#[allow(clippy::unnecessary_wraps, reason = "one of the ways to say who")]
fn owner(writer: &Writer<'_>) -> Option<String> {
    Some(writer.wording.choice("who", "owner").to_owned())
}

#[allow(clippy::unnecessary_wraps, reason = "one of the ways to say who")]
fn workshop(writer: &Writer<'_>) -> Option<String> {
    Some(writer.wording.choice("who", "workshop").to_owned())
}

fn named(by: Option<&Text>) -> Option<String> {
    by.map(|by| by.0.clone())
}

fn before_arrival(writer: &Writer<'_>) -> Vec<Step> {
    let (fields, wording) = (writer.fields(), writer.wording);
    let units = writer.units();
    let unit = &fields.unit;
    let noticed = fields.arrival.first_noticed.as_ref().and_then(|noticed| {
        let sign = wording.choice("noticed-signs", noticed.sign.word());
        let at = noticed.at.as_ref().map(|way| format::distance(&way.0, units, wording));
        let key = if at.is_some() { "noticed-at" } else { "noticed" };
        let distance = at.unwrap_or_default();
        let what = text::fill(form(writer, key), &[("sign", sign), ("distance", &distance)]);
        step(noticed.date.as_ref(), &what, owner(writer))
    });
    let billing = fields.billing.as_ref();
    let earlier = billing.and_then(|billing| {
        let job = billing.earlier_job.as_ref().map(|job| job.0.as_str());
        let key = if job.is_some() { "earlier-repair" } else { "earlier-repair-unnamed" };
        let what = text::fill(form(writer, key), &[("job", job.unwrap_or_default())]);
        step(billing.guarantee_of.as_ref(), &what, workshop(writer))
    });
    let steps = [
        step(unit.bought.as_ref(), form(writer, "bought"), owner(writer)),
        step(unit.in_use_since.as_ref(), form(writer, "in-use"), owner(writer)),
        noticed,
        earlier,
    ];
    steps.into_iter().flatten().collect()
}

fn in_the_workshop(writer: &Writer<'_>) -> Vec<Step> {
    let (fields, wording) = (writer.fields(), writer.wording);
    let arrival = &fields.arrival;
    let sender = named(arrival.sender.as_ref()).or_else(|| match arrival.sent_by? {
        SentBy::Owner => owner(writer),
        sent_by @ SentBy::Dealer => Some(wording.noted_word("sender", sent_by.word()).to_owned()),
    });
    let arrived = step(Some(&arrival.date), form(writer, "arrived"), sender);
    let opened = fields.strip_down.as_ref().and_then(|strip| {
        step(Some(&strip.date), form(writer, "opened"), named(strip.by.as_ref()))
    });
    let finished = fields.work.as_ref().and_then(|work| {
        step(work.date.as_ref(), form(writer, "finished"), named(work.by.as_ref()))
    });
    let units = writer.units();
    let ridden = fields.ride.as_ref().and_then(|ride| {
        let way = ride.distance.as_ref().map(|way| format::distance(&way.0, units, wording));
        let key = if way.is_some() { "ridden-way" } else { "ridden" };
        let what = text::fill(form(writer, key), &[("distance", &way.unwrap_or_default())]);
        step(ride.date.as_ref(), &what, None)
    });
    let paid = fields.billing.as_ref().and_then(|billing| {
        let how = billing.paid_by.as_ref().map(|how| how.0.as_str());
        let key = if how.is_some() { "paid-by" } else { "paid" };
        let what = text::fill(form(writer, key), &[("how", how.unwrap_or_default())]);
        step(billing.paid.as_ref(), &what, owner(writer))
    });
    let returned = step(fields.returned.as_ref(), form(writer, "returned"), workshop(writer));
    let parts = fields.work.iter().flat_map(|work| &work.parts);
    let given_back = parts.filter_map(|part| {
        let what = text::fill(form(writer, "core-returned"), &[("part", &part.what.0)]);
        step(part.core_returned.as_ref(), &what, owner(writer))
    });
    let steps = [arrived, opened].into_iter().chain(decisions(writer));
    let steps = steps.chain([finished, ridden, paid, returned]).flatten();
    steps.chain(given_back).collect()
}

/// The owner's choice, and what was agreed beyond its price.
fn decisions(writer: &Writer<'_>) -> [Option<Step>; 2] {
    let wording = writer.wording;
    let Some(decision) = &writer.fields().decision else { return [None, None] };
    let money = |amount| format::money(amount, writer.material.workshop.fields.currency, wording);
    let via = decision.via.map(|via| wording.choice("answered-by", via.word()));
    let key = if via.is_some() { "decided-via" } else { "decided" };
    let option = wording.choice("option-kinds", decision.option.word());
    let what =
        text::fill(form(writer, key), &[("option", option), ("via", via.unwrap_or_default())]);
    let what = match &decision.deposit {
        Some(deposit) => text::fill(
            form(writer, "deposit"),
            &[("decided", &what), ("amount", &money(deposit.value.amount))],
        ),
        None => what,
    };
    let overrun = decision.overrun.as_ref().and_then(|overrun| {
        let most = overrun.up_to.as_ref().map(|most| money(most.value.amount));
        let key = if most.is_some() { "overrun-to" } else { "overrun" };
        let agreed = text::fill(form(writer, key), &[("amount", &most.unwrap_or_default())]);
        let agreed = match overrun.via {
            Some(via) => {
                let via = wording.choice("answered-by", via.word());
                text::fill(form(writer, "overrun-via"), &[("agreed", &agreed), ("via", via)])
            }
            None => agreed,
        };
        step(Some(&overrun.agreed), &agreed, owner(writer))
    });
    [step(decision.date.as_ref(), &what, owner(writer)), overrun]
}

/// The days on which photos were taken, by the cameras' clocks.
fn photo_days(writer: &Writer<'_>) -> Vec<Step> {
    let mut days: Vec<(NaiveDate, Vec<String>, Vec<String>)> = Vec::new();
    for (number, named) in (1_usize..).zip(writer.material.photos) {
        let facts = &named.photo.facts;
        let Some(day) = facts.taken.map(|taken| taken.local.date()) else { continue };
        let at = days.iter().position(|(known, ..)| *known == day).unwrap_or_else(|| {
            days.push((day, Vec::new(), Vec::new()));
            days.len() - 1
        });
        let (_, numbers, cameras) = &mut days[at];
        numbers.push(number.to_string());
        cameras.extend(
            facts.camera.iter().filter(|own| !cameras.contains(own)).cloned().collect::<Vec<_>>(),
        );
    }
    let step = |(day, numbers, cameras): (NaiveDate, Vec<String>, Vec<String>)| {
        let key = if numbers.len() == 1 { "photo" } else { "photos" };
        let what = text::fill(form(writer, key), &[("numbers", &numbers.join(", "))]);
        let who = (!cameras.is_empty()).then(|| format::listed(&cameras, writer.wording));
        Step { day, what, who }
    };
    days.into_iter().map(step).collect()
}
