//! The sources that papers cite: standards and regulations by typed ids, as the table beside this file has them.
//!
//! In: `sources.yaml`; out: [`SOURCES`] and the citation of a [`SourceId`]. Words around a citation are
//! not here, and no figure is.

use std::sync::LazyLock;

use serde::Deserialize;

/// A source by its name in `sources.yaml`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum SourceId {
    /// Radial internal clearance.
    #[serde(rename = "iso-5753-1")]
    BearingClearance,
    /// Tolerance zones of shafts and holes.
    #[serde(rename = "iso-286-2")]
    Zones,
    /// Repair of electrical apparatus.
    #[serde(rename = "easa-ar100")]
    MotorRepair,
    /// Testing the insulation of machines.
    #[serde(rename = "ieee-43")]
    Insulation,
    /// Rotating electrical machines.
    #[serde(rename = "iec-60034-1")]
    Machines,
    /// Correction for background noise.
    #[serde(rename = "iso-10140-4")]
    Background,
    /// Electrically power assisted cycles.
    #[serde(rename = "en-15194")]
    Epac,
    /// Great Britain's information sheet.
    #[serde(rename = "gb-eapc")]
    GreatBritain,
    /// The three classes of California.
    #[serde(rename = "us-ca-312-5")]
    California,
    /// Type approval of two-wheelers in the European Union.
    #[serde(rename = "eu-168-2013")]
    TypeApproval,
    /// Swiss ordinance on road vehicles.
    #[serde(rename = "ch-vts")]
    Switzerland,
}

/// How well the figures of a source are known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// The text, or a table of it as others reprint it, was read.
    Read,
    /// Known, not read: a limit may not rest on it.
    Remembered,
}

/// A row of the table.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SourceRow {
    /// Its name.
    pub id: SourceId,
    /// As papers print it, the edition in it.
    pub citation: String,
    /// Edition or day; empty if none is known.
    pub edition: String,
    /// How well its figures are known.
    pub standing: Standing,
    /// What was read of it, for whoever edits figures; never printed.
    pub on: String,
}

/// Every source.
pub static SOURCES: LazyLock<Vec<SourceRow>> =
    LazyLock::new(|| embedded(include_str!("sources.yaml")));

#[expect(
    clippy::expect_used,
    reason = "an embedded table that does not parse is our own mistake, and a test reads it"
)]
fn embedded(text: &str) -> Vec<SourceRow> {
    serde_yaml::from_str(text).expect("the embedded table of sources is well-formed")
}

impl SourceId {
    /// Every source that the program can cite.
    pub const ALL: &'static [Self] = &[
        Self::BearingClearance,
        Self::Zones,
        Self::MotorRepair,
        Self::Insulation,
        Self::Machines,
        Self::Background,
        Self::Epac,
        Self::GreatBritain,
        Self::California,
        Self::TypeApproval,
        Self::Switzerland,
    ];

    /// Its row; a test holds that every source has one.
    pub fn row(self) -> Option<&'static SourceRow> {
        SOURCES.iter().find(|row| row.id == self)
    }

    /// Its citation as papers print it.
    pub fn citation(self) -> &'static str {
        self.row().map_or("", |row| &row.citation)
    }
}
