//! Prices that a sheet leaves to the workshop's list: found by any of their names, printed as if they had
//! been typed, kept in the bag, and answered where a name is in no list.

use splitcase::diagnostic::{Diagnostic, Problems};
use splitcase::sheet::{self, ProfileFile, Sheet};

use crate::workshop::{PROFILE, Workshop};

const LIST: &str = "parts:
  - {name: bearing 6804-2RS, designation: 6804-2RS, price: £9.80, also: [main bearing]}
  - {name: crank seal, designation: 22x32x7, price: £6.25, part: crank-seal-drive-side}
  - {name: inner motor bearing, price: £7.40, part: rotor-bearing-inner}
  - {name: thin motor bearing, price: £8.10, part: rotor-bearing-inner}
";

/// How a job ended in which a part was renewed.
const CLOSED: &str = "strip-down:
  date: 2026-03-03
  findings: [{part: shim, condition: worn, action: replaced}]
outcome: repaired
returned: 2026-03-09
";

fn workshop(profile: &str, list: &str) -> ProfileFile {
    let mut problems = Problems::default();
    let mut workshop =
        sheet::read_profile("workshop.yaml", profile.as_bytes(), &mut problems).unwrap();
    sheet::read_prices("parts.yaml", list.as_bytes(), &mut workshop, &mut problems);
    let found = problems.into_sorted();
    assert!(found.is_empty(), "{found:?}");
    workshop
}

/// A sheet with these parts under `work`, each as typed in the list.
fn job(parts: &str, rest: &str) -> String {
    format!(
        "job: P-1\ncustomer: {{name: Ansel Brook}}\nunit: {{kind: mid-drive}}\n\
         arrival: {{date: 2026-03-02}}\nwork: {{parts: [{parts}], labour: 60 min}}\n{rest}"
    )
}

fn read(text: &str, workshop: &ProfileFile) -> (Sheet, Vec<Diagnostic>) {
    let mut problems = Problems::default();
    let sheet = sheet::read("findings.yaml", text.as_bytes(), workshop, &mut problems).unwrap();
    (sheet, problems.into_sorted())
}

/// Names and prices of the parts of a sheet.
fn parts(sheet: &Sheet) -> Vec<(&str, String)> {
    let parts = sheet.fields.work.iter().flat_map(|work| &work.parts);
    let price = |part: &splitcase::sheet::charges::PartLine| {
        part.price.as_ref().map_or_else(String::new, |price| price.amount.to_string())
    };
    parts.map(|part| (part.what.0.as_str(), price(part))).collect()
}

#[test]
fn a_part_takes_the_price_of_the_list_by_any_of_its_names_and_a_price_in_the_sheet_wins() {
    let workshop = workshop(PROFILE, LIST);
    let typed = "bearing 6804-2RS, Main Bearing, 6804-2rs, {what: crank seal, quantity: 2}, \
                 crank-seal-drive-side, {what: crank seal, price: £1.00}, {what: cable, price: £2.00}";
    let (sheet, found) = read(&job(typed, ""), &workshop);
    assert!(found.is_empty(), "{found:?}");
    let bearing = ("bearing 6804-2RS", "9.80".to_owned());
    let seal = ("crank seal, 22x32x7", "6.25".to_owned());
    let own = [("crank seal", "1.00".to_owned()), ("cable", "2.00".to_owned())];
    let [own_seal, cable] = own;
    assert_eq!(
        parts(&sheet),
        [bearing.clone(), bearing.clone(), bearing, seal.clone(), seal, own_seal, cable]
    );
    // What follows is what follows from the prices typed in full.
    let full = job(
        "{what: bearing 6804-2RS, price: £9.80}, {what: \"crank seal, 22x32x7\", price: £6.25}",
        "",
    );
    let (full, _) = read(&full, &workshop);
    let (short, _) = read(&job("main bearing, crank seal", ""), &workshop);
    let bill = |sheet: &Sheet| {
        let costs = splitcase::assessment::cost::assess(sheet, &workshop, &mut Problems::default());
        format!("{:?}", costs.bill)
    };
    assert_eq!(bill(&short), bill(&full));
    let copy =
        |sheet: &Sheet| sheet::issued::copy(&sheet.tree, splitcase::sheet::profile::Naming::Full);
    assert_eq!(copy(&short), copy(&full));
}

#[test]
fn a_name_that_the_list_lacks_is_answered_with_the_nearest_and_the_place_of_the_list() {
    let workshop = workshop(PROFILE, LIST);
    for (typed, advice) in [
        ("main berring", "did you mean `bearing 6804-2RS`"),
        ("6805-2RS", "or the part to `parts.yaml`"),
        ("Wellendichtring", "did you mean `crank seal`"),
        ("rotor-bearing-inner", "name one of them: `inner motor bearing` or `thin motor bearing`"),
    ] {
        let (sheet, found) = read(&job(typed, ""), &workshop);
        let [one] = found.as_slice() else { panic!("{typed}: {found:?}") };
        assert_eq!(one.code, "sheet/no-price");
        assert!(one.hints.join(" | ").contains(advice), "{typed}: {:?}", one.hints);
        assert!(sheet.lacks_prices && sheet.is_whole, "{typed}");
    }
    // A bearing's number is no slip of another's.
    let (_, found) = read(&job("bearing 6805-2RS", ""), &workshop);
    assert_eq!(found.len(), 1);
}

#[test]
fn decimals_are_read_as_those_of_the_profile_whatever_the_language_of_the_sheet() {
    let german = PROFILE.replace("currency: GBP", "currency: EUR\nlanguage: de");
    let german = german.replace("£44.00", "\"44,00 €\"");
    let list = "- {name: Lager, price: \"9,80 €\"}\n- {name: Dichtring, price: 1200 EUR}\n";
    let workshop = workshop(&german, list);
    for language in ["", "language: en\n", "language: de\n"] {
        let (sheet, found) = read(&job("Lager, Dichtring", language), &workshop);
        assert!(found.is_empty(), "{language}: {found:?}");
        let priced = parts(&sheet);
        assert_eq!(priced, [("Lager", "9.80".to_owned()), ("Dichtring", "1200".to_owned())]);
    }
}

#[test]
fn check_says_which_prices_came_from_the_list_and_a_changed_list_gives_new_papers() {
    let shop = Workshop::new();
    shop.file("parts.yaml", LIST);
    shop.file("jobs/P-1/findings.yaml", job("main bearing, {what: cable, price: £2.00}", CLOSED));
    let run = shop.run(&["check", "jobs", "--prices"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let said = "P-1: price of the list: bearing 6804-2RS, £9.80 (parts.yaml:2)";
    assert!(run.out.contains(said), "{}", run.out);
    assert!(!shop.run(&["check", "jobs"]).out.contains("price of the list"));
    let run = shop.run(&["check", "jobs", "--format", "json"]);
    let answer: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let prices = &answer["results"][0]["prices-of-list"];
    assert_eq!(prices.as_array().unwrap().len(), 1);
    assert_eq!(prices[0]["line"], 2);
    let render = ["render", "jobs", "--out", "out"];
    assert!(shop.run(&render).out.contains("P-1: written"));
    assert!(shop.run(&render).out.contains("P-1: unchanged"));
    shop.file("parts.yaml", LIST.replace("£9.80", "£10.20"));
    assert!(shop.run(&render).out.contains("P-1: written"));
}

#[test]
fn a_broken_list_refuses_the_jobs_below_it_with_its_place() {
    let shop = Workshop::new();
    shop.file("jobs/P-1/findings.yaml", job("{what: cable, price: £2.00}", ""));
    shop.file("parts.yaml", "parts:\n  - {name: bearing, price: €9.80}\n");
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 1);
    for said in ["profile/other-currency", "parts.yaml:2:28", "nothing is converted"] {
        assert!(run.err.contains(said), "{said}: {}", run.err);
    }
    std::fs::remove_file(shop.path("parts.yaml")).unwrap();
    std::fs::create_dir(shop.path("parts.yaml")).unwrap();
    let run = shop.run(&["check", "jobs"]);
    assert!(run.err.contains("read the price list"), "{}", run.err);
}

#[test]
fn the_bag_holds_the_rows_that_prices_rest_on_and_its_papers_are_made_again_without_the_list() {
    let shop = Workshop::new();
    shop.file("parts.yaml", LIST);
    shop.file("jobs/P-1/findings.yaml", job("main bearing, crank seal", CLOSED));
    let run = shop.run(&["seal", "jobs", "--archive", "archive"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let profile = String::from_utf8(shop.read("archive/P-1/P-1-v1/data/workshop.yaml"));
    let profile = profile.unwrap();
    assert!(profile.contains("name: bearing 6804-2RS"), "{profile}");
    assert!(!profile.contains("motor bearing"), "other prices stay at home: {profile}");
    // A year later the list says something else; the bag does not change with it.
    std::fs::remove_file(shop.path("parts.yaml")).unwrap();
    let run = shop.run(&["verify", "archive/P-1/P-1-v1"]);
    assert_eq!(run.code, 0, "{}{}", run.out, run.err);
    assert!(run.out.contains("made again"), "{}", run.out);
}

#[test]
fn a_new_workshop_has_a_price_list_to_fill_in_with_its_schema() {
    let shop = Workshop::new();
    let run = shop.run(&["new", "--workshop", "fresh"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let list = String::from_utf8(shop.read("fresh/parts.yaml")).unwrap();
    assert!(list.starts_with("# yaml-language-server: $schema=./parts.schema.json"), "{list}");
    assert!(shop.has("fresh/parts.schema.json"));
    let mut problems = Problems::default();
    let mut workshop = workshop(PROFILE, "");
    sheet::read_prices("parts.yaml", list.as_bytes(), &mut workshop, &mut problems);
    assert!(problems.into_sorted().is_empty());
    let mut problems = Problems::default();
    // Off with the remark signs, it reads as well.
    let filled: Vec<&str> =
        list.lines().skip(3).map(|line| line.strip_prefix("# ").unwrap_or(line)).collect();
    let mut workshop = crate::messages::workshop();
    sheet::read_prices("parts.yaml", filled.join("\n").as_bytes(), &mut workshop, &mut problems);
    let found = problems.into_sorted();
    assert!(found.is_empty(), "{found:?}: {list}");
}
