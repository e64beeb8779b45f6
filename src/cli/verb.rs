//! The verb of a command as it is typed, and the form that its answer is wanted in.

use super::Command;
use crate::console::Format;

impl Command {
    /// The verb as it is typed, and the form that its answer is wanted in.
    pub fn verb_and_format(&self) -> (&'static str, Format) {
        let (verb, output) = match self {
            Self::Jobs(jobs) => return ("jobs", jobs.format.into()),
            Self::Overview(overview) => ("overview", Some(overview.output)),
            Self::New(new) => ("new", Some(new.output)),
            Self::Import(import) => ("import", Some(import.output)),
            Self::Check(check) => ("check", Some(check.output)),
            Self::Render(render) => ("render", Some(render.output)),
            Self::Photos(photos) => ("photos", Some(photos.output)),
            Self::Mark(mark) => ("mark", Some(mark.output)),
            Self::Seal(seal) => ("seal", Some(seal.output)),
            Self::Verify(verify) => ("verify", Some(verify.output)),
            Self::Head(head) => ("head", Some(head.output)),
            Self::Erase(erase) => ("erase", Some(erase.output)),
            Self::Redact(redact) => ("redact", Some(redact.output)),
            Self::Words(words) => ("words", Some(words.output)),
            Self::Schema(_) => ("schema", None),
            Self::Completions(_) => ("completions", None),
            Self::Man(_) => ("man", None),
            Self::Apart => ("apart", None),
        };
        (verb, output.map_or(Format::Text, |output| output.format.into()))
    }
}
