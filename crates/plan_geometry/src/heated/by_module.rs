//! Heated area of each module.

use plan_model::{Id, Point};

use super::arithmetic::AreaArithmetic;
use crate::asked::Question;
use crate::kernel::divide;
use crate::{Area, Region};

/// Heated area of the home and of each module, with the arithmetic of each.
///
/// `whole.area` is the sum of the modules' areas, of `outside.area` and of `rounding`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HeatedArea {
    /// The whole home.
    pub whole: AreaArithmetic,
    /// What of it lies in each module's outline, in the order of the file. Ground in two outlines is the first one's.
    pub modules: Vec<HeatedModule>,
    /// What lies in no module.
    pub outside: AreaArithmetic,
    /// What it takes or adds that corners cut from slanted sides by a module's outline are rounded to the grid; zero where all
    /// sides that are cut are square to the axes.
    pub rounding: Area,
}

/// Heated area of one module.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HeatedModule {
    /// The module.
    pub id: Id,
    /// Its arithmetic.
    pub sum: AreaArithmetic,
}

/// A module, as far as its place is concerned.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct ModuleOutline {
    pub(crate) id: Id,
    /// Corners, counter-clockwise from the lowest left.
    pub(crate) corners: [Point; 4],
}

/// The heated ground of a home and the modules that cut it.
#[derive(Debug, PartialEq)]
pub(crate) struct HeatedGround {
    pub(crate) regions: Vec<Region>,
    pub(crate) modules: Vec<ModuleOutline>,
}

impl HeatedGround {
    /// Its area.
    pub(crate) fn area(&self) -> Area {
        self.regions.iter().map(Region::area).sum()
    }
}

impl Question for HeatedGround {
    type Answer = HeatedArea;

    fn answer(&self) -> HeatedArea {
        let whole = AreaArithmetic::of(&self.regions);
        let mut rest = self.regions.clone();
        let mut modules = Vec::with_capacity(self.modules.len());
        for module in &self.modules {
            let [inside, outside] = divide(&rest, &module.corners);
            modules.push(HeatedModule { id: module.id.clone(), sum: AreaArithmetic::of(&inside) });
            rest = outside;
        }
        let outside = AreaArithmetic::of(&rest);
        let told: Area = modules.iter().map(|module| module.sum.area).sum();
        let rounding = whole.area - told - outside.area;
        HeatedArea { whole, modules, outside, rounding }
    }
}
