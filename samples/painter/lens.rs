//! What lens and sensor do: blur away from the focus, bloom, falling-off corners, white balance,
//! tone curve, sharpening and grain.
//!
//! In: a linear `Film`. Out: 8-bit sRGB pixels. Encoding is `store`.

use super::math::{V3, grey, mix, mix3, v};
use super::noise::{hash, unit};
use super::render::Film;
use image::{Rgb, RgbImage};

/// The look of one exposure.
#[derive(Clone, Copy)]
pub struct Lens {
    /// Distance in focus, in units from the lens.
    pub focus: f32,
    /// Strength of the blur; 0 is all sharp.
    pub blur: f32,
    /// Mean brightness aimed at, about 0.2.
    pub exposure: f32,
    /// White balance: above 0 warmer, below 0 cooler.
    pub warm: f32,
    /// Sensor noise, about 1.
    pub grain: f32,
    /// Picks another grain.
    pub seed: i32,
}

/// Develops the film; `big` doubles it up to the given size first.
pub fn develop(film: &Film, lens: &Lens, size: (usize, usize)) -> RgbImage {
    let blurred = defocus(film, lens);
    let bloomed = bloom(&blurred, film.width, film.height);
    let toned = tone(&bloomed, film, lens);
    let crisp = sharpen(&toned, film.width, film.height, 0.45);
    expose(&crisp, film.width, film.height, lens, size)
}

fn defocus(film: &Film, lens: &Lens) -> Vec<V3> {
    let (w, h) = (film.width as isize, film.height as isize);
    if lens.blur <= 0.0 {
        return film.colour.clone();
    }
    let span = film.height as f32 / 1000.0;
    let size = |i: usize| {
        let z = film.depth[i];
        (lens.blur * span * ((z - lens.focus).abs() / z)).min(16.0 * span)
    };
    let mut out = film.colour.clone();
    for y in 0..h {
        for x in 0..w {
            let i = (y * w + x) as usize;
            let radius = size(i);
            if radius < 0.6 {
                continue;
            }
            let taps = ((radius * radius * 2.5) as usize).clamp(10, 90);
            let start = unit(x as i32, y as i32, 5) * std::f32::consts::TAU;
            let (mut sum, mut total) = (film.colour[i], 1.0);
            for k in 0..taps {
                let r = radius * ((k as f32 + 0.5) / taps as f32).sqrt();
                let a = start + k as f32 * 2.399_963;
                let nx = (x + (r * a.cos()).round() as isize).clamp(0, w - 1);
                let ny = (y + (r * a.sin()).round() as isize).clamp(0, h - 1);
                let j = (ny * w + nx) as usize;
                // A sharp thing in front must not bleed into the blur.
                let weight = if size(j) + 0.8 < r && film.depth[j] < film.depth[i] - 0.1 {
                    0.05
                } else {
                    1.0
                };
                sum += film.colour[j] * weight;
                total += weight;
            }
            out[i] = sum * (1.0 / total);
        }
    }
    out
}

fn bloom(colour: &[V3], w: usize, h: usize) -> Vec<V3> {
    let step = (h / 150).max(2);
    let (sw, sh) = (w.div_ceil(step), h.div_ceil(step));
    let mut small = vec![grey(0.0); sw * sh];
    for y in 0..h {
        for x in 0..w {
            let c = colour[y * w + x];
            let bright = (c.luma() - 0.9).clamp(0.0, 4.0) / c.luma().max(0.01);
            small[(y / step) * sw + x / step] += c * (bright / (step * step) as f32);
        }
    }
    for _ in 0..3 {
        small = box_blur(&small, sw, sh, 2);
    }
    let mut out = colour.to_vec();
    for y in 0..h {
        for x in 0..w {
            let fx = (x as f32 / step as f32 - 0.5).clamp(0.0, sw as f32 - 1.001);
            let fy = (y as f32 / step as f32 - 0.5).clamp(0.0, sh as f32 - 1.001);
            out[y * w + x] += bilinear(&small, sw, sh, fx, fy) * 0.16;
        }
    }
    out
}

fn bilinear(data: &[V3], w: usize, h: usize, fx: f32, fy: f32) -> V3 {
    let (x, y) = (fx as usize, fy as usize);
    let (x1, y1) = ((x + 1).min(w - 1), (y + 1).min(h - 1));
    let (tx, ty) = (fx - x as f32, fy - y as f32);
    let top = mix3(data[y * w + x], data[y * w + x1], tx);
    mix3(top, mix3(data[y1 * w + x], data[y1 * w + x1], tx), ty)
}

fn box_blur(data: &[V3], w: usize, h: usize, r: usize) -> Vec<V3> {
    let mut pass = vec![grey(0.0); w * h];
    let mut out = pass.clone();
    for y in 0..h {
        for x in 0..w {
            let (a, b) = (x.saturating_sub(r), (x + r).min(w - 1));
            let mut sum = grey(0.0);
            for k in a..=b {
                sum += data[y * w + k];
            }
            pass[y * w + x] = sum * (1.0 / (b - a + 1) as f32);
        }
    }
    for y in 0..h {
        let (a, b) = (y.saturating_sub(r), (y + r).min(h - 1));
        for x in 0..w {
            let mut sum = grey(0.0);
            for k in a..=b {
                sum += pass[k * w + x];
            }
            out[y * w + x] = sum * (1.0 / (b - a + 1) as f32);
        }
    }
    out
}

fn curve(x: f32) -> f32 {
    let x = x.max(0.0) * 0.72;
    ((x * (2.51 * x + 0.03)) / (x * (2.43 * x + 0.59) + 0.14)).clamp(0.0, 1.0)
}

fn gamma(x: f32) -> f32 {
    if x <= 0.003_130_8 { x * 12.92 } else { 1.055 * x.powf(1.0 / 2.4) - 0.055 }
}

fn tone(colour: &[V3], film: &Film, lens: &Lens) -> Vec<V3> {
    let mut log = 0.0f64;
    for c in colour {
        log += f64::from((c.luma() + 0.02).ln());
    }
    let mean = ((log / colour.len() as f64) as f32).exp();
    let gain = lens.exposure / mean;
    let balance = v(1.0 + lens.warm * 0.10, 1.0 + lens.warm * 0.015, 1.0 - lens.warm * 0.13);
    let (w, h) = (film.width as f32, film.height as f32);
    colour
        .iter()
        .enumerate()
        .map(|(i, c)| {
            let x = (i % film.width) as f32 / w * 2.0 - 1.0;
            let y = ((i / film.width) as f32 / h * 2.0 - 1.0) * h / w;
            let off = x * x + y * y;
            let fall = 1.0 - 0.20 * off - 0.05 * off * off;
            let c = *c * balance * (gain * fall);
            let flat = v(curve(c.x), curve(c.y), curve(c.z));
            // Keep some hue in the highlights.
            let l = c.luma().max(1e-5);
            let hue = c * (curve(l) / l);
            let c = mix3(flat, v(hue.x.min(1.0), hue.y.min(1.0), hue.z.min(1.0)), 0.3);
            v(gamma(c.x), gamma(c.y), gamma(c.z))
        })
        .collect()
}

fn sharpen(data: &[V3], w: usize, h: usize, amount: f32) -> Vec<V3> {
    let soft = box_blur(data, w, h, 1);
    data.iter()
        .zip(&soft)
        .map(|(c, s)| {
            let d = (c.luma() - s.luma()).clamp(-0.16, 0.16) * amount;
            *c + grey(d)
        })
        .collect()
}

/// Noise of about -1 to 1 with a bell-like spread.
fn speck(x: i32, y: i32, seed: i32) -> f32 {
    let h = hash(x, y, seed);
    let part = |shift: u32| ((h >> shift) & 0xff) as f32 / 255.0;
    (part(0) + part(8) + part(16) + part(24)) - 2.0
}

fn expose(data: &[V3], w: usize, h: usize, lens: &Lens, size: (usize, usize)) -> RgbImage {
    let (ow, oh) = size;
    let (kx, ky) = (w as f32 / ow as f32, h as f32 / oh as f32);
    let enlarged = kx < 0.95;
    let mut out = RgbImage::new(ow as u32, oh as u32);
    for (x, y, pixel) in out.enumerate_pixels_mut() {
        let fx = ((x as f32 + 0.5) * kx - 0.5).clamp(0.0, w as f32 - 1.0);
        let fy = ((y as f32 + 0.5) * ky - 0.5).clamp(0.0, h as f32 - 1.0);
        let c = if enlarged {
            cubic(data, w, h, fx, fy)
        } else {
            data[(fy + 0.5) as usize * w + (fx + 0.5) as usize]
        };
        let l = c.luma().clamp(0.0, 1.0);
        let (xi, yi) = (x as i32, y as i32);
        let strength = lens.grain * mix(0.020, 0.010, l) * step_in(l);
        let fine = speck(xi, yi, lens.seed);
        let coarse = speck(xi / 2, yi / 2, lens.seed + 1) * 0.7;
        let g = (fine * 0.6 + coarse * 0.55) * strength;
        let red = speck(xi / 3, yi / 3, lens.seed + 2) * strength * 0.35;
        let blue = speck(xi / 3, yi / 3, lens.seed + 3) * strength * 0.45;
        let put = |a: f32| (a * 255.0 + 0.5).clamp(0.0, 255.0) as u8;
        *pixel = Rgb([put(c.x + g + red), put(c.y + g), put(c.z + g + blue)]);
    }
    out
}

fn step_in(l: f32) -> f32 {
    0.45 + 0.55 * (l * 6.0).min(1.0)
}

fn cubic(data: &[V3], w: usize, h: usize, fx: f32, fy: f32) -> V3 {
    let (x0, y0) = (fx.floor(), fy.floor());
    let (wx, wy) = (weights(fx - x0), weights(fy - y0));
    let mut sum = grey(0.0);
    for (j, b) in wy.iter().enumerate() {
        let y = (y0 as isize + j as isize - 1).clamp(0, h as isize - 1) as usize;
        for (i, a) in wx.iter().enumerate() {
            let x = (x0 as isize + i as isize - 1).clamp(0, w as isize - 1) as usize;
            sum += data[y * w + x] * (a * b);
        }
    }
    sum
}

fn weights(t: f32) -> [f32; 4] {
    let (t2, t3) = (t * t, t * t * t);
    [
        -0.5 * t3 + t2 - 0.5 * t,
        1.5 * t3 - 2.5 * t2 + 1.0,
        -1.5 * t3 + 2.0 * t2 + 0.5 * t,
        0.5 * t3 - 0.5 * t2,
    ]
}
