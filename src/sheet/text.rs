//! Plain texts of a sheet: free text, job numbers, file names, language tags, colours.

use unicode_normalization::UnicodeNormalization;

use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::yaml::{Content, Node};
use crate::diagnostic::source::is_unseen;

/// Free text with runs of white space made one space.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Text(pub String);

impl Value for Text {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let text = reader.scalar(node, "text").unwrap_or_default();
        if matches!(&node.content, Content::Scalar(text) if text.trim().is_empty()) {
            reader.report(problems::blank(reader.place(node)));
        }
        Self(text.split_whitespace().collect::<Vec<_>>().join(" "))
    }

    fn shape() -> Shape {
        Shape::Text
    }
}

/// Defines a text of a certain form: its check and its shape.
macro_rules! form {
    ($(#[doc = $about:literal])+ $name:ident, $what:literal, $pattern:expr, $example:literal, $is_right:expr) => {
        $(#[doc = $about])+
        #[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
        pub struct $name(pub String);

        impl Value for $name {
            fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
                let Some(text) = reader.scalar(node, $what) else { return Self::default() };
                let is_right: fn(&str) -> bool = $is_right;
                if is_right(text) {
                    return Self(text.to_owned());
                }
                let place = reader.place(node);
                reader.report(problems::wrong_form(place, $what, text, $example));
                Self::default()
            }

            fn shape() -> Shape {
                Shape::Form { name: $what, pattern: $pattern.into(), example: $example }
            }
        }
    };
}

form!(
    /// Number of a job: letters, digits, `-`, `_`, 1 to 40 of them; names the output folder.
    JobNumber, "job number", "^[A-Za-z0-9][A-Za-z0-9_-]{0,39}$", "HD-2614", is_job_number
);

/// True for a text that can name a job and its folder on every system.
pub fn is_job_number(text: &str) -> bool {
    (1..=40).contains(&text.len())
        && text.starts_with(|c: char| c.is_ascii_alphanumeric())
        && text.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_'))
        && !is_device(text)
}

/// Names that Windows keeps for devices, whatever ending follows (Microsoft, "Naming Files, Paths, and
/// Namespaces").
const DEVICES: &[&str] = &["con", "prn", "aux", "nul", "conin$", "conout$"];

/// True for a name that Windows takes for a device: `NUL`, `com1`, `aux.txt`.
pub fn is_device(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or_default().trim_end().to_lowercase();
    let is_port = ["com", "lpt"].iter().any(|port| {
        stem.strip_prefix(port).is_some_and(|rest| {
            let mut rest = rest.chars();
            matches!(rest.next(), Some('0'..='9' | '¹' | '²' | '³')) && rest.next().is_none()
        })
    });
    is_port || DEVICES.contains(&stem.as_str())
}

form!(
    /// Language of the papers, a BCP 47 tag of language and, if wanted, region: `en`, `de-CH`.
    Language, "language tag", "^[a-z]{2,3}(-[A-Z]{2})?$", "en",
    |text| {
        let (language, region) = text.split_once('-').unwrap_or((text, "GB"));
        matches!(language.len(), 2 | 3)
            && language.bytes().all(|byte| byte.is_ascii_lowercase())
            && region.len() == 2
            && region.bytes().all(|byte| byte.is_ascii_uppercase())
    }
);

impl Language {
    /// The language without its region: `de` of `de-CH`.
    pub fn base(&self) -> &str {
        self.0.split('-').next().unwrap_or_default()
    }

    /// The region, if one is given: `CH` of `de-CH`.
    pub fn region(&self) -> Option<&str> {
        self.0.split_once('-').map(|(_, region)| region)
    }
}

/// Languages whose numbers carry a decimal comma (CLDR; from memory).
pub fn has_decimal_comma(language: &str) -> bool {
    let base = language.split('-').next().unwrap_or_default();
    matches!(
        base,
        "bg" | "cs"
            | "da"
            | "de"
            | "el"
            | "es"
            | "et"
            | "fi"
            | "fr"
            | "hr"
            | "hu"
            | "it"
            | "lt"
            | "lv"
            | "nb"
            | "nl"
            | "nn"
            | "no"
            | "pl"
            | "pt"
            | "ro"
            | "ru"
            | "sk"
            | "sl"
            | "sv"
            | "tr"
            | "uk"
    )
}

/// The name of a file or folder inside the job folder, in composed Unicode form; climbing out of it is
/// refused.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct FileName(pub String);

impl Value for FileName {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, "a file name") else { return Self::default() };
        let place = reader.place(node);
        if let Some(c) = text.chars().find(|&c| is_unseen(c)) {
            reader.report(problems::control_character(place, c));
            return Self::default();
        }
        let is_absolute = text.starts_with('/');
        if is_absolute || text.contains(['\\', ':']) || text.split('/').any(|step| step == "..") {
            reader.report(problems::path_climbs(place, text));
            return Self::default();
        }
        // `./a.jpg` and `photos//a.jpg` are what a shell makes of plain names.
        let steps: Vec<&str> = text.split('/').filter(|step| !matches!(*step, "" | ".")).collect();
        if steps.is_empty() {
            reader.report(problems::wrong_form(place, "file name", text, "bearing.jpg"));
        }
        Self(steps.join("/").nfc().collect())
    }

    fn shape() -> Shape {
        Shape::Form { name: "file name", pattern: r"^[^\\:]+$".into(), example: "bearing.jpg" }
    }
}

/// A name with hyphens as words: `drive-side_bearing` as `drive side bearing`.
pub fn as_words(name: &str) -> String {
    let spaced = name.replace(['-', '_'], " ");
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}
