//! What metadata say of changes: times of the file, and the XMP packet.

use chrono::TimeDelta;
use exif::{Field, Tag};
use image::ImageFormat;
use splitcase::photo::{EditSign, Edited};

use super::{drawing, file, maker, prepared};

fn jpeg() -> Vec<u8> {
    file(drawing(64, 48), ImageFormat::Jpeg)
}

fn edited(bytes: &[u8]) -> Option<Edited> {
    prepared(bytes).expect("a sound photo").facts.edited
}

fn by_times(fields: &[Field]) -> Option<Edited> {
    edited(&maker::jpeg_with_exif(&jpeg(), &maker::exif(fields)))
}

fn by_packet(packet: &str) -> Option<Edited> {
    let segment = [b"http://ns.adobe.com/xap/1.0/\0", packet.as_bytes()].concat();
    edited(&maker::jpeg_with(&jpeg(), 0xe1, &segment))
}

/// A packet of one description with these attributes and elements.
fn packet(attributes: &str, elements: &str) -> String {
    format!(
        "<?xpacket begin='\u{feff}' id='W5M0MpCehiHzreSzNTczkc9d'?>\
         <x:xmpmeta xmlns:x='adobe:ns:meta/'>\
         <rdf:RDF xmlns:rdf='http://www.w3.org/1999/02/22-rdf-syntax-ns#'>\
         <rdf:Description rdf:about='' xmlns:xmpMM='http://ns.adobe.com/xap/1.0/mm/' \
         xmlns:stEvt='http://ns.adobe.com/xap/1.0/sType/ResourceEvent#' \
         xmlns:Iptc4xmpExt='http://iptc.org/std/Iptc4xmpExt/2008-02-29/' {attributes}>{elements}\
         </rdf:Description></rdf:RDF></x:xmpmeta><?xpacket end='w'?>"
    )
}

const TAKEN: &str = "2026:03:04 10:20:30";

/// Taken at [`TAKEN`], and changed at another time of the same clock.
fn changed_at(time: &str) -> Option<Edited> {
    by_times(&[maker::text(Tag::DateTimeOriginal, TAKEN), maker::text(Tag::DateTime, time)])
}

#[test]
fn a_file_changed_more_than_a_minute_after_it_was_taken_is_told() {
    assert_eq!(changed_at(TAKEN), None);
    assert_eq!(changed_at("2026:03:04 10:21:30"), None);
    let later = EditSign::Later(TimeDelta::seconds(61));
    assert_eq!(changed_at("2026:03:04 10:21:31").map(|edited| edited.sign), Some(later));
    // Earlier is odd, but no change after the shot.
    assert_eq!(changed_at("2026:03:01 10:20:30"), None);
}

#[test]
fn whole_quarter_hours_without_a_zone_may_be_the_zone() {
    assert_eq!(changed_at("2026:03:04 12:20:31"), None);
    assert_eq!(changed_at("2026:03:04 16:05:28"), None);
    assert!(changed_at("2026:03:04 12:20:33").is_some());
    assert!(changed_at("2026:03:05 10:20:30").is_some());
}

#[test]
fn known_zones_are_taken_into_account() {
    let changed = |time: &str, zone: &str| {
        by_times(&[
            maker::text(Tag::DateTimeOriginal, TAKEN),
            maker::text(Tag::OffsetTimeOriginal, "+02:00"),
            maker::text(Tag::DateTime, time),
            maker::text(Tag::OffsetTime, zone),
        ])
    };
    assert_eq!(changed("2026:03:04 08:20:30", "+00:00"), None);
    let hour = Some(EditSign::Later(TimeDelta::hours(1)));
    assert_eq!(changed("2026:03:04 09:20:30", "+00:00").map(|edited| edited.sign), hour);
    assert_eq!(changed("2026:03:04 11:20:30", "+02:00").map(|edited| edited.sign), hour);
}

#[test]
fn a_program_alone_is_no_sign_and_a_version_is_no_program() {
    let with = |name: &str, time: &str| {
        by_times(&[
            maker::text(Tag::DateTimeOriginal, TAKEN),
            maker::text(Tag::DateTime, time),
            maker::text(Tag::Software, name),
        ])
    };
    assert_eq!(with("Retouch 4.2", TAKEN), None);
    let by = |name| with(name, "2026:03:06 08:00:00").map(|edited| edited.by);
    assert_eq!(by("Retouch` 4.2"), Some(Some("Retouch 4.2".to_owned())));
    assert_eq!(by("17.5.1"), Some(None));
    assert_eq!(by("S9XXU4"), Some(None));
}

#[test]
fn a_change_time_without_a_capture_time_is_no_sign() {
    assert_eq!(by_times(&[maker::text(Tag::DateTime, TAKEN)]), None);
}

#[test]
fn a_history_counts_changes_to_the_picture_and_names_the_last_program() {
    let history = |steps: &str| {
        by_packet(&packet(
            "",
            &format!("<xmpMM:History><rdf:Seq>{steps}</rdf:Seq></xmpMM:History>"),
        ))
    };
    let attributes = "<rdf:li stEvt:action='created' stEvt:softwareAgent='Camera'/>\
         <rdf:li stEvt:action='cropped' stEvt:softwareAgent='Retouch 4.1'/>\
         <rdf:li stEvt:action='saved' stEvt:softwareAgent='Retouch 4.2' stEvt:changed='/'/>\
         <rdf:li stEvt:action='saved' stEvt:softwareAgent='Tagger' stEvt:changed='/metadata'/>";
    let two = Edited { sign: EditSign::Steps(2), by: Some("Retouch 4.2".to_owned()) };
    assert_eq!(history(attributes), Some(two));
    let elements = "<rdf:li rdf:parseType='Resource'><stEvt:action>edited</stEvt:action>\
         <stEvt:softwareAgent>Darkroom</stEvt:softwareAgent></rdf:li>";
    let one = Edited { sign: EditSign::Steps(1), by: Some("Darkroom".to_owned()) };
    assert_eq!(history(elements), Some(one));
    assert_eq!(history("<rdf:li stEvt:action='created'/>"), None);
    assert_eq!(history("<rdf:li stEvt:action='saved' stEvt:changed='/metadata'/>"), None);
}

#[test]
fn a_picture_that_a_program_made_is_told_and_a_cameras_own_blend_is_not() {
    let source = |term: &str| {
        let uri = format!("http://cv.iptc.org/newscodes/digitalsourcetype/{term}");
        let attribute = format!("Iptc4xmpExt:DigitalSourceType='{uri}'");
        let element =
            format!("<Iptc4xmpExt:DigitalSourceType>{uri}</Iptc4xmpExt:DigitalSourceType>");
        let resource = format!("<Iptc4xmpExt:DigitalSourceType rdf:resource='{uri}'/>");
        [packet(&attribute, ""), packet("", &element), packet("", &resource)]
            .map(|packet| by_packet(&packet).map(|edited| edited.sign))
    };
    assert_eq!(source("compositeWithTrainedAlgorithmicMedia"), [Some(EditSign::Composed); 3]);
    assert_eq!(source("computationalCapture"), [None; 3]);
}

#[test]
fn a_packet_is_read_in_png_too() {
    let text = packet(
        "",
        "<xmpMM:History><rdf:Seq><rdf:li stEvt:action='resized'/></rdf:Seq></xmpMM:History>",
    );
    let chunk = [b"XML:com.adobe.xmp\0\0\0\0\0", text.as_bytes()].concat();
    let png = maker::png_with(&file(drawing(64, 48), ImageFormat::Png), b"iTXt", &chunk);
    assert_eq!(edited(&png).map(|edited| edited.sign), Some(EditSign::Steps(1)));
}

#[test]
fn a_broken_or_hostile_packet_does_no_harm() {
    let deep = "<a>".repeat(5_000);
    let entity = "<!DOCTYPE a [<!ENTITY b 'edited'>]><x:History><li stEvt:action='edited'/>";
    for packet in ["", "<", "no packet", "<x:History", deep.as_str(), entity] {
        assert_eq!(by_packet(packet), None, "{packet:.40}");
    }
}
