//! Questions in words, each with what it means for one selection, worked out by itself.

use plan_choices::{price, refusals};
use plan_geometry::{Area, derive};
use plan_model::elements::RoomUse;
use plan_model::{Money, Plan, Selection};
use plan_rules::{RuleBook, judge};
use plan_testkit::Random;

/// What buyers ask about, of one selection.
#[derive(Clone, Debug)]
pub(crate) struct Facts {
    pub(crate) selection: Selection,
    pub(crate) possible: bool,
    pub(crate) price: Money,
    pub(crate) bedrooms: usize,
    pub(crate) baths: usize,
    pub(crate) area: Option<Area>,
    /// Whether it meets the book, where that can be told.
    pub(crate) meets: Option<bool>,
}

impl Facts {
    pub(crate) fn of(plan: &Plan, selection: &Selection, book: Option<&RuleBook>) -> Self {
        let home = plan.home(selection);
        let derived = derive(&home);
        let conflicts = derived.problems.iter().any(|problem| problem.kind.is_conflict());
        let rooms = |usage| home.elements.rooms.iter().filter(|room| room.usage == usage).count();
        let is_open = derived.rooms.len() < home.elements.rooms.len();
        let meets = book.and_then(|book| {
            let judgement = judge(&home, &derived, book).expect("the book is for the plan's label");
            // Of a home with a room that does not close nothing is told but that.
            let short = judgement.corrections().any(|verdict| !is_open || verdict.rule == "room-closes");
            let unknown = is_open || judgement.unknown().next().is_some();
            if short { Some(false) } else { (!unknown).then_some(true) }
        });
        Self {
            possible: refusals(plan, selection).is_empty() && !conflicts,
            price: price(plan, selection),
            bedrooms: rooms(RoomUse::Bedroom),
            baths: rooms(RoomUse::Bath),
            area: derived.heated_area,
            meets,
            selection: selection.clone(),
        }
    }
}

/// The answer for one selection.
type Answer = dyn Fn(&Facts) -> Option<bool>;

/// A question, and its answer for a selection; none where it cannot be told.
pub(crate) struct Asked {
    pub(crate) text: String,
    pub(crate) holds: Box<Answer>,
}

const COMPARED: [&str; 5] = ["at least", "at most", "over", "under", "exactly"];

fn compare<T: PartialOrd>(figure: &T, compared: &str, limit: &T) -> bool {
    match compared {
        "at least" => figure >= limit,
        "at most" => figure <= limit,
        "over" => figure > limit,
        "under" => figure < limit,
        _ => figure == limit,
    }
}

impl Asked {
    fn new(text: String, holds: impl Fn(&Facts) -> Option<bool> + 'static) -> Self {
        Self { text, holds: Box::new(holds) }
    }

    /// A question about some selections of a plan, whose figures are among the limits.
    pub(crate) fn random(random: &mut Random, plan: &Plan, all: &[Facts], book: bool, depth: usize) -> Self {
        if depth > 0 && random.in_hundred(65) {
            let mut inner = || Self::random(random, plan, all, book, depth - 1);
            let (one, other) = (inner(), inner());
            return match random.whole(0, 4) {
                0 => Self::new(format!("not ({})", one.text), move |facts| (one.holds)(facts).map(|so| !so)),
                1..=2 => Self::new(format!("({}) and ({})", one.text, other.text), move |facts| {
                    match ((one.holds)(facts), (other.holds)(facts)) {
                        (Some(false), _) | (_, Some(false)) => Some(false),
                        (Some(true), Some(true)) => Some(true),
                        _ => None,
                    }
                }),
                _ => Self::new(format!("({}) or ({})", one.text, other.text), move |facts| {
                    match ((one.holds)(facts), (other.holds)(facts)) {
                        (Some(true), _) | (_, Some(true)) => Some(true),
                        (Some(false), Some(false)) => Some(false),
                        _ => None,
                    }
                }),
            };
        }
        let places: Vec<usize> = (0..all.len()).collect();
        let (here, there) = (&all[random.one_of(&places)], &all[random.one_of(&places)]);
        let compared = random.one_of(&COMPARED);
        match random.whole(0, if book { 6 } else { 5 }) {
            0 => {
                let limit = here.bedrooms;
                Self::new(format!("bedrooms {compared} {limit}"), move |facts| {
                    Some(compare(&facts.bedrooms, compared, &limit))
                })
            }
            1 => {
                let limit = here.baths;
                Self::new(format!("baths {compared} {limit}"), move |facts| {
                    Some(compare(&facts.baths, compared, &limit))
                })
            }
            2 => {
                let limit = here.price;
                Self::new(format!("price {compared} {limit}"), move |facts| {
                    Some(compare(&facts.price, compared, &limit))
                })
            }
            3 => {
                let (low, high) = (here.price.min(there.price), here.price.max(there.price));
                Self::new(format!("price between {low} and {high}"), move |facts| {
                    Some(facts.price >= low && facts.price <= high)
                })
            }
            4 => {
                let feet = here.area.or(there.area).map_or(100, Area::whole_square_feet);
                let limit = Area::from_square_steps(feet * Area::SQUARE_FOOT.square_steps());
                Self::new(format!("area {compared} {feet} sq ft"), move |facts| {
                    facts.area.map(|area| compare(&area, compared, &limit))
                })
            }
            5 => {
                let choices: Vec<usize> = (0..plan.choices.len()).collect();
                let choice = plan.choices[random.one_of(&choices)].id.clone();
                let alternate = here.selection.alternate(&choice).expect("every choice is answered").clone();
                Self::new(format!("{choice}={alternate}"), move |facts| {
                    Some(facts.selection.alternate(&choice) == Some(&alternate))
                })
            }
            _ => Self::new("meets the book".to_owned(), |facts| facts.meets),
        }
    }
}
