//! Plausibility of photos: each doubt appears, and stays away just inside its limit.

use chrono::{FixedOffset, NaiveDate, TimeDelta};
use image::{Rgb, RgbImage};
use splitcase::assessment::plausibility::{ClockDoubt, Doubt, Seen, Shared, Side, judge, shared};
use splitcase::digest::Digest;
use splitcase::photo::{
    EditSign, Edited, Fingerprint, Photo, PixelBudget, PrintSize, Quality, Taken, prepare,
};

const ARRIVAL: (i32, u32, u32) = (2026, 3, 2);
const RETURNED: (i32, u32, u32) = (2026, 3, 11);

/// Seconds of a day.
const DAY: i64 = 86_400;

fn day((year, month, day): (i32, u32, u32)) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).expect("on the calendar")
}

/// A time at noon, plus seconds; the zone in hours where the camera recorded it.
fn at(date: (i32, u32, u32), seconds: i64, zone: Option<i32>) -> Option<Taken> {
    let local = day(date).and_hms_opt(12, 0, 0)? + TimeDelta::seconds(seconds);
    Some(Taken { local, offset: zone.and_then(|hours| FixedOffset::east_opt(hours * 3600)) })
}

/// A good photo that looks like none of another number.
fn seen(name: &str, number: u64) -> Seen<'_> {
    let busy = |salt: u64| {
        [1_u64, 2, 3, 4].map(|row| (number * 4 + row + salt).wrapping_mul(0x9e37_79b9_7f4a_7c15))
    };
    let falls = busy(1000);
    let rises = busy(2000).map(|bits| bits ^ 0x5a5a_0ff0_c33c_9669);
    let clear = |row: usize| rises[row] & !falls[row];
    let fingerprint = Fingerprint { falls, rises: [clear(0), clear(1), clear(2), clear(3)] };
    Seen {
        name,
        taken: None,
        camera: Some("Kestrel K2"),
        sha256: Digest::of(&number.to_le_bytes()),
        edited: None,
        quality: Quality { fingerprint, sharpness: 400, brightest: 200, burnt: 10 },
    }
}

fn judged(photos: &[Seen<'_>]) -> Vec<Doubt> {
    judge(photos, Some(day(ARRIVAL)), Some(day(RETURNED)))
}

fn codes(photos: &[Seen<'_>]) -> Vec<&'static str> {
    judged(photos).iter().map(Doubt::code).collect()
}

/// The doubts about one photo of this time, beside one of the job's days by the same camera.
fn timed(date: (i32, u32, u32), zone: Option<i32>) -> Vec<&'static str> {
    codes(&[
        Seen { taken: at((2026, 3, 4), 0, zone), ..seen("bench.jpg", 1) },
        Seen { taken: at(date, 0, zone), ..seen("other.jpg", 2) },
    ])
}

#[test]
fn a_clock_of_known_zone_is_held_to_the_day() {
    assert!(timed(ARRIVAL, Some(1)).is_empty());
    assert_eq!(timed((2026, 3, 1), Some(1)), ["photo/taken-before-arrival"]);
    assert!(timed(RETURNED, Some(1)).is_empty());
    assert_eq!(timed((2026, 3, 12), Some(1)), ["photo/taken-after-return"]);
}

#[test]
fn a_clock_of_unknown_zone_has_a_day_of_grace() {
    assert!(timed((2026, 3, 1), None).is_empty());
    assert_eq!(timed((2026, 2, 28), None), ["photo/taken-before-arrival"]);
    assert!(timed((2026, 3, 12), None).is_empty());
    assert_eq!(timed((2026, 3, 13), None), ["photo/taken-after-return"]);
}

#[test]
fn no_capture_time_and_no_day_of_return_give_no_doubt() {
    assert!(codes(&[seen("a.jpg", 1), seen("b.jpg", 2)]).is_empty());
    let late = Seen { taken: at((2027, 5, 4), 0, None), ..seen("a.jpg", 1) };
    assert!(judge(&[late], Some(day(ARRIVAL)), None).is_empty());
    assert!(judge(&[late], None, None).is_empty());
}

#[test]
fn a_clock_that_was_never_set_is_told_as_such() {
    for date in [(1970, 1, 1), (2000, 12, 31), (2020, 1, 1)] {
        assert_eq!(timed(date, None), ["photo/clock"], "{date:?}");
    }
    assert_eq!(timed((2001, 1, 2), None), ["photo/taken-before-arrival"]);
    // A job may be open on the first of January.
    let taken = at((2026, 1, 1), 0, None);
    let photo = Seen { taken, ..seen("a.jpg", 1) };
    assert!(judge(&[photo], Some(day((2025, 12, 30))), Some(day((2026, 1, 8)))).is_empty());
}

#[test]
fn a_camera_whose_photos_all_lie_on_one_side_is_told_once() {
    let early = |name, number, date| Seen { taken: at(date, 0, None), ..seen(name, number) };
    let mut photos = vec![
        early("a.jpg", 1, (2026, 2, 20)),
        early("b.jpg", 2, (2026, 2, 22)),
        Seen { camera: Some("Heron H1"), ..early("c.jpg", 3, (2026, 3, 5)) },
    ];
    let whole = ClockDoubt::WholeCamera { photos: vec![0, 1], side: Side::Before, days: 8 };
    assert_eq!(judged(&photos), [Doubt::Clock(whole)]);
    assert_eq!(
        judged(&photos)[0].message(&photos),
        "all 2 photos of the camera `Kestrel K2` are 8 days or more before the arrival"
    );
    // One photo within the days, and the clock is not to blame.
    photos.push(early("d.jpg", 4, (2026, 3, 5)));
    assert_eq!(codes(&photos), ["photo/taken-before-arrival"; 2]);
}

#[test]
fn a_clock_that_runs_back_along_the_cameras_numbers_is_told() {
    let numbered = |second: &'static str, back: i64, zone: Option<i32>| {
        let photos = [
            Seen { taken: at((2026, 3, 6), -back, zone), ..seen(second, 2) },
            Seen { taken: at((2026, 3, 6), 0, None), ..seen("IMG_0412.jpg", 1) },
        ];
        judged(&photos)
    };
    assert!(numbered("IMG_0413.jpg", DAY, None).is_empty());
    let by = TimeDelta::seconds(DAY + 1);
    let back = ClockDoubt::RanBack { earlier: 1, later: 0, by };
    assert_eq!(numbered("IMG_0413.jpg", DAY + 1, None), [Doubt::Clock(back)]);
    // A lower number may be older; another series, a person's name, another round say nothing.
    assert!(numbered("IMG_0411.jpg", 2 * DAY, None).is_empty());
    assert!(numbered("DSC_0413.jpg", 2 * DAY, None).is_empty());
    assert!(numbered("bearing-2.jpg", 2 * DAY, None).is_empty());
    assert!(numbered("IMG_9999.jpg", 2 * DAY, None).is_empty());
}

#[test]
fn zones_are_taken_out_before_two_times_are_compared() {
    let photos = |first: i32, second: i32| {
        codes(&[
            Seen { taken: at((2026, 3, 6), 0, Some(first)), ..seen("IMG_0412.jpg", 1) },
            Seen { taken: at((2026, 3, 5), 0, Some(second)), ..seen("IMG_0413.jpg", 2) },
        ])
    };
    assert!(photos(2, 2).is_empty());
    assert!(photos(9, -5).is_empty());
    assert_eq!(photos(-5, 9), ["photo/clock"]);
}

#[test]
fn the_same_file_under_several_names_is_told_once() {
    let photos = [seen("a.jpg", 1), seen("b.jpg", 2), Seen { name: "c.jpg", ..seen("", 1) }];
    assert_eq!(judged(&photos), [Doubt::SamePicture(vec![0, 2])]);
    let message = judged(&photos)[0].message(&photos);
    assert_eq!(message, "`a.jpg` and `c.jpg` are the same file under several names");
    let many = ["a", "b", "c", "d", "e"].map(|name| Seen { name, ..seen("", 1) });
    let of = |count: usize| Doubt::SamePicture((0..count).collect()).message(&many);
    assert_eq!(of(4), "`a`, `b`, `c` and `d` are the same file under several names");
    assert_eq!(of(5), "`a`, `b`, `c` and 2 more are the same file under several names");
}

/// A photo that differs from another in this many of 200 slopes.
fn near(name: &str, unlike: u32, taken: Option<Taken>) -> Seen<'_> {
    let bits = |from: u32, to: u32| {
        let mut rows = [0_u64; 4];
        (from..to).for_each(|at| rows[at as usize / 64] |= 1 << (63 - at % 64));
        rows
    };
    let base = seen(name, u64::from(unlike) + 70);
    let fingerprint = Fingerprint { falls: bits(unlike, 200), rises: [0; 4] };
    Seen { taken, quality: Quality { fingerprint, ..base.quality }, ..base }
}

#[test]
fn photos_that_look_alike_are_told_up_to_the_limit() {
    let pair = |unlike| judged(&[near("a.jpg", 0, None), near("b.jpg", unlike, None)]);
    let told = Doubt::NearDuplicate { photos: vec![0, 1], apart: false };
    assert_eq!(pair(69), [told]);
    assert!(pair(70).is_empty(), "350 thousandths");
}

#[test]
fn photos_that_the_clock_sets_apart_are_told_only_where_nothing_differs() {
    let pair = |unlike, seconds| {
        let (first, second) = (at((2026, 3, 4), 0, None), at((2026, 3, 4), seconds, None));
        judged(&[near("a.jpg", 0, first), near("b.jpg", unlike, second)])
    };
    let told = |apart| vec![Doubt::NearDuplicate { photos: vec![0, 1], apart }];
    assert_eq!(pair(60, 60), told(false));
    assert!(pair(60, 61).is_empty());
    assert_eq!(pair(7, 61), told(true));
    assert!(pair(8, 61).is_empty(), "40 thousandths");
    let other = Seen { camera: Some("Heron H1"), ..near("b.jpg", 60, None) };
    assert!(judged(&[near("a.jpg", 0, None), other]).is_empty());
}

#[test]
fn a_series_of_like_photos_is_told_once_and_plain_ones_not_at_all() {
    let series = [near("a.jpg", 0, None), near("b.jpg", 50, None), near("c.jpg", 100, None)];
    assert_eq!(judged(&series), [Doubt::NearDuplicate { photos: vec![0, 1, 2], apart: false }]);
    let plain = |from: u32| {
        let photo = near("plain.jpg", from, None);
        let mut fingerprint = photo.quality.fingerprint;
        fingerprint.falls[0] &= u64::MAX << 1;
        fingerprint.falls[1..].fill(0);
        Seen { quality: Quality { fingerprint, ..photo.quality }, ..photo }
    };
    // 63 slopes are too few.
    assert!(judged(&[plain(0), plain(1)]).is_empty());
}

/// A drawn scene of soft shapes, seen from a camera that is turned, moved and brought nearer.
fn shot(turn: f64, across: f64, scale: f64) -> Photo {
    let (sine, cosine) = turn.to_radians().sin_cos();
    let picture = RgbImage::from_fn(1000, 750, |x, y| {
        let (x, y) = (f64::from(x) / 500.0 - 1.0, f64::from(y) / 500.0 - 0.75);
        let (u, v) = ((x * cosine - y * sine) / scale + across, (x * sine + y * cosine) / scale);
        let rings = ((u * u + 1.7 * v * v).sqrt() * 11.0).sin();
        let value = 128.0 + 50.0 * rings + 40.0 * (5.0 * u + 3.0 * (4.0 * v).sin()).sin();
        Rgb([value.clamp(0.0, 255.0) as u8; 3])
    });
    let mut png = std::io::Cursor::new(Vec::new());
    image::DynamicImage::from(picture)
        .write_to(&mut png, image::ImageFormat::Png)
        .expect("a picture of our own");
    prepare(&png.into_inner(), PrintSize::of_mm(137.0, 137.0), &PixelBudget::default())
        .expect("a sound photo")
}

#[test]
fn two_shots_by_hand_in_one_breath_are_told_and_those_of_two_days_are_not() {
    let (first, second) = (shot(0.0, 0.0, 1.0), shot(0.5, 0.01, 1.01));
    let pair = |seconds| {
        let taken = |seconds| at((2026, 3, 4), seconds, Some(0));
        let sharp = |photo| {
            let seen = Seen::of("", photo);
            Seen { quality: Quality { sharpness: 400, ..seen.quality }, ..seen }
        };
        codes(&[
            Seen { name: "a.jpg", taken: taken(0), ..sharp(&first) },
            Seen { name: "b.jpg", taken: taken(seconds), ..sharp(&second) },
        ])
    };
    assert_eq!(pair(4), ["photo/near-duplicate"]);
    assert!(pair(2 * DAY).is_empty());
    let away = shot(4.0, 0.16, 1.12);
    let likeness = first.quality.fingerprint.likeness(&away.quality.fingerprint);
    assert!(likeness.unlike_permille(64).is_some_and(|unlike| 350 <= unlike), "{likeness:?}");
}

#[test]
fn metadata_that_state_a_change_are_told_as_a_fact() {
    let told = |sign, by: Option<&str>| {
        let edited = Edited { sign, by: by.map(str::to_owned) };
        let photos = [Seen { edited: Some(&edited), ..seen("a.jpg", 1) }];
        assert_eq!(judged(&photos), [Doubt::Edited(0)]);
        Doubt::Edited(0).message(&photos)
    };
    assert_eq!(
        told(EditSign::Later(TimeDelta::hours(75)), Some("Retouch 4.2")),
        "metadata say that `a.jpg` was changed 3 days after it was taken, by `Retouch 4.2`"
    );
    assert_eq!(
        told(EditSign::Steps(2), None),
        "metadata say that `a.jpg` was changed in 2 steps after it was taken"
    );
    assert_eq!(
        told(EditSign::Composed, None),
        "metadata say that `a.jpg` was put together or made by a program"
    );
}

#[test]
fn poor_photos_are_told_from_their_limit_on_and_for_one_reason() {
    let with = |sharpness, brightest, burnt| {
        let photo = seen("a.jpg", 1);
        let quality = Quality { sharpness, brightest, burnt, ..photo.quality };
        codes(&[Seen { quality, ..photo }])
    };
    assert!(with(60, 70, 399).is_empty());
    assert_eq!(with(59, 70, 399), ["photo/blurred"]);
    assert_eq!(with(60, 69, 399), ["photo/dark"]);
    assert_eq!(with(60, 70, 400), ["photo/bright"]);
    assert_eq!(with(0, 0, 0), ["photo/dark"]);
}

#[test]
fn doubts_stand_in_the_order_of_the_photos() {
    let edited = Edited { sign: EditSign::Steps(1), by: None };
    let photos = [
        Seen { edited: Some(&edited), ..seen("a.jpg", 1) },
        Seen { taken: at((2026, 3, 20), 0, None), ..seen("b.jpg", 2) },
        Seen { name: "c.jpg", edited: Some(&edited), ..seen("", 1) },
    ];
    let expected =
        ["photo/same-picture", "photo/edited", "photo/taken-after-return", "photo/edited"];
    assert_eq!(codes(&photos), expected);
}

#[test]
fn messages_keep_the_form_of_the_house() {
    let edited = Edited { sign: EditSign::Steps(1), by: None };
    let dark = seen("h.jpg", 8);
    let photos = [
        Seen { taken: at((1970, 1, 1), 0, None), ..seen("a.jpg", 1) },
        Seen { taken: at((2026, 3, 20), 0, None), ..seen("b.jpg", 2) },
        Seen { taken: at((2026, 2, 20), 0, None), ..seen("c.jpg", 3) },
        Seen { name: "d.jpg", edited: Some(&edited), ..seen("", 1) },
        near("e.jpg", 0, None),
        near("f.jpg", 9, None),
        Seen { quality: Quality { sharpness: 3, ..dark.quality }, ..seen("g.jpg", 7) },
        Seen { quality: Quality { brightest: 3, ..dark.quality }, ..dark },
        Seen { quality: Quality { burnt: 900, ..dark.quality }, ..seen("i.jpg", 9) },
    ];
    let doubts = judged(&photos);
    let mut found: Vec<&str> = doubts.iter().map(Doubt::code).collect();
    found.sort_unstable();
    let all = [
        "photo/blurred",
        "photo/bright",
        "photo/clock",
        "photo/dark",
        "photo/edited",
        "photo/near-duplicate",
        "photo/same-picture",
        "photo/taken-after-return",
        "photo/taken-before-arrival",
    ];
    assert_eq!(found, all);
    for doubt in &doubts {
        let message = doubt.message(&photos);
        for text in [message.as_str(), doubt.hint()] {
            assert!(!text.ends_with('.') && !text.contains('\n'), "{text}");
            assert!(!text.starts_with(char::is_uppercase), "{text}");
        }
        let first = doubt.photos()[0];
        assert!(message.contains(&format!("`{}`", photos[first].name)), "{message}");
    }
}

#[test]
fn one_photo_in_two_jobs_is_found_in_whatever_order_they_come() {
    let [one, two, three] = [b"1", b"2", b"3"].map(|bytes| Digest::of(bytes));
    let mut photos = vec![
        ("HD-2", "rust.jpg", one),
        ("HD-1", "bearing.jpg", one),
        ("HD-1", "a.jpg", two),
        ("HD-1", "b.jpg", two),
        ("HD-3", "case.jpg", three),
    ];
    let places = vec![("HD-1", "bearing.jpg"), ("HD-2", "rust.jpg")];
    let expected = vec![Shared { sha256: one, places }];
    assert_eq!(shared(&photos), expected);
    photos.reverse();
    assert_eq!(shared(&photos), expected);
    assert_eq!(
        expected[0].message(),
        "one photo is in several jobs: `bearing.jpg` of job `HD-1`, `rust.jpg` of job `HD-2`"
    );
    assert!(shared(&photos[..1]).is_empty());
}
