//! Windows, and what of them is clear.

use plan_model::elements::Window;
use plan_model::{
    Catalogue, Deduction, Exact, ExactLength, Id, Length, Point, PublishedClear, WindowOperation, WindowUnit,
};

use super::Side;
use super::clear::{HEIGHT, WIDTH, clear};
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
    /// Width of the net clear opening.
    pub clear_width: Figure,
    /// Height of the net clear opening.
    pub clear_height: Figure,
    /// Area of the net clear opening.
    pub clear_area: Figure,
    /// Bottom of the net clear opening above the floor.
    pub sill: Figure,
    /// Area of the glass.
    pub glazed_area: Figure,
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
    let missing =
        || format!("unit \"{}\" has no published clear opening, and the catalogue no deduction for it", unit.id);
    let never_opens = (unit.operation == WindowOperation::Fixed && unit.clear.is_none())
        .then(|| Figure::Known { value: Exact::from(0), basis: Basis::Stated });
    let published = |of: fn(PublishedClear) -> ExactLength| unit.clear.map(of);
    let clear_width =
        never_opens.clone().unwrap_or_else(|| clear(published(|c| c.width), deduction, unit.width, WIDTH, missing));
    let clear_height =
        never_opens.unwrap_or_else(|| clear(published(|c| c.height), deduction, unit.height, HEIGHT, missing));
    WindowFigures {
        id: window.id.clone(),
        index,
        outline,
        sides,
        clear_area: clear_width.times(&clear_height),
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
        Some((above, basis)) => {
            let frame = Exact::from(i128::from((head - unit.height).steps()));
            Figure::Known { value: frame + above.steps(), basis }
        }
        None => {
            Figure::Unknown(format!("unit \"{}\" does not say how far its clear opening is above its frame", unit.id))
        }
    }
}

fn glazed_area(unit: &WindowUnit, deduction: Option<&Deduction>) -> Figure {
    if let Some(glass) = unit.glass {
        return Figure::Known { value: glass.width.steps() * glass.height.steps(), basis: Basis::Stated };
    }
    let less = deduction.and_then(|d| Some((d.glass_width_less?.steps(), d.glass_height_less?.steps())));
    let Some((width_less, height_less)) = less else {
        return Figure::Unknown(format!(
            "unit \"{}\" has no published glass, and the catalogue no deduction for it",
            unit.id
        ));
    };
    let left = |size: Length, less: Exact| (Exact::from(i128::from(size.steps())) - less).max(Exact::from(0));
    Figure::Known { value: left(unit.width, width_less) * left(unit.height, height_less), basis: Basis::Estimated }
}
