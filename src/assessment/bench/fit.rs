//! Tolerance zones of shafts and housings (ISO 286-2) and tolerances of bearings, 3 to 80 mm.
//!
//! As the appendices of a bearing maker's tables reprint ISO 286-2 and ISO 492. A zone is stored as the edge
//! that its letter sets; the other edge follows from the tolerance grade. All in micrometres.

use rust_decimal::Decimal;

/// Sizes over the first and up to and including the second, in mm.
const ROWS: [(u32, u32); 6] = [(3, 6), (6, 10), (10, 18), (18, 30), (30, 50), (50, 80)];

/// Grades IT5 to IT8 of the rows.
const GRADES: [(u32, [i32; 6]); 4] = [
    (5, [5, 6, 8, 9, 11, 13]),
    (6, [8, 9, 11, 13, 16, 19]),
    (7, [12, 15, 18, 21, 25, 30]),
    (8, [18, 22, 27, 33, 39, 46]),
];

/// Which edge of a zone its letter sets.
#[derive(Clone, Copy)]
enum Edge {
    /// The lower one; the upper is a grade above.
    Lower([i32; 6]),
    /// The upper one; the lower is a grade below.
    Upper([i32; 6]),
    /// The middle: half a grade to either side.
    Middle,
}

/// Zones of shafts (small letter) and of housings (capital), with their edge in every row.
const ZONES: &[(&str, Edge)] = &[
    ("g5", Edge::Upper([-4, -5, -6, -7, -9, -10])),
    ("g6", Edge::Upper([-4, -5, -6, -7, -9, -10])),
    ("h5", Edge::Upper([0; 6])),
    ("h6", Edge::Upper([0; 6])),
    ("h7", Edge::Upper([0; 6])),
    ("j5", Edge::Lower([-2, -2, -3, -4, -5, -7])),
    ("j6", Edge::Lower([-2, -2, -3, -4, -5, -7])),
    ("js5", Edge::Middle),
    ("js6", Edge::Middle),
    ("k5", Edge::Lower([1, 1, 1, 2, 2, 2])),
    ("k6", Edge::Lower([1, 1, 1, 2, 2, 2])),
    ("m5", Edge::Lower([4, 6, 7, 8, 9, 11])),
    ("m6", Edge::Lower([4, 6, 7, 8, 9, 11])),
    ("G6", Edge::Lower([4, 5, 6, 7, 9, 10])),
    ("G7", Edge::Lower([4, 5, 6, 7, 9, 10])),
    ("H6", Edge::Lower([0; 6])),
    ("H7", Edge::Lower([0; 6])),
    ("H8", Edge::Lower([0; 6])),
    ("J6", Edge::Upper([5, 5, 6, 8, 10, 13])),
    ("JS6", Edge::Middle),
    ("JS7", Edge::Middle),
    ("J7", Edge::Upper([6, 8, 10, 12, 14, 18])),
    ("K6", Edge::Upper([2, 2, 2, 2, 3, 4])),
    ("K7", Edge::Upper([3, 5, 6, 6, 7, 9])),
    ("M7", Edge::Upper([0; 6])),
    ("N7", Edge::Upper([-4, -4, -5, -7, -8, -9])),
    ("P7", Edge::Upper([-8, -9, -11, -14, -17, -21])),
];

/// Bore of a bearing of the normal class (ISO 492): the lower edge; the upper is 0.
const BEARING_BORE: [i32; 6] = [-8, -8, -8, -10, -12, -15];

/// Outside diameter of a bearing of the normal class, likewise.
const BEARING_OUTSIDE: [i32; 6] = [-8, -8, -8, -9, -11, -13];

/// Lower and upper deviation from the nominal size, in micrometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Deviations {
    /// Lower edge.
    pub lower: Decimal,
    /// Upper edge.
    pub upper: Decimal,
}

fn row(size: u32) -> Option<usize> {
    ROWS.iter().position(|(over, up_to)| *over < size && size <= *up_to)
}

fn width(grade: u32, row: usize) -> Option<i32> {
    GRADES.iter().find(|(own, _)| *own == grade).map(|(_, widths)| widths[row])
}

/// True if a zone is known here.
pub fn is_zone(name: &str) -> bool {
    ZONES.iter().any(|(own, _)| *own == name)
}

/// The deviations of a zone such as `k5` or `H7` for a nominal size in mm.
pub fn zone(name: &str, size: u32) -> Option<Deviations> {
    let (name, edge) = ZONES.iter().find(|(own, _)| *own == name)?;
    let grade = name.trim_start_matches(|c: char| !c.is_ascii_digit()).parse().ok()?;
    let row = row(size)?;
    let width = Decimal::from(width(grade, row)?);
    Some(match edge {
        Edge::Lower(lower) => {
            let lower = Decimal::from(lower[row]);
            Deviations { lower, upper: lower + width }
        }
        Edge::Upper(upper) => {
            let upper = Decimal::from(upper[row]);
            Deviations { lower: upper - width, upper }
        }
        Edge::Middle => {
            let half = width / Decimal::TWO;
            Deviations { lower: -half, upper: half }
        }
    })
}

/// The deviations of a normal bearing's bore in mm.
pub fn bearing_bore(size: u32) -> Option<Deviations> {
    Some(Deviations { lower: Decimal::from(BEARING_BORE[row(size)?]), upper: Decimal::ZERO })
}

/// The deviations of a normal bearing's outside diameter in mm.
pub fn bearing_outside(size: u32) -> Option<Deviations> {
    Some(Deviations { lower: Decimal::from(BEARING_OUTSIDE[row(size)?]), upper: Decimal::ZERO })
}

/// The three kinds of fit (ISO 286-1).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FitKind {
    /// Always pressed.
    Interference,
    /// Always loose.
    Clearance,
    /// One or the other.
    Transition,
}

/// How a shaft and a hole go together: interference in micrometres, negative if there is room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fit {
    /// The least interference.
    pub loosest: Decimal,
    /// The most interference.
    pub tightest: Decimal,
}

impl Fit {
    /// The fit of a shaft and a hole of one nominal size.
    pub fn of(shaft: Deviations, hole: Deviations) -> Self {
        Self { loosest: shaft.lower - hole.upper, tightest: shaft.upper - hole.lower }
    }

    /// How the two go together.
    pub fn kind(&self) -> FitKind {
        if Decimal::ZERO <= self.loosest {
            FitKind::Interference
        } else if self.tightest <= Decimal::ZERO {
            FitKind::Clearance
        } else {
            FitKind::Transition
        }
    }
}
