//! One alternate in a list that answers a choice: on the plan and beside it.

use std::sync::Arc;

use egui::text::LayoutJob;
use egui::{FontId, Galley, Painter, Pos2, Response, Role, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};
use plan_drawing::Ink;
use plan_model::Alternate;

use crate::trial::Trial;
use crate::{price_text, prices_shown, theme};

/// An alternate as it is laid out for a width: what it is, what it adds, and what stands against it.
pub(crate) struct AlternateRow {
    label: String,
    is_taken: bool,
    name: Arc<Galley>,
    price: Arc<Galley>,
    against: Option<Arc<Galley>>,
    width: f32,
}

/// The column of the tick.
const TICK: f32 = 26.0;
const RIGHT: f32 = 8.0;
const LOWEST: f32 = 30.0;
const ABOVE: f32 = 6.0;

impl AlternateRow {
    pub(crate) fn new(
        ui: &Ui,
        alternate: &Alternate,
        currency: &str,
        is_taken: bool,
        trial: &Trial,
        width: f32,
    ) -> Self {
        let lay_out = |text: &str, font: FontId, color, room: f32| {
            let mut job = LayoutJob::single_section(text.to_owned(), egui::TextFormat::simple(font, color));
            job.wrap.max_width = room;
            ui.painter().layout_job(job)
        };
        let price_text = if prices_shown::are_shown(ui.ctx()) {
            price_text::of_alternate(alternate, currency)
        } else {
            price_text::of_alternate_without_price(alternate).to_owned()
        };
        let price = lay_out(&price_text, FontId::proportional(theme::BODY), theme::QUIET, f32::INFINITY);
        let room = (width - TICK - RIGHT - price.size().x - 12.0).max(60.0);
        let family = if is_taken { theme::bold() } else { egui::FontFamily::Proportional };
        let name = lay_out(&alternate.name, FontId::new(theme::BODY, family), theme::TEXT, room);
        let mut label = alternate.name.clone();
        if !price_text.is_empty() {
            label = format!("{label}, {price_text}");
        }
        let against = match trial {
            Trial::Fits => None,
            Trial::Not(why) => {
                label = format!("{label}, {why}");
                let font = FontId::proportional(theme::SMALL);
                Some(lay_out(why, font, theme::ink(Ink::Caution), width - TICK - RIGHT))
            }
        };
        Self { label, is_taken, name, price, against, width }
    }

    /// How high it is, in points.
    pub(crate) fn height(&self) -> f32 {
        let against = self.against.as_ref().map_or(0.0, |against| against.size().y);
        (self.name.size().y + against + 2.0 * ABOVE).max(LOWEST)
    }

    pub(crate) fn alternate_row_ui(self, ui: &mut Ui) -> Response {
        let (rect, response) = ui.allocate_exact_size(vec2(self.width, self.height()), Sense::click());
        response.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, self.is_taken, &self.label));
        if response.gained_focus() {
            response.scroll_to_me(None);
        }
        if ui.is_rect_visible(rect) {
            let painter = ui.painter();
            if self.is_taken || response.hovered() {
                painter.rect_filled(rect, 3.0, theme::ACCENT_WASH);
            }
            let top = rect.top() + ABOVE;
            if self.is_taken {
                tick(painter, pos2(rect.left() + 6.0, top + self.price.size().y / 2.0));
            }
            let below = top + self.name.size().y;
            painter.galley(pos2(rect.left() + TICK, top), self.name, theme::TEXT);
            painter.galley(pos2(rect.right() - RIGHT - self.price.size().x, top), self.price, theme::QUIET);
            if let Some(against) = self.against {
                painter.galley(pos2(rect.left() + TICK, below), against, theme::TEXT);
            }
        }
        response
    }
}

/// What is chosen carries a tick, so that it differs from what is pointed at or has the keyboard.
pub(crate) fn tick(painter: &Painter, left: Pos2) {
    let stroke = Stroke::new(2.0, theme::ACCENT);
    painter.line(vec![left, left + vec2(4.5, 4.5), left + vec2(13.0, -5.0)], stroke);
}
