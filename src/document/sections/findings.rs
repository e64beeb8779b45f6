//! Findings, part by part: plain words first, trade words in the spine.

use crate::document::sections::{finding_heading, photos};
use serde::Serialize;

use super::photos::Shows;
use crate::assessment::bench::bearing::{Bearing, ClearanceClass, Closure};
use crate::diagnostic::Diagnostic;
use crate::document::clauses::{Facts, Slot};
use crate::document::facts::{self, PartFacts};
use crate::document::text;
use crate::document::view::fact::Fact;
use crate::document::view::{FindingView, Natural, Pair, PhotoView};
use crate::document::writer::Writer;
use crate::sheet::catalogue::sign::SignKind;
use crate::sheet::findings::Finding;
use crate::sheet::photo_use::PhotoUse;
use crate::sheet::signs::SignEntry;
use crate::sheet::vocabulary::Condition;

/// Widest bearing in mm that the spine has room for.
const WIDEST_DRAWN: u32 = 39;

/// Height in widths of a compared photo that every row of thirds has room for, whatever stands beside it
/// (`third-height` in `shared/finding.typ`): before and after may be in different rows.
const TALLEST_COMPARED: f64 = 0.75;

/// What the sentences of one finding see: the part, and the values of the job.
#[derive(Serialize)]
struct FindingFacts<'a> {
    part: &'a PartFacts,
}

/// How the unit came, then part by part, then the unit that goes back in exchange.
pub fn findings(writer: &Writer<'_>, pair: Option<&Pair>) -> Result<Vec<FindingView>, Diagnostic> {
    let fields = writer.fields();
    let findings = fields.strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
    let on_page_1: Vec<&str> = pair
        .iter()
        .flat_map(|pair| std::iter::once(&pair.before).chain(&pair.after))
        .map(|photo| photo.number.as_str())
        .collect();
    let parts = findings.iter().map(|finding| finding_view(writer, finding, &on_page_1));
    let mut views = parts.collect::<Result<Vec<_>, _>>()?;
    tell_sizes_once(&mut views);
    if let Some((finding, drawn)) = drawn(writer, findings)
        && let Some(at) = findings.iter().position(|one| std::ptr::eq(one, finding))
    {
        views[at].natural = Some(drawn);
    }
    if let Some(arrival) = arrival(writer, &on_page_1)? {
        views.insert(0, arrival);
    }
    views.extend(sent_back(writer, &on_page_1));
    Ok(views)
}

/// The harmed part that fared worst of those whose bearing can be drawn as large as it is.
fn drawn<'f>(writer: &Writer<'_>, findings: &'f [Finding]) -> Option<(&'f Finding, Natural)> {
    let worst = facts::by_weight(findings).into_iter();
    let mut drawable = worst.filter(|finding| finding.condition != Condition::Sound);
    drawable.find_map(|finding| natural(writer, finding).map(|drawn| (finding, drawn)))
}

/// True if the first photo of page 1 is of the part whose bearing is drawn.
pub fn is_bearing_of(writer: &Writer<'_>, pair: Option<&Pair>) -> bool {
    let findings = writer.fields().strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
    let number = |photo: &PhotoUse| writer.material.photo(&photo.file.0).map(|(number, _)| number);
    drawn(writer, findings).zip(pair).is_some_and(|((finding, _), pair)| {
        let mut numbers = finding.photos.iter().filter_map(number);
        numbers.any(|number| number.to_string() == pair.before.number)
    })
}

fn finding_view(
    writer: &Writer<'_>,
    finding: &Finding,
    on_page_1: &[&str],
) -> Result<FindingView, Diagnostic> {
    let wording = writer.wording;
    let part = facts::part(finding, wording);
    let known: Facts = writer.facts.known.union(&part.known).copied().collect();
    let values = FindingFacts { part: &part };
    let own = finding.heading.as_ref().map(|heading| heading.0.clone());
    let own = own.or_else(|| finding_heading::of_sign(writer, finding));
    let tells_more = own.is_some();
    let heading = match own {
        Some(heading) => heading,
        None => writer.said_of(Slot::FindingHeading, &known, &values)?,
    };
    let said = writer.said_of(Slot::Finding, &known, &values)?;
    let note = finding.note.iter().map(|note| text::ended(&note.0));
    let text: Vec<String> = note.chain([said]).filter(|text| !text.is_empty()).collect();
    let mut before = shown(writer, &finding.photos, Shows::Found(finding), on_page_1);
    let mut after = shown(writer, &finding.photos_after, Shows::Left(finding), on_page_1);
    photos::compare(writer, finding, (before.first_mut(), after.first_mut()), TALLEST_COMPARED);
    Ok(FindingView {
        part: text::capitalised(wording.part_of(finding)),
        condition: finding.condition.word(),
        condition_word: wording.choice("conditions", finding.condition.word()).to_owned(),
        action_word: finding
            .action
            .map(|action| wording.choice("actions", action.word()).to_owned()),
        facts: trade_facts(writer, finding),
        natural: None,
        heading,
        tells_more,
        text: if text.is_empty() { text } else { vec![text.join(" ")] },
        reference: reference(writer, finding),
        photos: before,
        photos_after: after,
    })
}

/// Photos that page 1 does not show already.
fn shown(
    writer: &Writer<'_>,
    photos: &[PhotoUse],
    shows: Shows<'_>,
    on_page_1: &[&str],
) -> Vec<PhotoView> {
    let mut views = match shows {
        Shows::Found(_) | Shows::Left(_) => photos::beside_their_part(writer, photos, shows),
        Shows::Arrival | Shows::Exchange => photos::photo_views(writer, photos, shows),
    };
    views.retain(|photo| !on_page_1.contains(&photo.number.as_str()));
    views
}

/// How the unit came: signs and photos from before it was opened.
fn arrival(writer: &Writer<'_>, on_page_1: &[&str]) -> Result<Option<FindingView>, Diagnostic> {
    let arrival = &writer.fields().arrival;
    let photos = shown(writer, &arrival.photos, Shows::Arrival, on_page_1);
    let said = writer.said(Slot::Arrival)?;
    if photos.is_empty() && said.is_empty() {
        return Ok(None);
    }
    // A photo of which nothing is to be said is in the evidence file.
    if said.is_empty() && arrival.signs.entries().is_empty() && arrival.water.is_none() {
        return Ok(None);
    }
    Ok(Some(FindingView {
        part: writer.wording.label("on-arrival").to_owned(),
        heading: writer.said(Slot::ArrivalHeading)?,
        text: [said].into_iter().filter(|text| !text.is_empty()).collect(),
        reference: arrival_reference(writer),
        photos,
        ..FindingView::default()
    }))
}

/// The photos of the arrival, if they can show what is said of it: a trial or a tale has none.
fn arrival_reference(writer: &Writer<'_>) -> Option<String> {
    let arrival = &writer.fields().arrival;
    let can_be_seen = |entry: &SignEntry| match entry {
        SignEntry::Known(sign) => sign.0.kind == SignKind::Seen,
        SignEntry::Other(_) => true,
    };
    let mut entries = arrival.signs.entries().iter();
    let shows = arrival.water.is_some() || entries.any(|entry| can_be_seen(&entry.value));
    numbers_of(writer, arrival.photos.iter().filter(|_| shows))
}

/// The unit that goes back in exchange, if it was photographed.
fn sent_back(writer: &Writer<'_>, on_page_1: &[&str]) -> Option<FindingView> {
    let exchange = writer.fields().exchange.as_ref()?;
    let photos = shown(writer, &exchange.photos, Shows::Exchange, on_page_1);
    let label = writer.wording.label("unit-in-exchange");
    (!photos.is_empty()).then(|| FindingView {
        part: label.to_owned(),
        heading: exchange.model.as_ref().map_or(label.to_owned(), |model| model.0.clone()),
        reference: numbers_of(writer, exchange.photos.iter()),
        photos,
        ..FindingView::default()
    })
}

/// Designation and trade terms, for readers of the trade.
fn trade_facts(writer: &Writer<'_>, finding: &Finding) -> Vec<Fact> {
    let wording = writer.wording;
    let bearing = finding.bearing.as_ref().map(|name| Fact {
        under: Bearing::parse(&name.0).map(|bearing| bearing_text(writer, &bearing)),
        ..Fact::mono(wording.label("bearing"), &name.0)
    });
    let mut facts: Vec<Fact> = bearing.into_iter().collect();
    if !finding.signs.is_empty() && finding.condition != Condition::Sound {
        let terms: Vec<&str> =
            finding.signs.iter().map(|sign| wording.sign(sign.name(), "trade")).collect();
        let norms: Vec<&str> =
            finding.signs.iter().filter_map(|sign| sign.0.iso.as_deref()).collect();
        let under = (!norms.is_empty()).then(|| {
            norms.iter().map(|norm| format!("ISO\u{a0}{norm}")).collect::<Vec<_>>().join(", ")
        });
        let label = wording.label("trade-term");
        facts.push(Fact { under, ..Fact::plain(label, terms.join("; ")) });
    }
    facts
}

/// How many parts were found harmed.
pub fn n_harmed(writer: &Writer<'_>) -> usize {
    let strip = writer.fields().strip_down.as_ref();
    let is_harmed = |finding: &&Finding| {
        !matches!(finding.condition, Condition::Sound | Condition::NotExamined)
    };
    strip.map_or(0, |strip| strip.findings.iter().filter(is_harmed).count())
}

/// What a designation means is said if it first comes.
fn tell_sizes_once(views: &mut [FindingView]) {
    let mut told: Vec<String> = Vec::new();
    for fact in
        views.iter_mut().flat_map(|view| &mut view.facts).filter(|fact| fact.style == "mono")
    {
        if told.contains(&fact.value) {
            fact.under = None;
        } else {
            told.push(fact.value.clone());
        }
    }
}

/// The bearing of a part as large as it is, if that fits the spine.
fn natural(writer: &Writer<'_>, finding: &Finding) -> Option<Natural> {
    let name = &finding.bearing.as_ref()?.0;
    let size = Bearing::parse(name)?.size.filter(|size| size.outside <= WIDEST_DRAWN)?;
    let (bore, outside) = (size.bore.to_string(), size.outside.to_string());
    let values = [("name", name.as_str()), ("bore", &*bore), ("outside", &*outside)];
    Some(Natural {
        bore: size.bore,
        outside: size.outside,
        caption: text::fill(writer.wording.label("natural-size"), &values),
        alt: text::fill(writer.wording.label("natural-size-alt"), &values),
    })
}

/// What a designation means: size, closure, clearance.
fn bearing_text(writer: &Writer<'_>, bearing: &Bearing) -> String {
    let wording = writer.wording;
    let size = bearing.size.map(|size| {
        let (bore, outside) = (size.bore.to_string(), size.outside.to_string());
        let values = [("bore", &*bore), ("outside", &*outside), ("width", &size.width.to_string())];
        text::fill(wording.label("bearing-size"), &values)
    });
    let closure = match bearing.closure {
        Closure::Open => "open",
        Closure::Shields => "shields",
        Closure::NonContactSeals => "non-contact-seals",
        Closure::LightContactSeals => "light-contact-seals",
        Closure::ContactSeals => "contact-seals",
    };
    let sides = if bearing.closed_sides == 1 { "one-side" } else { "both-sides" };
    let closure = wording.choice("closures", closure);
    let closure = match bearing.closed_sides {
        0 => closure.to_owned(),
        _ => text::fill(wording.label(sides), &[("closure", closure)]),
    };
    let clearance = match bearing.clearance {
        ClearanceClass::Normal => None,
        ClearanceClass::C2 => Some("C2"),
        ClearanceClass::C3 => Some("C3"),
        ClearanceClass::C4 => Some("C4"),
        ClearanceClass::C5 => Some("C5"),
        ClearanceClass::Motor => Some("CM"),
    };
    let clearance =
        clearance.map(|class| text::fill(wording.label("clearance-class"), &[("class", class)]));
    let parts: Vec<String> = size.into_iter().chain([closure]).chain(clearance).collect();
    parts.join(", ")
}

/// `Photos 3, 4`: the photos as found, those of page 1 too. A photo as left shows no damage.
fn reference(writer: &Writer<'_>, finding: &Finding) -> Option<String> {
    numbers_of(writer, finding.photos.iter())
}

/// `Photos 3, 4`, by their numbers in the evidence list.
pub fn numbers_of<'p>(
    writer: &Writer<'_>,
    photos: impl Iterator<Item = &'p PhotoUse>,
) -> Option<String> {
    let numbers: Vec<String> = photos
        .filter_map(|photo| writer.material.photo(&photo.file.0))
        .map(|(number, _)| number.to_string())
        .collect();
    let label = match numbers.len() {
        0 => return None,
        1 => writer.wording.label("photo-number"),
        _ => writer.wording.label("photo-numbers"),
    };
    Some(text::fill(label, &[("numbers", &numbers.join(", "))]))
}
