use std::fmt;

use plan_model::{AlternateRef, Id, Money};

/// One thing that is not as it was when a selection was kept.
#[derive(Clone, Debug, PartialEq)]
pub enum Finding {
    /// The plan has another name.
    PlanName {
        /// Then.
        was: String,
        /// Now.
        now: String,
    },
    /// Prices are in another currency.
    Currency {
        /// Then.
        was: String,
        /// Now.
        now: String,
    },
    /// The base price.
    BasePrice {
        /// Then.
        was: Money,
        /// Now.
        now: Money,
    },
    /// A part of the plan that holds for every home of it.
    Part(PlanPart),
    /// The plan no longer asks this.
    ChoiceGone {
        /// What was chosen.
        name: String,
        /// The choice.
        choice: Id,
        /// The nearest choice of the plan that the selection does not answer already.
        nearest: Option<String>,
    },
    /// The choice no longer has this answer.
    AlternateGone {
        /// What was chosen.
        name: String,
        /// The same as ids.
        answer: AlternateRef,
        /// The nearest alternate of the choice.
        nearest: Option<String>,
        /// What stands in its place: the included one.
        instead: String,
    },
    /// A choice that the selection does not answer.
    NewChoice {
        /// The choice.
        choice: Id,
        /// What it is answered with: the included one.
        name: String,
    },
    /// The choice or the alternate is called otherwise.
    Name {
        /// Then.
        was: String,
        /// Now.
        now: String,
    },
    /// What an alternate adds to the base price.
    Price {
        /// What was chosen.
        name: String,
        /// Then.
        was: Money,
        /// Now.
        now: Money,
    },
    /// What an alternate needs.
    Needs {
        /// What was chosen.
        name: String,
        /// What it needs now and did not.
        added: Vec<AlternateRef>,
        /// What it needed and does not now.
        dropped: Vec<AlternateRef>,
    },
    /// What an alternate excludes.
    Excludes {
        /// What was chosen.
        name: String,
        /// What it excludes now and did not.
        added: Vec<AlternateRef>,
        /// What it excluded and does not now.
        dropped: Vec<AlternateRef>,
    },
    /// What an alternate brings into the home or takes out of it.
    Drawn {
        /// What was chosen.
        name: String,
    },
    /// Something else of the plan, such as alternates that were not chosen.
    OfNoConcern,
}

/// A part of a plan that holds for every home of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlanPart {
    /// What is drawn whatever is chosen.
    Base,
    /// Door and window units.
    Catalogue,
    /// Modules and mate line.
    Modules,
    /// Facts of the whole home.
    Home,
    /// The price book.
    Prices,
}

impl Finding {
    /// Whether what was chosen can still be had as it was chosen, as far as this says.
    #[must_use]
    pub const fn holds(&self) -> bool {
        !matches!(self, Self::ChoiceGone { .. } | Self::AlternateGone { .. } | Self::Currency { .. })
    }

    /// A word for programs.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::PlanName { .. } => "plan-name",
            Self::Currency { .. } => "currency",
            Self::BasePrice { .. } => "base-price",
            Self::Part(PlanPart::Base) => "base",
            Self::Part(PlanPart::Catalogue) => "catalogue",
            Self::Part(PlanPart::Modules) => "modules",
            Self::Part(PlanPart::Home) => "home",
            Self::Part(PlanPart::Prices) => "prices",
            Self::ChoiceGone { .. } => "choice-gone",
            Self::AlternateGone { .. } => "alternate-gone",
            Self::NewChoice { .. } => "new-choice",
            Self::Name { .. } => "name",
            Self::Price { .. } => "price",
            Self::Needs { .. } => "needs",
            Self::Excludes { .. } => "excludes",
            Self::Drawn { .. } => "drawn",
            Self::OfNoConcern => "of-no-concern",
        }
    }
}

/// An amount with its sign, where it is none of nothing.
pub(crate) fn signed(amount: Money) -> String {
    if amount > Money::ZERO { format!("+{amount}") } else { amount.to_string() }
}

fn listed(answers: &[AlternateRef]) -> String {
    answers.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

fn did_you_mean(nearest: Option<&String>) -> String {
    nearest.map_or_else(String::new, |name| format!("; the nearest is `{name}`"))
}

/// `now needs a=b and no longer needs c=d`.
fn differing(verb: [&str; 2], added: &[AlternateRef], dropped: &[AlternateRef]) -> String {
    let [does, no_longer] = verb;
    let parts = [(does, added), (no_longer, dropped)];
    let told = parts.iter().filter(|(_, answers)| !answers.is_empty());
    told.map(|(verb, answers)| format!("{verb} {}", listed(answers))).collect::<Vec<_>>().join(" and ")
}

impl fmt::Display for Finding {
    /// One sentence with its full stop.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let price = |f: &mut fmt::Formatter<'_>, what: &str, was: Money, now: Money| {
            write!(f, "{what} cost {was} and costs {now} now ({}).", signed(now - was))
        };
        match self {
            Self::PlanName { was, now } => write!(f, "The plan was called {was} and is called {now} now."),
            Self::Currency { was, now } => {
                write!(f, "Prices were in {was} and are in {now} now: they cannot be compared.")
            }
            Self::BasePrice { was, now } => price(f, "The home with every included alternate", *was, *now),
            Self::Part(PlanPart::Base) => f.write_str("What is drawn whatever is chosen was changed."),
            Self::Part(PlanPart::Catalogue) => f.write_str("The door and window units were changed."),
            Self::Part(PlanPart::Modules) => f.write_str("The modules or the mate line were changed."),
            Self::Part(PlanPart::Home) => f.write_str("The facts of the whole home were changed."),
            Self::Part(PlanPart::Prices) => f.write_str("The price book was changed."),
            Self::ChoiceGone { name, choice, nearest } => {
                let nearest = did_you_mean(nearest.as_ref());
                write!(f, "{name}: the plan no longer has the choice `{choice}`{nearest}.")
            }
            Self::AlternateGone { name, answer, nearest, instead } => {
                let (AlternateRef { choice, alternate }, nearest) = (answer, did_you_mean(nearest.as_ref()));
                write!(f, "{name}: the choice `{choice}` no longer has the alternate `{alternate}`{nearest}. ")?;
                write!(f, "The included one stands in its place: {instead}.")
            }
            Self::NewChoice { choice, name } => {
                write!(f, "The choice `{choice}` is new; it is answered with the included alternate: {name}.")
            }
            Self::Name { was, now } => write!(f, "{was} is called {now} now."),
            Self::Price { name, was, now } => price(f, name, *was, *now),
            Self::Needs { name, added, dropped } => {
                write!(f, "{name} {}.", differing(["now needs", "no longer needs"], added, dropped))
            }
            Self::Excludes { name, added, dropped } => {
                write!(f, "{name} {}.", differing(["now excludes", "no longer excludes"], added, dropped))
            }
            Self::Drawn { name } => write!(f, "What {name} brings into the home or takes out of it was changed."),
            Self::OfNoConcern => f.write_str("The plan was changed in nothing that concerns this selection."),
        }
    }
}
