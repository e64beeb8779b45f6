//! The press: templates, fonts and the Typst library in memory, built once a run and shared.
//!
//! In: [`Templates`]; out: a Typst `World` a job with its virtual files. No disk, no packages, no clock.
//! File names are the same for every job: Typst's file ids are a small pool that is never freed.

use std::collections::{BTreeMap, HashMap};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

use typst::diag::{FileError, FileResult, PackageError};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, World};

use super::fonts;
use super::templates::Templates;
use super::wording::Wording;
use crate::diagnostic::{Diagnostic, source};
use crate::failure::Failure;

/// Papers that may not be finished within their bounds before a workshop's layouts are given up: a
/// thousand jobs should not wait a quarter of a minute each.
const MOST_RUN_OUT: usize = 3;

/// The press with its templates.
pub struct Press {
    templates: Templates,
    wordings: Mutex<BTreeMap<String, Arc<Wording>>>,
    /// How many papers the workshop's own layouts have not finished within their bounds.
    ran_out: AtomicUsize,
    sources: HashMap<FileId, (Source, source::Source)>,
}

impl Press {
    /// Sets up a press with templates.
    ///
    /// # Errors
    /// A template whose path Typst cannot name.
    pub fn new(templates: Templates) -> Result<Self, Failure> {
        let mut sources = HashMap::new();
        for (path, text) in templates.layouts() {
            let id = file_id(&format!("/templates/{path}"))?;
            sources.insert(id, (Source::new(id, text.text().to_owned()), text.clone()));
        }
        let papers = templates.layouts().filter_map(|(path, _)| path.strip_suffix(".typ"));
        for name in papers.filter(|name| !name.contains('/')) {
            let id = main_id(name)?;
            let text = main_text(name);
            let shown = source::SourceText::new(format!("main of {name}"), text.clone());
            sources.insert(id, (Source::new(id, text), shown));
        }
        Ok(Self { templates, wordings: Mutex::default(), ran_out: AtomicUsize::new(0), sources })
    }

    /// The templates and wordings of this press.
    pub fn templates(&self) -> &Templates {
        &self.templates
    }

    /// The words of a language in the forms of a region, read once a run.
    ///
    /// # Errors
    /// Every mistake in its files.
    pub fn wording(
        &self,
        language: &str,
        region: Option<&str>,
    ) -> Result<Arc<Wording>, Vec<Diagnostic>> {
        let key = format!("{language}-{}", region.unwrap_or_default());
        let mut all = self.wordings.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(wording) = all.get(&key) {
            return Ok(wording.clone());
        }
        let wording = Wording::read(&self.templates, language, region)?;
        let wording = Arc::new(wording);
        all.insert(key, wording.clone());
        Ok(wording)
    }

    /// Notes a paper that was not finished within its bounds.
    pub fn note_ran_out(&self) {
        self.ran_out.fetch_add(1, Ordering::Relaxed);
    }

    /// True if too many papers were not finished for a further one to be tried.
    pub fn is_given_up(&self) -> bool {
        MOST_RUN_OUT <= self.ran_out.load(Ordering::Relaxed)
    }

    /// The text of a template as messages show it.
    pub fn shown(&self, id: FileId) -> Option<&source::Source> {
        self.sources.get(&id).map(|(_, shown)| shown)
    }
}

/// A virtual path as Typst's file id.
pub fn file_id(path: &str) -> Result<FileId, Failure> {
    let path = VirtualPath::new(path).map_err(|error| {
        Failure::new(format!("name the template `{path}`"), format!("{error:?}"))
    })?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

/// What sets a paper: its layout, given the data of a job.
pub fn main_text(paper: &str) -> String {
    format!("#import \"/templates/{paper}.typ\": paper\n#paper(json(\"/job/data.json\"))\n")
}

fn main_id(paper: &str) -> Result<FileId, Failure> {
    file_id(&format!("/main/{paper}.typ"))
}

/// The world of one job: the press and the job's virtual files.
pub struct JobWorld<'a> {
    press: &'a Press,
    main: FileId,
    files: HashMap<FileId, Bytes>,
}

impl<'a> JobWorld<'a> {
    /// A world for one paper by its name, with its files by virtual path.
    ///
    /// # Errors
    /// A path that Typst cannot name.
    pub fn new(
        press: &'a Press,
        paper: &str,
        files: Vec<(String, Bytes)>,
    ) -> Result<Self, Failure> {
        let files = files.into_iter().map(|(path, bytes)| Ok((file_id(&path)?, bytes)));
        Ok(Self { press, main: main_id(paper)?, files: files.collect::<Result<_, Failure>>()? })
    }
}

impl World for JobWorld<'_> {
    fn library(&self) -> &LazyHash<Library> {
        &fonts::TYPE.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &fonts::TYPE.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        self.press.sources.get(&id).map(|(source, _)| source.clone()).ok_or_else(|| not_found(id))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        match self.files.get(&id) {
            Some(bytes) => Ok(bytes.clone()),
            None => self.source(id).map(Bytes::from_string),
        }
    }

    fn font(&self, index: usize) -> Option<Font> {
        fonts::TYPE.fonts.get(index).cloned()
    }

    /// There is no clock: days come from the sheet.
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn not_found(id: FileId) -> FileError {
    match id.root() {
        VirtualRoot::Package(spec) => FileError::Package(PackageError::NotFound(spec.clone())),
        VirtualRoot::Project => FileError::NotFound(id.vpath().get_without_slash().into()),
    }
}
