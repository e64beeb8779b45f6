//! Parts by name in running text: with their articles, twins as one, many gathered into few.
//!
//! In: findings and words; out: names such as `both main bearings` or `the far one`, in the form that a
//! sentence asks for. What is said of the parts is `told`.

use crate::document::format;
use crate::document::text;
use crate::document::wording::Wording;
use crate::document::wording::grammar;
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

/// Parts as a list of at most `most` things with their articles, in the form that a name has by itself.
pub(super) fn gathered(parts: &[&Finding], most: usize, wording: &Wording) -> Vec<String> {
    gathered_in(wording.grammar().form(), parts, most, wording)
}

/// The same in another form.
///
/// Twins are one thing. Groups of parts are counted, the largest first, as long as the list is too
/// long; what is left over is counted at its end.
fn gathered_in(form: &str, parts: &[&Finding], most: usize, wording: &Wording) -> Vec<String> {
    let mut items = pairs(parts, wording);
    while most < items.len() && merge_largest_group(&mut items) {}
    let rest: usize = match most < items.len() {
        true => items.drain(most - 1..).map(|item| item.parts.len()).sum(),
        false => 0,
    };
    let mut names = named(&items, form, wording);
    match rest {
        0 => {}
        1 => names.push(wording.grammar().pattern(form, "one-more").to_owned()),
        rest => {
            let n = wording.counted(rest);
            names.push(text::fill(wording.grammar().pattern(form, "more"), &[("n", &n)]));
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
fn named(items: &[Item<'_>], form: &str, wording: &Wording) -> Vec<String> {
    let grammar = wording.grammar();
    let name = |(at, item): (usize, &Item<'_>)| {
        let first = item.parts[0];
        let own = first.part.name();
        if item.is_group {
            let n = wording.counted(item.parts.len());
            let parts = wording.choice_in("several-of-group", item.group().word(), form);
            return text::fill(grammar.pattern(form, "counted"), &[("n", &n), ("name", parts)]);
        }
        if item.parts.len() == 2 {
            let kinds = wording.part_in(own, "kinds", form).unwrap_or(own);
            let pattern = grammar.pattern_of_both(form, class_of_twins(first, wording));
            return text::fill(pattern, &[("name", kinds)]);
        }
        let next = items.get(at + 1).and_then(single_side);
        let names_no_side = next.is_some() && next == single_side(item);
        let before = at.checked_sub(1).and_then(|at| single_side(&items[at]));
        let ends_a_run = before.is_some() && before == single_side(item);
        match (kind(first, wording).filter(|_| names_no_side), ends_a_run) {
            (Some(_), _) => the(first, &["kind"], form, wording),
            (None, true) => the(first, ALONE, form, wording),
            (None, false) => the(first, IN_TEXT, form, wording),
        }
    };
    items.iter().enumerate().map(name).collect()
}

/// A part with its article, by the first of these words that it has.
fn the(finding: &Finding, words: &[&str], form: &str, wording: &Wording) -> String {
    let grammar = wording.grammar();
    let own = finding.own_name().map(|name| grammar.own_name(name).1);
    let name = own.unwrap_or_else(|| {
        let part = finding.part.name();
        let mut words = words.iter().filter_map(|which| wording.part_in(part, which, form));
        words.next().unwrap_or(part).to_owned()
    });
    text::fill(grammar.pattern(form, class(finding, wording)), &[("name", &name)])
}

/// The class of the name of one part.
fn class<'w>(finding: &Finding, wording: &'w Wording) -> &'w str {
    let grammar = wording.grammar();
    match finding.own_name() {
        Some(name) => grammar.own_name(name).0,
        None => {
            let class = wording.part_if(finding.part.name(), &grammar::class_key(None));
            class.unwrap_or_else(|| grammar.first_class())
        }
    }
}

/// The class of the plural of a part and its twin.
fn class_of_twins<'w>(finding: &Finding, wording: &'w Wording) -> &'w str {
    let own = wording.part_if(finding.part.name(), &grammar::class_key(Some("kinds")));
    own.unwrap_or_else(|| wording.grammar().several())
}

/// What a clause is about: one or several parts by name, in whichever forms the clause asks for.
pub struct Named<'f> {
    parts: Vec<&'f Finding>,
    /// The word that stands for the name after its twin: `other`.
    word: Option<&'static str>,
    /// The words that the name of a single part is taken from, the first that it has.
    words: &'static [&'static str],
    most: usize,
}

/// A name in running text: the short one, if there is one.
const IN_TEXT: &[&str] = &["brief", "plain"];
/// A name on the side that was named just before.
const ON_THAT_SIDE: &[&str] = &["there"];
/// A name that stands alone.
const ALONE: &[&str] = &["plain"];

impl<'f> Named<'f> {
    /// One part, by its whole name.
    pub fn of(finding: &'f Finding) -> Self {
        Self { parts: vec![finding], word: None, words: ALONE, most: MOST }
    }

    /// The name in a form.
    pub(super) fn in_form(&self, form: &str, wording: &Wording) -> String {
        match (&self.parts[..], self.word) {
            ([one], Some(word)) => {
                let words = wording.part_in(one.part.name(), word, form).unwrap_or_default();
                text::fill(wording.grammar().pattern(form, "whole"), &[("name", words)])
            }
            ([one], None) => the(one, self.words, form, wording),
            (several, _) => {
                format::listed(&gathered_in(form, several, self.most, wording), wording)
            }
        }
    }

    /// The class that words have to agree with.
    fn class<'w>(&self, wording: &'w Wording) -> &'w str {
        let several = wording.grammar().several();
        if let [one] = self.parts[..] {
            return class(one, wording);
        }
        let kind = kind(self.parts[0], wording);
        let are_twins =
            self.parts.len() == 2 && kind.is_some() && self::kind(self.parts[1], wording) == kind;
        if are_twins { class_of_twins(self.parts[0], wording) } else { several }
    }

    /// A clause about the parts.
    pub fn fill(&self, clause: &str, wording: &Wording) -> String {
        wording.grammar().clause(clause, self.class(wording), |form| self.in_form(form, wording))
    }

    /// The same with the plain name of the one part where a clause asks for no form.
    pub fn fill_plain(&self, clause: &str, wording: &Wording) -> String {
        wording.grammar().clause(clause, self.class(wording), |form| {
            match form == wording.grammar().form() {
                true => wording.part_of(self.parts[0]).to_owned(),
                false => self.in_form(form, wording),
            }
        })
    }
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

    /// Parts as what a clause is about, by what was named before.
    pub(super) fn name<'f>(&mut self, parts: &[&'f Finding]) -> Named<'f> {
        let wording = self.wording;
        let parts = distinct(parts.iter().copied());
        let [one] = parts[..] else {
            (self.last, self.side) = (None, None);
            return Named { parts, word: None, words: IN_TEXT, most: self.most };
        };
        let own = one.part.name();
        let kind = kind(one, wording);
        let is_twin = |(name, known): (&str, &str)| name != own && Some(known) == kind;
        let side = side(one);
        let has = |which: &&str| one.own_name().is_none() && wording.part_if(own, which).is_some();
        let is_on_that_side = side.is_some() && side == self.side;
        let word = self.last.is_some_and(is_twin).then_some("other").filter(has);
        let words = match is_on_that_side && has(&"there") {
            true => ON_THAT_SIDE,
            false => IN_TEXT,
        };
        self.last = kind.map(|kind| (own, kind));
        self.side = side;
        Named { parts, word, words, most: self.most }
    }
}
