//! Toothed wheels, inner rings of teeth and the grease that clings to them.
//!
//! In: teeth, radii and a place. Out: distances and bodies. Motors are `motor`.

use super::decay;
use super::math::{Place, V3, bell, grey, mix, step, v};
use super::noise::{fbm, noise, unit};
use super::render::Body;
use super::shape::{cut, disc, fold, join, ring};
use super::skin::{Skin, Spot};
use super::stuff;
use std::f32::consts::TAU;

/// A toothed wheel about z.
#[derive(Clone, Copy)]
pub struct Wheel {
    /// Teeth.
    pub teeth: u32,
    /// Radius at the root of the teeth.
    pub root: f32,
    /// Radius at the tip.
    pub tip: f32,
    /// Half width.
    pub half: f32,
    /// Twist of the teeth, radians a unit of height.
    pub twist: f32,
    /// Bore radius.
    pub bore: f32,
    /// Teeth from the first to the second number are sheared off.
    pub lost: Option<(i32, i32)>,
}

impl Wheel {
    fn height(&self, tooth: i32) -> f32 {
        match self.lost {
            Some((a, b)) if (a..=b).contains(&tooth) => 0.04 + 0.22 * unit(tooth, 3, 1),
            Some((a, b)) if tooth == a - 1 || tooth == b + 1 => 0.72,
            _ => 1.0,
        }
    }

    /// Distance to the toothed disc without web and bore.
    pub fn blank(&self, p: V3) -> f32 {
        let side = p.z.abs() - self.half;
        let r = p.flat();
        if r > self.tip + 0.3 || side > 0.4 {
            let out = (r - self.tip).max(0.0);
            return (out * out + side.max(0.0) * side.max(0.0)).sqrt().max(0.05);
        }
        if r < self.root - 0.2 {
            return side.max(r - self.root);
        }
        let (q, tooth) = fold(p.spin(p.z * self.twist), self.teeth);
        let flat = self.profile(q, tooth, p);
        let (a, b) = (flat + 0.02, side + 0.02);
        let (oa, ob) = (a.max(0.0), b.max(0.0));
        ((oa * oa + ob * ob).sqrt() + a.max(b).min(0.0) - 0.02) * 0.9
    }

    fn profile(&self, q: V3, tooth: i32, p: V3) -> f32 {
        let arc = TAU / self.teeth as f32 * (self.root + self.tip) * 0.25;
        let (wide, slim) = (arc * 0.72, arc * 0.27);
        let tall = self.tip - self.root;
        let long = (tall * tall + (wide - slim) * (wide - slim)).sqrt();
        let x = q.x - self.root;
        let flank = (x * (wide - slim) + (q.y.abs() - wide) * tall) / long;
        let whole = self.height(tooth);
        let mut cap = x - tall * whole;
        if whole < 0.99 {
            cap += fbm(p * 7.0, 3) * 0.12 + q.y * 0.35;
        }
        let tooth = cut(flank, -cap, 0.05);
        join(tooth, q.flat() - self.root, 0.06)
    }

    /// Distance to the whole wheel, with a recessed web, lightening holes and a bore.
    pub fn whole(&self, p: V3) -> f32 {
        let mut d = self.blank(p);
        if d > 0.4 {
            return d;
        }
        let (rim, hub) = (self.root - 0.32, self.bore + 0.38);
        if rim > hub + 0.5 {
            let deep = v(p.x, p.y, p.z.abs() - self.half);
            d = cut(d, ring(deep, hub, rim, self.half * 0.42, 0.05), 0.06);
            let (q, _) = fold(p, 6);
            let hole = (q - v((rim + hub) * 0.5, 0.0, q.z)).len() - (rim - hub) * 0.24;
            d = cut(d, hole, 0.04);
        }
        cut(d, p.flat() - self.bore, 0.03)
    }

    /// The wheel as a body with its own look.
    pub fn body(self, place: Place, look: impl Fn(&Spot) -> Skin + Send + Sync + 'static) -> Body {
        let reach = (self.tip * self.tip + self.half * self.half).sqrt() + 0.05;
        Body::new(place, grey(0.0), reach, move |p| self.whole(p), look)
    }

    /// Grease on the teeth: thick between them where `much` (about 0) and the noise allow.
    pub fn coat(
        self,
        place: Place,
        much: f32,
        look: impl Fn(&Spot) -> Skin + Send + Sync + 'static,
    ) -> Body {
        let distance = move |p: V3| {
            let base = self.blank(p);
            if base > 0.4 {
                return base - 0.25;
            }
            let teeth = bell(self.tip - 0.05, 0.6, p.flat());
            let lump = fbm(p * 1.6 + grey(self.tip), 2);
            let thick = (much + lump * 0.20) * teeth - (1.0 - teeth) * 0.5;
            let full = mix(self.root + 0.08, self.tip + 0.02, (much * 8.0).clamp(0.0, 1.0));
            let filled = join(base, disc(p, full, self.half - 0.05, 0.05), 0.14);
            (filled - thick.clamp(-0.4, 0.06 + much * 0.8)) * 0.72
        };
        let reach = (self.tip * self.tip + self.half * self.half).sqrt() + 0.3;
        Body::new(place, grey(0.0), reach, distance, look)
    }
}

/// Gear steel: dark oiled body, flanks that shine from running.
pub fn hardened(spot: &Spot, wheel: Wheel) -> Skin {
    let flank = spot.n.z.abs() < 0.6 && spot.p.flat() > wheel.root + 0.03;
    if flank {
        let run = stuff::polished(spot, 0.35);
        return run.dim(0.85).wet(0.4, 0.1);
    }
    stuff::turned(spot, v(0.36, 0.36, 0.37), 0.27, 0.04).wet(0.35, 0.14)
}

/// Tough nylon, cream or grey, with a mould's faint sheen.
pub fn nylon(spot: &Spot, tint: V3) -> Skin {
    let base = stuff::plastic(spot, tint, 0.35);
    Skin { creep: 0.5, ..base }
}

/// A wheel of gear steel that broke: scored flanks, bright grainy faces where teeth are gone.
pub fn torn(spot: &Spot, wheel: Wheel) -> Skin {
    let base = hardened(spot, wheel);
    let (q, tooth) = fold(spot.p.spin(spot.p.z * wheel.twist), wheel.teeth);
    let hurt = wheel.height(tooth) < 0.99 && q.x > wheel.root - 0.02;
    let face = if hurt { step(-0.2, 0.3, spot.n.dot(spot.p.radial())) } else { 0.0 };
    let grain = super::skin::relief(spot, 0.008, |p| fbm(p * 16.0, 4) * 0.045);
    let raw = Skin::metal(spot, grey(0.66 + 0.1 * noise(spot.p * 40.0)), 0.48).with_normal(grain);
    let flank = step(wheel.root, wheel.tip, spot.p.flat()) * (1.0 - spot.n.z.abs());
    let mark = |p: V3| noise(v(p.x * 3.0, p.y * 3.0, p.z * 30.0));
    let scored = super::skin::relief(spot, 0.006, |p| mark(p).abs() * 0.02);
    let scuff = step(0.0, 0.5, mark(spot.p) + 0.2);
    let bright = Skin::metal(spot, grey(0.58), 0.34).with_normal(scored);
    base.over(bright, flank * scuff * 0.8).over(raw, face * 0.95)
}

/// An inner ring of teeth; `scored` marks and chips them.
pub fn inner_ring(place: Place, wheel: Wheel, outer: f32, scored: bool) -> Body {
    let distance = move |p: V3| {
        let r = p.flat();
        if r < wheel.root - 0.5 {
            return wheel.root - r - 0.05;
        }
        let (q, tooth) = fold(p, wheel.teeth);
        let mut space = wheel.profile(q, tooth, p);
        if scored && r > wheel.root - 0.1 {
            let chip = noise(v(p.x * 2.2, p.y * 2.2, p.z * 2.6)) - 0.22;
            space = space.min(join(space, r - wheel.tip + 0.08, 0.02).max(-chip * 0.2));
        }
        cut(ring(p, wheel.root - 0.6, outer, wheel.half, 0.06), space.max(r - wheel.tip), 0.03)
            * 0.9
    };
    let look = move |s: &Spot| {
        let inside = s.p.flat() < wheel.tip + 0.02 && s.n.z < 0.7;
        if !inside {
            return stuff::turned(s, v(0.42, 0.42, 0.425), 0.25, 0.04).wet(0.3, 0.15);
        }
        let base = stuff::polished(s, 0.45).dim(0.75).wet(0.4, 0.15);
        if !scored {
            return base;
        }
        let score = |p: V3| noise(v(p.x * 2.0, p.y * 2.0, p.z * 42.0)).abs() * 0.02;
        let n = super::skin::relief(s, 0.006, score);
        let bright = step(0.15, 0.45, noise(v(s.p.x * 3.0, s.p.y * 3.0, s.p.z * 22.0)));
        let mut hurt = base.with_normal(n);
        hurt.rough = 0.4;
        hurt.tint = v(0.44, 0.435, 0.43) + grey(0.42 * bright);
        let hurt = decay::pitted(hurt, s, 0.0);
        let tone = step(0.05, 0.45, fbm(s.p * 3.0, 3));
        hurt.over(decay::grease(s, v(0.045, 0.042, 0.04)), tone * 0.7)
    };
    Body::new(place, grey(0.0), (outer * outer + wheel.half * wheel.half).sqrt(), distance, look)
}
