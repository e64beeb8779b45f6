//! Before and after in one frame, measured in the finished PDF: what was said to be as long is as long, and
//! nothing is stretched.

use super::content::{Kind, Mark, marks};
use crate::paper::{english, made, plain};
use crate::workshop::{PROFILE, RETURNED, Workshop, jpeg, sheet};

/// A photo of a case, in pixels, with its marks.
type Photo<'a> = ((u32, u32), &'a str);

/// Page 1, which shows both photos of the one part, and the words under them.
fn page(before: Photo<'_>, after: Photo<'_>) -> (Vec<Mark>, String) {
    let shop = Workshop::new();
    for (at, ((width, height), _)) in [before, after].into_iter().enumerate() {
        shop.file(&format!("jobs/A-1/{at}.jpg"), jpeg(width, height, at as u32));
    }
    let sheet = format!(
        "{}strip-down:\n  date: 2026-03-04\n  findings:\n    - part: main-bearing-drive-side\n      \
         condition: worn\n      photos: [{{file: 0.jpg, marks: [{}]}}]\n      \
         photos-after: [{{file: 1.jpg, marks: [{}]}}]\n{RETURNED}",
        sheet("A-1"),
        before.1,
        after.1
    );
    let view = made(PROFILE, &sheet, None).with_photos().view(&english());
    let text = plain(&view["pair"].to_string());
    shop.file("jobs/A-1/findings.yaml", sheet);
    let run = shop.run(&["render", "jobs", "--out", "out", "--paper", "return-report"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let pdf = shop.read("out/A-1/return-report.pdf");
    (marks(&pdf).into_iter().filter(|mark| mark.page == 1).collect(), text)
}

/// The two photos, left first, cut or not: all of each as it lies under its frame.
fn photos(marks: &[Mark]) -> (&Mark, &Mark) {
    let mut photos = marks.iter().filter(|mark| mark.kind == Kind::Picture);
    let (one, other) = (photos.next().unwrap(), photos.next().unwrap());
    if one.place[0] < other.place[0] { (one, other) } else { (other, one) }
}

fn is_near(value: f64, wanted: f64, what: &str) {
    assert!((value - wanted).abs() < 0.01 * wanted, "{what}: {value} for {wanted}");
}

/// `D5` to `J5` is half of a photo's width, `D5` to `G5` a quarter.
#[test]
fn a_length_on_both_photos_gives_one_scale_one_frame_and_a_bar_that_is_as_long_as_it_says() {
    let before = ((600, 450), "{length: D5, to: J5, measures: 30 mm}");
    let after = ((800, 600), "{length: D5, to: G5, measures: 30 mm}");
    let (marks, text) = page(before, after);
    let (left, right) = photos(&marks);
    // All of the photos: 60 mm and 120 mm of the bench.
    is_near(right.width(), 2.0 * left.width(), "widths of the photos");
    for (photo, height) in [(left, 0.75), (right, 0.75)] {
        is_near(photo.height(), height * photo.width(), "not stretched");
    }
    let mm = left.width() / 60.0;
    let is_flat = |mark: &&Mark| {
        matches!(mark.kind, Kind::Stroked(_)) && !mark.is_curved && mark.height() < 0.01
    };
    // A length is drawn in a white casing and a core, a bar once.
    let long = |length: f64| {
        let fits = |mark: &&Mark| (mark.width() - length * mm).abs() < 0.02 * length * mm;
        marks.iter().filter(is_flat).filter(fits).count()
    };
    assert_eq!(long(30.0), 4, "two lengths of 30 mm");
    assert_eq!(long(10.0), 2, "two bars of 10 mm");
    assert_eq!(text.matches("\"10 mm\"").count(), 2, "{text}");
    assert_eq!(
        text.matches("; before and after at one scale\"").count()
            + text.matches("; part of the photo, before and after at one scale\"").count(),
        2,
        "{text}"
    );
    assert_eq!(
        text.matches("; part of the photo, before").count(),
        1,
        "one is shown whole: {text}"
    );
}

#[test]
fn boxes_with_the_same_words_are_as_large_in_both_photos_and_nothing_is_said_of_scale() {
    let before = ((600, 450), "{box: E4, to: I7, text: seat}");
    let after = ((600, 450), "{box: C3, to: G6, text: seat}, {arrow: D4, from: C2, text: plug}");
    let (marks, text) = page(before, after);
    let (left, right) = photos(&marks);
    is_near(right.width(), left.width(), "widths of the photos");
    let seen = |photo: &Mark| photo.seen[2] - photo.seen[0];
    is_near(seen(left), seen(right), "frames");
    // The box lies two columns further in the first photo.
    let lost = |photo: &Mark| photo.seen[0] - photo.place[0];
    is_near(lost(left) - lost(right), left.width() / 6.0, "cut to one frame");
    assert_eq!(text.matches("seat as large in both\"").count(), 2, "{text}");
    assert!(!text.contains("scale") && !text.contains(" mm"), "{text}");
}

#[test]
fn photos_stay_whole_where_a_mark_would_be_lost_or_lengths_contradict_or_too_little_is_left() {
    let cases: [[&str; 2]; 4] = [
        // The arrow points at what the other photo does not show.
        [
            "{length: D5, to: J5, measures: 30 mm}",
            "{length: D5, to: G5, measures: 30 mm}, {arrow: L9, from: K7, text: plug}",
        ],
        // The camera stood askew: one photo has two scales.
        [
            "{length: D5, to: J5, measures: 30 mm}",
            "{length: D5, to: G5, measures: 30 mm}, {length: D7, to: G7, measures: 40 mm}",
        ],
        ["{length: D5, to: J5, measures: 30 mm}", "{length: D5, to: E5, measures: 60 mm}"],
        // Words alone do not tell how large a thing is.
        ["{ring: E5, text: seat}", "{ring: G5, text: seat}"],
    ];
    for [before, after] in cases {
        let (marks, text) = page(((600, 450), before), ((600, 450), after));
        let (left, right) = photos(&marks);
        is_near(right.width(), left.width(), before);
        let said = ["one scale", "part of the photo", "as large"];
        assert!(said.iter().all(|said| !text.contains(said)), "{before}, {after}: {text}");
    }
}

/// The part of page 1 has a pair of its own; the other part has two upright photos before and one after, which
/// stand in different rows.
#[test]
fn before_and_after_are_at_one_scale_in_different_rows_too() {
    let shop = Workshop::new();
    for (at, size) in
        [(400, 300), (400, 300), (450, 600), (450, 600), (600, 800)].iter().enumerate()
    {
        shop.file(&format!("jobs/A-1/{at}.jpg"), jpeg(size.0, size.1, at as u32));
    }
    let sheet = format!(
        "{}strip-down:\n  date: 2026-03-04\n  findings:\n    - {{part: main-bearing-drive-side, \
         condition: failed, photos: [0.jpg], photos-after: [1.jpg]}}\n    - part: output-gear\n      \
         condition: worn\n      photos: [{{file: 2.jpg, marks: [{{length: D5, to: J5, measures: 30 mm}}]}}, \
         3.jpg]\n      photos-after: [{{file: 4.jpg, marks: [{{length: D5, to: J5, measures: 36 mm}}]}}]\n\
         {RETURNED}",
        sheet("A-1")
    );
    shop.file("jobs/A-1/findings.yaml", sheet);
    let run = shop.run(&["render", "jobs", "--out", "out", "--paper", "return-report"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let marks = marks(&shop.read("out/A-1/return-report.pdf"));
    let seen = |mark: &Mark| (mark.seen[2] - mark.seen[0], mark.seen[3] - mark.seen[1]);
    let is_cut =
        |mark: &&Mark| mark.kind == Kind::Picture && (seen(mark).1 - mark.height()).abs() > 1.0;
    let cut: Vec<&Mark> = marks.iter().filter(is_cut).collect();
    assert_eq!(cut.len(), 2, "{cut:?}");
    // All of the photos: 60 mm and 72 mm of the bench.
    is_near(cut[1].width() / cut[0].width(), 72.0 / 60.0, "one scale");
    is_near(seen(cut[1]).0, seen(cut[0]).0, "widths of the frames");
    is_near(seen(cut[1]).1, seen(cut[0]).1, "heights of the frames");
}
