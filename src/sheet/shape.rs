//! What a value may look like, as data: the one definition behind reader, schema,
//! blank sheet and the tables of the documents.
//!
//! Each [`super::reader::Value`] has its [`Shape`]; `schema.rs` and `blank.rs` turn shapes into text.

/// The form of a value.
#[derive(Clone, Debug)]
pub enum Shape {
    /// Free text; a number is taken as text too.
    Text,
    /// Text of a certain form: its name, a regular expression (ECMA-262) and an example.
    Form {
        /// What it is called in tables: `length with unit`.
        name: &'static str,
        /// Anchored regular expression.
        pattern: String,
        /// One right example.
        example: &'static str,
    },
    /// A whole number.
    Integer,
    /// A number without a unit, whole or not.
    Number {
        /// What it is called in tables: `number of cells`.
        name: &'static str,
        /// The least.
        least: f64,
        /// The most.
        most: f64,
    },
    /// One of these words.
    Words {
        /// What it is called in tables: `condition`.
        name: &'static str,
        /// The words, in their order.
        words: Vec<Choice>,
    },
    /// Any number of these.
    List(Box<Shape>),
    /// A block of named fields.
    Record(RecordShape),
    /// One of several forms.
    Either(Vec<Shape>),
}

/// One word of a list to choose from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Choice {
    /// The word as typed.
    pub word: String,
    /// What it means; empty if the words of the papers say it.
    pub about: &'static str,
    /// The word that it is read as, if it is a second spelling of that.
    pub same_as: Option<&'static str>,
    /// Other words of the trade for it.
    pub also: Vec<String>,
    /// Groups of parts, or kinds of unit, that it belongs to.
    pub on: Vec<String>,
}

impl Choice {
    /// A word that needs no explanation.
    pub fn plain(word: impl Into<String>) -> Self {
        Self { word: word.into(), ..Self::default() }
    }

    /// A word with what it means, and its second spelling behind it if it has one.
    pub fn all_of(word: &'static str, second: Option<&str>, about: &'static str) -> Vec<Self> {
        let own = Self { about, ..Self::plain(word) };
        let second =
            second.map(|second| Self { about, same_as: Some(word), ..Self::plain(second) });
        std::iter::once(own).chain(second).collect()
    }
}

/// A block of named fields.
#[derive(Clone, Debug)]
pub struct RecordShape {
    /// Name of the definition, as in the code: `Finding`.
    pub name: &'static str,
    /// What the block is for.
    pub about: String,
    /// Its fields in the order of the job.
    pub fields: Vec<FieldShape>,
}

/// Where the papers print the value of a field: nothing that is typed is lost unseen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Printed {
    /// In the section of the report that it belongs to: page 1, findings, work, ride and so on.
    #[default]
    InItsSection,
    /// On the arrival note.
    ArrivalNote,
    /// On the options letter.
    OptionsLetter,
    /// As typed, among the notes of the job at the end of the report.
    AsNoted,
    /// Nowhere as such; it decides what the papers say or look like.
    Decides,
    /// Nowhere: for the workshop only.
    WorkshopOnly,
}

/// One field of a block.
#[derive(Clone, Debug)]
pub struct FieldShape {
    /// The key as typed: `used-for`.
    pub key: String,
    /// Its key of one version ago, read with a warning.
    pub was: Option<&'static str>,
    /// What it is for.
    pub about: String,
    /// A right value as it would be typed; empty if the field is a block of its own.
    pub example: &'static str,
    /// True if the field must be there.
    pub required: bool,
    /// Where the papers print it.
    pub printed: Printed,
    /// The form of its value.
    pub shape: Shape,
}

impl Shape {
    /// What the value is called in tables.
    pub fn name(&self) -> String {
        match self {
            Self::Text => "text".into(),
            Self::Form { name, .. } | Self::Number { name, .. } | Self::Words { name, .. } => {
                (*name).into()
            }
            Self::Integer => "whole number".into(),
            Self::List(of) => format!("list of {}", of.name()),
            Self::Record(_) => "block".into(),
            Self::Either(of) => of.iter().map(Self::name).collect::<Vec<_>>().join(" or "),
        }
    }

    /// The block that this value is or lists, if it is one.
    pub fn record(&self) -> Option<&RecordShape> {
        match self {
            Self::Record(record) => Some(record),
            Self::List(of) => of.record(),
            Self::Either(of) => of.iter().find_map(Self::record),
            _ => None,
        }
    }
}
