//! The sheet stage: text of `findings.yaml` and `workshop.yaml` -> typed values, every problem collected.
//!
//! In: bytes and names; out: [`Sheet`] and [`ProfileFile`]. No file is opened here.

pub mod asked_price;
pub mod bench;
pub mod blank;
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
pub mod limits;
pub mod line_tax;
pub mod number;
pub mod photo_use;
pub mod piece;
pub mod plausible;
pub mod price;
pub mod problems;
pub mod profile;
pub mod quantity;
pub mod reader;
mod renamed;
pub mod schema;
pub mod shape;
pub mod signs;
pub mod text;
mod typed;
pub mod vocabulary;
pub mod yaml;

use std::sync::LazyLock;

use crate::diagnostic::source::Source;
use crate::diagnostic::{Place, Problems};
use findings::FindingsSheet;
use profile::Profile;
use reader::{Reader, Value};
use shape::Shape;
use yaml::{Content, Node};

pub use typed::{ProfileFile, Sheet};

/// The shape of a findings sheet.
static FINDINGS: LazyLock<Shape> = LazyLock::new(FindingsSheet::shape);
/// The shape of a workshop profile.
static PROFILE: LazyLock<Shape> = LazyLock::new(Profile::shape);

/// Reads a workshop profile; `None` where it is no YAML block, or where a value that every profile
/// needs cannot be read.
pub fn read_profile(name: &str, bytes: &[u8], problems: &mut Problems) -> Option<ProfileFile> {
    let (source, mut tree) = parse(name, bytes, problems)?;
    renamed::rename(&source, &mut tree, &PROFILE, problems);
    limits::check(&source, &tree, problems);
    let decimal_comma = uses_decimal_comma(&tree, None);
    let mut reader = Reader::new(&source, decimal_comma, problems);
    let fields = reader.whole(|reader| Profile::read(&tree, reader))?;
    Some(ProfileFile { source, tree, fields })
}

/// Reads a findings sheet; `None` where it is no YAML block, or where a value that every sheet needs
/// cannot be read.
///
/// Problems are pushed; a sheet with errors must not go to paper. The workshop's language decides on
/// decimal commas where the sheet names none.
pub fn read(
    name: &str,
    bytes: &[u8],
    workshop: &ProfileFile,
    problems: &mut Problems,
) -> Option<Sheet> {
    let (source, mut tree) = parse(name, bytes, problems)?;
    let before = problems.n_errors();
    renamed::rename(&source, &mut tree, &FINDINGS, problems);
    limits::check(&source, &tree, problems);
    let decimal_comma = has_decimal_comma(Some(&tree), workshop);
    let mut reader = Reader::new(&source, decimal_comma, problems);
    let mut fields = reader.whole(|reader| FindingsSheet::read(&tree, reader))?;
    called::keep_typed_names(&tree, &mut fields);
    let is_whole = problems.n_errors() == before;
    let sheet = Sheet { source, tree, fields, is_whole };
    checks::check(&sheet, problems);
    plausible::check(&sheet, problems);
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

/// The number of a job without reading the rest; `None` where it cannot be told.
pub fn peek_number(bytes: &[u8]) -> Option<String> {
    let mut problems = Problems::default();
    let (source, tree) = parse("", bytes, &mut problems)?;
    let Content::Map(entries) = &tree.content else { return None };
    let number = entries.iter().find(|entry| entry.key == "job")?;
    let mut reader = Reader::new(&source, false, &mut problems);
    let number = reader.whole(|reader| text::JobNumber::read(&number.value, reader))?;
    Some(number.0)
}

fn parse(name: &str, bytes: &[u8], problems: &mut Problems) -> Option<(Source, Node)> {
    let source = match encoding::decode(name, bytes) {
        Ok(source) => source,
        Err(problem) => {
            problems.push(problem);
            return None;
        }
    };
    let before = problems.n_errors();
    let tree = yaml::parse(&source, problems);
    match tree {
        Some(tree) if matches!(tree.content, Content::Map(_)) => Some((source, tree)),
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
    let own = entries.iter().find(|entry| entry.key == "language");
    let own = own.and_then(|entry| match &entry.value.content {
        Content::Scalar(text) => Some(text.as_str()),
        _ => None,
    });
    own.or(default).is_some_and(text::has_decimal_comma)
}
