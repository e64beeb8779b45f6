//! What was dropped of a track, and by which rule.

/// What was dropped or changed, by cause; all are points.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cleaned {
    /// Points that the file holds.
    pub read: usize,
    /// No place, or one outside -90 to 90 and -180 to below 180 degrees (GPX 1.1 schema).
    pub off_earth: usize,
    /// No readable time in a track that has times.
    pub without_time: usize,
    /// The same moment again, or in a track without times the same place.
    pub repeated: usize,
    /// Time ran backwards; the fewest are dropped after which it runs forward.
    pub backwards: usize,
    /// Beside a step faster than [`super::rule::JUMP`].
    pub jumped: usize,
    /// Steps of height steeper than one in one: kept, but not climbed.
    pub height_jumps: usize,
}

impl Cleaned {
    /// Points that were dropped, repeated ones aside.
    pub fn lost(&self) -> usize {
        self.off_earth + self.without_time + self.backwards + self.jumped
    }
}
