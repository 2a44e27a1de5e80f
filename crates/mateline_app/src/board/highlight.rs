use egui::epaint::PathStroke;
use egui::{Painter, Pos2, Rect, Shape};
use kurbo::Point;
use plan_choices::Conflict;
use plan_geometry::{Mark, Measure};
use plan_model::Id;
use plan_rules::Verdict;

use super::Camera;
use crate::measured::{Known, Place};
use crate::session::{Fault, Outdoors, Shown};
use crate::theme;

/// Something that was chosen in a list and is marked on the plan.
#[derive(Clone, Debug, PartialEq)]
pub enum Highlight {
    /// A room, with what encloses it in plan inches.
    Room {
        /// The room.
        id: Id,
        /// What encloses it.
        bounds: kurbo::Rect,
    },
    /// A wall, with what encloses it in plan inches.
    Wall {
        /// The wall.
        id: Id,
        /// What encloses it.
        bounds: kurbo::Rect,
    },
    /// A porch, with what encloses it in plan inches.
    Outdoors {
        /// The porch.
        id: Id,
        /// What encloses it.
        bounds: kurbo::Rect,
    },
    /// The home as a whole, with what encloses it in plan inches.
    Home {
        /// What encloses it.
        bounds: kurbo::Rect,
    },
    /// A measure, with what encloses its marks in plan inches.
    Measure {
        /// Which one.
        known: Known,
        /// Where it was asked for.
        place: Place,
        /// What encloses it.
        bounds: Option<kurbo::Rect>,
    },
    /// The place of a verdict or problem.
    Finding {
        /// What it says: as long as that is so, the place is marked.
        message: String,
        /// What encloses its place, in plan inches.
        bounds: kurbo::Rect,
    },
}

/// A place of the model in plan inches.
#[must_use]
pub(super) fn inches(point: plan_model::Point) -> Point {
    Point::new(point.x.to_inches(), point.y.to_inches())
}

impl Highlight {
    /// A room, if it closed.
    #[must_use]
    pub fn room(shown: &Shown, id: &Id) -> Option<Self> {
        let room = shown.derived.room(id)?;
        let bounds = around(room.region.sides().map(|(from, _)| inches(from)))?;
        Some(Self::Room { id: id.clone(), bounds })
    }

    /// A wall, if it stands in this home.
    #[must_use]
    pub fn wall(shown: &Shown, id: &Id) -> Option<Self> {
        let solid = shown.derived.walls.iter().find(|solid| solid.id == *id)?;
        let bounds = around(solid.outline.iter().map(|corner| inches(*corner)))?;
        Some(Self::Wall { id: id.clone(), bounds })
    }

    /// The place of a verdict.
    #[must_use]
    pub fn verdict(verdict: &Verdict) -> Self {
        let place = &verdict.place;
        let ends = place.dimension.iter().flatten();
        let points = std::iter::once(&place.at).chain(ends).chain(&place.outline).map(|point| inches(*point));
        let at = inches(place.at);
        let bounds = around(points).unwrap_or(kurbo::Rect::from_points(at, at));
        Self::Finding { message: verdict.message.clone(), bounds }
    }

    /// The ground of a conflict.
    #[must_use]
    pub fn conflict(conflict: &Conflict) -> Option<Self> {
        let points = conflict.outlines.iter().flatten().chain(&conflict.places);
        let bounds = around(points.map(|point| inches(*point)))?;
        Some(Self::Finding { message: conflict.sentence.clone(), bounds })
    }

    /// The place of a fault of the drawing.
    #[must_use]
    pub fn fault(fault: &Fault) -> Self {
        let at = inches(fault.at);
        Self::Finding { message: fault.sentence.clone(), bounds: kurbo::Rect::from_points(at, at) }
    }

    /// A porch.
    #[must_use]
    pub fn outdoors(porch: &Outdoors) -> Self {
        let [from, to] = porch.corners.map(inches);
        Self::Outdoors { id: porch.id.clone(), bounds: kurbo::Rect::from_points(from, to) }
    }

    /// The home as a whole, if any of it closed.
    #[must_use]
    pub fn home(shown: &Shown) -> Option<Self> {
        let corners = shown.derived.footprint.iter().flat_map(|part| &part.outer);
        Some(Self::Home { bounds: around(corners.map(|corner| inches(*corner)))? })
    }

    /// A measure that was asked for in a place.
    #[must_use]
    pub fn measure(known: Known, measure: &Measure, place: &Place) -> Self {
        let points = measure.marks.iter().flat_map(|mark| match mark {
            Mark::Span(ends) => ends.to_vec(),
            Mark::Way(points) | Mark::Ground(points) => points.clone(),
            Mark::Disc { centre, diameter } => {
                let half = plan_model::Length::from_steps(diameter.steps() / 2);
                let corner = plan_model::Point::new(half, half);
                vec![*centre - corner, *centre + corner]
            }
        });
        let bounds = around(points.map(inches));
        Self::Measure { known, place: place.clone(), bounds }
    }

    /// The place whose measures are listed while this is marked.
    #[must_use]
    pub fn place(&self) -> Option<Place> {
        match self {
            Self::Room { id, .. } => Some(Place::Room(id.clone())),
            Self::Home { .. } => Some(Place::Home),
            Self::Measure { place, .. } => Some(place.clone()),
            Self::Wall { .. } | Self::Outdoors { .. } | Self::Finding { .. } => None,
        }
    }

    fn still_holds(&self, shown: &Shown) -> bool {
        match self {
            Self::Room { id, .. } => shown.derived.room(id).is_some(),
            Self::Home { .. } => true,
            Self::Measure { known, .. } => shown.measured().find(known).is_some(),
            Self::Wall { id, .. } => shown.derived.walls.iter().any(|solid| solid.id == *id),
            Self::Outdoors { id, .. } => shown.outdoors.iter().any(|porch| porch.id == *id),
            Self::Finding { message, .. } => {
                let mut verdicts = shown.judgement.iter().flat_map(|judgement| &judgement.verdicts);
                verdicts.any(|verdict| verdict.message == *message)
                    || shown.conflicts.iter().any(|conflict| conflict.sentence == *message)
                    || shown.faults.iter().any(|fault| fault.sentence == *message)
            }
        }
    }

    /// What to bring into view: the place with some of what lies around it.
    #[must_use]
    pub fn bounds(&self) -> Option<kurbo::Rect> {
        /// A door's width and a half of surroundings.
        const AROUND: f64 = 54.0;
        match self {
            Self::Room { bounds, .. }
            | Self::Wall { bounds, .. }
            | Self::Outdoors { bounds, .. }
            | Self::Home { bounds }
            | Self::Measure { bounds: Some(bounds), .. }
            | Self::Finding { bounds, .. } => Some(bounds.inflate(AROUND, AROUND)),
            Self::Measure { bounds: None, .. } => None,
        }
    }

    /// Draws the mark.
    pub fn paint(&self, shown: &Shown, camera: &Camera, board: Rect, painter: &Painter) {
        if !self.still_holds(shown) {
            return;
        }
        let stroke = PathStroke::new(2.5, theme::ACCENT);
        let outline = |corners: &[plan_model::Point]| {
            let corners: Vec<Pos2> = corners.iter().map(|corner| camera.to_screen(inches(*corner), board)).collect();
            painter.add(Shape::closed_line(corners, stroke.clone()));
        };
        match self {
            Self::Room { id, .. } => {
                let boundaries = shown.derived.room(id).into_iter().flat_map(|room| room.region.boundaries());
                boundaries.for_each(|boundary| outline(boundary));
            }
            Self::Wall { id, .. } => {
                shown.derived.walls.iter().filter(|solid| solid.id == *id).for_each(|solid| outline(&solid.outline));
            }
            Self::Home { .. } => shown.derived.footprint.iter().for_each(|part| outline(&part.outer)),
            Self::Measure { known, .. } => {
                let Some(measure) = shown.measured().find(known) else { return };
                let lettering = super::sheet::lettering(camera);
                let drawing = plan_drawing::measure_marks(measure, shown.document.plan.units, lettering);
                super::painter::paint(&super::Prepared::new(drawing), camera, board, painter);
            }
            Self::Outdoors { bounds, .. } => {
                let frame = camera.rect_to_screen(*bounds, board);
                painter.rect_stroke(frame, 0.0, egui::Stroke::new(2.5, theme::ACCENT), egui::StrokeKind::Middle);
            }
            Self::Finding { bounds, .. } => {
                let frame = camera.rect_to_screen(*bounds, board).expand(10.0);
                painter.rect_stroke(frame, 6.0, egui::Stroke::new(2.0, theme::ACCENT), egui::StrokeKind::Outside);
            }
        }
    }
}

/// What encloses some points.
pub(super) fn around(points: impl Iterator<Item = Point>) -> Option<kurbo::Rect> {
    points.map(|point| kurbo::Rect::from_points(point, point)).reduce(|a, b| a.union(b))
}
