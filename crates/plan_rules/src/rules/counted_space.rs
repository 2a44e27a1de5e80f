use plan_geometry::{Area, Derived};
use plan_model::{Id, Length};

use super::spaces::Covered;
use super::{habitable_area, least_dimension, low_ceilings};
use crate::{Limit, RuleBook};

/// What the area and dimension rules of a book compare, for reports: a figure for each room of each space they cover.
pub(crate) struct CountedSpaces {
    dimensions: Vec<(Vec<Id>, Option<Length>)>,
    areas: Vec<(Vec<Id>, Option<Area>)>,
}

impl CountedSpaces {
    /// Nothing without a book.
    pub(crate) fn of(derived: &Derived, book: Option<&RuleBook>) -> Self {
        let rule = |id| book.and_then(|book| book.rule(id));
        let mut counted = Self { dimensions: Vec::new(), areas: Vec::new() };
        if let Some(rule) = rule(least_dimension::RULE.id)
            && let Some(Limit::Area(required)) = rule.limit(least_dimension::REQUIRED_AREA)
        {
            let required = Area::from_square_steps(required.ceil().to_integer());
            let spaces = Covered::of(rule).spaces(derived).into_iter();
            let heights = low_ceilings::of(rule);
            let figure = |space: plan_geometry::Space| {
                let floor = space.counted_floor(heights).ok();
                (space.rooms, floor.and_then(|floor| floor.least_dimension(required)))
            };
            counted.dimensions = spaces.map(figure).collect();
        }
        if let Some(rule) = rule(habitable_area::RULE.id)
            && let Some(Limit::Length(side)) = rule.limit(habitable_area::COUNTED_AT)
            && let Ok(steps) = i64::try_from(side.to_integer())
        {
            let spaces = Covered::of(rule).spaces(derived).into_iter();
            let heights = low_ceilings::of(rule);
            let figure = |space: plan_geometry::Space| {
                let floor = space.counted_floor(heights).ok();
                let area = floor.map(|floor| floor.qualifying_area(Length::from_steps(steps) - floor.slack()));
                (space.rooms, area)
            };
            counted.areas = spaces.map(figure).collect();
        }
        counted
    }

    /// At the area over which the book takes it; none where the space has less, the plan does not say which of its floor is
    /// high enough to count, or the book does not ask.
    pub(crate) fn least_dimension(&self, room: &Id) -> Option<Length> {
        self.dimensions.iter().find(|(rooms, _)| rooms.contains(room)).and_then(|(_, least)| *least)
    }

    /// At the width from which the book counts; none where the plan does not say which floor is high enough to count, or the
    /// book does not ask.
    pub(crate) fn qualifying_area(&self, room: &Id) -> Option<Area> {
        self.areas.iter().find(|(rooms, _)| rooms.contains(room)).and_then(|(_, area)| *area)
    }
}
