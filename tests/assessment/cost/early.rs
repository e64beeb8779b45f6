//! What catching it early would have cost.

use splitcase::assessment::cost::Costs;
use splitcase::assessment::cost::early::{Caught, NotTold};

use super::{costs_of, dec};

const CARD: &str = "currency: GBP\n\
    tax: {name: VAT, rate: 20 %, prices: including, rounding: by-invoice}\n\
    rates: {hour: £44.00, options: [{kind: single-bearing, price: £55.00}]}\n";

struct Job {
    noticed: &'static str,
    cause: &'static str,
    findings: &'static str,
    work: &'static str,
    card: &'static str,
}

const TWO: &str = "{part: main-bearing-drive-side, condition: failed, action: replaced}, {part: main-bearing-non-drive-side, condition: worn, action: replaced}";

impl Default for Job {
    fn default() -> Self {
        let work = "work: {price: £255.90}\noutcome: repaired\n";
        Self {
            noticed: "noise, date: 2025-12-20",
            cause: "ingress",
            findings: TWO,
            work,
            card: CARD,
        }
    }
}

impl Job {
    fn early(&self) -> Result<Caught, NotTold> {
        self.costs().early
    }

    fn costs(&self) -> Costs {
        let noticed = match self.noticed {
            "" => String::new(),
            sign => format!(", first-noticed: {{sign: {sign}}}"),
        };
        let rest = format!(
            "strip-down: {{date: 2026-03-03, findings: [{}]}}\ncause: {{main: {}}}\n{}",
            self.findings, self.cause, self.work
        );
        let mut problems = splitcase::diagnostic::Problems::default();
        let profile = format!("name: Hollowmere Drive Works\n{}", self.card);
        let workshop =
            splitcase::sheet::read_profile("w", profile.as_bytes(), &mut problems).unwrap();
        let text = format!(
            "job: HD-1\ncustomer: {{name: Nadia Ferrow}}\nunit: {{kind: mid-drive}}\n\
             arrival: {{date: 2026-03-02{noticed}}}\n{rest}"
        );
        let sheet = splitcase::sheet::read("f", text.as_bytes(), &workshop, &mut problems).unwrap();
        assert!(!problems.has_errors(), "{:?}", problems.into_sorted());
        splitcase::assessment::cost::assess(&sheet, &workshop, &mut problems)
    }
}

#[test]
fn a_sound_that_was_heard_on_a_known_day_is_set_against_what_was_paid() {
    let told = Job::default().early().unwrap();
    assert_eq!((told.price, told.paid), (dec("55.00"), dec("255.90")));
    assert_eq!(told.difference, dec("200.90"));
    assert_eq!(told.heard.to_string(), "2025-12-20");
}

#[test]
fn each_reason_for_silence_has_its_name() {
    let said = |job: Job| job.early().unwrap_err();
    assert_eq!(said(Job { noticed: "", ..Job::default() }), NotTold::NoFirstSign);
    // Play is a late sign, a sound without its day shows no time, a stop is of no bearing.
    for noticed in ["play, date: 2025-12-20", "feel, date: 2025-12-20", "noise", "cut-out"] {
        assert_eq!(said(Job { noticed, ..Job::default() }), NotTold::NoFirstSign, "{noticed}");
    }
    for cause in ["electrical", "undetermined", "no-fault-found"] {
        assert_eq!(said(Job { cause, ..Job::default() }), NotTold::NotFromABearing);
    }
    for findings in [
        // No bearing is harmed, a gear is worse, the case is cracked.
        "{part: planet-gear, condition: failed, action: replaced}",
        "{part: main-bearing-drive-side, condition: worn, action: replaced}, {part: planet-gear, condition: failed, action: replaced}",
        "{part: main-bearing-drive-side, condition: failed, action: replaced}, {part: case-half-drive-side, condition: damaged, action: repaired}",
        // A missing part is harmed as much as one that failed.
        "{part: main-bearing-drive-side, condition: damaged, action: replaced}, {part: planet-gear, condition: missing, action: replaced}",
    ] {
        assert_eq!(said(Job { findings, ..Job::default() }), NotTold::NotFromABearing);
    }
    let findings = "{part: main-bearing-drive-side, condition: failed}";
    assert_eq!(said(Job { findings, ..Job::default() }), NotTold::NoTier);
    let findings = "{part: main-bearing-drive-side, condition: failed, action: replaced}";
    assert_eq!(said(Job { findings, ..Job::default() }), NotTold::AlreadySmall);
    assert_eq!(said(Job { work: "", ..Job::default() }), NotTold::NothingBilled);
    let card = "currency: GBP\nrates: {hour: £44.00}\n";
    assert_eq!(said(Job { card, ..Job::default() }), NotTold::NoPrice);
    let work = "work: {price: £55.00}\noutcome: repaired\n";
    assert_eq!(said(Job { work, ..Job::default() }), NotTold::NotCheaper);
}

#[test]
fn a_single_bearing_that_was_offered_for_this_unit_goes_before_the_rate_card() {
    let work = "options: [{kind: single-bearing, price: £70.00}]\nwork: {price: £255.90}\noutcome: repaired\n";
    assert_eq!(Job { work, ..Job::default() }.early().unwrap().price, dec("70.00"));
    // A worn seat in the case comes from its bearing.
    let findings = "{part: main-bearing-drive-side, condition: failed, action: replaced}, {part: bearing-seat, condition: damaged, action: repaired}";
    assert!(Job { findings, ..Job::default() }.early().is_ok());
    assert_eq!(costs_of(CARD, "").0.early, Err(NotTold::NoFirstSign));
}

/// Before anything is billed the early price stands beside the cheapest repair that is offered, if it is below it.
#[test]
fn an_early_repair_is_told_beside_dearer_offers_alone() {
    let offered = |options: &'static str| {
        let costs = Job { work: options, ..Job::default() }.costs();
        costs.early_offered.map(|told| told.price)
    };
    let early = Some(dec("55.00"));
    assert_eq!(offered("options: [{kind: overhaul, price: £240.00}]\n"), early);
    // An exchange is no repair; of two repairs the cheaper one decides.
    let cheaper =
        "options: [{kind: overhaul, price: £240.00}, {kind: overhaul-plus-parts, price: £50.00}]\n";
    assert_eq!(offered(cheaper), None);
    assert_eq!(offered("options: [{kind: overhaul, price: £55.00}]\n"), None);
    assert_eq!(offered("options: [{kind: overhaul, price: £55.01}]\n"), early);
    assert_eq!(offered("options: [{kind: exchange, price: £395.00}]\n"), None);
    let itself =
        "options: [{kind: single-bearing, price: £55.00}, {kind: overhaul, price: £240.00}]\n";
    assert_eq!(offered(itself), None);
}
