//! The program: no words or a plan's path opens the window; any other first word works without one.

mod arguments;
mod books;
mod check;
mod every;
mod explain;
mod input;
mod measure;
mod output;
mod price;
mod progress;
mod selection;
mod selections;
mod today;
mod unjudged;

use std::process::ExitCode;

use clap::Parser;

use arguments::{Arguments, CheckRequest, Word};
use output::Verdict;

/// A plan is derived in thousands of small lists, which the allocator of the system takes half as long again for.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    let ended = match Arguments::try_parse() {
        Ok(arguments) => run(arguments),
        Err(told) if told.use_stderr() => {
            output::print_about_words(&told).map(|()| Verdict::NotJudged).map_err(|error| error.to_string())
        }
        Err(told) => output::print_about_words(&told).map(|()| Verdict::Met).map_err(|error| error.to_string()),
    };
    match ended {
        Ok(verdict) => verdict.into(),
        Err(sentences) => {
            output::tell(&sentences);
            Verdict::NotJudged.into()
        }
    }
}

fn run(arguments: Arguments) -> Result<Verdict, String> {
    match arguments.word {
        None => mateline_app::run(arguments.window.into()).map(|()| Verdict::Met).map_err(|error| error.to_string()),
        Some(Word::Measure(request)) => measure::run(&request).map_err(|error| error.to_string()),
        Some(Word::Check(CheckRequest { request, every: true })) => {
            every::run(&request).map_err(|error| error.to_string())
        }
        Some(Word::Check(CheckRequest { request, .. })) => check::run(&request).map_err(|error| error.to_string()),
        Some(Word::Price(request)) => price::run(&request).map_err(|error| error.to_string()),
        Some(Word::Selection(request)) => selection::run(&request).map_err(|error| error.to_string()),
        Some(Word::Selections(request)) => selections::run(&request).map_err(|error| error.to_string()),
        Some(Word::Explain { rule, book, svg }) => {
            explain::run(&rule, book.as_deref(), svg.as_deref()).map_err(|error| error.to_string())
        }
        Some(Word::Books { book }) => books::print_books(book.as_deref()).map_err(|error| error.to_string()),
    }
}
