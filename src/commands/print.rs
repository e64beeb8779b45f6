//! What a command prints itself.

use std::io::Write;

use crate::failure::Failure;

/// Prints a line.
///
/// # Errors
/// The output cannot be written, be it a full disk or a reader that has gone away: what was to be
/// reported is then unknown to whoever asked.
pub fn say(line: &str) -> Result<(), Failure> {
    let mut out = anstream::stdout();
    writeln!(out, "{line}").and_then(|()| out.flush()).map_err(|error| Failure::new("print", error))
}
