//! The guide's page on sections: generated from the rule books, committed, and never edited by hand.

use plan_rules::{RuleBook, report};

use crate::{
    failure::Failure,
    generated::{self, Generated},
    workspace::Workspace,
};

/// The committed page, and its folder.
const PAGE: &str = "clauses.md";
const FOLDER: &str = "assets/guide";

/// Writes the page.
///
/// # Errors
/// Names the file that cannot be written.
pub(crate) fn publish(workspace: &Workspace) -> Result<(), Failure> {
    generated::write(&workspace.root().join(FOLDER), [Generated { name: PAGE.to_owned(), text: page() }])
}

/// What every book that comes with the program says of its sections.
fn page() -> String {
    let books: Vec<RuleBook> = RuleBook::built_in_ids().filter_map(RuleBook::built_in).collect();
    report::clauses_page(&books)
}

#[cfg(test)]
mod tests {
    use std::{fs, path::Path};

    use super::*;

    #[test]
    fn the_committed_page_is_the_one_generated_from_the_books() {
        let committed = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(FOLDER).join(PAGE);
        let committed = fs::read_to_string(committed).unwrap_or_default();
        assert!(
            committed == page(),
            "{PAGE} is missing or differs from the rule books: run `cargo dev clauses` and commit the file"
        );
    }
}
