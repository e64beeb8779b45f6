//! What the templates see of money beyond the bill: the ways out side by side.

use serde::Serialize;

/// One way out.
#[derive(Debug, Serialize)]
pub struct OptionRow {
    /// What, price, what it is made of, days, what it leaves; empty where the sheet does not say.
    pub cells: Vec<String>,
    /// The words that mark the one that the owner chose.
    pub chosen: Option<String>,
}

/// The ways out side by side.
#[derive(Debug, Serialize)]
pub struct OptionsView {
    /// The speaking heading.
    pub heading: String,
    /// Heads of the table.
    pub columns: Vec<String>,
    /// One row a way out, in the order of the sheet.
    pub rows: Vec<OptionRow>,
    /// The tax in the prices, what catching it early would have cost.
    pub notes: Vec<String>,
}
