use egui::{FontId, RichText, Role, ScrollArea, Sense, Ui, WidgetInfo, pos2, vec2};
use plan_drawing::Ink;
use plan_geometry::Problem;
use plan_rules::{Judgement, Verdict};

use super::heading_ui;
use super::row::{disc, ground};
use crate::board::Highlight;
use crate::session::Shown;
use crate::theme;

/// What cannot be built, corrections with the numbers of the redlines, what is unknown, advisories, and how many rules
/// are met.
pub(super) fn corrections_ui(ui: &mut Ui, shown: &Shown, marked: Option<&Highlight>) -> Option<Highlight> {
    ui.add_space(4.0);
    let judgement = match &shown.judgement {
        Ok(judgement) => judgement,
        Err(wrong) => {
            heading_ui(ui, "Not judged");
            ui.label(wrong.to_string());
            return None;
        }
    };
    let findings = findings(shown, judgement);
    heading_ui(ui, &title(shown, judgement));
    let mut wanted = None;
    if !findings.is_empty() {
        ScrollArea::vertical().auto_shrink([false, true]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 2.0;
            for finding in findings {
                wanted = wanted.take().or(finding.finding_ui(ui, marked));
            }
        });
    }
    ui.label(RichText::new(met(judgement)).color(theme::QUIET));
    wanted
}

fn title(shown: &Shown, judgement: &Judgement) -> String {
    let corrections = match judgement.corrections().count() {
        0 => "No corrections".to_owned(),
        1 => "1 correction".to_owned(),
        count => format!("{count} corrections"),
    };
    let can_be_built = shown.refusals.is_empty() && shown.conflicts().next().is_none();
    if can_be_built { corrections } else { format!("Cannot be built. {corrections}") }
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
    place: Option<Highlight>,
}

fn findings(shown: &Shown, judgement: &Judgement) -> Vec<Finding> {
    let refusals = shown.refusals.iter().map(|refusal| Finding {
        mark: "Choices".to_owned(),
        ink: Ink::Caution,
        sentence: format!("{refusal}."),
        place: None,
    });
    let problem = |mark: &str, problem: &Problem| Finding {
        mark: mark.to_owned(),
        ink: Ink::Caution,
        sentence: format!("{}.", problem.kind),
        place: Some(Highlight::problem(problem)),
    };
    let conflicts = shown.conflicts().map(|found| problem("Conflict", found));
    let faults = shown.faults().map(|found| problem("Drawing", found));
    let verdict = |mark: String, ink: Ink, verdict: &Verdict| Finding {
        mark,
        ink,
        sentence: match &verdict.section {
            Some(section) => format!("{} ({section})", verdict.message),
            None => verdict.message.clone(),
        },
        place: Some(Highlight::verdict(verdict)),
    };
    let numbered = judgement.corrections().zip(1_usize..);
    let corrections = numbered.map(|(found, number)| verdict(number.to_string(), Ink::Redline, found));
    let unknown = judgement.unknown().map(|found| verdict("Unknown".to_owned(), Ink::Caution, found));
    let advisories = judgement.advisories().map(|found| verdict("Advisory".to_owned(), Ink::Caution, found));
    refusals.chain(conflicts).chain(faults).chain(corrections).chain(unknown).chain(advisories).collect()
}

impl Finding {
    fn finding_ui(self, ui: &mut Ui, marked: Option<&Highlight>) -> Option<Highlight> {
        /// Numbers stand in a column of their own, so that sentences begin under each other.
        const NUMBER: f32 = 34.0;
        let is_word = self.mark.len() > 2;
        let (indent, above) = if is_word { (6.0, 24.0) } else { (NUMBER, 0.0) };
        let width = ui.available_width();
        let font = FontId::proportional(14.0);
        let galley = ui.painter().layout(self.sentence.clone(), font, theme::TEXT, width - indent - 8.0);
        let (rect, response) = ui.allocate_exact_size(vec2(width, galley.size().y + above + 10.0), Sense::click());
        let selected = self.place.is_some() && self.place.as_ref() == marked;
        response.widget_info(|| {
            WidgetInfo::selected(Role::Button, true, selected, format!("{}: {}", self.mark, self.sentence))
        });
        ground(ui, rect, &response, selected);
        disc(ui, pos2(rect.left() + 6.0, rect.top() + 14.0), &self.mark, theme::ink(self.ink));
        ui.painter().galley(pos2(rect.left() + indent, rect.top() + 5.0 + above), galley, theme::TEXT);
        if response.clicked() { self.place } else { None }
    }
}
