//! The corpus: what every rule book says of every sample plan, as committed text. A change of a rule, a book or a measure
//! shows there as a difference that somebody reads before it is committed; the text is never edited by hand.

use std::{
    fs,
    path::{Path, PathBuf},
};

use plan_geometry::derive;
use plan_model::{AlternateRef, Plan, Selection, file};
use plan_rules::{RuleBook, judge, report};

use crate::{
    failure::Failure,
    generated::{self, Generated},
    workspace::Workspace,
};

/// The sample plans.
const PLANS: &str = "sample-plans";
/// The committed text.
const CORPUS: &str = "tests/fixtures/corpus";
/// Selections that are judged after the included one: the plan, and the answer that is not included.
const OTHER_SELECTIONS: &[(&str, &str)] = &[("sandpiper-50", "flex-room=fourth-bedroom")];
/// Between two reports of one file.
const RULE: &str = "\n================================================================================\n\n";

/// Writes every page into the corpus.
///
/// # Errors
/// Names the plan that cannot be read, or the page that cannot be written.
pub(crate) fn publish(workspace: &Workspace) -> Result<(), Failure> {
    generated::write(&workspace.root().join(CORPUS), pages(workspace.root())?)
}

/// Every page, in the order of the plans' names, then of the books.
fn pages(root: &Path) -> Result<Vec<Generated>, Failure> {
    let mut pages = Vec::new();
    for path in plans(&root.join(PLANS))? {
        let text = fs::read_to_string(&path).map_err(|error| unreadable(&path, &error))?;
        let plan = file::read(&text).map_err(|error| unreadable(&path, &error))?;
        let id = path.file_stem().unwrap_or_default().to_string_lossy();
        let selections = selections(&id, &plan)?;
        for book_id in RuleBook::built_in_ids().chain(RuleBook::example_ids()) {
            let book =
                RuleBook::built_in(book_id).ok_or_else(|| Failure::new(format!("`{book_id}` cannot be opened.")))?;
            pages.push(Generated { name: format!("{id}.{book_id}.txt"), text: page(&plan, &selections, &book) });
        }
    }
    Ok(pages)
}

/// The sample plans in the order of their names.
fn plans(folder: &Path) -> Result<Vec<PathBuf>, Failure> {
    let entries: Result<Vec<_>, _> = fs::read_dir(folder).and_then(Iterator::collect);
    let entries = entries.map_err(|error| unreadable(folder, &error))?;
    let mut plans: Vec<PathBuf> = entries.iter().map(fs::DirEntry::path).collect();
    plans.retain(|path| path.extension().is_some_and(|extension| extension == "json"));
    plans.sort();
    Ok(plans)
}

/// The included selection, and others of the same plan.
fn selections(id: &str, plan: &Plan) -> Result<Vec<Selection>, Failure> {
    let included = Selection::included(plan);
    let others = OTHER_SELECTIONS.iter().filter(|(other, _)| *other == id).map(|(_, answer)| {
        let refused = |why: String| Failure::new(format!("{id} cannot be judged with {answer}: {why}."));
        let answer: AlternateRef = answer.parse().map_err(|error| refused(format!("{error}")))?;
        included.with(plan, &answer).map_err(|error| refused(error.to_string()))
    });
    let others = others.collect::<Result<Vec<_>, Failure>>()?;
    Ok(std::iter::once(included.clone()).chain(others).collect())
}

/// What a book says of a plan with each selection; that it is for homes under another label is said once.
fn page(plan: &Plan, selections: &[Selection], book: &RuleBook) -> String {
    let reports = selections.iter().map(|selection| {
        let home = plan.home(selection);
        let derived = derive(&home);
        match judge(&home, &derived, book) {
            Ok(judgement) => report::check_text(&home, selection, &derived, &judgement),
            Err(wrong_label) => format!("Not judged: {wrong_label}.\n"),
        }
    });
    let mut texts: Vec<String> = reports.collect();
    texts.dedup();
    texts.join(RULE)
}

fn unreadable(path: &Path, error: &impl std::fmt::Display) -> Failure {
    Failure::new(format!("{} cannot be read: {error}.", path.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn root() -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
    }

    #[test]
    fn committed_verdicts_are_those_that_are_judged() {
        let root = root();
        for Generated { name, text } in pages(&root).expect("the sample plans are sound") {
            let committed = fs::read_to_string(root.join(CORPUS).join(&name)).unwrap_or_default();
            assert!(
                committed == text,
                "{CORPUS}/{name} is missing or says something else: run `cargo dev corpus`, read the difference and \
                 commit the file"
            );
        }
    }

    #[test]
    fn no_other_file_lies_in_the_corpus() {
        let root = root();
        let pages = pages(&root).expect("the sample plans are sound");
        for entry in fs::read_dir(root.join(CORPUS)).expect("the folder is committed") {
            let name = entry.expect("the folder can be read").file_name();
            assert!(
                pages.iter().any(|page| name == *page.name),
                "{CORPUS}/{} is of no sample plan and book: delete it",
                name.display()
            );
        }
    }

    /// A selection of which the plan is gone would otherwise be judged by nothing without a word.
    #[test]
    fn every_other_selection_is_of_a_sample_plan() {
        for (id, answer) in OTHER_SELECTIONS {
            let text = fs::read_to_string(root().join(PLANS).join(format!("{id}.json"))).expect("a sample plan");
            let plan = file::read(&text).unwrap_or_else(|error| panic!("{error}"));
            assert_eq!(selections(id, &plan).map(|all| all.len() > 1).ok(), Some(true), "{id} with {answer}");
        }
    }
}
