use kurbo::{Point, Rect, Vec2};
use plan_geometry::{Derived, WallSolid};
use plan_model::Home;

use crate::placement::Obstacle;
use crate::plan_drawing::SMALLEST_LETTERING;
use crate::rooms::{self, Obstacles};
use crate::shapes::{around, lines, place};
use crate::{Drawing, Ink, Item, Pen};

/// From the face of the wall to the near end of an arrow, in heights of lettering.
const OFF: f64 = 0.25;
/// Length of an arrow.
const LENGTH: f64 = 0.85;
/// Half the width of its head.
const HALF_HEAD: f64 = 0.38;

/// Marks the walls that may be moved with a quiet double arrow across them, at mid-wall or as near to it as there is
/// floor. For the screen: paper leaves it out. `lettering` is the height of capitals in plan inches, as for the plan.
#[must_use]
pub fn grips(home: &Home<'_>, derived: &Derived, lettering: f64) -> Drawing {
    let lettering = lettering.max(SMALLEST_LETTERING);
    let mut drawing = Drawing::default();
    let movable = |wall: &&WallSolid| home.elements.walls.get(wall.index).is_some_and(|wall| wall.movable);
    let walls: Vec<&WallSolid> = derived.walls.iter().filter(movable).collect();
    if walls.is_empty() {
        return drawing;
    }
    let taken = Taken::of(home, derived, lettering);
    for wall in walls {
        if let Some(arrows) = placed(wall, &taken, lettering) {
            drawing.stroke(lines(arrows.iter().flat_map(|arrow| arrow.strokes())), Pen::FINE, Ink::Dimension);
        }
    }
    drawing
}

/// What grips keep off.
struct Taken {
    lettering: Vec<Rect>,
    /// Openings and other walls with the floor beside them.
    fixed: Vec<Obstacle>,
    obstacles: Obstacles,
}

impl Taken {
    fn of(home: &Home<'_>, derived: &Derived, lettering: f64) -> Self {
        let obstacles = Obstacles::of(home, derived);
        let mut tags = Drawing::default();
        rooms::draw(&mut tags, home, derived, &obstacles, lettering);
        let text = |item: &Item| match item {
            Item::Text(text) => Some(text.bounds().inset(0.2 * lettering)),
            Item::Fill { .. } | Item::Stroke { .. } => None,
        };
        let openings = derived.doors.iter().map(|door| door.outline);
        let openings = openings.chain(derived.windows.iter().map(|window| window.outline));
        let walls = derived.walls.iter().map(|wall| wall.outline);
        let fixed = openings.chain(walls).filter_map(|outline| Obstacle::new(outline.map(place).to_vec())).collect();
        Self { lettering: tags.items.iter().filter_map(text).collect(), fixed, obstacles }
    }

    /// How much stands in the way of an arrow; none where lettering, an opening or another wall does.
    fn cost(&self, arrow: Rect) -> Option<u32> {
        const DOOR_OR_FIXTURE: u32 = 10;
        let meets = |all: &[Obstacle]| all.iter().any(|obstacle| obstacle.meets(arrow));
        let is_blocked = self.lettering.iter().any(|text| text.intersect(arrow).area() > 0.0) || meets(&self.fixed);
        let Obstacles { fixed, furniture, storage, .. } = &self.obstacles;
        let cost =
            || DOOR_OR_FIXTURE * u32::from(meets(fixed)) + u32::from(meets(furniture)) + u32::from(meets(storage));
        (!is_blocked).then(cost)
    }
}

/// One arrow, away from a face.
struct Arrow {
    from: Point,
    out: Vec2,
    /// What its sizes are heights of.
    unit: f64,
}

impl Arrow {
    fn strokes(&self) -> [(Point, Point); 3] {
        let across = Vec2::new(-self.out.y, self.out.x) * (HALF_HEAD * self.unit);
        let tip = self.from + self.out * (LENGTH * self.unit);
        let back = tip - self.out * (HALF_HEAD * self.unit);
        [(self.from, tip), (back + across, tip), (back - across, tip)]
    }

    fn bounds(&self) -> Rect {
        let ends = self.strokes().into_iter().flat_map(|(a, b)| [a, b]);
        around(ends).unwrap_or_default()
    }
}

/// The pair of arrows nearest to mid-wall among those with the least in their way, smaller where there is little room.
fn placed(wall: &WallSolid, taken: &Taken, lettering: f64) -> Option<[Arrow; 2]> {
    const SCALES: [f64; 3] = [1.0, 0.75, 0.5];
    let [left, right] = [wall.faces.left, wall.faces.right].map(|face| face.map(place));
    let out = (left[0] - right[0]).normalize();
    if left[0] == left[1] || !out.is_finite() {
        return None;
    }
    let sized = |unit: f64| {
        // Parts of the wall's length from its start, the middle first.
        let parts = (0..10).map(|step| 0.05 * f64::from(step)).flat_map(|shift| [0.5 + shift, 0.5 - shift]);
        let pair = move |part: f64| {
            [(left, out), (right, -out)].map(|(face, out)| {
                let from = face[0].lerp(face[1], part) + out * (OFF * unit);
                Arrow { from, out, unit }
            })
        };
        let free = parts.map(pair).filter_map(|arrows| {
            let [one, other] = [&arrows[0], &arrows[1]].map(|arrow| taken.cost(arrow.bounds()));
            Some((one? + other?, arrows))
        });
        free.min_by_key(|(cost, _)| *cost)
    };
    let all = SCALES.into_iter().filter_map(|scale| sized(scale * lettering));
    all.min_by_key(|(cost, _)| *cost).map(|(_, arrows)| arrows)
}
