//! What can be measured of a photo: upright sRGB print copy -> [`Quality`].
//!
//! Every step is whole-number arithmetic in a fixed order, so that the same pixels give the same
//! figures on every machine. Not here: from which figure on a photo is called blurred, dark or alike
//! (assessment), and the scaling to print size (scale).

mod area;
mod fingerprint;
mod fit;
mod landmark;
mod overlay;
mod sharpness;

pub use fingerprint::{Fingerprint, Likeness};
pub use fit::Fit;
pub use landmark::{Landmark, MOST_LANDMARKS, PLACES};
pub use overlay::Agreement;

use crate::photo::raster::{Channels, Raster};
use area::Plane;

/// Long edge at which sharpness and brightness are measured, in pixels: a fixed one, as sharpness
/// depends on it. A smaller picture is measured as it is.
const EDGE: u32 = 800;

/// Brightness from which a pixel counts as burnt out, of 255.
const BURNT: usize = 250;

/// What was measured of one photo.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Quality {
    /// What the picture looks like, for comparison with others.
    pub fingerprint: Fingerprint,
    /// Variance of the Laplacian (kernel 0 1 0, 1 -4 1, 0 1 0; 8 bits) in the third sharpest of
    /// 12 x 12 tiles at 800 pixels: is *anything* sharp? Plain ground beside a part does not count.
    pub sharpness: u32,
    /// Brightness that 95 % of the pixels stay at or below, 0 to 255: how bright are the brightest
    /// parts? A dark part on a dark mat still has its reflections.
    pub brightest: u8,
    /// Pixels of brightness 250 and more, in thousandths.
    pub burnt: u16,
}

impl Quality {
    /// Measures an upright picture in sRGB, and finds its landmarks and those between.
    pub(super) fn of(picture: &Raster) -> (Self, (Vec<Landmark>, Vec<Landmark>)) {
        let whole = grey(picture);
        let small = whole.within(EDGE);
        (Self::measured(&whole, &small), landmark::of(&small))
    }

    /// Measures a picture and its copy at [`EDGE`].
    fn measured(whole: &Plane, small: &Plane) -> Self {
        let mut counts = [0_u64; 256];
        small.values.iter().for_each(|value| counts[usize::from(*value)] += 1);
        let pixels = small.values.len() as u64;
        Self {
            fingerprint: Fingerprint::of(whole),
            sharpness: sharpness::of(small),
            brightest: percentile(&counts, pixels * 95 / 100),
            burnt: (counts[BURNT..].iter().sum::<u64>() * 1000 / pixels.max(1)) as u16,
        }
    }
}

/// Most that two copies of one picture differ as wholes, in steps of brightness.
const MOST_DISTANCE: u32 = 6;

/// Correlation of detail in the middle tile, in thousandths, from which one picture may be a copy of
/// another. Measured: saved again at quality 30 the samples have at least 962.
const COPY_FROM: i32 = 900;

/// Correlation of detail in any tile, in thousandths, below which a copy was changed there.
const PART_FROM: i32 = 350;

/// Correlation of detail in the lowest quarter, in thousandths, from which nobody looks again.
const SURE_FROM: i32 = 900;

/// That in the middle tile, below which nobody looks again either.
const LIKE_FROM: i32 = 950;

/// Whether one picture is a copy of another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sameness {
    /// It is, all of it.
    Whole,
    /// It is, but for a part of it.
    InPart,
    /// It shows something else.
    No,
}

/// The brightness of a picture, small, to be laid on another one.
#[derive(Debug, Clone)]
pub struct Shade(Plane);

impl Shade {
    /// Of an upright picture in sRGB.
    pub(super) fn of(picture: &Raster) -> Self {
        Self(grey(picture).within(overlay::EDGE))
    }

    /// How far two pictures are from each other as wholes: mean difference of brightness of 16 x 12
    /// cells, 0 to 255.
    pub fn distance(&self, other: &Self) -> u32 {
        let [one, other] = [self, other].map(|shade| shade.0.averaged(16, 12).values);
        let sum: u32 = one.iter().zip(&other).map(|(a, b)| u32::from(a.abs_diff(*b))).sum();
        sum / one.len().max(1) as u32
    }

    /// Whether this is a copy of another picture, prepared in the same way by whatever version:
    /// `distance` is that of both.
    pub fn copy_of(&self, other: &Self, distance: u32) -> Sameness {
        let shape = |shade: &Self| shade.0.width * 1000 / shade.0.height.max(1);
        if MOST_DISTANCE < distance || 20 < shape(self).abs_diff(shape(other)) {
            return Sameness::No;
        }
        match overlay::compare(&self.0, &other.0, Fit::SAME, overlay::OF_WHOLES) {
            // Too plain for details: as wholes they are the same.
            None => Sameness::Whole,
            Some(found) if found.middle < COPY_FROM => Sameness::No,
            Some(found) if found.least < PART_FROM => Sameness::InPart,
            Some(_) => Sameness::Whole,
        }
    }

    /// How much of this picture agrees with another one that is on it roughly as `fit` says;
    /// nothing if they are too plain to compare or hardly overlap.
    pub fn agreement(&self, other: &Self, fit: Fit) -> Option<Agreement> {
        let found = overlay::compare(&self.0, &other.0, fit, overlay::OF_CUTS);
        if found.is_some_and(|found| SURE_FROM <= found.quarter || found.middle < LIKE_FROM) {
            return found;
        }
        // An arrow that was drawn in spreads when it is smoothed; where little was, more may agree.
        let fine = overlay::compare(&self.0, &other.0, fit, overlay::OF_WHOLES);
        found.into_iter().chain(fine).max_by_key(|found| found.quarter)
    }
}

/// Brightness: 77 red + 150 green + 29 blue of 256 parts, the weights of ITU-R BT.601.
fn grey(picture: &Raster) -> Plane {
    let of = |&[red, green, blue]: &[u8; 3]| {
        ((u32::from(red) * 77 + u32::from(green) * 150 + u32::from(blue) * 29 + 128) >> 8) as u8
    };
    let values = match picture.channels {
        Channels::Rgb => picture.pixels.as_chunks::<3>().0.iter().map(of).collect(),
        Channels::Grey => picture.pixels.clone(),
        // Print copies have no opacity and no inks; the first three channels are taken.
        Channels::Rgba | Channels::Cmyk => {
            let pixels = picture.pixels.as_chunks::<4>().0;
            pixels.iter().map(|&[a, b, c, _]| of(&[a, b, c])).collect()
        }
    };
    Plane { width: picture.width as usize, height: picture.height as usize, values }
}

/// The value at place `rank` of all values in order, counted from 0.
fn percentile(counts: &[u64; 256], rank: u64) -> u8 {
    let mut below = 0;
    for (value, count) in (0_u8..=255).zip(counts) {
        below += count;
        if rank < below {
            return value;
        }
    }
    0
}
