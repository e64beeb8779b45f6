//! The ray marcher: bodies, camera, shadows, occlusion, one reflection, adaptive smoothing.
//!
//! In: a `Scene`. Out: a linear `Film` with depth. The lens and the sensor are `lens`.

use super::light::Light;
use super::math::{Place, V3, grey, mix, mix3, v};
use super::noise::unit;
use super::skin::{Skin, Spot};
use std::sync::Mutex;

type Distance = Box<dyn Fn(V3) -> f32 + Send + Sync>;
type Look = Box<dyn Fn(&Spot) -> Skin + Send + Sync>;

/// One solid thing.
pub struct Body {
    place: Place,
    centre: V3,
    radius: f32,
    distance: Distance,
    look: Look,
    fine: bool,
}

impl Body {
    /// A body inside a ball of `radius` about the local point `centre`.
    pub fn new(
        place: Place,
        centre: V3,
        radius: f32,
        distance: impl Fn(V3) -> f32 + Send + Sync + 'static,
        look: impl Fn(&Spot) -> Skin + Send + Sync + 'static,
    ) -> Body {
        let centre = place.world(centre);
        let (distance, look) = (Box::new(distance), Box::new(look));
        Body { place, centre, radius, distance, look, fine: false }
    }

    /// Marks a field of tiny things: it throws hard shadows only and shuts out no soft light.
    pub fn fine(self) -> Body {
        Body { fine: true, ..self }
    }

    fn reach(&self, p: V3) -> f32 {
        (p - self.centre).len() - self.radius
    }

    fn exact(&self, p: V3) -> f32 {
        (self.distance)(self.place.local(p))
    }
}

/// Where the phone is held.
#[derive(Clone, Copy)]
pub struct Camera {
    /// Position of the lens.
    pub eye: V3,
    /// Point in the middle of the picture.
    pub aim: V3,
    /// Vertical field of view in degrees.
    pub fov: f32,
    /// Roll in degrees.
    pub roll: f32,
}

/// Everything in front of the lens.
pub struct Scene {
    /// The bodies; the first is usually the bench.
    pub bodies: Vec<Body>,
    /// The view.
    pub camera: Camera,
    /// The light.
    pub light: Light,
    /// Reach of the occlusion, in units.
    pub nook: f32,
}

/// A linear picture with distance to every pixel.
pub struct Film {
    /// Pixels a row.
    pub width: usize,
    /// Rows.
    pub height: usize,
    /// Linear colours, row by row.
    pub colour: Vec<V3>,
    /// Distance from the lens in units.
    pub depth: Vec<f32>,
}

const FAR: f32 = 90.0;

struct Candidates {
    index: [u16; 96],
    count: usize,
}

impl Scene {
    fn along(&self, o: V3, d: V3, slack: f32, far: f32) -> Candidates {
        let mut out = Candidates { index: [0; 96], count: 0 };
        for (i, body) in self.bodies.iter().enumerate() {
            let to = body.centre - o;
            let mid = to.dot(d);
            let r = body.radius + slack * mid.max(0.0);
            let miss = to.dot(to) - mid * mid;
            if miss < r * r && mid > -r && mid - r < far && out.count < 96 {
                out.index[out.count] = i as u16;
                out.count += 1;
            }
        }
        out
    }

    /// Distance to the nearest body; bodies farther than `slack` outside their ball are only
    /// bounded from below.
    fn nearest(&self, list: &Candidates, p: V3, slack: f32) -> (f32, usize) {
        let mut best = (FAR, 0);
        for &i in &list.index[..list.count] {
            let body = &self.bodies[i as usize];
            let reach = body.reach(p);
            if reach >= best.0 {
                continue;
            }
            let d = if reach > slack { reach } else { body.exact(p) };
            if d < best.0 {
                best = (d, i as usize);
            }
        }
        best
    }

    fn trace(&self, o: V3, d: V3, start: f32, steps: u32, far: f32) -> Option<(f32, usize)> {
        let list = self.along(o, d, 0.0, far);
        let mut t = start;
        for _ in 0..steps {
            let (h, id) = self.nearest(&list, o + d * t, 0.35);
            if h < 0.00035 * t + 0.0002 {
                return Some((t, id));
            }
            t += h * 0.93;
            if t > far {
                return None;
            }
        }
        let (h, id) = self.nearest(&list, o + d * t, 0.35);
        (h < 0.02).then_some((t, id))
    }

    fn normal(&self, id: usize, p: V3, e: f32) -> V3 {
        let body = &self.bodies[id];
        let corner = |x: f32, y: f32, z: f32| v(x, y, z) * body.exact(p + v(x, y, z) * e);
        (corner(1.0, -1.0, -1.0)
            + corner(-1.0, -1.0, 1.0)
            + corner(-1.0, 1.0, -1.0)
            + corner(1.0, 1.0, 1.0))
        .unit()
    }

    fn shadow(&self, p: V3, d: V3, hard: f32, steps: u32, far: f32) -> f32 {
        let list = self.along(p, d, 1.0 / hard, far);
        // A shaken start turns the marks of the steps into grain.
        let shake = unit(p.x.to_bits() as i32, p.y.to_bits() as i32, p.z.to_bits() as i32);
        let (mut open, mut t) = (1.0f32, 0.012 + 0.016 * shake);
        let pace = 0.7 + 0.3 * shake;
        for _ in 0..steps {
            let (h, id) = self.nearest(&list, p + d * t, 0.35f32.max(t / hard));
            if h < 0.0008 {
                return 0.0;
            }
            if !self.bodies[id].fine {
                open = open.min(0.04 + hard * h / t);
            }
            t += (h * pace).clamp(0.010 + 0.02 * t, 1.2);
            if t > far {
                break;
            }
        }
        let o = ((open - 0.04) / 0.96).clamp(0.0, 1.0);
        o * o * (3.0 - 2.0 * o)
    }

    fn openness(&self, p: V3, n: V3) -> f32 {
        let (mut shut, mut weight) = (0.0, 0.62);
        for i in 0..5 {
            let h = self.nook * [0.03, 0.09, 0.22, 0.5, 1.0][i];
            let q = p + n * h;
            let mut near = h;
            for body in &self.bodies {
                if !body.fine && body.reach(q) < near {
                    near = near.min(body.exact(q));
                }
            }
            shut += (1.0 - near.max(0.0) / h) * weight * 0.62;
            weight *= 0.82;
        }
        (1.0 - shut).clamp(0.0, 1.0)
    }

    fn skin(&self, id: usize, p: V3, e: f32) -> (Skin, V3, V3) {
        let body = &self.bodies[id];
        let smooth = self.normal(id, p, e);
        let spot = Spot { p: body.place.local(p), n: body.place.local_dir(smooth) };
        let skin = (body.look)(&spot);
        (skin, smooth, body.place.world_dir(skin.n))
    }

    fn glance(&self, o: V3, d: V3, rough: f32) -> V3 {
        match self.trace(o, d, 0.012, 36, 30.0) {
            None => self.light.seen(d, rough),
            Some((t, id)) => {
                let p = o + d * t;
                let (skin, _, n) = self.skin(id, p, 0.004);
                let lit = self.light.glow * (n.dot(self.light.key).max(0.0) * 0.55);
                let soft = self.light.wash(n) * 0.6 + lit;
                let mirror = self.light.seen(d.reflect(n), skin.rough.max(0.35)) * 0.6;
                let c = mix3(skin.tint * soft, skin.tint * mirror, skin.metal);
                mix3(c, self.light.seen(d, rough), rough * rough * 0.5)
            }
        }
    }

    fn mirror(&self, p: V3, d: V3, n: V3, rough: f32, brush: V3, far_ok: bool) -> V3 {
        let across = brush.len();
        let plain = if across > 0.01 {
            let mut sum = grey(0.0);
            for k in -3..=3 {
                let m = (n + brush * (k as f32 * 0.11)).unit();
                sum += self.light.seen(d.reflect(m), rough);
            }
            sum * (1.0 / 7.0)
        } else {
            self.light.seen(d.reflect(n), rough)
        };
        let r = d.reflect(n);
        if far_ok && rough < 0.38 {
            let hit = self.glance(p, r, rough);
            if across > 0.01 {
                let open = self.light.seen(r, rough).luma().max(0.01);
                return plain * mix(1.0, (hit.luma() / open).min(1.3), 0.75);
            }
            return hit;
        }
        plain
    }

    fn shade(&self, o: V3, d: V3) -> (V3, f32, u16) {
        let Some((t, id)) = self.trace(o, d, 0.5, 150, FAR) else {
            return (self.light.seen(d, 0.5) * 0.5, FAR, u16::MAX);
        };
        let p = o + d * t;
        let (skin, smooth, n) = self.skin(id, p, (0.00045 * t).max(0.0012));
        let lifted = p + smooth * (0.0006 * t + 0.002);
        let open = self.openness(lifted, smooth);
        let key = self.light.key;
        let mut facing = n.dot(key);
        if skin.creep > 0.0 {
            facing = mix(facing, (facing + 0.5) / 1.5, skin.creep);
        }
        let lit = if smooth.dot(key) > -0.3 && facing > 0.0 {
            mix(self.shadow(lifted, key, self.light.hard, 28, 14.0), 1.0, skin.creep * 0.2)
        } else {
            0.0
        };
        let above = v(key.x * -0.25, key.y * -0.25, 1.0).unit();
        let sky = mix(0.35, 1.0, self.shadow(lifted, above, 3.0, 10, 5.0));
        let soft = self.light.wash(n) * (open * sky);
        let direct = self.light.glow * (facing.max(0.0) * lit);
        let body = skin.tint * (soft + direct) * (1.0 - skin.metal);
        let nv = (-d.dot(n)).clamp(0.02, 1.0);
        let edge = (1.0 - nv).powi(5);
        let mut c = body;
        let glint_open = mix(open, 1.0, 0.25) * mix(1.0, sky, 0.5);
        if skin.metal > 0.01 {
            let f = mix3(skin.tint, grey(1.0), edge * (1.0 - skin.rough));
            let m = self.mirror(lifted, d, n, skin.rough, skin.brush, true);
            // A rough metal also scatters the key light like a matt one.
            let scatter = (soft + direct) * (0.38 * skin.rough);
            let dark = mix(glint_open, glint_open * (0.45 + 0.55 * lit), skin.rough);
            c += (f * m * (dark * (1.0 - 0.45 * skin.rough)) + skin.tint * scatter) * skin.metal;
        }
        let f0 = 0.04 + 0.96 * edge * (1.0 - skin.rough) * (1.0 - skin.rough);
        if skin.metal < 0.99 {
            let m = self.mirror(lifted, d, n, skin.rough, skin.brush, skin.rough < 0.25);
            let k = f0 * (1.0 - skin.metal) * (1.0 - skin.rough * 0.6);
            c += m * (k * glint_open * (0.35 + 0.65 * lit));
        }
        if skin.film > 0.01 {
            let m = mix3(n, smooth, 0.35).unit();
            let fv = (-d.dot(m)).clamp(0.02, 1.0);
            let f = (0.04 + 0.96 * (1.0 - fv).powi(5)) * skin.film;
            let march = skin.film_rough < 0.06 || f > 0.07;
            let shine = self.mirror(lifted, d, m, skin.film_rough, grey(0.0), march);
            c = c * (1.0 - f) + shine * (f * mix(glint_open, 1.0, 0.3));
        }
        (c, t, id as u16)
    }

    /// Renders with two threads; edges and glints get further samples.
    pub fn render(&self, width: usize, height: usize) -> Film {
        let view = View::new(&self.camera, width, height);
        let blank = (grey(0.0), FAR, 0u16);
        let mut first = vec![blank; width * height];
        in_bands(&mut first, width, |x, y, out| {
            *out = self.shade(self.camera.eye, view.ray(x as f32 + 0.5, y as f32 + 0.5));
        });
        let mut second: Vec<(V3, f32, u16)> = first.clone();
        in_bands(&mut second, width, |x, y, out| {
            if rough_spot(&first, width, height, x, y) {
                let mut sum = squash(first[y * width + x].0);
                for (jx, jy) in [(-0.33, -0.12), (0.12, 0.34), (0.28, -0.26)] {
                    let (fx, fy) = (x as f32 + 0.5 + jx, y as f32 + 0.5 + jy);
                    sum += squash(self.shade(self.camera.eye, view.ray(fx, fy)).0);
                }
                out.0 = unsquash(sum * 0.25);
            }
        });
        Film {
            width,
            height,
            colour: second.iter().map(|s| s.0).collect(),
            depth: second.iter().map(|s| s.1).collect(),
        }
    }
}

fn squash(c: V3) -> V3 {
    c * (1.0 / (1.0 + c.luma()))
}

fn unsquash(c: V3) -> V3 {
    c * (1.0 / (1.0 - c.luma()).max(0.02))
}

fn rough_spot(film: &[(V3, f32, u16)], w: usize, h: usize, x: usize, y: usize) -> bool {
    let here = film[y * w + x];
    let tone = squash(here.0).luma();
    let near = [(1, 0), (-1, 0), (0, 1), (0, -1)];
    near.iter().any(|&(dx, dy): &(isize, isize)| {
        let nx = (x as isize + dx).clamp(0, w as isize - 1) as usize;
        let ny = (y as isize + dy).clamp(0, h as isize - 1) as usize;
        let other = film[ny * w + nx];
        other.2 != here.2 || (squash(other.0).luma() - tone).abs() > 0.09
    })
}

fn in_bands<T: Send>(data: &mut [T], width: usize, work: impl Fn(usize, usize, &mut T) + Sync) {
    let bands = Mutex::new(data.chunks_mut(width * 8).enumerate());
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                loop {
                    let next = bands.lock().map_or(None, |mut b| b.next());
                    let Some((band, cells)) = next else { break };
                    for (i, cell) in cells.iter_mut().enumerate() {
                        work(i % width, band * 8 + i / width, cell);
                    }
                }
            });
        }
    });
}

struct View {
    ahead: V3,
    right: V3,
    down: V3,
    scale: f32,
    middle: (f32, f32),
}

impl View {
    fn new(camera: &Camera, width: usize, height: usize) -> View {
        let ahead = (camera.aim - camera.eye).unit();
        let level = ahead.cross(v(0.0, 0.0, 1.0)).unit();
        let under = ahead.cross(level);
        let (s, c) = camera.roll.to_radians().sin_cos();
        View {
            ahead,
            right: level * c + under * s,
            down: under * c - level * s,
            scale: 2.0 * (camera.fov.to_radians() * 0.5).tan() / height as f32,
            middle: (width as f32 * 0.5, height as f32 * 0.5),
        }
    }

    fn ray(&self, x: f32, y: f32) -> V3 {
        let (a, b) = ((x - self.middle.0) * self.scale, (y - self.middle.1) * self.scale);
        (self.ahead + self.right * a + self.down * b).unit()
    }
}
