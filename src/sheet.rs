//! The sheet stage: text of `findings.yaml` and `workshop.yaml` -> typed values, every problem collected.
//!
//! In: bytes and names; out: [`Sheet`] and [`ProfileFile`]. No file is opened here.

mod as_meant;
pub mod asked_price;
pub mod bench;
pub mod blank;
pub mod blanks;
pub mod called;
pub mod catalogue;
pub mod charges;
pub mod checks;
pub mod colour;
pub mod currency;
pub mod date;
pub mod edit;
pub mod encoding;
pub mod findings;
pub mod grid;
pub mod handling;
pub mod issued;
pub mod lexicon;
pub mod limits;
pub mod line_tax;
pub mod number;
mod past_slips;
pub mod photo_use;
pub mod piece;
pub mod plausible;
pub mod price;
pub mod prices;
pub mod problems;
pub mod profile;
pub mod quantity;
pub mod reader;
mod renamed;
pub mod schema;
pub mod serial;
pub mod shape;
pub mod signs;
pub mod spelling;
pub mod technicians;
pub mod text;
mod typed;
mod typed_day;
pub mod vocabulary;
pub mod yaml;

use std::sync::LazyLock;

use crate::diagnostic::source::Source;
use crate::diagnostic::{Place, Problems};
use findings::FindingsSheet;
use past_slips::Parsed;
use prices::fill::{self, Filled};
use prices::{PriceList, Prices};
use profile::Profile;
use reader::{Reader, Value};
use shape::Shape;
use yaml::{Content, Entry, Node};

pub use typed::{ProfileFile, Sheet};

/// The shape of a findings sheet.
static FINDINGS: LazyLock<Shape> = LazyLock::new(FindingsSheet::shape);
/// The shape of a workshop profile.
static PROFILE: LazyLock<Shape> = LazyLock::new(Profile::shape);
/// The shape of a price list.
static PRICES: LazyLock<Shape> = LazyLock::new(PriceList::shape);

/// Reads a workshop profile; `None` if it is not a YAML block, or if a value that every profile
/// needs cannot be read.
pub fn read_profile(name: &str, bytes: &[u8], problems: &mut Problems) -> Option<ProfileFile> {
    let (source, mut parsed) = parse(name, bytes, problems)?;
    let mut found = Problems::default();
    let decimal_comma = uses_decimal_comma(&parsed.root, None);
    let fields =
        read_fields::<Profile>(&source, &mut parsed.root, &PROFILE, decimal_comma, &mut found);
    let mut prices = Prices::default();
    if let Some(fields) = &fields {
        prices.add(&source, &parsed.root, &fields.parts, fields.currency, &mut found);
    }
    report(&parsed, found, problems);
    Some(ProfileFile { source, tree: parsed.root, fields: fields?, prices })
}

/// Reads the price list beside a profile and adds it to that; a list of remarks alone is empty.
pub fn read_prices(name: &str, bytes: &[u8], workshop: &mut ProfileFile, problems: &mut Problems) {
    workshop.prices.file = Some(name.to_owned());
    let source = match encoding::decode(name, bytes) {
        Ok(source) => source,
        Err(problem) => return problems.push(problem),
    };
    let is_remark = |line: &str| line.trim().is_empty() || line.trim_start().starts_with('#');
    if source.text().lines().all(is_remark) {
        return;
    }
    let Some(mut parsed) = past_slips::parse_past_slips(&source, problems) else { return };
    // The list alone, without the word before it.
    if matches!(parsed.root.content, Content::List(_)) {
        let value = std::mem::take(&mut parsed.root);
        let (span, whole) = (value.span.clone(), value.whole.clone());
        let entry = Entry { key: "parts".to_owned(), key_span: span.clone(), value };
        parsed.root = Node { span, whole, content: Content::Map(vec![entry]) };
    }
    if !matches!(parsed.root.content, Content::Map(_)) {
        return problems.push(problems::no_price_list(Place::whole(&source)));
    }
    let mut found = Problems::default();
    let decimal_comma = has_decimal_comma(None, workshop);
    let list =
        read_fields::<PriceList>(&source, &mut parsed.root, &PRICES, decimal_comma, &mut found);
    if let Some(list) = list {
        let currency = workshop.fields.currency;
        workshop.prices.add(&source, &parsed.root, &list.parts, currency, &mut found);
    }
    report(&parsed, found, problems);
}

/// Reads a findings sheet; `None` if it is not a YAML block, or if a value that every sheet needs
/// cannot be read.
///
/// Problems are pushed; a sheet with errors must not go to paper. The workshop's language decides on
/// decimal commas if the sheet names none.
pub fn read(
    name: &str,
    bytes: &[u8],
    workshop: &ProfileFile,
    problems: &mut Problems,
) -> Option<Sheet> {
    let before = problems.n_errors();
    let (source, mut parsed) = parse(name, bytes, problems)?;
    let mut found = Problems::default();
    let decimal_comma = has_decimal_comma(Some(&parsed.root), workshop);
    settle(&source, &mut parsed.root, &FINDINGS, &mut found);
    let filled = Filled {
        source: &source,
        decimal_commas: [decimal_comma, has_decimal_comma(None, workshop)],
    };
    let mut unpriced = Problems::default();
    let priced = fill::fill(&mut parsed.root, &FINDINGS, &filled, &workshop.prices, &mut unpriced);
    let fields = read_settled::<FindingsSheet>(&source, &parsed.root, decimal_comma, &mut found);
    let lacks_prices = unpriced.has_errors();
    let unpriced = unpriced.into_sorted();
    let Some(mut fields) = fields else {
        found.extend(unpriced);
        report(&parsed, found, problems);
        return None;
    };
    called::keep_typed_names(&parsed.root, &mut fields);
    let is_whole = problems.n_errors() == before && !found.has_errors();
    found.extend(unpriced);
    let sheet = Sheet { source, tree: parsed.root.clone(), fields, priced, is_whole, lacks_prices };
    checks::check(&sheet, &mut found);
    plausible::check(&sheet, &mut found);
    report(&parsed, found, problems);
    Some(sheet)
}

/// Whether the numbers of a sheet may carry a decimal comma: by its language, else the workshop's.
pub fn has_decimal_comma(tree: Option<&Node>, workshop: &ProfileFile) -> bool {
    let default = workshop.fields.language.as_ref().map(|language| language.0.as_str());
    match tree {
        Some(tree) => uses_decimal_comma(tree, default),
        None => default.is_some_and(text::has_decimal_comma),
    }
}

/// Puts a tree into the names of its definition and reads it.
fn read_fields<T: Value>(
    source: &Source,
    tree: &mut Node,
    shape: &Shape,
    decimal_comma: bool,
    problems: &mut Problems,
) -> Option<T> {
    settle(source, tree, shape, problems);
    read_settled(source, tree, decimal_comma, problems)
}

/// Puts a tree into the names of its definition.
fn settle(source: &Source, tree: &mut Node, shape: &Shape, problems: &mut Problems) {
    as_meant::settle(tree, shape);
    renamed::rename(source, tree, shape, problems);
    limits::check(source, tree, problems);
}

/// Reads a tree that has the names of its definition.
fn read_settled<T: Value>(
    source: &Source,
    tree: &Node,
    decimal_comma: bool,
    problems: &mut Problems,
) -> Option<T> {
    let mut reader = Reader::new(source, decimal_comma, problems);
    reader.whole(|reader| T::read(tree, reader))
}

/// Passes on what was found, but for what only follows from a slip that was reported.
fn report(parsed: &Parsed, found: Problems, problems: &mut Problems) {
    let found = found.into_sorted().into_iter();
    problems.extend(found.filter(|problem| !parsed.is_follow_on(problem)));
}

/// The number of a job without reading the rest; `None` if it has none.
pub fn peek_number(bytes: &[u8]) -> Option<String> {
    peek::<text::JobNumber>(bytes, &["job"]).map(|number| number.0)
}

/// The day of arrival without reading the rest; `None` if there is none.
pub fn peek_arrival(bytes: &[u8]) -> Option<chrono::NaiveDate> {
    peek::<date::Date>(bytes, &["arrival", "date"]).map(|date| date.0)
}

/// One value of a sheet, by the keys that lead to it.
fn peek<T: Value>(bytes: &[u8], keys: &[&str]) -> Option<T> {
    let mut problems = Problems::default();
    let (source, parsed) = parse("", bytes, &mut problems)?;
    let mut node = &parsed.root;
    for key in keys {
        let Content::Map(entries) = &node.content else { return None };
        node = &entries.iter().find(|entry| spelling::as_word(&entry.key) == *key)?.value;
    }
    let mut reader = Reader::new(&source, false, &mut problems);
    reader.whole(|reader| T::read(node, reader))
}

fn parse(name: &str, bytes: &[u8], problems: &mut Problems) -> Option<(Source, Parsed)> {
    let source = match encoding::decode(name, bytes) {
        Ok(source) => source,
        Err(problem) => {
            problems.push(problem);
            return None;
        }
    };
    let before = problems.n_errors();
    match past_slips::parse_past_slips(&source, problems) {
        Some(mut parsed) if matches!(parsed.root.content, Content::Map(_)) => {
            let left = blanks::take_out(&mut parsed.root);
            problems.extend(problems::blanks_left(&source, &left));
            Some((source, parsed))
        }
        _ => {
            if problems.n_errors() == before {
                problems.push(problems::empty(Place::whole(&source)));
            }
            None
        }
    }
}

/// Whether numbers may carry a decimal comma, by the file's own `language:` or a default.
fn uses_decimal_comma(tree: &Node, default: Option<&str>) -> bool {
    let Content::Map(entries) = &tree.content else { return false };
    let own = entries.iter().find(|entry| spelling::as_word(&entry.key) == "language");
    let own = own.and_then(|entry| match &entry.value.content {
        Content::Scalar(text) => Some(text.as_str()),
        _ => None,
    });
    own.or(default).is_some_and(text::has_decimal_comma)
}
