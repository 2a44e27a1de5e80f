//! The drawing board: the plan as large as the window allows, and what a pointer does to it.

mod camera;
mod choice_marks;
mod drag_card;
mod highlight;
mod interaction;
mod painter;
mod prepared;
mod sheet;

use egui::{Id, Rect, Response, Role, Sense, Ui, Vec2, WidgetInfo};
use plan_edit::{Refused, Tool};

pub use camera::Camera;
pub use choice_marks::{ChoicePlaces, Offered};
pub use highlight::Highlight;
pub use interaction::ZOOM_STEP;
pub use prepared::{Line, Prepared, PreparedItem};

use crate::session::Session;
use crate::theme;
use plan_drawing::Ink;
use sheet::Sheet;

/// What the board remembers between frames.
#[derive(Default)]
pub struct Board {
    /// What part of the plan is shown; none until the board knows its size.
    camera: Option<Camera>,
    /// The size of the board for which the whole plan was fitted, as long as nobody has looked elsewhere.
    whole: Option<Vec2>,
    /// Where the board stood in the window when it was last drawn.
    area: Option<Rect>,
    sheet: Sheet,
    /// What was chosen in a list and is marked on the plan.
    highlight: Option<Highlight>,
    /// A rectangle of the plan, in plan inches, to be brought into view.
    wanted: Option<kurbo::Rect>,
    choice_places: ChoicePlaces,
}

impl Board {
    /// Where the board stands in the window and what it shows, once it was drawn.
    #[must_use]
    pub fn view(&self) -> Option<(Rect, Camera)> {
        Some((self.area?, self.camera?))
    }

    /// Where the choices are found on the board.
    #[must_use]
    pub const fn choice_places(&self) -> &ChoicePlaces {
        &self.choice_places
    }

    /// Shows the whole plan with its dimension strings.
    pub const fn fit(&mut self) {
        self.camera = None;
    }

    /// Magnifies about the middle of the board.
    pub fn zoom(&mut self, factor: f64) {
        if let (Some(camera), Some(area)) = (&mut self.camera, self.area) {
            camera.zoom_about(area.center(), factor, area);
            self.whole = None;
        }
    }

    /// Marks something on the plan and brings it into view.
    pub fn show(&mut self, highlight: Highlight) {
        self.wanted = highlight.bounds();
        self.highlight = Some(highlight);
    }

    /// Takes the mark away.
    pub fn clear_highlight(&mut self) {
        self.highlight = None;
    }

    /// What is marked.
    #[must_use]
    pub const fn highlight(&self) -> Option<&Highlight> {
        self.highlight.as_ref()
    }

    /// Draws the board and leads the session on by what the pointer does.
    ///
    /// # Errors
    /// When the session refuses the change that a gesture asked for.
    pub fn board_ui(&mut self, ui: &mut Ui, session: &mut Session) -> Result<(), Refused> {
        let area = ui.available_rect_before_wrap();
        let response = board_response(ui, area, session);
        self.area = Some(area);
        let settled = self.settle_camera(area, session);
        let mut camera = settled;
        interaction::look_around(ui, &response, &mut camera);
        let mut outcome = interaction::grasp(ui, &response, &mut camera, session);
        if camera != settled {
            self.whole = None;
        }
        self.camera = Some(camera);
        if response.clicked() {
            self.highlight = interaction::picked(&response, &camera, session.shown());
        }

        let painter = ui.painter_at(area);
        painter.rect_filled(area, 0.0, theme::ink(Ink::Paper));
        let prepared = self.sheet.prepared(session.shown(), &camera);
        painter::paint(prepared, &camera, area, &painter);
        if let Some(highlight) = &self.highlight {
            highlight.paint(session.shown(), &camera, area, &painter);
        }
        interaction::paint_grip(ui, &response, &camera, session, &painter);
        // While a wall is dragged nobody chooses; the marks would only lie over its redlines.
        if matches!(session.tool(), Tool::Idle) {
            let places = &mut self.choice_places;
            let marks = choice_marks::choice_marks_ui(ui, area, &camera, session.shown(), &prepared.lettering, places);
            if let Some(command) = marks {
                outcome = outcome.and(session.do_command(&command));
            }
        }
        drag_card::drag_card_ui(ui, session, area);
        outcome
    }

    /// The camera for this frame: the whole plan until somebody looks elsewhere, then where it was or is wanted.
    fn settle_camera(&mut self, area: Rect, session: &Session) -> Camera {
        let size = area.size();
        let mut camera = match self.camera {
            Some(camera) if self.whole.is_none_or(|whole| whole == size && self.still_fits(&camera, area, session)) => {
                camera
            }
            _ => {
                self.whole = Some(size);
                self.sheet.whole(session.settled(), size)
            }
        };
        if let Some(wanted) = self.wanted.take() {
            camera.bring_into_view(wanted, size);
            self.whole = None;
        }
        camera
    }

    /// Whether the plan still fits as it was shown; as long as it does, and during a drag, it stays where it is.
    fn still_fits(&self, camera: &Camera, area: Rect, session: &Session) -> bool {
        let drawn = self.sheet.bounds().map(|bounds| camera.rect_to_screen(bounds, area));
        drawn.is_none_or(|drawn| area.contains_rect(drawn)) || !matches!(session.tool(), Tool::Idle)
    }
}

fn board_response(ui: &Ui, area: Rect, session: &Session) -> Response {
    let response = ui.interact(area, Id::unique("drawing board"), Sense::click_and_drag());
    response.widget_info(|| {
        let name = format!("Drawing board: {}", session.shown().document.plan.name);
        WidgetInfo::labeled(Role::Canvas, true, name)
    });
    response
}
