//! What is measured in a room, listed under it: each figure can be shown on the plan.

use egui::{Frame, Label, Margin, RichText, Ui};
use plan_geometry::Measure;
use plan_rules::show;

use super::row::{FIGURES, INSET, Mark, Row};
use crate::board::Highlight;
use crate::measured::Place;
use crate::session::Shown;
use crate::theme;

/// From the left end of a row to the row of a measure below it.
const INDENT: f32 = 12.0;

/// Every measure of a place.
pub(super) fn measures_ui(ui: &mut Ui, shown: &Shown, place: &Place, marked: Option<&Highlight>) -> Option<Highlight> {
    let mut wanted = None;
    for (known, measure) in shown.measured().at(place) {
        let selected = matches!(marked, Some(Highlight::Measure { known: marked, .. }) if *marked == known);
        let units = shown.document.plan.units;
        let (name, figure) = (title(measure, place), show::amount(&measure.amount, units));
        let row = Row {
            label: format!("{name}: {}", show::amount_or_reason(&measure.amount, units)),
            mark: Mark::None,
            name: &name,
            columns: &[(&figure, 6.0)],
            selected,
        };
        let response = ui.horizontal(|ui| {
            ui.add_space(INDENT);
            row.row_ui(ui)
        });
        if response.inner.on_hover_text(explained(measure, &name)).clicked() {
            wanted = Some(Highlight::measure(known, measure, place));
        }
        if let Some(why) = measure.amount.unknown_because() {
            reason_ui(ui, why);
        }
    }
    wanted
}

/// Why a figure is unknown, below its row and in the row's name column.
fn reason_ui(ui: &mut Ui, why: &str) {
    #[expect(clippy::cast_possible_truncation, reason = "a few points")]
    let left = (INDENT + INSET) as i8;
    Frame::new().inner_margin(Margin { left, right: INSET as i8, top: 0, bottom: 4 }).show(ui, |ui| {
        let why = RichText::new(why).size(FIGURES).color(theme::QUIET);
        ui.add(Label::new(why).wrap());
    });
}

/// What is measured, and of which things where that is not the place itself: `Toilet side: owner toilet`.
fn title(measure: &Measure, place: &Place) -> String {
    let name = measure.name.word().replace('-', " ");
    let mut letters = name.chars();
    let name: String = letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect();
    let others = measure.of.iter().filter(|id| *place != Place::Room((*id).clone()));
    let others: Vec<String> = others.map(|id| id.as_str().replace(['-', '.'], " ")).collect();
    // The part comes first: it is what tells two rows apart, and the end of a long title is cut off.
    let parts = std::iter::once(name).chain(measure.part.map(|part| part.to_string()));
    let others = (!others.is_empty()).then(|| others.join(" to "));
    parts.chain(others).collect::<Vec<_>>().join(", ")
}

fn explained(measure: &Measure, title: &str) -> String {
    let why = measure.amount.unknown_because().map(|why| format!("\nUnknown: {why}.")).unwrap_or_default();
    format!("{title}\n{}{why}", measure.name.meaning())
}
