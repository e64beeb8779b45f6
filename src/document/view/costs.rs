//! What the templates see of money beyond the bill: the options side by side.

use serde::Serialize;

/// One option.
#[derive(Debug, Serialize)]
pub struct OptionRow {
    /// What, price, what it is made of, days, what it leaves; empty if the sheet does not say.
    pub cells: Vec<String>,
    /// The words that mark the one that the owner chose.
    pub chosen: Option<String>,
}

/// The options side by side.
#[derive(Debug, Serialize)]
pub struct OptionsView {
    /// The speaking heading.
    pub heading: String,
    /// Heads of the table.
    pub columns: Vec<String>,
    /// What each column holds: `words`, `figure` or `brief`; as many as heads.
    pub holds: Vec<&'static str>,
    /// One row an option, in the order of the sheet.
    pub rows: Vec<OptionRow>,
    /// The tax in the prices, how long they hold, what they are beside each other, terms.
    pub notes: Vec<String>,
}
