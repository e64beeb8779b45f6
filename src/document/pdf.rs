//! World -> pages -> PDF bytes that conform to PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1) at once.
//!
//! Every remark of Typst, a warning too, is a problem in the template's own file.

use chrono::{Datelike, NaiveDate};
use typst::WorldExt;
use typst::diag::{Severity, SourceDiagnostic, Warned};
use typst::foundations::{Datetime, Smart};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

use super::numbered::Numbered;
use super::press::{JobWorld, Press};
use super::problems;
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place};

/// Sets the paper.
///
/// # Errors
/// Every error and warning of Typst, placed in the template.
pub fn set(world: &JobWorld<'_>, press: &Press) -> Result<PagedDocument, Vec<Diagnostic>> {
    let Warned { output, warnings } = typst::compile::<Numbered>(world);
    let Numbered(pages) = output.map_err(|errors| placed(world, press, &errors))?;
    if warnings.is_empty() { Ok(pages) } else { Err(placed(world, press, &warnings)) }
}

/// Writes the pages of a paper as PDF.
///
/// `ident` names the document for good; `day` is its date, taken from the sheet.
///
/// # Errors
/// What the standards do not allow, placed in the template.
pub fn write(
    world: &JobWorld<'_>,
    press: &Press,
    pages: &PagedDocument,
    ident: &str,
    day: NaiveDate,
) -> Result<Vec<u8>, Vec<Diagnostic>> {
    let standards = PdfStandards::new(&[PdfStandard::A_3a, PdfStandard::Ua_1])
        .map_err(|error| vec![unplaced(error.message().as_ref())])?;
    let date = Datetime::from_ymd_hms(
        day.year(),
        u8::try_from(day.month()).unwrap_or(1),
        u8::try_from(day.day()).unwrap_or(1),
        12,
        0,
        0,
    );
    let options = PdfOptions {
        ident: Smart::Custom(ident.to_owned()),
        creator: Smart::Custom(Some(concat!("splitcase ", env!("CARGO_PKG_VERSION")).to_owned())),
        timestamp: date.map(Timestamp::new_utc),
        standards,
        ..PdfOptions::default()
    };
    let mut pdf =
        typst_pdf::pdf(pages, &options).map_err(|errors| placed(world, press, &errors))?;
    // A signature added later needs an end of line here (ISO 19005-3, 6.1.9).
    if !pdf.ends_with(b"\n") {
        pdf.push(b'\n');
    }
    Ok(pdf)
}

fn placed(world: &JobWorld<'_>, press: &Press, found: &[SourceDiagnostic]) -> Vec<Diagnostic> {
    found.iter().map(|one| diagnostic(world, press, one)).collect()
}

fn unplaced(message: &str) -> Diagnostic {
    problems::typst(Place::whole(&SourceText::named("report-templates")), message, Vec::new())
}

fn diagnostic(world: &JobWorld<'_>, press: &Press, found: &SourceDiagnostic) -> Diagnostic {
    let place = found.span.id().and_then(|id| {
        let shown = press.shown(id)?;
        Some(Place::at(shown, world.range(found.span)?))
    });
    let place = place.unwrap_or_else(|| Place::whole(&SourceText::named("report-templates")));
    let hints = found.hints.iter().map(|hint| hint.v.to_string()).collect();
    let prefix = if found.severity == Severity::Warning { "Typst warns: " } else { "" };
    problems::typst(place, &format!("{prefix}{}", found.message), hints)
}
