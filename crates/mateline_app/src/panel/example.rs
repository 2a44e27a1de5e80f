//! The drawing of a rule's example, by the same pencil as the plan on the board.

use std::sync::Arc;

use egui::{RichText, Role, Sense, Ui, WidgetInfo, vec2};
use plan_drawing::{Ink, draw_example};
use plan_rules::{BookFacts, Example, Rule, RuleBook};

use crate::board::{Camera, Prepared, paint};
use crate::theme;

/// Height of capitals in screen points.
const LETTERING: f64 = 8.0;
/// Width to height of the room that a drawing gets.
const SHAPE: f32 = 4.0 / 3.0;
/// The most of the explanation's height that a drawing takes, so that text stays in view below it.
const SHARE: f32 = 0.55;
/// No drawing is less high, or its figures would lie over each other.
const LEAST_HEIGHT: f32 = 170.0;

/// The drawing that was shown last; it is made anew for another rule, book or size only.
#[derive(Default)]
pub(super) struct ExampleView(Option<Made>);

struct Made {
    rule: &'static str,
    book: Arc<BookFacts>,
    width: f32,
    prepared: Prepared,
    view: kurbo::Rect,
    caption: String,
}

impl ExampleView {
    /// Draws the example of a rule, with what it shows below. `height` is that of the whole explanation.
    pub(super) fn example_ui(&mut self, ui: &mut Ui, book: &RuleBook, rule: &Rule, height: f32) {
        let width = ui.available_width().min((height * SHARE).max(LEAST_HEIGHT) * SHAPE).floor();
        let is_it = |made: &Made| made.rule == rule.id && made.width == width && Arc::ptr_eq(&made.book, book.facts());
        if !self.0.as_ref().is_some_and(is_it) {
            self.0 = Made::new(book, rule, width);
        }
        let Some(Made { prepared, view, caption, .. }) = &self.0 else { return };
        let zoom = f64::from(width) / view.width().max(view.height() * f64::from(SHAPE));
        let camera = Camera { centre: view.center(), zoom };
        let size = vec2(camera.length(view.width()), camera.length(view.height()));
        ui.vertical_centered(|ui| {
            let (area, response) = ui.allocate_exact_size(size, Sense::hover());
            response.widget_info(|| WidgetInfo::labeled(Role::Image, true, format!("Drawing: {caption}")));
            let painter = ui.painter_at(area);
            painter.rect_filled(area, 0.0, theme::ink(Ink::Paper));
            paint(prepared, &camera, area, &painter);
        });
        ui.label(RichText::new(format!("Example: {caption}")).size(theme::SMALL).color(theme::QUIET));
        ui.add_space(4.0);
    }
}

impl Made {
    fn new(book: &RuleBook, rule: &Rule, width: f32) -> Option<Self> {
        let example = Example::of(rule, Some(book))?;
        let drawn = draw_example(&example, LETTERING / f64::from(width));
        let (prepared, view) = (Prepared::new(drawn.drawing), drawn.view);
        Some(Self { rule: rule.id, book: Arc::clone(book.facts()), width, prepared, view, caption: example.caption() })
    }
}
