//! Every measure of a home as one list: name, what it is of, how much, and what shows it on the plan.

use std::borrow::Cow;

use plan_geometry::{Amount, Derived, Figure, Mark, Measure, MeasureName};
use plan_model::{Exact, Id, Length, Units};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};

use super::decimal::Decimal;
use super::measure::BasisReport;
use super::units::{area, grid_area, grid_length, length, point};
use crate::show::area_unit;

/// One measure.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct MeasureItem {
    measure: Name,
    /// The elements that it is measured of or between.
    of: Vec<Id>,
    /// Which part of them, where they have several for which it is told: `bowl 1`, counted from the left end of a vanity as
    /// seen from its front, `left side`. No two entries have the same name, elements and part.
    #[serde(skip_serializing_if = "Option::is_none")]
    part: Option<String>,
    /// How much; null where the plan does not hold it.
    value: Option<Value>,
    /// The unit of a number, `count` where things are counted; null for yes or no.
    unit: Option<&'static str>,
    /// How far a length between faces that are not square to the axes may be from the true one; left out where it is exact.
    #[serde(skip_serializing_if = "Option::is_none")]
    slack: Option<Decimal>,
    /// For figures of openings: whether the maker published them.
    #[serde(skip_serializing_if = "Option::is_none")]
    basis: Option<BasisReport>,
    /// Why it is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    unknown_because: Option<String>,
    /// What shows it on the plan.
    marks: Vec<MarkReport>,
}

/// A number in the plan's unit, or yes or no.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(untagged)]
enum Value {
    Number(Decimal),
    Possible(bool),
}

/// What shows a measure on the plan, in the plan's unit.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum MarkReport {
    /// A dimension between two places.
    Span([[Decimal; 2]; 2]),
    /// A way from its first place to its last.
    Way(Vec<[Decimal; 2]>),
    /// A circle of floor.
    Disc {
        /// Its centre.
        centre: [Decimal; 2],
        /// Across.
        diameter: Decimal,
    },
    /// A piece of the plan: its corners.
    Ground(Vec<[Decimal; 2]>),
}

/// Every measure of a home.
pub(super) fn measure_items(derived: &Derived, units: Units) -> Vec<MeasureItem> {
    derived.measures().iter().cloned().map(|measure| item(measure, units)).collect()
}

fn item(measure: Measure, units: Units) -> MeasureItem {
    let (lengths, areas) = (Some(units.abbreviation()), Some(area_unit(units).1));
    let number = |value: Decimal| Some(Value::Number(value));
    let mut item = MeasureItem {
        measure: Name(measure.name),
        of: measure.of,
        part: measure.part.map(|part| part.to_string()),
        value: None,
        unit: None,
        slack: None,
        basis: None,
        unknown_because: None,
        marks: marks(&measure.marks, units),
    };
    match measure.amount {
        Amount::Length(measured) => {
            (item.value, item.unit) = (number(grid_length(measured.value, units)), lengths);
            item.slack = (measured.slack > Length::ZERO).then(|| grid_length(measured.slack, units));
        }
        Amount::Area(floor) => (item.value, item.unit) = (number(grid_area(floor, units)), areas),
        Amount::OpeningLength(Figure::Known { value, basis }) => {
            (item.value, item.unit, item.basis) = (number(length(value, units)), lengths, Some(basis.into()));
        }
        Amount::OpeningArea(Figure::Known { value, basis }) => {
            (item.value, item.unit, item.basis) = (number(area(value, units)), areas, Some(basis.into()));
        }
        Amount::Count(count) => {
            let count = i128::try_from(count).unwrap_or(i128::MAX);
            (item.value, item.unit) = (number(Decimal::from(Exact::from(count))), Some("count"));
        }
        Amount::TenthsOfDegree(tenths) => {
            let degrees = Exact::new(tenths.into(), 10);
            (item.value, item.unit) = (number(Decimal::from(degrees)), Some("degrees"));
        }
        Amount::Possible(possible) => item.value = Some(Value::Possible(possible)),
        Amount::OpeningLength(Figure::Unknown(why))
        | Amount::OpeningArea(Figure::Unknown(why))
        | Amount::Unknown(why) => item.unknown_because = Some(why),
    }
    item
}

fn marks(marks: &[Mark], units: Units) -> Vec<MarkReport> {
    let places = |points: &[plan_model::Point]| points.iter().map(|at| point(*at, units)).collect();
    let report = |mark: &Mark| match mark {
        Mark::Span(ends) => MarkReport::Span(ends.map(|end| point(end, units))),
        Mark::Way(points) => MarkReport::Way(places(points)),
        Mark::Disc { centre, diameter } => {
            MarkReport::Disc { centre: point(*centre, units), diameter: grid_length(*diameter, units) }
        }
        Mark::Ground(corners) => MarkReport::Ground(places(corners)),
    };
    marks.iter().map(report).collect()
}

/// The name of a measure; the schema says what each means.
#[derive(Debug)]
struct Name(MeasureName);

impl Serialize for Name {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.word())
    }
}

impl JsonSchema for Name {
    fn schema_name() -> Cow<'static, str> {
        "MeasureName".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let names: Vec<_> = MeasureName::ALL
            .iter()
            .map(|name| serde_json::json!({ "const": name.word(), "description": name.meaning() }))
            .collect();
        json_schema!({ "description": "What is measured.", "oneOf": names })
    }
}
