//! All that is asked of the homes of a plan.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;

use plan_model::{Id, Plan};
use plan_rules::{Outcome, RuleBook};

use crate::ground::Choices;
pub(crate) use crate::homes::Clash as Clashing;
use crate::homes::Homes;
use crate::places::Elsewhere;
use crate::tree::{Alternates, Cancelled, Leaf};

/// What was asked, and what came of it in each part of the selections.
pub(crate) type Answers<Question, Answer> = Vec<(Question, Vec<Leaf<Answer>>)>;

/// What came of everything that was asked.
pub(crate) struct Asked {
    pub(crate) alternates: Alternates,
    pub(crate) clashes: Answers<Clashing, bool>,
    pub(crate) verdicts: Answers<Judging, Outcome>,
    /// Whether each room does not close.
    pub(crate) open: Answers<Id, bool>,
    /// How many homes were looked at.
    pub(crate) homes: usize,
}

/// A rule on one subject, or on the home.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Judging {
    pub(crate) rule: &'static str,
    pub(crate) subject: Option<Id>,
}

/// The plan's side of all that is asked.
struct Asking<'a, 'plan> {
    alternates: &'a Alternates,
    choices: &'a Choices<'plan>,
}

impl Asked {
    /// What needs the same ground.
    pub(crate) fn clashes(plan: &Plan, watch: &mut dyn FnMut(usize) -> ControlFlow<()>) -> Result<Self, Cancelled> {
        Self::of(plan, None, watch)
    }

    /// That, and every verdict of a book.
    pub(crate) fn everything(
        plan: &Plan,
        book: &RuleBook,
        watch: &mut dyn FnMut(usize) -> ControlFlow<()>,
    ) -> Result<Self, Cancelled> {
        Self::of(plan, Some(book), watch)
    }

    fn of(
        plan: &Plan,
        book: Option<&RuleBook>,
        watch: &mut dyn FnMut(usize) -> ControlFlow<()>,
    ) -> Result<Self, Cancelled> {
        let elsewhere = Elsewhere::of(plan);
        let places = plan.choices.iter().map(|choice| elsewhere.of_choice(plan, choice)).collect();
        let choices = Choices { elsewhere, places };
        let alternates = Alternates::of(plan);
        let mut homes = Homes::new(plan, book, &choices, watch);
        let asking = Asking { alternates: &alternates, choices: &choices };
        // What each choice has around it is looked at in every way that it can be: so every clash is seen at least once.
        for choice in choices.all().ones() {
            let around = |homes: &mut Homes<'_>, answers: &[usize]| {
                Ok((homes.at(answers, &alternates.included)?.around_choices[choice].clone(), ()))
            };
            alternates.ask(|answers| around(&mut homes, answers))?;
        }
        let verdicts = if book.is_some() { asking.verdicts(&mut homes)? } else { Vec::new() };
        let open = if book.is_some() { asking.open_rooms(&mut homes)? } else { Vec::new() };
        let clashes = asking.all_clashes(&mut homes)?;
        let homes = homes.count();
        Ok(Self { alternates, clashes, verdicts, open, homes })
    }

    /// The choices, those that were found to matter to the same things near each other.
    pub(crate) fn order(&self) -> Vec<usize> {
        let mut together: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
        let of_clashes = self.clashes.iter().flat_map(|(_, leaves)| leaves.iter().map(|leaf| &leaf.part));
        let of_verdicts = self.verdicts.iter().flat_map(|(_, leaves)| leaves.iter().map(|leaf| &leaf.part));
        for part in of_clashes.chain(of_verdicts) {
            for (choice, _) in part {
                together.entry(*choice).or_default().extend(part.iter().map(|(other, _)| *other));
            }
        }
        let mut order = Vec::new();
        for choice in 0..self.alternates.counts.len() {
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

impl Asking<'_, '_> {
    fn verdicts(&self, homes: &mut Homes<'_>) -> Result<Answers<Judging, Outcome>, Cancelled> {
        // What lies around everything that a rule may judge: so every verdict on it is seen.
        for id in self.choices.elsewhere.subjects() {
            self.alternates.ask(|answers| Ok((homes.at(answers, &self.alternates.included)?.around([id]), ())))?;
        }
        let mut verdicts: BTreeMap<Judging, Vec<Leaf<Outcome>>> = BTreeMap::new();
        // One question may bring up homes that show another.
        loop {
            let of_subjects = homes.each().flat_map(|home| home.verdicts.keys());
            let of_subjects = of_subjects.map(|(subject, rule)| Judging { rule, subject: Some(subject.clone()) });
            let of_home = homes.each().flat_map(|home| home.of_home.keys());
            let of_home = of_home.map(|rule| Judging { rule, subject: None });
            let mut seen: BTreeSet<Judging> = of_subjects.chain(of_home).collect();
            seen.retain(|judging| !verdicts.contains_key(judging));
            if seen.is_empty() {
                return Ok(verdicts.into_iter().collect());
            }
            for judging in seen {
                let leaves = self.judged(&judging, homes)?;
                verdicts.insert(judging, leaves);
            }
        }
    }

    fn judged(&self, judging: &Judging, homes: &mut Homes<'_>) -> Result<Vec<Leaf<Outcome>>, Cancelled> {
        self.alternates.ask(|answers| {
            let home = homes.at(answers, &self.alternates.included)?;
            let told = match &judging.subject {
                Some(subject) => home.verdicts.get(&(subject.clone(), judging.rule)),
                None => home.of_home.get(judging.rule),
            };
            // Where there is nothing to judge, what lies around may bring that; for the whole home, anything.
            let nothing = || judging.subject.as_ref().map_or_else(|| self.choices.all(), |id| home.around([id]));
            Ok(told.map_or_else(|| (nothing(), Outcome::Met), |told| (told.rests_on.clone(), told.answer)))
        })
    }

    /// The rooms that do not close in some home.
    fn open_rooms(&self, homes: &mut Homes<'_>) -> Result<Answers<Id, bool>, Cancelled> {
        let mut open: BTreeMap<Id, Vec<Leaf<bool>>> = BTreeMap::new();
        loop {
            let mut seen: BTreeSet<Id> = homes.each().flat_map(|home| home.open.iter().cloned()).collect();
            seen.retain(|room| !open.contains_key(room));
            if seen.is_empty() {
                return Ok(open.into_iter().collect());
            }
            for room in seen {
                let leaves = self.alternates.ask(|answers| {
                    let home = homes.at(answers, &self.alternates.included)?;
                    Ok((home.around([&room]), home.open.contains(&room)))
                })?;
                open.insert(room, leaves);
            }
        }
    }

    fn all_clashes(&self, homes: &mut Homes<'_>) -> Result<Answers<Clashing, bool>, Cancelled> {
        let mut clashes: BTreeMap<Clashing, Vec<Leaf<bool>>> = BTreeMap::new();
        loop {
            let mut seen: BTreeSet<Clashing> = homes.each().flat_map(|home| home.clashes.keys().cloned()).collect();
            seen.retain(|clash| !clashes.contains_key(clash));
            if seen.is_empty() {
                return Ok(clashes.into_iter().collect());
            }
            for clash in seen {
                let leaves = self.alternates.ask(|answers| {
                    let home = homes.at(answers, &self.alternates.included)?;
                    let here = home.clashes.get(&clash);
                    let nothing = || if clash.ids().is_empty() { self.choices.all() } else { home.around(clash.ids()) };
                    Ok((here.cloned().unwrap_or_else(nothing), here.is_some()))
                })?;
                clashes.insert(clash, leaves);
            }
        }
    }
}
