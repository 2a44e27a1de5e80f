//! The drawing board: the plan as large as the window allows, and what a pointer does to it.

mod camera;
mod choice_list;
mod choice_marks;
mod conflict_overlay;
mod drag_card;
mod highlight;
mod interaction;
mod mark_places;
mod painter;
mod prepared;
mod sheet;

use egui::{Align2, FontId, Id, Painter, Rect, Response, Role, Sense, Ui, UiBuilder, Vec2, WidgetInfo, vec2};
use plan_edit::{Command, Refused, Tool};

pub use camera::Camera;
pub use choice_marks::{ChoicePlaces, Offered};
pub use highlight::Highlight;
pub use interaction::ZOOM_STEP;
pub(crate) use painter::paint;
pub use prepared::{Line, Prepared, PreparedItem};

use crate::notices;
use crate::session::{Session, Shown};
use crate::theme;
use choice_list::{Closed, OpenList};
use plan_drawing::{Ink, Rows};
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
    /// The choice whose alternates are listed on the board.
    open_list: Option<OpenList>,
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
        let left_out = match self.sheet.strings() {
            Some(Rows::All) => "",
            Some(_) => "More dimensions appear when zoomed in",
            None => "Dimensions appear when zoomed in",
        };
        let (corner, font) = (area.right_bottom() - vec2(14.0, 10.0), FontId::proportional(theme::SMALL));
        painter.text(corner, Align2::RIGHT_BOTTOM, left_out, font, theme::QUIET);
        if let Some(command) = self.choices_ui(ui, area, &camera, session, &painter) {
            outcome = outcome.and(session.do_command(&command));
        }
        drag_card::drag_card_ui(ui, session, &camera, area);
        outcome
    }

    /// The marks of the choices with the list that is open, and what does not fit. Gives what was chosen.
    fn choices_ui(
        &mut self,
        ui: &mut Ui,
        area: Rect,
        camera: &Camera,
        session: &Session,
        painter: &Painter,
    ) -> Option<Command> {
        self.choice_places = ChoicePlaces::default();
        let shown = session.shown();
        // While a wall is dragged nobody chooses; the marks would only lie over its redlines.
        if !matches!(session.tool(), Tool::Idle) {
            self.open_list = None;
            let lettering = self.sheet.lettering().iter().map(|place| camera.rect_to_screen(*place, area));
            conflict_overlay::paint(shown, camera, area, &lettering.collect::<Vec<_>>(), painter);
            return None;
        }
        let marks = choice_marks::marks(ui, area, camera, shown, self.sheet.marks(shown)?);
        let lettering = self.sheet.lettering().iter().map(|place| camera.rect_to_screen(*place, area));
        let taken: Vec<Rect> = marks.iter().map(|mark| mark.place).chain(lettering).collect();
        conflict_overlay::paint(shown, camera, area, &taken, painter);
        ui.scope_builder(UiBuilder::new().max_rect(area).id_salt("choices"), |ui| {
            ui.set_clip_rect(area);
            self.marks_ui(ui, area, camera, shown, &marks)
        })
        .inner
    }

    fn marks_ui(
        &mut self,
        ui: &mut Ui,
        area: Rect,
        camera: &Camera,
        shown: &Shown,
        marks: &[choice_marks::Mark<'_>],
    ) -> Option<Command> {
        let mut opened_by = None;
        for mark in marks {
            let id = &mark.choice.id;
            let is_open = self.open_list.as_ref().is_some_and(|open| open.choice == *id);
            let response = mark.mark_ui(ui, is_open);
            self.choice_places.marks.push((id.clone(), mark.middle()));
            if response.clicked() {
                self.open_list = (!is_open).then(|| OpenList::of(id.clone()));
            }
            if self.open_list.as_ref().is_some_and(|open| open.choice == *id) {
                opened_by = Some((mark, response));
            }
        }
        let open = self.open_list.as_mut()?;
        let (mark, response) = opened_by?;
        let others: Vec<Rect> = notices::impossible_place(ui.ctx(), shown).into_iter().collect();
        let listed = choice_list::choice_list_ui(ui, area, camera, shown, mark, open, &others);
        self.choice_places.offered = Some(listed.offered);
        if let Some(closed) = listed.closed {
            self.open_list = None;
            if closed == Closed::Escaped {
                response.request_focus();
            }
        }
        listed.command
    }

    /// The camera for this frame: the whole plan until somebody looks elsewhere, then where it was or is wanted.
    fn settle_camera(&mut self, area: Rect, session: &Session) -> Camera {
        let size = area.size();
        // Under a hand that drags, the plan stays where it is, whatever happens around it.
        let held = !matches!(session.tool(), Tool::Idle);
        let fits = |whole: Vec2, camera: &Camera| whole == size && self.still_fits(camera, area);
        let mut camera = match self.camera {
            Some(camera) if held || self.whole.is_none_or(|whole| fits(whole, &camera)) => camera,
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

    /// Whether the plan still fits as it was shown; as long as it does, it stays where it is.
    fn still_fits(&self, camera: &Camera, area: Rect) -> bool {
        let drawn = self.sheet.bounds().map(|bounds| camera.rect_to_screen(bounds, area));
        drawn.is_none_or(|drawn| area.contains_rect(drawn))
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
