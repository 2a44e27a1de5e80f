use egui::{Area, Frame, Id, Margin, Order, Rect, RichText, Stroke, Ui, vec2};
use plan_edit::snap::SnapCause;
use plan_edit::{Tool, WallDrag};
use plan_model::{Exact, Length, Units};
use plan_rules::show;

use crate::session::{RoomSize, Session};
use crate::theme;
use plan_drawing::Ink;

/// More rooms than this are not read while the hand moves.
const MOST_ROOMS: usize = 4;

/// Size of the rooms' figures.
const FIGURES: f32 = 14.0;

/// While a wall is dragged: how far it has moved and what the rooms at it become, beside the pointer.
pub(super) fn drag_card_ui(ui: &Ui, session: &Session, board: Rect) {
    let Tool::DraggingWall(drag) = session.tool() else { return };
    let Some(pointer) = ui.input(|input| input.pointer.latest_pos()) else { return };
    Area::new(Id::unique("dragged wall"))
        .order(Order::Tooltip)
        .interactable(false)
        .fixed_pos(pointer + vec2(26.0, 30.0))
        .constrain_to(board.shrink(8.0))
        .show(ui.ctx(), |ui| {
            Frame::new()
                .fill(theme::CARD)
                .stroke(Stroke::new(1.0, theme::ACCENT))
                .corner_radius(4.0)
                .inner_margin(Margin::symmetric(10, 6))
                .show(ui, |ui| card_ui(ui, session, drag));
        });
}

fn card_ui(ui: &mut Ui, session: &Session, drag: &WallDrag) {
    ui.set_max_width(320.0);
    ui.spacing_mut().item_spacing.y = 2.0;
    let shown = session.shown();
    let units = shown.document.plan.units;
    if let Some(snap) = &drag.snap {
        let moved = format!("Moved {}", length(snap.by.abs(), units));
        ui.label(RichText::new(moved).family(theme::bold()).size(theme::HEADING));
        if let SnapCause::Aligned { .. } = snap.cause {
            ui.label(RichText::new("In line with another wall's face").color(theme::ACCENT));
        }
    }
    if let Some(refused) = &drag.refused {
        ui.label(RichText::new(refused.to_string()).color(theme::ink(Ink::Caution)));
    }
    let changed = |room: &&RoomSize| session.settled().room(&room.id) != Some(*room);
    for room in shown.rooms.iter().filter(changed).take(MOST_ROOMS) {
        ui.label(RichText::new(format!("{}  {}", room.name, room.size)).size(FIGURES));
    }
    let corrections = shown.corrections().count();
    if corrections > 0 {
        let text = if corrections == 1 { "1 correction".to_owned() } else { format!("{corrections} corrections") };
        ui.label(RichText::new(text).family(theme::bold()).color(theme::ink(Ink::Redline)));
    }
}

fn length(length: Length, units: Units) -> String {
    show::length(Exact::from(i128::from(length.steps())), units)
}
