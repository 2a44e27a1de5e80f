//! Room tags: the name, the clear size and the area, on free floor.

mod leader;
mod obstacles;
mod tag;
mod words;

use kurbo::{Point, Rect};
use plan_geometry::{Derived, RoomFigures};
use plan_model::Home;

use crate::placement::{Floor, FreeFloor};
use crate::shapes::{place, rectangle};
use crate::{Drawing, Ink};
pub(crate) use obstacles::Obstacles;
use tag::{Layout, Tag};
use words::Words;

/// Draws the tag of every room that closed, fully where there is floor for it; a room that is too small even for its
/// abbreviation is named beside it, with a leader.
pub(crate) fn draw(drawing: &mut Drawing, home: &Home<'_>, derived: &Derived, obstacles: &Obstacles, lettering: f64) {
    let mut taken = Vec::new();
    let mut left_over = Vec::new();
    for figures in &derived.rooms {
        let Some(room) = home.elements.rooms.iter().find(|room| room.id == figures.id) else { continue };
        let words = Words::new(room, figures, home.plan.units);
        let anchor = place(room.at);
        match placed(obstacles, &words, figures, anchor, lettering) {
            Some((tag, at, ground)) => {
                let extent = Rect::from_center_size(at, tag.size);
                if ground == Ground::Patched {
                    drawing.fill(rectangle(extent), Ink::Floor);
                }
                taken.push(extent);
                tag.draw(drawing, at);
            }
            None => left_over.push((words, anchor)),
        }
    }
    for (words, anchor) in left_over {
        leader::draw(drawing, derived, obstacles, &mut taken, &words, anchor, lettering);
    }
}

/// What a tag stands on.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Ground {
    Clear,
    /// Light lines, which it has to part.
    Patched,
}

/// One tag as fully as there is floor for it, the nearer to the room's point the better.
fn placed<'words>(
    obstacles: &Obstacles,
    words: &'words Words,
    figures: &RoomFigures,
    anchor: Point,
    lettering: f64,
) -> Option<(Tag<'words>, Point, Ground)> {
    let Obstacles { fixed, furniture, furniture_edges, storage } = obstacles;
    let least = tag::LEAST * lettering;
    let floor = Floor::new(&figures.region, anchor);
    let tags = |layouts: &[Layout]| -> (Vec<Tag<'words>>, Vec<(f64, f64)>) {
        layouts
            .iter()
            .map(|layout| Tag::new(words, *layout, lettering))
            .map(|tag| {
                let size = tag.size;
                (tag, size)
            })
            .unzip()
    };
    let first_fit = |among: &FreeFloor<'_>, layouts: &[Layout]| {
        let (mut tags, sizes) = tags(layouts);
        let (index, at) = among.first_fit(&sizes)?;
        Some((tags.swap_remove(index), at, Ground::Clear))
    };
    let over = |among: &FreeFloor<'_>, layouts: &[Layout]| {
        let (mut tags, sizes) = tags(layouts);
        let (index, at) = among.least_covering(&sizes, furniture.iter().chain(storage))?;
        Some((tags.swap_remove(index), at, Ground::Patched))
    };
    let clear_of_all = floor.among(fixed.iter().chain(furniture).chain(storage), least);
    let clear_of_edges = floor.among(fixed.iter().chain(furniture_edges).chain(storage), least);
    let over_furniture = floor.among(fixed.iter().chain(storage), least);
    let over_all = floor.among(fixed, least);
    let full = || first_fit(&clear_of_all, &Layout::FULL).or_else(|| first_fit(&clear_of_edges, &Layout::FULL));
    let sized = || {
        first_fit(&clear_of_edges, &Layout::SIZED)
            .or_else(|| over(&over_furniture, &Layout::SIZED_OVER))
            .or_else(|| over(&over_all, &Layout::SMALL_SIZED))
    };
    let named = || {
        first_fit(&clear_of_edges, &Layout::NAMED)
            .or_else(|| over(&over_all, &Layout::NAMED))
            .or_else(|| over(&over_all, &Layout::SHORT))
    };
    match words.says {
        words::Says::Name => named(),
        words::Says::SizeWhereFree => full().or_else(|| first_fit(&clear_of_edges, &Layout::SIZED)).or_else(named),
        words::Says::Size => full().or_else(sized).or_else(named),
    }
}
