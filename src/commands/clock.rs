//! The machine's clock, read for commands that need a time: the register's lines, what is due today.
//!
//! Below the commands a time is an argument.

use std::time::SystemTime;

use chrono::{DateTime, Utc};

/// The present time.
#[allow(clippy::disallowed_methods, reason = "a seal says when it was made")]
pub fn now() -> DateTime<Utc> {
    SystemTime::now().into()
}
