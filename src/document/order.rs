//! A paper as the press sets it: its layout, the files that it sees, its lasting name, its day.
//!
//! In: an [`Order`] and a [`Press`]; out: pages, then PDF bytes. What is written on it is `papers`.

use chrono::NaiveDate;
use typst::foundations::Bytes;
use typst_layout::PagedDocument;

use super::pdf;
use super::press::{JobWorld, Press};
use super::refusal::Refusal;

/// A paper that is ready to be set.
pub struct Order {
    /// Name of its layout.
    pub paper: String,
    /// Its data as `/job/data.json`, its photos and what it carries, by virtual path.
    pub files: Vec<(String, Bytes)>,
    /// Names the document for good.
    pub ident: String,
    /// The day of the document.
    pub day: NaiveDate,
}

impl Order {
    /// The pages.
    ///
    /// # Errors
    /// Problems in the layout, each in its own file.
    pub fn pages(&self, press: &Press) -> Result<PagedDocument, Refusal> {
        let world = JobWorld::new(press, &self.paper, self.files.clone())?;
        pdf::set(&world, press).map_err(Refusal::Problems)
    }

    /// The pages as PDF.
    ///
    /// # Errors
    /// What the standards do not allow, each at its place in the layout.
    pub fn pdf(&self, press: &Press, pages: &PagedDocument) -> Result<Vec<u8>, Refusal> {
        let world = JobWorld::new(press, &self.paper, self.files.clone())?;
        pdf::write(&world, press, pages, &self.ident, self.day).map_err(Refusal::Problems)
    }

    /// Both steps.
    ///
    /// # Errors
    /// As of each.
    pub fn print(&self, press: &Press) -> Result<Vec<u8>, Refusal> {
        self.pdf(press, &self.pages(press)?)
    }
}
