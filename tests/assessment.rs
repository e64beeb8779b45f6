//! What follows from a sheet: causes and, in their own modules here, what else is assessed.

/// The weighing of causes.
mod cause;
