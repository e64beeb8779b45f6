//! Job HD-2642, in French: a worn bearing whose owner has not chosen yet.
//!
//! In: nothing. Out: its photos and their scenes. Parts and stuffs are in their own modules.

use super::bearing::{self, CRANK, Wear};
use super::bench;
use super::light::Light;
use super::math::{Place, v};
use super::photo::Photo;
use super::render::{Camera, Scene};

const JOB: &str = "hd-2642";

/// The photos of this job.
pub fn photos() -> Vec<Photo> {
    vec![
        Photo::new(JOB, "roulement", "2026:10:13 11:05:48", bearing_worn)
            .lens(6.8, 24.0, 0.19, 0.2)
            .summer(),
    ]
}

/// The bearing without its seal on a cloth, its track full of dents.
fn bearing_worn() -> Scene {
    let place = Place::at(0.0, 0.0, 0.55).spun(0.9);
    let wear = Wear { dull: 0.7, pits: 0.2, rust: -1.4, worst: 2.9, dents: 0.8 };
    let mut bodies = vec![bench::cloth(0.0, v(0.20, 0.10, 0.06), 0.3)];
    bodies.extend(bearing::rings(place, CRANK, wear));
    bodies.extend(bearing::balls(place, CRANK, wear, vec![-2.6, -2.1, -0.9, 0.2, 0.6, 1.9]));
    Scene {
        bodies,
        camera: Camera { eye: v(1.2, -4.6, 4.9), aim: v(0.05, 0.1, 0.5), fov: 33.0, roll: -2.4 },
        light: Light::window(70.0, 49.0, 2.3),
        nook: 1.0,
    }
}
