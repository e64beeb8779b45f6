//! The rules by which a track is cleaned and judged: each with its figure, its unit and its source.
//!
//! A paper that prints a figure of the ride prints the rules behind it from here.

/// One rule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    /// The figure.
    pub value: f64,
    /// Its unit.
    pub unit: &'static str,
    /// Where it comes from.
    pub source: &'static str,
}

const OWN: &str = "own judgement, no source";

const fn own(value: f64, unit: &'static str) -> Rule {
    Rule { value, unit, source: OWN }
}

/// Largest file that is read.
pub const BYTES: usize = 20 * 1024 * 1024;
/// Most points that are read; at one a second, eleven days.
pub const POINTS: usize = 1_000_000;
/// Deepest nesting of a file; a point's extension is eight deep.
pub const DEPTH: usize = 32;
/// Most points of a curve.
pub const SAMPLES: usize = 300;

/// A step faster than this is a jump of reception, not riding.
pub const JUMP: Rule = own(90.0, "km/h");
/// A stretch of fewer points than this beside a jump is dropped; a longer one is kept apart.
pub const STRAY: Rule = own(3.0, "points");
/// A longer wait for the next point is a gap: neither its way nor its time counts.
pub const GAP: Rule = own(30.0, "s");
/// A longer step of a track without times is a gap.
pub const LEAP: Rule = own(500.0, "m");
/// A gap whose ends are nearer than this is a stop in which recording slept.
pub const SAME_PLACE: Rule = own(20.0, "m");
/// A shorter halt is part of riding.
pub const STOP: Rule = own(10.0, "s");
/// Slower than this, from end to end of the speed window, is standing: a receiver at rest drifts.
pub const STANDING: Rule = own(3.0, "km/h");
/// A speed is taken over this long before and after its point, as single steps are mostly noise.
pub const WINDOW: Rule = Rule {
    value: 3.0,
    unit: "s",
    source: "common practice of 3 s to 5 s for speed from positions, no source",
};
/// A height counts once it differs by this from the last turn.
pub const HYSTERESIS: Rule = Rule {
    value: 5.0,
    unit: "m",
    source: "common practice of 5 m to 10 m for satellite heights, no source",
};
/// Heights are the middle one of this many neighbours, against single spikes.
pub const MEDIAN: Rule = own(5.0, "points");
/// Below this share of points with a height no climb is given.
pub const HEIGHTS: Rule = own(90.0, "%");
/// Below this share of points with a time the track counts as one without times.
pub const TIMES: Rule = own(90.0, "%");
/// Above this share of dropped points, repeated ones aside, nothing is concluded.
pub const DROPPED: Rule = own(20.0, "%");
/// Length at either end that no customer sees.
pub const CLIP: Rule = own(200.0, "m");
/// What is left between the ends must be this long to be drawn.
pub const DRAWN: Rule = own(100.0, "m");
/// A ride must be this long to prove a repair.
pub const LENGTH: Rule = Rule {
    value: 1000.0,
    unit: "m",
    source: "EN 15194 road test of the complete bike, at least 1 km (read in its Taiwan edition)",
};
/// That length must be ridden faster than walk mode pushes a bike.
pub const WALKING: Rule = Rule {
    value: 6.0,
    unit: "km/h",
    source: "EN 15194 ceiling of start-up assistance (read in its Taiwan edition)",
};
/// A speed held near the limit: for this long,
pub const HELD: Rule = own(15.0, "s");
/// within this span from slowest to fastest.
pub const STEADY: Rule = own(2.0, "km/h");
/// Near the limit is this share below and above it: the tolerance of EN 15194's cut-off test.
pub const NEAR: Rule = Rule {
    value: 10.0,
    unit: "%",
    source: "EN 15194 cut-off tolerance (read in its Taiwan edition)",
};
/// Typed and recorded lengths may differ by this much.
pub const AGREE: Rule = own(10.0, "%");
