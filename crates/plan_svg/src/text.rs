//! Lettering, and text in general.

use std::fmt::Write as _;

use plan_drawing::{Align, Face, Lettering};

use crate::element::paint;
use crate::path::number;

/// Height of Lato's capitals as a part of its size: 1433 of 2000 units, as the font files say.
const CAPITALS: f64 = 1433.0 / 2000.0;

/// The drawing's type family, and what comes nearest where it is not installed.
const FAMILY: &str = "Lato, Carlito, 'Open Sans', 'Segoe UI', Helvetica, Arial, sans-serif";

/// Writes a line of lettering.
pub(crate) fn write(out: &mut String, lettering: &Lettering) {
    let Lettering { text, at, height, angle, face, align, ink } = lettering;
    if !(at.is_finite() && height.is_finite() && angle.is_finite()) {
        return;
    }
    let anchor = match align {
        Align::Left => "start",
        Align::Centre => "middle",
        Align::Right => "end",
    };
    let style = match face {
        Face::Regular => "",
        Face::Bold => " font-weight=\"700\"",
        Face::Italic => " font-style=\"italic\"",
    };
    // The drawing places the middle of the capitals, SVG the baseline: half the capitals' height below it.
    let (x, y) = (at.x, -at.y);
    let _ = write!(out, "<text x=\"{}\" y=\"{}\"", number(x), number(y + height / 2.0));
    if *angle != 0.0 {
        // SVG turns clockwise.
        let _ = write!(out, " transform=\"rotate({} {} {})\"", number(-angle), number(x), number(y));
    }
    let _ = writeln!(
        out,
        " font-family=\"{FAMILY}\" font-size=\"{}\"{style} text-anchor=\"{anchor}\"{} xml:space=\"preserve\">{}</text>",
        number(height / CAPITALS),
        paint("fill", *ink),
        escaped(text),
    );
}

/// Text as XML takes it. What XML 1.0 has no place for, such as control characters, becomes the sign for a character that is
/// not known.
///
/// Source: Extensible Markup Language (XML) 1.0, fifth edition, productions 2 (Char) and 14 (CharData).
pub(crate) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // A reader would turn it into a line feed.
            '\r' => out.push_str("&#13;"),
            '\t' | '\n' => out.push(letter),
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            _ => out.push(letter),
        }
    }
    out
}
