use std::cell::OnceCell;

use egui::Vec2;
use plan_drawing::{Drawing, Rows};

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

/// The dimension strings that are drawn around the whole plan: the fullest set beside which the house is shown at no
/// fewer screen points to a plan inch than this. A smaller board shows none.
const ROOM_FOR_STRINGS: [(Rows, f64); 3] =
    [(Rows::All, 0.95), (Rows::PartitionsAndOverall, 0.88), (Rows::Overall, 0.7)];
/// Screen points to a plan inch from which on all are drawn on the smallest board, whose edges they then pass.
const STRINGS_FOR_SURE: f64 = 1.3;

/// The drawing of what is shown, made anew only when the document or the size of lettering changes.
#[derive(Default)]
pub(super) struct Sheet {
    made: Option<Made>,
    /// The dimension strings for which there was room when the whole plan was last fitted to the board.
    fitted: Option<Rows>,
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
    strings: Option<Rows>,
}

impl Sheet {
    /// What encloses the drawing that was last made, in plan inches.
    pub(super) fn bounds(&self) -> Option<kurbo::Rect> {
        self.made.as_ref()?.prepared.bounds
    }

    pub(super) fn prepared(&mut self, shown: &Shown, camera: &Camera) -> &Prepared {
        let strings = if camera.zoom < STRINGS_FOR_SURE { self.fitted } else { Some(Rows::All) };
        let key = Key { revision: shown.revision, lettering: bucket(camera.zoom), strings };
        let made = self.made.take().filter(|made| made.key == key);
        let make = || Made {
            key,
            prepared: Prepared::new(drawing(shown, height(key.lettering), strings)),
            marks: OnceCell::new(),
        };
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

    /// The dimension strings on the drawing that was last made.
    pub(super) fn strings(&self) -> Option<Rows> {
        self.made.as_ref()?.key.strings
    }

    /// The camera that shows the whole drawing on a board of this size.
    pub(super) fn whole(&mut self, shown: &Shown, board: Vec2) -> Camera {
        let fitting = ROOM_FOR_STRINGS.into_iter().find_map(|(rows, least)| {
            let camera = fit(shown, board, Some(rows));
            (camera.zoom >= least).then_some((rows, camera))
        });
        self.fitted = fitting.map(|(rows, _)| rows);
        fitting.map_or_else(|| fit(shown, board, None), |(_, camera)| camera)
    }
}

fn fit(shown: &Shown, board: Vec2, strings: Option<Rows>) -> Camera {
    // Smaller lettering needs less room around the plan, and a larger plan needs less enlarged lettering.
    let mut camera = Camera { centre: kurbo::Point::ZERO, zoom: LEAST_ON_SCREEN / ON_PAPER };
    for _ in 0..3 {
        let drawing = drawing(shown, height(bucket(camera.zoom)), strings);
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

/// Height of capitals, in plan inches, of what is drawn for a camera.
pub(super) fn lettering(camera: &Camera) -> f64 {
    height(bucket(camera.zoom))
}

fn height(bucket: i32) -> f64 {
    ON_PAPER * BUCKET.powi(bucket)
}

/// The plan with what stands around it: dimension strings, the FRONT mark, the graphic scale, then the redlines over it.
fn drawing(shown: &Shown, lettering: f64, strings: Option<Rows>) -> Drawing {
    let home = shown.document.home();
    let mut drawing = plan_drawing::draw_plan(&home, &shown.derived, lettering);
    drawing.append(plan_drawing::grips(&home, &shown.derived, lettering));
    if let Some(rows) = strings {
        drawing.append(plan_drawing::dimension_strings(&home, &shown.derived, rows, lettering));
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
