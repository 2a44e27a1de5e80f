//! Every measure of four small homes against tables that were reckoned by hand from the drawings.
//!
//! The homes lie in `fixtures/shapes`, each beside its table: rooms in an L, rooms in a T, walls that all run at the angle of a
//! 3-4-5 triangle, and rooms, doors and fixtures at and across a mate line. A new measure takes a row for everything that it is
//! told of, in each of the four tables.

mod stated;
mod table;

use std::collections::BTreeSet;

use plan_geometry::{Amount, Derived, Mark, Measure, MeasureName, Part, derive};
use plan_model::{AlternateRef, Length, Plan, Point, Selection, file};
use plan_testkit::turned_plan;

use stated::{Slack, shown};
use table::{Row, rows};

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");

/// A home with its table.
struct Home {
    plan: &'static str,
    table: &'static str,
    slack: Slack,
}

macro_rules! home {
    ($name:literal, $slack:expr) => {
        Home {
            plan: include_str!(concat!("fixtures/shapes/", $name, ".json")),
            table: include_str!(concat!("fixtures/shapes/", $name, ".md")),
            slack: $slack,
        }
    };
}

const L_SHAPED: Home = home!("l-shaped", Slack::NONE);
const T_SHAPED: Home = home!("t-shaped", Slack::NONE);
const ANGLED: Home = home!("angled", Slack::OFF_AXIS);
const MATE_LINE: Home = home!("mate-line", Slack::NONE);

impl Home {
    fn plan(&self) -> Plan {
        file::read(self.plan).unwrap_or_else(|error| panic!("{error}"))
    }

    fn derived(&self) -> Derived {
        let plan = self.plan();
        derive(&plan.home(&Selection::included(&plan)))
    }

    fn rows(&self) -> Vec<Row<'_>> {
        rows(self.table)
    }

    /// Whether every measure has a row that holds for it, and every row its measure.
    fn holds(&self) {
        let derived = self.derived();
        assert_eq!(derived.problems, []);
        let (mut reckoned, mut measured) = (self.rows(), Vec::new());
        for measure in derived.measures().iter() {
            let row = reckoned.iter().position(|row| row.holds(measure, self.slack));
            match row {
                Some(row) => drop(reckoned.remove(row)),
                None => measured.push(line(measure)),
            }
        }
        let reckoned: Vec<&str> = reckoned.iter().map(|row| row.line).collect();
        let differences = format!("measured:\n{}\nreckoned by hand:\n{}", measured.join("\n"), reckoned.join("\n"));
        assert!(measured.is_empty() && reckoned.is_empty(), "{differences}");
    }
}

/// A measure as a row of a table, to be reckoned.
fn line(measure: &Measure) -> String {
    let of: Vec<&str> = measure.of.iter().map(plan_model::Id::as_str).collect();
    let part = measure.part.map(|part| format!(" ({part})")).unwrap_or_default();
    format!("| {} | {}{part} | {} | |", measure.name.word(), of.join(", "), shown(&measure.amount))
}

#[test]
fn a_home_in_an_l() {
    L_SHAPED.holds();
}

#[test]
fn a_home_in_a_t() {
    T_SHAPED.holds();
}

#[test]
fn a_home_at_an_angle() {
    ANGLED.holds();
}

#[test]
fn a_home_across_its_mate_line() {
    MATE_LINE.holds();
}

/// The angled home is the L-shaped one turned by the angle of a 3-4-5 triangle, and measures the same: all but its modules,
/// whose outlines are square to the axes of every drawing.
#[test]
fn the_angled_home_measures_as_the_same_home_drawn_square() {
    let (square, angled) = (turned_plan(&L_SHAPED.plan(), 4, 3).base, ANGLED.plan().base);
    assert_eq!((square.walls, square.rooms), (angled.walls, angled.rooms));
    assert_eq!((square.fixtures, square.furniture), (angled.fixtures, angled.furniture));
    assert_eq!((square.doors, square.windows), (angled.doors, angled.windows));

    let measures = ANGLED.derived().measures().clone();
    let is_of_modules = |row: &Row| row.name.starts_with("module-") || row.names("module-a") || row.names("module-b");
    let drawn_square = L_SHAPED.rows().into_iter().filter(|row| !is_of_modules(row));
    let others = drawn_square.filter(|row| row.name != MeasureName::HeatedAreaOutsideModules.word());
    for row in others {
        assert!(measures.iter().any(|measure| row.holds(measure, Slack::OFF_AXIS)), "{}", row.line);
    }
}

/// Each of the homes has something that each measure is told of.
#[test]
fn every_name_stands_in_every_table() {
    for (title, home) in [("L", L_SHAPED), ("T", T_SHAPED), ("angled", ANGLED), ("mate line", MATE_LINE)] {
        let rows = home.rows();
        let told: BTreeSet<&str> = rows.iter().map(|row| row.name).collect();
        let left_out: Vec<&str> =
            MeasureName::ALL.iter().map(|name| name.word()).filter(|word| !told.contains(word)).collect();
        assert!(left_out.is_empty(), "{title}: {left_out:?}");
    }
}

/// No two entries of the list have the same name, elements and part: in the four homes, and in the demo home with any of its
/// alternates.
#[test]
fn no_two_measures_are_told_alike() {
    let tells_apart = |title: &str, derived: &Derived| {
        let mut told = BTreeSet::new();
        for measure in derived.measures().iter() {
            assert!(told.insert((measure.name, measure.of.clone(), measure.part)), "{title}: {}", line(measure));
            let is_numbered = matches!(measure.part, Some(Part::Number(_)));
            assert!(!is_numbered, "{title}: nothing but its place in the list tells what it is of: {}", line(measure));
        }
    };
    for (title, home) in [("L", L_SHAPED), ("T", T_SHAPED), ("angled", ANGLED), ("mate line", MATE_LINE)] {
        tells_apart(title, &home.derived());
    }
    let demo = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    for choice in &demo.choices {
        for alternate in &choice.alternates {
            let answer = AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
            let selection = Selection::included(&demo).with(&demo, &answer).unwrap_or_else(|error| panic!("{error}"));
            tells_apart(&answer.to_string(), &derive(&demo.home(&selection)));
        }
    }
}

#[test]
fn every_measure_is_shown_on_the_plan() {
    for home in [L_SHAPED, T_SHAPED, ANGLED, MATE_LINE] {
        for measure in home.derived().measures().iter() {
            assert_eq!(measure.marks.is_empty(), has_nothing_to_show(measure), "{}", line(measure));
        }
    }
}

/// A passage, and a way in over a floor, is shown by the disc: it lies on the floor, and what is drawn across it is as long and
/// touches it at both ends. A way in that a door narrows is shown by what is clear of the door.
#[test]
fn what_narrows_a_passage_or_way_in_is_shown_where_it_does() {
    for home in [L_SHAPED, T_SHAPED, ANGLED, MATE_LINE] {
        let derived = home.derived();
        let rounding = if derived.rooms[0].sizes.slack() == Length::ZERO { 2.0 } else { 12.0 };
        let passage_or_way_in =
            |measure: &Measure| matches!(measure.name, MeasureName::PassageWidth | MeasureName::WayInWidth);
        for measure in derived.measures().iter().filter(|told| passage_or_way_in(told)) {
            let spans = measure.marks.iter().filter_map(|mark| match mark {
                Mark::Span([a, b]) => Some([*a, *b]),
                _ => None,
            });
            let spans: Vec<[Point; 2]> = spans.collect();
            let width = match &measure.amount {
                Amount::Length(width) => width.value.steps() as f64,
                Amount::OpeningLength(width) => width.value().expect("all doors are known").floor().to_integer() as f64,
                other => panic!("{other:?}"),
            };
            for span in &spans {
                assert!((distance(span[0], span[1]) - width).abs() <= rounding, "{}", line(measure));
            }
            let discs = measure.marks.iter().filter_map(|mark| match mark {
                Mark::Disc { centre, diameter } => Some((*centre, diameter.steps() as f64)),
                _ => None,
            });
            let discs: Vec<(Point, f64)> = discs.collect();
            assert_eq!(discs.len(), usize::from(matches!(measure.amount, Amount::Length(_))), "{}", line(measure));
            assert!(!spans.is_empty() || !discs.is_empty(), "{}", line(measure));
            for (centre, diameter) in discs {
                assert_eq!(diameter, width);
                let room = derived.room(&measure.of[0]).expect("the room is named first");
                let space = &derived.spaces[room.space];
                let nearest = space.region.sides().map(|(a, b)| from_side(centre, a, b)).fold(f64::MAX, f64::min);
                assert!(nearest >= width / 2.0 - rounding, "{}", line(measure));
                for end in spans.iter().flatten() {
                    assert!((distance(*end, centre) - width / 2.0).abs() <= rounding, "{}", line(measure));
                }
            }
        }
    }
}

/// In steps.
fn distance(a: Point, b: Point) -> f64 {
    ((a.x - b.x).steps() as f64).hypot((a.y - b.y).steps() as f64)
}

/// How far a place is from a side, in steps.
fn from_side(at: Point, a: Point, b: Point) -> f64 {
    let [(u, v), (x, y)] = [b, at].map(|p| ((p.x - a.x).steps() as f64, (p.y - a.y).steps() as f64));
    let part = ((u * x + v * y) / (u * u + v * v)).clamp(0.0, 1.0);
    (x - part * u).hypot(y - part * v)
}

/// Measures without a mark: the answer that there is a way at all, which is shown by the ways; none of something; and that no
/// place was found for what was sought.
fn has_nothing_to_show(measure: &Measure) -> bool {
    match (measure.name, &measure.amount) {
        (MeasureName::ReachedFromOutdoors, _) => true,
        (MeasureName::QualifyingArea, Amount::Area(area)) => area.square_steps() == 0,
        (MeasureName::GlazedAreaOfSpace | MeasureName::OpenableAreaOfSpace, Amount::OpeningArea(area)) => {
            area.value().is_some_and(|area| *area.numer() == 0)
        }
        (MeasureName::TurningCircle | MeasureName::ClearFloor, Amount::Possible(possible)) => !possible,
        _ => false,
    }
}
