//! A quote as the arithmetic of an invoice, for people.

use std::fmt::Write as _;

use plan_model::{Home, Money, Selection};

use super::{LineBasis, Quote, QuoteLine};

/// What a line of prose may be wide.
const WIDTH: usize = 100;
/// What the column may be wide that says how a line comes about.
const WIDEST_BASIS: usize = 48;

/// A quote, line by line: what each is for, how it comes about, and its amount, which add up to the total.
#[must_use]
pub fn quote_text(home: &Home<'_>, selection: &Selection, quote: &Quote) -> String {
    let (plan, arithmetic) = (&*home.plan, &quote.arithmetic);
    let mut text = format!("Price: {} by {}\n", plan.name, plan.maker);
    let answers: Vec<String> = selection.iter().map(|(choice, alternate)| format!("{choice}={alternate}")).collect();
    let answers = if answers.is_empty() { "the plan has no choices".to_owned() } else { answers.join(", ") };
    let lead = "Selection: ";
    for (index, line) in wrapped(&answers, WIDTH - lead.len()).iter().enumerate() {
        let lead = if index == 0 { lead } else { "           " };
        let _ = writeln!(text, "{lead}{line}");
    }
    if let Some(book) = &plan.prices {
        let last_day = book.last_day().map_or_else(String::new, |day| format!(", expires on {day}"));
        let _ = writeln!(text, "Price book: {}, effective {}{last_day}", book.name, book.effective);
    }
    let good_until = quote.good_until.map_or_else(String::new, |day| format!(", good until {day}"));
    let _ = writeln!(text, "Date of the quote: {}{good_until}\n", quote.date);

    let places = arithmetic.places as usize;
    let total = (format!("Total, {}", plan.currency), String::new(), arithmetic.total);
    let rows = arithmetic.lines.iter().map(|line| (line.label.clone(), how(line, places), line.amount));
    let rows: Vec<(String, String, String)> =
        rows.chain([total]).map(|(label, how, amount)| (label, how, shown(amount, places))).collect();
    let widest = |cell: fn(&(String, String, String)) -> &String| {
        rows.iter().map(|row| cell(row).chars().count()).max().unwrap_or_default()
    };
    let (labels, hows, amounts) = (widest(|row| &row.0), widest(|row| &row.1), widest(|row| &row.2));
    let hows = hows.min(WIDEST_BASIS);
    for (index, (label, how, amount)) in rows.iter().enumerate() {
        if index + 1 == rows.len() {
            let _ = writeln!(text, "  {:labels$}  {:hows$}  {}", "", "", "-".repeat(amounts));
        }
        let how = wrapped(how, hows);
        let mut how = how.iter();
        let first = how.next().map_or("", String::as_str);
        let _ = writeln!(text, "  {label:labels$}  {first:hows$}  {amount:>amounts$}");
        for further in how {
            let _ = writeln!(text, "  {:labels$}  {further}", "");
        }
    }
    let rounding = match arithmetic.places {
        0 => "a whole number".to_owned(),
        places => format!("{places} decimal places"),
    };
    let _ = writeln!(
        text,
        "\nAmounts are in {}. Each line is rounded once, half away from zero, to {rounding};",
        plan.currency
    );
    text.push_str("percentages are of lines as rounded, and the total is the sum of the lines.\n");
    text
}

/// How a line comes about, as it is typed into a calculator.
fn how(line: &QuoteLine, places: usize) -> String {
    match &line.basis {
        LineBasis::Stated => String::new(),
        LineBasis::Each { count, per, price } => format!("{count} x {} ({per})", shown(*price, places)),
        LineBasis::Percent { percent, labels, sum, .. } => {
            format!("{percent} of {} ({})", shown(*sum, places), labels.join(" + "))
        }
    }
}

fn shown(amount: Money, places: usize) -> String {
    format!("{amount:.places$}")
}

/// Words on lines of a width; only a longer word makes a longer line.
fn wrapped(words: &str, width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split(' ') {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
