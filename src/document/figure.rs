//! A figure of the bench as it is printed: rounded, with its uncertainty and unit; and where it has to be.

use rust_decimal::{Decimal, RoundingStrategy};

use crate::assessment::bench::check_result::Figure;
use crate::assessment::bench::verdict::{Bounds, Side};
use crate::document::wording::Wording;
use crate::document::{format, text};

/// A figure rounded for print, with its uncertainty and unit.
pub fn printed(figure: &Figure, unit: &str, wording: &Wording) -> String {
    // An uncertainty is not rounded away: it keeps two places that count.
    let fine = |one: Decimal| {
        let first = one.normalize().to_string();
        let zeros = first.trim_start_matches("0.").chars().take_while(|c| *c == '0').count();
        if one < Decimal::ONE { zeros as u32 + 2 } else { 1 }
    };
    let of_uncertainty = figure.uncertainty.filter(|one| !one.is_zero()).map_or(0, fine);
    let own = figure.uncertainty.map_or(0, |one| one.normalize().scale());
    let places = figure.places.max(of_uncertainty.min(own));
    let rounded = |value: Decimal| {
        value.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero)
    };
    let number = format::number(rounded(figure.value), wording);
    let bound = match figure.side {
        None => "",
        Some(Side::AtMost) => "≤ ",
        Some(Side::AtLeast) => "≥ ",
    };
    let uncertainty = figure
        .uncertainty
        .filter(|one| !one.is_zero())
        .map(|one| format!(" ± {}", format::number(rounded(one), wording)));
    format!("{bound}{number}{}{}", uncertainty.unwrap_or_default(), with_space(unit))
}

/// A unit after a number, tied to it.
pub fn with_space(unit: &str) -> String {
    if unit.is_empty() { String::new() } else { format!("\u{202f}{unit}") }
}

/// Where a figure has to be, without the word of who says so.
pub fn bounds(bounds: Bounds, unit: &str, wording: &Wording) -> String {
    let edge = |edge: Decimal| {
        let rounded =
            edge.round_dp_with_strategy(3, RoundingStrategy::MidpointAwayFromZero).normalize();
        format!("{}{}", format::number(rounded, wording), with_space(unit))
    };
    match bounds {
        Bounds::AtMost(most) => text::fill(wording.label("limit-most"), &[("limit", &edge(most))]),
        Bounds::AtLeast(least) => {
            text::fill(wording.label("limit-least"), &[("limit", &edge(least))])
        }
        Bounds::Between(least, most) => text::fill(
            wording.label("limit-between"),
            &[("least", &edge(least)), ("most", &edge(most))],
        ),
    }
}
