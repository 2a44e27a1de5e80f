//! Tables of measures in Markdown: what is measured, of what, how much, and how that was reckoned.

use plan_geometry::Measure;
use plan_model::Id;

use super::stated::{Slack, Stated};

/// One measure as it was reckoned by hand.
pub(super) struct Row<'a> {
    /// The name of the measure in reports.
    pub(super) name: &'a str,
    /// The elements that it is of, in their order.
    of: Vec<&'a str>,
    /// The part of them, in brackets behind them.
    part: Option<&'a str>,
    amount: Stated,
    /// As it is written.
    pub(super) line: &'a str,
}

impl Row<'_> {
    /// Whether a measure is this one, and as much.
    pub(super) fn holds(&self, measure: &Measure, slack: Slack) -> bool {
        self.name == measure.name.word()
            && self.of.iter().copied().eq(measure.of.iter().map(Id::as_str))
            && self.part.map(str::to_owned) == measure.part.map(|part| part.to_string())
            && self.amount.holds(&measure.amount, slack)
    }

    /// Whether the measure is of an element.
    pub(super) fn names(&self, element: &str) -> bool {
        self.of.contains(&element)
    }
}

/// The rows of all tables of a page.
pub(super) fn rows(page: &str) -> Vec<Row<'_>> {
    let is_head = |line: &str| line.starts_with("| measure |") || line.starts_with("| ---");
    page.lines().filter(|line| line.starts_with('|') && !is_head(line)).map(row).collect()
}

fn row(line: &str) -> Row<'_> {
    let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
    let [name, of, amount, reckoned] = cells[..] else { panic!("a row has four cells: {line}") };
    assert!(!reckoned.is_empty(), "a row says how it was reckoned: {line}");
    let (of, part) = match of.strip_suffix(')').and_then(|of| of.rsplit_once(" (")) {
        Some((of, part)) => (of, Some(part)),
        None => (of, None),
    };
    let of = of.split(", ").filter(|id| !id.is_empty()).collect();
    let amount = Stated::read(amount).unwrap_or_else(|| panic!("`{amount}` is no amount: {line}"));
    Row { name, of, part, amount, line }
}
