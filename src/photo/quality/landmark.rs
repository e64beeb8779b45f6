//! Landmarks of a picture, by which a part of it is known again: plane of brightness -> [`Landmark`]s.
//!
//! The picture is looked at in seven sizes, each a third of an octave smaller, and once more in those
//! between, for a photo that is asked about: a cut is larger in its frame than the whole, by a step that
//! need not be one of the seven. A landmark is a spot
//! that is brighter or darker than its surroundings and no mere edge (the determinant against the
//! trace of the second differences, as D. Lowe's paper of 2004 does it). Its form is which of two
//! neighbouring cells around it is brighter, for 84 pairs. Whole
//! numbers only, so that the same pixels give the same landmarks everywhere.
//! Not here: from which likeness on two pictures are called the same (assessment).

#![allow(clippy::similar_names, reason = "a form and its sums")]

use super::area::Plane;

/// Long edges at which spots are looked for, a third of an octave apart.
const EDGES: [u32; 7] = [192, 152, 121, 96, 76, 60, 48];

/// Long edges between those, half a step each; nothing is kept of them.
const BETWEEN: [u32; 6] = [171, 136, 108, 86, 68, 54];

/// Most landmarks of each size; small spots are lost first if a copy is blurred.
const MOST: [usize; 7] = [20, 14, 10, 8, 6, 4, 2];

/// Most landmarks of a picture.
pub const MOST_LANDMARKS: usize = 64;

/// Places are given in this many parts of the long edge.
pub const PLACES: u32 = 1 << 14;

/// Cells along each edge of a form.
const CELLS: usize = 7;

/// Pixels along each edge of a cell.
const CELL: usize = 3;

/// Pixels from the middle of a form to its edge.
const REACH: usize = CELLS * CELL / 2;

/// Least difference between a spot of 3 x 3 pixels and its surroundings of 7 x 7, in steps of
/// brightness; noise and JPEG make less.
const LEAST_STEP: i32 = 4;

/// Landmarks of one size are at least this many pixels apart.
const APART: usize = 5;

/// A spot of a picture that is known again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Landmark {
    /// Place from the left, in [`PLACES`] of the long edge.
    pub x: u16,
    /// Place from the top, in [`PLACES`] of the long edge.
    pub y: u16,
    /// In which of the sizes, from the largest: sixths of an octave, even ones of the seven.
    pub size: u8,
    /// Which of two neighbouring cells is brighter: 42 pairs from left to right, then 42 from top to
    /// bottom, row by row; a set bit is a rise. The first pair is the lowest bit
    /// of the first word.
    pub form: [u32; 3],
}

impl Landmark {
    /// How many of the 84 pairs differ between two forms.
    pub fn unlike(&self, other: &Self) -> u32 {
        self.form.iter().zip(&other.form).map(|(one, other)| (one ^ other).count_ones()).sum()
    }

    /// The landmark in the mirrored picture, of which `width` is the width in [`PLACES`].
    #[must_use]
    pub fn mirrored(&self, width: u16) -> Self {
        let (rows, cells) = (CELLS, CELLS);
        let across = cells - 1;
        let is_set = |at: usize| self.form[at / 32] >> (at % 32) & 1 == 1;
        let mut form = [0; 3];
        for row in 0..rows {
            for column in 0..across {
                let is_rise = !is_set(row * across + across - 1 - column);
                set(&mut form, row * across + column, is_rise);
            }
        }
        let below = rows * across;
        for row in 0..rows - 1 {
            for column in 0..cells {
                let is_rise = is_set(below + row * cells + cells - 1 - column);
                set(&mut form, below + row * cells + column, is_rise);
            }
        }
        Self { x: width.saturating_sub(self.x), form, ..*self }
    }
}

fn set(form: &mut [u32; 3], at: usize, is_rise: bool) {
    form[at / 32] |= u32::from(is_rise) << (at % 32);
}

/// The landmarks of a plane, from the largest size to the smallest, in each the strongest first; and
/// those of the sizes between.
pub(super) fn of(plane: &Plane) -> (Vec<Landmark>, Vec<Landmark>) {
    (of_sizes(plane, &EDGES, 0), of_sizes(plane, &BETWEEN, 1))
}

/// The landmarks of some sizes, the first of which is called `first`, the others two more each.
fn of_sizes(plane: &Plane, edges: &[u32], first: usize) -> Vec<Landmark> {
    let long = plane.width.max(plane.height);
    let mut landmarks = Vec::new();
    let base = plane.within(EDGES[0] * 2);
    for (step, (&edge, most)) in edges.iter().zip(MOST).enumerate() {
        let size = first + 2 * step;
        if long < edge as usize {
            continue;
        }
        let small = base.within(edge);
        let sums = Sums::of(&small);
        for (x, y) in spots(&sums, most) {
            let place = |at: usize| ((2 * at as u32 + 1) * PLACES / (2 * edge)) as u16;
            let form = form(&sums, x, y);
            landmarks.push(Landmark { x: place(x), y: place(y), size: size as u8, form });
        }
    }
    landmarks
}

/// Sums of brightness from the corner to each pixel, with a row and a column of zeros before them.
struct Sums {
    width: usize,
    height: usize,
    values: Vec<u32>,
}

impl Sums {
    fn of(plane: &Plane) -> Self {
        let (width, height) = (plane.width, plane.height);
        let mut values = vec![0_u32; (width + 1) * (height + 1)];
        for (y, line) in plane.values.chunks_exact(width.max(1)).enumerate() {
            let mut sum = 0;
            for (x, value) in line.iter().enumerate() {
                sum += u32::from(*value);
                let at = (y + 1) * (width + 1) + x + 1;
                values[at] = values[at - width - 1] + sum;
            }
        }
        Self { width, height, values }
    }

    /// The sum of a square with this corner and edge, which is inside.
    fn square(&self, x: usize, y: usize, edge: usize) -> i32 {
        let row = self.width + 1;
        let (above, below) = (y * row + x, (y + edge) * row + x);
        let sum = self.values[below + edge] + self.values[above]
            - self.values[above + edge]
            - self.values[below];
        sum as i32
    }
}

/// The strongest spots, at most this many.
fn spots(sums: &Sums, most: usize) -> Vec<(usize, usize)> {
    let (width, height) = (sums.width, sums.height);
    let margin = REACH;
    if width < 2 * margin + 3 || height < 2 * margin + 3 {
        return Vec::new();
    }
    // How much a spot differs from its surroundings, in 441ths of a step.
    let mut steps = vec![0_i32; width * height];
    for y in margin - 1..=height - margin {
        for x in margin - 1..=width - margin {
            let (spot, around) = (sums.square(x - 1, y - 1, 3), sums.square(x - 3, y - 3, 7));
            steps[y * width + x] = spot * 49 - around * 9;
        }
    }
    let mut found = Vec::new();
    for y in margin..height - margin {
        for x in margin..width - margin {
            let at = y * width + x;
            let step = steps[at];
            if LEAST_STEP * 441 <= step.abs()
                && is_extreme(&steps, at, width)
                && is_spot(&steps, at, width)
            {
                found.push((step.abs(), y, x));
            }
        }
    }
    found.sort_by_key(|&(step, y, x)| (-step, y, x));
    let mut taken: Vec<(usize, usize)> = Vec::new();
    for (_, y, x) in found {
        let is_near = |&(ox, oy): &(usize, usize)| ox.abs_diff(x).max(oy.abs_diff(y)) < APART;
        if taken.len() < most && !taken.iter().any(is_near) {
            taken.push((x, y));
        }
    }
    taken
}

/// True if no neighbour differs more from its surroundings, in the same direction.
fn is_extreme(steps: &[i32], at: usize, width: usize) -> bool {
    let sign = steps[at].signum();
    let own = steps[at] * sign;
    let around = [at - width - 1, at - width, at - width + 1, at - 1];
    let after = [at + 1, at + width - 1, at + width, at + width + 1];
    around.iter().all(|&other| steps[other] * sign < own)
        && after.iter().all(|&other| steps[other] * sign <= own)
}

/// True if the step falls off on all sides, and not only across an edge.
fn is_spot(steps: &[i32], at: usize, width: usize) -> bool {
    let step = |at: usize| i64::from(steps[at]);
    let across = step(at - 1) + step(at + 1) - 2 * step(at);
    let down = step(at - width) + step(at + width) - 2 * step(at);
    let corners =
        step(at - width - 1) + step(at + width + 1) - step(at - width + 1) - step(at + width - 1);
    let trace = across + down;
    // Sixteen times the determinant, since the mixed difference is over four.
    let determinant = 16 * across * down - corners * corners;
    // The usual ratio of 10: (10 + 1)² / 10.
    0 < determinant && trace * trace * 160 < determinant * 121
}

/// Which of two neighbouring cells around a spot is brighter.
fn form(sums: &Sums, x: usize, y: usize) -> [u32; 3] {
    let cell = |row: usize, column: usize| {
        sums.square(x - REACH + column * CELL, y - REACH + row * CELL, CELL)
    };
    let mut cells = [[0; CELLS]; CELLS];
    for (row, line) in cells.iter_mut().enumerate() {
        for (column, value) in line.iter_mut().enumerate() {
            *value = cell(row, column);
        }
    }
    let mut form = [0; 3];
    let mut at = 0;
    for line in &cells {
        for pair in line.windows(2) {
            set(&mut form, at, pair[0] < pair[1]);
            at += 1;
        }
    }
    for rows in cells.windows(2) {
        for (upper, lower) in rows[0].iter().zip(&rows[1]) {
            set(&mut form, at, upper < lower);
            at += 1;
        }
    }
    form
}
