//! Floor under low ceilings, and what the list of measures says of ceilings. All figures are arithmetic; limits from IRC
//! R304.3: floor under a slope lower than 5 ft, or under a furred-down part lower than 7 ft, does not count.

use plan_geometry::{Amount, Area, CountedFloor, CountedHeights, Derived, Mark, Measure, MeasureName, derive};
use plan_model::elements::{Ceiling, Column, ColumnKind, OpenBoundary, Room, RoomUse, Slope, Soffit};
use plan_model::{Length, Plan, Point, Selection};
use plan_testkit::{Transform, room_with_outline, turned};

const LIMITS: CountedHeights =
    CountedHeights { under_slope: Some(Length::inches(60)), under_lowered: Some(Length::inches(84)) };
const SEVEN_FEET: Length = Length::inches(84);

fn feet(x: i64, y: i64) -> Point {
    Point::inches(12 * x, 12 * y)
}

fn square_feet(area: i128) -> Area {
    Area::from_square_steps(area * Area::SQUARE_FOOT.square_steps())
}

fn room(corners: &[(i64, i64)]) -> Plan {
    let outline: Vec<Point> = corners.iter().map(|(x, y)| feet(*x, *y)).collect();
    room_with_outline(&outline, Length::inches(6), RoomUse::Bedroom, feet(1, 1))
}

fn box_room(width: i64, depth: i64) -> Plan {
    room(&[(0, 0), (width, 0), (width, depth), (0, depth)])
}

fn flat(id: &str, rooms: &[&str], height: i64) -> Ceiling {
    let rooms = rooms.iter().map(|room| (*room).into()).collect();
    Ceiling { id: id.into(), rooms, height: Length::inches(height), slope: None }
}

/// Rises 4 in in each foot.
fn sloped(id: &str, rooms: &[&str], height: i64, from: Point, to: Point) -> Ceiling {
    let slope = Slope { from, to, rise_per_foot: Length::inches(4), highest: None };
    Ceiling { slope: Some(slope), ..flat(id, rooms, height) }
}

fn soffit(from: Point, to: Point, height: i64, beam: bool) -> Soffit {
    Soffit { id: "soffit".into(), from, to, height: Length::inches(height), beam }
}

fn derived(plan: &Plan) -> Derived {
    let derived = derive(&plan.home(&Selection::default()));
    assert_eq!(derived.problems, []);
    derived
}

/// The counted floor of the first space, which is the same wherever the home is drawn.
fn counted(plan: &Plan) -> CountedFloor {
    let figures = |floor: &CountedFloor| {
        (
            floor.area(),
            floor.qualifying_area(SEVEN_FEET),
            floor.least_dimension(square_feet(70)),
            floor.largest_square(),
        )
    };
    let floor = |plan: &Plan| derived(plan).spaces[0].counted_floor(LIMITS).expect("every part has a ceiling");
    let first = floor(plan);
    let mut elsewhere = plan.clone();
    for transform in [Transform::QuarterTurned, Transform::Mirrored, Transform::Moved(Point::inches(7, -31))] {
        elsewhere = transform.plan(&elsewhere);
        assert_eq!(figures(&floor(&elsewhere)), figures(&first), "{transform:?}");
    }
    first
}

/// Vector W29: of 140 sq ft, 40 are at 7 ft and above, 60 between 5 and 7 ft and 40 below 5 ft: 100 count.
#[test]
fn a_sloped_room_counts_from_five_feet() {
    let mut plan = box_room(10, 14);
    plan.base.ceilings.push(sloped("roof", &[], 44, feet(0, 0), feet(10, 0)));
    let floor = counted(&plan);
    assert_eq!((floor.area(), floor.qualifying_area(SEVEN_FEET)), (square_feet(100), square_feet(100)));
    assert_eq!(floor.least_dimension(square_feet(70)), Some(Length::inches(120)));
    assert_eq!(floor.slack(), Length::ZERO);
    let space = &derived(&plan).spaces[0];
    let of = |heights| space.counted_floor(heights).expect("there is a ceiling").area();
    assert_eq!(
        of(CountedHeights { under_slope: Some(Length::inches(84)), ..CountedHeights::default() }),
        square_feet(40)
    );
    assert_eq!(of(CountedHeights { under_slope: None, ..LIMITS }), square_feet(140), "no furred-down part");
    assert_eq!(of(CountedHeights { under_slope: Some(Length::inches(600)), ..LIMITS }), Area::ZERO);
}

/// The same room at any angle: the cut and all faces lie within a step, and sides of 48 ft at most are off by as much.
#[test]
fn a_sloped_room_at_any_angle() {
    for degrees in [0.1, 7.3, 33.7, 45.0, 61.3, 135.0, 200.0] {
        let turn = |x, y| turned(&[feet(x, y)], degrees)[0];
        let outline = [turn(0, 0), turn(10, 0), turn(10, 14), turn(0, 14)];
        let mut plan = room_with_outline(&outline, Length::inches(6), RoomUse::Bedroom, turn(1, 1));
        plan.base.ceilings.push(sloped("roof", &[], 44, turn(0, 0), turn(10, 0)));
        let derived = derived(&plan);
        let floor = derived.spaces[0].counted_floor(LIMITS).expect("there is a ceiling");
        let off = |area: Area, exact| (area.square_steps() - square_feet(exact).square_steps()).abs();
        let slack = floor.area_slack().square_steps();
        assert!(slack > 0 && off(floor.area(), 100) <= slack, "{degrees}");
        assert!(off(floor.qualifying_area(SEVEN_FEET), 100) <= slack * 2, "{degrees}");
        let least = floor.least_dimension(square_feet(70)).expect("large enough");
        assert!((least - Length::inches(120)).abs() <= floor.slack(), "{degrees}: {}", least.steps());
        let ceiling = &derived.rooms[0].ceiling;
        let high = ceiling.area_at_or_above(Length::inches(84)).expect("there is a ceiling");
        assert!(off(high, 40) <= ceiling.area_slack().square_steps(), "{degrees}");
        let lowest = ceiling.lowest.expect("there is a ceiling");
        assert!((lowest - Length::inches(44)).abs() <= ceiling.lowest_slack(), "{degrees}: {}", lowest.steps());
    }
}

/// A furred-down duct across an L parts what counts in two: 10 x 8 ft and 6 x 8 ft.
#[test]
fn a_furred_down_part_parts_the_floor() {
    let mut plan = room(&[(0, 0), (16, 0), (16, 6), (10, 6), (10, 10), (0, 10)]);
    plan.base.ceilings.push(flat("flat", &[], 96));
    plan.base.soffits.push(soffit(feet(8, -1), feet(10, 20), 82, false));
    let floor = counted(&plan);
    assert_eq!(floor.regions().count(), 2);
    assert_eq!((floor.area(), floor.qualifying_area(SEVEN_FEET)), (square_feet(80 + 36), square_feet(80)));
    assert_eq!(floor.least_dimension(square_feet(70)), Some(Length::inches(96)));
    assert_eq!(floor.rectangle().map(|clear| clear.length), Some(Length::inches(120)));
    plan.base.soffits[0].height = Length::inches(84);
    assert_eq!(counted(&plan).area(), square_feet(100 + 36), "exactly as high as counts");
    plan.base.soffits[0] = soffit(feet(8, -1), feet(10, 20), 76, true);
    assert_eq!(counted(&plan).area(), square_feet(100 + 36), "a beam takes no floor away");
}

/// A ceiling over a T rises across its bar from 4 ft: 3 ft of the bar, 24 ft long, do not count, nor a part of the stem.
#[test]
fn a_slope_over_a_t_shaped_room() {
    let mut plan = room(&[(0, 0), (24, 0), (24, 8), (16, 8), (16, 16), (8, 16), (8, 8), (0, 8)]);
    plan.base.ceilings.push(sloped("roof", &[], 48, feet(0, 0), feet(24, 0)));
    let floor = counted(&plan);
    assert_eq!(floor.area(), square_feet(24 * 5 + 8 * 8));
    // Squares of 7 ft stand where the stem meets the bar: 8 ft wide and 13 ft deep.
    assert_eq!(floor.qualifying_area(SEVEN_FEET), square_feet(8 * 13));
}

/// A great room across the mate line, each half under its own slope that rises to the ridge over the line from 4 ft at its
/// outer wall: 3 ft along each outer wall do not count, and 14 x 12 ft do, as one.
#[test]
fn both_halves_of_a_room_across_the_mate_line_count_as_one() {
    let mut plan = box_room(20, 12);
    plan.base.rooms.push(Room { id: "other".into(), name: "Other".into(), usage: RoomUse::Living, at: feet(15, 6) });
    plan.base.open_boundaries.push(OpenBoundary { id: "ridge".into(), from: feet(10, 0), to: feet(10, 12) });
    plan.base.ceilings.push(sloped("left", &["room"], 48, feet(0, 12), feet(0, 0)));
    plan.base.ceilings.push(sloped("right", &["other"], 48, feet(20, 0), feet(20, 12)));
    let floor = counted(&plan);
    assert_eq!(floor.regions().count(), 1);
    assert_eq!((floor.area(), floor.qualifying_area(SEVEN_FEET)), (square_feet(14 * 12), square_feet(14 * 12)));
}

/// The slope of one part begins at the line between the two: its low strip does not reach under the flat ceiling beside it.
#[test]
fn the_slope_of_one_part_is_not_over_the_next() {
    let mut plan = box_room(20, 12);
    plan.base.rooms.push(Room { id: "other".into(), name: "Other".into(), usage: RoomUse::Living, at: feet(15, 6) });
    plan.base.open_boundaries.push(OpenBoundary { id: "line".into(), from: feet(10, 0), to: feet(10, 12) });
    plan.base.ceilings.push(flat("flat", &["room"], 96));
    plan.base.ceilings.push(sloped("shed", &["other"], 48, feet(10, 12), feet(10, 0)));
    let floor = counted(&plan);
    assert_eq!(floor.regions().count(), 2);
    assert_eq!((floor.area(), floor.qualifying_area(SEVEN_FEET)), (square_feet(17 * 12), square_feet(10 * 12)));
}

#[test]
fn without_a_ceiling_what_counts_is_unknown_unless_nothing_is_asked() {
    let mut plan = box_room(10, 14);
    let space = |plan: &Plan| derived(plan).spaces[0].clone();
    let unknown = Err("the plan has no ceiling over room \"room\"".to_owned());
    assert_eq!(space(&plan).counted_floor(LIMITS).map(|floor| floor.area()), unknown);
    let any = space(&plan).counted_floor(CountedHeights::default());
    assert_eq!(any.map(|floor| floor.area()), Ok(square_feet(140)));
    assert_eq!(space(&plan).whole_floor().area(), square_feet(140));
    // A flat ceiling of any height takes nothing away: how high it must be is asked elsewhere.
    plan.base.ceilings.push(flat("flat", &[], 80));
    assert_eq!(space(&plan).counted_floor(LIMITS).map(|floor| floor.area()), Ok(square_feet(140)));
}

fn measures(all: &[Measure], name: MeasureName) -> Vec<&Measure> {
    all.iter().filter(|measure| measure.name == name).collect()
}

#[test]
fn the_list_tells_the_lowest_ceiling_and_the_floor_that_is_high_enough() {
    let mut plan = box_room(10, 14);
    plan.base.ceilings.push(sloped("roof", &[], 44, feet(0, 0), feet(10, 0)));
    let all = derived(&plan).measures().clone();
    let [lowest] = measures(&all, MeasureName::LowestCeiling)[..] else { panic!("one room") };
    assert!(matches!(lowest.amount, Amount::Length(lowest) if lowest.value == Length::inches(44)));
    for (name, expected, strip) in [
        (MeasureName::FloorAtSevenFeet, 40, (10, 14)),
        (MeasureName::FloorAtFiveFeet, 100, (4, 14)),
        (MeasureName::QualifyingArea, 100, (4, 14)),
    ] {
        let [measure] = measures(&all, name)[..] else { panic!("one room") };
        assert_eq!(measure.amount, Amount::Area(square_feet(expected)), "{name:?}");
        let [Mark::Ground(ground)] = &measure.marks[..] else { panic!("{name:?}: the ground is shown") };
        let ys = || ground.iter().map(|corner| corner.y);
        assert_eq!((ys().min(), ys().max()), (Some(feet(0, strip.0).y), Some(feet(0, strip.1).y)), "{name:?}");
    }
    let [square] = measures(&all, MeasureName::LargestSquare)[..] else { panic!("one room") };
    let [Mark::Ground(ground)] = &square.marks[..] else { panic!("the square is shown") };
    let side = |at: usize| (ground[at] - ground[(at + 1) % 4]).x.abs() + (ground[at] - ground[(at + 1) % 4]).y.abs();
    assert_eq!([0, 1, 2, 3].map(side), [Length::inches(120); 4]);
}

#[test]
fn a_flat_ceiling_is_told_by_its_height_and_a_missing_one_as_unknown() {
    let mut plan = box_room(10, 14);
    let listed = |plan: &Plan| derived(plan).measures().clone();
    let all = listed(&plan);
    for name in [MeasureName::LowestCeiling, MeasureName::QualifyingArea] {
        let [unknown] = measures(&all, name)[..] else { panic!("one room") };
        assert_eq!(unknown.amount, Amount::Unknown("the plan has no ceiling over room \"room\"".to_owned()));
    }
    plan.base.ceilings.push(flat("flat", &[], 96));
    let all = listed(&plan);
    assert_eq!(measures(&all, MeasureName::FloorAtSevenFeet).len(), 0, "all of it is as high");
    // A duct of 4 x 3 ft: the ground under it is shown as the lowest.
    plan.base.soffits.push(soffit(feet(-2, 10), feet(4, 13), 80, false));
    let all = listed(&plan);
    let [lowest] = measures(&all, MeasureName::LowestCeiling)[..] else { panic!("one room") };
    assert!(matches!(lowest.amount, Amount::Length(lowest) if lowest.value == Length::inches(80)));
    let [Mark::Ground(ground)] = &lowest.marks[..] else { panic!("the ground is shown") };
    assert!(ground.len() == 4 && ground.iter().all(|corner| corner.x <= feet(4, 0).x && corner.y >= feet(0, 10).y));
    let [high] = measures(&all, MeasureName::FloorAtSevenFeet)[..] else { panic!("one room") };
    assert_eq!(high.amount, Amount::Area(square_feet(140 - 12)));
}

/// A chase that fills a corner takes the lowest part of a slope away: 2 ft farther in, it is 8 in higher. A post in the middle
/// of the floor changes nothing, and a duct that is over nothing but the post is over no floor.
#[test]
fn a_ceiling_is_measured_over_floor_only() {
    let mut plan = box_room(10, 14);
    plan.base.ceilings.push(sloped("roof", &[], 44, feet(0, 0), feet(10, 0)));
    let mut column = |id: &str, from, to| {
        plan.base.columns.push(Column { id: id.into(), kind: ColumnKind::Chase, from, to });
    };
    column("along-the-front", feet(0, 0), feet(10, 2));
    column("post", feet(4, 6), feet(6, 8));
    plan.base.rooms[0].at = feet(2, 10);
    plan.base.soffits.push(soffit(feet(4, 6), feet(6, 8), 30, false));
    let derived = derived(&plan);
    assert_eq!(derived.rooms[0].ceiling.lowest, Some(Length::inches(52)));
    // 10 x 10 ft are at 5 ft, less the post of 2 x 2 ft.
    assert_eq!(derived.rooms[0].ceiling.area_at_or_above(Length::inches(60)), Some(square_feet(96)));
    assert_eq!(derived.spaces[0].counted_floor(LIMITS).map(|floor| floor.area()), Ok(square_feet(96)));
}

/// 7 in a foot from 44 in: 5 ft is reached after 27.43 in, which is between two steps; what counts is less by part of one.
#[test]
fn where_a_height_is_reached_between_two_steps_no_more_counts_than_the_true_strip() {
    let mut plan = box_room(10, 14);
    let mut roof = sloped("roof", &[], 44, feet(0, 0), feet(10, 0));
    if let Some(slope) = &mut roof.slope {
        slope.rise_per_foot = Length::inches(7);
    }
    plan.base.ceilings.push(roof);
    let measured = derived(&plan).spaces[0].counted_floor(LIMITS).expect("there is a ceiling").area();
    // (168 - 16 x 12 / 7) in x 120 in, sevenfold.
    let sevenfold = i128::from(Length::inches(120).steps()) * i128::from(Length::inches(168 * 7 - 192).steps());
    let lacks = sevenfold - 7 * measured.square_steps();
    assert!(lacks > 0 && lacks < 7 * i128::from(Length::inches(120).steps()), "{lacks}");
}
