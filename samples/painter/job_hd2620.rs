//! Job HD-2620: a burnt power transistor, ending in an exchange unit.
//!
//! In: nothing. Out: its photos and their scenes. Parts and stuffs are in their own modules.

use super::board::{self, BURNT};
use super::casing;
use super::light::Light;
use super::math::{Place, v};
use super::photo::Photo;
use super::render::{Body, Camera, Scene};
use super::{bench, motor, resin};

const JOB: &str = "hd-2620";

/// The photos of this job.
pub fn photos() -> Vec<Photo> {
    let exchange = Photo::new(JOB, "unit-exchange", "2026:05:19 16:12:09", unit_exchange)
        .lens(29.0, 14.0, 0.165, 0.1)
        .summer()
        .png((1600, 1200));
    vec![
        Photo::new(JOB, "board-burnt", "2026:05:12 09:48:57", board_burnt)
            .lens(14.2, 18.0, 0.15, -0.2)
            .summer(),
        Photo::new(JOB, "board-close", "2026:05:12 09:52:14", board_close)
            .lens(5.6, 26.0, 0.15, -0.1)
            .summer()
            .large(),
        Photo::new(JOB, "winding-bright", "2026:05:12 10:15:36", winding)
            .lens(13.0, 20.0, 0.19, 0.2)
            .summer(),
        Photo { on_request: true, ..exchange },
    ]
}

fn bench_board() -> Vec<Body> {
    let home = Place::at(0.0, 0.0, 0.35).spun(0.16);
    let mut bodies = vec![bench::mat(0.0, v(0.030, 0.050, 0.075))];
    bodies.extend(board::controller(home, true));
    bodies.extend(resin::wires(home));
    bodies
}

fn board_burnt() -> Scene {
    Scene {
        bodies: bench_board(),
        camera: Camera { eye: v(0.6, -9.2, 10.8), aim: v(0.2, -0.3, 0.3), fov: 36.0, roll: 1.8 },
        light: Light::window(70.0, 52.0, 2.0),
        nook: 1.0,
    }
}

fn board_close() -> Scene {
    let at = Place::at(0.0, 0.0, 0.35).spun(0.16).world(v(BURNT.0, BURNT.1, 0.3));
    Scene {
        bodies: bench_board(),
        camera: Camera {
            eye: at + v(0.5, -3.6, 4.1),
            aim: at + v(0.05, 0.05, 0.0),
            fov: 36.0,
            roll: -1.5,
        },
        light: Light::window(75.0, 48.0, 2.2),
        nook: 0.7,
    }
}

fn winding() -> Scene {
    let mut bodies = vec![bench::cloth(0.0, v(0.30, 0.29, 0.27), 0.5)];
    bodies.extend(motor::stator(Place::at(0.0, 0.0, 1.55).spun(0.1).tilted(-0.04)));
    for (i, tint) in
        [v(0.30, 0.035, 0.02), v(0.36, 0.27, 0.03), v(0.02, 0.05, 0.20)].into_iter().enumerate()
    {
        let x = 2.2 + 0.5 * i as f32;
        let path = [
            v(x, -2.9 + 0.3 * i as f32, 2.9),
            v(x + 0.8, -4.4, 3.6),
            v(x + 2.0, -6.0, 1.4),
            v(x + 2.6, -8.4, 0.6),
        ];
        bodies.extend(motor::cable(path, 0.19, tint));
    }
    Scene {
        bodies,
        camera: Camera { eye: v(-0.9, -8.4, 11.0), aim: v(0.1, -0.1, 1.9), fov: 36.0, roll: 1.5 },
        light: Light::window(130.0, 50.0, 2.2),
        nook: 1.2,
    }
}

fn unit_exchange() -> Scene {
    let place = Place::at(0.0, 0.3, 0.0).spun(-0.2);
    let mut bodies = vec![
        bench::mat(0.0, v(0.036, 0.052, 0.050)),
        casing::closed(place, v(0.040, 0.042, 0.046), |_| 9.0, |_, base| base),
        bench::rag(Place::at(-13.5, -4.2, 0.0).spun(0.6), 3.6, v(0.32, 0.05, 0.04)),
    ];
    let path = [v(8.0, 1.9, 2.4), v(11.5, 2.6, 3.4), v(12.5, -2.5, 0.4), v(10.0, -6.6, 0.35)];
    bodies.extend(motor::cable(path, 0.3, v(0.015, 0.015, 0.016)));
    bodies.extend(bench::driver(Place::at(5.2, -8.2, 0.62).spun(2.9), v(0.04, 0.10, 0.30)));
    Scene {
        bodies,
        camera: Camera { eye: v(-2.0, -18.5, 22.0), aim: v(0.2, -0.6, 1.6), fov: 38.0, roll: -1.4 },
        light: Light::window(55.0, 48.0, 2.1),
        nook: 2.6,
    }
}
