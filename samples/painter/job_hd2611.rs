//! Job HD-2611: fine noise heard early, one crank bearing worn, everything else sound.
//!
//! In: nothing. Out: its photos and their scenes. Parts and stuffs are in their own modules.

use super::bearing::{self, CRANK, FRESH, Wear};
use super::bench;
use super::casing::{self, SEAT_TOP};
use super::gear::{self, Wheel};
use super::light::Light;
use super::math::{Place, V3, bell, grey, v};
use super::motor;
use super::noise::fbm;
use super::photo::Photo;
use super::render::{Body, Camera, Scene};
use super::shape::torus;
use super::skin::{Skin, Spot};
use super::stuff;

const JOB: &str = "hd-2611";

/// The photos of this job.
pub fn photos() -> Vec<Photo> {
    vec![
        Photo::new(JOB, "unit-arrived", "2026:01:12 09:14:31", unit_arrived)
            .lens(31.0, 16.0, 0.17, 0.4)
            .traced(),
        Photo::new(JOB, "bearing-worn", "2026:01:13 11:02:48", bearing_worn)
            .lens(7.9, 24.0, 0.19, 0.2),
        Photo::new(JOB, "case-open", "2026:01:13 10:21:05", case_open).lens(25.0, 16.0, 0.18, 0.1),
        Photo::new(JOB, "bearing-new", "2026:01:15 14:37:20", bearing_new)
            .lens(7.9, 24.0, 0.19, 0.0),
    ]
}

fn unit_arrived() -> Scene {
    let tint = v(0.030, 0.031, 0.034);
    let place = Place::at(-0.3, 0.2, 0.35).spun(0.25);
    let mut bodies = vec![
        bench::mat(-0.3, v(0.034, 0.050, 0.058)),
        bench::box_wall(Place::at(0.0, 0.0, -0.1), v(13.3, 10.3, 0.1)),
        casing::closed(place, tint, |_| 9.0, |_, base| base),
        bench::box_wall(Place::at(0.0, 10.2, 2.4).spun(0.02), v(13.3, 0.2, 2.4)),
        bench::box_wall(Place::at(-13.2, 0.0, 2.4).spun(1.55), v(10.2, 0.2, 2.4)),
        bench::box_wall(Place::at(13.3, 0.0, 2.3).spun(1.58), v(10.2, 0.2, 2.4)),
        bench::paper(Place::at(-9.6, -5.4, 0.3), 3.9, 1.0),
        bench::paper(Place::at(8.6, 6.6, 0.6).spun(1.0), 4.2, 2.0),
        bench::paper(Place::at(9.8, -4.6, 0.3).spun(2.2), 3.6, 3.0),
    ];
    let path = [v(7.2, 3.4, 2.6), v(9.8, 6.2, 4.2), v(11.8, 2.2, 2.6), v(11.2, -0.6, 0.5)];
    bodies.extend(motor::cable(path, 0.3, v(0.015, 0.015, 0.016)));
    Scene {
        bodies,
        camera: Camera { eye: v(1.5, -19.5, 25.0), aim: v(0.2, -0.4, 1.5), fov: 38.0, roll: 1.6 },
        light: Light::window(115.0, 60.0, 2.0),
        nook: 3.0,
    }
}

fn seat_camera() -> Camera {
    Camera { eye: v(-1.3, -4.9, 6.4), aim: v(0.0, 0.05, 0.7), fov: 29.0, roll: 1.2 }
}

fn dark_seat() -> Body {
    casing::seat(|s: &Spot, base: Skin| {
        let oil = (fbm(s.p * 0.8, 3) + 0.2).clamp(0.0, 1.0) * 0.4;
        base.wet(oil, 0.18)
    })
}

/// Old grease between the rings of an open bearing.
fn smear(place: Place, look: fn(&Spot) -> Skin) -> Body {
    Body::new(
        place,
        grey(0.0),
        1.75,
        |p: V3| {
            let lump = fbm(p * 2.9 + grey(2.0), 2);
            let edge = bell(1.31, 0.34, p.flat());
            let band = torus(p - v(0.0, 0.0, 0.13 + 0.07 * lump), 1.31, 0.03);
            (band - (0.07 + 0.26 * lump).clamp(-0.2, 0.18) * edge) * 0.55
        },
        look,
    )
}

fn bearing_worn() -> Scene {
    let place = Place::at(0.0, 0.0, SEAT_TOP - 0.33);
    let wear = Wear { dull: 0.75, pits: -0.55, rust: -2.0, worst: 2.0, dents: 0.0 };
    let mut bodies = vec![dark_seat()];
    bodies.extend(bearing::rings(place, CRANK, wear));
    bodies.extend(bearing::balls(place, CRANK, wear, bearing::even(CRANK)));
    bodies.push(bearing::cage(place, CRANK, Wear { dull: 0.5, ..FRESH }, vec![]));
    bodies.push(smear(place, motor::tired));
    Scene { bodies, camera: seat_camera(), light: Light::window(40.0, 50.0, 2.2), nook: 1.2 }
}

fn bearing_new() -> Scene {
    let place = Place::at(0.0, 0.0, SEAT_TOP - 0.33);
    let mut bodies = vec![dark_seat()];
    bodies.extend(bearing::rings(place, CRANK, FRESH));
    bodies.push(bearing::seal(place, CRANK, v(0.020, 0.020, 0.022)));
    Scene { bodies, camera: seat_camera(), light: Light::window(43.0, 51.0, 2.2), nook: 1.2 }
}

/// The opened mid-drive with its wheels in place and fresh-looking grease.
pub fn opened(over: fn(&Spot, Skin) -> Skin, grease: fn(&Spot) -> Skin, much: f32) -> Vec<Body> {
    let home = Place::at(0.0, 0.0, 0.2);
    let mut out = vec![casing::half(home, over)];
    let crank =
        Wheel { teeth: 58, root: 2.72, tip: 3.0, half: 0.42, twist: 0.28, bore: 1.05, lost: None };
    let idler = Wheel { teeth: 62, root: 2.86, tip: 3.12, half: 0.34, twist: -0.3, ..crank };
    let idler = Wheel { bore: 0.5, ..idler };
    let pinion =
        Wheel { teeth: 13, root: 0.5, tip: 0.76, half: 0.5, twist: 1.1, bore: 0.2, ..crank };
    let at = Place::at(4.8, -0.6, 1.25);
    out.push(crank.body(at, move |s| over(s, gear::hardened(s, crank))));
    out.push(crank.coat(at, much, grease));
    let at = Place::at(0.12, 0.05, 2.25).spun(0.03);
    out.push(idler.body(at, move |s| over(s, gear::nylon(s, v(0.47, 0.44, 0.37)))));
    out.push(idler.coat(at, much, grease));
    let at = Place::at(-3.6, 0.3, 2.3);
    out.push(pinion.body(at, move |s| gear::hardened(s, pinion)));
    out.push(pinion.coat(at, much - 0.02, grease));
    out.push(cover_plate(over));
    for k in 0..6 {
        let a = k as f32 * 1.047 + 0.55;
        let at = Place::at(-3.6 + 4.0 * a.cos(), 0.3 + 4.0 * a.sin(), 1.82).spun(a * 3.0);
        out.push(bench::screw(at, 0.28));
    }
    let spindle = |s: &Spot| stuff::steel(s, 0.1);
    for (x, y, r, top) in [(4.8, -0.6, 1.0, 2.9), (0.12, 0.05, 0.48, 2.9), (-3.6, 0.3, 0.22, 3.0)] {
        out.push(Body::new(
            Place::at(x, y, 0.0),
            v(0.0, 0.0, top * 0.5),
            (r * r + top * top * 0.25).sqrt(),
            move |p| super::shape::disc(p - v(0.0, 0.0, top * 0.5), r, top * 0.5, 0.06),
            spindle,
        ));
    }
    out
}

fn cover_plate(over: fn(&Spot, Skin) -> Skin) -> Body {
    Body::new(
        Place::at(-3.6, 0.3, 0.9),
        grey(0.0),
        4.7,
        |p| {
            let plate = super::shape::disc(p, 4.45, 0.78, 0.08);
            let (q, _) = super::shape::fold(p.spin(0.3), 9);
            let rib = super::shape::block(q - v(2.6, 0.0, 0.8), v(1.5, 0.09, 0.12), 0.04);
            let hub = super::shape::ring(p - v(0.0, 0.0, 0.8), 0.75, 1.15, 0.2, 0.05);
            super::shape::join(super::shape::join(plate, rib, 0.1), hub, 0.1)
        },
        move |s| over(s, stuff::cast(s)),
    )
}

fn case_open() -> Scene {
    let mut bodies = vec![bench::mat(0.0, v(0.035, 0.06, 0.075))];
    bodies.extend(opened(|_, base| base, motor::fresh, 0.05));
    bodies.extend(bench::driver(Place::at(-4.0, -8.6, 0.62).spun(0.12), v(0.35, 0.03, 0.02)));
    Scene {
        bodies,
        camera: Camera { eye: v(2.2, -15.5, 19.5), aim: v(0.2, -0.5, 1.0), fov: 37.0, roll: -2.0 },
        light: Light::window(128.0, 50.0, 2.2),
        nook: 2.0,
    }
}
