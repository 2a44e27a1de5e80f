//! Steps, undone and done again.

use plan_edit::{Command, Document, History};
use plan_model::{AlternateRef, Length};
use proptest::prelude::*;

use crate::plans::{choose, demo, inches, move_by, text, two_rooms};

#[test]
fn steps_are_named_for_the_menu() {
    let mut history = History::new(two_rooms());
    assert_eq!((history.can_undo(), history.can_redo()), (None, None));
    history.do_command(&choose("left-room=divided")).expect("the plan has that alternate");
    history.do_command(&move_by("middle", inches(3))).expect("the wall can be moved");
    assert_eq!(history.can_undo(), Some("move wall middle"));
    assert_eq!(history.undo(), Some("move wall middle"));
    assert_eq!(
        (history.can_undo(), history.can_redo()),
        (Some("choose Divided living room"), Some("move wall middle"))
    );
    assert_eq!(history.redo(), Some("move wall middle"));
    assert_eq!(history.redo(), None);
}

#[test]
fn a_new_step_takes_the_place_of_what_was_undone() {
    let mut history = History::new(two_rooms());
    history.do_command(&move_by("middle", inches(3))).expect("the wall can be moved");
    history.undo();
    history.do_command(&move_by("cross", inches(3))).expect("the wall can be moved");
    assert_eq!((history.can_undo(), history.can_redo()), (Some("move wall cross"), None));
}

#[test]
fn refused_and_empty_commands_leave_no_step() {
    let mut history = History::new(two_rooms());
    let before = history.document().clone();
    history.do_command(&move_by("front", inches(3))).expect_err("the front wall is not movable");
    history.do_command(&move_by("middle", Length::ZERO)).expect("nothing is wrong with that");
    history.do_command(&choose("left-room=open")).expect("it is chosen already");
    assert_eq!(history.can_undo(), None);
    assert!(history.document().is_same(&before));
}

#[test]
fn only_a_changed_plan_is_unsaved() {
    let mut history = History::new(two_rooms());
    assert!(history.is_saved());
    history.do_command(&choose("left-room=divided")).expect("the plan has that alternate");
    assert!(history.is_saved(), "a choice is not in the plan");
    history.do_command(&move_by("middle", inches(3))).expect("the wall can be moved");
    assert!(!history.is_saved());
    history.undo();
    assert!(history.is_saved(), "undone back to the saved plan");
    history.redo();
    history.mark_saved();
    assert!(history.is_saved());
    history.undo();
    assert!(!history.is_saved(), "the file holds the moved wall");
}

/// A command on a document: any choice or wall of its plan, by a distance up to 10 ft.
fn command(document: &Document, (kind, which, steps): (bool, usize, i64)) -> Command {
    let plan = &document.plan;
    if kind {
        let walls: Vec<_> = plan.all_elements().flat_map(|elements| &elements.walls).collect();
        return Command::MoveWall { wall: walls[which % walls.len()].id.clone(), by: Length::from_steps(steps) };
    }
    let answers = plan.choices.iter().flat_map(|choice| {
        let answer = |alternate: &plan_model::Alternate| AlternateRef {
            choice: choice.id.clone(),
            alternate: alternate.id.clone(),
        };
        choice.alternates.iter().map(answer)
    });
    let answers: Vec<_> = answers.collect();
    Command::Choose(answers[which % answers.len()].clone())
}

proptest! {
    #[test]
    fn what_is_undone_was_never_done(
        is_demo: bool,
        doings in prop::collection::vec((any::<bool>(), any::<usize>(), -120 * 16_256..120 * 16_256_i64), 1..30),
    ) {
        let start = if is_demo { demo() } else { two_rooms() };
        let mut history = History::new(start.clone());
        let mut states = vec![start];
        for doing in doings {
            let before = history.document().clone();
            match history.do_command(&command(&before, doing)) {
                Ok(()) if history.document().is_same(&before) => {}
                Ok(()) => states.push(history.document().clone()),
                Err(_) => prop_assert!(history.document().is_same(&before)),
            }
        }
        let last = text(history.document());
        for state in states.iter().rev().skip(1) {
            prop_assert!(history.undo().is_some());
            prop_assert!(history.document().is_same(state));
        }
        prop_assert_eq!(history.undo(), None);
        prop_assert!(history.is_saved());
        prop_assert_eq!(text(history.document()), text(&states[0]));
        while history.redo().is_some() {}
        prop_assert_eq!(text(history.document()), last);
    }
}
