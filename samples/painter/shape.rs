//! Signed distances of plain shapes and the ways to join them.
//!
//! In: a local point. Out: the distance to the surface, negative inside.
//! No part of a drive unit here (`bearing`, `gear`, `casing`, `board`, `motor`).

use super::math::{V3, v};
use std::f32::consts::TAU;

/// Rectangle in a plane with half sides and rounded corners.
pub fn rect(x: f32, y: f32, hx: f32, hy: f32, round: f32) -> f32 {
    let (qx, qy) = (x.abs() - hx + round, y.abs() - hy + round);
    let (ox, oy) = (qx.max(0.0), qy.max(0.0));
    (ox * ox + oy * oy).sqrt() + qx.max(qy).min(0.0) - round
}

/// Box with half sides and rounded edges.
pub fn block(p: V3, half: V3, round: f32) -> f32 {
    let q = v(p.x.abs(), p.y.abs(), p.z.abs()) - half + v(round, round, round);
    let o = v(q.x.max(0.0), q.y.max(0.0), q.z.max(0.0));
    o.len() + q.x.max(q.y).max(q.z).min(0.0) - round
}

/// Upright cylinder about z.
pub fn disc(p: V3, radius: f32, half: f32, round: f32) -> f32 {
    let (a, b) = (p.flat() - radius + round, p.z.abs() - half + round);
    let (oa, ob) = (a.max(0.0), b.max(0.0));
    (oa * oa + ob * ob).sqrt() + a.max(b).min(0.0) - round
}

/// Flat ring about z, from `inner` to `outer` radius.
pub fn ring(p: V3, inner: f32, outer: f32, half: f32, round: f32) -> f32 {
    rect(p.flat() - (inner + outer) * 0.5, p.z, (outer - inner) * 0.5, half, round)
}

/// Torus about z.
pub fn torus(p: V3, radius: f32, thick: f32) -> f32 {
    let a = p.flat() - radius;
    (a * a + p.z * p.z).sqrt() - thick
}

/// Rod with round ends.
pub fn rod(p: V3, a: V3, b: V3, r: f32) -> f32 {
    let (pa, ba) = (p - a, b - a);
    let h = (pa.dot(ba) / ba.dot(ba)).clamp(0.0, 1.0);
    (pa - ba * h).len() - r
}

/// A plane outline pulled up: `flat` is the outline's distance.
pub fn pulled(flat: f32, z: f32, half: f32, round: f32) -> f32 {
    let (a, b) = (flat + round, z.abs() - half + round);
    let (oa, ob) = (a.max(0.0), b.max(0.0));
    (oa * oa + ob * ob).sqrt() + a.max(b).min(0.0) - round
}

/// Union with a fillet of width `k`.
pub fn join(a: f32, b: f32, k: f32) -> f32 {
    let h = (k - (a - b).abs()).max(0.0) / k;
    a.min(b) - h * h * k * 0.25
}

/// Cuts `b` out of `a` with a rounded edge of width `k`.
pub fn cut(a: f32, b: f32, k: f32) -> f32 {
    let h = (k - (a + b).abs()).max(0.0) / k;
    a.max(-b) + h * h * k * 0.25
}

/// Folds the turn into `n` equal sectors (three or more); the answer lies about the x axis, with
/// its sector.
pub fn fold(p: V3, n: u32) -> (V3, i32) {
    let width = TAU / n as f32;
    let turns = p.angle() / width;
    let sector = (turns + n as f32 + 0.5) as i32 - n as i32;
    let (r, a) = (p.flat(), (turns - sector as f32) * width);
    let b = a * a;
    let s = a * (1.0 - b * (1.0 / 6.0 - b * (1.0 / 120.0 - b * (1.0 / 5040.0))));
    let c = 1.0 - b * (0.5 - b * (1.0 / 24.0 - b * (1.0 / 720.0 - b * (1.0 / 40320.0))));
    (v(r * c, r * s, p.z), sector.rem_euclid(n as i32))
}
