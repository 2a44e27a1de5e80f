//! `cargo dev differential`: random plans, measured by us and by programs that share nothing with ours.
//!
//! Plans come from [`RandomPlan`]; scripts in `python` work all figures out again with shapely and networkx, from what was
//! drawn. A plan on which the two differ is made as small as it goes and kept as a fixture, and every run compares what was
//! kept before.

mod described;
mod fixture;
mod oracle;
mod room_figures;
mod shrink;
mod subject;
mod way_figures;

use plan_testkit::RandomPlan;

pub(crate) use self::subject::Subject;
use self::{described::Described, oracle::Oracle};
use crate::{command, console, failure::Failure, python::Python, test_run::Score, workspace::Workspace};

/// How many plans count as one test.
const BATCH: u64 = 100;
/// Which plans are compared.
#[derive(Clone, Copy, Debug, clap::Args)]
pub(crate) struct Run {
    /// What is compared; everything if left out
    #[arg(long, value_enum)]
    of: Option<Subject>,
    /// How many plans; as many as `cargo dev test` compares if left out
    #[arg(long)]
    plans: Option<u64>,
    /// Which plans: another seed, other plans
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// The number of the first plan, to compare one again
    #[arg(long, default_value_t = 0)]
    first: u64,
    /// How many of the plans that differ are made smaller and kept; the rest are only told
    #[arg(long, default_value_t = 5)]
    keep: usize,
    /// Compare nothing: have the other programs measure the kept plans anew
    #[arg(long)]
    record: bool,
}

impl From<Subject> for Run {
    /// The run that belongs to `cargo dev test`.
    fn from(subject: Subject) -> Self {
        Self { of: Some(subject), plans: None, seed: 1, first: 0, keep: 5, record: false }
    }
}

/// Compares plans, in this program if it is built with optimisation.
///
/// # Errors
/// The comparison cannot be made.
pub(crate) fn optimised_or_here(workspace: &Workspace, run: Run) -> Result<Score, Failure> {
    let subjects = run.of.map_or(Subject::ALL.to_vec(), |subject| vec![subject]);
    if run.record {
        let python = Python::prepare(workspace)?;
        for subject in subjects {
            let plans = fixture::record(workspace, &Oracle::new(workspace, &python, subject))?;
            console::say(format_args!("{}: {plans} kept plans are measured anew.", subject.word()));
        }
        return Ok(Score::default());
    }
    if cfg!(debug_assertions) {
        return optimised(workspace, run);
    }
    let python = Python::prepare(workspace)?;
    let mut score = Score::default();
    for subject in subjects {
        score += self::run(&Oracle::new(workspace, &python, subject), workspace, run)?;
    }
    console::say(score);
    Ok(score)
}

/// The same run by this program built with optimisation: without it, deriving thousands of plans takes minutes.
///
/// # Errors
/// The program cannot be built or followed.
pub(crate) fn optimised(workspace: &Workspace, run: Run) -> Result<Score, Failure> {
    let words = ["run", "--profile", "optimised", "--quiet", "--package", "plan_dev", "--", "differential"];
    let mut command = workspace.cargo(words);
    let [seed, first, keep] = [run.seed.to_string(), run.first.to_string(), run.keep.to_string()];
    command.args(["--seed", &seed, "--first", &first, "--keep", &keep]);
    if let Some(subject) = run.of {
        command.args(["--of", subject.word()]);
    }
    if let Some(plans) = run.plans {
        command.args(["--plans", &plans.to_string()]);
    }
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
        return Err(Failure::new("The comparison with other programs compared nothing."));
    }
    Ok(score)
}

/// Compares plans of one subject, and keeps those that differ.
///
/// # Errors
/// The comparison cannot be made, or compares nothing: it is never taken for passed.
fn run(oracle: &Oracle<'_>, workspace: &Workspace, run: Run) -> Result<Score, Failure> {
    let (subject, seed) = (oracle.subject, run.seed);
    let kept = fixture::kept(workspace, subject)?;
    let count = usize::try_from(run.plans.unwrap_or(subject.plans())).unwrap_or(usize::MAX);
    let plans: Vec<(u64, RandomPlan)> =
        (run.first..).take(count).map(|index| (index, subject.random_plan(seed, index))).collect();
    let before = kept.iter().map(|(_, plan)| subject.describe(plan));
    let described: Vec<Described> =
        before.chain(plans.iter().map(|(_, plan)| subject.describe(&plan.plan()))).collect();
    let verdicts = oracle.compare(&described)?;
    let mut score = Score::default();
    let batches = verdicts.chunks(usize::try_from(BATCH).unwrap_or(usize::MAX));
    for batch in batches {
        let agree = batch.iter().all(|verdict| verdict.differences.is_empty());
        score += if agree { Score::ONE_PASSED } else { Score::ONE_FAILED };
    }
    let differing: Vec<(usize, &oracle::Verdict)> =
        verdicts.iter().enumerate().filter(|(_, verdict)| !verdict.differences.is_empty()).collect();
    let compared: u64 = verdicts.iter().map(|verdict| verdict.compared).sum();
    let counted = subject.counted();
    if compared == 0 {
        return Err(Failure::new(format!("Of all plans no {counted} were compared.")));
    }
    console::say(format_args!(
        "Seed {seed}: {} plans and {} kept ones with {compared} {counted} compared, {} differ",
        plans.len(),
        kept.len(),
        differing.len()
    ));
    for (at, verdict) in &differing {
        let differences = verdict.differences.join("; ");
        match kept.get(*at) {
            Some((path, _)) => console::say(format_args!("Kept plan {}: {differences}", path.display())),
            None => console::say(format_args!("Seed {seed}, plan {}: {differences}", plans[at - kept.len()].0)),
        }
    }
    let random = differing.iter().filter_map(|(at, _)| plans.get(at.checked_sub(kept.len())?));
    for (index, plan) in random.take(run.keep) {
        let small = shrink::smallest(oracle, plan)?;
        let path = fixture::keep(workspace, subject, seed, *index, &small)?;
        console::say(format_args!(
            "Seed {seed}, plan {index}, made smaller: {} It is kept in {}",
            small.verdict.differences.join("; "),
            path.display()
        ));
    }
    Ok(score)
}
