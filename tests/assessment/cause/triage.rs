//! Triage at arrival: the drive unit or the rest of the bike. Common practice, no source.

use splitcase::assessment::cause::triage::{CheckField, Site, Suspect, triage};
use splitcase::sheet::findings::BikeCheck;
use splitcase::sheet::text::Text;
use splitcase::sheet::vocabulary::{
    Assistance, BatteryState, BikeNoise, CodesPointTo, DisplayState, Tried, UnitKind,
};

fn word<T: Copy>(all: &[T], word: fn(T) -> &'static str, found: &str) -> Option<T> {
    all.iter().copied().find(|one| word(*one) == found)
}

fn bike(display: &str, battery: &str, codes: &str, help: &str, noise: &str) -> BikeCheck {
    BikeCheck {
        display: word(DisplayState::ALL, DisplayState::word, display),
        battery: word(BatteryState::ALL, BatteryState::word, battery),
        error_codes: (!codes.is_empty()).then(|| Text(codes.to_owned())),
        assistance: word(Assistance::ALL, Assistance::word, help),
        noise: word(BikeNoise::ALL, BikeNoise::word, noise),
        ..BikeCheck::default()
    }
}

#[test]
fn triage_tells_the_unit_from_the_rest_of_the_bike() {
    let likelier = |check: BikeCheck| triage(&check, UnitKind::MidDrive).likelier;
    let unit = Suspect::Only(Site::DriveUnit);
    let elsewhere = Suspect::Only(Site::ElsewhereOnBike);
    assert_eq!(likelier(bike("on", "on", "none", "weak", "grinding")), unit);
    assert_eq!(likelier(bike("on", "on", "none", "full", "hissing")), unit);
    // Everything on, no code, no help: the sensors of a mid-drive are inside it, a hub's are not.
    assert_eq!(likelier(bike("on", "on", "none", "none", "silent")), unit);
    let gone = triage(&bike("on", "on", "none", "none", "silent"), UnitKind::MidDrive);
    assert_eq!(gone.points, [(CheckField::NoHelp, Site::DriveUnit)]);
    let hub = triage(&bike("on", "on", "none", "none", "silent"), UnitKind::Hub);
    assert_eq!(hub.likelier, Suspect::NotTold);
    // Codes are never read, whatever they say.
    assert_eq!(likelier(bike("on", "on", "E21 motor", "none", "silent")), Suspect::NotTold);
    assert_eq!(likelier(bike("flickering", "on", "none", "cuts-out", "silent")), elsewhere);
    assert_eq!(likelier(bike("off", "off", "none", "none", "silent")), elsewhere);
    assert_eq!(likelier(bike("off", "on", "", "none", "grinding")), Suspect::Both);
    assert_eq!(likelier(bike("on", "on", "none", "cuts-out", "silent")), Suspect::NotTold);
    assert_eq!(likelier(bike("on", "on", "E21", "full", "silent")), Suspect::NotTold);
    assert_eq!(likelier(bike("", "", "", "", "")), Suspect::NotTold);
    // No help counts only where the supply is known to be good.
    assert_eq!(likelier(bike("", "on", "none", "none", "silent")), Suspect::NotTold);
}

#[test]
fn codes_point_where_the_technician_says_and_nowhere_by_their_text() {
    let pointing = |to: CodesPointTo| {
        let codes = bike("on", "on", "E 503 battery communication", "none", "silent");
        triage(&BikeCheck { codes_point_to: Some(to), ..codes }, UnitKind::MidDrive)
    };
    let elsewhere = Suspect::Only(Site::ElsewhereOnBike);
    assert_eq!(pointing(CodesPointTo::Unit).likelier, Suspect::Only(Site::DriveUnit));
    for to in [CodesPointTo::Battery, CodesPointTo::Display, CodesPointTo::Wiring] {
        assert_eq!(pointing(to).likelier, elsewhere);
        assert_eq!(pointing(to).points, [(CheckField::ErrorCodes, Site::ElsewhereOnBike)]);
    }
    for to in [CodesPointTo::Sensor, CodesPointTo::Unknown] {
        assert_eq!(pointing(to).likelier, Suspect::NotTold);
    }
}

#[test]
fn another_part_of_the_bike_that_is_faulty_points_away_from_the_unit() {
    let check = BikeCheck {
        brake_switch: Some(Tried::Faulty),
        remote: Some(Tried::Ok),
        ..bike("on", "on", "none", "none", "silent")
    };
    let triage = triage(&check, UnitKind::MidDrive);
    assert_eq!(triage.likelier, Suspect::Both);
    assert_eq!(triage.points[1], (CheckField::BrakeSwitch, Site::ElsewhereOnBike));
    assert_eq!(triage.points.len(), 2);
}

#[test]
fn every_field_that_points_somewhere_has_its_words() {
    let words = include_str!("../../../report-templates/wording/en/conditions.yaml");
    for field in CheckField::ALL {
        assert!(words.contains(&format!("  {}: ", field.word())), "{}", field.word());
    }
}
