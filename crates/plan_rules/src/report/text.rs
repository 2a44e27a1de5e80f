//! Text laid out for a terminal.

use std::fmt::Write as _;

use crate::escape::controls;

/// What a line of prose may be wide.
const WIDTH: usize = 100;

/// Rows of cells in columns, two spaces apart and two in; nothing follows the last cell of a row.
pub(super) fn table<const COLUMNS: usize>(head: [&str; COLUMNS], rows: &[[String; COLUMNS]]) -> String {
    let head = head.map(str::to_owned);
    let width = |column: usize| std::iter::once(&head).chain(rows).map(|row| row[column].chars().count()).max();
    let widths: [usize; COLUMNS] = std::array::from_fn(|column| width(column).unwrap_or_default());
    let mut text = String::new();
    for row in std::iter::once(&head).chain(rows) {
        let mut line = String::new();
        for (cell, width) in row.iter().zip(widths) {
            let _ = write!(line, "  {cell:width$}");
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

/// The text with any control character but the ends of its lines written out.
#[must_use]
pub fn plain(text: &str) -> String {
    let plain = |line: &str| line.strip_suffix('\n').map_or_else(|| controls(line), |line| controls(line) + "\n");
    text.split_inclusive('\n').map(plain).collect()
}

/// A paragraph whose first line begins with `lead` and whose further lines are indented as far.
#[must_use]
pub fn paragraph(lead: &str, prose: &str) -> String {
    let indent = lead.chars().count();
    let (mut text, mut column) = (lead.to_owned(), indent);
    for (index, word) in prose.split_whitespace().enumerate() {
        let length = word.chars().count();
        if index > 0 && column + 1 + length > WIDTH {
            let _ = write!(text, "\n{:indent$}", "");
            column = indent;
        } else if index > 0 {
            text.push(' ');
            column += 1;
        }
        text.push_str(word);
        column += length;
    }
    text.push('\n');
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_stand_under_each_other() {
        let rows = [["Bedroom 2".to_owned(), "70 sq ft".to_owned()], ["Bath".to_owned(), String::new()]];
        assert_eq!(table(["room", "area"], &rows), "  room       area\n  Bedroom 2  70 sq ft\n  Bath\n");
    }

    #[test]
    fn long_prose_is_broken_between_words() {
        let text = paragraph("- ", &"word ".repeat(30));
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines.len(), 2);
        assert!(lines.iter().all(|line| line.len() <= WIDTH) && lines[1].starts_with("  word"));
    }
}
