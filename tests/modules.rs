//! Modules: sizes on the road, what straddles the mate line, the openings through it and the plumbing that stands together.

use plan_geometry::{
    Amount, Area, Derived, MateOpeningKind, MeasureName, Measured, ModuleFigures, OFF_AXIS_SLACK, OverhangOf, derive,
    derive_after,
};
use plan_model::elements::{
    Column, ColumnKind, Door, End, FixtureKind, PlacedBy, Porch, Room, RoomUse, Soffit, Wall, WallKind, Window,
};
use plan_model::{
    AlternateRef, Eave, Facing, Id, Length, MateLine, Module, Plan, Point, Selection, Side, WindowOperation,
    WindowUnit, file,
};
use plan_testkit::{Transform, cased_unit, doorway, empty_plan, standing, turned};
use proptest::prelude::*;

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");

fn dunlin() -> Plan {
    file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"))
}

fn derived(plan: &Plan) -> Derived {
    derive(&plan.home(&Selection::included(plan)))
}

fn at(x: i64, y: i64) -> Point {
    Point::inches(x, y)
}

const fn inches(inches: i64) -> Length {
    Length::inches(inches)
}

fn wall(plan: &mut Plan, id: &str, kind: WallKind, from: (i64, i64), to: (i64, i64), thickness: i64) {
    plan.base.walls.push(Wall {
        id: id.into(),
        kind,
        from: at(from.0, from.1),
        to: at(to.0, to.1),
        thickness: inches(thickness),
        placed_by: PlacedBy::LeftFace,
        movable: false,
    });
}

fn post(plan: &mut Plan, id: &str, from: (i64, i64), to: (i64, i64)) {
    let kind = ColumnKind::Column;
    plan.base.columns.push(Column { id: id.into(), kind, from: at(from.0, from.1), to: at(to.0, to.1) });
}

fn fixture(plan: &mut Plan, id: &str, kind: FixtureKind, back: (i64, i64), faces: Facing, size: (i64, i64)) {
    let size = [inches(size.0), inches(size.1)];
    plan.base.fixtures.push(standing(kind, id, at(back.0, back.1), faces, size));
}

/// Two modules of 400 x 150 in, one behind the other, walls 6 in thick around both, and mate walls 4 in thick on both sides of
/// the mate line at y 150, from each end to x 100 and from x 300: one space, 200 in wide open.
fn two_modules() -> Plan {
    let mut plan = empty_plan();
    for (id, y) in [("a", 0), ("b", 150)] {
        plan.modules.push(Module { id: id.into(), name: id.into(), from: at(0, y), to: at(400, y + 150) });
    }
    plan.mate_line = Some(MateLine { from: at(0, 150), to: at(400, 150) });
    let corners = [(6, 6), (394, 6), (394, 294), (6, 294)];
    for (index, id) in ["front", "right", "back", "left"].into_iter().enumerate() {
        wall(&mut plan, id, WallKind::Exterior, corners[index], corners[(index + 1) % 4], 6);
    }
    for (id, from, to) in [("left", 6, 100), ("right", 300, 394)] {
        wall(&mut plan, &format!("mate-a-{id}"), WallKind::Mate, (from, 150), (to, 150), 4);
        wall(&mut plan, &format!("mate-b-{id}"), WallKind::Mate, (to, 150), (from, 150), 4);
    }
    plan.base.rooms.push(Room { id: "room".into(), name: "Room".into(), usage: RoomUse::Living, at: at(20, 20) });
    plan
}

fn module<'a>(derived: &'a Derived, id: &str) -> &'a ModuleFigures {
    derived.modules().iter().find(|module| module.id.as_str() == id).expect("a module of the plan")
}

/// Width and length on the road, in inches.
fn shipping(module: &ModuleFigures) -> (i64, i64) {
    let inches = |length: Length| length.steps() / Length::INCH.steps();
    (inches(module.shipping.width), inches(module.shipping.length))
}

fn porch(id: &str, from: (i64, i64), to: (i64, i64), site_built: bool) -> Porch {
    Porch { id: id.into(), name: id.into(), from: at(from.0, from.1), to: at(to.0, to.1), roofed: true, site_built }
}

/// By hand: body 165 x 696; eaves in transit 12 in at the front of A and at the back of B; those at the ends stay off the
/// road: 165 + 12 = 177 x 696.
#[test]
fn the_demo_home_on_the_road() {
    let derived = derived(&dunlin());
    for id in ["module-a", "module-b"] {
        let module = module(&derived, id);
        assert_eq!((module.body.width, module.body.length), (inches(165), inches(696)));
        assert_eq!(shipping(module), (177, 696));
        let drawn = module.drawn.expect("walls stand in it");
        assert_eq!((drawn.width, drawn.length), (Measured::exact(inches(165)), Measured::exact(inches(696))));
    }
    let a = module(&derived, "module-a");
    let listed: Vec<_> = a.overhangs.iter().map(|overhang| (overhang.side, &overhang.of, overhang.depth)).collect();
    assert_eq!(listed, [(Side::Front, &OverhangOf::Eave, inches(12))]);
    assert_eq!((a.overhang(Side::Front), a.overhang(Side::Left)), (inches(12), Length::ZERO));
}

/// The home of [`two_modules`], 150 x 400 each. An eave of 12 in at the front in transit, one of 20 in that is not; a porch
/// built in the factory, 96 in long and 60 in deep, before A and 10 in round its left corner; one built on the lot; one that
/// stands free; one that touches a corner only.
#[test]
fn eaves_and_porches_on_the_road() {
    let mut plan = two_modules();
    let eave = |side, depth, in_transit| Eave { module: "a".into(), side, depth: inches(depth), in_transit };
    plan.home.eaves = vec![eave(Side::Front, 12, true), eave(Side::Right, 20, false)];
    assert_eq!(shipping(module(&derived(&plan), "a")), (150 + 12, 400));
    plan.base.porches.push(porch("factory", (-10, -60), (86, 0), false));
    plan.base.porches.push(porch("lot", (100, -90), (200, 0), true));
    plan.base.porches.push(porch("apart", (210, -90), (300, -1), false));
    plan.base.porches.push(porch("corner", (400, -90), (450, 0), false));
    let derived = derived(&plan);
    let a = module(&derived, "a");
    assert_eq!(shipping(a), (150 + 60, 400 + 10), "the furthest on each side counts");
    let listed: Vec<_> = a.overhangs.iter().map(|overhang| (overhang.side, &overhang.of, overhang.depth)).collect();
    let attached = OverhangOf::Porch("factory".into());
    let expected = [
        (Side::Front, &OverhangOf::Eave, inches(12)),
        (Side::Front, &attached, inches(60)),
        (Side::Left, &attached, inches(10)),
    ];
    assert_eq!(listed, expected);
    assert_eq!(shipping(module(&derived, "b")), (150, 400));
}

/// A porch at the left end, y 100 to 230, across the mate line at y 150: it straddles, and each module carries its part.
#[test]
fn a_porch_across_the_mate_line() {
    let mut plan = two_modules();
    plan.base.porches.push(porch("end", (-48, 100), (0, 230), false));
    let derived = derived(&plan);
    assert_eq!(shipping(module(&derived, "a")), (150, 400 + 48));
    assert_eq!(shipping(module(&derived, "b")), (150, 400 + 48));
    // The line begins at the house, so that the porch lies beyond it.
    assert_eq!(derived.straddlers(), []);
    plan.mate_line = Some(MateLine { from: at(-48, 150), to: at(400, 150) });
    let there = derive(&plan.home(&Selection::default()));
    let porch = &there.straddlers()[0];
    let areas = porch.sides.clone().map(|side| side.area);
    assert_eq!(areas, [80, 50].map(|deep| Area::of_rectangle(inches(48), inches(deep))));
}

/// A square module is wide where it is narrower on the road: 150 x 150, with an eave of 12 in at its front.
#[test]
fn a_square_module_lies_along_its_overhangs() {
    let mut plan = two_modules();
    plan.modules[0].to = at(150, 150);
    let eave = Eave { module: "a".into(), side: Side::Front, depth: inches(12), in_transit: true };
    plan.home.eaves = vec![eave];
    assert_eq!(shipping(module(&derived(&plan), "a")), (150, 162));
    let turned = Transform::QuarterTurned.plan(&plan);
    assert_eq!(shipping(module(&derived(&turned), "a")), (150, 162));
}

/// A front wall drawn 3 in further out than the outline says: 153 drawn, 150 authored.
#[test]
fn an_outline_that_the_walls_do_not_agree_with() {
    let mut plan = two_modules();
    for wall in &mut plan.base.walls[..1] {
        (wall.from.y, wall.to.y) = (inches(3), inches(3));
    }
    let derived = derived(&plan);
    let drawn = module(&derived, "a").drawn.expect("walls stand in it");
    assert_eq!((drawn.width, drawn.length), (Measured::exact(inches(153)), Measured::exact(inches(400))));
    assert_eq!(module(&derived, "a").body.width, inches(150));
    let drawn = module(&derived, "b").drawn.expect("walls stand in it");
    assert_eq!((drawn.width, drawn.length), (Measured::exact(inches(150)), Measured::exact(inches(400))));
}

#[test]
fn a_module_without_walls_is_drawn_nowhere() {
    let mut plan = empty_plan();
    plan.modules.push(Module { id: "a".into(), name: "A".into(), from: at(0, 0), to: at(400, 150) });
    let derived = derived(&plan);
    assert_eq!(module(&derived, "a").drawn, None);
    let told: Vec<_> = derived.measures().iter().filter(|told| told.name == MeasureName::ModuleDrawnWidth).collect();
    assert!(matches!(&told[..], [told] if matches!(told.amount, Amount::Unknown(_))));
}

/// Exactly at the mate line is not across it; half a step of a fixture is. A soffit, a partition, a column and a window in the
/// end wall lie across; doors through mate walls, mate walls and end walls do not count.
#[test]
fn what_straddles_the_mate_line() {
    let mut plan = two_modules();
    let up = Facing::UP;
    fixture(&mut plan, "up-to", FixtureKind::BaseCabinet, (150, 126), up, (36, 24));
    fixture(&mut plan, "across", FixtureKind::Island, (220, 140), up, (60, 36));
    fixture(&mut plan, "hung", FixtureKind::WallCabinet, (270, 144), up, (30, 12));
    post(&mut plan, "on-one-side", (100, 146), (104, 150));
    post(&mut plan, "in-the-middle", (290, 148), (294, 152));
    wall(&mut plan, "partition", WallKind::Partition, (110, 6), (110, 160), 4);
    let beam = Soffit { id: "beam".into(), from: at(100, 145), to: at(300, 155), height: inches(84), beam: true };
    plan.base.soffits.push(beam);
    plan.catalogue.windows.push(WindowUnit {
        id: "unit".into(),
        operation: WindowOperation::Fixed,
        width: inches(40),
        height: inches(40),
        clear: None,
        head: None,
        sill_above_frame: None,
        glass: None,
        vent: None,
    });
    // The right wall runs up from y 6: the window takes y 130 to 170.
    let window = Window { id: "window".into(), unit: "unit".into(), wall: "right".into(), at: inches(124), head: None };
    plan.base.windows.push(window);
    let derived = derived(&plan);
    let sides = |id: &str| {
        let straddler = derived.straddlers().iter().find(|straddler| straddler.id.as_str() == id);
        straddler.map(|straddler| straddler.sides.clone().map(|side| (side.module, side.area)))
    };
    let ids: Vec<&str> = derived.straddlers().iter().map(|straddler| straddler.id.as_str()).collect();
    assert_eq!(ids, ["across", "hung", "in-the-middle", "partition", "window", "beam"]);
    let area = |width: i64, depth: i64| Area::of_rectangle(inches(width), inches(depth));
    let (a, b): (Option<Id>, Option<Id>) = (Some("a".into()), Some("b".into()));
    // The line runs to the right, so that module b lies to its left.
    assert_eq!(sides("across"), Some([(b.clone(), area(60, 26)), (a.clone(), area(60, 10))]));
    assert_eq!(sides("hung"), Some([(b.clone(), area(30, 6)), (a.clone(), area(30, 6))]));
    assert_eq!(sides("partition"), Some([(b.clone(), area(4, 10)), (a.clone(), area(4, 144))]));
    assert_eq!(sides("window"), Some([(b.clone(), area(6, 20)), (a.clone(), area(6, 20))]));
    assert_eq!(sides("beam"), Some([(b, area(200, 5)), (a, area(200, 5))]));
    let told = derived.measures().iter().filter(|told| told.name == MeasureName::StraddlesMateLine);
    assert_eq!(told.count(), 12, "one for each side of six");
}

/// One step across is across, on the axes; turned by an odd angle, two steps are within what faces may be off by.
#[test]
fn a_step_across_the_mate_line() {
    let mut plan = two_modules();
    fixture(&mut plan, "chest", FixtureKind::Island, (200, 126), Facing::UP, (36, 24));
    assert_eq!(derived(&plan).straddlers(), []);
    plan.base.fixtures[0].depth = inches(24) + Length::from_steps(1);
    assert_eq!(derived(&plan).straddlers().len(), 1);
}

fn door(plan: &mut Plan, id: &str, wall: &str, through: Option<&str>, place: i64) {
    if plan.catalogue.doors.is_empty() {
        plan.catalogue.doors.push(cased_unit("cased", inches(36), inches(80)));
    }
    plan.base.doors.push(Door { through: through.map(Into::into), ..doorway(id, "cased", wall, inches(place)) });
}

/// Whole widths and clear spans of the openings, in steps.
fn spans(derived: &Derived) -> Vec<(i64, Vec<i64>)> {
    let opening = |opening: &plan_geometry::MateOpening| {
        let spans = opening.clear_spans.iter().map(|span| span.width.value.steps());
        (opening.width.value.steps(), spans.collect())
    };
    derived.mate_openings().iter().map(opening).collect()
}

fn in_steps(openings: &[(i64, &[i64])]) -> Vec<(i64, Vec<i64>)> {
    let steps = |width: i64| inches(width).steps();
    openings.iter().map(|(whole, spans)| (steps(*whole), spans.iter().map(|span| steps(*span)).collect())).collect()
}

/// Between mate walls that end at x 100 and begin at 300: 200 in; with posts of 4 in at both ends and one of 6 in at x 197 to
/// 203: 93 + 97 - 4 = 93 each. A post away from the line and a chase on it carry nothing. A door through both mate walls spans
/// its width.
#[test]
fn posts_divide_an_opening() {
    let mut plan = two_modules();
    assert_eq!(spans(&derived(&plan)), in_steps(&[(200, &[200])]));
    door(&mut plan, "through", "mate-a-left", Some("mate-b-left"), 20);
    post(&mut plan, "start", (100, 146), (104, 150));
    post(&mut plan, "end", (296, 150), (300, 154));
    post(&mut plan, "middle", (197, 147), (203, 153));
    post(&mut plan, "apart", (240, 100), (244, 104));
    plan.base.columns.push(Column { kind: ColumnKind::Chase, ..plan.base.columns[0].clone() });
    if let Some(chase) = plan.base.columns.last_mut() {
        (chase.id, chase.from, chase.to) = ("chase".into(), at(150, 146), at(160, 154));
    }
    let derived = derived(&plan);
    assert_eq!(spans(&derived), in_steps(&[(200, &[93, 93]), (36, &[36])]));
    let [between, door] = derived.mate_openings() else { panic!("two openings") };
    let ids = |ids: &[&str]| ids.iter().map(|id| Id::from(*id)).collect::<Vec<_>>();
    let walls = [ids(&["mate-a-left", "mate-b-left"]), ids(&["mate-a-right", "mate-b-right"])];
    assert_eq!(between.kind, MateOpeningKind::BetweenWalls { walls });
    assert_eq!(between.clear_spans[0].between, [ids(&["start"]), ids(&["middle"])]);
    assert_eq!(between.clear_spans[1].between, [ids(&["middle"]), ids(&["end"])]);
    assert_eq!(between.line, [at(100, 150), at(300, 150)]);
    assert_eq!(door.kind, MateOpeningKind::Door("through".into()));
    assert_eq!(door.line, [at(26, 150), at(62, 150)]);
}

/// 3 in from the line is still along it, and a step more is not.
#[test]
fn a_post_that_stands_off_the_mate_line() {
    let mut plan = two_modules();
    post(&mut plan, "post", (200, 143), (204, 147));
    plan.base.columns[0].to.y += Length::from_steps(1);
    assert_eq!(spans(&derived(&plan)), in_steps(&[(200, &[100, 96])]));
    plan.base.columns[0].to.y += Length::from_steps(-2);
    assert_eq!(spans(&derived(&plan)), in_steps(&[(200, &[200])]));
}

/// Without mate walls the whole joint is open, from end wall to end wall; a line drawn beyond the house opens nothing more.
#[test]
fn an_open_joint() {
    let mut plan = two_modules();
    plan.base.walls.truncate(4);
    plan.mate_line = Some(MateLine { from: at(500, 150), to: at(-100, 150) });
    assert_eq!(spans(&derived(&plan)), in_steps(&[(388, &[388])]));
}

/// A U of two wings: over the court between them the mate line lies outdoors.
#[test]
fn a_court_is_no_opening() {
    let mut plan = empty_plan();
    let outline = [(0, 0), (600, 0), (600, 200), (400, 200), (400, 100), (200, 100), (200, 200), (0, 200)];
    for (index, from) in outline.iter().enumerate() {
        let to = outline[(index + 1) % outline.len()];
        wall(&mut plan, &format!("wall-{index}"), WallKind::Exterior, *from, to, 6);
    }
    plan.base.rooms.push(Room { id: "room".into(), name: "Room".into(), usage: RoomUse::Living, at: at(20, 20) });
    plan.mate_line = Some(MateLine { from: at(-6, 150), to: at(606, 150) });
    assert_eq!(spans(&derived(&plan)), in_steps(&[(200, &[200]), (200, &[200])]));
}

/// The mate line across an L and a T, at any quarter: a mate wall with gaps of 60 and 44 in in an L of 300 x 300 whose mate
/// line at y 120 runs through the long leg and along the edge of the short one.
#[test]
fn an_l_with_its_mate_line() {
    let mut plan = empty_plan();
    let outline = [(0, 0), (300, 0), (300, 120), (150, 120), (150, 300), (0, 300)];
    for (index, from) in outline.iter().enumerate() {
        let to = outline[(index + 1) % outline.len()];
        wall(&mut plan, &format!("wall-{index}"), WallKind::Exterior, *from, to, 6);
    }
    wall(&mut plan, "mate-a", WallKind::Mate, (60, 120), (106, 120), 4);
    wall(&mut plan, "mate-b", WallKind::Mate, (106, 120), (60, 120), 4);
    plan.base.rooms.push(Room { id: "room".into(), name: "Room".into(), usage: RoomUse::Living, at: at(20, 20) });
    plan.mate_line = Some(MateLine { from: at(-6, 120), to: at(306, 120) });
    for _ in 0..4 {
        let derived = derived(&plan);
        assert_eq!(spans(&derived), in_steps(&[(60, &[60]), (44, &[44])]));
        assert!(derived.mate_openings().iter().all(|opening| opening.width.slack == Length::ZERO));
        plan = Transform::QuarterTurned.plan(&plan);
    }
}

/// [`two_modules`] turned by an odd angle, without the outlines of modules, which are square to the axes: the opening of 200 in
/// is 200 in within the slack, a fixture that ends at the line does not straddle it, and one an inch longer does.
#[test]
fn an_angled_mate_line() {
    let mut plan = two_modules();
    let turn = |point: &mut Point| *point = turned(&[*point], 31.3)[0];
    plan.modules.clear();
    for wall in &mut plan.base.walls {
        turn(&mut wall.from);
        turn(&mut wall.to);
    }
    turn(&mut plan.base.rooms[0].at);
    if let Some(line) = &mut plan.mate_line {
        turn(&mut line.from);
        turn(&mut line.to);
    }
    // A direction in whole numbers: near the walls', and the fixture's own corners follow it.
    let (sin, cos) = 31.3_f64.to_radians().sin_cos();
    #[expect(clippy::cast_possible_truncation, reason = "far inside the range")]
    let facing = Facing::new((-sin * 1000.0).round() as i32, (cos * 1000.0).round() as i32).expect("not zero");
    fixture(&mut plan, "across", FixtureKind::Island, (200, 127), facing, (36, 24));
    fixture(&mut plan, "short", FixtureKind::Island, (200, 125), facing, (36, 24));
    for fixture in &mut plan.base.fixtures {
        turn(&mut fixture.at);
    }
    let derived = derived(&plan);
    let [opening] = derived.mate_openings() else { panic!("one opening") };
    assert_eq!(opening.width.slack, OFF_AXIS_SLACK);
    assert!((opening.width.value - inches(200)).abs() <= OFF_AXIS_SLACK, "{:?}", opening.width.value);
    let ids: Vec<&str> = derived.straddlers().iter().map(|straddler| straddler.id.as_str()).collect();
    assert_eq!(ids, ["across"]);
    let [left, right] = derived.straddlers()[0].sides.clone().map(|side| side.area.to_square_feet() * 144.0);
    assert!((left - 36.0).abs() < 0.5 && (right - 36.0 * 23.0).abs() < 0.5, "{left} and {right}");
}

/// By hand: the mate walls end at x 195.5 and begin at 427.5, 232 in; posts of 4 in at both ends leave 199.5 to 423.5, 224 in
/// or 18'-8". Doors from the hall and to the owner's bath and closet go through both mate walls.
#[test]
fn the_demo_home_spans_18_feet_8() {
    let derived = derived(&dunlin());
    let opening = &derived.mate_openings()[0];
    assert_eq!(opening.width, Measured::exact(inches(232)));
    assert_eq!(opening.clear_spans.len(), 1);
    assert_eq!(opening.clear_spans[0].width, Measured::exact(inches(224)));
    let posts = opening.clear_spans[0].between.concat();
    let posts: Vec<&str> = posts.iter().map(Id::as_str).collect();
    assert_eq!(posts, ["post-a-left", "post-b-left", "post-a-right", "post-b-right"]);
    let doors = derived.mate_openings()[1..].iter().map(|opening| opening.width.value.steps() / Length::INCH.steps());
    assert_eq!(doors.collect::<Vec<_>>(), [30, 28, 32, 32, 32], "bath, closet, hall bath, utility, flex room");
    assert_eq!(derived.straddlers(), []);
}

/// A group as its module, its wall and its fixtures.
type Group<'a> = (Option<&'a str>, Option<&'a str>, Vec<&'a str>);

fn groups(derived: &Derived) -> Vec<Group<'_>> {
    let mut groups = Vec::new();
    for group in derived.plumbing_groups() {
        let fixtures = group.fixtures.iter().map(Id::as_str).collect();
        groups.push((group.module.as_ref().map(Id::as_str), group.wall.as_ref().map(Id::as_str), fixtures));
    }
    groups
}

/// Two baths back to back against one partition are one group; the hoses of a washer leave it 6 in off the wall, and a step
/// more leaves it free; a tub with its drain at an end stands against the wall there; an island's sink stands free; on both
/// sides of the mate line the same wall line makes two groups.
#[test]
fn plumbing_that_stands_together() {
    let mut plan = two_modules();
    wall(&mut plan, "wet", WallKind::Partition, (104, 6), (104, 146), 4);
    let (left, right) = (Facing::LEFT, Facing::RIGHT);
    // The partition lies between x 104 and 108, its left face at 104.
    fixture(&mut plan, "toilet", FixtureKind::Toilet, (104, 30), left, (20, 28));
    fixture(&mut plan, "vanity", FixtureKind::Vanity, (108, 30), right, (36, 21));
    fixture(&mut plan, "tub", FixtureKind::Tub, (74, 146), Facing::DOWN, (60, 30));
    // Seen from its front, which looks down, the end at x 104 is the right one.
    plan.base.fixtures[2].drain = Some(End::Right);
    fixture(&mut plan, "washer", FixtureKind::Washer, (114, 80), right, (27, 30));
    fixture(&mut plan, "island-sink", FixtureKind::Sink, (220, 70), Facing::UP, (36, 24));
    fixture(&mut plan, "range", FixtureKind::Range, (108, 120), right, (30, 26));
    fixture(&mut plan, "far-sink", FixtureKind::Sink, (50, 154), Facing::UP, (36, 24));
    fixture(&mut plan, "on-the-line", FixtureKind::Sink, (220, 138), Facing::UP, (36, 24));
    let mut expected = vec![
        (Some("a"), Some("wet"), vec!["toilet", "vanity", "tub", "washer"]),
        (Some("a"), None, vec!["island-sink"]),
        (Some("b"), Some("mate-b-left"), vec!["far-sink"]),
        (None, None, vec!["on-the-line"]),
    ];
    assert_eq!(groups(&derived(&plan)), expected);
    assert_eq!(groups(&derived(&Transform::Mirrored.plan(&plan))), expected);
    assert_eq!(groups(&derived(&Transform::QuarterTurned.plan(&plan))), expected);
    plan.base.fixtures[3].at.x += Length::from_steps(1);
    expected[0].2.pop();
    expected.insert(1, (Some("a"), None, vec!["washer"]));
    assert_eq!(groups(&derived(&plan)), expected);
    let told = derived(&plan).measures().clone();
    let counts: Vec<_> = told.iter().filter(|told| told.name == MeasureName::PlumbingGroups).collect();
    assert_eq!(counts.iter().map(|told| told.amount.clone()).collect::<Vec<_>>(), [Amount::Count(3), Amount::Count(1)]);
}

/// By hand, from where the backs of the fixtures stand.
#[test]
fn the_demo_home_has_its_plumbing_in_groups() {
    let derived = derived(&dunlin());
    let told = groups(&derived);
    let of = |fixture: &str| told.iter().find(|(.., fixtures)| fixtures.contains(&fixture)).cloned();
    let hall_bath = of("hall-bath-toilet").expect("a toilet");
    assert_eq!((hall_bath.0, hall_bath.1), (Some("module-b"), Some("bath-utility-wall")));
    assert!(hall_bath.2.contains(&"hall-bath-vanity"));
    let kitchen = (Some("module-b"), Some("back-wall"), vec!["kitchen-sink", "kitchen-dishwasher"]);
    assert_eq!(of("kitchen-sink"), Some(kitchen));
    assert_eq!(of("owner-vanity"), Some((Some("module-a"), Some("owner-bath-closet-wall"), vec!["owner-vanity"])));
    assert_eq!(of("owner-toilet"), Some((Some("module-a"), Some("mate-wall-a-left"), vec!["owner-toilet"])));
    assert_eq!(of("water-heater"), Some((Some("module-a"), Some("right-wall"), vec!["water-heater"])));
}

/// Nothing that a plan may hold stops the figures.
#[test]
fn odd_plans_have_figures_too() {
    let mut plan = two_modules();
    plan.modules[0].to = plan.modules[0].from;
    plan.mate_line = Some(MateLine { from: at(0, 150), to: at(0, 150) });
    fixture(&mut plan, "nothing", FixtureKind::Sink, (6, 6), Facing::UP, (0, 0));
    fixture(&mut plan, "huge", FixtureKind::Tub, (0, 0), Facing::new(3, 7).expect("not zero"), (7000, 7000));
    post(&mut plan, "flat", (50, 50), (50, 50));
    assert!(!derived(&plan).measures().is_empty());
    plan.modules.clear();
    plan.mate_line = None;
    assert!(derived(&plan).mate_openings().is_empty());
}

/// After a change only what rests on it is asked anew, and the answers are those of a derivation from nothing.
#[test]
fn what_rests_on_unchanged_things_is_kept() {
    let plan = dunlin();
    let before = derived(&plan);
    let sizes = before.modules().as_ptr();
    let openings = before.mate_openings().as_ptr();
    let heated = before.heated().expect("every room closes");
    let mut moved = plan;
    for fixture in moved.base.fixtures.iter_mut().filter(|fixture| fixture.kind == FixtureKind::Island) {
        fixture.at.y = inches(160);
    }
    let selection = Selection::included(&moved);
    let after = derive_after(&before, &moved.home(&selection));
    assert_eq!((after.modules().as_ptr(), after.mate_openings().as_ptr()), (sizes, openings));
    assert!(after.heated().is_some_and(|kept| std::ptr::eq(kept, heated)));
    assert_eq!(after.straddlers().len(), 1, "the island now lies on the line");
    assert_eq!(told(&after), told(&derived(&moved)));
}

/// All that is told of modules and the mate line, without places: what stands before and after a span is sorted.
fn told(derived: &Derived) -> Vec<(MeasureName, Vec<Id>, String)> {
    let first = MeasureName::ModuleBodyWidth;
    let told = derived.measures().iter().filter(|told| told.name >= first).cloned();
    let mut told: Vec<_> = told
        .map(|mut told| {
            told.of.sort();
            (told.name, told.of, format!("{:?}", told.amount))
        })
        .collect();
    told.sort();
    told
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn the_demo_home_drawn_elsewhere_keeps_its_modules(
        picks in prop::collection::vec(0..12_usize, 12),
        x in -90_000_i64..90_000,
        island in 120..200_i64,
    ) {
        let mut plan = dunlin();
        // An island that may stand on the mate line at y 165.
        for fixture in plan.base.fixtures.iter_mut().filter(|fixture| fixture.kind == FixtureKind::Island) {
            fixture.at.y = inches(island);
        }
        let selection = plan.choices.iter().zip(&picks).fold(Selection::included(&plan), |selection, (choice, pick)| {
            let alternate = choice.alternates[pick % choice.alternates.len()].id.clone();
            let answer = AlternateRef { choice: choice.id.clone(), alternate };
            selection.with(&plan, &answer).unwrap_or_else(|error| panic!("{error}"))
        });
        let here = told(&derive(&plan.home(&selection)));
        let moved = Transform::Moved(Point::new(Length::from_steps(x), Length::from_steps(-x)));
        for transform in [moved, Transform::QuarterTurned, Transform::Mirrored] {
            let there = told(&derive(&transform.plan(&plan).home(&selection)));
            prop_assert_eq!(&here, &there, "{:?}", transform);
        }
    }
}
