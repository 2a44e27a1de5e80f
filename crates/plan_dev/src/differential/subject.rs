//! What is compared, and with which program.

use plan_model::Plan;
use plan_testkit::RandomPlan;

use super::described::Described;

/// What is compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, clap::ValueEnum)]
pub(crate) enum Subject {
    /// Rooms, areas and clear sizes, with shapely
    Rooms,
    /// Walking distances, with networkx over what shapely makes of the floors
    Ways,
}

impl Subject {
    pub(super) const ALL: [Self; 2] = [Self::Rooms, Self::Ways];

    /// The word for it on the command line and in the names of folders.
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::Rooms => "rooms",
            Self::Ways => "ways",
        }
    }

    /// What the verdicts count.
    pub(super) const fn counted(self) -> &'static str {
        match self {
            Self::Rooms => "rooms",
            Self::Ways => "ways between doors and out of rooms",
        }
    }

    /// The other program, as a file of this crate.
    pub(super) const fn script(self) -> &'static str {
        match self {
            Self::Rooms => "python/differential.py",
            Self::Ways => "python/walking.py",
        }
    }

    /// How many plans are compared if nothing else is asked for: what takes well under a minute on two cores.
    pub(super) const fn plans(self) -> u64 {
        match self {
            Self::Rooms => 2000,
            Self::Ways => 1000,
        }
    }

    pub(super) fn random_plan(self, seed: u64, index: u64) -> RandomPlan {
        match self {
            Self::Rooms => RandomPlan::numbered(seed, index),
            Self::Ways => RandomPlan::furnished(seed, index),
        }
    }

    pub(super) fn describe(self, plan: &Plan) -> Described {
        match self {
            Self::Rooms => Described::with_rooms(plan),
            Self::Ways => Described::with_ways(plan),
        }
    }
}
