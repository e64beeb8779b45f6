//! The time of a stamp: `GeneralizedTime` with fractions -> moment. No clock is read.
//!
//! Source: RFC 3161, 2.4.2: `YYYYMMDDhhmmss[.s...]Z`, no zeros at the end of the fraction.

use std::fmt;
use std::time::Duration;

use der::{Any, DateTime, Tag, Tagged as _};

/// A moment in UTC.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Moment {
    second: DateTime,
    /// Digits after the point, none where it stands on the second.
    fraction: String,
}

impl Moment {
    /// Reads the time of a stamp.
    pub(super) fn read(value: &Any) -> Option<Self> {
        let text = std::str::from_utf8(value.value()).ok()?.strip_suffix('Z')?;
        let (whole, fraction) = match text.split_once('.') {
            Some((whole, fraction)) => (whole, Some(fraction)),
            None => (text, None),
        };
        let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
        let is_canonical = fraction.is_none_or(|f| digits(f) && !f.is_empty() && !f.ends_with('0'));
        let is_known = value.tag() == Tag::GeneralizedTime && whole.len() == 14 && digits(whole);
        if !is_known || !is_canonical {
            return None;
        }
        let part = |from: usize, to: usize| whole[from..to].parse::<u8>().ok();
        let second = DateTime::new(
            whole[..4].parse().ok()?,
            part(4, 6)?,
            part(6, 8)?,
            part(8, 10)?,
            part(10, 12)?,
            part(12, 14)?,
        );
        Some(Self { second: second.ok()?, fraction: fraction.unwrap_or_default().to_owned() })
    }

    /// The whole second in UTC.
    pub fn utc(&self) -> Option<chrono::DateTime<chrono::Utc>> {
        let seconds = i64::try_from(self.since_1970().as_secs()).ok()?;
        chrono::DateTime::from_timestamp(seconds, 0)
    }

    /// Since 1970, in whole seconds.
    pub(super) fn since_1970(&self) -> Duration {
        self.second.unix_duration()
    }
}

impl fmt::Display for Moment {
    /// As in ISO 8601: `2026-11-25T14:05:08.25Z`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let second = self.second.to_string();
        match self.fraction.as_str() {
            "" => write!(f, "{second}"),
            fraction => write!(f, "{}.{fraction}Z", second.trim_end_matches('Z')),
        }
    }
}
