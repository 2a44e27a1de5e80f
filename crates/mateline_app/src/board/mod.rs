//! The drawing board: the plan as large as the window allows, and what a pointer does to it.

mod camera;
mod choice_marks;
mod drag_card;
mod highlight;
mod interaction;
mod painter;
mod prepared;
mod sheet;

use egui::{Id, Rect, Response, Sense, Ui, WidgetInfo, WidgetType};
use plan_edit::Refused;

pub use camera::Camera;
pub use choice_marks::Offered;
pub use highlight::Highlight;
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
    /// Where the board stood in the window when it was last drawn.
    area: Option<Rect>,
    sheet: Sheet,
    /// What was chosen in a list and is marked on the plan.
    highlight: Option<Highlight>,
    /// A rectangle of the plan, in plan inches, to be brought into view.
    wanted: Option<kurbo::Rect>,
    offered: Option<Offered>,
}

impl Board {
    /// Where the board stands in the window and what it shows, once it was drawn.
    #[must_use]
    pub fn view(&self) -> Option<(Rect, Camera)> {
        Some((self.area?, self.camera?))
    }

    /// The alternates that are offered on the plan at the moment.
    #[must_use]
    pub const fn offered(&self) -> Option<&Offered> {
        self.offered.as_ref()
    }

    /// Shows the whole plan with its dimension strings.
    pub fn fit(&mut self) {
        self.camera = None;
    }

    /// Magnifies about the middle of the board.
    pub fn zoom(&mut self, factor: f64) {
        if let (Some(camera), Some(area)) = (&mut self.camera, self.area) {
            camera.zoom_about(area.center(), factor, area);
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
        let mut camera = self.settle_camera(area, session);
        interaction::look_around(ui, &response, &mut camera);
        let mut outcome = interaction::grasp(ui, &response, &mut camera, session);
        self.camera = Some(camera);

        let painter = ui.painter_at(area);
        painter.rect_filled(area, 0.0, theme::ink(Ink::Paper));
        let prepared = self.sheet.prepared(session.shown(), &camera);
        painter::paint(prepared, &camera, area, &painter);
        if let Some(highlight) = &self.highlight {
            highlight.paint(session.shown(), &camera, area, &painter);
        }
        interaction::paint_grip(ui, &response, &camera, session, &painter);
        let chosen = choice_marks::choice_marks_ui(ui, area, &camera, session.shown(), &mut self.offered);
        if let Some(command) = chosen {
            outcome = outcome.and(session.do_command(&command));
            ui.ctx().request_repaint();
        }
        drag_card::drag_card_ui(ui, session, &camera, area);
        outcome
    }

    /// The camera for this frame: the whole plan at first, then where it was, then what is wanted in view.
    fn settle_camera(&mut self, area: Rect, session: &Session) -> Camera {
        let mut camera = self.camera.unwrap_or_else(|| self.sheet.whole(session.shown(), area.size()));
        if let Some(wanted) = self.wanted.take() {
            camera.bring_into_view(wanted, area.size());
        }
        camera
    }
}

fn board_response(ui: &Ui, area: Rect, session: &Session) -> Response {
    let response = ui.interact(area, Id::new("drawing board"), Sense::click_and_drag());
    response.widget_info(|| {
        let name = format!("Drawing board: {}", session.shown().document.plan.name);
        WidgetInfo::labeled(WidgetType::Other, true, name)
    });
    response
}
