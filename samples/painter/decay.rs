//! What time and water do: rust, pits, mud, grease fresh and old, soot.
//!
//! In: a spot and an amount. Out: a skin to lay over the clean one. Clean stuffs are `stuff`.

use super::math::{V3, grey, mix, mix3, step, v};
use super::noise::{cells_on, fbm, noise, ridges};
use super::skin::{Skin, Spot, relief};

/// How far rust covers a point: -1 nothing, 0 half of it, 1 all.
pub fn rusting(p: V3, amount: f32) -> f32 {
    let big = fbm(p * 1.1 + grey(3.3), 4);
    let fine = fbm(p * 7.0, 4);
    step(-0.10, 0.14, amount + big * 0.9 + fine * 0.38)
}

fn crust(p: V3) -> f32 {
    fbm(p * 9.0, 5) * 0.5 + ridges(p * 4.0, 3) * 0.35
}

/// Rust over `base`: dark, orange and yellow scale with pits.
pub fn rust(base: Skin, spot: &Spot, amount: f32) -> Skin {
    let m = rusting(spot.p, amount);
    if m < 0.01 {
        return base;
    }
    let p = spot.p;
    let pit = cells_on(p * 6.5, spot.n, 31);
    let hole = step(0.34, 0.08, pit.near) * step(0.35, 0.6, pit.tag);
    let n = relief(spot, 0.006, |q| crust(q) * 0.055);
    let n = mix3(spot.n, n, 0.4 + 0.6 * m).unit();
    let a = fbm(p * 2.6 + grey(9.0), 4);
    let b = fbm(p * 16.0, 4);
    let dark = v(0.045, 0.02, 0.012);
    let brown = v(0.17, 0.062, 0.024);
    let orange = v(0.42, 0.155, 0.045);
    let sand = v(0.50, 0.27, 0.11);
    let mut tint = mix3(brown, orange, step(-0.25, 0.45, a + b * 0.6));
    tint = mix3(tint, dark, step(0.05, 0.55, b * 0.8 - a));
    tint = mix3(tint, sand, step(0.32, 0.75, b + a * 0.4) * 0.7);
    tint = mix3(tint, dark * 0.5, hole * 0.85);
    let scale = Skin::matt(spot, tint, 0.88).with_normal(n);
    // A thin tea-coloured film runs ahead of the scale.
    let tea = step(-0.55, 0.1, amount + fbm(p * 1.1 + grey(3.3), 3) * 0.9) * (1.0 - m);
    let film = Skin { tint: base.tint * v(0.62, 0.40, 0.22), rough: base.rough + 0.15, ..base };
    base.over(film, tea * 0.75).over(scale, m)
}

/// Scattered small rust-black pits on an otherwise bright face.
pub fn pitted(base: Skin, spot: &Spot, amount: f32) -> Skin {
    let p = spot.p;
    let thick = amount + fbm(p * 2.0 + grey(1.0), 3) * 0.8;
    let holes = |q: V3| {
        let c = cells_on(q * 9.0, spot.n, 51);
        let d = cells_on(q * 23.0, spot.n, 53);
        step(0.36, 0.12, c.near + noise(q * 30.0) * 0.12) * step(0.25, 0.5, thick + c.tag - 0.5)
            + 0.5 * step(0.4, 0.15, d.near) * step(0.2, 0.5, thick + d.tag - 0.55)
    };
    let m = (holes(p) * 1.9).min(1.0);
    let n = relief(spot, 0.006, |q| -holes(q) * 0.022);
    let tint = mix3(v(0.035, 0.02, 0.014), v(0.20, 0.085, 0.035), step(0.0, 0.5, fbm(p * 21.0, 3)));
    base.with_normal(mix3(base.n, n, 0.8).unit())
        .over(Skin::matt(spot, tint, 0.8).with_normal(n), m)
}

/// Grease as a lit blob; `tint` is its own colour.
pub fn grease(spot: &Spot, tint: V3) -> Skin {
    let p = spot.p;
    let n = relief(spot, 0.02, |q| fbm(q * 2.6, 2) * 0.045);
    let tone = fbm(p * 2.4, 3);
    let bubble = cells_on(p * 9.0, spot.n, 71);
    let spec = step(0.10, 0.05, bubble.near) * step(0.8, 0.9, bubble.tag);
    let tint = tint * (1.0 + 0.16 * tone) * (1.0 - 0.4 * spec);
    Skin { creep: 0.8, ..Skin::matt(spot, tint, 0.34).with_normal(n).wet(1.0, 0.16) }
}

/// Grease mixed with water: pale, wet, with beads of water and rusty streaks in it.
pub fn milky(spot: &Spot) -> Skin {
    let p = spot.p;
    let swirl = v(noise(p * 1.1), noise(p * 1.1 + grey(3.0)), noise(p * 1.1 + grey(7.0))) * 0.8;
    let streak = fbm((p + swirl) * v(1.5, 1.5, 3.0), 4);
    let dirt = step(0.02, 0.5, fbm((p + swirl) * 2.6 + grey(5.0), 4));
    let tint = mix3(v(0.60, 0.54, 0.43), v(0.36, 0.27, 0.17), step(-0.2, 0.5, streak));
    let tint = mix3(tint, v(0.15, 0.085, 0.04), dirt * 0.7);
    let base = Skin { film_rough: 0.07, ..grease(spot, tint) };
    let drop = |q: V3| {
        let c = cells_on(q * 4.2, spot.n, 88);
        let d = cells_on(q * 9.5, spot.n, 89);
        let large = step(0.27, 0.0, c.near) * step(0.5, 0.6, c.tag);
        large.max(0.5 * step(0.3, 0.0, d.near) * step(0.5, 0.6, d.tag))
    };
    let bead = drop(p).min(1.0);
    let n = relief(spot, 0.008, |q| drop(q) * 0.07);
    let wet = Skin { film_rough: 0.03, ..base.dim(0.8).with_normal(n) };
    base.over(wet, step(0.02, 0.2, bead))
}

/// Dried or wet silt; `wet` 0 dry to 1 shining.
pub fn mud(spot: &Spot, wet: f32) -> Skin {
    let p = spot.p;
    let grain = |q: V3| {
        let c = cells_on(q * 16.0, spot.n, 41);
        fbm(q * 5.0, 4) * 0.05 + step(0.4, 0.1, c.near) * 0.018 * step(0.5, 0.7, c.tag)
    };
    let n = relief(spot, 0.008, grain);
    let sand = cells_on(p * 16.0, spot.n, 41);
    let tone = fbm(p * 1.8, 4);
    let mut tint =
        mix3(v(0.17, 0.115, 0.07), v(0.34, 0.25, 0.16), step(-0.4, 0.5, tone) * (1.0 - 0.6 * wet));
    tint = mix3(tint, v(0.48, 0.42, 0.34), step(0.3, 0.1, sand.near) * step(0.75, 0.85, sand.tag));
    Skin::matt(spot, tint, mix(0.95, 0.5, wet)).with_normal(n).wet(wet * 0.8, 0.12)
}

/// Soot and scorch.
pub fn soot(spot: &Spot) -> Skin {
    let p = spot.p;
    let n = relief(spot, 0.006, |q| fbm(q * 14.0, 4) * 0.03);
    let ash = step(0.2, 0.6, fbm(p * 8.0, 4));
    let tint = mix3(v(0.012, 0.011, 0.010), v(0.10, 0.085, 0.07), ash * 0.6);
    Skin::matt(spot, tint, 0.85).with_normal(n)
}
