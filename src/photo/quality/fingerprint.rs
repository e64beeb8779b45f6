//! What a picture looks like, in 64 bytes: plane of brightness -> [`Fingerprint`].
//!
//! A difference hash with a dead zone: the picture is averaged to 17 x 16 cells, and for each pair of
//! neighbours in a row it is noted whether brightness falls to the right, rises, or stays within the
//! zone. Without the zone the noise of plain ground would decide half of the bits. Two pictures are
//! compared by the slopes that either has. Not here: from which likeness on two photos are called the
//! same (assessment).

#![allow(clippy::many_single_char_names, reason = "the letters of formulas")]

use super::area::Plane;

/// Cells in a row; one more than slopes.
const COLUMNS: usize = 17;

/// Rows of cells.
const ROWS: usize = 16;

/// Steps of brightness, of 255, that are no slope. Measured: noise and JPEG move a cell by one.
const DEAD_ZONE: i16 = 2;

/// Slopes of brightness from left to right, row by row from the top, the first in the highest bit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Fingerprint {
    /// Pairs in which the left cell is brighter.
    pub falls: [u64; 4],
    /// Pairs in which the right cell is brighter.
    pub rises: [u64; 4],
}

/// How two fingerprints compare.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Likeness {
    /// Slopes that only one of the two has.
    pub unlike: u32,
    /// Slopes that one or both have. With few of them the pictures are too plain to compare.
    pub slopes: u32,
}

impl Likeness {
    /// Slopes that only one has, in thousandths of all: 0 is alike. `None` if there are fewer
    /// than `least` slopes to compare.
    pub fn unlike_permille(self, least: u32) -> Option<u32> {
        (least.max(1) <= self.slopes).then(|| self.unlike * 1000 / self.slopes)
    }
}

impl Fingerprint {
    /// The fingerprint of a plane.
    pub(super) fn of(plane: &Plane) -> Self {
        let cells = plane.averaged(COLUMNS, ROWS);
        let mut print = Self { falls: [0; 4], rises: [0; 4] };
        let pairs = cells.values.chunks_exact(COLUMNS).flat_map(|row| row.windows(2));
        for (at, pair) in pairs.enumerate() {
            let [left, right] = pair else { continue };
            let step = i16::from(*left) - i16::from(*right);
            let bit = 1_u64 << (63 - at % 64);
            if DEAD_ZONE < step {
                print.falls[at / 64] |= bit;
            } else if step < -DEAD_ZONE {
                print.rises[at / 64] |= bit;
            }
        }
        print
    }

    /// The fingerprint of the mirrored picture.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let turned = |bits: [u64; 4]| bits.map(rows_reversed);
        Self { falls: turned(self.rises), rises: turned(self.falls) }
    }

    /// Compares two pictures.
    pub fn likeness(&self, other: &Self) -> Likeness {
        let pairs = self.falls.iter().zip(&other.falls).chain(self.rises.iter().zip(&other.rises));
        let mut likeness = Likeness { unlike: 0, slopes: 0 };
        for (own, other) in pairs {
            likeness.unlike += (own ^ other).count_ones();
            likeness.slopes += (own | other).count_ones();
        }
        likeness
    }
}

/// Each of four rows of 16 bits, back to front.
fn rows_reversed(bits: u64) -> u64 {
    // The whole is reversed, and the rows are put back into their order.
    let [a, b, c, d, e, f, g, h] = bits.reverse_bits().to_be_bytes();
    u64::from_be_bytes([g, h, e, f, c, d, a, b])
}
