use plan_model::elements::{Room, Wall};
use plan_model::{Alternate, Elements, Id, Plan, Selection};

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

    pub(crate) fn rooms(&self) -> impl Iterator<Item = &'doc Room> {
        self.lists().flat_map(|elements| &elements.rooms).filter(|room| !self.is_removed(&room.id))
    }

    /// Whether a chosen alternate removes the element.
    pub(crate) fn is_removed(&self, id: &Id) -> bool {
        self.chosen.iter().any(|alternate| alternate.removes.contains(id))
    }

    fn lists(&self) -> impl Iterator<Item = &'doc Elements> {
        std::iter::once(self.base).chain(self.chosen.iter().map(|alternate| &alternate.brings))
    }
}

/// The lists of a plan whose elements stand in the selected home unless they are removed, to change.
pub(crate) fn lists_mut<'plan>(
    plan: &'plan mut Plan,
    selection: &Selection,
) -> impl Iterator<Item = &'plan mut Elements> {
    let brought = |choice: &'plan mut plan_model::Choice| {
        let chosen = selection.alternate(&choice.id)?;
        choice.alternates.iter_mut().find(|alternate| alternate.id == *chosen).map(|alternate| &mut alternate.brings)
    };
    std::iter::once(&mut plan.base).chain(plan.choices.iter_mut().filter_map(brought))
}
