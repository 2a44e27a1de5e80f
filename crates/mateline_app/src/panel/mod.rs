//! The panel beside the board: the same choices, rooms and corrections as real lists.

mod amend_form;
mod book;
mod choices;
mod corrections;
mod example;
mod explanation;
mod measures;
mod rooms;
mod row;
mod selection;
mod walls;

use egui::{Panel, Response, ScrollArea, Ui};
use plan_edit::Command;
use plan_edit::actions::ActionId;
use plan_rules::AmendmentDraft;

use crate::board::Highlight;
use crate::rules_in_force::RulesInForce;
use crate::session::Shown;
use crate::theme;
use amend_form::AmendForm;
use book::OfferedBooks;
use choices::OpenChoice;
use corrections::Corrections;
use example::ExampleView;
pub(crate) use selection::SelectionKept;

/// What the panel remembers between frames.
#[derive(Default)]
pub(crate) struct SidePanel {
    /// The choice whose alternates are listed.
    open_choice: Option<OpenChoice>,
    /// The rule that is explained in place of choices and rooms.
    explained: Option<&'static str>,
    /// Its drawing.
    example: ExampleView,
    /// The amendment that is being filled in, in the place of the explanation.
    form: Option<AmendForm>,
    /// What was marked when the panel was last drawn.
    marked: Option<Highlight>,
    /// Whether the finding that is marked has still to be brought into view.
    leads_to_finding: bool,
    books: OfferedBooks,
}

/// What a person asked of the panel.
pub(crate) enum Asked {
    /// Change the document.
    Command(Command),
    /// Mark a place on the plan and bring it into view.
    Show(Highlight),
    /// Do what a menu or shortcut does.
    Act(ActionId),
    /// Explain a rule.
    Explain(&'static str),
    /// Judge by the built-in book of this id.
    JudgeBy(String),
    /// Judge by the book with this amendment, in the place of the one before.
    Amend(Box<AmendmentDraft>),
    /// Take every amendment away.
    BackToTheCode,
    /// Open a rule book or amendment.
    OpenBook,
    /// Save the amendment that is being written.
    SaveAmendment,
    /// Open a selection file.
    OpenSelection,
    /// Save the selection.
    SaveSelection,
}

const WIDTH: f32 = 350.0;

/// The most that the findings take of the height, so that rooms and choices stay in view beside many of them.
const FINDINGS_SHARE: f32 = 0.45;
/// The same while a rule is explained, which is there to be read.
const FINDINGS_SHARE_BESIDE_EXPLANATION: f32 = 0.35;
/// The most that the choices take of what is left, so that rooms stay in view beside many of them.
const CHOICES_SHARE: f32 = 0.6;

impl SidePanel {
    /// Draws the panel.
    pub(crate) fn side_panel_ui(
        &mut self,
        ui: &mut Ui,
        shown: &Shown,
        rules: &RulesInForce,
        kept: SelectionKept<'_>,
        marked: Option<&Highlight>,
    ) -> Option<Asked> {
        let frame = egui::Frame::new().fill(theme::PANEL).inner_margin(egui::Margin {
            left: 16,
            right: 10,
            top: 12,
            bottom: 10,
        });
        self.follow(shown, marked);
        let asked = Panel::right("lists")
            .exact_size(WIDTH)
            .resizable(false)
            .frame(frame)
            .show(ui, |ui| {
                let kind = shown.document.plan.home.legal_kind;
                let foot = Panel::bottom("book").resizable(false).frame(egui::Frame::new());
                let foot = foot.show(ui, |ui| book::book_ui(ui, rules, kind, &mut self.books)).inner;
                let share = if self.explained.is_some() { FINDINGS_SHARE_BESIDE_EXPLANATION } else { FINDINGS_SHARE };
                let corrections = Corrections::new(ui, shown, marked, ui.available_width());
                let height = corrections.height(ui).min(ui.available_height() * share);
                let corrections = Panel::bottom("corrections")
                    .resizable(false)
                    .exact_size(height)
                    .frame(egui::Frame::new())
                    .show(ui, |ui| corrections.corrections_ui(ui, std::mem::take(&mut self.leads_to_finding)))
                    .inner;
                foot.or(corrections).or(self.above_ui(ui, shown, rules, kept, marked))
            })
            .inner;
        if let Some(Asked::Explain(rule)) = asked {
            self.explained = Some(rule);
            self.form = None;
            self.leads_to_finding = true;
            ui.ctx().request_repaint();
            return None;
        }
        asked
    }

    /// The explanation goes with what is marked.
    fn follow(&mut self, shown: &Shown, marked: Option<&Highlight>) {
        if self.marked.as_ref() == marked || self.form.is_some() {
            return;
        }
        self.marked = marked.cloned();
        self.leads_to_finding = true;
        let mut verdicts = shown.judgement.iter().flat_map(|judgement| &judgement.verdicts);
        if let (Some(_), Some(marked)) = (self.explained, marked)
            && let Some(verdict) = verdicts.find(|verdict| Highlight::verdict(verdict) == *marked)
        {
            self.explained = Some(verdict.rule);
        }
    }

    /// Choices and rooms, or the explanation of a rule in their place.
    fn above_ui(
        &mut self,
        ui: &mut Ui,
        shown: &Shown,
        rules: &RulesInForce,
        kept: SelectionKept<'_>,
        marked: Option<&Highlight>,
    ) -> Option<Asked> {
        if let Some(form) = &mut self.form {
            let wanted = form.amend_form_ui(ui, rules)?;
            self.form = None;
            ui.ctx().request_repaint();
            return match wanted {
                amend_form::Wanted::Cancel => None,
                amend_form::Wanted::Apply(draft) => Some(Asked::Amend(draft)),
            };
        }
        if let Some(rule) = self.explained {
            match explanation::explanation_ui(ui, rules.book(), rule, &mut self.example)? {
                explanation::Wanted::Close => self.explained = None,
                explanation::Wanted::Amend => self.form = AmendForm::of(rules, rule),
            }
            ui.ctx().request_repaint();
            return None;
        }
        let selection = selection::selection_ui(ui, shown, kept);
        let choices = ScrollArea::vertical()
            .id_salt("choices")
            .max_height(ui.available_height() * CHOICES_SHARE)
            .auto_shrink([false, true])
            .show(ui, |ui| choices::choices_ui(ui, shown, &mut self.open_choice))
            .inner;
        let rooms = ScrollArea::vertical().id_salt("rooms").auto_shrink(false).show(ui, |ui| {
            let room = rooms::rooms_ui(ui, shown, marked);
            let wall = walls::walls_ui(ui, shown, marked);
            room.map(Asked::Show).or(wall)
        });
        selection.or(choices.map(Asked::Command)).or(rooms.inner)
    }
}

/// The heading of a part of the panel.
fn heading_ui(ui: &mut Ui, text: &str) -> Response {
    ui.heading(text)
}
