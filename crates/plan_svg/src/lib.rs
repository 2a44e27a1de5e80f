//! A [`Drawing`] as SVG: every item with its exact coordinates, nothing turned into pixels, text as text.
//!
//! Coordinates are the drawing's own plan inches with y turned over, since SVG counts downwards; each is written as the
//! shortest decimal that reads back as the same number. Pens are as wide, and dashes as long, as on paper at the scale of the
//! [`Picture`]. The same drawing always makes the same bytes.
//!
//! Source: Scalable Vector Graphics (SVG) 1.1, second edition, W3C 2011.

mod element;
mod path;
mod text;

use std::fmt::Write as _;

use kurbo::Rect;
use plan_drawing::{Drawing, Ink};

/// What is shown of a drawing, and as what.
#[derive(Clone, Debug)]
pub struct Picture<'a> {
    /// The part of the plan that is shown, in plan inches; what lies beyond it is cut off.
    pub view: Rect,
    /// Plan inches to an inch of paper: 48 is 1/4" = 1'-0".
    pub scale: f64,
    /// What lies under the drawing; none leaves the ground as it is.
    pub ground: Option<Ink>,
    /// What the picture is, in a few words, for those who do not see it and as the name of the file's window.
    pub title: &'a str,
    /// What is to be seen, in a sentence or two.
    pub description: &'a str,
}

/// Millimetres in an inch, by definition.
const MILLIMETRES: f64 = 25.4;

/// Writes a drawing as an SVG document of its own.
#[must_use]
pub fn svg(drawing: &Drawing, picture: &Picture<'_>) -> String {
    let Picture { view, scale, ground, title, description } = picture;
    let view = view.abs();
    let paper = |inches: f64| path::number(inches / scale * MILLIMETRES);
    let mut out = String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{}mm\" height=\"{}mm\" viewBox=\"{} {} {} {}\" \
         overflow=\"hidden\" role=\"img\" aria-labelledby=\"title desc\">",
        paper(view.width()),
        paper(view.height()),
        path::number(view.x0),
        path::number(-view.y1),
        path::number(view.width()),
        path::number(view.height()),
    );
    let _ = writeln!(out, "<title id=\"title\">{}</title>", text::escaped(title));
    let _ = writeln!(out, "<desc id=\"desc\">{}</desc>", text::escaped(description));
    if let Some(ink) = ground {
        let _ = writeln!(
            out,
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{}/>",
            path::number(view.x0),
            path::number(-view.y1),
            path::number(view.width()),
            path::number(view.height()),
            element::paint("fill", *ink),
        );
    }
    let plan_inches_per_mm = scale / MILLIMETRES;
    for item in &drawing.items {
        element::write(&mut out, item, plan_inches_per_mm);
    }
    out.push_str("</svg>\n");
    out
}
