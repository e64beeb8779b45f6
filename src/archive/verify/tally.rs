//! Many bags told as one: judgements of bags -> the statements on a whole archive.

use super::{Judgement, Statement, statement};

/// Statements on one bag that are counted over all of them instead of being repeated.
const COUNTED: &[&str] =
    &["archive/whole", "archive/partly", "archive/tag-files", "archive/paper-fits"];
/// Statements that say the same of every bag.
const GENERAL: &[&str] = &["archive/own-clock", "archive/camera-clock", "archive/signature"];

/// What was found so far.
#[derive(Debug, Default)]
pub(super) struct Tally {
    bags: usize,
    whole: usize,
    files: usize,
    papers: usize,
    unsigned: usize,
    proved: Vec<Statement>,
    not_proved: Vec<Statement>,
}

impl Tally {
    /// Counts a bag with so many files as sealed, flaws from the register included.
    pub(super) fn add(&mut self, bag: &str, files: usize, judged: &Judgement) {
        self.bags += 1;
        self.files += files;
        self.whole += usize::from(judged.flaws.is_empty() && judged.could_not.is_empty());
        for statement in &judged.proved {
            self.papers += usize::from(statement.code == "archive/paper-fits");
            if !COUNTED.contains(&statement.code) {
                keep(&mut self.proved, bag, statement);
            }
        }
        for statement in &judged.not_proved {
            match statement.code {
                "archive/unsigned" => self.unsigned += 1,
                _ => keep(&mut self.not_proved, bag, statement),
            }
        }
    }

    /// What is proved and what is not, for an archive in which so many bags are registered.
    pub(super) fn told(self, registered: usize) -> (Vec<Statement>, Vec<Statement>) {
        let mut proved = Vec::new();
        if self.whole > 0 {
            proved.push(match self.whole == self.bags && self.bags == registered {
                true => statement::all_bags(self.bags, self.files),
                false => statement::some_bags(self.whole, registered),
            });
        }
        if self.papers > 0 {
            proved.push(statement::all_papers(self.papers));
        }
        proved.extend(self.proved);
        let mut not_proved = Vec::new();
        if self.unsigned > 0 {
            not_proved.push(statement::unsigned_bags(self.unsigned, self.bags));
        }
        not_proved.extend(self.not_proved);
        (proved, not_proved)
    }
}

/// Keeps a statement once; one that is about a single bag with its name.
fn keep(list: &mut Vec<Statement>, bag: &str, one: &Statement) {
    if !GENERAL.contains(&one.code) {
        list.push(statement::of_bag(bag, one));
    } else if !list.iter().any(|known| known.code == one.code && known.text == one.text) {
        list.push(one.clone());
    }
}
