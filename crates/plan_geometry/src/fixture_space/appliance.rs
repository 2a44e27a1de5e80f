use plan_model::Id;
use plan_model::elements::{Fixture, FixtureKind};

use super::ahead::Base;
use super::clearance::Clearance;
use super::standing::Standing;
use crate::conflict::fixture_outline;

/// Free space before an appliance or a piece of equipment: a refrigerator, range, dishwasher, washer, dryer, stacked
/// laundry, furnace, water heater or electrical panel.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ApplianceSpace {
    /// The appliance.
    pub id: Id,
    /// What it is.
    pub kind: FixtureKind,
    /// From its front, over a strip as wide as the appliance.
    pub front: Clearance,
}

pub(super) fn appliances(standing: &Standing<'_>, panels: &[Fixture]) -> Vec<ApplianceSpace> {
    let appliance = |(index, fixture): (usize, &Fixture)| {
        Some(ApplianceSpace { id: fixture.id.clone(), kind: fixture.kind, front: standing.front(index)? })
    };
    let panel = |panel: &Fixture| {
        let [_, left, right, _] = fixture_outline(panel);
        let front = standing.ahead_of(Base::outside([left, right])?, |_, _| true).clearance()?;
        Some(ApplianceSpace { id: panel.id.clone(), kind: panel.kind, front })
    };
    standing.of_kinds(is_appliance).filter_map(appliance).chain(panels.iter().filter_map(panel)).collect()
}

const fn is_appliance(kind: FixtureKind) -> bool {
    use FixtureKind::{Dishwasher, Dryer, Furnace, Range, Refrigerator, StackedLaundry, Washer, WaterHeater};
    matches!(kind, Refrigerator | Range | Dishwasher | Washer | Dryer | StackedLaundry | Furnace | WaterHeater)
}
