//! Many bags in one answer: judgements of bags -> the statements on a whole archive.

use std::collections::BTreeMap;

use super::judgement::Judgement;
use super::words::vouchers::Voucher;
use super::words::{self, Statement, papers};

/// Statements on one bag that are counted over all of them instead of being repeated.
const COUNTED: &[&str] = &[
    "archive/whole",
    "archive/partly",
    "archive/tag-files",
    "archive/paper-fits",
    "archive/carried-sheet",
    "archive/history",
];
/// Statements that say the same of every bag.
const GENERAL: &[&str] = &["archive/own-clock", "archive/camera-clock", "archive/signature"];
/// Most statements of one kind on single bags.
const SHOWN: usize = 8;

/// What was found so far.
#[derive(Debug, Default)]
pub(super) struct Summary {
    bags: usize,
    whole: usize,
    files: usize,
    papers: usize,
    unread_pages: usize,
    unsigned: usize,
    histories: usize,
    vouchers: Vec<Voucher>,
    stamps: usize,
    shown: List,
    not_shown: List,
}

/// What is said of a whole archive.
pub(super) struct Said {
    /// What was found.
    pub shown: Vec<Statement>,
    /// What is not shown.
    pub not_shown: Vec<Statement>,
    /// Who vouches for every bag.
    pub vouchers: Vec<Voucher>,
}

impl Summary {
    /// Counts a bag with this many files as listed, flaws from the register included.
    pub(super) fn add(&mut self, bag: &str, files: usize, judged: &Judgement) {
        let held = judged.shown.iter().any(|one| one.code == "archive/history");
        self.histories += usize::from(held);
        self.bags += 1;
        self.files += files;
        self.whole += usize::from(judged.flaws.is_empty() && judged.could_not.is_empty());
        for statement in &judged.shown {
            self.papers += usize::from(statement.code == "archive/paper-fits");
            if !COUNTED.contains(&statement.code) {
                self.shown.keep(bag, statement);
            }
        }
        for statement in &judged.not_shown {
            match statement.code {
                "archive/unsigned" => self.unsigned += 1,
                "archive/pages-not-compared" => self.unread_pages += 1,
                _ => self.not_shown.keep(bag, statement),
            }
        }
        for voucher in &judged.vouchers {
            self.stamps += usize::from(voucher.by == "authority");
            if voucher.by != "authority" && !self.vouchers.contains(voucher) {
                self.vouchers.push(voucher.clone());
            }
        }
    }

    /// What is said of an archive in which this many bags are registered.
    pub(super) fn statements(self, registered: usize) -> Said {
        let mut shown = Vec::new();
        if self.whole > 0 {
            shown.push(match self.whole == self.bags && self.bags == registered {
                true => words::all_bags(self.bags, self.files),
                false => words::some_bags(self.whole, registered),
            });
        }
        if self.papers > 0 {
            shown.push(papers::all_papers(self.papers));
        }
        if self.histories > 0 {
            shown.push(words::histories(self.histories));
        }
        shown.extend(self.shown.statements());
        let mut not_shown = Vec::new();
        if self.unread_pages > 0 {
            not_shown.push(papers::pages_of_archive(self.unread_pages));
        }
        if self.unsigned > 0 {
            not_shown.push(words::unsigned_bags(self.unsigned, self.bags));
        }
        not_shown.extend(self.not_shown.statements());
        let mut vouchers = self.vouchers;
        if self.stamps > 0 {
            vouchers.push(Voucher::authority_of_bags(self.stamps, self.bags));
        }
        Said { shown, not_shown, vouchers }
    }
}

/// Statements on single bags, of each kind no more than people read.
#[derive(Debug, Default)]
struct List {
    kept: Vec<Statement>,
    counts: BTreeMap<&'static str, usize>,
}

impl List {
    /// Keeps a statement once; one that is about a single bag with its name.
    fn keep(&mut self, bag: &str, one: &Statement) {
        if GENERAL.contains(&one.code) {
            if !self.kept.contains(one) {
                self.kept.push(one.clone());
            }
            return;
        }
        let count = self.counts.entry(one.code).or_default();
        *count += 1;
        if *count <= SHOWN {
            self.kept.push(words::of_bag(bag, one));
        }
    }

    fn statements(self) -> Vec<Statement> {
        let more = self.counts.into_iter().filter(|(_, count)| *count > SHOWN);
        let more = more.map(|(code, count)| words::more_bags(code, count - SHOWN));
        self.kept.into_iter().chain(more).collect()
    }
}
