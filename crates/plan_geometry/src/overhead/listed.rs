//! Ceilings in the list of all measures.

use plan_model::{Id, Length};

use super::CeilingFigures;
use crate::{Amount, Derived, Mark, Measure, MeasureName, Measured, Region};

/// Heights at which floor is asked for under a ceiling that is not flat.
///
/// Source: IRC R305.1 exception 1, HUD 3280.104 and ANSI Z765-2021 all ask for floor at 7 ft and for none, or none that
/// counts, under 5 ft.
const HEIGHTS: [(MeasureName, Length); 2] =
    [(MeasureName::FloorAtSevenFeet, Length::inches(84)), (MeasureName::FloorAtFiveFeet, Length::inches(60))];

/// The lowest ceiling of every room, and how much floor is under a ceiling that is high enough where it is not flat.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    derived.rooms.iter().flat_map(|room| listed(&room.id, &room.ceiling)).collect()
}

fn listed(room: &Id, ceiling: &CeilingFigures) -> Vec<Measure> {
    let of = || vec![room.clone()];
    let mut listed = vec![Measure {
        name: MeasureName::LowestCeiling,
        part: None,
        of: of(),
        amount: ceiling.lowest.map_or_else(
            || Amount::Unknown(format!("the plan has no ceiling over room \"{room}\"")),
            |value| Amount::Length(Measured { value, slack: ceiling.lowest_slack() }),
        ),
        marks: ceiling.lowest_ground().into_iter().map(|region| Mark::Ground(region.outer)).collect(),
    }];
    if ceiling.lowest.is_none() || ceiling.is_flat {
        return listed;
    }
    listed.extend(HEIGHTS.iter().filter_map(|(name, height)| {
        let ground = ceiling.at_or_above(*height)?;
        Some(Measure {
            part: None,
            name: *name,
            of: of(),
            amount: Amount::Area(ground.iter().map(Region::area).sum()),
            marks: ground.into_iter().map(|region| Mark::Ground(region.outer)).collect(),
        })
    }));
    listed
}
