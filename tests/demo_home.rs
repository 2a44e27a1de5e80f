//! The demo home, worked out by hand from its wall faces.
//!
//! Outside 330 x 696 in; exterior walls 6.5, mate walls 4 each, partitions 4.5: a module is 165 - 6.5 - 4 = 154.5 clear.

use plan_geometry::{Area, Derived, ProblemKind, derive};
use plan_model::{AlternateRef, Length, Plan, Selection, file};
use plan_rules::{RuleBook, judge};

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");

fn dunlin() -> Plan {
    file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"))
}

fn home_with(plan: &Plan, answers: &[&str]) -> Derived {
    let selection = answers.iter().fold(Selection::included(plan), |selection, answer| {
        let answer: AlternateRef = answer.parse().unwrap_or_else(|error| panic!("{error}"));
        selection.with(plan, &answer).unwrap_or_else(|error| panic!("{error}"))
    });
    derive(&plan.home(&selection))
}

/// In halves of an inch.
fn halves(halves: i64) -> Length {
    Length::from_steps(halves * Length::INCH.steps() / 2)
}

fn area(halves_across: i64, halves_along: i64) -> Area {
    Area::of_rectangle(halves(halves_across), halves(halves_along))
}

#[test]
fn heated_area_is_the_outside_of_both_modules() {
    let derived = home_with(&dunlin(), &[]);
    assert_eq!(derived.problems, []);
    let heated = derived.heated_area.expect("every room closes");
    assert_eq!(heated, Area::of_rectangle(Length::inches(330), Length::inches(696)));
    assert_eq!(heated.whole_square_feet(), 1595, "229,680 sq in / 144");
}

#[test]
fn clear_rooms_are_what_the_wall_faces_leave() {
    let derived = home_with(&dunlin(), &[]);
    // Room, clear width and length in half inches, from the faces named beside them.
    let rooms = [
        ("owner-bedroom", 309, 336), // x 6.5 to 174.5, y 169 to 323.5
        ("owner-closet", 157, 309),  // x 112.5 to 191, y 6.5 to 161
        ("bedroom-2", 220, 232),     // x 432 to 548, y 6.5 to 116.5
        ("bedroom-3", 217, 220),     // x 581 to 689.5, y 6.5 to 116.5
        ("hall-bath", 120, 200),     // x 432 to 492, y 169 to 269
        ("mechanical", 80, 90),      // x 644.5 to 689.5, y 121 to 161
        ("study", 233, 309),         // x 573 to 689.5, y 169 to 323.5
        ("study-utility", 144, 309), // x 496.5 to 568.5, y 169 to 323.5
        ("study-pantry", 100, 120),  // x 432 to 492, y 273.5 to 323.5
    ];
    for (id, width, length) in rooms {
        let room = derived.room(&id.into()).expect("the room closes");
        let clear = room.sizes.rectangle();
        assert_eq!((clear.width, clear.length), (halves(width), halves(length)), "{id}");
        assert_eq!(room.floor_area, area(width, length), "{id}");
    }
}

/// The great room with the hall is one space: 154.5 deep on both sides of the mate line, joined across 224 in.
#[test]
fn the_great_room_is_one_space() {
    let derived = home_with(&dunlin(), &[]);
    let hall = derived.room(&"hall".into()).expect("the hall closes");
    let great = &derived.spaces[hall.space];
    let names: Vec<&str> = great.rooms.iter().map(plan_model::Id::as_str).collect();
    assert_eq!(names, ["living", "kitchen", "dining", "hall"]);
    // Living x 195.5 to 427.5, y 6.5 to 161; kitchen and dining x 179 to 427.5, y 169 to 323.5; the opening between the
    // posts x 199.5 to 423.5, y 161 to 169; the hall x 427.5 to 640, y 121 to 161.
    let parts = [area(464, 309), area(497, 309), area(448, 16), area(425, 80)];
    assert_eq!(great.floor_area, parts.into_iter().sum());
}

#[test]
fn the_hall_is_forty_inches_wide_between_all_its_doorways() {
    let derived = home_with(&dunlin(), &[]);
    let hall = derived.room(&"hall".into()).expect("the hall closes");
    assert_eq!(hall.passages().len(), 7 * 6 / 2);
    for passage in hall.passages() {
        assert_eq!(passage.clear_width.value, Length::inches(40), "{:?}", passage.between);
    }
}

/// The walk-in shower 90 in long ends at y 96.5; the water-closet room's partition starts at y 90.5.
#[test]
fn beside_the_longest_shower_the_water_closet_room_has_no_place() {
    let plan = dunlin();
    let baths =
        plan.choices.iter().find(|choice| choice.id.as_str() == "owner-bath-layout").expect("a choice of the demo");
    let mut conflicting = Vec::new();
    for alternate in &baths.alternates {
        let derived =
            home_with(&plan, &[&format!("owner-bath-layout={}", alternate.id), "water-closet-room=room-36x66"]);
        let conflict = |problem: &&plan_geometry::Problem| problem.kind.is_conflict();
        for problem in derived.problems.iter().filter(conflict) {
            assert!(matches!(problem.kind, ProblemKind::InWall { .. }), "{problem}");
            conflicting.push(alternate.id.as_str());
        }
    }
    conflicting.dedup();
    assert_eq!(conflicting, ["shower-90"]);
}

/// The base selection and every alternate alone meet the model code, and leave nothing required unknown.
#[test]
fn every_alternate_alone_meets_the_model_code() {
    let plan = dunlin();
    let book = RuleBook::built_in("irc-2021").expect("a built-in book");
    for choice in &plan.choices {
        for alternate in &choice.alternates {
            let answer = AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
            let selection = Selection::included(&plan).with(&plan, &answer).unwrap_or_else(|error| panic!("{error}"));
            let home = plan.home(&selection);
            let derived = derive(&home);
            assert_eq!(derived.problems, [], "{answer}");
            let judgement = judge(&home, &derived, &book).unwrap_or_else(|error| panic!("{error}"));
            let told: Vec<&str> =
                judgement.corrections().chain(judgement.unknown()).map(|verdict| verdict.message.as_str()).collect();
            assert_eq!(told, [""; 0], "{answer}");
            assert!(judgement.met().count() >= 30, "{answer}");
        }
    }
}

/// The product of the alternates of all choices: 3 x 4 x 2 x 2 x 3 x 2 x 2 x (5 x 4 x 4 x 6).
#[test]
fn there_are_276_480_selections() {
    let count: usize = dunlin().choices.iter().map(|choice| choice.alternates.len()).product();
    assert_eq!(count, 276_480);
}

#[test]
fn the_file_is_laid_out_as_the_program_writes_it() {
    assert_eq!(file::write(&dunlin()), DUNLIN);
}
