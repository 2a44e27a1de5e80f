use egui::{Color32, FontId, Role, RichText, ScrollArea, Sense, Ui, WidgetInfo, pos2, vec2};
use plan_drawing::Ink;
use plan_rules::{Judgement, Outcome, Verdict};

use super::heading_ui;
use super::row::{disc, ground};
use crate::board::Highlight;
use crate::session::Shown;
use crate::theme;

/// Corrections with the numbers of the redlines, then what is unknown, advisories, and how many rules are met.
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
    let mut wanted = None;
    let count = judgement.corrections().count();
    let title = match count {
        0 => "No corrections".to_owned(),
        1 => "1 correction".to_owned(),
        _ => format!("{count} corrections"),
    };
    heading_ui(ui, &title);
    let listed = judgement.verdicts.iter().any(|verdict| verdict.outcome != Outcome::Met);
    let list_ui = |ui: &mut Ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        let lists: [(&str, Ink, Vec<&Verdict>); 3] = [
            ("", Ink::Redline, judgement.corrections().collect()),
            ("Unknown", Ink::Caution, judgement.unknown().collect()),
            ("Advisory", Ink::Caution, judgement.advisories().collect()),
        ];
        for (word, ink, verdicts) in lists {
            for (index, verdict) in verdicts.into_iter().enumerate() {
                let mark = if word.is_empty() { (index + 1).to_string() } else { word.to_owned() };
                wanted = wanted.take().or(verdict_ui(ui, index, verdict, &mark, theme::ink(ink), marked));
            }
        }
    };
    if listed {
        ScrollArea::vertical().auto_shrink([false, true]).show(ui, list_ui);
    }
    ui.label(RichText::new(met(judgement)).color(theme::QUIET));
    wanted
}

fn met(judgement: &Judgement) -> String {
    match judgement.met().count() {
        1 => "1 rule met".to_owned(),
        count => format!("{count} rules met"),
    }
}

fn verdict_ui(
    ui: &mut Ui,
    index: usize,
    verdict: &Verdict,
    mark: &str,
    color: Color32,
    marked: Option<&Highlight>,
) -> Option<Highlight> {
    /// The mark stands in a column of its own, so that sentences begin under each other.
    const MARK: f32 = 34.0;
    let wide = mark.len() > 2;
    let indent = if wide { 6.0 } else { MARK };
    let width = ui.available_width();
    let sentence = match &verdict.section {
        Some(section) => format!("{} ({section})", verdict.message),
        None => verdict.message.clone(),
    };
    let galley = ui.painter().layout(sentence.clone(), FontId::proportional(14.0), theme::TEXT, width - indent - 8.0);
    let above = if wide { 24.0 } else { 0.0 };
    let (rect, response) = ui.allocate_exact_size(vec2(width, galley.size().y + above + 10.0), Sense::click());
    let selected = matches!(marked, Some(Highlight::Verdict { message, .. }) if *message == verdict.message);
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, selected, format!("{mark}: {sentence}")));
    ground(ui, rect, &response, selected);
    disc(ui, pos2(rect.left() + 6.0, rect.top() + 14.0), mark, color);
    ui.painter().galley(pos2(rect.left() + indent, rect.top() + 5.0 + above), galley, theme::TEXT);
    response.clicked().then(|| Highlight::verdict(index, &verdict.message, &verdict.place))
}
