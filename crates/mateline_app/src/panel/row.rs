use std::sync::Arc;

use egui::text::{LayoutJob, TextWrapping};
use egui::{Color32, FontId, Galley, Painter, Rect, Response, Role, Sense, Ui, WidgetInfo, pos2, vec2};

use crate::alternate_row::tick;
use crate::theme;
use plan_drawing::Ink;

/// A row of a list that can be chosen: the numbers of its redlines or none, a name, and figures in columns of their own.
pub(super) struct Row<'a> {
    /// What is read out.
    pub(super) label: String,
    /// What stands before the name.
    pub(super) mark: Mark,
    /// The name, cut short where it does not fit.
    pub(super) name: &'a str,
    /// Figures, the rightmost first: their text and the distance of their right end from the right end of the row.
    pub(super) columns: &'a [(&'a str, f32)],
    /// Whether it is the chosen one.
    pub(super) selected: bool,
}

/// What stands before the name in a row.
pub(super) enum Mark {
    /// Nothing.
    None,
    /// The numbers of redlines.
    Redlines(String),
}

const HEIGHT: f32 = 28.0;
/// From the left end of a row to its mark, and from its right end to its figures.
pub(super) const INSET: f32 = 6.0;
/// Size of figures and answers.
pub(super) const FIGURES: f32 = 14.0;

impl Row<'_> {
    pub(super) fn row_ui(self, ui: &mut Ui) -> Response {
        let (rect, response) = row_response(ui, HEIGHT, self.selected, &self.label);
        if ui.is_rect_visible(rect) {
            ground(ui, rect, &response, self.selected);
            let painter = ui.painter_at(rect);
            let left = rect.left() + INSET;
            let left = match &self.mark {
                Mark::None => left,
                Mark::Redlines(numbers) => {
                    left + disc(ui, pos2(left, rect.center().y), numbers, theme::ink(Ink::Redline)) + 6.0
                }
            };
            let name = one_line(&painter, self.name, theme::BODY, theme::TEXT, rect.right() - left - 60.0);
            let mut limit = left + name.size().x + 12.0;
            painter.galley(pos2(left, rect.center().y - name.size().y / 2.0), name, theme::TEXT);
            for (text, from_right) in self.columns.iter().rev() {
                let room = rect.right() - from_right - limit;
                let galley = one_line(&painter, text, FIGURES, theme::QUIET, room);
                limit = rect.right() - from_right + 8.0;
                let corner = pos2(rect.right() - from_right - galley.size().x, rect.center().y - galley.size().y / 2.0);
                painter.galley(corner, galley, theme::QUIET);
            }
        }
        response
    }
}

/// Makes room for a row that can be chosen; a row that gains the keyboard comes into view.
pub(super) fn row_response(ui: &mut Ui, height: f32, selected: bool, label: &str) -> (Rect, Response) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, selected, label));
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    (rect, response)
}

/// The column of the tick.
const TICK: f32 = 26.0;

/// One of several that exclude each other, with what is to be known of it in small type; the one that is taken has a tick.
pub(super) fn tick_row_ui(ui: &mut Ui, name: &str, detail: Option<&str>, is_taken: bool) -> Response {
    let room = ui.available_width() - TICK - 8.0;
    let lay_out =
        |text: &str, size: f32, color| ui.painter().layout(text.to_owned(), FontId::proportional(size), color, room);
    let first = lay_out(name, theme::BODY, theme::TEXT);
    let second = detail.map(|detail| lay_out(detail, theme::SMALL, theme::QUIET));
    let height = first.size().y + second.as_ref().map_or(0.0, |second| second.size().y) + 10.0;
    let label = detail.map_or_else(|| name.to_owned(), |detail| format!("{name}, {detail}"));
    let (rect, response) = row_response(ui, height, is_taken, &label);
    ground(ui, rect, &response, is_taken);
    if is_taken {
        tick(ui.painter(), pos2(rect.left() + INSET, rect.top() + 14.0));
    }
    let corner = pos2(rect.left() + TICK, rect.top() + 5.0);
    let below = corner + vec2(0.0, first.size().y);
    ui.painter().galley(corner, first, theme::TEXT);
    if let Some(second) = second {
        ui.painter().galley(below, second, theme::QUIET);
    }
    response
}

/// Text on one line, cut short where it does not fit.
pub(super) fn one_line(painter: &Painter, text: &str, size: f32, color: Color32, room: f32) -> Arc<Galley> {
    let mut job = LayoutJob::simple_singleline(text.to_owned(), FontId::proportional(size), color);
    job.wrap = TextWrapping::truncate_at_width(room.max(0.0));
    painter.layout_job(job)
}

/// The ground of a row: quiet until it is pointed at or chosen.
pub(super) fn ground(ui: &Ui, rect: Rect, response: &Response, selected: bool) {
    if selected || response.hovered() {
        ui.painter().rect_filled(rect, 3.0, theme::ACCENT_WASH);
    }
}

/// A short mark on a disc, as redlines carry on the plan. `at` is the middle of its left side; gives its width.
pub(super) fn disc(ui: &Ui, at: egui::Pos2, mark: &str, color: Color32) -> f32 {
    let galley = ui.painter().layout_no_wrap(mark.to_owned(), FontId::new(12.0, theme::bold()), theme::CARD);
    let width = (galley.size().x + 10.0).max(20.0);
    let rect = Rect::from_min_size(pos2(at.x, at.y - 10.0), vec2(width, 20.0));
    ui.painter().rect_filled(rect, 10.0, color);
    ui.painter().galley(rect.center() - galley.size() / 2.0, galley, theme::CARD);
    width
}
