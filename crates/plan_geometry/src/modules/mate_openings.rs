//! Openings through the mate line, and what they span.

use plan_model::elements::{ColumnKind, WallKind};
use plan_model::{Home, Id, Length, MateLine, Point};

use super::mate_frame::{MateFrame, between, crossing, reach};
use super::straddling::hang_in_mate_walls;
use crate::asked::Question;
use crate::kernel::rectangle;
use crate::openings::Openings;
use crate::walls::WallSolid;
use crate::{Measured, Region};

/// How far from the mate line a mate wall or post may stand and still stand along it: modules are set with a gap of 1/2 to
/// 1 in between them, which sheathing may widen. Source: common practice, no source.
const ALONG_MATE_LINE: Length = Length::inches(3);

/// An opening through the mate line.
///
/// Unit: grid steps. Source: common practice, no source; what carries the span is for an engineer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MateOpening {
    /// What kind of opening it is.
    pub kind: MateOpeningKind,
    /// From where to where on the mate line.
    pub line: [Point; 2],
    /// Its whole width: between the ends of the walls beside it, or the width of the door unit.
    pub width: Measured,
    /// The stretches between supports, along the mate line: posts that stand on it divide the width and take their own off.
    pub clear_spans: Vec<ClearSpan>,
}

/// What kind of opening leads through the mate line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MateOpeningKind {
    /// A stretch inside the house along which neither a mate wall nor an outside wall stands.
    BetweenWalls {
        /// The walls that end at its start, and those that begin at its end.
        walls: [Vec<Id>; 2],
    },
    /// A door or cased opening in a mate wall.
    Door(Id),
}

/// A stretch of an opening without a support.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClearSpan {
    /// From where to where on the mate line.
    pub line: [Point; 2],
    /// How long it is.
    pub width: Measured,
    /// What it spans between: posts or walls at its start, and at its end. Empty at the jambs of a door.
    pub between: [Vec<Id>; 2],
}

/// The mate line and what stands along it.
#[derive(Debug, PartialEq)]
pub(super) struct ThroughMateLine {
    line: MateLine,
    /// Outer boundaries of the house.
    footprint: Vec<Region>,
    walls: Vec<(Id, [Point; 4])>,
    posts: Vec<(Id, [Point; 4])>,
    doors: Vec<(Id, [Point; 4])>,
}

/// Something that stands along the mate line: from where to where.
struct Stands<'a> {
    id: &'a Id,
    from: Length,
    to: Length,
}

impl ThroughMateLine {
    pub(super) fn of(
        home: &Home<'_>,
        walls: &[WallSolid],
        footprint: &[Region],
        openings: &Openings,
        line: MateLine,
    ) -> Self {
        let elements = &home.elements;
        let near = |outline: &[Point; 4]| stretch(MateFrame(line), outline).is_some();
        let bears = |wall: &&WallSolid| elements.walls[wall.index].kind != WallKind::Partition;
        let walls = walls.iter().filter(bears).map(|wall| (wall.id.clone(), wall.faces.outline()));
        let posts = elements.columns.iter().filter(|column| column.kind == ColumnKind::Column);
        let posts = posts.map(|column| (column.id.clone(), rectangle(column.from, column.to)));
        let in_mate_wall = hang_in_mate_walls(home);
        let doors = openings.doors.iter().filter(|door| in_mate_wall[door.index]);
        let doors = doors.map(|door| (door.id.clone(), door.outline));
        Self {
            line,
            footprint: footprint.to_vec(),
            walls: walls.filter(|(_, outline)| near(outline)).collect(),
            posts: posts.filter(|(_, outline)| near(outline)).collect(),
            doors: doors.filter(|(_, outline)| near(outline)).collect(),
        }
    }

    fn stands<'a>(&self, things: &'a [(Id, [Point; 4])]) -> Vec<Stands<'a>> {
        let frame = MateFrame(self.line);
        let stands =
            |(id, outline): &'a (Id, [Point; 4])| stretch(frame, outline).map(|[from, to]| Stands { id, from, to });
        let mut stands: Vec<Stands<'_>> = things.iter().filter_map(stands).collect();
        stands.sort_by_key(|stands| (stands.from, stands.to));
        stands
    }

    /// The stretches of the mate line that lie inside the house.
    fn inside_house(&self) -> Vec<[Length; 2]> {
        let frame = MateFrame(self.line);
        let end = frame.length();
        let mut cuts = vec![Length::ZERO, end];
        for (a, b) in self.footprint.iter().flat_map(Region::sides) {
            let (a, b) = (frame.seen(a), frame.seen(b));
            if a.y.min(b.y) <= Length::ZERO && a.y.max(b.y) >= Length::ZERO {
                cuts.push(crossing(a, b, Length::ZERO));
                // A side that runs along the line ends a stretch at both of its ends.
                cuts.extend([a, b].iter().filter(|end| end.y == Length::ZERO).map(|end| end.x));
            }
        }
        cuts.retain(|cut| (Length::ZERO..=end).contains(cut));
        cuts.sort_unstable();
        cuts.dedup();
        let inside = |ends: &&[Length]| {
            let middle = Length::from_steps((ends[0].steps() + ends[1].steps()).div_euclid(2));
            let place = frame.place(Point::new(middle, Length::ZERO));
            self.footprint.iter().any(|house| house.contains_inside(place))
        };
        let mut stretches: Vec<[Length; 2]> = Vec::new();
        for ends in cuts.windows(2).filter(inside) {
            match stretches.last_mut() {
                Some(last) if last[1] == ends[0] => last[1] = ends[1],
                _ => stretches.push([ends[0], ends[1]]),
            }
        }
        stretches
    }

    fn measured(&self, [from, to]: [Length; 2]) -> (Measured, [Point; 2]) {
        let frame = MateFrame(self.line);
        let line = [from, to].map(|ahead| frame.place(Point::new(ahead, Length::ZERO)));
        (Measured { value: to - from, slack: frame.slack() }, line)
    }

    fn between_walls(&self, ends: [Length; 2], walls: &[Stands<'_>], posts: &[Stands<'_>]) -> MateOpening {
        let clear_spans = without(ends, posts, self.slack()).into_iter().map(|span| {
            let (width, line) = self.measured(span);
            let on = |end: usize| {
                // A post at the end of a wall carries the span, and not the wall behind it.
                let held = beside(posts, span, end, self.slack());
                if held.is_empty() { beside(walls, span, end, self.slack()) } else { held }
            };
            ClearSpan { line, width, between: [on(0), on(1)] }
        });
        let (width, line) = self.measured(ends);
        let walls = [0, 1].map(|end| beside(walls, ends, end, self.slack()));
        MateOpening { kind: MateOpeningKind::BetweenWalls { walls }, clear_spans: clear_spans.collect(), line, width }
    }

    fn door(&self, door: &Stands<'_>) -> MateOpening {
        let (width, line) = self.measured([door.from, door.to]);
        let span = ClearSpan { line, width, between: [Vec::new(), Vec::new()] };
        MateOpening { kind: MateOpeningKind::Door(door.id.clone()), line, width, clear_spans: vec![span] }
    }

    fn slack(&self) -> Length {
        MateFrame(self.line).slack()
    }
}

impl Question for ThroughMateLine {
    type Answer = Vec<MateOpening>;

    fn answer(&self) -> Vec<MateOpening> {
        let walls = self.stands(&self.walls);
        let posts = self.stands(&self.posts);
        let open = self.inside_house().into_iter().flat_map(|ends| without(ends, &walls, self.slack()));
        let between_walls = open.map(|ends| self.between_walls(ends, &walls, &posts));
        let doors = self.stands(&self.doors);
        between_walls.chain(doors.iter().map(|door| self.door(door))).collect()
    }
}

/// From where to where along the mate line a shape stands; none for what stands further from it than a mate wall may, or
/// beyond its ends.
fn stretch(frame: MateFrame, outline: &[Point; 4]) -> Option<[Length; 2]> {
    let near = between(&frame.shape(outline), -ALONG_MATE_LINE, ALONG_MATE_LINE);
    reach(&near).filter(|[from, to]| from < to && *to >= Length::ZERO && *from <= frame.length())
}

/// The pieces of a stretch that nothing stands on, longer than the slack; what stands is sorted by where it starts.
fn without([from, to]: [Length; 2], stands: &[Stands<'_>], slack: Length) -> Vec<[Length; 2]> {
    let mut pieces = Vec::new();
    let mut free_from = from;
    for stands in stands {
        pieces.push([free_from, stands.from.min(to)]);
        free_from = free_from.max(stands.to);
    }
    pieces.push([free_from, to]);
    pieces.retain(|[from, to]| *from + slack < *to);
    pieces
}

/// What stands right before the start of a stretch, or right behind its end.
fn beside(stands: &[Stands<'_>], ends: [Length; 2], end: usize, slack: Length) -> Vec<Id> {
    let touches = |stands: &&Stands<'_>| {
        let edge = if end == 0 { stands.to - ends[0] } else { stands.from - ends[1] };
        edge.abs() <= slack
    };
    stands.iter().filter(touches).map(|stands| stands.id.clone()).collect()
}
