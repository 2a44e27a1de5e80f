//! The selections by their heated area.

use std::collections::BTreeMap;
use std::ops::ControlFlow;

use fixedbitset::FixedBitSet;
use plan_geometry::{Area, Derived, derive, derive_after};
use plan_model::Plan;

use crate::diagram::{Selections, Variables};
use crate::homes::selection;
use crate::places::Elsewhere;
use crate::tree::{Alternates, Cancelled};

/// Of some selections, those with each heated area; none where it is not known.
///
/// It follows from walls, columns, rooms and the lines between them, so one home is derived for each way to answer the choices
/// that change any of these, as far as that is among the selections. Some of them change no area; that costs time and no more.
pub(super) fn areas(
    plan: &Plan,
    alternates: &Alternates,
    variables: &Variables,
    among: &Selections,
    watch: &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Result<BTreeMap<Option<Area>, Selections>, Cancelled> {
    let elsewhere = Elsewhere::of(plan);
    let changing = |choice: &usize| elsewhere.of_choice(plan, &plan.choices[*choice]).changes_floors;
    let mut matters = FixedBitSet::with_capacity(plan.choices.len());
    matters.extend((0..plan.choices.len()).filter(changing));
    let (mut homes, mut last): (usize, Option<Derived>) = (0, None);
    let leaves = alternates.ask_within(
        |part| !variables.part(part).and(among).is_empty(),
        |answers, part| {
            if matters.ones().any(|choice| part.iter().all(|(settled, _)| *settled != choice)) {
                // Asked again when all of them are settled.
                return Ok((matters.clone(), None));
            }
            if watch(homes).is_break() {
                return Err(Cancelled);
            }
            homes += 1;
            let home = plan.home(&selection(plan, answers));
            let derived = last.as_ref().map_or_else(|| derive(&home), |last| derive_after(last, &home));
            let area = derived.heated_area;
            last = Some(derived);
            Ok((matters.clone(), area))
        },
    )?;
    let mut areas: BTreeMap<Option<Area>, Selections> = BTreeMap::new();
    for leaf in leaves {
        let here = variables.part(&leaf.part).and(among);
        areas.entry(leaf.answer).and_modify(|set| *set = set.or(&here)).or_insert(here);
    }
    Ok(areas)
}
