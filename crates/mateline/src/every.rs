use num_bigint::BigUint;
use plan_proof::{ProofError, prove, report};

use crate::arguments::{Format, Request};
use crate::input::Input;
use crate::output::{Verdict, print};
use crate::progress::Progress;
use crate::unjudged::Unjudged;

/// Proves every selection of a plan and prints the report.
pub(crate) fn run(request: &Request) -> Result<Verdict, Unjudged> {
    let Input { plan, book, .. } = Input::read(request)?;
    let mut progress = Progress::new();
    let proof = prove(&plan, &book, &mut |homes| progress.of(homes));
    progress.end();
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
