//! JPEG: bytes -> header, and pixels that are shrunk while they are decoded.
//!
//! A print copy needs a sixth to a thirtieth of a phone's pixels. The decoder leaves out what the
//! copy cannot show (a half, a quarter or an eighth of each edge is kept), which is twice as fast for
//! large photos and takes a fifth of the memory. If it meets damage, a second decoder shows what
//! can still be read, and the photo is marked as damaged.

use std::io::{Cursor, ErrorKind};

use image::codecs::jpeg::JpegDecoder;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder};
use jpeg_decoder::{Decoder, Error, PixelFormat};

use crate::photo::colour::Profile;
use crate::photo::header::{Decoded, Header, MAX_PIXELS, check_size, raster_of};
use crate::photo::jpeg_markers::{self, Markers};
use crate::photo::raster::{Channels, Raster};
use crate::photo::refusal::Refusal;
use crate::photo::turn::Turn;

/// Most passes over a picture: a progressive file of a camera has about ten, and each pass costs time
/// whether or not it brings anything.
const MAX_SCANS: u32 = 100;

/// Pixels that are kept while shrinking, as a multiple of the copy's edge in eighths: 10 is 1.25.
const KEEP_EIGHTHS: u32 = 10;

/// An opened JPEG.
pub(super) struct File<'a> {
    bytes: &'a [u8],
    markers: Markers,
}

/// Reads the header and walks over the markers.
pub(super) fn open(bytes: &[u8]) -> Result<(Header, File<'_>), Refusal> {
    let markers = jpeg_markers::walk(bytes);
    if let Some((width, height)) = markers.size {
        check_size(width, height)?;
    }
    if !markers.has_picture {
        return Err(Refusal::broken("it ends before the picture starts"));
    }
    if markers.scans > MAX_SCANS {
        let scans = markers.scans;
        return Err(Refusal::broken(format_args!(
            "it is drawn in {scans} passes; at most {MAX_SCANS} are read"
        )));
    }
    let header = bytes.get(..markers.header_bytes).unwrap_or(bytes);
    let mut header = JpegDecoder::new(Cursor::new(header)).map_err(Refusal::broken)?;
    let (width, height) = header.dimensions();
    check_size(width, height)?;
    let pixels = u64::from(width) * u64::from(height);
    let profile = header.icc_profile().ok().flatten();
    let header = Header {
        width,
        height,
        turn: Turn::of(header.orientation().unwrap_or(Orientation::NoTransforms)),
        profile: profile.map_or(Profile::Absent, Profile::Icc),
        exif: header.exif_metadata().ok().flatten(),
        xmp: header.xmp_metadata().ok().flatten(),
        weight: if markers.scans > 1 { pixels * 2 } else { pixels },
    };
    Ok((header, File { bytes, markers }))
}

impl File<'_> {
    /// Unpacks the pixels, no fewer than `at_least`.
    pub(super) fn decode(self, at_least: (u32, u32)) -> Result<Decoded, Refusal> {
        let cut_short = !self.markers.complete;
        match self.shrunk(at_least) {
            Ok(raster) => Ok(Decoded { raster, damaged: cut_short }),
            // The tolerant decoder mixes the colours up when each has its own scan.
            Err(error) if self.markers.scans > 1 && !self.markers.progressive => {
                Err(Refusal::broken(error))
            }
            Err(error) => {
                let damaged = cut_short || is_of_the_file(&error);
                let tolerant =
                    JpegDecoder::new(Cursor::new(self.bytes)).map_err(Refusal::broken)?;
                let picture = DynamicImage::from_decoder(tolerant).map_err(Refusal::broken)?;
                Ok(Decoded { raster: raster_of(picture)?, damaged })
            }
        }
    }

    fn shrunk(&self, (width, height): (u32, u32)) -> Result<Raster, Error> {
        let keep = |edge: u32| u16::try_from(edge * KEEP_EIGHTHS / 8).unwrap_or(u16::MAX);
        let mut decoder = Decoder::new(self.bytes);
        decoder.set_max_decoding_buffer_size(MAX_PIXELS as usize * 4);
        let (width, height) = decoder.scale(keep(width), keep(height))?;
        let mut pixels = decoder.decode()?;
        let channels = match decoder.info().map(|info| info.pixel_format) {
            Some(PixelFormat::L8) => Channels::Grey,
            Some(PixelFormat::RGB24) => Channels::Rgb,
            Some(PixelFormat::CMYK32) => Channels::Cmyk,
            Some(PixelFormat::L16) | None => {
                return Err(Error::Format("more than eight bits a channel".to_owned()));
            }
        };
        // The decoder takes inks as inverted, which is Adobe's habit and nobody else's.
        if channels == Channels::Cmyk && !self.markers.adobe {
            for ink in &mut pixels {
                *ink = 255 - *ink;
            }
        }
        Raster::new((width.into(), height.into()), channels, pixels)
            .map_err(|refusal| Error::Format(refusal.to_string()))
    }
}

/// False for what the decoder does not know, and for what the machine refused it, such as a thread: the
/// file is as good as before, and must not be called damaged.
fn is_of_the_file(error: &Error) -> bool {
    match error {
        Error::Unsupported(_) | Error::Internal(_) => false,
        Error::Io(error) => !matches!(error.kind(), ErrorKind::WouldBlock | ErrorKind::OutOfMemory),
        Error::Format(_) => true,
    }
}

#[cfg(test)]
mod tests {
    use std::io::{Error as IoError, ErrorKind};

    use super::{Error, is_of_the_file};

    #[test]
    fn a_machine_without_threads_makes_no_photo_damaged() {
        assert!(!is_of_the_file(&Error::Io(IoError::from(ErrorKind::WouldBlock))));
        assert!(is_of_the_file(&Error::Io(IoError::from(ErrorKind::UnexpectedEof))));
        assert!(is_of_the_file(&Error::Format("a code that is none".into())));
    }
}
