//! How every job of a folder stands: sheets -> one row a job, whatever is wrong with it.
//!
//! In: job folders and a day; out: rows in the order in which people count. Sheets alone are read, no
//! photo, so that a thousand jobs take a moment. Not here: tables (`table`).

pub mod sheets;
pub mod table;

use std::path::{Path, PathBuf};

use chrono::NaiveDate;

use crate::document::papers::progress::Progress;
use crate::document::papers::state::{self, State};
use crate::intake;
use crate::sheet::Sheet;
use crate::workers;
use sheets::Sheets;

/// How one job stands.
#[derive(Clone, Debug)]
pub struct Row {
    /// Its number, or its folder if it has none.
    pub job: String,
    /// Its folder, as it was found.
    pub folder: String,
    /// What its sheet says; why nothing can be said, if that is so.
    pub said: Result<Said, String>,
}

/// What a sheet says of how its job stands.
#[derive(Clone, Debug)]
pub struct Said {
    /// Whose unit it is.
    pub customer: String,
    /// Model of the unit, if it is known.
    pub model: Option<String>,
    /// Where it stands.
    pub state: State,
    /// The day of the last step.
    pub since: NaiveDate,
    /// Days since then, counted from the day that was given; none for a job that went back.
    pub waiting: Option<i64>,
    /// Which papers are due and what the next one needs.
    pub progress: Progress,
    /// Days that have passed on which something was promised: `reply-by`, `options-valid-to`.
    pub overdue: Vec<&'static str>,
}

/// The rows of job folders.
pub fn rows(folders: &[PathBuf], today: NaiveDate, threads: usize) -> Vec<Row> {
    let sheets = Sheets::of(folders);
    let mut rows = workers::map(threads, folders.len(), |at| row(&folders[at], &sheets, today));
    rows.sort_by(|a, b| {
        let by_number = alphanumeric_sort::compare_str(&a.job, &b.job);
        by_number.then_with(|| a.folder.cmp(&b.folder))
    });
    rows
}

fn row(folder: &Path, sheets: &Sheets, today: NaiveDate) -> Row {
    let shown = intake::shown::shown(folder);
    match sheets.read(folder) {
        Ok((sheet, _)) => {
            let said = said(&sheet, today);
            Row { job: sheet.fields.job.0.clone(), folder: shown, said: Ok(said) }
        }
        Err(unread) => Row {
            job: unread.job.or_else(|| intake::name_of(folder)).unwrap_or_else(|| shown.clone()),
            folder: shown,
            said: Err(unread.why),
        },
    }
}

fn said(sheet: &Sheet, today: NaiveDate) -> Said {
    let fields = &sheet.fields;
    let (state, since) = (State::of(fields), state::last_step(fields));
    let promises = [
        ("reply-by", fields.arrival.reply_by.as_ref(), state < State::OptionsOffered),
        ("options-valid-to", fields.options_valid_to.as_ref(), state == State::OptionsOffered),
    ];
    let overdue = promises.into_iter().filter_map(|(field, day, is_open)| {
        (is_open && day.is_some_and(|day| day.0 < today)).then_some(field)
    });
    Said {
        customer: fields.customer.name.0.clone(),
        model: fields.unit.model.as_ref().map(|model| model.0.clone()),
        waiting: (state != State::Returned).then(|| (today - since).num_days().max(0)),
        progress: Progress::of(fields),
        overdue: overdue.collect(),
        state,
        since,
    }
}
