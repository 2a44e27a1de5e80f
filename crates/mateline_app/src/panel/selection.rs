//! The heading of the choices, with the menu of the selection: whose it is, its file, and whether the plan is reversed.

use egui::{Align, Button, Layout, Popup, RichText, Ui};
use plan_edit::Command;

use super::row::tick_row_ui;
use super::{Asked, heading_ui};
use crate::session::Shown;
use crate::theme;

/// Whose selection is kept, and whether it is the one that is shown.
#[derive(Clone, Copy)]
pub(crate) struct SelectionKept<'a> {
    /// What the buyer is called.
    pub(crate) buyer: Option<&'a str>,
    /// Whether what is shown stands in the file.
    pub(crate) is_saved: bool,
}

impl SelectionKept<'_> {
    fn words(self, is_reversed: bool) -> String {
        let reversed = if is_reversed { ", reversed" } else { "" };
        match (self.buyer, self.is_saved) {
            (None, _) => format!("Selection{reversed}"),
            (Some(buyer), true) => format!("Selection: {buyer}{reversed}"),
            (Some(buyer), false) => format!("Selection: {buyer}{reversed} (not saved)"),
        }
    }
}

pub(super) fn selection_ui(ui: &mut Ui, shown: &Shown, kept: SelectionKept<'_>) -> Option<Asked> {
    ui.horizontal(|ui| {
        if !shown.document.plan.choices.is_empty() {
            heading_ui(ui, "Choices");
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let words = RichText::new(kept.words(shown.document.selection.is_reversed())).size(theme::SMALL);
            let response = ui.add(Button::new(words).truncate());
            let response = response.on_hover_text("Keep these choices in a file, open others, or reverse the plan");
            let menu = Popup::menu(&response).accessible_name("Selection").width(230.0);
            menu.show(|ui| menu_ui(ui, shown)).and_then(|shown| shown.inner)
        })
        .inner
    })
    .inner
}

fn menu_ui(ui: &mut Ui, shown: &Shown) -> Option<Asked> {
    let mut wanted = None;
    if ui.button("Open selection...").clicked() {
        wanted = Some(Asked::OpenSelection);
    }
    if ui.button("Save selection...").clicked() {
        wanted = Some(Asked::SaveSelection);
    }
    ui.separator();
    let is_reversed = shown.document.selection.is_reversed();
    if tick_row_ui(ui, "Reversed", Some("mirrored left to right"), is_reversed).clicked() {
        wanted = Some(Asked::Command(Command::Reverse(!is_reversed)));
    }
    if wanted.is_some() {
        // A press closes a menu by itself; the keyboard does not.
        ui.close();
    }
    wanted
}
