//! Counting what a home holds.

use plan_geometry::{Area, Derived};
use plan_model::elements::Door;
use plan_model::{DoorOperation, ElementKind, Home, Length, Per};
use rust_decimal::Decimal;

/// How many of these a home holds, as it is multiplied; none where the heated area is asked for and is unknown.
pub(super) fn count(home: &Home<'_>, derived: &Derived, per: Per) -> Option<Decimal> {
    let elements = &home.elements;
    let is_cased = |door: &&Door| {
        let unit = home.plan.catalogue.doors.iter().find(|unit| unit.id == door.unit);
        unit.is_some_and(|unit| unit.operation == DoorOperation::CasedOpening)
    };
    let number = match per {
        Per::HeatedSquareFoot => {
            return Decimal::try_from_i128_with_scale(derived.heated_area?.whole_square_feet(), 0).ok();
        }
        Per::HeatedSquareMetre => return hundredths_of_square_metres(derived.heated_area?),
        Per::Module => home.plan.modules.len(),
        Per::Rooms(usage) => elements.rooms.iter().filter(|room| room.usage == usage).count(),
        Per::Fixtures(kind) => elements.fixtures.iter().filter(|fixture| fixture.kind == kind).count(),
        Per::Elements(kind) => match kind {
            ElementKind::Doors => elements.doors.iter().filter(|door| !is_cased(door)).count(),
            ElementKind::CasedOpenings => elements.doors.iter().filter(is_cased).count(),
            ElementKind::Windows => elements.windows.len(),
            ElementKind::Columns => elements.columns.len(),
            ElementKind::Fixtures => elements.fixtures.len(),
            ElementKind::Detectors => elements.detectors.len(),
            ElementKind::Fans => elements.fans.len(),
            ElementKind::Landings => elements.landings.len(),
            ElementKind::Porches => elements.porches.len(),
        },
    };
    Some(number.into())
}

/// To the nearest hundredth of a square metre, halves up, as reports in millimetres show it.
fn hundredths_of_square_metres(area: Area) -> Option<Decimal> {
    const METRE: Length = Length::from_steps(640_000);
    let metre = Area::of_rectangle(METRE, METRE).square_steps();
    let hundredths = (200 * area.square_steps() + metre).div_euclid(2 * metre);
    Decimal::try_from_i128_with_scale(hundredths, 2).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reckoned by hand: 2,345 mm x 1,000 mm are 2.345 sq m, halfway, and go up to 2.35; one step less in width goes to 2.34.
    #[test]
    fn square_metres_are_told_to_the_hundredth() {
        let shown = |width: i64| {
            let area = Area::of_rectangle(Length::from_steps(width), Length::from_steps(640_000));
            hundredths_of_square_metres(area).map(|shown| shown.to_string())
        };
        assert_eq!(shown(2_345 * 640).as_deref(), Some("2.35"));
        assert_eq!(shown(2_345 * 640 - 1).as_deref(), Some("2.34"));
    }
}
