//! Bags that need not be kept any longer and are gone; archives in which nothing is sealed.

use std::fs;

use splitcase::archive::holdings::newest_bags;
use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::queries::{Due, due};
use splitcase::archive::verify::verify;

use super::made::Made;

/// An archive whose first bag is gone, and whose second was sealed at a time.
fn gone(at: &'static str) -> Made {
    let mut made = Made::new();
    made.seal("HD-2614", "grinding", true);
    fs::remove_dir_all(made.archive.join("HD-2614")).unwrap();
    made.at = at;
    made.seal("HD-2700", "no fault", false);
    made
}

fn judged(made: &Made) -> Judgement {
    verify(&made.archive, &on("2040-01-01"))
}

/// Asked on a day.
fn on(day: &str) -> Against<'static> {
    Against { now: Some(format!("{day}T08:00:00Z").parse().unwrap()), ..Against::default() }
}

#[test]
fn a_line_from_the_future_releases_no_bag() {
    // The workshop's clock was at 2040 for one seal, and the bag that this releases is gone.
    let made = gone("2040-03-12T08:00:00Z");
    let judged = verify(&made.archive, &on("2026-03-12"));
    let codes: Vec<&str> = judged.flaws.iter().map(|flaw| flaw.code).collect();
    assert_eq!(codes, ["archive/bag-missing", "archive/register"], "{judged:#?}");
    assert!(judged.flaws[1].message.ends_with("after the clock of this machine"), "{judged:#?}");
    // Nor does it release anything for a reader who has no clock.
    let judged = verify(&made.archive, &Against::default());
    assert_eq!(judged.outcome(), Outcome::DoesNotAgree);
}

#[test]
fn a_bag_that_is_gone_after_its_last_day_is_told_of_and_no_flaw() {
    let judged = judged(&gone("2032-03-12T08:00:00Z"));
    assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
    let said = "line 1: its bag is gone, and its last day to be kept was 2032-03-11";
    assert!(judged.not_shown.iter().any(|one| one.text == said), "{judged:#?}");
    assert_eq!(judged.shown[0].text, "1 bag matches its own list, and the register names 2");
}

#[test]
fn a_bag_that_is_gone_on_its_last_day_or_before_is_missing() {
    for at in ["2026-03-12T08:00:00Z", "2032-03-11T23:59:59Z"] {
        let judged = judged(&gone(at));
        let codes: Vec<&str> = judged.flaws.iter().map(|flaw| flaw.code).collect();
        assert_eq!(codes, ["archive/bag-missing"], "{at}");
    }
}

#[test]
fn only_bags_that_are_still_there_are_due() {
    let made = Made::with_bags();
    fs::remove_dir_all(made.archive.join("HD-2614/HD-2614-v1")).unwrap();
    fs::remove_dir_all(made.archive.join("HD-2620")).unwrap();
    let due = due(&made.archive, "2032-03-12".parse().unwrap()).unwrap();
    let text: String = due.iter().map(Due::text).collect();
    // The first is still there as tar.
    assert_eq!(text, "2032-03-11  HD-2614/HD-2614-v1\n2032-03-11  HD-2614/HD-2614-v2\n");
}

#[test]
fn an_archive_in_which_nothing_is_sealed_is_not_called_intact() {
    let made = Made::new();
    fs::create_dir(&made.archive).unwrap();
    fs::write(made.archive.join("register.jsonl"), "").unwrap();
    let empty = judged(&made);
    assert_eq!(empty.outcome(), Outcome::CannotBeJudged, "{empty:#?}");
    assert!(empty.could_not[0].cause.starts_with("nothing is sealed here"), "{empty:#?}");
    made.seal("HD-2614", "grinding", false);
    assert_eq!(judged(&made).outcome(), Outcome::AgreesWithItself);
}

#[test]
fn the_newest_bag_of_a_job_is_that_of_its_highest_version() {
    let made = Made::with_bags();
    let newest = newest_bags(&made.archive);
    let names: Vec<(&str, &str)> = newest
        .iter()
        .map(|(job, bag)| (job.as_str(), bag.file_name().unwrap().to_str().unwrap()))
        .collect();
    assert_eq!(names, [("HD-2614", "HD-2614-v2"), ("HD-2620", "HD-2620-v1")]);
    assert!(newest_bags(&made.archive.join("elsewhere")).is_empty());
}
