//! What of a saved file changes a sheet: saved file and sheet -> changes, or why there are none.
//!
//! A photo's marks are replaced only if the page has shown or saved them itself: what somebody typed
//! meanwhile is never dropped. A finding that the sheet has by now is not added again.

#![allow(clippy::similar_names, reason = "what is used and where")]

use super::change::{self, Change};
use super::pieces;
use super::places::{self, FindingPlace, PhotoList, Step, Use};
use super::problems;
use super::saved::{SavedFile, SavedPhoto};
use crate::diagnostic::{Diagnostic, Place};
use crate::sheet::Sheet;
use crate::sheet::findings::Finding;
use crate::sheet::piece::Piece;
use crate::sheet::yaml::Content;

/// Keys of a finding behind which its photos go, and those behind which photos after the work go.
const BEFORE_PHOTOS: &[&str] =
    &["part", "called", "condition", "signs", "bearing", "heading", "note"];
const BEFORE_PHOTOS_AFTER: &[&str] =
    &["part", "called", "condition", "signs", "bearing", "heading", "note", "photos", "action"];

/// A saved file beside the sheet that it is for.
struct Merge<'a> {
    sheet: &'a Sheet,
    saved: &'a SavedFile,
    photos: &'a [&'a str],
    findings: Vec<FindingPlace>,
    uses: Vec<Use>,
    decimal_comma: bool,
    problems: Vec<Diagnostic>,
    changes: Vec<Change>,
}

/// The changes that a saved file asks of a sheet; none if the sheet says it all already.
///
/// # Errors
/// Every reason why one of them cannot be made; then none is.
pub fn changes(
    sheet: &Sheet,
    saved: &SavedFile,
    photos: &[&str],
    decimal_comma: bool,
) -> Result<Vec<Change>, Vec<Diagnostic>> {
    let findings = places::findings(&sheet.tree);
    let uses = places::uses(sheet, decimal_comma);
    let mut merge = Merge {
        sheet,
        saved,
        photos,
        findings,
        uses,
        decimal_comma,
        problems: Vec::new(),
        changes: Vec::new(),
    };
    merge.job();
    merge.known_photos();
    for (at, photo) in saved.fields.photos.iter().enumerate() {
        merge.photo(at, photo);
    }
    merge.new_findings();
    if merge.problems.is_empty() { Ok(merge.changes) } else { Err(merge.problems) }
}

impl Merge<'_> {
    fn place(&self, span: &std::ops::Range<usize>) -> Place {
        Place::at(&self.saved.source, span.clone())
    }

    fn job(&mut self) {
        let own = self.sheet.tree.get("job").map(|job| &job.content);
        if let (Some(saved), Some(Content::Scalar(own))) = (&self.saved.fields.job, own)
            && saved.value.0 != *own
        {
            let problem = problems::other_job(self.place(&saved.span), &saved.value.0, own);
            self.problems.push(problem);
        }
    }

    /// Every photo that the file names is one of the job's.
    fn known_photos(&mut self) {
        let fields = &self.saved.fields;
        let of_findings =
            fields.findings.iter().flat_map(|one| one.photos.iter().chain(&one.photos_after));
        let all = fields.photos.iter().map(|one| &one.photo).chain(of_findings);
        let unknown = all.filter(|used| !self.photos.contains(&used.file.0.as_str()));
        let unknown: Vec<Diagnostic> = unknown
            .map(|used| {
                problems::photo_unknown(self.place(&used.file.span), &used.file.0, self.photos)
            })
            .collect();
        self.problems.extend(unknown);
    }

    fn photo(&mut self, nth: usize, saved: &SavedPhoto) {
        let file = &saved.photo.file;
        let place = self.place(&file.span);
        let list = saved.list.value;
        let Some(finding) = self.finding(saved) else { return };
        let is_same = |other: &SavedPhoto| {
            other.photo.file.0 == file.0
                && other.list.value == list
                && other.finding.map(|count| count.0) == saved.finding.map(|count| count.0)
        };
        let uses = self.uses.iter().filter(|used| {
            used.list == list && used.finding == finding && used.file.as_deref() == Some(&file.0)
        });
        let uses: Vec<&Use> = uses.collect();
        let is_double = self.saved.fields.photos[..nth].iter().any(is_same);
        match uses.as_slice() {
            _ if is_double => self.problems.push(problems::photo_twice(place, &file.0)),
            [] => self.add_photo(saved, finding),
            [used] => match &used.marks {
                None => self.problems.push(problems::marks_unreadable(place, &file.0)),
                Some(marks) if *marks == saved.photo.marks => {}
                Some(marks) => {
                    let is_known = saved.replaces.iter().any(|before| before.marks == *marks);
                    if !marks.is_empty() && !is_known {
                        let at = places::at(&self.sheet.tree, &used.path);
                        let span = at.map_or(0..0, |node| node.span.clone());
                        let own = self.sheet.place(&span);
                        return self.problems.push(problems::marks_changed(place, &file.0, own));
                    }
                    self.changes.push(Change::Marks {
                        photo: used.path.clone(),
                        old: marks.clone(),
                        new: saved.photo.marks.clone(),
                        decimal_comma: self.decimal_comma,
                    });
                }
            },
            _ => self.problems.push(problems::photo_twice(place, &file.0)),
        }
    }

    /// The finding of a saved photo, counted from 0; the inner `None` for lists of no finding.
    #[allow(clippy::option_option, reason = "no finding needed is not no finding found")]
    fn finding(&mut self, saved: &SavedPhoto) -> Option<Option<usize>> {
        if !saved.list.value.is_of_finding() {
            return Some(None);
        }
        let part = saved.part.as_ref().map_or("", |part| part.0.as_str());
        let number = saved.finding.and_then(|count| usize::try_from(count.0).ok()?.checked_sub(1));
        let has_part = |at: &usize| self.findings.get(*at).is_some_and(|own| own.part == part);
        let alike: Vec<usize> = (0..self.findings.len()).filter(has_part).collect();
        match (number.filter(has_part), alike.as_slice()) {
            (Some(at), _) => Some(Some(at)),
            (None, [one]) => Some(Some(*one)),
            (None, _) => {
                let place = self.place(&saved.photo.file.span);
                self.problems.push(problems::finding_unknown(place, part, &saved.photo.file.0));
                None
            }
        }
    }

    fn add_photo(&mut self, saved: &SavedPhoto, finding: Option<usize>) {
        let list = saved.list.value;
        let block = places::block_of(list, finding);
        let place = self.place(&saved.photo.file.span);
        if places::at(&self.sheet.tree, &block)
            .is_none_or(|node| !matches!(node.content, Content::Map(_)))
        {
            let missing = list.word().split('.').next().unwrap_or_default();
            return self.problems.push(problems::block_missing(
                place,
                missing,
                &saved.photo.file.0,
            ));
        }
        let piece = pieces::photo(&saved.photo, self.decimal_comma);
        for change in &mut self.changes {
            if let Change::Add { block: own, key, items, .. } = change
                && *own == block
                && *key == list.key()
            {
                return items.push(piece);
            }
        }
        let behind = match list {
            PhotoList::Found => BEFORE_PHOTOS,
            PhotoList::Left => BEFORE_PHOTOS_AFTER,
            PhotoList::Arrival | PhotoList::Exchange => &[],
        };
        self.changes.push(Change::Add { block, key: list.key(), behind, items: vec![piece] });
    }

    /// The findings that the sheet has not yet.
    fn new_findings(&mut self) {
        let fields = &self.saved.fields;
        let mut shown: Vec<&str> = fields.shown.iter().map(|part| part.0.as_str()).collect();
        let path = [Step::Key("strip-down"), Step::Key("findings")];
        let list = places::at(&self.sheet.tree, &path).map(|list| &list.content);
        let own = if let Some(Content::List(items)) = list { items.as_slice() } else { &[] };
        // Findings that came into the sheet after the page was made.
        let mut since = Vec::new();
        for (place, node) in self.findings.iter().zip(own) {
            match shown.iter().position(|part| *part == place.part) {
                Some(at) => drop(shown.swap_remove(at)),
                None => since.push((place.part.as_str(), node)),
            }
        }
        let (mut pieces, mut found) = (Vec::new(), Vec::new());
        for finding in &fields.findings {
            let piece = pieces::finding(finding, self.decimal_comma);
            let node = piece.node();
            match since.iter().position(|(_, own)| change::same(own, &node)) {
                Some(at) => drop(since.swap_remove(at)),
                None => {
                    pieces.push(piece);
                    found.push(finding);
                }
            }
        }
        let doubled: Vec<Diagnostic> = found
            .iter()
            .filter(|finding| since.iter().any(|(part, _)| *part == finding.part.name()))
            .map(|finding| self.doubled(finding))
            .collect();
        self.problems.extend(doubled);
        if !pieces.is_empty() {
            self.add_findings(pieces, found[0]);
        }
    }

    fn doubled(&self, finding: &Finding) -> Diagnostic {
        problems::finding_since(self.place(&finding.part.span), finding.part.name())
    }

    fn add_findings(&mut self, pieces: Vec<Piece>, first: &Finding) {
        if self.sheet.tree.get("strip-down").is_some() {
            let block = vec![Step::Key("strip-down")];
            let behind: &[&str] = &["date", "by"];
            return self.changes.push(Change::Add {
                block,
                key: "findings",
                behind,
                items: pieces,
            });
        }
        let Some(opened) = &self.saved.fields.opened else {
            let place = self.place(&first.part.span);
            return self.problems.push(problems::no_strip_down(place));
        };
        let value = Piece::Fields(vec![
            ("date", Piece::word(opened.0.to_string())),
            ("findings", Piece::Lines(pieces)),
        ]);
        self.changes.push(Change::Put { block: Vec::new(), key: "strip-down", value });
    }
}
