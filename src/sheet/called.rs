//! What a sheet calls a part in words of its own.
//!
//! In: findings and the marked tree; out: the name of every part that the catalogue lacks, so that
//! an unknown word costs no job and is printed all the same. Which names are known is not here.

use super::catalogue::OTHER;
use super::findings::{Finding, FindingsSheet};
use super::text::{Text, as_words};
use super::yaml::{Content, Node};

impl Finding {
    /// What the sheet calls the part in words of its own; `None` if it leaves that to the wording.
    pub fn own_name(&self) -> Option<&str> {
        self.called.as_ref().map(|text| text.0.as_str()).filter(|text| !text.is_empty())
    }
}

/// Gives every part that the catalogue lacks the words that were typed for it as its name, if
/// the finding does not call it anything.
pub(super) fn keep_typed_names(tree: &Node, fields: &mut FindingsSheet) {
    let typed = tree.get("strip-down").and_then(|strip| strip.get("findings"));
    let Some(Content::List(items)) = typed.map(|list| &list.content) else { return };
    let findings = fields.strip_down.iter_mut().flat_map(|strip| &mut strip.findings);
    for (item, finding) in items.iter().zip(findings) {
        let typed = item.get("part").map(|part| &part.content);
        let Some(Content::Scalar(text)) = typed else { continue };
        if finding.part.is_other() && text != OTHER && finding.own_name().is_none() {
            finding.called = Some(Text(as_words(text)));
        }
    }
}
