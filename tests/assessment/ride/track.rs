//! Writes synthetic rides with known answers as GPX files.

use std::fmt::Write;

use splitcase::assessment::bench::ride_limits::rules::rule_set;
use splitcase::assessment::ride::{AssistLimit, Refusal, Ride, read};

/// 25 km/h (R01, scope of EN 15194).
pub fn epac() -> Option<AssistLimit> {
    rule_set("epac").map(AssistLimit::of)
}

/// Metres of a degree of longitude on the equator of WGS 84: 2 pi 6 378 137 / 360 (X08).
pub const DEGREE: f64 = 111_319.490_793_273;

/// A synthetic ride along the equator, where a metre of way is an exact share of a degree.
pub struct Writer {
    /// Track points so far.
    pub points: String,
    /// Metres east of the start.
    pub east: f64,
    /// Seconds since the start.
    pub second: f64,
}

impl Writer {
    /// A ride not yet begun.
    pub fn new() -> Self {
        Self { points: String::new(), east: 0.0, second: 0.0 }
    }

    /// Rides on for some seconds at a point a second, with a height by metres ridden.
    pub fn ride(mut self, seconds: usize, kmh: f64, height: impl Fn(f64) -> f64) -> Self {
        for _ in 0..seconds {
            self.point(&format!("<ele>{}</ele>", height(self.east)));
            self.east += kmh / 3.6;
            self.second += 1.0;
        }
        self
    }

    /// Rides on, on the flat.
    pub fn flat(self, seconds: usize, kmh: f64) -> Self {
        self.ride(seconds, kmh, |_| 100.0)
    }

    /// Writes a point here and now.
    pub fn point(&mut self, inner: &str) {
        let longitude = 8.0 + self.east / DEGREE;
        let time = stamp(self.second);
        writeln!(
            self.points,
            "<trkpt lat=\"0\" lon=\"{longitude:.12}\">{inner}<time>{time}</time></trkpt>"
        )
        .unwrap();
    }

    /// Starts a new segment.
    pub fn segment(mut self) -> Self {
        self.points.push_str("</trkseg><trkseg>");
        self
    }

    /// Writes text as it is.
    pub fn raw(mut self, text: &str) -> Self {
        self.points.push_str(text);
        self
    }

    /// Is suddenly elsewhere.
    pub fn jump(mut self, metres: f64) -> Self {
        self.east += metres;
        self
    }

    /// Lets time pass without a point.
    pub fn wait(mut self, seconds: f64) -> Self {
        self.second += seconds;
        self
    }

    /// Reads what was written.
    pub fn read(self) -> Ride {
        read(gpx(&self.points).as_bytes(), epac()).unwrap()
    }
}

/// A moment of the ride's day.
pub fn stamp(second: f64) -> String {
    let whole = second as u64;
    let milli = ((second - whole as f64) * 1000.0).round();
    let (hour, minute, second) = (whole / 3600, whole / 60 % 60, whole % 60);
    format!("2026-03-10T{hour:02}:{minute:02}:{second:02}.{milli:03}Z")
}

/// A whole file around points.
pub fn gpx(points: &str) -> String {
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<gpx version=\"1.1\" creator=\"test\" \
         xmlns=\"http://www.topografix.com/GPX/1/1\"><metadata><name>A &amp; B</name></metadata>\
         <trk><name>Ride</name><trkseg>{points}</trkseg></trk></gpx>"
    )
}

/// Why a file is refused.
pub fn refusal(text: &str) -> Refusal {
    read(text.as_bytes(), epac()).unwrap_err()
}

/// Asserts a figure within a distance.
pub fn near(found: f64, expected: f64, by: f64) {
    assert!((found - expected).abs() <= by, "{found}, expected {expected} within {by}");
}
