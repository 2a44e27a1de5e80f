//! The published schemas against plans and reports, judged by a validator that is not ours.

use std::{
    fs,
    path::{Path, PathBuf},
    process::Command,
};

use serde_json::Value;

use crate::{command, failure::Failure, python::Python, workspace::Workspace};

const PLAN_SCHEMA: &str = "plan-1.schema.json";
const PRICES_SCHEMA: &str = "prices-1.schema.json";

/// A report that the program prints as JSON.
pub(crate) struct Report {
    pub(crate) title: &'static str,
    /// What is asked, before the plan.
    words: &'static [&'static str],
    /// What is asked beside it, after the plan.
    with: &'static [&'static str],
    schema: &'static str,
}

/// Every report with a published schema.
pub(crate) const REPORTS: &[Report] = &[
    Report {
        title: "Schema of the measures: reports are accepted",
        words: &["measure"],
        with: &[],
        schema: "measure-1.schema.json",
    },
    Report {
        title: "Schema of the plan check: reports are accepted",
        words: &["check"],
        with: &["--reversed"],
        schema: "check-1.schema.json",
    },
    Report {
        title: "Schema of the check of every selection: reports are accepted",
        words: &["check", "--every"],
        with: &[],
        schema: "every-1.schema.json",
    },
    Report {
        title: "Schema of the price: reports are accepted",
        words: &["price"],
        with: &[],
        schema: "price-1.schema.json",
    },
    Report {
        title: "Schema of the selection report: reports are accepted",
        words: &["selection"],
        with: &["--buyer", "Lot 14", "--date", "2026-03-02"],
        schema: "selection-report-1.schema.json",
    },
    Report {
        title: "Schema of the selections that were sought: reports are accepted",
        words: &["selections"],
        with: &["--where", "bedrooms at least 3 and not price over 155,000 and meets the book"],
        schema: "selections-1.schema.json",
    },
];

/// Checks files against the published schemas.
pub(crate) struct PublishedSchemas<'a> {
    workspace: &'a Workspace,
    python: &'a Python,
}

impl<'a> PublishedSchemas<'a> {
    pub(crate) fn new(workspace: &'a Workspace, python: &'a Python) -> Self {
        Self { workspace, python }
    }

    /// Every sample plan is accepted.
    ///
    /// # Errors
    /// The plan that is not, or there is none.
    pub(crate) fn accept_sample_plans(&self) -> Result<(), Failure> {
        self.validate(PLAN_SCHEMA, "accepts", &self.sample_plans()?)
    }

    /// Every example of a price book is accepted.
    ///
    /// # Errors
    /// The book that is not, or there is none.
    pub(crate) fn accept_price_books(&self) -> Result<(), Failure> {
        self.validate(PRICES_SCHEMA, "accepts", &self.files_in("assets/price-books")?)
    }

    /// Every broken plan whose fault a schema can see is refused.
    ///
    /// # Errors
    /// The plan that is not, or the list cannot be read.
    pub(crate) fn refuse_broken_plans(&self) -> Result<(), Failure> {
        let folder = self.workspace.root().join("tests/fixtures/broken-plans");
        let list = folder.join("refused-by-schema.txt");
        let text = fs::read_to_string(&list).map_err(|error| unreadable(&list, &error))?;
        let plans: Vec<PathBuf> = listed(&text).map(|name| folder.join(name)).collect();
        self.validate(PLAN_SCHEMA, "refuses", &plans)
    }

    /// What the program prints about every sample plan is accepted. What the exit code says is not asked here: a plan
    /// with corrections has a report as well.
    ///
    /// # Errors
    /// The report that is not, or the program cannot be built.
    pub(crate) fn accept_report(&self, report: &Report) -> Result<(), Failure> {
        let program = self.program()?;
        let folder = self.workspace.target().join("reports").join(report.words.join(" "));
        fs::create_dir_all(&folder).map_err(|error| unwritable(&folder, &error))?;
        let mut printed = Vec::new();
        for plan in self.sample_plans()? {
            let path = folder.join(plan.file_name().unwrap_or_default());
            let text = command::printed(
                Command::new(&program).args(report.words).arg(&plan).args(report.with).args(["--format", "json"]),
            )?;
            fs::write(&path, text).map_err(|error| unwritable(&path, &error))?;
            printed.push(path);
        }
        self.validate(report.schema, "accepts", &printed)
    }

    fn validate(&self, schema: &str, expected: &str, files: &[PathBuf]) -> Result<(), Failure> {
        let script = self.workspace.dev_file("python/validate.py");
        let schema = self.workspace.schemas().join(schema);
        if !schema.exists() {
            return Err(Failure::new(format!("There is no {}.", schema.display())));
        }
        command::run(self.python.script(&script).arg(&schema).arg(expected).args(files))
    }

    /// The sample plans in the order of their names.
    fn sample_plans(&self) -> Result<Vec<PathBuf>, Failure> {
        self.files_in("sample-plans")
    }

    /// The JSON files of a folder in the order of their names.
    fn files_in(&self, folder: &str) -> Result<Vec<PathBuf>, Failure> {
        let folder = self.workspace.root().join(folder);
        let entries: Result<Vec<_>, _> = fs::read_dir(&folder).and_then(Iterator::collect);
        let entries = entries.map_err(|error| unreadable(&folder, &error))?;
        let mut plans: Vec<PathBuf> = entries.iter().map(fs::DirEntry::path).filter(|path| is_json(path)).collect();
        if plans.is_empty() {
            return Err(Failure::new(format!("{} holds no JSON file.", folder.display())));
        }
        plans.sort();
        Ok(plans)
    }

    /// The program as the tests built it. Asking for tests and programs together gives cargo the same features as in
    /// the tests, so that nothing is built twice.
    fn program(&self) -> Result<PathBuf, Failure> {
        let words = ["build", "--workspace", "--bins", "--tests", "--quiet", "--message-format"];
        let mut building = self.workspace.cargo(words.into_iter().chain(["json-render-diagnostics"]));
        let messages = command::printed_on_success(&mut building)?;
        program_built(&String::from_utf8_lossy(&messages))
            .ok_or_else(|| Failure::new("Cargo built no program named `mateline`."))
    }
}

/// The program's path from cargo's messages, one JSON object a line.
fn program_built(messages: &str) -> Option<PathBuf> {
    messages.lines().filter_map(|line| serde_json::from_str::<Value>(line).ok()).find_map(|message| {
        let is_program = message["target"]["name"] == "mateline"
            && message["target"]["kind"][0] == "bin"
            && message["profile"]["test"] == false;
        is_program.then(|| message["executable"].as_str().map(PathBuf::from))?
    })
}

/// The file names of a list: one a line, `#` before a remark.
fn listed(text: &str) -> impl Iterator<Item = &str> {
    text.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with('#'))
}

fn is_json(path: &Path) -> bool {
    path.extension().is_some_and(|extension| extension == "json")
}

fn unreadable(path: &Path, error: &std::io::Error) -> Failure {
    Failure::new(format!("{} cannot be read: {error}.", path.display()))
}

fn unwritable(path: &Path, error: &std::io::Error) -> Failure {
    Failure::new(format!("{} cannot be written: {error}.", path.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_program_is_found_among_the_messages_and_its_tests_are_not_taken_for_it() {
        let tests = r#"{"target":{"kind":["bin"],"name":"mateline"},"profile":{"test":true},"executable":"/t/a"}"#;
        let library = r#"{"target":{"kind":["lib"],"name":"mateline"},"profile":{"test":false},"executable":null}"#;
        let program = r#"{"target":{"kind":["bin"],"name":"mateline"},"profile":{"test":false},"executable":"/t/b"}"#;
        let all = [tests, library, program, r#"{"reason":"build-finished"}"#].join("\n");
        assert_eq!(program_built(&all), Some(PathBuf::from("/t/b")));
        assert_eq!(program_built(tests), None);
    }

    #[test]
    fn remarks_and_empty_lines_are_no_file_names() {
        let text = "# a remark\n\nunits-missing.json\n  two.json  \n";
        assert_eq!(listed(text).collect::<Vec<_>>(), ["units-missing.json", "two.json"]);
    }
}
