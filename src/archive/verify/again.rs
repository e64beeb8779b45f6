//! Papers made again from the bag that holds them, and compared byte by byte.
//!
//! A bag's folder and whoever can make papers -> one statement or flaw a paper. Making is not done
//! here: the caller brings it ([`Maker`]), since it lies above the archive.

use std::cell::OnceCell;
use std::fmt;
use std::path::Path;

use super::paper::Carried;
use super::{Judgement, pdf, problems, statement};
use crate::photo::Digest;

/// A paper's file name and bytes.
pub type Made = (String, Vec<u8>);

/// Makes the papers of a bag's folder again, or says why it cannot.
#[derive(Clone, Copy)]
pub struct Maker<'a>(pub &'a dyn Fn(&Path) -> Result<Vec<Made>, String>);

impl fmt::Debug for Maker<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Maker")
    }
}

/// The name and version of this program, as its manifests say it.
pub(super) const OWN: &str = concat!("splitcase ", env!("CARGO_PKG_VERSION"));

/// The papers of one bag, made at most once.
pub(super) struct Again<'a> {
    maker: Option<Maker<'a>>,
    bag: &'a Path,
    made: OnceCell<Result<Vec<Made>, String>>,
}

impl<'a> Again<'a> {
    /// For a bag; one that is a tar has no papers made again.
    pub(super) fn of(bag: &'a Path, maker: Option<Maker<'a>>) -> Self {
        Self { maker, bag, made: OnceCell::new() }
    }

    /// Compares a paper of the bag that lists the bag's own material.
    pub(super) fn compare(&self, path: &str, carried: &Carried, own: &Digest) -> Judgement {
        let mut found = Judgement::default();
        let mut open = |why: &str| {
            found.not_shown.push(statement::pages_not_compared(path, why));
        };
        let Some(maker) = self.maker else {
            open("papers are made again where a bag's folder is verified alone");
            return found;
        };
        if carried.made_by() != OWN {
            let by = super::names::shown(carried.made_by());
            open(&format!("it says that `{by}` made it, and this is `{OWN}`"));
            return found;
        }
        if !self.bag.is_dir() {
            open("a tar has to be unpacked first");
            return found;
        }
        let made = match self.made.get_or_init(|| (maker.0)(self.bag)) {
            Ok(made) => made,
            Err(cause) => {
                open(&format!("it could not be made again: {cause}"));
                return found;
            }
        };
        let name = path.rsplit('/').next().unwrap_or_default();
        let Some((_, again)) = made.iter().find(|(made, _)| made == name) else {
            open("making the papers again gives none of this name");
            return found;
        };
        let is_same_list =
            pdf::manifest(again).is_ok_and(|manifest| Digest::of(&manifest) == carried.digest);
        if Digest::of(again) == *own {
            found.shown.push(statement::made_again(path));
        } else if is_same_list {
            found.flaws.push(problems::paper_not_made_again(path));
        } else {
            open("made again it lists other layouts, or photos read in another way");
        }
        found
    }
}
