//! Triage at arrival: the drive unit or the rest of the bike.

use splitcase::assessment::cause::triage::{Likelier, Place, Told, triage};
use splitcase::sheet::findings::BikeCheck;
use splitcase::sheet::text::Text;

fn bike(display: &str, battery: &str, codes: &str, help: &str, noise: &str) -> BikeCheck {
    let text = |text: &str| (!text.is_empty()).then(|| Text(text.to_owned()));
    BikeCheck {
        display: text(display),
        battery: text(battery),
        error_codes: text(codes),
        assistance: text(help),
        noise: text(noise),
    }
}

#[test]
fn triage_tells_the_unit_from_the_rest_of_the_bike() {
    let likelier = |check: BikeCheck| triage(&check).likelier;
    let unit = Likelier::Only(Place::DriveUnit);
    let elsewhere = Likelier::Only(Place::ElsewhereOnBike);
    assert_eq!(likelier(bike("on", "on", "none", "weak", "grinding")), unit);
    assert_eq!(likelier(bike("on", "on", "none", "full", "a fine hiss")), unit);
    assert_eq!(likelier(bike("on", "on", "E21 motor", "none", "silent")), unit);
    assert_eq!(likelier(bike("flickering", "on", "none", "cuts out", "silent")), elsewhere);
    assert_eq!(likelier(bike("off", "off", "none", "none", "silent")), elsewhere);
    assert_eq!(likelier(bike("off", "on", "", "none", "grinding")), Likelier::Both);
    assert_eq!(likelier(bike("on", "on", "none", "none", "silent")), Likelier::NotTold);
    assert_eq!(likelier(bike("on", "on", "E21", "full", "silent")), Likelier::NotTold);
    assert_eq!(likelier(bike("", "", "", "", "")), Likelier::NotTold);
    // A code counts only where the supply is known to stand.
    assert_eq!(likelier(bike("", "on", "E21", "none", "silent")), Likelier::NotTold);
}

#[test]
fn triage_passes_over_words_that_it_does_not_know() {
    let told = triage(&bike("sort of", "on", "none", "gone mad", "silent"));
    assert_eq!(told.not_understood, [Told::Display, Told::Assistance]);
    assert_eq!(told.likelier, Likelier::NotTold);
}
