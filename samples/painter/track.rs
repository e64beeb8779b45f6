//! The recorded test ride of job HD-2614, made up from formulas and laid out in the open sea.
//!
//! In: nothing. Out: a GPX 1.1 file with a point every three seconds. No road lies under it, so it
//! can be nobody's way home.

use std::f64::consts::TAU;
use std::fmt::Write;

/// Where it starts, in degrees; the middle of the North Sea.
const START: (f64, f64) = (54.5, 4.0);
/// Metres in a degree of latitude there.
const DEGREE: f64 = 111_300.0;
/// Seconds from point to point.
const STEP: u32 = 3;
/// Length of the ride in metres: 7.4 miles.
const LENGTH: f64 = 11_909.0;

/// The file.
pub fn gpx() -> String {
    let mut text = String::from(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <gpx version=\"1.1\" creator=\"samples\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n\
         <trk><name>Test ride HD-2614</name><trkseg>\n",
    );
    let (mut east, mut north) = (0.0_f64, 0.0_f64);
    let (mut way, mut time, mut speed) = (0.0_f64, 0_u32, 0.0_f64);
    let mut standing = 0;
    while way < LENGTH {
        let (latitude, longitude) =
            (START.0 + north / DEGREE, START.1 + east / (DEGREE * START.0.to_radians().cos()));
        let clock = 14 * 3600 + 12 * 60 + time;
        // Writing to a string cannot fail.
        let _ = writeln!(
            text,
            "<trkpt lat=\"{latitude:.6}\" lon=\"{longitude:.6}\"><ele>{:.1}</ele>\
             <time>2026-03-10T{:02}:{:02}:{:02}Z</time></trkpt>",
            height(way),
            clock / 3600,
            clock / 60 % 60,
            clock % 60,
        );
        // A wait at a crossing, once.
        if way > 4_100.0 && standing < 14 {
            standing += 1;
            speed = 0.0;
        } else {
            speed += (wish(way) - speed) * 0.35;
        }
        let step = speed / 3.6 * f64::from(STEP);
        let heading = TAU * (way / LENGTH) + 0.5 * (way / 700.0).sin();
        east += step * heading.cos();
        north += step * heading.sin();
        way += step;
        time += STEP;
    }
    text + "</trkseg></trk></gpx>\n"
}

/// Height above the sea in metres: two hills, 94 m of climbing in all.
fn height(way: f64) -> f64 {
    let hill = |top: f64, width: f64, high: f64| high * (-((way - top) / width).powi(2)).exp();
    18.0 + hill(3_000.0, 900.0, 41.0) + hill(8_400.0, 1_100.0, 53.0)
}

/// Speed that the rider would like, in km/h: slow uphill, held where the help stops on the flat.
fn wish(way: f64) -> f64 {
    let slope = (height(way + 20.0) - height(way - 20.0)) / 40.0;
    let waver = 0.6 * (way / 260.0).sin() + 0.3 * (way / 97.0).sin();
    let wish = match slope {
        up if up > 0.012 => 21.5 - 190.0 * up,
        down if down < -0.02 => 25.0 - 130.0 * (down + 0.02),
        _ => 24.3,
    };
    if way < 60.0 { 14.0 } else { wish.clamp(12.0, 31.0) + waver }
}
