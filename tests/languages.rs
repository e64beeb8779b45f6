//! Papers in other languages than English: forms by Unicode CLDR, no word of English, and no more pages than the
//! words take.

/// A made-up language of long words.
mod long;

use std::fs;

use rust_decimal::Decimal;
use serde_json::Value;
use splitcase::document::format;
use splitcase::document::templates::Templates;
use splitcase::document::wording::Wording;

use crate::paper::made;
use crate::workshop::{PROFILE, Workshop, closed, run_in};
use crate::{paper, small};

pub fn words(language: &str, region: Option<&str>) -> Wording {
    Wording::read(&Templates::built_in(), language, region).unwrap_or_else(|found| {
        panic!("{language}: {:?}", found.into_iter().map(|one| one.message).collect::<Vec<_>>())
    })
}

/// Unicode CLDR 48, common/main (`dateFormatLength` long, `listPattern` standard, `decimalFormats`), from
/// memory: the same figures in each language and region.
#[test]
fn days_lists_and_amounts_have_the_forms_of_cldr() {
    let date = chrono::NaiveDate::from_ymd_opt(2026, 3, 2).unwrap();
    let other = chrono::NaiveDate::from_ymd_opt(2025, 12, 20).unwrap();
    let items = ["a", "b", "c"].map(str::to_owned);
    let of = |language: &str, region: Option<&str>| {
        let wording = words(language, region);
        [
            format::day(date, &wording),
            format::day_near(date, date, &wording),
            format::day_near(other, date, &wording),
            format::listed(&items, &wording),
            format::number("-1234.5".parse().unwrap(), &wording),
            format::number(Decimal::from(12_345), &wording),
        ]
    };
    let english = ["2 March 2026", "2 March", "20 December 2025", "a, b and c"];
    assert_eq!(of("en", None)[..4], english);
    let american = ["March 2, 2026", "March 2", "December 20, 2025", "a, b, and c"];
    assert_eq!(of("en", Some("US"))[..4], american);
    let german = ["2.\u{a0}März 2026", "2.\u{a0}März", "20.\u{a0}Dezember 2025", "a, b und c"];
    assert_eq!(of("de", None)[..4], german);
    assert_eq!(of("de", Some("AT"))[..4], german);
    let austrian = chrono::NaiveDate::from_ymd_opt(2026, 1, 9).unwrap();
    assert_eq!(format::day(austrian, &words("de", Some("AT"))), "9.\u{a0}Jänner 2026");
    let french = ["2 mars 2026", "2 mars", "20 décembre 2025", "a, b et c"];
    assert_eq!(of("fr", None)[..4], french);
    let dutch = ["2 maart 2026", "2 maart", "20 december 2025", "a, b en c"];
    assert_eq!(of("nl", None)[..4], dutch);
    let italian = ["2 marzo 2026", "2 marzo", "20 dicembre 2025", "a, b e c"];
    assert_eq!(of("it", None)[..4], italian);
    let spanish = ["2 de marzo de 2026", "2 de marzo", "20 de diciembre de 2025", "a, b y c"];
    assert_eq!(of("es", None)[..4], spanish);
    let before_i = ["a", "imanes"].map(str::to_owned);
    assert_eq!(format::listed(&before_i, &words("es", None)), "a e imanes");
    // Digits of a measured value in groups by the SI Brochure, 9th edition, 5.4.4, from five on.
    assert_eq!(of("en", None)[4..], ["\u{2212}1234.5", "12\u{202f}345"]);
    assert_eq!(of("de", None)[4..], ["\u{2212}1234,5", "12\u{202f}345"]);
}

/// Unicode CLDR 48, from memory: groups of an amount, and where its currency stands.
#[test]
fn amounts_are_written_as_the_language_writes_them() {
    let amount: Decimal = "1240.50".parse().unwrap();
    let money = |language: &str, code: &str| {
        let profile = format!("name: Hollowmere Drive Works\ncurrency: {code}\n");
        let currency = made(&profile, &closed("A-1"), None).workshop.fields.currency;
        format::money(amount, currency, &words(language, None))
    };
    assert_eq!(money("en", "GBP"), "£1,240.50");
    assert_eq!(money("de", "EUR"), "1.240,50\u{a0}€");
    assert_eq!(money("fr", "EUR"), "1\u{202f}240,50\u{a0}€");
    assert_eq!(money("nl", "EUR"), "€\u{a0}1.240,50");
    // Groups from five digits on (`minimumGroupingDigits` 2).
    assert_eq!(money("it", "EUR"), "1240,50\u{a0}€");
    assert_eq!(money("es", "EUR"), "1240,50\u{a0}€");
}

/// All texts of a view.
pub fn texts(value: &Value, found: &mut Vec<String>) {
    match value {
        Value::String(text) => found.push(text.clone()),
        Value::Array(items) => items.iter().for_each(|item| texts(item, found)),
        Value::Object(fields) => fields.values().for_each(|field| texts(field, found)),
        _ => {}
    }
}

/// Words that English has and the other languages have not.
const ENGLISH: [&str; 9] = ["the", "and", "with", "to", "not", "from", "you", "this", "which"];

/// All but what somebody typed.
#[test]
fn a_paper_in_another_language_says_nothing_in_english() {
    let sample = |file: &str| fs::read_to_string(small::samples().join(file)).unwrap();
    let (profile, parts) = (sample("workshop.yaml"), sample("parts.yaml"));
    let sheet = sample("hd-2640/findings.yaml");
    let typed = format!("{profile}{parts}{sheet}");
    let typed = typed.split_whitespace().collect::<Vec<_>>().join(" ");
    let profile = format!("{profile}parts:{}", parts.split_once("parts:").unwrap().1);
    let made = made(&profile, &sheet, None);
    for language in Templates::built_in().languages().into_iter().filter(|one| *one != "en") {
        let mut found = Vec::new();
        texts(&made.view(&words(language, None)), &mut found);
        assert!(200 < found.len(), "{language}: {}", found.len());
        for text in found.iter().map(|text| paper::plain(text)) {
            if typed.contains(text.trim()) {
                continue;
            }
            // Names in braces of a form are filled in elsewhere.
            let said: String =
                text.split('{').map(|part| part.rsplit('}').next().unwrap()).collect();
            let words = said.split(|letter: char| !letter.is_alphabetic()).map(str::to_lowercase);
            let leaks: Vec<String> =
                words.filter(|word| ENGLISH.contains(&word.as_str())).collect();
            assert!(leaks.is_empty(), "{language}: {leaks:?} in `{text}`");
        }
    }
}

/// German takes about a third more letters; page 1 still holds its answers, and a report has one page more at most.
#[test]
fn the_samples_in_german_take_one_page_more_at_most() {
    let shop = tempfile::tempdir().unwrap();
    for file in ["workshop.yaml", "parts.yaml"] {
        fs::copy(small::samples().join(file), shop.path().join(file)).unwrap();
    }
    let jobs = [("hd-2611", 3), ("hd-2614", 4), ("hd-2623", 3), ("hd-2625", 2), ("hd-2640", 3)];
    for (job, _) in jobs {
        let folder = shop.path().join(job);
        fs::create_dir(&folder).unwrap();
        for file in fs::read_dir(small::samples().join(job)).unwrap().map(|file| file.unwrap()) {
            fs::copy(file.path(), folder.join(file.file_name())).unwrap();
        }
        let path = folder.join("findings.yaml");
        let sheet = fs::read_to_string(&path).unwrap();
        if !sheet.contains("language: de") {
            fs::write(&path, format!("language: de\n{sheet}")).unwrap();
        }
    }
    let run = run_in(shop.path(), &["render", ".", "--out", "out", "--paper", "return-report"]);
    assert!(!run.err.contains("error["), "{}", run.err);
    for (job, most) in jobs {
        let path = format!("out/{}/return-report.pdf", job.to_uppercase());
        let pdf = fs::read(shop.path().join(path)).unwrap();
        let pages = hayro_syntax::Pdf::new(pdf.clone()).unwrap().pages().len();
        assert!(pages <= most, "{job}: {pages} pages");
        assert!(String::from_utf8_lossy(&pdf).contains("de-DE"), "{job}");
    }
}

/// A workshop whose own language is another gives distances in the units of the reader's region.
#[test]
fn distances_follow_the_reader_where_the_paper_is_in_another_language() {
    let profile = |more: &str| format!("{PROFILE}{more}");
    let sheet = |language: &str| {
        closed("U-1").replace("unit: {kind: mid-drive", "unit: {mileage: 1000 km, kind: mid-drive")
            + language
    };
    let ridden = |profile: &str, sheet: &str, language: &str, region: Option<&str>| {
        let view = made(profile, sheet, None).view(&words(language, region));
        let mut found = Vec::new();
        texts(&view, &mut found);
        let found = found.iter().map(|text| paper::plain(text)).collect::<Vec<_>>();
        let is_way = |text: &&String| ["1000 km", "621 mi"].contains(&text.as_str());
        found.iter().find(is_way).cloned()
    };
    let british = profile("units: imperial\n");
    assert_eq!(ridden(&british, &sheet(""), "en", None).as_deref(), Some("621 mi"));
    let german = sheet("language: de\n");
    assert_eq!(ridden(&british, &german, "de", None).as_deref(), Some("1000 km"));
    let house = profile("language: de\nunits: metric\n");
    assert_eq!(ridden(&house, &sheet("language: en\n"), "en", None).as_deref(), Some("621 mi"));
    assert_eq!(
        ridden(&house, &sheet("language: en-IE\n"), "en", Some("IE")).as_deref(),
        Some("1000 km")
    );
}

#[test]
fn a_class_or_form_that_the_grammar_lacks_is_refused_at_its_line() {
    let built_in = Templates::built_in();
    let parts = built_in.get("wording/de/parts.yaml").unwrap().text();
    let stories = built_in.get("wording/de/stories.yaml").unwrap().text();
    for (file, text, wrong) in [
        ("parts", parts.replacen("class: m,", "class: x,", 1), "`x`"),
        ("stories", stories.replacen("{part:in}", "{part:gen}", 1), "`part:gen`"),
        ("stories", stories.replacen("{war|waren}", "{war|waren|wären}", 1), "`war|waren|wären`"),
    ] {
        let shop = Workshop::with_profile(&format!("{PROFILE}templates: t\nlanguage: de\n"));
        shop.file("jobs/A-1/findings.yaml", closed("A-1"));
        shop.file(&format!("t/wording/de/{file}.yaml"), &text);
        let run = shop.run(&["check", "jobs"]);
        assert_eq!(run.code, 1, "{}", run.err);
        let message =
            format!("error[template/grammar]: the grammar of this language has no {wrong}");
        assert!(run.err.contains(&message), "{}", run.err);
        assert!(run.err.contains(&format!("t/wording/de/{file}.yaml:")), "{}", run.err);
    }
}

#[test]
fn a_region_that_is_none_is_refused_where_it_is_named() {
    let labels = Templates::built_in().get("wording/de/labels.yaml").unwrap().text().to_owned();
    let shop = Workshop::with_profile(&format!("{PROFILE}templates: t\nlanguage: de\n"));
    shop.file("jobs/A-1/findings.yaml", closed("A-1"));
    let wrong = labels.replacen("region: \"DE\"", "region: \"Oberes Tal\"", 1);
    shop.file("t/wording/de/labels.yaml", wrong);
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 1, "{}", run.err);
    let message = "error[template/region]: `Oberes Tal` is not a region";
    assert!(
        run.err.contains(message) && run.err.contains("t/wording/de/labels.yaml:"),
        "{}",
        run.err
    );
}
