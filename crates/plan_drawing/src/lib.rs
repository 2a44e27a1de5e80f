//! The plan as drawn: a finished list of shapes, lines and lettering that screen and paper only read.
//!
//! Coordinates are inches on the plan, x to the right and y up (towards the back of the house), as `f64`: nothing here
//! is ever compared with a limit. Pens are as wide as on paper at 1/4" = 1'-0".

mod dimensions;
mod drawing;
mod fixtures;
mod frame;
mod furniture;
mod grips;
mod item;
mod lettering;
mod marks;
mod mate_joint;
mod measures;
mod notation;
mod openings;
mod overhead;
mod palette;
mod placement;
mod plan_drawing;
mod redlines;
mod rooms;
mod rule_example;
mod shapes;
mod site;
mod tile;
mod walls;

pub use dimensions::{Rows, dimension_strings};
pub use grips::grips;
pub use item::{Align, Drawing, Face, Ink, Item, Lettering, Pen};
pub use marks::{front_mark, graphic_scale};
pub use measures::measure_marks;
pub use palette::Rgba;
pub use plan_drawing::draw_plan;
pub use redlines::redlines;
pub use rule_example::{ExampleDrawing, draw_example};
