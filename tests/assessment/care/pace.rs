//! Days and distances from a rider's pace.

use rust_decimal::Decimal;
use splitcase::assessment::care::input::CareInput;
use splitcase::assessment::care::pace::{NoPace, Pace};
use splitcase::sheet::findings::FindingsSheet;

use super::{booked, day, in_hundred_days, sheet};

fn pace(sheet: &FindingsSheet) -> Result<Pace, NoPace> {
    CareInput::of(sheet, &[]).pace
}

fn decimal(text: &str) -> Decimal {
    text.parse().unwrap()
}

#[test]
fn three_hundred_kilometres_at_eight_a_day_are_thirty_seven_days_and_so_five_weeks() {
    let pace = in_hundred_days(800);
    assert_eq!(pace.km_a_day(), Decimal::from(8));
    assert_eq!(pace.days_for(300.into()), Some(37));
    assert_eq!(pace.day_of(day("2026-03-11"), 300.into()), Some(day("2026-04-15")));
}

#[test]
fn under_a_week_days_are_counted_and_there_is_always_at_least_one() {
    let from = day("2026-03-11");
    assert_eq!(in_hundred_days(2000).day_of(from, 80.into()), Some(day("2026-03-15")));
    assert_eq!(in_hundred_days(15_000).day_of(from, 80.into()), Some(day("2026-03-12")));
    assert_eq!(in_hundred_days(1000).day_of(from, 70.into()), Some(day("2026-03-18")));
    assert_eq!(in_hundred_days(1000).day_of(from, 69.into()), Some(day("2026-03-17")));
}

#[test]
fn a_distance_that_divides_evenly_is_reached_on_its_day_and_not_before() {
    // A third of a kilometre a day has no finite decimal.
    let pace = Pace { km: 7.into(), days: 21 };
    assert_eq!(pace.days_for(14.into()), Some(42));
    assert_eq!(pace.days_for(decimal("13.999")), Some(41));
}

#[test]
fn miles_since_the_first_day_of_use_give_the_pace() {
    let pace = pace(&booked(", ridden: 1840 mi, in-use-since: 2023-04-01", "")).unwrap();
    // 1840 mi of 1.609344 km each, over 3 years less 30 days, one of them a leap year.
    assert_eq!(pace, Pace { km: decimal("2961.19296"), days: 1066 });
    assert_eq!(pace.km_a_day(), decimal("2.8"));
    assert_eq!(pace.days_for(80.into()), Some(28));
}

#[test]
fn the_first_sign_gives_a_second_point_where_the_first_day_is_missing() {
    let noticed = ", noticed: {date: 2025-12-20, sign: noise, at: 1410 mi}";
    let by_sign = pace(&booked(", ridden: 1840 mi", noticed)).unwrap();
    // 430 mi in 72 days.
    assert_eq!(by_sign, Pace { km: decimal("692.01792"), days: 72 });
    let both = pace(&booked(", ridden: 1840 mi, in-use-since: 2023-04-01", noticed)).unwrap();
    assert_eq!(both.days, 1066, "the longer time is the better pace");
    let until_then = pace(&booked(", in-use-since: 2025-03-05", noticed)).unwrap();
    assert_eq!(until_then, Pace { km: decimal("2269.17504"), days: 290 });
}

#[test]
fn one_dated_distance_or_an_undated_one_gives_no_pace() {
    let none = |unit: &str, arrival: &str| pace(&booked(unit, arrival)).unwrap_err();
    assert_eq!(none("", ""), NoPace::TooFewPoints);
    assert_eq!(none(", ridden: 1840 mi", ""), NoPace::TooFewPoints);
    assert_eq!(none(", in-use-since: 2023-04-01", ""), NoPace::TooFewPoints);
    let undated = ", noticed: {sign: noise, at: 1410 mi}";
    assert_eq!(none(", ridden: 1840 mi", undated), NoPace::TooFewPoints);
}

#[test]
fn a_sheet_that_contradicts_itself_gives_no_pace() {
    let since = |date: &str, ridden: &str| {
        pace(&booked(&format!(", ridden: {ridden}, in-use-since: {date}"), ""))
    };
    assert_eq!(since("2026-03-02", "400 km"), Err(NoPace::DaysOutOfOrder), "the same day");
    assert_eq!(since("2026-03-03", "400 km"), Err(NoPace::DaysOutOfOrder), "a day later");
    assert_eq!(since("2025-03-02", "0 km"), Err(NoPace::NotRidden));
    let less = ", noticed: {date: 2025-12-20, sign: noise, at: 1900 mi}";
    assert_eq!(pace(&booked(", ridden: 1840 mi", less)), Err(NoPace::NotRidden));
}

#[test]
fn above_a_hundred_and_fifty_kilometres_a_day_there_is_no_pace() {
    let between =
        |km: &str| Pace::between((day("2026-01-01"), 0.into()), (day("2026-01-31"), decimal(km)));
    assert_eq!(between("4500"), Ok(Pace { km: 4500.into(), days: 30 }));
    assert_eq!(between("4500.001"), Err(NoPace::Absurd));
    let huge = booked(", ridden: 999999999999999999999999 mi, in-use-since: 2023-04-01", "");
    assert_eq!(pace(&huge), Err(NoPace::Absurd));
}

#[test]
fn under_a_fortnight_there_is_no_pace() {
    let until = |date: &str| Pace::between((day("2026-02-16"), 0.into()), (day(date), 70.into()));
    assert_eq!(until("2026-03-01"), Err(NoPace::TooShort));
    assert_eq!(until("2026-03-02"), Ok(Pace { km: 70.into(), days: 14 }));
}

#[test]
fn a_pace_so_slow_that_no_calendar_holds_its_day_has_no_day() {
    let slow = Pace { km: decimal("0.0000000000000000000000001"), days: 14 };
    assert_eq!(slow.day_of(day("2026-03-11"), 300.into()), None);
}

#[test]
fn a_leap_day_counts_as_a_day() {
    let pace = |last: &str| {
        Pace::between((day("2024-02-14"), 0.into()), (day(last), 100.into())).map(|pace| pace.days)
    };
    assert_eq!(pace("2024-03-01"), Ok(16));
    assert_eq!(pace("2024-02-29"), Ok(15));
}

#[test]
fn days_count_from_the_return_and_from_the_arrival_where_none_is_known() {
    assert_eq!(CareInput::of(&booked("", ""), &[]).from, Some(day("2026-03-02")));
    let returned = sheet(
        "job: QB-1\ncustomer: {name: Elin Varga}\nunit: {kind: hub}\n\
         arrival: {date: 2026-03-02}\nreturned: 2026-03-11\n",
    );
    assert_eq!(CareInput::of(&returned, &[]).from, Some(day("2026-03-11")));
}
