//! Working on a reversed home: what a hand does on the drawing is done to the plan as the mirror shows it.

use plan_edit::hit::Hit;
use plan_edit::snap::{Pace, SnapCause};
use plan_edit::{Command, Document, Effect, Event, History, Tool, WallDrag, apply};
use plan_model::elements::Wall;
use plan_model::{Mirror, Point};

use crate::plans::{at, demo, inches, moved, text, two_rooms};

fn reversed(document: &Document) -> Document {
    apply(document, &Command::Reverse(true)).expect("every plan can be reversed")
}

fn wall_drawn(document: &Document, id: &str) -> Wall {
    document.home().elements.walls.iter().find(|wall| wall.id.as_str() == id).expect("the wall stands").clone()
}

/// The wall led by a pointer from one place of the drawing to another.
fn led(document: &Document, wall: &str, from: Point, to: Point) -> WallDrag {
    let hit = Some(Hit::Wall { id: wall.into(), movable: true });
    let (tool, _) = Tool::Idle.on(Event::PointerDown { at: from, hit }, document);
    let (tool, _) = tool.on(Event::PointerMoved { at: to, pace: Pace::Normal, tolerance: inches(3) }, document);
    let Tool::DraggingWall(drag) = tool else { panic!("the wall is held") };
    *drag
}

#[test]
fn reversing_is_a_step_that_leaves_the_plan_as_it_is() {
    let mut history = History::new(demo());
    let before = text(history.document());
    history.do_command(&Command::Reverse(true)).expect("every plan can be reversed");
    assert_eq!(history.can_undo(), Some("reverse the plan"));
    assert!(history.document().selection.is_reversed());
    assert!(history.is_saved(), "the plan is as its file has it");
    assert_eq!(text(history.document()), before);
    history.undo();
    assert!(!history.document().selection.is_reversed());
}

#[test]
fn a_wall_goes_on_the_drawing_where_the_pointer_leads_it() {
    let document = reversed(&two_rooms());
    let mirror = document.mirror().expect("it is reversed");
    let stood = wall_drawn(&document, "middle");
    let from = mirror.point(at(121, 70));
    for by in [-9, 4, 13] {
        let drag = led(&document, "middle", from, from + at(by, 2));
        let went = wall_drawn(drag.preview.as_ref().expect("it moves"), "middle");
        assert_eq!(went.from - stood.from, at(by, 0), "led by {by} in");
    }
}

#[test]
fn dragging_in_a_reversed_home_is_the_mirror_of_dragging_in_the_home() {
    let home = demo();
    let (mirror, document) = (Mirror::of(&home.plan), reversed(&home));
    let movable: Vec<Wall> = home.home().elements.walls.into_iter().filter(|wall| wall.movable).collect();
    assert!(movable.len() > 3);
    let mut aligned = 0;
    for wall in movable {
        for (dx, dy) in [(-17, 3), (-5, -6), (2, 2), (11, 7), (26, -19)] {
            let (from, to) = (wall.from, wall.from + at(dx, dy));
            let here = led(&home, wall.id.as_str(), from, to);
            let there = led(&document, wall.id.as_str(), mirror.point(from), mirror.point(to));
            assert_eq!(here.refused, there.refused, "{}", wall.id);
            let (Some(snap), Some(image)) = (here.snap, there.snap) else { continue };
            assert_eq!(snap.by, -image.by, "{}: left is right", wall.id);
            if let SnapCause::Aligned { face, .. } = snap.cause {
                let SnapCause::Aligned { face: seen, .. } = image.cause else {
                    panic!("{}: in line here only", wall.id)
                };
                assert_eq!(face.map(|end| mirror.point(end)), seen);
                aligned += 1;
            }
            let plan = |preview: &Option<Document>| preview.as_ref().map(text);
            assert_eq!(plan(&here.preview), plan(&there.preview), "{}", wall.id);
        }
    }
    assert!(aligned > 0, "some of them come in line with a face");
}

#[test]
fn a_drag_in_a_reversed_home_commits_what_it_showed() {
    let document = reversed(&two_rooms());
    let from = document.mirror().expect("it is reversed").point(at(121, 70));
    let drag = led(&document, "middle", from, from + at(-6, 0));
    let preview = drag.preview.clone().expect("it moves");
    let (_, effect) = Tool::DraggingWall(Box::new(drag)).on(Event::PointerUp, &document);
    let Effect::Commit(command) = effect else { panic!("expected a command, not {effect:?}") };
    assert_eq!(apply(&document, &command).expect("the preview could be made"), preview);
    let Command::MoveWall { by, .. } = command else { panic!("a wall was moved") };
    let there_and_back = moved(&preview, "middle", -by).expect("it came from there");
    assert_eq!(text(&there_and_back), text(&document));
}
