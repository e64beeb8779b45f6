//! Colours: scaled raster and its profile -> sRGB raster, and a word on what was done.
//!
//! The embedded profile is applied to the scaled pixels, which are few. Opacity ends on white, which
//! is what paper does. Not here: reading the profile out of the file (source).

use moxcms::{
    CicpColorPrimaries, CicpProfile, ColorProfile, DataColorSpace, Layout, MatrixCoefficients,
    TransferCharacteristics, TransformOptions,
};

use crate::photo::raster::{Channels, Raster};

/// Largest profile that is read: 4 MiB. Press profiles have half of that.
const MAX_PROFILE_BYTES: usize = 4 << 20;

/// What was done about the colours of a photo.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Colour {
    /// The file has no profile: its numbers are taken as sRGB.
    TakenAsSrgb,
    /// Converted to sRGB by the file's own profile or colour code.
    Converted,
    /// The file's profile is damaged or does not fit: its numbers are taken as sRGB.
    ProfileIgnored,
    /// Printing inks without a usable profile: converted by plain arithmetic, colours are near.
    PlainInks,
}

/// What a file says about the meaning of its numbers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Profile {
    /// Nothing.
    Absent,
    /// An embedded ICC profile.
    Icc(Vec<u8>),
    /// Code points of ITU-T H.273: primaries and transfer. Only HEIC states them.
    #[cfg_attr(not(feature = "heic"), expect(dead_code))]
    Coded { primaries: u8, transfer: u8 },
}

/// Converts `picture` to RGB in sRGB.
pub(super) fn to_srgb(picture: Raster, profile: &Profile) -> (Raster, Colour) {
    let picture = on_white(picture);
    let source = match profile {
        Profile::Absent => None,
        Profile::Icc(icc) if icc.len() > MAX_PROFILE_BYTES => None,
        Profile::Icc(icc) => ColorProfile::new_from_slice(icc).ok(),
        Profile::Coded { primaries, transfer } => coded(*primaries, *transfer),
    };
    if let Some(converted) = source.and_then(|source| convert(&picture, &source)) {
        return (converted, Colour::Converted);
    }
    let colour = match (picture.channels, profile) {
        (Channels::Cmyk, _) => Colour::PlainInks,
        (_, Profile::Icc(_)) => Colour::ProfileIgnored,
        _ => Colour::TakenAsSrgb,
    };
    (plain(picture), colour)
}

/// Wide-gamut codes get a profile; sRGB and "unspecified" need none.
fn coded(primaries: u8, transfer: u8) -> Option<ColorProfile> {
    let primaries = CicpColorPrimaries::try_from(primaries).ok()?;
    let wide = [CicpColorPrimaries::Smpte432, CicpColorPrimaries::Bt2020];
    if !wide.contains(&primaries) {
        return None;
    }
    Some(ColorProfile::new_from_cicp(CicpProfile {
        color_primaries: primaries,
        transfer_characteristics: TransferCharacteristics::try_from(transfer).ok()?,
        matrix_coefficients: MatrixCoefficients::Identity,
        full_range: true,
    }))
}

/// Applies `source`; `None` if it does not fit the picture's channels.
fn convert(picture: &Raster, source: &ColorProfile) -> Option<Raster> {
    let spread;
    let (input, layout) = match (picture.channels, source.color_space) {
        (Channels::Grey, DataColorSpace::Gray) => (picture, Layout::Gray),
        (Channels::Grey, DataColorSpace::Rgb) => {
            spread = plain(picture.clone());
            (&spread, Layout::Rgb)
        }
        (Channels::Rgb, DataColorSpace::Rgb) => (picture, Layout::Rgb),
        (Channels::Cmyk, DataColorSpace::Cmyk) => (picture, Layout::Rgba),
        _ => return None,
    };
    let target = ColorProfile::new_srgb();
    let transform = source
        .create_transform_8bit(layout, &target, Layout::Rgb, TransformOptions::default())
        .ok()?;
    let mut pixels = vec![0; picture.width as usize * picture.height as usize * 3];
    transform.transform(&input.pixels, &mut pixels).ok()?;
    Some(Raster { channels: Channels::Rgb, pixels, ..*picture })
}

/// Lays a picture with opacity on white paper.
fn on_white(picture: Raster) -> Raster {
    if picture.channels != Channels::Rgba {
        return picture;
    }
    let over = |channel: u8, opacity: u8| {
        let (channel, opacity) = (u32::from(channel), u32::from(opacity));
        ((channel * opacity + 255 * (255 - opacity) + 127) / 255) as u8
    };
    let pixels = picture
        .pixels
        .as_chunks::<4>()
        .0
        .iter()
        .flat_map(|&[red, green, blue, opacity]| [red, green, blue].map(|c| over(c, opacity)))
        .collect();
    Raster { channels: Channels::Rgb, pixels, ..picture }
}

/// RGB by arithmetic alone: grey is spread, ink is subtracted from white.
fn plain(picture: Raster) -> Raster {
    let pixels = match picture.channels {
        Channels::Grey => picture.pixels.iter().flat_map(|&grey| [grey; 3]).collect(),
        Channels::Cmyk => {
            let left = |ink: u8, black: u8| {
                ((255 - u32::from(ink)) * (255 - u32::from(black)) + 127) / 255
            };
            let inks = picture.pixels.as_chunks::<4>().0;
            inks.iter().flat_map(|&[c, m, y, k]| [c, m, y].map(|ink| left(ink, k) as u8)).collect()
        }
        Channels::Rgb | Channels::Rgba => picture.pixels,
    };
    Raster { channels: Channels::Rgb, pixels, ..picture }
}
