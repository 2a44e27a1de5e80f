//! The guide's page on sections: generated from the rule books, committed, and never edited by hand.

use std::fs;

use plan_rules::{RuleBook, report};

use crate::{console, failure::Failure, workspace::Workspace};

/// The committed page.
const PAGE: &str = "assets/guide/clauses.md";

/// Writes the page.
///
/// # Errors
/// Names the file that cannot be written.
pub(crate) fn publish(workspace: &Workspace) -> Result<(), Failure> {
    let path = workspace.root().join(PAGE);
    let unwritable = |error| Failure::new(format!("{} cannot be written: {error}.", path.display()));
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).map_err(unwritable)?;
    }
    fs::write(&path, page()).map_err(unwritable)?;
    console::say(format_args!("wrote {}", path.display()));
    Ok(())
}

/// What every book that comes with the program says of its sections.
fn page() -> String {
    let books: Vec<RuleBook> = RuleBook::built_in_ids().filter_map(RuleBook::built_in).collect();
    report::clauses_page(&books)
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;

    #[test]
    fn the_committed_page_is_the_one_generated_from_the_books() {
        let committed = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(PAGE);
        let committed = fs::read_to_string(committed).unwrap_or_default();
        assert!(
            committed == page(),
            "{PAGE} is missing or differs from the rule books: run `cargo dev clauses` and commit the file"
        );
    }
}
