//! Doors that are higher than what hangs over them.

use std::collections::HashMap;

use plan_model::elements::Soffit;
use plan_model::{Id, Length};

use super::{DoorFigures, place};
use crate::RoomFigures;
use crate::conflict::convex_overlap;
use crate::kernel::Bounds;
use crate::kernel::rectangle;

/// Lowers the clear height of doors to the lowest ceiling, soffit or beam over them: over the opening, or right before it
/// on either side. Under a slope the lower jamb decides. A ceiling of which the plan says nothing lowers nothing.
pub(crate) fn lower(doors: &mut [DoorFigures], rooms: &HashMap<&Id, &RoomFigures>, soffits: &[Soffit]) {
    for door in doors {
        let ceilings = door.sides.iter().flat_map(|side| {
            let ceiling = side.room.as_ref().and_then(|room| rooms.get(room)).map(|room| &room.ceiling);
            side.line.into_iter().filter_map(move |jamb| ceiling?.height_at(jamb))
        });
        let lowered = lowest_soffit(&door.outline, soffits);
        if let Some(lowest) = ceilings.chain(lowered).min() {
            door.stands_under(lowest);
        }
    }
}

fn lowest_soffit(outline: &[plan_model::Point; 4], soffits: &[Soffit]) -> Option<Length> {
    let before = place::with_ground_before(outline);
    let bounds = Bounds::around(&before);
    let over = soffits.iter().filter(|soffit| {
        let lowered = rectangle(soffit.from, soffit.to);
        bounds.touches(Bounds::around(&lowered)) && convex_overlap(&before, &lowered)
    });
    over.map(|soffit| soffit.height).min()
}
