//! Pixels in memory between two steps, and nothing else.

use crate::photo::refusal::Refusal;

/// What one pixel is made of; one byte a channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Channels {
    /// Brightness.
    Grey,
    /// Red, green, blue.
    Rgb,
    /// Red, green, blue, opacity.
    Rgba,
    /// Cyan, magenta, yellow, black; 255 is full ink.
    Cmyk,
}

impl Channels {
    /// Bytes of one pixel.
    pub(super) fn count(self) -> usize {
        match self {
            Self::Grey => 1,
            Self::Rgb => 3,
            Self::Rgba | Self::Cmyk => 4,
        }
    }
}

/// A picture: rows from top to bottom without padding.
#[derive(Debug, Clone)]
pub(super) struct Raster {
    pub(super) width: u32,
    pub(super) height: u32,
    pub(super) channels: Channels,
    /// `width * height * channels.count()` bytes.
    pub(super) pixels: Vec<u8>,
}

impl Raster {
    /// A picture of the given size; refused when `pixels` has another length.
    pub(super) fn new(
        (width, height): (u32, u32),
        channels: Channels,
        pixels: Vec<u8>,
    ) -> Result<Self, Refusal> {
        if pixels.len() as u64 != u64::from(width) * u64::from(height) * channels.count() as u64 {
            return Err(Refusal::broken("its decoder returned another size than it stated"));
        }
        Ok(Self { width, height, channels, pixels })
    }
}
