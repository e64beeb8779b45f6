//! The receipt of a job that is about to be sealed, in the language of its papers.
//!
//! In: the job and the folder of receipts; out: what writes the page once the bag has its line. The words are read
//! before, so that a job whose words cannot be read is not sealed. Not here: the page itself (archive).

use std::path::Path;
use std::sync::Arc;

use crate::archive::receipt;
use crate::archive::request::Sealed;
use crate::document::material;
use crate::document::wording::Wording;
use crate::failure::Failure;
use crate::job::Basis;
use crate::workshop::Workshop;

/// A receipt that is to be written.
pub(super) struct Receipt<'a> {
    folder: &'a Path,
    job: &'a str,
    words: Arc<Wording>,
}

impl<'a> Receipt<'a> {
    /// That of a job; nothing if none is wanted.
    ///
    /// # Errors
    /// The words of its language cannot be read.
    pub(super) fn of(
        workshop: &Workshop,
        basis: &'a Basis,
        folder: Option<&'a Path>,
    ) -> Result<Option<Self>, Failure> {
        let Some(folder) = folder else { return Ok(None) };
        let region = material::region(&basis.language, &workshop.profile);
        let words = workshop.press.wording(basis.language.base(), region).map_err(|found| {
            let cause =
                found.first().map_or("its words cannot be read", |one| one.message.as_str());
            Failure::new("write the receipt", cause.to_owned())
        })?;
        Ok(Some(Self { folder, job: &basis.job, words }))
    }

    /// Writes it for the job's own bag.
    ///
    /// # Errors
    /// As [`receipt::write`].
    pub(super) fn write(&self, own: &Sealed) -> Result<(), Failure> {
        receipt::write(self.folder, self.job, own, &self.words).map(|_| ())
    }
}
