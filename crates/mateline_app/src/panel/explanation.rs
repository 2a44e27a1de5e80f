//! What a rule is and what the book in force says of it: in place of the lists above the findings, so that plan and findings
//! stay in view. It shows what `mateline explain` draws, and tells what that tells, line by line.

use egui::{Align, Button, Layout, RichText, ScrollArea, Ui, vec2};
use plan_drawing::Ink;
use plan_rules::report::{RuleFact, Topic, rule_facts};
use plan_rules::{CAUTIONS, Change, Changed, Rule, RuleBook, registry, show};

use super::amend_form::amend_button_ui;
use super::example::ExampleView;
use crate::theme;

/// What was asked of the explanation.
pub(super) enum Wanted {
    /// To be left.
    Close,
    /// To amend the rule.
    Amend,
}

/// The column of what stands before a line.
const LABEL: f32 = 84.0;
/// From the right end of a row to its figure.
const INSET: f32 = 8.0;

/// Draws the explanation of a rule by its id.
pub(super) fn explanation_ui(ui: &mut Ui, book: &RuleBook, rule: &str, example: &mut ExampleView) -> Option<Wanted> {
    let Some(rule) = registry().find(|known| known.id == rule) else { return Some(Wanted::Close) };
    let wanted = head_ui(ui, rule);
    let height = ui.available_height();
    ScrollArea::vertical().id_salt(("explanation", rule.id)).auto_shrink(false).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 5.0;
        example.example_ui(ui, book, rule, height);
        ui.label(rule.measures);
        book_ui(ui, book, rule);
        cautions_ui(ui);
    });
    wanted
}

/// The name of the rule, the way back to the lists and the way to an amendment.
fn head_ui(ui: &mut Ui, rule: &Rule) -> Option<Wanted> {
    let row = vec2(ui.available_width(), 0.0);
    ui.allocate_ui_with_layout(row, Layout::right_to_left(Align::Min), |ui| {
        let button = Button::new(RichText::new("Close").size(theme::SMALL)).min_size(vec2(0.0, 26.0));
        let closed = ui.add(button).accessible_name("Close the explanation").clicked();
        let amends = amend_button_ui(ui);
        ui.with_layout(Layout::top_down(Align::Min), |ui| {
            ui.add_space(2.0);
            ui.heading(rule.name);
        });
        if amends { Some(Wanted::Amend) } else { closed.then_some(Wanted::Close) }
    })
    .inner
}

/// What the book says of the rule, with what amendments changed in it.
fn book_ui(ui: &mut Ui, book: &RuleBook, rule: &Rule) {
    let facts = book.facts();
    ui.add_space(4.0);
    ui.label(RichText::new(format!("{}, {}", facts.name, facts.edition)).family(theme::bold()));
    let changes: Vec<&Changed> = facts.changes.iter().filter(|change| change.rule == rule.id).map(what).collect();
    // A rule that an amendment dropped is told as the code has it.
    let of_book = book.rule(rule.id).or_else(|| book.code()?.rule(rule.id));
    for RuleFact { topic, text } in of_book.map(rule_facts).unwrap_or_default() {
        match &topic {
            Topic::Limit(name) => limit_ui(ui, name, &text, &changes),
            // The two figures of a limit stand beside each other already.
            Topic::Amended => {}
            Topic::Doubt => {
                ui.label(RichText::new(sentence(&text)).color(theme::ink(Ink::Caution)));
            }
            _ => match topic.label() {
                Some(label) => line_ui(ui, label, &text),
                None => {
                    ui.label(sentence(&text));
                }
            },
        }
    }
    for change in changes.iter().filter(|change| !matches!(change, Changed::Limit(..))) {
        line_ui(ui, "amended", &change.to_string());
    }
    if !changes.is_empty() {
        for amendment in &facts.amendments {
            let told = format!("{}; {}; {}. {}", amendment.name, amendment.authority, amendment.date, amendment.reason);
            line_ui(ui, "amended by", &told);
        }
    }
}

const fn what(change: &Change) -> &Changed {
    &change.what
}

/// A line with what stands before it.
fn line_ui(ui: &mut Ui, label: &str, text: &str) {
    ui.horizontal_top(|ui| {
        ui.allocate_ui_with_layout(vec2(LABEL, 0.0), Layout::top_down(Align::Min), |ui| {
            ui.set_width(LABEL);
            ui.label(RichText::new(label).color(theme::QUIET));
        });
        ui.with_layout(Layout::top_down(Align::Min), |ui| ui.label(text));
    });
}

/// A limit; where it is amended, with the code's figure below.
fn limit_ui(ui: &mut Ui, name: &str, text: &str, changes: &[&Changed]) {
    let in_code = changes.iter().find_map(|change| match change {
        Changed::Limit(changed, code, _) if changed == name => Some(*code),
        _ => None,
    });
    ui.with_layout(Layout::right_to_left(Align::Min), |ui| {
        ui.add_space(INSET);
        ui.with_layout(Layout::top_down(Align::Max), |ui| {
            ui.label(RichText::new(text).family(theme::bold()));
        });
        ui.with_layout(Layout::top_down(Align::Min), |ui| ui.label(RichText::new(words(name)).color(theme::QUIET)));
    });
    if let Some(code) = in_code {
        let figure = code.map_or_else(|| "none".to_owned(), show::limit);
        below_figure_ui(ui, &format!("{figure} in the code"));
    }
}

/// A smaller line under the figure of a limit.
pub(super) fn below_figure_ui(ui: &mut Ui, text: &str) {
    let row = vec2(ui.available_width(), 0.0);
    ui.allocate_ui_with_layout(row, Layout::right_to_left(Align::Min), |ui| {
        ui.add_space(INSET);
        ui.label(RichText::new(text).size(theme::SMALL).color(theme::ink(Ink::Caution)));
    });
}

/// The name of a limit as people say it: `borrowed.share_of_wall` is "borrowed, share of wall".
pub(super) fn words(name: &str) -> String {
    name.replace('.', ", ").replace(['_', '-'], " ")
}

/// A clause as a sentence of its own.
fn sentence(clause: &str) -> String {
    let mut letters = clause.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    format!("{}.", first.chain(letters).collect::<String>())
}

fn cautions_ui(ui: &mut Ui) {
    ui.add_space(6.0);
    ui.label(RichText::new("Cautions").family(theme::bold()));
    for caution in CAUTIONS {
        ui.label(RichText::new(caution).size(theme::SMALL).color(theme::QUIET));
    }
}
