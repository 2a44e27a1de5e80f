//! The homes that had to be looked at, each derived and judged once.

use std::collections::HashMap;
use std::ops::ControlFlow;
use std::rc::Rc;

use fixedbitset::FixedBitSet;
use plan_geometry::{Derived, ProblemKind, derive, derive_after};
use plan_model::elements::RoomUse;
use plan_model::{Id, Plan, Point, Selection};
use plan_rules::{Level, Outcome, RestsOn, RuleBook, Verdict, What, WrongLegalKind, judge};
use rustc_hash::{FxHashMap, FxHashSet};

use crate::ground::{Choices, Grounds};
use crate::tree::{Answers, Cancelled};

/// Two things that need the same ground, or whatever else cannot stand in one home: always the same for the same two.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct Clash {
    kind: ProblemKind,
    /// Where, if it is of nothing that has a name.
    at: Option<Point>,
}

impl Clash {
    /// The things concerned.
    pub(crate) fn ids(&self) -> Vec<&Id> {
        self.kind.ids()
    }
}

/// Something that was asked of a home, and the choices on which the answer rests.
#[derive(Debug)]
pub(crate) struct Told<T> {
    pub(crate) rests_on: FixedBitSet,
    pub(crate) answer: T,
}

impl Default for Told<Outcome> {
    fn default() -> Self {
        Self { rests_on: FixedBitSet::default(), answer: Outcome::Met }
    }
}

/// One home, judged.
#[derive(Debug)]
pub(crate) struct Judged {
    /// By subject and rule.
    pub(crate) verdicts: FxHashMap<(Id, &'static str), Told<Outcome>>,
    /// Verdicts on the home as a whole, by rule.
    pub(crate) of_home: FxHashMap<&'static str, Told<Outcome>>,
    /// What cannot stand together here.
    pub(crate) clashes: HashMap<Clash, FixedBitSet>,
    /// The rooms that do not close.
    pub(crate) open: Vec<Id>,
    /// For each choice, what lies around all that it has.
    pub(crate) around_choices: Vec<FixedBitSet>,
    /// What lies around each element of the plan; of one that is not there, what would bring it.
    around: FxHashMap<Id, FixedBitSet>,
}

impl Judged {
    /// What is around some elements.
    pub(crate) fn around<'i>(&self, ids: impl IntoIterator<Item = &'i Id>) -> FixedBitSet {
        let mut set = FixedBitSet::default();
        ids.into_iter().filter_map(|id| self.around.get(id)).for_each(|around| set.union_with(around));
        set
    }
}

/// Told of every home that is derived; stops the work.
pub(crate) type Watch<'a> = dyn FnMut(usize) -> ControlFlow<()> + 'a;

/// All homes of a plan that were looked at.
pub(crate) struct Homes<'a> {
    plan: &'a Plan,
    /// The book to judge by; none where only clashes are sought.
    book: Option<&'a RuleBook>,
    choices: &'a Choices<'a>,
    watch: &'a mut Watch<'a>,
    judged: FxHashMap<Answers, Rc<Judged>>,
    last: Option<Derived>,
    /// The rules by which a home can fall short.
    required: FxHashSet<&'static str>,
}

impl<'a> Homes<'a> {
    pub(crate) fn new(
        plan: &'a Plan,
        book: Option<&'a RuleBook>,
        choices: &'a Choices<'a>,
        watch: &'a mut Watch<'a>,
    ) -> Self {
        let required = book.into_iter().flat_map(RuleBook::rules).filter(|rule| rule.level == Level::Required);
        let required = required.map(|rule| rule.rule.id).collect();
        Self { plan, book, choices, watch, judged: FxHashMap::default(), last: None, required }
    }

    /// How many were derived.
    pub(crate) fn count(&self) -> usize {
        self.judged.len()
    }

    pub(crate) fn each(&self) -> impl Iterator<Item = &Rc<Judged>> {
        self.judged.values()
    }

    /// A home by its answers; those of choices without any element make no difference.
    pub(crate) fn at(&mut self, answers: &[usize], included: &[usize]) -> Result<Rc<Judged>, Cancelled> {
        let is_finish = |choice: usize| self.choices.places[choice].is_empty();
        let key: Answers = (0..answers.len()).map(|c| if is_finish(c) { included[c] } else { answers[c] }).collect();
        if let Some(judged) = self.judged.get(&key) {
            return Ok(judged.clone());
        }
        if (self.watch)(self.judged.len()).is_break() {
            return Err(Cancelled);
        }
        let selection = selection(self.plan, &key);
        let home = self.plan.home(&selection);
        let derived = match &self.last {
            Some(last) => derive_after(last, &home),
            None => derive(&home),
        };
        // Both are of one label: this was asked before the first home.
        let judgement = self.book.and_then(|book| judge(&home, &derived, book).ok());
        let verdicts = judgement.map(|judgement| judgement.verdicts).unwrap_or_default();
        let judged = Rc::new(self.judged(&home, &derived, &verdicts));
        self.last = Some(derived);
        self.judged.insert(key, judged.clone());
        Ok(judged)
    }

    fn judged(&self, home: &plan_model::Home<'_>, derived: &Derived, verdicts: &[Verdict]) -> Judged {
        let grounds = Grounds::of(self.choices, home, derived);
        let mut around: FxHashMap<Id, FixedBitSet> =
            self.choices.elsewhere.ids().map(|id| (id.clone(), grounds.of_element(id, What::BelowCeiling))).collect();
        for room in &home.elements.rooms {
            let around = around.entry(room.id.clone()).or_default();
            // Ceilings are judged as part of their rooms.
            around.union_with(&grounds.of_element(&room.id, What::Everything));
            // Bedrooms beside each other are judged as one, under the name of the first.
            if matches!(room.usage, RoomUse::Bedroom | RoomUse::Garage) {
                around.union_with(&grounds.neighbours(&room.id));
            }
        }
        for alarm in &home.elements.detectors {
            around.entry(alarm.id.clone()).or_default().union_with(&grounds.neighbours(&alarm.id));
        }
        let mut by_subject: FxHashMap<(Id, &'static str), Told<Outcome>> = FxHashMap::default();
        let mut of_home: FxHashMap<&'static str, Told<Outcome>> = FxHashMap::default();
        for verdict in verdicts.iter().filter(|verdict| self.is_required(verdict)) {
            let told = match &verdict.subject {
                Some(subject) if !verdict.is_of_home() => {
                    by_subject.entry((subject.clone(), verdict.rule)).or_default()
                }
                _ => of_home.entry(verdict.rule).or_default(),
            };
            told.rests_on.union_with(&grounds.of_verdict(verdict));
            // Of several verdicts on one subject the worst is told; what does not apply is no worse than what is met.
            told.answer = told.answer.min(verdict.outcome);
        }
        let mut clashes: HashMap<Clash, FixedBitSet> = HashMap::new();
        for problem in derived.problems.iter().filter(|problem| problem.kind.is_conflict()) {
            let ids = problem.kind.ids();
            let mut rests_on = match problem.kind {
                // Nothing of it has a name.
                ProblemKind::SpaceWithoutRoom => self.choices.all(),
                _ => grounds.around(problem.at),
            };
            ids.iter().filter_map(|id| around.get(*id)).for_each(|around| rests_on.union_with(around));
            let at = ids.is_empty().then_some(problem.at);
            let clash = Clash { kind: problem.kind.clone(), at };
            clashes.entry(clash).or_default().union_with(&rests_on);
        }
        let around_choices = (0..self.choices.places.len()).map(|choice| grounds.of_choice(choice)).collect();
        let rooms = home.elements.rooms.iter().map(|room| &room.id);
        let open = rooms.filter(|room| derived.room(room).is_none()).cloned().collect();
        Judged { open, verdicts: by_subject, of_home, clashes, around_choices, around }
    }

    /// Whether a home can fall short by it: a recommendation holds up nothing, and that nothing falls short is told by
    /// the verdicts on what could.
    fn is_required(&self, verdict: &Verdict) -> bool {
        verdict.rests_on != RestsOn::Others && self.required.contains(verdict.rule)
    }
}

/// The selection of the alternates at these places.
pub(crate) fn selection(plan: &Plan, answers: &[usize]) -> Selection {
    plan.choices.iter().zip(answers).fold(Selection::included(plan), |selection, (choice, alternate)| {
        let taken = choice
            .alternates
            .get(*alternate)
            .map(|alternate| plan_model::AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() });
        // The answer names what the plan has.
        taken.and_then(|taken| selection.with(plan, &taken).ok()).unwrap_or(selection)
    })
}

/// Whether a book may judge a plan at all.
pub(crate) fn may_judge(plan: &Plan, book: &RuleBook) -> Result<(), WrongLegalKind> {
    let home = plan.home(&Selection::included(plan));
    judge(&home, &derive(&home), book).map(|_| ())
}
