//! Low ceilings as the area and dimension rules take them: floor under them is left out before anything is measured.

use plan_geometry::{CountedFloor, CountedHeights, Space};
use plan_model::Length;

use crate::book::Entry;
use crate::rule::Figures;
use crate::{BookRule, Limit, Outcome};

/// The limit under a sloped ceiling.
const UNDER_SLOPE: &str = "counted_under_slope";
/// The limit under a furred-down part of a ceiling.
const UNDER_LOWERED: &str = "counted_under_lowered";

/// The heights that a rule states; a book may leave either out.
pub(super) fn read(entry: &Entry<'_>) -> CountedHeights {
    CountedHeights {
        under_slope: entry.optional_grid_length(UNDER_SLOPE),
        under_lowered: entry.optional_grid_length(UNDER_LOWERED),
    }
}

/// The heights that a rule of a book was read with.
pub(super) fn of(rule: &BookRule) -> CountedHeights {
    let height = |name| match rule.limit(name) {
        Some(Limit::Length(steps)) => i64::try_from(steps.to_integer()).ok().map(Length::from_steps),
        _ => None,
    };
    CountedHeights { under_slope: height(UNDER_SLOPE), under_lowered: height(UNDER_LOWERED) }
}

/// The floor of a space that a rule judges.
pub(super) struct JudgedFloor {
    pub(super) floor: CountedFloor,
    /// What the plan lacks to say which floor counts; then the floor is all there is, the most that can count.
    lacks: Option<String>,
}

impl JudgedFloor {
    pub(super) fn of(space: &Space, heights: CountedHeights) -> Self {
        match space.counted_floor(heights) {
            Ok(floor) => Self { floor, lacks: None },
            Err(lacks) => Self { floor: space.whole_floor(), lacks: Some(lacks) },
        }
    }

    /// The figures of a verdict, and what is said of them. What falls short with all of the floor falls short whatever the
    /// ceiling is; else a ceiling that the plan does not hold leaves the figure unknown.
    pub(super) fn judged(&self, figures: Figures, notes: &mut Vec<String>, space: &Space) -> Figures {
        match &self.lacks {
            Some(_) if figures.outcome() == Outcome::Correction => figures,
            Some(lacks) => {
                notes.push(format!("{lacks}: how much of its floor is high enough to count is not known"));
                Figures { measured: None, ..figures }
            }
            None => {
                if self.floor.area() < space.floor_area {
                    notes.push("floor under a ceiling too low to count is left out".to_owned());
                }
                figures
            }
        }
    }
}
