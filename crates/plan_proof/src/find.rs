//! Which selections have what a buyer asks for: how many, the cheapest and the largest of them.
//!
//! Each condition is a set of selections: those in which it is so, and those in which it is not. What cannot be told of a
//! selection (the heated area of a home with a room that does not close, whether it meets the book) is in neither, and stays
//! so through `not`, `and` and `or`: an unknown figure is never met.

mod areas;
mod prices;
mod rooms;

use std::collections::BTreeMap;
use std::ops::ControlFlow;

use num_bigint::BigUint;
use plan_choices::price;
use plan_geometry::Area;
use plan_model::elements::RoomUse;
use plan_model::{AlternateRef, Money, Plan, Selection};
use plan_rules::RuleBook;
use thiserror::Error;

use crate::compatibility::Compatibility;
use crate::diagram::{Cost, Selections, TooManySums};
use crate::find::areas::areas;
use crate::find::prices::Prices;
use crate::find::rooms::by_rooms;
use crate::homes::selection;
use crate::proof::{Proof, ProofError, prove};
use crate::query::{Condition, Limits, Number, Query};

/// A plan of which selections can be sought.
pub struct Finder<'plan> {
    known: Known<'plan>,
    prices: Prices,
    /// What can be sold, by its heated area; none where that is not known.
    areas: BTreeMap<Option<Area>, Selections>,
}

/// What is known of every selection.
enum Known<'plan> {
    /// What can be sold.
    Sold(Box<Compatibility<'plan>>),
    /// That, and what meets a book.
    Judged(Box<Proof<'plan>>),
}

/// The selections that have what was asked for.
pub struct Found<'a, 'plan> {
    finder: &'a Finder<'plan>,
    met: Selections,
    not_met: Selections,
}

/// One selection with what buyers ask about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FoundHome {
    /// Its answers.
    pub selection: Selection,
    /// Those that are not included, in the order of the plan.
    pub chosen: Vec<AlternateRef>,
    /// In the plan's currency.
    pub price: Money,
    /// Rooms for sleeping.
    pub bedrooms: usize,
    /// Rooms with a tub or shower.
    pub baths: usize,
    /// To the exterior finished face; none where it is not known.
    pub heated_area: Option<Area>,
}

/// Why nothing was sought.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum FindError {
    /// The query asks for a book, and the plan was not judged by one.
    #[error("the query asks what meets the book, and no book was given")]
    NoBook,
    /// The prices of the plan's alternates make too many different sums.
    #[error("the plan's prices make too many different sums to seek one")]
    TooManyPrices,
}

impl From<TooManySums> for FindError {
    fn from(_: TooManySums) -> Self {
        Self::TooManyPrices
    }
}

/// The selections in which something is so, and those in which it is not.
struct Told {
    so: Selections,
    not_so: Selections,
}

impl<'plan> Finder<'plan> {
    /// Of a plan; judged by a book only if one is given, which takes longer. `watch` is told of every home that is looked
    /// at, and can stop the work.
    ///
    /// # Errors
    /// When the book is for homes under another label, or somebody stopped it.
    pub fn of(
        plan: &'plan Plan,
        book: Option<&RuleBook>,
        watch: &mut dyn FnMut(usize) -> ControlFlow<()>,
    ) -> Result<Self, ProofError> {
        let known = match book {
            Some(book) => Known::Judged(Box::new(prove(plan, book, watch)?)),
            None => Known::Sold(Box::new(Compatibility::of(plan, watch)?)),
        };
        let Compatibility { alternates, variables, possible, .. } = known.sold();
        let areas = areas(plan, alternates, variables, possible, watch)?;
        Ok(Self { prices: Prices::of(plan), areas, known })
    }

    /// The plan.
    #[must_use]
    pub fn plan(&self) -> &'plan Plan {
        self.known.sold().plan
    }

    /// What can be sold.
    #[must_use]
    pub fn compatibility(&self) -> &Compatibility<'plan> {
        self.known.sold()
    }

    /// The selections that can be sold and have what a query of this plan asks for.
    ///
    /// # Errors
    /// When the query asks for a book and none was given, or the plan has too many different prices.
    pub fn find(&self, query: &Query) -> Result<Found<'_, 'plan>, FindError> {
        let Told { so, not_so } = self.told(&query.condition)?;
        Ok(Found { finder: self, met: so, not_met: not_so })
    }

    fn told(&self, condition: &Condition) -> Result<Told, FindError> {
        let sold = self.known.sold();
        let so = match condition {
            Condition::Takes(choice, alternate) => sold.variables.part(&[(*choice, *alternate)]),
            Condition::Bedrooms(limits) => self.with_rooms(RoomUse::Bedroom, limits),
            Condition::Baths(limits) => self.with_rooms(RoomUse::Bath, limits),
            Condition::Price(limits) => self.with_price(limits)?,
            Condition::Area(limits) => return Ok(self.with_area(limits)),
            Condition::MeetsBook => {
                let Known::Judged(proof) = &self.known else { return Err(FindError::NoBook) };
                return Ok(Told { so: proof.meeting_set(), not_so: proof.short_set().clone() });
            }
            Condition::Not(one) => {
                let Told { so, not_so } = self.told(one)?;
                return Ok(Told { so: not_so, not_so: so });
            }
            Condition::All(list) => {
                let (mut so, mut not_so) = (sold.possible.clone(), sold.variables.none());
                for one in list {
                    let one = self.told(one)?;
                    (so, not_so) = (so.and(&one.so), not_so.or(&one.not_so));
                }
                return Ok(Told { so, not_so });
            }
            Condition::Any(list) => {
                let (mut so, mut not_so) = (sold.variables.none(), sold.possible.clone());
                for one in list {
                    let one = self.told(one)?;
                    (so, not_so) = (so.or(&one.so), not_so.and(&one.not_so));
                }
                return Ok(Told { so, not_so });
            }
        };
        Ok(Told { so: sold.possible.and(&so), not_so: sold.possible.without(&so) })
    }

    fn with_rooms(&self, usage: RoomUse, limits: &Limits<usize>) -> Selections {
        let Compatibility { plan, variables, possible, .. } = self.known.sold();
        let by_number = by_rooms(plan, variables, possible, usage);
        let within = by_number.iter().enumerate().filter(|(number, _)| limits.hold(number));
        within.fold(variables.none(), |all, (_, set)| all.or(set))
    }

    fn with_price(&self, limits: &Limits<Number>) -> Result<Selections, FindError> {
        let variables = &self.known.sold().variables;
        let at_most = |limit: &Number| self.prices.at_most(variables, *limit);
        let under = |limit: &Number| self.prices.under(variables, *limit);
        let without = |set: Selections| variables.all().without(&set);
        Ok(match limits {
            Limits::AtLeast(limit) => without(under(limit)?),
            Limits::AtMost(limit) => at_most(limit)?,
            Limits::Over(limit) => without(at_most(limit)?),
            Limits::Under(limit) => under(limit)?,
            Limits::Exactly(limit) => at_most(limit)?.without(&under(limit)?),
            Limits::Between(least, most) => at_most(most)?.without(&under(least)?),
        })
    }

    fn with_area(&self, limits: &Limits<plan_model::Exact>) -> Told {
        let none = self.known.sold().variables.none();
        let (mut so, mut not_so) = (none.clone(), none);
        for (area, set) in &self.areas {
            match area {
                Some(area) if limits.hold(&area.exact()) => so = so.or(set),
                Some(_) => not_so = not_so.or(set),
                None => {}
            }
        }
        Told { so, not_so }
    }

    fn cheapest(&self, set: &Selections, most: usize) -> Vec<FoundHome> {
        let Compatibility { alternates, variables, .. } = self.known.sold();
        let costs = |(prices, included): (&Vec<i128>, &usize)| -> Vec<Cost> {
            prices.iter().enumerate().map(|(place, price)| (*price, usize::from(place != *included))).collect()
        };
        let costs: Vec<Vec<Cost>> = self.prices.by_alternate().iter().zip(&alternates.included).map(costs).collect();
        variables.cheapest(set, &costs, most).iter().map(|answers| self.home(answers)).collect()
    }

    fn home(&self, answers: &[usize]) -> FoundHome {
        let Compatibility { plan, variables, .. } = self.known.sold();
        let selection = selection(plan, answers);
        let place: Vec<(usize, usize)> = answers.iter().copied().enumerate().collect();
        let place = variables.part(&place);
        let here = self.areas.iter().find(|(_, set)| !set.and(&place).is_empty());
        let home = plan.home(&selection);
        let rooms = |usage| home.elements.rooms.iter().filter(|room| room.usage == usage).count();
        FoundHome {
            chosen: self.known.sold().chosen(&selection),
            price: price(plan, &selection),
            bedrooms: rooms(RoomUse::Bedroom),
            baths: rooms(RoomUse::Bath),
            heated_area: here.and_then(|(area, _)| *area),
            selection,
        }
    }
}

impl<'plan> Known<'plan> {
    fn sold(&self) -> &Compatibility<'plan> {
        match self {
            Self::Sold(compatibility) => compatibility,
            Self::Judged(proof) => proof,
        }
    }
}

impl<'plan> Found<'_, 'plan> {
    /// What was sought in.
    #[must_use]
    pub const fn finder(&self) -> &Finder<'plan> {
        self.finder
    }

    /// How many there are.
    #[must_use]
    pub fn count(&self) -> BigUint {
        self.met.count()
    }

    /// Of how many that can be sold it cannot be told.
    #[must_use]
    pub fn not_known(&self) -> BigUint {
        self.finder.known.sold().possible.without(&self.met).without(&self.not_met).count()
    }

    /// Whether a selection is one of them.
    #[must_use]
    pub fn holds(&self, selection: &Selection) -> bool {
        self.finder.known.sold().holds(&self.met, selection)
    }

    /// The cheapest, at most so many; of the same price those with fewer answers that are not included come first.
    #[must_use]
    pub fn cheapest(&self, most: usize) -> Vec<FoundHome> {
        self.finder.cheapest(&self.met, most)
    }

    /// The cheapest of those with the largest heated area that is known.
    #[must_use]
    pub fn largest(&self) -> Option<FoundHome> {
        let known = self.finder.areas.iter().rev().filter(|(area, _)| area.is_some());
        let mut here = known.map(|(_, set)| set.and(&self.met));
        self.finder.cheapest(&here.find(|set| !set.is_empty())?, 1).into_iter().next()
    }
}
