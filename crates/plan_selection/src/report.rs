//! What a selection file holds and what changed since: as text for people, as JSON for programs.

use std::fmt::Write as _;

use plan_choices::Refusal;
use plan_model::file::lay_out;
use plan_model::{Id, Money, Plan};
use schemars::{JsonSchema, Schema};
use serde::Serialize;

use crate::finding::signed;
use crate::{Change, ChangeOrder, Opened, SelectionFile, Signed};

/// A selection, opened against the plan as it is now.
#[derive(Debug, Serialize, JsonSchema)]
struct SelectionReport {
    /// Version of this report.
    #[schemars(extend("const" = 1))]
    mateline_selection_report: u32,
    /// Name of the plan as it is now.
    plan: String,
    /// Who builds it.
    maker: String,
    /// What the buyer is called.
    buyer: String,
    /// The day for which prices are stated.
    date: String,
    /// Whether the home is built mirrored left to right, after every change order.
    reversed: bool,
    /// The currency of every price, as an ISO 4217 code, when the selection was kept.
    currency: String,
    /// What is agreed for each choice, after every change order.
    choices: Vec<ChoiceReport>,
    /// The price of the home when the selection was kept.
    total: Money,
    /// Whatever else was agreed.
    notes: Vec<String>,
    /// Who signed it, if anybody did.
    signed: Option<Signed>,
    /// What was changed after it was signed.
    change_orders: Vec<ChangeOrder>,
    /// The price of the home after every change order.
    agreed_total: Money,
    /// What the same home costs by the plan as it is now, with the included alternate for whatever the plan no longer has.
    price_now: Money,
    /// The currency of the plan as it is now.
    currency_now: String,
    /// Whether the plan is as it was when the selection was kept.
    plan_is_unchanged: bool,
    /// Whether what was chosen can still be had as it was chosen, as far as the plan declares.
    holds: bool,
    /// What of the plan was changed since.
    changed: Vec<FindingReport>,
    /// What the plan declares against the selection: a sentence for each.
    refused: Vec<String>,
}

/// What is agreed for one choice.
#[derive(Debug, Serialize, JsonSchema)]
struct ChoiceReport {
    /// The choice.
    choice: Id,
    /// The alternate.
    alternate: Id,
    /// What both are called.
    name: String,
    /// What it adds to the price, as agreed.
    price: Money,
    /// A remark.
    note: Option<String>,
}

/// One thing that was changed.
#[derive(Debug, Serialize, JsonSchema)]
struct FindingReport {
    /// What kind of thing: `price`, `alternate-gone`.
    kind: &'static str,
    /// Whether what was chosen can still be had as it was chosen, as far as this says.
    holds: bool,
    /// The sentence for people.
    sentence: String,
}

/// A selection as JSON, for programs; [`selection_report_schema`] describes it.
#[must_use]
pub fn selection_json(plan: &Plan, file: &SelectionFile, opened: &Opened) -> String {
    let choices = file.agreed().into_iter().map(|chosen| ChoiceReport {
        choice: chosen.choice.clone(),
        alternate: chosen.alternate.clone(),
        name: chosen.name.clone(),
        price: chosen.price,
        note: chosen.note.clone(),
    });
    let changed = opened.findings.iter().map(|finding| FindingReport {
        kind: finding.word(),
        holds: finding.holds(),
        sentence: finding.to_string(),
    });
    lay_out(&SelectionReport {
        mateline_selection_report: 1,
        plan: plan.name.clone(),
        maker: plan.maker.clone(),
        buyer: file.buyer.clone(),
        date: file.date.to_string(),
        reversed: file.is_reversed(),
        currency: file.plan.currency.clone(),
        choices: choices.collect(),
        total: file.total,
        notes: file.notes.clone(),
        signed: file.signed.clone(),
        change_orders: file.change_orders.clone(),
        agreed_total: file.agreed_total(),
        price_now: opened.price,
        currency_now: plan.currency.clone(),
        plan_is_unchanged: opened.plan_is_unchanged(),
        holds: opened.holds(),
        changed: changed.collect(),
        refused: opened.refusals.iter().map(Refusal::to_string).collect(),
    })
}

/// The JSON Schema of [`selection_json`].
#[must_use]
pub fn selection_report_schema() -> Schema {
    let mut schema = schemars::schema_for!(SelectionReport);
    schema.insert("title".into(), "Mateline selection report, version 1".into());
    schema
}

/// A selection as text, for people.
#[must_use]
pub fn selection_text(plan: &Plan, file: &SelectionFile, opened: &Opened) -> String {
    let mut text = String::new();
    let currency = &file.plan.currency;
    let _ = writeln!(text, "Selection: {} by {}", plan.name, plan.maker);
    let _ = writeln!(text, "Buyer: {}", file.buyer);
    let _ = writeln!(text, "Prices as of {}, in {currency}", file.date);
    if file.reversed {
        text.push_str("Reversed: mirrored left to right\n");
    }
    choices(&mut text, file);
    if let Some(Signed { by, date, total }) = &file.signed {
        let _ = writeln!(text, "\nSIGNED by {by} on {date}: {total} {currency}");
    }
    for order in &file.change_orders {
        change_order(&mut text, order, currency);
    }
    if !file.change_orders.is_empty() {
        let _ = writeln!(text, "\nAGREED {} {currency}", file.agreed_total());
    }
    if !file.notes.is_empty() {
        text.push_str("\nNOTES\n");
        file.notes.iter().for_each(|note| line(&mut text, note, ""));
    }
    since(&mut text, plan, file, opened);
    text
}

/// Figures stand at the end of a line, in one column where the words leave room.
fn line(text: &mut String, words: &str, figure: &str) {
    let written = if figure.is_empty() { format!("  {words}") } else { format!("  {words:60} {figure:>12}") };
    let _ = writeln!(text, "{}", written.trim_end());
}

/// What was chosen when the selection was kept; change orders tell the rest.
fn choices(text: &mut String, file: &SelectionFile) {
    text.push_str("\nCHOICES\n");
    line(text, "Base price", &file.plan.base_price.to_string());
    for chosen in &file.choices {
        let price = if chosen.price.is_zero() { "included".to_owned() } else { signed(chosen.price) };
        line(text, &chosen.name, &price);
        if let Some(note) = &chosen.note {
            line(text, &format!("  {note}"), "");
        }
    }
    line(text, "Total", &file.total.to_string());
}

fn change_order(text: &mut String, order: &ChangeOrder, currency: &str) {
    let _ = writeln!(text, "\nCHANGE ORDER {} of {}", order.number, order.date);
    for change in &order.changes {
        let words = match change {
            Change::Choice(change) => match &change.was_name {
                Some(was) => format!("{} instead of {was}", change.now.name),
                None => change.now.name.clone(),
            },
            Change::Reversed(true) => "Reversed: mirrored left to right (the plan holds no price for it)".to_owned(),
            Change::Reversed(false) => "As drawn, not reversed (the plan holds no price for it)".to_owned(),
        };
        let figure = if matches!(change, Change::Reversed(_)) { String::new() } else { signed(change.difference()) };
        line(text, &words, &figure);
    }
    if let Some(note) = &order.note {
        line(text, note, "");
    }
    line(text, "Difference", &signed(order.difference));
    line(text, &format!("Total in {currency}"), &order.total.to_string());
}

fn since(text: &mut String, plan: &Plan, file: &SelectionFile, opened: &Opened) {
    if opened.plan_is_unchanged() {
        let _ = writeln!(text, "\nThe plan is as it was on {}.", file.date);
    } else {
        let _ = writeln!(text, "\nCHANGED SINCE {}", file.date);
        let (holding, gone): (Vec<_>, Vec<_>) = opened.findings.iter().partition(|finding| finding.holds());
        holding.iter().for_each(|finding| line(text, &finding.to_string(), ""));
        if !gone.is_empty() {
            text.push_str("\nNO LONGER HOLDS\n");
            gone.iter().for_each(|finding| line(text, &finding.to_string(), ""));
        }
        let _ = writeln!(text, "\nBy the plan as it is now: {} {}", opened.price, plan.currency);
    }
    if !opened.refusals.is_empty() {
        text.push_str("\nCANNOT BE HAD\n");
        opened.refusals.iter().for_each(|refusal| line(text, &format!("{refusal}."), ""));
    }
}
