//! What goes with a private key on the command line: its passphrase, a warning on who may read it.

use std::path::Path;

use crate::archive::trust::ssh;
use crate::console::Console;

/// Environment variable that unlocks a private key.
const PASSPHRASE: &str = "SPLITCASE_KEY_PASSPHRASE";

/// What unlocks the key, if anything is given.
pub fn passphrase() -> Option<String> {
    std::env::var(PASSPHRASE).ok()
}

/// Warns of a key that others on this machine may use.
pub fn warn(key: Option<&Path>, console: &Console) {
    if let Some(warning) = key.and_then(ssh::open_to_others) {
        console.warn(&warning);
    }
}
