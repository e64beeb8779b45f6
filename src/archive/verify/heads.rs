//! The heads of the register that were noted in files of their own, their signatures and time stamps.
//!
//! Files at the top of an archive, its register -> a judgement, and up to which line somebody whom the
//! reader accepts signed. Not here: a head that the reader brings along (`archive`).

use std::collections::BTreeSet;
use std::path::Path;

use super::judgement::{Against, Judgement};
use super::source;
use super::trust::{self, Covers};
use super::{times, words};
use crate::archive::layout::{QUERY_END, REPLY_END, SIGNATURE_END, head_file, head_line};
use crate::archive::problems;
use crate::archive::register::head::{self, History};
use crate::archive::register::read::Register;
use crate::archive::trust::rfc3161;
use crate::digest::Digest;
use crate::failure::Failure;

/// What noted heads show.
#[derive(Debug, Default)]
pub(super) struct Heads {
    /// Statements, vouchers, flaws.
    pub judgement: Judgement,
    /// The last line that an accepted signer vouches for; 0 if there is none.
    pub signed: u64,
    /// The last line that an accepted authority vouches for; 0 if there is none.
    pub stamped: u64,
}

/// Judges every noted head.
pub(super) fn judge(
    archive: &Path,
    files: &BTreeSet<String>,
    register: &Register,
    against: &Against<'_>,
) -> Heads {
    let mut heads = Heads::default();
    let lines: BTreeSet<u64> = files.iter().filter_map(|name| Some(head_line(name)?.0)).collect();
    for line in lines {
        let head = Head { archive, files, register, against, line, name: head_file(line) };
        head.judge(&mut heads);
    }
    heads
}

/// One noted head and what is beside it.
struct Head<'a> {
    archive: &'a Path,
    files: &'a BTreeSet<String>,
    register: &'a Register,
    against: &'a Against<'a>,
    line: u64,
    name: String,
}

impl Head<'_> {
    fn judge(&self, heads: &mut Heads) {
        let found = &mut heads.judgement;
        if !self.files.contains(&self.name) {
            let ends = [SIGNATURE_END, QUERY_END, REPLY_END].map(|end| self.beside(end));
            let there = ends.iter().filter(|name| self.files.contains(*name));
            found.flaws.extend(there.map(|name| problems::head_alone(name)));
            return;
        }
        let text = match source::read_file(&self.archive.join(&self.name), head::MAX_BYTES) {
            Ok(text) => text,
            Err(failure) => return found.could_not.push(failure),
        };
        let head = History::read(&text).filter(|head| head.line == self.line);
        // Up to the line after it, which holds its digest, nothing may be wrong.
        let is_sound = self.register.flaws.iter().all(|flaw| flaw.line() > self.line + 1);
        if !head.is_some_and(|head| head.is_in(self.register)) || !is_sound {
            return found.flaws.push(problems::head_file(&self.name, self.line));
        }
        let lines = self.register.whole_lines;
        found.shown.push(words::head_file(&self.name, self.line, lines));
        let covers = Covers::Register { line: self.line, lines };
        if let Some(signed) = self.signature(covers, &text) {
            if !signed.vouchers.is_empty() {
                heads.signed = heads.signed.max(self.line);
            }
            heads.judgement.join(self.named(signed));
        }
        heads.judgement.join(self.query(&text));
        if let Some(stamped) = self.stamp(covers, &text) {
            if !stamped.vouchers.is_empty() {
                heads.stamped = heads.stamped.max(self.line);
            }
            heads.judgement.join(self.named(stamped));
        }
    }

    fn beside(&self, end: &str) -> String {
        format!("{}{end}", self.name)
    }

    /// The bytes of a file beside the head, if it is there.
    fn bytes(&self, end: &str) -> Option<Result<Vec<u8>, Failure>> {
        let name = self.beside(end);
        let is_there = self.files.contains(&name);
        is_there.then(|| source::read_file(&self.archive.join(name), trust::MAX_BYTES))
    }

    fn signature(&self, covers: Covers, text: &[u8]) -> Option<Judgement> {
        let name = self.beside(SIGNATURE_END);
        Some(match self.bytes(SIGNATURE_END)? {
            Ok(bytes) => {
                let place = self.archive.join(&name);
                trust::signature_over(covers, text, &bytes, &name, &place, self.against)
            }
            Err(failure) => unread(failure),
        })
    }

    fn query(&self, text: &[u8]) -> Judgement {
        let mut found = Judgement::default();
        match self.bytes(QUERY_END) {
            Some(Ok(bytes)) if bytes != rfc3161::query(&Digest::of(text)) => {
                found.flaws.push(problems::query(&self.beside(QUERY_END)));
            }
            Some(Err(failure)) => found.could_not.push(failure),
            Some(Ok(_)) | None => {}
        }
        found
    }

    fn stamp(&self, covers: Covers, text: &[u8]) -> Option<Judgement> {
        let name = self.beside(REPLY_END);
        let bytes = match self.bytes(REPLY_END)? {
            Ok(bytes) => bytes,
            Err(failure) => return Some(unread(failure)),
        };
        let place = self.archive.join(&name);
        let (mut found, at) =
            trust::stamp_over(covers, text, &bytes, &name, &place, None, self.against);
        let early = at.and_then(|at| times::of_stamp_of_head(&name, at, self.line, self.register));
        if early.is_some() {
            found.vouchers.clear();
        }
        found.flaws.extend(early);
        Some(found)
    }

    /// The same with the head's name before each statement.
    fn named(&self, mut found: Judgement) -> Judgement {
        for statement in found.shown.iter_mut().chain(&mut found.not_shown) {
            *statement = words::of_bag(&self.name, statement);
        }
        found
    }
}

fn unread(failure: Failure) -> Judgement {
    Judgement { could_not: vec![failure], ..Judgement::default() }
}
