use egui::{Align2, Area, Context, Frame, Id, Margin, Order, Rect, RichText, Stroke, Ui, vec2};
use plan_drawing::Ink;

use crate::session::Shown;
use crate::theme;

/// One thing told to the person at the foot of the board, until it is read or something newer is told.
#[derive(Debug, Default)]
pub struct Notices {
    told: Option<Notice>,
}

#[derive(Debug)]
struct Notice {
    text: String,
    ink: Ink,
}

impl Notices {
    /// Tells what was done.
    pub fn tell(&mut self, text: impl Into<String>) {
        self.told = Some(Notice { text: text.into(), ink: Ink::Lettering });
    }

    /// Tells what could not be done.
    pub fn warn(&mut self, text: impl Into<String>) {
        self.told = Some(Notice { text: text.into(), ink: Ink::Redline });
    }

    /// What is told at the moment.
    #[must_use]
    pub fn text(&self) -> Option<&str> {
        self.told.as_ref().map(|notice| notice.text.as_str())
    }

    /// Draws the notice over the foot of the board.
    pub fn notice_ui(&mut self, ui: &Ui, board: Rect) {
        let Some(notice) = &self.told else { return };
        let read = Area::new(Id::unique("notice"))
            .order(Order::Foreground)
            .pivot(Align2::LEFT_BOTTOM)
            .fixed_pos(board.left_bottom() + vec2(16.0, -16.0))
            .show(ui.ctx(), |ui| {
                card()
                    .show(ui, |ui| {
                        ui.set_max_width((board.width() - 64.0).min(640.0));
                        ui.horizontal(|ui| {
                            ui.vertical(|ui| {
                                ui.set_max_width(ui.available_width() - 70.0);
                                ui.label(RichText::new(&notice.text).color(theme::ink(notice.ink)));
                            });
                            ui.button("Close").clicked()
                        })
                        .inner
                    })
                    .inner
            })
            .inner;
        if read {
            self.told = None;
        }
    }
}

fn card() -> Frame {
    Frame::new()
        .fill(theme::CARD)
        .stroke(Stroke::new(1.0, theme::RULE))
        .corner_radius(4.0)
        .inner_margin(Margin::symmetric(14, 10))
}

/// Says over the head of the board why the home that is shown cannot be had. It never stands in the way of a change.
pub(crate) fn impossible_ui(ui: &Ui, board: Rect, shown: &Shown) {
    let refusals = shown.refusals.iter().map(|refusal| format!("{refusal}."));
    let cannot: Vec<String> = refusals.chain(shown.conflicts.iter().map(|found| found.sentence.clone())).collect();
    let unclear: Vec<String> = shown.faults.iter().map(|fault| fault.sentence.clone()).collect();
    if cannot.is_empty() && unclear.is_empty() {
        return;
    }
    let area = Area::new(impossible()).order(Order::Middle).fixed_pos(board.left_top() + vec2(16.0, 12.0));
    area.show(ui.ctx(), |ui| {
        card().stroke(Stroke::new(1.5, theme::ink(Ink::Caution))).show(ui, |ui| {
            ui.set_max_width((board.width() - 64.0).min(560.0));
            part_ui(ui, "This selection cannot be built as drawn", &cannot);
            part_ui(ui, "The drawing is not clear here", &unclear);
        });
    });
}

fn impossible() -> Id {
    Id::unique("impossible")
}

/// Where that stood when it was last drawn, if it is told at all.
pub(crate) fn impossible_place(context: &Context, shown: &Shown) -> Option<Rect> {
    let is_told = !shown.can_be_built() || !shown.faults.is_empty();
    context.memory(|memory| memory.area_rect(impossible())).filter(|_| is_told)
}

fn part_ui(ui: &mut Ui, title: &str, sentences: &[String]) {
    /// More are read in a report.
    const MOST: usize = 4;
    if sentences.is_empty() {
        return;
    }
    ui.label(RichText::new(title).family(theme::bold()).color(theme::ink(Ink::Caution)));
    for sentence in sentences.iter().take(MOST) {
        ui.label(sentence);
    }
    if sentences.len() > MOST {
        ui.label(format!("and {} more", sentences.len() - MOST));
    }
}
