//! A selection file opened against the plan as it is now.

use plan_choices::{Refusal, refusals};
use plan_model::file::{PartDigests, drawn_digest, nearest, plan_digest};
use plan_model::{Alternate, AlternateRef, Choice, Money, Plan, Selection};

use crate::record::name;
use crate::{Chosen, Finding, PlanPart, SelectionFile};

/// What a selection file comes to with the plan as it is now.
#[derive(Clone, Debug)]
pub struct Opened {
    /// What is agreed, as far as the plan still has it; the included alternate for every other choice.
    pub selection: Selection,
    /// What is not as it was; empty where the plan is the very same.
    pub findings: Vec<Finding>,
    /// What the plan declares against the selection.
    pub refusals: Vec<Refusal>,
    /// What the home costs by the plan's prices of now.
    pub price: Money,
}

impl Opened {
    /// Whether what was chosen can still be had as it was chosen.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.refusals.is_empty() && self.findings.iter().all(Finding::holds)
    }

    /// Whether the plan is as it was.
    #[must_use]
    pub const fn plan_is_unchanged(&self) -> bool {
        self.findings.is_empty()
    }
}

/// Opens a selection file against a plan, and says what changed since it was kept.
#[must_use]
pub fn open(file: &SelectionFile, plan: &Plan) -> Opened {
    let mut selection = Selection::included(plan).with_reversed(file.is_reversed());
    let mut findings = of_the_plan(file, plan);
    for chosen in file.agreed() {
        findings.extend(gone(file, plan, chosen));
        let answer = AlternateRef { choice: chosen.choice.clone(), alternate: chosen.alternate.clone() };
        if let Ok(with) = selection.with(plan, &answer) {
            selection = with;
        }
        if let Some((choice, alternate)) = found(plan, chosen) {
            findings.extend(changed(chosen, choice, alternate));
        }
    }
    findings.extend(new_choices(file, plan));
    if findings.is_empty() && file.plan_sha256() != plan_digest(plan) {
        findings.push(Finding::OfNoConcern);
    }
    let (refusals, price) = (refusals(plan, &selection), plan_choices::price(plan, &selection));
    Opened { selection, findings, refusals, price }
}

fn found<'plan>(plan: &'plan Plan, chosen: &Chosen) -> Option<(&'plan Choice, &'plan Alternate)> {
    let choice = plan.choice(&chosen.choice)?;
    Some((choice, choice.alternate(&chosen.alternate)?))
}

fn of_the_plan(file: &SelectionFile, plan: &Plan) -> Vec<Finding> {
    let (was, parts) = (&file.plan, PartDigests::of(plan));
    let mut findings = Vec::new();
    if was.name != plan.name {
        findings.push(Finding::PlanName { was: was.name.clone(), now: plan.name.clone() });
    }
    if was.currency != plan.currency {
        findings.push(Finding::Currency { was: was.currency.clone(), now: plan.currency.clone() });
    }
    if was.base_price != plan.base_price {
        findings.push(Finding::BasePrice { was: was.base_price, now: plan.base_price });
    }
    let parts = [
        (PlanPart::Base, was.parts.base == parts.base),
        (PlanPart::Catalogue, was.parts.catalogue == parts.catalogue),
        (PlanPart::Modules, was.parts.modules == parts.modules),
        (PlanPart::Home, was.parts.home == parts.home),
        (PlanPart::Prices, was.parts.prices == parts.prices),
    ];
    findings.extend(parts.into_iter().filter(|(_, is_same)| !is_same).map(|(part, _)| Finding::Part(part)));
    findings
}

/// What was chosen and is no longer to be had.
fn gone(file: &SelectionFile, plan: &Plan, chosen: &Chosen) -> Option<Finding> {
    let Some(choice) = plan.choice(&chosen.choice) else {
        let is_answered = |choice: &&Choice| file.agreed().iter().any(|other| other.choice == choice.id);
        let others = plan.choices.iter().filter(|choice| !is_answered(choice));
        let nearest = nearest(chosen.choice.as_str(), others.map(|choice| choice.id.as_str()));
        return Some(Finding::ChoiceGone { name: chosen.name.clone(), choice: chosen.choice.clone(), nearest });
    };
    if choice.alternate(&chosen.alternate).is_some() {
        return None;
    }
    let answer = AlternateRef { choice: chosen.choice.clone(), alternate: chosen.alternate.clone() };
    let nearest = nearest(chosen.alternate.as_str(), choice.alternates.iter().map(|other| other.id.as_str()));
    let instead = choice.included().map(|included| name(choice, included)).unwrap_or_default();
    Some(Finding::AlternateGone { name: chosen.name.clone(), answer, nearest, instead })
}

fn new_choices(file: &SelectionFile, plan: &Plan) -> Vec<Finding> {
    let agreed = file.agreed();
    let is_new = |choice: &&Choice| agreed.iter().all(|chosen| chosen.choice != choice.id);
    let answered = |choice: &Choice| {
        let name = name(choice, choice.included()?);
        Some(Finding::NewChoice { choice: choice.id.clone(), name })
    };
    plan.choices.iter().filter(is_new).filter_map(answered).collect()
}

/// What of an alternate is not as it was.
fn changed(chosen: &Chosen, choice: &Choice, alternate: &Alternate) -> Vec<Finding> {
    let now = name(choice, alternate);
    let mut findings = Vec::new();
    if chosen.name != now {
        findings.push(Finding::Name { was: chosen.name.clone(), now: now.clone() });
    }
    if chosen.price != alternate.price {
        findings.push(Finding::Price { name: now.clone(), was: chosen.price, now: alternate.price });
    }
    let difference = |was: &[AlternateRef], is: &[AlternateRef]| {
        let only = |some: &[AlternateRef], others: &[AlternateRef]| -> Vec<AlternateRef> {
            some.iter().filter(|answer| !others.contains(answer)).cloned().collect()
        };
        let (added, dropped) = (only(is, was), only(was, is));
        (!added.is_empty() || !dropped.is_empty()).then_some((added, dropped))
    };
    if let Some((added, dropped)) = difference(&chosen.needs, &alternate.needs) {
        findings.push(Finding::Needs { name: now.clone(), added, dropped });
    }
    if let Some((added, dropped)) = difference(&chosen.excludes, &alternate.excludes) {
        findings.push(Finding::Excludes { name: now.clone(), added, dropped });
    }
    if chosen.drawn != drawn_digest(alternate) {
        findings.push(Finding::Drawn { name: now });
    }
    findings
}
