//! Ceilings: how high, and over how much of a floor.

use std::sync::Arc;

use plan_model::elements::{Ceiling, Elements, Slope};
use plan_model::{Id, Length, Point};

use crate::kernel::{along, difference, offset, rectangle};
use crate::{Area, Problem, ProblemKind, Region};

/// The ceiling over one room.
#[derive(Clone, Debug, PartialEq)]
pub struct CeilingFigures {
    /// The lowest part over the room, lowered parts included; none if the plan says nothing of it.
    pub lowest: Option<Length>,
    /// Whether it is flat and without lowered parts.
    pub is_flat: bool,
    floor: Arc<Region>,
    ceiling: Option<Ceiling>,
    /// Lowered parts over this room: their outline and height.
    lowered: Vec<([Point; 4], Length)>,
}

impl CeilingFigures {
    /// The ceiling over a room: the one that names it, else the one that names no room.
    pub(crate) fn of(room: &Id, floor: &Arc<Region>, elements: &Elements) -> Self {
        let named = elements.ceilings.iter().find(|ceiling| ceiling.rooms.contains(room));
        let ceiling = named.or_else(|| elements.ceilings.iter().find(|ceiling| ceiling.rooms.is_empty()));
        let lowered: Vec<_> = elements
            .soffits
            .iter()
            .map(|soffit| (rectangle(soffit.from, soffit.to), soffit.height))
            .filter(|(outline, _)| {
                let left = difference(floor, [outline.as_slice()]).iter().map(Region::area).sum::<Area>();
                left < floor.area()
            })
            .collect();
        let over = ceiling.map(|ceiling| lowest_over(floor, ceiling));
        Self {
            lowest: over.map(|over| lowered.iter().map(|(_, height)| *height).fold(over, Length::min)),
            is_flat: lowered.is_empty() && ceiling.is_some_and(|ceiling| ceiling.slope.is_none()),
            floor: floor.clone(),
            ceiling: ceiling.cloned(),
            lowered,
        }
    }

    /// Height over a place, lowered parts left out; none if the plan does not say how high it is.
    pub(crate) fn height_at(&self, place: Point) -> Option<Length> {
        self.ceiling.as_ref().map(|ceiling| height_at(ceiling, place))
    }

    /// Floor area of the room under a ceiling at or above a height; none if the plan does not say how high it is.
    #[must_use]
    pub fn area_at_or_above(&self, height: Length) -> Option<Area> {
        let ceiling = self.ceiling.as_ref()?;
        let below = match &ceiling.slope {
            None if ceiling.height < height => return Some(Area::ZERO),
            None => None,
            Some(slope) => below(&self.floor, ceiling.height, slope, height),
        };
        let low = self.lowered.iter().filter(|(_, lowered)| *lowered < height).map(|(outline, _)| outline.as_slice());
        let cut = below.iter().map(<[Point; 4]>::as_slice).chain(low);
        Some(difference(&self.floor, cut).iter().map(Region::area).sum())
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

fn lowest_over(floor: &Region, ceiling: &Ceiling) -> Length {
    if ceiling.slope.is_none() {
        return ceiling.height;
    }
    floor.outer.iter().map(|corner| height_at(ceiling, *corner)).min().unwrap_or(ceiling.height)
}

/// Height of a ceiling over a place, rounded down.
fn height_at(ceiling: &Ceiling, place: Point) -> Length {
    let Some(slope) = &ceiling.slope else { return ceiling.height };
    let away = crate::kernel::project(slope.from, slope.to, place).1.steps();
    let rise = i128::from(away) * i128::from(slope.rise_per_foot.steps());
    let rise = i64::try_from(rise.div_euclid(Length::FOOT.steps().into())).unwrap_or_default();
    (ceiling.height + Length::from_steps(rise)).min(slope.highest.unwrap_or(Length::LARGEST))
}

/// A rectangle over everything that lies below a height under a slope; none if nothing does.
fn below(floor: &Region, low_edge: Length, slope: &Slope, height: Length) -> Option<[Point; 4]> {
    let reach =
        floor.outer.iter().map(|p| crate::kernel::project(slope.from, slope.to, *p).0.abs()).max()? + Length::FOOT;
    let down = floor.outer.iter().map(|p| crate::kernel::project(slope.from, slope.to, *p).1).min()? - Length::FOOT;
    let (rise, run) = ((height - low_edge).steps(), slope.rise_per_foot.steps());
    let never = slope.highest.is_some_and(|highest| highest < height) || (run <= 0 && rise > 0);
    let away = if never {
        Length::LARGEST
    } else {
        // Rounded up: the strip that is counted is never wider than the true one.
        let away = i128::from(rise) * i128::from(Length::FOOT.steps());
        let away = -(-away).div_euclid(i128::from(run.max(1)));
        Length::from_steps(i64::try_from(away).unwrap_or(Length::LARGEST.steps()))
    };
    if away <= down {
        return None;
    }
    let up =
        away.min(floor.outer.iter().map(|p| crate::kernel::project(slope.from, slope.to, *p).1).max()? + Length::FOOT);
    let back = along(slope.from, slope.to, -reach);
    let ahead = along(slope.from, slope.to, reach);
    let at = |point: Point, left: Length| offset(point, slope.from, slope.to, left);
    Some([at(back, down), at(ahead, down), at(ahead, up), at(back, up)])
}

/// Ceilings over every room.
pub(crate) fn measures(_derived: &crate::Derived) -> Vec<crate::Measure> {
    Vec::new()
}
