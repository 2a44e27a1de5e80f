use kurbo::{Point, Rect};
use plan_geometry::Derived;
use plan_model::Home;

use crate::dimensions::clear_of_strings;
use crate::placement::{Obstacle, boxes_around};
use crate::plan_drawing::house;
use crate::rooms::{self, Obstacles};
use crate::shapes::place;
use crate::{Drawing, Item, site};

/// Where a flag of a mark should stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stand {
    /// Outside the house, clear of the opening that it criticises.
    Outside,
    /// In the nearest free floor, clear of the opening that it criticises.
    Beside,
    /// In the nearest free floor, which may be the criticised room's own.
    Anywhere,
}

/// Where flags may stand.
pub(super) struct Places {
    lettering: f64,
    house: Option<Rect>,
    /// What dimension strings leave free; a flag that finds no other place lies over them.
    within: Option<Rect>,
    /// Lettering below, which neither flags nor leaders cross.
    tags: Vec<Rect>,
    /// What other marks take.
    taken: Vec<Rect>,
    leaders: Vec<Obstacle>,
    obstacles: Obstacles,
    walls: Vec<Obstacle>,
    openings: Vec<Obstacle>,
}

impl Places {
    pub(super) fn new(home: &Home<'_>, derived: &Derived, words: Vec<Rect>, lettering: f64) -> Self {
        let house = house(home, derived);
        let shape = |outline: [plan_model::Point; 4]| Obstacle::new(outline.map(place).to_vec());
        let openings = derived.windows.iter().map(|window| window.outline);
        let openings = openings.chain(derived.doors.iter().map(|door| door.outline));
        Self {
            lettering,
            house,
            within: house.map(|house| clear_of_strings(home, house, lettering)),
            tags: words,
            taken: Vec::new(),
            leaders: Vec::new(),
            walls: derived.walls.iter().filter_map(|wall| shape(wall.outline)).collect(),
            openings: openings.filter_map(shape).collect(),
            obstacles: Obstacles::of(home, derived),
        }
    }

    pub(super) const fn lettering(&self) -> f64 {
        self.lettering
    }

    /// Keeps flags off a measured distance.
    pub(super) fn keep_clear(&mut self, dimension: Rect) {
        self.taken.push(dimension.inset(0.5 * self.lettering));
    }

    /// Where the leader of a flag ends: at its target, or where that is under lettering at the edge of what is marked.
    /// None for a flag that stands on what it marks.
    pub(super) fn leader_end(&self, target: Point, extent: Rect, flag: Rect) -> Option<Point> {
        if !self.tags.iter().any(|tag| tag.inset(0.6 * self.lettering).contains(target)) {
            return Some(target);
        }
        let within = extent.inset(-(0.8 * self.lettering).min(extent.width().min(extent.height()) / 2.0));
        let centre = flag.center();
        (!extent.contains(centre))
            .then(|| Point::new(centre.x.clamp(within.x0, within.x1), centre.y.clamp(within.y0, within.y1)))
    }

    /// The best place for a flag near its target; taken from then on.
    pub(super) fn take(&mut self, stand: Stand, target: Point, extent: Rect, size: (f64, f64)) -> Rect {
        const FARTHEST: f64 = 30.0;
        let around = || boxes_around(target, size, self.lettering, FARTHEST * self.lettering);
        let mut best: Option<(f64, Rect)> = None;
        for (away, place) in around() {
            // Nothing farther away can cost less than the way there.
            if best.is_some_and(|(cost, _)| cost <= away) {
                break;
            }
            let allowed = best.map_or(f64::INFINITY, |(cost, _)| cost - away);
            if let Some(hidden) = self.cost(stand, target, extent, place, allowed) {
                best = Some((away + hidden, place));
            }
        }
        let at_least_free = || around().map(|(_, place)| place).find(|place| !self.hides_lettering(*place));
        let place = best.map(|(_, place)| place).or_else(at_least_free);
        let place = place.unwrap_or_else(|| Rect::from_center_size(target, size));
        self.taken.push(place);
        let edge = Point::new(target.x.clamp(place.x0, place.x1), target.y.clamp(place.y0, place.y1));
        self.leaders.extend(Obstacle::new(vec![target, edge]));
        place
    }

    /// What is shown when the whole plan is: the house with its dimension strings.
    fn paper(&self) -> Option<Rect> {
        const STRINGS: f64 = 8.0;
        self.within.map(|within| within.inset(STRINGS * self.lettering))
    }

    fn hides_lettering(&self, flag: Rect) -> bool {
        let room = flag.inset(0.4 * self.lettering);
        self.tags.iter().chain(&self.taken).any(|other| other.intersect(room).area() > 0.0)
    }

    /// What a flag hides, as inches that it should rather stand farther away; none where it must not stand, or where
    /// that is not less than is allowed.
    fn cost(&self, stand: Stand, target: Point, extent: Rect, flag: Rect, allowed: f64) -> Option<f64> {
        if self.hides_lettering(flag) {
            return None;
        }
        let hides = |all: &[Obstacle]| all.iter().any(|obstacle| obstacle.meets(flag));
        let own = match stand {
            Stand::Outside | Stand::Beside if extent.inset(0.9 * self.lettering).intersect(flag).area() > 0.0 => {
                return None;
            }
            Stand::Outside if self.house.is_some_and(|house| house.intersect(flag).area() > 0.0) => 18.0,
            Stand::Outside | Stand::Beside => 0.0,
            Stand::Anywhere => 25.0 * extent.intersect(flag).area() / extent.area().max(1.0),
        };
        let edge = Point::new(target.x.clamp(flag.x0, flag.x1), target.y.clamp(flag.y0, flag.y1));
        let leader = Obstacle::new(vec![target, edge]);
        let crosses = |all: &[Rect]| leader.iter().any(|leader| all.iter().any(|other| leader.meets(*other)));
        let Obstacles { fixed, furniture, storage, .. } = &self.obstacles;
        let costs: [(f64, &dyn Fn() -> bool); 10] = [
            (40.0, &|| self.paper().is_some_and(|paper| paper.union(flag) != paper)),
            (16.0, &|| self.within.is_some_and(|within| within.union(flag) != within)),
            (6.0, &|| hides(&self.openings)),
            (5.0, &|| hides(fixed)),
            (4.0, &|| hides(&self.walls)),
            (1.0, &|| hides(furniture)),
            (1.0, &|| hides(storage)),
            (8.0, &|| hides(&self.leaders)),
            (6.0, &|| crosses(&self.tags)),
            (8.0, &|| crosses(&self.taken)),
        ];
        let mut cost = own * self.lettering;
        for (each, applies) in costs {
            if cost >= allowed {
                return None;
            }
            cost += if applies() { each * self.lettering } else { 0.0 };
        }
        (cost < allowed).then_some(cost)
    }
}

/// The lettering of the rooms and porches of a plan whose tags stand clear of these obstacles.
pub(crate) fn words_of_plan(home: &Home<'_>, derived: &Derived, obstacles: &Obstacles, lettering: f64) -> Vec<Rect> {
    let mut tags = Drawing::default();
    rooms::draw(&mut tags, home, derived, obstacles, lettering);
    site::name_porches(&mut tags, home, lettering);
    let text = |item: &Item| match item {
        Item::Text(text) => Some(text.bounds()),
        Item::Fill { .. } | Item::Stroke { .. } => None,
    };
    tags.items.iter().filter_map(text).collect()
}
