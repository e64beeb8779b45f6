//! Messages about the price list, and about parts whose price a sheet leaves to it.

use super::nearest::{did_you_mean, either};
use crate::diagnostic::{Diagnostic, Place};
use crate::sheet::shape::Choice;

/// A part without a price, in the sheet and in the list; `file` is the list, `near` its nearest names.
pub fn no_price(place: Place, what: &str, file: Option<&str>, near: &[String]) -> Diagnostic {
    let message = match file {
        Some(_) => format!("`{what}` has no price here and is not in the price list"),
        None => format!("`{what}` has no price"),
    };
    let remedy = match (priced(what), file) {
        (Some((part, price)), _) => format!("write `{{what: {part}, price: {price}}}`"),
        (None, Some(file)) => format!("add `price: £9.80` here, or the part to `{file}`"),
        (None, None) => {
            "add `price: £9.80` here; what parts cost can stand in `parts.yaml` beside \
                 `workshop.yaml`, once for all jobs"
                .to_owned()
        }
    };
    let near: Vec<&str> = near.iter().map(String::as_str).collect();
    let offered = (!near.is_empty()).then(|| format!("did you mean {}?", either(&near)));
    Diagnostic::error("sheet/no-price", place, message).maybe_hint(offered).hint(remedy)
}

/// `bearing 6001 £6.20`: the part and its price, which belong into fields of their own.
fn priced(what: &str) -> Option<(&str, &str)> {
    let (part, price) = what.rsplit_once(' ')?;
    let is_price = price.starts_with(['£', '€', '$']) || price.ends_with(['£', '€', '$']);
    let is_number = price.contains(|c: char| c.is_ascii_digit());
    (is_price && is_number && !part.contains([',', '{', '}', ':'])).then_some((part, price))
}

/// A part of the catalogue that several rows of the price list are.
pub fn price_of_several(place: Place, what: &str, names: &[&str]) -> Diagnostic {
    let message = format!("the price list has {} rows for `{what}`", names.len());
    Diagnostic::error("sheet/no-price", place, message)
        .hint(format!("name one of them: {}", either(names)))
}

/// Two rows of the price list under one name.
pub fn listed_twice(place: Place, name: &str, first: Place) -> Diagnostic {
    let message = format!("the price list has `{name}` twice");
    Diagnostic::error("profile/listed-twice", place, message)
        .also(first, "first here")
        .hint("give each row names of its own, those under `also:` and `designation:` among them")
}

/// A price of the list in a currency that is not the workshop's.
pub fn list_currency(place: Place, found: &str, workshop: &str) -> Diagnostic {
    let message = format!("this price is in {found}, the workshop charges in {workshop}");
    Diagnostic::error("profile/other-currency", place, message)
        .hint("give it in the workshop's currency; nothing is converted")
}

/// A part of the price list that the catalogue does not know.
pub fn no_such_part(place: Place, found: &str, choices: &[Choice]) -> Diagnostic {
    Diagnostic::error("profile/unknown-part", place, format!("there is no part `{found}`"))
        .maybe_hint(did_you_mean("part", found, choices))
        .hint("`splitcase words TEXT` searches the parts; the line may also be left out")
}

/// A price list that is neither a list nor a block with one.
pub fn no_price_list(place: Place) -> Diagnostic {
    Diagnostic::error("profile/no-price-list", place, "this is no list of parts").hint(
        "write `parts:` and under it a line for each: `- {name: bearing 6804-2RS, price: £9.80}`",
    )
}
