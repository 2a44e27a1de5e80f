//! The alternates of a choice, listed on the board beside the house.

use egui::{Key, Modifiers, Rect, RichText, ScrollArea, Sense, Stroke, StrokeKind, Ui, UiBuilder, Vec2, vec2};
use plan_edit::Command;
use plan_model::{AlternateRef, Choice, Id};

use super::Camera;
use super::choice_marks::{Mark, Offered};
use super::highlight::{around, inches};
use crate::alternate_row::AlternateRow;
use crate::session::Shown;
use crate::theme;

/// The list that is open on the board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct OpenList {
    pub(super) choice: Id,
    /// Whether the chosen row has still to be given the keyboard.
    wants_focus: bool,
}

impl OpenList {
    pub(super) const fn of(choice: Id) -> Self {
        Self { choice, wants_focus: true }
    }
}

/// What was done with a list.
pub(super) struct Listed {
    pub(super) offered: Offered,
    pub(super) command: Option<Command>,
    pub(super) closed: Option<Closed>,
}

/// How a list was closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Closed {
    /// By Escape: the keyboard goes back to the mark.
    Escaped,
    /// By a press elsewhere.
    Left,
}

const WIDTH: f32 = 292.0;
const MARGIN: f32 = 10.0;
const HEADING: f32 = 28.0;
/// From the house, and from the edge of the board.
const GAP: f32 = 10.0;

/// Draws the list of a mark's alternates outside the house, joined to the mark by a line. It stays open while one
/// alternate after another is tried; Escape or a press elsewhere closes it. It keeps clear of `others` where it can.
pub(super) fn choice_list_ui(
    ui: &mut Ui,
    board: Rect,
    camera: &Camera,
    shown: &Shown,
    mark: &Mark<'_>,
    open: &mut OpenList,
    others: &[Rect],
) -> Listed {
    let choice = mark.choice;
    let rows = rows(ui, shown, choice);
    let height: f32 = rows.iter().map(|(_, row)| row.height()).sum();
    let height = height.min(board.height() - HEADING - 2.0 * MARGIN - 2.0 * GAP);
    let size = vec2(WIDTH, height + HEADING + 2.0 * MARGIN);
    let on_screen = |rect: kurbo::Rect| camera.rect_to_screen(rect, board);
    let house = around(shown.derived.footprint.iter().flat_map(|part| &part.outer).map(|corner| inches(*corner)));
    let touched = touched(choice).map_or(mark.place, |touched| on_screen(touched).union(mark.place));
    let place = place_list(size, board, mark.place, house.map_or(mark.place, on_screen), touched, others);

    leader(ui, mark.place, place);
    let ground = ui.interact(place, ui.scope_id().with("list of alternates"), Sense::click_and_drag());
    ui.painter().rect(place, 4.0, theme::CARD, Stroke::new(1.5, theme::ACCENT), StrokeKind::Inside);
    let mut offered = Offered { choice: choice.id.clone(), rows: Vec::new() };
    let mut command = None;
    ui.scope_builder(UiBuilder::new().max_rect(place.shrink(MARGIN)), |ui| {
        ui.set_clip_rect(place.intersect(board));
        ui.spacing_mut().item_spacing.y = 0.0;
        ui.label(RichText::new(&choice.name).family(theme::bold()).size(theme::HEADING));
        ui.add_space(place.top() + MARGIN + HEADING - ui.cursor().top());
        ScrollArea::vertical().min_scrolled_height(height).max_height(height).show(ui, |ui| {
            for (alternate, row) in rows {
                let answer = AlternateRef { choice: choice.id.clone(), alternate };
                let is_taken = shown.document.selection.takes(&answer);
                let response = row.alternate_row_ui(ui);
                offered.rows.push((answer.alternate.clone(), response.rect.center()));
                if is_taken && open.wants_focus {
                    response.request_focus();
                }
                if response.clicked() && !is_taken {
                    command = Some(Command::Choose(answer));
                }
            }
        });
    });
    open.wants_focus = false;
    let escaped = ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
    let pressed = ui.input(|input| input.pointer.any_pressed().then(|| input.pointer.interact_pos()).flatten());
    let elsewhere = pressed.is_some_and(|at| !ground.rect.contains(at) && !mark.place.contains(at));
    let closed = if escaped { Some(Closed::Escaped) } else { elsewhere.then_some(Closed::Left) };
    Listed { offered, command, closed }
}

fn rows(ui: &Ui, shown: &Shown, choice: &Choice) -> Vec<(Id, AlternateRow)> {
    let (plan, selection) = (&shown.document.plan, &shown.document.selection);
    let row = |(alternate, trial): (&plan_model::Alternate, &crate::Trial)| {
        let answer = AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
        let is_taken = selection.takes(&answer);
        let row = AlternateRow::new(ui, alternate, &plan.currency, is_taken, trial, WIDTH - 2.0 * MARGIN);
        (answer.alternate, row)
    };
    choice.alternates.iter().zip(shown.trials(choice)).map(row).collect()
}

/// What encloses everything that the alternates of a choice bring and that has a place of its own.
fn touched(choice: &Choice) -> Option<kurbo::Rect> {
    let brought = choice.alternates.iter().map(|alternate| &alternate.brings);
    let points = brought.flat_map(|elements| {
        let walls = elements.walls.iter().flat_map(|wall| [wall.from, wall.to]);
        let porches = elements.porches.iter().flat_map(|porch| [porch.from, porch.to]);
        let landings = elements.landings.iter().flat_map(|landing| [landing.from, landing.to]);
        let rooms = elements.rooms.iter().map(|room| room.at);
        let fixtures = elements.fixtures.iter();
        let fixtures = fixtures.flat_map(|it| plan_geometry::outline(it.at, it.faces, it.width, it.depth));
        walls.chain(porches).chain(landings).chain(rooms).chain(fixtures).map(inches).collect::<Vec<_>>()
    });
    around(points)
}

/// The place for a list: outside the house on the side nearest to the mark; without room there, beside what the choice
/// touches, as little over it as can be. All in screen points.
fn place_list(size: Vec2, board: Rect, mark: Rect, house: Rect, touched: Rect, others: &[Rect]) -> Rect {
    let free = board.shrink(GAP);
    let away = |place: &Rect| place.distance_to_pos(mark.center());
    let is_clear = |place: &&Rect| {
        let covered = others.iter().chain([&house, &touched, &mark]);
        free.contains_rect(**place) && !covered.into_iter().any(|other| other.intersects(**place))
    };
    let outside = sides_of(house.union(touched), size, mark, free).into_iter().chain(sides_of(house, size, mark, free));
    let outside: Vec<Rect> = outside.collect();
    if let Some(place) = outside.iter().filter(is_clear).min_by(|a, b| away(a).total_cmp(&away(b))) {
        return *place;
    }
    let covered = |place: &Rect| {
        let over = place.intersect(touched.union(mark));
        if over.is_positive() { over.area() } else { 0.0 }
    };
    let beside = sides_of(touched, size, mark, free).map(|place| keep_inside(place, free));
    let best = beside
        .into_iter()
        .min_by(|a, b| (covered(a), away(a)).partial_cmp(&(covered(b), away(b))).unwrap_or(std::cmp::Ordering::Equal));
    best.unwrap_or_else(|| Rect::from_min_size(free.min, size))
}

/// Places above, below, to the left and to the right of a rectangle, as near to the mark as the board allows.
fn sides_of(rect: Rect, size: Vec2, mark: Rect, free: Rect) -> [Rect; 4] {
    let half = size / 2.0;
    let slide = |at: f32, low: f32, high: f32| at.min(high).max(low);
    let x = slide(mark.center().x, free.left() + half.x, free.right() - half.x);
    let y = slide(mark.center().y, free.top() + half.y, free.bottom() - half.y);
    [
        egui::pos2(x, rect.top() - GAP - half.y),
        egui::pos2(x, rect.bottom() + GAP + half.y),
        egui::pos2(rect.left() - GAP - half.x, y),
        egui::pos2(rect.right() + GAP + half.x, y),
    ]
    .map(|middle| Rect::from_center_size(middle, size))
}

fn keep_inside(place: Rect, free: Rect) -> Rect {
    let by = (free.min - place.min).max(Vec2::ZERO) + (free.max - place.max).min(Vec2::ZERO);
    place.translate(by)
}

/// The thin line from a mark to its list.
fn leader(ui: &Ui, mark: Rect, list: Rect) {
    let from = mark.clamp(list.center());
    let to = list.clamp(from);
    ui.painter().line_segment([from, to], Stroke::new(1.0, theme::ACCENT));
}

#[cfg(test)]
mod tests {
    use egui::pos2;

    use super::*;

    fn rect(left: f32, top: f32, right: f32, bottom: f32) -> Rect {
        Rect::from_min_max(pos2(left, top), pos2(right, bottom))
    }

    #[test]
    fn a_list_stands_outside_the_house_at_the_side_of_its_mark() {
        let (board, house) = (rect(0.0, 0.0, 1000.0, 800.0), rect(150.0, 250.0, 850.0, 550.0));
        let mark = rect(300.0, 280.0, 320.0, 300.0);
        let place = place_list(vec2(260.0, 160.0), board, mark, house, mark.expand(40.0), &[]);
        assert!(board.contains_rect(place) && !place.intersects(house));
        assert!(place.bottom() < house.top(), "the back of the house is nearest");
        let taken = rect(100.0, 0.0, 700.0, 120.0);
        let place = place_list(vec2(260.0, 160.0), board, mark, house, mark.expand(40.0), &[taken]);
        assert!(!place.intersects(taken) && !place.intersects(house));
    }

    #[test]
    fn without_room_outside_it_stands_beside_what_it_changes() {
        let board = rect(0.0, 0.0, 1000.0, 800.0);
        let (mark, touched) = (rect(300.0, 280.0, 320.0, 300.0), rect(250.0, 200.0, 500.0, 420.0));
        let place = place_list(vec2(260.0, 160.0), board, mark, board.expand(300.0), touched, &[]);
        assert!(board.contains_rect(place) && !place.intersects(touched), "{place:?}");
    }
}
