use plan_model::Id;
use plan_model::elements::RoomUse;

use super::ahead::{Ahead, Base};
use super::clearance::Clearance;
use crate::passage::side_of;
use crate::{Measure, MeasureName, RoomFigures};

/// The depth of a closet behind one of its doors or cased openings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClosetDepth {
    /// The closet.
    pub room: Id,
    /// Its door or open boundary.
    pub doorway: Id,
    /// From the doorway's line on the closet's face of the wall, square to it, to the back wall; over the width of the
    /// doorway. What stands or hangs in the closet takes nothing from it.
    pub depth: Clearance,
}

impl ClosetDepth {
    pub(super) fn measure(&self) -> Measure {
        let mut measure = self.depth.measure(MeasureName::ClosetDepth, &self.room);
        measure.of.push(self.doorway.clone());
        measure
    }
}

impl RoomFigures {
    /// The depth behind each doorway of a closet; nothing for a room of another use.
    ///
    /// Source of what is measured: 24 CFR 3280.109 (closets for clothes); the back wall to the inner face of the front.
    #[must_use]
    pub fn closet_depths(&self) -> Vec<ClosetDepth> {
        if self.usage != RoomUse::Closet {
            return Vec::new();
        }
        let depth = |doorway: &crate::Doorway| {
            let [a, b] = doorway.line;
            let (p, q) = side_of(&self.region, doorway.line)?;
            // The floor lies to the left of its sides.
            let base = if crate::region::dot(p, q, p + (b - a)) > 0 { Base::new(a, b) } else { Base::new(b, a) };
            let depth = Ahead::of(base?, &self.region, []).clearance()?;
            Some(ClosetDepth { room: self.id.clone(), doorway: doorway.id.clone(), depth })
        };
        self.doorways().iter().filter_map(depth).collect()
    }
}
