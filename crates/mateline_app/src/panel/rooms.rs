use egui::{RichText, Ui};
use plan_model::Units;
use plan_rules::show;

use super::heading_ui;
use super::measures;
use super::row::{Mark, Row};
use crate::board::Highlight;
use crate::measured::Place;
use crate::session::{Outdoors, RoomSize, Shown};
use crate::theme;

/// Every room with its clear size and area; a room with corrections carries their numbers. What is measured in the chosen one
/// stands below it.
pub(super) fn rooms_ui(ui: &mut Ui, shown: &Shown, marked: Option<&Highlight>) -> Option<Highlight> {
    ui.add_space(10.0);
    let units = shown.document.plan.units;
    ui.horizontal(|ui| {
        heading_ui(ui, "Rooms");
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Max), |ui| {
            let unit = match units {
                Units::In => "sq ft",
                Units::Mm => "sq m",
            };
            ui.label(RichText::new(format!("clear size, {unit}")).size(theme::SMALL).color(theme::QUIET));
        });
    });
    ui.spacing_mut().item_spacing.y = 1.0;
    let open = marked.and_then(Highlight::place);
    let mut wanted = None;
    for room in &shown.rooms {
        let selected = matches!(marked, Some(Highlight::Room { id, .. }) if *id == room.id);
        let numbers = room.corrections.iter().map(usize::to_string).collect::<Vec<_>>().join(", ");
        let row = Row {
            label: label(room, &numbers),
            mark: if numbers.is_empty() { Mark::None } else { Mark::Redlines(numbers.clone()) },
            name: &room.name,
            columns: &[(number(&room.area), 6.0), (&room.size, 54.0)],
            selected,
        };
        let ceiling = room.ceiling.as_deref().unwrap_or("height not in the plan");
        if row.row_ui(ui).on_hover_text(format!("Ceiling {ceiling}")).clicked() {
            wanted = Highlight::room(shown, &room.id);
        }
        let place = Place::Room(room.id.clone());
        if open.as_ref() == Some(&place) {
            wanted = measures::measures_ui(ui, shown, &place, marked).or(wanted);
        }
    }
    for porch in &shown.outdoors {
        let Outdoors { id, name, size, .. } = porch;
        let selected = matches!(marked, Some(Highlight::Outdoors { id: marked, .. }) if marked == id);
        let columns: &[(&str, f32)] = &[("outside", 6.0), (size, 60.0)];
        let row = Row { label: format!("{name}, outside, {size}"), mark: Mark::None, name, columns, selected };
        if row.row_ui(ui).on_hover_text("Outside; not in the heated area").clicked() {
            wanted = Some(Highlight::outdoors(porch));
        }
    }
    whole_home_ui(ui, shown, marked, open.as_ref()).or(wanted)
}

/// The home as a whole, with its measures below once it is chosen.
fn whole_home_ui(ui: &mut Ui, shown: &Shown, marked: Option<&Highlight>, open: Option<&Place>) -> Option<Highlight> {
    let area = shown.derived.heated_area.map(|area| show::area(area.exact(), shown.document.plan.units));
    let area = area.as_deref().unwrap_or("unknown");
    let selected = matches!(marked, Some(Highlight::Home { .. }));
    let label = format!("Whole home, heated area {area}");
    let columns: &[(&str, f32)] = &[(number(area), 6.0), ("heated", 60.0)];
    let row = Row { label, mark: Mark::None, name: "Whole home", columns, selected };
    let clicked = row.row_ui(ui).on_hover_text("To the exterior finished face").clicked();
    let home = if clicked { Highlight::home(shown) } else { None };
    let of_home =
        (open == Some(&Place::Home)).then(|| measures::measures_ui(ui, shown, &Place::Home, marked)).flatten();
    home.or(of_home)
}

/// The figure without its unit, which stands over the column.
fn number(area: &str) -> &str {
    area.split_once(' ').map_or(area, |(number, _)| number)
}

fn label(room: &RoomSize, numbers: &str) -> String {
    let RoomSize { name, size, area, ceiling, .. } = room;
    let ceiling = ceiling.as_ref().map_or_else(String::new, |ceiling| format!(", ceiling {ceiling}"));
    let numbers = if numbers.is_empty() { String::new() } else { format!(", correction {numbers}") };
    format!("{name}, {size}, {area}{ceiling}{numbers}")
}
