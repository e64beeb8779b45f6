//! The file that the page saves: bytes -> typed values, as careful as with any stranger's file.
//!
//! It is YAML within the bounds of a sheet. Marks and findings in it are read by the sheet's own
//! definition, so what is wrong with them is said in the sheet's own words.

use crate::diagnostic::source::Source;
use crate::diagnostic::{Place, Problems};
use crate::sheet::date::Date;
use crate::sheet::encoding;
use crate::sheet::findings::Finding;
use crate::sheet::number::Count;
use crate::sheet::photo_use::{Mark, PhotoUse};
use crate::sheet::reader::{Marked, Reader, Value, record};
use crate::sheet::text::{JobNumber, Text};
use crate::sheet::yaml::{self, Content};

use super::places::PhotoList;
use super::problems;

record! {
    /// What the page saved.
    pub struct Saved {
        /// Number of the job, if its sheet had one.
        job: Option<Marked<JobNumber>>, "HD-2614";
        /// Photos whose marks or place changed.
        photos: Vec<SavedPhoto>, "";
        /// Day of the strip-down, if the sheet had none.
        opened: Option<Date>, "2026-03-04";
        /// Parts of the findings that the page showed: others came into the sheet since.
        shown: Vec<Text>, "[main-bearing-drive-side]";
        /// New findings.
        findings: Vec<Finding>, "";
    }
}

record! {
    /// A photo with the marks that it is to have.
    pub struct SavedPhoto {
        /// The list of the sheet that it is in, or goes into.
        list: Marked<PhotoList>, "photos";
        /// The finding that the list belongs to, counted from 1.
        finding: Option<Count>, "1";
        /// The part of that finding as the sheet names it.
        part: Option<Text>, "main-bearing-drive-side";
        /// The line of the sheet: name and marks.
        photo: PhotoUse, "{file: bearing.jpg, marks: [{ring: F4}]}";
        /// Marks that the page has shown or saved here before: others are somebody else's.
        replaces: Vec<MarksBefore>, "[{marks: []}]";
    }
}

record! {
    /// The marks of a photo at some time.
    pub struct MarksBefore {
        /// The marks.
        marks: Vec<Mark>, "[{ring: F4}]";
    }
}

/// A saved file with its text, for problems that only a comparison with the sheet finds.
pub struct SavedFile {
    /// Its text.
    pub source: Source,
    /// What it says.
    pub fields: Saved,
}

/// Reads a saved file; whatever is odd in it is an error, since the page writes nothing odd.
pub fn read(
    name: &str,
    bytes: &[u8],
    decimal_comma: bool,
    problems: &mut Problems,
) -> Option<SavedFile> {
    let source = match encoding::decode(name, bytes) {
        Ok(source) => source,
        Err(problem) => {
            problems.push(problem);
            return None;
        }
    };
    let mut found = Problems::default();
    let tree = yaml::parse(&source, &mut found);
    let is_block = tree.as_ref().is_some_and(|tree| matches!(tree.content, Content::Map(_)));
    let Some(tree) = tree.filter(|_| is_block) else {
        problems.extend(problems::as_errors(found));
        problems.push(problems::not_saved(Place::whole(&source)));
        return None;
    };
    let mut reader = Reader::new(&source, decimal_comma, &mut found);
    let fields = reader.whole(|reader| Saved::read(&tree, reader));
    let is_empty =
        fields.as_ref().is_some_and(|saved| saved.photos.is_empty() && saved.findings.is_empty());
    problems.extend(problems::as_errors(found));
    if is_empty && !problems.has_errors() {
        problems.push(problems::nothing_saved(Place::whole(&source)));
    }
    fields.map(|fields| SavedFile { source, fields })
}
