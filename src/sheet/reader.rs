//! Marked tree -> typed values; collects every problem and never stops at the first.
//!
//! A value that cannot be read is reported once and then left out: an optional field is empty, a list
//! is shorter, and a block whose needed field cannot be read is left out as a whole. So nothing that
//! looks at a sheet later meets a value that nobody typed. The `record!` macro builds blocks from fields.

use std::ops::{Deref, Range};

use super::problems;
use super::shape::{Choice, Shape};
use super::spelling::as_word;
use super::yaml::{Content, Entry, Node};
use crate::diagnostic::source::Source;
use crate::diagnostic::{Diagnostic, Place, Problems, Severity};

/// The key of workshop-only remarks; allowed in every block, never printed.
pub const INTERNAL: &str = "internal";

/// Something that a sheet or profile can hold.
pub trait Value: Default {
    /// Reads the value. One that cannot be read is reported by [`Reader::report`], and what is returned
    /// then is thrown away by the field that it is in.
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self;
    /// What the value may look like.
    fn shape() -> Shape;
}

/// A value in the place of a block's field: required, optional or a list.
pub trait Field: Sized {
    /// True if a block without this field is refused.
    const REQUIRED: bool;
    /// Reads the field; `node` is `None` if the key is missing or has nothing after it.
    fn read_field(
        node: Option<&Node>,
        missing: impl FnOnce() -> Diagnostic,
        reader: &mut Reader<'_>,
    ) -> Self;
    /// What the field may look like.
    fn field_shape() -> Shape;
}

impl<T: Value> Field for T {
    const REQUIRED: bool = true;

    fn read_field(
        node: Option<&Node>,
        missing: impl FnOnce() -> Diagnostic,
        reader: &mut Reader<'_>,
    ) -> Self {
        match node {
            Some(node) => T::read(node, reader),
            None => {
                reader.report(missing());
                T::default()
            }
        }
    }

    fn field_shape() -> Shape {
        T::shape()
    }
}

impl<T: Value> Field for Option<T> {
    const REQUIRED: bool = false;

    fn read_field(
        node: Option<&Node>,
        _: impl FnOnce() -> Diagnostic,
        reader: &mut Reader<'_>,
    ) -> Self {
        node.and_then(|node| reader.whole(|reader| T::read(node, reader)))
    }

    fn field_shape() -> Shape {
        T::shape()
    }
}

impl<T: Value> Field for Vec<T> {
    const REQUIRED: bool = false;

    fn read_field(
        node: Option<&Node>,
        _: impl FnOnce() -> Diagnostic,
        reader: &mut Reader<'_>,
    ) -> Self {
        let Some(node) = node else { return Vec::new() };
        match &node.content {
            Content::List(items) => items
                .iter()
                .filter_map(|item| reader.whole(|reader| T::read(item, reader)))
                .collect(),
            // One value is a list of one.
            _ => reader.whole(|reader| T::read(node, reader)).into_iter().collect(),
        }
    }

    fn field_shape() -> Shape {
        Shape::List(Box::new(T::shape()))
    }
}

/// A value with its place in the sheet, for problems that only a later look can find.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Marked<T> {
    /// The value.
    pub value: T,
    /// Bytes of the sheet's text.
    pub span: Range<usize>,
}

impl<T> Deref for Marked<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.value
    }
}

impl<T: Value> Value for Marked<T> {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        Self { value: T::read(node, reader), span: node.span.clone() }
    }

    fn shape() -> Shape {
        T::shape()
    }
}

/// The state of reading one file.
pub struct Reader<'a> {
    source: &'a Source,
    problems: &'a mut Problems,
    /// True if numbers may carry a decimal comma.
    pub decimal_comma: bool,
    /// True if the value that is being read cannot be read.
    has_failed: bool,
}

impl<'a> Reader<'a> {
    /// A reader of one file.
    pub fn new(source: &'a Source, decimal_comma: bool, problems: &'a mut Problems) -> Self {
        Self { source, problems, decimal_comma, has_failed: false }
    }

    /// Collects a problem of the value that is being read; an error means that it cannot be read.
    pub fn report(&mut self, problem: Diagnostic) {
        self.has_failed |= problem.severity == Severity::Error;
        self.problems.push(problem);
    }

    /// Collects a problem that leaves the value that is being read as it is.
    pub fn remark(&mut self, problem: Diagnostic) {
        self.problems.push(problem);
    }

    /// True if the value that is being read has turned out to be unreadable.
    pub fn has_failed(&self) -> bool {
        self.has_failed
    }

    /// How many errors the file has so far.
    pub fn n_errors(&self) -> usize {
        self.problems.n_errors()
    }

    /// Gives up the value that is being read, for an error that was reported already.
    pub fn give_up(&mut self) {
        self.has_failed = true;
    }

    /// Reads one value by itself: `None` if it could not be read.
    pub fn whole<T>(&mut self, read: impl FnOnce(&mut Self) -> T) -> Option<T> {
        let outer = std::mem::take(&mut self.has_failed);
        let value = read(self);
        let has_failed = std::mem::replace(&mut self.has_failed, outer);
        (!has_failed).then_some(value)
    }

    /// The place of a value.
    pub fn place(&self, node: &Node) -> Place {
        Place::at(self.source, node.span.clone())
    }

    /// The text of a scalar, or a report that `what` was expected.
    pub fn scalar<'n>(&mut self, node: &'n Node, what: &str) -> Option<&'n str> {
        match &node.content {
            Content::Scalar(text) => Some(text),
            content => {
                let found = match content {
                    Content::List(_) => "a list",
                    Content::Map(_) => "a block",
                    Content::Empty | Content::Scalar(_) => "nothing",
                };
                let place = self.place(node);
                self.report(problems::wrong_type(place, what, found));
                None
            }
        }
    }

    /// The fields of a block, or a report that a block was expected.
    pub fn record<'n>(
        &mut self,
        node: &'n Node,
        name: &str,
        keys: &[String],
    ) -> Option<Fields<'n>> {
        match &node.content {
            Content::Map(entries) => {
                self.unknown_keys(entries, keys);
                Some(Fields { entries, span: node.span.clone() })
            }
            _ => {
                let place = self.place(node);
                self.report(problems::not_a_block(place, name, keys));
                None
            }
        }
    }

    fn unknown_keys(&mut self, entries: &[Entry], keys: &[String]) {
        for entry in entries {
            if entry.key != INTERNAL && !keys.contains(&entry.key) {
                let place = Place::at(self.source, entry.key_span.clone());
                self.remark(problems::unknown_field(place, &entry.key, keys));
            }
        }
    }

    /// Reads one field of a block.
    pub fn field<F: Field>(&mut self, fields: &Fields<'_>, key: &str) -> F {
        let entry = fields.entries.iter().find(|entry| entry.key == key);
        let span = entry.map_or(&fields.span, |entry| &entry.key_span);
        let place = Place::at(self.source, span.clone());
        let node = entry.map(|entry| &entry.value);
        // A text of blanks says as little as nothing after the colon.
        let node = node.filter(|node| match &node.content {
            Content::Empty => false,
            Content::Scalar(text) => !text.trim().is_empty(),
            _ => true,
        });
        F::read_field(node, || problems::missing_field(place, key, &F::field_shape()), self)
    }
}

/// The keys and values of one block.
pub struct Fields<'n> {
    entries: &'n [Entry],
    span: Range<usize>,
}

/// Defines a block of the sheet or profile: the struct, its reader and its shape in one place.
///
/// Each line is `name: Type, "example as typed";` under its doc comment; `name as "key"` sets a key
/// that differs from the name, `was "old"` the key that it had before. `Option` and `Vec` make a field
/// optional. `=> AsNoted` and the other kinds of [`Printed`](super::shape::Printed) say where the papers print it; without one it is
/// printed in its own section of the report.
macro_rules! record {
    (
        $(#[doc = $about:literal])+
        pub struct $name:ident {
            $( $(#[doc = $doc:literal])+ $field:ident $(as $key:literal)? $(was $old:literal)? : $type:ty, $example:literal $(=> $printed:ident)?; )+
        }
    ) => {
        $(#[doc = $about])+
        #[derive(Clone, Debug, Default)]
        pub struct $name { $( $(#[doc = $doc])+ pub $field: $type, )+ }

        impl $name {
            fn keys() -> &'static [String] {
                static KEYS: std::sync::LazyLock<Vec<String>> = std::sync::LazyLock::new(|| {
                    vec![$( $crate::sheet::reader::key_of(stringify!($field), &[$($key)?]) ),+]
                });
                &KEYS
            }
        }

        impl $crate::sheet::reader::Value for $name {
            fn read(node: &$crate::sheet::yaml::Node, reader: &mut $crate::sheet::reader::Reader<'_>) -> Self {
                let Some(fields) = reader.record(node, stringify!($name), Self::keys()) else {
                    return Self::default();
                };
                let mut keys = Self::keys().iter();
                Self { $( $field: reader.field(&fields, keys.next().map_or("", String::as_str)), )+ }
            }

            fn shape() -> $crate::sheet::shape::Shape {
                use $crate::sheet::reader::Field;
                let mut keys = Self::keys().iter();
                $crate::sheet::shape::Shape::Record($crate::sheet::shape::RecordShape {
                    name: stringify!($name),
                    about: [$($about),+].concat().trim().to_owned(),
                    fields: vec![$( $crate::sheet::shape::FieldShape {
                        key: keys.next().cloned().unwrap_or_default(),
                        was: [$($old)?].first().copied(),
                        about: [$($doc),+].concat().trim().to_owned(),
                        example: $example,
                        required: <$type as Field>::REQUIRED,
                        printed: {
                            #[allow(unused_mut, unused_assignments, reason = "set where a kind is named")]
                            let mut printed = $crate::sheet::shape::Printed::default();
                            $( printed = $crate::sheet::shape::Printed::$printed; )?
                            printed
                        },
                        shape: <$type as Field>::field_shape(),
                    } ),+],
                })
            }
        }
    };
}

/// The key of a field: the one set by hand, else the field's name with hyphens.
pub fn key_of(field: &str, by_hand: &[&str]) -> String {
    by_hand.first().map_or_else(|| field.replace('_', "-"), |key| (*key).to_owned())
}

/// Defines a choice of words: the enum, its reader and its shape in one place.
macro_rules! words {
    (
        $(#[doc = $about:literal])+
        $what:literal pub enum $name:ident {
            $( $(#[doc = $doc:literal])+ $variant:ident = $word:literal $(or $also:literal)?, )+
        }
    ) => {
        $(#[doc = $about])+
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
        #[allow(missing_docs, reason = "the word itself says it where a line would only repeat it")]
        pub enum $name { #[default] $( $(#[doc = $doc])+ $variant, )+ }

        impl $name {
            /// Every choice, in the order of the list.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The word as typed in a sheet, which is also its key in the wordings.
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }

            /// A second word that is read as the same, if there is one.
            pub fn also(self) -> Option<&'static str> {
                let also: &[&'static str] = match self { $(Self::$variant => &[$($also)?]),+ };
                also.first().copied()
            }

            /// What it means, in a sentence.
            pub fn about(self) -> &'static str {
                match self { $(Self::$variant => concat!($($doc),+).trim_ascii()),+ }
            }

            /// Every word with its meaning, second ones behind those that they are read as.
            fn choices() -> Vec<$crate::sheet::shape::Choice> {
                use $crate::sheet::shape::Choice;
                Self::ALL.iter().flat_map(|one| Choice::all_of(one.word(), one.also(), one.about())).collect()
            }
        }

        impl $crate::sheet::reader::Value for $name {
            fn read(node: &$crate::sheet::yaml::Node, reader: &mut $crate::sheet::reader::Reader<'_>) -> Self {
                let second = Self::ALL.iter().find(|one| {
                    matches!((&node.content, one.also()), ($crate::sheet::yaml::Content::Scalar(text), Some(also))
                        if $crate::sheet::spelling::as_word(text) == also)
                });
                match second {
                    Some(one) => *one,
                    None => reader.choice(node, $what, Self::ALL, |one| one.word(), Self::choices),
                }
            }

            fn shape() -> $crate::sheet::shape::Shape {
                $crate::sheet::shape::Shape::Words { name: $what, words: Self::choices() }
            }
        }
    };
}

pub(crate) use {record, words};

impl Reader<'_> {
    /// One of a list of words, or a report with the nearest word.
    pub fn choice<T: Copy + Default>(
        &mut self,
        node: &Node,
        what: &str,
        all: &[T],
        word: impl Fn(&T) -> &'static str,
        choices: impl Fn() -> Vec<Choice>,
    ) -> T {
        let Some(text) = self.scalar(node, what) else { return T::default() };
        let meant = as_word(text);
        let found = all.iter().find(|one| word(one) == text || word(one) == meant);
        found.copied().unwrap_or_else(|| {
            let place = self.place(node);
            self.report(problems::unknown_word(place, what, text, &choices()));
            T::default()
        })
    }
}
