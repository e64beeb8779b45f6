//! Job HD-2625: no fault found.
//!
//! In: nothing. Out: its photos and their scenes. Parts and stuffs are in their own modules.

use super::job_hd2611::opened;
use super::light::Light;
use super::math::{Place, V3, bell, grey, v};
use super::photo::Photo;
use super::render::{Body, Camera, Scene};
use super::shape::{cut, disc, join, pulled, rect};
use super::skin::{Skin, Spot};
use super::{bench, casing, motor, stuff};

const JOB: &str = "hd-2625";

/// The photos of this job.
pub fn photos() -> Vec<Photo> {
    vec![
        Photo::new(JOB, "unit-arrived", "2026:06:15 09:03:17", unit_arrived)
            .lens(29.0, 14.0, 0.18, 0.2)
            .summer(),
        Photo::new(JOB, "plug-clean", "2026:06:16 10:22:40", plug_clean)
            .lens(7.2, 24.0, 0.17, 0.0)
            .summer(),
        Photo::new(JOB, "case-open", "2026:06:16 10:47:02", case_open)
            .lens(21.0, 16.0, 0.19, 0.1)
            .zone(None),
    ]
}

fn unit_arrived() -> Scene {
    let place = Place::at(-0.2, 0.0, 0.3).spun(2.75);
    let mut bodies = vec![
        bench::cardboard(0.0, 0.25),
        casing::closed(place, v(0.036, 0.037, 0.040), |_| 9.0, |_, base| base),
    ];
    let path = [v(-8.2, 2.5, 2.4), v(-11.0, 4.8, 3.6), v(-12.8, 0.5, 0.5), v(-10.4, -5.0, 0.35)];
    bodies.extend(motor::cable(path, 0.3, v(0.015, 0.015, 0.016)));
    bodies.push(bench::rag(Place::at(11.2, -5.2, 0.1).spun(0.9), 3.3, v(0.14, 0.20, 0.33)));
    Scene {
        bodies,
        camera: Camera { eye: v(2.6, -18.0, 22.5), aim: v(-0.3, -0.5, 1.6), fov: 38.0, roll: 1.7 },
        light: Light::window(120.0, 50.0, 2.1),
        nook: 2.6,
    }
}

/// Pins of the plug: place across and along, radius.
const PINS: [(f32, f32, f32); 8] = [
    (-0.62, 0.36, 0.13),
    (-0.62, -0.36, 0.13),
    (0.0, 0.40, 0.065),
    (0.32, 0.40, 0.065),
    (0.64, 0.40, 0.065),
    (0.0, -0.40, 0.065),
    (0.32, -0.40, 0.065),
    (0.64, -0.40, 0.065),
];

/// A plug with its pins bright.
pub fn plug_clean() -> Scene {
    // The plug looks up and towards the lens; its own axis is z.
    let place = Place::at(0.0, 0.1, 1.45).spun(0.22).tilted(1.0);
    let shell = Body::new(
        place,
        v(0.0, 0.0, -0.6),
        2.7,
        |p| {
            let flat = rect(p.x, p.y, 1.25, 0.92, 0.55);
            let mut d = pulled(flat, p.z, 0.75, 0.06);
            d = cut(d, pulled(flat + 0.22, p.z - 0.75, 0.95, 0.03), 0.04);
            let collar = pulled(flat - 0.16, p.z + 0.62, 0.16, 0.06);
            d = join(d, collar, 0.06);
            let back = pulled(rect(p.x, p.y, 0.95, 0.7, 0.5), p.z + 1.5, 0.9, 0.15);
            d = join(d, back, 0.15);
            for k in 0..4 {
                let z = p.z + 1.25 + k as f32 * 0.28;
                let groove = pulled((rect(p.x, p.y, 0.97, 0.72, 0.5)).abs() - 0.07, z, 0.06, 0.02);
                d = cut(d, groove, 0.05);
            }
            let key = rect(p.x - 0.3, p.y - 0.92, 0.16, 0.1, 0.03).max(p.z.abs() - 0.7);
            join(d, key, 0.04)
        },
        |s| stuff::plastic(s, v(0.018, 0.018, 0.019), 0.35),
    );
    let seal = Body::new(
        place,
        v(0.0, 0.0, -0.25),
        1.9,
        |p| {
            let flat = rect(p.x, p.y, 1.25, 0.92, 0.55);
            let z = p.z + 0.28;
            let wave = 0.035 * (z * 26.0).cos();
            pulled(flat - 0.05 - wave, z, 0.19, 0.04) * 0.8
        },
        |s| Skin { creep: 0.5, ..stuff::rubber(s, v(0.42, 0.11, 0.02)) },
    );
    let block = Body::new(
        place,
        v(0.0, 0.0, -0.35),
        1.5,
        |p| {
            let mut d = pulled(rect(p.x, p.y, 1.0, 0.68, 0.32), p.z + 0.35, 0.3, 0.04);
            for (x, y, r) in PINS {
                let q = v(p.x - x, p.y - y, p.z + 0.05);
                d = cut(d, disc(q, r + 0.06, 0.1, 0.02), 0.02);
            }
            let wall = rect(p.x + 0.32, p.y, 0.035, 0.6, 0.02).max((p.z + 0.1).abs() - 0.3);
            join(d, wall, 0.04)
        },
        |s| stuff::plastic(s, v(0.05, 0.052, 0.056), 0.25),
    );
    let mut bodies = vec![bench::mat(0.0, v(0.034, 0.050, 0.062)), shell, seal, block];
    for (x, y, r) in PINS {
        let tip = if r > 0.1 { 0.38 } else { 0.3 };
        bodies.push(Body::new(
            place,
            v(x, y, 0.1),
            0.65,
            move |p| {
                let q = v(p.x - x, p.y - y, p.z - tip + 0.4);
                let d = disc(q, r, 0.4, r * 0.6);
                d - 0.004 * bell(-0.1, 0.05, q.z)
            },
            move |s| pin(s, r > 0.1),
        ));
    }
    let from = place.world(v(0.0, 0.0, -2.2));
    let path = [from, place.world(v(0.0, 0.0, -3.4)), v(-0.6, 6.0, 0.4), v(-7.0, 7.5, 0.3)];
    bodies.extend(motor::cable(path, 0.36, v(0.016, 0.016, 0.017)));
    Scene {
        bodies,
        camera: Camera { eye: v(0.6, -6.4, 4.9), aim: v(-0.05, 0.3, 1.2), fov: 36.0, roll: -2.0 },
        light: Light::window(232.0, 52.0, 2.3),
        nook: 0.9,
    }
}

fn pin(spot: &Spot, power: bool) -> Skin {
    let tint: V3 = if power { v(0.78, 0.77, 0.73) } else { v(0.90, 0.66, 0.30) };
    Skin { rough: 0.13, ..stuff::polished(spot, 0.1) }.over(Skin::metal(spot, tint, 0.13), 1.0)
}

fn case_open() -> Scene {
    let mut bodies = vec![bench::mat(0.0, v(0.046, 0.050, 0.050))];
    bodies.extend(opened(|_, base| base, motor::fresh, 0.11));
    bodies.push(motor::dollop(Place::at(2.5, -1.0, 2.1), v(0.8, 0.4, 0.25), 21.0, motor::fresh));
    bodies.push(bench::rag(Place::at(10.5, 7.0, 0.0).spun(0.4), 3.5, v(0.30, 0.29, 0.26)));
    for k in 0..4 {
        let at = Place::at(8.6 + 0.9 * k as f32, -6.6 + grey(0.7).x * (k % 2) as f32, 0.25);
        bodies.push(bench::screw(at.spun(k as f32), 0.42));
    }
    Scene {
        bodies,
        camera: Camera { eye: v(-4.2, -12.6, 16.6), aim: v(0.3, -0.4, 1.1), fov: 39.0, roll: 1.4 },
        light: Light::window(48.0, 50.0, 2.2),
        nook: 2.0,
    }
}
