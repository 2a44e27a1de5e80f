//! What a rule is: a static record, and the check that it becomes once a book has given its limits.

use std::fmt;
use std::sync::Arc;

use plan_geometry::{Derived, Measure, MeasureName};
use plan_model::elements::Room;
use plan_model::{Exact, Home, Id, Length, Point, Units};

use crate::book::{BookRule, Entry, Level};
use crate::{Outcome, Place, Quantity, RestsOn, Verdict, What, show};

/// A rule of the registry.
#[derive(Clone, Copy, Debug)]
pub struct Rule {
    /// Its id in books, reports and messages.
    pub id: &'static str,
    /// Its name as people say it.
    pub name: &'static str,
    /// What it measures and compares, in a sentence.
    pub measures: &'static str,
    /// Reads its limits from its entry in a book.
    pub(crate) read: fn(&Entry<'_>) -> Arc<dyn Check>,
}

/// A rule with the limits of one book.
pub(crate) trait Check: fmt::Debug + Send + Sync {
    /// Judges every subject of a home, in the order of the plan file.
    fn check(&self, case: &Case<'_>) -> Vec<Verdict>;

    /// Whether the home has anything that the rule is about, closed or not.
    fn applies(&self, case: &Case<'_>) -> bool {
        let covered = &case.rule.rooms;
        covered.is_empty() || case.home.elements.rooms.iter().any(|room| covered.contains(&room.usage))
    }

    /// Which measures of the list it compares, where it compares these and nothing else.
    fn measures(&self) -> Vec<MeasureName> {
        Vec::new()
    }
}

/// A home on its way through one rule.
pub(crate) struct Case<'a> {
    pub(crate) home: &'a Home<'a>,
    pub(crate) derived: &'a Derived,
    pub(crate) rule: &'a BookRule,
}

/// What is judged, and where it is.
#[derive(Clone, Debug)]
pub(crate) struct Subject {
    pub(crate) id: Option<Id>,
    pub(crate) name: String,
    pub(crate) place: Place,
}

/// The figure of a subject and what is asked of it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Figures {
    pub(crate) quantity: Quantity,
    pub(crate) measured: Option<Exact>,
    pub(crate) required: Exact,
}

impl Figures {
    /// Whether the figure is held by the plan and keeps to the limit.
    pub(crate) fn outcome(&self) -> Outcome {
        match self.measured {
            None => Outcome::Unknown,
            Some(measured) if self.quantity.is_upper_limit() && measured > self.required => Outcome::Correction,
            Some(measured) if !self.quantity.is_upper_limit() && measured < self.required => Outcome::Correction,
            Some(_) => Outcome::Met,
        }
    }
}

impl Case<'_> {
    /// Every measure of the home.
    pub(crate) fn measures(&self) -> &[Measure] {
        self.derived.measures()
    }

    /// The verdict on a figure by its limit.
    pub(crate) fn compare(&self, subject: Subject, figures: Figures, message: String, notes: Vec<String>) -> Verdict {
        self.verdict(figures.outcome(), subject, figures, message, notes)
    }

    /// A verdict; the level of the rule decides what a shortfall is called.
    pub(crate) fn verdict(
        &self,
        outcome: Outcome,
        subject: Subject,
        figures: Figures,
        message: String,
        mut notes: Vec<String>,
    ) -> Verdict {
        let outcome = match (self.rule.level, outcome) {
            // A recommendation never fails a plan, nor does it hold one up.
            (Level::Advisory, Outcome::Correction | Outcome::Unknown) => Outcome::Advisory,
            _ => outcome,
        };
        notes.extend(self.rule.amended.iter().map(|change| format!("amended: {change}")));
        notes.extend(self.rule.confidence_note());
        Verdict {
            rule: self.rule.rule.id,
            section: self.rule.section.clone(),
            outcome,
            subject: subject.id,
            subject_name: subject.name,
            quantity: figures.quantity,
            measured: figures.measured,
            required: Some(figures.required),
            message,
            notes,
            place: subject.place,
            answered_by: self.rule.answered_by,
            rests_on: RestsOn::Surroundings,
            what: What::Everything,
        }
    }

    /// A room as drawn.
    pub(crate) fn room(&self, id: &Id) -> Option<&Room> {
        self.home.elements.rooms.iter().find(|room| room.id == *id)
    }

    /// The plan's unit, in which messages speak.
    pub(crate) fn units(&self) -> Units {
        self.home.plan.units
    }

    /// A length for people, never rounded across the limit.
    pub(crate) fn length(&self, value: Exact, limit: Exact) -> String {
        show::length_beside(value, limit, self.units())
    }

    /// An area for people, never rounded across the limit.
    pub(crate) fn area(&self, value: Exact, limit: Exact) -> String {
        show::area_beside(value, limit, self.units())
    }
}

impl Place {
    /// A point and nothing more.
    pub(crate) const fn point(at: Point) -> Self {
        Self { at, dimension: None, outline: Vec::new() }
    }

    /// The middle of an opening.
    pub(crate) fn opening(outline: &[Point; 4], dimension: Option<[Point; 2]>) -> Self {
        Self { at: middle(outline[0], outline[2]), dimension, outline: outline.to_vec() }
    }
}

/// Half-way between two points.
pub(crate) fn middle(a: Point, b: Point) -> Point {
    let half = |a: Length, b: Length| Length::from_steps((a + b).steps() / 2);
    Point::new(half(a.x, b.x), half(a.y, b.y))
}

/// A grid length as an exact figure.
pub(crate) fn exact(length: Length) -> Exact {
    Exact::from(i128::from(length.steps()))
}

/// The figure, or the limit where the figure is below it by no more than what the figure may be off by.
pub(crate) fn within_slack(measured: Exact, required: Exact, slack: Exact) -> Exact {
    if measured < required && measured + slack >= required { required } else { measured }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_within_its_slack_is_on_the_limit() {
        let steps = |steps: i128| Exact::from(steps);
        assert_eq!(within_slack(steps(98), steps(100), steps(2)), steps(100));
        assert_eq!(within_slack(steps(97), steps(100), steps(2)), steps(97));
        assert_eq!(within_slack(steps(99), steps(100), steps(0)), steps(99));
        assert_eq!(within_slack(steps(101), steps(100), steps(2)), steps(101));
    }
}
