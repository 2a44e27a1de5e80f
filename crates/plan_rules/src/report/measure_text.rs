use std::fmt::Write as _;

use plan_geometry::{Area, Derived, Figure, Measure, MeasureName, RoomFigures};
use plan_model::{Exact, Home, Id, Length, Selection, Units};

use super::book::book_text;
use super::heading;
use super::heated::heated_section;
use super::problem::problem_text;
use super::text::{paragraph, plain, table};
use crate::rules::{CountedSpaces, shows_passages};
use crate::{CAUTIONS, RuleBook, show};

/// The figures of a home as text, for people. What is estimated is marked `est.`, what the plan does not hold
/// `unknown`, with the reason.
///
/// The book says for which rooms an area is required, and with it a least dimension; without a book those are left out.
#[must_use]
pub fn measure_text(home: &Home<'_>, selection: &Selection, derived: &Derived, book: Option<&RuleBook>) -> String {
    let units = home.plan.units;
    let mut text = heading("Measures", home, selection);
    let heated = match derived.heated_area {
        Some(heated) => {
            format!("{}, in whole square feet {}", area(heated, units), heated.whole_square_feet())
        }
        None => "unknown, because not every space is a room that closes".to_owned(),
    };
    let _ = writeln!(text, "Heated area to the exterior finished face: {heated}");
    text.push_str(&heated_section(home, derived));
    text.push_str(&rooms(home, derived, book));
    text.push_str(&passages(home, derived, book));
    text.push_str(&windows(home, derived));
    text.push_str(&doors(home, derived));
    text.push_str(&further_measures(home, derived));
    if !derived.problems.is_empty() {
        text.push_str("\nPROBLEMS\n");
        text.extend(derived.problems.iter().map(|problem| paragraph("  - ", &problem_text(problem, units))));
    }
    if let Some(book) = book {
        text.push('\n');
        text.push_str(&book_text(book.facts()));
        let what = "It says where least dimensions, counted areas and passages are asked for; nothing is judged here.";
        text.push_str(&paragraph("           ", what));
    }
    text.push_str("\nCAUTIONS\n");
    text.extend(CAUTIONS.iter().map(|caution| paragraph("  - ", caution)));
    plain(&text)
}

fn rooms(home: &Home<'_>, derived: &Derived, book: Option<&RuleBook>) -> String {
    let units = home.plan.units;
    let counted = CountedSpaces::of(derived, book);
    let row = |room: &RoomFigures| {
        let rectangle = room.sizes.rectangle();
        [
            room_name(home, Some(&room.id)),
            room.usage.word().to_owned(),
            area(room.floor_area, units),
            format!("{} x {}", length(rectangle.width, units), length(rectangle.length, units)),
            length(room.sizes.largest_square(), units),
            counted.least_dimension(&room.id).map(|least| length(least, units)).unwrap_or_default(),
            counted.qualifying_area(&room.id).map(|counted| area(counted, units)).unwrap_or_default(),
        ]
    };
    let rows: Vec<_> = derived.rooms.iter().map(row).collect();
    let head = ["room", "use", "floor area", "clear width x length", "largest square", "least dim.", "counted area"];
    section("ROOMS", head, &rows)
}

fn passages(home: &Home<'_>, derived: &Derived, book: Option<&RuleBook>) -> String {
    let units = home.plan.units;
    let of_room = |room: &RoomFigures| -> Vec<[String; 4]> {
        let name = room_name(home, Some(&room.id));
        let row = |passage: &plan_geometry::Passage| {
            let [one, other] = &passage.between;
            let width = length(passage.clear_width.value, units);
            let [from, to] = passage.pinch.map(|end| format!("{}, {}", length(end.x, units), length(end.y, units)));
            [name.clone(), format!("{one} - {other}"), width, format!("{from} - {to}")]
        };
        room.passages().iter().map(row).collect()
    };
    let rows: Vec<_> = derived.rooms.iter().filter(|room| shows_passages(room, book)).flat_map(of_room).collect();
    section("PASSAGES", ["room", "between", "clear width", "narrowest (along the house, from the front)"], &rows)
}

fn windows(home: &Home<'_>, derived: &Derived) -> String {
    let units = home.plan.units;
    let row = |window: &plan_geometry::WindowFigures| {
        let inside = window.sides.iter().find_map(|side| side.room.as_ref());
        [
            window.id.to_string(),
            room_name(home, inside),
            clear(&window.clear_width, &window.clear_height, units),
            show::figure(&window.clear_area, |value| show::area(value, units)),
            show::figure(&window.sill, |value| show::length(value, units)),
            reasons(&[
                ("clear width", &window.clear_width),
                ("clear height", &window.clear_height),
                ("clear area", &window.clear_area),
                ("sill", &window.sill),
            ]),
        ]
    };
    let rows: Vec<_> = derived.windows.iter().map(row).collect();
    let because = head_of_reasons(&rows);
    section("WINDOWS", ["window", "room", "clear width x height", "clear area", "sill", because], &rows)
}

fn doors(home: &Home<'_>, derived: &Derived) -> String {
    let units = home.plan.units;
    let row = |door: &plan_geometry::DoorFigures| {
        let [one, other] = &door.sides;
        let between = format!("{} / {}", room_name(home, one.room.as_ref()), room_name(home, other.room.as_ref()));
        let clear_opening = clear(&door.clear_width, &door.clear_height, units);
        let why = reasons(&[("clear width", &door.clear_width), ("clear height", &door.clear_height)]);
        [door.id.to_string(), between, clear_opening, why]
    };
    let rows: Vec<_> = derived.doors.iter().map(row).collect();
    section("DOORS", ["door", "between", "clear width x height", head_of_reasons(&rows)], &rows)
}

/// Why figures of an opening are unknown: one reason by itself, several after the figures that each holds for.
fn reasons(figures: &[(&str, &Figure)]) -> String {
    let mut told: Vec<(&str, Vec<&str>)> = Vec::new();
    for (name, figure) in figures {
        let Figure::Unknown(why) = figure else { continue };
        match told.iter_mut().find(|(reason, _)| reason == why) {
            Some((_, names)) => names.push(name),
            None => told.push((why, vec![name])),
        }
    }
    match &told[..] {
        [(why, _)] => (*why).to_owned(),
        several => {
            let clauses: Vec<String> =
                several.iter().map(|(why, names)| format!("{}: {why}", names.join(", "))).collect();
            clauses.join("; ")
        }
    }
}

/// What stands over the reasons, which are the last column; nothing where there is none.
fn head_of_reasons<const COLUMNS: usize>(rows: &[[String; COLUMNS]]) -> &'static str {
    let has_any = rows.iter().filter_map(|row| row.last()).any(|why| !why.is_empty());
    if has_any { "unknown because" } else { "" }
}

/// What the tables above tell already.
const TOLD_ABOVE: &[MeasureName] = &[
    MeasureName::FloorArea,
    MeasureName::LargestSquare,
    MeasureName::ClearRectangleWidth,
    MeasureName::ClearRectangleLength,
    MeasureName::PassageWidth,
];

fn further_measures(home: &Home<'_>, derived: &Derived) -> String {
    let row = |measure: &Measure| {
        let of: Vec<&str> = measure.of.iter().map(Id::as_str).collect();
        let part = measure.part.map(|part| format!(" ({part})")).unwrap_or_default();
        [
            measure.name.word().replace('-', " "),
            of.join(", ") + &part,
            show::amount_or_reason(&measure.amount, home.plan.units),
        ]
    };
    let further = derived.measures().iter().filter(|measure| !TOLD_ABOVE.contains(&measure.name));
    section("FURTHER MEASURES", ["measure", "of", "figure"], &further.map(row).collect::<Vec<_>>())
}

fn section<const COLUMNS: usize>(title: &str, head: [&str; COLUMNS], rows: &[[String; COLUMNS]]) -> String {
    if rows.is_empty() { String::new() } else { format!("\n{title}\n{}", table(head, rows)) }
}

fn room_name(home: &Home<'_>, id: Option<&Id>) -> String {
    let room = id.and_then(|id| home.elements.rooms.iter().find(|room| room.id == *id));
    room.map_or_else(|| "outdoors".to_owned(), |room| room.name.clone())
}

fn clear(width: &Figure, height: &Figure, units: Units) -> String {
    let side = |side| show::figure(side, |value| show::length(value, units));
    match (width, height) {
        (Figure::Unknown(_), Figure::Unknown(_)) => "unknown".to_owned(),
        _ => format!("{} x {}", side(width), side(height)),
    }
}

fn length(value: Length, units: Units) -> String {
    show::length(Exact::from(i128::from(value.steps())), units)
}

fn area(value: Area, units: Units) -> String {
    show::area(value.exact(), units)
}
