//! On what an outcome rests: what else of a home may change without changing it.

use plan_geometry::{Measure, MeasureName};
use plan_model::{Id, Point};

use crate::{Outcome, Verdict};

/// What of a home an outcome rests on; what lies elsewhere cannot change it. Rather too much than too little: whoever
/// proves something of many homes at once leans on this.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RestsOn {
    /// The open spaces in which the subject lies or stands, or to which it leads, with all that stands there.
    Surroundings,
    /// Those, the spaces beyond their doorways with what is undivided from these, what the spaces beyond those are, and what calls
    /// for alarms.
    Neighbours,
    /// These elements and their surroundings: the rooms and doors of a way that leads there, for instance. As long as they stay
    /// as they are, so does the outcome.
    Elements(Vec<Id>),
    /// The floor along a way that somebody walks.
    Way(Vec<Point>),
    /// These elements and their surroundings, where others would do as well; none where nothing does, and all of the home
    /// may matter. The outcome is the home's, whichever the subject is.
    OneOfMany(Option<Vec<Id>>),
    /// Where walls, columns, rooms and doors are, in the whole home.
    Floors,
    /// What reaches out of the modules: porches.
    Overhangs,
    /// Nothing that is not told of by other verdicts of the rule: that none of them falls short.
    Others,
    /// All of the home.
    Home,
}

/// What of that ground an outcome rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// Everything.
    Everything,
    /// Everything but the ceilings.
    BelowCeiling,
    /// What makes rooms and leads to them: walls, columns, rooms, the lines between them, doors and windows.
    Shell,
    /// That the elements themselves are there, wherever.
    Presence,
}

impl Verdict {
    /// The same verdict, resting on no more than this of its ground.
    pub(crate) fn of_the(mut self, what: What) -> Self {
        self.what = what;
        self
    }

    /// The same verdict, resting on something else than the surroundings of its subject.
    pub(crate) fn resting_on(mut self, rests_on: RestsOn) -> Self {
        self.rests_on = rests_on;
        self
    }

    /// The same verdict, which holds as long as there is what meets the rule now: something else is needed only where it
    /// is not met, and then anything in the home may matter.
    pub(crate) fn held_by(self, witness: RestsOn) -> Self {
        let rests_on = match witness {
            witness if self.outcome == Outcome::Met => witness,
            RestsOn::OneOfMany(_) => RestsOn::OneOfMany(None),
            _ => RestsOn::Home,
        };
        self.resting_on(rests_on)
    }

    /// Whether the outcome is that of the home, whatever its subject is.
    #[must_use]
    pub fn is_of_home(&self) -> bool {
        self.subject.is_none() || matches!(self.rests_on, RestsOn::OneOfMany(_))
    }
}

/// What the amount of a measure of the list rests on.
pub(crate) fn of_measure(measure: &Measure) -> RestsOn {
    match measure.name {
        MeasureName::WayInWidth => RestsOn::Elements(measure.of.clone()),
        MeasureName::ExitSeparation => RestsOn::OneOfMany(Some(measure.of.clone())),
        MeasureName::MateLineClearSpan => RestsOn::Floors,
        MeasureName::ModuleShippingWidth | MeasureName::ModuleShippingLength => RestsOn::Overhangs,
        _ => RestsOn::Surroundings,
    }
}

/// What of that it rests on.
pub(crate) const fn what_of_measure(measure: &Measure) -> What {
    match measure.name {
        MeasureName::LowestCeiling
        | MeasureName::FloorAtSevenFeet
        | MeasureName::FloorAtFiveFeet
        | MeasureName::QualifyingArea
        | MeasureName::LeastDimension
        | MeasureName::DoorClearHeight
        | MeasureName::WindowClearHeight
        | MeasureName::WindowClearArea
        | MeasureName::Sill
        | MeasureName::CommonWallArea => What::Everything,
        _ => What::BelowCeiling,
    }
}
