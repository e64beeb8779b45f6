//! Reads on past slips that quotes would mend, so that one look shows everything that is wrong.
//!
//! In: a source; out: its tree, in which each value with a slip is empty, and where those lines are:
//! what is said of them by later checks would only repeat the slip.

use std::ops::Range;

use super::yaml::{Node, parse_text};
use crate::diagnostic::source::Source;
use crate::diagnostic::{Diagnostic, Problems};

/// Most slips that are read past; a file with more is hardly a sheet.
const MOST: usize = 20;

/// A file that was read, with the lines that could not be.
#[derive(Debug, Default)]
pub(super) struct Parsed {
    /// The tree.
    pub root: Node,
    /// Bytes of the lines whose value has a slip.
    unread: Vec<Range<usize>>,
}

impl Parsed {
    /// True for a problem of a line that has a slip, which was reported already.
    pub fn is_follow_on(&self, problem: &Diagnostic) -> bool {
        self.unread.iter().any(|line| problem.place.is_in(line))
    }
}

/// Reads one document; `None` if the text is not YAML and no quotes would mend it.
pub(super) fn parse_past_slips(source: &Source, problems: &mut Problems) -> Option<Parsed> {
    let mut text = source.text().to_owned();
    let mut unread: Vec<Range<usize>> = Vec::new();
    loop {
        let mut found = Problems::default();
        match parse_text(source, &text, &mut found) {
            Ok(root) => {
                problems.extend(found.into_sorted());
                return root.map(|root| Parsed { root, unread });
            }
            Err(stop) => {
                problems.push(stop.problem);
                let slip = stop.slip.map(|value| (line_around(&text, &value), value));
                let slip = slip.filter(|(line, _)| unread.len() < MOST && !unread.contains(line));
                let Some((line, value)) = slip else {
                    problems.extend(found.into_sorted());
                    return None;
                };
                text.replace_range(value.clone(), &" ".repeat(value.len()));
                unread.push(line);
            }
        }
    }
}

fn line_around(text: &str, value: &Range<usize>) -> Range<usize> {
    let start = text[..value.start].rfind('\n').map_or(0, |at| at + 1);
    let end = text[value.end..].find('\n').map_or(text.len(), |at| value.end + at);
    start..end
}
