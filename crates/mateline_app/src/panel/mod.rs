//! The panel beside the board: the same choices, rooms and corrections as real lists.

mod choices;
mod corrections;
mod measures;
mod rooms;
mod row;
mod walls;

use egui::{Panel, Response, RichText, ScrollArea, Ui};
use plan_edit::Command;
use plan_edit::actions::{Action, ActionId};
use plan_rules::RuleBook;

use crate::board::Highlight;
use crate::session::Shown;
use crate::theme;
use choices::OpenChoice;
use corrections::Corrections;

/// What the panel remembers between frames.
#[derive(Default)]
pub(crate) struct SidePanel {
    /// The choice whose alternates are listed.
    open_choice: Option<OpenChoice>,
}

/// What a person asked of the panel.
pub(crate) enum Asked {
    /// Change the document.
    Command(Command),
    /// Mark a place on the plan and bring it into view.
    Show(Highlight),
    /// Do what a menu or shortcut does.
    Act(ActionId),
}

const WIDTH: f32 = 350.0;

/// The most that the findings take of the height, so that rooms and choices stay in view beside many of them.
const FINDINGS_SHARE: f32 = 0.45;
/// The most that the choices take of what is left, so that rooms stay in view beside many of them.
const CHOICES_SHARE: f32 = 0.6;

impl SidePanel {
    /// Draws the panel.
    pub(crate) fn side_panel_ui(
        &mut self,
        ui: &mut Ui,
        shown: &Shown,
        book: &RuleBook,
        marked: Option<&Highlight>,
    ) -> Option<Asked> {
        let frame = egui::Frame::new().fill(theme::PANEL).inner_margin(egui::Margin {
            left: 16,
            right: 10,
            top: 12,
            bottom: 10,
        });
        Panel::right("lists")
            .exact_size(WIDTH)
            .resizable(false)
            .frame(frame)
            .show(ui, |ui| {
                let caution =
                    Panel::bottom("book").resizable(false).frame(egui::Frame::new()).show(ui, |ui| book_ui(ui, book));
                let corrections = Corrections::new(ui, shown, ui.available_width());
                let height = corrections.height(ui).min(ui.available_height() * FINDINGS_SHARE);
                let corrections = Panel::bottom("corrections")
                    .resizable(false)
                    .exact_size(height)
                    .frame(egui::Frame::new())
                    .show(ui, |ui| corrections.corrections_ui(ui, marked));
                let choices = ScrollArea::vertical()
                    .id_salt("choices")
                    .max_height(ui.available_height() * CHOICES_SHARE)
                    .auto_shrink([false, true])
                    .show(ui, |ui| choices::choices_ui(ui, shown, &mut self.open_choice));
                let rooms = ScrollArea::vertical().id_salt("rooms").auto_shrink(false).show(ui, |ui| {
                    let room = rooms::rooms_ui(ui, shown, marked);
                    let wall = walls::walls_ui(ui, shown, marked);
                    room.map(Asked::Show).or(wall)
                });
                caution.inner.or(corrections.inner).or(choices.inner.map(Asked::Command)).or(rooms.inner)
            })
            .inner
    }
}

/// The heading of a part of the panel.
fn heading_ui(ui: &mut Ui, text: &str) -> Response {
    ui.heading(text)
}

/// Which book judges, and that the verdict is no more than a help.
fn book_ui(ui: &mut Ui, book: &RuleBook) -> Option<Asked> {
    ui.add_space(6.0);
    let facts = book.facts();
    ui.label(RichText::new(format!("Judged by {}, {}", facts.name, facts.edition)).size(theme::SMALL));
    ui.label(RichText::new("A design aid; the adopted code governs.").size(theme::SMALL).color(theme::QUIET));
    let Action { id, tooltip, shortcut, .. } = ActionId::About.action();
    let about = ui.link(RichText::new("About, and what is not checked").size(theme::SMALL));
    about.on_hover_text(format!("{tooltip} ({shortcut})")).clicked().then_some(Asked::Act(*id))
}
