//! Where the names of parts are beside the drawing, each at the end of a line from its part.
//!
//! In: parts with their places; out: a side and a height for each, as near to the part as there is room,
//! and those that find none.

use crate::document::ruler::{self, Voice};

/// Height of the drawing on paper, in millimetres.
pub const HEIGHT: f64 = 49.4;
/// How much larger the drawing is set than its places are written down.
pub const SCALE: f64 = 1.3;
/// Width of a column of names.
const WIDTH: f64 = 27.0;
const SIZE: f64 = 8.0;
const PITCH: f64 = 3.5;
const BETWEEN: f64 = 1.6;
const POINTS_IN_MM: f64 = 72.0 / 25.4;

/// Which side of the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

impl Side {
    /// Its word in the view.
    pub fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// A part that wants its name beside the drawing.
#[derive(Debug)]
pub struct Named {
    /// What is printed.
    pub text: String,
    /// Its place on the drawing.
    pub place: [f64; 2],
    /// True if it is harmed; such names find room first.
    pub is_harmed: bool,
}

/// Side and middle of each name, in millimetres from the top on paper; `None` if there is no room.
pub fn dealt(parts: &[Named]) -> Vec<Option<(Side, f64)>> {
    let heights: Vec<f64> = parts.iter().map(|part| height(&part.text)).collect();
    let mut order: Vec<usize> = (0..parts.len()).collect();
    order.sort_by_key(|&at| !parts[at].is_harmed);
    let mut sides = [(Side::Left, Vec::new()), (Side::Right, Vec::new())];
    for at in order {
        let nearer = usize::from(HEIGHT / SCALE / 2.0 <= parts[at].place[0]);
        let has_room = |side: &(Side, Vec<usize>)| {
            side.1.iter().map(|&one| heights[one]).sum::<f64>() + heights[at] <= HEIGHT
        };
        let side = [nearer, 1 - nearer].into_iter().find(|&side| has_room(&sides[side]));
        if let Some(side) = side {
            sides[side].1.push(at);
        }
    }
    let mut dealt = vec![None; parts.len()];
    for (side, mut names) in sides {
        names.sort_by(|&one, &other| parts[one].place[1].total_cmp(&parts[other].place[1]));
        let tops = spread(&names, parts, &heights);
        for (at, top) in names.into_iter().zip(tops) {
            dealt[at] = Some((side, top + heights[at] / 2.0));
        }
    }
    dealt
}

fn height(text: &str) -> f64 {
    let lines = ruler::lines(text, Voice::Sans, SIZE, WIDTH * POINTS_IN_MM);
    f64::from(u32::try_from(lines).unwrap_or(1)) * PITCH + BETWEEN
}

/// The top of each name from the first to the last: at its part, or under the name before it, and all
/// moved up if the last would end under the drawing.
fn spread(names: &[usize], parts: &[Named], heights: &[f64]) -> Vec<f64> {
    let mut tops: Vec<f64> = Vec::new();
    let mut free = 0.0_f64;
    for &at in names {
        let top = (parts[at].place[1] * SCALE - heights[at] / 2.0).max(free);
        free = top + heights[at];
        tops.push(top);
    }
    let mut most = HEIGHT;
    for (top, &at) in tops.iter_mut().zip(names).rev() {
        *top = top.min(most - heights[at]);
        most = *top;
    }
    tops
}
