//! Job HD-2623: beyond economic repair, returned as it is.
//!
//! In: nothing. Out: its photos and their scenes. Parts and stuffs are in their own modules.

use super::bearing::{self, CRANK, Wear};
use super::job_hd2611::opened;
use super::light::Light;
use super::math::{Place, V3, bell, grey, step, v};
use super::noise::{fbm, noise};
use super::photo::Photo;
use super::render::{Camera, Scene};
use super::skin::{Skin, Spot, relief};
use super::{bench, casing, decay, motor, stuff};

const JOB: &str = "hd-2623";

/// The photos of this job.
pub fn photos() -> Vec<Photo> {
    vec![
        Photo::new(JOB, "case-crack", "2026:06:03 10:05:41", case_crack)
            .lens(11.6, 20.0, 0.16, 0.1)
            .summer(),
        Photo::new(JOB, "rotor-rust", "2026:06:03 10:58:22", rotor_rust)
            .lens(13.0, 18.0, 0.18, 0.3)
            .summer(),
        Photo::new(JOB, "bearing-rust", "2026:06:03 11:10:09", bearing_rust)
            .lens(7.6, 22.0, 0.19, 0.3)
            .zone(None),
        Photo::new(JOB, "inside-mud", "2026:06:03 10:31:55", inside_mud)
            .lens(20.0, 16.0, 0.18, 0.3)
            .summer(),
    ]
}

/// The crack's run across the motor bulge: offset from it and how far along, in units.
fn crack(p: V3) -> (f32, f32) {
    let q = v(p.x + 0.75, p.y + 3.95, 0.0).spin(-2.15);
    let bend = 0.35 * noise(v(q.x * 0.7, 4.0, 0.0))
        + 0.10 * noise(v(q.x * 3.1, 1.0, 0.0))
        + 0.035 * noise(v(q.x * 11.0, 2.0, 0.0));
    (q.y - bend, q.x)
}

fn dent(p: V3) -> f32 {
    (p - v(-0.75, -4.35, 3.7)).len() - 0.85 - 0.25 * fbm(p * 1.4, 3)
}

fn case_crack() -> Scene {
    let lost = |p: V3| {
        let (off, along) = crack(p);
        let open = 0.055 * step(3.6, 0.2, along) * step(-0.9, -0.4, along);
        let side = (off + 0.5 * along - 1.15 - 0.12 * noise(v(along * 4.0, 0.0, 1.0))).abs();
        let branch = (side - 0.022).max((along - 1.25).abs() - 0.75);
        (off.abs() - open).max(along - 3.7).max(-0.9 - along).min(branch).min(dent(p))
    };
    let over = |s: &Spot, base: Skin| {
        let (off, along) = crack(s.p);
        let ragged = 0.06 * noise(s.p * 9.0) + 0.05 * noise(s.p * 3.0);
        let near =
            step(0.16, 0.07, off.abs() + ragged) * step(3.9, 2.6, along) * step(-1.2, -0.4, along);
        let hit = step(0.16, 0.02, dent(s.p) + ragged);
        let n = relief(s, 0.008, |q| fbm(q * 8.0, 4) * 0.045);
        let raw = Skin::metal(s, v(0.60, 0.60, 0.59), 0.36).with_normal(n);
        let mud = step(0.08, 0.5, fbm(s.p * 0.8 + grey(1.0), 5) + 0.18 * step(3.5, 1.0, s.p.z));
        let away = v(s.p.x + 0.75, s.p.y + 4.2, 0.0).flat();
        let gouge = bell(
            0.0,
            0.022,
            (s.p.x * 0.9 + s.p.y * 0.35 + 0.1 * noise(s.p * 2.0)).rem_euclid(0.37) - 0.18,
        ) * step(2.6, 0.9, away)
            * step(0.1, 0.4, noise(s.p * 1.7 + grey(2.0)) + 0.3);
        base.over(decay::mud(s, 0.1), mud * 0.7).over(raw, near.max(hit).max(gouge * 0.6))
    };
    let place = Place::at(0.0, 0.0, 0.0).spun(0.1);
    Scene {
        bodies: vec![
            bench::mat(0.0, v(0.034, 0.040, 0.044)),
            casing::closed(place, v(0.032, 0.033, 0.036), lost, over),
        ],
        camera: Camera { eye: v(-1.2, -13.6, 11.4), aim: v(-1.2, -3.2, 3.6), fov: 31.0, roll: 2.0 },
        light: Light::window(215.0, 48.0, 2.4),
        nook: 1.6,
    }
}

fn rotor_rust() -> Scene {
    let place = Place::at(0.1, 0.2, 2.25).spun(0.42).tilted(1.5);
    let mut bodies = vec![bench::cloth(-0.1, v(0.11, 0.15, 0.24), 0.3)];
    bodies.extend(motor::rotor(place, 0.02));
    bodies.push(flakes(v(0.5, -2.9, 0.12), 2.6));
    Scene {
        bodies,
        camera: Camera { eye: v(0.8, -9.6, 9.4), aim: v(0.1, -0.2, 1.7), fov: 36.0, roll: -1.6 },
        light: Light::window(140.0, 46.0, 2.3),
        nook: 1.4,
    }
}

/// Rust flakes that fell off, about `at`.
fn flakes(at: V3, spread: f32) -> super::render::Body {
    super::render::Body::new(
        Place::at(at.x, at.y, at.z),
        grey(0.0),
        spread + 0.3,
        move |p| {
            if p.z > 0.7 {
                return p.z - 0.5;
            }
            let (cx, cy) = ((p.x / 0.3).round(), (p.y / 0.3).round());
            let pick = |k: i32| super::noise::unit(cx as i32, cy as i32, k);
            let home = v(cx * 0.3, cy * 0.3, 0.0);
            let edge = (0.2 - (p.x - home.x).abs().max((p.y - home.y).abs())).max(0.05);
            if pick(1) > 0.5 * step(spread, spread * 0.2, home.flat()) {
                return edge;
            }
            let size = 0.02 + 0.08 * pick(2) * pick(3);
            let rise = v(0.0, 0.0, 0.12 * (pick(4) - 0.5));
            let q = (p - home - rise).spin(pick(5) * 6.0);
            let d = v(q.x, q.y * 1.5, q.z * 2.6).len() - size * (1.0 + 0.6 * noise(q * 30.0));
            (d * 0.35).min(edge)
        },
        |s| decay::rust(Skin::matt(s, v(0.12, 0.05, 0.02), 0.9), s, 0.6),
    )
    .fine()
}

fn bearing_rust() -> Scene {
    let place = Place::at(0.0, 0.0, 0.42).spun(0.3).tilted(0.06);
    let wear = Wear { dull: 0.9, pits: 0.3, rust: 0.30, worst: -0.6, dents: 0.0 };
    let mut bodies = vec![bench::cardboard(0.0, 0.7)];
    bodies.extend(bearing::rings(place, CRANK, wear));
    bodies.extend(bearing::balls(place, CRANK, Wear { rust: 0.05, ..wear }, bearing::even(CRANK)));
    bodies.push(bearing::cage(place, CRANK, wear, vec![]));
    bodies.push(flakes(v(0.6, -1.2, 0.0), 1.9));
    Scene {
        bodies,
        camera: Camera { eye: v(0.7, -4.7, 5.6), aim: v(0.1, -0.1, 0.3), fov: 34.0, roll: 2.0 },
        light: Light::window(130.0, 44.0, 2.3),
        nook: 1.0,
    }
}

fn inside_mud() -> Scene {
    let over = |s: &Spot, base: Skin| {
        let floor = step(2.2, 0.4, s.p.z);
        let m =
            step(-0.15, 0.35, fbm(s.p * 0.55 + grey(6.0), 5) + 0.45 * floor * s.n.z.max(0.1) - 0.1);
        let tide = bell(1.5, 0.25, s.p.z + 0.2 * noise(s.p * 0.8)) * 0.4;
        decay::rust(base, s, -0.75)
            .over(decay::mud(s, 0.25 + 0.4 * floor), (m + tide).min(1.0) * 0.95)
    };
    let sludge = |s: &Spot| decay::mud(s, 0.6);
    let mut bodies = vec![bench::mat(0.0, v(0.036, 0.042, 0.046))];
    bodies.extend(opened(over, sludge, 0.02));
    for (x, y, z, half, seed) in [
        (-5.9, -2.2, 1.75, v(1.7, 1.2, 0.4), 11.0),
        (6.2, -2.3, 1.6, v(1.3, 0.8, 0.4), 12.0),
        (3.1, 2.9, 0.5, v(1.8, 1.1, 0.55), 13.0),
    ] {
        bodies.push(motor::dollop(Place::at(x, y, z), half, seed, wet_mud));
    }
    Scene {
        bodies,
        camera: Camera { eye: v(1.0, -12.0, 16.0), aim: v(0.0, -0.3, 1.2), fov: 40.0, roll: 2.2 },
        light: Light::window(140.0, 46.0, 2.2),
        nook: 2.0,
    }
}

fn wet_mud(spot: &Spot) -> Skin {
    let base = decay::mud(spot, 0.7);
    base.over(stuff::plastic(spot, v(0.05, 0.035, 0.02), 0.9), step(0.4, 0.6, fbm(spot.p * 1.2, 4)))
}
