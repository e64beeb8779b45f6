//! What follows from a sheet: causes and, in their own modules here, what else is assessed.

/// Bench checks: figures, limits, verdicts.
mod bench;
/// The weighing of causes.
mod cause;
/// The test ride.
mod ride;
