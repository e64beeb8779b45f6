//! Whether a ride is long and fast enough to prove a repair.
//!
//! In: path, pace and what was dropped, or typed values; out: [`Proof`].

use super::clean::Path;
use super::cleaned::Cleaned;
use super::pace::Pace;
use super::rule;

/// What the ride is worth as a proof.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Proof {
    /// At least [`rule::LENGTH`] was ridden faster than [`rule::WALKING`].
    Enough,
    /// Shorter than [`rule::LENGTH`].
    TooShort,
    /// Long enough, but less than [`rule::LENGTH`] of it faster than [`rule::WALKING`].
    TooSlow,
    /// Nothing can be said.
    NotDetermined(Unproven),
}

/// Why nothing can be said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unproven {
    /// Long enough, but the track has no times, or only a length is typed.
    NoSpeed,
    /// More than [`rule::DROPPED`] of the points were dropped.
    MuchDropped,
    /// Too short as recorded, but more time is lost in gaps than was ridden.
    MuchLost,
    /// No length is known.
    NoLength,
}

/// Judges a track.
pub(super) fn proof(path: &Path, pace: &Pace, cleaned: &Cleaned) -> Proof {
    let distance = pace.along.last().copied().unwrap_or_default();
    let counted = cleaned.read - cleaned.repeated;
    if cleaned.lost() as f64 * 100.0 > counted as f64 * rule::DROPPED.value {
        return Proof::NotDetermined(Unproven::MuchDropped);
    }
    if distance < rule::LENGTH.value {
        let lost: f64 = path.gaps(&pace.along).iter().filter_map(|gap| gap.seconds).sum();
        return match pace.moving {
            Some(moving) if lost > moving => Proof::NotDetermined(Unproven::MuchLost),
            _ => Proof::TooShort,
        };
    }
    if !path.timed {
        return Proof::NotDetermined(Unproven::NoSpeed);
    }
    let is_fast = |at: usize| pace.speed[at].is_some_and(|speed| speed > rule::WALKING.value);
    let fast: f64 = (1..pace.along.len())
        .filter(|&at| is_fast(at))
        .map(|at| pace.along[at] - pace.along[at - 1])
        .sum();
    if fast < rule::LENGTH.value { Proof::TooSlow } else { Proof::Enough }
}
