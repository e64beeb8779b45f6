//! Changes to a sheet: made in its text, and made in its tree, so that the one proves the other.
//!
//! In: the sheet and a list of changes; out: new text, and the tree that it must read back to.

use super::pieces;
use super::places::{self, Path, Step};
use crate::sheet::edit::Edits;
use crate::sheet::photo_use::Mark;
use crate::sheet::piece::{self, Piece};
use crate::sheet::yaml::{Content, Entry, Node};

/// One change.
#[derive(Clone, Debug)]
pub enum Change {
    /// A photo gets these marks in place of its own.
    Marks {
        /// The way to the photo.
        photo: Path,
        /// The marks that it has, for comments beside those that stay.
        old: Vec<Mark>,
        /// The marks that it gets.
        new: Vec<Mark>,
        /// How the sheet writes its numbers.
        decimal_comma: bool,
    },
    /// A list gets further items, and is made if it is missing.
    Add {
        /// The way to the block that has the list.
        block: Path,
        /// The key of the list.
        key: &'static str,
        /// Keys behind one of which the list goes, if it is made.
        behind: &'static [&'static str],
        /// The items.
        items: Vec<Piece>,
    },
    /// A block gets a key that it has not.
    Put {
        /// The way to the block.
        block: Path,
        /// The key.
        key: &'static str,
        /// Its value.
        value: Piece,
    },
}

impl Change {
    /// The way to what changes.
    pub fn path(&self) -> &[Step] {
        match self {
            Self::Marks { photo: path, .. }
            | Self::Add { block: path, .. }
            | Self::Put { block: path, .. } => path,
        }
    }

    /// The lines by which somebody could make the change by hand.
    pub fn lines(&self) -> String {
        match self {
            Self::Marks { new, decimal_comma, .. } => {
                format!("marks: {}", pieces::marks(new, *decimal_comma).in_line())
            }
            Self::Add { key, items, .. } => {
                piece::entry(key, &Piece::Lines(items.clone())).join("\n")
            }
            Self::Put { key, value, .. } => piece::entry(key, value).join("\n"),
        }
    }
}

/// The text with all changes; `None` if one of them cannot be made without touching anything else.
pub fn made(text: &str, tree: &Node, changes: &[Change]) -> Option<String> {
    let mut edits = Edits::new(text);
    // What is deeper ends earlier: lines for it go before lines for what is around it.
    let mut deepest_first: Vec<&Change> = changes.iter().collect();
    deepest_first.sort_by_key(|change| std::cmp::Reverse(change.path().len()));
    for change in deepest_first {
        let node = places::at(tree, change.path())?;
        let is_made = match change {
            Change::Marks { old, new, decimal_comma, .. } => {
                mark_photo(&mut edits, node, (old, new), *decimal_comma)
            }
            Change::Add { key, behind, items, .. } => add(&mut edits, node, key, behind, items),
            Change::Put { key, value, .. } => edits.add_entry(node, &[], key, value),
        };
        if !is_made {
            return None;
        }
    }
    edits.made()
}

fn mark_photo(
    edits: &mut Edits<'_>,
    photo: &Node,
    (old, new): (&[Mark], &[Mark]),
    decimal_comma: bool,
) -> bool {
    let marks = pieces::marks(new, decimal_comma);
    match &photo.content {
        Content::Scalar(name) => {
            let block = Piece::Block(vec![("file", Piece::word(name)), ("marks", marks)]);
            edits.replace(photo.span.clone(), block.in_line());
            true
        }
        Content::Map(entries) => match entries.iter().find(|entry| entry.key == "marks") {
            None => edits.add_entry(photo, &["file"], "marks", &marks),
            Some(Entry { value, .. }) => match &value.content {
                Content::List(items) if items.len() == old.len() => {
                    if edits.is_bracketed(value) && !edits.has_comment(value) {
                        let list = rewritten(edits, items, (old, new), decimal_comma);
                        edits.replace(value.whole.clone(), list);
                        return true;
                    }
                    one_by_one(edits, value, items, (old, new), decimal_comma)
                }
                Content::Empty => {
                    let entry = entries.iter().find(|entry| entry.key == "marks");
                    entry.map(|entry| edits.fill(entry, &marks)).is_some()
                }
                _ => false,
            },
        },
        Content::Empty | Content::List(_) => false,
    }
}

/// A list of marks in brackets, in which those that stay are as they were typed.
fn rewritten(
    edits: &Edits<'_>,
    items: &[Node],
    (old, new): (&[Mark], &[Mark]),
    decimal_comma: bool,
) -> String {
    let kept = common(old, new);
    let one = |(at, mark): (usize, &Mark)| match kept.iter().find(|(_, at_new)| *at_new == at) {
        Some((at_old, _)) => edits.typed(&items[*at_old]).to_owned(),
        None => pieces::mark(mark, decimal_comma).in_line(),
    };
    format!("[{}]", new.iter().enumerate().map(one).collect::<Vec<_>>().join(", "))
}

/// Changes a list of marks item by item, so that every comment stays beside the mark that it is about.
fn one_by_one(
    edits: &mut Edits<'_>,
    list: &Node,
    items: &[Node],
    (old, new): (&[Mark], &[Mark]),
    decimal_comma: bool,
) -> bool {
    let piece = |mark: &Mark| pieces::mark(mark, decimal_comma);
    let kept = common(old, new);
    let gaps = std::iter::once(None).chain(kept.iter().copied().map(Some));
    let ends = kept.iter().copied().map(Some).chain([None]);
    for (before, after) in gaps.zip(ends) {
        let (from, to) = before.map_or((0, 0), |(at_old, at_new)| (at_old + 1, at_new + 1));
        let (until_old, until_new) = after.unwrap_or((old.len(), new.len()));
        let (gone, come) = (&items[from..until_old], &new[to..until_new]);
        for (item, mark) in gone.iter().zip(come) {
            if edits.has_comment(item) {
                return false;
            }
            edits.replace(item.whole.clone(), piece(mark).in_line());
        }
        for item in gone.iter().skip(come.len()) {
            if edits.is_bracketed(list) || !edits.remove_lines(list, item) {
                return false;
            }
        }
        // More in the middle would need a place of their own; new marks are the last.
        if gone.len() < come.len() && after.is_some() {
            return false;
        }
        for mark in come.iter().skip(gone.len()) {
            if !edits.add_item(list, &piece(mark)) {
                return false;
            }
        }
    }
    true
}

/// The longest run of marks that both lists have in the same order, as pairs of places.
fn common(old: &[Mark], new: &[Mark]) -> Vec<(usize, usize)> {
    let mut longest = vec![vec![0_usize; new.len() + 1]; old.len() + 1];
    for at_old in (0..old.len()).rev() {
        for at_new in (0..new.len()).rev() {
            longest[at_old][at_new] = if old[at_old] == new[at_new] {
                longest[at_old + 1][at_new + 1] + 1
            } else {
                longest[at_old + 1][at_new].max(longest[at_old][at_new + 1])
            };
        }
    }
    let (mut at_old, mut at_new, mut pairs) = (0, 0, Vec::new());
    while at_old < old.len() && at_new < new.len() {
        if old[at_old] == new[at_new] {
            pairs.push((at_old, at_new));
            (at_old, at_new) = (at_old + 1, at_new + 1);
        } else if longest[at_old + 1][at_new] >= longest[at_old][at_new + 1] {
            at_old += 1;
        } else {
            at_new += 1;
        }
    }
    pairs
}

fn add(edits: &mut Edits<'_>, block: &Node, key: &str, behind: &[&str], items: &[Piece]) -> bool {
    let Content::Map(entries) = &block.content else { return false };
    let is_tall = items.iter().any(|item| matches!(item, Piece::Fields(_)));
    let list = if is_tall { Piece::Lines(items.to_vec()) } else { Piece::List(items.to_vec()) };
    match entries.iter().find(|entry| entry.key == key) {
        None => edits.add_entry(block, behind, key, &list),
        Some(entry) => match &entry.value.content {
            Content::Empty => {
                edits.fill(entry, &list);
                true
            }
            Content::List(_) => items.iter().all(|item| edits.add_item(&entry.value, item)),
            Content::Scalar(_) | Content::Map(_) => false,
        },
    }
}

/// The tree with all changes.
pub fn expected(tree: &Node, changes: &[Change]) -> Node {
    let mut tree = tree.clone();
    for change in changes {
        let Some(node) = at_mut(&mut tree, change.path()) else { continue };
        match change {
            Change::Marks { old, new, decimal_comma, .. } => {
                let marks = marks_of(node, (old, new), *decimal_comma);
                if let Content::Scalar(_) = &node.content {
                    let file = std::mem::take(node);
                    node.content = Content::Map(vec![keyed("file", file)]);
                }
                put(node, "marks", marks);
            }
            Change::Add { key, items, .. } => {
                let mut all = match node.get(key).map(|list| &list.content) {
                    Some(Content::List(items)) => items.clone(),
                    _ => Vec::new(),
                };
                all.extend(items.iter().map(Piece::node));
                put(node, key, Node { content: Content::List(all), ..Node::default() });
            }
            Change::Put { key, value, .. } => put(node, key, value.node()),
        }
    }
    tree
}

/// The marks of a photo after a change: those that stay as they were typed, the others as written.
fn marks_of(photo: &Node, (old, new): (&[Mark], &[Mark]), decimal_comma: bool) -> Node {
    let items = match photo.get("marks").map(|marks| &marks.content) {
        Some(Content::List(items)) => items.as_slice(),
        _ => &[],
    };
    let kept = common(old, new);
    let one = |(at, mark): (usize, &Mark)| {
        let own = kept.iter().find(|(_, at_new)| *at_new == at);
        let own = own.and_then(|(at_old, _)| items.get(*at_old)).cloned();
        own.unwrap_or_else(|| pieces::mark(mark, decimal_comma).node())
    };
    let marks = new.iter().enumerate().map(one).collect();
    Node { content: Content::List(marks), ..Node::default() }
}

fn put(block: &mut Node, key: &str, value: Node) {
    let Content::Map(entries) = &mut block.content else { return };
    match entries.iter_mut().find(|entry| entry.key == key) {
        Some(entry) => entry.value = value,
        None => entries.push(keyed(key, value)),
    }
}

fn keyed(key: &str, value: Node) -> Entry {
    Entry { key: key.to_owned(), key_span: 0..0, value }
}

fn at_mut<'n>(tree: &'n mut Node, path: &[Step]) -> Option<&'n mut Node> {
    path.iter().try_fold(tree, |node, step| match (step, &mut node.content) {
        (Step::Key(key), Content::Map(entries)) => {
            entries.iter_mut().find(|entry| entry.key == *key).map(|entry| &mut entry.value)
        }
        (Step::Item(at), Content::List(items)) => items.get_mut(*at),
        _ => None,
    })
}

/// True for two trees that say the same, wherever it is and in whatever order the keys of a block are.
pub fn same(a: &Node, b: &Node) -> bool {
    match (&a.content, &b.content) {
        (Content::Empty, Content::Empty) => true,
        (Content::Scalar(a), Content::Scalar(b)) => a == b,
        (Content::List(a), Content::List(b)) => {
            a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b))
        }
        (Content::Map(of_a), Content::Map(of_b)) => {
            of_a.len() == of_b.len()
                && of_a
                    .iter()
                    .all(|entry| b.get(&entry.key).is_some_and(|own| same(&entry.value, own)))
        }
        _ => false,
    }
}
