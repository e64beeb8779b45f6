//! What the templates see of the choices that an owner has, and of the slip to answer with.

use serde::Serialize;

use super::fact::Fact;

/// One property of every choice.
#[derive(Debug, Serialize)]
pub struct ChoiceRow {
    /// What it is: price, time.
    pub label: String,
    /// What each choice says of it, in the order of the names.
    pub cells: Vec<ChoiceCell>,
}

/// What a choice says of one property.
#[derive(Clone, Debug, Default, Serialize)]
pub struct ChoiceCell {
    /// The words; never empty.
    pub text: String,
    /// A second, quieter line; empty if there is none.
    pub under: String,
}

/// The choices side by side, all alike.
#[derive(Debug, Serialize)]
pub struct Choices {
    /// The heading.
    pub heading: String,
    /// How to read them.
    pub text: String,
    /// What is over the labels of the rows.
    pub corner: String,
    /// Names of the choices.
    pub names: Vec<String>,
    /// Their properties; the first is the price.
    pub rows: Vec<ChoiceRow>,
    /// Taxes, fees, guarantee, what an early repair costs, cautions, terms.
    pub notes: Vec<String>,
}

/// The slip to answer with.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Slip {
    /// The heading.
    pub heading: String,
    /// How to answer, and by when.
    pub how: Vec<String>,
    /// Whose answer it is.
    pub facts: Vec<Fact>,
    /// What is before the choices.
    pub ask: String,
    /// A box each, in the order of the names.
    pub choices: Vec<String>,
    /// A box each on what it may cost beyond its price; the last has a line to fill in after it.
    pub beyond: Vec<String>,
    /// Lines to fill in: day, signature.
    pub lines: Vec<String>,
    /// Where it goes, line by line.
    pub to: Vec<String>,
    /// What is before that.
    pub to_label: String,
}
