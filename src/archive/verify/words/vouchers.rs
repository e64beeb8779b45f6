//! Who or what outside a folder vouches for it, because the reader brought it along.
//!
//! A check that held -> one [`Voucher`]. Not here: the checks.

use crate::archive::bag::names;

/// Somebody or something outside that vouches.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Voucher {
    /// Which kind, for scripts: `signer`, `authority`, `head`, `paper`.
    pub by: &'static str,
    /// Who, and for what: it goes on with the words "vouched for by".
    pub text: String,
}

impl Voucher {
    /// A signature by a key that the reader accepts.
    pub fn signer(fingerprint: &str, name: Option<&str>) -> Self {
        let name = name.map(|name| format!(" of `{}`", names::shown(name))).unwrap_or_default();
        let text = format!(
            "the signer{name} with the key {fingerprint}: for what each bag holds, not for when, and \
             not that no bag was taken out"
        );
        Self { by: "signer", text }
    }

    /// A signature of the register's head by a key that the reader accepts.
    pub fn signer_of_register(
        fingerprint: &str,
        name: Option<&str>,
        line: u64,
        lines: u64,
    ) -> Self {
        let name = name.map(|name| format!(" of `{}`", names::shown(name))).unwrap_or_default();
        let text = format!(
            "the signer{name} with the key {fingerprint}: for the register up to line {line} of \
             {lines} and what the bags named there held, not for when"
        );
        Self { by: "signer", text }
    }

    /// A time stamp of the register's head by an authority that the reader accepts.
    pub fn authority_of_register(name: &str, at: &str, line: u64, lines: u64) -> Self {
        let text = format!(
            "the time-stamp authority `{}`: that the register was as it is up to line {line} of \
             {lines} at {at}, and so the bags named there, not for what they tell",
            names::shown(name)
        );
        Self { by: "authority", text }
    }

    /// A time stamp by an authority that the reader accepts.
    pub fn authority(name: &str, at: &str) -> Self {
        let text = format!(
            "the time-stamp authority `{}`: that the bag was there at {at}, not for what it says",
            names::shown(name)
        );
        Self { by: "authority", text }
    }

    /// Time stamps beside bags of an archive, by an authority that the reader accepts.
    pub fn authority_of_bags(stamps: usize, bags: usize) -> Self {
        let text = format!(
            "the time-stamp authority: that {stamps} of {bags} bags were there at the times listed \
             below, not for what they tell"
        );
        Self { by: "authority", text }
    }

    /// A head of the register that the reader noted.
    pub fn head(line: u64, lines: u64) -> Self {
        let rest = if line < lines { "; not for the lines after it" } else { "" };
        let text = format!(
            "the noted head: that the register is as it was up to line {line} of {lines}{rest}"
        );
        Self { by: "head", text }
    }

    /// A paper that lay outside.
    pub fn paper(name: &str) -> Self {
        let text = format!(
            "the paper `{}`, as far as it was kept outside the workshop: for the bag that holds the \
             same bytes and what it lists",
            names::shown(name)
        );
        Self { by: "paper", text }
    }
}
