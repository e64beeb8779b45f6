//! The templates and wordings: those in the program, replaced file by file by the workshop's own.
//!
//! In: the workshop's files as read by the intake; out: texts by their path below `report-templates`.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use include_dir::{Dir, include_dir};

use crate::diagnostic::source::{Source, SourceText};
use crate::digest::Digest;

static EMBEDDED: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/report-templates");

/// Texts by path (`return-report.typ`, `wording/en/lead.jinja`), with the name that messages show.
#[derive(Clone, Debug)]
pub struct Templates {
    files: BTreeMap<String, Source>,
    /// Paths of the files that are the workshop's own.
    house: BTreeSet<String>,
    digest: Digest,
}

static BUILT_IN: LazyLock<Templates> = LazyLock::new(|| Templates::of(embedded(), BTreeSet::new()));

fn embedded() -> BTreeMap<String, Source> {
    let mut files = BTreeMap::new();
    let mut folders = vec![&EMBEDDED];
    while let Some(folder) = folders.pop() {
        folders.extend(folder.dirs());
        for file in folder.files() {
            let path = file.path().to_string_lossy().replace('\\', "/");
            if let Some(text) = file.contents_utf8() {
                let name = format!("report-templates/{path}");
                files.insert(path, SourceText::new(name, text));
            }
        }
    }
    files
}

impl Templates {
    /// The templates of the program alone.
    pub fn built_in() -> Self {
        BUILT_IN.clone()
    }

    /// The templates of the program with the workshop's own in place of those of the same path.
    pub fn with_house(own: Vec<(String, Source)>) -> Self {
        let mut files = BUILT_IN.files.clone();
        let house = own.iter().map(|(path, _)| path.clone()).collect();
        files.extend(own);
        Self::of(files, house)
    }

    fn of(files: BTreeMap<String, Source>, house: BTreeSet<String>) -> Self {
        let mut all = Vec::new();
        for (path, source) in &files {
            for part in [path, source.text()] {
                all.extend((part.len() as u64).to_be_bytes());
                all.extend(part.as_bytes());
            }
        }
        Self { files, house, digest: Digest::of(&all) }
    }

    /// SHA-256 over all paths and texts.
    pub fn digest(&self) -> Digest {
        self.digest
    }

    /// The file at a path.
    pub fn get(&self, path: &str) -> Option<&Source> {
        self.files.get(path)
    }

    /// True for a file that is the workshop's own: a stranger's, as far as its reader is concerned.
    pub fn is_house(&self, path: &str) -> bool {
        self.house.contains(path)
    }

    /// The workshop's own files with their paths, in order.
    pub fn house(&self) -> impl Iterator<Item = (&str, &Source)> {
        self.iter().filter(|(path, _)| self.house.contains(*path))
    }

    /// True if a layout is the workshop's own, so that Typst runs a stranger's program.
    pub fn has_house_layouts(&self) -> bool {
        self.layouts().any(|(path, _)| self.house.contains(path))
    }

    /// Every file with its path, in order.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Source)> {
        self.files.iter().map(|(path, source)| (path.as_str(), source))
    }

    /// The layouts, which Typst reads.
    pub fn layouts(&self) -> impl Iterator<Item = (&str, &Source)> {
        self.iter().filter(|(path, _)| path.rsplit('.').next() == Some("typ"))
    }

    /// True if the papers can be written in a language.
    pub fn speaks(&self, language: &str) -> bool {
        self.files.contains_key(&format!("wording/{language}/labels.yaml"))
    }

    /// The languages of the papers, in order.
    pub fn languages(&self) -> Vec<&str> {
        let labels = self.files.keys().filter_map(|path| path.strip_suffix("/labels.yaml"));
        labels.filter_map(|path| path.strip_prefix("wording/")).collect()
    }
}
