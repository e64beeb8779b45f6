//! What the customer reads for a word of the sheet, from the English wordings.
//!
//! In: the kind of a word and the word; out: [`Reading`]. The wordings are data here: they belong to
//! `document`, and a workshop's own are not looked at.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::sheet::catalogue::embedded::embedded;

/// What the papers make of a word.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reading {
    /// What the customer reads.
    pub paper: Option<String>,
    /// What it does, or what there is to see, in other words.
    pub gloss: Option<String>,
    /// The term of the trade or of a standard.
    pub trade: Option<String>,
}

type Words = BTreeMap<String, String>;
type Sections = BTreeMap<String, Words>;

#[derive(Deserialize)]
struct Noted {
    words: Sections,
}

macro_rules! wording {
    ($name:ident: $type:ty, $file:literal) => {
        static $name: LazyLock<$type> = LazyLock::new(|| {
            embedded(include_str!(concat!("../../../report-templates/wording/en/", $file)))
        });
    };
}

wording!(PARTS: Sections, "parts.yaml");
wording!(SIGNS: Sections, "signs.yaml");
wording!(CONDITIONS: Sections, "conditions.yaml");
wording!(BENCH: Sections, "bench.yaml");
wording!(NOTED: Noted, "noted.yaml");

/// Kinds of words that have a section of their own in a wording.
const SECTIONS: &[(&str, &LazyLock<Sections>, &str)] = &[
    ("condition", &CONDITIONS, "conditions"),
    ("action", &CONDITIONS, "actions"),
    ("cause", &CONDITIONS, "causes"),
    ("origin of a fault", &CONDITIONS, "cause-origins"),
    ("outcome", &CONDITIONS, "outcomes"),
    ("kind of unit", &CONDITIONS, "unit-kinds"),
    ("option", &CONDITIONS, "option-kinds"),
    ("sign that a rider notices", &CONDITIONS, "noticed-signs"),
    ("bench check", &BENCH, "measures"),
    ("ring of a bearing", &BENCH, "turning-rings"),
    ("chemistry", &BENCH, "chemistries"),
];

/// What the papers make of a word of this kind, by the word that it is read as.
pub fn reading(kind: &str, word: &str) -> Reading {
    let of = |sections: &Sections, key: &str| sections.get(word)?.get(key).cloned();
    match kind {
        "part" => Reading {
            paper: of(&PARTS, "plain"),
            gloss: of(&PARTS, "gloss").map(|gloss| format!("it {gloss}")),
            trade: None,
        },
        "sign" => Reading {
            // Of which part is said by the finding.
            paper: of(&SIGNS, "heading").map(|heading| heading.replace("{part}", "part")),
            gloss: of(&SIGNS, "plain"),
            trade: of(&SIGNS, "trade"),
        },
        _ => {
            let section = SECTIONS.iter().find(|(own, ..)| *own == kind);
            let words = match section {
                Some((_, file, name)) => file.get(*name),
                None => NOTED.words.get(kind),
            };
            let paper = words.and_then(|words| words.get(word)).cloned();
            Reading { paper, ..Reading::default() }
        }
    }
}
