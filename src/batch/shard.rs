//! A stable share of many jobs, for several machines that know nothing of each other.
//!
//! In: the number of a job; out: whose it is. The share rests on the number alone: a job keeps its machine
//! whatever other jobs come or go, and two jobs of one number meet in one share, where they are refused.

use std::str::FromStr;

use crate::digest::Digest;

/// One of several shares, written `I/N`, from `1/N` to `N/N`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shard {
    part: u32,
    of: u32,
}

/// Most shares.
const MOST: u32 = 100_000;

impl Shard {
    /// True if a job is in this share. Numbers that differ only in case are one number.
    pub fn takes(self, number: &str) -> bool {
        let digest = Digest::of(number.to_lowercase().as_bytes()).hex();
        // The first 60 bits of a SHA-256 are spread evenly.
        let spread = u64::from_str_radix(&digest[..15], 16).unwrap_or_default();
        spread % u64::from(self.of) == u64::from(self.part - 1)
    }
}

impl FromStr for Shard {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let wrong =
            || format!("write a share as I/N, from 1/N to N/N, such as 2/8; N up to {MOST}");
        let (part, of) = text.split_once('/').ok_or_else(wrong)?;
        let number = |text: &str| text.parse::<u32>().map_err(|_| wrong());
        let (part, of) = (number(part)?, number(of)?);
        match (1..=of).contains(&part) && of <= MOST {
            true => Ok(Self { part, of }),
            false => Err(wrong()),
        }
    }
}
