use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Id, Point};

/// An alarm on a ceiling or high on a wall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Detector {
    /// Name.
    pub id: Id,
    /// What it senses.
    pub kind: DetectorKind,
    /// Its centre on the plan.
    pub at: Point,
}

/// What an alarm senses.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DetectorKind {
    /// Smoke, photoelectric.
    Photoelectric,
    /// Smoke, ionization.
    Ionization,
    /// Carbon monoxide.
    CarbonMonoxide,
    /// Photoelectric smoke and carbon monoxide in one.
    Combined,
}

/// A fan that exhausts one room to outdoors.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ExhaustFan {
    /// Name.
    pub id: Id,
    /// The room it serves; a fan whose room is not in the selection is out as well.
    pub room: Id,
    /// Its centre on the plan.
    pub at: Point,
    /// Air moved, in cubic feet a minute.
    pub airflow_cfm: u32,
    /// Whether it runs all the time.
    pub runs: FanRun,
}

/// When a fan runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FanRun {
    /// When switched on.
    Intermittent,
    /// All the time.
    Continuous,
}
