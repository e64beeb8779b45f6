//! Hash noise: smooth, fractal, ridged and cellular.
//!
//! In: a point. Out: a number that is the same on every machine and every run.
//! No random source and no state here.

use super::math::{V3, v};

const KX: u32 = 0x8da6_b343;
const KY: u32 = 0xd816_3841;
const KZ: u32 = 0xcb1a_b31f;

/// Scrambles three cell numbers into 32 bits.
pub fn hash(x: i32, y: i32, z: i32) -> u32 {
    stir((x as u32).wrapping_mul(KX) ^ (y as u32).wrapping_mul(KY) ^ (z as u32).wrapping_mul(KZ))
}

fn stir(mut h: u32) -> u32 {
    h ^= h >> 15;
    h = h.wrapping_mul(0x2c1b_3c6d);
    h ^= h >> 12;
    h = h.wrapping_mul(0x297a_2d39);
    h ^ (h >> 15)
}

/// The hash as a number from 0 to 1.
pub fn unit(x: i32, y: i32, z: i32) -> f32 {
    (hash(x, y, z) >> 8) as f32 / 16_777_216.0
}

fn slope(h: u32, x: f32, y: f32, z: f32) -> f32 {
    let u = if h & 8 == 0 { x } else { y };
    let w = match h & 0xc {
        0 | 4 => y,
        12 => x,
        _ => z,
    };
    let a = if h & 1 == 0 { u } else { -u };
    let b = if h & 2 == 0 { w } else { -w };
    a + b
}

/// Whole part and rest; quicker than the library's `floor` on older processors.
fn split(x: f32) -> (i32, f32) {
    let cut = x as i32;
    let whole = cut - i32::from(x < cut as f32);
    (whole, x - whole as f32)
}

/// Gradient noise, about -1 to 1.
pub fn noise(p: V3) -> f32 {
    let ((ix, x), (iy, y), (iz, z)) = (split(p.x), split(p.y), split(p.z));
    let ease = |t: f32| t * t * t * (t * (t * 6.0 - 15.0) + 10.0);
    let (u, w, q) = (ease(x), ease(y), ease(z));
    let (hx, hy, hz) =
        ((ix as u32).wrapping_mul(KX), (iy as u32).wrapping_mul(KY), (iz as u32).wrapping_mul(KZ));
    let (xs, ys, zs) =
        ([hx, hx.wrapping_add(KX)], [hy, hy.wrapping_add(KY)], [hz, hz.wrapping_add(KZ)]);
    let c = |dx: usize, dy: usize, dz: usize| {
        slope(stir(xs[dx] ^ ys[dy] ^ zs[dz]), x - dx as f32, y - dy as f32, z - dz as f32)
    };
    let lerp = |a: f32, b: f32, t: f32| a + (b - a) * t;
    let low = lerp(lerp(c(0, 0, 0), c(1, 0, 0), u), lerp(c(0, 1, 0), c(1, 1, 0), u), w);
    let high = lerp(lerp(c(0, 0, 1), c(1, 0, 1), u), lerp(c(0, 1, 1), c(1, 1, 1), u), w);
    lerp(low, high, q)
}

/// Fractal sum of `octaves` layers, about -1 to 1.
pub fn fbm(p: V3, octaves: u32) -> f32 {
    let (mut sum, mut weight, mut q) = (0.0, 0.5, p);
    for _ in 0..octaves {
        sum += weight * noise(q);
        weight *= 0.5;
        q = v(q.x * 1.62 - q.y * 1.18, q.x * 1.18 + q.y * 1.62, q.z * 2.01) + v(17.3, -9.1, 5.7);
    }
    sum * 1.4
}

/// Ridged fractal, 0 to 1, high along thin crests.
pub fn ridges(p: V3, octaves: u32) -> f32 {
    let (mut sum, mut weight, mut q, mut total) = (0.0, 0.5, p, 0.0);
    for _ in 0..octaves {
        let r = 1.0 - noise(q).abs() * 1.6;
        sum += weight * r.max(0.0);
        total += weight;
        weight *= 0.5;
        q = v(q.x * 1.7 - q.y * 1.1, q.x * 1.1 + q.y * 1.7, q.z * 2.03) + v(3.1, 7.7, -2.3);
    }
    sum / total
}

/// Nearest scattered point.
#[derive(Clone, Copy)]
pub struct Cell {
    /// Distance to the nearest point, in cells.
    pub near: f32,
    /// Distance to the second nearest point.
    pub next: f32,
    /// A number from 0 to 1 that belongs to the nearest point.
    pub tag: f32,
}

/// Cellular noise in a plane; `seed` picks another scatter.
pub fn cells(x: f32, y: f32, seed: i32) -> Cell {
    let ((ix, x), (iy, y)) = (split(x), split(y));
    let mut out = Cell { near: 9.0, next: 9.0, tag: 0.0 };
    for dy in -1..=1 {
        for dx in -1..=1 {
            let h = hash(ix + dx, iy + dy, seed);
            let px = dx as f32 + (h & 0xffff) as f32 / 65536.0 - x;
            let py = dy as f32 + (h >> 16) as f32 / 65536.0 - y;
            let d = px * px + py * py;
            if d < out.near {
                out.next = out.near;
                out.near = d;
                out.tag = unit(ix + dx, iy + dy, seed + 77);
            } else if d < out.next {
                out.next = d;
            }
        }
    }
    Cell { near: out.near.sqrt(), next: out.next.sqrt(), tag: out.tag }
}

/// Cellular noise on a surface: uses the plane that the normal faces most.
pub fn cells_on(p: V3, n: V3, seed: i32) -> Cell {
    let (ax, ay, az) = (n.x.abs(), n.y.abs(), n.z.abs());
    if az >= ax && az >= ay {
        cells(p.x, p.y, seed)
    } else if ax >= ay {
        cells(p.y, p.z, seed + 1)
    } else {
        cells(p.x, p.z, seed + 2)
    }
}
