use std::collections::BTreeMap;

use plan_geometry::{Basis, Derived, DoorFigures, Figure, RoomFigures, Side, WindowFigures};
use plan_model::elements::RoomUse;
use plan_model::{DoorOperation, Home, Id, Selection, WindowOperation};
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::book::BookReport;
use super::decimal::Decimal;
use super::heated::{HeatedPart, heated_parts};
use super::measure_list::{MeasureItem, measure_items};
use super::problem::{ProblemReport, problem_reports};
use super::units::{ReportUnits, area, grid_area, grid_length, length, point};
use super::{lay_out, titled};
use crate::RuleBook;
use crate::rules::{CountedSpaces, shows_passages};

/// Every figure of a home that people ask for.
#[derive(Debug, Serialize, JsonSchema)]
struct MeasureReport {
    /// Version of this report.
    #[schemars(extend("const" = 1))]
    mateline_measure: u32,
    /// Name of the plan.
    plan: String,
    /// Who builds it.
    maker: String,
    /// The chosen alternate of every choice.
    selection: BTreeMap<Id, Id>,
    /// Whether the home is built mirrored left to right; left out where it is built as drawn.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    #[schemars(default)]
    reversed: bool,
    units: ReportUnits,
    /// The rule book that says which areas and dimensions are asked for; null without one.
    book: Option<BookReport>,
    /// Heated area to the exterior finished face; null while a room does not close.
    heated_area: Option<Decimal>,
    /// The same as the nearest whole square foot, whatever the units.
    heated_area_whole: Option<i128>,
    /// The arithmetic of the heated area, module by module, each part with its sides; empty while it is unknown.
    heated_area_arithmetic: Vec<HeatedPart>,
    /// Rooms that closed, in the order of the plan file.
    rooms: Vec<RoomReport>,
    /// Each hall, and each room that the book's rule of hallways covers, between every two of its doorways.
    passages: Vec<PassageReport>,
    windows: Vec<WindowReport>,
    doors: Vec<DoorReport>,
    /// Every measure, those above too, with what shows it on the plan.
    measures: Vec<MeasureItem>,
    /// What kept figures from being derived, and what conflicts in space.
    problems: Vec<ProblemReport>,
}

/// A room.
#[derive(Debug, Serialize, JsonSchema)]
struct RoomReport {
    id: Id,
    name: String,
    #[serde(rename = "use")]
    usage: RoomUse,
    /// To finished faces and open boundaries.
    floor_area: Decimal,
    /// Shorter side of the largest rectangle inside.
    clear_width: Decimal,
    /// Longer side of the largest rectangle inside.
    clear_length: Decimal,
    /// Side of the largest square inside.
    largest_square: Decimal,
    /// Other rooms of the same open space.
    open_to: Vec<Id>,
    /// Of the open space, at the area that the book requires, floor under low ceilings left out; null where the book
    /// requires none, the space has less, or a ceiling that matters is not in the plan.
    least_dimension: Option<Decimal>,
    /// Of the open space, at the width from which the book counts, floor under low ceilings left out; null where the book
    /// requires no area, or a ceiling that matters is not in the plan.
    qualifying_area: Option<Decimal>,
}

/// A room between two of its doorways.
#[derive(Debug, Serialize, JsonSchema)]
struct PassageReport {
    room: Id,
    /// Doors or open boundaries.
    between: [Id; 2],
    clear_width: Decimal,
    /// The two places on the faces that leave no more than this.
    pinch: [[Decimal; 2]; 2],
}

/// A window.
#[derive(Debug, Serialize, JsonSchema)]
struct WindowReport {
    id: Id,
    operation: Option<WindowOperation>,
    /// The rooms on its sides; null for outdoors.
    between: [Option<Id>; 2],
    clear_width: Option<Decimal>,
    clear_height: Option<Decimal>,
    clear_area: Option<Decimal>,
    /// Bottom of the clear opening above the floor.
    sill: Option<Decimal>,
    basis: Option<BasisReport>,
    /// For each figure that is null, why.
    unknown_because: BTreeMap<&'static str, String>,
}

/// A door or cased opening.
#[derive(Debug, Serialize, JsonSchema)]
struct DoorReport {
    id: Id,
    operation: Option<DoorOperation>,
    /// The rooms on its sides; null for outdoors.
    between: [Option<Id>; 2],
    /// Whether it leads outdoors.
    exterior: bool,
    clear_width: Option<Decimal>,
    clear_height: Option<Decimal>,
    basis: Option<BasisReport>,
    /// For each figure that is null, why.
    unknown_because: BTreeMap<&'static str, String>,
}

/// Where the figures of an opening come from; estimated if any of them is.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum BasisReport {
    /// Published by the maker, or drawn.
    Stated,
    /// Computed from the unit's size.
    Estimated,
}

impl From<Basis> for BasisReport {
    fn from(basis: Basis) -> Self {
        match basis {
            Basis::Stated => Self::Stated,
            Basis::Estimated => Self::Estimated,
        }
    }
}

/// The figures of a home as JSON, for programs; [`measure_schema`] describes it.
///
/// The book says for which rooms an area is required, and with it a least dimension; without a book those are null.
#[must_use]
pub fn measure_json(home: &Home<'_>, selection: &Selection, derived: &Derived, book: Option<&RuleBook>) -> String {
    let units = home.plan.units;
    let counted = CountedSpaces::of(derived, book);
    let passages = derived.rooms.iter().filter(|room| shows_passages(room, book)).flat_map(|room| {
        room.passages().iter().map(|passage| PassageReport {
            room: room.id.clone(),
            between: passage.between.clone(),
            clear_width: grid_length(passage.clear_width.value, units),
            pinch: passage.pinch.map(|end| point(end, units)),
        })
    });
    lay_out(&MeasureReport {
        mateline_measure: 1,
        plan: home.plan.name.clone(),
        maker: home.plan.maker.clone(),
        selection: selection.iter().map(|(choice, alternate)| (choice.clone(), alternate.clone())).collect(),
        reversed: selection.is_reversed(),
        units: units.into(),
        book: book.map(|book| BookReport::from(&**book.facts())),
        heated_area: derived.heated_area.map(|area| grid_area(area, units)),
        heated_area_whole: derived.heated_area.map(plan_geometry::Area::whole_square_feet),
        heated_area_arithmetic: heated_parts(derived, units),
        rooms: derived.rooms.iter().map(|room| room_report(home, derived, &counted, room)).collect(),
        passages: passages.collect(),
        windows: derived.windows.iter().map(|window| window_report(home, window)).collect(),
        doors: derived.doors.iter().map(|door| door_report(home, door)).collect(),
        measures: measure_items(derived, units),
        problems: problem_reports(derived, units),
    })
}

/// The JSON Schema of [`measure_json`].
#[must_use]
pub fn measure_schema() -> Schema {
    titled(schema_for!(MeasureReport), "Mateline measure report, version 1")
}

fn room_report(home: &Home<'_>, derived: &Derived, counted: &CountedSpaces, room: &RoomFigures) -> RoomReport {
    let units = home.plan.units;
    let rectangle = room.sizes.rectangle();
    let drawn = home.elements.rooms.iter().find(|drawn| drawn.id == room.id);
    let open_to = derived.spaces.get(room.space).map(|space| space.rooms.as_slice()).unwrap_or_default();
    RoomReport {
        id: room.id.clone(),
        name: drawn.map(|drawn| drawn.name.clone()).unwrap_or_default(),
        usage: room.usage,
        floor_area: grid_area(room.floor_area, units),
        clear_width: grid_length(rectangle.width, units),
        clear_length: grid_length(rectangle.length, units),
        largest_square: grid_length(room.sizes.largest_square(), units),
        open_to: open_to.iter().filter(|other| **other != room.id).cloned().collect(),
        least_dimension: counted.least_dimension(&room.id).map(|least| grid_length(least, units)),
        qualifying_area: counted.qualifying_area(&room.id).map(|area| grid_area(area, units)),
    }
}

fn window_report(home: &Home<'_>, window: &WindowFigures) -> WindowReport {
    let units = home.plan.units;
    let placed = home.elements.windows.get(window.index);
    let unit = placed.and_then(|window| home.plan.catalogue.window(&window.unit));
    let figures = [
        ("clear_width", &window.clear_width),
        ("clear_height", &window.clear_height),
        ("clear_area", &window.clear_area),
        ("sill", &window.sill),
    ];
    WindowReport {
        id: window.id.clone(),
        operation: unit.map(|unit| unit.operation),
        between: between(&window.sides),
        clear_width: window.clear_width.value().map(|value| length(value, units)),
        clear_height: window.clear_height.value().map(|value| length(value, units)),
        clear_area: window.clear_area.value().map(|value| area(value, units)),
        sill: window.sill.value().map(|value| length(value, units)),
        basis: basis(&figures[..3]),
        unknown_because: unknown_because(&figures),
    }
}

fn door_report(home: &Home<'_>, door: &DoorFigures) -> DoorReport {
    let units = home.plan.units;
    let placed = home.elements.doors.get(door.index);
    let unit = placed.and_then(|door| home.plan.catalogue.door(&door.unit));
    let figures = [("clear_width", &door.clear_width), ("clear_height", &door.clear_height)];
    DoorReport {
        id: door.id.clone(),
        operation: unit.map(|unit| unit.operation),
        between: between(&door.sides),
        exterior: door.is_exterior,
        clear_width: door.clear_width.value().map(|value| length(value, units)),
        clear_height: door.clear_height.value().map(|value| length(value, units)),
        basis: basis(&figures),
        unknown_because: unknown_because(&figures),
    }
}

fn between(sides: &[Side; 2]) -> [Option<Id>; 2] {
    [sides[0].room.clone(), sides[1].room.clone()]
}

fn basis(figures: &[(&'static str, &Figure)]) -> Option<BasisReport> {
    let known = |(_, figure): &(&str, &Figure)| match figure {
        Figure::Known { basis, .. } => Some(*basis),
        Figure::Unknown(_) => None,
    };
    let bases: Vec<Basis> = figures.iter().filter_map(known).collect();
    let estimated = bases.contains(&Basis::Estimated);
    (!bases.is_empty()).then_some(if estimated { BasisReport::Estimated } else { BasisReport::Stated })
}

fn unknown_because(figures: &[(&'static str, &Figure)]) -> BTreeMap<&'static str, String> {
    let unknown = |(name, figure): &(&'static str, &Figure)| match figure {
        Figure::Known { .. } => None,
        Figure::Unknown(why) => Some((*name, why.clone())),
    };
    figures.iter().filter_map(unknown).collect()
}
