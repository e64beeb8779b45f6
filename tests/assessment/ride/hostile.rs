//! Files that are no track, are damaged or made to hurt: a named refusal or clean facts, soon.

use std::fmt::Write;
use std::time::{Duration, Instant};

use splitcase::assessment::ride::{Proof, Refusal, Unproven, read, rule};

use super::track::{Writer, epac, gpx, refusal, stamp};

/// Runs within a time that even a busy machine keeps, where squared work would need minutes.
fn quickly<T>(work: impl FnOnce() -> T) -> T {
    let start = Instant::now();
    let result = work();
    assert!(start.elapsed() < Duration::from_mins(1), "{:?}", start.elapsed());
    result
}

#[test]
fn files_that_are_no_track_are_refused_by_name() {
    assert_eq!(refusal(""), Refusal::Empty);
    assert_eq!(refusal("not xml"), Refusal::NotGpx);
    assert_eq!(refusal("<kml/>"), Refusal::NotGpx);
    assert_eq!(refusal("<gpx/>"), Refusal::Version(None));
    assert_eq!(refusal("<gpx version=\"2.0\"/>"), Refusal::Version(Some("2.0".into())));
    assert_eq!(refusal("<gpx version=\"1.1\"/>"), Refusal::NoTrack { route: false });
    let route = "<gpx version=\"1.1\"><rte><rtept lat=\"1\" lon=\"1\"/></rte></gpx>";
    assert_eq!(refusal(route), Refusal::NoTrack { route: true });
    assert_eq!(refusal(&gpx("<trkpt lat=\"1\" lon=\"1\"/>")), Refusal::TooFewPoints(1));
    assert!(matches!(refusal("<gpx version=\"1.1\"></trk>"), Refusal::Broken { .. }));
    assert_eq!(refusal("<gpx version=\"1.1\"><trk><trkseg>"), Refusal::CutShort);
    let whole = gpx(&Writer::new().flat(5, 18.0).points);
    for end in 0..whole.len() {
        assert!(read(&whole.as_bytes()[..end], epac()).is_err(), "{end}");
    }
    let utf16: Vec<u8> = whole.encode_utf16().flat_map(u16::to_le_bytes).collect();
    assert_eq!(read(&utf16, epac()).unwrap_err(), Refusal::NotUtf8);
    assert_eq!(
        refusal(&whole.replace("1.1\"", "0.6\"")).to_string(),
        "the track is GPX `0.6`; 1.1 and 1.0 are read"
    );
}

/// Times and places of extensions, waypoints and routes are not those of the track.
#[test]
fn only_the_fields_of_a_track_point_count() {
    let inner = "<extensions><x:time>junk</x:time><x:ele>9</x:ele><x:hr>120</x:hr></extensions>";
    let points =
        Writer::new().flat(400, 18.0).points.replace("</trkpt>", &format!("{inner}</trkpt>"));
    let extended = gpx(&points)
        .replace("<trk>", "<wpt lat=\"50\" lon=\"8\"><time>2020-01-01T00:00:00Z</time></wpt><trk>")
        .replace("<ele>100</ele>", "<ele><!-- up --><![CDATA[100]]></ele>");
    let mut plain = Writer::new().flat(400, 18.0).read();
    assert_eq!(read(extended.as_bytes(), epac()).unwrap(), plain);
    // With a prefix, a byte order mark, local time and no fraction it is the same ride.
    let mut prefixed = gpx(&Writer::new().flat(400, 18.0).points)
        .replace("</", "</g:")
        .replace("<trk", "<g:trk")
        .replace("<gpx", "<g:gpx")
        .replace("<ele", "<g:ele")
        .replace("<time", "<g:time")
        .replace("<metadata><name>", "<g:metadata><g:name>")
        .replace("<name>", "<g:name>")
        .replace(".000Z", "+02:00");
    prefixed.insert(0, '\u{feff}');
    plain.day = "2026-03-09".parse().ok();
    assert_eq!(read(prefixed.as_bytes(), epac()).unwrap(), plain);
}

#[test]
fn entity_bombs_are_refused_before_they_are_lit() {
    let mut bomb = String::from("<?xml version=\"1.0\"?><!DOCTYPE gpx [<!ENTITY a0 \"ha\">");
    for level in 1..40 {
        let last = level - 1;
        write!(bomb, "<!ENTITY a{level} \"&a{last};&a{last};&a{last};\">").unwrap();
    }
    bomb.push_str("]><gpx version=\"1.1\"><trk><name>&a39;</name></trk></gpx>");
    assert_eq!(quickly(|| refusal(&bomb)), Refusal::DocumentType);
    let file = "<!DOCTYPE gpx SYSTEM \"file:///etc/hostname\"><gpx version=\"1.1\"/>";
    assert_eq!(refusal(file), Refusal::DocumentType);
    // An undeclared entity in a number leaves the number out, not the file.
    let points = Writer::new().flat(400, 18.0).points.replacen("<ele>100", "<ele>1&x;00", 1);
    assert_eq!(read(gpx(&points).as_bytes(), epac()).unwrap().points, 400);
}

/// Damaged files, in a fixed scramble: refused or cleaned, and every figure stays a figure.
#[test]
fn damage_anywhere_ends_in_a_refusal_or_in_facts() {
    let points = Writer::new().flat(90, 25.0).flat(20, 0.0).wait(50.0).segment().flat(90, 18.0);
    let whole = gpx(&points.points).into_bytes();
    let mut state = 1_u64;
    let mut next = |below: usize| {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as usize % below
    };
    let mut read_well = 0;
    for _ in 0..1500 {
        let mut bytes = whole.clone();
        for _ in 0..=next(6) {
            let at = next(bytes.len());
            match next(3) {
                0 => bytes[at] = b"0123456789-.Ee<>/&\"= ZT:"[next(24)],
                1 => bytes[at] = next(256) as u8,
                _ => drop(bytes.drain(at..(at + next(80)).min(bytes.len()))),
            }
        }
        let Ok(ride) = read(&bytes, epac()) else { continue };
        read_well += 1;
        assert!(ride.distance_m.is_finite() && ride.distance_m < 5e6, "{ride:?}");
        assert!(ride.curve.len() <= rule::SAMPLES);
        let speeds = ride.speed.map_or(0.0, |speed| speed.max);
        assert!(speeds.is_finite() && speeds <= rule::JUMP.value, "{ride:?}");
    }
    assert!(read_well > 100, "{read_well}");
}

#[test]
fn deep_wide_and_long_elements_end_in_bounded_time() {
    let deep = format!("<gpx version=\"1.1\"><trk>{}", "<a>".repeat(1_000_000));
    assert_eq!(quickly(|| refusal(&deep)), Refusal::TooDeep);
    let wide: String = (0..500_000).map(|at| format!(" a{at}=\"\"")).collect();
    let wide = gpx(&format!("<trkpt{wide} lat=\"1\" lon=\"1\"/>"));
    assert_eq!(quickly(|| refusal(&wide)), Refusal::TooFewPoints(1));
    let digits = "1".repeat(4_000_000);
    let long = gpx(&format!("<trkpt lat=\"{digits}\" lon=\"1\"><ele>{digits}</ele></trkpt>"));
    assert_eq!(quickly(|| refusal(&long)), Refusal::TooFewPoints(1));
    let large = vec![b' '; rule::BYTES + 1];
    assert_eq!(read(&large, epac()).unwrap_err(), Refusal::TooLarge(rule::BYTES + 1));
}

/// The size bounds points with a place, which take 23 bytes; the count bounds shorter ones.
#[test]
fn a_million_points_are_read_and_one_more_is_refused() {
    let point = "<trkpt lat='1'lon='1'/>";
    assert!(1_000_001 * point.len() > rule::BYTES, "the size alone bounds points with a place");
    // Without a place they are shorter, so that the count bounds them.
    let bare = |count: usize| gpx(&"<trkpt/>".repeat(count));
    let million = quickly(|| refusal(&bare(1_000_000)));
    assert_eq!(million, Refusal::TooFewPoints(1_000_000));
    assert_eq!(quickly(|| refusal(&bare(1_000_001))), Refusal::TooManyPoints);
    // Many with a place, each elsewhere and without a time.
    let mut points = String::new();
    for at in 0..200_000 {
        write!(points, "<trkpt lat='{}'lon='1'/>", at % 10).unwrap();
    }
    let ride = quickly(|| read(gpx(&points).as_bytes(), epac())).unwrap();
    assert_eq!(ride.gaps.len(), 0);
    assert_eq!(ride.points, 200_000);
    // All at one moment, and all going back and forth in time.
    let still = "<trkpt lat='1' lon='1'><time>2026-03-10T10:00:00Z</time></trkpt>".repeat(80_000);
    assert_eq!(quickly(|| refusal(&gpx(&still))), Refusal::TooFewPoints(80_000));
    let mut shaken = String::new();
    for at in 0..200_000_u64 {
        let time = stamp((at * 7919 % 80_000) as f64);
        write!(shaken, "<trkpt lat='1' lon='0.{}'><time>{time}</time></trkpt>", at % 977).unwrap();
    }
    let shaken = quickly(|| read(gpx(&shaken).as_bytes(), epac())).unwrap();
    assert_eq!(shaken.proof, Proof::NotDetermined(Unproven::MuchDropped));
}
