//! Every photo of the folder on a plate of its own: what it shows, its marks, and what is known of the
//! file. Places and serial numbers of cameras are never read, so none can be printed.

use crate::document::fonts;
use crate::document::format;
use crate::document::sections::photos::{self, Shows};
use crate::document::sections::record::words::word;
use crate::document::text;
use crate::document::view::fact::Fact;
use crate::document::view::record::{Plate, Plates};
use crate::document::view::{MarkView, PhotoView};
use crate::document::writer::Writer;
use crate::photo::{Colour, EditSign, Edited, Facts, NamedPhoto};
use crate::sheet::photo_use::PhotoUse;

/// Groups of four digits on one line of a digest.
const GROUPS_A_LINE: usize = 4;

/// The plates, in the order of the photos' numbers.
pub fn plates(writer: &Writer<'_>) -> Plates {
    let photos = writer.material.photos;
    let uses = uses(writer);
    let plates = (1_usize..).zip(photos);
    let plates = plates.map(|(number, named)| plate(writer, number, named, &uses));
    let text = if photos.is_empty() { "no-plates" } else { "plates-text" };
    Plates {
        heading: word(writer, "plates").to_owned(),
        text: vec![word(writer, text).to_owned()],
        plates: plates.collect(),
    }
}

/// Every place of the sheet that names a photo, in the order of the sheet.
fn uses<'a>(writer: &Writer<'a>) -> Vec<(&'a PhotoUse, Shows<'a>)> {
    let fields = writer.fields();
    let arrival = fields.arrival.photos.iter().map(|used| (used, Shows::Arrival));
    let findings = fields.findings().iter().flat_map(|finding| {
        let found = finding.photos.iter().map(move |used| (used, Shows::Found(finding)));
        found.chain(finding.photos_after.iter().map(move |used| (used, Shows::Left(finding))))
    });
    let exchange = fields.exchange.iter().flat_map(|exchange| &exchange.photos);
    arrival.chain(findings).chain(exchange.map(|used| (used, Shows::Exchange))).collect()
}

fn plate(
    writer: &Writer<'_>,
    number: usize,
    named: &NamedPhoto,
    uses: &[(&PhotoUse, Shows<'_>)],
) -> Plate {
    let count = writer.material.photos.len().to_string();
    let own: Vec<&(&PhotoUse, Shows<'_>)> =
        uses.iter().filter(|(used, _)| used.file.0 == named.name).collect();
    let views = own.iter().filter_map(|(used, shows)| {
        let view = photos::photo_views(writer, std::slice::from_ref(*used), *shows).pop()?;
        Some((view, *shows))
    });
    let views: Vec<(PhotoView, Shows<'_>)> = views.collect();
    let mut shows: Vec<String> =
        views.iter().map(|(view, shows)| shown(writer, view, *shows)).collect();
    if shows.is_empty() {
        shows.push(word(writer, "shows-nothing").to_owned());
    }
    let marks: Vec<MarkView> = views.iter().flat_map(|(view, _)| view.marks.clone()).collect();
    let file = fonts::printable(&named.name);
    let label =
        text::fill(word(writer, "plate"), &[("number", &number.to_string()), ("count", &count)]);
    let colon = writer.wording.grammar().colon();
    let alt = match views.is_empty() {
        true => format!("{label}{colon}{file}"),
        false => views.iter().map(|(view, _)| view.alt.as_str()).collect::<Vec<_>>().join("; "),
    };
    let photo = PhotoView {
        file: format!("/job/photo/{}.svg", number - 1),
        width: named.photo.width,
        height: named.photo.height,
        cut: None,
        bar: views.iter().find_map(|(view, _)| view.bar.clone()),
        number: number.to_string(),
        lead: None,
        caption: shows.join(" "),
        alt,
        marks,
    };
    Plate {
        number: label,
        facts: facts(writer, &file, &named.photo.facts, &photo.marks),
        photo,
        digest_label: word(writer, "sha-256").to_owned(),
        digest: lines(&named.photo.facts.sha256.hex()),
    }
}

/// `As found. Main bearing on the drive side, failed`, with the words under the photo if it has some.
fn shown(writer: &Writer<'_>, view: &PhotoView, shows: Shows<'_>) -> String {
    let lead = view.lead.clone().unwrap_or_default();
    let key = match shows {
        Shows::Found(_) => "shows-part",
        Shows::Arrival | Shows::Left(_) | Shows::Exchange => "shows",
    };
    let condition = match shows {
        Shows::Found(finding) => writer.wording.choice("conditions", finding.condition.word()),
        Shows::Arrival | Shows::Left(_) | Shows::Exchange => "",
    };
    let values = [("lead", lead.as_str()), ("subject", &view.caption), ("condition", condition)];
    text::ended(&text::fill(word(writer, key), &values))
}

fn facts(writer: &Writer<'_>, file: &str, facts: &Facts, marks: &[MarkView]) -> Vec<Fact> {
    let wording = writer.wording;
    let fact = |key, value: String| Fact::plain(word(writer, key), value);
    let camera = facts.camera.clone().unwrap_or_else(|| wording.label("not-recorded").to_owned());
    let original = text::fill(
        word(writer, "original-size"),
        &[
            ("width", &facts.width.to_string()),
            ("height", &facts.height.to_string()),
            ("format", facts.format.name()),
            ("bytes", &format::number(facts.bytes.into(), wording)),
        ],
    );
    let mut all = vec![
        fact("file", file.to_owned()),
        fact("taken", format::taken(facts.taken.as_ref(), wording)),
        fact("camera", camera),
        fact("original", original),
    ];
    let place = facts.has_location.then(|| word(writer, "place-recorded").to_owned());
    all.extend(place.map(|text| fact("place", text)));
    if !marks.is_empty() {
        let colon = wording.grammar().colon();
        let marks = marks.iter().map(|mark| {
            let kind = wording.choice("mark-kinds", mark.kind);
            mark.text
                .as_ref()
                .map_or_else(|| kind.to_owned(), |text| format!("{kind}{colon}{text}"))
        });
        all.push(fact("marks", marks.collect::<Vec<_>>().join("; ")));
    }
    all.extend(facts.edited.as_ref().map(|edited| fact("changed", changed(writer, edited))));
    let colours = wording.choice("colours", colour_word(facts.colour)).to_owned();
    all.push(fact("colours", colours));
    let damaged = facts.damaged.then(|| word(writer, "damaged-text").to_owned());
    all.extend(damaged.map(|text| fact("damaged", text)));
    all
}

fn colour_word(colour: Colour) -> &'static str {
    match colour {
        Colour::TakenAsSrgb => "taken-as-srgb",
        Colour::Converted => "converted",
        Colour::ProfileIgnored => "profile-ignored",
        Colour::PlainInks => "plain-inks",
    }
}

/// What the file states of a change after it was taken.
fn changed(writer: &Writer<'_>, edited: &Edited) -> String {
    let wording = writer.wording;
    let said = match edited.sign {
        EditSign::Composed => wording.choice("edited", "composed").to_owned(),
        EditSign::Later(by) => {
            let span = span(writer, by.num_seconds());
            text::fill(wording.choice("edited", "later"), &[("span", &span)])
        }
        EditSign::Steps(count) => {
            text::fill(wording.choice("edited", "steps"), &[("count", &count.to_string())])
        }
    };
    match &edited.by {
        Some(program) => text::fill(
            word(writer, "changed-by"),
            &[("said", &said), ("program", &fonts::printable(program))],
        ),
        None => said,
    }
}

/// A length of time in its two largest units that count.
fn span(writer: &Writer<'_>, seconds: i64) -> String {
    let units = [(86_400, "d"), (3_600, "h"), (60, "min"), (1, "s")];
    let mut rest = seconds;
    let mut parts = Vec::new();
    for (size, symbol) in units {
        let count = rest / size;
        rest %= size;
        if count != 0 && parts.len() < 2 {
            parts.push(format!("{}\u{202f}{symbol}", format::number(count.into(), writer.wording)));
        }
    }
    parts.join(" ")
}

/// A digest in groups of four, a few groups a line.
fn lines(hex: &str) -> Vec<String> {
    let groups: Vec<String> = format::digest(hex).split(' ').map(str::to_owned).collect();
    groups.chunks(GROUPS_A_LINE).map(|line| line.join(" ")).collect()
}
