//! Photos and units that other jobs have too: what is known again, what is not, and how it is said.

/// Changed copies of the samples, and photos that only look alike.
mod pictures;
/// Whole runs: the warnings of `check`, `render` and `seal`, and what is kept for them.
mod runs;
/// The same unit come again.
mod visits;
