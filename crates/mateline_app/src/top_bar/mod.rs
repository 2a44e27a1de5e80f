mod price;

use egui::{Align, Button, Frame, Label, Layout, Margin, Panel, RichText, TextStyle, Ui, vec2};
use plan_drawing::Ink;
use plan_edit::actions::{Action, ActionId};
use plan_model::Units;
use plan_rules::show;

use crate::board::{Board, ZOOM_STEP};
use crate::session::{Session, Shown};
use crate::theme;

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
const PART: f32 = 10.0;
/// The narrowest bar in which the maker is named.
const ROOM_FOR_MAKER: f32 = 1000.0;
/// With less left than this, the heated area gives way to the sentence that the home cannot be built.
const ROOM_FOR_ALL_FIGURES: f32 = 860.0;
/// A plan's name is never cut shorter than this.
const SHORTEST_NAME: f32 = 48.0;

fn left_ui(ui: &mut Ui, session: &Session, board: &mut Board) -> Option<ActionId> {
    let plan = &session.shown().document.plan;
    let buttons = buttons_width(ui);
    let maker = (ui.available_width() >= ROOM_FOR_MAKER).then(|| RichText::new(&plan.maker).color(theme::QUIET));
    let maker_width = maker.as_ref().map_or(0.0, |_| width_of(ui, &plan.maker) + ui.spacing().item_spacing.x);
    // Whatever else the bar holds, its buttons stay whole: a long name is shortened.
    let room = (ui.available_width() - buttons - maker_width).max(SHORTEST_NAME);
    ui.scope(|ui| {
        ui.set_max_width(room);
        let name = RichText::new(&plan.name).family(theme::bold()).size(theme::TITLE);
        ui.add(Label::new(name).truncate()).on_hover_text(format!("{}\n{}", plan.name, plan.maker));
    });
    if let Some(maker) = maker {
        ui.label(maker);
    }
    ui.add_space(PART);
    let file = [ActionId::Open, ActionId::Save, ActionId::SaveAs].map(|id| action_ui(ui, id));
    ui.add_space(PART);
    let fit = action_ui(ui, ActionId::Fit);
    zoom_ui(ui, board);
    ui.add_space(PART);
    let undo = step_ui(ui, ActionId::Undo, session.can_undo());
    let redo = step_ui(ui, ActionId::Redo, session.can_redo());
    file.into_iter().chain([fit, undo, redo]).flatten().next()
}

/// What the buttons with the spaces between them take.
fn buttons_width(ui: &Ui) -> f32 {
    let actions = [ActionId::Open, ActionId::Save, ActionId::SaveAs, ActionId::Fit, ActionId::Undo, ActionId::Redo];
    let spacing = ui.spacing();
    let labels = actions.map(|id| width_of(ui, id.action().label) + 2.0 * spacing.button_padding.x);
    let items = actions.len() + 2;
    #[expect(clippy::cast_precision_loss, reason = "a handful of buttons")]
    let between = items as f32 * spacing.item_spacing.x + 3.0 * PART;
    labels.iter().sum::<f32>() + 2.0 * ZOOM_BUTTON + between
}

fn width_of(ui: &Ui, text: &str) -> f32 {
    let font = TextStyle::Button.resolve(ui.style());
    ui.painter().layout_no_wrap(text.to_owned(), font, theme::TEXT).size().x
}

fn action_ui(ui: &mut Ui, id: ActionId) -> Option<ActionId> {
    let Action { label, tooltip, shortcut, .. } = id.action();
    let response = ui.button(*label);
    response.on_hover_text(format!("{tooltip} ({shortcut})")).clicked().then_some(id)
}

const ZOOM_BUTTON: f32 = 30.0;

fn zoom_ui(ui: &mut Ui, board: &mut Board) {
    for (label, factor, name) in [("\u{2013}", 1.0 / ZOOM_STEP, "Smaller"), ("+", ZOOM_STEP, "Larger")] {
        let button = Button::new(RichText::new(label).family(theme::bold())).min_size(vec2(ZOOM_BUTTON, ZOOM_BUTTON));
        if ui.add(button).on_hover_text(name).accessible_name(name).clicked() {
            board.zoom(factor);
        }
    }
}

/// Undo or redo; what it would take back or do again is told to who points at it.
fn step_ui(ui: &mut Ui, id: ActionId, step: Option<&str>) -> Option<ActionId> {
    let Action { label, tooltip, shortcut, .. } = id.action();
    let named = step.map_or_else(|| (*label).to_owned(), |step| format!("{label}: {step}"));
    let response = ui.add_enabled(step.is_some(), Button::new(*label)).accessible_name(&named);
    response.on_hover_text(format!("{named}\n{tooltip} ({shortcut})")).clicked().then_some(id)
}

fn figures_ui(ui: &mut Ui, shown: &Shown) {
    price::price_ui(ui, shown);
    if !shown.can_be_built() {
        let text = RichText::new("Cannot be built\nas chosen").family(theme::bold()).size(theme::SMALL);
        ui.label(text.color(theme::ink(Ink::Caution)));
    }
    if !shown.can_be_built() && ui.available_width() < ROOM_FOR_ALL_FIGURES {
        return;
    }
    ui.add_space(10.0);
    ui.label(RichText::new(heated(shown)).family(theme::bold()).size(theme::TITLE));
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
