//! Where a sheet names photos: marked tree -> one [`Use`] for each, with its marks.
//!
//! The tree is asked, not the typed sheet: there every finding keeps its place, also if one of them
//! cannot be read.

use crate::diagnostic::Problems;
use crate::sheet::Sheet;
use crate::sheet::photo_use::{Mark, PhotoUse};
use crate::sheet::reader::{Reader, Value, words};
use crate::sheet::yaml::{Content, Node};

words! {
    /// A list of photos of the sheet.
    "list of photos"
    pub enum PhotoList {
        /// Photos of the unit as it came.
        Arrival = "arrival.photos",
        /// Photos of a finding as found.
        Found = "photos",
        /// Photos of a finding as left.
        Left = "photos-after",
        /// Photos of the unit that goes back in exchange.
        Exchange = "exchange.photos",
    }
}

impl PhotoList {
    /// The key of the list in its block.
    pub fn key(self) -> &'static str {
        match self {
            Self::Left => "photos-after",
            Self::Arrival | Self::Found | Self::Exchange => "photos",
        }
    }

    /// True for a list that a finding has.
    pub fn is_of_finding(self) -> bool {
        matches!(self, Self::Found | Self::Left)
    }
}

/// A step from a block or list to a value in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// The value of a key.
    Key(&'static str),
    /// An item, counted from 0.
    Item(usize),
}

/// The way from the top of a sheet to a value.
pub type Path = Vec<Step>;

/// A photo in the place where a sheet names it.
#[derive(Clone, Debug)]
pub struct Use {
    /// The list that it is in.
    pub list: PhotoList,
    /// The finding that the list belongs to, counted from 0.
    pub finding: Option<usize>,
    /// Where it is.
    pub path: Path,
    /// The photo's name; `None` if it cannot be read.
    pub file: Option<String>,
    /// Its marks; `None` if one of them cannot be read.
    pub marks: Option<Vec<Mark>>,
}

/// A finding as the tree has it.
#[derive(Clone, Debug)]
pub struct FindingPlace {
    /// Its part as typed; empty if there is none.
    pub part: String,
    /// Its name in words of its own.
    pub called: Option<String>,
    /// Its condition as typed.
    pub condition: String,
}

/// The way to the block that has a list.
pub fn block_of(list: PhotoList, finding: Option<usize>) -> Path {
    match list {
        PhotoList::Arrival => vec![Step::Key("arrival")],
        PhotoList::Exchange => vec![Step::Key("exchange")],
        PhotoList::Found | PhotoList::Left => {
            let at = Step::Item(finding.unwrap_or_default());
            vec![Step::Key("strip-down"), Step::Key("findings"), at]
        }
    }
}

/// The value at the end of a way.
pub fn at<'n>(tree: &'n Node, path: &[Step]) -> Option<&'n Node> {
    path.iter().try_fold(tree, |node, step| match (step, &node.content) {
        (Step::Key(key), _) => node.get(key),
        (Step::Item(at), Content::List(items)) => items.get(*at),
        (Step::Item(_), _) => None,
    })
}

/// The findings in their order.
pub fn findings(tree: &Node) -> Vec<FindingPlace> {
    let list = at(tree, &[Step::Key("strip-down"), Step::Key("findings")]);
    let text = |node: &Node, key: &str| match node.get(key).map(|value| &value.content) {
        Some(Content::Scalar(text)) => Some(text.trim().to_owned()),
        _ => None,
    };
    items(list)
        .iter()
        .map(|item| FindingPlace {
            part: text(item, "part").unwrap_or_default(),
            called: text(item, "called"),
            condition: text(item, "condition").unwrap_or_default(),
        })
        .collect()
}

/// Every photo that the sheet names, in its order.
pub fn uses(sheet: &Sheet, decimal_comma: bool) -> Vec<Use> {
    let of_findings = (0..findings(&sheet.tree).len())
        .flat_map(|at| [(PhotoList::Found, Some(at)), (PhotoList::Left, Some(at))]);
    let lists = std::iter::once((PhotoList::Arrival, None))
        .chain(of_findings)
        .chain([(PhotoList::Exchange, None)]);
    let mut uses = Vec::new();
    for (list, finding) in lists {
        let mut path = block_of(list, finding);
        path.push(Step::Key(list.key()));
        let node = at(&sheet.tree, &path);
        // One photo may be written without a list around it.
        let one = node.filter(|node| matches!(node.content, Content::Scalar(_) | Content::Map(_)));
        for (nth, node) in items(node).iter().enumerate() {
            let (file, marks) = read(sheet, node, decimal_comma);
            let path = path.iter().copied().chain([Step::Item(nth)]).collect();
            uses.push(Use { list, finding, path, file, marks });
        }
        if let Some(node) = one {
            let (file, marks) = read(sheet, node, decimal_comma);
            uses.push(Use { list, finding, path, file, marks });
        }
    }
    uses
}

/// The name and the marks of a photo, each if it can be read.
fn read(sheet: &Sheet, node: &Node, decimal_comma: bool) -> (Option<String>, Option<Vec<Mark>>) {
    let mut problems = Problems::default();
    let mut reader = Reader::new(&sheet.source, decimal_comma, &mut problems);
    let used = reader.whole(|reader| PhotoUse::read(node, reader));
    let is_readable = !problems.has_errors();
    match used {
        Some(used) => (Some(used.file.value.0), is_readable.then_some(used.marks)),
        None => (None, None),
    }
}

fn items(list: Option<&Node>) -> &[Node] {
    match list.map(|list| &list.content) {
        Some(Content::List(items)) => items,
        _ => &[],
    }
}
