//! Rules that compare figures of the list of measures with one limit.

use std::sync::Arc;

use plan_geometry::{Amount, Basis, Figure, Mark, Measure, MeasureName, Measured};
use plan_model::Exact;
use plan_model::elements::{FixtureKind, RoomUse};

use super::opening_figure::ESTIMATED;
use super::subject::Named;
use crate::book::Entry;
use crate::rests_on::{of_measure, what_of_measure};
use crate::rule::{Case, Check, Figures, Subject, exact, middle, within_slack};
use crate::{Outcome, Place, Quantity, RestsOn, Verdict, show};

/// Which figures a rule compares, and with which limit.
#[derive(Debug)]
pub(super) struct Listed {
    /// Which measures, and each in words: "free depth in front".
    pub(super) measures: &'static [(MeasureName, &'static str)],
    /// The limit's name in books.
    pub(super) limit: &'static str,
    /// Whether it is the least or the most.
    pub(super) quantity: Quantity,
    /// Whether a figure is one of those that the rule is about.
    pub(super) covers: fn(&Case<'_>, &Measure) -> bool,
    /// A limit that may stand in the book and holds instead in some cases.
    pub(super) instead: Option<Instead>,
    /// What the home must hold for the rule to be about anything.
    pub(super) about: About,
    /// In a sentence, what it means that nothing is measured where it does; none where everything of it is measured.
    pub(super) unmeasured: Option<&'static str>,
}

/// What a rule is about.
#[derive(Debug)]
pub(super) enum About {
    /// Fixtures of these kinds, and what they are called.
    Fixtures(&'static [FixtureKind], &'static str),
    /// Rooms of the uses that the book names.
    Rooms,
    /// Something else: whether the home has any, and what it is called.
    Other(fn(&Case<'_>) -> bool, &'static str),
}

impl About {
    /// In a sentence, that the home has nothing of it; none where it has.
    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        let (is_there, name) = match self {
            Self::Rooms => return case.without_rooms(&case.rule.rooms),
            Self::Fixtures(kinds, name) => (case.has_fixture(kinds), name),
            Self::Other(is_there, name) => (is_there(case), name),
        };
        (!is_there).then(|| format!("The home has no {name}."))
    }
}

/// Another limit for some of the figures.
#[derive(Debug)]
pub(super) struct Instead {
    /// Its name in books.
    pub(super) limit: &'static str,
    /// Where it holds.
    pub(super) holds: fn(&Case<'_>, &Measure) -> bool,
    /// What is told with it.
    pub(super) note: &'static str,
}

/// For rules that are about every figure of their measures.
pub(super) fn all(_: &Case<'_>, _: &Measure) -> bool {
    true
}

/// For rules that are about fixtures of some kinds.
pub(super) fn is_of_fixture(case: &Case<'_>, measure: &Measure, kinds: &[FixtureKind]) -> bool {
    let mut fixtures = case.home.elements.fixtures.iter().filter(|fixture| kinds.contains(&fixture.kind));
    fixtures.any(|fixture| measure.of.first() == Some(&fixture.id))
}

/// Whether the home has a door between two things, for rules that are about doors.
pub(super) fn has_doors(case: &Case<'_>) -> bool {
    !case.derived.doors.is_empty()
}

#[derive(Debug)]
struct Limited {
    listed: &'static Listed,
    required: Exact,
    /// The limit that holds instead in some cases, if the book has it.
    instead: Option<(&'static Instead, Exact)>,
    /// The uses of the rooms in which it holds; none where it holds in all.
    rooms: Option<Vec<RoomUse>>,
}

/// A rule that holds wherever there is something to measure.
pub(super) fn everywhere(entry: &Entry<'_>, listed: &'static Listed) -> Arc<dyn Check> {
    Arc::new(Limited { required: limit(entry, listed), instead: instead(entry, listed), listed, rooms: None })
}

/// A rule that holds in rooms of some uses.
pub(super) fn in_rooms(entry: &Entry<'_>, listed: &'static Listed) -> Arc<dyn Check> {
    let rooms = Some(entry.rooms());
    Arc::new(Limited { required: limit(entry, listed), instead: instead(entry, listed), listed, rooms })
}

fn limit(entry: &Entry<'_>, listed: &'static Listed) -> Exact {
    match listed.quantity {
        Quantity::LengthAtLeast | Quantity::LengthAtMost => entry.length(listed.limit),
        Quantity::AreaAtLeast => entry.area(listed.limit),
        Quantity::CountAtLeast => entry.count(listed.limit),
        Quantity::Possible => Exact::from(1),
    }
}

fn instead(entry: &Entry<'_>, listed: &'static Listed) -> Option<(&'static Instead, Exact)> {
    let instead = listed.instead.as_ref()?;
    Some((instead, entry.optional_length(instead.limit)?))
}

impl Check for Limited {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        self.covered(case).map(|(measure, what)| self.judge(case, measure, what)).collect()
    }

    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        let unmeasured = || {
            let is_none = case.every_room_closes() && self.covered(case).next().is_none();
            self.listed.unmeasured.filter(|_| is_none).map(str::to_owned)
        };
        self.listed.about.nothing(case).or_else(unmeasured)
    }

    fn measures(&self) -> Vec<MeasureName> {
        self.listed.measures.iter().map(|(name, _)| *name).collect()
    }
}

impl Limited {
    fn covered<'a>(&'a self, case: &'a Case<'_>) -> impl Iterator<Item = (&'a Measure, &'static str)> {
        let what = |measure: &Measure| self.listed.measures.iter().find(|(name, _)| *name == measure.name);
        let named = case.measures().iter().filter_map(move |measure| Some((measure, what(measure)?.1)));
        named.filter(|(measure, _)| (self.listed.covers)(case, measure) && self.is_in_covered_room(case, measure))
    }

    fn is_in_covered_room(&self, case: &Case<'_>, measure: &Measure) -> bool {
        let Some(rooms) = &self.rooms else { return true };
        let Some(room) = measure.of.first().and_then(|of| case.named(of)).and_then(|named| named.room) else {
            return false;
        };
        case.room(&room).is_some_and(|room| rooms.contains(&room.usage))
    }

    fn judge(&self, case: &Case<'_>, measure: &Measure, what: &str) -> Verdict {
        let instead = self.instead.filter(|(instead, _)| (instead.holds)(case, measure));
        let required = instead.map_or(self.required, |(_, limit)| limit);
        let Named { name, at, .. } = case.named_or_home(measure.of.first());
        let place = place(measure).unwrap_or_else(|| Place::point(at));
        let subject = Subject { id: measure.of.first().cloned(), name: name.clone(), place };
        let mut notes: Vec<String> = instead.map(|(instead, _)| instead.note.to_owned()).into_iter().collect();
        let quantity = self.listed.quantity;
        let amount = amount(&measure.amount, quantity, required, &mut notes);
        let limit = match quantity {
            Quantity::LengthAtLeast => format!("{} is asked for", show::length(required, case.units())),
            Quantity::LengthAtMost => format!("at most {} is allowed", show::length(required, case.units())),
            Quantity::AreaAtLeast => format!("{} is asked for", show::area(required, case.units())),
            Quantity::CountAtLeast => format!("{} is asked for", required.to_integer()),
            Quantity::Possible => "one is asked for".to_owned(),
        };
        let message = match &amount {
            Ok(_) if quantity == Quantity::Possible => return self.possible(case, subject, amount.ok(), what),
            Ok(measured) => {
                let shown = match quantity {
                    Quantity::AreaAtLeast => case.area(*measured, required),
                    Quantity::CountAtLeast => measured.to_integer().to_string(),
                    _ => case.length(*measured, required),
                };
                format!("The {what} of {name} is {shown}; {limit}.")
            }
            Err(why) => format!("The {what} of {name} is not known: {why}; {limit}."),
        };
        let figures = Figures { quantity, measured: amount.ok(), required };
        let verdict = case
            .compare(subject, figures, message, notes)
            .entering(|| enter(case, measure))
            .of_the(what_of_measure(measure));
        match of_measure(measure) {
            RestsOn::Surroundings => verdict,
            witness @ (RestsOn::Elements(_) | RestsOn::OneOfMany(_)) => verdict.held_by(witness),
            rests_on => verdict.resting_on(rests_on),
        }
    }

    fn possible(&self, case: &Case<'_>, subject: Subject, measured: Option<Exact>, what: &str) -> Verdict {
        let required = Exact::from(1);
        let has_place = measured == Some(required);
        let message = if has_place {
            format!("There is a place for {what} in {}.", subject.name)
        } else {
            format!("There is no place for {what} in {}.", subject.name)
        };
        case.compare(subject, Figures { quantity: self.listed.quantity, measured, required }, message, Vec::new())
    }
}

/// What must be entered for a measure to be known.
fn enter(case: &Case<'_>, measure: &Measure) -> String {
    let of = measure.of.first();
    match measure.name {
        MeasureName::ShowerEntry | MeasureName::ShowerFront => {
            format!("the entry of shower \"{}\"", of.map(ToString::to_string).unwrap_or_default())
        }
        MeasureName::DoorClearWidth => of.map(|door| case.enter_clear(door)).unwrap_or_default(),
        // Of the doors on its way whichever is not known.
        MeasureName::WayInWidth => {
            let mut doors = case.derived.doors.iter();
            match doors.find(|door| measure.of.contains(&door.id) && door.clear_width.value().is_none()) {
                Some(door) => case.enter_clear(&door.id),
                None => "an exterior door".to_owned(),
            }
        }
        _ => of.map(|id| case.named_or_home(Some(id)).name).unwrap_or_default(),
    }
}

/// The figure, in the measure of its limit; or why it is not known.
fn amount(amount: &Amount, quantity: Quantity, required: Exact, notes: &mut Vec<String>) -> Result<Exact, String> {
    let of_figure = |figure: &Figure, notes: &mut Vec<String>| match figure {
        Figure::Known { value, basis } => {
            if *basis == Basis::Estimated {
                notes.push(ESTIMATED.to_owned());
            }
            Ok(*value)
        }
        Figure::Unknown(why) => Err(why.clone()),
    };
    match amount {
        Amount::Length(length) => Ok(within(*length, quantity, required)),
        Amount::Area(area) => Ok(area.exact()),
        Amount::OpeningLength(figure) | Amount::OpeningArea(figure) => of_figure(figure, notes),
        Amount::Count(count) => Ok(Exact::from(*count as i128)),
        Amount::TenthsOfDegree(tenths) => Ok(Exact::from(i128::from(*tenths))),
        Amount::Possible(is_possible) => Ok(Exact::from(i128::from(*is_possible))),
        Amount::Unknown(why) => Err(why.clone()),
    }
}

/// A length that is off its limit by no more than it may be off the true one lies on the limit.
fn within(length: Measured, quantity: Quantity, required: Exact) -> Exact {
    let (value, slack) = (exact(length.value), exact(length.slack));
    if quantity == Quantity::LengthAtMost {
        -within_slack(-value, -required, slack)
    } else {
        within_slack(value, required, slack)
    }
}

/// Where a measure is seen.
pub(super) fn place(measure: &Measure) -> Option<Place> {
    match measure.marks.first()? {
        Mark::Span(ends) => Some(Place { at: middle(ends[0], ends[1]), dimension: Some(*ends), outline: Vec::new() }),
        Mark::Ground(corners) => {
            let (low, high) = (corners.iter().min()?, corners.iter().max()?);
            Some(Place { at: middle(*low, *high), dimension: None, outline: corners.clone() })
        }
        Mark::Disc { centre, .. } => Some(Place::point(*centre)),
        Mark::Way(path) => path.first().map(|first| Place::point(*first)),
    }
}

/// That something is not known, because it hangs on rooms that do not close.
pub(super) fn not_known(case: &Case<'_>, subject: Subject, whether: &str) -> Verdict {
    let walls = case.enter_walls().unwrap_or_default();
    let message = format!("Whether {whether} is not known: there are no {walls}.");
    let figures = Figures { quantity: Quantity::Possible, measured: None, required: Exact::from(1) };
    case.compare(subject, figures, message, Vec::new()).entering(|| walls).resting_on(RestsOn::Home)
}

/// A verdict on something that has no figure.
pub(super) fn told(case: &Case<'_>, subject: Subject, is_so: bool, message: String) -> Verdict {
    let measured = Some(Exact::from(i128::from(is_so)));
    let figures = Figures { quantity: Quantity::Possible, measured, required: Exact::from(1) };
    case.verdict(if is_so { Outcome::Met } else { Outcome::Correction }, subject, figures, message, Vec::new())
}
