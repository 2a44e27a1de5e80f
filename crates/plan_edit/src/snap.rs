//! Where a dragged wall comes to rest: independent candidates, and one arbiter between them.

use plan_model::elements::Wall;
use plan_model::{Id, Length, Point, Units};

use crate::Document;
use crate::line::{Faces, Line, nearest_quotient};
use crate::standing::Standing;

/// The place at which a dragged wall comes to rest, and why there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Snap {
    /// How far the wall is moved, positive to its left in the home that is drawn.
    pub by: Length,
    /// What holds it there.
    pub cause: SnapCause,
}

/// What holds a dragged wall in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SnapCause {
    /// A whole number of these steps from where it stood.
    Step(Length),
    /// One of its faces is in line with a face of a parallel wall.
    Aligned {
        /// The other wall.
        with: Id,
        /// That face of the other wall, from end to end, to be drawn.
        face: [Point; 2],
    },
}

/// How finely a wall is dragged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pace {
    /// By 1/2 in, or 10 mm for plans in millimetres; faces of parallel walls attract.
    Normal,
    /// By 1/8 in, or 1 mm for plans in millimetres, an eighth as fast as the pointer; nothing else attracts.
    Fine,
}

impl Pace {
    /// The distance from one resting place of a dragged wall to the next.
    #[must_use]
    pub const fn step(self, units: Units) -> Length {
        Length::from_steps(match (self, units) {
            (Self::Normal, Units::In) => Units::In.steps() / 2,
            (Self::Fine, Units::In) => Units::In.steps() / 8,
            (Self::Normal, Units::Mm) => Units::Mm.steps() * 10,
            (Self::Fine, Units::Mm) => Units::Mm.steps(),
        })
    }

    /// How far one press of a key moves a wall: a key has no hand that trembles, so it goes down to 1/64 in.
    #[must_use]
    pub const fn nudge(self, units: Units) -> Length {
        match (self, units) {
            (Self::Fine, Units::In) => Length::from_steps(Units::In.steps() / 64),
            _ => self.step(units),
        }
    }

    /// How much farther the pointer goes than the wall.
    pub(crate) const fn reduction(self) -> i64 {
        match self {
            Self::Normal => 1,
            Self::Fine => 8,
        }
    }
}

/// Where a wall of the plan comes to rest in the home that is drawn when the pointer has dragged it by `by`; `tolerance` is how near a face of a
/// parallel wall attracts it.
///
/// Dragged by nothing, it stays. The nearest face within the tolerance wins, if it is nearer than the place where the
/// wall stood; without one, the nearest step.
#[must_use]
pub fn snap(document: &Document, wall: &Wall, by: Length, pace: Pace, tolerance: Length) -> Snap {
    let Some(mirror) = document.mirror() else { return snap_in_plan(document, wall, by, pace, tolerance) };
    let Snap { by, cause } = snap_in_plan(document, wall, -by, pace, tolerance);
    let cause = match cause {
        SnapCause::Aligned { with, face } => SnapCause::Aligned { with, face: face.map(|end| mirror.point(end)) },
        SnapCause::Step(step) => SnapCause::Step(step),
    };
    Snap { by: -by, cause }
}

/// The same where the home stands as the plan has it.
fn snap_in_plan(document: &Document, wall: &Wall, by: Length, pace: Pace, tolerance: Length) -> Snap {
    let step = nearest_step(by, pace.step(document.plan.units));
    match pace {
        Pace::Fine => step,
        Pace::Normal => nearest_face(document, wall, by, tolerance).unwrap_or(step),
    }
}

/// Steps are counted from where the wall stood.
fn nearest_step(by: Length, step: Length) -> Snap {
    let steps = nearest_quotient(by.steps().into(), step.steps().into());
    Snap { by: step * steps, cause: SnapCause::Step(step) }
}

/// The face of a parallel wall that is nearest to one of the wall's faces.
fn nearest_face(document: &Document, wall: &Wall, by: Length, tolerance: Length) -> Option<Snap> {
    let reach = tolerance.min(by.abs() - Length::from_steps(1));
    let line = Line::new(wall.from, wall.to);
    let own = Faces::of(wall);
    let standing = Standing::in_home(document);
    let faces = standing
        .walls()
        .filter(|other| other.id != wall.id && line.is_parallel_to(other.from, other.to))
        .flat_map(|other| both_faces(other).map(|face| (other, face)));
    let candidates = faces.flat_map(|(other, face)| {
        let left = line.place(face[0]).left;
        [own.left, own.right].map(|own| (Length::from_steps(left - own), other, face))
    });
    candidates
        .filter(|(to, ..)| (*to - by).abs() <= reach)
        .min_by_key(|(to, ..)| (*to - by).abs())
        .map(|(to, with, face)| Snap { by: to, cause: SnapCause::Aligned { with: with.id.clone(), face } })
}

fn both_faces(wall: &Wall) -> [[Point; 2]; 2] {
    let line = Line::new(wall.from, wall.to);
    let faces = Faces::of(wall);
    [faces.left, faces.right].map(|face| {
        let aside = line.aside(face);
        [wall.from + aside, wall.to + aside]
    })
}
