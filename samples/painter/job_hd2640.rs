//! Job HD-2640, in German: water past a seal, found early.
//!
//! In: nothing. Out: its photos and their scenes. Parts and stuffs are in their own modules.

use super::bearing::{self, CRANK, FRESH, Wear};
use super::casing::{self, SEAT_TOP};
use super::decay;
use super::light::Light;
use super::math::{Place, step, v};
use super::photo::Photo;
use super::render::{Camera, Scene};

const JOB: &str = "hd-2640";

/// The photos of this job.
pub fn photos() -> Vec<Photo> {
    vec![
        Photo::new(JOB, "lager-vorher", "2026:10:06 09:41:22", bearing_before)
            .lens(7.4, 23.0, 0.2, 0.2)
            .summer(),
        Photo::new(JOB, "dichtung", "2026:10:06 09:52:10", seal_path)
            .lens(9.6, 20.0, 0.2, 0.1)
            .summer(),
        Photo::new(JOB, "lager-neu", "2026:10:09 14:12:05", bearing_new)
            .lens(7.4, 23.0, 0.2, 0.1)
            .summer(),
    ]
}

fn camera() -> Camera {
    Camera { eye: v(-2.6, -5.6, 5.2), aim: v(-0.1, 0.1, 0.75), fov: 30.0, roll: 2.1 }
}

fn bearing_before() -> Scene {
    let place = Place::at(0.0, 0.0, SEAT_TOP - 0.33);
    let wear = Wear { dull: 0.5, pits: 0.1, rust: -0.35, worst: 0.9, dents: 0.0 };
    let mut bodies = vec![casing::seat(|spot, base| {
        let near = step(3.4, 1.7, spot.p.flat());
        decay::rust(base, spot, -0.95 + 0.45 * near)
    })];
    bodies.extend(bearing::rings(place, CRANK, wear));
    bodies.extend(bearing::balls(place, CRANK, wear, bearing::even(CRANK)));
    bodies.push(bearing::cage(place, CRANK, wear, vec![]));
    Scene { bodies, camera: camera(), light: Light::window(205.0, 44.0, 2.2), nook: 1.2 }
}

/// The seat after the bearing is out: rust runs inward from where the seal sat.
fn seal_path() -> Scene {
    let bodies = vec![casing::seat(|spot, base| {
        let p = spot.p;
        let trail = step(0.55, 0.1, (p.x + 0.5 - p.y * 0.15).abs()) * step(3.9, 1.2, p.flat());
        decay::rust(base, spot, -1.1 + 1.25 * trail)
    })];
    let camera = Camera { eye: v(1.8, -5.0, 7.4), aim: v(0.0, 0.0, 0.6), fov: 31.0, roll: -1.7 };
    Scene { bodies, camera, light: Light::window(300.0, 47.0, 2.2), nook: 1.2 }
}

fn bearing_new() -> Scene {
    let place = Place::at(0.0, 0.0, SEAT_TOP - 0.33);
    let mut bodies = vec![casing::seat(|_, base| base)];
    bodies.extend(bearing::rings(place, CRANK, FRESH));
    bodies.push(bearing::seal(place, CRANK, v(0.024, 0.030, 0.046)));
    Scene { bodies, camera: camera(), light: Light::window(208.0, 46.0, 2.2), nook: 1.2 }
}
