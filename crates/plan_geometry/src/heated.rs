//! Heated area: heated rooms and the walls around them, and the arithmetic that a person can follow with a pencil.
//!
//! Method: ANSI Z765-2021 sections 3 and 4: to the exterior finished face, each level by itself, the total told to the whole
//! square foot, and declared as worked out from a plan. What counts as heated follows from the uses of rooms alone; ceilings
//! that are too low for the standard's finished area are a figure of their own.

mod arithmetic;
mod by_module;
mod ground;

pub use arithmetic::{AreaArithmetic, AreaMethod, AreaPart, TraverseCorner};
pub use by_module::{HeatedArea, HeatedModule};
pub(crate) use by_module::{HeatedGround, ModuleOutline};
pub(crate) use ground::ground;

use crate::{Amount, Derived, Mark, Measure, MeasureName};

impl Derived {
    /// The heated area with its arithmetic, of the whole home and of each module; worked out when it is first asked for.
    /// None where [`Derived::heated_area`] is unknown.
    #[must_use]
    pub fn heated(&self) -> Option<&HeatedArea> {
        self.heated_ground.as_ref().map(|ground| ground.get())
    }
}

/// Heated area of the home, of each module and of what lies outside of them, each with the parts that sum up to it.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let Some(heated) = derived.heated() else {
        let why = "not every space is a room that closes".to_owned();
        let amount = Amount::Unknown(why);
        return vec![Measure { name: MeasureName::HeatedArea, part: None, of: Vec::new(), amount, marks: Vec::new() }];
    };
    let tell = |name, of, sum: &AreaArithmetic| Measure {
        name,
        part: None,
        of,
        amount: Amount::Area(sum.area),
        marks: sum.parts.iter().map(|part| Mark::Ground(part.region.outer.clone())).collect(),
    };
    let mut measures = vec![tell(MeasureName::HeatedArea, Vec::new(), &heated.whole)];
    for module in &heated.modules {
        measures.push(tell(MeasureName::HeatedAreaOfModule, vec![module.id.clone()], &module.sum));
    }
    if !heated.modules.is_empty() && !heated.outside.parts.is_empty() {
        measures.push(tell(MeasureName::HeatedAreaOutsideModules, Vec::new(), &heated.outside));
    }
    measures
}
