//! The samples' rate card and jobs: tiers that follow, prices as the trade has them, no complaint.

use std::fs;
use std::path::Path;

use splitcase::assessment::cost::early::NotTold;
use splitcase::assessment::cost::tier::Tier;
use splitcase::assessment::cost::{self, Costs};
use splitcase::diagnostic::{Diagnostic, Problems};
use splitcase::sheet;

use super::dec;

fn sample(job: &str, more_rates: &str) -> (Costs, Vec<Diagnostic>) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let profile = fs::read_to_string(folder.join("workshop.yaml")).unwrap();
    let profile = profile.replacen("  options:\n", &format!("  options:\n{more_rates}"), 1);
    let text = fs::read(folder.join(job).join("findings.yaml")).unwrap();
    let mut problems = Problems::default();
    let mut workshop =
        sheet::read_profile("workshop.yaml", profile.as_bytes(), &mut problems).unwrap();
    let prices = fs::read(folder.join("parts.yaml")).unwrap();
    sheet::read_prices("parts.yaml", &prices, &mut workshop, &mut problems);
    let sheet = sheet::read("findings.yaml", &text, &workshop, &mut problems).unwrap();
    let costs = cost::assess(&sheet, &workshop, &mut problems);
    (costs, problems.into_sorted())
}

#[test]
fn every_sample_has_its_tier_and_gives_no_problem() {
    for (job, tier) in [
        ("hd-2611", Some(Tier::SingleBearing)),
        ("hd-2614", Some(Tier::Overhaul)),
        ("hd-2618", Some(Tier::OverhaulPlusParts)),
        ("hd-2620", Some(Tier::Exchange)),
        ("hd-2623", None),
        ("hd-2625", None),
    ] {
        let (costs, problems) = sample(job, "");
        assert!(problems.is_empty(), "{job} {problems:?}");
        assert_eq!(costs.tier, tier, "{job}");
    }
}

#[test]
fn a_unit_in_exchange_and_the_fee_for_looking_are_charged_as_offered() {
    let total = |job: &str| sample(job, "").0.bill.map(|bill| bill.total);
    assert_eq!(total("hd-2620"), Some(dec("420.00")));
    assert_eq!(total("hd-2625"), Some(dec("35.00")));
    // Back as it came; the fee is waived, and what it would have been is said.
    assert_eq!(total("hd-2623"), Some(dec("35.00")));
}

/// Common practice, no source: an early single-bearing job comes to about £50-60, a full overhaul
/// to about £250-315. Both hold for what was billed and for what was offered.
#[test]
fn early_jobs_and_overhauls_cost_what_they_cost_in_the_trade() {
    for (job, least, most) in [("hd-2611", "50", "60"), ("hd-2614", "250", "315")] {
        let total = sample(job, "").0.bill.unwrap().total;
        assert!((dec(least)..=dec(most)).contains(&total), "{job} {total}");
    }
    let offered = sample("hd-2611", "").0.options[0].price.clone().unwrap().total;
    assert!((dec("50")..=dec("60")).contains(&offered), "{offered}");
}

#[test]
fn with_a_fixed_price_for_one_bearing_the_overhaul_says_what_the_first_noise_would_have_cost() {
    let card = "    - {kind: single-bearing, price: £55.00}\n";
    let (costs, problems) = sample("hd-2614", card);
    assert!(problems.is_empty(), "{problems:?}");
    let (told, total) = (costs.early.unwrap(), costs.bill.unwrap().total);
    assert_eq!((told.price, told.paid), (dec("55.00"), total));
    assert_eq!(told.difference, total - dec("55.00"));
    for (job, reason) in [
        ("hd-2611", NotTold::AlreadySmall),
        // A gear broke, a board burnt, a rock cracked the case, nothing was wrong.
        ("hd-2618", NotTold::NoFirstSign),
        ("hd-2620", NotTold::NoFirstSign),
        ("hd-2623", NotTold::NoFirstSign),
        ("hd-2625", NotTold::NoFirstSign),
    ] {
        assert_eq!(sample(job, card).0.early, Err(reason), "{job}");
    }
}
