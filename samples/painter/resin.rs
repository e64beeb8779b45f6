//! What surrounds a board: the cast resin, the aluminium tray, the phase wires.
//!
//! In: a place. Out: bodies. The board and its parts are `board`.

use super::board::{POWER, mask, outline};
use super::math::{Place, bell, grey, mix3, step, v};
use super::motor;
use super::noise::noise;
use super::render::Body;
use super::shape::{block, cut, join};
use super::skin::{Skin, Spot, relief};
use super::stuff;

/// Cast resin over a board; tall parts stand out of it.
pub fn potting(home: Place) -> Body {
    Body::new(
        home,
        v(0.0, 0.0, 0.3),
        6.4,
        |p| {
            let edge = outline(p);
            if p.z > 1.2 || edge > 0.6 {
                return (p.z - 0.8).max(edge);
            }
            let creep = 0.10 * bell(0.0, 0.4, edge) + 0.02 * noise(p * 0.8);
            let mut d = (p.z - 0.30 - creep).max(edge);
            for (x, y) in POWER {
                d = join(d, block(p - v(x, y, 0.15), v(0.52, 0.6, 0.27), 0.1), 0.3);
            }
            d = join(d, block(p - v(3.3, 1.1, 0.1), v(0.75, 0.75, 0.22), 0.1), 0.25);
            d = join(d, block(p - v(-3.9, 0.0, 0.1), v(0.55, 0.75, 0.25), 0.1), 0.25);
            d * 0.9
        },
        |s| {
            let under = mask(&Spot { p: s.p, n: v(0.0, 0.0, 1.0) }).tint;
            let thick = step(1.0, 0.2, s.p.z);
            let own = v(0.016, 0.017, 0.018);
            let tint = mix3(own, under * 0.55 + v(0.006, 0.007, 0.006), thick * 0.6);
            let n = relief(s, 0.02, |q| noise(q * 2.5) * 0.012 + noise(q * 9.0) * 0.001);
            Skin::matt(s, tint, 0.35).with_normal(n).wet(1.0, 0.05)
        },
    )
}

/// The cast tray that a potted board sits in.
pub fn tray(home: Place) -> Body {
    Body::new(
        home,
        grey(0.0),
        8.2,
        |p| {
            let edge = outline(p);
            let wall = ((edge - 0.3).abs() - 0.28).max(p.z.abs() - 0.62);
            let floor = (edge).max((p.z + 0.3).abs() - 0.2);
            let mut d = join(wall, floor, 0.1);
            for (x, y) in [(5.4, 3.6), (-3.6, 3.9), (-5.4, -3.7), (5.4, -3.7)] {
                let q = v(p.x - x, p.y - y, p.z);
                d = join(d, super::shape::disc(q, 0.62, 0.55, 0.05), 0.25);
                d = cut(d, q.flat() - 0.24, 0.05);
            }
            d * 0.95
        },
        |s| if s.n.z > 0.9 { stuff::milled(s) } else { stuff::cast(s) },
    )
}

/// Three thick phase wires soldered at the lower left edge, and a thin sensor lead.
pub fn wires(home: Place) -> Vec<Body> {
    let mut out = Vec::new();
    let tints = [v(0.30, 0.035, 0.02), v(0.36, 0.27, 0.03), v(0.02, 0.05, 0.20)];
    for (i, tint) in tints.into_iter().enumerate() {
        let x = -1.9 + i as f32 * 0.85;
        let path = [
            v(x, -2.9, 0.35),
            v(x - 0.1, -3.4, 1.6),
            v(x - 0.9, -5.0, 0.9),
            v(x - 2.4, -7.4, -0.1 + 0.1 * i as f32),
        ];
        out.extend(motor::cable(path.map(|q| home.world(q)), 0.21, tint));
        let at = v(x, -2.85, 0.2);
        out.push(Body::new(
            home,
            at,
            0.5,
            move |p| {
                let q = p - at;
                (v(q.x, q.y, q.z * 1.4).len() - 0.3) * 0.7
            },
            |s| Skin::metal(s, v(0.66, 0.66, 0.64), 0.2),
        ));
    }
    out
}
