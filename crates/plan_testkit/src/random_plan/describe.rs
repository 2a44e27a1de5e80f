use plan_model::Length;

use super::furnish::{Doorway, Thing};
use super::random::Random;

/// The description that a random plan grows from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RandomPlan {
    /// The outside walls.
    pub outline: Outline,
    /// What is built inside, in order.
    pub parts: Vec<Part>,
}

/// The outside walls of a random plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outline {
    /// Its shape.
    pub shape: Shape,
    /// Width and depth in inches.
    pub size: [i64; 2],
    /// How far each corner is moved from where the shape has it, in inches.
    pub moved: Vec<[i64; 2]>,
    /// How far the whole plan is turned, in ten-thousandths of a degree.
    pub turned: i64,
    /// Thickness of each wall, in turn.
    pub thickness: Vec<Length>,
    /// Whether its corners are those of the inner faces, and not of the centre lines.
    pub by_inner_face: bool,
}

/// The shape of an outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Four corners.
    Rectangle,
    /// Six corners.
    L,
    /// Eight corners.
    T,
}

/// Where a wall that starts on one side of a room leads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// Square to the side that it starts on.
    Square,
    /// To a place on another side: its number, and hundredths of its length.
    To(usize, i64),
}

/// How far an end is drawn into the wall that it meets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// To its face.
    Face,
    /// To its line.
    Line,
    /// Beyond its line, not to the other face.
    Beyond,
}

/// Something that is built into a room. Rooms and sides are counted round: any number means one of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Part {
    /// A wall across a room.
    Wall {
        /// The room.
        room: usize,
        /// The side on which it starts, and hundredths of that side.
        from: (usize, i64),
        /// Where it leads.
        aim: Aim,
        /// Its thickness.
        thickness: Length,
        /// How its ends are drawn.
        reach: [Reach; 2],
    },
    /// Walls from a place inside a room to its sides.
    Star {
        /// The room.
        room: usize,
        /// For each wall: where it ends, and its thickness.
        spokes: Vec<((usize, i64), Length)>,
    },
    /// Two walls that cross inside a room.
    Crossing {
        /// The room.
        room: usize,
        /// The side on which each starts, and hundredths of it.
        from: [(usize, i64); 2],
        /// Where each leads.
        aim: [Aim; 2],
        /// The thickness of each.
        thickness: [Length; 2],
    },
    /// A wall into a room that ends free.
    Spur {
        /// The room.
        room: usize,
        /// The side on which it starts, and hundredths of that side.
        from: (usize, i64),
        /// Where it would lead.
        aim: Aim,
        /// How much of the way it goes, in hundredths.
        hundredths: i64,
        /// Its thickness.
        thickness: Length,
    },
    /// An open boundary across a room.
    Boundary {
        /// The room.
        room: usize,
        /// The side on which it starts, and hundredths of that side.
        from: (usize, i64),
        /// Where it leads.
        aim: Aim,
    },
    /// A column or chase.
    Column {
        /// The room.
        room: usize,
        /// The place of its lower left corner, in hundredths of the room's extent.
        at: [i64; 2],
        /// Its size in eighths of an inch.
        size: [i64; 2],
    },
    /// A wall that is drawn in two pieces, which overlap, or meet end to end.
    Pieces {
        /// The wall.
        wall: usize,
        /// Where the second piece starts, in hundredths of the wall.
        second_from: i64,
        /// Where the first ends; no less.
        first_to: i64,
    },
    /// A door or cased opening in the wall along a side of a room.
    Doorway(Doorway),
    /// Something that stands on the floor of a room.
    Thing(Thing),
}

const THICKNESSES: [Length; 6] = [
    Length::from_steps(Length::INCH.steps() * 7 / 2),
    Length::inches(4),
    Length::from_steps(Length::INCH.steps() * 9 / 2),
    Length::inches(6),
    Length::from_steps(640 * 89),
    // An odd number of steps: its faces do not lie half of it from the centre line.
    Length::from_steps(640 * 89 + 191),
];

impl RandomPlan {
    /// The description of one plan of a run.
    #[must_use]
    pub fn numbered(seed: u64, index: u64) -> Self {
        Self::drawn_by(&mut Random::for_plan(seed, index))
    }

    /// The description of one plan of a run with doors and with things that stand on its floors: plans to walk through.
    #[must_use]
    pub fn furnished(seed: u64, index: u64) -> Self {
        let mut random = Random::for_plan(seed, index);
        let mut plan = Self::drawn_by(&mut random);
        // Doors come last: a wall that is built later could end in one.
        let (doorways, things) = (random.whole(6, 24), random.whole(0, 12));
        plan.parts.extend((0..doorways).map(|_| Part::Doorway(Doorway::drawn_by(&mut random))));
        plan.parts.extend((0..things).map(|_| Part::Thing(Thing::drawn_by(&mut random))));
        plan
    }

    fn drawn_by(random: &mut Random) -> Self {
        let outline = Outline::drawn_by(random);
        let odd = random.one_of(&[0, 15, 60]);
        let count = random.whole(1, 11);
        let parts = (0..count).map(|_| Part::drawn_by(random, odd)).collect();
        Self { outline, parts }
    }

    /// Every description that is a little smaller: without one part, or with a simpler outline or a simpler part.
    #[must_use]
    pub fn smaller(&self) -> Vec<Self> {
        let mut smaller = Vec::new();
        for left_out in 0..self.parts.len() {
            let mut parts = self.parts.clone();
            parts.remove(left_out);
            smaller.push(Self { outline: self.outline.clone(), parts });
        }
        for outline in self.outline.simpler() {
            smaller.push(Self { outline, parts: self.parts.clone() });
        }
        for (at, part) in self.parts.iter().enumerate() {
            for simpler in part.simpler() {
                let mut parts = self.parts.clone();
                parts[at] = simpler;
                smaller.push(Self { outline: self.outline.clone(), parts });
            }
        }
        smaller
    }
}

impl Outline {
    fn drawn_by(random: &mut Random) -> Self {
        let shape = random.one_of(&[Shape::Rectangle, Shape::Rectangle, Shape::L, Shape::T]);
        let size = [random.whole(180, 700), random.whole(160, 340)];
        let corners = shape.corners(size).len();
        let stray = if random.in_hundred(25) { 20 } else { 0 };
        let moved = (0..corners).map(|_| [random.whole(-stray, stray), random.whole(-stray, stray)]).collect();
        let turned = if random.in_hundred(40) { 0 } else { random.whole(0, 3_599_999) };
        let one = random.one_of(&THICKNESSES);
        let uneven = random.in_hundred(30);
        let thickness = (0..corners).map(|_| if uneven { random.one_of(&THICKNESSES) } else { one }).collect();
        Self { shape, size, moved, turned, thickness, by_inner_face: random.in_hundred(50) }
    }

    fn simpler(&self) -> Vec<Self> {
        let rectangle = Self {
            shape: Shape::Rectangle,
            moved: vec![[0, 0]; 4],
            thickness: self.thickness.iter().take(4).copied().collect(),
            ..self.clone()
        };
        let level = Self { turned: 0, ..self.clone() };
        let straight = Self { moved: vec![[0, 0]; self.moved.len()], ..self.clone() };
        let even = Self { thickness: vec![self.thickness[0]; self.thickness.len()], ..self.clone() };
        let centred = Self { by_inner_face: false, ..self.clone() };
        [rectangle, level, straight, even, centred].into_iter().filter(|simpler| simpler != self).collect()
    }
}

impl Shape {
    /// Corners, counter-clockwise from the lower left.
    #[must_use]
    pub fn corners(self, [width, depth]: [i64; 2]) -> Vec<[i64; 2]> {
        let (third, half) = (width / 3, depth / 2);
        match self {
            Self::Rectangle => vec![[0, 0], [width, 0], [width, depth], [0, depth]],
            Self::L => vec![[0, 0], [width, 0], [width, half], [third, half], [third, depth], [0, depth]],
            Self::T => vec![
                [0, 0],
                [width, 0],
                [width, half],
                [2 * third, half],
                [2 * third, depth],
                [third, depth],
                [third, half],
                [0, half],
            ],
        }
    }
}

impl Part {
    fn drawn_by(random: &mut Random, odd: i64) -> Self {
        let room = index(random);
        let thickness = random.one_of(&THICKNESSES);
        match random.whole(0, 99) {
            0..55 => Self::Wall {
                room,
                from: place(random),
                aim: aim(random, odd),
                thickness,
                reach: [reach(random), reach(random)],
            },
            55..63 => {
                let count = random.whole(3, 5);
                let spoke = |random: &mut Random| (place(random), random.one_of(&THICKNESSES));
                Self::Star { room, spokes: (0..count).map(|_| spoke(random)).collect() }
            }
            63..70 => Self::Crossing {
                room,
                from: [place(random), place(random)],
                aim: [aim(random, odd), aim(random, odd)],
                thickness: [thickness, random.one_of(&THICKNESSES)],
            },
            70..77 => Self::Spur {
                room,
                from: place(random),
                aim: aim(random, odd),
                hundredths: random.whole(15, 90),
                thickness,
            },
            77..85 => Self::Boundary { room, from: place(random), aim: aim(random, odd) },
            85..94 => Self::Column {
                room,
                at: [random.whole(0, 90), random.whole(0, 90)],
                size: [random.whole(32, 240), random.whole(32, 240)],
            },
            _ => {
                let second_from = random.whole(20, 70);
                let overlap = if random.in_hundred(30) { 0 } else { random.whole(1, 25) };
                Self::Pieces { wall: index(random), second_from, first_to: second_from + overlap }
            }
        }
    }

    fn simpler(&self) -> Vec<Self> {
        let mut simpler = Vec::new();
        match self {
            Self::Wall { room, from, aim, thickness, reach } => {
                let wall = |aim, thickness, reach| Self::Wall { room: *room, from: *from, aim, thickness, reach };
                if *aim != Aim::Square {
                    simpler.push(wall(Aim::Square, *thickness, *reach));
                }
                if *reach != [Reach::Line; 2] {
                    simpler.push(wall(*aim, *thickness, [Reach::Line; 2]));
                }
                if *thickness != Length::inches(4) {
                    simpler.push(wall(*aim, Length::inches(4), *reach));
                }
            }
            Self::Star { room, spokes } if spokes.len() > 3 => {
                for left_out in 0..spokes.len() {
                    let mut spokes = spokes.clone();
                    spokes.remove(left_out);
                    simpler.push(Self::Star { room: *room, spokes });
                }
            }
            _ => {}
        }
        simpler
    }
}

pub(super) fn index(random: &mut Random) -> usize {
    usize::try_from(random.whole(0, 5039)).unwrap_or_default()
}

fn place(random: &mut Random) -> (usize, i64) {
    (index(random), random.whole(0, 100))
}

fn aim(random: &mut Random, odd: i64) -> Aim {
    if random.in_hundred(odd) { Aim::To(index(random), random.whole(0, 100)) } else { Aim::Square }
}

fn reach(random: &mut Random) -> Reach {
    random.one_of(&[Reach::Line, Reach::Line, Reach::Face, Reach::Beyond])
}
