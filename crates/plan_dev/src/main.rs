//! The project's own chores, run as `cargo dev WORD`. Nothing here is part of the program that people use.

mod bench_run;
mod clauses;
mod command;
mod console;
mod corpus;
mod differential;
mod failure;
mod generated;
mod pictures;
mod python;
mod rule_examples;
mod schemas;
mod system_packages;
mod test_run;
mod workspace;

use std::process::ExitCode;

use clap::{Parser, Subcommand};

use crate::{failure::Failure, workspace::Workspace};

#[derive(Parser)]
#[command(bin_name = "cargo dev", about = "The project's own chores")]
struct Arguments {
    #[command(subcommand)]
    word: Word,
}

#[derive(Subcommand)]
enum Word {
    /// Run everything that must pass, installing what it needs
    Test,
    /// Compare random plans with what shapely and networkx make of them, and keep the smallest that differ
    Differential(differential::Run),
    /// Time the program, and shapely at the same walls
    Bench,
    /// Write the published JSON Schemas into assets/schemas
    Schema,
    /// Write what becomes of each section of every rule book into assets/guide/clauses.md
    Clauses,
    /// Write what every rule book says of every sample plan into tests/fixtures/corpus
    Corpus,
    /// Write the example of each rule, from its page, into assets/rule-examples
    Examples,
    /// Take the pictures of the window again, where they differ from the kept ones
    Pictures,
}

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    match run(&arguments.word) {
        Ok(exit_code) => exit_code,
        Err(failure) => {
            console::complain(&failure);
            ExitCode::FAILURE
        }
    }
}

fn run(word: &Word) -> Result<ExitCode, Failure> {
    let workspace = Workspace::locate()?;
    match word {
        Word::Test if test_run::run(&workspace).failed > 0 => return Ok(ExitCode::FAILURE),
        Word::Test => {}
        Word::Differential(run) if differential::optimised_or_here(&workspace, *run)?.failed > 0 => {
            return Ok(ExitCode::FAILURE);
        }
        Word::Differential(_) => {}
        Word::Bench => bench_run::run(&workspace)?,
        Word::Schema => schemas::publish(&workspace)?,
        Word::Clauses => clauses::publish(&workspace)?,
        Word::Corpus => corpus::publish(&workspace)?,
        Word::Examples => rule_examples::publish(&workspace)?,
        Word::Pictures => pictures::take(&workspace)?,
    }
    Ok(ExitCode::SUCCESS)
}
