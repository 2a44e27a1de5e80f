use egui::{Align, Button, Frame, Layout, Margin, Panel, RichText, Ui, vec2};
use plan_edit::actions::{Action, ActionId};
use plan_model::Units;
use plan_rules::show;

use crate::board::{Board, ZOOM_STEP};
use crate::session::{Session, Shown};
use crate::{price_text, theme};

/// The bar over the board: which plan it is, what can be done with it, how large the home is and what it costs.
pub fn top_bar_ui(ui: &mut Ui, session: &Session, board: &mut Board) -> Option<ActionId> {
    let frame = Frame::new().fill(theme::PANEL).inner_margin(Margin::symmetric(16, 8));
    Panel::top("bar")
        .frame(frame)
        .show(ui, |ui| {
            ui.horizontal(|ui| {
                name_ui(ui, session);
                ui.add_space(12.0);
                let file = [ActionId::Open, ActionId::Save, ActionId::SaveAs].map(|id| action_ui(ui, id, true));
                ui.add_space(12.0);
                let fit = action_ui(ui, ActionId::Fit, true);
                zoom_ui(ui, board);
                ui.add_space(12.0);
                let undo = step_ui(ui, ActionId::Undo, session.can_undo());
                let redo = step_ui(ui, ActionId::Redo, session.can_redo());
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| figures_ui(ui, session.shown()));
                file.into_iter().chain([fit, undo, redo]).flatten().next()
            })
            .inner
        })
        .inner
}

fn name_ui(ui: &mut Ui, session: &Session) {
    let plan = &session.shown().document.plan;
    ui.label(RichText::new(&plan.name).family(theme::bold()).size(theme::TITLE));
    ui.label(RichText::new(&plan.maker).color(theme::QUIET));
}

fn action_ui(ui: &mut Ui, id: ActionId, enabled: bool) -> Option<ActionId> {
    let Action { label, tooltip, shortcut, .. } = id.action();
    let response = ui.add_enabled(enabled, Button::new(*label));
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

/// Undo and redo say what they would take back or do again.
fn step_ui(ui: &mut Ui, id: ActionId, step: Option<&str>) -> Option<ActionId> {
    let Action { label, tooltip, shortcut, .. } = id.action();
    let text = step.map_or_else(|| (*label).to_owned(), |step| format!("{label}: {step}"));
    let response = ui.add_enabled(step.is_some(), Button::new(text));
    response.on_hover_text(format!("{tooltip} ({shortcut})")).clicked().then_some(id)
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
