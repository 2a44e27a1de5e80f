use egui::{Context, Stroke, StrokeKind};

use crate::theme;

/// Draws a ring around what has the keyboard, whatever it is: one mark that nothing else in the window has.
pub(crate) fn focus_ring_ui(context: &Context) {
    let Some(id) = context.memory(egui::Memory::focused) else { return };
    let Some(focused) = context.read_response(id) else { return };
    let painter = context.layer_painter(focused.layer_id);
    painter.rect_stroke(focused.interact_rect, 4.0, Stroke::new(2.0, theme::ACCENT), StrokeKind::Inside);
}
