//! Every figure of doors and windows in the list of all measures.

use plan_model::{Id, Length, Point};

use super::{DoorFigures, Leaf, WindowFigures};
use crate::kernel::{along, project};
use crate::rooms::middle;
use crate::{Amount, Derived, Figure, Mark, Measure, MeasureName};

/// Clear openings, leaves and sweeps.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let mut measures = Vec::new();
    for door in &derived.doors {
        tell_door(door, &mut measures);
    }
    let mut tell_ground = |name, of: [&Id; 2], ground: &[Point]| {
        // Only that it is so: the ground is drawn with straight pieces, which would make its area a guess.
        let amount = Amount::Possible(true);
        let marks = if ground.is_empty() { Vec::new() } else { vec![Mark::Ground(ground.to_vec())] };
        measures.push(Measure { name, part: None, of: of.map(Clone::clone).to_vec(), amount, marks });
    };
    for crossing in derived.sweep_crossings() {
        tell_ground(MeasureName::SweepCrossing, crossing.doors.each_ref(), &crossing.ground);
    }
    for swept in derived.swept_doorways() {
        tell_ground(MeasureName::SweptDoorway, [&swept.door, &swept.doorway], &swept.ground);
    }
    for window in &derived.windows {
        tell_window(window, &mut measures);
    }
    measures
}

fn tell_door(door: &DoorFigures, measures: &mut Vec<Measure>) {
    let mut tell = |name, of: Vec<Id>, amount, marks| measures.push(Measure { name, part: None, of, amount, marks });
    let own = || vec![door.id.clone()];
    let span = Mark::Span(door.clear_line());
    let outline = || vec![Mark::Ground(door.outline.to_vec())];
    tell(MeasureName::DoorClearWidth, own(), length(&door.clear_width), vec![span]);
    tell(MeasureName::DoorClearHeight, own(), length(&door.clear_height), outline());
    if let Some(Leaf { hinge, reached, stopped_by: Some(stop), .. }) = &door.leaf {
        let of = vec![door.id.clone(), stop.thing.clone()];
        let leaf = Mark::Way(vec![*hinge, *reached]);
        tell(MeasureName::LeafAngle, of, Amount::TenthsOfDegree(stop.tenths_of_degree), vec![leaf]);
    }
    if door.is_exterior {
        tell(MeasureName::GlazedArea, own(), area(&door.glazed_area), outline());
        tell(MeasureName::OpenableArea, own(), area(&door.openable_area()), outline());
    }
}

impl DoorFigures {
    /// Its clear width as it lies on the plan: from the jamb that the leaf leaves free, or else in the middle of the opening.
    pub(crate) fn clear_line(&self) -> [Point; 2] {
        let across = match &self.leaf {
            Some(leaf) => [leaf.closed, leaf.hinge],
            None => middle_line(&self.leaf_wall_outline),
        };
        clear_span(across, &self.clear_width, self.leaf.is_some())
    }
}

fn tell_window(window: &WindowFigures, measures: &mut Vec<Measure>) {
    let mut tell = |name, amount, mark| {
        measures.push(Measure { name, part: None, of: vec![window.id.clone()], amount, marks: vec![mark] });
    };
    let outline = || Mark::Ground(window.outline.to_vec());
    let span = Mark::Span(clear_span(middle_line(&window.outline), &window.clear_width, false));
    tell(MeasureName::WindowClearWidth, length(&window.clear_width), span);
    tell(MeasureName::WindowClearHeight, length(&window.clear_height), outline());
    tell(MeasureName::WindowClearArea, area(&window.clear_area), outline());
    tell(MeasureName::Sill, length(&window.sill), outline());
    tell(MeasureName::GlazedArea, area(&window.glazed_area), outline());
    tell(MeasureName::OpenableArea, area(&window.openable_area), outline());
}

fn length(figure: &Figure) -> Amount {
    known(figure).map_or_else(Amount::Unknown, Amount::OpeningLength)
}

fn area(figure: &Figure) -> Amount {
    known(figure).map_or_else(Amount::Unknown, Amount::OpeningArea)
}

fn known(figure: &Figure) -> Result<Figure, String> {
    match figure {
        Figure::Known { .. } => Ok(figure.clone()),
        Figure::Unknown(why) => Err(why.clone()),
    }
}

/// From jamb to jamb in the middle of the wall.
fn middle_line([a, b, c, d]: &[Point; 4]) -> [Point; 2] {
    [middle(*a, *d), middle(*b, *c)]
}

/// The clear width on the line of an opening: from its start, which is the jamb that a leaf leaves free, or else in the
/// middle. The whole line where it is unknown.
fn clear_span([from, to]: [Point; 2], clear_width: &Figure, from_jamb: bool) -> [Point; 2] {
    let whole = project(from, to, to).0;
    let clear = clear_width.value().and_then(|width| i64::try_from(width.floor().to_integer()).ok());
    let clear = clear.map_or(whole, Length::from_steps);
    let start = if from_jamb { Length::ZERO } else { Length::from_steps((whole - clear).steps() / 2) };
    [along(from, to, start), along(from, to, start + clear)]
}
