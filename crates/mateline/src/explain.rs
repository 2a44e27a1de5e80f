//! `mateline explain`: what a rule measures, in words and as a drawing.

use std::path::Path;

use mateline_app::files::{Expected, open_book, save_text};
use plan_drawing::{ExampleDrawing, Ink, draw_example};
use plan_model::file::nearest;
use plan_rules::report::explain_text;
use plan_rules::{Example, Rule, RuleBook, registry};
use plan_svg::{Picture, svg};

use crate::output::{Verdict, print};
use crate::unjudged::Unjudged;

/// Width of a drawing of four to three, in inches of paper.
const WIDTH: f64 = 120.0 / 25.4;
/// Height of capitals as a part of it: 2.7 mm.
const LETTERING: f64 = 1.0 / 44.0;

/// Prints what a rule is, and writes its drawing where a file is named for it.
pub(crate) fn run(rule: &str, further: Option<&str>, file: Option<&Path>) -> Result<Verdict, Unjudged> {
    let known = find(rule)?;
    let further = further.map(open_book).transpose()?;
    let example = Example::of(known, further.as_ref());
    let drawn = match (file, &example) {
        (Some(file), Some(example)) => {
            write(file, known, example)?;
            format!("It is drawn in {}.", file.display())
        }
        _ => format!("`mateline explain {} --svg FILE` draws it.", known.id),
    };
    let built_in = RuleBook::built_in_ids().filter_map(RuleBook::built_in);
    let books: Vec<RuleBook> = built_in.chain(further).collect();
    print(&explain_text(known, &books, example.as_ref(), &drawn))?;
    Ok(Verdict::Met)
}

fn find(rule: &str) -> Result<&'static Rule, Unjudged> {
    registry().find(|known| known.id == rule).ok_or_else(|| {
        let hint = nearest(rule, registry().map(|rule| rule.id));
        let hint = hint.map_or_else(String::new, |near| format!("; did you mean `{near}`?"));
        Unjudged::NoSuchRule { name: rule.to_owned(), hint }
    })
}

/// Writes the drawing as a whole or not at all.
///
/// # Errors
/// When the file system refuses, or the name is not that of an SVG file: a plan given by mistake stays as it is.
fn write(file: &Path, rule: &Rule, example: &Example) -> Result<(), Unjudged> {
    if !file.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("svg")) {
        return Err(Unjudged::NotSvg { path: file.to_owned() });
    }
    let ExampleDrawing { drawing, view } = draw_example(example, LETTERING);
    let picture = Picture {
        view,
        scale: view.width().max(view.height() * 4.0 / 3.0) / WIDTH,
        ground: Some(Ink::Paper),
        title: rule.name,
        description: &example.caption(),
    };
    save_text(file, &svg(&drawing, &picture), Expected::Anything)?;
    Ok(())
}
