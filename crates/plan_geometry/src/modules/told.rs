//! The measures of modules and of the mate line.

use plan_model::{Id, Point};

use super::sizes::{BodySize, ModuleFigures};
use super::straddling::StraddlerSide;
use super::{MateOpening, MateOpeningKind, PlumbingGroup, Straddler};
use crate::{Amount, Derived, Mark, Measure, MeasureName, Measured, Part};

/// Sizes of modules, what straddles the mate line, openings through it with their clear spans, and plumbing groups.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let modules = derived.modules();
    let groups = derived.plumbing_groups();
    modules
        .iter()
        .flat_map(sizes)
        .chain(derived.straddlers().iter().flat_map(straddler))
        .chain(derived.mate_openings().iter().flat_map(opening))
        .chain(modules.iter().map(|module| count(module, groups)))
        .chain(groups.iter().map(group))
        .collect()
}

fn sizes(module: &ModuleFigures) -> Vec<Measure> {
    let of = [module.id.clone()];
    let exact =
        |size: BodySize<_>| BodySize { width: Measured::exact(size.width), length: Measured::exact(size.length) };
    let mut measures = Vec::new();
    let mut tell = |names: [MeasureName; 2], size: BodySize<Measured>, outline: &[Point; 4]| {
        let [low, along_x, _, along_y] = *outline;
        let (across, along) = if module.lies_along_x { (along_y, along_x) } else { (along_x, along_y) };
        for (name, figure, end) in [(names[0], size.width, across), (names[1], size.length, along)] {
            measures.push(measure(name, &of, Amount::Length(figure), vec![Mark::Span([low, end])]));
        }
    };
    let body = [MeasureName::ModuleBodyWidth, MeasureName::ModuleBodyLength];
    tell(body, exact(module.body), &module.outline);
    let shipping = [MeasureName::ModuleShippingWidth, MeasureName::ModuleShippingLength];
    tell(shipping, exact(module.shipping), &module.shipping_outline);
    let drawn = [MeasureName::ModuleDrawnWidth, MeasureName::ModuleDrawnLength];
    match (module.drawn, module.drawn_outline) {
        (Some(size), Some(outline)) => tell(drawn, size, &outline),
        _ => {
            for name in drawn {
                let why = format!("no wall stands in the outline of the module \"{}\"", module.id);
                measures.push(measure(name, &of, Amount::Unknown(why), Vec::new()));
            }
        }
    }
    measures
}

fn straddler(straddler: &Straddler) -> Vec<Measure> {
    let [left, right] = &straddler.sides;
    let is_told_by_module = left.module != right.module;
    let side = |(side, part): (&StraddlerSide, Part)| {
        let of: Vec<Id> = std::iter::once(straddler.id.clone()).chain(side.module.clone()).collect();
        let ground = vec![Mark::Ground(side.ground.clone())];
        let measure = measure(MeasureName::StraddlesMateLine, &of, Amount::Area(side.area), ground);
        Measure { part: (!is_told_by_module).then_some(part), ..measure }
    };
    [(left, Part::LeftOfMateLine), (right, Part::RightOfMateLine)].map(side).to_vec()
}

fn opening(opening: &MateOpening) -> Vec<Measure> {
    let of: Vec<Id> = match &opening.kind {
        MateOpeningKind::BetweenWalls { walls } => walls.concat(),
        MateOpeningKind::Door(door) => vec![door.clone()],
    };
    let length = |name, of: &[Id], width, line| measure(name, of, Amount::Length(width), vec![Mark::Span(line)]);
    let whole = length(MeasureName::MateLineOpening, &of, opening.width, opening.line);
    let spans = opening.clear_spans.iter().map(|span| {
        let between = span.between.concat();
        let of = if between.is_empty() { &of } else { &between };
        length(MeasureName::MateLineClearSpan, of, span.width, span.line)
    });
    std::iter::once(whole).chain(spans).collect()
}

fn count(module: &ModuleFigures, groups: &[PlumbingGroup]) -> Measure {
    let of_module = || groups.iter().filter(|group| group.module.as_ref() == Some(&module.id));
    let marks = of_module().flat_map(grounds).collect();
    measure(MeasureName::PlumbingGroups, std::slice::from_ref(&module.id), Amount::Count(of_module().count()), marks)
}

fn group(group: &PlumbingGroup) -> Measure {
    let of: Vec<Id> = group.module.iter().chain(&group.wall).chain(&group.fixtures).cloned().collect();
    let marks = grounds(group).collect();
    measure(MeasureName::PlumbingGroup, &of, Amount::Count(group.fixtures.len()), marks)
}

fn grounds(group: &PlumbingGroup) -> impl Iterator<Item = Mark> {
    group.grounds.iter().map(|ground| Mark::Ground(ground.to_vec()))
}

fn measure(name: MeasureName, of: &[Id], amount: Amount, marks: Vec<Mark>) -> Measure {
    Measure { name, part: None, of: of.to_vec(), amount, marks }
}
