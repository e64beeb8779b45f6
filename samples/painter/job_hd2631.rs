//! Job HD-2631: a unit ridden on with a worn bearing, waiting for its owner's choice.
//!
//! In: nothing. Out: its photos and their scenes. Parts and stuffs are in their own modules.

use super::bearing::{self, CRANK, Wear};
use super::bench;
use super::casing::{self, SEAT_TOP};
use super::job_hd2611::opened;
use super::light::Light;
use super::math::{Place, v};
use super::motor;
use super::photo::Photo;
use super::render::{Camera, Scene};

const JOB: &str = "hd-2631";

/// The photos of this job.
pub fn photos() -> Vec<Photo> {
    vec![
        Photo::new(JOB, "bearing-worn", "2026:09:09 10:31:18", bearing_worn)
            .lens(7.9, 24.0, 0.18, 0.2)
            .summer(),
        Photo::new(JOB, "grease", "2026:09:09 10:14:50", grease)
            .lens(20.0, 16.0, 0.17, 0.2)
            .summer(),
    ]
}

fn bearing_worn() -> Scene {
    let place = Place::at(0.0, 0.0, SEAT_TOP - 0.33);
    let wear = Wear { dull: 0.9, pits: 0.35, rust: -1.2, worst: 2.2, dents: 0.5 };
    let mut bodies = vec![casing::seat(|_, base| base.wet(0.3, 0.2))];
    bodies.extend(bearing::rings(place, CRANK, wear));
    bodies.extend(bearing::balls(place, CRANK, wear, bearing::even(CRANK)));
    bodies.push(bearing::cage(place, CRANK, wear, vec![]));
    Scene {
        bodies,
        camera: Camera { eye: v(2.0, -5.2, 5.9), aim: v(0.0, 0.1, 0.7), fov: 29.0, roll: 1.8 },
        light: Light::window(300.0, 46.0, 2.3),
        nook: 1.2,
    }
}

fn grease() -> Scene {
    let mut bodies = vec![bench::mat(0.0, v(0.040, 0.052, 0.060))];
    bodies.extend(opened(|_, base| base, motor::tired, 0.16));
    bodies.extend(bench::driver(Place::at(5.0, 8.4, 0.62).spun(2.9), v(0.05, 0.12, 0.30)));
    Scene {
        bodies,
        camera: Camera { eye: v(-3.4, -14.2, 18.6), aim: v(0.6, -0.3, 1.0), fov: 37.0, roll: 2.2 },
        light: Light::window(92.0, 52.0, 2.1),
        nook: 2.0,
    }
}
