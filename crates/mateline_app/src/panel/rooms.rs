use egui::Ui;

use super::heading_ui;
use super::row::Row;
use crate::board::Highlight;
use crate::session::{RoomSize, Shown};
use crate::theme;
use plan_drawing::Ink;

/// Every room with its clear size and area; a room with corrections carries their numbers.
pub(super) fn rooms_ui(ui: &mut Ui, shown: &Shown, marked: Option<&Highlight>) -> Option<Highlight> {
    ui.add_space(10.0);
    heading_ui(ui, "Rooms");
    ui.spacing_mut().item_spacing.y = 1.0;
    let mut wanted = None;
    for room in &shown.rooms {
        let selected = matches!(marked, Some(Highlight::Room { id, .. }) if *id == room.id);
        let numbers = room.corrections.iter().map(usize::to_string).collect::<Vec<_>>().join(", ");
        let row = Row {
            label: label(room, &numbers),
            mark: (!numbers.is_empty()).then(|| (numbers.clone(), theme::ink(Ink::Redline))),
            name: &room.name,
            columns: &[(&room.area, 6.0), (&room.size, 84.0)],
            selected,
        };
        if row.row_ui(ui).clicked() {
            wanted = Highlight::room(shown, &room.id);
        }
    }
    wanted
}

fn label(room: &RoomSize, numbers: &str) -> String {
    let RoomSize { name, size, area, .. } = room;
    if numbers.is_empty() { format!("{name}, {size}, {area}") } else { format!("{name}, {size}, {area}, correction {numbers}") }
}
