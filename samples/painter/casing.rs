//! Cast aluminium casings: the bearing seat close up, the opened half, the closed unit.
//!
//! In: a place and a look. Out: bodies. Bearings, gears and boards that go in are elsewhere.

use super::math::{Place, V3, grey, v};
use super::render::Body;
use super::shape::{block, cut, disc, fold, join, pulled, ring};
use super::skin::{Skin, Spot};
use super::stuff;

/// Height of the upper face of the boss that holds the crank bearing.
pub const SEAT_TOP: f32 = 0.95;

const LUGS: [(f32, f32); 3] = [(5.232, 3.421), (0.904, 6.049), (-3.545, 3.566)];

fn seat_shape(p: V3) -> f32 {
    if p.z > 2.6 {
        return p.z - 2.3;
    }
    let r = p.flat();
    let mut d = p.z;
    if r > 1.9 {
        let (q, _) = fold(p.spin(0.35), 7);
        let taper = 0.11 + 0.05 * (1.0 - p.z).clamp(0.0, 1.0);
        let tall = 0.62 - (q.x - 2.0).max(0.0) * 0.09;
        d = join(d, block(q - v(4.0, 0.0, 0.0), v(2.2, taper, tall), 0.05), 0.16);
    }
    if r < 3.6 {
        let boss = disc(p - v(0.0, 0.0, 0.2), 2.05, SEAT_TOP - 0.2, 0.05);
        d = join(d, boss, 0.22);
        let (e, _) = fold(p.spin(0.9), 3);
        d = join(d, disc(e - v(2.3, 0.0, 0.3), 0.42, 0.62, 0.05), 0.2);
        d = cut(d, disc(e - v(2.33, 0.0, 0.9), 0.17, 0.6, 0.02), 0.04);
        d = cut(d, disc(p - v(0.0, 0.0, SEAT_TOP), 1.622, 0.72, 0.02), 0.05);
        d = cut(d, r - 1.12, 0.04);
    } else {
        d = d.min(r - 2.7);
    }
    let back = v(p.x - 0.8, p.y - 1.0, p.z);
    let far = back.flat();
    if far < 3.4 || back.y < -2.4 {
        return d.min((4.0 - far).max(0.55));
    }
    let wall = ((far - 5.2).abs() - 0.38).max(p.z - 1.9).max(-back.y - 1.4);
    d = join(d, wall, 0.3);
    for (x, y) in LUGS {
        let q = p - v(x, y, 0.95);
        if q.flat() < 1.6 {
            d = join(d, disc(q, 0.62, 0.97, 0.06), 0.22);
            d = cut(d, disc(q - v(0.0, 0.0, 0.95), 0.24, 0.9, 0.02), 0.05);
        } else {
            d = d.min(q.flat() - 0.7);
        }
    }
    d
}

/// The crank bearing's seat inside the casing; `over` lays stains on the metal.
pub fn seat(over: impl Fn(&Spot, Skin) -> Skin + Send + Sync + 'static) -> Body {
    Body::new(Place::at(0.0, 0.0, 0.0), grey(0.0), 1.0e6, seat_shape, move |s| {
        let up = s.n.z > 0.93;
        let boss = up && (s.p.z - SEAT_TOP).abs() < 0.07 && s.p.flat() < 3.0;
        let rim = up && s.p.z > 1.86;
        let bore = s.p.flat() < 1.66 && s.p.z > 0.2;
        let base = if rim {
            stuff::milled(s)
        } else if boss || bore {
            stuff::turned(s, v(0.53, 0.53, 0.525), 0.24, 0.05)
        } else {
            stuff::cast(s)
        };
        over(s, base)
    })
}

/// Outline of the opened mid-drive casing: motor bulge on the left, crank on the right.
pub fn outline(x: f32, y: f32) -> f32 {
    let motor = ((x + 3.6) * (x + 3.6) + (y - 0.3) * (y - 0.3)).sqrt() - 5.2;
    let crank = ((x - 4.8) * (x - 4.8) + (y + 0.6) * (y + 0.6)).sqrt() - 3.6;
    let box_x = (x - 2.2).abs() - 2.4;
    let box_y = (y - 1.9).abs() - 2.4;
    let (ox, oy) = (box_x.max(0.0), box_y.max(0.0));
    let corner = (ox * ox + oy * oy).sqrt() + box_x.max(box_y).min(0.0) - 0.6;
    join(join(motor, crank, 2.4), corner, 0.9)
}

/// Screw places round the rim of the opened casing.
pub const SCREWS: [(f32, f32); 9] = [
    (-8.75, 1.8),
    (-7.6, -3.7),
    (-3.2, -5.2),
    (1.2, -3.5),
    (5.6, -4.5),
    (8.5, -0.9),
    (7.0, 2.6),
    (2.0, 5.2),
    (-4.2, 5.85),
];

/// Depth of the opened casing, floor to rim.
pub const DEEP: f32 = 2.6;

fn half_shape(p: V3) -> f32 {
    let flat = outline(p.x, p.y);
    if flat > 2.0 {
        return flat - 1.2;
    }
    if p.z > DEEP + 0.6 {
        return (p.z - DEEP - 0.1).max(0.3);
    }
    let mut d = pulled(flat, p.z + 0.2, 0.25, 0.05);
    let wall = pulled((flat + 0.28).abs() - 0.28, p.z - DEEP * 0.5, DEEP * 0.5, 0.05);
    d = join(d, wall, 0.25);
    let c = p - v(4.8, -0.6, 0.0);
    let m = p - v(-3.6, 0.3, 0.0);
    let (cq, _) = fold(c, 8);
    let (mq, _) = fold(m, 12);
    let rib = |q: V3, near: f32, far: f32| {
        let half = (far - near) * 0.5;
        block(q - v(near + half, 0.0, 0.0), v(half, 0.10, 0.45), 0.04)
    };
    d = join(d, rib(cq, 1.8, 3.3), 0.15);
    d = join(d, rib(mq, 1.4, 4.9).max(flat), 0.15);
    d = join(d, ring(c - v(0.0, 0.0, 0.3), 1.45, 1.95, 0.55, 0.04), 0.15);
    d = join(d, ring(m - v(0.0, 0.0, 0.3), 0.8, 1.3, 0.5, 0.04), 0.15);
    for (x, y) in SCREWS {
        let q = p - v(x, y, 0.0);
        if q.flat() > 2.0 {
            d = d.min(q.flat() - 0.8);
            continue;
        }
        d = join(d, disc(q - v(0.0, 0.0, DEEP * 0.5), 0.62, DEEP * 0.5, 0.05), 0.3);
        d = cut(d, disc(q - v(0.0, 0.0, DEEP), 0.22, 1.2, 0.02), 0.05);
    }
    cut(d, c.flat() - 1.0, 0.04)
}

/// The opened half with its floor up; `over` lays mud, stains or grease on the metal.
pub fn half(place: Place, over: impl Fn(&Spot, Skin) -> Skin + Send + Sync + 'static) -> Body {
    Body::new(place, v(0.0, 0.2, 1.2), 10.0, half_shape, move |s| {
        let flat = outline(s.p.x, s.p.y);
        let base = if s.n.z > 0.9 && s.p.z > DEEP - 0.08 {
            stuff::milled(s)
        } else if flat > -0.1 && s.n.z < 0.5 {
            stuff::coated(s, v(0.035, 0.036, 0.04))
        } else {
            stuff::cast(s)
        };
        over(s, base)
    })
}

/// The closed unit lying on its side: ribbed coated casing, cover screws, crank spindle hole.
/// `lost` is negative where stuff is gone; `over` lays dirt and bare metal on the coat.
pub fn closed(
    place: Place,
    tint: V3,
    lost: impl Fn(V3) -> f32 + Send + Sync + 'static,
    over: impl Fn(&Spot, Skin) -> Skin + Send + Sync + 'static,
) -> Body {
    let shape = move |p: V3| {
        let flat = outline(p.x, p.y);
        if flat > 2.5 {
            return flat - 1.6;
        }
        let mut d = pulled(flat, p.z - 2.2, 2.2, 0.45);
        let lid = pulled(flat + 0.35, p.z - 4.5, 0.4, 0.22);
        d = join(d, lid, 0.12);
        // The seam between the halves.
        d = cut(d, pulled((flat).abs() - 0.07, p.z - 2.9, 0.035, 0.01), 0.04);
        let m = p - v(-3.6, 0.3, 0.0);
        let c = p - v(4.8, -0.6, 0.0);
        let (q, _) = fold(m, 28);
        let fin = block(q - v(3.6, 0.0, 4.9), v(1.25, 0.085, 0.22), 0.05);
        d = join(d, fin, 0.1);
        d = join(d, disc(m - v(0.0, 0.0, 4.9), 1.7, 0.22, 0.12), 0.12);
        d = join(d, disc(c - v(0.0, 0.0, 4.9), 2.2, 0.42, 0.14), 0.2);
        d = cut(d, ring(c - v(0.0, 0.0, 5.3), 1.05, 1.6, 0.16, 0.03), 0.04);
        for (x, y) in SCREWS {
            let q = p - v(x, y, 0.0);
            if q.flat() > 2.0 {
                d = d.min(q.flat() - 0.8);
                continue;
            }
            d = join(d, disc(q - v(0.0, 0.0, 2.4), 0.62, 2.35, 0.1), 0.25);
            d = cut(d, disc(q - v(0.0, 0.0, 4.8), 0.4, 0.2, 0.03), 0.04);
        }
        for (x, y) in [(-7.2, 5.2), (2.4, 6.2), (8.6, 2.9)] {
            let q = p - v(x, y, 2.2);
            d = join(d, disc(q, 0.95, 1.3, 0.12), 0.6);
            d = cut(d, q.flat() - 0.45, 0.05);
        }
        cut(d, lost(p), 0.02)
    };
    Body::new(place, v(0.0, 0.2, 2.4), 11.2, shape, move |s| {
        let c = s.p - v(4.8, -0.6, 0.0);
        let bare = c.flat() < 2.22 && s.p.z > 5.25 && s.n.z > 0.9;
        let hole = [(-7.2, 5.2), (2.4, 6.2), (8.6, 2.9)]
            .iter()
            .any(|&(x, y)| (s.p - v(x, y, 0.0)).flat() < 0.5);
        let base = if bare || hole { stuff::milled(s) } else { stuff::coated(s, tint) };
        over(s, base)
    })
}
