//! Parts by name in running text: with their articles, twins as one, many gathered into few.
//!
//! In: findings and words; out: names such as `both main bearings` or `the far one`. What is said of
//! the parts is `told`.

use crate::document::format;
use crate::document::text;
use crate::document::wording::Wording;
use crate::sheet::catalogue::group::PartGroup;
use crate::sheet::findings::Finding;

/// Most things that a list of page 1 names one by one.
pub(super) const MOST: usize = 4;

/// The side of the unit on which a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    /// The chain side.
    Drive,
    /// The other side.
    Far,
}

fn side(finding: &Finding) -> Option<Side> {
    let name = finding.part.name();
    match finding.own_name() {
        Some(_) => None,
        None if name.ends_with("-non-drive-side") => Some(Side::Far),
        None if name.ends_with("-drive-side") => Some(Side::Drive),
        None => None,
    }
}

/// The name that a part shares with its twin, if it has one.
fn kind<'w>(finding: &Finding, wording: &'w Wording) -> Option<&'w str> {
    match finding.own_name() {
        Some(_) => None,
        None => wording.part_if(finding.part.name(), "kind"),
    }
}

/// True if both findings are of the same thing.
fn is_same(one: &Finding, other: &Finding) -> bool {
    one.part.value == other.part.value && one.own_name() == other.own_name()
}

/// Each part once, in the order of the list.
pub(super) fn distinct<'f>(findings: impl IntoIterator<Item = &'f Finding>) -> Vec<&'f Finding> {
    let mut parts: Vec<&Finding> = Vec::new();
    for finding in findings {
        if !parts.iter().any(|known| is_same(known, finding)) {
            parts.push(finding);
        }
    }
    parts
}

/// One thing of a list: a part, the two of a pair, or several of a group.
struct Item<'f> {
    parts: Vec<&'f Finding>,
    is_group: bool,
}

impl Item<'_> {
    fn group(&self) -> PartGroup {
        self.parts[0].part.group()
    }
}

/// Parts as a list of at most `most` things with their articles.
///
/// Twins are one thing. Groups of parts are counted, the largest first, as long as the list is too
/// long; what is left over is counted at its end.
pub(super) fn gathered(parts: &[&Finding], most: usize, wording: &Wording) -> Vec<String> {
    let mut items = pairs(parts, wording);
    while most < items.len() && merge_largest_group(&mut items) {}
    let rest: usize = match most < items.len() {
        true => items.drain(most - 1..).map(|item| item.parts.len()).sum(),
        false => 0,
    };
    let mut names = named(&items, wording);
    match rest {
        0 => {}
        1 => names.push(wording.label("one-more-part").to_owned()),
        rest => {
            let n = wording.counted(rest);
            names.push(text::fill(wording.label("more-parts"), &[("n", &n)]));
        }
    }
    names
}

/// The parts with the two of a pair as one, those on one side beside each other.
fn pairs<'f>(parts: &[&'f Finding], wording: &Wording) -> Vec<Item<'f>> {
    let mut items: Vec<Item<'f>> = Vec::new();
    for part in distinct(parts.iter().copied()) {
        let kind = kind(part, wording);
        let twin = items.iter_mut().find(|item| {
            item.parts.len() == 1 && kind.is_some() && self::kind(item.parts[0], wording) == kind
        });
        match twin {
            Some(item) => item.parts.push(part),
            None => items.push(Item { parts: vec![part], is_group: false }),
        }
    }
    let mut sorted: Vec<Item<'f>> = Vec::new();
    for item in items {
        let beside = single_side(&item)
            .and_then(|side| sorted.iter().rposition(|known| single_side(known) == Some(side)));
        sorted.insert(beside.map_or(sorted.len(), |at| at + 1), item);
    }
    sorted
}

fn single_side(item: &Item<'_>) -> Option<Side> {
    match item.parts[..] {
        [one] if !item.is_group => side(one),
        _ => None,
    }
}

/// Makes one thing of the group that is in the list most often. False if none is twice.
fn merge_largest_group(items: &mut Vec<Item<'_>>) -> bool {
    let count = |group: PartGroup| items.iter().filter(|item| item.group() == group).count();
    let mut largest: Option<(usize, PartGroup)> = None;
    for item in items.iter() {
        let n = count(item.group());
        if 1 < n && largest.as_ref().is_none_or(|(most, _)| *most < n) {
            largest = Some((n, item.group()));
        }
    }
    let Some((_, group)) = largest else { return false };
    let mut first: Option<usize> = None;
    let mut at = 0;
    while at < items.len() {
        match (items[at].group() == group, first) {
            (false, _) => at += 1,
            (true, None) => {
                items[at].is_group = true;
                first = Some(at);
                at += 1;
            }
            (true, Some(first)) => {
                let merged = items.remove(at);
                items[first].parts.extend(merged.parts);
            }
        }
    }
    true
}

/// The names of things. Of singles on one side that follow each other, the last one names the side.
fn named(items: &[Item<'_>], wording: &Wording) -> Vec<String> {
    let name = |(at, item): (usize, &Item<'_>)| {
        let first = item.parts[0];
        if item.is_group {
            let n = wording.counted(item.parts.len());
            let parts = wording.choice("several-of-group", item.group().word());
            return text::fill(wording.label("so-many-parts"), &[("n", &n), ("parts", parts)]);
        }
        if item.parts.len() == 2 {
            let kinds = wording.part(first.part.name(), "kinds");
            return text::fill(wording.label("both-parts"), &[("parts", kinds)]);
        }
        let next = items.get(at + 1).and_then(single_side);
        let names_no_side = next.is_some() && next == single_side(item);
        let short = kind(first, wording).filter(|_| names_no_side);
        let before = at.checked_sub(1).and_then(|at| single_side(&items[at]));
        let ends_a_run = before.is_some() && before == single_side(item);
        let long = if ends_a_run { wording.part_of(first) } else { brief(first, wording) };
        the(short.unwrap_or(long), wording)
    };
    items.iter().enumerate().map(name).collect()
}

/// The name with its place before it, if the part has one.
fn brief<'w>(finding: &'w Finding, wording: &'w Wording) -> &'w str {
    let own = finding.own_name().is_none();
    let brief = wording.part_if(finding.part.name(), "brief").filter(|_| own);
    brief.unwrap_or_else(|| wording.part_of(finding))
}

fn the(part: &str, wording: &Wording) -> String {
    text::fill(wording.label("the-part"), &[("part", part)])
}

/// Names parts one after the other in one text, so that no name comes twice in full.
pub(super) struct Namer<'w> {
    wording: &'w Wording,
    most: usize,
    last: Option<(&'static str, &'w str)>,
    side: Option<Side>,
}

impl<'w> Namer<'w> {
    /// A namer at the begin of a text, with the most things that one list of it names.
    pub(super) fn new(most: usize, wording: &'w Wording) -> Self {
        Self { wording, most, last: None, side: None }
    }

    /// The words of a language.
    pub(super) fn wording(&self) -> &'w Wording {
        self.wording
    }

    /// Parts as the subject or object of a clause, by what was named before.
    pub(super) fn name(&mut self, parts: &[&Finding]) -> String {
        let wording = self.wording;
        let parts = distinct(parts.iter().copied());
        let [one] = parts[..] else {
            (self.last, self.side) = (None, None);
            return format::listed(&gathered(&parts, self.most, wording), wording);
        };
        let own = one.part.name();
        let kind = kind(one, wording);
        let is_twin = |(name, known): (&str, &str)| name != own && Some(known) == kind;
        let side = side(one);
        let word = |which| wording.part_if(own, which).filter(|_| one.own_name().is_none());
        let is_on_that_side = side.is_some() && side == self.side;
        let named = match (self.last.is_some_and(is_twin), is_on_that_side) {
            (true, _) => word("other"),
            (false, true) => word("there"),
            (false, false) => None,
        };
        self.last = kind.map(|kind| (own, kind));
        self.side = side;
        named.map_or_else(|| the(brief(one, wording), wording), str::to_owned)
    }
}
