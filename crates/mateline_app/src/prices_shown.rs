//! Whether the window shows prices. Who plans with a buyer hides them all at once, for as long as the window is open.

use egui::{Context, Id, Ui};

/// Whether prices are shown.
pub(crate) fn are_shown(context: &Context) -> bool {
    context.data(|data| !data.get_temp::<Hidden>(Id::NULL).unwrap_or_default().0)
}

/// The box that shows and hides them.
pub(crate) fn prices_shown_ui(ui: &mut Ui) {
    let mut shown = are_shown(ui.ctx());
    let told = "Show what the home and its alternates cost";
    if ui.checkbox(&mut shown, "Prices").on_hover_text(told).changed() {
        ui.data_mut(|data| data.insert_temp(Id::NULL, Hidden(!shown)));
        // What is drawn before this box in a frame still shows as before.
        ui.ctx().request_repaint();
    }
}

#[derive(Clone, Copy, Debug, Default)]
struct Hidden(bool);
