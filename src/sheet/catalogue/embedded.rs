//! Reads a table that is built in.

use serde::Deserialize;

/// Reads a table that is embedded in the program.
///
/// # Panics
/// If it does not parse, which tests rule out.
#[expect(
    clippy::expect_used,
    reason = "an embedded table that does not parse is our own mistake, and tests read both"
)]
pub fn embedded<T: for<'a> Deserialize<'a>>(text: &str) -> T {
    serde_yaml::from_str(text).expect("the embedded catalogue is well-formed")
}
