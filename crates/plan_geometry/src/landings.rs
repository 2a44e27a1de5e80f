//! Landings outside exterior doors.

use plan_model::{Id, Length, Point};

use crate::kernel::project;
use crate::{Amount, Derived, DoorFigures, Mark, Measure, MeasureName, Measured, OFF_AXIS_SLACK};

/// The level place outside a door, as the door sees it.
///
/// Source of what is measured: IRC R311.3 and R311.3.1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LandingFigures {
    /// The door.
    pub door: Id,
    /// The landing.
    pub landing: Id,
    /// How much of it lies before the door's wall, along the wall.
    pub width: Measured,
    /// From the outside face of the wall to its far edge, square to the wall; nothing where it does not begin at the wall.
    pub depth: Measured,
    /// Whether it lies before the whole opening of the door.
    pub spans_the_door: bool,
    /// Top of the threshold down to the landing, as the plan states it.
    pub below_threshold: Length,
    /// Its corners.
    pub outline: [Point; 4],
}

impl Derived {
    /// The landings of exterior doors, in the order of the file. A landing of a door that is not in the home, or does not lead
    /// outdoors, is none.
    #[must_use]
    pub fn landings(&self) -> &[LandingFigures] {
        &self.landings
    }
}

pub(crate) fn landings(landings: &[plan_model::elements::Landing], doors: &[DoorFigures]) -> Vec<LandingFigures> {
    let of_door = |landing: &plan_model::elements::Landing| {
        let door = doors.iter().find(|door| door.id == landing.door && door.is_exterior)?;
        let [start, end] = door.sides.iter().find(|side| side.is_outdoors)?.line;
        let outline = crate::kernel::rectangle(
            Point::new(landing.from.x.min(landing.to.x), landing.from.y.min(landing.to.y)),
            Point::new(landing.from.x.max(landing.to.x), landing.from.y.max(landing.to.y)),
        );
        let seen = outline.map(|corner| project(start, end, corner));
        // Outdoors is where the middle of the landing is; the line may run either way.
        let is_left = seen.iter().map(|(_, aside)| *aside).sum::<Length>() >= Length::ZERO;
        let ahead = seen.map(|(_, aside)| if is_left { aside } else { -aside });
        let along = seen.map(|(along, _)| along);
        let (first, last) = (along.iter().min().copied()?, along.iter().max().copied()?);
        let (near, far) = (ahead.iter().min().copied()?, ahead.iter().max().copied()?);
        let is_square = start.x == end.x || start.y == end.y;
        let slack = if is_square { Length::ZERO } else { OFF_AXIS_SLACK };
        let depth = if near <= slack { far.max(Length::ZERO) } else { Length::ZERO };
        let opening = project(start, end, end).0;
        Some(LandingFigures {
            door: door.id.clone(),
            landing: landing.id.clone(),
            width: Measured { value: last - first, slack },
            depth: Measured { value: depth, slack },
            spans_the_door: first <= slack && last + slack >= opening,
            below_threshold: landing.below_threshold,
            outline,
        })
    };
    landings.iter().filter_map(of_door).collect()
}

/// Width and depth of landings, and how far they lie below thresholds.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let told = |landing: &LandingFigures| {
        let measure = |name, length| Measure {
            name,
            part: None,
            of: vec![landing.door.clone(), landing.landing.clone()],
            amount: Amount::Length(length),
            marks: vec![Mark::Ground(landing.outline.to_vec())],
        };
        [
            measure(MeasureName::LandingWidth, landing.width),
            measure(MeasureName::LandingDepth, landing.depth),
            measure(MeasureName::BelowThreshold, Measured::exact(landing.below_threshold)),
        ]
    };
    derived.landings().iter().flat_map(told).collect()
}
