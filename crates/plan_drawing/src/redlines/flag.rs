use kurbo::{Point, Rect, Vec2};

use super::Style;
use crate::lettering::width_per_height;
use crate::shapes::{circle, line, polygon, rounded};
use crate::{Align, Drawing, Face, Ink, Item, Lettering, Pen};

/// Radius of the ring, in heights of lettering.
const RING: f64 = 1.15;

/// A number in a ring (or a sign in a diamond) and the figures beside it.
pub(super) struct Flag<'a> {
    pub(super) sign: &'a str,
    pub(super) figures: Option<&'a str>,
    pub(super) is_ring: bool,
}

/// Where flags may stand.
pub(super) struct Places {
    house: Option<Rect>,
    /// Lettering below, which neither flags nor leaders cross.
    tags: Vec<Rect>,
    /// What other marks take.
    taken: Vec<Rect>,
    lettering: f64,
}

impl Places {
    pub(super) fn new(house: Option<Rect>, tags: Vec<Rect>, lettering: f64) -> Self {
        Self { house, tags, taken: Vec::new(), lettering }
    }

    /// Keeps flags off a measured distance.
    pub(super) fn keep_clear(&mut self, dimension: Rect) {
        self.taken.push(dimension.inset(0.5 * self.lettering));
    }

    /// Where the leader of a flag ends: at its target, or where that is under lettering at the edge of what is marked.
    /// None for a flag that stands on what it marks.
    fn leader_end(&self, target: Point, extent: Rect, flag: Rect) -> Option<Point> {
        if !self.tags.iter().any(|tag| tag.inset(0.6 * self.lettering).contains(target)) {
            return Some(target);
        }
        let within = extent.inset(-(0.8 * self.lettering).min(extent.width().min(extent.height()) / 2.0));
        let centre = flag.center();
        (!extent.contains(centre))
            .then(|| Point::new(centre.x.clamp(within.x0, within.x1), centre.y.clamp(within.y0, within.y1)))
    }

    /// The nearest free place for a flag near its target, inside the house if it can be; taken from then on.
    fn take(&mut self, target: Point, width: f64, height: f64) -> Rect {
        const STEPS: u32 = 14;
        const FARTHER_INSIDE: u32 = 3;
        let around = |ring: u32| {
            let away = f64::from(ring) * 1.1 * self.lettering;
            // Beside first: a flag reads best to the right or left of what it marks.
            [(1.0, 0.35), (-1.0, 0.35), (1.0, -0.6), (-1.0, -0.6), (0.3, 1.0), (0.3, -1.0), (0.0, 1.0), (0.0, -1.0)]
                .map(|(x, y): (f64, f64)| {
                    let centre = target + Vec2::new(x * (away + width / 2.0), y * (away + height / 2.0));
                    Rect::from_center_size(centre, (width, height))
                })
        };
        let is_free = |place: &Rect| {
            let room = place.inset(0.45 * self.lettering);
            !self.tags.iter().chain(&self.taken).any(|other| other.intersect(room).area() > 0.0)
        };
        let within = |place: &Rect| self.house.is_none_or(|house| house.union(*place) == house);
        let all =
            || (1..=STEPS).flat_map(|ring| around(ring).map(|place| (ring, place))).filter(|(_, place)| is_free(place));
        // Outside the house rather than far from the target.
        let (inside, anywhere) = (all().find(|(_, place)| within(place)), all().next());
        let found = match (inside, anywhere) {
            (Some((far, _)), Some((near, place))) if far > near + FARTHER_INSIDE => Some(place),
            (Some((_, place)), _) | (None, Some((_, place))) => Some(place),
            (None, None) => None,
        };
        let place = found.unwrap_or_else(|| around(1)[0]);
        self.taken.push(place);
        place
    }
}

impl Flag<'_> {
    pub(super) fn draw(&self, drawing: &mut Drawing, places: &mut Places, target: Point, extent: Rect, style: Style) {
        let lettering = places.lettering;
        let radius = RING * lettering;
        // Above nine the ring becomes a little wider, so that its number keeps its size.
        let ring = radius.max((width_per_height(self.sign) * 0.5 + 0.45) * lettering);
        let text = self.figures.map(|figures| (figures, width_per_height(figures) * lettering));
        let width = 2.0 * ring + text.map_or(0.0, |(_, width)| width + 1.1 * lettering);
        let place = places.take(target, width, 2.0 * radius);
        if let Some(target) = places.leader_end(target, extent, place) {
            let edge = Point::new(target.x.clamp(place.x0, place.x1), target.y.clamp(place.y0, place.y1));
            drawing.stroke(line(target, edge), Pen::MEDIUM, style.ink);
            drawing.fill(circle(target, 0.28 * lettering), style.ink);
        }
        let middle = place.center().y;
        if let Some((figures, _)) = text {
            let label = rounded(
                place.x0 + ring,
                place.y0 + 0.18 * lettering,
                place.x1,
                place.y1 - 0.18 * lettering,
                0.4 * lettering,
            );
            drawing.fill(label.clone(), Ink::Paper);
            drawing.stroke(label, Pen::MEDIUM, style.ink);
            let at = Point::new(place.x0 + 2.0 * ring + 0.45 * lettering, middle);
            drawing.items.push(lettered(figures, at, lettering, Face::Bold, Align::Left, style.ink));
        }
        let centre = Point::new(place.x0 + ring, middle);
        let outline = if self.is_ring {
            if ring > radius {
                rounded(centre.x - ring, centre.y - radius, centre.x + ring, centre.y + radius, radius)
            } else {
                circle(centre, radius)
            }
        } else {
            let tip = radius * 1.2;
            polygon([(tip, 0.0), (0.0, tip), (-tip, 0.0), (0.0, -tip)].map(|(x, y)| centre + Vec2::new(x, y)))
        };
        drawing.fill(outline.clone(), style.ink);
        drawing.stroke(outline, Pen::MEDIUM, Ink::Paper);
        drawing.items.push(lettered(self.sign, centre, 1.1 * lettering, Face::Bold, Align::Centre, Ink::Paper));
    }
}

fn lettered(text: &str, at: Point, height: f64, face: Face, align: Align, ink: Ink) -> Item {
    Item::Text(Lettering { text: text.to_owned(), at, height, angle: 0.0, face, align, ink })
}
