use egui::Vec2;
use plan_drawing::Drawing;

use super::{Camera, Prepared};
use crate::session::Shown;

/// Height of capitals of a drawing's lettering as it is on paper, in plan inches.
const ON_PAPER: f64 = 4.5;
/// Height of capitals below which a figure is not read from across a desk, in screen points.
const LEAST_ON_SCREEN: f64 = 8.0;
/// Lettering grows by this factor at once when one zooms out, so that the drawing is not made anew at every turn.
const BUCKET: f64 = 1.25;

/// The drawing of what is shown, made anew only when the document or the size of lettering changes.
#[derive(Default)]
pub(super) struct Sheet {
    made: Option<Made>,
}

struct Made {
    revision: u64,
    lettering: i32,
    prepared: Prepared,
}

impl Sheet {
    /// What encloses the drawing that was last made, in plan inches.
    pub(super) fn bounds(&self) -> Option<kurbo::Rect> {
        self.made.as_ref()?.prepared.bounds
    }

    pub(super) fn prepared(&mut self, shown: &Shown, camera: &Camera) -> &Prepared {
        let lettering = bucket(camera.zoom);
        let stale =
            self.made.as_ref().is_none_or(|made| (made.revision, made.lettering) != (shown.revision, lettering));
        if stale {
            self.made = None;
        }
        &self
            .made
            .get_or_insert_with(|| Made {
                revision: shown.revision,
                lettering,
                prepared: Prepared::new(drawing(shown, height(lettering))),
            })
            .prepared
    }
}

/// The camera that shows the whole drawing with its dimension strings on a board of this size.
pub(super) fn whole(shown: &Shown, board: Vec2) -> Camera {
    // Smaller lettering needs less room around the plan, and a larger plan needs less enlarged lettering.
    let mut camera = Camera { centre: kurbo::Point::ZERO, zoom: LEAST_ON_SCREEN / ON_PAPER };
    for _ in 0..3 {
        let drawing = drawing(shown, height(bucket(camera.zoom)));
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
fn drawing(shown: &Shown, lettering: f64) -> Drawing {
    let home = shown.document.home();
    let mut drawing = plan_drawing::draw_plan(&home, &shown.derived, lettering);
    drawing.append(plan_drawing::dimension_strings(&home, &shown.derived, lettering));
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
