//! What lies outdoors: porches, landings, and the roof's edge overhead.

use kurbo::{BezPath, Point, Rect};
use plan_model::elements::Porch;
use plan_model::{Home, Side, Units};

use crate::lettering::width_per_height;
use crate::shapes::{between, line, lines, rectangle};
use crate::{Align, Drawing, Face, Ink, Item, Lettering, Pen, notation};

/// How far a porch's roof is drawn beyond its floor, in inches (common practice, no source).
const PORCH_EAVE: f64 = 4.0;

/// Porches with their boards, landings, then the roof's edge as a hidden line.
pub(crate) fn draw(drawing: &mut Drawing, home: &Home<'_>, house: Option<Rect>, lettering: f64) {
    for porch in &home.elements.porches {
        let floor = between(porch.from, porch.to);
        drawing.fill(rectangle(floor), Ink::OutdoorsFill);
        drawing.stroke(boards(floor), Pen::LIGHT, Ink::Paper);
        drawing.stroke(rectangle(floor), Pen::MEDIUM, Ink::Outdoors);
        if porch.roofed {
            drawing.stroke(rectangle(floor.inset(PORCH_EAVE)), Pen::HIDDEN, Ink::Outdoors);
            posts(drawing, floor, house);
        }
    }
    name_porches(drawing, home, lettering);
    for landing in &home.elements.landings {
        let floor = between(landing.from, landing.to);
        // A landing that is part of a porch is the porch's floor.
        let mut porches = home.elements.porches.iter().map(|porch| between(porch.from, porch.to));
        if porches.any(|porch| porch.union(floor) == porch) {
            continue;
        }
        drawing.fill(rectangle(floor), Ink::OutdoorsFill);
        drawing.stroke(rectangle(floor), Pen::FINE, Ink::Outdoors);
    }
    eaves(drawing, home);
}

/// The tags of all porches.
pub(crate) fn name_porches(drawing: &mut Drawing, home: &Home<'_>, lettering: f64) {
    home.elements.porches.iter().for_each(|porch| name_porch(drawing, porch, home.plan.units, lettering));
}

/// Name, size, and that it is not heated, as far as there is floor for them.
fn name_porch(drawing: &mut Drawing, porch: &Porch, units: Units, lettering: f64) {
    /// From line to line, in heights of the lettering.
    const LINE: f64 = 1.65;
    /// Lettering that would have to be smaller is left out.
    const SMALLEST: f64 = 0.6;
    let floor = between(porch.from, porch.to);
    let size = porch.to - porch.from;
    let [across, up] = [size.x, size.y].map(|side| notation::length(side.abs(), units));
    let all = [porch.name.to_uppercase(), format!("{across} \u{d7} {up}"), "unheated".to_owned()];
    let fitting = |lines: &[String]| {
        let widest = lines.iter().map(|text| width_per_height(text)).fold(0.0, f64::max);
        let down: f64 = lines.iter().map(|_| LINE).sum();
        lettering.min(floor.width() * 0.85 / widest).min(floor.height() * 0.85 / down)
    };
    let Some(lines) = [&all[..], &all[..2], &all[..1]].into_iter().find(|lines| fitting(lines) >= SMALLEST * lettering)
    else {
        return;
    };
    let height = fitting(lines);
    let mut y = floor.center().y + lines.iter().skip(1).map(|_| LINE).sum::<f64>() / 2.0 * height;
    for (text, face) in lines.iter().zip([Face::Bold, Face::Regular, Face::Regular]) {
        let (at, align) = (Point::new(floor.center().x, y), Align::Centre);
        let text = text.clone();
        drawing.items.push(Item::Text(Lettering { text, at, height, angle: 0.0, face, align, ink: Ink::Dimension }));
        y -= LINE * height;
    }
}

/// Boards run along the longer side.
fn boards(floor: Rect) -> BezPath {
    const BOARD: f64 = 5.5;
    let mut joints = Vec::new();
    if floor.width() >= floor.height() {
        let mut y = floor.y0 + BOARD;
        while y < floor.y1 - 1.0 {
            joints.push(((floor.x0, y), (floor.x1, y)));
            y += BOARD;
        }
    } else {
        let mut x = floor.x0 + BOARD;
        while x < floor.x1 - 1.0 {
            joints.push(((x, floor.y0), (x, floor.y1)));
            x += BOARD;
        }
    }
    lines(joints)
}

/// Posts at the corners of a roofed porch that stand away from the house.
fn posts(drawing: &mut Drawing, floor: Rect, house: Option<Rect>) {
    const POST: f64 = 5.5;
    let within = floor.inset(-POST / 2.0 - 1.0);
    let beside_house = house.unwrap_or_default().inset(POST);
    for (x, y) in [(within.x0, within.y0), (within.x1, within.y0), (within.x1, within.y1), (within.x0, within.y1)] {
        if !beside_house.contains((x, y)) {
            let post = Rect::from_center_size((x, y), (POST, POST));
            drawing.fill(rectangle(post), Ink::ObjectFill);
            drawing.stroke(rectangle(post), Pen::MEDIUM, Ink::Object);
        }
    }
}

/// The edge of each module's roof, joined at the corners where two sides stand out.
fn eaves(drawing: &mut Drawing, home: &Home<'_>) {
    for module in &home.plan.modules {
        let body = between(module.from, module.to);
        let depth = |side: Side| {
            let stands_out = |eave: &&plan_model::Eave| eave.module == module.id && eave.side == side;
            home.plan.home.eaves.iter().find(stands_out).map(|eave| eave.depth.to_inches())
        };
        let reach = |side: Side| depth(side).unwrap_or(0.0);
        let (x0, x1) = (body.x0 - reach(Side::Left), body.x1 + reach(Side::Right));
        let (y0, y1) = (body.y0 - reach(Side::Front), body.y1 + reach(Side::Back));
        let edges = [
            (Side::Front, (x0, y0), (x1, y0)),
            (Side::Back, (x0, y1), (x1, y1)),
            (Side::Left, (x0, y0), (x0, y1)),
            (Side::Right, (x1, y0), (x1, y1)),
        ];
        for (side, from, to) in edges {
            if depth(side).is_some() {
                drawing.stroke(line(from, to), Pen::HIDDEN, Ink::Outdoors);
            }
        }
    }
}

/// How far the drawing reaches with porches, landings and eaves.
pub(crate) fn reach(home: &Home<'_>, house: Rect) -> Rect {
    floors(home).fold(roofs(home, house), |all, floor| all.union(floor))
}

/// Porches with their roofs, and landings.
pub(crate) fn floors(home: &Home<'_>) -> impl Iterator<Item = Rect> {
    let porches = home.elements.porches.iter().map(|porch| {
        let floor = between(porch.from, porch.to);
        if porch.roofed { floor.inset(PORCH_EAVE) } else { floor }
    });
    porches.chain(home.elements.landings.iter().map(|landing| between(landing.from, landing.to)))
}

/// The house with its eaves.
pub(crate) fn roofs(home: &Home<'_>, house: Rect) -> Rect {
    home.plan.home.eaves.iter().fold(house, |all, eave| {
        let Some(module) = home.plan.modules.iter().find(|module| module.id == eave.module) else { return all };
        let (body, depth) = (between(module.from, module.to), eave.depth.to_inches());
        all.union(match eave.side {
            Side::Front => Rect { y0: body.y0 - depth, ..body },
            Side::Back => Rect { y1: body.y1 + depth, ..body },
            Side::Left => Rect { x0: body.x0 - depth, ..body },
            Side::Right => Rect { x1: body.x1 + depth, ..body },
        })
    })
}
