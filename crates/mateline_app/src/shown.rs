//! A document with everything that follows from it.

use std::sync::OnceLock;

use plan_choices::{Conflict, Refusal};
use plan_edit::Document;
use plan_geometry::{Derived, RoomFigures};
use plan_model::elements::Porch;
use plan_model::{Choice, Exact, Home, Id, Length, Money, Point, Units};
use plan_rules::{Judgement, RuleBook, Verdict, WrongLegalKind, show};

use crate::measured::Measured;
use crate::trial::{Trial, try_alternates};

/// A document with all that follows from it.
pub struct Shown {
    /// The document.
    pub document: Document,
    /// Figures of the home.
    pub derived: Derived,
    /// Verdicts on it, unless the book is for another kind of home.
    pub judgement: Result<Judgement, WrongLegalKind>,
    /// Why the selection cannot be had, as the plan declares.
    pub refusals: Vec<Refusal>,
    /// What cannot stand together in space.
    pub conflicts: Vec<Conflict>,
    /// What keeps figures from being derived: faults of the drawing.
    pub faults: Vec<Fault>,
    /// What the selection costs.
    pub price: Money,
    /// Each room that closed, in the order of the file.
    pub rooms: Vec<RoomSize>,
    /// Porches and decks.
    pub outdoors: Vec<Outdoors>,
    /// No other document shown in this session has the same.
    pub revision: u64,
    /// For each choice, what would come of each of its alternates; worked out when it is first asked for.
    trials: Vec<OnceLock<Vec<Trial>>>,
    /// Every measure; worked out when it is first looked at.
    measured: OnceLock<Measured>,
}

/// A fault of the drawing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// What is told.
    pub sentence: String,
    /// Where.
    pub at: Point,
}

/// The figures of one room as its tag says them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RoomSize {
    /// The room.
    pub id: Id,
    /// Its name.
    pub name: String,
    /// Its clear rectangle as it lies on the drawing, across by up: `9'-8" \u{d7} 9'-2"`.
    pub size: String,
    /// Its floor area.
    pub area: String,
    /// The lowest part of its ceiling; none if the plan says nothing of it.
    pub ceiling: Option<String>,
    /// Numbers of the corrections that concern it.
    pub corrections: Vec<usize>,
}

/// A porch or deck.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outdoors {
    /// The porch.
    pub id: Id,
    /// Its name.
    pub name: String,
    /// Across by up, as it lies on the drawing.
    pub size: String,
    /// Its corners, the opposite ones of a rectangle.
    pub corners: [Point; 2],
}

impl Shown {
    /// `earlier` is what was derived before the last change, of which all that still holds is kept.
    pub(crate) fn new(document: Document, book: &RuleBook, revision: u64, earlier: Option<&Derived>) -> Self {
        let home = document.home();
        let derived = match earlier {
            Some(earlier) => plan_geometry::derive_after(earlier, &home),
            None => plan_geometry::derive(&home),
        };
        let judgement = plan_rules::judge(&home, &derived, book);
        let refusals = plan_choices::refusals(&document.plan, &document.selection);
        let conflicts = plan_choices::conflicts(&home, &derived);
        let faults = faults(&home, &derived);
        let price = plan_choices::price(&document.plan, &document.selection);
        let corrections = judgement.iter().flat_map(Judgement::corrections).collect::<Vec<_>>();
        let rooms = room_sizes(&home, &derived, &corrections);
        let outdoors = home.elements.porches.iter().map(|porch| outdoors(porch, home.plan.units)).collect();
        let trials = document.plan.choices.iter().map(|_| OnceLock::new()).collect();
        drop(home);
        Self {
            document,
            derived,
            judgement,
            refusals,
            conflicts,
            faults,
            price,
            rooms,
            outdoors,
            revision,
            trials,
            measured: OnceLock::new(),
        }
    }

    /// Every measure of the home.
    #[must_use]
    pub fn measured(&self) -> &Measured {
        self.measured.get_or_init(|| Measured::of(&self.document.home(), &self.derived))
    }

    /// The figures of a room, if it closed.
    #[must_use]
    pub fn room(&self, id: &Id) -> Option<&RoomSize> {
        self.rooms.iter().find(|room| room.id == *id)
    }

    /// Required rules that the home falls short of, numbered from 1 in this order on the plan and in the list.
    pub fn corrections(&self) -> impl Iterator<Item = &Verdict> {
        self.judgement.iter().flat_map(Judgement::corrections)
    }

    /// Whether the home can be built as it was chosen and drawn.
    #[must_use]
    pub fn can_be_built(&self) -> bool {
        self.refusals.is_empty() && self.conflicts.is_empty()
    }

    /// Whether a conflict in space concerns the answer to this choice.
    #[must_use]
    pub fn is_in_conflict(&self, choice: &Id) -> bool {
        self.conflicts.iter().flat_map(|conflict| &conflict.alternates).any(|answer| answer.choice == *choice)
    }

    /// What would come of each alternate of a choice, in their order, if it were chosen with all else as it is.
    ///
    /// Each is derived once for this document, when the choice's alternates are first looked at.
    #[must_use]
    pub fn trials(&self, choice: &Choice) -> &[Trial] {
        let index = self.document.plan.choices.iter().position(|candidate| candidate.id == choice.id);
        let Some(trials) = index.and_then(|index| self.trials.get(index)) else { return &[] };
        trials.get_or_init(|| try_alternates(self, choice))
    }

    /// The answers that are not the included ones: `Flex room: Fourth bedroom`; and whether the plan is reversed.
    #[must_use]
    pub fn choices_made(&self) -> Vec<String> {
        let Document { plan, selection } = &self.document;
        let made = |choice: &Choice| {
            let alternate = choice.alternate(selection.alternate(&choice.id)?)?;
            (!alternate.included).then(|| format!("{}: {}", choice.name, alternate.name))
        };
        let reversed = selection.is_reversed().then(|| "Reversed: mirrored left to right".to_owned());
        plan.choices.iter().filter_map(made).chain(reversed).collect()
    }
}

fn faults(home: &Home<'_>, derived: &Derived) -> Vec<Fault> {
    let faults = derived.problems.iter().filter(|problem| !problem.kind.is_conflict());
    faults
        .map(|problem| Fault { sentence: plan_choices::conflict_sentence(home, derived, problem), at: problem.at })
        .collect()
}

fn length(length: Length, units: Units) -> String {
    show::length(Exact::from(i128::from(length.steps())), units)
}

fn room_sizes(home: &Home<'_>, derived: &Derived, corrections: &[&Verdict]) -> Vec<RoomSize> {
    let units = home.plan.units;
    let size = |figures: &RoomFigures| {
        let authored = home.elements.rooms.iter().find(|room| room.id == figures.id)?;
        let [across, up] = figures.sizes.rectangle().across_and_up();
        let numbered = corrections.iter().zip(1..);
        Some(RoomSize {
            id: figures.id.clone(),
            name: authored.name.clone(),
            size: format!("{} \u{d7} {}", length(across, units), length(up, units)),
            area: show::area(figures.floor_area.exact(), units),
            ceiling: figures.ceiling.lowest.map(|lowest| length(lowest, units)),
            corrections: numbered.filter(|(verdict, _)| concerns(verdict, figures)).map(|(_, number)| number).collect(),
        })
    };
    derived.rooms.iter().filter_map(size).collect()
}

fn outdoors(porch: &Porch, units: Units) -> Outdoors {
    let [across, up] = [porch.to.x - porch.from.x, porch.to.y - porch.from.y].map(Length::abs);
    Outdoors {
        id: porch.id.clone(),
        name: porch.name.clone(),
        size: format!("{} \u{d7} {}", length(across, units), length(up, units)),
        corners: [porch.from, porch.to],
    }
}

/// Whether a verdict is about this room: it is judged itself, or the place lies in it.
fn concerns(verdict: &Verdict, room: &RoomFigures) -> bool {
    verdict.subject.as_ref() == Some(&room.id) || room.region.contains(verdict.place.at)
}
