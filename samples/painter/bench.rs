//! What things lie on: bench mat, cardboard, cloth, white card, and small workshop things.
//!
//! In: colours and places. Out: bodies. The stuffs are `stuff`.

use super::math::{Place, V3, grey, step, v};
use super::noise::{fbm, noise};
use super::render::Body;
use super::shape::{block, cut, disc, join, rect, rod};
use super::skin::{Skin, relief};
use super::stuff;

const ENDLESS: f32 = 1.0e6;

/// An endless bench mat at height `z`.
pub fn mat(z: f32, tint: V3) -> Body {
    let place = Place::at(0.0, 0.0, z).spun(0.35);
    Body::new(place, grey(0.0), ENDLESS, |p| p.z, move |s| stuff::mat(s, tint))
}

/// An endless sheet of cardboard.
pub fn cardboard(z: f32, turn: f32) -> Body {
    let place = Place::at(0.0, 0.0, z).spun(turn);
    Body::new(place, grey(0.0), ENDLESS, |p| p.z, stuff::cardboard)
}

/// An endless sheet of white card.
pub fn card(z: f32) -> Body {
    Body::new(
        Place::at(0.0, 0.0, z),
        grey(0.0),
        ENDLESS,
        |p| p.z,
        |s| {
            let fibre = fbm(s.p * 16.0, 3);
            let stain = fbm(s.p * 0.7, 3).max(0.0);
            let tint = v(0.72, 0.71, 0.68) * (1.0 + 0.03 * fibre) - v(0.06, 0.08, 0.12) * stain;
            Skin::matt(s, tint, 0.85)
        },
    )
}

/// An endless creased shop cloth.
pub fn cloth(z: f32, tint: V3, turn: f32) -> Body {
    let place = Place::at(0.0, 0.0, z).spun(turn);
    Body::new(
        place,
        grey(0.0),
        ENDLESS,
        |p| {
            let d = p.z;
            if d > 0.9 {
                return d - 0.55;
            }
            let fold = noise(v(p.x * 0.28 + noise(p * 0.2) * 0.9, p.y * 0.09, 0.5));
            let fine = noise(v(p.x * 0.7, p.y * 0.5 + p.x * 0.3, 1.5));
            (d - fold.abs() * 0.55 - fine * 0.12 + 0.12) * 0.72
        },
        move |s| stuff::cloth(s, tint),
    )
}

/// A wall of a cardboard box, `half` its half sides.
pub fn box_wall(place: Place, half: V3) -> Body {
    Body::new(place, grey(0.0), half.len(), move |p| block(p, half, 0.1), stuff::cardboard)
}

/// A socket-head screw standing upright, head radius `r`.
pub fn screw(place: Place, r: f32) -> Body {
    Body::new(
        place,
        grey(0.0),
        r * 1.6,
        move |p| {
            let head = disc(p, r, r * 0.5, r * 0.12);
            let a = v(p.x.abs(), p.y.abs(), 0.0);
            let hex = (a.x * 0.866 + a.y * 0.5).max(a.y) - r * 0.5;
            cut(head, hex.max(-p.z + r * 0.05).max(p.z - r), r * 0.05)
        },
        |s| stuff::polished(s, 0.5).dim(0.62),
    )
}

/// A hook tool or screwdriver lying along x: steel blade and plastic handle.
pub fn driver(place: Place, tint: V3) -> Vec<Body> {
    let blade = Body::new(
        place,
        v(-3.5, 0.0, 0.0),
        3.6,
        |p| rod(p, v(-7.0, 0.0, 0.0), v(0.0, 0.0, 0.0), 0.14),
        |s| stuff::polished(s, 0.3),
    );
    let handle = Body::new(
        place,
        v(2.5, 0.0, 0.0),
        3.3,
        |p| {
            let q = v(p.z, p.y, p.x - 2.6);
            let a = q.y.atan2(q.x);
            let core = disc(q, 0.62 + 0.05 * (a * 6.0).cos() - 0.05 * (q.z * 1.3).cos(), 2.6, 0.25);
            join(core, disc(q + v(0.0, 0.0, 2.6), 0.34, 0.3, 0.1), 0.2)
        },
        move |s| stuff::plastic(s, tint, 0.45),
    );
    vec![blade, handle]
}

/// A crumpled rag lying about `place`, roughly `size` across.
pub fn rag(place: Place, size: f32, tint: V3) -> Body {
    Body::new(
        place,
        grey(0.0),
        size * 1.5,
        move |p| {
            let wide = rect(p.x + noise(p * 0.5) * 0.6, p.y, size, size * 0.8, size * 0.4);
            let fold = noise(v(p.x * 0.5 + noise(p * 0.4), p.y * 0.35, 7.0));
            let high = 0.18 + fold.abs() * 0.9 + noise(p * 0.9) * 0.12;
            let d = (p.z.abs() - high.max(0.05)).max(wide);
            d * 0.55
        },
        move |s| stuff::cloth(s, tint),
    )
}

/// A crumpled sheet of packing paper, roughly `size` across: flat facets between sharp folds.
pub fn paper(place: Place, size: f32, seed: f32) -> Body {
    let off = grey(seed * 7.0);
    let heap = move |p: V3| {
        let q = v(p.x, p.y, 0.0) * (1.0 / size) + off;
        let w = q + v(noise(q * 1.1), noise(q * 1.1 + grey(5.0)), 0.0) * 0.35;
        let fold = 1.0 - noise(w * 1.3).abs() * 2.2;
        let small = 0.5 - noise(w * 3.4 + grey(2.0)).abs();
        let fine = 0.5 - noise(w * 7.9).abs();
        (0.34 * fold + 0.16 * small + 0.05 * fine) * size
    };
    Body::new(
        place,
        grey(0.0),
        size * 1.6,
        move |p| {
            let wide = rect(p.x + noise(p * 0.4) * size * 0.2, p.y, size, size * 0.8, size * 0.25);
            if p.z > size * 0.9 || wide > 0.6 {
                return (p.z - size * 0.75).max(wide - 0.1);
            }
            let sink = step(-size * 0.45, 0.0, wide) * size * 0.25;
            ((p.z - heap(p) + sink).max(wide)) * 0.42
        },
        move |s| {
            let grain = fbm(s.p * 7.0, 3);
            let tint = v(0.33, 0.255, 0.17) * (1.0 + 0.08 * grain);
            let n = relief(s, 0.02, |q| noise(q * 5.0).abs() * 0.02 + noise(q * 24.0) * 0.001);
            Skin { creep: 0.3, ..Skin::matt(s, tint, 0.8).with_normal(n) }
        },
    )
    .fine()
}
