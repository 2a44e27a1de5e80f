use std::sync::Arc;

use egui::{FontId, Galley, Pos2, Rect, Response, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use plan_model::{Choice, Id};

use super::Camera;
use super::mark_places::MarkPlaces;
use crate::keynote::{self, Look};
use crate::session::Shown;
use crate::theme;

/// Where the choices are found on the board, in screen points, as last drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChoicePlaces {
    /// The middle of each choice's mark that is in view.
    pub marks: Vec<(Id, Pos2)>,
    /// The list that is open.
    pub offered: Option<Offered>,
}

/// A list of alternates that is open on the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Offered {
    /// The choice that is asked.
    pub choice: Id,
    /// The middle of each alternate's row, in screen points.
    pub rows: Vec<(Id, Pos2)>,
}

/// Screen points to a plan inch at which there may be room on the plan for a choice's words beside its letter.
const ROOM_FOR_WORDS: f64 = 2.4;

/// A choice's mark as it stands on the board.
pub(super) struct Mark<'a> {
    pub(super) choice: &'a Choice,
    /// In screen points.
    pub(super) place: Rect,
    letter: String,
    words: String,
    /// The words laid out, where there is room for them.
    galley: Option<Arc<Galley>>,
    look: Look,
}

/// The mark of each choice that is in view.
pub(super) fn marks<'a>(ui: &Ui, board: Rect, camera: &Camera, shown: &'a Shown, places: &MarkPlaces) -> Vec<Mark<'a>> {
    let (plan, selection) = (&shown.document.plan, &shown.document.selection);
    let mark = |(id, place): &(Id, kurbo::Point)| {
        let choice = plan.choice(id)?;
        let letter = keynote::letter(plan, id)?;
        let alternate = selection.alternate(id).and_then(|id| choice.alternate(id));
        let answer = alternate.map_or("not chosen", |alternate| alternate.name.as_str());
        let words = format!("{}: {answer}", choice.name);
        let square = Rect::from_center_size(camera.to_screen(*place, board), egui::Vec2::splat(keynote::SIDE));
        let look = if shown.is_in_conflict(id) { Look::InConflict } else { Look::Plain };
        let mut mark = Mark { choice, place: square, letter, words, galley: None, look };
        if camera.zoom >= ROOM_FOR_WORDS {
            mark.find_room_for_words(ui, board, camera, places);
        }
        board.intersects(mark.place).then_some(mark)
    };
    places.marks.iter().filter_map(mark).collect()
}

impl Mark<'_> {
    fn find_room_for_words(&mut self, ui: &Ui, board: Rect, camera: &Camera, places: &MarkPlaces) {
        let galley = ui.painter().layout_no_wrap(self.words.clone(), FontId::proportional(theme::SMALL), theme::TEXT);
        let square = self.place;
        let beside =
            Rect::from_min_size(square.right_top() + vec2(1.0, 0.0), vec2(galley.size().x + 12.0, keynote::SIDE));
        let on_plan = [beside.min, beside.max].map(|corner| camera.to_plan(corner, board));
        if board.contains_rect(beside) && places.is_free(kurbo::Rect::from_points(on_plan[0], on_plan[1])) {
            self.place = square.union(beside);
            self.galley = Some(galley);
        }
    }

    /// The middle of the letter's square.
    pub(super) fn middle(&self) -> Pos2 {
        self.place.left_center() + vec2(keynote::SIDE / 2.0, 0.0)
    }

    pub(super) fn mark_ui(&self, ui: &Ui, is_open: bool) -> Response {
        let id = ui.scope_id().with(&self.choice.id);
        let response = ui.interact(self.place, id, Sense::click());
        let fault = if self.look == Look::InConflict { ", does not fit" } else { "" };
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("On the plan: {}{fault}", self.words)));
        let is_lit = (response.hovered() || is_open) && self.look == Look::Plain;
        let look = if is_lit { Look::Lit } else { self.look };
        let painter = ui.painter();
        if let Some(words) = &self.galley {
            painter.rect(self.place, 5.0, look.ground(), Stroke::new(1.0, look.frame().color), StrokeKind::Inside);
            let corner = pos2(self.place.left() + keynote::SIDE + 6.0, self.place.center().y - words.size().y / 2.0);
            painter.galley(corner, Arc::clone(words), theme::TEXT);
        }
        keynote::paint(painter, self.middle(), &self.letter, look);
        if is_open {
            return response;
        }
        response.on_hover_text(format!("{}{fault}\nChoose another alternate here", self.words))
    }
}
