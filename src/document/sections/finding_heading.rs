//! The heading of a finding: what its first sign says of the part in its condition.
//!
//! In: a finding and those before it; out: a line. The technician's own heading comes before it, a
//! heading from the condition alone after it; both are `findings`.

use crate::document::facts::{self, Named};
use crate::document::text;
use crate::document::wording::grammar;
use crate::document::writer::Writer;
use crate::sheet::catalogue::Sign;
use crate::sheet::findings::Finding;
use crate::sheet::signs::SignEntry;
use crate::sheet::vocabulary::Condition;

/// The heading that the first sign gives; `None` without a sign. Where a finding before it has the same
/// heading, the part is named.
pub(super) fn of_sign(writer: &Writer<'_>, finding: &Finding) -> Option<String> {
    let sign = match &finding.signs.entries().first()?.value {
        SignEntry::Known(sign) => *sign,
        SignEntry::Other(own) => return Some(text::capitalised(&own.0)),
    };
    let heading = short(writer, finding, sign);
    let findings = writer.fields().findings();
    let before = findings.iter().take_while(|one| !std::ptr::eq(*one, finding));
    let is_said = |one: &Finding| {
        let first = one.signs.entries().first().map(|entry| &entry.value);
        let known = match first {
            Some(SignEntry::Known(sign)) if one.heading.is_none() => *sign,
            _ => return false,
        };
        short(writer, one, known) == heading
    };
    if !before.into_iter().any(is_said) {
        return Some(heading);
    }
    let story = facts::story(sign, finding.condition, writer.wording);
    let named = story.filter(|story| grammar::names_part(story));
    let told = |story: String| Named::of(finding).fill(&story, writer.wording);
    Some(named.map_or(heading, |story| text::capitalised(&told(story))))
}

/// The words of a sign alone.
fn short(writer: &Writer<'_>, finding: &Finding, sign: Sign) -> String {
    let wording = writer.wording;
    let failed = wording.sign_if(sign.name(), "failed");
    let form = failed.filter(|_| finding.condition == Condition::Failed);
    let form = form.unwrap_or_else(|| wording.sign(sign.name(), "heading"));
    Named::of(finding).fill_plain(form, wording)
}
