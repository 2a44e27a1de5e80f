use std::sync::Arc;

use egui::{Align, Button, FontId, Galley, Layout, Pos2, Rect, RichText, ScrollArea, Ui, UiBuilder, pos2, vec2};
use plan_drawing::Ink;
use plan_edit::actions::{Action, ActionId};
use plan_rules::{Judgement, Verdict};

use super::row::{disc, ground, row_response};
use super::{Asked, heading_ui};
use crate::board::Highlight;
use crate::session::Shown;
use crate::theme;

/// What cannot be built, corrections with the numbers of the redlines, what is unknown, advisories, and how many rules
/// are met: laid out for a width, so that its height is known before it is drawn.
pub(super) struct Corrections {
    heading: String,
    findings: Vec<Finding>,
    /// A sentence under the findings.
    rest: Option<String>,
    /// Whether a conflict or correction can be gone to from the heading.
    leads_on: bool,
}

/// From what stands above.
const ABOVE: f32 = 4.0;
/// The row of the heading.
const HEAD: f32 = 30.0;
/// The row of the sentence under the findings.
const FOOT: f32 = 26.0;
/// Between two findings.
const BETWEEN: f32 = 2.0;

impl Corrections {
    pub(super) fn new(ui: &Ui, shown: &Shown, marked: Option<&Highlight>, width: f32) -> Self {
        let leads_on = !shown.conflicts.is_empty() || shown.corrections().next().is_some();
        match &shown.judgement {
            Err(wrong) => {
                Self { heading: "Not judged".to_owned(), findings: Vec::new(), rest: Some(wrong.to_string()), leads_on }
            }
            Ok(judgement) => Self {
                heading: heading(shown, judgement),
                findings: findings(ui, shown, judgement, marked, width),
                rest: shown.can_be_built().then(|| met(judgement)),
                leads_on,
            },
        }
    }

    /// The height of everything, were there room for it.
    pub(super) fn height(&self, ui: &Ui) -> f32 {
        let spacing = ui.spacing().item_spacing.y;
        let rest = if self.rest.is_some() { FOOT + spacing } else { 0.0 };
        let list = if self.findings.is_empty() { 0.0 } else { self.list_height() + spacing };
        ABOVE + spacing + HEAD + spacing + list + rest + ABOVE
    }

    fn list_height(&self) -> f32 {
        self.findings.iter().map(|finding| finding.height() + BETWEEN).sum()
    }

    /// Draws it as high as there is room; the rest is scrolled to, at once if it `leads_to` the finding that is marked.
    pub(super) fn corrections_ui(self, ui: &mut Ui, leads_to: bool) -> Option<Asked> {
        // Nothing of it is drawn over its neighbours, however little room there is.
        ui.set_clip_rect(ui.clip_rect().intersect(ui.max_rect()));
        ui.add_space(ABOVE);
        let head = vec2(ui.available_width(), HEAD);
        let next = ui
            .allocate_ui_with_layout(head, Layout::left_to_right(Align::Center), |ui| {
                heading_ui(ui, &self.heading);
                self.leads_on.then(|| next_ui(ui)).flatten()
            })
            .inner;
        let mut wanted = None;
        let rest = if self.rest.is_some() { FOOT } else { 0.0 };
        let room = ui.available_height() - rest - ui.spacing().item_spacing.y;
        let height = self.list_height().min(room);
        if !self.findings.is_empty() {
            let area = ScrollArea::vertical().auto_shrink([false, true]).min_scrolled_height(height).max_height(height);
            area.show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = BETWEEN;
                for finding in self.findings {
                    wanted = wanted.take().or(finding.finding_ui(ui, leads_to));
                }
            });
        }
        let every = self.rest.and_then(|rest| {
            let row = vec2(ui.available_width(), FOOT);
            let row = ui.allocate_ui_with_layout(row, Layout::left_to_right(Align::Center), |ui| {
                ui.label(RichText::new(rest).color(theme::QUIET));
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| action_ui(ui, ActionId::EverySelection)).inner
            });
            row.inner
        });
        next.or(every).map(Asked::Act).or(wanted)
    }
}

/// The way to the next place that falls short, at the right end of the heading.
fn next_ui(ui: &mut Ui) -> Option<ActionId> {
    /// With less room than this the button says only "Next".
    const ROOM_FOR_NAME: f32 = 124.0;
    let Action { id, label, tooltip, shortcut } = ActionId::NextCorrection.action();
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        let text = if ui.available_width() < ROOM_FOR_NAME { "Next" } else { label };
        let button = Button::new(RichText::new(text).size(theme::SMALL)).min_size(vec2(0.0, HEAD - 4.0));
        let hint = format!("{tooltip} ({shortcut})");
        ui.add(button).accessible_name(*label).on_hover_text(hint).clicked().then_some(*id)
    })
    .inner
}

/// A small button for an action.
fn action_ui(ui: &mut Ui, id: ActionId) -> Option<ActionId> {
    let Action { label, tooltip, shortcut, .. } = id.action();
    let button = Button::new(RichText::new(*label).size(theme::SMALL)).min_size(vec2(0.0, FOOT - 2.0));
    ui.add(button).on_hover_text(format!("{tooltip} ({shortcut})")).clicked().then_some(id)
}

/// A home that cannot be built is not judged: that nothing falls short would say nothing about it.
fn heading(shown: &Shown, judgement: &Judgement) -> String {
    let corrections = match judgement.corrections().count() {
        0 => None,
        1 => Some("1 correction".to_owned()),
        count => Some(format!("{count} corrections")),
    };
    match (shown.can_be_built(), corrections) {
        (true, None) => "No corrections".to_owned(),
        (true, Some(corrections)) => corrections,
        (false, None) => "Not judged: cannot be built".to_owned(),
        (false, Some(corrections)) => format!("Cannot be built. {corrections}"),
    }
}

fn met(judgement: &Judgement) -> String {
    match judgement.met().count() {
        1 => "1 rule met".to_owned(),
        count => format!("{count} rules met"),
    }
}

/// One entry of the list.
struct Finding {
    /// A number, as its redline carries it, or a word.
    mark: String,
    ink: Ink,
    sentence: String,
    /// The sentence laid out.
    galley: Arc<Galley>,
    /// What amendments changed in its rule, laid out.
    amended: Option<Arc<Galley>>,
    place: Option<Highlight>,
    /// The rule that it is a verdict of.
    rule: Option<&'static str>,
    selected: bool,
}

/// Numbers stand in a column of their own, so that sentences begin under each other.
const NUMBER: f32 = 34.0;

fn findings(ui: &Ui, shown: &Shown, judgement: &Judgement, marked: Option<&Highlight>, width: f32) -> Vec<Finding> {
    let new = |mark: String, ink: Ink, sentence: String, place: Option<Highlight>| {
        let room = width - indent(&mark) - 16.0;
        let galley = ui.painter().layout(sentence.clone(), FontId::proportional(14.0), theme::TEXT, room);
        let selected = place.is_some() && place.as_ref() == marked;
        Finding { mark, ink, sentence, galley, amended: None, place, rule: None, selected }
    };
    let caution = |mark: &str, sentence: String, place| new(mark.to_owned(), Ink::Caution, sentence, place);
    let refusals = shown.refusals.iter().map(|refusal| caution("Choices", format!("{refusal}."), None));
    let conflicts = shown.conflicts.iter();
    let conflicts = conflicts.map(|found| caution("Conflict", found.sentence.clone(), Highlight::conflict(found)));
    let faults = shown.faults.iter();
    let faults = faults.map(|fault| caution("Drawing", fault.sentence.clone(), Some(Highlight::fault(fault))));
    let verdict = |mark: String, ink: Ink, verdict: &Verdict| {
        let sentence = match &verdict.section {
            Some(section) => format!("{} ({section})", verdict.message),
            None => verdict.message.clone(),
        };
        let room = width - indent(&mark) - 16.0;
        let amended: Vec<&str> = verdict.notes.iter().filter(|note| is_amendment(note)).map(String::as_str).collect();
        let lay_out = |text| ui.painter().layout(text, FontId::proportional(theme::SMALL), theme::QUIET, room);
        Finding {
            amended: (!amended.is_empty()).then(|| lay_out(amended.join("\n"))),
            rule: Some(verdict.rule),
            ..new(mark, ink, sentence, Some(Highlight::verdict(verdict)))
        }
    };
    let numbered = judgement.corrections().zip(1_usize..);
    let corrections = numbered.map(|(found, number)| verdict(number.to_string(), Ink::Redline, found));
    let unknown = judgement.unknown().map(|found| verdict("Unknown".to_owned(), Ink::Caution, found));
    let advisories = judgement.advisories().map(|found| verdict("Advisory".to_owned(), Ink::Caution, found));
    refusals.chain(conflicts).chain(faults).chain(corrections).chain(unknown).chain(advisories).collect()
}

/// Whether a note of a verdict tells what an amendment changed.
fn is_amendment(note: &str) -> bool {
    note.starts_with("amended: ")
}

fn indent(mark: &str) -> f32 {
    if is_word(mark) { 6.0 } else { NUMBER }
}

/// A word stands over its sentence, a number beside it.
const fn is_word(mark: &str) -> bool {
    mark.len() > 2
}

/// The row of what can be done with the finding that is chosen.
const ACTIONS: f32 = 24.0;

impl Finding {
    fn above(&self) -> f32 {
        if is_word(&self.mark) { 24.0 } else { 0.0 }
    }

    fn offers_explanation(&self) -> bool {
        self.selected && self.rule.is_some()
    }

    fn height(&self) -> f32 {
        let amended = self.amended.as_ref().map_or(0.0, |amended| amended.size().y + BETWEEN);
        let actions = if self.offers_explanation() { ACTIONS } else { 0.0 };
        self.above() + self.galley.size().y + amended + actions + 10.0
    }

    fn finding_ui(self, ui: &mut Ui, leads_to: bool) -> Option<Asked> {
        let label = format!("{}: {}", self.mark, self.sentence);
        let (rect, response) = row_response(ui, self.height(), self.selected, &label);
        if leads_to && self.selected {
            response.scroll_to_me(None);
        }
        ground(ui, rect, &response, self.selected);
        disc(ui, pos2(rect.left() + 6.0, rect.top() + 14.0), &self.mark, theme::ink(self.ink));
        let left = rect.left() + indent(&self.mark);
        let explain = self.offers_explanation().then(|| explain_ui(ui, pos2(left, rect.bottom() - ACTIONS - 3.0)));
        let corner = pos2(left, rect.top() + 5.0 + self.above());
        let below = corner.y + self.galley.size().y + BETWEEN;
        ui.painter().galley(corner, self.galley, theme::TEXT);
        if let Some(amended) = self.amended {
            ui.painter().galley(pos2(left, below), amended, theme::QUIET);
        }
        match explain {
            Some(true) => self.rule.map(Asked::Explain),
            _ if response.clicked() => self.place.map(Asked::Show),
            _ => None,
        }
    }
}

/// The way from a finding to what its rule is; gives whether it was taken.
fn explain_ui(ui: &mut Ui, corner: Pos2) -> bool {
    let place = Rect::from_min_size(corner, vec2(120.0, ACTIONS));
    let layout = Layout::left_to_right(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(place).layout(layout), |ui| {
        ui.link(RichText::new("Explain").size(14.0))
            .on_hover_text("What the rule measures, and where its limits come from")
    })
    .inner
    .clicked()
}
