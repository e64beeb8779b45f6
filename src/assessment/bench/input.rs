//! What a bench check reads: its readings and the circumstances that its rule needs.
//!
//! In: a [`BenchCheck`] of the sheet; out: [`Input`], whose further fields the sheet may fill.
//! Every one of them may be missing; what follows from that is for each check to say.

use crate::sheet::bench::{BenchCheck, Reading};
use crate::sheet::quantity::Quantity;
use crate::sheet::text::Text;
use crate::sheet::vocabulary::{CheckKind, Chemistry, Placing, TurningRing};

/// A bench check with all that its rule may need.
#[derive(Clone, Debug, Default)]
pub struct Input {
    /// Which check.
    pub check: CheckKind,
    /// Readings as found.
    pub before: Vec<Reading>,
    /// Readings as left.
    pub after: Vec<Reading>,
    /// Temperature of the part; for a rise by resistance, of the winding before the run.
    pub at: Option<Quantity>,
    /// Temperature of the surroundings at the end of a run.
    pub ambient: Option<Quantity>,
    /// Voltage of an insulation test.
    pub test_voltage: Option<Quantity>,
    /// Sound level without the unit: one for both, or one before and one after the work.
    pub background: Vec<Reading>,
    /// Resistance of the winding before the run.
    pub cold: Option<Reading>,
    /// Resistance of the winding at the end of the run.
    pub hot: Option<Reading>,
    /// Hall states as found, three digits (`101`) or one (`5`) each, in the order they came.
    pub states_before: Vec<String>,
    /// Hall states as left.
    pub states_after: Vec<String>,
    /// How the hall sensors are placed.
    pub placing: Option<Placing>,
    /// Designation of a bearing.
    pub bearing: Option<String>,
    /// Tolerance zone of a seat, such as `k5`.
    pub zone: Option<String>,
    /// Which ring of the bearing turns.
    pub turning: Option<TurningRing>,
    /// Cells in series in a battery pack.
    pub cells: Option<u32>,
    /// Chemistry of its cells.
    pub chemistry: Option<Chemistry>,
}

impl From<&BenchCheck> for Input {
    fn from(check: &BenchCheck) -> Self {
        let fields = &check.fields;
        let states = |texts: &[Text]| texts.iter().map(|text| text.0.clone()).collect();
        Self {
            check: check.check.value,
            before: check.before.clone(),
            after: check.after.clone(),
            at: fields.at.as_ref().map(|at| at.0.clone()),
            ambient: fields.ambient.as_ref().map(|ambient| ambient.0.clone()),
            test_voltage: fields.test_voltage.as_ref().map(|voltage| voltage.0.clone()),
            background: check.background.clone(),
            cold: check.cold.clone(),
            hot: check.hot.clone(),
            states_before: states(&fields.states_before),
            states_after: states(&fields.states_after),
            placing: fields.placing,
            bearing: fields.bearing.as_ref().map(|bearing| bearing.0.clone()),
            zone: fields.zone.as_ref().map(|zone| zone.0.clone()),
            turning: fields.turning_ring,
            cells: fields.cells.map(|cells| cells.0),
            chemistry: fields.chemistry,
        }
    }
}
