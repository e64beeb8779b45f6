//! Options on how a run speaks, which mean the same for every verb.

use clap::ValueEnum;

use crate::console::Format;

/// How every verb speaks.
#[derive(Clone, Copy, Debug, clap::Args)]
pub struct Manner {
    /// Print only what is wrong, and what was asked for by name.
    #[arg(long, short, global = true)]
    pub quiet: bool,
    /// Colours; `auto` is only on a terminal and never where `NO_COLOR` is set.
    #[arg(long, global = true, value_enum, value_name = "WHEN", default_value_t = Color::Auto)]
    pub color: Color,
}

/// When there are colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Color {
    /// On a terminal.
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

impl Color {
    /// The same for what is printed.
    pub fn choice(self) -> anstream::ColorChoice {
        match self {
            Self::Auto => anstream::ColorChoice::Auto,
            Self::Always => anstream::ColorChoice::Always,
            Self::Never => anstream::ColorChoice::Never,
        }
    }

    /// The same for help and for what is wrong with the arguments.
    pub fn of_help(self) -> clap::ColorChoice {
        match self {
            Self::Auto => clap::ColorChoice::Auto,
            Self::Always => clap::ColorChoice::Always,
            Self::Never => clap::ColorChoice::Never,
        }
    }
}

/// How an answer is printed.
#[derive(Clone, Copy, Debug, clap::Args)]
pub struct Output {
    /// Form of the output; `splitcase schema output` describes the JSON.
    #[arg(long, value_enum, default_value_t = OutputFormat::Text)]
    pub format: OutputFormat,
}

/// Form of the output.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum OutputFormat {
    /// For people.
    Text,
    /// One JSON object for scripts.
    Json,
}

impl From<OutputFormat> for Format {
    fn from(format: OutputFormat) -> Self {
        match format {
            OutputFormat::Text => Self::Text,
            OutputFormat::Json => Self::Json,
        }
    }
}
