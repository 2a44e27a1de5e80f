//! Heated area with the arithmetic that sums up to it, of the whole home and by module.

use plan_geometry::{Amount, Area, AreaArithmetic, AreaMethod, Derived, HeatedArea, Mark, MeasureName, derive};
use plan_model::elements::{PlacedBy, Room, RoomUse, Wall, WallKind};
use plan_model::{Id, Length, Module, Plan, Point, Selection, Units, file};
use plan_rules::report::{measure_json, measure_text};
use plan_testkit::{SmallHome, Transform, room_with_outline, turned};
use proptest::prelude::*;

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");
/// Thickness of the walls around the homes of these tests.
const WALL: i64 = 6;

fn derived(plan: &Plan) -> Derived {
    let derived = derive(&plan.home(&Selection::included(plan)));
    assert_eq!(derived.problems, []);
    derived
}

fn heated(plan: &Plan) -> HeatedArea {
    let derived = derived(plan);
    let heated = derived.heated().expect("every room closes").clone();
    assert_eq!(derived.heated_area, Some(heated.whole.area));
    heated
}

/// Length and width of each part in inches; zeros for one worked out by coordinates.
fn sides(sum: &AreaArithmetic) -> Vec<(i64, i64)> {
    let inches = |length: Length| length.steps() / Length::INCH.steps();
    let side = |method: &AreaMethod| match method {
        AreaMethod::Sides { width, length } => (inches(*length), inches(*width)),
        AreaMethod::Coordinates { .. } => (0, 0),
    };
    sum.parts.iter().map(|part| side(&part.method)).collect()
}

fn square_inches(area: i64) -> Area {
    Area::of_rectangle(Length::inches(area), Length::INCH)
}

/// A home whose outer faces have this outline, counter-clockwise from a corner at the origin.
fn outside(corners: &[(i64, i64)]) -> Plan {
    let outline: Vec<Point> = corners.iter().map(|(x, y)| Point::inches(*x, *y)).collect();
    let anchor = Point::inches(2 * WALL, 2 * WALL);
    let mut plan = room_with_outline(&outline, Length::inches(WALL), RoomUse::Living, anchor);
    for wall in &mut plan.base.walls {
        wall.placed_by = PlacedBy::RightFace;
    }
    plan
}

fn module(plan: &mut Plan, id: &str, from: (i64, i64), to: (i64, i64)) {
    let [from, to] = [from, to].map(|(x, y)| Point::inches(x, y));
    plan.modules.push(Module { id: id.into(), name: id.into(), from, to });
}

/// Two modules one behind the other, each half as deep as the home.
fn two_modules(length: i64, depth: i64) -> Plan {
    let mut plan = outside(&[(0, 0), (length, 0), (length, depth), (0, depth)]);
    module(&mut plan, "a", (0, 0), (length, depth / 2));
    module(&mut plan, "b", (0, depth / 2), (length, depth));
    plan
}

/// Vector W44 of the project's table (arithmetic): two modules, together 26'-8" x 56'-0", 1,493.33 sq ft, told as 1,493.
#[test]
fn two_modules_of_56_feet() {
    let heated = heated(&two_modules(672, 320));
    assert_eq!(sides(&heated.whole), [(672, 320)]);
    assert_eq!(heated.whole.area, square_inches(215_040), "215,040 / 144 = 1,493 1/3");
    assert_eq!(heated.whole.area.whole_square_feet(), 1493);
    let modules: Vec<_> = heated.modules.iter().map(|module| sides(&module.sum)).collect();
    assert_eq!(modules, [[(672, 160)], [(672, 160)]]);
    assert_eq!((heated.outside.parts.len(), heated.rounding), (0, Area::ZERO));
}

/// Vector W45 (arithmetic): the same inside walls of 6 in, 25'-8" x 55'-0", has a floor of 1,411.67 sq ft, as a gross floor area to
/// the inside of exterior walls would have it (IBC 202, seen in a secondary page).
#[test]
fn the_floor_inside_is_another_figure_than_the_heated_area() {
    let plan = SmallHome::new("living", Length::inches(660), Length::inches(308)).plan();
    assert_eq!(derived(&plan).rooms[0].floor_area, square_inches(203_280), "203,280 / 144 = 1,411 2/3");
    assert_eq!(heated(&plan).whole.area, square_inches(215_040), "to the outside: W44");
}

/// Vector W46 (arithmetic): 27'-4" x 60'-0" is 1,640.0.
#[test]
fn two_modules_of_60_feet() {
    let heated = heated(&two_modules(720, 328));
    assert_eq!(heated.whole.area.whole_square_feet(), 1640);
    assert_eq!(heated.whole.area, square_inches(1640 * 144));
}

/// Vector W43 (a published example of ANSI Z765): one level of 28 ft x 42 ft is 1,176 sq ft.
#[test]
fn one_level_of_28_by_42_feet() {
    let heated = heated(&outside(&[(0, 0), (504, 0), (504, 336), (0, 336)]));
    assert_eq!(sides(&heated.whole), [(504, 336)]);
    assert_eq!(heated.whole.area.whole_square_feet(), 1176);
    assert_eq!(heated.modules, []);
    assert_eq!(heated.outside, heated.whole, "without modules, everything lies outside of them");
}

/// An L of 40 ft x 30 ft less 20 ft x 12 ft, 960 sq ft: cut along the house it leaves a larger piece (40 x 18 = 720) than cut
/// across it (20 x 30 = 600).
#[test]
fn an_l() {
    let corners = [(0, 0), (480, 0), (480, 216), (240, 216), (240, 360), (0, 360)];
    let mut plan = outside(&corners);
    for quarter in 0..4 {
        let heated = heated(&plan);
        assert_eq!(sides(&heated.whole), [(480, 216), (240, 144)], "quarter {quarter}");
        assert_eq!(heated.whole.area.whole_square_feet(), 960);
        plan = Transform::QuarterTurned.plan(&plan);
    }
}

/// A T: bar 60 ft x 14 ft, stem 20 ft x 16 ft, 840 + 320 sq ft. The mate line is the bar's edge: the stem is module b, which
/// was drawn 6 in short of its outer face, so that 10 sq ft lie in no module.
#[test]
fn a_t_by_module() {
    let corners = [(0, 0), (720, 0), (720, 168), (480, 168), (480, 360), (240, 360), (240, 168), (0, 168)];
    let mut plan = outside(&corners);
    module(&mut plan, "bar", (0, 0), (720, 168));
    module(&mut plan, "stem", (240, 168), (480, 354));
    for transform in [None, Some(Transform::QuarterTurned), Some(Transform::Mirrored)] {
        let plan = transform.map_or_else(|| plan.clone(), |transform| transform.plan(&plan));
        let heated = heated(&plan);
        assert_eq!(sides(&heated.whole), [(720, 168), (240, 192)]);
        assert_eq!(sides(&heated.modules[0].sum), [(720, 168)]);
        assert_eq!(sides(&heated.modules[1].sum), [(240, 186)]);
        assert_eq!(sides(&heated.outside), [(240, 6)]);
        assert_eq!(heated.whole.area.whole_square_feet(), 1160);
    }
}

/// Where two outlines overlap, the ground is the first one's, and nothing is counted twice.
#[test]
fn overlapping_outlines_share_nothing() {
    let mut plan = outside(&[(0, 0), (600, 0), (600, 300), (0, 300)]);
    module(&mut plan, "a", (0, 0), (600, 160));
    module(&mut plan, "b", (0, 140), (600, 300));
    let heated = heated(&plan);
    assert_eq!(sides(&heated.modules[0].sum), [(600, 160)]);
    assert_eq!(sides(&heated.modules[1].sum), [(600, 140)]);
}

/// Turned by an odd angle, the T is worked out by its corners; each corner lies within a step of true, so that the area is
/// within a step along the outline.
#[test]
fn an_angled_t_by_coordinates() {
    let corners = [(0, 0), (720, 0), (720, 168), (480, 168), (480, 360), (240, 360), (240, 168), (0, 168)];
    let outline: Vec<Point> = corners.iter().map(|(x, y)| Point::inches(*x, *y)).collect();
    let drawn = turned(&outline, 23.7);
    let anchor = turned(&[Point::inches(360, 84)], 23.7)[0];
    let plan = room_with_outline(&drawn, Length::inches(WALL), RoomUse::Living, anchor);
    let heated = heated(&plan);
    assert_eq!(sides(&heated.whole), [(0, 0)]);
    let part = &heated.whole.parts[0];
    let traverse = part.traverse();
    assert_eq!(traverse.len(), 1, "one boundary; where walls meet, it may turn by a step");
    let twice: i128 = traverse[0].iter().map(|corner| corner.product.square_steps()).sum();
    assert_eq!(twice / 2, part.area.square_steps(), "half of the products is the area, to the last square step");
    assert!(traverse[0].iter().all(|corner| corner.at.x >= Length::ZERO && corner.at.y >= Length::ZERO));
    // The walls stand outside of the outline: 732 x 180 and 252 x 192.
    let square = square_inches(732 * 180 + 252 * 192);
    let around = Length::inches(2 * (732 + 372));
    let off = (part.area - square).square_steps().abs();
    assert!(off <= 2 * i128::from(around.steps()), "{off}");
}

/// A slanted end that the outline of a module cuts: what corners rounded to the grid take or add is told.
#[test]
fn a_slanted_end_across_two_modules() {
    let mut plan = outside(&[(0, 0), (500, 0), (607, 311), (0, 311)]);
    module(&mut plan, "a", (0, 0), (700, 150));
    module(&mut plan, "b", (0, 150), (700, 400));
    let heated = heated(&plan);
    let modules: Area = heated.modules.iter().map(|module| module.sum.area).sum();
    assert_eq!(modules + heated.outside.area + heated.rounding, heated.whole.area);
    // The slanted side is 329 in long; rounding takes or adds no more than a step along it.
    assert!(heated.rounding.square_steps().abs() <= i128::from(Length::inches(330).steps()));
}

/// An unheated store of 8 ft x 8 ft in a room of 30 ft x 30 ft leaves a ring of four rectangles: 31 x 31 - 64 sq ft.
#[test]
fn around_an_unheated_store() {
    let mut plan = outside(&[(0, 0), (372, 0), (372, 372), (0, 372)]);
    let corners =
        [((138, 138), (234, 138)), ((234, 138), (234, 234)), ((234, 234), (138, 234)), ((138, 234), (138, 138))];
    for (index, (from, to)) in corners.into_iter().enumerate() {
        plan.base.walls.push(Wall {
            id: format!("store-{index}").into(),
            kind: WallKind::Partition,
            from: Point::inches(from.0, from.1),
            to: Point::inches(to.0, to.1),
            thickness: Length::inches(WALL),
            placed_by: PlacedBy::LeftFace,
            movable: false,
        });
    }
    let store =
        Room { id: "store".into(), name: "Store".into(), usage: RoomUse::UnheatedStore, at: Point::inches(186, 186) };
    plan.base.rooms.push(store);
    module(&mut plan, "a", (0, 0), (372, 186));
    module(&mut plan, "b", (0, 186), (372, 372));
    let heated = heated(&plan);
    assert_eq!(heated.whole.parts.len(), 4);
    assert_eq!(heated.whole.area.whole_square_feet(), 31 * 31 - 64);
    // Each half is a U: 31 x 11.5 ft, and two sides of 11.5 x 4 ft.
    for module in &heated.modules {
        assert_eq!(sides(&module.sum), [(372, 138), (138, 48), (138, 48)]);
    }
}

/// By hand: outside 330 x 696, each module 165 x 696; 165 x 696 / 144 = 797.5.
#[test]
fn the_demo_home() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let derived = derived(&plan);
    let heated = derived.heated().expect("every room closes");
    assert_eq!(sides(&heated.whole), [(696, 330)]);
    assert_eq!(heated.whole.area.whole_square_feet(), 1595);
    let modules: Vec<_> = heated.modules.iter().map(|module| (module.id.as_str(), sides(&module.sum))).collect();
    assert_eq!(modules, [("module-a", vec![(696, 165)]), ("module-b", vec![(696, 165)])]);
    for module in &heated.modules {
        let halves = Area::from_square_steps(2 * module.sum.area.square_steps());
        assert_eq!(halves, square_inches(1595 * 144), "797.5 sq ft");
    }
    let told: Vec<_> = derived.measures().iter().filter(|told| told.name == MeasureName::HeatedAreaOfModule).collect();
    assert_eq!(
        told.iter().map(|told| told.of.clone()).collect::<Vec<_>>(),
        [[Id::from("module-a")], ["module-b".into()]]
    );
    assert!(told.iter().all(|told| told.amount == Amount::Area(square_inches(696 * 165))));
    let corners = [(0, 0), (696, 0), (696, 165), (0, 165)].map(|(x, y)| Point::inches(x, y));
    assert_eq!(told[0].marks, [Mark::Ground(corners.to_vec())]);
}

#[test]
fn a_home_that_does_not_close_has_none() {
    let mut plan = outside(&[(0, 0), (504, 0), (504, 336), (0, 336)]);
    plan.base.walls.pop();
    let derived = derive(&plan.home(&Selection::default()));
    assert!(derived.heated().is_none());
    let told = derived.measures().iter().find(|told| told.name == MeasureName::HeatedArea);
    assert!(matches!(told.map(|told| &told.amount), Some(Amount::Unknown(_))));
}

/// The lines of the section of a text report.
fn section(plan: &Plan) -> Vec<String> {
    let selection = Selection::included(plan);
    let home = plan.home(&selection);
    let text = measure_text(&home, &selection, &derive(&home), None);
    let lines = text.lines().skip_while(|line| *line != "HEATED AREA").skip(1).take_while(|line| !line.is_empty());
    lines.map(|line| line.trim_start().to_owned()).collect()
}

#[test]
fn the_arithmetic_as_people_read_it() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let expected = [
        "Module A: 58'-0\" x 13'-9\" = 797.5 sq ft",
        "Module B: 58'-0\" x 13'-9\" = 797.5 sq ft",
        "Sum: 1595 sq ft; to the whole square foot, 1595 sq ft",
        "Method: ANSI Z765-2021, to the exterior finished face, worked out from the plan",
    ];
    assert_eq!(section(&plan), expected);
    let mut ell = outside(&[(0, 0), (480, 0), (480, 216), (240, 216), (240, 360), (0, 360)]);
    let expected = [
        "House: 40'-0\" x 18'-0\" = 720 sq ft",
        "House: 20'-0\" x 12'-0\" = 240 sq ft",
        "House, together: 960 sq ft",
        "Sum: 960 sq ft; to the whole square foot, 960 sq ft",
    ];
    assert_eq!(section(&ell)[..4], expected);
    ell.units = Units::Mm;
    assert_eq!(section(&ell)[0], "House: 12192 mm x 5486.4 mm = 66.89 sq m", "12.192 x 5.4864 = 66.8902");
}

/// 600 x 311 in with a corner of 100 x 100 cut off: 186,600 - 5,000 = 181,600 sq in. The products, from the lowest left
/// corner: 0; 500 x 100 = 50,000; 600 x 311 - 600 x 100 = 126,600; 600 x 311 = 186,600; 0: together twice 181,600.
#[test]
fn a_traverse_as_people_read_it() {
    let plan = outside(&[(0, 0), (500, 0), (600, 100), (600, 311), (0, 311)]);
    let lines = section(&plan);
    assert_eq!(lines[0], "House: by the coordinates of its corners = 1261.111 sq ft");
    assert!(lines[1].starts_with("corner  x"), "{lines:?}");
    let products: Vec<&str> = lines[2..7].iter().filter_map(|line| line.rsplit("  ").next()).collect();
    assert_eq!(products, ["0 sq ft", "347.222 sq ft", "879.167 sq ft", "1295.833 sq ft", "0 sq ft"]);
    assert_eq!(lines[7], "The area is half of the sum of the last column.");
}

#[test]
fn the_parts_in_the_report_for_programs() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let selection = Selection::included(&plan);
    let home = plan.home(&selection);
    let report = measure_json(&home, &selection, &derive(&home), None);
    let report: serde_json::Value = serde_json::from_str(&report).expect("JSON");
    let part = |module: &str, low: i64| {
        serde_json::json!({
            "module": module, "width": 165, "length": 696, "area": 797.5,
            "boundaries": [[[0, low], [696, low], [696, low + 165], [0, low + 165]]],
        })
    };
    assert_eq!(report["heated_area_arithmetic"], serde_json::json!([part("module-a", 0), part("module-b", 165)]));
}

/// A home of steps: each part so much further along, and so much deeper or shallower.
fn steps() -> impl Strategy<Value = Vec<(i64, i64, i64)>> {
    prop::collection::vec((60..200_i64, 0..80_i64, 200..300_i64), 1..7)
}

fn stepped(steps: &[(i64, i64, i64)]) -> Plan {
    let mut front = Vec::new();
    let mut back = Vec::new();
    let mut x = 0;
    for (along, low, high) in steps {
        front.extend([(x, *low), (x + along, *low)]);
        back.extend([(x, *high), (x + along, *high)]);
        x += along;
    }
    let mut corners: Vec<(i64, i64)> = front.into_iter().chain(back.into_iter().rev()).collect();
    corners.dedup();
    let drawn: Vec<Point> = corners.iter().map(|(x, y)| Point::inches(*x, *y)).collect();
    let anchor = Point::inches(2 * WALL, steps[0].1 + 2 * WALL);
    let mut plan = room_with_outline(&drawn, Length::inches(WALL), RoomUse::Living, anchor);
    for wall in &mut plan.base.walls {
        wall.placed_by = PlacedBy::RightFace;
    }
    module(&mut plan, "a", (0, 0), (x, 150));
    module(&mut plan, "b", (0, 150), (x, 280));
    plan
}

fn overlap(one: &[Point], other: &[Point]) -> bool {
    let [a, _, b, _] = one else { return false };
    let [c, _, d, _] = other else { return false };
    a.x.max(c.x) < b.x.min(d.x) && a.y.max(c.y) < b.y.min(d.y)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn parts_never_overlap_and_sum_up_wherever_the_home_is_drawn(steps in steps(), x in -90_000_i64..90_000) {
        let plan = stepped(&steps);
        let here = derive(&plan.home(&Selection::default()));
        prop_assert_eq!(&here.problems, &[]);
        let heated = here.heated().expect("the room closes");
        let footprint: Area = here.footprint.iter().map(plan_geometry::Region::area).sum();
        prop_assert_eq!(heated.whole.area, footprint);
        prop_assert!(heated.whole.parts.len() <= 2 * steps.len(), "{} parts", heated.whole.parts.len());
        let modules = heated.modules.iter().map(|module| &module.sum);
        let mut in_modules = Vec::new();
        for sum in modules.chain([&heated.outside]) {
            in_modules.extend(sum.parts.iter());
            prop_assert_eq!(sum.parts.iter().map(|part| part.area).sum::<Area>(), sum.area);
        }
        for parts in [heated.whole.parts.iter().collect(), in_modules] {
            prop_assert_eq!(parts.iter().map(|part| part.area).sum::<Area>(), footprint);
            for (index, one) in parts.iter().enumerate() {
                prop_assert_eq!(one.region.area(), one.area);
                prop_assert!(parts[..index].iter().all(|other| !overlap(&one.region.outer, &other.region.outer)));
            }
        }
        prop_assert_eq!(heated.rounding, Area::ZERO);
        let told = |heated: &HeatedArea| {
            let of_modules: Vec<_> = heated.modules.iter().map(|module| sides(&module.sum)).collect();
            (sides(&heated.whole), of_modules, sides(&heated.outside))
        };
        let moved = Transform::Moved(Point::new(Length::from_steps(x), Length::from_steps(-x)));
        for transform in [moved, Transform::QuarterTurned, Transform::Mirrored] {
            let elsewhere = transform.plan(&plan);
            let there = derive(&elsewhere.home(&Selection::default()));
            prop_assert_eq!(told(heated), told(there.heated().expect("the room closes")), "{:?}", transform);
        }
    }
}
