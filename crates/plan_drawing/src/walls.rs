use plan_geometry::Derived;
use plan_model::Home;
use plan_model::elements::ColumnKind;

use crate::shapes::{between, lines, rectangle, region};
use crate::{Drawing, Ink, Pen};

/// Fills the floor of the whole house; walls and fixtures lie over it.
pub(crate) fn draw_floor(drawing: &mut Drawing, derived: &Derived) {
    for part in &derived.footprint {
        drawing.fill(region(part), Ink::Floor);
    }
}

/// Fills what the cutting plane cuts: walls, then columns and chases.
pub(crate) fn draw(drawing: &mut Drawing, home: &Home<'_>, derived: &Derived) {
    for part in &derived.wall_regions {
        drawing.fill(region(part), Ink::Wall);
    }
    for column in &home.elements.columns {
        let solid = between(column.from, column.to);
        drawing.fill(rectangle(solid), Ink::Wall);
        match column.kind {
            ColumnKind::Column => {}
            ColumnKind::Chase => {
                let hollow = solid.inset(-1.5);
                if hollow.width() > 1.0 && hollow.height() > 1.0 {
                    drawing.fill(rectangle(hollow), Ink::Floor);
                    let crossed = lines([
                        ((hollow.x0, hollow.y0), (hollow.x1, hollow.y1)),
                        ((hollow.x0, hollow.y1), (hollow.x1, hollow.y0)),
                    ]);
                    drawing.stroke(crossed, Pen::FINE, Ink::Fine);
                }
            }
        }
    }
}
