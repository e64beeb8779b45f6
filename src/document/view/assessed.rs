//! What the templates see of the assessment: signs for and against, readings against their limits.

use serde::Serialize;

/// A sign in the weighing of the cause.
#[derive(Debug, Serialize)]
pub struct SignRow {
    /// What was seen, or looked for and not found, in plain words.
    pub text: String,
    /// What shows it: photos, the bench, what was reported.
    pub shown_by: String,
    /// Its points, signed, as printed.
    pub points: String,
    /// Its points as a share of the strongest, from -1 (against) to 1 (for).
    pub share: f64,
}

/// The signs for and against a cause.
#[derive(Debug, Serialize)]
pub struct Signs {
    /// What they are weighed for.
    pub label: String,
    /// On whose scores, if they are the workshop's own.
    pub note: Option<String>,
    /// Heads of the table.
    pub columns: Vec<String>,
    /// Rows, what counts most first.
    pub rows: Vec<SignRow>,
}

/// Why it failed.
#[derive(Debug, Serialize)]
pub struct CauseView {
    /// The speaking heading.
    pub heading: String,
    /// Paragraphs.
    pub text: Vec<String>,
    /// The signs that were weighed.
    pub signs: Option<Signs>,
    /// What was looked for besides and not found.
    pub looked: Option<String>,
}

/// A reading on its line, from 0 at the left to 1 at the right.
#[derive(Debug, Serialize)]
pub struct Dot {
    /// Its place.
    pub at: f64,
    /// `before 0.80 mm`.
    pub text: String,
}

/// One figure of the bench, drawn as dots on a line.
#[derive(Debug, Serialize)]
pub struct BenchRow {
    /// What was measured, and of which of several.
    pub label: String,
    /// False for a setting, and for readings that give no figure: words alone.
    pub drawn: bool,
    /// As found.
    pub before: Option<Dot>,
    /// As left.
    pub after: Option<Dot>,
    /// Where a reading may be, from and to.
    pub allowed: Option<(f64, f64)>,
    /// The limit with its source, or that there is none.
    pub limit: String,
    /// The verdict on the last reading.
    pub verdict: String,
    /// What is to be said beside it.
    pub remarks: Vec<String>,
    /// Readings as typed and under which conditions, if the dots do not say it already.
    pub typed: Vec<String>,
    /// The row in words, for those who cannot see it.
    pub alt: String,
}

/// Bench readings against their limits.
#[derive(Debug, Serialize)]
pub struct Bench {
    /// The speaking heading.
    pub heading: String,
    /// How to read it.
    pub text: String,
    /// One row a figure.
    pub rows: Vec<BenchRow>,
    /// Readings that are said in a line.
    pub also: Vec<String>,
}

/// A mark on an axis, from 0 to 1 along it.
#[derive(Debug, PartialEq, Serialize)]
pub struct Tick {
    /// Its place.
    pub at: f64,
    /// Its words.
    pub text: String,
}

/// A ride as speed over way, with the ground under it. Places go from 0 to 1, right and up.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Curve {
    /// Stretches of speed, each a list of points.
    pub speed: Vec<Vec<(f64, f64)>>,
    /// The ground from left to right; empty if no height is known.
    pub ground: Vec<(f64, f64)>,
    /// Where the help has to stop.
    pub limit: Option<Tick>,
    /// Marks of the way.
    pub way: Vec<Tick>,
    /// Marks of the speed.
    pub height: Vec<Tick>,
    /// What the drawing is, under it.
    pub caption: String,
    /// What the ride came to, for those who cannot see it.
    pub alt: String,
}

/// The test ride.
#[derive(Debug, Serialize)]
pub struct RideView {
    /// The speaking heading.
    pub heading: String,
    /// Paragraphs.
    pub text: Vec<String>,
    /// The recorded ride.
    pub curve: Option<Curve>,
    /// Readings against the rules of the place.
    pub rows: Vec<BenchRow>,
}
