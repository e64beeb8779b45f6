//! Job HD-2618: a geared hub unit of steel wheels with broken teeth and metal debris.
//!
//! In: nothing. Out: its photos and their scenes. Parts and stuffs are in their own modules.

use super::bearing::{self, FRESH, Size, Wear};
use super::gear::{self, Wheel};
use super::light::Light;
use super::math::{Place, V3, bell, grey, step, v};
use super::noise::{fbm, hash, noise, unit};
use super::photo::Photo;
use super::render::{Body, Camera, Scene};
use super::shape::{block, disc};
use super::skin::{Skin, Spot};
use super::{bench, decay, motor, stuff};

const JOB: &str = "hd-2618";

/// The photos of this job.
pub fn photos() -> Vec<Photo> {
    vec![
        Photo::new(JOB, "gear-broken", "2026:04:14 13:18:26", gear_broken)
            .lens(12.2, 20.0, 0.19, 0.2)
            .summer(),
        Photo::new(JOB, "debris-magnet", "2026:04:14 13:31:50", debris)
            .lens(8.6, 24.0, 0.32, 0.1)
            .summer()
            .png((1200, 900)),
        Photo::new(JOB, "ring-gear", "2026:04:14 13:40:11", ring_gear)
            .lens(9.0, 20.0, 0.21, 0.1)
            .summer(),
        Photo::new(JOB, "bearing-dents", "2026:04:14 13:52:37", bearing_dents)
            .lens(6.3, 22.0, 0.2, 0.1)
            .summer(),
        Photo::new(JOB, "gear-new", "2026:04:20 10:07:33", gear_new)
            .lens(12.2, 20.0, 0.19, 0.1)
            .summer(),
    ]
}

const SUN: Wheel =
    Wheel { teeth: 17, root: 0.86, tip: 1.18, half: 0.62, twist: 0.0, bore: 0.42, lost: None };
const PLANET: Wheel =
    Wheel { teeth: 30, root: 1.62, tip: 1.93, half: 0.52, twist: 0.0, bore: 0.40, lost: None };
const RING: Wheel =
    Wheel { teeth: 78, root: 4.48, tip: 4.78, half: 0.75, twist: 0.0, bore: 0.0, lost: None };
const REACH: f32 = 2.86;
/// Grid on which loose chips are strewn.
const SPACING: f32 = 0.23;

fn hub(broken: bool) -> Vec<Body> {
    let mut out = vec![
        bench::mat(-1.2, v(0.034, 0.040, 0.046)),
        motor::carrier(Place::at(0.0, 0.0, -0.72).spun(0.55), REACH),
        gear::inner_ring(Place::at(0.0, 0.0, 0.0), RING, 5.35, broken),
    ];
    out.push(SUN.body(Place::at(0.0, 0.0, 0.1), |s| gear::hardened(s, SUN)));
    out.push(Body::new(
        Place::at(0.0, 0.0, 0.3),
        grey(0.0),
        1.5,
        |p| disc(p, 0.42, 1.2, 0.06),
        |s| stuff::steel(s, 0.2),
    ));
    for k in 0..3 {
        let a = 0.55 + k as f32 * 2.0944;
        let at = Place::at(REACH * a.cos(), REACH * a.sin(), 0.0).spun(a * 1.7 + 0.06);
        let hurt = broken && k == 2;
        let wheel = Wheel { lost: if hurt { Some((2, 8)) } else { None }, ..PLANET };
        if broken {
            out.push(wheel.body(at, move |s| gear::torn(s, wheel)));
            if !hurt {
                out.push(wheel.coat(at, -0.06, soiled));
            }
        } else {
            out.push(wheel.body(at, move |s| gear::hardened(s, wheel)));
            out.push(wheel.coat(at, 0.0, motor::fresh));
        }
        let clip = Place::at(REACH * a.cos(), REACH * a.sin(), 0.58).spun(a);
        out.push(Body::new(
            clip,
            grey(0.0),
            0.8,
            |p| {
                let d = super::shape::ring(p, 0.36, 0.60, 0.04, 0.02);
                super::shape::cut(d, block(p - v(0.6, 0.0, 0.0), v(0.4, 0.12, 0.2), 0.02), 0.02)
            },
            |s| stuff::polished(s, 0.3).dim(0.8),
        ));
    }
    if broken {
        out.push(crumbs(v(-2.35, -2.2, -1.12), 1.0));
    }
    out
}

fn soiled(spot: &Spot) -> Skin {
    let glint = step(0.55, 0.7, noise(spot.p * 19.0) + 0.2 * noise(spot.p * 41.0));
    let base = decay::grease(spot, v(0.060, 0.050, 0.038));
    base.over(Skin::metal(spot, v(0.6, 0.6, 0.6), 0.3), glint * 0.7)
}

/// Torn-off teeth and splinters lying about `at`.
fn crumbs(at: V3, spread: f32) -> Body {
    let pieces: Vec<(V3, V3, f32)> = (0..13)
        .map(|i| {
            let away = spread * unit(i, 1, 9).sqrt();
            let a = unit(i, 2, 9) * std::f32::consts::TAU;
            let size = 0.06 + 0.12 * unit(i, 3, 9);
            let half = v(size * 1.6, size, size * 0.8);
            (v(at.x + away * a.cos(), at.y + 0.5 * away * a.sin(), at.z), half, a * 3.0)
        })
        .collect();
    Body::new(
        Place::at(0.0, 0.0, 0.0),
        at,
        spread + 0.4,
        move |p| {
            let mut d = f32::MAX;
            for (c, half, turn) in &pieces {
                let q = (p - *c).spin(*turn);
                if q.len() < 0.6 {
                    d = d.min(block(q, *half, 0.03) - 0.02 * noise(q * 9.0));
                } else {
                    d = d.min(q.len() - 0.3);
                }
            }
            d * 0.8
        },
        |s| {
            let run = stuff::turned(s, v(0.40, 0.40, 0.41), 0.3, 0.03);
            let raw = Skin::metal(s, grey(0.62 + 0.1 * noise(s.p * 40.0)), 0.48);
            run.over(raw, step(-0.1, 0.3, fbm(s.p * 3.0, 3)))
        },
    )
}

fn hub_camera() -> Camera {
    Camera { eye: v(-0.3, -8.6, 9.2), aim: v(0.0, -1.0, 0.0), fov: 33.0, roll: 1.2 }
}

fn gear_broken() -> Scene {
    Scene {
        bodies: hub(true),
        camera: hub_camera(),
        light: Light::window(140.0, 48.0, 2.2),
        nook: 1.3,
    }
}

fn gear_new() -> Scene {
    Scene {
        bodies: hub(false),
        camera: hub_camera(),
        light: Light::window(137.0, 50.0, 2.2),
        nook: 1.3,
    }
}

fn ring_gear() -> Scene {
    let mut bodies = vec![
        bench::cloth(-1.1, v(0.28, 0.27, 0.25), 0.9),
        gear::inner_ring(Place::at(0.0, 0.0, 0.0).tilted(0.05), RING, 5.35, true),
    ];
    let lump = Place::at(1.7, 4.1, -0.45);
    bodies.push(motor::dollop(lump, v(0.7, 0.3, 0.16), 3.0, soiled));
    Scene {
        bodies,
        camera: Camera { eye: v(-1.2, -4.2, 5.0), aim: v(-0.2, 3.9, -0.1), fov: 32.0, roll: -2.0 },
        light: Light::window(255.0, 50.0, 2.4),
        nook: 1.2,
    }
}

/// A bearing of the hub's axle: 12 mm bore, 28 mm outside, 8 mm wide.
const HUB: Size = Size { bore: 0.6, outer: 1.4, half: 0.4, ball: 0.238, count: 8 };

/// The bearing taken apart: outer ring, inner ring and balls side by side on a cloth.
fn bearing_dents() -> Scene {
    let wear = Wear { dull: 0.35, dents: 0.62, ..FRESH };
    let outer = Place::at(-0.75, 0.55, 0.05).tilted(0.10);
    let inner = Place::at(1.35, -0.35, 0.03).spun(0.8);
    let mut bodies = vec![bench::cloth(-0.4, v(0.30, 0.29, 0.27), 0.9)];
    bodies.extend(bearing::rings(outer, HUB, wear).into_iter().take(1));
    bodies.extend(bearing::rings(inner, HUB, wear).into_iter().skip(1));
    let loose = Place::at(0.25, -0.85, -0.16);
    bodies.extend(bearing::balls(loose, HUB, wear, vec![2.4, 3.1, 3.9, 4.6, 5.2]));
    Scene {
        bodies,
        camera: Camera { eye: v(0.3, -5.0, 3.9), aim: v(0.25, 0.05, -0.05), fov: 34.0, roll: -1.4 },
        light: Light::window(118.0, 46.0, 2.3),
        nook: 1.2,
    }
}

/// One sliver of a field of chips: its own point and its size.
fn sliver(p: V3, pitch: f32, seed: i32, lean: impl Fn(V3) -> V3) -> f32 {
    let (cx, cy) = ((p.x / pitch).round() as i32, (p.y / pitch).round() as i32);
    let mut d = f32::MAX;
    for dy in -1..=1 {
        for dx in -1..=1 {
            let (ix, iy) = (cx + dx, cy + dy);
            let r = |k: i32| unit(ix, iy, seed + k);
            let foot = v((ix as f32 + r(1) - 0.5) * pitch, (iy as f32 + r(2) - 0.5) * pitch, 0.0);
            let up = lean(foot);
            let tall = up.len() * (0.35 + 0.9 * r(3));
            if tall < 0.02 {
                continue;
            }
            let jig = v(r(4) - 0.5, r(5) - 0.5, 0.0) * 0.7;
            let tip = foot + (up.unit() + jig).unit() * tall;
            let w = 0.006 + 0.014 * r(6) * r(7);
            d = d.min(super::shape::rod(p, foot, tip, w));
        }
    }
    d.min(pitch * 0.9)
}

fn chip(spot: &Spot) -> Skin {
    let kind = hash((spot.p.x * 7.0) as i32, (spot.p.y * 7.0) as i32, 4) % 8;
    let base = stuff::polished(spot, 0.5);
    if kind == 0 {
        return Skin::metal(spot, v(0.62, 0.42, 0.20), 0.3);
    }
    base.over(decay::grease(spot, v(0.03, 0.027, 0.024)), step(0.1, 0.4, fbm(spot.p * 3.0, 2)))
}

fn debris() -> Scene {
    let face = 0.9;
    let magnet = Body::new(
        Place::at(0.0, 0.0, 0.45),
        grey(0.0),
        1.9,
        |p| disc(p, 1.75, 0.45, 0.10),
        |s| {
            let base = stuff::turned(s, v(0.55, 0.54, 0.50), 0.16, 0.012);
            base.over(decay::grease(s, v(0.05, 0.045, 0.04)), step(0.15, 0.5, fbm(s.p * 1.4, 4)))
        },
    );
    let fur = Body::new(
        Place::at(0.0, 0.0, face),
        v(0.0, 0.0, 0.3),
        2.5,
        |p| {
            if p.z > 1.2 {
                return p.z - 0.9;
            }
            sliver(p, 0.085, 30, |foot| {
                let r = foot.flat();
                if r > 1.74 {
                    return grey(0.0);
                }
                let rim = bell(1.6, 0.6, r);
                let much = step(-0.25, 0.3, fbm(foot * 1.1 + grey(5.0), 3)) * (0.25 + 0.75 * rim);
                (v(0.0, 0.0, 1.0) + foot.radial() * (rim * 1.1)) * (much * 0.55)
            }) * 0.8
        },
        chip,
    )
    .fine();
    let beard = Body::new(
        Place::at(0.0, 0.0, 0.0),
        v(0.0, 0.0, 0.5),
        2.6,
        |p| {
            let a = p.angle();
            let r = p.flat();
            if !(1.5..2.6).contains(&r) {
                return (1.7 - r).max(r - 2.3).max(0.15);
            }
            let q = v(a * 1.8, p.z - 0.5, r - 1.74);
            sliver(q, 0.085, 60, |foot| {
                if foot.y.abs() > 0.4 {
                    return grey(0.0);
                }
                let much = step(-0.15, 0.35, fbm(v(foot.x * 1.1, foot.y, 2.0), 3));
                v(0.0, foot.y * 0.9, 1.0) * (0.42 * much)
            }) * 0.7
        },
        chip,
    )
    .fine();
    let strewn = Body::new(
        Place::at(0.0, 0.0, 0.02),
        grey(0.0),
        6.5,
        |p| {
            if p.z > 0.3 {
                return p.z - 0.1;
            }
            let (cx, cy) = ((p.x / SPACING).round(), (p.y / SPACING).round());
            let (ix, iy) = (cx as i32, cy as i32);
            let home = v(cx * SPACING, cy * SPACING, 0.0);
            let near = step(5.2, 1.7, (home - v(1.6, -0.6, 0.0)).flat());
            let q = p - home;
            let edge = 0.15 - q.x.abs().max(q.y.abs());
            if unit(ix, iy, 91) > near * 0.75 {
                return edge.max(0.05);
            }
            let turn = unit(ix, iy, 92) * std::f32::consts::TAU;
            let long = 0.02 + 0.10 * unit(ix, iy, 93).powi(3);
            let slim = 0.007 + 0.016 * unit(ix, iy, 96);
            let c = v(unit(ix, iy, 94) - 0.5, unit(ix, iy, 95) - 0.5, 0.0) * 0.12;
            let d = block((q - c).spin(turn), v(long, slim, 0.010), 0.005);
            d.min(edge.max(0.05))
        },
        chip,
    )
    .fine();
    Scene {
        bodies: vec![bench::card(0.0), magnet, fur, beard, strewn],
        camera: Camera { eye: v(0.9, -5.9, 6.2), aim: v(0.45, -0.15, 0.5), fov: 38.0, roll: -1.6 },
        light: Light::lamp(125.0, 44.0, 2.4),
        nook: 0.9,
    }
}
