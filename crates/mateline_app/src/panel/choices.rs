use egui::{Response, Ui, pos2};
use plan_edit::Command;
use plan_model::{Alternate, AlternateRef, Choice, Id};

use super::row::{FIGURES, INSET, ground, one_line, row_response};
use crate::alternate_row::AlternateRow;
use crate::keynote::{self, Look};
use crate::session::Shown;
use crate::{price_text, prices_shown, theme};

/// The choice whose alternates are listed.
#[derive(Debug)]
pub(super) struct OpenChoice {
    id: Id,
    /// Whether the chosen row has still to be given the keyboard.
    wants_focus: bool,
}

/// Every choice with its present answer; the one that is open lists its alternates.
pub(super) fn choices_ui(ui: &mut Ui, shown: &Shown, open: &mut Option<OpenChoice>) -> Option<Command> {
    let plan = &shown.document.plan;
    if plan.choices.is_empty() {
        return None;
    }
    ui.spacing_mut().item_spacing.y = 1.0;
    let mut command = None;
    for choice in &plan.choices {
        let is_open = open.as_ref().is_some_and(|open| open.id == choice.id);
        if ChoiceRow::new(ui, shown, choice, is_open).choice_row_ui(ui).clicked() {
            *open = (!is_open).then(|| OpenChoice { id: choice.id.clone(), wants_focus: true });
        }
        if let Some(open) = open.as_mut().filter(|open| open.id == choice.id) {
            command = command.or(alternates_ui(ui, shown, choice, open));
        }
    }
    command
}

/// A choice with its present answer, and what that adds to the price.
struct ChoiceRow<'a> {
    choice: &'a Choice,
    letter: Option<String>,
    look: Look,
    answer: String,
    label: String,
    is_open: bool,
}

const LOWEST: f32 = 28.0;
/// From one line of a row to the next.
const LINE: f32 = 19.0;

impl<'a> ChoiceRow<'a> {
    fn new(ui: &Ui, shown: &Shown, choice: &'a Choice, is_open: bool) -> Self {
        let plan = &shown.document.plan;
        let chosen = shown.document.selection.alternate(&choice.id).and_then(|id| choice.alternate(id));
        let adds = |alternate: &Alternate| price_text::difference(alternate.price, &plan.currency);
        let has_price = |alternate: &Alternate| prices_shown::are_shown(ui.ctx()) && !alternate.price.is_zero();
        let answer = match chosen {
            None => "not chosen".to_owned(),
            Some(chosen) if !has_price(chosen) => chosen.name.clone(),
            Some(chosen) => format!("{}  {}", chosen.name, adds(chosen)),
        };
        let name = chosen.map_or("not chosen", |alternate| alternate.name.as_str());
        let adds = chosen.filter(|chosen| has_price(chosen)).map(|chosen| format!(", {}", adds(chosen)));
        let in_conflict = shown.is_in_conflict(&choice.id);
        let fault = if in_conflict { ", does not fit" } else { "" };
        Self {
            choice,
            letter: keynote::letter(plan, &choice.id),
            look: if in_conflict { Look::InConflict } else { Look::Plain },
            label: format!("{}: {name}{}{fault}", choice.name, adds.unwrap_or_default()),
            answer,
            is_open,
        }
    }

    /// Draws it on one line, or on two where the answer is long.
    fn choice_row_ui(self, ui: &mut Ui) -> Response {
        let indent = INSET + keynote::SIDE + 8.0;
        let width = ui.available_width();
        let name = one_line(ui.painter(), &self.choice.name, theme::BODY, theme::TEXT, width - indent - INSET);
        let answer = one_line(ui.painter(), &self.answer, FIGURES, theme::QUIET, width - indent - INSET);
        let is_long = indent + name.size().x + 12.0 + answer.size().x + INSET > width;
        let height = if is_long { LOWEST + LINE } else { LOWEST };
        let (rect, response) = row_response(ui, height, self.is_open, &self.label);
        if ui.is_rect_visible(rect) {
            ground(ui, rect, &response, self.is_open);
            let painter = ui.painter();
            let first = rect.top() + LOWEST / 2.0;
            if let Some(letter) = &self.letter {
                keynote::paint(painter, pos2(rect.left() + INSET + keynote::SIDE / 2.0, first), letter, self.look);
            }
            let second = if is_long { first + LINE } else { first };
            let right = rect.right() - INSET - answer.size().x;
            painter.galley(pos2(rect.left() + indent, first - name.size().y / 2.0), name, theme::TEXT);
            painter.galley(pos2(right, second - answer.size().y / 2.0), answer, theme::QUIET);
        }
        response
    }
}

fn alternates_ui(ui: &mut Ui, shown: &Shown, choice: &Choice, open: &mut OpenChoice) -> Option<Command> {
    let mut command = None;
    ui.indent(&choice.id, |ui| {
        for (alternate, trial) in choice.alternates.iter().zip(shown.trials(choice)) {
            let answer = AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
            let is_taken = shown.document.selection.takes(&answer);
            let currency = &shown.document.plan.currency;
            let row = AlternateRow::new(ui, alternate, currency, is_taken, trial, ui.available_width());
            let response = row.alternate_row_ui(ui);
            if is_taken && open.wants_focus {
                response.request_focus();
            }
            if response.clicked() && !is_taken {
                command = Some(Command::Choose(answer));
            }
        }
        ui.add_space(4.0);
    });
    open.wants_focus = false;
    command
}
