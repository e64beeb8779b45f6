//! What follows from a sheet: causes and, in their own modules here, what else is assessed.

/// Bench checks: figures, limits, verdicts.
mod bench;
/// Care advice, checks and cautions.
mod care;
/// The weighing of causes.
pub mod cause;
/// Money.
mod cost;
/// Plausibility of photos.
mod plausibility;
/// The test ride.
mod ride;
/// Units that were serviced, and the kinds of hub.
mod serviced;
