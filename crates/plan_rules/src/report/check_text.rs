use std::fmt::Write as _;

use plan_geometry::Derived;
use plan_model::{Exact, Home, Selection, Units};

use super::book::book_text;
use super::heading;
use super::problem::problem_text;
use super::text::{paragraph, plain, table};
use crate::{CAUTIONS, Clause, Confidence, Coverage, Judgement, Outcome, Quantity, Verdict, show};

/// The verdicts on a home as text, for people.
#[must_use]
pub fn check_text(home: &Home<'_>, selection: &Selection, derived: &Derived, judgement: &Judgement) -> String {
    let units = home.plan.units;
    let mut text = heading("Plan check", home, selection);
    text.push_str(&book_text(&judgement.book));
    let count = |outcome| judgement.with_outcome(outcome).count();
    let _ = writeln!(
        text,
        "\nCorrections: {}   Unknown: {}   Advisories: {}   Does not apply: {}   Met: {}",
        count(Outcome::Correction),
        count(Outcome::Unknown),
        count(Outcome::Advisory),
        count(Outcome::DoesNotApply),
        count(Outcome::Met),
    );
    for (title, outcome) in
        [("CORRECTIONS", Outcome::Correction), ("UNKNOWN", Outcome::Unknown), ("ADVISORIES", Outcome::Advisory)]
    {
        if count(outcome) > 0 {
            let _ = write!(text, "\n{title}\n");
            text.extend(judgement.with_outcome(outcome).map(|verdict| item(verdict, units)));
        }
    }
    text.push_str(&does_not_apply(judgement));
    if count(Outcome::Met) > 0 {
        let rows: Vec<_> = judgement.met().map(|verdict| row(verdict, units)).collect();
        text.push_str("\nMET\n");
        text.push_str(&table(["rule", "section", "subject", "measured", "required", "margin"], &rows));
        text.push_str(&notes_of(judgement.met()));
    }
    if !derived.problems.is_empty() {
        text.push_str("\nDRAWING FAULTS\n");
        text.extend(derived.problems.iter().map(|problem| paragraph("  - ", &problem_text(problem, units))));
    }
    text.push_str(&sections_text(judgement));
    text.push_str("\nCAUTIONS\n");
    text.extend(CAUTIONS.iter().map(|caution| paragraph("  - ", caution)));
    plain(&text)
}

/// What became of the sections of the book.
#[must_use]
pub fn sections_text(judgement: &Judgement) -> String {
    let mut text = String::new();
    for (title, coverage) in [
        ("SECTIONS JUDGED", Coverage::Judged),
        ("SECTIONS PARTLY JUDGED", Coverage::Partly),
        ("SECTIONS NOT JUDGED", Coverage::NotJudged),
        ("SECTIONS THAT DO NOT APPLY", Coverage::DoesNotApply),
    ] {
        let clauses: Vec<_> = judgement.sections(coverage).map(clause_row).collect();
        if !clauses.is_empty() {
            let _ = write!(text, "\n{title}\n{}", table(["section", "subject"], &clauses));
        }
    }
    text
}

/// A verdict that somebody must act on: the section, the sentence, the place, and what is to be known with it.
fn item(verdict: &Verdict, units: Units) -> String {
    let place = |length| show::length(Exact::from(i128::from(plan_model::Length::steps(length))), units);
    let mut text = paragraph(&format!("  {:9} ", verdict.section.as_deref().unwrap_or("-")), &verdict.message);
    let at = verdict.place.at;
    let _ = writeln!(text, "{:12}at {} along the house, {} from the front", "", place(at.x), place(at.y));
    text.extend(verdict.enter.iter().map(|what| paragraph("            enter: ", what)));
    text.extend(verdict.notes.iter().map(|note| paragraph("            note: ", note)));
    text
}

fn row(verdict: &Verdict, units: Units) -> [String; 6] {
    let [measured, required, margin] = figures(verdict, units);
    let section = verdict.section.clone().unwrap_or_else(|| "-".to_owned());
    [verdict.rule.to_owned(), section, verdict.subject_name.clone(), measured, required, margin]
}

/// Measured, required and margin as people read them.
fn figures(verdict: &Verdict, units: Units) -> [String; 3] {
    let limit = verdict.required.unwrap_or_default();
    let beside = |figure| match verdict.quantity {
        Quantity::LengthAtLeast | Quantity::LengthAtMost => show::length_beside(figure, limit, units),
        Quantity::AreaAtLeast => show::area_beside(figure, limit, units),
        Quantity::CountAtLeast => figure.to_integer().to_string(),
        Quantity::Possible => yes_or_no(figure),
    };
    let alone = |figure| match verdict.quantity {
        Quantity::LengthAtLeast | Quantity::LengthAtMost => show::length(figure, units),
        Quantity::AreaAtLeast => show::area(figure, units),
        Quantity::CountAtLeast => figure.to_integer().to_string(),
        Quantity::Possible => yes_or_no(figure),
    };
    let bound = if verdict.quantity.is_upper_limit() { "at most " } else { "" };
    [
        verdict.measured.map(beside).unwrap_or_else(|| "unknown".to_owned()),
        verdict.required.map(|required| format!("{bound}{}", alone(required))).unwrap_or_default(),
        verdict.margin().filter(|_| verdict.quantity != Quantity::Possible).map(alone).unwrap_or_default(),
    ]
}

fn yes_or_no(figure: Exact) -> String {
    if figure == Exact::from(0) { "no" } else { "yes" }.to_owned()
}

/// A line for each: first what the home has nothing of, then single subjects.
fn does_not_apply(judgement: &Judgement) -> String {
    let (of_home, of_subjects): (Vec<&Verdict>, Vec<&Verdict>) =
        judgement.does_not_apply().partition(|verdict| verdict.subject.is_none());
    let all = || of_home.iter().chain(&of_subjects).copied();
    let row = |verdict: &Verdict| {
        let excepted = verdict.exception.as_ref().and_then(|exception| exception.section.clone());
        let section = excepted.or_else(|| verdict.section.clone()).unwrap_or_else(|| "-".to_owned());
        [verdict.rule.to_owned(), section, verdict.subject_name.clone(), verdict.message.clone()]
    };
    let rows: Vec<_> = all().map(row).collect();
    if rows.is_empty() {
        return String::new();
    }
    format!("\nDOES NOT APPLY\n{}{}", table(["rule", "section", "subject", "why"], &rows), notes_of(all()))
}

/// Each note once, however many verdicts carry it.
fn notes_of<'a>(verdicts: impl Iterator<Item = &'a Verdict>) -> String {
    let mut notes: Vec<(&str, Vec<&str>)> = Vec::new();
    for verdict in verdicts {
        for note in &verdict.notes {
            match notes.iter_mut().find(|(known, _)| known == note) {
                Some((_, rules)) if rules.last() == Some(&verdict.rule) => {}
                Some((_, rules)) => rules.push(verdict.rule),
                None => notes.push((note, vec![verdict.rule])),
            }
        }
    }
    notes.iter().map(|(note, rules)| paragraph("  note: ", &format!("{}: {note}", rules.join(", ")))).collect()
}

fn clause_row(clause: &Clause) -> [String; 2] {
    let doubt = match clause.confidence {
        Confidence::Confirmed => "",
        Confidence::ConfirmWithAdoptedText => " (confirm the number with the adopted text)",
    };
    [clause.section.clone(), clause.subject.clone() + doubt]
}
