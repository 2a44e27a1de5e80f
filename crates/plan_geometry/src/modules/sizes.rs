//! Sizes of a module: as it is drawn, as it stands and as it goes on the road.

use plan_model::elements::WallKind;
use plan_model::{Eave, Home, Id, Length, MateLine, Point, Side};

use super::doubled_middle;
use super::mate_frame::{MateFrame, between};
use crate::asked::Question;
use crate::conflict::convex_overlap;
use crate::heated::ModuleOutline;
use crate::kernel::{project, rectangle};
use crate::walls::WallSolid;
use crate::{Measured, OFF_AXIS_SLACK};

/// Sizes of a module. Its length is its longer side, which lies along the road; where both are equal, its width is the one
/// that is narrower on the road.
///
/// Unit: grid steps. Source: common practice; that eaves count on the road: standards of the states as the project's table of
/// trade facts cites them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ModuleFigures {
    /// The module.
    pub id: Id,
    /// The outline in the plan file: corners, counter-clockwise from the lowest left.
    pub outline: [Point; 4],
    /// The size of that outline.
    pub body: BodySize<Length>,
    /// The size between the outer faces of the outside walls and mate walls that stand in the outline, each cut off at the
    /// mate line; none where no wall does. It differs from the body where outline and walls do not agree.
    pub drawn: Option<BodySize<Measured>>,
    /// The corners of the box around those faces, if there is one, counter-clockwise from the lowest left.
    pub drawn_outline: Option<[Point; 4]>,
    /// What stands out of the body in transit: eaves that are in place on the road, and porches built in the factory that
    /// touch the body along a side.
    pub overhangs: Vec<Overhang>,
    /// The size on the road: the body and, on each side, the overhang that stands out furthest.
    pub shipping: BodySize<Length>,
    /// The box of that size, counter-clockwise from the lowest left.
    pub shipping_outline: [Point; 4],
    /// Whether the length lies along the x axis.
    pub lies_along_x: bool,
}

/// A size across the road and along it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BodySize<Figure> {
    /// Across the road.
    pub width: Figure,
    /// Along the road.
    pub length: Figure,
}

/// Something that stands out of a module's body in transit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Overhang {
    /// On which side of the drawing.
    pub side: Side,
    /// What it is.
    pub of: OverhangOf,
    /// How far it stands out.
    pub depth: Length,
}

/// What stands out of a module's body.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OverhangOf {
    /// A roof overhang.
    Eave,
    /// A porch built in the factory, attached because its ground shares a stretch of boundary, or ground, with the body.
    Porch(Id),
}

impl ModuleFigures {
    /// How far the overhangs stand out on a side: that of the furthest, which is what counts.
    #[must_use]
    pub fn overhang(&self, side: Side) -> Length {
        furthest(&self.overhangs, side)
    }
}

fn furthest(overhangs: &[Overhang], side: Side) -> Length {
    let on_side = overhangs.iter().filter(|overhang| overhang.side == side);
    on_side.map(|overhang| overhang.depth).max().unwrap_or_default().max(Length::ZERO)
}

/// Modules, and all that their sizes follow from.
#[derive(Debug, PartialEq)]
pub(super) struct Sizes {
    modules: Vec<ModuleOutline>,
    eaves: Vec<Eave>,
    porches: Vec<(Id, [Point; 4])>,
    walls: Vec<[Point; 4]>,
    mate_line: Option<MateLine>,
}

impl Sizes {
    pub(super) fn of(home: &Home<'_>, walls: &[WallSolid], modules: Vec<ModuleOutline>) -> Self {
        let elements = &home.elements;
        let is_outer = |wall: &&WallSolid| elements.walls[wall.index].kind != WallKind::Partition;
        let outer = walls.iter().filter(is_outer).map(|wall| wall.faces.outline());
        let built_in_factory = elements.porches.iter().filter(|porch| !porch.site_built);
        Self {
            walls: if modules.is_empty() { Vec::new() } else { outer.collect() },
            eaves: home.plan.home.eaves.iter().filter(|eave| eave.in_transit).cloned().collect(),
            porches: built_in_factory.map(|porch| (porch.id.clone(), rectangle(porch.from, porch.to))).collect(),
            mate_line: home.plan.mate_line,
            modules,
        }
    }

    /// What of a shape belongs to a module: all of it, or what lies on the module's side of the mate line; without one, what
    /// lies in the outline of a shape that stands in several modules.
    fn share(&self, module: &ModuleOutline, shape: &[Point; 4]) -> Vec<Point> {
        if let Some(line) = self.mate_line {
            let frame = MateFrame(line);
            let [twice_middle, from] = [doubled_middle(&module.corners), line.from];
            let aside = project(from, line.to, twice_middle - from).1;
            let seen = frame.shape(shape);
            let (low, high) = extent(&seen, |point| point.y);
            let kept = match aside.steps().signum() {
                1 if low < Length::ZERO => between(&seen, Length::ZERO, high.max(Length::ZERO)),
                -1 if high > Length::ZERO => between(&seen, low.min(Length::ZERO), Length::ZERO),
                _ => return shape.to_vec(),
            };
            return kept.into_iter().map(|point| frame.place(point)).collect();
        }
        let stands_in = |other: &&ModuleOutline| convex_overlap(&other.corners, shape);
        if self.modules.iter().filter(stands_in).count() < 2 {
            return shape.to_vec();
        }
        crate::kernel::intersection(&module.corners, shape)
    }

    /// The box around the outer faces of the walls that stand in a module, and whether all of them are square to the axes.
    fn drawn(&self, module: &ModuleOutline) -> Option<([Point; 2], bool)> {
        let mut around: Option<[Point; 2]> = None;
        let mut is_square = true;
        for wall in self.walls.iter().filter(|wall| convex_overlap(&module.corners, *wall)) {
            is_square &= wall[0].x == wall[1].x || wall[0].y == wall[1].y;
            for corner in self.share(module, wall) {
                let [low, high] = around.unwrap_or([corner, corner]);
                around = Some([
                    Point::new(low.x.min(corner.x), low.y.min(corner.y)),
                    Point::new(high.x.max(corner.x), high.y.max(corner.y)),
                ]);
            }
        }
        around.map(|around| (around, is_square))
    }

    fn overhangs(&self, module: &ModuleOutline) -> Vec<Overhang> {
        let eaves = self.eaves.iter().filter(|eave| eave.module == module.id);
        let eaves = eaves.map(|eave| Overhang { side: eave.side, of: OverhangOf::Eave, depth: eave.depth });
        let porches = self.porches.iter().flat_map(|(id, ground)| {
            let share = self.share(module, ground);
            let parts = stands_out(&module.corners, &share);
            parts.into_iter().map(|(side, depth)| Overhang { side, of: OverhangOf::Porch(id.clone()), depth })
        });
        eaves.chain(porches).collect()
    }

    fn figures(&self, module: &ModuleOutline) -> ModuleFigures {
        let [low, _, high, _] = module.corners;
        let overhangs = self.overhangs(module);
        let out = |side: Side| furthest(&overhangs, side);
        let shipped = [
            Point::new(low.x - out(Side::Left), low.y - out(Side::Front)),
            Point::new(high.x + out(Side::Right), high.y + out(Side::Back)),
        ];
        let [body, on_road] = [high - low, shipped[1] - shipped[0]];
        let lies_along_x = (body.x, on_road.x) >= (body.y, on_road.y);
        let drawn = self.drawn(module);
        let slack = |is_square| if is_square { Length::ZERO } else { OFF_AXIS_SLACK };
        ModuleFigures {
            id: module.id.clone(),
            outline: module.corners,
            body: size(body, lies_along_x, |length| length),
            drawn: drawn.map(|([low, high], is_square)| {
                size(high - low, lies_along_x, |value| Measured { value, slack: slack(is_square) })
            }),
            drawn_outline: drawn.map(|([low, high], _)| rectangle(low, high)),
            overhangs,
            shipping: size(on_road, lies_along_x, |length| length),
            shipping_outline: rectangle(shipped[0], shipped[1]),
            lies_along_x,
        }
    }
}

impl Question for Sizes {
    type Answer = Vec<ModuleFigures>;

    fn answer(&self) -> Vec<ModuleFigures> {
        self.modules.iter().map(|module| self.figures(module)).collect()
    }
}

fn size<Figure>(box_size: Point, lies_along_x: bool, figure: impl Fn(Length) -> Figure) -> BodySize<Figure> {
    let (width, length) = if lies_along_x { (box_size.y, box_size.x) } else { (box_size.x, box_size.y) };
    BodySize { width: figure(width), length: figure(length) }
}

fn extent(shape: &[Point], coordinate: fn(&Point) -> Length) -> (Length, Length) {
    let values = || shape.iter().map(coordinate);
    (values().min().unwrap_or_default(), values().max().unwrap_or_default())
}

/// On which sides, and how far, a shape that touches a body along a stretch stands out of it.
fn stands_out(body: &[Point; 4], shape: &[Point]) -> Vec<(Side, Length)> {
    let [low, _, high, _] = *body;
    let [(left, right), (front, back)] = [extent(shape, |point| point.x), extent(shape, |point| point.y)];
    let shared = Point::new(right.min(high.x) - left.max(low.x), back.min(high.y) - front.max(low.y));
    let touches = shared.x >= Length::ZERO && shared.y >= Length::ZERO && shared != Point::default();
    if shape.is_empty() || !touches {
        return Vec::new();
    }
    let sides = [
        (Side::Front, low.y - front),
        (Side::Back, back - high.y),
        (Side::Left, low.x - left),
        (Side::Right, right - high.x),
    ];
    sides.into_iter().filter(|(_, depth)| *depth > Length::ZERO).collect()
}
