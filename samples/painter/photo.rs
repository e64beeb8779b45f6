//! The list of photos: which scene, how large, which lens, which EXIF facts.
//!
//! In: nothing. Out: the photos in painting order. The scenes themselves are in `job_*`.

use super::exif::Exposure;
use super::lens::Lens;
use super::render::Scene;
use super::{
    job_hd2611, job_hd2614, job_hd2618, job_hd2620, job_hd2623, job_hd2625, job_hd2630, job_hd2631,
    job_hd2640, job_hd2642,
};

/// How a photo is stored.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Format {
    /// JPEG of the given quality.
    Jpeg(u8),
    /// PNG.
    Png,
}

/// One photo.
#[derive(Clone, Copy)]
pub struct Photo {
    /// Folder.
    pub job: &'static str,
    /// File name without extension.
    pub name: &'static str,
    /// Pixels that are rendered, upright.
    pub drawn: (usize, usize),
    /// Pixels that are stored, upright.
    pub size: (usize, usize),
    /// The scene.
    pub scene: fn() -> Scene,
    /// Lens and sensor.
    pub lens: Lens,
    /// EXIF facts.
    pub exposure: Exposure,
    /// File format.
    pub format: Format,
    /// Painted only when asked for by name.
    pub on_request: bool,
}

impl Photo {
    /// An ordinary photo of 1600 by 1200, zone known.
    pub fn new(
        job: &'static str,
        name: &'static str,
        taken: &'static str,
        scene: fn() -> Scene,
    ) -> Photo {
        let seed = name.bytes().chain(job.bytes()).fold(7, |a, b| (a * 31 + i32::from(b)) % 99_991);
        Photo {
            job,
            name,
            drawn: (1280, 960),
            size: (1600, 1200),
            scene,
            lens: Lens {
                focus: 9.0,
                blur: 22.0,
                exposure: 0.2,
                warm: ((seed % 7) as f32 - 3.0) * 0.12,
                grain: 1.0,
                seed,
            },
            exposure: Exposure {
                taken,
                offset: Some("+00:00"),
                thousandth: (seed % 1000) as u16,
                orientation: 1,
                position: None,
                serial: None,
            },
            format: Format::Jpeg(86),
            on_request: false,
        }
    }

    /// Sets focus distance, blur, exposure and warmth.
    pub fn lens(self, focus: f32, blur: f32, exposure: f32, warm: f32) -> Photo {
        Photo { lens: Lens { focus, blur, exposure, warm, ..self.lens }, ..self }
    }

    /// Stores 12 megapixels, drawn smaller and enlarged.
    pub fn large(self) -> Photo {
        let lens = Lens { grain: 2.1, ..self.lens };
        Photo { drawn: (1760, 1320), size: (4032, 3024), format: Format::Jpeg(90), lens, ..self }
    }

    /// Summer time, one hour ahead.
    pub fn summer(self) -> Photo {
        self.zone(Some("+01:00"))
    }

    /// Sets or removes the zone.
    pub fn zone(self, offset: Option<&'static str>) -> Photo {
        Photo { exposure: Exposure { offset, ..self.exposure }, ..self }
    }

    /// Adds a position and a camera serial number, for tests of their removal.
    pub fn traced(self) -> Photo {
        let exposure =
            Exposure { position: Some((54.5, 4.0)), serial: Some("LO7-000417"), ..self.exposure };
        Photo { exposure, ..self }
    }

    /// Stores the pixels turned, with the orientation that turns them back.
    pub fn turned(self) -> Photo {
        Photo { exposure: Exposure { orientation: 6, ..self.exposure }, ..self }
    }

    /// Stores a PNG of the given size.
    pub fn png(self, size: (usize, usize)) -> Photo {
        Photo { drawn: size, size, format: Format::Png, ..self }
    }
}

/// Every photo, job after job.
pub fn all() -> Vec<Photo> {
    let mut list = Vec::new();
    list.extend(job_hd2611::photos());
    list.extend(job_hd2614::photos());
    list.extend(job_hd2618::photos());
    list.extend(job_hd2620::photos());
    list.extend(job_hd2623::photos());
    list.extend(job_hd2625::photos());
    list.extend(job_hd2630::photos());
    list.extend(job_hd2631::photos());
    list.extend(job_hd2640::photos());
    list.extend(job_hd2642::photos());
    list
}
