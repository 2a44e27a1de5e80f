//! Dragging a wall, event by event.

use plan_edit::hit::Hit;
use plan_edit::snap::{Pace, SnapCause};
use plan_edit::{Command, Document, Effect, Event, History, Refused, Tool};
use plan_model::{Length, Point};

use crate::plans::{at, ends, inches, two_rooms};

const NEAR: Length = Length::inches(1);

fn press(document: &Document) -> Tool {
    let hit = Hit::Wall { id: "middle".into(), movable: true };
    let (tool, effect) = Tool::Idle.on(Event::PointerDown { at: at(121, 70), hit: Some(hit) }, document);
    assert_eq!(effect, Effect::None);
    tool
}

fn pointer(at: Point) -> Event {
    Event::PointerMoved { at, pace: Pace::Normal, tolerance: NEAR }
}

#[test]
fn a_drag_previews_and_becomes_one_step() {
    let mut history = History::new(two_rooms());
    let mut tool = press(history.document());
    for x in [118, 111, 104] {
        let effect;
        (tool, effect) = tool.on(pointer(at(x, 80)), history.document());
        assert_eq!(effect, Effect::ShowAgain);
        assert_eq!(ends(tool.shown(history.document()), "middle")[0], at(x - 1, 6));
        assert_eq!(ends(history.document(), "middle")[0], at(120, 6), "the history does not know yet");
    }
    let shown = tool.shown(history.document()).clone();
    let (tool, effect) = tool.on(Event::PointerUp, history.document());
    assert!(matches!(tool, Tool::Idle));
    let Effect::Commit(command) = effect else { panic!("expected a command, not {effect:?}") };
    assert_eq!(command, Command::MoveWall { wall: "middle".into(), by: inches(17) });
    history.do_command(&command).expect("the preview could be made");
    assert_eq!(*history.document(), shown);
    history.undo();
    assert_eq!(history.can_undo(), None);
}

#[test]
fn escape_restores() {
    let document = two_rooms();
    let (tool, _) = press(&document).on(pointer(at(100, 80)), &document);
    let (tool, effect) = tool.on(Event::Escape, &document);
    assert!(matches!(tool, Tool::Idle));
    assert_eq!(effect, Effect::ShowAgain);
    assert!(tool.shown(&document).is_same(&document));
    let (_, effect) = tool.on(Event::PointerUp, &document);
    assert_eq!(effect, Effect::None, "the release after Escape means nothing");
}

#[test]
fn a_drag_of_zero_leaves_no_step() {
    let document = two_rooms();
    let (_, effect) = press(&document).on(Event::PointerUp, &document);
    assert_eq!(effect, Effect::None, "a press and a release");
    let (tool, _) = press(&document).on(pointer(at(121, 75)), &document);
    let (_, effect) = tool.on(Event::PointerUp, &document);
    assert_eq!(effect, Effect::ShowAgain, "along the wall");
    let (tool, _) = press(&document).on(pointer(at(100, 70)), &document);
    let (tool, _) = tool.on(pointer(at(121, 70)), &document);
    assert!(tool.shown(&document).is_same(&document));
    let (_, effect) = tool.on(Event::PointerUp, &document);
    assert_eq!(effect, Effect::ShowAgain, "there and back");
}

#[test]
fn a_pointer_that_stays_on_its_step_changes_nothing() {
    let document = two_rooms();
    let (tool, _) = press(&document).on(pointer(at(111, 80)), &document);
    let jitter = Point::new(Length::from_steps(900), inches(1));
    let (_, effect) = tool.on(pointer(at(111, 80) + jitter), &document);
    assert_eq!(effect, Effect::None);
}

fn finely(at: Point) -> Event {
    Event::PointerMoved { at, pace: Pace::Fine, tolerance: NEAR }
}

/// How far the wall is moved, in eighths of an inch.
fn moved(tool: &Tool) -> i64 {
    let Tool::DraggingWall(drag) = tool else { panic!("the drag goes on") };
    let by = drag.snap.as_ref().expect("the pointer moved").by.steps();
    assert_eq!(by % EIGHTH, 0);
    by / EIGHTH
}

const EIGHTH: i64 = 16_256 / 8;

#[test]
fn a_fine_drag_goes_an_eighth_as_far_by_eighths() {
    let document = two_rooms();
    let (tool, _) = press(&document).on(finely(at(116, 70)), &document);
    assert_eq!(moved(&tool), 5, "5 in of the pointer");
    let Tool::DraggingWall(drag) = &tool else { panic!("the drag goes on") };
    assert_eq!(drag.snap.as_ref().map(|snap| &snap.cause), Some(&SnapCause::Step(Length::from_steps(EIGHTH))));
    let (tool, _) = tool.on(finely(at(121, 70)), &document);
    assert_eq!(moved(&tool), 0, "there and back");
}

#[test]
fn a_drag_that_becomes_fine_goes_on_from_where_the_wall_rests() {
    let document = two_rooms();
    let aside = Point::new(Length::from_steps(EIGHTH), Length::ZERO);
    // 10 1/8 in of the pointer come to rest at 10 in.
    let here = at(111, 70) - aside;
    let (tool, _) = press(&document).on(pointer(here), &document);
    assert_eq!(moved(&tool), 80);
    let (tool, effect) = tool.on(finely(here), &document);
    assert_eq!((moved(&tool), effect), (80, Effect::None), "Shift alone moves nothing");
    let (tool, _) = tool.on(finely(here - at(3, 0)), &document);
    assert_eq!(moved(&tool), 83);
    let (tool, effect) = tool.on(pointer(here - at(3, 0)), &document);
    assert_eq!((moved(&tool), effect), (83, Effect::None), "nor does letting Shift go");
    let (_, effect) = tool.on(Event::PointerUp, &document);
    assert_eq!(
        effect,
        Effect::Commit(Command::MoveWall { wall: "middle".into(), by: Length::from_steps(83 * EIGHTH) })
    );
}

#[test]
fn a_wall_stops_where_it_last_could_be() {
    let document = two_rooms();
    let (tool, _) = press(&document).on(pointer(at(221, 80)), &document);
    let (tool, effect) = tool.on(pointer(at(300, 80)), &document);
    assert_eq!(effect, Effect::ShowAgain, "the reason is new");
    let Tool::DraggingWall(drag) = &tool else { panic!("the drag goes on") };
    assert!(matches!(drag.refused, Some(Refused::NothingLeft { .. })));
    assert_eq!(ends(tool.shown(&document), "middle")[0], at(220, 6));
    let (tool, effect) = tool.on(pointer(at(301, 80)), &document);
    assert_eq!(effect, Effect::None);
    let (_, effect) = tool.on(Event::PointerUp, &document);
    assert_eq!(effect, Effect::Commit(Command::MoveWall { wall: "middle".into(), by: inches(-100) }));
}

#[test]
fn only_movable_walls_are_dragged() {
    let document = two_rooms();
    for hit in [None, Some(Hit::Room("left-back".into())), Some(Hit::Wall { id: "front".into(), movable: false })] {
        let (tool, effect) = Tool::Idle.on(Event::PointerDown { at: at(1, 1), hit }, &document);
        assert!(matches!(tool, Tool::Idle));
        assert_eq!(effect, Effect::None);
    }
}
