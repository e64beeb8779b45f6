//! A unit that was serviced before anything failed, and hubs told apart: money and care treat them
//! as a repaired unit and as a hub. Common practice, no source.

use splitcase::assessment::{self, Assessment};
use splitcase::diagnostic::Problems;
use splitcase::sheet;
use splitcase::sheet::vocabulary::UnitKind;

fn assess(kind: &str, outcome: &str) -> Assessment {
    let text = format!(
        "job: SV-1\ncustomer: {{name: Nadia Ferrow}}\n\
         unit: {{kind: {kind}, mileage: 4000 km, used-for: [cargo]}}\n\
         arrival: {{date: 2026-03-02}}\n\
         strip-down:\n  date: 2026-03-03\n  findings:\n\
         \x20   - {{part: hub-bearing-drive-side, condition: worn, action: replaced}}\n\
         \x20   - {{part: other, called: cable strap, condition: worn, action: replaced}}\n\
         \x20   - {{part: controller-board, condition: sound, action: coated}}\n\
         work: {{labour: 60 min}}\noutcome: {outcome}\nreturned: 2026-03-11\n"
    );
    let workshop = crate::messages::workshop();
    let mut problems = Problems::default();
    let sheet = sheet::read("findings.yaml", text.as_bytes(), &workshop, &mut problems).unwrap();
    assert_eq!(problems.n_errors(), 0, "{text}");
    assessment::assess(&sheet, &workshop, None, &mut Problems::default())
}

#[test]
fn every_kind_of_hub_gets_the_advice_of_a_hub() {
    let hub = assess("hub", "repaired").care;
    assert!(hub.rules.iter().any(|advice| advice.rule == "pedal-on-hills"), "{:?}", hub.rules);
    assert_eq!(hub.hand_test, Some(UnitKind::Hub));
    for kind in ["hub-geared", "hub-direct"] {
        let care = assess(kind, "repaired").care;
        assert_eq!(care.rules, hub.rules, "{kind}");
        assert_eq!(
            (care.hand_test, care.cautions),
            (hub.hand_test, hub.cautions.clone()),
            "{kind}"
        );
    }
}

#[test]
fn a_serviced_unit_is_looked_after_and_sized_like_a_repaired_one() {
    let (repaired, serviced) = (assess("hub", "repaired"), assess("hub", "serviced"));
    assert_eq!(serviced.care.rules, repaired.care.rules);
    assert!(!serviced.care.rules.is_empty());
    assert_eq!(serviced.costs.tier, repaired.costs.tier);
}

/// Neither a part that no list has nor a coating makes a small job an overhaul with parts.
#[test]
fn a_part_of_no_list_does_not_count_for_the_size_of_a_job() {
    let tier = assess("hub", "serviced").costs.tier;
    assert_eq!(tier.map(splitcase::assessment::cost::tier::Tier::word), Some("single-bearing"));
}
