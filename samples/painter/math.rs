//! Three-dimensional vectors and the few scalar helpers that the renderer needs.
//!
//! In: numbers. Out: numbers. One length unit is ten millimetres everywhere in the painter.
//! No noise (`noise`) and no shapes (`shape`) here.

use std::ops::{Add, AddAssign, Mul, Neg, Sub};

/// A point, a direction or a linear RGB colour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct V3 {
    /// Right, or red.
    pub x: f32,
    /// Away, or green.
    pub y: f32,
    /// Up, or blue.
    pub z: f32,
}

/// Short constructor.
pub const fn v(x: f32, y: f32, z: f32) -> V3 {
    V3 { x, y, z }
}

/// The same number three times.
pub const fn grey(a: f32) -> V3 {
    v(a, a, a)
}

impl Add for V3 {
    type Output = V3;
    fn add(self, o: V3) -> V3 {
        v(self.x + o.x, self.y + o.y, self.z + o.z)
    }
}

impl AddAssign for V3 {
    fn add_assign(&mut self, o: V3) {
        *self = *self + o;
    }
}

impl Sub for V3 {
    type Output = V3;
    fn sub(self, o: V3) -> V3 {
        v(self.x - o.x, self.y - o.y, self.z - o.z)
    }
}

impl Neg for V3 {
    type Output = V3;
    fn neg(self) -> V3 {
        v(-self.x, -self.y, -self.z)
    }
}

impl Mul<f32> for V3 {
    type Output = V3;
    fn mul(self, k: f32) -> V3 {
        v(self.x * k, self.y * k, self.z * k)
    }
}

impl Mul for V3 {
    type Output = V3;
    fn mul(self, o: V3) -> V3 {
        v(self.x * o.x, self.y * o.y, self.z * o.z)
    }
}

impl V3 {
    /// Scalar product.
    pub fn dot(self, o: V3) -> f32 {
        self.x * o.x + self.y * o.y + self.z * o.z
    }

    /// Vector product.
    pub fn cross(self, o: V3) -> V3 {
        v(self.y * o.z - self.z * o.y, self.z * o.x - self.x * o.z, self.x * o.y - self.y * o.x)
    }

    /// Length.
    pub fn len(self) -> f32 {
        self.dot(self).sqrt()
    }

    /// Unit vector; a zero vector stays near zero.
    pub fn unit(self) -> V3 {
        self * (1.0 / self.len().max(1e-9))
    }

    /// Distance from the z axis.
    pub fn flat(self) -> f32 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// Direction away from the z axis.
    pub fn radial(self) -> V3 {
        v(self.x, self.y, 0.0).unit()
    }

    /// Angle about the z axis in radians.
    pub fn angle(self) -> f32 {
        let (a, b) = (self.x.abs(), self.y.abs());
        let t = a.min(b) / a.max(b).max(1e-9);
        let q = t * t;
        // A polynomial within 0.00001, a good deal quicker than the library's.
        let even = 0.193_543_46 - q * (0.116_432_87 - q * (0.052_653_32 - q * 0.011_721_2));
        let first = t * (0.999_977_26 - q * (0.332_623_47 - q * even));
        let half = if b > a { std::f32::consts::FRAC_PI_2 - first } else { first };
        let full = if self.x < 0.0 { std::f32::consts::PI - half } else { half };
        if self.y < 0.0 { -full } else { full }
    }

    /// Mirror of a travelling direction on a surface with normal `n`.
    pub fn reflect(self, n: V3) -> V3 {
        self - n * (2.0 * self.dot(n))
    }

    /// Turned about the z axis by `a` radians.
    pub fn spin(self, a: f32) -> V3 {
        let (s, c) = a.sin_cos();
        v(c * self.x - s * self.y, s * self.x + c * self.y, self.z)
    }

    /// Brightness of a linear colour.
    pub fn luma(self) -> f32 {
        self.dot(v(0.2126, 0.7152, 0.0722))
    }
}

/// Blend from `a` to `b`.
pub fn mix(a: f32, b: f32, t: f32) -> f32 {
    a + (b - a) * t
}

/// Blend of two colours or points.
pub fn mix3(a: V3, b: V3, t: f32) -> V3 {
    a + (b - a) * t
}

/// Smooth step from 0 at `a` to 1 at `b`; `a` may be above `b`.
pub fn step(a: f32, b: f32, x: f32) -> f32 {
    let t = ((x - a) / (b - a)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

/// A soft bump: 1 at `c`, 0 beyond `w`.
pub fn bell(c: f32, w: f32, x: f32) -> f32 {
    1.0 - step(0.0, w, (x - c).abs())
}

/// Where a body stands: its origin and its three axes in the world.
#[derive(Clone, Copy)]
pub struct Place {
    origin: V3,
    x: V3,
    y: V3,
    z: V3,
}

impl Place {
    /// Unturned, at `origin`.
    pub fn at(x: f32, y: f32, z: f32) -> Place {
        Place { origin: v(x, y, z), x: v(1.0, 0.0, 0.0), y: v(0.0, 1.0, 0.0), z: v(0.0, 0.0, 1.0) }
    }

    /// Turned about its own z axis.
    pub fn spun(self, a: f32) -> Place {
        let (s, c) = a.sin_cos();
        Place { x: self.x * c + self.y * s, y: self.y * c - self.x * s, ..self }
    }

    /// Tilted about its own x axis.
    pub fn tilted(self, a: f32) -> Place {
        let (s, c) = a.sin_cos();
        Place { y: self.y * c + self.z * s, z: self.z * c - self.y * s, ..self }
    }

    /// World point to local point.
    pub fn local(&self, p: V3) -> V3 {
        let d = p - self.origin;
        v(d.dot(self.x), d.dot(self.y), d.dot(self.z))
    }

    /// World direction to local direction.
    pub fn local_dir(&self, d: V3) -> V3 {
        v(d.dot(self.x), d.dot(self.y), d.dot(self.z))
    }

    /// Local direction to world direction.
    pub fn world_dir(&self, n: V3) -> V3 {
        self.x * n.x + self.y * n.y + self.z * n.z
    }

    /// Local point to world point.
    pub fn world(&self, p: V3) -> V3 {
        self.origin + self.world_dir(p)
    }
}
