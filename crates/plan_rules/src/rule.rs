//! What a rule is: a static record, and the check that it becomes once a book has given its limits.

use std::fmt;
use std::sync::Arc;

use plan_geometry::{Derived, Measure, MeasureName};
use plan_model::elements::{Room, RoomUse};
use plan_model::{Exact, Home, Id, Length, Point, Units};

use crate::book::{BookRule, Entry, Level};
use crate::{Exception, Outcome, Place, Quantity, RestsOn, Verdict, What, show};

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

    /// In a sentence, that the home has nothing that the rule is about; none where it has, or where rooms that do not close
    /// keep that from being known.
    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        case.without_rooms(&case.rule.rooms)
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
            enter: None,
            exception: None,
        }
    }

    /// That the rule does not apply to a subject, in a sentence; by an exception, where there is one.
    pub(crate) fn does_not_apply(&self, subject: Subject, message: String, exception: Option<Exception>) -> Verdict {
        // Of the whole home it says that no other verdict of the rule does.
        let rests_on = if subject.id.is_none() { RestsOn::Others } else { RestsOn::Surroundings };
        Verdict {
            rule: self.rule.rule.id,
            section: self.rule.section.clone(),
            outcome: Outcome::DoesNotApply,
            subject: subject.id,
            subject_name: subject.name,
            // There are no figures.
            quantity: Quantity::Possible,
            measured: None,
            required: None,
            message,
            notes: self.rule.section_note().into_iter().collect(),
            place: subject.place,
            answered_by: self.rule.answered_by,
            rests_on,
            what: What::Everything,
            enter: None,
            exception,
        }
    }

    /// The home as a subject.
    pub(crate) fn whole_home(&self) -> Subject {
        Subject { id: None, name: "the home".to_owned(), place: Place::point(self.first_room()) }
    }

    /// A room as a subject, by its point.
    pub(crate) fn of_room(room: &Room) -> Subject {
        Subject { id: Some(room.id.clone()), name: room.name.clone(), place: Place::point(room.at) }
    }

    /// Whether every room that is drawn has a floor, so that whatever is not measured is not there.
    pub(crate) fn every_room_closes(&self) -> bool {
        self.derived.rooms.len() == self.home.elements.rooms.len()
    }

    /// Of two sentences the one that holds of a home without anything to judge: that nothing of it is drawn, or that what
    /// is drawn is not as the rule asks, which is known where every room closes.
    pub(crate) fn without(&self, is_drawn: bool, nothing_drawn: &str, none_such: &str) -> Option<String> {
        match (is_drawn, self.every_room_closes()) {
            (false, _) => Some(nothing_drawn.to_owned()),
            (true, true) => Some(none_such.to_owned()),
            (true, false) => None,
        }
    }

    /// In a sentence, that no room of these uses is drawn; none where one is, or where no use is named.
    pub(crate) fn without_rooms(&self, uses: &[RoomUse]) -> Option<String> {
        let is_drawn = self.home.elements.rooms.iter().any(|room| uses.contains(&room.usage));
        match uses {
            _ if is_drawn => None,
            [] => None,
            [usage] => Some(format!("The home has no {}.", room_word(*usage))),
            several => {
                let words: Vec<&str> = several.iter().map(|usage| usage.word()).collect();
                Some(format!("The home has no room of these uses: {}.", words.join(", ")))
            }
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

/// A room of this use as people call it.
const fn room_word(usage: RoomUse) -> &'static str {
    match usage {
        RoomUse::Living => "living room",
        RoomUse::Dining => "dining room",
        RoomUse::Toilet => "toilet room",
        RoomUse::Hall => "hallway",
        other => other.word(),
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
