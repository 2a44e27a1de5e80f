//! Amending a rule: new figures for its limits, whether it binds, and who says so since when and why.

use std::collections::BTreeMap;

use egui::{Align, Button, Label, Layout, Margin, RichText, ScrollArea, TextEdit, Ui, vec2};
use plan_drawing::Ink;
use plan_rules::{AmendmentDraft, BookRule, Level, Limit, RuleDraft, WrittenLimit, show};

use super::explanation::{below_figure_ui, words};
use super::row::tick_row_ui;
use crate::rules_in_force::RulesInForce;
use crate::theme;

/// What was asked of the form.
pub(super) enum Wanted {
    /// To be left without a change.
    Cancel,
    /// This amendment, which can be read.
    Apply(Box<AmendmentDraft>),
}

/// A field with what is wrong in it.
#[derive(Default)]
struct Field {
    typed: String,
    refused: Option<String>,
}

impl Field {
    fn of(text: &str) -> Self {
        Self { typed: text.to_owned(), refused: None }
    }
}

/// A limit as it stands and as it is to stand.
struct LimitRow {
    name: String,
    /// As it stands in the base.
    in_base: Limit,
    /// What stood in the field at first: as long as it does, nothing changes.
    at_first: String,
    field: Field,
}

/// What is to become of the rule.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Standing {
    Required,
    Advisory,
    Dropped,
}

/// The form as it is filled in.
pub(super) struct AmendForm {
    rule: &'static str,
    rule_name: &'static str,
    level_in_base: Level,
    limits: Vec<LimitRow>,
    standing: Standing,
    name: Field,
    authority: Field,
    date: Field,
    reason: Field,
    /// What is wrong with the whole.
    refused: Option<String>,
    /// Whether the first field that is refused has still to be brought into view.
    leads_to_refusal: bool,
}

const FIRST_NAME: &str = "Local amendment";
const FIGURE: f32 = 104.0;
const FIELD: f32 = 30.0;
const FIELD_MARGIN: Margin = Margin::symmetric(8, 5);
/// The row of the buttons.
const FOOT: f32 = 38.0;

impl AmendForm {
    /// The form for a rule of the base, filled in with what holds now; none for a rule that the base does not have.
    pub(super) fn of(rules: &RulesInForce, rule: &str) -> Option<Self> {
        let in_base = rules.base().rule(rule)?;
        let now = rules.book().rule(rule);
        let standing = match now.map(|rule| rule.level) {
            None => Standing::Dropped,
            Some(Level::Required) => Standing::Required,
            Some(Level::Advisory) => Standing::Advisory,
        };
        let limits = in_base.limits.iter().map(|(name, in_base)| {
            let limit = now.and_then(|rule| rule.limit(name)).unwrap_or(*in_base);
            let at_first = show::limit(limit);
            LimitRow { name: name.clone(), in_base: *in_base, field: Field::of(&at_first), at_first }
        });
        let draft = rules.draft();
        let said = |of: fn(&AmendmentDraft) -> &String| Field::of(draft.map_or("", |draft| of(draft)));
        Some(Self {
            rule: in_base.rule.id,
            rule_name: in_base.rule.name,
            level_in_base: in_base.level,
            limits: limits.collect(),
            standing,
            name: Field::of(draft.map_or(FIRST_NAME, |draft| &draft.name)),
            authority: said(|draft| &draft.authority),
            date: said(|draft| &draft.date),
            reason: said(|draft| &draft.reason),
            refused: None,
            leads_to_refusal: false,
        })
    }

    pub(super) fn amend_form_ui(&mut self, ui: &mut Ui, rules: &RulesInForce) -> Option<Wanted> {
        ui.heading(format!("Amend: {}", self.rule_name));
        let height = (ui.available_height() - FOOT).max(0.0);
        ScrollArea::vertical()
            .id_salt(("amend", self.rule))
            .auto_shrink(false)
            .max_height(height)
            .show(ui, |ui| self.fields_ui(ui, rules.base().rule(self.rule)));
        let (apply, cancel) = ui.horizontal(|ui| (ui.button("Apply").clicked(), ui.button("Cancel").clicked())).inner;
        if apply {
            let applied = self.applied(rules);
            self.leads_to_refusal = applied.is_none();
            ui.ctx().request_repaint();
            return applied.map(Box::new).map(Wanted::Apply);
        }
        cancel.then_some(Wanted::Cancel)
    }

    fn fields_ui(&mut self, ui: &mut Ui, in_base: Option<&BookRule>) {
        ui.set_max_width(ui.available_width() - 8.0);
        ui.spacing_mut().item_spacing.y = 5.0;
        let leads = &mut std::mem::take(&mut self.leads_to_refusal);
        for (standing, name, detail) in [
            (Standing::Required, "Required", "a shortfall is a correction"),
            (Standing::Advisory, "Advisory", "a shortfall fails no plan"),
            (Standing::Dropped, "Drop the rule", "it is judged no longer"),
        ] {
            if tick_row_ui(ui, name, Some(detail), self.standing == standing).clicked() {
                self.standing = standing;
            }
        }
        if self.standing != Standing::Dropped && !self.limits.is_empty() {
            part_ui(ui, "Limits");
            for row in &mut self.limits {
                limit_ui(ui, row, leads);
            }
        }
        if in_base.is_some_and(|rule| rule.limits.is_empty()) {
            ui.label(RichText::new("The rule has no limit.").color(theme::QUIET));
        }
        part_ui(ui, "Who amends it");
        text_ui(ui, "Name of the amendment", &mut self.name, leads);
        text_ui(ui, "Authority that adopted it", &mut self.authority, leads);
        text_ui(ui, "Date from which it holds", &mut self.date, leads);
        text_ui(ui, "Reason", &mut self.reason, leads);
        if let Some(refused) = &self.refused {
            refusal_ui(ui, refused, leads);
        }
    }

    /// The amendment with what the form says of this rule; none where something is refused, which then stands beside its
    /// field.
    fn applied(&mut self, rules: &RulesInForce) -> Option<AmendmentDraft> {
        self.refused = None;
        let mut draft = rules.draft().cloned().unwrap_or_default();
        draft.amends = rules.name_of_base();
        let asked = [
            (&mut self.name, &mut draft.name, "The amendment needs a name."),
            (&mut self.authority, &mut draft.authority, "Say who adopted it."),
            (&mut self.date, &mut draft.date, "Say from when it holds."),
            (&mut self.reason, &mut draft.reason, "Say why it is there."),
        ];
        let mut is_refused = false;
        for (field, said, missing) in asked {
            field.typed.trim().clone_into(said);
            field.refused = said.is_empty().then(|| missing.to_owned());
            is_refused |= field.refused.is_some();
        }
        let earlier = match draft.rules.remove(self.rule) {
            Some(RuleDraft::Changed { limits, .. }) => limits,
            Some(RuleDraft::Dropped) | None => BTreeMap::new(),
        };
        if self.standing == Standing::Dropped {
            draft.rules.insert(self.rule, RuleDraft::Dropped);
        } else {
            let limits = self.written(earlier);
            is_refused |= self.limits.iter().any(|row| row.field.refused.is_some());
            let level = if self.standing == Standing::Required { Level::Required } else { Level::Advisory };
            let level = Some(level).filter(|level| *level != self.level_in_base);
            if level.is_some() || !limits.is_empty() {
                draft.rules.insert(self.rule, RuleDraft::Changed { level, limits });
            }
        }
        if is_refused {
            return None;
        }
        match draft.laid_over(rules.base()) {
            Ok(_) => Some(draft),
            Err(error) => {
                error.problems.iter().for_each(|problem| self.refuse(&problem.path, &problem.message));
                None
            }
        }
    }

    /// The new figures: those given before where their field is as it was, and those that differ from the base.
    fn written(&mut self, mut limits: BTreeMap<String, WrittenLimit>) -> BTreeMap<String, WrittenLimit> {
        for LimitRow { name, in_base, at_first, field } in &mut self.limits {
            field.refused = None;
            if field.typed.trim() == at_first {
                continue;
            }
            match WrittenLimit::read(&field.typed, *in_base) {
                Ok(written) if written.limit() == *in_base => {
                    limits.remove(name);
                }
                Ok(written) => {
                    limits.insert(name.clone(), written);
                }
                Err(why) => field.refused = Some(why),
            }
        }
        limits
    }

    /// Puts what the book's reader refuses beside the field that it is about.
    fn refuse(&mut self, path: &str, message: &str) {
        let group = path.strip_prefix("rules.").and_then(|path| path.strip_prefix(self.rule)).unwrap_or_default();
        let group = group.trim_start_matches('.');
        let is_meant = |row: &&mut LimitRow| {
            let (of_group, name) = row.name.rsplit_once('.').unwrap_or(("", &row.name));
            of_group == group && message.contains(&format!("`{name}`"))
        };
        let refused = match self.limits.iter_mut().find(is_meant) {
            Some(row) => &mut row.field.refused,
            None => &mut self.refused,
        };
        let earlier = refused.take().map_or_else(String::new, |earlier| format!("{earlier}\n"));
        *refused = Some(format!("{earlier}{message}"));
    }
}

fn part_ui(ui: &mut Ui, title: &str) {
    ui.add_space(6.0);
    ui.label(RichText::new(title).family(theme::bold()));
}

/// What is wrong with a field, under it; the first of them comes into view if it `leads` there.
fn refusal_ui(ui: &mut Ui, why: &str, leads: &mut bool) {
    let text = RichText::new(why).size(theme::SMALL).color(theme::ink(Ink::Redline));
    let told = ui.add(Label::new(text).wrap());
    if std::mem::take(leads) {
        told.scroll_to_me(Some(Align::Center));
    }
}

/// The name of a limit with the field of its figure.
fn limit_ui(ui: &mut Ui, row: &mut LimitRow, leads: &mut bool) {
    let size = vec2(ui.available_width(), FIELD);
    ui.allocate_ui_with_layout(size, Layout::right_to_left(Align::Center), |ui| {
        let edit = TextEdit::singleline(&mut row.field.typed).margin(FIELD_MARGIN).desired_width(FIGURE);
        let field = ui.add(edit);
        let left = vec2(ui.available_width(), FIELD);
        ui.allocate_ui_with_layout(left, Layout::left_to_right(Align::Center), |ui| {
            let label = ui.add(Label::new(RichText::new(words(&row.name)).color(theme::QUIET)).wrap());
            field.labelled_by(label.id);
        });
    });
    if row.field.typed.trim() != show::limit(row.in_base) {
        below_figure_ui(ui, &format!("{} without this amendment", show::limit(row.in_base)));
    }
    if let Some(refused) = &row.field.refused {
        refusal_ui(ui, refused, leads);
    }
}

/// A field of text under its name.
fn text_ui(ui: &mut Ui, name: &str, field: &mut Field, leads: &mut bool) {
    let label = ui.label(RichText::new(name).size(theme::SMALL).color(theme::QUIET));
    let edit = TextEdit::singleline(&mut field.typed).margin(FIELD_MARGIN).desired_width(f32::INFINITY);
    ui.add(edit).labelled_by(label.id);
    if let Some(refused) = &field.refused {
        refusal_ui(ui, refused, leads);
    }
}

/// The button that leads from an explanation here.
pub(super) fn amend_button_ui(ui: &mut Ui) -> bool {
    let button = Button::new(RichText::new("Amend...").size(theme::SMALL)).min_size(vec2(0.0, 26.0));
    ui.add(button).on_hover_text("Another limit, another standing, or no such rule here").clicked()
}
