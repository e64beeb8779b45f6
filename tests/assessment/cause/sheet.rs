//! From a sheet: derived signs, origins, claims without a photo or a reading.

use chrono::NaiveDate;
use splitcase::assessment::cause::continued_use::ContinuedUse;
use splitcase::assessment::cause::evidence::{Derivation, Evidence, Noticing, Origin};
use splitcase::assessment::cause::scores::RootCause;
use splitcase::assessment::cause::stated::Agreement;
use splitcase::assessment::cause::verdict::Support;
use splitcase::assessment::cause::weigh;
use splitcase::diagnostic::Problems;
use splitcase::sheet::catalogue::Sign;
use splitcase::sheet::findings::FindingsSheet;
use splitcase::sheet::signs::SignEntry;
use splitcase::sheet::text::Text;
use splitcase::sheet::vocabulary::{CauseKind, CheckKind};
use splitcase::sheet::{read, read_profile};

use super::{day, points, says, sign};

pub fn sheet(text: &str) -> FindingsSheet {
    let mut problems = Problems::default();
    let profile = "name: Quarrow Drive Bench\ncurrency: GBP\n";
    let workshop = read_profile("workshop.yaml", profile.as_bytes(), &mut problems).unwrap();
    let sheet = read("findings.yaml", text.as_bytes(), &workshop, &mut problems).unwrap();
    assert!(!problems.has_errors(), "{:?}", problems.into_sorted());
    sheet.fields
}

fn booked(unit: &str, arrival: &str) -> FindingsSheet {
    sheet(&format!(
        "job: QB-1\ncustomer: {{name: Elin Varga}}\nunit: {{kind: mid-drive{unit}}}\n\
         arrival: {{date: 2026-03-02{arrival}}}\n"
    ))
}

fn derivations(sheet: &FindingsSheet) -> Vec<(&'static str, Derivation)> {
    let derived = |(sign, origin): (Sign, Origin)| match origin {
        Origin::Derived(how) => Some((sign.0.r#ref.as_str(), how)),
        _ => None,
    };
    Evidence::gather(sheet, Vec::new()).seen.into_iter().filter_map(derived).collect()
}

#[test]
fn typed_fields_carry_signs_and_silence_none() {
    assert_eq!(derivations(&booked("", "")), []);
    assert_eq!(derivations(&booked(", washed-with: garden-hose", ", water: 0 ml")), []);
    let told = booked(
        ", washed-with: pressure-washer",
        ", water: 40 ml, first-noticed: {date: 2025-12-20, sign: noise}",
    );
    let expected = [
        ("SA01", Derivation::WaterPoured),
        ("SA14", Derivation::WashedWithJet),
        ("SA15", Derivation::NoticedLongBefore(day())),
    ];
    assert_eq!(derivations(&told), expected);
}

#[test]
fn a_sign_at_arrival_is_shown_where_the_arrival_has_photos() {
    let has_photo = |photos: &str| {
        let sheet = booked("", &format!(", signs: [water-poured-out]{photos}"));
        let seen = Evidence::gather(&sheet, Vec::new()).seen;
        let of = seen.into_iter().find_map(|(_, origin)| match origin {
            Origin::Arrival { has_photo, .. } => Some(has_photo),
            _ => None,
        });
        of.unwrap()
    };
    assert!(!has_photo(""));
    assert!(has_photo(", photos: [water.jpg]"));
}

#[test]
fn a_history_is_long_after_two_calendar_months() {
    let noticed = |what: &str| derivations(&booked("", &format!(", first-noticed: {what}"))).len();
    assert_eq!(noticed("{date: 2026-01-02, sign: noise}"), 0, "two months to the day");
    assert_eq!(noticed("{date: 2026-01-01, sign: noise}"), 1);
    assert_eq!(noticed("{date: 2026-01-01, sign: play}"), 1);
    assert_eq!(noticed("{sign: noise}"), 0, "no date");
    assert_eq!(noticed("{date: 2025-06-01, sign: error-code}"), 0, "no noise");
}

const WASHED: &str = "\
job: QB-2
customer: {name: Elin Varga}
unit: {kind: mid-drive, washed-with: pressure-washer}
arrival: {date: 2026-03-02, water: 40 ml, first-noticed: {date: 2025-12-20, sign: noise}}
strip-down:
  date: 2026-03-04
  findings:
    - part: main-bearing-drive-side
      condition: failed
      signs: [moisture-corrosion, races-worn-deep]
      photos: [a.jpg]
    - {part: main-bearing-non-drive-side, condition: damaged, signs: [moisture-corrosion]}
    - {part: crank-seal-drive-side, condition: damaged, signs: [rust-trail-inward]}
  looked-for-absent: [tamper-marks, board-corrosion]
cause: {main: ingress, contributing: [neglect]}
";

#[test]
fn a_washed_unit_is_weighed_from_its_sheet() {
    let weighing = weigh(&sheet(WASHED), Vec::new(), &[]);
    let expected = (Support::WellSupported, CauseKind::Ingress, vec![RootCause::Neglect]);
    assert_eq!(says(&weighing), expected);
    // Water 6, reported washing 2, rust 6, worn races 3, trail 6, and a dry board nothing, since the
    // water that poured out is fresh; worn races speak for mechanics first, 6, against 9 by water,
    // rust and trail.
    assert_eq!(points(&weighing), [23, 9, -3, -3]);
    assert_eq!(weighing.continued_use, ContinuedUse::Dated(day()));
    let stated = weighing.stated.as_ref().unwrap();
    assert_eq!(stated.agreement, Agreement::Supported);
    assert!(!stated.neglect_undated && stated.contributing_not_carried.is_empty());
    let rust = weighing.signs.iter().find(|one| one.sign == sign("SC01")).unwrap();
    assert_eq!(rust.origins.len(), 2);
}

#[test]
fn a_claim_on_words_alone_is_found_where_it_stands() {
    // The trail has no photo; the rust has one on another finding, the water was measured.
    let weighing = weigh(&sheet(WASHED), Vec::new(), &[]);
    let [one] = &weighing.unproven[..] else { panic!("{:?}", weighing.unproven) };
    assert_eq!(one.sign, sign("SB10"));
    assert_eq!(&WASHED[one.span.clone()], "rust-trail-inward");
}

#[test]
fn a_measured_sign_is_proved_by_a_reading() {
    let claim = "job: QB-3\ncustomer: {name: Elin Varga}\nunit: {kind: mid-drive}\n\
        arrival: {date: 2026-03-02}\nstrip-down:\n  date: 2026-03-04\n  findings:\n    \
        - {part: crank-axle, condition: worn, signs: [play-above-reference]}\n";
    assert_eq!(weigh(&sheet(claim), Vec::new(), &[]).unproven.len(), 1);
    let read = format!("{claim}bench: [{{check: crank-radial-play, before: 0.8 mm}}]\n");
    assert_eq!(weigh(&sheet(&read), Vec::new(), &[]).unproven, []);
}

#[test]
fn signs_of_the_bench_join_those_of_the_sheet() {
    let extra = vec![(sign("SE04"), Origin::Bench(CheckKind::InsulationResistance))];
    let weighing = weigh(&booked("", ""), extra, &[]);
    assert_eq!(says(&weighing), (Support::PointsTo, CauseKind::Ingress, vec![]));
}

#[test]
fn a_rider_who_came_within_days_is_known_as_prompt() {
    let noticing = |unit: &str, noticed: &str| {
        let arrival = format!(", first-noticed: {noticed}");
        weigh(&booked(unit, &arrival), Vec::new(), &[]).noticing
    };
    let on = |month: u32, day: u32| NaiveDate::from_ymd_opt(2026, month, day).unwrap();
    let far = ", mileage: 3000 km";
    // Two weeks and less than 100 km: common practice, no source.
    let prompt = Noticing::Promptly(on(2, 16));
    assert_eq!(noticing("", "{date: 2026-02-16, sign: noise}"), prompt);
    assert_eq!(noticing("", "{date: 2026-02-16, sign: error-code}"), prompt);
    assert_eq!(noticing(far, "{date: 2026-02-16, sign: noise, at: 2901 km}"), prompt);
    let later = Noticing::Later(on(2, 16));
    assert_eq!(noticing(far, "{date: 2026-02-16, sign: noise, at: 2900 km}"), later);
    assert_eq!(noticing("", "{date: 2026-02-15, sign: noise}"), Noticing::Later(on(2, 15)));
    let long = Noticing::LongBefore(on(2, 16));
    assert_eq!(noticing(far, "{date: 2026-02-16, sign: noise, at: 2600 km}"), long);
    assert_eq!(noticing("", "{sign: noise}"), Noticing::Unknown);
}

#[test]
fn a_prompt_rider_is_never_blamed_whatever_is_ticked() {
    let text = WASHED.replace(
        "first-noticed: {date: 2025-12-20, sign: noise}",
        "first-noticed: {date: 2026-02-26, sign: noise}, signs: [long-noise-history]",
    );
    let weighing = weigh(&sheet(&text), Vec::new(), &[]);
    assert!(weighing.is_prompt());
    assert_eq!(weighing.continued_use, ContinuedUse::Undated);
    assert_eq!(says(&weighing), (Support::WellSupported, CauseKind::Ingress, vec![]));
    let stated = weighing.stated.unwrap();
    assert!(stated.neglect_prompt && !stated.neglect_undated);
}

#[test]
fn signs_in_words_of_ones_own_keep_their_place_and_are_never_weighed() {
    let text = WASHED.replace(
        "signs: [moisture-corrosion, races-worn-deep]",
        "signs: [{other: \"a dead wasp, cage and all\"}, moisture-corrosion, races-worn-deep]",
    );
    let fields = sheet(&text);
    let signs = &fields.strip_down.as_ref().unwrap().findings[0].signs;
    let entries: Vec<&SignEntry> = signs.entries().iter().map(|entry| &entry.value).collect();
    assert_eq!(entries[0], &SignEntry::Other(Text("a dead wasp, cage and all".into())));
    assert_eq!(entries[1], &SignEntry::Known(sign("SC01")));
    assert_eq!(signs.others().collect::<Vec<_>>(), ["a dead wasp, cage and all"]);
    assert_eq!(signs.len(), 2, "known ones");
    let with = weigh(&fields, Vec::new(), &[]);
    assert_eq!(with.totals, weigh(&sheet(WASHED), Vec::new(), &[]).totals);
}
