//! The proof: every selection that can be sold, whether it meets a book, and what the others fall short of.

use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;

use num_bigint::BigUint;
use plan_model::{AlternateRef, Id, Plan, Selection};
use plan_rules::{Outcome, RuleBook, WrongLegalKind};

use crate::diagram::{Selections, Variables};
use crate::ground::Choices;
use crate::homes::{Clash, Homes, may_judge, selection};
use crate::places::Elsewhere;
use crate::tree::{Alternates, Cancelled, Leaf, Part, smallest};

/// What is true of every selection of a plan by one book.
pub struct Proof<'plan> {
    plan: &'plan Plan,
    alternates: Alternates,
    variables: Variables,
    possible: Selections,
    short: Selections,
    unknown: Selections,
    /// What cannot be sold because two things need the same ground.
    pub clashes: Vec<Fault>,
    /// What falls short of the book in selections that can be sold.
    pub faults: Vec<Fault>,
    /// What cannot be told in selections that can be sold.
    pub unknowns: Vec<Fault>,
    /// How many homes were derived and judged.
    pub homes: usize,
}

/// One thing that is wrong, and the fewest choices that bring it about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The rule; none where things need the same ground.
    pub rule: Option<&'static str>,
    /// The elements that it is about; none for the home as a whole.
    pub of: Vec<Id>,
    /// Every smallest set of alternates with which it comes about, whatever else is chosen. An empty one: always.
    pub caused_by: Vec<Vec<AlternateRef>>,
    /// In how many of the selections that can be sold it comes about; for what cannot be sold, of all selections that the
    /// plan does not refuse.
    pub count: BigUint,
    /// A selection in which it does, as near to the included one as can be.
    pub example: Selection,
}

impl Fault {
    /// Whether it takes alternates of several choices, each of which is without fault alone.
    #[must_use]
    pub fn is_of_several(&self) -> bool {
        self.caused_by.iter().all(|part| part.len() > 1)
    }
}

/// Why nothing was proven.
#[derive(Debug)]
pub enum ProofError {
    /// The book is for homes under another label.
    WrongLegalKind(WrongLegalKind),
    /// Somebody stopped it.
    Cancelled,
}

impl From<Cancelled> for ProofError {
    fn from(_: Cancelled) -> Self {
        Self::Cancelled
    }
}

/// What was asked, and what came of it in each part of the selections.
type Answered<T> = Vec<Leaf<T>>;

/// Proves every selection of a plan. `watch` is told of every home that is looked at, and can stop the work.
///
/// # Errors
/// When the book is for homes under another label, or somebody stopped it.
pub fn prove<'plan>(
    plan: &'plan Plan,
    book: &RuleBook,
    watch: &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Result<Proof<'plan>, ProofError> {
    may_judge(plan, book).map_err(ProofError::WrongLegalKind)?;
    let elsewhere = Elsewhere::of(plan);
    let places = plan.choices.iter().map(|choice| elsewhere.of_choice(plan, choice)).collect();
    let choices = Choices { elsewhere, places };
    let included = |choice: &plan_model::Choice| choice.alternates.iter().position(|a| a.included).unwrap_or_default();
    let alternates = Alternates {
        counts: plan.choices.iter().map(|choice| choice.alternates.len()).collect(),
        included: plan.choices.iter().map(included).collect(),
    };
    let mut homes = Homes::new(plan, book, &choices, watch);
    let found = Found::of(&alternates, &choices, &mut homes)?;
    Ok(found.proof(plan, alternates, homes.count()))
}

/// A rule on one subject, or on the home.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Judging {
    rule: &'static str,
    subject: Option<Id>,
}

/// Everything that was asked.
struct Found {
    clashes: Vec<(Clash, Answered<bool>)>,
    verdicts: Vec<(Judging, Answered<Outcome>)>,
}

impl Found {
    fn of(alternates: &Alternates, choices: &Choices<'_>, homes: &mut Homes<'_>) -> Result<Self, Cancelled> {
        let included = &alternates.included;
        // What each choice has around it is looked at in every way that it can be: so every clash is seen at least once.
        for choice in choices.all().ones() {
            alternates.ask(|answers| Ok((homes.at(answers, included)?.around_choices[choice].clone(), ())))?;
        }
        // The same for everything that a rule may judge: so every verdict on it is seen.
        for id in choices.elsewhere.subjects() {
            alternates.ask(|answers| Ok((homes.at(answers, included)?.around([id]), ())))?;
        }
        let mut verdicts = BTreeMap::new();
        // One question may bring up homes that show another.
        loop {
            let of_subjects = homes.each().flat_map(|home| home.verdicts.keys());
            let of_subjects = of_subjects.map(|(subject, rule)| Judging { rule, subject: Some(subject.clone()) });
            let of_home = homes.each().flat_map(|home| home.of_home.keys());
            let seen: BTreeSet<Judging> =
                of_subjects.chain(of_home.map(|rule| Judging { rule, subject: None })).collect();
            let asked = verdicts.len();
            for judging in seen {
                if let Entry::Vacant(place) = verdicts.entry(judging) {
                    let leaves = place.key().ask(alternates, choices, homes)?;
                    place.insert(leaves);
                }
            }
            if verdicts.len() == asked {
                break;
            }
        }
        let mut clashes = Vec::new();
        let mut known = BTreeSet::new();
        loop {
            let seen = homes.each().flat_map(|home| home.clashes.keys());
            let Some(clash) =
                seen.filter(|clash| !known.contains(&clash.order())).min_by_key(|clash| clash.order()).cloned()
            else {
                break;
            };
            known.insert(clash.order());
            let leaves = alternates.ask(|answers| {
                let home = homes.at(answers, included)?;
                let here = home.clashes.get(&clash);
                let elsewhere = || if clash.ids.is_empty() { choices.all() } else { home.around(&clash.ids) };
                Ok((here.cloned().unwrap_or_else(elsewhere), here.is_some()))
            })?;
            clashes.push((clash, leaves));
        }
        Ok(Self { clashes, verdicts: verdicts.into_iter().collect() })
    }

    fn proof<'plan>(self, plan: &'plan Plan, alternates: Alternates, homes: usize) -> Proof<'plan> {
        let variables = Variables::of(&alternates, &self.order(&alternates));
        let declared = declared(plan, &variables);
        let in_parts = |parts: &mut dyn Iterator<Item = &Part>| {
            parts.fold(variables.none(), |all, part| all.or(&variables.part(part)))
        };
        let mut possible = declared.clone();
        let mut clashing = Vec::new();
        for (clash, leaves) in &self.clashes {
            let set = in_parts(&mut leaves.iter().filter(|leaf| leaf.answer).map(|leaf| &leaf.part));
            possible = possible.without(&set);
            clashing.push((clash, leaves, set.and(&declared)));
        }
        let near = |set: &Selections| nearest(&variables, set, &alternates).map(|answers| selection(plan, &answers));
        let told = |parts: &[Part]| parts.iter().map(|part| answers(plan, part)).collect();
        let mut clashes = Vec::new();
        for (clash, leaves, set) in clashing.into_iter().filter(|(_, _, set)| !set.is_empty()) {
            let mut parts = smallest(leaves, &alternates.included, |leaf| {
                leaf.answer || variables.part(&leaf.part).and(&declared).is_empty()
            });
            parts.retain(|part| !variables.part(part).and(&set).is_empty());
            let (caused_by, count) = (told(&parts), set.count());
            let Some(example) = near(&set) else { continue };
            clashes.push(Fault { rule: None, of: clash.ids.clone(), caused_by, count, example });
        }
        let (mut short, mut unknown) = (variables.none(), variables.none());
        let (mut faults, mut unknowns) = (Vec::new(), Vec::new());
        for (judging, leaves) in &self.verdicts {
            for outcome in [Outcome::Correction, Outcome::Unknown] {
                let has = |leaf: &Leaf<Outcome>| leaf.answer == outcome;
                let set = in_parts(&mut leaves.iter().filter(|leaf| has(leaf)).map(|leaf| &leaf.part)).and(&possible);
                let Some(example) = near(&set) else { continue };
                let mut parts = smallest(leaves, &alternates.included, |leaf| {
                    has(leaf) || variables.part(&leaf.part).and(&possible).is_empty()
                });
                parts.retain(|part| !variables.part(part).and(&set).is_empty());
                let told = Fault {
                    rule: Some(judging.rule),
                    of: judging.subject.iter().cloned().collect(),
                    caused_by: told(&parts),
                    count: set.count(),
                    example,
                };
                let is_short = outcome == Outcome::Correction;
                let (all, list) = if is_short { (&mut short, &mut faults) } else { (&mut unknown, &mut unknowns) };
                *all = all.or(&set);
                list.push(told);
            }
        }
        let order = |fault: &Fault| (fault.caused_by.iter().map(Vec::len).min(), fault.rule, fault.of.clone());
        faults.sort_by_key(order);
        unknowns.sort_by_key(order);
        let unknown = unknown.without(&short);
        Proof { plan, alternates, variables, possible, short, unknown, clashes, faults, unknowns, homes }
    }

    /// The choices, those that were found to matter to the same things near each other.
    fn order(&self, alternates: &Alternates) -> Vec<usize> {
        let mut together: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
        let of_clashes = self.clashes.iter().flat_map(|(_, leaves)| leaves.iter().map(|leaf| &leaf.part));
        let of_verdicts = self.verdicts.iter().flat_map(|(_, leaves)| leaves.iter().map(|leaf| &leaf.part));
        for part in of_clashes.chain(of_verdicts) {
            for (choice, _) in part {
                together.entry(*choice).or_default().extend(part.iter().map(|(other, _)| *other));
            }
        }
        let mut order = Vec::new();
        for choice in 0..alternates.counts.len() {
            let mut waiting = vec![choice];
            while let Some(next) = waiting.pop() {
                if !order.contains(&next) {
                    order.push(next);
                    waiting.extend(together.get(&next).into_iter().flatten().rev());
                }
            }
        }
        order
    }
}

impl Judging {
    fn ask(
        &self,
        alternates: &Alternates,
        choices: &Choices<'_>,
        homes: &mut Homes<'_>,
    ) -> Result<Answered<Outcome>, Cancelled> {
        alternates.ask(|answers| {
            let home = homes.at(answers, &alternates.included)?;
            let told = match &self.subject {
                Some(subject) => home.verdicts.get(&(subject.clone(), self.rule)),
                None => home.of_home.get(self.rule),
            };
            // Where there is nothing to judge, what lies around may bring that; for the whole home, anything.
            let nothing = || self.subject.as_ref().map_or_else(|| choices.all(), |subject| home.around([subject]));
            Ok(told.map_or_else(|| (nothing(), Outcome::Met), |told| (told.rests_on.clone(), told.answer)))
        })
    }
}

impl Clash {
    fn order(&self) -> String {
        format!("{self:?}")
    }
}

/// What the plan itself refuses.
fn declared(plan: &Plan, variables: &Variables) -> Selections {
    let mut set = variables.all();
    for (choice, one) in plan.choices.iter().enumerate() {
        for (alternate, answer) in one.alternates.iter().enumerate() {
            let taken = variables.part(&[(choice, alternate)]);
            for other in answer.needs.iter().filter_map(|other| place(plan, other)) {
                set = set.without(&taken.without(&variables.part(&[other])));
            }
            for other in answer.excludes.iter().filter_map(|other| place(plan, other)) {
                set = set.without(&taken.and(&variables.part(&[other])));
            }
        }
    }
    set
}

/// The places of an answer's choice and alternate.
fn place(plan: &Plan, answer: &AlternateRef) -> Option<(usize, usize)> {
    let choice = plan.choices.iter().position(|choice| choice.id == answer.choice)?;
    let alternate = plan.choices[choice].alternates.iter().position(|alternate| alternate.id == answer.alternate)?;
    Some((choice, alternate))
}

fn answers(plan: &Plan, part: &[(usize, usize)]) -> Vec<AlternateRef> {
    let named = |(choice, alternate): &(usize, usize)| {
        let choice = plan.choices.get(*choice)?;
        let alternate = choice.alternates.get(*alternate)?;
        Some(AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() })
    };
    part.iter().filter_map(named).collect()
}

/// Of a set the selection with the fewest alternates that are not included; none of an empty set.
fn nearest(variables: &Variables, set: &Selections, alternates: &Alternates) -> Option<Vec<usize>> {
    if set.is_empty() {
        return None;
    }
    (0..=alternates.counts.len()).find_map(|changes| within(variables, set, alternates, 0, changes))
}

/// The same with no more than so many changes, in the choices from one on; of those before, the set tells.
fn within(
    variables: &Variables,
    set: &Selections,
    alternates: &Alternates,
    choice: usize,
    changes: usize,
) -> Option<Vec<usize>> {
    if set.is_empty() {
        return None;
    }
    let Some(&count) = alternates.counts.get(choice) else { return Some(Vec::new()) };
    let included = alternates.included[choice];
    let others = (0..count).filter(|alternate| *alternate != included);
    std::iter::once(included).chain(others).find_map(|alternate| {
        let left = changes.checked_sub(usize::from(alternate != included))?;
        let set = set.and(&variables.part(&[(choice, alternate)]));
        let mut rest = within(variables, &set, alternates, choice + 1, left)?;
        rest.insert(0, alternate);
        Some(rest)
    })
}

impl Proof<'_> {
    /// The plan.
    #[must_use]
    pub fn plan(&self) -> &Plan {
        self.plan
    }

    /// How many selections the plan has, whether they can be sold or not.
    #[must_use]
    pub fn all(&self) -> BigUint {
        self.variables.all().count()
    }

    /// How many can be sold: nothing that the plan says stands against them, and nothing in them needs the same ground.
    #[must_use]
    pub fn possible(&self) -> BigUint {
        self.possible.count()
    }

    /// How many of those fall short of the book.
    #[must_use]
    pub fn falling_short(&self) -> BigUint {
        self.short.count()
    }

    /// How many of those do not fall short, but have something that cannot be told.
    #[must_use]
    pub fn not_known(&self) -> BigUint {
        self.unknown.count()
    }

    /// How many of those meet the book.
    #[must_use]
    pub fn meeting(&self) -> BigUint {
        self.possible.without(&self.short).without(&self.unknown).count()
    }

    /// Whether a selection can be sold.
    #[must_use]
    pub fn is_possible(&self, selection: &Selection) -> bool {
        self.holds(&self.possible, selection)
    }

    /// Whether a selection can be sold and falls short of the book.
    #[must_use]
    pub fn falls_short(&self, selection: &Selection) -> bool {
        self.holds(&self.short, selection)
    }

    fn holds(&self, set: &Selections, selection: &Selection) -> bool {
        let taken = |(index, choice): (usize, &plan_model::Choice)| {
            let alternate = selection.alternate(&choice.id)?;
            Some((index, choice.alternates.iter().position(|other| other.id == *alternate)?))
        };
        let part: Part = self.plan.choices.iter().enumerate().filter_map(taken).collect();
        part.len() == self.alternates.counts.len() && !self.variables.part(&part).and(set).is_empty()
    }
}
