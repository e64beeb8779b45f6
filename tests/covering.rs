//! What lies beside a paper: covering messages, the calendar of next checks, the edition for a telephone.
//!
//! Python's `email` and another calendar library read them in `.ci/run`; here is what they hold, that they
//! are the same bytes twice, and that nothing typed becomes a header or a tag.

use std::collections::{BTreeMap, BTreeSet};

use hayro_syntax::Pdf;
use hayro_syntax::object::{Name, Object};

use crate::workshop::{PROFILE, Run, Workshop, jpeg, sheet};

const CONTACT: &str = "contact: [01632 960 123, post@hollowmere.example]\n";

/// A closed job whose next checks have days.
fn closed(job: &str, customer: &str) -> String {
    sheet(job).replace("{name: Nadia Ferrow}", customer)
        + "strip-down: {date: 2026-03-04, findings: [{part: main-bearing-drive-side, condition: failed, \
           signs: [moisture-corrosion], action: replaced, photos: [a.jpg]}]}\n\
           work: {parts: [{what: bearing 6804-2RS, price: £9.80}], labour: 60 min}\n\
           outcome: repaired\nreturned: 2026-03-11\n"
}

fn shop(profile: &str, customer: &str) -> Workshop {
    let shop = Workshop::with_profile(&format!("{PROFILE}{profile}"));
    shop.file("jobs/A-1/findings.yaml", closed("A-1", customer))
        .file("jobs/A-1/a.jpg", jpeg(60, 40, 9));
    shop
}

fn render(shop: &Workshop, more: &[&str]) -> Run {
    shop.run(&[&["render", "jobs", "--out", "out", "--force"], more].concat())
}

fn text(shop: &Workshop, name: &str) -> String {
    String::from_utf8(shop.read(&format!("out/A-1/{name}"))).unwrap()
}

/// The lines of a header, with the folded ones joined.
fn headers(eml: &str) -> Vec<(String, String)> {
    let head = eml.split_once("\r\n\r\n").unwrap().0.replace("\r\n ", " ").replace("\r\n\t", " ");
    let pair = |line: &str| {
        let (name, value) = line.split_once(": ").unwrap_or_else(|| panic!("no header: {line}"));
        (name.to_owned(), value.to_owned())
    };
    head.split("\r\n").map(pair).collect()
}

fn header(eml: &str, name: &str) -> Option<String> {
    headers(eml).into_iter().find(|(own, _)| own == name).map(|(_, value)| value)
}

#[test]
fn messages_are_written_only_where_they_are_asked_for_and_twice_the_same() {
    let shop = shop(CONTACT, "{name: Nadia Ferrow, contact: nadia@ferrow.example}");
    let plain = render(&shop, &[]);
    assert_eq!((plain.code, plain.err.as_str()), (0, ""));
    assert!(
        !shop.has("out/A-1/return-report-message.eml")
            && !shop.has("out/A-1/return-report-phone.pdf")
    );
    let asked = render(&shop, &["--message"]);
    assert_eq!((asked.code, asked.err.as_str()), (0, ""));
    let first = shop.read("out/A-1/return-report-message.eml");
    std::fs::remove_dir_all(shop.path("out")).unwrap();
    render(&shop, &["--message"]);
    assert!(first == shop.read("out/A-1/return-report-message.eml"), "the message differs");
    // The same run without the message makes papers again, since other files were asked for.
    let again = shop.run(&["render", "jobs", "--out", "out"]);
    assert!(again.out.ends_with("1 job: 1 written\n"), "{}", again.out);
    let unchanged = shop.run(&["render", "jobs", "--out", "out"]);
    assert!(unchanged.out.ends_with("1 job: 1 unchanged\n"), "{}", unchanged.out);
}

#[test]
fn a_message_is_from_the_workshop_to_the_owner_on_the_day_of_the_paper() {
    let shop = shop(CONTACT, "{name: Nadia Ferrow, contact: 'ring, or nadia@ferrow.example'}");
    assert_eq!(render(&shop, &["--message"]).code, 0);
    let eml = text(&shop, "return-report-message.eml");
    let of = |name| header(&eml, name).unwrap_or_default();
    assert_eq!(of("From"), "\"Hollowmere Drive Works\" <post@hollowmere.example>");
    assert_eq!(of("To"), "\"Nadia Ferrow\" <nadia@ferrow.example>");
    assert_eq!(of("Subject"), "Return report A-1: Kestmar C2");
    // 11 March 2026 is a Wednesday (ISO 8601 week 11).
    assert_eq!(of("Date"), "Wed, 11 Mar 2026 12:00:00 +0000");
    let id = of("Message-ID");
    assert!(id.starts_with("<A-1.return-report.") && id.ends_with("@hollowmere.example>"), "{id}");
    // The evidence file is for whoever the workshop gives it to.
    assert_eq!(header(&text(&shop, "evidence-file-message.eml"), "To"), None);
    let said = text(&shop, "return-report-message.txt");
    for wanted in
        ["Dear Nadia Ferrow,", "main bearing", "£", "calendar", "Kind regards", "01632 960 123"]
    {
        assert!(said.contains(wanted), "{wanted} is not in {said}");
    }
    assert!(!said.contains("nadia@"), "{said}");
}

#[test]
fn nothing_typed_becomes_a_header_a_recipient_or_a_tag() {
    let name = "{name: 'Zoë \"Bcc: x@y.example\" <b>Ferrow</b>, O’Neill', contact: \"a@b.example>, c@d.example\"}";
    let shop = shop(CONTACT, name);
    let run = render(&shop, &["--message"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let eml = text(&shop, "return-report-message.eml");
    let names: BTreeSet<String> = headers(&eml).into_iter().map(|(name, _)| name).collect();
    let known = [
        "Content-Language",
        "Content-Type",
        "Date",
        "From",
        "MIME-Version",
        "Message-ID",
        "Subject",
        "To",
        "X-Unsent",
    ];
    assert_eq!(names.iter().map(String::as_str).collect::<Vec<_>>(), known);
    let to = header(&eml, "To").unwrap();
    assert!(to.ends_with("<a@b.example>") && to.matches('@').count() == 1, "{to}");
    let page = text(&shop, "return-report-message.html");
    assert!(page.contains("&lt;b&gt;Ferrow&lt;/b&gt;") && !page.contains("<b>"), "{page}");
}

#[test]
fn without_an_address_the_words_are_written_and_a_warning_says_what_is_missing() {
    let shop = shop("contact: [01632 960 123]\n", "{name: Nadia Ferrow, contact: 01632 960 456}");
    let run = render(&shop, &["--message"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(
        run.err.contains("message/no-sender") && run.err.contains("message/no-recipient"),
        "{}",
        run.err
    );
    assert!(
        shop.has("out/A-1/return-report-message.txt")
            && shop.has("out/A-1/return-report-message.html")
    );
    assert!(!shop.has("out/A-1/return-report-message.eml"));
    // Who does not ask for messages hears nothing of it.
    assert_eq!(render(&shop, &[]).err, "");
}

/// RFC 5545, 3.1: lines end with CR and LF and have at most 75 octets; 3.8.7.2: a stamp is in UTC.
#[test]
fn the_calendar_has_a_day_for_each_check_of_the_report_and_lasting_identities() {
    let shop = shop(CONTACT, "{name: Nadia Ferrow}");
    render(&shop, &[]);
    let first = text(&shop, "next-checks.ics");
    assert!(
        first.split("\r\n").all(|line| line.len() <= 75 && !line.contains(['\n', '\r'])),
        "{first}"
    );
    let values = |text: &str, key: &str| -> Vec<String> {
        let lines = text.split("\r\n").filter_map(|line| line.strip_prefix(key));
        lines.map(str::to_owned).collect()
    };
    let days = values(&first, "DTSTART;VALUE=DATE:");
    assert!(2 <= days.len() && days.len() == values(&first, "BEGIN:VEVENT").len(), "{first}");
    assert!(days.iter().all(|day| day.starts_with("2026") || day.starts_with("2027")), "{days:?}");
    assert!(values(&first, "DTSTAMP:").iter().all(|stamp| stamp == "20260311T120000Z"), "{first}");
    let uids = values(&first, "UID:");
    assert_eq!(uids.iter().collect::<BTreeSet<_>>().len(), days.len());
    // Given back a week later: other days, and the same identities, so that a calendar moves them.
    let later = closed("A-1", "{name: Nadia Ferrow}")
        .replace("returned: 2026-03-11", "returned: 2026-03-18");
    shop.file("jobs/A-1/findings.yaml", later);
    render(&shop, &[]);
    let second = text(&shop, "next-checks.ics");
    assert_ne!(values(&second, "DTSTART;VALUE=DATE:"), days);
    assert_eq!(values(&second, "UID:"), uids);
}

#[test]
fn a_unit_that_is_not_to_be_ridden_has_no_calendar() {
    let shop = Workshop::with_profile(&format!("{PROFILE}{CONTACT}"));
    let text = sheet("A-1")
        + "strip-down: {date: 2026-03-04, findings: [{part: crank-axle, condition: failed, signs: [axle-cracked-or-bent]}]}\n\
           outcome: returned-unrepaired\nreturned: 2026-03-11\n";
    shop.file("jobs/A-1/findings.yaml", text);
    let run = render(&shop, &["--message"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(!shop.has("out/A-1/next-checks.ics"));
    let said = String::from_utf8(shop.read("out/A-1/return-report-message.txt")).unwrap();
    assert!(!said.contains("calendar"), "{said}");
}

/// How many structure elements of a PDF there are of each kind, cells and rows of tables left out: a narrow
/// page has fewer columns.
fn structure(pdf: &Pdf) -> BTreeMap<String, usize> {
    let mut kinds = BTreeMap::new();
    for object in pdf.objects() {
        let Object::Dict(element) = object else { continue };
        let Some(kind) = element.get::<Name<'_>>("S") else { continue };
        let is_cell = ["TH", "TD", "TR", "THead", "TBody", "TFoot"].contains(&kind.as_str());
        if element.contains_key("P") && !is_cell {
            *kinds.entry(kind.as_str().to_owned()).or_insert(0) += 1;
        }
    }
    kinds
}

/// ISO 32000-1, annex C: a page has at most 14 400 units a side. 62 mm are 175.7 points.
#[test]
fn the_phone_edition_has_the_headings_and_figures_of_the_paper_in_one_narrow_column() {
    let shop = shop(CONTACT, "{name: Nadia Ferrow, contact: nadia@ferrow.example}");
    let run = render(&shop, &["--edition", "phone", "--message"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let open = |name: &str| Pdf::new(shop.read(&format!("out/A-1/{name}"))).unwrap();
    let (paper, phone) = (open("return-report.pdf"), open("return-report-phone.pdf"));
    for page in phone.pages().iter() {
        let (width, height) = page.base_dimensions();
        assert!((175.0..=176.5).contains(&width) && height <= 14_400.0, "{width} x {height}");
    }
    let (of_paper, of_phone) = (structure(&paper), structure(&phone));
    for kind in ["H1", "H2", "H3", "Figure", "Caption", "Table", "L", "LI"] {
        assert_eq!(of_phone.get(kind), of_paper.get(kind), "{kind}: {of_paper:?}, {of_phone:?}");
    }
    assert!(of_phone["H2"] > 3 && of_phone["Figure"] > 1, "{of_phone:?}");
    // The message carries both, and says so.
    let said = text(&shop, "return-report-message.txt");
    assert!(said.contains("a second time"), "{said}");
    let eml = text(&shop, "return-report-message.eml");
    assert!(eml.contains("A-1-return-report-phone.pdf") && eml.contains("A-1-next-checks.ics"));
}
