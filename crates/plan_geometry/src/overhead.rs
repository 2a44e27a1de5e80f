//! Ceilings: how high, and over how much of a floor.

mod counted_floor;
mod listed;
mod slope;

use std::sync::Arc;

use plan_model::elements::{Elements, Slope};
use plan_model::{Id, Length, Point};

pub use counted_floor::{CountedFloor, CountedHeights};
pub(crate) use listed::measures;

use crate::kernel::{Bounds, difference, overlap, rectangle};
use crate::{Area, OFF_AXIS_SLACK, Problem, ProblemKind, Region};

/// The ceiling over one room.
#[derive(Clone, Debug, PartialEq)]
pub struct CeilingFigures {
    /// The lowest part over the room, lowered parts included; none if the plan says nothing of it. Under a slope rounded
    /// down to the step.
    pub lowest: Option<Length>,
    /// Whether it is flat and without lowered parts.
    pub is_flat: bool,
    room: Id,
    floor: Arc<Region>,
    ceiling: Option<Overhead>,
    /// Lowered parts over this room.
    lowered: Vec<Lowered>,
}

/// A ceiling as it is drawn: its height, at the low edge of a slope.
#[derive(Clone, Debug, PartialEq)]
struct Overhead {
    height: Length,
    slope: Option<Slope>,
}

/// A lowered part of a ceiling.
#[derive(Clone, Debug, PartialEq)]
struct Lowered {
    outline: [Point; 4],
    height: Length,
    is_beam: bool,
}

impl CeilingFigures {
    /// The ceiling over a room: the one that names it, else the one that names no room.
    pub(crate) fn of(room: &Id, floor: &Arc<Region>, elements: &Elements) -> Self {
        let named = elements.ceilings.iter().find(|ceiling| ceiling.rooms.contains(room));
        let ceiling = named.or_else(|| elements.ceilings.iter().find(|ceiling| ceiling.rooms.is_empty()));
        let ceiling = ceiling.map(|drawn| Overhead { height: drawn.height, slope: drawn.slope.clone() });
        let bounds = Bounds::around(&floor.outer);
        let near = elements.soffits.iter().filter_map(|soffit| {
            let outline = rectangle(soffit.from, soffit.to);
            let lowered = Lowered { outline, height: soffit.height, is_beam: soffit.beam };
            bounds.touches(Bounds::around(&outline)).then_some(lowered)
        });
        let lowered: Vec<Lowered> = near.filter(|lowered| lowered.is_over(floor)).collect();
        let lowest = ceiling.as_ref().map(|ceiling| {
            let drawn = match &ceiling.slope {
                None => ceiling.height,
                Some(slope) => slope::lowest_over(floor, ceiling.height, slope),
            };
            lowered.iter().map(|lowered| lowered.height).fold(drawn, Length::min)
        });
        Self {
            lowest,
            is_flat: lowered.is_empty() && ceiling.as_ref().is_some_and(|ceiling| ceiling.slope.is_none()),
            room: room.clone(),
            floor: floor.clone(),
            ceiling,
            lowered,
        }
    }

    /// Floor area of the room under a ceiling at or above a height; none if the plan does not say how high it is.
    ///
    /// Where a slope reaches the height between two steps of the grid, the strip that counts is narrower by less than a
    /// step. A beam counts as what it leaves free.
    #[must_use]
    pub fn area_at_or_above(&self, height: Length) -> Option<Area> {
        if self.is_flat {
            let reaches = self.ceiling.as_ref().is_some_and(|ceiling| ceiling.height >= height);
            return Some(if reaches { self.floor.area() } else { Area::ZERO });
        }
        Some(self.at_or_above(height)?.iter().map(Region::area).sum())
    }

    /// The parts of the floor under a ceiling at or above a height.
    pub(crate) fn at_or_above(&self, height: Length) -> Option<Vec<Region>> {
        let ceiling = self.ceiling.as_ref()?;
        let below = match &ceiling.slope {
            None if ceiling.height < height => return Some(Vec::new()),
            None => None,
            Some(slope) => slope::below(&self.floor, ceiling.height, slope, height),
        };
        let low = self.lowered.iter().filter(|lowered| lowered.height < height).map(|lowered| lowered.outline);
        let cut: Vec<[Point; 4]> = below.into_iter().chain(low).collect();
        Some(difference(&self.floor, cut.iter().map(<[Point; 4]>::as_slice)))
    }

    /// The floor under the lowest part: under a lowered part, else all of it, since a slope is lowest over a mere line.
    fn lowest_ground(&self) -> Vec<Region> {
        let lowest = self.lowered.iter().filter(|lowered| Some(lowered.height) == self.lowest);
        let lowered: Vec<Region> = lowest.flat_map(|lowered| overlap(&self.floor, &lowered.outline)).collect();
        if lowered.is_empty() { vec![(*self.floor).clone()] } else { lowered }
    }

    /// What [`Self::lowest`] may be off by: nothing but under a slope that is not square to the axes or to whose low edge
    /// the floor is not square.
    #[must_use]
    pub fn lowest_slack(&self) -> Length {
        let slope = self.ceiling.as_ref().and_then(|ceiling| ceiling.slope.as_ref());
        let is_lowered = self.lowered.iter().any(|lowered| Some(lowered.height) == self.lowest);
        let Some(slope) = slope.filter(|_| !is_lowered && self.is_off_axis()) else { return Length::ZERO };
        let risen = i128::from(OFF_AXIS_SLACK.steps()) * i128::from(slope.rise_per_foot.steps());
        let risen = -(-risen).div_euclid(Length::FOOT.steps().into());
        Length::from_steps(i64::try_from(risen).unwrap_or_default())
    }

    /// What an area of [`Self::area_at_or_above`] may be off by: half of the slack along each side of the floor, and along
    /// edges between heights, which are taken to be no longer than the sides together.
    #[must_use]
    pub fn area_slack(&self) -> Area {
        if !self.is_off_axis() {
            return Area::ZERO;
        }
        let side = |(a, b): (Point, Point)| (b.x - a.x).abs() + (b.y - a.y).abs();
        Area::of_rectangle(self.floor.sides().map(side).sum(), OFF_AXIS_SLACK)
    }

    fn is_off_axis(&self) -> bool {
        let slanted = |(a, b): (Point, Point)| a.x != b.x && a.y != b.y;
        let slope = self.ceiling.as_ref().and_then(|ceiling| ceiling.slope.as_ref());
        slope.is_some_and(|slope| slanted((slope.from, slope.to))) || self.floor.sides().any(slanted)
    }
}

impl Lowered {
    fn is_over(&self, floor: &Region) -> bool {
        let left = difference(floor, [self.outline.as_slice()]).iter().map(Region::area).sum::<Area>();
        left < floor.area()
    }
}

/// Ceilings that claim a room, or the whole home, together with another.
pub(crate) fn rivals(elements: &Elements, problems: &mut Vec<Problem>) {
    for (index, second) in elements.ceilings.iter().enumerate() {
        let rival = elements.ceilings[..index].iter().find(|first| {
            let whole = first.rooms.is_empty() && second.rooms.is_empty();
            whole || first.rooms.iter().any(|room| second.rooms.contains(room))
        });
        if let Some(first) = rival {
            let claimed = elements.rooms.iter().find(|room| second.rooms.is_empty() || second.rooms.contains(&room.id));
            let kind = ProblemKind::TwoCeilings { first: first.id.clone(), second: second.id.clone() };
            problems.push(Problem::at(kind, claimed.map_or(Point::default(), |room| room.at)));
        }
    }
}
