//! Clean stuffs: steel, aluminium, copper, rubber, plastic, card, cloth, lacquer.
//!
//! In: a spot. Out: its skin. Rust, mud and grease are `decay`.

use super::math::{V3, bell, grey, mix, mix3, step, v};
use super::noise::{cells, fbm, noise, unit};
use super::skin::{Skin, Spot, relief};

/// Ground bearing steel; `dull` 0 is new, 1 is tired. Tool marks run round the z axis.
pub fn steel(spot: &Spot, dull: f32) -> Skin {
    turned(spot, v(0.50, 0.505, 0.515), 0.15 + dull * 0.2, 0.022).dim(1.0 - 0.25 * dull)
}

/// Metal turned or ground on a lathe about the z axis; `deep` is the slope of the tool marks.
pub fn turned(spot: &Spot, tint: V3, rough: f32, deep: f32) -> Skin {
    let p = spot.p;
    let r = p.flat();
    let at = |f: f32, s: f32| noise(v(r * f, p.z * f, s + p.angle() * 0.6));
    let line = at(26.0, 3.0) * 0.5 + at(70.0, 9.0) * 0.8 + at(190.0, 5.0) * 0.7;
    let smear = fbm(p * 2.3, 3);
    let wipe = scratches(p.x * 0.8, p.y * 0.8, 17) * 0.5;
    let tint = tint * (0.95 + 0.07 * line + 0.08 * smear);
    let flat = spot.n.z.abs();
    let across = p.radial() * flat + v(0.0, 0.0, 1.0) * (1.0 - flat);
    let n = (spot.n + across * (line * deep) + grey(wipe * 0.03)).unit();
    let rough = (rough + 0.07 * smear + wipe * 0.1).max(0.05);
    Skin { brush: across * 0.32, ..Skin::metal(spot, tint, rough).with_normal(n) }
}

/// Polished steel without tool marks, for balls.
pub fn polished(spot: &Spot, dull: f32) -> Skin {
    let smear = fbm(spot.p * 5.0, 3);
    Skin::metal(spot, v(0.62, 0.625, 0.63) * (1.0 - 0.3 * dull), 0.05 + dull * (0.24 + 0.2 * smear))
}

/// Milled aluminium face with arcs of the cutter.
pub fn milled(spot: &Spot) -> Skin {
    let p = spot.p;
    let q = v(p.x * 0.5 + 7.0, p.y - 3.0, 0.0);
    let r = q.flat();
    let line = noise(v(r * 17.0, 1.0, p.z)) + 0.6 * noise(v(r * 60.0, 4.0, p.z));
    let smear = fbm(p * 1.1, 3);
    let n = (spot.n + q.radial() * (line * 0.03)).unit();
    let tint = v(0.54, 0.54, 0.535) * (0.93 + 0.12 * line + 0.12 * smear);
    Skin { brush: q.radial() * 0.35, ..Skin::metal(spot, tint, 0.24 + 0.06 * smear).with_normal(n) }
}

/// Aluminium as it comes out of the die.
pub fn cast(spot: &Spot) -> Skin {
    let p = spot.p;
    let flow = fbm(v(p.x * 0.7, p.y * 1.6, p.z), 4);
    let fine = fbm(p * 14.0, 3);
    let n = relief(spot, 0.012, |q| fbm(q * 11.0, 3) * 0.012 + fbm(q * 2.2, 2) * 0.015);
    let tint = v(0.54, 0.54, 0.535) * (0.92 + 0.16 * flow + 0.10 * fine);
    let spots = step(0.45, 0.7, fine);
    Skin::metal(spot, tint * (1.0 - 0.25 * spots), 0.50 + 0.08 * flow).with_normal(n)
}

/// Coated or anodised outside of a casing, with fine grain.
pub fn coated(spot: &Spot, tint: V3) -> Skin {
    let p = spot.p;
    let n = relief(spot, 0.01, |q| noise(q * 38.0) * 0.0018 + noise(q * 17.0) * 0.0022);
    let wear = fbm(p * 1.3, 4);
    let dust = step(0.1, 0.9, fbm(p * 0.9 + grey(4.0), 4) + spot.n.z * 0.35) * 0.16;
    let scratch = scratches(p.x * 0.6, p.y * 0.6, 11) * 0.35;
    let base = Skin::matt(spot, tint * (1.0 + 0.12 * wear), 0.40 + 0.06 * wear).with_normal(n);
    base.over(Skin::matt(spot, v(0.28, 0.26, 0.23), 0.9), dust + scratch * 0.3)
}

/// A few long hairline scratches, 0 to 1.
pub fn scratches(x: f32, y: f32, seed: i32) -> f32 {
    let mut out = 0.0f32;
    for k in 0..5 {
        let a = unit(k, seed, 1) * std::f32::consts::PI;
        let (s, c) = a.sin_cos();
        let (u, w) = (x * c - y * s, x * s + y * c);
        let bent = w + noise(v(u * 0.7, k as f32 * 9.0, seed as f32)) * 0.25;
        let row = (bent * 1.3).floor();
        let at = (row + unit(row as i32, k, seed)) / 1.3;
        let long = noise(v(u * 0.8, row * 3.7, k as f32 + 0.5));
        out = out.max(bell(0.0, 0.006, bent - at) * step(0.1, 0.3, long));
    }
    out
}

/// Black or blue seal rubber.
pub fn rubber(spot: &Spot, tint: V3) -> Skin {
    let n = relief(spot, 0.008, |q| noise(q * 60.0) * 0.0015 + fbm(q * 9.0, 2) * 0.002);
    let bloom = fbm(spot.p * 3.0, 3);
    Skin::matt(spot, tint * (1.0 + 0.2 * bloom), 0.42 + 0.06 * bloom).with_normal(n)
}

/// Moulded plastic; `gloss` 0 matt to 1 shiny.
pub fn plastic(spot: &Spot, tint: V3, gloss: f32) -> Skin {
    let n = relief(spot, 0.01, |q| noise(q * 45.0) * 0.002 * (1.0 - gloss));
    let smear = fbm(spot.p * 4.0, 2);
    Skin::matt(spot, tint * (1.0 + 0.06 * smear), mix(0.5, 0.16, gloss)).with_normal(n)
}

/// Enamelled copper; wires wind across `along`.
pub fn copper(spot: &Spot, shade: f32) -> Skin {
    let tone = fbm(spot.p * 6.0, 2) * 0.1 + shade;
    let tint = mix3(v(0.80, 0.36, 0.17), v(0.92, 0.52, 0.28), 0.5 + tone);
    Skin::metal(spot, tint, 0.26).wet(0.9, 0.12)
}

/// Rubber bench mat with fine pebbles, dust, scuffs and old stains.
pub fn mat(spot: &Spot, tint: V3) -> Skin {
    let p = spot.p;
    let pebble = |q: V3| {
        let c = cells(q.x * 5.5, q.y * 5.5, 21);
        step(0.0, 0.45, c.next - c.near) * 0.012 + noise(q * 30.0) * 0.0016
    };
    let n = relief(spot, 0.012, pebble);
    let stain = step(0.05, 0.6, fbm(p * 0.33 + grey(2.0), 4));
    let dust = step(0.0, 0.8, fbm(p * 1.7, 4)) * 0.10;
    let c = cells(p.x * 2.1, p.y * 2.1, 5);
    let fleck = step(0.06, 0.03, c.near * (0.6 + c.tag)) * step(0.5, 0.6, c.tag);
    let scuff = scratches(p.x * 0.25, p.y * 0.25, 3) * 0.3;
    let base = Skin::matt(spot, tint * (1.0 - 0.3 * stain), 0.62 - 0.14 * stain).with_normal(n);
    base.over(Skin::matt(spot, v(0.30, 0.28, 0.25), 0.95), dust + fleck * 0.6 + scuff)
}

/// Corrugated cardboard: faint flutes, fibres and marks; the flutes run along x.
pub fn cardboard(spot: &Spot) -> Skin {
    let p = spot.p;
    let flute = |q: V3| {
        let wave = (q.y * 9.0 + q.z * 9.0 + noise(q * 0.3) * 0.8).sin();
        wave * 0.007 + noise(v(q.x * 5.0, q.y * 17.0, q.z * 17.0)) * 0.0035 + noise(q * 0.5) * 0.05
    };
    let n = relief(spot, 0.012, flute);
    let fibre = fbm(v(p.x * 9.0, p.y * 30.0, p.z * 30.0), 3);
    let patch = fbm(p * 0.5, 4);
    let dark = step(0.5, 0.75, fbm(p * 9.0 + grey(8.0), 3));
    let stain = step(0.15, 0.5, fbm(p * 0.28 + grey(11.0), 4));
    let worn = scratches(p.x * 0.3, p.y * 0.3 + p.z * 0.2, 23);
    let tint = v(0.335, 0.235, 0.15) * (1.0 + 0.22 * fibre + 0.10 * patch - 0.3 * dark);
    Skin::matt(spot, tint * (1.0 - 0.22 * stain + 0.2 * worn), 0.9).with_normal(n)
}

/// Woven shop cloth.
pub fn cloth(spot: &Spot, tint: V3) -> Skin {
    let p = spot.p;
    let wave = |q: V3| {
        let (a, b) = (q.x * 46.0 + noise(q * 2.0) * 1.5, q.y * 46.0 + noise(q * 2.3) * 1.5);
        let over = (a.sin() * b.sin()).signum();
        let h = if over > 0.0 { a.sin().abs() } else { b.sin().abs() };
        h * 0.008 + fbm(q * 20.0, 2) * 0.004
    };
    let n = relief(spot, 0.007, wave);
    let oil = step(0.12, 0.5, fbm(p * 0.5 + grey(6.0), 4));
    let yarn = 1.0
        + 0.18 * noise(v(p.x * 7.0, p.y * 40.0, 2.0))
        + 0.14 * noise(v(p.x * 40.0, p.y * 7.0, 5.0));
    let tone = tint * yarn;
    Skin::matt(spot, mix3(tone, v(0.06, 0.05, 0.04), oil * 0.75), 0.95).with_normal(n)
}

/// White glazed or plastic ware with faint smears.
pub fn white(spot: &Spot) -> Skin {
    let smear = fbm(spot.p * 1.5, 4);
    let n = relief(spot, 0.02, |q| noise(q * 8.0) * 0.0015);
    Skin::matt(spot, v(0.74, 0.74, 0.72) * (1.0 + 0.03 * smear), 0.22).with_normal(n)
}
