//! What can be seen of arguments before they are read: verb, form of the answer, colours.
//!
//! Help and refused arguments are printed in the form that was asked for too.

use std::ffi::OsString;

use clap::{CommandFactory, ValueEnum};

use super::Arguments;
use super::manner::Color;
use crate::console::Format;

/// What can be seen of arguments, whether they can be read or not.
#[derive(Debug)]
pub struct Glimpse {
    /// The verb, if one that exists is there.
    pub verb: Option<String>,
    /// The form of the answer.
    pub format: Format,
    /// Colours.
    pub color: Color,
}

impl Glimpse {
    /// Looks through the arguments as typed, the program's name first.
    pub fn of(arguments: &[OsString]) -> Self {
        let words: Vec<&str> = arguments
            .iter()
            .skip(1)
            .map_while(|word| word.to_str())
            .take_while(|word| *word != "--")
            .collect();
        let command = Arguments::command();
        let is_verb = |word: &&&str| command.find_subcommand(word).is_some();
        let verb = words.iter().find(is_verb).map(|verb| (*verb).to_owned());
        let is_json = value(&words, "--format").is_some_and(|word| word == "json");
        let color = value(&words, "--color").and_then(|word| Color::from_str(word, false).ok());
        Self {
            verb,
            format: if is_json { Format::Json } else { Format::Text },
            color: color.unwrap_or(Color::Auto),
        }
    }
}

/// The value of an option, written `--option value` or `--option=value`.
fn value<'a>(words: &[&'a str], option: &str) -> Option<&'a str> {
    words.iter().enumerate().find_map(|(at, word)| {
        let rest = word.strip_prefix(option)?;
        match rest.strip_prefix('=') {
            Some(value) => Some(value),
            None if rest.is_empty() => words.get(at + 1).copied(),
            None => None,
        }
    })
}
