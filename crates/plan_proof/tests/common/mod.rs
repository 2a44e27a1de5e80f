//! One selection judged by itself, to compare with what is proven of all.

use std::ops::ControlFlow;

use plan_choices::refusals;
use plan_geometry::derive;
use plan_model::{Plan, Selection};
use plan_proof::{Fault, Proof, prove};
use plan_rules::{Outcome, RuleBook, Verdict, judge};

/// What is proven.
pub(crate) fn proven<'plan>(plan: &'plan Plan, book: &RuleBook) -> Proof<'plan> {
    prove(plan, book, &mut |_| ControlFlow::Continue(())).unwrap_or_else(|error| panic!("{error:?}"))
}

/// A rule and its subject; an empty one for the home.
type Named = (String, String);

/// One selection, judged by itself.
struct Alone {
    is_possible: bool,
    /// Whether a room does not close: of such a home nothing is told but that.
    is_open: bool,
    short: Vec<Named>,
    unknown: Vec<Named>,
}

impl Alone {
    fn of(plan: &Plan, selection: &Selection, book: &RuleBook) -> Self {
        let home = plan.home(selection);
        let derived = derive(&home);
        let has_conflict = derived.problems.iter().any(|problem| problem.kind.is_conflict());
        let is_open = derived.rooms.len() < home.elements.rooms.len();
        let judgement = judge(&home, &derived, book).expect("the book is for the plan's label");
        // Of several verdicts on one subject the worst is told.
        let worst = |verdict: &&Verdict| {
            let same = |other: &&Verdict| other.rule == verdict.rule && name(other) == name(verdict);
            judgement.verdicts.iter().filter(same).all(|other| other.outcome >= verdict.outcome)
        };
        let told = |outcome| {
            let verdicts = judgement.with_outcome(outcome).filter(worst);
            let mut told: Vec<Named> = verdicts.filter(|it| !is_open || it.rule == ROOM_CLOSES).map(name).collect();
            told.sort();
            told.dedup();
            told
        };
        Self {
            is_possible: refusals(plan, selection).is_empty() && !has_conflict,
            is_open,
            short: told(Outcome::Correction),
            unknown: told(Outcome::Unknown),
        }
    }
}

const ROOM_CLOSES: &str = "room-closes";

fn name(verdict: &Verdict) -> Named {
    let subject = verdict.subject.as_ref().filter(|_| !verdict.is_of_home());
    (verdict.rule.to_owned(), subject.map_or_else(String::new, ToString::to_string))
}

/// Compares what is proven with judging each of some selections by itself. Gives how many could be sold, and how many of those
/// fell short.
pub(crate) fn compare(plan: &Plan, selections: &[Selection], book: &RuleBook) -> (usize, usize) {
    let proof = proven(plan, book);
    let (mut sold, mut fell_short) = (0, 0);
    for selection in selections {
        let alone = Alone::of(plan, selection, book);
        let answers: Vec<String> =
            selection.iter().map(|(choice, alternate)| format!("{choice}={alternate}")).collect();
        let answers = answers.join(" ");
        assert_eq!(proof.is_possible(selection), alone.is_possible, "{answers} can be sold");
        if !alone.is_possible {
            continue;
        }
        let is_short = !alone.short.is_empty();
        (sold, fell_short) = (sold + 1, fell_short + usize::from(is_short));
        assert_eq!(proof.falls_short(selection), is_short, "{answers} falls short: {:?}", alone.short);
        let is_unknown = !is_short && (alone.is_open || !alone.unknown.is_empty());
        assert_eq!(proof.is_not_known(selection), is_unknown, "{answers} cannot be told: {:?}", alone.unknown);
        let told = |faults: &[Fault]| {
            let is_here = |fault: &&Fault| {
                let is_told = !alone.is_open || fault.rule == Some(ROOM_CLOSES);
                is_told && fault.caused_by.iter().any(|part| part.iter().all(|answer| selection.takes(answer)))
            };
            let subject = |fault: &Fault| fault.of.first().map_or_else(String::new, ToString::to_string);
            let named = |fault: &Fault| (fault.rule.unwrap_or_default().to_owned(), subject(fault));
            let mut told: Vec<Named> = faults.iter().filter(is_here).map(named).collect();
            told.sort();
            told
        };
        assert_eq!(told(&proof.faults), alone.short, "{answers}: the faults");
        assert_eq!(told(&proof.unknowns), alone.unknown, "{answers}: what cannot be told");
    }
    (sold, fell_short)
}
