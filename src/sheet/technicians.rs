//! Technicians on paper: their names as typed, as initials or not at all, as the profile has it.
//!
//! In: a sheet's fields or its copy, and the choice; out: the same, so named. The sheet itself, and with
//! it the workshop's bag, keeps the name.

use serde_yaml::Value;

use super::findings::FindingsSheet;
use super::profile::Naming;
use super::text::Text;

/// Blocks of a sheet that say in `by` who did them.
const BLOCKS: [&str; 2] = ["strip-down", "work"];
/// The field.
const BY: &str = "by";

/// Names those who did the work as papers may.
pub fn name(fields: &mut FindingsSheet, naming: Naming) {
    let strip = fields.strip_down.as_mut().map(|block| &mut block.by);
    let work = fields.work.as_mut().map(|block| &mut block.by);
    for by in strip.into_iter().chain(work) {
        *by = by.take().and_then(|by| named(&by.0, naming)).map(Text);
    }
}

/// Names them so in the copy of a sheet.
pub fn name_in_copy(copy: &mut Value, naming: Naming) {
    for block in BLOCKS {
        let Some(Value::Mapping(fields)) = copy.get_mut(block) else { continue };
        let Some(by) = fields.get(BY).and_then(Value::as_str).map(str::to_owned) else { continue };
        match named(&by, naming) {
            Some(name) => fields.insert(Value::String(BY.to_owned()), Value::String(name)),
            None => fields.remove(BY),
        };
    }
}

/// A name as papers may have it.
fn named(name: &str, naming: Naming) -> Option<String> {
    match naming {
        Naming::Full => Some(name.to_owned()),
        Naming::Initials => Some(initials(name)),
        Naming::LeftOut => None,
    }
}

/// `M. O.` of `M. Oduya`, `A.-L. B.` of `Anna-Lena Berg`.
fn initials(name: &str) -> String {
    let initial = |part: &str| part.chars().next().map(|letter| format!("{letter}."));
    let word = |word: &str| word.split('-').filter_map(initial).collect::<Vec<_>>().join("-");
    name.split_whitespace().map(word).collect::<Vec<_>>().join(" ")
}
