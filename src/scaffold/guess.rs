//! Which photos may show the unit as found and which as left: a guess from names and times.
//!
//! In: names and times in their order; out: a word a photo and the reason. Nothing is taken for sure, and
//! nothing that is printed rests on it.

use chrono::{NaiveDateTime, TimeDelta};

/// Words in a file's name that say it.
const BEFORE: &[&str] = &["before", "arriv", "found", "worn", "broken", "old", "box"];
const AFTER: &[&str] = &["after", "new", "left", "clean", "fitted", "done", "ready"];

/// A pause in which a unit is worked on: shorter ones are within one look at it.
const PAUSE: TimeDelta = TimeDelta::hours(12);

/// A guess at what a photo shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Guess {
    /// The unit as found.
    Before,
    /// The unit as left.
    After,
}

impl Guess {
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Before => "before",
            Self::After => "after",
        }
    }
}

/// A guess for every photo in the order of their times, and the place of the pause that divides them.
pub(super) fn guess(photos: &[(&str, NaiveDateTime)]) -> (Vec<Guess>, Option<usize>) {
    let pauses = photos.windows(2).map(|pair| pair[1].1 - pair[0].1).enumerate();
    let longest = pauses
        .filter(|(_, pause)| PAUSE <= *pause)
        .max_by_key(|(at, pause)| (*pause, std::cmp::Reverse(*at)));
    let divide = longest.map(|(at, _)| at + 1);
    let of = |(at, (name, _)): (usize, &(&str, NaiveDateTime))| {
        by_name(name).unwrap_or(match divide {
            Some(divide) if divide <= at => Guess::After,
            _ => Guess::Before,
        })
    };
    (photos.iter().enumerate().map(of).collect(), divide)
}

/// What a name says, if it says one thing only.
fn by_name(name: &str) -> Option<Guess> {
    let name = name.to_lowercase();
    let words: Vec<&str> = name.split(|c: char| !c.is_alphabetic()).collect();
    let says =
        |list: &[&str]| list.iter().any(|start| words.iter().any(|word| word.starts_with(start)));
    match (says(BEFORE), says(AFTER)) {
        (true, false) => Some(Guess::Before),
        (false, true) => Some(Guess::After),
        _ => None,
    }
}
