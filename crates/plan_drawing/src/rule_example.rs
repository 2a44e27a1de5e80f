//! The example of a rule: the place that it is about, with what is measured there.

use kurbo::{PathEl, Rect, Vec2};
use plan_geometry::{Mark, outline};
use plan_model::Length;
use plan_rules::{Example, Outcome, Place, Verdict};

use crate::measures::{draw_marks, measure_marks};
use crate::placement::Obstacle;
use crate::plan_drawing::{draw_plan_with_tags, house};
use crate::redlines::{redlines_clear_of, words_of_plan};
use crate::rooms::Obstacles;
use crate::shapes::{around, joined, place};
use crate::{Drawing, Item};

/// The drawing of an example.
#[derive(Clone, Debug)]
pub struct ExampleDrawing {
    /// What is drawn; lines may lead on beyond what is shown.
    pub drawing: Drawing,
    /// The part that is shown, in plan inches.
    pub view: Rect,
}

/// Plan around what is marked, in inches: enough to see between what it lies.
const MARGIN: f64 = 22.0;
/// The least that is shown across, in inches: less is no place of a home any more.
const LEAST: f64 = 96.0;
/// A room that is no larger than this, in inches, is shown as a whole.
const SMALL_ROOM: f64 = 110.0;
/// Ground around the house, in inches.
const AROUND_HOUSE: f64 = 16.0;
/// Width to height of what is shown, where there is as much plan.
const SHAPE: f64 = 4.0 / 3.0;

/// Draws the example of a rule, cut to the place concerned: the plan, what is measured in blue, and the correction as on any
/// plan. A rule that is met leaves only the measure with its figure.
///
/// `lettering` is the height of capitals as a part of the width of a drawing of four to three.
#[must_use]
pub fn draw_example(example: &Example, lettering: f64) -> ExampleDrawing {
    let least = view(example, &verdict(example, 0.0));
    let mut view = least;
    let mut drawing = Drawing::default();
    // Marks are as large as lettering, and lettering as the view that holds them: it settles at once or nearly so.
    for _ in 0..3 {
        let height = lettering * view.width().max(view.height() * SHAPE);
        let (plan, marks) = drawn(example, height);
        let held = joined(marks.items.iter().filter_map(Item::bounds)).map(|marks| marks.inflate(height, height));
        view = held.map_or(least, |marks| least.union(marks));
        drawing = plan;
        drawing.append(marks);
    }
    cut(&mut drawing, view);
    ExampleDrawing { drawing, view }
}

/// The verdict as it is drawn: with the distance that was compared where the list of measures has it, and around the whole
/// house where the rule is about the home.
fn verdict(example: &Example, lettering: f64) -> Verdict {
    let mut verdict = example.verdict.clone();
    let place = &mut verdict.place;
    if place.dimension.is_some() || !place.outline.is_empty() {
        return verdict;
    }
    let compared = example.measures().into_iter().filter(|measure| example.is_figure_of_verdict(measure));
    place.dimension = compared.flat_map(|measure| measure.marks).find_map(|mark| match mark {
        Mark::Span(ends) => Some(ends),
        _ => None,
    });
    if place.dimension.is_none() && verdict.subject.is_none() {
        // Clouds lie just inside of what they are drawn around.
        let around =
            house(&example.home(), &example.derived).map(|house| house.inflate(2.0 * lettering, 2.0 * lettering));
        place.outline = around.map(corners).into_iter().flatten().collect();
    }
    verdict
}

/// The plan, and what is marked on it.
fn drawn(example: &Example, lettering: f64) -> (Drawing, Drawing) {
    let (home, derived) = (example.home(), &example.derived);
    let verdict = verdict(example, lettering);
    let mut marks = measured(example, &verdict, lettering);
    let mut obstacles = Obstacles::of(&home, derived);
    obstacles.fixed.extend(marks.items.iter().flat_map(lines_of));
    let dimension = verdict.place.dimension.and_then(|ends| around(ends.map(place)));
    let half = 0.6 * lettering;
    obstacles.fixed.extend(dimension.map(|line| line.inflate(half, half)).and_then(Obstacle::of_rect));
    let plan = draw_plan_with_tags(&home, derived, &obstacles, lettering);
    let words = || {
        let figures = marks.items.iter().filter(|item| matches!(item, Item::Text(_))).filter_map(Item::bounds);
        words_of_plan(&home, derived, &obstacles, lettering).into_iter().chain(figures).collect()
    };
    let redlines = redlines_clear_of(&home, derived, std::slice::from_ref(&verdict), words, lettering);
    marks.append(redlines);
    (plan, marks)
}

/// What the rule measures, in blue.
fn measured(example: &Example, verdict: &Verdict, lettering: f64) -> Drawing {
    let mut drawing = Drawing::default();
    for measure in example.measures() {
        // The figure of the verdict stands on its flag.
        if example.is_figure_of_verdict(&measure) && verdict.outcome != Outcome::Met {
            let clouded = clouded(example, verdict);
            let is_in_red = |mark: &Mark| match mark {
                Mark::Span(ends) => verdict.place.dimension == Some(*ends),
                Mark::Ground(_) => bounds(mark).zip(clouded).is_some_and(|(ground, cloud)| is_same(ground, cloud)),
                Mark::Way(_) | Mark::Disc { .. } => false,
            };
            let marks: Vec<Mark> = measure.marks.into_iter().filter(|mark| !is_in_red(mark)).collect();
            draw_marks(&mut drawing, &marks, lettering);
        } else {
            drawing.append(measure_marks(&measure, example.plan.units, lettering));
        }
    }
    drawing
}

/// What the redline of a verdict is drawn around: the shape that was measured, or else the room.
fn clouded(example: &Example, verdict: &Verdict) -> Option<Rect> {
    let Verdict { subject, place: Place { dimension, outline, .. }, .. } = verdict;
    let room = || subject.as_ref().filter(|_| dimension.is_none()).and_then(|id| example.derived.room(id));
    around(outline.iter().copied().map(place)).or_else(|| around(room()?.region.outer.iter().copied().map(place)))
}

/// Whether two rectangles are one to the eye.
fn is_same(one: Rect, other: Rect) -> bool {
    /// In inches.
    const NEAR: f64 = 1.0;
    [one.x0 - other.x0, one.y0 - other.y0, one.x1 - other.x1, one.y1 - other.y1].iter().all(|apart| apart.abs() < NEAR)
}

/// The lines and words of a mark, which tags do not cross.
fn lines_of(item: &Item) -> Vec<Obstacle> {
    /// Far less than a pen is wide.
    const FLATNESS: f64 = 0.5;
    match item {
        Item::Text(_) => item.bounds().and_then(Obstacle::of_rect).into_iter().collect(),
        Item::Fill { .. } => Vec::new(),
        Item::Stroke { path, .. } => {
            let (mut lines, mut start, mut last) = (Vec::new(), None, None);
            kurbo::flatten(path, FLATNESS, |element| {
                let to = match element {
                    PathEl::MoveTo(to) => {
                        (start, last) = (Some(to), None);
                        to
                    }
                    PathEl::ClosePath => start.unwrap_or_default(),
                    // `flatten` gives straight parts only.
                    PathEl::LineTo(to) | PathEl::QuadTo(_, to) | PathEl::CurveTo(_, _, to) => to,
                };
                lines.extend(last.and_then(|from| Obstacle::new(vec![from, to])));
                last = Some(to);
            });
            lines
        }
    }
}

/// The place that an example is about, with some of the plan around it; the whole house where nothing smaller is marked.
fn view(example: &Example, verdict: &Verdict) -> Rect {
    let corners = verdict.place.dimension.iter().flatten().chain(&verdict.place.outline).copied().map(place);
    let measures = example.measures();
    let marks = measures.iter().flat_map(|measure| &measure.marks).filter_map(bounds);
    let marked = joined(marks.chain(around(corners)));
    let house = house(&example.home(), &example.derived).map(|house| house.inflate(AROUND_HOUSE, AROUND_HOUSE));
    let Some(marked) = marked else { return house.unwrap_or_default() };
    let about = of_subject(example).map_or(marked, |subject| marked.union(subject)).inflate(MARGIN, MARGIN);
    let width = about.width().max(about.height() * SHAPE).max(LEAST);
    let view = Rect::from_center_size(about.center(), (width, width / SHAPE)).union(about);
    house.map_or(view, |house| view.intersect(house.union(marked.inflate(AROUND_HOUSE, AROUND_HOUSE))))
}

/// The thing or the small room that a verdict is about.
fn of_subject(example: &Example) -> Option<Rect> {
    let subject = example.verdict.subject.as_ref()?;
    let elements = &example.plan.base;
    let fixtures = elements.fixtures.iter().map(|it| (&it.id, outline(it.at, it.faces, it.width, it.depth)));
    let furniture = elements.furniture.iter().map(|it| (&it.id, outline(it.at, it.faces, it.width, it.depth)));
    let doors = example.derived.doors.iter().map(|door| (&door.id, door.outline));
    let windows = example.derived.windows.iter().map(|window| (&window.id, window.outline));
    let mut things = fixtures.chain(furniture).chain(doors).chain(windows);
    if let Some((_, corners)) = things.find(|(id, _)| *id == subject) {
        return around(corners.map(place));
    }
    let room = around(example.derived.room(subject)?.region.outer.iter().copied().map(place))?;
    (room.width().max(room.height()) <= SMALL_ROOM).then_some(room)
}

fn bounds(mark: &Mark) -> Option<Rect> {
    match mark {
        Mark::Span(ends) => around(ends.map(place)),
        Mark::Way(points) | Mark::Ground(points) => around(points.iter().copied().map(place)),
        Mark::Disc { centre, diameter } => {
            let across = diameter.to_inches();
            Some(Rect::from_center_size(place(*centre), (across, across)))
        }
    }
}

/// Leaves out what is not in view. Words are shown whole or not at all, and so are the lines of one tag.
fn cut(drawing: &mut Drawing, view: Rect) {
    let items = std::mem::take(&mut drawing.items);
    let mut tag: Vec<Item> = Vec::new();
    let flush = |tag: &mut Vec<Item>, items: &mut Vec<Item>| {
        let tag = std::mem::take(tag);
        if tag.iter().all(|line| is_shown(line, view)) {
            items.extend(tag);
        }
    };
    for item in items {
        if !tag.last().is_some_and(|line| is_next_line(line, &item)) {
            flush(&mut tag, &mut drawing.items);
        }
        tag.push(item);
    }
    flush(&mut tag, &mut drawing.items);
}

/// Whether two items are lines of one tag.
fn is_next_line(one: &Item, other: &Item) -> bool {
    let (Item::Text(one), Item::Text(other)) = (one, other) else { return false };
    let down = Vec2::from_angle((one.angle - 90.0).to_radians());
    let apart = other.at - one.at;
    // Straight below, and no farther than a blank line.
    one.angle == other.angle
        && down.cross(apart).abs() < 0.1 * one.height
        && apart.hypot() < 3.0 * one.height.max(other.height)
}

/// Whether any of a shape is in view, or all of a text.
fn is_shown(item: &Item, view: Rect) -> bool {
    item.bounds().is_some_and(|bounds| match item {
        // Its bounds leave out what hangs below capitals.
        Item::Text(text) => view.union(bounds.inflate(0.3 * text.height, 0.3 * text.height)) == view,
        Item::Fill { .. } | Item::Stroke { .. } => {
            bounds.x0 <= view.x1 && view.x0 <= bounds.x1 && bounds.y0 <= view.y1 && view.y0 <= bounds.y1
        }
    })
}

/// The corners of a rectangle as places of the model, counter-clockwise.
fn corners(rect: Rect) -> [plan_model::Point; 4] {
    let at = |x: f64, y: f64| plan_model::Point::new(Length::nearest_to_inches(x), Length::nearest_to_inches(y));
    [at(rect.x0, rect.y0), at(rect.x1, rect.y0), at(rect.x1, rect.y1), at(rect.x0, rect.y1)]
}

#[cfg(test)]
mod tests {
    use plan_rules::registry;

    use super::*;
    use crate::{Ink, Lettering};

    const LETTERING: f64 = 1.0 / 44.0;

    fn example(rule: &str) -> Example {
        let rule = registry().find(|known| known.id == rule).expect("a rule of the registry");
        Example::of(rule, None).expect("it has an example")
    }

    fn words(drawn: &ExampleDrawing) -> Vec<&Lettering> {
        let words = drawn.drawing.items.iter().map(|item| if let Item::Text(text) = item { Some(text) } else { None });
        words.flatten().collect()
    }

    #[test]
    fn every_mark_of_every_rule_is_in_view() {
        for rule in registry() {
            let example = Example::of(rule, None).expect("every rule has one");
            let drawn = draw_example(&example, LETTERING);
            assert!(drawn.view.is_finite() && drawn.view.area() > 0.0, "{}: {:?}", rule.id, drawn.view);
            let is_mark = |ink: &Ink| matches!(ink, Ink::Redline | Ink::Caution | Ink::Measure);
            for item in &drawn.drawing.items {
                let (Item::Fill { ink, .. } | Item::Stroke { ink, .. }) = item else { continue };
                let bounds = item.bounds().expect("it has parts");
                let is_in_view = drawn.view.union(bounds) == drawn.view;
                assert!(!is_mark(ink) || is_in_view, "{}: {bounds:?} beyond {:?}", rule.id, drawn.view);
            }
            // The sign of a flag is of paper.
            let figures = words(&drawn).into_iter().filter(|text| is_mark(&text.ink) || text.ink == Ink::Paper);
            assert!(figures.count() > 0, "{}", rule.id);
        }
    }

    #[test]
    fn words_are_whole() {
        for rule in registry() {
            let drawn = draw_example(&Example::of(rule, None).expect("every rule has one"), LETTERING);
            for text in words(&drawn) {
                assert!(drawn.view.union(text.bounds()) == drawn.view, "{}: {} is cut", rule.id, text.text);
            }
        }
    }

    #[test]
    fn only_the_place_concerned_is_shown() {
        // The hall of the example is 25 ft long; the alarm hangs 3 ft from the door.
        let drawn = draw_example(&example("alarm-to-bath"), LETTERING);
        assert!(drawn.view.height() < 100.0, "{:?}", drawn.view);
        // A rule about the way from one room to another shows both.
        let drawn = draw_example(&example("bedroom-access"), LETTERING);
        let bedrooms = words(&drawn).into_iter().filter(|text| text.text == "BEDROOM");
        assert_eq!(bedrooms.count(), 2);
    }

    #[test]
    fn what_is_measured_is_drawn_once_and_tags_stand_clear_of_it() {
        let example = example("toilet-front");
        let drawn = draw_example(&example, LETTERING);
        let [a, b] = example.verdict.place.dimension.expect("a distance").map(place);
        let line = Rect::from_points(a, b);
        let drawn_along = |wanted: Ink| {
            let is_it = |item: &&Item| matches!(item, Item::Stroke { ink, .. } if *ink == wanted && item.bounds() == Some(line));
            drawn.drawing.items.iter().filter(is_it).count()
        };
        assert_eq!((drawn_along(Ink::Redline), drawn_along(Ink::Measure)), (1, 0));
        let tags = words(&drawn).into_iter().filter(|text| text.ink == Ink::Lettering);
        let crossed: Vec<&str> =
            tags.filter(|text| text.bounds().overlaps(line)).map(|text| text.text.as_str()).collect();
        assert!(crossed.is_empty(), "{crossed:?}");
    }

    #[test]
    fn a_turning_circle_that_has_no_place_is_shown_by_the_largest_that_has() {
        let drawn = draw_example(&example("turning-circle"), LETTERING);
        let disc = drawn.drawing.items.iter().find(|item| matches!(item, Item::Fill { ink: Ink::MeasureWash, .. }));
        let bounds = disc.and_then(Item::bounds).expect("a disc");
        assert!((bounds.width() - 59.0).abs() < 0.2, "{bounds:?}");
        assert!(words(&drawn).iter().any(|text| text.text == "4'-11\""));
    }
}
