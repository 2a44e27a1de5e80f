use std::collections::BTreeSet;
use std::path::Path;

use mateline_app::files::{open_book, read_plan, read_selection, sentences_about};
use plan_geometry::Derived;
use plan_model::{AlternateRef, Plan, Selection};
use plan_rules::RuleBook;

use crate::arguments::Request;
use crate::output::tell;
use crate::unjudged::Unjudged;

/// A plan with the selection that was asked for.
pub(crate) struct Input {
    pub(crate) plan: Plan,
    pub(crate) selection: Selection,
    pub(crate) book: RuleBook,
}

impl Input {
    /// Reads what a request names.
    pub(crate) fn read(request: &Request) -> Result<Self, Unjudged> {
        let plan = read_plan(&request.file)?.plan;
        let selection = match &request.selection {
            Some(path) => kept_selection(&plan, path)?,
            None => {
                let included = Selection::included(&plan).with_reversed(request.reversed);
                answered(included, &plan, &request.selected, &request.file)?
            }
        };
        refuse_selection(&plan, &selection, &request.file)?;
        let book = open_book(request.book.as_deref().unwrap_or(RuleBook::default_id(plan.home.legal_kind)))?;
        Ok(Self { plan, selection, book })
    }
}

/// What the plan declares against a selection, if it declares anything.
pub(crate) fn refuse_selection(plan: &Plan, selection: &Selection, path: &Path) -> Result<(), Unjudged> {
    let refusals = plan_choices::refusals(plan, selection);
    if refusals.is_empty() { Ok(()) } else { Err(Unjudged::Refused { refusals, path: path.to_owned() }) }
}

/// What keeps a home from being built as drawn, if anything does.
pub(crate) fn refuse_conflicts(derived: &Derived, path: &Path) -> Result<(), Unjudged> {
    let problems: Vec<_> = derived.problems.iter().filter(|problem| problem.kind.is_conflict()).cloned().collect();
    if problems.is_empty() { Ok(()) } else { Err(Unjudged::Conflicts { problems, path: path.to_owned() }) }
}

/// What is wrong with the drawing without keeping the home from being built: a sentence for each.
pub(crate) fn drawing_faults(derived: &Derived, path: &Path) -> Vec<String> {
    let faults = derived.problems.iter().filter(|problem| !problem.kind.is_conflict());
    faults.map(|fault| sentences_about(&[fault], path)).collect()
}

/// The selection of a file, as long as the plan still has all that was chosen; what was changed is told.
fn kept_selection(plan: &Plan, path: &Path) -> Result<Selection, Unjudged> {
    let opened = plan_selection::open(&read_selection(path)?.file, plan);
    let gone: Vec<String> = opened.findings.iter().filter(|it| !it.holds()).map(ToString::to_string).collect();
    if !gone.is_empty() {
        return Err(Unjudged::NoLongerHolds { gone, path: path.to_owned() });
    }
    for finding in &opened.findings {
        tell(&format!("note: {}", sentences_about(&[finding], path)));
    }
    Ok(opened.selection)
}

/// A selection with other answers, each choice answered once.
pub(crate) fn answered(
    selection: Selection,
    plan: &Plan,
    answers: &[AlternateRef],
    path: &Path,
) -> Result<Selection, Unjudged> {
    let mut answered = BTreeSet::new();
    let mut selection = selection;
    for answer in answers {
        if !answered.insert(&answer.choice) {
            return Err(Unjudged::AnsweredTwice { choice: answer.choice.clone() });
        }
        selection =
            selection.with(plan, answer).map_err(|error| Unjudged::Selection { error, path: path.to_owned() })?;
    }
    Ok(selection)
}
