//! Circuit boards: solder mask with tracks, chips, capacitors, power transistors, small parts.
//!
//! In: a place and a state. Out: bodies. Wires are `motor`.

use super::decay;
use super::math::{Place, V3, bell, grey, mix3, step, v};
use super::noise::{fbm, hash, noise, unit};
use super::render::Body;
use super::shape::{block, cut, disc, join, pulled, rect};
use super::skin::{Skin, Spot, relief};
use super::stuff;

/// Half sides of the board.
pub const HALF: (f32, f32) = (5.2, 3.6);
/// Where the burnt transistor stands.
pub const BURNT: (f32, f32) = (1.15, 0.35);

/// Where the power transistors stand.
pub const POWER: [(f32, f32); 6] =
    [(-2.05, 0.35), (-0.45, 0.35), BURNT, (-2.05, -1.55), (-0.45, -1.55), (1.15, -1.55)];

/// Distance to the board's edge, seen from above.
pub fn outline(p: V3) -> f32 {
    let d = rect(p.x, p.y, HALF.0, HALF.1, 0.9);
    let bite = v(p.x + 5.4, p.y - 3.7, 0.0).flat() - 1.6;
    cut(d, bite, 0.3)
}

fn track(a: f32, b: f32, seed: i32) -> f32 {
    let pitch = 0.15;
    let row = (b / pitch).floor();
    let run = (a * 0.62 + unit(row as i32, seed, 5) * 9.0).floor();
    if unit(row as i32, run as i32, seed) < 0.55 {
        return 0.0;
    }
    bell(0.0, 0.045, b - (row + 0.5) * pitch)
}

/// Solder mask over tracks, with vias and print.
pub fn mask(spot: &Spot) -> Skin {
    let p = spot.p;
    let pour = step(0.0, 0.04, fbm(v((p.x * 1.4).floor(), (p.y * 1.4).floor(), 3.0), 2));
    let lines = |q: V3| {
        let along = noise(v(q.x * 0.35, q.y * 0.35, 9.0)) > 0.0;
        if along { track(q.x, q.y, 2) } else { track(q.y, q.x, 3) }
    };
    let line = lines(p).max(pour * 0.8);
    let n = relief(spot, 0.008, |q| lines(q) * 0.006 + fbm(q * 5.0, 2) * 0.003);
    let green = mix3(v(0.008, 0.055, 0.030), v(0.018, 0.125, 0.062), line);
    let mut skin = Skin::matt(spot, green, 0.3).with_normal(n).wet(0.9, 0.10);
    let (cx, cy) = ((p.x / 0.42).floor(), (p.y / 0.42).floor());
    let h = hash(cx as i32, cy as i32, 8);
    if h.is_multiple_of(5) {
        let at = v((cx + 0.5) * 0.42, (cy + 0.5) * 0.42, 0.0);
        let r = (v(p.x, p.y, 0.0) - at).flat();
        if r < 0.06 {
            let tin = Skin::metal(spot, v(0.75, 0.66, 0.42), 0.25);
            skin = if r < 0.027 { Skin::matt(spot, grey(0.01), 0.8) } else { tin };
        }
    }
    // White print: outlines round the power parts and short strokes by the chips.
    for (x, y) in POWER {
        let frame = rect(p.x - x, p.y - y, 0.66, 0.80, 0.02).abs();
        skin = skin.over(Skin::matt(spot, grey(0.62), 0.6), step(0.028, 0.016, frame));
    }
    let stroke = h % 7 == 3
        && (p.y / 0.42 - cy - 0.5).abs() < 0.16
        && ((p.x * 26.0).floor() as i32 + (p.y * 26.0).floor() as i32 * 3).rem_euclid(5) < 2;
    if stroke {
        skin = skin.over(Skin::matt(spot, grey(0.55), 0.6), 0.8);
    }
    skin
}

fn scorched(spot: &Spot, base: Skin) -> Skin {
    let off = v(spot.p.x - BURNT.0 - 0.12, spot.p.y - BURNT.1 - 0.1, 0.0);
    let r = off.flat() + fbm(spot.p * 1.6, 4) * 0.45;
    let brown = Skin { tint: base.tint * v(0.9, 0.5, 0.25) + v(0.03, 0.014, 0.004), ..base };
    base.over(brown, step(1.75, 1.0, r)).over(decay::soot(spot), step(1.2, 0.75, r))
}

fn tin(spot: &Spot) -> Skin {
    let n = relief(spot, 0.01, |q| fbm(q * 9.0, 3) * 0.01);
    Skin::metal(spot, v(0.66, 0.66, 0.64), 0.24).with_normal(n)
}

fn part(
    x: f32,
    y: f32,
    half: V3,
    round: f32,
    look: impl Fn(&Spot) -> Skin + Send + Sync + 'static,
    home: Place,
) -> Body {
    let at = v(x, y, 0.08 + half.z);
    Body::new(home, at, half.len(), move |p| block(p - at, half, round), look)
}

fn epoxy(spot: &Spot) -> Skin {
    let n = relief(spot, 0.01, |q| noise(q * 50.0) * 0.0018);
    let haze = fbm(spot.p * 3.0, 3);
    Skin::matt(spot, grey(0.022 + 0.006 * haze), 0.42).with_normal(n)
}

fn legs(home: Place, x: f32, y: f32, half: V3, pitch: f32, both: bool) -> Body {
    Body::new(
        home,
        v(x, y, 0.1),
        half.flat() + 0.35,
        move |p| {
            let q = v(p.x - x, p.y - y, p.z);
            let cell =
                (q.x / pitch).round().clamp(-(half.x / pitch).floor(), (half.x / pitch).floor());
            let side = if both { q.y.abs() } else { -q.y };
            let b = v(q.x - cell * pitch, side - half.y - 0.1, q.z - 0.13);
            let foot = block(b - v(0.0, 0.06, -0.03), v(pitch * 0.28, 0.11, 0.03), 0.02);
            let knee = block(b + v(0.0, 0.08, -0.08), v(pitch * 0.24, 0.06, 0.1), 0.02);
            join(foot, knee, 0.04)
        },
        tin,
    )
}

fn transistor(home: Place, x: f32, y: f32, burnt: bool) -> Vec<Body> {
    let half = v(0.5, 0.46, 0.22);
    let at = v(x, y - 0.12, 0.3);
    let body = Body::new(
        home,
        at,
        0.95,
        move |p| {
            let q = p - at;
            let d = block(q, half, 0.05);
            if !burnt || d > 0.3 {
                return d;
            }
            let path = q.y - q.x * 0.55 - 0.10 * noise(v(q.x * 5.0, 1.0, 2.0)) - 0.04;
            let width = 0.035 + 0.05 * bell(0.0, 0.5, q.x) + 0.02 * noise(p * 14.0);
            let crack = (path.abs() - width).max(-q.z - 0.05);
            let burst = (q - v(0.05, 0.06, 0.2)).len() - 0.19 - fbm(p * 6.0, 3) * 0.12;
            let branch = ((q.x + 0.2 + 0.4 * q.y - 0.06 * noise(v(q.y * 8.0, 3.0, 1.0))).abs()
                - 0.018)
                .max(q.y - 0.02);
            let heave = 0.05 * bell(0.0, 0.5, q.flat());
            cut(cut(cut(d - heave, crack, 0.02), burst, 0.03), branch, 0.015) * 0.75
        },
        move |s| {
            let base = epoxy(s);
            let mark = rect(s.p.x - x, s.p.y - y + 0.1, 0.24, 0.1, 0.0) < 0.0
                && ((s.p.x * 31.0) as i32 + (s.p.y * 31.0) as i32 * 2).rem_euclid(3) == 0;
            let base = if mark && s.n.z > 0.9 {
                base.over(Skin::matt(s, grey(0.12), 0.6), 0.7)
            } else {
                base
            };
            if !burnt {
                return base;
            }
            let q = s.p - at;
            let core = q.flat() + fbm(s.p * 4.0, 3) * 0.2;
            let ash = Skin::matt(s, v(0.20, 0.17, 0.14), 0.95);
            let inner = Skin::matt(s, v(0.10, 0.05, 0.025), 0.9);
            let depth = step(0.20, 0.12, q.z);
            let split = if s.n.z < 0.75 && core < 0.45 { depth } else { 0.0 };
            base.over(decay::soot(s), step(0.75, 0.3, core))
                .over(ash, step(0.32, 0.2, core) * step(0.0, 0.4, fbm(s.p * 9.0, 3)))
                .over(inner, split)
        },
    );
    let tab_at = v(x, y + 0.46, 0.13);
    let tab = Body::new(
        home,
        tab_at,
        0.7,
        move |p| block(p - tab_at, v(0.48, 0.2, 0.06), 0.03),
        move |s| if burnt { scorched(s, tin(s)) } else { tin(s) },
    );
    vec![body, tab, legs(home, x, y - 0.12, v(0.45, 0.46, 0.0), 0.3, false)]
}

fn capacitor(home: Place, x: f32, y: f32, r: f32, tall: f32) -> Vec<Body> {
    let at = v(x, y, 0.1 + tall * 0.5);
    let can = Body::new(
        home,
        at,
        (r * r + tall * tall * 0.25).sqrt(),
        move |p| {
            let q = p - at;
            let d = disc(q, r, tall * 0.5, 0.06);
            let groove = v(q.flat() - r - 0.01, 0.0, q.z + tall * 0.34).len() - 0.05;
            let cross = q.x.abs().min(q.y.abs()) - 0.012;
            cut(
                cut(d, groove, 0.04),
                cross.max(-q.z + tall * 0.5 - 0.02).max(q.flat() - r * 0.6),
                0.01,
            )
        },
        move |s| {
            let q = s.p - at;
            if q.z > tall * 0.5 - 0.05 && q.flat() < r - 0.05 {
                return Skin::metal(s, v(0.72, 0.72, 0.72), 0.3);
            }
            let stripe = q.angle() > 0.4 && q.angle() < 1.3;
            stuff::plastic(s, if stripe { grey(0.45) } else { v(0.030, 0.036, 0.052) }, 0.7)
        },
    );
    vec![can]
}

/// Small chip parts scattered on a grid, as one body.
fn small_parts(home: Place) -> Body {
    let cell = |p: V3| {
        let (cx, cy) = ((p.x / 0.46).round(), (p.y / 0.40).round());
        let (x, y) = (cx * 0.46, cy * 0.40);
        let h = hash(cx as i32, cy as i32, 12);
        let free = outline(v(x, y, 0.0)) < -0.35 && !taken(x, y);
        (v(p.x - x, p.y - y, p.z - 0.15), if free { h } else { 0 })
    };
    Body::new(
        home,
        v(0.0, 0.0, 0.15),
        6.3,
        move |p| {
            if p.z > 0.6 {
                return p.z - 0.35;
            }
            let (q, h) = cell(p);
            if h % 5 < 2 {
                return 0.08_f32.max(0.3 - q.x.abs().max(q.y.abs()));
            }
            let q = if h & 64 == 0 { q } else { v(q.y, q.x, q.z) };
            let d = block(q, v(0.14, 0.075, 0.065), 0.015);
            d.min(0.25 - q.x.abs().max(q.y.abs()) + 0.06).max(d.min(0.06))
        },
        move |s| {
            let (q, h) = cell(s.p);
            let q = if h & 64 == 0 { q } else { v(q.y, q.x, q.z) };
            if q.x.abs() > 0.085 {
                return tin(s);
            }
            let tint = if h & 128 == 0 { v(0.02, 0.02, 0.022) } else { v(0.30, 0.20, 0.12) };
            Skin::matt(s, tint, 0.4)
        },
    )
    .fine()
}

fn taken(x: f32, y: f32) -> bool {
    let in_power = POWER.iter().any(|&(a, b)| (x - a).abs() < 0.85 && (y - b).abs() < 0.95);
    let boxes = [(-3.9, 0.0, 0.9, 1.1), (3.3, 1.1, 1.2, 1.2), (-1.2, 2.5, 1.3, 0.55)];
    let in_box =
        boxes.iter().any(|&(a, b, w, h)| (x - a).abs() < w + 0.3 && (y - b).abs() < h + 0.3);
    let caps = [(3.0, -1.3), (4.25, -1.3), (3.0, -2.6), (4.25, -2.6)];
    in_power
        || in_box
        || caps.iter().any(|&(a, b)| v(x - a, y - b, 0.0).flat() < 0.85)
        || (x + 3.6).abs() < 1.2 && y < -2.4
}

/// A controller board lying face up; `burnt` ruins one power transistor.
pub fn controller(home: Place, burnt: bool) -> Vec<Body> {
    let plate = Body::new(
        home,
        grey(0.0),
        6.4,
        |p| {
            let d = pulled(outline(p), p.z, 0.08, 0.015);
            let hole = [(4.6, 3.0), (-4.6, -3.0), (4.6, -3.0)]
                .iter()
                .fold(f32::MAX, |a, &(x, y)| a.min(v(p.x - x, p.y - y, 0.0).flat() - 0.2));
            cut(d, hole, 0.01)
        },
        move |s| {
            let base = if s.n.z > 0.5 { mask(s) } else { Skin::matt(s, v(0.20, 0.19, 0.10), 0.6) };
            let ring = [(4.6, 3.0), (-4.6, -3.0), (4.6, -3.0)]
                .iter()
                .any(|&(x, y)| v(s.p.x - x, s.p.y - y, 0.0).flat() < 0.36);
            let base = if ring { tin(s) } else { base };
            if burnt { scorched(s, base) } else { base }
        },
    );
    let mut out = vec![plate, small_parts(home)];
    for (x, y) in POWER {
        out.extend(transistor(home, x, y, burnt && (x, y) == BURNT));
    }
    let chip = v(0.8, 0.8, 0.1);
    out.push(part(3.3, 1.1, chip, 0.02, chip_top(3.3, 1.1), home));
    out.push(legs(home, 3.3, 1.1, v(0.75, 0.8, 0.0), 0.125, true));
    out.push(part(-3.9, 0.0, v(0.55, 0.75, 0.12), 0.02, chip_top(-3.9, 0.0), home));
    out.push(legs(home, -3.9, 0.0, v(0.5, 0.75, 0.0), 0.16, true));
    out.push(part(
        -1.2,
        2.5,
        v(1.2, 0.42, 0.45),
        0.06,
        |s| stuff::plastic(s, grey(0.5), 0.4),
        home,
    ));
    for (x, y) in [(3.0, -1.3), (4.25, -1.3), (3.0, -2.6), (4.25, -2.6)] {
        out.extend(capacitor(home, x, y, 0.54, 1.25));
    }
    let coil = |s: &Spot| stuff::plastic(s, grey(0.045), 0.15);
    out.push(part(-3.6, -2.75, v(0.6, 0.55, 0.38), 0.12, coil, home));
    out
}

fn chip_top(x: f32, y: f32) -> impl Fn(&Spot) -> Skin + Send + Sync + 'static {
    move |s| {
        let (a, b) = (s.p.x - x, s.p.y - y);
        let dot = v(a + 0.4, b - 0.5, 0.0).flat();
        let (row, col) = ((b * 9.0).floor() as i32, (a * 24.0).floor() as i32);
        let print = a.abs() < 0.36
            && (-0.3..0.25).contains(&b)
            && row.rem_euclid(2) == 0
            && unit(row, col, 5) > 0.45;
        let base = epoxy(s);
        let base = base.over(Skin::matt(s, grey(0.12), 0.6), if print { 0.8 } else { 0.0 });
        base.over(Skin::matt(s, grey(0.012), 0.25), step(0.09, 0.07, dot))
    }
}
