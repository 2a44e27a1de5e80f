use plan_model::elements::{Room, Wall};
use plan_model::{Elements, Id, Plan, Selection};

use crate::Document;

/// What stands in the home that is drawn, without copying it: the base and what the chosen alternates bring, less what
/// they remove. The same elements as those of [`Document::home`].
#[derive(Clone, Copy, Debug)]
pub(crate) struct Standing<'doc> {
    plan: &'doc Plan,
    selection: &'doc Selection,
}

impl<'doc> Standing<'doc> {
    pub(crate) fn in_home(document: &'doc Document) -> Self {
        Self { plan: &document.plan, selection: &document.selection }
    }

    pub(crate) fn walls(self) -> impl Iterator<Item = &'doc Wall> {
        self.lists().flat_map(|elements| &elements.walls).filter(move |wall| !self.is_removed(&wall.id))
    }

    pub(crate) fn rooms(self) -> impl Iterator<Item = &'doc Room> {
        self.lists().flat_map(|elements| &elements.rooms).filter(move |room| !self.is_removed(&room.id))
    }

    /// Whether a chosen alternate removes the element.
    pub(crate) fn is_removed(self, id: &Id) -> bool {
        let chosen = |choice: &'doc plan_model::Choice| choice.alternate(self.selection.alternate(&choice.id)?);
        self.plan.choices.iter().filter_map(chosen).any(|alternate| alternate.removes.contains(id))
    }

    fn lists(self) -> impl Iterator<Item = &'doc Elements> {
        let brought = move |choice: &'doc plan_model::Choice| {
            Some(&choice.alternate(self.selection.alternate(&choice.id)?)?.brings)
        };
        std::iter::once(&self.plan.base).chain(self.plan.choices.iter().filter_map(brought))
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
