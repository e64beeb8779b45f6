//! What a covering message says: who to whom, subject, paragraphs; as text and as HTML.
//!
//! What it says of the unit comes from the table of clauses; the rest is about what is attached.

use chrono::NaiveDate;

use super::address::address_in;
use crate::diagnostic::Diagnostic;
use crate::document::clauses::Slot;
use crate::document::format;
use crate::document::papers::Paper;
use crate::document::sections::costs::settled;
use crate::document::sections::opening;
use crate::document::text;
use crate::document::writer::Writer;

/// A covering message in words.
pub struct Letter {
    /// Name and address of the workshop, if its profile has one.
    pub from: Option<(String, String)>,
    /// Name and address of the customer, if the sheet has one and the paper is theirs.
    pub to: Option<(String, String)>,
    /// Language of the text.
    pub language: String,
    /// Number of the job.
    pub job: String,
    /// The day of the paper.
    pub day: NaiveDate,
    /// The subject.
    pub subject: String,
    /// Paragraphs, from the greeting to the closing words.
    paragraphs: Vec<String>,
    /// The lines under them.
    signature: Vec<String>,
}

impl Letter {
    /// The message that goes with a paper, with the calendar of next checks and a phone edition beside it
    /// or without.
    ///
    /// # Errors
    /// A sentence whose template does not work, placed in its own file.
    pub fn of(
        writer: &Writer<'_>,
        paper: &Paper,
        has_calendar: bool,
        has_phone: bool,
    ) -> Result<Self, Diagnostic> {
        let (fields, wording) = (writer.fields(), writer.wording);
        let profile = &writer.material.workshop.fields;
        let word = |key| wording.choice("message", key);
        let is_owners = is_owners(paper);
        let mut paragraphs = Vec::new();
        if is_owners {
            let name = [("name", fields.customer.name.0.as_str())];
            paragraphs.push(text::fill(word("greeting"), &name));
        } else {
            paragraphs.push(word("greeting-nobody").to_owned());
        }
        paragraphs.extend(about(writer, paper)?);
        paragraphs.extend(has_calendar.then(|| word("calendar").to_owned()));
        paragraphs.extend(has_phone.then(|| word("phone").to_owned()));
        paragraphs.push(word("questions").to_owned());
        paragraphs.push(word("regards").to_owned());
        let sender = profile.contact.iter().find_map(|line| address_in(&line.0));
        let contact = fields.customer.contact.as_ref().filter(|_| is_owners);
        let recipient = contact.and_then(|contact| address_in(&contact.0));
        let lines = profile.address.iter().chain(&profile.contact).map(|line| line.0.clone());
        Ok(Self {
            from: sender.map(|address| (profile.name.0.clone(), address.to_owned())),
            to: recipient.map(|address| (fields.customer.name.0.clone(), address.to_owned())),
            language: writer.material.cover().language.base().to_owned(),
            job: fields.job.0.clone(),
            day: writer.material.cover().day,
            subject: subject(writer, paper),
            paragraphs,
            signature: [profile.name.0.clone()].into_iter().chain(lines).collect(),
        })
    }

    /// As plain text, a paragraph a line, with an empty line between them.
    pub fn text(&self) -> String {
        let signature = self.signature.join("\n");
        let parts = self.paragraphs.iter().map(String::as_str).chain([signature.as_str()]);
        parts.collect::<Vec<_>>().join("\n\n") + "\n"
    }

    /// As an HTML page of paragraphs, without styles, scripts or anything that is fetched.
    pub fn html(&self) -> String {
        let lines = self.signature.iter().map(|line| escaped(line)).collect::<Vec<_>>();
        let paragraphs = self.paragraphs.iter().map(|text| escaped(text));
        let paragraphs = paragraphs.chain([lines.join("<br>\n")]);
        let body: Vec<String> = paragraphs.map(|text| format!("<p>{text}</p>\n")).collect();
        let body = body.concat();
        format!(
            "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n\
             <title>{}</title>\n</head>\n<body>\n{body}</body>\n</html>\n",
            escaped(&self.language),
            escaped(&self.subject)
        )
    }
}

/// The evidence file is for whoever the workshop gives it to; every other paper is the owner's.
fn is_owners(paper: &Paper) -> bool {
    paper.message() != Some(Slot::MessageEvidenceFile)
}

/// What is attached, and the one sentence and the amount that a closed job has.
fn about(writer: &Writer<'_>, paper: &Paper) -> Result<Vec<String>, Diagnostic> {
    let Some(slot) = paper.message() else { return Ok(Vec::new()) };
    let mut texts = vec![writer.said(slot)?];
    match slot {
        Slot::MessageReturnReport => {
            texts.push(opening::lead(writer)?);
            texts.extend(settled::paid(writer).map(|paid| {
                let values = [("label", paid.label.as_str()), ("amount", &paid.amount)];
                text::fill(writer.wording.choice("message", "amount"), &values)
            }));
        }
        Slot::MessageOptionsLetter => texts.extend(valid_to(writer)),
        _ => {}
    }
    texts.retain(|text| !text.is_empty());
    Ok(texts)
}

/// Until when the prices hold, if they all hold until the same day.
fn valid_to(writer: &Writer<'_>) -> Option<String> {
    let options = &writer.material.assessment.costs.options;
    let day = options.first()?.valid_to?;
    options.iter().all(|option| option.valid_to == Some(day)).then(|| {
        let day = format::day(day, writer.wording);
        text::fill(writer.wording.label("prices-hold"), &[("day", &day)])
    })
}

/// `Return report HD-2614: Kestmar C4`.
fn subject(writer: &Writer<'_>, paper: &Paper) -> String {
    let (fields, wording) = (writer.fields(), writer.wording);
    let kind = wording.choice("unit-kinds", fields.unit.kind.word());
    let unit = fields.unit.model.as_ref().map_or(kind, |model| model.0.as_str());
    text::fill(
        wording.choice("message", "subject"),
        &[
            ("paper", wording.choice("message-papers", paper.name)),
            ("job", &fields.job.0),
            ("unit", unit),
        ],
    )
}

/// Text as HTML shows it.
fn escaped(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => shown.push_str("&amp;"),
            '<' => shown.push_str("&lt;"),
            '>' => shown.push_str("&gt;"),
            '"' => shown.push_str("&quot;"),
            other => shown.push(other),
        }
    }
    shown
}
