//! Days that only the arrival bounds: purchase, prices, guarantee, payment, parts that came back.
//!
//! In: a [`Sheet`]; out: problems. The days of the work itself, each after the one before, are checked
//! in `checks.rs`.

use crate::diagnostic::Problems;
use crate::sheet::charges::PartLine;
use crate::sheet::date::Date;
use crate::sheet::problems;
use crate::sheet::reader::Marked;
use crate::sheet::typed::Sheet;

/// A day with its words.
type Day<'a> = (&'static str, &'a Marked<Date>);

/// Checks each of them against the arrival.
pub(super) fn check(sheet: &Sheet, problems: &mut Problems) {
    let arrival = ("the arrival", &sheet.fields.arrival.date);
    for day in before_arrival(sheet) {
        in_order(sheet, day, arrival, problems);
    }
    for day in after_arrival(sheet) {
        in_order(sheet, arrival, day, problems);
    }
}

/// A unit may be bought second hand, so its first ride does not bound its purchase.
fn before_arrival(sheet: &Sheet) -> Vec<Day<'_>> {
    let fields = &sheet.fields;
    let guarantee = fields.billing.as_ref().and_then(|billing| billing.guarantee_of.as_ref());
    let bought = fields.unit.bought.as_ref().map(|date| ("the purchase", date));
    bought.into_iter().chain(guarantee.map(|date| ("the earlier repair", date))).collect()
}

fn after_arrival(sheet: &Sheet) -> Vec<Day<'_>> {
    let fields = &sheet.fields;
    let mut days = Vec::new();
    let reply_by = fields.arrival.reply_by.as_ref();
    days.extend(reply_by.map(|date| ("the day of the answer", date)));
    days.extend(fields.options_valid_to.as_ref().map(|date| ("the last day of the prices", date)));
    let offers = fields.options.iter().filter_map(|offer| offer.valid_to.as_ref());
    days.extend(offers.map(|date| ("the last day of this price", date)));
    let overrun = fields.decision.as_ref().and_then(|decision| decision.overrun.as_ref());
    days.extend(overrun.map(|overrun| ("the agreement", &overrun.agreed)));
    let parts: &[PartLine] = fields.work.as_ref().map_or(&[], |work| &work.parts);
    let returned = parts.iter().filter_map(|part| part.core_returned.as_ref());
    days.extend(returned.map(|date| ("the old part's return", date)));
    let paid = fields.billing.as_ref().and_then(|billing| billing.paid.as_ref());
    days.extend(paid.map(|date| ("the payment", date)));
    days
}

fn in_order(sheet: &Sheet, earlier: Day<'_>, later: Day<'_>, problems: &mut Problems) {
    let is_known = earlier.1.is_known() && later.1.is_known();
    if is_known && later.1.value < earlier.1.value {
        let (place, first) = (sheet.place(&later.1.span), sheet.place(&earlier.1.span));
        problems.push(problems::date_order(place, later.0, earlier.0, first));
    }
}
