//! `cargo dev test`: everything that must pass, in order.

mod libtest;
mod published_schemas;
mod rust_components;
mod rust_tests;
mod score;
mod steps;

use std::io::{self, Stdout};

pub(crate) use self::score::Score;
use self::{published_schemas::PublishedSchemas, steps::Steps};
use crate::{
    command,
    differential::{self, Subject},
    python::Python,
    system_packages::{self, FOR_PYTHON, FOR_WINDOWS},
    workspace::Workspace,
};

/// Runs every step, then prints one line with the counts of what passed and failed.
///
/// A step that fails does not keep the later ones from running, except that nothing runs without what it needs.
pub(crate) fn run(workspace: &Workspace) -> Score {
    let mut steps = Steps::new(io::stdout());
    if let Some(python) = prepare(workspace, &mut steps) {
        check(workspace, &python, &mut steps);
    }
    steps.conclude()
}

/// Installs what the tests need; none of it is ever done without.
fn prepare(workspace: &Workspace, steps: &mut Steps<Stdout>) -> Option<Python> {
    let packages = [FOR_WINDOWS, FOR_PYTHON].concat();
    let system = steps.one("System packages", || system_packages::ensure(&packages));
    let rust = steps.one("Rust components", || rust_components::ensure(workspace));
    let python = steps.one("Python packages", || Python::prepare(workspace));
    system.and(rust).and(python)
}

fn check(workspace: &Workspace, python: &Python, steps: &mut Steps<Stdout>) {
    steps.one("Formatting", || command::run(&mut workspace.cargo(["fmt", "--all", "--check"])));
    steps.one("Lints", || {
        command::run(&mut workspace.cargo(["clippy", "--workspace", "--all-targets", "--", "-D", "warnings"]))
    });
    steps.one("Documentation", || {
        command::run(workspace.cargo(["doc", "--workspace", "--no-deps"]).env("RUSTDOCFLAGS", "-D warnings"))
    });
    steps.many("Tests", || rust_tests::run_all(workspace));
    steps.many("Tests with optimisation", || rust_tests::run_optimised(workspace));

    for (title, subject) in
        [("Rooms and areas against shapely", Subject::Rooms), ("Walking distances against networkx", Subject::Ways)]
    {
        steps.many(title, || differential::optimised(workspace, subject.into()));
    }

    let schemas = PublishedSchemas::new(workspace, python);
    steps.one("Schema of the plan file: sample plans are accepted", || schemas.accept_sample_plans());
    steps.one("Schema of the plan file: broken plans are refused", || schemas.refuse_broken_plans());
    steps.one("Schema of price books: the examples are accepted", || schemas.accept_price_books());
    for report in published_schemas::REPORTS {
        steps.one(report.title, || schemas.accept_report(report));
    }
}
