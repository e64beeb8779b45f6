//! Messages on money.

use crate::diagnostic::{Diagnostic, Place};

/// A price in a currency that is not the workshop's.
pub fn other_currency(place: Place, found: &str, workshop: &str) -> Diagnostic {
    let message = format!("this price is in {found}, the workshop charges in {workshop}");
    Diagnostic::error("cost/other-currency", place, message)
        .hint("give it in the workshop's currency; nothing is converted")
}

/// Working time without a rate to charge it at.
pub fn no_rate(place: Place) -> Diagnostic {
    Diagnostic::error("cost/no-rate", place, "there is no hourly rate to charge this time at")
        .hint("add `rates: {hour: £48.00}` to `workshop.yaml`, or an agreed `price:` here")
}
