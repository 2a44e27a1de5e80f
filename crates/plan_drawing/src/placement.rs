//! Finding a free place for lettering inside a room.

use std::cell::OnceCell;

use kurbo::{Point, Rect, Vec2};
use plan_geometry::Region;

use crate::shapes::{around, joined, place};

/// A convex shape that lettering keeps clear of; two corners make a line.
#[derive(Clone, Debug)]
pub(crate) struct Obstacle {
    corners: Vec<Point>,
    bounds: Rect,
    /// Whether it fills its bounds: a rectangle, or a line, square to the drawing.
    is_upright: bool,
}

impl Obstacle {
    pub(crate) fn new(corners: Vec<Point>) -> Option<Self> {
        let bounds = around(corners.iter().copied())?;
        let is_corner = |point: &Point| {
            (point.x == bounds.x0 || point.x == bounds.x1) && (point.y == bounds.y0 || point.y == bounds.y1)
        };
        let is_upright = match corners.len() {
            2 => bounds.width() == 0.0 || bounds.height() == 0.0,
            4 => corners.iter().all(is_corner),
            _ => false,
        };
        Some(Self { corners, bounds, is_upright })
    }

    pub(crate) fn of_rect(rect: Rect) -> Option<Self> {
        Self::new(
            [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)].map(Point::from).to_vec(),
        )
    }

    /// Whether it shares more than an edge with a rectangle: no side of either parts them.
    pub(crate) fn meets(&self, rect: Rect) -> bool {
        if !overlap(self.bounds, rect) {
            return false;
        }
        if self.is_upright {
            return true;
        }
        let rect_corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)];
        let sides = self.corners.iter().zip(self.corners.iter().cycle().skip(1));
        !sides.into_iter().any(|(a, b)| {
            let across = Vec2::new(-(b.y - a.y), b.x - a.x);
            let reach = |points: &mut dyn Iterator<Item = Point>| {
                points
                    .map(|point| point.to_vec2().dot(across))
                    .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)))
            };
            let mine = reach(&mut self.corners.iter().copied());
            let other = reach(&mut rect_corners.iter().map(|corner| Point::from(*corner)));
            mine.1 <= other.0 || other.1 <= mine.0
        })
    }
}

fn overlap(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

/// A room's floor with the places where the middle of a text may stand, nearest to the room's point first.
pub(crate) struct Floor {
    sides: Vec<Obstacle>,
    bounds: Rect,
    anchor: Point,
    candidates: OnceCell<Vec<Point>>,
}

impl Floor {
    /// Prepares the search in a region around an anchor.
    pub(crate) fn new(region: &Region, anchor: Point) -> Self {
        let sides: Vec<_> = region.sides().filter_map(|(a, b)| Obstacle::new(vec![place(a), place(b)])).collect();
        let bounds = joined(sides.iter().map(|side| side.bounds)).unwrap_or_default();
        Self { sides, bounds, anchor, candidates: OnceCell::new() }
    }

    /// The floor among obstacles anywhere on the plan, for boxes whose sides are all at least `least`.
    pub(crate) fn among<'a>(&'a self, obstacles: impl IntoIterator<Item = &'a Obstacle>, least: f64) -> FreeFloor<'a> {
        let near = obstacles.into_iter().filter(|obstacle| overlap(obstacle.bounds, self.bounds));
        let obstacles = self.sides.iter().chain(near).map(|obstacle| (obstacle.bounds, obstacle)).collect();
        FreeFloor { floor: self, obstacles, least, candidates: OnceCell::new() }
    }
}

/// A room's floor with everything that stands on it.
pub(crate) struct FreeFloor<'a> {
    floor: &'a Floor,
    /// Its sides, then what stands there, with bounds at hand: most are ruled out by them.
    obstacles: Vec<(Rect, &'a Obstacle)>,
    least: f64,
    /// The anchor, then places where at least the smallest box stands clear, found once for boxes of all sizes.
    candidates: OnceCell<Vec<Point>>,
}

impl FreeFloor<'_> {
    /// The first of some boxes for which there is a place, and the one nearest to the anchor where it stands clear.
    pub(crate) fn first_fit(&self, sizes: &[(f64, f64)]) -> Option<(usize, Point)> {
        // Most rooms are free at their anchor, and then need no other places.
        let anchor = self.floor.anchor;
        if sizes.first().is_some_and(|size| self.clearance(*size)(&anchor)) {
            return Some((0, anchor));
        }
        let places = self.places(sizes);
        self.fitting(sizes).find_map(|(index, size)| Some((index, places.iter().copied().find(self.clearance(size))?)))
    }

    /// Like [`first_fit`](Self::first_fit), at the place where the box covers least of what it may lie over.
    pub(crate) fn least_covering<'a>(
        &self,
        sizes: &[(f64, f64)],
        covered: impl Iterator<Item = &'a Obstacle>,
    ) -> Option<(usize, Point)> {
        let bounds = self.floor.bounds;
        let places = self.places(sizes);
        let near: Vec<Rect> = covered.map(|obstacle| obstacle.bounds).filter(|body| overlap(*body, bounds)).collect();
        let cost = |at: Point, size: (f64, f64)| {
            let rect = Rect::from_center_size(at, size);
            near.iter().filter(|body| overlap(**body, rect)).map(|body| body.intersect(rect).area()).sum::<f64>()
        };
        let least = |places: &mut dyn Iterator<Item = Point>, size: (f64, f64)| {
            let free = places.filter(self.clearance(size)).map(|at| (cost(at, size), at));
            free.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, at)| at)
        };
        let on_grid = |(index, size)| Some((index, least(&mut places.iter().copied(), size)?));
        let snug = |(index, size)| Some((index, least(&mut self.snug_places(size).into_iter(), size)?));
        self.fitting(sizes).find_map(on_grid).or_else(|| self.fitting(sizes).find_map(snug))
    }

    /// Places where a box touches something on two sides: the free floor may be hardly larger than the box.
    fn snug_places(&self, (width, height): (f64, f64)) -> Vec<Point> {
        let edges = || self.obstacles.iter().map(|(bounds, _)| bounds);
        let across = edges().flat_map(|edge| [edge.x0 - width / 2.0, edge.x1 + width / 2.0]);
        let up = edges().flat_map(|edge| [edge.y0 - height / 2.0, edge.y1 + height / 2.0]);
        let bounds = self.floor.bounds;
        let within = |low: f64, high: f64, at: &mut dyn Iterator<Item = f64>| {
            let mut at: Vec<f64> = at.filter(|at| low <= *at && *at <= high).collect();
            at.sort_by(f64::total_cmp);
            at.dedup();
            at
        };
        let across = within(bounds.x0 + width / 2.0, bounds.x1 - width / 2.0, &mut { across });
        let up = within(bounds.y0 + height / 2.0, bounds.y1 - height / 2.0, &mut { up });
        across.iter().flat_map(|x| up.iter().map(move |y| Point::new(*x, *y))).collect()
    }

    /// The sizes that are not larger than the room.
    fn fitting<'s>(&self, sizes: &'s [(f64, f64)]) -> impl Iterator<Item = (usize, (f64, f64))> + use<'s> {
        let (width, height) = (self.floor.bounds.width(), self.floor.bounds.height());
        sizes.iter().copied().enumerate().filter(move |(_, size)| size.0 <= width && size.1 <= height)
    }

    /// Places where the least width and the least height of some boxes stand clear: elsewhere none of them does.
    fn places(&self, sizes: &[(f64, f64)]) -> Vec<Point> {
        let Floor { sides, bounds, anchor, candidates } = self.floor;
        let free = self.candidates.get_or_init(|| {
            let all = candidates.get_or_init(|| places(sides, *bounds, *anchor));
            let all = std::iter::once(anchor).chain(all).copied();
            all.filter(self.clearance((self.least, self.least))).collect()
        });
        let none = (f64::INFINITY, f64::INFINITY);
        let least = self.fitting(sizes).fold(none, |least, (_, size)| (least.0.min(size.0), least.1.min(size.1)));
        if least == none {
            return Vec::new();
        }
        free.iter().copied().filter(self.clearance(least)).collect()
    }

    /// Whether a box of this size stands clear around a place.
    fn clearance(&self, size: (f64, f64)) -> impl FnMut(&Point) -> bool {
        // What blocked one place most likely blocks the next, which lies near it.
        let mut last = 0;
        move |at| {
            let rect = Rect::from_center_size(*at, size);
            let blocks = |(bounds, obstacle): &(Rect, &Obstacle)| overlap(*bounds, rect) && obstacle.meets(rect);
            if self.obstacles.get(last).is_some_and(blocks) {
                return false;
            }
            let blocker = self.obstacles.iter().position(blocks);
            last = blocker.unwrap_or(last);
            blocker.is_none()
        }
    }
}

/// Boxes of one size around a point, each with its distance from it, the nearest first.
pub(crate) fn boxes_around(
    target: Point,
    (width, height): (f64, f64),
    step: f64,
    farthest: f64,
) -> impl Iterator<Item = (f64, Rect)> {
    let rings = (1..).map(move |ring: u32| f64::from(ring) * step).take_while(move |away| *away <= farthest);
    rings.flat_map(move |away| {
        let (across, up) = (width / 2.0 + away, height / 2.0 + away);
        // Beside first, then above and below; on each side from its middle outwards.
        let beside = from_middle(up, 2.0 * step).flat_map(move |y| [(across, y), (-across, y)]);
        let over = from_middle(across, 2.0 * step).flat_map(move |x| [(x, up), (x, -up)]);
        let at = move |(x, y): (f64, f64)| (away, Rect::from_center_size(target + Vec2::new(x, y), (width, height)));
        beside.chain(over).map(at)
    })
}

/// Zero, then steps to both sides.
fn from_middle(reach: f64, step: f64) -> impl Iterator<Item = f64> {
    let steps = (1..).map(move |count: u32| f64::from(count) * step).take_while(move |away| *away <= reach);
    std::iter::once(0.0).chain(steps.flat_map(|away| [away, -away]))
}

/// A grid over the region, as fine as serves the eye, the nearest to the anchor first.
fn places(sides: &[Obstacle], bounds: Rect, anchor: Point) -> Vec<Point> {
    /// More places than this cost time and move no text visibly.
    const MOST: f64 = 400.0;
    const FINEST: f64 = 2.0;
    let step = (bounds.area() / MOST).sqrt().max(FINEST);
    let mut found = Vec::new();
    let mut y = bounds.y0 + step / 2.0;
    while y < bounds.y1 {
        // The sides crossed on this level, from left to right, enclose the inside of the region by twos.
        let mut crossings: Vec<f64> = sides.iter().filter_map(|side| crossing(side, y)).collect();
        crossings.sort_by(f64::total_cmp);
        let mut push = |x: f64| {
            let place = Point::new(x, y);
            found.push((place.distance_squared(anchor), place));
        };
        for pair in crossings.chunks_exact(2) {
            // The middle of each stretch is the likeliest place in a narrow room.
            push((pair[0] + pair[1]) / 2.0);
            let mut x = pair[0] + step / 2.0;
            while x < pair[1] {
                push(x);
                x += step;
            }
        }
        y += step;
    }
    found.sort_unstable_by(|(a, _), (b, _)| a.total_cmp(b));
    found.into_iter().map(|(_, place)| place).collect()
}

fn crossing(side: &Obstacle, y: f64) -> Option<f64> {
    let [a, b] = side.corners[..] else { return None };
    ((a.y > y) != (b.y > y)).then(|| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y))
}

#[cfg(test)]
mod tests {
    use plan_model::Point as Place;

    use super::*;

    fn room() -> Region {
        let outer = vec![Place::inches(0, 0), Place::inches(100, 0), Place::inches(100, 50), Place::inches(0, 50)];
        Region { outer, holes: vec![] }
    }

    fn box_at(x0: f64, y0: f64, x1: f64, y1: f64) -> Obstacle {
        let corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(Point::from).to_vec();
        Obstacle::new(corners).expect("four corners")
    }

    #[test]
    fn a_free_anchor_is_kept() {
        let floor = Floor::new(&room(), Point::new(40.0, 25.0));
        assert_eq!(floor.among([], 10.0).first_fit(&[(60.0, 30.0)]), Some((0, Point::new(40.0, 25.0))));
    }

    #[test]
    fn a_box_moves_clear_of_an_obstacle_and_stays_inside() {
        let bed = box_at(0.0, 0.0, 60.0, 50.0);
        let floor = Floor::new(&room(), Point::new(40.0, 25.0));
        let (_, at) = floor.among([&bed], 10.0).first_fit(&[(30.0, 20.0)]).expect("40 in are free");
        assert!(at.x - 15.0 >= 60.0 && at.x + 15.0 <= 100.0 && at.y - 10.0 >= 0.0 && at.y + 10.0 <= 50.0, "{at:?}");
    }

    #[test]
    fn a_box_larger_than_the_free_floor_finds_no_place() {
        let bed = box_at(0.0, 0.0, 60.0, 50.0);
        let floor = Floor::new(&room(), Point::new(40.0, 25.0));
        assert_eq!(floor.among([&bed], 10.0).first_fit(&[(41.0, 20.0)]), None);
        assert_eq!(floor.among([&bed], 10.0).first_fit(&[(41.0, 20.0), (39.0, 20.0)]).map(|(index, _)| index), Some(1));
    }

    #[test]
    fn boxes_around_a_point_never_hold_it() {
        let target = Point::new(7.0, 9.0);
        let mut last = 0.0;
        for (away, place) in boxes_around(target, (30.0, 8.0), 3.0, 20.0) {
            let nearest = Point::new(target.x.clamp(place.x0, place.x1), target.y.clamp(place.y0, place.y1));
            assert!(nearest.distance(target) > away - 1e-9 && away >= last);
            last = away;
        }
        assert!(last > 15.0);
    }

    #[test]
    fn a_slanting_obstacle_blocks_its_own_shape_only() {
        let triangle =
            Obstacle::new([(0.0, 0.0), (50.0, 0.0), (0.0, 50.0)].map(Point::from).to_vec()).expect("corners");
        assert!(triangle.meets(Rect::new(10.0, 10.0, 20.0, 20.0)));
        assert!(!triangle.meets(Rect::new(30.0, 30.0, 45.0, 45.0)), "inside its bounds, beyond its long side");
    }
}
