//! A published house: the room table of "Long Residence", the example of ACCA Manual J, as it stands in an open HPXML
//! test file (BSD-3). Main floor 51 ft x 29 ft; areas in sq ft and lengths of exterior walls in ft.
//!
//! The table states no wall thickness, so that the house stands between its outer walls' inner faces and the rooms are
//! divided by open boundaries. The exterior lengths leave one arrangement: five rooms along the top, hall 2 as an L below
//! three of them (4 ft wide for 30 ft, then 5 ft wide for 9 ft), dining, living, hall 1 and bedroom 1 along the bottom.

use plan_geometry::{Area, derive};
use plan_model::elements::{OpenBoundary, Room, RoomUse};
use plan_model::{Length, Plan, Point, Selection};
use plan_testkit::room_with_outline;

/// Room, use, a point inside in ft, published area, published exterior lengths.
type Row = (&'static str, RoomUse, (i64, i64), i128, &'static [i64]);

const ROOMS: [Row; 11] = [
    ("laundry", RoomUse::Laundry, (3, 24), 77, &[7, 11]),
    ("kitchen", RoomUse::Kitchen, (10, 24), 121, &[11]),
    ("bath-1", RoomUse::Bath, (20, 24), 99, &[9]),
    ("bedroom-3", RoomUse::Bedroom, (30, 24), 110, &[10]),
    ("bedroom-2", RoomUse::Bedroom, (40, 24), 140, &[14, 10]),
    ("dining", RoomUse::Dining, (3, 9), 126, &[18, 7]),
    ("living", RoomUse::Living, (15, 7), 294, &[21]),
    ("hall-1", RoomUse::Hall, (32, 7), 112, &[8]),
    ("hall-2", RoomUse::Hall, (20, 16), 165, &[]),
    ("bedroom-1", RoomUse::Bedroom, (45, 7), 210, &[15, 14]),
    ("bath-2", RoomUse::Bath, (48, 17), 25, &[5]),
];

/// Open boundaries in ft, from and to.
const BOUNDARIES: [[(i64, i64); 2]; 10] = [
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

fn feet((x, y): (i64, i64)) -> Point {
    Point::inches(12 * x, 12 * y)
}

fn long_residence() -> Plan {
    let outline = [(0, 0), (51, 0), (51, 29), (0, 29)].map(feet);
    let mut plan = room_with_outline(&outline, Length::inches(6), RoomUse::Living, feet((1, 1)));
    plan.base.rooms = ROOMS
        .iter()
        .map(|(id, usage, at, ..)| Room { id: (*id).into(), name: (*id).into(), usage: *usage, at: feet(*at) })
        .collect();
    let boundary = |(index, [from, to]): (usize, &[(i64, i64); 2])| OpenBoundary {
        id: format!("line-{index}").into(),
        from: feet(*from),
        to: feet(*to),
    };
    plan.base.open_boundaries = BOUNDARIES.iter().enumerate().map(boundary).collect();
    plan
}

#[test]
fn every_room_has_its_published_area() {
    let plan = long_residence();
    let derived = derive(&plan.home(&Selection::default()));
    assert_eq!(derived.problems, []);
    for (id, _, _, area, _) in ROOMS {
        let room = derived.room(&id.into()).expect("the room closed");
        assert_eq!(room.floor_area, Area::from_square_steps(area * Area::SQUARE_FOOT.square_steps()), "{id}");
    }
    let sum: Area = derived.rooms.iter().map(|room| room.floor_area).sum();
    assert_eq!(sum, Area::of_rectangle(Length::inches(51 * 12), Length::inches(29 * 12)), "1,479 sq ft in all");
    assert_eq!(derived.spaces.len(), 1, "open boundaries divide one space");
    assert_eq!(derived.spaces[0].floor_area, sum);
}

#[test]
fn every_room_has_its_published_exterior_walls() {
    let plan = long_residence();
    let derived = derive(&plan.home(&Selection::default()));
    for (id, _, _, _, published) in ROOMS {
        let room = derived.room(&id.into()).expect("the room closed");
        let outside = |point: Point| {
            point.x == Length::ZERO
                || point.x == Length::inches(612)
                || point.y == Length::ZERO
                || point.y == Length::inches(348)
        };
        let mut lengths: Vec<Length> = room
            .region
            .sides()
            .filter(|(a, b)| outside(*a) && outside(*b) && (a.x == b.x || a.y == b.y))
            .filter(|(a, b)| outside(Point::new(midway(a.x, b.x), midway(a.y, b.y))))
            .map(|(a, b)| (b.x - a.x).abs() + (b.y - a.y).abs())
            .collect();
        let mut expected: Vec<Length> = published.iter().map(|feet| Length::inches(12 * feet)).collect();
        lengths.sort_unstable();
        expected.sort_unstable();
        assert_eq!(lengths, expected, "{id}");
    }
}

fn midway(a: Length, b: Length) -> Length {
    Length::from_steps(a.steps().midpoint(b.steps()))
}

/// Hall 2: "an L, 4 ft wide for 30 ft then 5 ft wide for 9 ft".
#[test]
fn hall_2_is_the_published_l() {
    let plan = long_residence();
    let derived = derive(&plan.home(&Selection::default()));
    let hall = derived.room(&"hall-2".into()).expect("the hall closed");
    assert_eq!(hall.region.outer.len(), 6);
    let clear = hall.sizes.rectangle();
    assert_eq!((clear.width, clear.length), (Length::inches(48), Length::inches(39 * 12)));
    assert_eq!(hall.sizes.largest_square(), Length::inches(60));
}
