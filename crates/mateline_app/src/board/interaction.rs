use egui::{CursorIcon, Key, Painter, PointerButton, Pos2, Rect, Response, Stroke, Ui, Vec2};
use plan_edit::hit::{Hit, hit_test};
use plan_edit::snap::{Pace, SnapCause};
use plan_edit::{Event, Refused, Tool};
use plan_model::{Id, Length, Point};

use super::Camera;
use super::highlight::{Highlight, inches};
use crate::session::{Session, Shown};
use crate::theme;

/// How near the pointer has to come to a wall, in screen points.
const REACH: f64 = 5.0;
/// How near a face in line attracts a dragged wall, in screen points.
const ATTRACTION: f64 = 6.0;
/// How far an arrow key moves the plan, as a part of the board.
const KEY_PAN: f32 = 0.1;
/// How much a key or button magnifies.
pub const ZOOM_STEP: f64 = 1.25;

/// Wheel, pinch and keys: what part of the plan is seen.
pub(super) fn look_around(ui: &Ui, board: &Response, camera: &mut Camera) {
    if let Some(pointer) = board.hover_pos() {
        let (scroll, pinch) = ui.input(|input| (input.smooth_scroll_delta(), input.zoom_delta()));
        /// A full notch of a wheel, about 50 points, then magnifies by a fifth.
        const EACH_POINT: f64 = 1.0 / 270.0;
        let factor = (f64::from(scroll.y) * EACH_POINT).exp() * f64::from(pinch);
        if (factor - 1.0).abs() > f64::EPSILON {
            camera.zoom_about(pointer, factor, board.rect);
        }
        if scroll.x.abs() > 0.0 {
            camera.pan(Vec2::new(scroll.x, 0.0));
        }
    }
    if board.has_focus() {
        let step = board.rect.size() * KEY_PAN;
        ui.input(|input| {
            for (key, by) in [
                (Key::ArrowLeft, Vec2::new(step.x, 0.0)),
                (Key::ArrowRight, Vec2::new(-step.x, 0.0)),
                (Key::ArrowUp, Vec2::new(0.0, step.y)),
                (Key::ArrowDown, Vec2::new(0.0, -step.y)),
            ] {
                if input.key_pressed(key) {
                    camera.pan(by);
                }
            }
            for (key, factor) in [(Key::Plus, ZOOM_STEP), (Key::Equals, ZOOM_STEP), (Key::Minus, 1.0 / ZOOM_STEP)] {
                if input.key_pressed(key) {
                    camera.zoom_about(board.rect.center(), factor, board.rect);
                }
            }
        });
        // Arrows move the plan; without this they would carry the focus away.
        let filter = egui::EventFilter { horizontal_arrows: true, vertical_arrows: true, ..Default::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(board.id, filter));
    }
}

/// Press, drag, release and Escape: a movable wall follows the pointer, free paper moves the plan.
pub(super) fn grasp(ui: &Ui, board: &Response, camera: &mut Camera, session: &mut Session) -> Result<(), Refused> {
    let dragging = matches!(session.tool(), Tool::DraggingWall(_));
    let lost = |input: &egui::InputState| input.events.contains(&egui::Event::WindowFocused(false));
    if dragging && ui.input(|input| input.key_pressed(Key::Escape) || lost(input)) {
        // What is left of the gesture moves nothing.
        ui.ctx().stop_dragging();
        return session.on_event(Event::Escape);
    }
    if board.drag_started_by(PointerButton::Primary)
        && let Some(origin) = ui.input(|input| input.pointer.press_origin())
    {
        let at = on_grid(camera, origin, board.rect);
        let hit = at_pointer(session.shown(), camera, at);
        session.on_event(Event::PointerDown { at, hit })?;
    }
    if matches!(session.tool(), Tool::DraggingWall(_)) {
        if let Some(pointer) = board.interact_pointer_pos() {
            let pace = if ui.input(|input| input.modifiers.shift) { Pace::Fine } else { Pace::Normal };
            let tolerance = Length::nearest_to_inches(ATTRACTION / camera.zoom);
            session.on_event(Event::PointerMoved { at: on_grid(camera, pointer, board.rect), pace, tolerance })?;
        }
        if board.drag_stopped_by(PointerButton::Primary) {
            return session.on_event(Event::PointerUp);
        }
    } else if board.dragged() {
        camera.pan(board.drag_delta());
    }
    Ok(())
}

/// What a click marks: the room or movable wall under the pointer; elsewhere it takes the mark away.
pub(super) fn picked(board: &Response, camera: &Camera, shown: &Shown) -> Option<Highlight> {
    let at = on_grid(camera, board.interact_pointer_pos()?, board.rect);
    match at_pointer(shown, camera, at)? {
        Hit::Room(id) => Highlight::room(shown, &id),
        Hit::Wall { id, movable: true } => Highlight::wall(shown, &id),
        _ => None,
    }
}

/// Shows what can be grasped: a cursor and a quiet mark on a movable wall under the pointer.
pub(super) fn paint_grip(ui: &Ui, board: &Response, camera: &Camera, session: &Session, painter: &Painter) {
    let wall = match session.tool() {
        Tool::DraggingWall(drag) => Some(drag.wall.clone()),
        Tool::Idle => movable_wall_under(session.shown(), board, camera),
    };
    if let Some(wall) = wall
        && let Some(grip) = Grip::of(session.shown(), &wall)
    {
        ui.set_cursor_icon(grip.cursor());
        grip.paint(camera, board.rect, painter);
        paint_alignment(session.tool(), camera, board.rect, painter);
    } else if board.dragged() {
        ui.set_cursor_icon(CursorIcon::Grabbing);
    }
}

/// The face that a dragged wall has come in line with, drawn right across the board.
fn paint_alignment(tool: &Tool, camera: &Camera, board: Rect, painter: &Painter) {
    let Tool::DraggingWall(drag) = tool else { return };
    let Some(SnapCause::Aligned { face, .. }) = drag.snap.as_ref().map(|snap| &snap.cause) else { return };
    let [from, to] = face.map(|end| camera.to_screen(inches(end), board));
    let beyond = (to - from).normalized() * board.size().length();
    let line = [from - beyond, to + beyond];
    painter.extend(egui::Shape::dashed_line(&line, Stroke::new(1.0, theme::ACCENT), 8.0, 5.0));
}

fn movable_wall_under(shown: &Shown, board: &Response, camera: &Camera) -> Option<Id> {
    let at = on_grid(camera, board.hover_pos()?, board.rect);
    match at_pointer(shown, camera, at)? {
        Hit::Wall { id, movable: true } => Some(id),
        _ => None,
    }
}

/// What the pointer is on; a door or window in a movable wall is a place to grasp the wall.
fn at_pointer(shown: &Shown, camera: &Camera, at: Point) -> Option<Hit> {
    let home = shown.document.home();
    let hit = hit_test(&home, &shown.derived, at, Length::nearest_to_inches(REACH / camera.zoom))?;
    let Hit::Opening(opening) = &hit else { return Some(hit) };
    let doors = home.elements.doors.iter().map(|door| (&door.id, &door.wall));
    let windows = home.elements.windows.iter().map(|window| (&window.id, &window.wall));
    let host = doors.chain(windows).find(|(id, _)| *id == opening).map(|(_, wall)| wall);
    let wall = home.elements.walls.iter().find(|wall| wall.movable && Some(&wall.id) == host);
    Some(wall.map_or(hit.clone(), |wall| Hit::Wall { id: wall.id.clone(), movable: true }))
}

fn on_grid(camera: &Camera, point: Pos2, board: Rect) -> Point {
    let place = camera.to_plan(point, board);
    Point::new(Length::nearest_to_inches(place.x), Length::nearest_to_inches(place.y))
}

/// The mark on a wall that can be dragged: its outline, and two short arrows square to it.
struct Grip {
    outline: Vec<kurbo::Point>,
    middle: kurbo::Point,
    /// The way in which the wall moves, of length 1.
    across: kurbo::Vec2,
    /// Half the wall's thickness, in plan inches.
    half: f64,
}

impl Grip {
    fn of(shown: &Shown, wall: &Id) -> Option<Self> {
        let solid = shown.derived.walls.iter().find(|solid| solid.id == *wall)?;
        let home = shown.document.home();
        let authored = home.elements.walls.iter().find(|authored| authored.id == *wall)?;
        let outline: Vec<kurbo::Point> = solid.outline.iter().map(|corner| inches(*corner)).collect();
        let count = outline.len().max(1) as f64;
        let middle = outline.iter().fold(kurbo::Vec2::ZERO, |sum, corner| sum + corner.to_vec2()) / count;
        let along = (inches(authored.to) - inches(authored.from)).normalize();
        let half = authored.thickness.to_inches() / 2.0;
        Some(Self { outline, middle: middle.to_point(), across: kurbo::Vec2::new(-along.y, along.x), half })
    }

    fn cursor(&self) -> CursorIcon {
        if self.across.x.abs() > self.across.y.abs() {
            CursorIcon::ResizeHorizontal
        } else {
            CursorIcon::ResizeVertical
        }
    }

    fn paint(&self, camera: &Camera, board: Rect, painter: &Painter) {
        let corners = self.outline.iter().map(|corner| camera.to_screen(*corner, board)).collect();
        painter.add(egui::Shape::closed_line(corners, Stroke::new(2.5, theme::ACCENT)));
        #[expect(clippy::cast_possible_truncation, reason = "a direction on the screen")]
        let way = Vec2::new(self.across.x as f32, -self.across.y as f32);
        let middle = camera.to_screen(self.middle, board);
        for way in [way, -way] {
            let foot = middle + way * (camera.length(self.half) + 4.0);
            let tip = foot + way * 12.0;
            let aside = way.rot90() * 5.0;
            painter.line_segment([foot, tip], Stroke::new(2.0, theme::ACCENT));
            painter.line_segment([tip - way * 5.0 + aside, tip], Stroke::new(2.0, theme::ACCENT));
            painter.line_segment([tip - way * 5.0 - aside, tip], Stroke::new(2.0, theme::ACCENT));
        }
    }
}
