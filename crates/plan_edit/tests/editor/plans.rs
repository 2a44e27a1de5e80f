//! The plans that the tests work on, and short ways to look into them.

use std::sync::LazyLock;

use plan_edit::{Command, Document, Refused, apply};
use plan_model::elements::Wall;
use plan_model::{AlternateRef, Elements, Id, Length, Point, file};

/// Two rooms left and right of a movable wall on which other things end or stand.
pub(crate) fn two_rooms() -> Document {
    static READ: LazyLock<Document> = LazyLock::new(|| read(include_str!("../plans/two-rooms.json")));
    READ.clone()
}

/// Walls at 45 degrees and at an angle off the grid, in millimetres.
pub(crate) fn bevel() -> Document {
    static READ: LazyLock<Document> = LazyLock::new(|| read(include_str!("../plans/bevel.json")));
    READ.clone()
}

/// The demo home.
pub(crate) fn demo() -> Document {
    static READ: LazyLock<Document> = LazyLock::new(|| read(include_str!("../../../../sample-plans/dunlin-58.json")));
    READ.clone()
}

fn read(text: &str) -> Document {
    Document::new(file::read(text).expect("the plan can be read"))
}

pub(crate) fn text(document: &Document) -> String {
    file::write(&document.plan)
}

pub(crate) fn choose(answer: &str) -> Command {
    Command::Choose(answer.parse::<AlternateRef>().expect("an answer"))
}

pub(crate) fn move_by(wall: &str, by: Length) -> Command {
    Command::MoveWall { wall: wall.into(), by }
}

pub(crate) fn moved(document: &Document, wall: &str, by: Length) -> Result<Document, Refused> {
    apply(document, &move_by(wall, by))
}

pub(crate) fn inches(inches: i64) -> Length {
    Length::inches(inches)
}

pub(crate) fn at(x: i64, y: i64) -> Point {
    Point::inches(x, y)
}

/// The one element of a list that has this name, in whichever list of the plan it stands.
pub(crate) fn find<'doc, E>(
    document: &'doc Document,
    list: impl Fn(&'doc Elements) -> &'doc Vec<E>,
    id: impl Fn(&E) -> &Id,
    wanted: &str,
) -> &'doc E {
    let mut all = document.plan.all_elements().flat_map(list);
    all.find(|element| id(element).as_str() == wanted).unwrap_or_else(|| panic!("no {wanted}"))
}

pub(crate) fn wall<'doc>(document: &'doc Document, id: &str) -> &'doc Wall {
    find(document, |elements| &elements.walls, |wall| &wall.id, id)
}

pub(crate) fn ends(document: &Document, id: &str) -> [Point; 2] {
    let wall = wall(document, id);
    [wall.from, wall.to]
}
