//! How many pixels a photo needs on paper: millimetres -> pixels of the print copy.

/// Dots per inch of the print copies. More is not seen at reading distance and doubles the file.
pub const PRINT_DPI: f64 = 220.0;

/// Most pixels along an edge of a print copy, whatever room is given: an A1 sheet's long edge.
const MAX_EDGE: u32 = 7_300;

/// The room that a photo gets on paper, in pixels of the print copy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PrintSize {
    width: u32,
    height: u32,
}

impl PrintSize {
    /// The room of `width_mm` by at most `height_mm` millimetres at [`PRINT_DPI`]. A size that is
    /// not a positive number gives one pixel, one beyond the largest sheet that sheet's.
    pub fn of_mm(width_mm: f64, height_mm: f64) -> Self {
        let pixels = |mm: f64| ((mm / 25.4 * PRINT_DPI).round() as u32).clamp(1, MAX_EDGE);
        Self { width: pixels(width_mm), height: pixels(height_mm) }
    }

    /// Width of the room in pixels.
    pub fn width(self) -> u32 {
        self.width
    }

    /// Height of the room in pixels.
    pub fn height(self) -> u32 {
        self.height
    }

    /// Size of the print copy of an upright picture of `width` by `height` pixels: it fills the
    /// room, keeps its shape, is never enlarged and never vanishes.
    pub fn fit(self, width: u32, height: u32) -> (u32, u32) {
        let share = (f64::from(self.width) / f64::from(width.max(1)))
            .min(f64::from(self.height) / f64::from(height.max(1)))
            .min(1.0);
        let scaled = |edge: u32| ((f64::from(edge) * share).round() as u32).max(1);
        (scaled(width), scaled(height))
    }
}
