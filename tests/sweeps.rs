//! Leaves that sweep the same ground, or the ground before another door. By hand from circles, and by looking at many
//! places of the floor.

use plan_geometry::{Derived, Leaf, MeasureName, derive, derive_after};
use plan_model::elements::{Hinge, RoomUse, Swing};
use plan_model::{Facing, Length, Plan, Point, Selection};
use plan_testkit::{Transform, cabinet, hung_door, room_with_outline, turned, with_door};
use proptest::prelude::*;

fn p(x: i64, y: i64) -> Point {
    Point::inches(x, y)
}

fn derived(plan: &Plan) -> Derived {
    derive(&plan.home(&Selection::default()))
}

/// A room of 200 x 200 in with 30 in leaves in its front wall, hinged at `(front, 0)` and closed towards the corner at the
/// origin, and in its left wall, hinged at `(0, left)` and closed towards the same corner; in steps.
fn corner(front: i64, left: i64, degrees: f64) -> Plan {
    let outline = [p(0, 0), p(200, 0), p(200, 200), p(0, 200)];
    let outline = if degrees == 0.0 { outline.to_vec() } else { turned(&outline, degrees) };
    let plan = room_with_outline(&outline, Length::inches(6), RoomUse::Living, outline[0] + p(1, 1));
    let reach = Length::inches(30);
    let at = Length::from_steps(front) - reach;
    let mut plan = with_door(plan, reach, hung_door("front-door", "wall-0", at, Hinge::Far, Swing::Left));
    // The left wall runs down from (0, 200): its near jamb is the upper one.
    let at = Length::inches(200) - Length::from_steps(left);
    plan.base.doors.push(hung_door("left-door", "wall-3", at, Hinge::Near, Swing::Left));
    plan
}

const INCH: i64 = Length::INCH.steps();

fn crossed(plan: &Plan) -> Vec<[String; 2]> {
    derived(plan).sweep_crossings().iter().map(|crossing| crossing.doors.each_ref().map(ToString::to_string)).collect()
}

/// Hinges 36 and 48 in off the corner are 60 in apart, which is twice the leaf: the circles touch. A step nearer they cross.
#[test]
fn sweeps_that_touch_do_not_cross() {
    assert_eq!(crossed(&corner(36 * INCH, 48 * INCH, 0.0)), [[""; 2]; 0]);
    for (front, left) in [(36 * INCH - 1, 48 * INCH), (36 * INCH, 48 * INCH - 1), (34 * INCH, 40 * INCH)] {
        let plan = corner(front, left, 0.0);
        for plan in [plan.clone(), Transform::Mirrored.plan(&plan), Transform::QuarterTurned.plan(&plan)] {
            assert_eq!(crossed(&plan), [["front-door", "left-door"]]);
        }
    }
}

/// At any angle, from a few steps on.
#[test]
fn sweeps_cross_at_any_angle() {
    for degrees in [13.0, 45.0, 100.1, 271.0] {
        assert_eq!(crossed(&corner(36 * INCH, 48 * INCH, degrees)), [[""; 2]; 0], "{degrees}");
        assert_eq!(crossed(&corner(36 * INCH - 12, 48 * INCH, degrees)), [["front-door", "left-door"]], "{degrees}");
    }
}

/// Both hinges 30 in off the corner: the sectors share what two quarter circles about opposite corners of a square of 30 in
/// share, which is 30 x 30 x (pi / 2 - 1) = 513.7 sq in.
#[test]
#[expect(clippy::cast_precision_loss, reason = "shown with one place")]
fn the_ground_that_both_sweep() {
    let figures = derived(&corner(30 * INCH, 30 * INCH, 0.0));
    let ground = &figures.sweep_crossings()[0].ground;
    let twice: i128 = ground
        .iter()
        .zip(ground.iter().cycle().skip(1))
        .map(|(a, b)| i128::from(a.x.steps() * b.y.steps()) - i128::from(b.x.steps() * a.y.steps()))
        .sum();
    let area = twice as f64 / 2.0 / (INCH * INCH) as f64;
    let by_hand = 900.0 * (std::f64::consts::FRAC_PI_2 - 1.0);
    assert!(area >= by_hand - 0.01 && area < by_hand + 1.0, "{area} sq in, by hand {by_hand}");
    let told = figures.measures();
    let told: Vec<_> = told.iter().filter(|measure| measure.name == MeasureName::SweepCrossing).collect();
    assert_eq!((told.len(), told[0].of.len(), told[0].marks.len()), (1, 2, 1));
}

/// A leaf that a cabinet stops sweeps no further: stopped at once, it crosses nothing.
#[test]
fn a_stopped_leaf_sweeps_up_to_where_it_stops() {
    let mut plan = corner(34 * INCH, 40 * INCH, 0.0);
    // The leaf of the front wall closes at x 4: the cabinet takes x 20 to 28 right before it.
    plan.base.fixtures.push(cabinet("cabinet", p(24, 0), Facing::UP, Length::inches(8), Length::inches(8)));
    let figures = derived(&plan);
    let leaf = figures.doors[0].leaf.as_ref().expect("hinged");
    assert_eq!(leaf.stopped_by.as_ref().map(|stop| stop.tenths_of_degree), Some(0));
    assert_eq!(figures.sweep_crossings(), []);
}

/// Derived after a change, sweeps are those of the changed home.
#[test]
fn sweeps_follow_a_change() {
    let (near, far) = (corner(34 * INCH, 40 * INCH, 0.0), corner(36 * INCH, 48 * INCH, 0.0));
    let earlier = derived(&near);
    assert_eq!(earlier.sweep_crossings().len(), 1);
    for (plan, crossings) in [(&near, 1), (&far, 0)] {
        let after = derive_after(&earlier, &plan.home(&Selection::default()));
        assert_eq!(after.sweep_crossings(), derived(plan).sweep_crossings());
        assert_eq!((after.sweep_crossings().len(), after.measures()), (crossings, derived(plan).measures()));
    }
}

/// A leaf hinged 16 in off the corner stands open before a door in the side wall that begins 10 in from the corner; hinged
/// 18 in off, there is room to walk behind it.
#[test]
fn a_leaf_in_the_way_of_another_door() {
    let before = |hinge: i64, at: i64| {
        let mut plan = corner((hinge + 30) * INCH, 40 * INCH, 0.0);
        plan.base.doors[0].hinge = Some(Hinge::Near);
        plan.base.doors[1] = hung_door("left-door", "wall-3", Length::inches(200 - 40), Hinge::Near, Swing::Right);
        plan.base.doors[1].at = Length::inches(200 - 30 - at);
        derived(&plan)
            .swept_doorways()
            .iter()
            .map(|swept| (swept.door.to_string(), swept.doorway.to_string()))
            .collect::<Vec<_>>()
    };
    let in_the_way = [("front-door".to_owned(), "left-door".to_owned())];
    assert_eq!(before(16, 10), in_the_way);
    assert_eq!(before(17, 10), in_the_way);
    assert_eq!(before(18, 10), []);
    // Beyond the reach of the leaf.
    assert_eq!(before(16, 29), in_the_way);
    assert_eq!(before(16, 30), []);
}

/// Whether a place of the floor lies inside a sector, by so many inches.
fn is_swept(leaf: &Leaf, at: [f64; 2], inside: f64) -> bool {
    let place = |point: Point| [point.x.to_inches(), point.y.to_inches()];
    let minus = |a: [f64; 2], b: [f64; 2]| [a[0] - b[0], a[1] - b[1]];
    let hinge = place(leaf.hinge);
    let [closed, open, at] = [place(leaf.closed), place(leaf.open), at].map(|point| minus(point, hinge));
    let reach = closed[0].hypot(closed[1]);
    let along = |axis: [f64; 2]| (at[0] * axis[0] + at[1] * axis[1]) / reach;
    along(closed) > inside && along(open) > inside && at[0].hypot(at[1]) < reach - inside
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(if cfg!(debug_assertions) { 64 } else { 512 }))]

    /// Two leaves anywhere on the walls of a room 100 in square: if some place of a fine net lies in both sweeps they cross,
    /// and if they are told to cross they share ground.
    #[test]
    fn two_sweeps_cross_where_places_lie_in_both(
        walls in (0..4_usize, 0..4_usize), at in (0..700_i64, 0..700_i64), hinges in (any::<bool>(), any::<bool>()),
        degrees in prop_oneof![Just(0.0), 0.0..360.0_f64],
    ) {
        let outline = [p(0, 0), p(100, 0), p(100, 100), p(0, 100)];
        let outline = if degrees == 0.0 { outline.to_vec() } else { turned(&outline, degrees) };
        let middle = outline[0] + Point::new(
            Length::from_steps((outline[2] - outline[0]).x.steps() / 2),
            Length::from_steps((outline[2] - outline[0]).y.steps() / 2),
        );
        let plan = room_with_outline(&outline, Length::inches(6), RoomUse::Living, middle);
        let tenths = |tenths: i64| Length::from_steps(tenths * INCH / 10);
        let hinge = |far: bool| if far { Hinge::Far } else { Hinge::Near };
        let one = hung_door("one", &format!("wall-{}", walls.0), tenths(at.0), hinge(hinges.0), Swing::Left);
        let mut plan = with_door(plan, Length::inches(30), one);
        plan.base.doors.push(hung_door("two", &format!("wall-{}", walls.1), tenths(at.1), hinge(hinges.1), Swing::Left));
        let figures = derived(&plan);
        prop_assume!(figures.problems.is_empty());
        let leaves: Vec<&Leaf> = figures.doors.iter().filter_map(|door| door.leaf.as_ref()).collect();
        prop_assert!(leaves.iter().all(|leaf| leaf.stopped_by.is_none()));
        let low = [0, 1].map(|axis| outline.iter().map(|c| [c.x, c.y][axis].to_inches()).fold(f64::MAX, f64::min));
        let net = (0..320).flat_map(|x| (0..320).map(move |y| [x, y].map(|step| f64::from(step) * 0.45)));
        let both = net.map(|at| [at[0] + low[0], at[1] + low[1]]).find(|at| leaves.iter().all(|leaf| is_swept(leaf, *at, 0.001)));
        let told = figures.sweep_crossings();
        prop_assert!(both.is_none() || told.len() == 1, "both sweep {both:?}");
        // The corners of the ground lie in both sweeps, but for the straight pieces of the arcs.
        for corner in told.iter().flat_map(|crossing| &crossing.ground) {
            let at = [corner.x.to_inches(), corner.y.to_inches()];
            prop_assert!(leaves.iter().all(|leaf| is_swept(leaf, at, -0.02)), "{at:?}");
        }
    }
}
