//! What happened to the parts, in clauses: each rests on a sign on the part, else on its condition.
//!
//! In: findings, signs, words (`stories.yaml`); out: [`Told`]. Which of these clauses a sentence may use
//! is decided by the table of clauses. The names of parts are `naming`.

use std::collections::BTreeMap;

use serde::Serialize;

use super::derived::by_weight;
use super::naming::{MOST, Namer, gathered};
use super::signs::{is_blow, is_harmed, shows, way_in};
use crate::document::clauses::fact::Fact;
use crate::document::text;
use crate::document::wording::Wording;
use crate::document::wording::grammar;
use crate::sheet::catalogue::Sign;
use crate::sheet::catalogue::sign::{Link, Role, SignKind};
use crate::sheet::findings::Finding;
use crate::sheet::vocabulary::Condition;

/// Most tales of page 1; the parts beyond them are named together.
const MOST_TALES: usize = 4;

/// Clauses about the parts of a job.
#[derive(Debug, Default, Serialize)]
pub(super) struct Told {
    /// The part past which water came in, with its article.
    way_in: String,
    /// The same in each form of the language.
    way_in_forms: BTreeMap<String, String>,
    /// What shows that, with a comma before it, or nothing.
    way_in_shown: String,
    /// What happened to others than that part, worst first, for one sentence that names it before.
    after_way_in: String,
    /// What a blow did.
    blow: String,
    /// What happened to parts without a mark of a blow, for one sentence that says it before.
    after_blow: String,
    /// What happened, worst first, for one sentence.
    harm: String,
    /// What was found on harmed parts, and grease and water on sound ones; whole sentences.
    found: String,
    /// The same but for the part past which water came in.
    found_beside: String,
    /// Harmed parts that `found` has no room for.
    rest: Vec<String>,
}

impl Told {
    /// What holds if there is something to say.
    pub(super) fn facts(&self) -> impl Iterator<Item = Fact> {
        let holds = [
            (!self.blow.is_empty(), Fact::BlowTold),
            (!self.after_blow.is_empty(), Fact::HarmBesideBlow),
            (!self.found.is_empty(), Fact::FoundTold),
            (!self.found_beside.is_empty(), Fact::FoundBesideWayIn),
            (!self.rest.is_empty(), Fact::HarmBeyondTold),
        ];
        holds.into_iter().filter_map(|(holds, fact)| holds.then_some(fact))
    }
}

/// What is said of one part, or of several alike.
#[derive(Clone)]
struct Tale<'f> {
    parts: Vec<&'f Finding>,
    sign: Option<Sign>,
    clause: String,
}

/// The clauses of a job.
pub(super) fn told(findings: &[Finding], wording: &Wording) -> Told {
    let all = tales(findings, wording);
    let way_in = way_in(findings);
    let is_way_in = |one: &Finding| way_in.is_some_and(|way| std::ptr::eq(way, one));
    let others = without(&all, is_way_in);
    let blows = of_signs(&all, is_blow);
    let unhurt = without(&all, |one| shows(one, is_blow));
    let mut namer = Namer::new(2, wording);
    let way_in_named = way_in.map(|way| namer.name(&[way]));
    let grammar = wording.grammar();
    let way_in_form = |form: &str| {
        way_in_named.as_ref().map_or(String::new(), |named| named.in_form(form, wording))
    };
    let way_in_forms = grammar.forms().map(|form| (form.to_owned(), way_in_form(form)));
    let after_way_in = in_one_sentence(&harmed(&others), 2, &mut namer);
    let mut namer = Namer::new(2, wording);
    let blow = blows.first().map_or(String::new(), |tale| said(tale, &mut namer));
    let after_blow = in_one_sentence(&harmed(&unhurt), 1, &mut namer);
    // A part that only let water in comes after those that it harmed.
    let mut in_order = harmed(&others);
    in_order.extend(harmed(&of_parts(&all, is_way_in)));
    let rest = all.iter().skip(MOST_TALES).flat_map(|tale| tale.parts.iter().copied());
    let rest: Vec<&Finding> = rest.filter(|part| is_harmed(part)).collect();
    Told {
        way_in: way_in_form(grammar.form()),
        way_in_forms: way_in_forms.collect(),
        way_in_shown: way_in
            .and_then(|way| way.signs.iter().find(|sign| super::signs::is_way_in(sign.value)))
            .and_then(|sign| wording.story(sign.name(), "more"))
            .map_or(String::new(), |more| format!(", {more}")),
        after_way_in,
        blow,
        after_blow,
        harm: in_one_sentence(&in_order, 2, &mut Namer::new(2, wording)),
        found: sentences(&all, &mut Namer::new(MOST, wording)),
        found_beside: sentences(&others, &mut Namer::new(MOST, wording)),
        rest: gathered(&rest, MOST, wording),
    }
}

/// What is said, worst part first; parts with the same clauses are named together.
fn tales<'f>(findings: &'f [Finding], wording: &Wording) -> Vec<Tale<'f>> {
    let mut tales: Vec<Tale<'f>> = Vec::new();
    for finding in by_weight(findings) {
        let sign = first_sign(finding);
        let story = sign.and_then(|sign| story(sign, finding.condition, wording));
        let clause = match (story, is_harmed(finding)) {
            (Some(story), _) => story,
            (None, true) => wording.choice("conditions-told", finding.condition.word()).to_owned(),
            (None, false) => continue,
        };
        match tales.iter_mut().find(|tale| tale.clause == clause) {
            Some(tale) => tale.parts.push(finding),
            None => tales.push(Tale { parts: vec![finding], sign, clause }),
        }
    }
    tales
}

/// The clause for a sign on a part in a condition; `{part}` is to be filled.
pub fn story(sign: Sign, condition: Condition, wording: &Wording) -> Option<String> {
    let failed = wording.story(sign.name(), "failed");
    let told = wording.story(sign.name(), "told");
    failed.filter(|_| condition == Condition::Failed).or(told).map(str::to_owned)
}

/// The first sign that says what happened. A part that is missing shows none; on a sound part only
/// what is on it counts.
fn first_sign(finding: &Finding) -> Option<Sign> {
    telling_signs(finding).next()
}

fn telling_signs(finding: &Finding) -> impl Iterator<Item = Sign> {
    let condition = finding.condition;
    let lies_on_it = |sign: Sign| {
        matches!(
            sign.0.link,
            Link::Water | Link::Solids | Link::Grease | Link::Debris | Link::Path | Link::Tamper
        )
    };
    let tells = move |sign: &Sign| match condition {
        Condition::Missing | Condition::NotExamined => false,
        Condition::Sound => lies_on_it(*sign),
        Condition::Worn | Condition::Damaged | Condition::Failed => {
            !sign.0.has(Role::InOrder) && sign.0.kind != SignKind::Told
        }
    };
    finding.signs.iter().map(|sign| sign.value).filter(tells)
}

fn of_parts<'f>(tales: &[Tale<'f>], is_one: impl Fn(&Finding) -> bool) -> Vec<Tale<'f>> {
    let of = |tale: &Tale<'f>| {
        let parts: Vec<&'f Finding> =
            tale.parts.iter().copied().filter(|part| is_one(part)).collect();
        (!parts.is_empty()).then(|| Tale { parts, ..tale.clone() })
    };
    tales.iter().filter_map(of).collect()
}

fn harmed<'f>(tales: &[Tale<'f>]) -> Vec<Tale<'f>> {
    of_parts(tales, is_harmed)
}

fn without<'f>(tales: &[Tale<'f>], is_one: impl Fn(&Finding) -> bool) -> Vec<Tale<'f>> {
    of_parts(tales, |part| !is_one(part))
}

/// Tales whose own sign is of a kind, on harmed parts.
fn of_signs<'f>(tales: &[Tale<'f>], is_one: fn(Sign) -> bool) -> Vec<Tale<'f>> {
    let is_told = |tale: &&Tale<'f>| tale.sign.is_some_and(is_one) && is_harmed(tale.parts[0]);
    tales.iter().filter(is_told).cloned().collect()
}

fn said(tale: &Tale<'_>, namer: &mut Namer<'_>) -> String {
    // A clause that names no part leaves what was named before as it is.
    if !grammar::names_part(&tale.clause) {
        return tale.clause.clone();
    }
    let wording = namer.wording();
    namer.name(&tale.parts).fill(&tale.clause, wording)
}

/// The first tale and, if there is room for two, one more: of the first one's twin, else the next.
fn in_one_sentence(tales: &[Tale<'_>], most: usize, namer: &mut Namer<'_>) -> String {
    let Some((first, others)) = tales.split_first() else { return String::new() };
    let wording = namer.wording();
    let kind = |tale: &Tale<'_>| wording.part_if(tale.parts[0].part.name(), "kind");
    let twin = others.iter().find(|tale| kind(tale).is_some() && kind(tale) == kind(first));
    let next = twin.or(others.first()).filter(|_| 1 < most);
    let clauses: Vec<String> =
        std::iter::once(first).chain(next).map(|tale| said(tale, namer)).collect();
    clauses.join(wording.label("and-clause"))
}

/// A further sign of the one part that a tale is of, with what joins it to the clause before.
fn further(tale: &Tale<'_>, namer: &mut Namer<'_>) -> String {
    let [one] = tale.parts[..] else { return String::new() };
    let wording = namer.wording();
    let own = one.signs.others().next();
    let Some(sign) = telling_signs(one).nth(usize::from(tale.sign.is_some())) else {
        return own.map_or(String::new(), |own| {
            text::fill(wording.label("in-own-words"), &[("words", own)])
        });
    };
    // "Its" is the part's only if the clause is about the part.
    let about_it =
        wording.story(sign.name(), "more").filter(|_| grammar::begins_with_part(&tale.clause));
    if let Some(more) = about_it {
        return format!(", {more}");
    }
    let Some(story) = story(sign, one.condition, wording) else { return String::new() };
    let story = match grammar::names_part(&tale.clause) {
        true => the_same(one, &story, wording),
        false => namer.name(&[one]).fill(&story, wording),
    };
    format!("{}{story}", wording.label("and-clause"))
}

/// A clause about the part that the clause before has named.
fn the_same(one: &Finding, story: &str, wording: &Wording) -> String {
    let group = one.part.group().word();
    let class = wording.choice_if(&grammar::class_key(Some("the-same")), group);
    let class = class.unwrap_or_else(|| wording.grammar().first_class());
    // Words of the form itself hold its preposition.
    let own = |form: &str| wording.choice_if(&grammar::key("the-same", form), group);
    let name = |form: &str| match own(form) {
        Some(whole) => whole.to_owned(),
        None => {
            let words = wording.choice_in("the-same", group, form);
            text::fill(wording.grammar().pattern(form, "whole"), &[("name", words)])
        }
    };
    wording.grammar().clause(story, class, name)
}

/// Tales as sentences: two in one, or one with a further sign.
fn sentences(tales: &[Tale<'_>], namer: &mut Namer<'_>) -> String {
    let and = namer.wording().label("and-clause");
    let mut sentences: Vec<String> = Vec::new();
    let mut is_open = false;
    for tale in tales.iter().take(MOST_TALES) {
        let clause = said(tale, namer);
        let further = further(tale, namer);
        match sentences.last_mut().filter(|_| is_open && further.is_empty()) {
            Some(sentence) => {
                sentence.push_str(and);
                sentence.push_str(&clause);
                is_open = false;
            }
            None => {
                is_open = further.is_empty();
                sentences.push(text::capitalised(&format!("{clause}{further}")));
            }
        }
    }
    sentences.iter().map(|one| format!("{one}.")).collect::<Vec<_>>().join(" ")
}
