//! Making a plan on which two programs differ as small as it goes.

use plan_testkit::RandomPlan;

use super::oracle::{Oracle, Verdict};
use crate::failure::Failure;

/// A plan on which the two differ, though they do not on anything a little smaller.
pub(super) struct Smallest {
    pub(super) plan: RandomPlan,
    pub(super) verdict: Verdict,
}

/// Takes the first smaller plan that still differs, again and again.
///
/// # Errors
/// The comparison cannot be made, or the plan does not differ.
pub(super) fn smallest(oracle: &Oracle<'_>, plan: &RandomPlan) -> Result<Smallest, Failure> {
    let mut smallest = differing(oracle, std::slice::from_ref(plan))?
        .ok_or_else(|| Failure::new("A plan that differed does not differ when it is compared again."))?;
    while let Some(smaller) = differing(oracle, &smallest.plan.smaller())? {
        smallest = smaller;
    }
    Ok(smallest)
}

fn differing(oracle: &Oracle<'_>, plans: &[RandomPlan]) -> Result<Option<Smallest>, Failure> {
    let described: Vec<_> = plans.iter().map(|plan| oracle.subject.describe(&plan.plan())).collect();
    let verdicts = oracle.compare(&described)?;
    let found = plans.iter().zip(verdicts).find(|(_, verdict)| !verdict.differences.is_empty());
    Ok(found.map(|(plan, verdict)| Smallest { plan: plan.clone(), verdict }))
}
