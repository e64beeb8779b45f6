//! A path as messages show it.

use std::path::{Path, PathBuf};

/// A path as messages show it: without the `./` that the present folder gives.
pub fn shown(path: &Path) -> String {
    let below = path.strip_prefix(".").ok().filter(|below| !below.as_os_str().is_empty());
    below.unwrap_or(path).display().to_string()
}

/// The path from where the program was started, if it is below that.
pub fn from_here(path: &Path) -> PathBuf {
    let here = std::env::current_dir().ok().and_then(|here| here.canonicalize().ok());
    let below = here.and_then(|here| path.strip_prefix(here).ok().map(Path::to_owned));
    below.unwrap_or_else(|| path.to_owned())
}
