//! The workshop's light: a window, a tube lamp, a ceiling and walls.
//!
//! In: a direction. Out: the light that comes from it, and the key light for shadows.
//! No surfaces here; what the light does on them is `render`.

use super::math::{V3, mix3, step, v};

/// Light of one photo.
#[derive(Clone, Copy)]
pub struct Light {
    /// Towards the key light (the window or a lamp), a unit vector.
    pub key: V3,
    /// Colour and strength of the key light.
    pub glow: V3,
    /// Strength of everything else.
    pub fill: f32,
    /// How hard the shadows' edges are; 4 is a wide window, 20 a small lamp.
    pub hard: f32,
}

impl Light {
    /// Window at a compass angle (degrees from +x) and height (degrees).
    pub fn window(turn: f32, height: f32, power: f32) -> Light {
        let (t, h) = (turn.to_radians(), height.to_radians());
        Light {
            key: v(h.cos() * t.cos(), h.cos() * t.sin(), h.sin()),
            glow: v(1.0, 0.97, 0.92) * power,
            fill: 1.0,
            hard: 7.0,
        }
    }

    /// A smaller, warmer lamp with harder shadows.
    pub fn lamp(turn: f32, height: f32, power: f32) -> Light {
        Light { glow: v(1.0, 0.93, 0.83) * power, hard: 14.0, ..Light::window(turn, height, power) }
    }

    /// Soft light on a matt surface that faces `n`.
    pub fn wash(&self, n: V3) -> V3 {
        let up = 0.5 + 0.5 * n.z;
        let side = 0.5 + 0.5 * n.dot(self.key);
        let low = v(0.17, 0.16, 0.15);
        let high = v(0.52, 0.55, 0.60);
        (mix3(low, high, up) + v(0.22, 0.22, 0.21) * side) * self.fill
    }

    /// What a mirror of roughness `rough` sees in direction `d`.
    pub fn seen(&self, d: V3, rough: f32) -> V3 {
        let blur = 0.03 + rough * rough * 1.4 + rough * 0.25;
        let up = step(-0.25 - blur, 0.9 + blur * 0.5, d.z);
        let bench = v(0.07, 0.066, 0.06);
        let wall = v(0.24, 0.24, 0.235);
        let ceiling = v(0.46, 0.47, 0.49);
        let horizon = step(-0.12 - blur, 0.12 + blur, d.z);
        let mut c = mix3(bench, mix3(wall, ceiling, up), horizon) * self.fill;
        // Shelves and dark things along the walls.
        let turn = d.y.atan2(d.x);
        let shelf = (turn * 3.0).sin() * (turn * 7.0 + 1.3).sin();
        let band = 1.0 - step(0.05, 0.5 + blur, (d.z - 0.22).abs());
        c = c * (1.0 - 0.55 * band * step(0.0 - blur, 0.25 + blur, shelf) / (1.0 + blur * 2.0));
        // One side of the room is warm timber, the other cool paint.
        let warm = 0.5 + 0.5 * (d.x * 0.8 - d.y * 0.6);
        c = c * mix3(v(0.90, 0.98, 1.10), v(1.16, 1.0, 0.80), warm);
        let right = self.key.cross(v(0.0, 0.0, 1.0)).unit();
        let over = right.cross(self.key);
        let ahead = d.dot(self.key);
        if ahead > 0.02 {
            let (a, b) = (d.dot(right) / ahead, d.dot(over) / ahead);
            let half = if self.hard > 10.0 { (0.28, 0.2) } else { (0.55, 0.42) };
            let pane = soft(a, half.0, blur) * soft(b, half.1, blur);
            let bar = 1.0 - 0.75 * soft(a + 0.02, 0.025, 0.03 + blur) * (1.0 - blur).max(0.0);
            let strength = 2.6 / (1.0 + blur * 1.2);
            c += self.glow * (strength * pane * bar);
        }
        if d.z > 0.05 {
            let (a, b) = ((d.x * 0.86 + d.y * 0.5) / d.z, (d.y * 0.86 - d.x * 0.5) / d.z);
            let tube = soft(a - 0.25, 0.11, blur) * soft(b - 0.35, 1.5, blur)
                + soft(a + 0.95, 0.11, blur) * soft(b - 0.2, 1.5, blur);
            c += v(0.93, 1.0, 0.98) * (tube * 1.5 * self.fill / (1.0 + blur * 3.0));
        }
        c
    }
}

fn soft(x: f32, half: f32, blur: f32) -> f32 {
    let full = 1.0 - step(half - blur, half + blur, x.abs());
    full * (half / (half + blur * 0.45)).min(1.0)
}
