//! A sheet and a profile as they were read: text, marked tree and typed values.

use std::ops::Range;

use super::findings::FindingsSheet;
use super::prices::Prices;
use super::prices::fill::Priced;
use super::profile::Profile;
use super::yaml::Node;
use crate::diagnostic::Place;
use crate::diagnostic::source::Source;

/// A findings sheet that was read.
pub struct Sheet {
    /// Its text, which problems of later stages point into.
    pub source: Source,
    /// The marked tree, for the customer's copy and for checks on every text.
    pub tree: Node,
    /// What it says.
    pub fields: FindingsSheet,
    /// The prices that came from the workshop's list.
    pub priced: Vec<Priced>,
    /// True if every value of it could be read; what is left out of `fields` is else not missing
    /// but unknown.
    pub is_whole: bool,
    /// True if a part has no price, here or in the workshop's list: nothing on money follows then.
    pub lacks_prices: bool,
}

impl Sheet {
    /// A place in the sheet.
    pub fn place(&self, span: &Range<usize>) -> Place {
        Place::at(&self.source, span.clone())
    }
}

/// A workshop profile that was read.
pub struct ProfileFile {
    /// Its text.
    pub source: Source,
    /// The marked tree.
    pub tree: Node,
    /// What it says.
    pub fields: Profile,
    /// The price list: its own and that of the file beside it.
    pub prices: Prices,
}
