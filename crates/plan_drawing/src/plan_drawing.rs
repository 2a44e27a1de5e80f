use kurbo::Rect;
use plan_geometry::Derived;
use plan_model::Home;

use crate::shapes::{around, between, joined, place};
use crate::{Drawing, fixtures, furniture, marks, mate_joint, openings, overhead, rooms, site, tile, walls};

/// Lettering is never smaller, in plan inches: marks that are built from its height keep a size.
pub(crate) const SMALLEST_LETTERING: f64 = 0.5;

/// Draws the plan: everything but dimension strings, marks and redlines.
///
/// `lettering` is the height of capitals of ordinary notes in plan inches: 4.5 is 3/32 in at 1/4" = 1'-0". A screen
/// that shows the plan smaller passes more, so that notes stay readable; what then no longer fits says less.
#[must_use]
pub fn draw_plan(home: &Home<'_>, derived: &Derived, lettering: f64) -> Drawing {
    draw_plan_with_tags(home, derived, &rooms::Obstacles::of(home, derived), lettering)
}

/// The same, with the tags of rooms on floor that these obstacles leave free.
pub(crate) fn draw_plan_with_tags(
    home: &Home<'_>,
    derived: &Derived,
    obstacles: &rooms::Obstacles,
    lettering: f64,
) -> Drawing {
    let lettering = lettering.max(SMALLEST_LETTERING);
    let mut drawing = Drawing::default();
    let elements = &home.elements;
    let house = house(home, derived);
    site::draw(&mut drawing, home, house, lettering);
    walls::draw_floor(&mut drawing, derived);
    tile::draw(&mut drawing, derived);
    furniture::draw(&mut drawing, &elements.furniture, lettering);
    fixtures::draw(&mut drawing, &elements.fixtures, derived, lettering);
    overhead::draw_lowered(&mut drawing, home);
    openings::draw_boundaries(&mut drawing, home);
    walls::draw(&mut drawing, home, derived);
    mate_joint::draw(&mut drawing, home, derived);
    openings::draw(&mut drawing, home, derived, lettering);
    fixtures::draw_in_walls(&mut drawing, &elements.fixtures, derived, lettering);
    overhead::draw_symbols(&mut drawing, home);
    rooms::draw(&mut drawing, home, derived, obstacles, lettering);
    if let Some(house) = house {
        marks::draw_mate_line(&mut drawing, home, house, lettering);
    }
    drawing
}

/// The rectangle around the house itself: its footprint, or its modules while the walls do not close.
pub(crate) fn house(home: &Home<'_>, derived: &Derived) -> Option<Rect> {
    let corners = derived.footprint.iter().flat_map(|part| part.outer.iter().copied()).map(place);
    around(corners).or_else(|| joined(home.plan.modules.iter().map(|module| between(module.from, module.to))))
}
