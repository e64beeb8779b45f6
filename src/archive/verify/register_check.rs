//! A bag that was asked about alone, held against the register of the archive that it is in.

use std::path::Path;

use super::bag::Bag;
use super::judgement::Judgement;
use super::register_above::{place_of, register};
use super::words;
use crate::archive::problems;
use crate::archive::register::entry::Event;

/// Holds a bag that was asked about alone against the register above it, if it is in an archive.
pub(super) fn alone(path: &Path, bag: Bag) -> Judgement {
    let mut found = bag.judgement;
    let Some((archive, own)) = place_of(path) else { return found };
    let register = match register(&archive) {
        Ok(register) => register,
        Err(failure) => {
            found.could_not.push(failure);
            return found;
        }
    };
    let line = register.entries.iter().find(|one| one.event == Event::Sealed && one.bag == own);
    match (line, bag.seal.map(|seal| seal.hex())) {
        (None, _) => found.flaws.push(problems::not_registered("")),
        (Some(entry), Some(seal)) if seal != entry.sha256 => {
            found.flaws.push(problems::other_seal("", entry.line, &seal));
        }
        (Some(entry), _) => {
            found.shown.push(words::registered(entry.line));
            match bag.history {
                Some(history) if history.line < entry.line && history.is_in(&register) => {
                    found.shown.push(words::history(history.line));
                }
                Some(history) => found.flaws.push(problems::history("", history.line)),
                None => {}
            }
        }
    }
    found
}
