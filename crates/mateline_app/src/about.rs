use egui::{Context, Id, Modal, RichText, Ui};
use plan_rules::{CAUTIONS, RuleBook};

use crate::theme;

/// What the program is, and what it does not check. Gives whether it is to stay open.
pub(crate) fn about_ui(context: &Context, book: &RuleBook) -> bool {
    let modal = Modal::new(Id::unique("about")).frame(theme::modal(context)).show(context, |ui| contents_ui(ui, book));
    !(modal.inner || modal.should_close())
}

fn contents_ui(ui: &mut Ui, book: &RuleBook) -> bool {
    ui.set_width(560.0);
    ui.label(RichText::new("Mateline").family(theme::bold()).size(theme::TITLE));
    ui.label(format!(
        "Version {}. Draws and checks the plans of factory-built two-module homes.",
        env!("CARGO_PKG_VERSION")
    ));
    ui.add_space(8.0);
    ui.heading("Before anybody relies on it");
    for caution in CAUTIONS {
        ui.label(caution);
    }
    ui.add_space(8.0);
    ui.heading("Rule book in force");
    let facts = book.facts();
    ui.label(format!("{}, {} ({})", facts.name, facts.edition, facts.id));
    if let Some(note) = &facts.note {
        ui.label(note);
    }
    ui.add_space(12.0);
    ui.button("Close").clicked()
}
