//! A judgement told: for people as text in parts, for scripts as one JSON object.
//!
//! Nothing is written to a terminal here.

use std::path::Path;

use serde_json::{Value, json};

use super::{Due, Ending, Found, Head, Judgement, Statement, names};

impl Judgement {
    /// The judgement as people read it: the ending first, then what is wrong, could not be looked
    /// at, is proved, is not proved.
    pub fn text(&self, path: &Path) -> String {
        let mut text = format!("{}: {}\n", shown(path), self.ending().word());
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
        part("wrong:", flaws.flatten().collect());
        let failures = self
            .could_not
            .iter()
            .flat_map(|failure| [Some(failure.to_string()), hint(&failure.hint)]);
        part("not checked:", failures.flatten().collect());
        let texts = |list: &[Statement]| list.iter().map(|one| one.text.clone()).collect();
        part("proved:", texts(&self.proved));
        part("not proved:", texts(&self.not_proved));
        text
    }

    /// The judgement as one JSON object for scripts.
    pub fn as_json(&self, path: &Path) -> Value {
        let statements = |list: &[Statement]| -> Vec<Value> {
            list.iter().map(|one| json!({"code": one.code, "text": one.text})).collect()
        };
        let flaws = self.flaws.iter().map(|flaw| {
            json!({
                "code": flaw.code, "place": flaw.place, "message": flaw.message, "hint": flaw.hint,
            })
        });
        let could_not = self
            .could_not
            .iter()
            .map(|failure| json!({"message": failure.to_string(), "hint": failure.hint}));
        json!({
            "path": shown(path),
            "ending": self.ending().word(),
            "proved": statements(&self.proved),
            "not-proved": statements(&self.not_proved),
            "wrong": flaws.collect::<Vec<_>>(),
            "not-checked": could_not.collect::<Vec<_>>(),
        })
    }
}

impl Ending {
    /// The word for people and scripts.
    pub fn word(self) -> &'static str {
        match self {
            Self::Intact => "intact",
            Self::NotIntact => "not intact",
            Self::CouldNotCheck => "could not check",
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
