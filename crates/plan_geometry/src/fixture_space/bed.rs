use plan_model::Id;
use plan_model::elements::Furniture;

use super::ahead::{Ahead, Base};
use super::clearance::Clearance;
use super::standing::Standing;
use crate::{Measure, MeasureName};

/// Free space beside a bed, to walls, closed doors and whatever else is no furniture: a night stand takes nothing.
///
/// Source of what is measured: common practice, no source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BedSpace {
    /// The bed.
    pub id: Id,
    /// From the side on the left as seen from the foot, over the whole length of the bed.
    pub left: Clearance,
    /// The same on the right.
    pub right: Clearance,
    /// From the foot, over the whole width.
    pub foot: Clearance,
}

impl BedSpace {
    pub(super) fn measures(&self) -> [Measure; 3] {
        [
            self.left.measure_of_strip(MeasureName::BedLeft, &self.id),
            self.right.measure_of_strip(MeasureName::BedRight, &self.id),
            self.foot.measure_of_strip(MeasureName::BedFoot, &self.id),
        ]
    }
}

pub(super) fn beds(standing: &Standing<'_>, beds: &[Furniture]) -> Vec<BedSpace> {
    let space = |bed: &Furniture| {
        let [head_left, foot_left, foot_right, head_right] = crate::outline(bed.at, bed.faces, bed.width, bed.depth);
        let beside = |side| Ahead::of(Base::outside(side)?, standing.region, &standing.obstructions).clearance();
        Some(BedSpace {
            id: bed.id.clone(),
            left: beside([head_left, foot_left])?,
            right: beside([foot_right, head_right])?,
            foot: beside([foot_left, foot_right])?,
        })
    };
    beds.iter().filter_map(space).collect()
}
