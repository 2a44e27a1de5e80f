//! Where a dragged wall comes to rest.

use plan_edit::snap::{Pace, SnapCause, snap};
use plan_model::{Length, Point};

use crate::plans::{at, bevel, inches, two_rooms, wall};

fn eighths(eighths: i64) -> Length {
    Length::from_steps(eighths * 16_256 / 8)
}

#[test]
fn steps_are_half_an_inch_or_ten_millimetres_and_fine_ones_an_eighth_or_one() {
    let document = two_rooms();
    let middle = wall(&document, "middle");
    let none = Length::ZERO;
    assert_eq!(snap(&document, middle, eighths(11), Pace::Normal, none).by, eighths(12));
    assert_eq!(snap(&document, middle, eighths(-13), Pace::Normal, none).by, eighths(-12));
    assert_eq!(snap(&document, middle, eighths(11), Pace::Fine, none).by, eighths(11));
    let nearly = eighths(11) + Length::from_steps(1_000);
    assert_eq!(snap(&document, middle, nearly, Pace::Fine, none).by, eighths(11));
    let document = bevel();
    let slant = wall(&document, "slant");
    assert_eq!(snap(&document, slant, Length::from_steps(64 * 640), Pace::Normal, none).by.steps(), 60 * 640);
    assert_eq!(snap(&document, slant, Length::from_steps(6_401), Pace::Fine, none).by.steps(), 6_400);
}

#[test]
fn faces_of_parallel_walls_attract() {
    let document = two_rooms();
    let middle = wall(&document, "middle");
    // The inner face of the left wall is at x = 6; the middle wall's left face stands at 118.
    let found = snap(&document, middle, inches(111), Pace::Normal, inches(2));
    assert_eq!(found.by, inches(112));
    let SnapCause::Aligned { with, face } = found.cause else { panic!("expected a face, not {:?}", found.cause) };
    assert_eq!((with.as_str(), face), ("left", [at(6, 144), at(6, 0)]));
    assert_eq!(snap(&document, middle, inches(111), Pace::Normal, eighths(7)).by, inches(111), "out of reach");
    assert_eq!(snap(&document, middle, inches(111), Pace::Fine, inches(2)).by, inches(111), "fine is free");
}

#[test]
fn the_place_where_it_stood_is_not_left_for_a_face_that_is_farther() {
    let mut document = two_rooms();
    let plan = std::sync::Arc::make_mut(&mut document.plan);
    let mut other = plan.base.walls[4].clone();
    other.id = "other".into();
    (other.from, other.to) = (Point::new(eighths(972), inches(6)), Point::new(eighths(972), inches(20)));
    plan.base.walls.push(other);
    let middle = wall(&document, "middle");
    let drag = |by| snap(&document, middle, by, Pace::Normal, inches(6)).by;
    assert_eq!(drag(Length::ZERO), Length::ZERO);
    assert_eq!(drag(eighths(-4)), eighths(-4), "1/2 in from where it stood, 1 in from the face");
    assert_eq!(drag(eighths(-7)), eighths(-12), "the other's faces are 1 1/2 in away");
}
