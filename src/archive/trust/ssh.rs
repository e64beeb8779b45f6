//! The workshop's signature under a seal: message and key file -> SSHSIG; SSHSIG -> judgement.
//!
//! Format: `PROTOCOL.sshsig` of OpenSSH, so that `ssh-keygen -Y verify` judges it too. Signing is
//! deterministic (RFC 8032, RFC 6979, PKCS#1 v1.5): the same seal and key give the same bytes.
//! Not here: which file is signed, where the passphrase comes from, time stamps.

#[cfg(feature = "signature")]
mod allowed;
pub mod judgement;
#[cfg(feature = "signature")]
mod key;
#[cfg(feature = "signature")]
mod sshsig;
#[cfg(not(feature = "signature"))]
mod without;

use std::path::Path;

#[cfg(feature = "signature")]
pub use self::allowed::holds_key;
#[cfg(feature = "signature")]
pub use self::sshsig::{check, sign};
#[cfg(not(feature = "signature"))]
pub use self::without::{check, holds_key, sign};

/// A remark if persons other than its owner may read the key file, else nothing.
///
/// Looks at the mode bits, as `ssh` does; on systems without them there is never a remark.
pub fn open_to_others(key_file: &Path) -> Option<String> {
    let mode = mode(key_file)? & 0o777;
    (mode & 0o077 != 0).then(|| {
        let path = key_file.display();
        format!(
            "others on this machine may use the signing key `{path}` (mode {mode:03o}); \
             make it yours alone with `chmod 600 {path}`"
        )
    })
}

#[cfg(unix)]
fn mode(path: &Path) -> Option<u32> {
    use std::os::unix::fs::MetadataExt as _;
    path.metadata().ok().map(|state| state.mode())
}

#[cfg(not(unix))]
fn mode(_path: &Path) -> Option<u32> {
    None
}
