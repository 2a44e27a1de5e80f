//! Redlines: corrections marked on the place, with the measure that falls short drawn between the faces that make it.
//!
//! A correction is a scalloped cloud with a numbered ring; an advisory or something unknown is a dashed outline with a
//! diamond. Shape, number and figure carry the meaning; colour only helps.

mod cloud;
mod flag;
mod places;
mod words;

use kurbo::{BezPath, Point, Rect, Shape, Vec2};
use plan_geometry::Derived;
use plan_model::{Home, Units};
use plan_rules::{Outcome, Verdict};

use crate::plan_drawing::SMALLEST_LETTERING;
use crate::rooms::Obstacles;
use crate::shapes::{line, lines, place, polygon, region};
use crate::{Drawing, Ink, Pen};
use flag::Flag;
pub(crate) use places::words_of_plan;
use places::{Places, Stand};

/// Draws corrections with their numbers, advisories and what is unknown; rules that are met leave no mark.
///
/// Corrections are numbered from 1 in the order of `verdicts`, as lists beside the drawing number them. Advisories and
/// unknown figures of the home as a whole have no place and are left to the lists. `lettering` is the height of
/// capitals in plan inches, the same as for the plan below.
#[must_use]
pub fn redlines(home: &Home<'_>, derived: &Derived, verdicts: &[Verdict], lettering: f64) -> Drawing {
    let words = || words_of_plan(home, derived, &Obstacles::of(home, derived), lettering.max(SMALLEST_LETTERING));
    redlines_clear_of(home, derived, verdicts, words, lettering)
}

/// The same over a plan with these words on it, which flags leave free; they are asked for if there is any flag.
pub(crate) fn redlines_clear_of(
    home: &Home<'_>,
    derived: &Derived,
    verdicts: &[Verdict],
    words: impl FnOnce() -> Vec<Rect>,
    lettering: f64,
) -> Drawing {
    let lettering = lettering.max(SMALLEST_LETTERING);
    let marks = marks(home, derived, verdicts, lettering);
    let mut drawing = Drawing::default();
    if marks.is_empty() {
        return drawing;
    }
    // Washes lie at the bottom and flags on top, so that no mark hides another's figure.
    each_once(&marks, |mark| mark.shape.clone(), |mark, shape| drawing.fill(shape, mark.style.wash));
    each_once(&marks, |mark| mark.shape.clone(), |mark, _| mark.draw_edge(&mut drawing, lettering));
    each_once(&marks, |mark| mark.dimension, |mark, [a, b]| mark.draw_dimension(&mut drawing, a, b, lettering));
    let mut places = Places::new(home, derived, words(), lettering);
    marks.iter().filter_map(|mark| mark.dimension).for_each(|[a, b]| places.keep_clear(line(a, b).bounding_box()));
    for mark in &marks {
        mark.flag().draw(&mut drawing, &mut places, mark.style);
    }
    drawing
}

/// How a kind of mark is drawn.
#[derive(Clone, Copy, Debug)]
struct Style {
    ink: Ink,
    wash: Ink,
    pen: Pen,
}

const CORRECTION: Style = Style { ink: Ink::Redline, wash: Ink::RedlineWash, pen: Pen::REDLINE };
const CAUTION: Style = Style { ink: Ink::Caution, wash: Ink::CautionWash, pen: Pen::CAUTION };

/// One verdict as it is marked.
struct Mark {
    style: Style,
    /// In the ring or diamond.
    sign: String,
    /// Measured and required.
    figures: Option<String>,
    /// What the flag points at.
    target: Point,
    /// The place as a closed shape, if it has one.
    shape: Option<BezPath>,
    /// Its corners, if it is a polygon that can be clouded.
    corners: Vec<Point>,
    dimension: Option<[Point; 2]>,
    stand: Stand,
}

fn marks(home: &Home<'_>, derived: &Derived, verdicts: &[Verdict], lettering: f64) -> Vec<Mark> {
    let mut number = 0;
    let mut marks = Vec::new();
    for verdict in verdicts {
        let (style, sign) = match verdict.outcome {
            Outcome::Met | Outcome::DoesNotApply => continue,
            Outcome::Correction => {
                number += 1;
                (CORRECTION, number.to_string())
            }
            Outcome::Unknown | Outcome::Advisory if verdict.subject.is_none() => continue,
            Outcome::Unknown => (CAUTION, "?".to_owned()),
            Outcome::Advisory => (CAUTION, "A".to_owned()),
        };
        marks.push(Mark::new(derived, verdict, style, sign, home.plan.units, lettering));
    }
    marks
}

impl Mark {
    fn new(derived: &Derived, verdict: &Verdict, style: Style, sign: String, units: Units, lettering: f64) -> Self {
        let at = place(verdict.place.at);
        let dimension = verdict.place.dimension.map(|ends| ends.map(place)).filter(|[a, b]| a != b);
        let mut corners: Vec<Point> = verdict.place.outline.iter().copied().map(place).collect();
        corners.dedup();
        let room = verdict.subject.as_ref().and_then(|id| derived.room(id));
        let shape = match (&corners[..], room, dimension) {
            ([_, _, _, ..], ..) => Some(polygon(corners.iter().copied())),
            (_, Some(room), None) => {
                // Its own outline may have jogs too short for a cloud.
                corners = room.sizes.rectangle().corners.map(place).to_vec();
                Some(region(&room.region))
            }
            (_, _, Some(_)) => None,
            // Nothing but a point: a small place around it.
            _ => {
                let around = Rect::from_center_size(at, (5.0 * lettering, 5.0 * lettering));
                corners = vec![
                    Point::new(around.x0, around.y0),
                    Point::new(around.x1, around.y0),
                    Point::new(around.x1, around.y1),
                    Point::new(around.x0, around.y1),
                ];
                Some(polygon(corners.iter().copied()))
            }
        };
        let target = dimension.map_or(at, |[a, b]| a.midpoint(b));
        let (figures, stand) = (words::figures(verdict, derived, units), stand(derived, verdict));
        Self { style, sign, figures, target, shape, corners, dimension, stand }
    }

    /// A cloud around what must be corrected, a dashed outline around the rest.
    fn draw_edge(&self, drawing: &mut Drawing, lettering: f64) {
        let edge = match &self.shape {
            Some(_) if self.style.pen == Pen::REDLINE && self.corners.len() > 2 => {
                cloud::around(&self.corners, lettering)
            }
            Some(shape) => shape.clone(),
            None => return,
        };
        drawing.stroke(edge, self.style.pen, self.style.ink);
    }

    /// The measured distance between its two faces, with ticks and short lines along the faces.
    fn draw_dimension(&self, drawing: &mut Drawing, a: Point, b: Point, lettering: f64) {
        let along = (b - a).normalize();
        let across = Vec2::new(-along.y, along.x) * (0.8 * lettering);
        let tick = (along + Vec2::new(-along.y, along.x)) * (0.42 * lettering);
        drawing.stroke(line(a, b), Pen::REDLINE, self.style.ink);
        drawing.stroke(lines([a, b].map(|end| (end - across, end + across))), Pen::FINE, self.style.ink);
        drawing.stroke(lines([a, b].map(|end| (end - tick, end + tick))), Pen::solid(0.6), self.style.ink);
    }

    /// The rectangle around its shape, or around its target.
    fn extent(&self) -> Rect {
        self.shape.as_ref().map_or(Rect::from_points(self.target, self.target), Shape::bounding_box)
    }

    fn flag(&self) -> Flag<'_> {
        Flag {
            sign: &self.sign,
            figures: self.figures.as_deref(),
            is_ring: self.style.pen == Pen::REDLINE,
            target: self.target,
            extent: self.extent(),
            stand: self.stand,
        }
    }
}

/// Draws what several marks share once: a window that is too small in three ways has one cloud.
fn each_once<T: PartialEq>(marks: &[Mark], part: impl Fn(&Mark) -> Option<T>, mut draw: impl FnMut(&Mark, T)) {
    for (index, mark) in marks.iter().enumerate() {
        let Some(own) = part(mark) else { continue };
        let is_first = marks[..index]
            .iter()
            .all(|other| other.style.ink != mark.style.ink || part(other).is_none_or(|other| other != own));
        if is_first {
            draw(mark, own);
        }
    }
}

/// Where the flag of a verdict belongs.
fn stand(derived: &Derived, verdict: &Verdict) -> Stand {
    let Some(id) = &verdict.subject else { return Stand::Anywhere };
    let sides = derived.door(id).map(|door| &door.sides).or_else(|| derived.window(id).map(|window| &window.sides));
    match sides {
        Some(sides) if sides.iter().any(|side| side.room.is_none()) => Stand::Outside,
        Some(_) => Stand::Beside,
        None => Stand::Anywhere,
    }
}

#[cfg(test)]
mod tests;
