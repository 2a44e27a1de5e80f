//! What is measured in a room, listed under it: each figure can be shown on the plan.

use egui::Ui;
use plan_geometry::{Amount, Figure, Measure};
use plan_rules::show;

use super::row::{Mark, Row};
use crate::board::Highlight;
use crate::measured::Place;
use crate::session::Shown;

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
            label: format!("{name}: {figure}"),
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
    }
    wanted
}

/// What is measured, and of which things where that is not the place itself: `Toilet side: owner toilet`.
fn title(measure: &Measure, place: &Place) -> String {
    let name = measure.name.word().replace('-', " ");
    let mut letters = name.chars();
    let name: String = letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect();
    let others = measure.of.iter().filter(|id| *place != Place::Room((*id).clone()));
    let others: Vec<String> = others.map(|id| id.as_str().replace(['-', '.'], " ")).collect();
    let named = if others.is_empty() { name } else { format!("{name}, {}", others.join(" to ")) };
    measure.part.map_or_else(|| named.clone(), |part| format!("{named}, {part}"))
}

fn explained(measure: &Measure, title: &str) -> String {
    let why = match &measure.amount {
        Amount::Unknown(why)
        | Amount::OpeningLength(Figure::Unknown(why))
        | Amount::OpeningArea(Figure::Unknown(why)) => {
            format!("\nUnknown: {why}.")
        }
        _ => String::new(),
    };
    format!("{title}\n{}{why}", measure.name.meaning())
}
