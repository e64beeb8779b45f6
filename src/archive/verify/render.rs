//! A judgement in words: for people as text in parts, for scripts as one JSON object.
//!
//! Nothing is written to a terminal here.

use std::path::Path;

use serde_json::{Value, json};

use super::judgement::{Judgement, Outcome};
use super::queries::{Due, Found, Head};
use super::words::Statement;
use super::words::vouchers::Voucher;
use crate::archive::bag::names;
use crate::console::envelope;

/// Statements on what is not shown that a reader must not miss: they are in the first lines.
const FIRST: &[&str] = &[
    "archive/no-voucher",
    "archive/paper-silent",
    "archive/pages-not-compared",
    "archive/no-paper",
    "archive/earlier-paper",
    "archive/owners-copy",
    "archive/handover-copy",
    "archive/weak-digest",
    "archive/redacted",
];

impl Judgement {
    /// The judgement as people read it: the word and who vouches, what cannot be seen from inside,
    /// then what is wrong, could not be judged, was found, is not shown.
    pub fn text(&self, path: &Path) -> String {
        let mut text = format!("{}: {}\n", shown(path), self.outcome().words());
        for voucher in self.vouchers_that_count() {
            text.extend(["  vouched for by ", &voucher.text, "\n"]);
        }
        for limit in self.limits() {
            text.extend(["  not seen from inside: ", &limit.text, "\n"]);
        }
        let mut part = |heading: &str, lines: Vec<String>| {
            if !lines.is_empty() {
                text.extend(["\n", heading, "\n"]);
                for line in &lines {
                    text.extend(["  ", line, "\n"]);
                }
            }
        };
        let hint = |hint: &Option<String>| hint.as_ref().map(|hint| format!("  help: {hint}"));
        let flaws = self.flaws.iter().flat_map(|flaw| {
            let place = if flaw.place.is_empty() { "the whole" } else { &flaw.place };
            [Some(format!("{place}: {}", flaw.message)), hint(&flaw.hint)]
        });
        part("does not agree:", flaws.flatten().collect());
        let failures = self
            .could_not
            .iter()
            .flat_map(|failure| [Some(failure.to_string()), hint(&failure.hint)]);
        part("could not be judged:", failures.flatten().collect());
        part("found:", self.shown.iter().map(|one| one.text.clone()).collect());
        part("not shown by this:", self.rest().map(|one| one.text.clone()).collect());
        text
    }

    /// A voucher counts only if nothing is wrong and all could be judged.
    fn vouchers_that_count(&self) -> &[Voucher] {
        if self.outcome() == Outcome::VouchedFor { &self.vouchers } else { &[] }
    }

    /// What is not shown and is in the first lines.
    fn limits(&self) -> impl Iterator<Item = &Statement> {
        self.not_shown.iter().filter(|one| FIRST.contains(&one.code))
    }

    /// What else is not shown.
    fn rest(&self) -> impl Iterator<Item = &Statement> {
        self.not_shown.iter().filter(|one| !FIRST.contains(&one.code))
    }

    /// What does not agree and what could not be judged, as problems for scripts.
    pub fn problems_as_json(&self, path: &Path) -> Vec<Value> {
        let subject = shown(path);
        let flaws = self.flaws.iter().map(|flaw| {
            let (file, hint) = (flaw.place.as_str(), flaw.hint.as_deref());
            envelope::flaw(&subject, flaw.code, file, &flaw.message, hint)
        });
        let could_not = self.could_not.iter().map(|one| envelope::failure(&subject, one));
        flaws.chain(could_not).collect()
    }

    /// The judgement as a result for scripts, in the same words; its problems are told apart.
    pub fn as_json(&self, path: &Path) -> Value {
        let statement = |one: &Statement| json!({"code": one.code, "text": one.text});
        let vouchers = self.vouchers_that_count().iter();
        let vouchers = vouchers.map(|one| json!({"by": one.by, "text": one.text}));
        json!({
            "path": shown(path),
            "word": self.outcome().word().replace(' ', "-"),
            "vouched-for-by": vouchers.collect::<Vec<_>>(),
            "not-seen-from-inside": self.limits().map(statement).collect::<Vec<_>>(),
            "found": self.shown.iter().map(statement).collect::<Vec<_>>(),
            "not-shown": self.rest().map(statement).collect::<Vec<_>>(),
        })
    }
}

impl Outcome {
    /// The word for people and scripts.
    pub fn word(self) -> &'static str {
        match self {
            Self::AgreesWithItself => "agrees with itself",
            Self::VouchedFor => "vouched for",
            Self::DoesNotAgree => "does not agree",
            Self::CannotBeJudged => "cannot be judged",
        }
    }

    /// The word with what it means, if it says less than it seems to.
    fn words(self) -> String {
        match self {
            Self::AgreesWithItself => {
                format!("{}; nothing outside this folder vouches for it", self.word())
            }
            _ => self.word().to_owned(),
        }
    }
}

impl Head {
    /// Two lines to note: how many lines there are, and the digest of the last.
    pub fn text(&self) -> String {
        format!("lines: {}\nhead: {}\n", self.lines, self.digest)
    }
}

impl Due {
    /// One line: the last day, then the bag.
    pub fn text(&self) -> String {
        format!("{}  {}\n", self.keep_until, names::shown(&self.bag))
    }
}

impl Found {
    /// One line: the bag, then the paper in it and its digest.
    pub fn text(&self) -> String {
        let (bag, paper) = (names::shown(&self.bag), names::shown(&self.paper));
        format!("{bag}  {paper}  {}\n", self.digest)
    }
}

fn shown(path: &Path) -> String {
    names::shown(&path.to_string_lossy())
}
