//! The foot of the panel: which book judges, the others that this home may be judged by, and that a verdict is no more than a
//! help.

use std::sync::Arc;

use egui::{FontId, Popup, RichText, Shape, Stroke, Ui, pos2, vec2};
use plan_edit::actions::{Action, ActionId};
use plan_model::LegalKind;
use plan_rules::{BookFacts, RuleBook};

use super::Asked;
use super::row::{ground, row_response, tick_row_ui};
use crate::rules_in_force::RulesInForce;
use crate::theme;

/// The built-in books for homes under a label, read once they are first offered.
#[derive(Default)]
pub(super) struct OfferedBooks {
    kind: Option<LegalKind>,
    books: Vec<Arc<BookFacts>>,
}

impl OfferedBooks {
    fn of(&mut self, kind: LegalKind) -> &[Arc<BookFacts>] {
        if self.kind != Some(kind) {
            self.kind = Some(kind);
            self.books = RuleBook::built_in_for(kind).map(|book| Arc::clone(book.facts())).collect();
        }
        &self.books
    }
}

pub(super) fn book_ui(ui: &mut Ui, rules: &RulesInForce, kind: LegalKind, offered: &mut OfferedBooks) -> Option<Asked> {
    ui.add_space(2.0);
    let chosen = judged_by_ui(ui, rules, kind, offered);
    ui.label(RichText::new("A design aid; the adopted code governs.").size(theme::SMALL).color(theme::QUIET));
    let Action { id, tooltip, shortcut, .. } = ActionId::About.action();
    let about = ui.link(RichText::new("About, and what is not checked").size(theme::SMALL));
    let about = about.on_hover_text(format!("{tooltip} ({shortcut})")).clicked();
    chosen.or(about.then_some(Asked::Act(*id)))
}

/// The column of the sign that more can be chosen.
const SIGN: f32 = 20.0;

/// The name of the book; pressed, it offers the others.
fn judged_by_ui(ui: &mut Ui, rules: &RulesInForce, kind: LegalKind, offered: &mut OfferedBooks) -> Option<Asked> {
    let facts = rules.book().facts();
    let amended: Vec<&str> = facts.amendments.iter().map(|amendment| amendment.name.as_str()).collect();
    let amended = if amended.is_empty() { String::new() } else { format!(", amended by {}", amended.join(" and ")) };
    let unsaved = if rules.unsaved().is_some() { " (not saved)" } else { "" };
    let text = format!("Judged by {}, {}{amended}{unsaved}", facts.name, facts.edition);
    let room = ui.available_width() - SIGN;
    let galley = ui.painter().layout(text.clone(), FontId::proportional(theme::SMALL), theme::TEXT, room);
    let (rect, response) = row_response(ui, galley.size().y + 8.0, false, &text);
    ground(ui, rect, &response, false);
    ui.painter().galley(pos2(rect.left(), rect.top() + 4.0), galley, theme::TEXT);
    opens(ui, pos2(rect.right() - 10.0, rect.center().y));
    let response = response.on_hover_text("Judge by another book");
    let menu = Popup::menu(&response).accessible_name("Rule books for this home").width(304.0);
    menu.show(|ui| books_ui(ui, rules, offered.of(kind))).and_then(|shown| shown.inner)
}

/// A small sign, pointing down, that a press opens a list.
fn opens(ui: &Ui, middle: egui::Pos2) {
    let points = [vec2(-4.0, -2.0), vec2(0.0, 2.0), vec2(4.0, -2.0)].map(|by| middle + by);
    ui.painter().add(Shape::line(points.to_vec(), Stroke::new(1.5, theme::QUIET)));
}

fn books_ui(ui: &mut Ui, rules: &RulesInForce, offered: &[Arc<BookFacts>]) -> Option<Asked> {
    ui.label(RichText::new("Rule books for this home").family(theme::bold()));
    ui.spacing_mut().item_spacing.y = 1.0;
    let in_force = rules.book().facts();
    let mut wanted = None;
    for facts in offered {
        let is_taken = facts.digest == in_force.digest && in_force.amendments.is_empty();
        if tick_row_ui(ui, &facts.name, Some(&facts.edition), is_taken).clicked() && !is_taken {
            wanted = Some(Asked::JudgeBy(facts.id.clone()));
        }
    }
    ui.spacing_mut().item_spacing.y = 2.0;
    ui.separator();
    let mut item_ui = |is_offered: bool, label: &str, asked: Asked| {
        if is_offered && ui.button(label).clicked() {
            wanted = Some(asked);
        }
    };
    item_ui(true, "Open rule book or amendment...", Asked::OpenBook);
    item_ui(rules.draft().is_some(), "Save amendment as...", Asked::SaveAmendment);
    item_ui(!in_force.amendments.is_empty(), "Back to the code", Asked::BackToTheCode);
    if wanted.is_some() {
        // A press closes a menu by itself; the keyboard does not.
        ui.close();
    }
    wanted
}
