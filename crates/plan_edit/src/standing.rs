use plan_model::elements::Wall;
use plan_model::{Alternate, Elements, Id, Plan};

use crate::Document;

/// What stands in the home that is drawn, without copying it: the base and what the chosen alternates bring, less what
/// they remove. The same elements as those of [`Document::home`].
#[derive(Clone, Debug)]
pub(crate) struct Standing<'doc> {
    base: &'doc Elements,
    /// Found once: looking answers up for every element would cost more than the rest of a move.
    chosen: Vec<&'doc Alternate>,
}

impl<'doc> Standing<'doc> {
    pub(crate) fn in_home(document: &'doc Document) -> Self {
        let chosen = |choice: &'doc plan_model::Choice| choice.alternate(document.selection.alternate(&choice.id)?);
        Self { base: &document.plan.base, chosen: document.plan.choices.iter().filter_map(chosen).collect() }
    }

    pub(crate) fn wall(&self, id: &Id) -> Option<&'doc Wall> {
        self.walls().find(|wall| wall.id == *id)
    }

    pub(crate) fn walls(&self) -> impl Iterator<Item = &'doc Wall> {
        self.lists().flat_map(|elements| &elements.walls).filter(|wall| !self.is_removed(&wall.id))
    }

    /// Whether a chosen alternate removes the element.
    fn is_removed(&self, id: &Id) -> bool {
        self.chosen.iter().any(|alternate| alternate.removes.contains(id))
    }

    fn lists(&self) -> impl Iterator<Item = &'doc Elements> {
        std::iter::once(self.base).chain(self.chosen.iter().map(|alternate| &alternate.brings))
    }
}

/// The lists of a plan whose elements can stand in one home with a wall, to change: the base, and what alternates bring,
/// chosen or not, but for those that remove the wall or are other answers to the choice that brings it.
pub(crate) fn lists_beside_mut<'plan>(plan: &'plan mut Plan, wall: &Id) -> impl Iterator<Item = &'plan mut Elements> {
    let brings = |alternate: &Alternate| alternate.brings.walls.iter().any(|brought| brought.id == *wall);
    let beside = |choice: &'plan mut plan_model::Choice| -> Vec<&'plan mut Elements> {
        let is_brought = choice.alternates.iter().any(brings);
        let stands = |alternate: &Alternate| !alternate.removes.contains(wall) && (!is_brought || brings(alternate));
        let alternates = choice.alternates.iter_mut().filter(|alternate| stands(alternate));
        alternates.map(|alternate| &mut alternate.brings).collect()
    };
    let brought: Vec<&mut Elements> = plan.choices.iter_mut().flat_map(beside).collect();
    std::iter::once(&mut plan.base).chain(brought)
}
