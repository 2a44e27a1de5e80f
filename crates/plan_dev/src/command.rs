//! Running other programs, with a sentence for each way in which they can fail.

use std::{
    io::{BufRead, BufReader},
    path::Path,
    process::{Command, ExitStatus, Stdio},
};

use crate::{console, failure::Failure};

/// Runs a program in view of the terminal.
///
/// # Errors
/// It does not start, or does not end with success.
pub(crate) fn run(command: &mut Command) -> Result<(), Failure> {
    let status = command.status().map_err(|error| not_started(command, &error))?;
    succeeded(command, status)
}

/// Runs a program and gives what it printed, whatever its exit code. What it complains of stays in view.
///
/// # Errors
/// It does not start, or a signal ended it.
pub(crate) fn printed(command: &mut Command) -> Result<Vec<u8>, Failure> {
    let output = command.stderr(Stdio::inherit()).output().map_err(|error| not_started(command, &error))?;
    match output.status.code() {
        Some(_) => Ok(output.stdout),
        None => Err(ended(command, output.status)),
    }
}

/// Runs a program and gives what it printed.
///
/// # Errors
/// It does not start, or does not end with success.
pub(crate) fn printed_on_success(command: &mut Command) -> Result<Vec<u8>, Failure> {
    let output = command.stderr(Stdio::inherit()).output().map_err(|error| not_started(command, &error))?;
    succeeded(command, output.status)?;
    Ok(output.stdout)
}

/// Runs a program whose lines are passed on as they come and also shown to `read`.
///
/// # Errors
/// It does not start, or its lines cannot be read.
pub(crate) fn run_watched(command: &mut Command, mut read: impl FnMut(&str)) -> Result<ExitStatus, Failure> {
    let mut child = command.stdout(Stdio::piped()).spawn().map_err(|error| not_started(command, &error))?;
    if let Some(stdout) = child.stdout.take() {
        let mut lines = BufReader::new(stdout);
        let mut line = Vec::new();
        // Bytes, not text: a test may print what is not UTF-8.
        while lines.read_until(b'\n', &mut line).map_err(|error| lost(command, &error))? > 0 {
            console::pass_on(&line);
            read(String::from_utf8_lossy(&line).trim_end());
            line.clear();
        }
    }
    child.wait().map_err(|error| lost(command, &error))
}

/// The command line, for messages: the program without its folder, then the words.
fn line(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let words = program.file_name().into_iter().chain(command.get_args());
    words.map(|word| word.to_string_lossy()).collect::<Vec<_>>().join(" ")
}

/// How a program ended that did not succeed.
fn ended(command: &Command, status: ExitStatus) -> Failure {
    Failure::new(format!("`{}` ended with {status}.", line(command)))
}

fn succeeded(command: &Command, status: ExitStatus) -> Result<(), Failure> {
    if status.success() { Ok(()) } else { Err(ended(command, status)) }
}

fn not_started(command: &Command, error: &std::io::Error) -> Failure {
    Failure::new(format!("`{}` could not be started: {error}.", line(command)))
}

fn lost(command: &Command, error: &std::io::Error) -> Failure {
    Failure::new(format!("`{}` could not be followed: {error}.", line(command)))
}
