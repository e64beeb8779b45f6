//! The one integration binary: a module a stage, fixtures in the folder of the same name.

/// Files made to hurt: bounded time, bounded memory, a clear message.
mod hostile;
/// The house itself: imports run downward, files stay short, no module is forgotten.
mod layering;
/// Messages of sheet and profile, each beside its place in a fixture.
mod messages;
/// Quantities, prices, dates and grid places against published values.
mod values;
/// Photos: bytes in, clean upright JPEG and facts out.
mod photo;
/// The JSON Schema against a reference library.
mod schema;
