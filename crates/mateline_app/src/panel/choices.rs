use egui::{Button, RichText, Ui, vec2};
use plan_edit::Command;
use plan_model::{AlternateRef, Choice, Id};

use super::heading_ui;
use super::row::{Mark, Row};
use crate::session::Shown;
use crate::{keynote, price_text, theme};

/// Every choice with its present answer; the one that is open lists its alternates.
pub(super) fn choices_ui(ui: &mut Ui, shown: &Shown, open: &mut Option<Id>) -> Option<Command> {
    let plan = &shown.document.plan;
    if plan.choices.is_empty() {
        return None;
    }
    heading_ui(ui, "Choices");
    ui.spacing_mut().item_spacing.y = 1.0;
    let mut command = None;
    for choice in &plan.choices {
        let is_open = open.as_ref() == Some(&choice.id);
        let chosen = shown.document.selection.alternate(&choice.id).and_then(|id| choice.alternate(id));
        let answer = chosen.map_or("not chosen", |alternate| alternate.name.as_str());
        let row = Row {
            label: format!("{}: {answer}", choice.name),
            mark: keynote::letter(plan, &choice.id).map_or(Mark::Space, Mark::Keynote),
            name: &choice.name,
            columns: &[(answer, 6.0)],
            selected: is_open,
        };
        if row.row_ui(ui).clicked() {
            *open = (!is_open).then(|| choice.id.clone());
        }
        if is_open {
            command = command.or(alternates_ui(ui, shown, choice));
        }
    }
    command
}

fn alternates_ui(ui: &mut Ui, shown: &Shown, choice: &Choice) -> Option<Command> {
    let mut command = None;
    ui.indent(&choice.id, |ui| {
        for alternate in &choice.alternates {
            let answer = AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
            let price = price_text::of_alternate(alternate, &shown.document.plan.currency);
            let taken = shown.document.selection.takes(&answer);
            let row = Button::selectable(taken, price_text::alternate_name(alternate, taken))
                .right_text(RichText::new(price).color(theme::QUIET))
                .truncate()
                .min_size(vec2(ui.available_width(), ui.spacing().interact_size.y));
            if ui.add(row).clicked() {
                command = Some(Command::Choose(answer));
            }
        }
        ui.add_space(4.0);
    });
    command
}
