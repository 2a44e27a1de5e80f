//! Room tags: the name, the clear size and the area, on free floor.

mod obstacles;
mod tag;
mod words;

use kurbo::{Point, Rect};
use plan_geometry::{Derived, RoomFigures};
use plan_model::Home;

use crate::placement::{Floor, FreeFloor};
use crate::shapes::{place, rectangle};
use crate::{Drawing, Ink};
use obstacles::Obstacles;
use tag::{Layout, Tag};
use words::Words;

/// Draws the tag of every room that closed and has floor enough for one.
pub(crate) fn draw(drawing: &mut Drawing, home: &Home<'_>, derived: &Derived, lettering: f64) {
    let obstacles = Obstacles::of(home, derived);
    for figures in &derived.rooms {
        let Some(room) = home.elements.rooms.iter().find(|room| room.id == figures.id) else { continue };
        let words = Words::new(room, figures, home.plan.units);
        draw_tag(drawing, &obstacles, &words, figures, place(room.at), lettering);
    }
}

/// Draws one tag as fully as there is floor for it, the nearer to the room's point the better.
fn draw_tag(
    drawing: &mut Drawing,
    obstacles: &Obstacles,
    words: &Words,
    figures: &RoomFigures,
    anchor: Point,
    lettering: f64,
) {
    let Obstacles { fixed, furniture, furniture_edges, passing } = obstacles;
    let least = tag::LEAST * lettering;
    let floor = Floor::new(&figures.region, anchor);
    let first_fit = |among: &FreeFloor<'_>, layouts: &[Layout]| {
        layouts.iter().find_map(|layout| {
            let tag = Tag::new(words, *layout, lettering);
            let at = among.nearest(tag.size.0, tag.size.1)?;
            Some((tag, at))
        })
    };
    let clear_of_all = floor.among(fixed.iter().chain(furniture).chain(passing), least);
    let clear_of_edges = floor.among(fixed.iter().chain(furniture_edges).chain(passing), least);
    let found = first_fit(&clear_of_all, &Layout::FULL)
        .or_else(|| first_fit(&clear_of_edges, &Layout::FULL))
        .or_else(|| first_fit(&clear_of_edges, &Layout::SHORTER));
    if let Some((tag, at)) = found {
        tag.draw(drawing, at);
    } else if let Some((tag, at)) = first_fit(&floor.among(fixed, least), &Layout::NAME_ONLY) {
        // This one lies over light lines, which it has to part.
        drawing.fill(rectangle(Rect::from_center_size(at, tag.size)), Ink::Floor);
        tag.draw(drawing, at);
    }
}
