use egui::{Area, Frame, Id, Margin, Order, Pos2, Rect, RichText, Stroke, Ui, Vec2, pos2, vec2};
use plan_edit::snap::SnapCause;
use plan_edit::{Tool, WallDrag};
use plan_model::elements::Wall;
use plan_model::{Exact, Length, Point, Units};
use plan_rules::show;

use super::Camera;
use super::highlight::Highlight;
use crate::session::{RoomSize, Session};
use crate::theme;
use plan_drawing::Ink;

/// More rooms than this are not read while the hand moves.
const MOST_ROOMS: usize = 4;

/// Size of the rooms' figures.
const FIGURES: f32 = 14.0;

/// While a wall is dragged: how far it has moved and what the rooms at it become, beside those rooms.
pub(super) fn drag_card_ui(ui: &Ui, session: &Session, camera: &Camera, board: Rect) {
    /// Until the card was laid out for the first time.
    const FIRST_SIZE: Vec2 = vec2(260.0, 110.0);
    let Tool::DraggingWall(drag) = session.tool() else { return };
    let Some(pointer) = ui.input(|input| input.pointer.latest_pos()) else { return };
    let id = Id::unique("dragged wall");
    let size = ui.memory(|memory| memory.area_rect(id)).map_or(FIRST_SIZE, |rect| rect.size());
    let way = Way::of(session, drag).unwrap_or(Way::Left);
    let board = board.shrink(8.0);
    Area::new(id)
        .order(Order::Tooltip)
        .interactable(false)
        .fixed_pos(corner(size, pointer, way, changed_rooms(session, camera, board), board))
        .constrain_to(board)
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
        let way = Way::of(session, drag).map(|way| format!(" {}", way.word()));
        let moved = moved + way.as_deref().unwrap_or_default();
        ui.label(RichText::new(moved).family(theme::bold()).size(theme::HEADING));
        if let SnapCause::Aligned { .. } = snap.cause {
            ui.label(RichText::new("In line with another wall's face").color(theme::ACCENT));
        }
    }
    if let Some(refused) = &drag.refused {
        ui.label(RichText::new(refused.to_string()).color(theme::ink(Ink::Caution)));
    }
    if let Some(conflict) = shown.conflicts.first() {
        let cannot = format!("Cannot be built: {}", conflict.sentence);
        ui.label(RichText::new(cannot).family(theme::bold()).color(theme::ink(Ink::Caution)));
    }
    for room in changed(session).take(MOST_ROOMS) {
        ui.label(RichText::new(format!("{}  {}", room.name, room.size)).size(FIGURES));
    }
    let corrections = shown.corrections().count();
    if corrections > 0 {
        let text = if corrections == 1 { "1 correction".to_owned() } else { format!("{corrections} corrections") };
        ui.label(RichText::new(text).family(theme::bold()).color(theme::ink(Ink::Redline)));
    }
}

/// Rooms that are not as they were before the drag.
fn changed(session: &Session) -> impl Iterator<Item = &RoomSize> {
    session.shown().rooms.iter().filter(|room| session.settled().room(&room.id) != Some(room))
}

/// What encloses these rooms on the screen.
fn changed_rooms(session: &Session, camera: &Camera, board: Rect) -> Option<Rect> {
    let bounds = changed(session).filter_map(|room| match Highlight::room(session.shown(), &room.id)? {
        Highlight::Room { bounds, .. } => Some(camera.rect_to_screen(bounds, board)),
        _ => None,
    });
    bounds.reduce(|a, b| a.union(b))
}

/// The way that a wall has gone on the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    Left,
    Right,
    Up,
    Down,
}

impl Way {
    /// None as long as the wall stands where it stood.
    fn of(session: &Session, drag: &WallDrag) -> Option<Self> {
        let by = drag.snap.as_ref()?.by;
        let home = session.settled().document.home();
        let wall = home.elements.walls.iter().find(|wall| wall.id == drag.wall)?;
        (by != Length::ZERO).then(|| Self::of_wall(wall, by))
    }

    /// A wall off the axes goes the way that it goes farther.
    fn of_wall(wall: &Wall, by: Length) -> Self {
        let Point { x, y } = wall.to - wall.from;
        let (right, up) = (-y.steps(), x.steps());
        let to_its_left = by > Length::ZERO;
        match (right.abs() >= up.abs(), (right > 0) == to_its_left, (up > 0) == to_its_left) {
            (true, true, _) => Self::Right,
            (true, false, _) => Self::Left,
            (false, _, true) => Self::Up,
            (false, _, false) => Self::Down,
        }
    }

    const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Up => "up",
            Self::Down => "down",
        }
    }

    const fn opposite(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            Self::Up => Self::Down,
            Self::Down => Self::Up,
        }
    }

    const fn across(self) -> [Self; 2] {
        match self {
            Self::Left | Self::Right => [Self::Up, Self::Down],
            Self::Up | Self::Down => [Self::Left, Self::Right],
        }
    }
}

/// Where the card's upper left corner goes: beside the rooms, on the side that the wall comes from if there is space,
/// else on another; where there is none near, beside the pointer on the side that the wall comes from.
fn corner(size: Vec2, pointer: Pos2, way: Way, rooms: Option<Rect>, board: Rect) -> Pos2 {
    /// Farther from the pointer than this nobody looks.
    const FARTHEST: f32 = 340.0;
    /// Between the card and what it stands beside.
    const GAP: f32 = 18.0;
    let beside = |around: Rect, side: Way| {
        let around = around.expand2(size / 2.0 + Vec2::splat(GAP));
        // Along the side it gives way to the edges of the board.
        let room = board.shrink2(size / 2.0);
        let along = pointer.min(room.max).max(room.min);
        let middle = match side {
            Way::Left => pos2(around.left(), along.y),
            Way::Right => pos2(around.right(), along.y),
            Way::Up => pos2(along.x, around.top()),
            Way::Down => pos2(along.x, around.bottom()),
        };
        Rect::from_center_size(middle, size)
    };
    let [one, other] = way.across();
    let sides = [way.opposite(), one, other, way];
    let is_good = |card: &Rect| board.contains_rect(*card) && card.distance_to_pos(pointer) <= FARTHEST;
    let found = rooms.and_then(|rooms| sides.into_iter().map(|side| beside(rooms, side)).find(is_good));
    found.unwrap_or_else(|| beside(Rect::from_pos(pointer), way.opposite())).min
}

fn length(length: Length, units: Units) -> String {
    show::length(Exact::from(i128::from(length.steps())), units)
}

#[cfg(test)]
mod tests {
    use plan_model::elements::{PlacedBy, WallKind};

    use super::*;

    #[test]
    fn the_way_of_a_wall_is_told_as_it_is_seen() {
        let wall = |to: Point| Wall {
            id: "flex-wall".into(),
            kind: WallKind::Partition,
            from: Point::inches(100, 100),
            to,
            thickness: Length::inches(4),
            placed_by: PlacedBy::Centre,
            movable: true,
        };
        let ways = |to: Point| [1, -1].map(|by| Way::of_wall(&wall(to), Length::inches(by)));
        assert_eq!(ways(Point::inches(100, 200)), [Way::Left, Way::Right]);
        assert_eq!(ways(Point::inches(100, 0)), [Way::Right, Way::Left]);
        assert_eq!(ways(Point::inches(200, 100)), [Way::Up, Way::Down]);
        assert_eq!(ways(Point::inches(0, 100)), [Way::Down, Way::Up]);
    }

    #[test]
    fn the_card_stands_clear_of_the_rooms_where_there_is_space() {
        let board = Rect::from_min_size(Pos2::ZERO, vec2(1000.0, 700.0));
        let (size, pointer) = (vec2(250.0, 100.0), pos2(450.0, 300.0));
        let rooms = Rect::from_min_max(pos2(350.0, 200.0), pos2(600.0, 400.0));
        let card = |way, rooms| Rect::from_min_size(corner(size, pointer, way, rooms, board), size);
        for way in [Way::Left, Way::Right, Way::Up, Way::Down] {
            assert!(!card(way, Some(rooms)).intersects(rooms));
        }
        assert!(card(Way::Right, Some(rooms)).right() < rooms.left(), "the wall comes from the left");
        assert!(card(Way::Right, Some(board)).right() < pointer.x, "no space: the side that it comes from");
        assert!(card(Way::Left, None).left() > pointer.x);
    }
}
