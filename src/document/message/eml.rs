//! A whole message as a file (RFC 5322, RFC 2045): text and HTML side by side, the papers attached.
//!
//! Date, identity and boundaries come from the sheet's day and the digest of what is sent, so that the
//! same job gives the same bytes. A mail program opens it as a draft: `X-Unsent` is not a standard, and a
//! program that does not know it shows the message as it is.

use std::io;

use chrono::NaiveTime;
use mail_builder::MessageBuilder;
use mail_builder::headers::content_type::ContentType;
use mail_builder::headers::date::Date;
use mail_builder::headers::raw::Raw;
use mail_builder::mime::MimePart;

use super::attachment::Attachment;
use super::letter::Letter;
use crate::digest::Digest;
use crate::document::papers::Paper;

/// The message as bytes, from a name and an address.
///
/// # Errors
/// What the writer of messages refuses.
pub fn eml(
    letter: &Letter,
    (name, sender): &(String, String),
    paper: &Paper,
    attachments: &[Attachment<'_>],
) -> io::Result<Vec<u8>> {
    let job = &letter.job;
    let (text, html) = (letter.text(), letter.html());
    let digest = digest_of(letter, &text, attachments);
    let day = letter.day.and_time(NaiveTime::MIN).and_utc();
    let noon = day.timestamp() + 12 * 60 * 60;
    let domain = sender.split_once('@').map_or("", |(_, domain)| domain);
    let multipart = |kind: &str, parts| {
        // A line that begins with `--=_` is none of base64 and none of quoted-printable.
        let boundary = format!("=_{kind}_{digest}");
        let kind = ContentType::new(format!("multipart/{kind}"));
        MimePart::new(kind.attribute("boundary", boundary), parts)
    };
    let words = multipart(
        "alternative",
        vec![MimePart::new("text/plain", text.as_str()), MimePart::new("text/html", html.as_str())],
    );
    let files = attachments
        .iter()
        .map(|one| MimePart::new(one.mime, one.bytes).attachment(format!("{job}-{}", one.name)));
    let parts = [words].into_iter().chain(files).collect::<Vec<_>>();
    let mut message = MessageBuilder::new().from((name.as_str(), sender.as_str()));
    if let Some((name, address)) = &letter.to {
        message = message.to((name.as_str(), address.as_str()));
    }
    message
        .subject(letter.subject.as_str())
        .date(Date::new(noon))
        .message_id(format!("{job}.{}.{digest}@{domain}", paper.name))
        .header("Content-Language", Raw::new(letter.language.as_str()))
        .header("X-Unsent", Raw::new("1"))
        .body(multipart("mixed", parts))
        .write_to_vec()
}

/// The first half of the digest of all that is sent, its recipient and subject included.
fn digest_of(letter: &Letter, text: &str, attachments: &[Attachment<'_>]) -> String {
    let to = letter.to.as_ref().map_or("", |(_, address)| address);
    let mut all = format!("{to}\n{}\n{text}", letter.subject);
    for one in attachments {
        all.extend(["\n", one.name, " ", &Digest::of(one.bytes).hex()]);
    }
    let hex = Digest::of(all.as_bytes()).hex();
    hex.split_at_checked(32).map_or(hex.clone(), |(half, _)| half.to_owned())
}
