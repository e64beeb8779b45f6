//! Job HD-2614: washed with a pressure washer, full overhaul.
//!
//! In: nothing. Out: its photos and their scenes. Parts and stuffs are in their own modules.

use super::bearing::{self, CRANK, FRESH, Size, Wear};
use super::casing::{self, SEAT_TOP};
use super::job_hd2611::opened;
use super::light::Light;
use super::math::{Place, V3, bell, grey, step, v};
use super::noise::fbm;
use super::photo::Photo;
use super::render::{Body, Camera, Scene};
use super::shape::{disc, ring};
use super::skin::{Skin, Spot};
use super::{bench, board, decay, motor, resin, stuff, water};

const JOB: &str = "hd-2614";

/// The photos of this job.
pub fn photos() -> Vec<Photo> {
    vec![
        Photo::new(JOB, "water-tray", "2026:03:02 16:05:12", water_tray)
            .lens(22.0, 12.0, 0.26, 0.2)
            .zone(None),
        Photo::new(JOB, "bearing-before", "2026:03:04 10:41:07", bearing_before)
            .lens(8.3, 24.0, 0.19, 0.3)
            .large()
            .turned()
            .traced(),
        Photo::new(JOB, "bearing-close", "2026:03:04 10:44:39", bearing_close)
            .lens(4.75, 26.0, 0.17, 0.3)
            .large(),
        Photo::new(JOB, "seal-path", "2026:03:04 10:52:18", seal_path).lens(9.0, 22.0, 0.19, 0.1),
        Photo::new(JOB, "grease-milky", "2026:03:04 11:08:44", grease_milky)
            .lens(11.4, 22.0, 0.18, 0.2),
        Photo::new(JOB, "board-dry", "2026:03:04 11:20:03", board_dry).lens(14.5, 18.0, 0.15, -0.3),
        Photo::new(JOB, "bearing-new", "2026:03:09 15:26:52", bearing_new)
            .lens(8.3, 24.0, 0.19, 0.1)
            .large(),
        Photo::new(JOB, "seal-new", "2026:03:09 15:41:30", seal_new).lens(9.0, 22.0, 0.19, -0.1),
    ]
}

fn seat_camera() -> Camera {
    Camera { eye: v(0.5, -5.4, 6.7), aim: v(0.05, 0.05, 0.75), fov: 28.0, roll: -1.4 }
}

fn stained(spot: &Spot, base: Skin) -> Skin {
    let p = spot.p;
    let near = step(4.6, 1.5, p.flat());
    let low = step(0.6, 0.0, p.z) * 0.2;
    let wet = decay::rust(base, spot, -0.62 + 0.62 * near + low);
    let silt = step(0.05, 0.5, fbm(p * 0.9 + grey(2.0), 4) + low + spot.n.z * 0.1) * 0.7;
    wet.over(decay::mud(spot, 0.5), silt * step(1.2, 0.2, p.z))
}

fn bearing_before() -> Scene {
    let place = Place::at(0.0, 0.0, SEAT_TOP - 0.33);
    let wear = Wear { dull: 0.8, pits: 0.25, rust: 0.12, worst: 1.4, dents: 0.0 };
    let mut bodies = vec![casing::seat(stained)];
    bodies.extend(bearing::rings(place, CRANK, wear));
    let at = vec![-2.75, -2.42, -2.02, -1.7, -1.05, -0.7, -0.28, 0.1, 2.62];
    bodies.extend(bearing::balls(place, CRANK, Wear { rust: -0.1, ..wear }, at));
    bodies.push(bearing::cage(place, CRANK, wear, vec![(-2.9, -1.6), (0.0, 0.5)]));
    let loose = Place::at(0.9, 0.1, 0.08).spun(2.2).tilted(0.35);
    bodies.push(bearing::cage(loose, CRANK, wear, vec![(1.3, 2.1)]));
    Scene { bodies, camera: seat_camera(), light: Light::window(135.0, 48.0, 2.3), nook: 1.2 }
}

fn bearing_new() -> Scene {
    let place = Place::at(0.0, 0.0, SEAT_TOP - 0.33);
    let mut bodies = vec![casing::seat(|_, base| base)];
    bodies.extend(bearing::rings(place, CRANK, FRESH));
    bodies.push(bearing::seal(place, CRANK, v(0.022, 0.022, 0.024)));
    Scene { bodies, camera: seat_camera(), light: Light::window(132.0, 50.0, 2.3), nook: 1.2 }
}

fn water_tray() -> Scene {
    let mut bodies = vec![bench::mat(-0.2, v(0.030, 0.036, 0.034))];
    bodies.extend(water::tray(Place::at(0.0, 0.0, 0.0).spun(0.12)));
    bodies.push(bench::rag(Place::at(12.5, -5.0, 0.0).spun(0.5), 3.4, v(0.10, 0.16, 0.30)));
    Scene {
        bodies,
        camera: Camera { eye: v(1.0, -15.0, 17.5), aim: v(0.1, -0.3, 0.2), fov: 40.0, roll: 1.5 },
        light: Light::window(160.0, 50.0, 2.0),
        nook: 2.0,
    }
}

/// The outer ring alone on a cloth, seen close on its track.
fn bearing_close() -> Scene {
    let size = Size { ball: 0.26, ..CRANK };
    let place = Place::at(0.0, 0.0, 0.62).spun(0.4);
    let wear = Wear { dull: 0.75, pits: 0.22, rust: -0.30, worst: 2.6, dents: 0.0 };
    let mut bodies = vec![bench::cloth(0.0, v(0.10, 0.15, 0.26), 0.4)];
    bodies.extend(bearing::rings(place, size, wear).into_iter().take(1));
    let ball = Wear { rust: -0.25, ..wear };
    bodies.extend(bearing::balls(place, size, ball, vec![-0.2, 0.2]));
    let piece = Place::at(-0.25, -1.25, 0.10).spun(-0.2).tilted(0.12);
    bodies.push(bearing::cage(piece, size, Wear { rust: 0.05, ..wear }, vec![(1.2, 1.9)]));
    Scene {
        bodies,
        camera: Camera { eye: v(0.25, -3.1, 2.75), aim: v(0.1, 0.85, 0.6), fov: 29.0, roll: 2.0 },
        light: Light::window(250.0, 52.0, 2.4),
        nook: 0.8,
    }
}

fn shaft(look: impl Fn(&Spot) -> Skin + Send + Sync + 'static) -> Body {
    Body::new(
        Place::at(0.0, 0.0, 0.9),
        grey(0.0),
        2.6,
        |p| {
            let d = disc(p, 0.98, 1.05, 0.08);
            let neck = ring(p - v(0.0, 0.0, 0.62), 0.93, 1.2, 0.07, 0.02);
            super::shape::cut(d, neck, 0.02)
        },
        look,
    )
}

fn lip_seal(tint: V3, dirt: f32) -> Body {
    Body::new(
        Place::at(0.0, 0.0, SEAT_TOP + 0.02),
        grey(0.0),
        1.75,
        |p| {
            let r = p.flat();
            let body = ring(p, 1.12, 1.61, 0.14, 0.04);
            let valley = ring(p - v(0.0, 0.0, 0.16), 1.17, 1.43, 0.11, 0.06);
            let lip = ring(p - v(0.0, 0.0, 0.05 + (r - 1.0) * 0.5), 0.985, 1.14, 0.04, 0.03);
            super::shape::join(super::shape::cut(body, valley, 0.05), lip, 0.05) * 0.85
        },
        move |s| decay::rust(stuff::rubber(s, tint), s, dirt),
    )
}

/// Rust runs from the seal across the boss and down into the casing.
fn seal_path() -> Scene {
    const TOWARDS: f32 = -1.72;
    let trail = |p: V3| {
        let mut off = (p.angle() - TOWARDS).rem_euclid(std::f32::consts::TAU);
        if off > std::f32::consts::PI {
            off -= std::f32::consts::TAU;
        }
        let wide = 0.20 + 0.05 * p.flat() + 0.12 * fbm(p * 1.1, 3);
        bell(0.0, wide * 3.0, off) * step(6.0, 3.0, p.flat())
    };
    let seat = casing::seat(move |s, base| {
        let t = trail(s.p);
        let low = step(0.7, 0.0, s.p.z) * 0.25 * t;
        let wet = base.wet(0.6 * step(0.2, 0.6, t), 0.12);
        let first = bell(1.8, 0.9, s.p.flat()) * t * 0.3;
        decay::rust(wet, s, -0.95 + 1.05 * t + low + first)
    });
    let spindle = shaft(move |s| {
        let t = trail(s.p);
        let ring = bell(0.25, 0.35, s.p.z);
        decay::rust(stuff::steel(s, 0.25), s, -1.0 + 0.75 * t * ring + 0.45 * ring)
    });
    Scene {
        bodies: vec![seat, spindle, lip_seal(v(0.03, 0.028, 0.027), -0.45)],
        camera: Camera { eye: v(2.3, -5.6, 6.6), aim: v(0.35, -0.55, 0.7), fov: 35.0, roll: 1.8 },
        light: Light::window(120.0, 46.0, 2.3),
        nook: 1.4,
    }
}

fn seal_new() -> Scene {
    let place = Place::at(0.0, 0.0, SEAT_TOP - 0.44);
    let mut bodies = vec![
        casing::seat(|_, base| base),
        shaft(|s| stuff::steel(s, 0.05)),
        lip_seal(v(0.026, 0.048, 0.095), -2.0),
    ];
    bodies.extend(bearing::rings(place, CRANK, FRESH));
    let bead = Body::new(
        Place::at(0.0, 0.0, SEAT_TOP + 0.16),
        grey(0.0),
        1.4,
        |p| {
            let thick = 0.055 + 0.05 * fbm(p * 2.0, 2);
            super::shape::torus(p, 1.02, thick.max(0.02)) * 0.7
        },
        motor::fresh,
    );
    bodies.push(bead);
    Scene {
        bodies,
        camera: Camera { eye: v(1.6, -5.7, 6.4), aim: v(0.1, -0.1, 0.9), fov: 33.0, roll: -1.0 },
        light: Light::window(130.0, 48.0, 2.3),
        nook: 1.3,
    }
}

fn grease_milky() -> Scene {
    let damp = |s: &Spot, base: Skin| {
        let m = step(0.0, 0.5, fbm(s.p * 0.6 + grey(3.0), 4));
        base.over(decay::milky(s), m * step(2.0, 0.9, s.p.z) * 0.85).wet(0.7, 0.1)
    };
    let mut bodies = vec![bench::mat(0.0, v(0.035, 0.06, 0.075))];
    bodies.extend(opened(damp, decay::milky, 0.13));
    for (x, y, z, half, seed) in [
        (2.45, -1.15, 2.1, v(0.95, 0.55, 0.35), 1.0),
        (2.7, 1.1, 1.85, v(0.8, 0.6, 0.30), 2.0),
        (5.9, 1.0, 1.72, v(0.8, 0.5, 0.22), 3.0),
        (-0.9, -1.5, 2.6, v(0.85, 0.5, 0.2), 4.0),
    ] {
        bodies.push(motor::dollop(Place::at(x, y, z), half, seed, decay::milky));
    }
    Scene {
        bodies,
        camera: Camera { eye: v(3.7, -6.4, 11.2), aim: v(2.2, 0.25, 1.8), fov: 33.0, roll: 2.2 },
        light: Light::window(140.0, 48.0, 2.1),
        nook: 1.5,
    }
}

fn board_dry() -> Scene {
    let home = Place::at(0.0, 0.0, 0.5).spun(-0.12);
    let mut bodies = vec![bench::mat(0.0, v(0.030, 0.042, 0.062))];
    bodies.push(resin::tray(home));
    bodies.extend(board::controller(home, false));
    bodies.push(resin::potting(home));
    bodies.extend(resin::wires(home));
    Scene {
        bodies,
        camera: Camera { eye: v(1.2, -9.6, 11.0), aim: v(0.1, -0.1, 0.5), fov: 35.0, roll: -1.5 },
        light: Light::window(60.0, 55.0, 2.0),
        nook: 1.2,
    }
}
