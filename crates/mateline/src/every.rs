use std::io::{self, IsTerminal, Write};
use std::ops::ControlFlow;
use std::time::{Duration, Instant};

use num_bigint::BigUint;
use plan_proof::{ProofError, prove, report};

use crate::arguments::{Format, Request};
use crate::input::Input;
use crate::output::{Verdict, print};
use crate::unjudged::Unjudged;

/// Whoever waits longer is told how far it is.
const SOON: Duration = Duration::from_millis(500);

/// Proves every selection of a plan and prints the report.
pub(crate) fn run(request: &Request) -> Result<Verdict, Unjudged> {
    let Input { plan, book, .. } = Input::read(request)?;
    let mut told = Told::new();
    let proof = prove(&plan, &book, &mut |homes| told.of(homes));
    told.end();
    let proof = proof.map_err(|error| match error {
        ProofError::WrongLegalKind(error) => Unjudged::WrongLegalKind { error, path: request.file.clone() },
        ProofError::Cancelled => Unjudged::Stopped,
    })?;
    print(&match request.format {
        Format::Text => report::every_text(&proof, &book),
        Format::Json => report::every_json(&proof, &book),
    })?;
    Ok(if proof.falling_short() > BigUint::ZERO {
        Verdict::Corrections
    } else if proof.not_known() > BigUint::ZERO {
        Verdict::Unknown
    } else {
        Verdict::Met
    })
}

/// A line on the terminal that says how many homes were looked at.
struct Told {
    since: Instant,
    last: Option<Instant>,
}

impl Told {
    fn new() -> Self {
        Self { since: Instant::now(), last: None }
    }

    fn of(&mut self, homes: usize) -> ControlFlow<()> {
        let is_due = self.last.map_or(self.since.elapsed() > SOON, |last| last.elapsed() > SOON);
        if is_due && io::stderr().is_terminal() {
            self.last = Some(Instant::now());
            let _ = write!(io::stderr(), "\rlooked at {homes} homes");
        }
        ControlFlow::Continue(())
    }

    fn end(&self) {
        if self.last.is_some() {
            let _ = writeln!(io::stderr());
        }
    }
}
