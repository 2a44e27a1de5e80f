use std::cell::OnceCell;

use egui::Vec2;
use plan_drawing::Drawing;

use super::mark_places::MarkPlaces;
use super::{Camera, Prepared};
use crate::keynote;
use crate::session::Shown;

/// Height of capitals of a drawing's lettering as it is on paper, in plan inches.
const ON_PAPER: f64 = 4.5;
/// Height of capitals below which a figure is not read from across a desk, in screen points.
const LEAST_ON_SCREEN: f64 = 8.7;
/// Lettering grows by this factor at once when one zooms out, so that the drawing is not made anew at every turn.
const BUCKET: f64 = 1.12;

/// Screen points to a plan inch below which the dimension strings would take more of the board than the house.
const ROOM_FOR_STRINGS: f64 = 0.73;
/// Screen points to a plan inch from which on they are drawn on the smallest board, whose edges they then pass.
const STRINGS_FOR_SURE: f64 = 1.3;

/// The drawing of what is shown, made anew only when the document or the size of lettering changes.
#[derive(Default)]
pub(super) struct Sheet {
    made: Option<Made>,
    /// Whether the board was found too small for dimension strings when the whole plan was last fitted to it.
    is_cramped: bool,
}

struct Made {
    key: Key,
    prepared: Prepared,
    marks: OnceCell<MarkPlaces>,
}

/// What a drawing depends on.
#[derive(Clone, Copy, PartialEq)]
struct Key {
    revision: u64,
    lettering: i32,
    surroundings: Surroundings,
}

/// What is drawn around the plan beside the FRONT mark and the graphic scale.
#[derive(Clone, Copy, PartialEq)]
enum Surroundings {
    Strings,
    Nothing,
}

impl Sheet {
    /// What encloses the drawing that was last made, in plan inches.
    pub(super) fn bounds(&self) -> Option<kurbo::Rect> {
        self.made.as_ref()?.prepared.bounds
    }

    pub(super) fn prepared(&mut self, shown: &Shown, camera: &Camera) -> &Prepared {
        let surroundings = if self.is_cramped && camera.zoom < STRINGS_FOR_SURE {
            Surroundings::Nothing
        } else {
            Surroundings::Strings
        };
        let key = Key { revision: shown.revision, lettering: bucket(camera.zoom), surroundings };
        let made = self.made.take().filter(|made| made.key == key);
        let make = || Made { key, prepared: Prepared::new(drawing(shown, height(key.lettering), surroundings)), marks: OnceCell::new() };
        &self.made.insert(made.unwrap_or_else(make)).prepared
    }

    /// Where the choices' marks stand on the drawing that was last made.
    pub(super) fn marks(&self, shown: &Shown) -> Option<&MarkPlaces> {
        let made = self.made.as_ref()?;
        // As large in plan inches as a mark is wherever this lettering is used.
        let side = f64::from(keynote::SIDE) / LEAST_ON_SCREEN * height(made.key.lettering);
        Some(made.marks.get_or_init(|| MarkPlaces::new(shown, &made.prepared.lettering, side)))
    }

    /// The places that lettering takes on the drawing that was last made.
    pub(super) fn lettering(&self) -> &[kurbo::Rect] {
        self.made.as_ref().map_or(&[], |made| &made.prepared.lettering)
    }

    /// Whether the dimension strings are left out for want of room.
    pub(super) fn leaves_out_strings(&self) -> bool {
        self.made.as_ref().is_some_and(|made| made.key.surroundings == Surroundings::Nothing)
    }

    /// The camera that shows the whole drawing on a board of this size.
    pub(super) fn whole(&mut self, shown: &Shown, board: Vec2) -> Camera {
        let camera = fit(shown, board, Surroundings::Strings);
        self.is_cramped = camera.zoom < ROOM_FOR_STRINGS;
        if self.is_cramped { fit(shown, board, Surroundings::Nothing) } else { camera }
    }
}

fn fit(shown: &Shown, board: Vec2, surroundings: Surroundings) -> Camera {
    // Smaller lettering needs less room around the plan, and a larger plan needs less enlarged lettering.
    let mut camera = Camera { centre: kurbo::Point::ZERO, zoom: LEAST_ON_SCREEN / ON_PAPER };
    for _ in 0..3 {
        let drawing = drawing(shown, height(bucket(camera.zoom)), surroundings);
        let Some(bounds) = drawing.bounds() else { break };
        camera = Camera::fit(bounds, board);
    }
    camera
}

/// How often lettering is enlarged by [`BUCKET`] over its size on paper at a zoom.
#[expect(clippy::cast_possible_truncation, reason = "a small whole number")]
fn bucket(zoom: f64) -> i32 {
    let enlarged = LEAST_ON_SCREEN / (ON_PAPER * zoom);
    enlarged.max(1.0).log(BUCKET).ceil() as i32
}

fn height(bucket: i32) -> f64 {
    ON_PAPER * BUCKET.powi(bucket)
}

/// The plan with what stands around it: dimension strings, the FRONT mark, the graphic scale, then the redlines over it.
fn drawing(shown: &Shown, lettering: f64, surroundings: Surroundings) -> Drawing {
    let home = shown.document.home();
    let mut drawing = plan_drawing::draw_plan(&home, &shown.derived, lettering);
    if surroundings == Surroundings::Strings {
        drawing.append(plan_drawing::dimension_strings(&home, &shown.derived, lettering));
    }
    if let Some(drawn) = drawing.bounds() {
        drawing.append(plan_drawing::front_mark(&home, drawn, lettering));
        let corner = kurbo::Point::new(drawn.x0, drawn.y0 - 3.0 * lettering);
        drawing.append(plan_drawing::graphic_scale(home.plan.units, corner, lettering));
    }
    if let Ok(judgement) = &shown.judgement {
        drawing.append(plan_drawing::redlines(&home, &shown.derived, &judgement.verdicts, lettering));
    }
    drawing
}
