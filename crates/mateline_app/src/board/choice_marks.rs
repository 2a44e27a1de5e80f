use std::sync::Arc;

use egui::{
    Button, FontId, Galley, Popup, Pos2, Rect, Response, RichText, Role, Sense, Ui, UiBuilder, Vec2, WidgetInfo,
};
use egui::{RectAlign, pos2, vec2};
use plan_edit::Command;
use plan_model::{AlternateRef, Choice, Id, Plan, Selection};

use super::Camera;
use super::highlight::inches;
use crate::session::Shown;
use crate::{keynote, price_text, theme};

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

/// Screen points to a plan inch at which there is room on the plan for a choice's words beside its letter.
const ROOM_FOR_WORDS: f64 = 2.4;

const LIST_WIDTH: f32 = 264.0;

/// A mark for each choice at the place that it changes; a mark opens the list of its alternates there.
///
/// Gives the command that was asked for.
pub(super) fn choice_marks_ui(
    ui: &mut Ui,
    board: Rect,
    camera: &Camera,
    shown: &Shown,
    lettering: &[kurbo::Rect],
    places: &mut ChoicePlaces,
) -> Option<Command> {
    let (plan, selection) = (&shown.document.plan, &shown.document.selection);
    let measured = shown.corrections().filter_map(|verdict| verdict.place.dimension);
    let lines = measured.map(|[from, to]| kurbo::Rect::from_points(inches(from), inches(to)));
    let free_of = lettering.iter().copied().chain(lines);
    let mut taken: Vec<Rect> = free_of.map(|place| camera.rect_to_screen(place, board)).collect();
    let mut command = None;
    *places = ChoicePlaces::default();
    ui.scope_builder(UiBuilder::new().max_rect(board), |ui| {
        ui.set_clip_rect(board);
        for choice in &plan.choices {
            let Some(mark) = Mark::of(plan, selection, choice) else { continue };
            let words = (camera.zoom >= ROOM_FOR_WORDS).then(|| mark.galley(ui));
            let size = vec2(keynote::SIDE + words.as_ref().map_or(0.0, |words| words.size().x + 12.0), keynote::SIDE);
            let place = free_place(Rect::from_center_size(camera.to_screen(mark.at, board), size), &taken);
            taken.push(place);
            if !board.intersects(place) {
                continue;
            }
            places.marks.push((choice.id.clone(), place.left_center() + vec2(keynote::SIDE / 2.0, 0.0)));
            let response = mark.mark_ui(ui, place, words);
            let opens_left = place.left() + LIST_WIDTH > board.right();
            let popup = Popup::menu(&response)
                .align(if opens_left { RectAlign::BOTTOM_END } else { RectAlign::BOTTOM_START })
                .gap(4.0)
                .width(LIST_WIDTH)
                .accessible_name(format!("{} on the plan", choice.name));
            if let Some(list) = popup.show(|ui| list_ui(ui, choice, plan, selection)) {
                places.offered = Some(Offered { choice: choice.id.clone(), rows: list.inner.rows });
                command = command.take().or(list.inner.command);
            }
        }
    });
    command
}

/// The place itself, or the nearest one around it that neither lettering, a redlined measure nor another mark takes.
fn free_place(wanted: Rect, taken: &[Rect]) -> Rect {
    /// Farther away a mark no longer stands at what it changes.
    const FARTHEST: u8 = 8;
    const STEP: f32 = 7.0;
    let ring = |distance: u8| {
        let ways = (0..16_u8).map(|way| f32::from(way) * std::f32::consts::TAU / 16.0);
        ways.map(move |way| wanted.translate(Vec2::angled(way) * f32::from(distance) * STEP))
    };
    let is_free = |place: &Rect| taken.iter().all(|other| !other.expand(1.5).intersects(*place));
    std::iter::once(wanted).chain((1..=FARTHEST).flat_map(ring)).find(is_free).unwrap_or(wanted)
}

struct Mark<'a> {
    choice: &'a Choice,
    at: kurbo::Point,
    letter: String,
    words: String,
}

impl<'a> Mark<'a> {
    fn of(plan: &Plan, selection: &Selection, choice: &'a Choice) -> Option<Self> {
        let at = inches(choice.at?);
        let letter = keynote::letter(plan, &choice.id)?;
        let alternate = selection.alternate(&choice.id).and_then(|id| choice.alternate(id));
        let answer = alternate.map_or("not chosen", |alternate| alternate.name.as_str());
        Some(Self { choice, at, letter, words: format!("{}: {answer}", choice.name) })
    }

    fn galley(&self, ui: &Ui) -> Arc<Galley> {
        ui.painter().layout_no_wrap(self.words.clone(), FontId::proportional(theme::SMALL), theme::TEXT)
    }

    fn mark_ui(&self, ui: &mut Ui, place: Rect, words: Option<Arc<Galley>>) -> Response {
        let id = ui.scope_id().with(&self.choice.id);
        let response = ui.interact(place, id, Sense::click());
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("On the plan: {}", self.words)));
        let lit = response.hovered()
            || response.has_focus()
            || Popup::is_id_open(ui.ctx(), Popup::default_response_id(&response));
        let ground = if lit { theme::ACCENT_WASH } else { theme::CARD };
        let painter = ui.painter();
        if let Some(words) = words {
            painter.rect(place, 5.0, ground, egui::Stroke::new(1.0, theme::ACCENT), egui::StrokeKind::Inside);
            let corner = pos2(place.left() + keynote::SIDE + 6.0, place.center().y - words.size().y / 2.0);
            painter.galley(corner, words, theme::TEXT);
        }
        keynote::paint(painter, place.left_center() + vec2(keynote::SIDE / 2.0, 0.0), &self.letter, ground);
        response.on_hover_text(format!("{}\nChoose another alternate here", self.words))
    }
}

struct Listed {
    rows: Vec<(Id, Pos2)>,
    command: Option<Command>,
}

fn list_ui(ui: &mut Ui, choice: &Choice, plan: &Plan, selection: &Selection) -> Listed {
    ui.label(RichText::new(&choice.name).family(theme::bold()).size(theme::HEADING));
    let mut listed = Listed { rows: Vec::new(), command: None };
    for alternate in &choice.alternates {
        let answer = AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
        let taken = selection.takes(&answer);
        let row = Button::selectable(taken, price_text::alternate_name(alternate, taken))
            .right_text(RichText::new(price_text::of_alternate(alternate, &plan.currency)).color(theme::QUIET))
            .min_size(vec2(ui.available_width(), ui.spacing().interact_size.y));
        let response = ui.add(row);
        listed.rows.push((alternate.id.clone(), response.rect.center()));
        if response.clicked() {
            listed.command = Some(Command::Choose(answer));
        }
    }
    listed
}
