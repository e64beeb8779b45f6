//! The electric side: stator with copper windings, rotor with magnets, cables, planet carrier.
//!
//! In: a place and a state. Out: bodies. Toothed wheels are `gear`.

use super::decay;
use super::math::{Place, V3, grey, step, v};
use super::noise::{fbm, noise};
use super::render::Body;
use super::shape::{block, cut, disc, fold, join, rect, ring, rod};
use super::skin::{Skin, Spot};
use super::stuff;

const TEETH: u32 = 12;
/// Straight pieces that a cable's bend is made of.
const PIECES: usize = 14;

/// A stator of outer radius 4.3 with twelve bright copper coils, its axis along z.
pub fn stator(place: Place) -> Vec<Body> {
    let core = Body::new(
        place,
        grey(0.0),
        4.6,
        |p| {
            let yoke = ring(p, 3.65, 4.3, 1.1, 0.03);
            let (q, _) = fold(p, TEETH);
            let tooth = block(q - v(3.0, 0.0, 0.0), v(0.75, 0.27, 1.1), 0.02);
            let shoe = rect(q.flat() - 2.3, q.y, 0.12, 0.52, 0.05).max(q.z.abs() - 1.1);
            join(join(yoke, tooth, 0.05), shoe, 0.05)
        },
        |s| {
            let line = noise(v(2.0, 1.0, s.p.z * 32.0));
            if s.n.z.abs() > 0.7 {
                return stuff::turned(s, v(0.30, 0.30, 0.305), 0.42, 0.03);
            }
            let n = (s.n + v(0.0, 0.0, line * 0.2)).unit();
            Skin::metal(s, v(0.33, 0.33, 0.34) * (1.0 + 0.4 * line), 0.38).with_normal(n)
        },
    );
    let bobbin = Body::new(
        place,
        grey(0.0),
        4.6,
        |p| {
            let (q, _) = fold(p, TEETH);
            let z = q.z.abs();
            let inner = block(v(q.x - 2.42, q.y, z - 0.85), v(0.05, 0.60, 0.62), 0.03);
            let outer = block(v(q.x - 3.56, q.y, z - 0.85), v(0.06, 0.80, 0.72), 0.03);
            inner.min(outer)
        },
        |s| stuff::plastic(s, v(0.50, 0.49, 0.44), 0.3),
    );
    let coils = Body::new(
        place,
        grey(0.0),
        4.3,
        |p| {
            let (q, i) = fold(p, TEETH);
            let x = q.x - 3.0;
            let wide = 0.50 + 0.10 * x;
            let d = block(v(x, q.y, q.z), v(0.50, wide, 1.34), 0.22);
            if d > 0.12 {
                return d - 0.05;
            }
            let lay = q.y * 0.05 + 0.02 * noise(v(i as f32 * 7.0, q.x * 3.0, q.z));
            let wire = ((x + lay) * 38.0).sin().abs();
            let cross = noise(v(q.x * 2.0, q.y * 3.0, i as f32 * 3.1)) * 0.02;
            (d - wire * 0.032 + cross) * 0.62
        },
        |s| {
            let (q, i) = fold(s.p, TEETH);
            let wire = ((q.x - 3.0 + q.y * 0.05) * 38.0).sin().abs();
            let tone = noise(v(((q.x - 3.0) * 12.1).floor(), i as f32, 0.5)) * 0.25;
            stuff::copper(s, tone).dim(0.45 + 0.55 * wire)
        },
    );
    let core_cut = Body::new(
        place,
        grey(0.0),
        4.4,
        |p| {
            let (q, i) = fold(p.spin(0.26), TEETH);
            let loop_z = 1.36 + 0.1 * noise(v(i as f32, 1.0, 2.0));
            let a = v(q.flat() - 3.62, 0.0, q.z - loop_z);
            (a.len() - 0.075).max(q.y.abs() - 0.7)
        },
        |s| stuff::copper(s, 0.0),
    );
    vec![core, bobbin, coils, core_cut]
}

/// A cable with a bend through three points.
pub fn cable(points: [V3; 4], r: f32, tint: V3) -> Vec<Body> {
    let at = |t: f32| {
        let u = 1.0 - t;
        points[0] * (u * u * u)
            + points[1] * (3.0 * u * u * t)
            + points[2] * (3.0 * u * t * t)
            + points[3] * (t * t * t)
    };
    let mut chain = [grey(0.0); PIECES + 1];
    for (i, c) in chain.iter_mut().enumerate() {
        *c = at(i as f32 / PIECES as f32);
    }
    chain
        .chunks(5)
        .enumerate()
        .map(|(i, _)| {
            let from = i * 5;
            let part: Vec<V3> = chain[from..(from + 6).min(PIECES + 1)].to_vec();
            let low = part[0];
            let high = part[part.len() - 1];
            let mid = (low + high) * 0.5;
            let reach = part.iter().fold(0.0f32, |a, q| a.max((*q - mid).len())) + r;
            Body::new(
                Place::at(0.0, 0.0, 0.0),
                mid,
                reach,
                move |p| {
                    let mut d = f32::MAX;
                    for w in part.windows(2) {
                        d = d.min(rod(p, w[0], w[1], r));
                    }
                    if part.len() == 1 { (p - part[0]).len() - r } else { d }
                },
                move |s| stuff::plastic(s, tint * (0.75 + 0.2 * noise(s.p * 1.3)), 0.12),
            )
        })
        .collect()
}

/// A rotor with ten magnets, its axis along z; `rust` swells them (-2 none).
pub fn rotor(place: Place, rust: f32) -> Vec<Body> {
    let swollen = rust > -1.0;
    let body = Body::new(
        place,
        grey(0.0),
        3.2,
        move |p| {
            let core = disc(p, 2.0, 1.7, 0.06);
            if core > 0.5 {
                return core - 0.3;
            }
            let (q, i) = fold(p, 10);
            let lift =
                if swollen { 0.05 + 0.14 * noise(v(i as f32 * 1.7, p.z, 0.3)).abs() } else { 0.0 };
            let curve = q.flat() - 2.18 - lift;
            let magnet = cut(curve, 1.95 - q.flat(), 0.02);
            let magnet = cut(magnet, -(q.y.abs() - 0.56), 0.06).max(q.z.abs() - 1.55);
            let mut d = join(core, magnet, 0.04);
            if swollen && d < 0.2 {
                d -= 0.10 * fbm(p * 1.5, 4).max(-0.2) + 0.02 * fbm(p * 7.0, 3);
            }
            let end = v(p.x, p.y, p.z.abs() - 1.72);
            d = cut(d, ring(end, 0.7, 1.6, 0.25, 0.08), 0.05);
            d * 0.75
        },
        move |s| {
            let (q, _) = fold(s.p, 10);
            let magnet = s.p.flat() > 1.98 && q.y.abs() < 0.56;
            let base = if magnet {
                stuff::polished(s, 0.55).dim(0.75)
            } else {
                stuff::turned(s, v(0.38, 0.38, 0.385), 0.3, 0.05)
            };
            decay::rust(base, s, rust)
        },
    );
    let shaft = Body::new(
        place,
        grey(0.0),
        4.4,
        |p| {
            let thin = disc(p, 0.42, 4.2, 0.06);
            join(thin, disc(p, 0.62, 2.6, 0.05), 0.03)
        },
        move |s| decay::rust(stuff::steel(s, 0.4), s, rust - 0.25),
    );
    vec![body, shaft]
}

/// Three-armed planet carrier plate with pins at radius `at`.
pub fn carrier(place: Place, at: f32) -> Body {
    Body::new(
        place,
        grey(0.0),
        at + 1.5,
        move |p| {
            let (q, _) = fold(p, 3);
            let arm = rod(v(q.x, q.y, 0.0), v(0.0, 0.0, 0.0), v(at, 0.0, 0.0), 0.95);
            let arm = arm.max(p.z.abs() - 0.2);
            let plate = join(arm, disc(p, 1.7, 0.2, 0.04), 0.4);
            let pin = disc(q - v(at, 0.0, 0.6), 0.36, 0.85, 0.06);
            let d = join(plate, pin, 0.05);
            cut(d, disc(q - v(at, 0.0, 1.4), 0.13, 0.25, 0.02), 0.03)
        },
        |s| stuff::turned(s, v(0.47, 0.47, 0.475), 0.26, 0.05).wet(0.3, 0.15),
    )
}

/// Blobs of grease in the box `half`, with a ragged upper side.
pub fn dollop(place: Place, half: V3, seed: f32, look: fn(&Spot) -> Skin) -> Body {
    Body::new(
        place,
        grey(0.0),
        half.len() * 1.25,
        move |p| {
            let q = v(p.x / half.x, p.y / half.y, p.z / half.z);
            let small = half.x.min(half.y).min(half.z);
            let d = (q.len() - 1.0) * small;
            (d - fbm(p * 0.9 + grey(seed), 3) * small * 0.7 - fbm(p * 3.0, 2) * 0.04) * 0.6
        },
        look,
    )
}

/// Fresh honey-coloured grease.
pub fn fresh(spot: &Spot) -> Skin {
    decay::grease(spot, v(0.50, 0.42, 0.27))
}

/// Grease that has run for years: grey and tired.
pub fn tired(spot: &Spot) -> Skin {
    let tone = step(-0.3, 0.5, fbm(spot.p * 2.0, 4));
    decay::grease(spot, v(0.075, 0.073, 0.068) + grey(0.10 * tone))
}
