use egui::{Align, Button, Frame, Layout, Margin, Panel, RichText, TextStyle, Ui, vec2};
use plan_edit::actions::{Action, ActionId};
use plan_model::Units;
use plan_rules::show;

use crate::board::{Board, ZOOM_STEP};
use crate::session::{Session, Shown};
use crate::{price_text, theme};

/// The bar over the board: which plan it is, what can be done with it, how large the home is and what it costs.
pub(crate) fn top_bar_ui(ui: &mut Ui, session: &Session, board: &mut Board) -> Option<ActionId> {
    let frame = Frame::new().fill(theme::PANEL).inner_margin(Margin::symmetric(16, 8));
    let bar = Panel::top("bar").frame(frame).show(ui, |ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            figures_ui(ui, session.shown());
            ui.add_space(PART);
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| left_ui(ui, session, board)).inner
        })
        .inner
    });
    bar.inner
}

/// Between parts of the bar.
const PART: f32 = 12.0;
/// With less room than this the step is not named.
const ROOM_FOR_STEP: f32 = 120.0;
/// The narrowest bar in which the maker is named.
const ROOM_FOR_MAKER: f32 = 1000.0;

fn left_ui(ui: &mut Ui, session: &Session, board: &mut Board) -> Option<ActionId> {
    let plan = &session.shown().document.plan;
    let room_for_maker = ui.available_width() >= ROOM_FOR_MAKER;
    ui.label(RichText::new(&plan.name).family(theme::bold()).size(theme::TITLE));
    if room_for_maker {
        ui.label(RichText::new(&plan.maker).color(theme::QUIET));
    }
    ui.add_space(PART);
    let file = [ActionId::Open, ActionId::Save, ActionId::SaveAs].map(|id| action_ui(ui, id));
    ui.add_space(PART);
    let fit = action_ui(ui, ActionId::Fit);
    zoom_ui(ui, board);
    ui.add_space(PART);
    let room = ui.available_width() - ui.spacing().item_spacing.x;
    let redo_step = Step::new(ui, ActionId::Redo, session.can_redo());
    let undo_step = Step::new(ui, ActionId::Undo, session.can_undo());
    let undo = undo_step.step_ui(ui, room - redo_step.width.min(room / 2.0));
    let redo = redo_step.step_ui(ui, ui.available_width());
    file.into_iter().chain([fit, undo, redo]).flatten().next()
}

fn action_ui(ui: &mut Ui, id: ActionId) -> Option<ActionId> {
    let Action { label, tooltip, shortcut, .. } = id.action();
    let response = ui.button(*label);
    response.on_hover_text(format!("{tooltip} ({shortcut})")).clicked().then_some(id)
}

fn zoom_ui(ui: &mut Ui, board: &mut Board) {
    for (label, factor, name) in [("\u{2013}", 1.0 / ZOOM_STEP, "Smaller"), ("+", ZOOM_STEP, "Larger")] {
        let button = Button::new(RichText::new(label).family(theme::bold())).min_size(vec2(30.0, 30.0));
        if ui.add(button).on_hover_text(name).accessible_name(name).clicked() {
            board.zoom(factor);
        }
    }
}

/// Undo or redo with what it would take back or do again; cut short where the bar is narrow.
struct Step {
    id: ActionId,
    is_there: bool,
    text: String,
    /// Of the whole button.
    width: f32,
}

impl Step {
    fn new(ui: &Ui, id: ActionId, step: Option<&str>) -> Self {
        let label = id.action().label;
        let text = step.map_or_else(|| label.to_owned(), |step| format!("{label}: {step}"));
        let font = TextStyle::Button.resolve(ui.style());
        let galley = ui.painter().layout_no_wrap(text.clone(), font, theme::TEXT);
        let width = galley.size().x + 2.0 * ui.spacing().button_padding.x;
        Self { id, is_there: step.is_some(), text, width }
    }

    fn step_ui(self, ui: &mut Ui, room: f32) -> Option<ActionId> {
        let Action { label, tooltip, shortcut, .. } = self.id.action();
        let is_named = room >= ROOM_FOR_STEP.min(self.width);
        let button = Button::new(if is_named { self.text.as_str() } else { label }).truncate();
        let placed = ui.scope(|ui| {
            if is_named {
                ui.set_max_width(room);
            }
            ui.add_enabled(self.is_there, button)
        });
        let hint = format!("{}\n{tooltip} ({shortcut})", self.text);
        placed.inner.on_hover_text(hint).clicked().then_some(self.id)
    }
}

fn figures_ui(ui: &mut Ui, shown: &Shown) {
    let plan = &shown.document.plan;
    let figure = |text: String| RichText::new(text).family(theme::bold()).size(theme::TITLE);
    ui.label(figure(price_text::price(shown.price, &plan.currency)));
    ui.add_space(10.0);
    ui.label(figure(heated(shown)));
}

/// The heated area: in whole square feet as the published method reports it, or in square metres.
fn heated(shown: &Shown) -> String {
    let units = shown.document.plan.units;
    match (shown.derived.heated_area, units) {
        (None, _) => "Heated area unknown".to_owned(),
        (Some(area), Units::In) => format!("{} sq ft heated", thousands(area.whole_square_feet())),
        (Some(area), Units::Mm) => format!("{} heated", show::area(area.exact(), units)),
    }
}

fn thousands(number: i128) -> String {
    i64::try_from(number).map_or_else(|_| number.to_string(), |number| plan_model::Money::from(number).to_string())
}
