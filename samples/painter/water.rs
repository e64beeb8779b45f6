//! The white tray with what poured out of the unit: brown water, silt, drops, a printed scale.
//!
//! In: nothing but a place. Out: bodies. Mud on parts is `decay`.

use super::math::{Place, V3, bell, grey, mix3, step, v};
use super::noise::{cells, fbm, noise, unit};
use super::render::Body;
use super::shape::{join, rect};
use super::skin::{Skin, Spot, relief};
use super::stuff;

const HALF: (f32, f32) = (8.4, 6.2);
/// The tray stands a little crooked, so the water gathers at one end.
const SLOPE: f32 = 0.055;
const LEVEL: f32 = 0.20;

fn floor_at(p: V3) -> f32 {
    noise(v(p.x * 0.3, p.y * 0.3, 2.0)) * 0.01
}

fn basin(p: V3) -> f32 {
    let flare = 1.0 + p.z.clamp(0.0, 2.0) * 0.05;
    let d = rect(p.x / flare, p.y / flare, HALF.0, HALF.1, 1.3);
    let wall = ((d - 0.09).abs() - 0.09).max(p.z - 1.7).max(-p.z - 0.1);
    let lip = {
        let (a, b) = (d - 0.25, p.z - 1.7);
        (a * a + b * b).sqrt() - 0.16
    };
    let base = (p.z - floor_at(p)).max(d).max(-p.z - 0.2);
    join(join(base, wall, 0.55), lip, 0.1)
}

/// Digits and letters of the scale, three by five.
fn sign(kind: char, x: i32, y: i32) -> bool {
    let rows: [u8; 5] = match kind {
        '0' => [7, 5, 5, 5, 7],
        '2' => [7, 1, 7, 4, 7],
        '4' => [5, 5, 7, 1, 1],
        '6' => [7, 4, 7, 5, 7],
        'm' => [0, 0, 7, 7, 5],
        'l' => [4, 4, 4, 4, 6],
        _ => return false,
    };
    (0..3).contains(&x) && (0..5).contains(&y) && rows[y as usize] >> (2 - x) & 1 == 1
}

fn scale(p: V3) -> f32 {
    let mut ink = 0.0f32;
    for (i, word) in ["60 ml", "40 ml", "20 ml"].iter().enumerate() {
        let x = -4.4 + i as f32 * 3.6;
        let line = bell(x, 0.06, p.x) * step(3.6, 3.5, (p.y + 1.6).abs());
        ink = ink.max(line);
        let half = bell(x + 1.8, 0.05, p.x) * step(1.4, 1.35, (p.y + 3.8).abs());
        ink = ink.max(half);
        let (u, w) = ((p.x - x - 0.22) / 0.13, (2.5 - p.y) / 0.13);
        let (column, row) = (u.floor() as i32, w.floor() as i32);
        let letter = word.chars().nth(column.div_euclid(4).max(0) as usize);
        if column >= 0 && letter.is_some_and(|c| sign(c, column.rem_euclid(4), row)) {
            ink = 1.0;
        }
    }
    ink
}

fn bottom(spot: &Spot, p: V3) -> Skin {
    let base = stuff::white(spot);
    let ink = scale(p) * step(0.25, 0.1, p.z);
    let base = base.over(Skin::matt(spot, v(0.07, 0.09, 0.16), 0.5), ink * 0.75);
    // Tide marks and thin smears that the pouring left.
    let depth = LEVEL - SLOPE * (p.x + 3.0);
    let tide = step(-0.10, 0.0, depth + fbm(p * 0.8, 4) * 0.12);
    let smear = step(0.1, 0.7, fbm(p * 0.7 + grey(4.0), 4) + 0.2 * tide);
    let stain = v(0.52, 0.38, 0.22);
    let grit = cells(p.x * 5.0, p.y * 5.0, 3);
    let speck = step(0.09, 0.05, grit.near) * step(0.8, 0.85, grit.tag);
    base.over(Skin::matt(spot, stain, 0.5), (0.16 * tide + 0.35 * smear) * step(1.5, 0.1, p.z))
        .over(Skin::matt(spot, v(0.10, 0.07, 0.05), 0.9), speck)
}

/// Tray, water and drops, standing on height 0.
pub fn tray(place: Place) -> Vec<Body> {
    let tray = Body::new(place, v(0.0, 0.0, 0.8), 11.4, basin, |s| bottom(s, s.p));
    let water = Body::new(
        place,
        v(-3.0, 0.0, 0.3),
        10.6,
        |p| {
            let ragged = 0.022 * fbm(p * 0.55, 2);
            let top = p.z - (LEVEL - SLOPE * (p.x + 3.0)).min(1.0);
            let inside = rect(p.x, p.y, HALF.0 + 0.04, HALF.1 + 0.04, 1.3);
            let rim = LEVEL - SLOPE * (p.x + 3.0) + ragged - 0.035;
            let d = top.max(inside);
            // Surface tension rounds the front edge off.
            d.max(-rim * 1.2) * 0.9
        },
        |s| {
            let depth = (LEVEL - SLOPE * (s.p.x + 3.0)).max(0.0);
            let swirl = v(noise(s.p * 0.35), noise(s.p * 0.35 + grey(4.0)), 0.0) * 1.6;
            let silt = fbm((s.p + swirl) * v(0.45, 0.8, 1.0) + grey(7.0), 5);
            let thick = depth * (3.6 + 1.8 * silt) + 0.30;
            let pass = v((-thick * 1.9).exp(), (-thick * 2.7).exp(), (-thick * 4.0).exp());
            let below = bottom(s, v(s.p.x, s.p.y, 0.0)).tint;
            let muddy = v(0.080, 0.055, 0.032) * (1.0 + 0.8 * silt);
            let tint = below * pass + muddy * (1.0 - pass.y);
            let scum = step(0.5, 0.62, fbm(s.p * 1.4 + grey(1.0), 5));
            let tint = mix3(tint, v(0.30, 0.23, 0.15), scum * 0.5);
            let n = relief(s, 0.03, |q| noise(q * 1.1) * 0.006 + noise(q * 3.1) * 0.0012);
            Skin::matt(s, tint, 0.6).with_normal(n).wet(1.0, 0.03)
        },
    );
    let mut out = vec![tray, water];
    for i in 0..34 {
        let x = 0.9 + unit(i, 1, 4) * 6.8;
        let y = (unit(i, 2, 4) - 0.5) * 10.6;
        if LEVEL - SLOPE * (x + 3.0) > -0.03 {
            continue;
        }
        let r = 0.10 + unit(i, 3, 4).powi(3) * 0.34;
        let at = v(x, y, 0.0);
        let flat = 0.36;
        out.push(Body::new(
            place,
            at,
            r * 1.1,
            move |p| {
                let q = p - at;
                let wobble = 1.0 + 0.10 * noise(v(q.x * 1.4, q.y * 1.4, x));
                (v(q.x, q.y, q.z / flat).len() - r * wobble) * flat
            },
            |s| {
                let deep = s.p.z * 1.6 + 0.12;
                let pass = v((-deep * 1.2).exp(), (-deep * 2.0).exp(), (-deep * 3.4).exp());
                let tint = v(0.74, 0.73, 0.70) * pass;
                Skin { creep: 0.8, ..Skin::matt(s, tint, 0.4).wet(1.0, 0.03) }
            },
        ));
    }
    out
}
