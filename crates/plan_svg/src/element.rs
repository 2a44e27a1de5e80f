//! One element for each item of a drawing.

use std::fmt::Write as _;

use plan_drawing::{Ink, Item, Pen, Rgba};

use crate::path::{data, number};
use crate::text;

/// Writes an item; one without parts leaves no element.
pub(crate) fn write(out: &mut String, item: &Item, plan_inches_per_mm: f64) {
    match item {
        Item::Fill { path, ink } => {
            if let Some(data) = data(path) {
                let _ = writeln!(out, "<path d=\"{data}\"{} fill-rule=\"evenodd\"/>", paint("fill", *ink));
            }
        }
        Item::Stroke { path, pen, ink } => {
            if let Some(data) = data(path) {
                let drawn = drawn_with(*pen, plan_inches_per_mm);
                let _ = writeln!(out, "<path d=\"{data}\" fill=\"none\"{}{drawn}/>", paint("stroke", *ink));
            }
        }
        Item::Text(lettering) => text::write(out, lettering),
    }
}

/// The width and dashes of a pen.
fn drawn_with(pen: Pen, plan_inches_per_mm: f64) -> String {
    let on_plan = |mm: f64| number(mm * plan_inches_per_mm);
    let dashes = pen
        .dash_mm
        .map_or_else(String::new, |(dash, gap)| format!(" stroke-dasharray=\"{} {}\"", on_plan(dash), on_plan(gap)));
    format!(" stroke-width=\"{}\"{dashes} stroke-linejoin=\"round\"", on_plan(pen.width_mm))
}

/// A colour as the value of `fill` or `stroke`, with its opacity where it lets something through.
pub(crate) fn paint(property: &str, ink: Ink) -> String {
    let Rgba { red, green, blue, alpha } = ink.rgba();
    let colour = format!(" {property}=\"#{red:02x}{green:02x}{blue:02x}\"");
    match alpha {
        255 => colour,
        _ => format!("{colour} {property}-opacity=\"{}\"", number(f64::from(alpha) / 255.0)),
    }
}
