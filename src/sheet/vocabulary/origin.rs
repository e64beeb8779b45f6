//! The words for where a mechanical or electrical fault comes from.

use crate::sheet::reader::words;

words! {
    /// Where a mechanical or electrical fault comes from.
    "origin of a fault" pub enum OriginKind {
        /// Use over its time.
        Wear = "wear",
        /// A blow from outside.
        Impact = "impact",
        /// More load or heat than it is made for.
        Overload = "overload",
        /// How it was put together, at the maker's or in an earlier repair.
        Assembly = "assembly",
        /// A fault of the maker or of the material.
        Material = "material",
        /// Time rather than use.
        Age = "age",
    }
}
