//! What a surface is made of at one point, and how small relief bends its normal.
//!
//! In: plain numbers. Out: a `Skin` for `render`. Named stuffs are in `stuff` and `decay`.

use super::math::{V3, grey, mix, mix3, v};

/// The point that is asked about, in the body's own axes.
#[derive(Clone, Copy)]
pub struct Spot {
    /// Position.
    pub p: V3,
    /// Smooth normal.
    pub n: V3,
}

/// The surface at one point.
#[derive(Clone, Copy)]
pub struct Skin {
    /// Diffuse colour, or the mirror's tint when metal; linear.
    pub tint: V3,
    /// Roughness, 0 mirror to 1 matt.
    pub rough: f32,
    /// 0 for dirt and plastic, 1 for bare metal.
    pub metal: f32,
    /// Normal with relief.
    pub n: V3,
    /// Clear film on top (water, oil, lacquer), 0 to 1.
    pub film: f32,
    /// Roughness of that film.
    pub film_rough: f32,
    /// Direction across fine tool marks; zero where there are none.
    pub brush: V3,
    /// How far light creeps inside, 0 to 1.
    pub creep: f32,
}

impl Skin {
    /// A matt or half-matt stuff.
    pub fn matt(spot: &Spot, tint: V3, rough: f32) -> Skin {
        Skin {
            tint,
            rough,
            metal: 0.0,
            n: spot.n,
            film: 0.0,
            film_rough: 0.1,
            brush: grey(0.0),
            creep: 0.0,
        }
    }

    /// A bare metal.
    pub fn metal(spot: &Spot, tint: V3, rough: f32) -> Skin {
        Skin { metal: 1.0, ..Skin::matt(spot, tint, rough) }
    }

    /// Blend towards `other` by `t`.
    pub fn over(self, other: Skin, t: f32) -> Skin {
        let t = t.clamp(0.0, 1.0);
        Skin {
            tint: mix3(self.tint, other.tint, t),
            rough: mix(self.rough, other.rough, t),
            metal: mix(self.metal, other.metal, t),
            n: mix3(self.n, other.n, t).unit(),
            film: mix(self.film, other.film, t),
            film_rough: mix(self.film_rough, other.film_rough, t),
            brush: self.brush * (1.0 - t) + other.brush * t,
            creep: mix(self.creep, other.creep, t),
        }
    }

    /// The same with a clear wet film.
    pub fn wet(self, film: f32, rough: f32) -> Skin {
        Skin { film, film_rough: rough, ..self }
    }

    /// The same, darker or lighter.
    pub fn dim(self, k: f32) -> Skin {
        Skin { tint: self.tint * k, ..self }
    }

    /// The same with another normal.
    pub fn with_normal(self, n: V3) -> Skin {
        Skin { n, ..self }
    }
}

/// Bends a normal by the slope of `height` over distance `e`.
pub fn relief(spot: &Spot, e: f32, height: impl Fn(V3) -> f32) -> V3 {
    let p = spot.p;
    let h = height(p);
    let g = v(
        height(p + v(e, 0.0, 0.0)) - h,
        height(p + v(0.0, e, 0.0)) - h,
        height(p + v(0.0, 0.0, e)) - h,
    ) * (1.0 / e);
    let along = spot.n * g.dot(spot.n);
    (spot.n - (g - along)).unit()
}
