//! Triage at arrival: the drive unit or the rest of the bike. Common practice, no source.

use splitcase::assessment::cause::triage::{Likelier, Place, triage};
use splitcase::sheet::findings::BikeCheck;
use splitcase::sheet::text::Text;
use splitcase::sheet::vocabulary::{Assistance, BatteryState, BikeNoise, DisplayState};

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
    }
}

#[test]
fn triage_tells_the_unit_from_the_rest_of_the_bike() {
    let likelier = |check: BikeCheck| triage(&check).likelier;
    let unit = Likelier::Only(Place::DriveUnit);
    let elsewhere = Likelier::Only(Place::ElsewhereOnBike);
    assert_eq!(likelier(bike("on", "on", "none", "weak", "grinding")), unit);
    assert_eq!(likelier(bike("on", "on", "none", "full", "hissing")), unit);
    assert_eq!(likelier(bike("on", "on", "E21 motor", "none", "silent")), unit);
    assert_eq!(likelier(bike("flickering", "on", "none", "cuts-out", "silent")), elsewhere);
    assert_eq!(likelier(bike("off", "off", "none", "none", "silent")), elsewhere);
    assert_eq!(likelier(bike("off", "on", "", "none", "grinding")), Likelier::Both);
    assert_eq!(likelier(bike("on", "on", "none", "none", "silent")), Likelier::NotTold);
    assert_eq!(likelier(bike("on", "on", "E21", "full", "silent")), Likelier::NotTold);
    assert_eq!(likelier(bike("", "", "", "", "")), Likelier::NotTold);
    // A code counts only where the supply is known to stand.
    assert_eq!(likelier(bike("", "on", "E21", "none", "silent")), Likelier::NotTold);
}
