use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use mateline_app::files::{read_plan, read_text, sentences_about};
use plan_geometry::Derived;
use plan_model::file::nearest;
use plan_model::{AlternateRef, Plan, Selection};
use plan_rules::{OpenError, RuleBook};

use crate::arguments::Request;
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
        let selection = selection(&plan, &request.selected, &request.file)?;
        let refusals = plan_choices::refusals(&plan, &selection);
        if !refusals.is_empty() {
            return Err(Unjudged::Refused { refusals, path: request.file.clone() });
        }
        let book = book(request.book.as_deref().unwrap_or(RuleBook::default_id(plan.home.legal_kind)))?;
        Ok(Self { plan, selection, book })
    }
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

fn selection(plan: &Plan, answers: &[AlternateRef], path: &Path) -> Result<Selection, Unjudged> {
    let mut answered = BTreeSet::new();
    let mut selection = Selection::included(plan);
    for answer in answers {
        if !answered.insert(&answer.choice) {
            return Err(Unjudged::AnsweredTwice { choice: answer.choice.clone() });
        }
        selection =
            selection.with(plan, answer).map_err(|error| Unjudged::Selection { error, path: path.to_owned() })?;
    }
    Ok(selection)
}

/// Opens a rule book, or an amendment with all that it is laid over. An amendment names a book that comes with the program, or a
/// file beside its own.
pub(crate) fn book(name: &str) -> Result<RuleBook, Unjudged> {
    let folder = Path::new(name).parent().map(Path::to_path_buf).unwrap_or_default();
    let path_of = |named: &str| if named == name { PathBuf::from(name) } else { folder.join(named) };
    let read = |named: &str| {
        let path = path_of(named);
        if path.exists() { read_text(&path).map_err(Unjudged::from) } else { Err(no_such_book(named)) }
    };
    RuleBook::open(name, read).map_err(|error| match error {
        OpenError::Book { name, error } => Unjudged::Book { error, path: path_of(&name) },
        OpenError::Circle(names) => Unjudged::AmendmentsInACircle { names },
        OpenError::File(error) => error,
    })
}

fn no_such_book(name: &str) -> Unjudged {
    let known = || RuleBook::built_in_ids().chain(RuleBook::example_ids());
    let hint = nearest(name, known());
    let hint = hint.map_or_else(String::new, |near| format!("; did you mean `{near}`?"));
    Unjudged::NoSuchBook { name: name.to_owned(), hint, built_in: known().collect::<Vec<_>>().join(", ") }
}
