//! Light and ventilation: glass and openings to outdoors, and what a space borrows from the next.
//!
//! Sources: IRC R303.1 and R303.2, 24 CFR 3280.103; the published window table of "Long Residence" (ACCA Manual J example in
//! an open HPXML test file), ASHRAE 140 case L100; W21 to W24 by arithmetic. Units: 1 sq ft = 144 sq in.

use plan_geometry::{Amount, Area, Basis, BorrowedLight, Derived, Figure, MeasureName, OFF_AXIS_SLACK, derive};
use plan_model::elements::RoomUse::{self, Bath, Bedroom, Closet, Dining, Garage, Hall, Kitchen, Laundry, Living};
use plan_model::elements::{Slope, Soffit};
use plan_model::{AlternateRef, Exact, Id, Length, Plan, Point, Selection, WindowOperation, file};
use plan_testkit::Sketch;

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");

fn derived(plan: &Plan) -> Derived {
    let derived = derive(&plan.home(&Selection::default()));
    assert_eq!(derived.problems, [], "the home is drawn without a fault");
    derived
}

/// In tenths of a square inch.
fn tenths_of_square_inch(tenths: i128) -> Exact {
    let inch = i128::from(Length::INCH.steps());
    Exact::new(tenths * inch * inch, 10)
}

fn square_feet(feet: i128) -> Exact {
    tenths_of_square_inch(feet * 1440)
}

fn stated(value: Exact) -> Figure {
    Figure::Known { value, basis: Basis::Stated }
}

fn value(figure: &Figure) -> Exact {
    figure.value().unwrap_or_else(|| panic!("{figure:?}"))
}

/// A share in hundredths of a percent, to the nearest.
fn hundredths_of_percent(glazed: &Figure, floor: Area) -> i128 {
    (value(glazed) / floor.exact() * 10_000).round().to_integer()
}

const SINGLE_HUNG: WindowOperation = WindowOperation::SingleHung;

/// A room of 120 in by so many; the front wall, `outside-0`, is 120 in long.
fn room(length: i64) -> Sketch {
    Sketch::new().outside(&[(0, 0), (120, 0), (120, length), (0, length)]).room("room", Living, (60, 60))
}

/// W21: 120 sq ft need 9.6 sq ft of glass and 4.8 sq ft to open. W22: 12-0 x 13-6 is 162 sq ft, 12.96 (1,866.24 sq in) and
/// 6.48. Exactly on the limit, and a tenth of an inch short of it.
#[test]
fn w21_and_w22_eight_and_four_percent() {
    // W21: 36 x 38.4 = 1382.4 sq in = 9.6 sq ft; 24 x 28.8 = 691.2 = 4.8. W22 in the same way, drawn 144 x 162.
    let cases = [
        (room(144), [360, 384], [240, 288], 120),
        (
            Sketch::new().outside(&[(0, 0), (144, 0), (144, 162), (0, 162)]).room("room", Living, (60, 60)),
            [324, 576],
            [216, 432],
            162,
        ),
    ];
    for (sketch, glass, clear, area) in cases {
        let of = |glass, clear| {
            let home = derived(
                &sketch
                    .clone()
                    .window("window", "outside-0", 40, WindowOperation::Casement, [Some(glass), Some(clear)])
                    .plan(),
            );
            home.daylight(&home.spaces[0])
        };
        let light = of(glass, clear);
        assert_eq!(light.floor_area.exact(), square_feet(area));
        assert_eq!(value(&light.glazed), light.floor_area.exact() * Exact::new(8, 100));
        assert_eq!(value(&light.openable), light.floor_area.exact() * Exact::new(4, 100));
        let short = of([glass[0] - 1, glass[1]], [clear[0] - 1, clear[1]]);
        assert!(value(&short.glazed) < light.floor_area.exact() * Exact::new(8, 100));
        assert!(value(&short.openable) < light.floor_area.exact() * Exact::new(4, 100));
    }
}

/// Room, use, a point inside in ft, published areas of floor and windows in sq ft, and the window's share in hundredths of a
/// percent.
type Row = (&'static str, RoomUse, (i64, i64), i128, i64, i128);

const LONG_RESIDENCE: [Row; 11] = [
    ("laundry", Laundry, (3, 24), 77, 0, 0),
    ("kitchen", Kitchen, (10, 24), 121, 11, 909),
    ("bath-1", Bath, (20, 24), 99, 8, 808),
    ("bedroom-3", Bedroom, (30, 24), 110, 22, 2000),
    ("bedroom-2", Bedroom, (40, 24), 140, 28, 2000),
    ("dining", Dining, (3, 9), 126, 20, 1587),
    ("living", Living, (15, 7), 294, 40, 1361),
    ("hall-1", Hall, (32, 7), 112, 0, 0),
    ("hall-2", Hall, (20, 16), 165, 0, 0),
    ("bedroom-1", Bedroom, (45, 7), 210, 28, 1333),
    ("bath-2", Bath, (48, 17), 25, 0, 0),
];

/// The house of `long_residence.rs`, a window in every room that has some. The published shares of dining, living and
/// bedroom 1 are 15.9, 13.6 and 13.3 %; here to the hundredth: 20 / 126, 40 / 294, 28 / 210.
#[test]
fn every_room_of_the_long_residence_has_its_published_share_of_glass() {
    let feet = |(x, y): (i64, i64)| (12 * x, 12 * y);
    let mut sketch = Sketch::new().outside(&[(0, 0), (51, 0), (51, 29), (0, 29)].map(feet));
    let lines = [
        [(0, 18), (37, 18)],
        [(37, 19), (51, 19)],
        [(7, 14), (51, 14)],
        [(7, 0), (7, 29)],
        [(18, 18), (18, 29)],
        [(27, 18), (27, 29)],
        [(37, 18), (37, 29)],
        [(28, 0), (28, 14)],
        [(36, 0), (36, 14)],
        [(46, 14), (46, 19)],
    ];
    for (index, [from, to]) in lines.iter().enumerate() {
        sketch = sketch.boundary(&format!("line-{index}"), feet(*from), feet(*to));
    }
    for (id, usage, at, _, window, _) in LONG_RESIDENCE {
        sketch = sketch.room(id, usage, feet(at));
        if window == 0 {
            continue;
        }
        // In the back wall, which runs from right to left, or in the front wall; glass 10 ft wide and as high as it takes.
        let (wall, place) = if at.1 > 15 { ("outside-2", 51 - at.0) } else { ("outside-0", at.0) };
        let glass = Some([1200, 12 * window]);
        sketch = sketch.window(&format!("{id}-window"), wall, 12 * place - 12, SINGLE_HUNG, [glass, glass]);
    }
    let home = derived(&sketch.plan());
    for (id, _, _, area, window, share) in LONG_RESIDENCE {
        let light = home.daylight_of_room(&id.into()).expect("the room closed");
        assert_eq!(light.floor_area.exact(), square_feet(area), "{id}");
        assert_eq!(light.glazed, stated(square_feet(window.into())), "{id}");
        assert_eq!(hundredths_of_percent(&light.glazed, light.floor_area), share, "{id}");
    }
    // One space in all: 157 sq ft of glass, the sum of the table, on 1,479 sq ft.
    let whole = home.daylight(&home.spaces[0]);
    assert_eq!((value(&whole.glazed), whole.floor_area.exact()), (square_feet(157), square_feet(1479)));
    assert_eq!(whole.windows.len(), 7);
    // Of the rooms that count, only their own: living and dining lie side by side, 60 of 420 sq ft.
    let counted = home.spaces_of(|usage| matches!(usage, Living | Dining));
    assert_eq!(counted.len(), 1);
    let light = home.daylight(&counted[0]);
    assert_eq!((value(&light.glazed), light.floor_area.exact()), (square_feet(60), square_feet(420)));
}

/// The basement recreation room of the same source, 783 sq ft with 16 sq ft: 2.04 %. ASHRAE 140 case L100: a box of 57 x 27
/// ft, 1,539 sq ft, with 270 sq ft of windows: 17.54 %.
#[test]
fn published_shares_of_single_rooms() {
    // 16 sq ft are 48 x 48 in; 270 sq ft are 216 x 180 in.
    for (feet, glass, area, share) in [(29, [480, 480], 783, 204), (57, [2160, 1800], 1539, 1754)] {
        let outline = [(0, 0), (12 * feet, 0), (12 * feet, 27 * 12), (0, 27 * 12)];
        let sketch = Sketch::new().outside(&outline).room("room", Living, (60, 60));
        let home = derived(&sketch.window("window", "outside-0", 60, SINGLE_HUNG, [Some(glass), None]).plan());
        let light = home.daylight_of_room(&"room".into()).expect("the room closed");
        assert_eq!(light.floor_area.exact(), square_feet(area));
        assert_eq!(hundredths_of_percent(&light.glazed, light.floor_area), share);
        assert!(matches!(light.openable, Figure::Unknown(_)), "nothing published, nothing to estimate from");
    }
}

#[test]
fn only_windows_to_outdoors_count() {
    let glass = [Some([240, 300]), Some([200, 120])];
    let fixed = [Some([240, 300]), None];
    for degrees in [0.0, 23.0] {
        // A T: the garage's wall ends on the wall between bedroom and store.
        let plan = Sketch::at_angle(degrees)
            .outside(&[(0, 0), (300, 0), (300, 200), (0, 200)])
            .partition("wall", (150, 0), (150, 200))
            .partition("garage-wall", (150, 100), (300, 100))
            .room("bedroom", Bedroom, (70, 100))
            .room("garage", Garage, (220, 50))
            .room("living", Living, (220, 150))
            .window("out", "outside-0", 20, SINGLE_HUNG, glass)
            .window("fixed", "outside-0", 60, WindowOperation::Fixed, fixed)
            .window("to-garage", "wall", 20, SINGLE_HUNG, glass)
            .window("to-living", "wall", 150, SINGLE_HUNG, glass)
            .plan();
        let home = derived(&plan);
        let light = home.daylight_of_room(&"bedroom".into()).expect("the room closed");
        assert_eq!(light.windows.iter().map(Id::as_str).collect::<Vec<_>>(), ["out", "fixed"]);
        assert_eq!(light.glazed, stated(tenths_of_square_inch(2 * 7200)), "24 x 30 in, twice");
        assert_eq!(light.openable, stated(tenths_of_square_inch(2400)), "20 x 12 in: what is fixed adds nothing");
        for dark in ["garage", "living"] {
            let light = home.daylight_of_room(&dark.into()).expect("the room closed");
            assert_eq!((&light.glazed, light.windows.len()), (&stated(Exact::from(0)), 0), "{dark}");
        }
        assert_eq!(home.daylight_of_room(&"nowhere".into()), None);
    }
}

/// In the demo home's owner's bath the awning window's clear opening is neither published nor estimated; the glass is
/// published, 30.5 x 18.5 in. In the owner's bedroom both single-hung windows are estimated: glass 31.5 x 53.5, clear
/// 32.75 x 26.5.
#[test]
fn a_sum_is_estimated_or_unknown_as_soon_as_one_of_its_windows_is() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let home = derive(&plan.home(&Selection::included(&plan)));
    let light = |room: &str| home.daylight_of_room(&room.into()).expect("the room closed");
    let bath = light("owner-bath");
    assert_eq!(bath.glazed, stated(tenths_of_square_inch(5642) + Exact::new(5, 100) * tenths_of_square_inch(10)));
    assert!(matches!(bath.openable, Figure::Unknown(_)));
    let estimated = |value| Figure::Known { value, basis: Basis::Estimated };
    let hundredths = |hundredths: i128| tenths_of_square_inch(hundredths) / 10;
    let bedroom = light("owner-bedroom");
    assert_eq!(bedroom.glazed, estimated(hundredths(2 * 168_525)));
    assert_eq!(bedroom.openable, estimated(tenths_of_square_inch(1) / 1000 * 2 * 8_678_750));
    // The great room: published glass (the picture window 56 x 56, the back door 22 x 64, its sidelight 26 x 74) beside
    // estimated; the front door has none.
    let hall = home.room(&"hall".into()).expect("the hall closed");
    let great = home.daylight(&home.spaces[hall.space]);
    let kitchen_window = 315 * 295;
    let others = 2 * 168_525 + 56 * 56 * 100 + kitchen_window;
    assert_eq!(great.glazed, estimated(hundredths(others + 22 * 64 * 100 + 26 * 74 * 100)));
    // Instead of door and sidelight a sliding door with two lites of 30 x 72.
    let sliding: AlternateRef = "back-door=sliding".parse().unwrap_or_else(|error| panic!("{error}"));
    let sliding = Selection::included(&plan).with(&plan, &sliding).unwrap_or_else(|error| panic!("{error}"));
    let home = derive(&plan.home(&sliding));
    let great = home.daylight(&home.spaces[home.room(&"hall".into()).expect("the hall closed").space]);
    assert_eq!(great.glazed, estimated(hundredths(others + 2 * 30 * 72 * 100)));
    // With the awning window beside it, all is unknown.
    let mut plan = plan;
    for window in plan.base.windows.iter_mut().filter(|window| window.id.as_str() == "living-left-window") {
        window.unit = "awning-36x24".into();
    }
    let home = derive(&plan.home(&Selection::included(&plan)));
    let great = home.daylight(&home.spaces[home.room(&"hall".into()).expect("the hall closed").space]);
    assert!(great.glazed.value().is_some() && great.openable.value().is_none());
}

/// W23 and W24: dining 10 x 12 ft beside living 20 x 10 ft, along a wall 10 ft long under a ceiling of 8 ft, with a cased
/// opening as high as the ceiling.
fn w23(degrees: f64, opening_width: i64) -> Sketch {
    Sketch::at_angle(degrees)
        .outside(&[(0, 0), (388, 0), (388, 120), (0, 120)])
        .partition("wall", (146, 0), (146, 120))
        .room("dining", Dining, (70, 60))
        .room("living", Living, (260, 60))
        .cased_opening("opening", "wall", 20, [opening_width, 96])
        .ceiling(&[], 96)
}

fn borrowed(home: &Derived, room: &str) -> Vec<BorrowedLight> {
    let space = home.room(&room.into()).expect("the room closed").space;
    home.borrowed_light(&home.spaces[space])
}

#[test]
fn w23_and_w24_half_of_the_common_wall_a_tenth_of_the_floor_and_25_square_feet() {
    let home = derived(&w23(0.0, 60).plan());
    let [from_living] = &borrowed(&home, "dining")[..] else { panic!("one opening") };
    assert_eq!(from_living.floor_area.exact(), square_feet(120));
    assert_eq!(from_living.common_wall.length.value, Length::inches(120));
    assert_eq!(from_living.common_wall.area, stated(square_feet(80)));
    assert_eq!(from_living.opening_area, stated(square_feet(40)));
    // W23: max(40, 12, 25) = 40 sq ft, exactly met.
    let least =
        |light: &BorrowedLight, floor: Exact| (value(&light.common_wall.area) / 2).max(floor / 10).max(square_feet(25));
    assert_eq!(least(from_living, from_living.floor_area.exact()), square_feet(40));
    // W24: a tenth of both floors, 320 sq ft: max(40, 32, 25) = 40 sq ft.
    let [from_dining] = &borrowed(&home, "living")[..] else { panic!("one opening") };
    assert_eq!(from_dining.floor_area.exact(), square_feet(200));
    let both = from_dining.floor_area.exact() + from_living.floor_area.exact();
    assert_eq!(least(from_living, both), square_feet(40));
    let ids = |ids: &[Id]| ids.iter().map(ToString::to_string).collect::<Vec<_>>();
    assert_eq!(
        (ids(&from_dining.borrower), ids(&from_dining.lender)),
        (ids(&["living".into()]), ids(&["dining".into()]))
    );
    assert_eq!(ids(&from_living.through), ["opening"]);
    // An inch less is too little: 59 x 96 in = 39.33 sq ft.
    let home = derived(&w23(0.0, 59).plan());
    assert!(value(&borrowed(&home, "dining")[0].opening_area) < square_feet(40));
    // Two openings count together: 40 + 12 x 96 in (8 sq ft).
    let home = derived(&w23(0.0, 60).cased_opening("second", "wall", 90, [12, 96]).plan());
    let both = &borrowed(&home, "dining")[0];
    assert_eq!((&both.opening_area, both.through.len()), (&stated(square_feet(48)), 2));
}

#[test]
fn a_common_wall_off_the_axes_is_as_long_to_within_the_slack() {
    for degrees in [17.0, 61.5, 203.0] {
        let home = derived(&w23(degrees, 60).plan());
        let light = &borrowed(&home, "dining")[0];
        let length = light.common_wall.length;
        assert_eq!(length.slack, OFF_AXIS_SLACK);
        assert!((length.value - Length::inches(120)).abs() <= length.slack, "{:?} at {degrees}", length.value);
        assert_eq!(light.opening_area, stated(square_feet(40)));
    }
}

/// Living is an L around dining, which has two walls in common with it: 10 ft and 8 ft, and none with the closet, which
/// shares the wall of 10 ft for 40 in of it: the closet's wall ends on it as a T.
#[test]
fn a_common_wall_may_turn_a_corner_and_does_not_run_on_behind_another_room() {
    let plan = Sketch::new()
        .outside(&[(0, 0), (300, 0), (300, 220), (0, 220)])
        // Dining x 0 to 120, y 0 to 96.
        .partition("right", (122, 0), (122, 98))
        .partition("top", (0, 98), (122, 98))
        // The closet above it, x 0 to 40.
        .partition("closet-side", (42, 98), (42, 220))
        .room("dining", Dining, (60, 50))
        .room("living", Living, (200, 100))
        .room("closet", Closet, (20, 150))
        .cased_opening("opening", "right", 20, [60, 80])
        .cased_opening("closet-opening", "closet-side", 40, [40, 80])
        .ceiling(&["dining"], 96)
        .ceiling(&["living", "closet"], 120)
        .plan();
    let home = derived(&plan);
    let [from_living] = &borrowed(&home, "dining")[..] else { panic!("one opening") };
    // The wall to the right, 96 in; the wall above from x 44, the closet wall's face, to x 120.
    assert_eq!(from_living.common_wall.length.value, Length::inches(96 + 76));
    assert_eq!(
        from_living.common_wall.area,
        stated(tenths_of_square_inch(10 * (96 + 76) * 96)),
        "under its own ceiling"
    );
    // Living lends to both and borrows from both: seen from its side, the upper face runs on to the right wall's far face.
    let lenders: Vec<String> = borrowed(&home, "living").iter().map(|light| light.lender[0].to_string()).collect();
    assert_eq!(lenders, ["dining", "closet"]);
    let from_dining = &borrowed(&home, "living")[0];
    assert_eq!(from_dining.common_wall.length.value, Length::inches(96 + 76), "what faces dining, not what runs on");
    assert_eq!(from_dining.common_wall.area, stated(tenths_of_square_inch(10 * (96 + 76) * 120)));
}

#[test]
fn a_doubled_mate_wall_is_one_common_wall() {
    for degrees in [0.0, 12.0] {
        let plan = Sketch::at_angle(degrees)
            .outside(&[(0, 0), (240, 0), (240, 248), (0, 248)])
            .mate_walls("mate", (0, 124), (240, 124))
            .partition("closet-wall", (182, 128), (182, 248))
            .room("living", Living, (100, 60))
            .room("study", Dining, (100, 200))
            .room("closet", Closet, (210, 200))
            .cased_opening("opening", "mate", 20, [72, 80])
            .ceiling(&[], 96)
            .plan();
        let home = derived(&plan);
        let [light] = &borrowed(&home, "study")[..] else { panic!("one opening") };
        let length = light.common_wall.length;
        assert!((length.value - Length::inches(180)).abs() <= length.slack, "x 0 to 180, at {degrees} degrees");
        assert_eq!(light.opening_area, stated(tenths_of_square_inch(10 * 72 * 80)));
        assert_eq!(borrowed(&home, "closet"), []);
    }
}

#[test]
fn what_is_not_known_of_ceilings_and_openings_stays_unknown() {
    let unknown = |figure: &Figure| matches!(figure, Figure::Unknown(_));
    let of = |sketch: Sketch| borrowed(&derived(&sketch.plan()), "dining").remove(0);
    let no_ceiling = of(w23(0.0, 60).with(|plan| plan.base.ceilings.clear()));
    assert!(unknown(&no_ceiling.common_wall.area) && !unknown(&no_ceiling.opening_area));
    assert_eq!(no_ceiling.common_wall.length.value, Length::inches(120), "the length is drawn");
    let sloped = of(w23(0.0, 60).with(|plan| {
        let (from, to) = (Point::inches(0, 0), Point::inches(388, 0));
        plan.base.ceilings[0].slope = Some(Slope { from, to, rise_per_foot: Length::INCH, highest: None });
    }));
    assert!(unknown(&sloped.common_wall.area));
    let soffit = of(w23(0.0, 60).with(|plan| {
        let (from, to) = (Point::inches(0, 0), Point::inches(20, 120));
        plan.base.soffits.push(Soffit { id: "soffit".into(), from, to, height: Length::inches(84), beam: false });
    }));
    assert!(unknown(&soffit.common_wall.area));
    assert_eq!(soffit.opening_area, stated(square_feet(40)), "the soffit is not over it");
    let low = of(w23(0.0, 60).ceiling(&["dining"], 90));
    assert_eq!(low.opening_area, stated(tenths_of_square_inch(10 * 60 * 90)), "96 in high under a ceiling of 90");
    // A door that can be closed lends nothing.
    let closed = w23(0.0, 60).with(|plan| plan.base.doors.clear()).door("door", "wall", 20);
    assert_eq!(borrowed(&derived(&closed.plan()), "dining"), []);
}

/// Of the demo home: the hobby room borrows from the laundry through 72 x 82 in in the flex wall, which is 154.5 in long.
#[test]
fn the_hobby_room_of_the_demo_home_may_borrow() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let answer: AlternateRef = "flex-room=hobby-room".parse().unwrap_or_else(|error| panic!("{error}"));
    let selection = Selection::included(&plan).with(&plan, &answer).unwrap_or_else(|error| panic!("{error}"));
    let home = derive(&plan.home(&selection));
    let [light] = &borrowed(&home, "hobby")[..] else { panic!("one opening") };
    assert_eq!(light.common_wall.length.value, Length::from_steps(309 * Length::INCH.steps() / 2));
    assert_eq!(light.common_wall.area, stated(tenths_of_square_inch(1545 * 96)));
    assert_eq!(light.opening_area, stated(tenths_of_square_inch(10 * 72 * 82)));
    let measures = home.measures();
    let told = |name: MeasureName| {
        let named = measures.iter().filter(|measure| measure.name == name && measure.of[0].as_str() == "hobby");
        named.map(|measure| (measure.amount.clone(), measure.marks.len())).collect::<Vec<_>>()
    };
    assert_eq!(told(MeasureName::BorrowedOpeningArea), [(Amount::OpeningArea(light.opening_area.clone()), 1)]);
    assert_eq!(told(MeasureName::CommonWallLength), [(Amount::Length(light.common_wall.length), 1)]);
    assert_eq!(told(MeasureName::GlazedAreaOfSpace)[0].1, 2, "two windows, each shown");
}
