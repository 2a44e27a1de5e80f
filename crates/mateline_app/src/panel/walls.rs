use egui::{EventFilter, Key, Response, Ui, UiBuilder};
use plan_edit::Command;
use plan_edit::snap::Pace;
use plan_model::elements::Wall;
use plan_model::{Id, Point};

use super::row::{Mark, Row};
use super::{Asked, heading_ui};
use crate::board::Highlight;
use crate::session::Shown;

/// Every wall that may be moved; the arrow keys move the chosen one as a pointer does on the plan.
pub(super) fn walls_ui(ui: &mut Ui, shown: &Shown, marked: Option<&Highlight>) -> Option<Asked> {
    let home = shown.document.home();
    let movable: Vec<&Wall> = home.elements.walls.iter().filter(|wall| wall.movable).collect();
    if movable.is_empty() {
        return None;
    }
    ui.add_space(10.0);
    heading_ui(ui, "Movable walls");
    ui.spacing_mut().item_spacing.y = 1.0;
    let units = shown.document.plan.units;
    let mut asked = None;
    for wall in movable {
        let selected = matches!(marked, Some(Highlight::Wall { id, .. }) if *id == wall.id);
        let name = name(&wall.id);
        // The row keeps its id, and so the keyboard, when a room above opens or closes by the wall's own move.
        let kept = UiBuilder::new().scope_id(egui::Id::unique(("movable wall", wall.id.as_str())));
        let response = ui.scope_builder(kept, |ui| {
            let has_keyboard = ui.memory(|memory| memory.has_focus(ui.next_auto_id()));
            let hint = if has_keyboard { "arrow keys move it" } else { "" };
            Row { label: name.clone(), mark: Mark::None, name: &name, columns: &[(hint, 6.0)], selected }.row_ui(ui)
        });
        let response = response.inner;
        if response.clicked() {
            // A click alone does not give a row the keyboard.
            response.request_focus();
            asked = Highlight::wall(shown, &wall.id).map(Asked::Show);
        }
        if let Some((pace, arrow)) = arrow_pressed(ui, &response, selected)
            && let Some(way) = way(wall, arrow)
        {
            let by = pace.nudge(units) * way;
            asked = Some(Asked::Command(Command::MoveWall { wall: wall.id.clone(), by }));
        }
    }
    asked
}

/// A wall's id as words: `flex-wall` is "Flex wall".
fn name(id: &Id) -> String {
    let words = id.as_str().replace(['-', '.'], " ");
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The arrow key pressed on a row that has the keyboard, or on a wall that was marked on the plan while nothing has it;
/// with Shift the wall moves finely.
fn arrow_pressed(ui: &Ui, row: &Response, is_marked: bool) -> Option<(Pace, (i64, i64))> {
    let nothing_has_keyboard = ui.memory(|memory| memory.focused().is_none());
    if !row.has_focus() && is_marked && nothing_has_keyboard {
        row.request_focus();
    } else if !row.has_focus() {
        return None;
    }
    // Without this, arrows would carry the focus to another row.
    let filter = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(row.id, filter));
    let arrows =
        [(Key::ArrowLeft, (-1, 0)), (Key::ArrowRight, (1, 0)), (Key::ArrowUp, (0, 1)), (Key::ArrowDown, (0, -1))];
    ui.input(|input| {
        let pace = if input.modifiers.shift { Pace::Fine } else { Pace::Normal };
        arrows.into_iter().find(|(key, _)| input.key_pressed(*key)).map(|(_, arrow)| (pace, arrow))
    })
}

/// Whether an arrow moves the wall to its left (1) or right (-1), walking from its `from` to its `to`; none for an arrow
/// along the wall.
fn way(wall: &Wall, arrow: (i64, i64)) -> Option<i64> {
    let Point { x, y } = wall.to - wall.from;
    let left = (-y.steps(), x.steps());
    let (across, along) = if arrow.0 == 0 { (left.1, left.0) } else { (left.0, left.1) };
    (across.abs() >= along.abs()).then(|| across.signum() * (arrow.0 + arrow.1))
}

#[cfg(test)]
mod tests {
    use plan_model::Length;
    use plan_model::elements::{PlacedBy, WallKind};

    use super::*;

    fn wall(to: Point) -> Wall {
        Wall {
            id: "closet-wall.2".into(),
            kind: WallKind::Partition,
            from: Point::inches(100, 100),
            to,
            thickness: Length::inches(4),
            placed_by: PlacedBy::Centre,
            movable: true,
        }
    }

    #[test]
    fn arrows_move_a_wall_the_way_they_point() {
        let (left, right, up, down) = ((-1, 0), (1, 0), (0, 1), (0, -1));
        // Walking up the drawing, left is left; walking to the right, left is up.
        let upright = wall(Point::inches(100, 200));
        assert_eq!([left, right, up, down].map(|arrow| way(&upright, arrow)), [Some(1), Some(-1), None, None]);
        let flat = wall(Point::inches(200, 100));
        assert_eq!([left, right, up, down].map(|arrow| way(&flat, arrow)), [None, None, Some(1), Some(-1)]);
        let downwards = wall(Point::inches(100, 0));
        assert_eq!([left, right].map(|arrow| way(&downwards, arrow)), [Some(-1), Some(1)]);
    }

    #[test]
    fn an_id_is_read_as_words() {
        assert_eq!(name(&wall(Point::inches(0, 0)).id), "Closet wall 2");
    }
}
