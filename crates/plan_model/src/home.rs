use std::borrow::Cow;
use std::collections::BTreeSet;

use crate::{Elements, Id, Plan, Selection};

/// One home that can be built: the base of a plan with the chosen alternates laid over it.
#[derive(Clone, Debug, PartialEq)]
pub struct Home<'plan> {
    /// The plan it comes from: modules, catalogue and facts of the home; the reversed plan, where the home is reversed.
    pub plan: Cow<'plan, Plan>,
    /// All elements that stand in it.
    pub elements: Elements,
}

impl Plan {
    /// Lays the chosen alternates over the base: first everything that they remove goes (from the base and from each
    /// other), then what is left of what they bring is added in the order of the file. A reversed selection gives the reversed home.
    #[must_use]
    pub fn home(&self, selection: &Selection) -> Home<'_> {
        let chosen = || self.choices.iter().filter_map(|choice| choice.alternate(selection.alternate(&choice.id)?));
        let removed: BTreeSet<&Id> = chosen().flat_map(|alternate| &alternate.removes).collect();
        let mut elements = self.base.clone();
        for alternate in chosen() {
            elements.append_clones(&alternate.brings);
        }
        elements.retain_others(&removed);
        elements.fans.retain(|fan| elements.rooms.iter().any(|room| room.id == fan.room));
        let home = Home { plan: Cow::Borrowed(self), elements };
        if selection.is_reversed() { home.reversed() } else { home }
    }
}
