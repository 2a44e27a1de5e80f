//! Every selection that can be sold: how many meet the book, and what the others fall short of.

mod work;

use std::sync::Arc;

use egui::{Align, Context, Id, Layout, Modal, RichText, ScrollArea, Spinner, Ui};
use plan_drawing::Ink;
use plan_model::{Plan, Selection};
use plan_proof::report::{Counts, Item, Summary, grouped};
use plan_rules::RuleBook;

use self::work::Work;
use crate::theme;

/// The check of every selection, from when it is asked for until it is closed.
#[derive(Default)]
pub(crate) enum EverySelection {
    #[default]
    Closed,
    Working(Work),
    Proven(Box<Summary>),
    Failed(String),
}

/// What a person does with it.
enum Wanted {
    Close,
    Show(Selection),
}

const WIDTH: f32 = 640.0;
/// The most that the list takes of the window's height.
const LIST_SHARE: f32 = 0.55;

impl EverySelection {
    /// Begins to check a plan.
    pub(crate) fn begin(&mut self, context: &Context, plan: &Arc<Plan>, book: &Arc<RuleBook>) {
        *self = Self::Working(Work::begin(context, plan, book));
    }

    /// Whether it is to be seen.
    pub(crate) const fn is_open(&self) -> bool {
        !matches!(self, Self::Closed)
    }

    /// Draws it, if it is open; gives the selection that somebody wants to see.
    pub(crate) fn every_ui(&mut self, context: &Context) -> Option<Selection> {
        if let Self::Working(work) = self
            && let Some(outcome) = work.outcome()
        {
            *self = outcome.map_or_else(Self::Failed, |summary| Self::Proven(Box::new(summary)));
        }
        if !self.is_open() {
            return None;
        }
        let modal = Modal::new(Id::unique("every selection")).frame(theme::modal(context));
        let modal = modal.show(context, |ui| {
            ui.set_width(WIDTH);
            ui.label(RichText::new("Every selection").family(theme::bold()).size(theme::TITLE));
            self.contents_ui(ui)
        });
        let closed = modal.should_close().then_some(Wanted::Close);
        let wanted = modal.inner.or(closed);
        if wanted.is_some() {
            *self = Self::Closed;
        }
        match wanted {
            Some(Wanted::Show(selection)) => Some(selection),
            Some(Wanted::Close) | None => None,
        }
    }

    fn contents_ui(&self, ui: &mut Ui) -> Option<Wanted> {
        match self {
            Self::Closed => None,
            Self::Working(work) => {
                ui.horizontal(|ui| {
                    ui.add(Spinner::new());
                    ui.label(format!("Checking: {} homes looked at so far.", work.homes()));
                });
                ui.add_space(8.0);
                ui.button("Stop").clicked().then_some(Wanted::Close)
            }
            Self::Failed(why) => {
                ui.label(why);
                ui.add_space(8.0);
                ui.button("Close").clicked().then_some(Wanted::Close)
            }
            Self::Proven(summary) => proven_ui(ui, summary),
        }
    }
}

fn proven_ui(ui: &mut Ui, summary: &Summary) -> Option<Wanted> {
    ui.label(RichText::new(format!("By {}", summary.book)).color(theme::QUIET));
    ui.add_space(6.0);
    let Counts { all, possible, meeting, falling_short, not_known } = &summary.counts;
    let all_meet = meeting == possible;
    let [all, possible, meeting, short, unknown] = [all, possible, meeting, falling_short, not_known].map(grouped);
    ui.label(format!("Of {all} selections, {possible} can be sold."));
    let told = if all_meet {
        RichText::new("Every one of those meets the book.".to_owned())
    } else {
        let rest = if unknown == "0" { String::new() } else { format!(" {unknown} cannot be told.") };
        RichText::new(format!("{meeting} of those meet the book; {short} fall short of it.{rest}"))
    };
    ui.label(told.family(theme::bold()).size(theme::BODY));
    ui.add_space(6.0);
    let height = ui.ctx().content_rect().height() * LIST_SHARE;
    let mut wanted = None;
    ScrollArea::vertical().min_scrolled_height(height).max_height(height).auto_shrink([false, true]).show(ui, |ui| {
        for (title, items, can_be_built) in [
            ("Falls short", &summary.faults, true),
            ("Cannot be told", &summary.unknowns, true),
            ("Cannot be had together", &summary.clashes, false),
        ] {
            if !items.is_empty() {
                ui.add_space(4.0);
                ui.heading(title);
            }
            for item in items {
                wanted = wanted.take().or(item_ui(ui, item, can_be_built));
            }
        }
    });
    ui.add_space(8.0);
    ui.label(
        RichText::new("A verdict is not an approval: the adopted code and the authority having jurisdiction govern.")
            .color(theme::QUIET)
            .size(theme::SMALL),
    );
    ui.add_space(4.0);
    let close = ui.button("Close").clicked().then_some(Wanted::Close);
    wanted.or(close)
}

fn item_ui(ui: &mut Ui, item: &Item, can_be_built: bool) -> Option<Wanted> {
    ui.add_space(6.0);
    let mut wanted = None;
    ui.horizontal_top(|ui| {
        ui.with_layout(Layout::right_to_left(Align::TOP), |ui| {
            let label = if can_be_built { "Show" } else { "Show the conflict" };
            let button = ui.button(label);
            let button = button.on_hover_text("Take a selection that shows it. Undo takes it back.");
            if button.clicked() {
                wanted = Some(Wanted::Show(item.example.clone()));
            }
            ui.with_layout(Layout::top_down(Align::LEFT), |ui| {
                let ink = if can_be_built { theme::ink(Ink::Redline) } else { theme::ink(Ink::Caution) };
                let section = item.section.as_ref().map(|section| format!("{section}  ")).unwrap_or_default();
                ui.label(RichText::new(format!("{section}{}", item.sentence)).color(ink));
                for note in &item.notes {
                    ui.label(RichText::new(note).color(theme::QUIET).size(theme::SMALL));
                }
                for cause in &item.causes {
                    ui.label(cause);
                }
                let mut about = match grouped(&item.count).as_str() {
                    "1" => "In 1 selection.".to_owned(),
                    count => format!("In {count} selections."),
                };
                if can_be_built && item.is_of_several {
                    about.push_str(" Each of these choices meets the rule without the others.");
                }
                ui.label(RichText::new(about).color(theme::QUIET).size(theme::SMALL));
            });
        });
    });
    wanted
}
