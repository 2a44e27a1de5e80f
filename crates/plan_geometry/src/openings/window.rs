//! Windows, and what of them is clear.

use plan_model::elements::Window;
use plan_model::{Catalogue, Deduction, Exact, Id, Length, Point, WindowOperation, WindowUnit};

use super::Side;
use super::clear::{Dimension, Extent, HEIGHT, WIDTH, exact, glass, none};
use crate::{Basis, Figure};

/// A window as it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WindowFigures {
    /// The window.
    pub id: Id,
    /// Index in the home's list of windows.
    pub index: usize,
    /// The part of the wall that it takes, counter-clockwise.
    pub outline: [Point; 4],
    /// To the left of the host wall, then to the right.
    pub sides: [Side; 2],
    /// Width of the net clear opening: published for the unit, else its size less the catalogue's deduction for its
    /// operation. A slider leaves no more than half of its frame, a fixed window nothing.
    ///
    /// Source: the clear hole with the sash fully open by hand and no sash taken out (IRC R310; HUD 3280.404 (c)).
    pub clear_width: Figure,
    /// Height of the net clear opening, in the same way. A hung window leaves no more than half of its frame: whatever the
    /// split between its sashes, the longer one always covers its own length.
    pub clear_height: Figure,
    /// Area of the net clear opening: its width times its height.
    pub clear_area: Figure,
    /// Bottom of the net clear opening above the floor.
    pub sill: Figure,
    /// Area of the glass: published, else the unit's size less the catalogue's deductions.
    pub glazed_area: Figure,
    /// Area through which air comes: published as such, else that of the net clear opening.
    pub openable_area: Figure,
}

pub(super) fn figures(
    window: &Window,
    index: usize,
    unit: &WindowUnit,
    catalogue: &Catalogue,
    outline: [Point; 4],
    sides: [Side; 2],
) -> WindowFigures {
    let deduction = catalogue.deduction(unit.operation.deduction());
    let (across, up) = unit.operation.sashes();
    let width = Extent { unit: &unit.id, size: unit.width, sashes: across };
    let height = Extent { unit: &unit.id, size: unit.height, sashes: up };
    let never_opens = unit.operation == WindowOperation::Fixed;
    let clear = |dimension: Dimension, extent: &Extent<'_>| {
        if never_opens { none() } else { dimension.clear(unit.clear, deduction, extent) }
    };
    let (clear_width, clear_height) = (clear(WIDTH, &width), clear(HEIGHT, &height));
    let clear_area = clear_width.times(&clear_height);
    let vent = unit.vent.filter(|_| !never_opens);
    let vent = vent.map(|vent| WIDTH.stated(vent, &width).times(&HEIGHT.stated(vent, &height)));
    WindowFigures {
        id: window.id.clone(),
        index,
        outline,
        sides,
        openable_area: vent.unwrap_or_else(|| clear_area.clone()),
        clear_area,
        sill: sill(window, unit, deduction),
        glazed_area: glazed_area(unit, deduction),
        clear_width,
        clear_height,
    }
}

/// Bottom of the clear opening: top of the frame, less the frame's height, plus what stands below the opening.
fn sill(window: &Window, unit: &WindowUnit, deduction: Option<&Deduction>) -> Figure {
    let Some(head) = window.head.or(unit.head) else {
        return Figure::Unknown(format!("neither the window nor its unit \"{}\" says how high its head is", unit.id));
    };
    let stated = unit.sill_above_frame.map(|above| (above, Basis::Stated));
    let estimated = || deduction.and_then(|d| d.sill_above_frame).map(|above| (above, Basis::Estimated));
    match stated.or_else(estimated) {
        Some((above, basis)) => Figure::Known { value: exact(head - unit.height) + above.steps(), basis },
        None => {
            Figure::Unknown(format!("unit \"{}\" does not say how far its clear opening is above its frame", unit.id))
        }
    }
}

fn glazed_area(unit: &WindowUnit, deduction: Option<&Deduction>) -> Figure {
    if let Some(published) = unit.glass {
        return glass(published);
    }
    let less = deduction.and_then(|d| Some((d.glass_width_less?.steps(), d.glass_height_less?.steps())));
    let Some((width_less, height_less)) = less else {
        return Figure::Unknown(format!(
            "unit \"{}\" has no published glass, and the catalogue no deduction for it",
            unit.id
        ));
    };
    let left = |size: Length, less: Exact| (exact(size) - less).max(Exact::from(0));
    Figure::Known { value: left(unit.width, width_less) * left(unit.height, height_less), basis: Basis::Estimated }
}
