//! What the schema cannot say of a selection file: choices answered once, orders in order, sums that are sums.

use std::collections::BTreeMap;

use plan_model::file::FileProblem;
use plan_model::{Id, Money};

use crate::{Change, ChangeOrder, SelectionFile, Signed};

/// Longer labels fit in no report.
const LONGEST_LABEL: usize = 200;
/// Longer remarks belong into a letter.
const LONGEST_NOTE: usize = 2000;

pub(crate) fn problems(file: &SelectionFile, text: &str) -> Vec<FileProblem> {
    let mut checker = Checker { text, found: Vec::new(), agreed: BTreeMap::new() };
    checker.label("buyer", &file.buyer);
    checker.label("plan.name", &file.plan.name);
    for (index, note) in file.notes.iter().enumerate() {
        checker.line(&format!("notes[{index}]"), note, LONGEST_NOTE);
    }
    for (index, chosen) in file.choices.iter().enumerate() {
        let path = format!("choices[{index}]");
        checker.label(&format!("{path}.name"), &chosen.name);
        checker.remark(&path, chosen.note.as_deref());
        if checker.agreed.insert(chosen.choice.clone(), chosen.alternate.clone()).is_some() {
            checker.report(
                &format!("{path}.choice"),
                Some(&chosen.choice),
                "the choice is answered above; each is answered once",
            );
        }
    }
    match &file.signed {
        Some(signed) => checker.signed(file, signed),
        None if !file.change_orders.is_empty() => {
            checker.report("change_orders", None, "change orders follow a signed selection; this one is not signed");
        }
        None => {}
    }
    checker.found
}

struct Checker<'a> {
    text: &'a str,
    found: Vec<FileProblem>,
    /// What is agreed for each choice so far.
    agreed: BTreeMap<Id, Id>,
}

impl Checker<'_> {
    fn report(&mut self, path: &str, id: Option<&Id>, message: impl Into<String>) {
        self.found.push(FileProblem::at(self.text, path, id.cloned(), message.into()));
    }

    fn label(&mut self, path: &str, label: &str) {
        if label.trim().is_empty() {
            self.report(path, None, "expected a name");
        }
        self.line(path, label, LONGEST_LABEL);
    }

    fn remark(&mut self, path: &str, note: Option<&str>) {
        if let Some(note) = note {
            self.line(&format!("{path}.note"), note, LONGEST_NOTE);
        }
    }

    /// What stands in a report is one line of plain text.
    fn line(&mut self, path: &str, line: &str, longest: usize) {
        if line.chars().any(char::is_control) {
            self.report(path, None, "expected one line of text without control characters");
        } else if line.len() > longest {
            self.report(path, None, format!("expected at most {longest} bytes"));
        }
    }

    fn signed(&mut self, file: &SelectionFile, signed: &Signed) {
        self.label("signed.by", &signed.by);
        if signed.date < file.date {
            self.report("signed.date", None, format!("expected no day before that of the selection, {}", file.date));
        }
        if signed.total != file.total {
            self.report("signed.total", None, format!("expected the total of the selection, {}", file.total));
        }
        let (mut total, mut reversed, mut latest) = (signed.total, file.reversed, signed.date);
        for (index, order) in file.change_orders.iter().enumerate() {
            let path = format!("change_orders[{index}]");
            if order.number != index + 1 {
                self.report(
                    &format!("{path}.number"),
                    None,
                    format!("orders are numbered in turn; expected {}", index + 1),
                );
            }
            if order.date < latest {
                self.report(&format!("{path}.date"), None, format!("expected no day before {latest}"));
            }
            self.remark(&path, order.note.as_deref());
            self.changes(&path, order, &mut reversed);
            self.sums(&path, order, total);
            (total, latest) = (order.total, order.date);
        }
    }

    /// Each change goes on from what was agreed before it.
    fn changes(&mut self, path: &str, order: &ChangeOrder, reversed: &mut bool) {
        if order.changes.is_empty() {
            self.report(&format!("{path}.changes"), None, "an order changes something");
        }
        for (index, change) in order.changes.iter().enumerate() {
            let path = format!("{path}.changes[{index}]");
            match change {
                Change::Choice(change) => {
                    self.label(&format!("{path}.choice.now.name"), &change.now.name);
                    self.remark(&format!("{path}.choice.now"), change.now.note.as_deref());
                    let was = self.agreed.insert(change.now.choice.clone(), change.now.alternate.clone());
                    if was != change.was {
                        let agreed = was.map_or_else(|| "nothing".to_owned(), |was| format!("\"{was}\""));
                        let message = format!("until then {agreed} was agreed for this choice");
                        self.report(&format!("{path}.choice.was"), Some(&change.now.choice), message);
                    }
                }
                Change::Reversed(now) if now == reversed => {
                    self.report(&format!("{path}.reversed"), None, "that was agreed already");
                }
                Change::Reversed(now) => *reversed = *now,
            }
        }
    }

    fn sums(&mut self, path: &str, order: &ChangeOrder, before: Money) {
        let sum: Money = order.changes.iter().map(Change::difference).sum();
        if order.difference != sum {
            self.report(&format!("{path}.difference"), None, format!("expected the sum of its changes, {sum}"));
        }
        let after = before + order.difference;
        if order.total != after {
            self.report(&format!("{path}.total"), None, format!("expected {after}: {before} and the difference"));
        }
    }
}
