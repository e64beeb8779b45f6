//! The workshop's own limits and baselines, for every unit and for a model.
//!
//! A model's figure goes before the general one, and either before a figure of common practice.
//! In: the blocks `limits:` of `workshop.yaml`; out: [`Own`].

use rust_decimal::Decimal;

use super::insulation::Correction;
use super::temperature_rise::ThermalClass;
use super::verdict::{Bounds, Limit};
use crate::sheet::profile::{Limits, Profile};
use crate::sheet::quantity::{Length, Quantity, Resistance, Share};
use crate::sheet::vocabulary::{InsulationRule, WindingClass};

/// Limits and baselines; what is `None` is not set.
#[derive(Clone, Debug, Default)]
pub struct OwnLimits {
    /// Most play of the crank along its axle.
    pub crank_axial_play: Option<Quantity>,
    /// Most play of the crank across its axle.
    pub crank_radial_play: Option<Quantity>,
    /// Most play of a hub's axle.
    pub axle_play: Option<Quantity>,
    /// Phase-to-phase resistance at 20 degC.
    pub winding_resistance: Option<Quantity>,
    /// How far the mean may be from it, %.
    pub winding_tolerance: Option<Decimal>,
    /// Most unbalance of the winding, %.
    pub winding_unbalance: Option<Decimal>,
    /// Least insulation resistance at 40 degC.
    pub insulation_resistance: Option<Quantity>,
    /// Rule by which insulation resistance is carried to 40 degC.
    pub insulation_correction: Option<Correction>,
    /// No-load current of a good unit.
    pub no_load_current: Option<Quantity>,
    /// How many times that current is still taken.
    pub no_load_factor: Option<Decimal>,
    /// Most sound level.
    pub running_noise: Option<Quantity>,
    /// Most unbalance of the driven motor's voltage, %.
    pub back_emf_unbalance: Option<Decimal>,
    /// Thermal class of the winding.
    pub thermal_class: Option<ThermalClass>,
    /// Most temperature rise, K.
    pub temperature_rise: Option<Decimal>,
    /// Cells in series in the battery pack.
    pub cells: Option<u32>,
    /// Torques of this model's screws.
    pub torques: Vec<OwnTorque>,
}

/// A torque that screws of a model are to be set to.
#[derive(Clone, Debug)]
pub struct OwnTorque {
    /// Which screws, as sheets name them.
    pub screws: String,
    /// The torque.
    pub set: Quantity,
    /// How far off it may be, %; zero where it is not given.
    pub tolerance: Option<Decimal>,
}

/// The limits that hold for one unit.
#[derive(Clone, Debug, Default)]
pub struct Own {
    /// For its model.
    pub model: OwnLimits,
    /// For every unit.
    pub general: OwnLimits,
}

impl Own {
    /// A figure, and whether it is the model's.
    pub fn get<T: Clone>(&self, pick: impl Fn(&OwnLimits) -> &Option<T>) -> Option<(T, bool)> {
        let of_model = pick(&self.model).clone().map(|figure| (figure, true));
        of_model.or_else(|| pick(&self.general).clone().map(|figure| (figure, false)))
    }

    /// A limit from a figure; `None` where none is set or it is none of this world.
    pub fn limit<T: Clone>(
        &self,
        pick: impl Fn(&OwnLimits) -> &Option<T>,
        bounds: impl Fn(T) -> Option<Bounds>,
    ) -> Option<Limit> {
        let (figure, of_model) = self.get(pick)?;
        Some(Limit::workshop(bounds(figure)?.sane()?, of_model))
    }
}

impl Own {
    /// The limits of a workshop for a model.
    pub fn of(profile: &Profile, model: Option<&str>) -> Self {
        let row = profile.models.iter().find(|row| Some(row.model.0.as_str()) == model);
        let limits =
            |limits: Option<&Limits>| limits.map_or_else(OwnLimits::default, OwnLimits::from);
        Self {
            model: limits(row.and_then(|row| row.limits.as_ref())),
            general: limits(profile.limits.as_ref()),
        }
    }
}

impl From<&Limits> for OwnLimits {
    fn from(limits: &Limits) -> Self {
        let length = |one: &Option<Length>| one.as_ref().map(|one| one.0.clone());
        let ohm = |one: &Option<Resistance>| one.as_ref().map(|one| one.0.clone());
        let share = |one: &Option<Share>| one.as_ref().map(|one| one.0.number);
        Self {
            crank_axial_play: length(&limits.crank_axial_play),
            crank_radial_play: length(&limits.crank_radial_play),
            axle_play: length(&limits.axle_play),
            winding_resistance: ohm(&limits.winding_resistance),
            winding_tolerance: share(&limits.winding_tolerance),
            winding_unbalance: share(&limits.winding_unbalance),
            insulation_resistance: ohm(&limits.insulation_resistance),
            insulation_correction: limits.insulation_correction.map(|rule| match rule {
                InsulationRule::Halving => Correction::Halving,
                InsulationRule::Thermosetting => Correction::Thermosetting,
            }),
            no_load_current: limits.no_load_current.as_ref().map(|one| one.0.clone()),
            no_load_factor: share(&limits.no_load_factor).map(|share| share / Decimal::ONE_HUNDRED),
            running_noise: limits.running_noise.as_ref().map(|one| one.0.clone()),
            back_emf_unbalance: share(&limits.back_emf_unbalance),
            thermal_class: limits.thermal_class.map(|class| match class {
                WindingClass::B => ThermalClass::B,
                WindingClass::F => ThermalClass::F,
                WindingClass::H => ThermalClass::H,
            }),
            temperature_rise: limits.temperature_rise.map(|kelvin| Decimal::from(kelvin.0)),
            cells: limits.cells.map(|cells| cells.0),
            torques: limits
                .torques
                .iter()
                .map(|torque| OwnTorque {
                    screws: torque.screws.0.clone(),
                    set: torque.set.0.clone(),
                    tolerance: torque.tolerance.as_ref().map(|share| share.0.number),
                })
                .collect(),
        }
    }
}
