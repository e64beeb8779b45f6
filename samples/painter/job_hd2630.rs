//! Job HD-2630: a unit that has only arrived, in its box, with a drop of water at its plug.
//!
//! In: nothing. Out: its photos and their scenes. Parts and stuffs are in their own modules.

use super::light::Light;
use super::math::{Place, v};
use super::photo::Photo;
use super::render::{Camera, Scene};
use super::{bench, casing, job_hd2625, motor};

const JOB: &str = "hd-2630";

/// The photos of this job.
pub fn photos() -> Vec<Photo> {
    vec![
        Photo::new(JOB, "box-open", "2026:08:10 10:12:05", box_open)
            .lens(31.0, 16.0, 0.18, 0.3)
            .summer(),
        Photo::new(JOB, "plug", "2026:08:10 10:21:44", plug).lens(8.0, 22.0, 0.17, -0.1).summer(),
    ]
}

fn box_open() -> Scene {
    let tint = v(0.040, 0.041, 0.045);
    let place = Place::at(0.4, -0.3, 0.35).spun(1.9);
    let mut bodies = vec![
        bench::cardboard(-0.3, 0.3),
        bench::box_wall(Place::at(0.0, 0.0, -0.1), v(12.6, 9.6, 0.1)),
        casing::closed(place, tint, |_| 9.0, |_, base| base),
        bench::box_wall(Place::at(0.0, 9.6, 2.9).spun(0.03), v(12.6, 0.2, 2.9)),
        bench::box_wall(Place::at(-12.5, 0.0, 2.8).spun(1.57), v(9.6, 0.2, 2.8)),
        bench::box_wall(Place::at(12.6, 0.0, 2.9).spun(1.56), v(9.6, 0.2, 2.9)),
    ];
    let at = [
        (-9.0, 5.2, 4.4, 3.0),
        (-8.4, -5.8, 4.2, 4.0),
        (8.8, 5.4, 4.3, 5.0),
        (9.4, -5.2, 4.0, 6.0),
    ];
    bodies.extend(
        at.map(|(x, y, size, seed)| bench::paper(Place::at(x, y, 0.4).spun(seed), size, seed)),
    );
    let path = [v(-6.8, 2.2, 2.6), v(-9.4, 4.4, 4.6), v(-10.4, -0.6, 3.0), v(-8.8, -3.0, 2.2)];
    bodies.extend(motor::cable(path, 0.3, v(0.015, 0.015, 0.016)));
    Scene {
        bodies,
        camera: Camera { eye: v(-2.5, -18.5, 25.5), aim: v(0.1, -0.3, 1.4), fov: 38.0, roll: -1.8 },
        light: Light::window(62.0, 58.0, 2.0),
        nook: 3.0,
    }
}

fn plug() -> Scene {
    let camera = Camera { eye: v(3.1, -6.2, 5.4), aim: v(0.1, 0.4, 1.1), fov: 37.0, roll: 2.4 };
    Scene { camera, light: Light::window(70.0, 48.0, 2.2), ..job_hd2625::plug_clean() }
}
