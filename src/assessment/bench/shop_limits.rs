//! The workshop's own limits and baselines, for every unit and for a model.
//!
//! A model's figure goes before the general one, and either before a figure of common practice.
//! In: the blocks `limits:` of `workshop.yaml`; out: [`ShopLimits`].

use super::reading::in_units;
use super::verdict::{Bounds, Limit, Origin};
use crate::sheet::profile::{Limits, Profile, TorqueLimit};
use crate::sheet::quantity::Quantity;
use crate::sheet::vocabulary::CheckKind;
use rust_decimal::Decimal;

/// The limits that hold for one unit.
#[derive(Clone, Debug, Default)]
pub struct ShopLimits {
    /// For its model.
    pub model: Limits,
    /// For every unit.
    pub general: Limits,
}

impl ShopLimits {
    /// The limits of a workshop for a model.
    pub fn of(profile: &Profile, model: Option<&str>) -> Self {
        let row = profile.models.iter().find(|row| Some(row.model.0.as_str()) == model);
        Self {
            model: row.and_then(|row| row.limits.clone()).unwrap_or_default(),
            general: profile.limits.clone().unwrap_or_default(),
        }
    }

    /// A figure, and whether it is the model's.
    pub fn get<T>(&self, pick: impl Fn(&Limits) -> Option<T>) -> Option<(T, Origin)> {
        let of_model = pick(&self.model).map(|figure| (figure, Origin::ShopModel));
        of_model.or_else(|| pick(&self.general).map(|figure| (figure, Origin::Workshop)))
    }

    /// A limit from a figure; `None` if none is set or it exceeds what any bench instrument reads.
    pub fn limit<T>(
        &self,
        pick: impl Fn(&Limits) -> Option<T>,
        bounds: impl Fn(T) -> Option<Bounds>,
    ) -> Option<Limit> {
        let (figure, origin) = self.get(pick)?;
        Some(Limit::new(bounds(figure)?.sane()?, origin))
    }

    /// The limit of a check that reads one figure directly, in units of `per` base units.
    pub fn of_check(&self, check: CheckKind, per: Decimal) -> Option<Limit> {
        let edges = |own: &Limits| {
            let row = own.checks.iter().find(|row| row.check == check)?;
            Some((row.at_least.clone(), row.at_most.clone()))
        };
        let number = |edge: &Quantity| in_units(edge, per).ok();
        self.limit(edges, |(least, most)| match (&least, &most) {
            (Some(least), Some(most)) => Some(Bounds::Between(number(least)?, number(most)?)),
            (Some(least), None) => Some(Bounds::AtLeast(number(least)?)),
            (None, Some(most)) => Some(Bounds::AtMost(number(most)?)),
            (None, None) => None,
        })
    }

    /// The torque of screws, by the name that sheets use.
    pub fn torque(&self, screws: &str) -> Option<(&TorqueLimit, Origin)> {
        let named = |own: &Limits| own.torques.iter().position(|row| row.screws.0 == screws);
        match (named(&self.model), named(&self.general)) {
            (Some(at), _) => Some((self.model.torques.get(at)?, Origin::ShopModel)),
            (None, at) => Some((self.general.torques.get(at?)?, Origin::Workshop)),
        }
    }
}
