//! `mateline selection`: what a buyer chose, what of the plan was changed since, and change orders.

use std::path::Path;

use mateline_app::files::{Expected, ReadSelection, read_plan, read_selection, save_selection};
use plan_geometry::derive;
use plan_model::{Date, Plan, Selection};
use plan_selection::{As, SelectionFile, open, selection_json, selection_text};

use crate::arguments::{Format, SelectionRequest};
use crate::input::{answered, refuse_conflicts};
use crate::output::{Verdict, print, tell};
use crate::unjudged::Unjudged;

/// Shows a selection; keeps, changes or signs it where that is asked for.
pub(crate) fn run(request: &SelectionRequest) -> Result<Verdict, Unjudged> {
    let plan = read_plan(&request.plan)?.plan;
    let kept = request.selection.as_deref().map(read_selection).transpose()?;
    let mut file = match &kept {
        Some(kept) => gone_on(request, &plan, &kept.file)?,
        None => begun(request, &plan)?,
    };
    if let Some(by) = &request.sign {
        file = signed(request, &plan, &file, by)?;
    }
    if let Some(path) = &request.save {
        save(request, kept.as_ref(), &file, path)?;
    }
    let opened = open(&file, &plan);
    let format = if request.json { Format::Json } else { request.format };
    print(&match format {
        Format::Text => selection_text(&plan, &file, &opened),
        Format::Json => selection_json(&plan, &file, &opened),
    })?;
    if let Some(path) = &request.save {
        tell(&format!("Saved. File: {}", path.display()));
    }
    Ok(if opened.holds() { Verdict::Met } else { Verdict::Corrections })
}

/// A new selection.
fn begun(request: &SelectionRequest, plan: &Plan) -> Result<SelectionFile, Unjudged> {
    let included = Selection::included(plan).with_reversed(request.reversed);
    let selection = answered(included, plan, &request.selected, &request.plan)?;
    let buyer = request.buyer.clone().ok_or(Unjudged::NotStated("a new selection is for somebody: --buyer LABEL"))?;
    kept_anew(request, plan, &selection, As { buyer, date: date(request)?, notes: request.notes.clone() })
}

/// The selection of a file with what is asked to be changed: kept anew, or by a change order once it is signed.
fn gone_on(request: &SelectionRequest, plan: &Plan, file: &SelectionFile) -> Result<SelectionFile, Unjudged> {
    let turned = request.reversed || request.as_drawn;
    let is_signed = file.signed.is_some();
    let states =
        request.buyer.is_some() || !request.notes.is_empty() || request.date.is_some() && request.sign.is_none();
    if request.selected.is_empty() && !turned && (is_signed || !states) {
        return Ok(file.clone());
    }
    let opened = open(file, plan);
    let path = request.selection.as_deref().unwrap_or(&request.plan);
    let gone: Vec<String> = opened.findings.iter().filter(|it| !it.holds()).map(ToString::to_string).collect();
    if !gone.is_empty() && request.selected.is_empty() {
        return Err(Unjudged::NoLongerHolds { gone, path: path.to_owned() });
    }
    let selection = if turned { opened.selection.with_reversed(request.reversed) } else { opened.selection };
    let selection = answered(selection, plan, &request.selected, &request.plan)?;
    if !is_signed {
        let buyer = request.buyer.clone().unwrap_or_else(|| file.buyer.clone());
        let notes = file.notes.iter().chain(&request.notes).cloned().collect();
        let mut anew = kept_anew(request, plan, &selection, As { buyer, date: date(request)?, notes })?;
        anew.keep_remarks_of(file);
        return Ok(anew);
    }
    can_be_had(request, plan, &selection)?;
    let note = (!request.notes.is_empty()).then(|| request.notes.join(" "));
    file.order_change(plan, &selection, date(request)?, note)
        .map_err(|error| Unjudged::NoOrder { error, path: path.to_owned() })
}

fn kept_anew(
    request: &SelectionRequest,
    plan: &Plan,
    selection: &Selection,
    stated: As,
) -> Result<SelectionFile, Unjudged> {
    can_be_had(request, plan, selection)?;
    Ok(SelectionFile::record(plan, selection, stated))
}

/// What cannot be had is neither kept, nor ordered, nor signed.
fn can_be_had(request: &SelectionRequest, plan: &Plan, selection: &Selection) -> Result<(), Unjudged> {
    let refusals = plan_choices::refusals(plan, selection);
    if !refusals.is_empty() {
        return Err(Unjudged::Refused { refusals, path: request.plan.clone() });
    }
    refuse_conflicts(&derive(&plan.home(selection)), &request.plan)
}

fn signed(request: &SelectionRequest, plan: &Plan, file: &SelectionFile, by: &str) -> Result<SelectionFile, Unjudged> {
    can_be_had(request, plan, &open(file, plan).selection)?;
    file.sign(plan, by, date(request)?).map_err(|error| Unjudged::NotSignable { error, path: request.plan.clone() })
}

fn date(request: &SelectionRequest) -> Result<Date, Unjudged> {
    request.date.ok_or(Unjudged::NotStated("what is kept, ordered or signed has a day: --date, such as 2026-03-02"))
}

/// Writes over nothing but the very file that was read.
fn save(
    request: &SelectionRequest,
    kept: Option<&ReadSelection>,
    file: &SelectionFile,
    path: &Path,
) -> Result<(), Unjudged> {
    let was_read = kept.filter(|_| request.selection.as_deref() == Some(path));
    save_selection(path, file, was_read.map_or(Expected::Nothing, |kept| Expected::Text(&kept.text)))?;
    Ok(())
}
