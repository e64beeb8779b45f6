//! The scores of signs against the stated causes, in words.

use super::section::{Section, Table, counted};
use crate::overview::likelihood::Counts;
use crate::overview::scores::Compared;

/// The section on the scores; causes are worded by the caller.
pub(super) fn section(compared: &Compared, cause: &dyn Fn(&str) -> String) -> Section {
    let Compared { jobs, agreed, would_agree, pairs, rows } = compared;
    let heading = "Scores of signs against the stated causes".to_owned();
    let mut text = vec![format!(
        "In {agreed} of {} with a stated cause the signs lead to that cause by the scores in force. A \
         technician who sees what the signs lead to states it more easily, so agreement does not prove a score.",
        counted(*jobs, "opened unit")
    )];
    if rows.is_empty() {
        let pairs = counted(*pairs, "pair");
        text.push(format!(
            "No score would change; enough jobs to compare had {pairs} of sign and cause."
        ));
        return Section { heading, text, ..Section::default() };
    }
    text.push(format!(
        "By rows learnt from the other jobs, each job left out in its turn, it would be in {would_agree}. Of {} of \
         sign and cause that were compared these would change. A sign that a sheet does not name counts as not \
         seen. The intervals are at 99 %: of a hundred pairs about one lies outside by chance.",
        counted(*pairs, "pair")
    ));
    text.push(
        "Nothing is changed. The file scores-proposed.yaml has the rows as they would stand in workshop.yaml."
            .to_owned(),
    );
    let rows = rows.iter().map(|row| {
        let Counts { seen_with, with, seen_without, without } = row.counts;
        let whose = if row.is_own { "own" } else { "built in" };
        vec![
            row.sign.replace('-', " "),
            cause(row.cause),
            format!("{} ({whose})", row.score),
            row.proposed.to_string(),
            format!("{seen_with} of {with}"),
            format!("{seen_without} of {without}"),
            format!("{} ({})", row.ratio(), row.interval()),
        ]
    });
    let columns = vec![
        "Sign",
        "Cause",
        "Score",
        "Would be",
        "Seen with it",
        "Seen otherwise",
        "Times as often, 99 %",
    ];
    let table = Some(Table { columns, rows: rows.collect() });
    Section { heading, text, table, ..Section::default() }
}
