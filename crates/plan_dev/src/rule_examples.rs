//! The examples that explanations of rules show: from each rule's page the case that is drawn, as a plan file. They are written
//! from the pages and never edited by hand.

use std::{fmt::Write as _, fs, path::Path};

use plan_model::{LegalKind, file};
use plan_rules::{Rule, RuleBook, registry};
use plan_testkit::rule_page::{Case, cases, drawn_case};

use crate::{
    failure::Failure,
    generated::{self, Generated},
    workspace::Workspace,
};

/// The pages of the rules.
const PAGES: &str = "crates/plan_rules/tests/rules";
/// The plan files, which are part of the program.
const EXAMPLES: &str = "assets/rule-examples";
/// Beside them: by which book each is judged.
const BOOKS: &str = "books.toml";

/// Writes every example, and by which books they are judged.
///
/// # Errors
/// Names the page that cannot be read or has no case to draw, or the file that cannot be written.
pub(crate) fn publish(workspace: &Workspace) -> Result<(), Failure> {
    generated::write(&workspace.root().join(EXAMPLES), examples(workspace.root())?)
}

/// Every file, the plans in the order of the registry.
fn examples(root: &Path) -> Result<Vec<Generated>, Failure> {
    let mut books =
        String::from("# Written by `cargo dev examples`: the book by which the example of each rule is judged.\n");
    let mut examples = Vec::new();
    for rule in registry() {
        let path = root.join(PAGES).join(rule.id).with_extension("md");
        let page = fs::read_to_string(&path)
            .map_err(|error| Failure::new(format!("{} cannot be read: {error}.", path.display())))?;
        let cases = cases(&page);
        let case = drawn_case(&cases).ok_or_else(|| {
            Failure::new(format!("{} needs a case that falls short, and one that is drawn at most.", path.display()))
        })?;
        let _ = writeln!(books, "{} = \"{}\"", rule.id, case.book);
        examples.push(Generated { name: format!("{}.json", rule.id), text: plan_file(rule, case)? });
    }
    examples.push(Generated { name: BOOKS.to_owned(), text: books });
    Ok(examples)
}

/// The home of a case, named for what it shows and under the label that its book is for.
fn plan_file(rule: &Rule, case: &Case) -> Result<String, Failure> {
    let book = RuleBook::built_in(&case.book)
        .ok_or_else(|| Failure::new(format!("The page of {} names a book `{}`; there is none.", rule.id, case.book)))?;
    let mut plan = case.plan();
    plan.home.legal_kind = book.facts().legal_kind.unwrap_or(LegalKind::StateLabel);
    plan.name = format!("{}: {}", rule.name, case.name);
    Ok(file::write(&plan))
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::*;

    fn root() -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
    }

    #[test]
    fn committed_examples_are_those_of_the_pages() {
        for Generated { name, text } in examples(&root()).unwrap_or_else(|failure| panic!("{failure}")) {
            let committed = fs::read_to_string(root().join(EXAMPLES).join(&name)).unwrap_or_default();
            assert!(
                committed == text,
                "{EXAMPLES}/{name} is missing or differs from the page of its rule: run `cargo dev examples` and commit the file"
            );
        }
    }

    #[test]
    fn no_other_file_lies_among_the_examples() {
        let examples = examples(&root()).unwrap_or_else(|failure| panic!("{failure}"));
        for entry in fs::read_dir(root().join(EXAMPLES)).expect("the folder is committed") {
            let name = entry.expect("the folder can be read").file_name();
            assert!(
                examples.iter().any(|example| name == *example.name),
                "{EXAMPLES}/{} is of no rule: delete it",
                name.display()
            );
        }
    }
}
