//! Plans and homes reversed: mirrored left to right about the middle of the modules, as houses are built reversed on the
//! other side of a street.
//!
//! Only geometry is mirrored. Ids, names, sizes, catalogue and prices stay as they are, so that every figure of the
//! reversed home is that of the home, and lettering reads as before. What says left or right of a thing (the side of a
//! toilet, a bowl of a vanity, an eave at the left end) says the other one.

mod elements;

use std::borrow::Cow;

use crate::{Facing, Home, Length, Plan, Point, Side};

/// The line from front to back about which a plan is mirrored.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mirror {
    /// The sum of the coordinates of a place and its image: twice the line's own, which may lie between grid steps.
    sum: Length,
}

impl Mirror {
    /// The mirror of a plan: the middle line of the modules' extent; of a plan without modules, that of the walls of its
    /// base. It is the same for the reversed plan and for every selection.
    #[must_use]
    pub fn of(plan: &Plan) -> Self {
        let modules = plan.modules.iter().flat_map(|module| [module.from.x, module.to.x]);
        let walls = plan.base.walls.iter().flat_map(|wall| [wall.from.x, wall.to.x]);
        let sum = |ends: Option<(Length, Length)>| ends.map(|(least, most)| least + most);
        Self { sum: sum(extent(modules)).or_else(|| sum(extent(walls))).unwrap_or(Length::ZERO) }
    }

    /// The image of a place; the place is the image's own.
    #[must_use]
    pub fn point(self, at: Point) -> Point {
        Point::new(self.sum - at.x, at.y)
    }

    /// Mirrors a rectangle given by opposite corners; its left corner stays the left one.
    fn rectangle(self, from: &mut Point, to: &mut Point) {
        let (left, right) = (self.sum - to.x, self.sum - from.x);
        (from.x, to.x) = (left, right);
    }
}

/// The least and the largest.
fn extent(all: impl Iterator<Item = Length> + Clone) -> Option<(Length, Length)> {
    Some((all.clone().min()?, all.max()?))
}

/// What has its own image in a mirror.
pub(crate) trait Reverse {
    /// Puts the image in the place of the thing itself. Done twice, all is as it was.
    fn reverse(&mut self, mirror: Mirror);
}

impl Plan {
    /// The plan mirrored left to right about the middle line of its modules, with everything that any alternate brings.
    /// Reversed twice it is the same plan.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let mirror = Mirror::of(self);
        let mut plan = self.clone();
        for module in &mut plan.modules {
            mirror.rectangle(&mut module.from, &mut module.to);
        }
        for eave in &mut plan.home.eaves {
            eave.side = match eave.side {
                Side::Left => Side::Right,
                Side::Right => Side::Left,
                side => side,
            };
        }
        if let Some(line) = &mut plan.mate_line {
            (line.from, line.to) = (mirror.point(line.from), mirror.point(line.to));
        }
        for elements in plan.all_elements_mut() {
            elements.reverse(mirror);
        }
        for choice in &mut plan.choices {
            choice.at = choice.at.map(|at| mirror.point(at));
        }
        plan
    }
}

impl Home<'_> {
    /// The home mirrored left to right, as [`Plan::reversed`] mirrors its plan: the home of the reversed plan.
    #[must_use]
    pub fn reversed(&self) -> Home<'static> {
        let mut elements = self.elements.clone();
        elements.reverse(Mirror::of(&self.plan));
        Home { plan: Cow::Owned(self.plan.reversed()), elements }
    }
}

impl Facing {
    /// The direction as a mirror from left to right shows it.
    pub(crate) const fn mirrored(self) -> Self {
        let (dx, dy) = self.direction();
        Self::from_parts(-dx, dy)
    }
}
