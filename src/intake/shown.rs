//! A path as messages show it.

use std::path::Path;

/// A path as messages show it: without the `./` that the present folder gives.
pub fn shown(path: &Path) -> String {
    let below = path.strip_prefix(".").ok().filter(|below| !below.as_os_str().is_empty());
    below.unwrap_or(path).display().to_string()
}
