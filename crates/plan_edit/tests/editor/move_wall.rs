//! What goes along with a moved wall, and what does not.

use plan_edit::{Document, Refused, apply};
use plan_geometry::{ProblemKind, derive};
use plan_model::{Id, Length, Plan, Point};
use proptest::prelude::*;

use crate::plans::{at, bevel, choose, demo, ends, find, inches, move_by, moved, text, two_rooms, wall};

fn fixture(document: &Document, id: &str) -> Point {
    find(document, |elements| &elements.fixtures, |fixture| &fixture.id, id).at
}

fn door(document: &Document, id: &str) -> Length {
    find(document, |elements| &elements.doors, |door| &door.id, id).at
}

fn room(document: &Document, id: &str) -> Point {
    find(document, |elements| &elements.rooms, |room| &room.id, id).at
}

fn detector(document: &Document, id: &str) -> Point {
    find(document, |elements| &elements.detectors, |detector| &detector.id, id).at
}

fn chase(document: &Document, id: &str) -> [Point; 2] {
    let column = find(document, |elements| &elements.columns, |column| &column.id, id);
    [column.from, column.to]
}

fn boundary(document: &Document) -> [Point; 2] {
    let line = find(document, |elements| &elements.open_boundaries, |line| &line.id, "line");
    [line.from, line.to]
}

/// The middle wall runs up the drawing, so that its left is the drawing's left.
fn middle_moved(by: i64) -> Document {
    moved(&two_rooms(), "middle", inches(by)).expect("the middle wall can be moved")
}

#[test]
fn the_wall_moves_square_to_itself_and_slides_along_the_walls_on_which_it_ends() {
    let after = middle_moved(10);
    assert_eq!(ends(&after, "middle"), [at(110, 6), at(110, 138)]);
    assert_eq!(door(&after, "middle-door"), inches(10), "its own openings are placed along it");
    assert_eq!(ends(&after, "front"), ends(&two_rooms(), "front"));
}

#[test]
fn a_wall_that_ends_on_it_is_stretched_and_its_openings_stay_on_the_drawing() {
    let after = middle_moved(10);
    assert_eq!(ends(&after, "cross"), [at(112, 60), at(237, 60)]);
    assert_eq!(door(&after, "cross-door"), inches(30), "its `from` moved away by 10 in");
    assert_eq!(door(&after, "second-door"), inches(70), "so did that of an alternate that is not chosen");
    assert_eq!(door(&middle_moved(-10), "cross-door"), inches(10));
}

#[test]
fn an_end_that_is_to_leaves_the_openings_distances_alone() {
    // The cross wall moves up; nothing is placed from its end on the right wall.
    let before = two_rooms();
    let after = moved(&before, "cross", inches(5)).expect("the cross wall can be moved");
    assert_eq!(ends(&after, "cross"), [at(122, 65), at(237, 65)]);
    assert_eq!(door(&after, "cross-door"), inches(20));
    assert_eq!(ends(&after, "middle"), ends(&before, "middle"));
}

#[test]
fn an_open_boundary_that_ends_on_it_is_stretched() {
    assert_eq!(boundary(&middle_moved(10)), [at(108, 40), at(6, 40)]);
    assert_eq!(boundary(&middle_moved(-10)), [at(128, 40), at(6, 40)]);
}

#[test]
fn an_open_boundary_that_carries_on_its_line_goes_along() {
    let mut before = two_rooms();
    let plan = std::sync::Arc::make_mut(&mut before.plan);
    for wall in plan.base.walls.iter_mut().filter(|wall| wall.id.as_str() == "middle") {
        wall.to = at(120, 100);
    }
    plan.base.open_boundaries[0].from = at(120, 100);
    plan.base.open_boundaries[0].to = at(120, 138);
    let after = moved(&before, "middle", inches(4)).expect("the middle wall can be moved");
    assert_eq!(boundary(&after), [at(116, 100), at(116, 138)]);
}

#[test]
fn what_stands_with_its_back_against_it_goes_along_on_either_side() {
    let after = middle_moved(10);
    assert_eq!(fixture(&after, "vanity"), at(112, 90));
    assert_eq!(fixture(&after, "shelves"), at(108, 110));
    assert_eq!(fixture(&after, "side-on"), at(110, 6), "its side touches the wall, not its back");
    assert_eq!(fixture(&after, "range"), at(6, 90));
    let bed = find(&after, |elements| &elements.furniture, |piece| &piece.id, "bed");
    assert_eq!(bed.at, at(112, 30));
}

#[test]
fn a_chase_against_it_goes_along_and_a_post_stays() {
    let after = middle_moved(10);
    assert_eq!(chase(&after, "chase"), [at(112, 130), at(118, 138)]);
    assert_eq!(chase(&after, "post"), [at(112, 130), at(118, 138)]);
}

#[test]
fn a_detector_on_it_goes_along_and_one_in_its_way_is_pushed_ahead() {
    let after = middle_moved(10);
    assert_eq!(detector(&after, "on-wall"), at(112, 50));
    assert_eq!(detector(&after, "beside"), at(107, 70));
    assert_eq!(detector(&middle_moved(-10), "beside"), at(115, 70));
}

#[test]
fn the_points_of_rooms_stay_on_their_side() {
    let before = two_rooms();
    assert_eq!(room(&middle_moved(57), "left-front"), room(&before, "left-front"), "1 in before the wall");
    let after = middle_moved(70);
    assert_eq!(room(&after, "left-front"), at(47, 20));
    assert_eq!(room(&after, "left-back"), at(47, 100));
    assert_eq!(room(&after, "right-back"), room(&before, "right-back"));
    assert_eq!(room(&middle_moved(-80), "right-back"), at(203, 100));
    assert_eq!(room(&after, "middle-left"), at(47, 60), "in an alternate that is not chosen as well");
}

/// What another alternate draws against the wall stays against it, or its homes would be spoilt unseen.
#[test]
fn alternates_that_are_not_chosen_keep_to_the_wall() {
    let before = two_rooms();
    assert_eq!(ends(&before, "divider"), [at(120, 80), at(3, 80)]);
    let undivided = middle_moved(10);
    assert_eq!(ends(&undivided, "divider"), [at(110, 80), at(3, 80)]);
    let divided = apply(&before, &choose("left-room=divided")).expect("the plan has that alternate");
    let after = moved(&divided, "middle", inches(10)).expect("the middle wall can be moved");
    assert_eq!(after.plan, undivided.plan, "whatever is chosen, the plan becomes the same");
    assert_eq!(door(&after, "divider-door"), inches(20));
}

/// The flex wall of the demo home under the fourth bedroom: the electrical panels of the study and the hobby room hang on
/// it, and do so afterwards.
#[test]
fn the_panels_of_other_flex_rooms_stay_on_the_flex_wall() {
    let before = apply(&demo(), &choose("flex-room=fourth-bedroom")).expect("the demo has that alternate");
    let after = moved(&before, "flex-wall", inches(8)).expect("the flex wall can be moved");
    for panel in ["study-panel", "hobby-panel"] {
        assert_eq!(fixture(&after, panel).x, fixture(&before, panel).x - inches(8), "{panel}");
    }
}

#[test]
fn a_corner_at_45_degrees_keeps_its_walls_together() {
    let before = bevel();
    let by = Length::from_steps(100 * 640);
    let after = moved(&before, "bevel", by).expect("the bevel can be moved");
    // 100 mm square to the wall are 141.42 mm along each outer wall; the shift is rounded to the grid first.
    let along = Length::from_steps(2 * 45_255);
    let [from, to] = ends(&before, "bevel");
    assert_eq!(ends(&after, "bevel"), [from + Point::new(Length::ZERO, along), to + Point::new(along, Length::ZERO)]);
    let shift = Length::from_steps(45_255);
    assert_eq!(fixture(&after, "cabinet"), fixture(&before, "cabinet") + Point::new(shift, shift));
}

#[test]
fn a_brace_slides_along_its_own_line() {
    let before = bevel();
    let by = Length::from_steps(300 * 640);
    let after = moved(&before, "slant", by).expect("the wall can be moved");
    let [from, to] = ends(&before, "brace");
    assert_eq!(ends(&after, "brace"), [from + Point::new(-by, by), to]);
    let [from, to] = ends(&before, "stub");
    assert_eq!(ends(&after, "stub"), [from - Point::new(by, Length::ZERO), to], "the corner stays one");
}

/// The rooms that close, and what is wrong with the drawing. What a wall runs into is not: it may well be pushed there.
fn rooms_and_faults(document: &Document) -> (Vec<Id>, Vec<ProblemKind>) {
    let derived = derive(&document.home());
    let faults = derived.problems.into_iter().map(|problem| problem.kind);
    let faults = faults.filter(|kind| !matches!(kind, ProblemKind::InWall { .. } | ProblemKind::Overlap { .. }));
    (derived.rooms.into_iter().map(|room| room.id).collect(), faults.collect())
}

#[test]
fn rooms_stay_closed() {
    let fourth = apply(&demo(), &choose("flex-room=fourth-bedroom")).expect("the plan has that alternate");
    for before in [two_rooms(), bevel(), demo(), fourth] {
        for id in movable(&before) {
            for quarters in [-7, -1, 1, 8] {
                let by = Length::from_steps(quarters * 16_256 / 4);
                let after = moved(&before, &id, by).expect("the wall can be moved a little");
                assert_eq!(rooms_and_faults(&after), rooms_and_faults(&before), "{id} by {}", by.feet_inches());
            }
        }
    }
}

#[test]
fn refused_commands_say_why() {
    let before = two_rooms();
    let sentence = |document: &Document, wall: &str, by: Length| {
        moved(document, wall, by).expect_err("the command is refused").to_string()
    };
    assert_eq!(
        sentence(&before, "front", inches(1)),
        "the wall \"front\" stays where it is: the plan does not mark it as movable"
    );
    assert_eq!(sentence(&before, "divider", inches(1)), "the wall \"divider\" is not in this home");
    assert_eq!(
        sentence(&before, "middle", inches(-115)),
        "moving the wall \"middle\" that far would leave nothing of \"cross\""
    );
    assert!(matches!(moved(&before, "middle", -Length::LARGEST), Err(Refused::TooFar { .. })));
    assert!(matches!(moved(&before, "middle", Length::from_steps(i64::MAX)), Err(Refused::TooFar { .. })));
    let by = Length::from_steps(1000 * 640);
    assert_eq!(sentence(&bevel(), "slant", by), "moving the wall \"slant\" that far would leave nothing of \"brace\"");
    let unknown = apply(&before, &choose("left-room=open-plan")).expect_err("the plan has no such alternate");
    assert!(unknown.to_string().starts_with("the choice `left-room` has no alternate `open-plan`"), "{unknown}");
}

#[test]
fn moving_by_nothing_gives_the_very_same_plan() {
    let before = two_rooms();
    let after = moved(&before, "middle", Length::ZERO).expect("nothing is wrong with that");
    assert!(after.is_same(&before));
}

/// The plan without what a sweep would push: of that, the way back leaves some where it was pushed to.
fn without_detectors() -> Document {
    let mut document = two_rooms();
    std::sync::Arc::make_mut(&mut document.plan).base.detectors.clear();
    document
}

fn there_and_back(before: &Document, wall: &str, by: Length) -> Result<Document, Refused> {
    moved(&moved(before, wall, by)?, wall, -by)
}

/// Every movable wall that stands in the home.
fn movable(document: &Document) -> Vec<String> {
    let walls = document.home().elements.walls;
    walls.iter().filter(|wall| wall.movable).map(|wall| wall.id.to_string()).collect()
}

/// Between two walls that are not parallel, a moved wall turns by a hair when its ends are rounded.
fn skew_to_the_right_wall(y: i64) -> Document {
    let mut document = bevel();
    let plan = std::sync::Arc::make_mut(&mut document.plan);
    for wall in plan.base.walls.iter_mut().filter(|wall| wall.id.as_str() == "skew") {
        wall.to = Point::new(Length::from_steps(8_000 * 640), Length::from_steps(y));
    }
    document
}

#[test]
fn a_wall_that_would_not_come_back_is_refused() {
    let refused = moved(&skew_to_the_right_wall(1_645_725), "skew", Length::from_steps(-135_609));
    assert_eq!(
        refused.expect_err("the way back ends a step away").to_string(),
        "the ends of \"skew\" miss the grid when the wall \"skew\" is moved exactly that far; a little less or more will do"
    );
}

proptest! {
    #[test]
    fn there_and_back_restores_the_plan(by in -57 * 16_256..57 * 16_256_i64, divided: bool) {
        let mut before = without_detectors();
        if divided {
            before = apply(&before, &choose("left-room=divided")).expect("the plan has that alternate");
        }
        let by = Length::from_steps(by);
        prop_assert_eq!(text(&there_and_back(&before, "middle", by).expect("both moves are possible")), text(&before));
        let by = Length::from_steps(by.steps() / 3);
        prop_assert_eq!(text(&there_and_back(&before, "cross", by).expect("both moves are possible")), text(&before));
    }

    #[test]
    fn there_and_back_off_the_axes_restores_the_plan_or_is_refused(by in -400 * 640..400 * 640_i64) {
        let before = bevel();
        let by = Length::from_steps(by);
        for id in ["bevel", "slant"] {
            prop_assert_eq!(text(&there_and_back(&before, id, by).expect("both moves are possible")), text(&before));
        }
        match there_and_back(&before, "skew", by) {
            Ok(after) => prop_assert_eq!(text(&after), text(&before)),
            Err(refused) => prop_assert!(matches!(refused, Refused::OffGrid { .. }), "{}", refused),
        }
    }

    #[test]
    fn a_wall_that_turns_by_rounding_comes_back_or_is_refused(
        by in -400 * 640..400 * 640_i64,
        y in 2_500 * 640..2_900 * 640_i64,
    ) {
        let before = skew_to_the_right_wall(y);
        match there_and_back(&before, "skew", Length::from_steps(by)) {
            Ok(after) => prop_assert_eq!(text(&after), text(&before)),
            Err(refused) => prop_assert!(matches!(refused, Refused::OffGrid { .. }), "{}", refused),
        }
    }

    /// In steps of 1/2 in, small enough that no wall comes to touch what it did not touch before.
    #[test]
    fn there_and_back_restores_every_movable_wall_of_the_demo_home(halves in -4..5_i64, choice in 0..3_usize) {
        let before = demo();
        let alternate = ["study", "fourth-bedroom", "hobby-room"][choice];
        let before = apply(&before, &choose(&format!("flex-room={alternate}"))).expect("the plan has that alternate");
        let by = Length::from_steps(halves * 16_256 / 2);
        for wall in movable(&before) {
            let after = there_and_back(&before, &wall, by).expect("both moves are possible");
            prop_assert_eq!(&after.plan, &before.plan, "{} by {}", wall, by.feet_inches());
        }
    }

    /// A moved plan is one that can be saved and read again.
    #[test]
    fn a_moved_plan_can_be_written_and_read(by in -100 * 16_256..100 * 16_256_i64) {
        let by = Length::from_steps(by);
        for (before, id) in [(two_rooms(), "middle"), (bevel(), "skew"), (bevel(), "bevel")] {
            if let Ok(after) = apply(&before, &move_by(id, by)) {
                let read: Plan = plan_model::file::read(&text(&after)).expect("the plan can be read");
                prop_assert_eq!(&read, &*after.plan);
            }
        }
    }
}

#[test]
fn a_wall_of_an_alternate_moves_in_that_alternate() {
    let before = apply(&demo(), &choose("flex-room=fourth-bedroom")).expect("the plan has that alternate");
    let after = moved(&before, "bedroom-4-closet-wall", inches(2)).expect("the wall can be moved");
    let [from, to] = ends(&before, "bedroom-4-closet-wall");
    let by = at(-2, 0);
    assert_eq!(ends(&after, "bedroom-4-closet-wall"), [from + by, to + by]);
    let divider = wall(&after, "bedroom-4-closet-divider");
    assert_eq!(divider.from.x, wall(&before, "bedroom-4-closet-divider").from.x - inches(2));
}
