use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Catalogue, Choice, Count, Elements, Id, Length, Money, Point, PriceBook, Units};

/// A plan file, version 1: one base home with all its choices.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// Version of the file format.
    #[schemars(extend("const" = 1))]
    pub mateline_plan: u32,
    /// Name of the plan.
    pub name: String,
    /// Who builds it.
    pub maker: String,
    /// The unit of bare numbers in this file.
    pub units: Units,
    /// The currency of every price, as an ISO 4217 code.
    #[schemars(regex(pattern = "^[A-Z]{3}$"))]
    pub currency: String,
    /// Price of the home with every included alternate.
    pub base_price: Money,
    /// What is added to base and options.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub prices: Option<PriceBook>,
    /// Facts of the whole home.
    pub home: HomeFacts,
    /// The factory-built halves.
    pub modules: Vec<Module>,
    /// Where the modules join.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mate_line: Option<MateLine>,
    /// Door and window units.
    #[serde(default)]
    pub catalogue: Catalogue,
    /// What stands in the home whatever is chosen, unless an alternate removes it.
    pub base: Elements,
    /// The questions to the buyer.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub choices: Vec<Choice>,
    /// How many of some alternates can be taken together.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub counts: Vec<Count>,
}

impl Plan {
    /// The version that this program writes.
    pub const VERSION: u32 = 1;

    /// The choice of this name.
    #[must_use]
    pub fn choice(&self, id: &Id) -> Option<&Choice> {
        self.choices.iter().find(|choice| choice.id == *id)
    }

    /// Every list of elements: the base, then what each alternate brings.
    pub fn all_elements(&self) -> impl Iterator<Item = &Elements> {
        let brought = self.choices.iter().flat_map(|choice| &choice.alternates).map(|alternate| &alternate.brings);
        std::iter::once(&self.base).chain(brought)
    }

    /// Every list of elements, to change.
    pub fn all_elements_mut(&mut self) -> impl Iterator<Item = &mut Elements> {
        let brought =
            self.choices.iter_mut().flat_map(|choice| &mut choice.alternates).map(|alternate| &mut alternate.brings);
        std::iter::once(&mut self.base).chain(brought)
    }
}

/// Facts of the whole home that no element carries.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HomeFacts {
    /// Which kind of label the home is sold under; it decides which rule books apply.
    pub legal_kind: LegalKind,
    /// Finished floor above the finished ground around the home.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub floor_above_grade: Option<Length>,
    /// Ventilation of the whole house.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub whole_house_ventilation: Option<Ventilation>,
    /// Compass bearing of "up" on the drawing once the lot is known, in whole degrees clockwise from north.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 359))]
    pub up_bearing: Option<u16>,
    /// Roof overhangs of the modules.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub eaves: Vec<Eave>,
}

/// The label under which a home is sold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LegalKind {
    /// Built to the state's adopted residential code.
    StateLabel,
    /// Built to the federal manufactured-home standard, 24 CFR 3280.
    FederalLabel,
}

/// Ventilation of the whole house.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Ventilation {
    /// How the air is moved.
    pub kind: VentilationKind,
    /// Air moved, in cubic feet a minute.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub airflow_cfm: Option<u32>,
}

/// How whole-house ventilation moves the air.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum VentilationKind {
    /// No mechanical ventilation.
    None,
    /// A fan that takes air out.
    Exhaust,
    /// A fan that brings air in.
    Supply,
    /// Both, in balance.
    Balanced,
}

/// A roof overhang along one side of a module.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Eave {
    /// The module.
    pub module: Id,
    /// The side of it.
    pub side: Side,
    /// How far it stands out.
    pub depth: Length,
    /// Whether it is in place on the road.
    pub in_transit: bool,
}

/// A side of the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// Bottom of the drawing.
    Front,
    /// Top of the drawing.
    Back,
    /// Left end.
    Left,
    /// Right end.
    Right,
}

/// A factory-built half, as its outline.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Module {
    /// Name in files.
    pub id: Id,
    /// Name on the drawing.
    pub name: String,
    /// One corner.
    pub from: Point,
    /// The opposite corner.
    pub to: Point,
}

/// Where the modules join.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MateLine {
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
}
