//! What cannot stand together in the demo home, and how it is told.

use plan_choices::{Conflict, conflicts};
use plan_model::{Id, Length, Plan, Selection};

fn demo() -> Plan {
    let text = include_str!("../../../sample-plans/dunlin-58.json");
    plan_model::file::read(text).unwrap_or_else(|error| panic!("{error}"))
}

fn found(plan: &Plan, answers: &[&str]) -> Vec<Conflict> {
    let take = |selection: Selection, answer: &&str| {
        selection.with(plan, &answer.parse().expect("CHOICE=ALTERNATE")).expect("the plan has it")
    };
    let home = plan.home(&answers.iter().fold(Selection::included(plan), take));
    conflicts(&home, &plan_geometry::derive(&home))
}

#[test]
fn nothing_stands_in_the_way_of_what_is_included() {
    assert_eq!(found(&demo(), &[]), []);
}

#[test]
fn two_alternates_that_need_the_same_floor_are_told_once() {
    let found = found(&demo(), &["owner-bath-layout=shower-90", "water-closet-room=room-36x66"]);
    let sentences: Vec<_> = found.iter().map(|conflict| conflict.sentence.as_str()).collect();
    assert_eq!(
        sentences,
        [
            "Owner's bath: 48 x 90 walk-in shower and Water-closet room: 36 x 66 need the same floor. Change one of them."
        ]
    );
    let alternates: Vec<_> = found[0].alternates.iter().map(ToString::to_string).collect();
    assert_eq!(alternates, ["owner-bath-layout=shower-90", "water-closet-room=room-36x66"]);
    assert!(found[0].outlines.iter().all(|outline| outline.len() > 2));
    assert_eq!(found[0].outlines.len(), found[0].places.len());
}

#[test]
fn what_no_choice_brings_is_told_by_kind_and_room() {
    let mut plan = demo();
    let toilet = plan.base.fixtures.iter_mut().find(|fixture| fixture.id == Id::from("hall-bath-toilet"));
    let toilet = toilet.expect("the demo home has it");
    toilet.at.x += Length::inches(6);
    let sentences: Vec<_> = found(&plan, &[]).into_iter().map(|conflict| conflict.sentence).collect();
    assert_eq!(sentences, ["The toilet of Hall bath and the wall between Hall bath and Utility need the same floor."]);
}

#[test]
fn an_opening_is_told_by_the_rooms_at_it() {
    let mut plan = demo();
    let door = plan.base.doors.iter_mut().find(|door| door.id == Id::from("hall-bath-door"));
    door.expect("the demo home has it").at = Length::inches(-30);
    let sentences: Vec<_> = found(&plan, &[]).into_iter().map(|conflict| conflict.sentence).collect();
    assert_eq!(sentences, ["The door between Hall bath and Hall reaches past the end of its wall."]);
}
