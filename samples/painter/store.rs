//! Encodes a painted photo and writes it.
//!
//! In: a photo and the folder. Out: a file with EXIF. What the pixels show is `render` and `lens`.

use super::exif;
use super::lens;
use super::photo::{Format, Photo};
use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{ExtendedColorType, ImageEncoder, RgbImage, imageops};
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use std::path::Path;

/// Paints one photo below `folder` and answers its size in bytes; `draft` halves both sides.
pub fn save(photo: &Photo, folder: &Path, draft: bool) -> Result<usize, String> {
    let scene = (photo.scene)();
    let shrink = |(w, h): (usize, usize)| if draft { (w / 2, h / 2) } else { (w, h) };
    let drawn = shrink(photo.drawn);
    let size = if draft { drawn } else { photo.size };
    let film = scene.render(drawn.0, drawn.1);
    let mut pixels = lens::develop(&film, &photo.lens, size);
    if photo.exposure.orientation == 6 {
        pixels = imageops::rotate270(&pixels);
    }
    let block = exif::block(&photo.exposure);
    let (bytes, extension) = match photo.format {
        Format::Jpeg(quality) => (jpeg(&pixels, quality, &block)?, "jpg"),
        Format::Png => (png(&pixels, block)?, "png"),
    };
    let folder = folder.join(photo.job);
    std::fs::create_dir_all(&folder).map_err(|e| e.to_string())?;
    let path = folder.join(format!("{}.{extension}", photo.name));
    std::fs::write(path, &bytes).map_err(|e| e.to_string())?;
    Ok(bytes.len())
}

fn jpeg(pixels: &RgbImage, quality: u8, block: &[u8]) -> Result<Vec<u8>, String> {
    let mut out = Vec::new();
    let mut encoder = Encoder::new(&mut out, quality);
    encoder.set_sampling_factor(SamplingFactor::F_2_2);
    encoder.set_optimized_huffman_tables(true);
    let mut marked = b"Exif\0\0".to_vec();
    marked.extend_from_slice(block);
    encoder.add_app_segment(1, marked).map_err(|e| e.to_string())?;
    let size = (u16::try_from(pixels.width()), u16::try_from(pixels.height()));
    let (Ok(width), Ok(height)) = size else {
        return Err("more than 65535 pixels on one side".to_owned());
    };
    encoder.encode(pixels.as_raw(), width, height, ColorType::Rgb).map_err(|e| e.to_string())?;
    Ok(out)
}

fn png(pixels: &RgbImage, block: Vec<u8>) -> Result<Vec<u8>, String> {
    let mut out = Vec::new();
    let mut encoder =
        PngEncoder::new_with_quality(&mut out, CompressionType::Best, FilterType::Adaptive);
    encoder.set_exif_metadata(block).map_err(|e| e.to_string())?;
    encoder
        .write_image(pixels.as_raw(), pixels.width(), pixels.height(), ExtendedColorType::Rgb8)
        .map_err(|e| e.to_string())?;
    Ok(out)
}
