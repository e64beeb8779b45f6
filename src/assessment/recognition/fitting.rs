//! Pairs of like landmarks -> the one arrangement that most of them agree on.
//!
//! Any two pairs say how much larger one picture is and where it is; the others are asked whether
//! they agree. Pictures are taken as upright: a copy is cut, scaled and mirrored, and hardly turned.

use crate::photo::{Fit, Landmark, PLACES};

/// Least landmarks that must agree.
pub(super) const LEAST: usize = 4;

/// Most pairs that are tried, the likest first.
const MOST_PAIRS: usize = 48;

/// How far a landmark may be from where it should, in parts of the long edge.
const NEAR: f64 = 0.02;

/// Two landmarks that are nearer to each other say too little about scale.
const FAR: f64 = 0.08;

/// Most that one picture may be larger than the other.
const MOST_SCALE: f64 = 2.6;

/// Sine of the angle by which a copy may be turned: three degrees.
const MOST_TURN: f64 = 0.052;

/// Factor between two sizes of landmarks, 2 to the sixth part.
const SIZE: f64 = 1.122_462;

/// Two landmarks of like form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Pair {
    /// In how many pairs of cells they differ.
    pub unlike: u32,
    /// Which landmark of the photo that is asked about.
    pub own: u32,
    /// Which landmark of the known one.
    pub known: u32,
}

/// A pair as places, in parts of the long edge, and as sizes.
struct Spot {
    own: (f64, f64),
    known: (f64, f64),
    /// How much larger the known spot is than the own one, by the sizes.
    larger: f64,
    own_bit: u128,
    known_bit: u64,
}

/// The fit that most pairs agree on, from the own picture to the known one, and how many do.
pub(super) fn fit(own: &[Landmark], known: &[Landmark], pairs: &[Pair]) -> Option<(Fit, usize)> {
    let spots: Vec<Spot> =
        pairs.iter().take(MOST_PAIRS).map(|pair| spot(own, known, pair)).collect();
    let mut best: Option<(usize, f64, f64, f64)> = None;
    for (at, one) in spots.iter().enumerate() {
        for other in &spots[at + 1..] {
            let Some((scale, x, y)) = arrangement(one, other) else { continue };
            let n = agreeing(&spots, scale, x, y);
            if best.is_none_or(|(most, ..)| most < n) {
                best = Some((n, scale, x, y));
            }
        }
    }
    let (n, scale, x, y) = best?;
    (LEAST <= n).then(|| (Fit::scaled(scale, x, y), n))
}

fn spot(own: &[Landmark], known: &[Landmark], pair: &Pair) -> Spot {
    let (one, other) = (&own[pair.own as usize], &known[pair.known as usize]);
    let place = |at: u16| f64::from(at) / f64::from(PLACES);
    let mut larger = 1.0;
    for _ in 0..one.size.abs_diff(other.size) {
        larger *= if one.size < other.size { SIZE } else { 1.0 / SIZE };
    }
    Spot {
        own: (place(one.x), place(one.y)),
        known: (place(other.x), place(other.y)),
        larger,
        own_bit: 1 << (pair.own % 128),
        known_bit: 1 << (pair.known % 64),
    }
}

/// Scale and place that two pairs say.
fn arrangement(one: &Spot, other: &Spot) -> Option<(f64, f64, f64)> {
    let (ox, oy) = (other.own.0 - one.own.0, other.own.1 - one.own.1);
    let (kx, ky) = (other.known.0 - one.known.0, other.known.1 - one.known.1);
    let (own, known) = ((ox * ox + oy * oy).sqrt(), (kx * kx + ky * ky).sqrt());
    if own < FAR || known < FAR {
        return None;
    }
    let scale = known / own;
    let turn = (ox * ky - oy * kx).abs() / (own * known);
    let is_upright = turn < MOST_TURN && 0.0 < ox * kx + oy * ky;
    let is_sized = scale < MOST_SCALE && 1.0 < scale * MOST_SCALE;
    let fits = |spot: &Spot| spot.larger < scale * 1.45 && scale < spot.larger * 1.45;
    (is_upright && is_sized && fits(one) && fits(other)).then_some((
        scale,
        one.known.0 - scale * one.own.0,
        one.known.1 - scale * one.own.1,
    ))
}

/// How many landmarks of either picture agree with an arrangement, each counted once.
fn agreeing(spots: &[Spot], scale: f64, x: f64, y: f64) -> usize {
    let near = if scale < 1.0 { NEAR } else { NEAR * scale };
    let (mut own, mut known) = (0_u128, 0_u64);
    for spot in spots {
        let (dx, dy) =
            (spot.own.0 * scale + x - spot.known.0, spot.own.1 * scale + y - spot.known.1);
        let is_near = dx.abs() < near && dy.abs() < near;
        if is_near && spot.larger < scale * 1.45 && scale < spot.larger * 1.45 {
            own |= spot.own_bit;
            known |= spot.known_bit;
        }
    }
    own.count_ones().min(known.count_ones()) as usize
}
