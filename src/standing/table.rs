//! Rows of jobs as a table for a terminal, as CSV for a spreadsheet, as results for scripts.
//!
//! Nothing is printed here.

use serde_json::{Value, json};

use super::{Row, Said};
use crate::diagnostic::source::escape_control;
use crate::failure::Failure;
use crate::spreadsheet;

/// Columns of a terminal that the table keeps to.
const WIDTH: usize = 80;
/// Letters of a number and of a name that are shown; longer ones are cut.
const NUMBER: usize = 14;
const NAME: usize = 18;

/// What stands in the place of a state that is not known.
const UNREAD: &str = "not readable";

/// The table for people, its heading first; what a job still needs has a line of its own where it
/// would not fit beside the rest.
pub fn text(rows: &[Row]) -> Vec<String> {
    let head = ["job", "customer", "state", "days", "still needs"].map(str::to_owned);
    let cells: Vec<[String; 5]> = std::iter::once(head).chain(rows.iter().map(cells)).collect();
    let width = |at: usize| cells.iter().map(|row| row[at].chars().count()).max().unwrap_or(0);
    let widths = [0, 1, 2, 3].map(width);
    let lines = |row: &[String; 5]| {
        let [job, customer, state, days, needs] = row;
        let [a, b, c, d] = widths;
        let row = format!("{job:a$}  {customer:b$}  {state:c$}  {days:>d$}");
        let line = format!("{row}  {needs}");
        match line.trim_end().chars().count() <= WIDTH {
            true => vec![line.trim_end().to_owned()],
            false => vec![row, cut(&format!("{:a$}  {needs}", ""), WIDTH)],
        }
    };
    cells.iter().flat_map(lines).collect()
}

fn cells(row: &Row) -> [String; 5] {
    let job = cut(&escape_control(&row.job), NUMBER);
    match &row.said {
        Ok(said) => [
            job,
            cut(&said.customer, NAME),
            said.state.words().to_owned(),
            said.waiting.map(|days| days.to_string()).unwrap_or_default(),
            needs(said),
        ],
        Err(why) => [job, String::new(), UNREAD.to_owned(), String::new(), escape_control(why)],
    }
}

/// What is overdue, then the next paper and the fields that it needs; no paper is next when the last
/// one is due.
fn needs(said: &Said) -> String {
    let overdue = said.overdue.iter().map(|field| format!("{field} is past"));
    let next = said.progress.next.as_ref().map(|next| match next.needs.as_slice() {
        [] => next.paper.clone(),
        needs => format!("{} for {}", needs.join(", "), next.paper),
    });
    overdue.chain(next).collect::<Vec<_>>().join("; ")
}

fn cut(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let kept: String = text.chars().take(most - 1).collect();
    format!("{}\u{2026}", kept.trim_end())
}

/// One object a row.
pub fn results(rows: &[Row]) -> Vec<Value> {
    rows.iter().map(result).collect()
}

fn result(row: &Row) -> Value {
    let said = row.said.as_ref().ok();
    json!({
        "job": row.job,
        "folder": row.folder,
        "state": state(row),
        "customer": said.map(|said| &said.customer),
        "model": said.and_then(|said| said.model.as_ref()),
        "since": said.map(|said| said.since.to_string()),
        "days-waiting": said.and_then(|said| said.waiting),
        "due": said.map_or_else(Vec::new, |said| said.progress.due.clone()),
        "next": said.and_then(|said| said.progress.next.as_ref()),
        "overdue": said.map_or_else(Vec::new, |said| said.overdue.clone()),
        "unread-because": row.said.as_ref().err(),
    })
}

fn state(row: &Row) -> Option<String> {
    row.said.as_ref().ok().map(|said| said.state.words().replace(' ', "-"))
}

/// The rows as CSV (RFC 4180) with a heading; several values of one cell have a blank between them.
///
/// # Errors
/// It cannot be written, which memory does not refuse.
pub fn csv(rows: &[Row]) -> Result<String, Failure> {
    let head = [
        "job",
        "state",
        "since",
        "days-waiting",
        "customer",
        "model",
        "due",
        "next-paper",
        "needs",
        "overdue",
        "folder",
        "unread-because",
    ];
    spreadsheet::csv(&head, rows.iter().map(line))
}

fn line(row: &Row) -> Vec<String> {
    let said = row.said.as_ref().ok();
    let next = said.and_then(|said| said.progress.next.as_ref());
    let text = |text: Option<String>| text.unwrap_or_default();
    vec![
        row.job.clone(),
        text(state(row)),
        text(said.map(|said| said.since.to_string())),
        text(said.and_then(|said| Some(said.waiting?.to_string()))),
        text(said.map(|said| said.customer.clone())),
        text(said.and_then(|said| said.model.clone())),
        text(said.map(|said| said.progress.due.join(" "))),
        text(next.map(|next| next.paper.clone())),
        text(next.map(|next| next.needs.join(" "))),
        text(said.map(|said| said.overdue.join(" "))),
        row.folder.clone(),
        text(row.said.as_ref().err().cloned()),
    ]
}
