use std::sync::Arc;

use plan_model::{Home, Mirror, Plan, Selection};

/// What a person is working on: a plan, and the selection of it that is drawn.
///
/// Cheap to clone: copies share the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// The plan, with all its choices.
    pub plan: Arc<Plan>,
    /// One alternate for every choice of the plan.
    pub selection: Selection,
}

impl Document {
    /// A plan with every included alternate, as it is opened.
    #[must_use]
    pub fn new(plan: Plan) -> Self {
        let selection = Selection::included(&plan);
        Self { plan: Arc::new(plan), selection }
    }

    /// The home that is drawn, measured and judged.
    #[must_use]
    pub fn home(&self) -> Home<'_> {
        self.plan.home(&self.selection)
    }

    /// What the home that is drawn is mirrored by, if it is reversed.
    #[must_use]
    pub fn mirror(&self) -> Option<Mirror> {
        self.selection.is_reversed().then(|| Mirror::of(&self.plan))
    }

    /// Whether both are the same state: the very same plan (not a copy of it) and the same selection.
    #[must_use]
    pub fn is_same(&self, other: &Self) -> bool {
        self.has_same_plan(other) && self.selection == other.selection
    }

    /// Whether both share the very same plan, whatever is selected.
    #[must_use]
    pub(crate) fn has_same_plan(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.plan, &other.plan)
    }
}
