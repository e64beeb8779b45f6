//! Scores of signs against stated causes: the figures by other programs, what is proposed, and that
//! nothing is applied.

use std::path::PathBuf;

use serde_json::Value;
use splitcase::overview;
use splitcase::overview::likelihood::{Counts, Likelihood};
use splitcase::standing::sheets::Sheets;

use super::{GOOD, job, json};
use crate::paper;
use crate::workshop::{PROFILE, Workshop};

fn counts([seen_with, with, seen_without, without]: [usize; 4]) -> Counts {
    Counts { seen_with, with, seen_without, without }
}

/// `scipy.stats.contingency.relative_risk` of `SciPy` 1.17.1, the first table from its documentation;
/// tables with an empty cell: `Table2x2` of statsmodels 0.15.0, given the counts and a half. All at 99 %.
#[test]
fn ratios_and_their_intervals_are_those_of_scipy_and_statsmodels() {
    for (cells, ratio, low, high) in [
        (
            [27, 122, 44, 487],
            2.449_515_648_286_139_8,
            1.380_881_788_826_388_5,
            4.345_141_604_263_009,
        ),
        ([12, 20, 3, 28], 5.600_000_000_000_000_5, 1.272_434_054_970_158_5, 24.645_678_003_906_827),
        ([5, 9, 30, 31], 0.574_074_074_074_074_1, 0.265_114_957_518_910_2, 1.243_087_321_847_913_7),
        ([0, 12, 12, 12], 0.04, 0.001_120_741_388_026_452, 1.427_626_406_139_501),
        ([8, 8, 0, 20], 39.666_666_666_666_664, 1.078_257_921_396_448, 1_459.246_821_397_501_7),
    ] {
        let found = Likelihood::of(counts(cells)).unwrap();
        for (found, expected) in [(found.ratio, ratio), (found.low, low), (found.high, high)] {
            assert!((found / expected - 1.0).abs() < 1e-9, "{cells:?}: {found} for {expected}");
        }
    }
    assert_eq!(Likelihood::of(counts([0, 0, 3, 9])), None);
}

const RACES: &str = "part: main-bearing-drive-side, condition: failed, signs: [races-worn-deep]";
const MAGNETS: &str = "part: magnet-ring, condition: failed, signs: [magnets-loose]";

/// Opened units: so many with a finding and the cause that is stated.
fn shop(units: &[(usize, &str, &str)]) -> Workshop {
    let shop = Workshop::new();
    let units = units.iter().flat_map(|(n, finding, cause)| vec![(finding, cause); *n]);
    for (at, (finding, cause)) in units.enumerate() {
        let rest = format!(
            "strip-down: {{date: 2026-03-12, findings: [{{{finding}, action: replaced}}]}}\n\
             cause: {{main: {cause}}}\noutcome: returned-unrepaired\n"
        );
        let text = job(at, "2026-03-10", &format!("S-1{at:04}"), 1000, &rest);
        shop.file(&format!("jobs/N-{at}/findings.yaml"), text);
    }
    shop
}

/// The built-in scores take worn races for mechanical; these jobs do not.
fn contradicting() -> Workshop {
    shop(&[(12, RACES, "electrical"), (12, MAGNETS, "mechanical")])
}

fn compared(shop: &Workshop) -> Value {
    let run = shop.run(&["overview", "jobs", "--out", "out", "--scores"]);
    assert_eq!(run.code, 0, "{}", run.err);
    json(shop)["scores"].clone()
}

#[test]
fn a_score_that_the_jobs_contradict_is_proposed_anew_and_no_further_than_they_force_it() {
    let shop = contradicting();
    let told = compared(&shop);
    assert_eq!(told["jobs"], 24);
    let row = told["rows"].as_array().unwrap().iter().find(|row| {
        (row["sign"].as_str(), row["cause"].as_str())
            == (Some("races-worn-deep"), Some("mechanical"))
    });
    // Never seen with the cause: the interval of the ratio is 0.001 to 1.43, in which 0 is nearest to 2.
    let row = row.unwrap();
    assert_eq!((&row["score"], &row["proposed"]), (&2.into(), &0.into()));
    let counted = (&row["counts"]["seen-with"], &row["counts"]["seen-without"]);
    assert_eq!(counted, (&0.into(), &12.into()));
    let text = String::from_utf8(shop.read("out/scores-proposed.yaml")).unwrap();
    assert!(
        text.contains(
            "# 2 now: seen in 0 of 12 such jobs and in 12 of 12 others, 0.04 times as often \
             (0.00 to 1.4)\n  - {sign: races-worn-deep, mechanical: 0}\n"
        ),
        "{text}"
    );
    // What was proposed can be written into the profile as it stands, and then nothing more is proposed.
    let rows = text.split_once("scores:\n").unwrap().1;
    shop.file("workshop.yaml", format!("{PROFILE}\nscores:\n{rows}"));
    let again = compared(&shop);
    assert_eq!(again["rows"], Value::Array(Vec::new()), "{again}");
}

/// Each job is judged by rows that it had no part in.
#[test]
fn jobs_say_in_how_many_more_of_them_the_proposed_rows_would_be_right() {
    let units = [(40, RACES, "mechanical"), (5, RACES, "electrical"), (95, MAGNETS, "electrical")];
    let shop = shop(&units);
    let plain = compared(&shop)["agreed"].as_u64().unwrap();
    let against =
        "scores: [{sign: races-worn-deep, mechanical: -2, ingress: -1, wear-over-time: 0}]";
    shop.file("workshop.yaml", format!("{PROFILE}{against}\n"));
    let told = compared(&shop);
    let [agreed, would_agree] = ["agreed", "would-agree"].map(|key| told[key].as_u64().unwrap());
    assert_eq!((plain, agreed, would_agree), (40, 0, 40), "{told}");
    assert_eq!(told["rows"][0]["is-own"], true);
}

#[test]
fn the_overview_says_what_the_proposal_rests_on_and_that_nothing_is_changed() {
    let shop = contradicting();
    let folders: Vec<PathBuf> = (0..24).map(|at| shop.path(&format!("jobs/N-{at}"))).collect();
    let learned = overview::of(&folders, &Sheets::of(&folders), Some(&[]), 1);
    let text = job(0, "2026-03-10", "S-1", 1000, GOOD);
    let made = paper::made(PROFILE, &text, None);
    let view = paper::plain(&made.overview_of(&learned, &paper::english()).to_string());
    for words in [
        "In 12 of 24 opened units with a stated cause the signs lead to that cause",
        "agreement does not prove a score",
        "[\"races worn deep\",\"a mechanical fault\",\"2 (built in)\",\"0\",\"0 of 12\",\"12 of 12\",\"0.04 (0.00 to 1.4)\"",
        "Nothing is changed.",
    ] {
        assert!(view.contains(words), "{words}: {view}");
    }
}

#[test]
fn scores_that_the_jobs_bear_out_stay() {
    let told = compared(&shop(&[(12, RACES, "mechanical"), (12, MAGNETS, "mechanical")]));
    assert_eq!(told["pairs"], 0, "one cause alone sets nothing against another");
    assert_eq!(told["rows"], Value::Array(Vec::new()));
}

#[test]
fn few_jobs_propose_nothing_and_nothing_is_compared_unasked() {
    let few = shop(&[(4, RACES, "electrical"), (4, MAGNETS, "mechanical")]);
    assert_eq!(compared(&few)["rows"], Value::Array(Vec::new()));
    let run = few.run(&["overview", "jobs", "--out", "plain"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(!few.path("plain/scores-proposed.yaml").exists());
    let told: Value = serde_json::from_slice(&few.read("plain/overview.json")).unwrap();
    assert!(told.get("scores").is_none());
}
