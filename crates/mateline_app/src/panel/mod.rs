//! The panel beside the board: the same choices, rooms and corrections as real lists.

mod choices;
mod corrections;
mod rooms;
mod row;
mod walls;

use egui::{Panel, Response, RichText, ScrollArea, Ui};
use plan_edit::Command;
use plan_model::Id;
use plan_rules::RuleBook;

use crate::board::Highlight;
use crate::session::Shown;
use crate::theme;

/// What the panel remembers between frames.
#[derive(Default)]
pub(crate) struct SidePanel {
    /// The choice whose alternates are listed.
    open_choice: Option<Id>,
    /// The document for which the lists were last laid out.
    revision: u64,
}

/// What a person asked of the panel.
pub(crate) enum Asked {
    /// Change the document.
    Command(Command),
    /// Mark a place on the plan and bring it into view.
    Show(Highlight),
    /// Tell about the program.
    About,
}

const WIDTH: f32 = 350.0;

impl SidePanel {
    /// Draws the panel.
    pub(crate) fn side_panel_ui(
        &mut self,
        ui: &mut Ui,
        shown: &Shown,
        book: &RuleBook,
        marked: Option<&Highlight>,
    ) -> Option<Asked> {
        if self.revision != shown.revision {
            self.revision = shown.revision;
            // The list of corrections takes the height that it had when it was last laid out: lay it out once more.
            ui.ctx().request_discard("other verdicts take another height");
        }
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
                let corrections = Panel::bottom("corrections")
                    .resizable(false)
                    .max_size(ui.available_height() * 0.5)
                    .frame(egui::Frame::new())
                    .show(ui, |ui| corrections::corrections_ui(ui, shown, marked));
                let lists = ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
                    let command = choices::choices_ui(ui, shown, &mut self.open_choice);
                    let room = rooms::rooms_ui(ui, shown, marked);
                    let wall = walls::walls_ui(ui, shown, marked);
                    command.map(Asked::Command).or(room.map(Asked::Show)).or(wall)
                });
                caution.inner.or(corrections.inner.map(Asked::Show)).or(lists.inner)
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
    ui.link(RichText::new("About, and what is not checked").size(theme::SMALL)).clicked().then_some(Asked::About)
}
