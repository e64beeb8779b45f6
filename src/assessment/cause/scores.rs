//! What a sign supports or is against, in whole points for each of the four causes.
//!
//! In: rows of the catalogue and a workshop's own scores; out: [`PerCause`] points. Points are score
//! (-2 to 2) times weight (strong 3, medium 2, weak 1): engineering judgement, no published scale.

use serde::Deserialize;

use crate::sheet::catalogue::sign::{Scores, Strength};
use crate::sheet::catalogue::{SIGNS, Sign};
use crate::sheet::vocabulary::CauseKind;

/// A cause that signs can support, in the order of the chain of events.
///
/// Running on comes last: it needs a first fault (rule 2 of the table of signs).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RootCause {
    /// Water or dirt came in.
    Ingress,
    /// A part broke or wore out.
    Mechanical,
    /// Winding, board, sensor or wire.
    Electrical,
    /// Ridden on after it had worn.
    Neglect,
}

impl RootCause {
    /// All four, in the order of the chain.
    pub const ALL: [Self; 4] = [Self::Ingress, Self::Mechanical, Self::Electrical, Self::Neglect];

    /// The three that can be a first fault.
    pub const FIRST: [Self; 3] = [Self::Ingress, Self::Mechanical, Self::Electrical];

    /// The word of the sheet for it.
    pub fn kind(self) -> CauseKind {
        match self {
            Self::Ingress => CauseKind::Ingress,
            Self::Mechanical => CauseKind::Mechanical,
            Self::Electrical => CauseKind::Electrical,
            Self::Neglect => CauseKind::Neglect,
        }
    }

    /// The fault behind a word of the sheet; `None` for `undetermined` and `no-fault-found`.
    pub fn of(kind: CauseKind) -> Option<Self> {
        Self::ALL.into_iter().find(|fault| fault.kind() == kind)
    }
}

/// One value for each cause.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct PerCause<T>([T; 4]);

impl<T: Copy> PerCause<T> {
    /// Builds the four values.
    pub fn from_fn(value: impl FnMut(RootCause) -> T) -> Self {
        Self(RootCause::ALL.map(value))
    }

    /// The value of one cause.
    pub fn of(&self, fault: RootCause) -> T {
        self.0[fault as usize]
    }

    /// Sets the value of one cause.
    pub fn set(&mut self, fault: RootCause, value: T) {
        self.0[fault as usize] = value;
    }

    /// The four values with their causes.
    pub fn iter(&self) -> impl Iterator<Item = (RootCause, T)> {
        RootCause::ALL.into_iter().zip(self.0)
    }
}

/// A workshop's own score of a sign, in place of the table's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HouseScore {
    /// The sign.
    pub sign: Sign,
    /// For which cause.
    pub fault: RootCause,
    /// From -2 (clearly against) to 2 (clearly for); anything beyond is taken as the bound.
    pub score: i8,
}

/// The scores in force: the table's, with a workshop's own in their place.
#[derive(Clone, Copy, Debug, Default)]
pub struct Scale<'a> {
    /// The workshop's own scores; the last one of a sign and cause is in force.
    pub house: &'a [HouseScore],
}

impl Scale<'_> {
    /// The score of a sign in a dry unit, from -2 to 2.
    pub fn score(self, sign: Sign, fault: RootCause) -> i32 {
        self.own(sign, fault).unwrap_or_else(|| table_score(&sign.0.scores, fault))
    }

    /// The score of a sign if water or its trace was seen inside.
    fn wet_score(self, sign: Sign, fault: RootCause) -> i32 {
        let scores = sign.0.if_wet.as_ref().unwrap_or(&sign.0.scores);
        self.own(sign, fault).unwrap_or_else(|| table_score(scores, fault))
    }

    fn own(self, sign: Sign, fault: RootCause) -> Option<i32> {
        let own = self.house.iter().rev().find(|own| own.sign == sign && own.fault == fault);
        own.map(|own| i32::from(own.score.clamp(-2, 2)))
    }

    /// True if the workshop's own score differs from the table's for some cause.
    pub fn is_house_value(self, sign: Sign) -> bool {
        let differs =
            |fault: RootCause| self.score(sign, fault) != table_score(&sign.0.scores, fault);
        RootCause::ALL.into_iter().any(differs)
    }

    /// Points of a sign that was observed.
    pub fn seen(self, sign: Sign) -> PerCause<i32> {
        PerCause::from_fn(|fault| self.score(sign, fault) * weight(sign))
    }

    /// Points of a sign that was observed beside water or its trace.
    pub fn seen_wet(self, sign: Sign) -> PerCause<i32> {
        PerCause::from_fn(|fault| self.wet_score(sign, fault) * weight(sign))
    }

    /// Points of a sign that was looked for and not found: never for a cause, only against.
    ///
    /// After rule 9 of the table of signs, which lets only such a sign use minus scores. A sign that
    /// clearly supports a cause (2) is against it (-1) when it is missing: half, since a trace
    /// that is not there may have dried, been washed off or never formed. One that hints (1) says
    /// nothing by its absence. What is against a cause gives no support when it is missing.
    pub fn not_seen(self, sign: Sign) -> PerCause<i32> {
        PerCause::from_fn(|fault| -(self.score(sign, fault).max(0) / 2) * weight(sign))
    }
}

fn table_score(scores: &Scores, fault: RootCause) -> i32 {
    i32::from(match fault {
        RootCause::Ingress => scores.ingress,
        RootCause::Mechanical => scores.mechanical,
        RootCause::Electrical => scores.electrical,
        RootCause::Neglect => scores.neglect,
    })
}

/// Weight of a sign by its strength: strong 3, medium 2, weak 1.
pub fn weight(sign: Sign) -> i32 {
    match sign.0.strength {
        Strength::Strong => 3,
        Strength::Medium => 2,
        Strength::Weak => 1,
    }
}

/// Place of a sign in the table, by which every list is put in order.
pub fn row_of(sign: Sign) -> usize {
    SIGNS.iter().position(|row| Sign(row) == sign).unwrap_or(SIGNS.len())
}
