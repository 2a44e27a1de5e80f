use plan_geometry::{Area, Derived, Space};
use plan_model::Length;

use super::{habitable_area, least_dimension};
use crate::{BookRule, Limit, RuleBook};

/// The figures of an open space that the area and dimension rules of a book compare, for reports.
pub(crate) struct CountedSpace {
    /// At the area over which the book takes it; none where the space has less, or the book does not ask.
    pub(crate) least_dimension: Option<Length>,
    /// At the width from which the book counts; none where the book does not ask.
    pub(crate) qualifying_area: Option<Area>,
}

impl CountedSpace {
    /// For every open space of a home, in order; none for a space that no such rule covers.
    pub(crate) fn of_each(derived: &Derived, book: Option<&RuleBook>) -> Vec<Option<Self>> {
        let rule = |id| book.and_then(|book| book.rule(id));
        let (area, dimension) = (rule(habitable_area::RULE.id), rule(least_dimension::RULE.id));
        let of_space = |space: &Space| {
            let covers = |rule: &&BookRule| {
                space.rooms.iter().filter_map(|id| derived.room(id)).any(|room| rule.rooms.contains(&room.usage))
            };
            let (area, dimension) = (area.filter(covers), dimension.filter(covers));
            if area.is_none() && dimension.is_none() {
                return None;
            }
            Some(Self {
                least_dimension: dimension.and_then(|rule| match rule.limit(least_dimension::REQUIRED_AREA)? {
                    Limit::Area(required) => {
                        space.sizes.least_dimension(Area::from_square_steps(required.ceil().to_integer()))
                    }
                    _ => None,
                }),
                qualifying_area: area.and_then(|rule| match rule.limit(habitable_area::COUNTED_AT)? {
                    Limit::Length(side) => {
                        let steps = i64::try_from(side.to_integer()).ok()?;
                        Some(space.sizes.qualifying_area(Length::from_steps(steps) - space.sizes.slack()))
                    }
                    _ => None,
                }),
            })
        };
        derived.spaces.iter().map(of_space).collect()
    }
}
