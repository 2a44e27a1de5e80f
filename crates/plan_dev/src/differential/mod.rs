//! `cargo dev differential`: random plans, measured by us and by a program that shares nothing with ours.
//!
//! Plans come from [`RandomPlan`]; `python/differential.py` works all figures out again with shapely, from the walls as
//! they were drawn. A plan on which the two differ is made as small as it goes and kept as a fixture, which the test
//! `differential_fixtures` reads from then on.

mod described;
mod fixture;
mod oracle;
mod shrink;

use plan_testkit::RandomPlan;

use self::{described::Described, oracle::Oracle};
use crate::{command, console, failure::Failure, python::Python, test_run::Score, workspace::Workspace};

/// How many plans count as one test.
const BATCH: u64 = 100;
/// Which plans are compared.
#[derive(Clone, Copy, Debug, clap::Args)]
pub(crate) struct Run {
    /// How many plans
    #[arg(long, default_value_t = 2000)]
    plans: u64,
    /// Which plans: another seed, other plans
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// How many of the plans that differ are made smaller and kept; the rest are only told
    #[arg(long, default_value_t = 5)]
    keep: usize,
    /// Compare nothing: have shapely measure the kept plans anew
    #[arg(long)]
    record: bool,
}

impl Default for Run {
    fn default() -> Self {
        Self { plans: 2000, seed: 1, keep: 5, record: false }
    }
}

/// Compares plans, in this program if it is built with optimisation.
///
/// # Errors
/// The comparison cannot be made.
pub(crate) fn optimised_or_here(workspace: &Workspace, run: Run) -> Result<Score, Failure> {
    if run.record {
        let python = Python::prepare(workspace)?;
        let plans = fixture::record(workspace, &Oracle::new(workspace, &python))?;
        console::say(format_args!("Shapely has measured the {plans} plans that are kept."));
        return Ok(Score::default());
    }
    if cfg!(debug_assertions) {
        return optimised(workspace, run);
    }
    self::run(workspace, &Python::prepare(workspace)?, run)
}

/// The same run by this program built with optimisation: without it, deriving thousands of plans takes minutes.
///
/// # Errors
/// The program cannot be built or followed.
pub(crate) fn optimised(workspace: &Workspace, run: Run) -> Result<Score, Failure> {
    let [plans, seed, keep] = [run.plans.to_string(), run.seed.to_string(), run.keep.to_string()];
    let words = ["run", "--release", "--quiet", "--package", "plan_dev", "--", "differential"];
    let mut command = workspace.cargo(words.into_iter().chain(["--plans", &plans, "--seed", &seed, "--keep", &keep]));
    let mut score = Score::default();
    let status = command::run_watched(&mut command, |line| {
        if let Some(read) = Score::read(line) {
            score = read;
        }
    })?;
    if !status.success() && score.failed == 0 {
        score += Score::ONE_FAILED;
    }
    if score == Score::default() {
        return Err(Failure::new("The comparison with shapely compared nothing."));
    }
    Ok(score)
}

/// Compares plans, and keeps those that differ.
///
/// # Errors
/// The comparison cannot be made: it is never taken for passed.
fn run(workspace: &Workspace, python: &Python, run: Run) -> Result<Score, Failure> {
    let oracle = Oracle::new(workspace, python);
    let plans: Vec<RandomPlan> = (0..run.plans).map(|index| RandomPlan::numbered(run.seed, index)).collect();
    let described: Vec<Described> = plans.iter().map(|plan| Described::of(&plan.plan())).collect();
    let verdicts = oracle.compare(&described)?;
    let mut score = Score::default();
    let batches = verdicts.chunks(usize::try_from(BATCH).unwrap_or(usize::MAX));
    for batch in batches {
        let agree = batch.iter().all(|verdict| verdict.differences.is_empty());
        score += if agree { Score::ONE_PASSED } else { Score::ONE_FAILED };
    }
    let differing: Vec<(usize, &oracle::Verdict)> =
        verdicts.iter().enumerate().filter(|(_, verdict)| !verdict.differences.is_empty()).collect();
    let rooms: u64 = verdicts.iter().map(|verdict| verdict.rooms_compared).sum();
    console::say(format_args!(
        "Seed {}: {} plans with {rooms} rooms compared, {} differ",
        run.seed,
        verdicts.len(),
        differing.len()
    ));
    for (index, verdict) in &differing {
        console::say(format_args!("Seed {}, plan {index}: {}", run.seed, verdict.differences.join("; ")));
    }
    for (index, _) in differing.iter().take(run.keep) {
        let small = shrink::smallest(&oracle, &plans[*index])?;
        let path = fixture::keep(workspace, run.seed, *index, &small)?;
        console::say(format_args!(
            "Seed {}, plan {index}, made smaller: {} It is kept in {}",
            run.seed,
            small.verdict.differences.join("; "),
            path.display()
        ));
    }
    console::say(score);
    Ok(score)
}
