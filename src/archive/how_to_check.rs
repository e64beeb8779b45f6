//! Plain pages on how to check a bag and an archive with other people's tools.
//!
//! Their indented lines are run as they are by `.ci/outside/archive_how_to.py`.

/// Name of the page in each bag, and at the top of an archive.
pub const NAME: &str = "how-to-check.txt";
/// The page of a bag; part of its tag files.
pub const BAG: &str = include_str!("how_to_check/bag.txt");
/// The page of an archive; it is on no list, so it must be as it is here. A later version of this
/// program that words it anew has to know this one too.
pub const ARCHIVE: &str = include_str!("how_to_check/archive.txt");
