//! What is under the pointer.

use plan_edit::hit::{Hit, hit_test};
use plan_geometry::derive;
use plan_model::{Length, Point};

use crate::plans::{at, inches, two_rooms};

fn hit(at: Point, reach: Length) -> Option<Hit> {
    let document = two_rooms();
    let home = document.home();
    hit_test(&home, &derive(&home), at, reach)
}

#[test]
fn openings_come_before_walls_and_walls_before_what_stands_beside_them() {
    let near = inches(1);
    assert_eq!(hit(at(120, 20), near), Some(Hit::Opening("middle-door".into())));
    assert_eq!(hit(at(30, 3), near), Some(Hit::Opening("front-window".into())));
    assert_eq!(hit(at(120, 47), near), Some(Hit::Opening("middle-door".into())), "1 in past the jamb");
    assert_eq!(hit(at(120, 48), near), Some(Hit::Wall { id: "middle".into(), movable: true }));
    assert_eq!(hit(at(123, 90), near), Some(Hit::Wall { id: "middle".into(), movable: true }));
    assert_eq!(hit(at(124, 90), near), Some(Hit::Fixture("vanity".into())));
    assert_eq!(hit(at(100, 143), near), Some(Hit::Wall { id: "back".into(), movable: false }));
}

#[test]
fn fixtures_come_before_rooms() {
    assert_eq!(hit(at(30, 80), Length::ZERO), Some(Hit::Fixture("range".into())));
    assert_eq!(hit(at(33, 80), Length::ZERO), Some(Hit::Room("left-back".into())));
    assert_eq!(hit(at(33, 30), Length::ZERO), Some(Hit::Room("left-front".into())));
    assert_eq!(hit(at(300, 30), inches(5)), None);
}
