//! A photo of 48 megapixels from a smaller one: enlarged, with grain, so that it is as hard to unpack
//! as a phone's.

use std::fs;
use std::path::Path;

use image::imageops::{self, FilterType};
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};

/// Long and short edge in pixels.
const EDGES: (u32, u32) = (8000, 6000);
/// Most that the grain lightens or darkens a pixel.
const GRAIN: i32 = 6;

/// Writes the large photo; the same bytes for the same small one.
pub fn write(from: &Path, to: &Path) {
    let small = image::open(from).unwrap().into_rgb8();
    let (long, short) = EDGES;
    let (width, height) =
        if small.height() < small.width() { (long, short) } else { (short, long) };
    let mut large = imageops::resize(&small, width, height, FilterType::CatmullRom);
    let mut state = 1_u32;
    for pixel in large.pixels_mut() {
        // A linear congruential generator; the figures are those of Numerical Recipes.
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let grain = (state >> 16) as i32 % (2 * GRAIN + 1) - GRAIN;
        for channel in &mut pixel.0 {
            *channel = (i32::from(*channel) + grain).clamp(0, 255) as u8;
        }
    }
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, 92);
    encoder.set_sampling_factor(SamplingFactor::R_4_2_0);
    encoder.encode(large.as_raw(), width as u16, height as u16, ColorType::Rgb).unwrap();
    fs::write(to, bytes).unwrap();
}
