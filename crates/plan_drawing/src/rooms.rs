//! Room tags: the name, the clear size and the area, on free floor.

use kurbo::{Point, Rect};
use plan_geometry::{ClearRectangle, Derived, RoomFigures};
use plan_model::elements::{Fixture, FixtureKind, Furniture, FurnitureKind, Room, RoomUse};
use plan_model::{Facing, Home, Length, Units};
use plan_rules::show;

use crate::frame::Frame;
use crate::lettering::width_per_height;
use crate::placement::{Floor, FreeFloor, Obstacle};
use crate::shapes::{between, place, rectangle};
use crate::{Align, Drawing, Face, Ink, Item, Lettering, furniture, notation, openings, overhead};

/// Height of a room's name, in heights of ordinary notes.
const NAME: f64 = 1.2;
/// Height of its figures.
const FIGURES: f64 = 0.92;
/// Between two lines, in heights of ordinary notes.
const LEADING: f64 = 0.62;
/// Kept free around a tag.
const MARGIN: f64 = 0.45;

/// Draws the tag of every room that closed and has floor enough for one.
pub(crate) fn draw(drawing: &mut Drawing, home: &Home<'_>, derived: &Derived, lettering: f64) {
    let obstacles = Obstacles::of(home, derived);
    for figures in &derived.rooms {
        let Some(room) = home.elements.rooms.iter().find(|room| room.id == figures.id) else { continue };
        let words = Words::new(room, figures, home.plan.units);
        obstacles.place_tag(drawing, &words, figures, place(room.at), lettering);
    }
}

/// What keeps lettering away.
struct Obstacles {
    /// Fixtures on the floor, columns, alarms.
    fixed: Vec<Obstacle>,
    /// Furniture, as it stands.
    furniture: Vec<Obstacle>,
    /// Furniture where lettering may lie on a bed's cover or on a rug, but not across their edges.
    furniture_edges: Vec<Obstacle>,
    /// What doors pass over, shelves, and what hangs above: a name may lie over it where there is no other floor.
    passing: Vec<Obstacle>,
}

impl Obstacles {
    fn of(home: &Home<'_>, derived: &Derived) -> Self {
        let elements = &home.elements;
        let stands = |fixture: &&Fixture| fixture.kind.is_obstruction() && fixture.kind != FixtureKind::Shelves;
        let (standing, hanging): (Vec<_>, Vec<_>) = elements.fixtures.iter().partition(stands);
        let body = |fixture: &&Fixture| footprint(fixture.at, fixture.faces, fixture.width, fixture.depth);
        let columns = elements.columns.iter().map(|column| rect_corners(between(column.from, column.to)));
        let symbols = overhead::symbol_places(home).into_iter().map(rect_corners);
        let swept = openings::swept_floor(home, derived);
        let shapes = |all: &mut dyn Iterator<Item = Vec<Point>>| all.filter_map(Obstacle::new).collect();
        Self {
            fixed: shapes(&mut standing.iter().map(body).chain(columns).chain(symbols)),
            furniture: shapes(&mut elements.furniture.iter().flat_map(solid_furniture)),
            furniture_edges: shapes(&mut elements.furniture.iter().flat_map(furniture_edges)),
            passing: shapes(&mut swept.into_iter().chain(hanging.iter().map(body))),
        }
    }

    fn place_tag(&self, drawing: &mut Drawing, words: &Words, figures: &RoomFigures, anchor: Point, lettering: f64) {
        let floor = Floor::new(&figures.region, anchor);
        let among_all = floor.among(self.fixed.iter().chain(&self.furniture).chain(&self.passing));
        let among_edges = floor.among(self.fixed.iter().chain(&self.furniture_edges).chain(&self.passing));
        let among_fixed = floor.among(&self.fixed);
        let passes: [(&FreeFloor<'_>, &[Layout]); 4] = [
            (&among_all, &Layout::FULL),
            (&among_edges, &Layout::FULL),
            (&among_edges, &Layout::SHORTER),
            (&among_fixed, &Layout::NAME_ONLY),
        ];
        for (index, (floor, layouts)) in passes.into_iter().enumerate() {
            for layout in layouts {
                let tag = Tag::new(words, *layout, lettering);
                if let Some(at) = floor.nearest(tag.size.0, tag.size.1) {
                    // The last pass puts lettering over light lines, which it has to part.
                    if index + 1 == passes.len() {
                        drawing.fill(rectangle(Rect::from_center_size(at, tag.size)), Ink::Floor);
                    }
                    return tag.draw(drawing, at);
                }
            }
        }
    }
}

fn rect_corners(rect: Rect) -> Vec<Point> {
    [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)].map(Point::from).to_vec()
}

fn footprint(at: plan_model::Point, faces: Facing, width: Length, depth: Length) -> Vec<Point> {
    let (right, depth) = (width.to_inches() / 2.0, depth.to_inches());
    let frame = Frame::standing(at, faces);
    [(-right, 0.0), (right, 0.0), (right, depth), (-right, depth)].map(|corner| frame.place(corner)).to_vec()
}

/// Furniture as solid shapes; of a rug only its edges.
fn solid_furniture(piece: &Furniture) -> Vec<Vec<Point>> {
    let body = footprint(piece.at, piece.faces, piece.width, piece.depth);
    match piece.kind {
        FurnitureKind::Rug => edges(&body),
        _ => vec![body],
    }
}

/// Furniture as solid shapes; of a bed its head and edges, of a rug its edges.
fn furniture_edges(piece: &Furniture) -> Vec<Vec<Point>> {
    match piece.kind {
        FurnitureKind::Bed => {
            let head = Length::nearest_to_inches(furniture::bed_head(piece.depth.to_inches()) + 3.0);
            let mut shapes = edges(&footprint(piece.at, piece.faces, piece.width, piece.depth));
            shapes.push(footprint(piece.at, piece.faces, piece.width, head));
            shapes
        }
        _ => solid_furniture(piece),
    }
}

fn edges(body: &[Point]) -> Vec<Vec<Point>> {
    body.iter().zip(body.iter().cycle().skip(1)).map(|(a, b)| vec![*a, *b]).collect()
}

/// What a tag may say.
struct Words {
    name: String,
    /// The name on two lines, where it has two words.
    parted_name: Option<[String; 2]>,
    size: Option<String>,
    /// The size on two lines.
    parted_size: Option<[String; 2]>,
    area: Option<String>,
}

impl Words {
    fn new(room: &Room, figures: &RoomFigures, units: Units) -> Self {
        let name = room.name.to_uppercase();
        let parted_name = parted(&name);
        if says_only_its_name(room.usage) {
            return Self { name, parted_name, size: None, parted_size: None, area: None };
        }
        let [across, up] = clear_size(&figures.sizes.rectangle()).map(|side| notation::length(side, units));
        let size = Some(format!("{across} \u{d7} {up}"));
        let area = show::area(figures.floor_area.exact(), units);
        let parted_size = Some([format!("{across} \u{d7}"), up]);
        Self { name, parted_name, size, parted_size, area: Some(area) }
    }
}

/// Small store rooms, whose figures stand in the room schedule.
const fn says_only_its_name(usage: RoomUse) -> bool {
    matches!(usage, RoomUse::Linen | RoomUse::Mechanical)
}

/// Parts a name at the space nearest to its middle.
fn parted(name: &str) -> Option<[String; 2]> {
    let middle = name.len() / 2;
    let spaces = name.match_indices(' ').map(|(at, _)| at);
    let at = spaces.min_by_key(|at| at.abs_diff(middle))?;
    Some([name[..at].to_owned(), name[at + 1..].to_owned()])
}

/// The clear rectangle as it lies on the drawing: across by up.
fn clear_size(clear: &ClearRectangle) -> [Length; 2] {
    let side = clear.corners[1] - clear.corners[0];
    let next = clear.corners[2] - clear.corners[1];
    // The side that runs more across than up, and whether it is the longer one.
    let (across, up) = if side.x.abs() >= side.y.abs() { (side, next) } else { (next, side) };
    let squared = |d: plan_model::Point| {
        i128::from(d.x.steps()) * i128::from(d.x.steps()) + i128::from(d.y.steps()) * i128::from(d.y.steps())
    };
    if squared(across) >= squared(up) { [clear.length, clear.width] } else { [clear.width, clear.length] }
}

/// How much a tag says, how large, and which way it reads.
#[derive(Clone, Copy)]
struct Layout {
    name: Lines,
    size: Lines,
    area: Lines,
    reads: Reads,
    scale: f64,
}

/// On how many lines a part of a tag stands.
#[derive(Clone, Copy, PartialEq)]
enum Lines {
    None,
    One,
    /// Two, where it can be parted.
    Two,
}

/// The way a tag reads.
#[derive(Clone, Copy, PartialEq)]
enum Reads {
    FromBelow,
    FromTheRight,
}

impl Layout {
    const WHOLE: Self =
        Self { name: Lines::One, size: Lines::One, area: Lines::One, reads: Reads::FromBelow, scale: 1.0 };
    const PARTED: Self = Self { name: Lines::Two, ..Self::WHOLE };
    const NARROW: Self = Self { size: Lines::Two, ..Self::PARTED };
    /// Everything, at most a little smaller.
    const FULL: [Self; 5] = [
        Self::WHOLE,
        Self::PARTED,
        Self { scale: 0.88, ..Self::WHOLE },
        Self { scale: 0.88, ..Self::PARTED },
        Self { scale: 0.88, ..Self::NARROW },
    ];
    const SIZED: Self = Self { area: Lines::None, ..Self::WHOLE };
    const NAMED: Self = Self { size: Lines::None, ..Self::SIZED };
    const TURNED: Self = Self { reads: Reads::FromTheRight, ..Self::NAMED };
    /// Less and less.
    const SHORTER: [Self; 13] = [
        Self::SIZED,
        Self { name: Lines::Two, ..Self::SIZED },
        Self { scale: 0.85, ..Self::SIZED },
        Self { name: Lines::Two, scale: 0.85, ..Self::SIZED },
        Self { name: Lines::Two, size: Lines::Two, scale: 0.85, ..Self::SIZED },
        Self { reads: Reads::FromTheRight, scale: 0.85, ..Self::SIZED },
        Self::NAMED,
        Self { name: Lines::Two, ..Self::NAMED },
        Self::TURNED,
        Self { scale: 0.85, ..Self::NAMED },
        Self { scale: 0.85, ..Self::TURNED },
        Self { scale: 0.7, ..Self::NAMED },
        Self { scale: 0.7, ..Self::TURNED },
    ];
    /// What may lie over hangers, swings and furniture.
    const NAME_ONLY: [Self; 5] = [
        Self { scale: 0.85, ..Self::NAMED },
        Self { scale: 0.85, ..Self::TURNED },
        Self { name: Lines::Two, scale: 0.85, ..Self::NAMED },
        Self { scale: 0.7, ..Self::NAMED },
        Self { scale: 0.7, ..Self::TURNED },
    ];
}

/// A tag laid out: its lines from the top down with their heights.
struct Tag<'a> {
    lines: Vec<(&'a str, f64, Face)>,
    leading: f64,
    /// Width and height of its box, margin included, as it stands on the drawing.
    size: (f64, f64),
    reads: Reads,
}

impl<'a> Tag<'a> {
    fn new(words: &'a Words, layout: Layout, lettering: f64) -> Self {
        let unit = lettering * layout.scale;
        let mut lines: Vec<(&str, f64, Face)> = Vec::new();
        let parts = [
            (layout.name, Some(&words.name), &words.parted_name, NAME, Face::Bold),
            (layout.size, words.size.as_ref(), &words.parted_size, FIGURES, Face::Regular),
            (layout.area, words.area.as_ref(), &None, FIGURES, Face::Regular),
        ];
        for (wanted, whole, parted, height, face) in parts {
            match (wanted, whole, parted) {
                (Lines::None, ..) | (_, None, _) => {}
                (Lines::Two, _, Some(parts)) => {
                    lines.extend(parts.iter().map(|part| (part.as_str(), height * unit, face)))
                }
                (_, Some(whole), _) => lines.push((whole, height * unit, face)),
            }
        }
        let leading = LEADING * unit;
        let width = lines.iter().map(|(text, height, _)| width_per_height(text) * height).fold(0.0, f64::max);
        let between = leading * f64::from(u32::try_from(lines.len().saturating_sub(1)).unwrap_or(0));
        let height = lines.iter().map(|(_, height, _)| height).sum::<f64>() + between;
        let (width, height) = (width + 2.0 * MARGIN * unit, height + 2.0 * MARGIN * unit);
        let size = match layout.reads {
            Reads::FromBelow => (width, height),
            Reads::FromTheRight => (height, width),
        };
        Self { lines, leading, size, reads: layout.reads }
    }

    fn draw(self, drawing: &mut Drawing, middle: Point) {
        let block = self.lines.iter().map(|(_, height, _)| height).sum::<f64>()
            + self.leading * f64::from(u32::try_from(self.lines.len().saturating_sub(1)).unwrap_or(0));
        let mut top = block / 2.0;
        for (text, height, face) in self.lines {
            let down = top - height / 2.0;
            let (at, angle) = match self.reads {
                Reads::FromBelow => (Point::new(middle.x, middle.y + down), 0.0),
                Reads::FromTheRight => (Point::new(middle.x - down, middle.y), 90.0),
            };
            top -= height + self.leading;
            let (align, ink) = (Align::Centre, Ink::Lettering);
            drawing.items.push(Item::Text(Lettering { text: text.to_owned(), at, height, angle, face, align, ink }));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_parted_near_its_middle() {
        assert_eq!(parted("OWNER'S BEDROOM"), Some(["OWNER'S".to_owned(), "BEDROOM".to_owned()]));
        assert_eq!(parted("PANTRY"), None);
    }

    #[test]
    fn a_turned_tag_swaps_its_sides() {
        let words = Words { name: "CLOSET".to_owned(), parted_name: None, size: None, parted_size: None, area: None };
        let (flat, turned) = (Tag::new(&words, Layout::NAMED, 4.5), Tag::new(&words, Layout::TURNED, 4.5));
        assert_eq!((flat.size.0, flat.size.1), (turned.size.1, turned.size.0));
    }
}
