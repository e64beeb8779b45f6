//! How one picture is laid on another: six numbers, and what is done with them.
//!
//! Not here: finding them (overlay; for a first guess assessment).

#![allow(clippy::many_single_char_names, reason = "the letters of formulas")]

/// How one picture is laid on another: a place of the second, in parts of its long edge, for each of
/// the first, in parts of its own: `x' = a x + b y + c`, `y' = d x + e y + f`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit(pub [f64; 6]);

impl Fit {
    /// One picture covers the other.
    pub const SAME: Self = Self([1.0, 0.0, 0.0, 0.0, 1.0, 0.0]);

    /// Scaled by a factor, then moved.
    pub fn scaled(factor: f64, x: f64, y: f64) -> Self {
        Self([factor, 0.0, x, 0.0, factor, y])
    }

    /// The same for a first picture that was mirrored before; `width` is its width in parts of its
    /// long edge.
    #[must_use]
    pub fn of_mirrored(self, width: f64) -> Self {
        let Self([a, b, c, d, e, f]) = self;
        Self([-a, b, c + a * width, -d, e, f + d * width])
    }

    /// Where a place of the first picture is in the second.
    pub fn of(&self, x: f64, y: f64) -> (f64, f64) {
        let Self([a, b, c, d, e, f]) = *self;
        (a * x + b * y + c, d * x + e * y + f)
    }

    /// The fit that first moves places of the first picture by `moved`, then lays them.
    #[must_use]
    pub(super) fn after(self, moved: Self) -> Self {
        let (Self([a, b, c, d, e, f]), Self([g, h, i, j, k, l])) = (moved, self);
        Self([
            g * a + h * d,
            g * b + h * e,
            g * c + h * f + i,
            j * a + k * d,
            j * b + k * e,
            j * c + k * f + l,
        ])
    }
}
