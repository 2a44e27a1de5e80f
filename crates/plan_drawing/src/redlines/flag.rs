use kurbo::{Point, Rect, Vec2};

use super::Style;
use super::places::{Places, Stand};
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
    /// What it points at.
    pub(super) target: Point,
    /// The rectangle around what is marked.
    pub(super) extent: Rect,
    pub(super) stand: Stand,
}

impl Flag<'_> {
    pub(super) fn draw(&self, drawing: &mut Drawing, places: &mut Places, style: Style) {
        let Self { target, extent, stand, .. } = *self;
        let lettering = places.lettering();
        let radius = RING * lettering;
        // Above nine the ring becomes a little wider, so that its number keeps its size.
        let ring = radius.max((width_per_height(self.sign) * 0.5 + 0.45) * lettering);
        let text = self.figures.map(|figures| (figures, width_per_height(figures) * lettering));
        let width = 2.0 * ring + text.map_or(0.0, |(_, width)| width + 1.1 * lettering);
        let place = places.take(stand, target, extent, (width, 2.0 * radius));
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
