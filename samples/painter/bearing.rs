//! A deep-groove ball bearing: rings, balls, riveted cage, seals; new, tired or rusted.
//!
//! In: a place, sizes and a state. Out: bodies. Its axis is local z, its middle the origin.
//! The seat around it is `casing`.

use super::decay;
use super::math::{Place, V3, bell, grey, step, v};
use super::noise::{cells_on, fbm, noise};
use super::render::Body;
use super::shape::{cut, fold, join, rect, ring, torus};
use super::skin::{Skin, Spot, relief};
use super::stuff;
use std::f32::consts::{PI, TAU};

/// Main sizes in units of ten millimetres.
#[derive(Clone, Copy)]
pub struct Size {
    /// Bore radius.
    pub bore: f32,
    /// Outer radius.
    pub outer: f32,
    /// Half width.
    pub half: f32,
    /// Ball radius.
    pub ball: f32,
    /// Balls.
    pub count: u32,
}

/// The thin-section bearing that carries the crank in every sample unit.
pub const CRANK: Size = Size { bore: 1.0, outer: 1.62, half: 0.35, ball: 0.19, count: 11 };

impl Size {
    fn pitch(&self) -> f32 {
        (self.bore + self.outer) * 0.5
    }

    fn lands(&self) -> (f32, f32) {
        (self.pitch() - self.ball * 0.66, self.pitch() + self.ball * 0.66)
    }
}

/// How far it has gone; every number 0 to 1 except `rust`, which starts at about -0.8.
#[derive(Clone, Copy)]
pub struct Wear {
    /// Loss of shine.
    pub dull: f32,
    /// Black pits in the track.
    pub pits: f32,
    /// Rust cover: -1 none, 0 half, 0.6 all.
    pub rust: f32,
    /// Angle at which the rust is thickest, in radians.
    pub worst: f32,
    /// Bright round dents in the track, as hard particles press them.
    pub dents: f32,
}

/// Fresh out of the box.
pub const FRESH: Wear = Wear { dull: 0.0, pits: -1.0, rust: -2.0, worst: 0.0, dents: 0.0 };

fn worn(spot: &Spot, base: Skin, wear: Wear, track: bool) -> Skin {
    let p = spot.p;
    if wear.rust < -1.5 && wear.pits < -0.5 {
        return base;
    }
    let side = (p.angle() - wear.worst).cos() * 0.28;
    let edge = bell(1.0, 0.08, p.flat()) + bell(1.62, 0.08, p.flat());
    let deep = if track { 0.12 } else { 0.0 };
    let base = decay::pitted(base, spot, wear.pits + side + deep);
    decay::rust(base, spot, wear.rust + side + edge * 0.18 + deep)
}

/// Dents of hard particles: round, shallow, as bright as the steel.
fn dented(spot: &Spot, base: Skin, much: f32) -> Skin {
    let dents = |q: V3| {
        let cell = cells_on(q * 9.0, spot.n, 61);
        step(0.34, 0.22, cell.near) * step(1.0 - much, 1.05 - much, cell.tag)
    };
    let normal = relief(spot, 0.006, |q| -dents(q) * 0.04);
    base.with_normal(normal).dim(1.0 - 0.35 * dents(spot.p))
}

/// The two rings.
pub fn rings(place: Place, size: Size, wear: Wear) -> Vec<Body> {
    let (low, high) = size.lands();
    let pitch = size.pitch();
    let groove = move |p: V3| torus(p, pitch, size.ball * 1.05);
    let swell = move |p: V3, d: f32| {
        if wear.rust > -0.6 && d < 0.08 { d - 0.012 * fbm(p * 6.0, 3) } else { d }
    };
    let lip = move |p: V3, r: f32| rect(p.flat() - r, p.z - size.half, 0.05, 0.05, 0.01);
    let outer = move |p: V3| {
        let body = ring(p, high, size.outer, size.half, 0.045);
        swell(p, cut(cut(body, groove(p), 0.02), lip(p, high), 0.015))
    };
    let inner = move |p: V3| {
        let body = ring(p, size.bore, low, size.half, 0.045);
        swell(p, cut(cut(body, groove(p), 0.02), lip(p, low), 0.015))
    };
    let look = move |s: &Spot| {
        let track = groove(s.p).abs() < 0.03;
        let mut base = stuff::steel(s, wear.dull);
        if track {
            let tired = 0.1 + wear.dull * 0.9;
            base = stuff::polished(s, tired);
            // The running band that tired grease leaves: a dull stripe with light marks.
            let stripe = bell(0.0, 0.10, s.p.z) * wear.dull;
            let mark = step(0.25, 0.5, noise(v(s.p.angle() * 14.0, s.p.z * 8.0, 4.0)));
            base.rough += stripe * 0.2;
            base = base.dim(1.0 - stripe * (0.25 + 0.35 * mark));
            if 0.0 < wear.dents {
                base = dented(s, base, wear.dents);
            }
        }
        worn(s, base, wear, track)
    };
    let reach = size.outer * 1.05 + size.half * 0.2;
    vec![
        Body::new(place, grey(0.0), reach, outer, look),
        Body::new(place, grey(0.0), size.bore * 1.45 + 0.05, inner, look),
    ]
}

/// Balls at the given angles (radians).
pub fn balls(place: Place, size: Size, wear: Wear, at: Vec<f32>) -> Vec<Body> {
    let pitch = size.pitch();
    at.into_iter()
        .enumerate()
        .map(|(i, a)| {
            let (s, c) = a.sin_cos();
            let here = place.world(v(c * pitch, s * pitch, 0.0));
            let spot = Place::at(here.x, here.y, here.z);
            let off = grey(i as f32 * 3.7);
            Body::new(
                spot,
                grey(0.0),
                size.ball + 0.02,
                move |p| p.len() - size.ball,
                move |s| {
                    let base = stuff::polished(s, wear.dull);
                    let moved = Spot { p: s.p + off, n: s.n };
                    let spotted = decay::pitted(base, &moved, wear.pits);
                    decay::rust(spotted, &moved, wear.rust - 0.05)
                },
            )
        })
        .collect()
}

/// Even angles for all balls of a whole bearing.
pub fn even(size: Size) -> Vec<f32> {
    (0..size.count).map(|i| (i as f32) * TAU / size.count as f32).collect()
}

fn ribbon(p: V3, size: Size) -> f32 {
    let pitch = size.pitch();
    let (q, _) = fold(p, size.count);
    let along = pitch * q.y.atan2(q.x);
    let pocket = size.ball + 0.04;
    let top = (pocket * pocket - along * along).max(0.0).sqrt();
    let z = join(-top, -0.035, 0.08);
    let strip = rect(q.flat() - pitch, p.z + z, size.ball * 0.30, 0.022, 0.015) * 0.62;
    let half = PI / size.count as f32;
    let edge = q.spin(if q.y > 0.0 { -half } else { half });
    let rivet = (edge - v(pitch, 0.0, 0.06)).len() - 0.06;
    join(strip, rivet, 0.03)
}

/// The riveted cage; `keep` says which stretches of the turn (radians) are still there.
pub fn cage(place: Place, size: Size, wear: Wear, keep: Vec<(f32, f32)>) -> Body {
    let distance = move |p: V3| {
        let d = ribbon(p, size);
        if keep.is_empty() {
            return d;
        }
        let a = p.angle();
        let mut gap = f32::MAX;
        for &(from, to) in &keep {
            let mid = (from + to) * 0.5;
            let mut off = (a - mid).rem_euclid(TAU);
            if off > PI {
                off -= TAU;
            }
            let ragged = noise(v(p.flat() * 14.0, p.z * 9.0, mid * 5.0)) * 0.03;
            gap = gap.min((off.abs() - (to - from) * 0.5) * size.pitch() + ragged);
        }
        d.max(gap * 0.8)
    };
    let look = move |s: &Spot| {
        let base = stuff::polished(s, 0.45 + wear.dull * 0.4).dim(0.8);
        decay::rust(base, s, wear.rust + 0.1)
    };
    Body::new(place, grey(0.0), size.outer, distance, look)
}

/// A pressed rubber seal on the upper side.
pub fn seal(place: Place, size: Size, tint: V3) -> Body {
    let (low, high) = size.lands();
    let (a, b) = (low - 0.015, high + 0.03);
    Body::new(
        place,
        v(0.0, 0.0, size.half),
        b + 0.1,
        move |p| {
            let q = v(p.x, p.y, p.z - size.half + 0.045);
            let r = p.flat();
            let wave = 0.016 * (bell(a + 0.07, 0.035, r) + bell(b - 0.06, 0.03, r))
                + 0.01 * bell((a + b) * 0.5, 0.06, r);
            let d = rect(r - (a + b) * 0.5, q.z + wave, (b - a) * 0.5, 0.035, 0.02);
            d * 0.85
        },
        move |s| {
            let mark = engraved(s.p, (a + b) * 0.5);
            let base = stuff::rubber(s, tint);
            base.over(Skin::matt(s, tint * 2.4 + grey(0.02), 0.6), mark * 0.8)
        },
    )
}

const GLYPHS: [[u8; 5]; 8] = [
    [0b01110, 0b10000, 0b11110, 0b10001, 0b01110],
    [0b01110, 0b10001, 0b01110, 0b10001, 0b01110],
    [0b01110, 0b10001, 0b10001, 0b10001, 0b01110],
    [0b10010, 0b10010, 0b11111, 0b00010, 0b00010],
    [0b00000, 0b00000, 0b01110, 0b00000, 0b00000],
    [0b11110, 0b00001, 0b01110, 0b10000, 0b11111],
    [0b11110, 0b10001, 0b11110, 0b10010, 0b10001],
    [0b01111, 0b10000, 0b01110, 0b00001, 0b11110],
];

/// The designation `6804-2RS`, moulded round the seal at radius `at`; 1 on a letter.
fn engraved(p: V3, at: f32) -> f32 {
    let (cell, tall) = (0.021, 0.021);
    let along = -(p.angle() - PI * 0.5) * at;
    let start = -(8.0 * 6.0 * cell) * 0.5;
    let column = ((along - start) / cell).floor();
    let row = ((at + 2.5 * tall - p.flat()) / tall).floor();
    if !(0.0..48.0).contains(&column) || !(0.0..5.0).contains(&row) {
        return 0.0;
    }
    let (glyph, bit) = (column as usize / 6, column as usize % 6);
    if bit == 5 { 0.0 } else { f32::from((GLYPHS[glyph][row as usize] >> (4 - bit)) & 1) }
}
