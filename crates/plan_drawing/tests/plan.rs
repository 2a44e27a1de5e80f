//! The drawing of whole homes: what must hold whatever is chosen and however large the lettering.

use kurbo::{Line, Point, Rect, Shape};
use plan_drawing::{
    Drawing, Face, Ink, Item, Lettering, Rows, dimension_strings, draw_plan, front_mark, graphic_scale, grips,
};
use plan_geometry::{Derived, Region, derive};
use plan_model::elements::RoomUse;
use plan_model::file::read;
use plan_model::{Home, Length, Plan, Selection, Units};
use plan_testkit::{SmallHome, empty_plan};

/// Heights of capitals: on paper, and as a screen asks for when zoomed out.
const LETTERINGS: [f64; 7] = [4.5, 5.04, 5.64, 6.32, 7.08, 7.93, 8.88];

fn demo() -> Plan {
    read(include_str!("../../../sample-plans/dunlin-58.json")).expect("the demo plan is sound")
}

/// The included selection, then each other alternate alone.
fn selections(plan: &Plan) -> Vec<Selection> {
    let included = Selection::included(plan);
    let others = plan.choices.iter().flat_map(|choice| {
        let brings = choice.alternates.iter().filter(|alternate| !alternate.included && !alternate.brings.is_empty());
        brings.map(|alternate| plan_model::AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() })
    });
    let mut all: Vec<_> = others.map(|answer| included.with(plan, &answer).expect("an answer of the plan")).collect();
    all.insert(0, included);
    all
}

fn texts(drawing: &Drawing) -> impl Iterator<Item = &Lettering> {
    drawing.items.iter().filter_map(|item| match item {
        Item::Text(text) => Some(text),
        Item::Fill { .. } | Item::Stroke { .. } => None,
    })
}

fn holds(region: &Region, rect: Rect) -> bool {
    let corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)];
    corners.into_iter().all(|(x, y)| {
        region.contains(plan_model::Point::new(Length::nearest_to_inches(x), Length::nearest_to_inches(y)))
    })
}

fn tags(drawing: &Drawing) -> impl Iterator<Item = &Lettering> {
    texts(drawing).filter(|text| text.ink == Ink::Lettering)
}

#[test]
fn every_line_of_a_room_tag_lies_inside_one_room() {
    let plan = demo();
    for selection in selections(&plan) {
        let home = plan.home(&selection);
        let derived = derive(&home);
        for lettering in LETTERINGS {
            let drawing = draw_plan(&home, &derived, lettering);
            for text in tags(&drawing) {
                let inside = derived.rooms.iter().any(|room| holds(&room.region, text.bounds()));
                assert!(inside, "\"{}\" at {:?}, lettering {lettering}, {selection:?}", text.text, text.at);
            }
        }
    }
}

#[test]
fn every_room_has_its_name_whatever_the_lettering() {
    let plan = demo();
    for selection in selections(&plan) {
        let home = plan.home(&selection);
        let derived = derive(&home);
        for lettering in LETTERINGS {
            let drawing = draw_plan(&home, &derived, lettering);
            for room in &derived.rooms {
                let named = tags(&drawing).any(|text| text.face == Face::Bold && holds(&room.region, text.bounds()));
                assert!(named, "{} in {selection:?}, lettering {lettering}", room.id);
            }
        }
    }
}

#[test]
fn rooms_for_people_show_their_size() {
    let plan = demo();
    for selection in selections(&plan) {
        let home = plan.home(&selection);
        let derived = derive(&home);
        for lettering in LETTERINGS {
            let drawing = draw_plan(&home, &derived, lettering);
            let shown = |room: &plan_geometry::RoomFigures| {
                let mut inside = tags(&drawing).filter(|text| holds(&room.region, text.bounds()));
                inside.any(|text| text.text.contains('\u{d7}'))
            };
            let uses = [RoomUse::Bedroom, RoomUse::Study, RoomUse::Dining, RoomUse::Living, RoomUse::Kitchen];
            for room in derived.rooms.iter().filter(|room| uses.contains(&room.usage)) {
                assert!(shown(room), "{} in {selection:?}, lettering {lettering}", room.id);
            }
        }
    }
}

#[test]
fn tags_keep_off_alarms_fans_and_doors() {
    let plan = demo();
    for selection in selections(&plan) {
        let home = plan.home(&selection);
        let derived = derive(&home);
        let alarms = home.elements.detectors.iter().map(|detector| detector.at);
        let fans = home.elements.fans.iter().map(|fan| fan.at);
        // Half of a leaf, from its hinge.
        let leaves = derived.doors.iter().filter_map(|door| door.leaf.as_ref()).map(|leaf| {
            let [hinge, open] = [leaf.hinge, leaf.open].map(|at| Point::new(at.x.to_inches(), at.y.to_inches()));
            hinge.midpoint(open)
        });
        let symbols = alarms.chain(fans).map(|at| Point::new(at.x.to_inches(), at.y.to_inches()));
        let places: Vec<Point> = symbols.chain(leaves).collect();
        for lettering in LETTERINGS {
            let drawing = draw_plan(&home, &derived, lettering);
            for text in tags(&drawing) {
                let over = places.iter().find(|place| text.bounds().inset(3.0).contains(**place));
                assert!(over.is_none(), "\"{}\" over {over:?}, lettering {lettering}, {selection:?}", text.text);
            }
        }
    }
}

#[test]
fn no_figure_of_a_string_touches_a_line() {
    let plan = demo();
    for selection in selections(&plan) {
        let home = plan.home(&selection);
        let derived = derive(&home);
        for lettering in LETTERINGS {
            let drawing = draw_plan(&home, &derived, lettering);
            let mate_words: Vec<_> = texts(&drawing).filter(|text| ["MATE", "LINE"].contains(&&*text.text)).collect();
            assert_eq!(mate_words.len(), 2);
            for rows in ROWS {
                let strings = dimension_strings(&home, &derived, rows, lettering);
                let lines: Vec<Line> = segments(&strings).collect();
                for text in texts(&strings).chain(mate_words.iter().copied()) {
                    let struck = lines.iter().find(|line| strikes(**line, text.bounds()));
                    assert!(struck.is_none(), "\"{}\", {lettering}, {rows:?}, {selection:?}", text.text);
                }
            }
        }
    }
}

#[test]
fn every_part_of_the_outer_strings_says_its_length() {
    let plan = demo();
    for selection in selections(&plan) {
        let home = plan.home(&selection);
        let derived = derive(&home);
        for lettering in LETTERINGS {
            let strings = dimension_strings(&home, &derived, Rows::PartitionsAndOverall, lettering);
            // Each side of the house has the whole on its outermost string: twice each.
            let said = |figure: &str| texts(&strings).filter(|text| text.text == figure).count();
            assert_eq!((said("58'-0\""), said("27'-6\"")), (2, 2), "lettering {lettering}, {selection:?}");
            // Strings are cut at ticks, two strokes' ends each; parts are one fewer than cuts on each string.
            let ticks: usize = strings.items.iter().filter_map(tick_count).sum();
            let rows = strings.items.iter().filter_map(tick_count).count();
            assert_eq!(texts(&strings).count(), ticks - rows, "lettering {lettering}, {selection:?}");
        }
    }
}

const ROWS: [Rows; 3] = [Rows::All, Rows::PartitionsAndOverall, Rows::Overall];

fn tick_count(item: &Item) -> Option<usize> {
    match item {
        Item::Stroke { path, pen, .. } if *pen == plan_drawing::Pen::OBJECT => Some(path.segments().count()),
        _ => None,
    }
}

fn segments(drawing: &Drawing) -> impl Iterator<Item = Line> {
    let paths = drawing.items.iter().filter_map(|item| match item {
        Item::Stroke { path, .. } => Some(path),
        Item::Fill { .. } | Item::Text(_) => None,
    });
    paths.flat_map(|path| path.segments()).filter_map(|segment| match segment {
        kurbo::PathSeg::Line(line) => Some(line),
        _ => None,
    })
}

/// Whether a line passes through a rectangle: no side of the rectangle parts them, nor does the line itself.
fn strikes(line: Line, rect: Rect) -> bool {
    let (low, high) = (|a: f64, b: f64| a.min(b), |a: f64, b: f64| a.max(b));
    let beside = high(line.p0.x, line.p1.x) < rect.x0
        || low(line.p0.x, line.p1.x) > rect.x1
        || high(line.p0.y, line.p1.y) < rect.y0
        || low(line.p0.y, line.p1.y) > rect.y1;
    let corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)];
    let sides = corners.map(|corner| (line.p1 - line.p0).cross(Point::from(corner) - line.p0));
    !beside && sides.iter().any(|side| *side <= 0.0) && sides.iter().any(|side| *side >= 0.0)
}

#[test]
fn the_joint_runs_through_the_mate_walls_up_to_their_openings() {
    let plan = demo();
    let home = plan.home(&Selection::included(&plan));
    let derived = derive(&home);
    let drawing = draw_plan(&home, &derived, 4.5);
    let joint: Vec<Line> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Stroke { path, ink: Ink::Paper, .. } => Some(path),
            _ => None,
        })
        .flat_map(segments_of)
        .filter(|line| (line.p0.y - 165.0).abs() < 1e-9 && (line.p1.y - 165.0).abs() < 1e-9)
        .collect();
    let runs = |x: f64| joint.iter().any(|line| line.p0.x.min(line.p1.x) < x && x < line.p0.x.max(line.p1.x));
    // The doors of the owner's bath and closet stand at 74 and 115 in; the great room is open from 199.5 to 423.5 in.
    for (x, expected) in [(3.0, true), (60.0, true), (90.0, false), (110.0, true), (130.0, false), (198.0, true)] {
        assert_eq!(runs(x), expected, "at {x} in");
    }
    assert!(!runs(300.0) && runs(425.0) && runs(690.0));
}

fn segments_of(path: &kurbo::BezPath) -> impl Iterator<Item = Line> {
    path.segments().filter_map(|segment| match segment {
        kurbo::PathSeg::Line(line) => Some(line),
        _ => None,
    })
}

#[test]
fn every_movable_wall_has_a_grip_clear_of_tags() {
    let plan = demo();
    for selection in selections(&plan) {
        let home = plan.home(&selection);
        let derived = derive(&home);
        let movable = home.elements.walls.iter().filter(|wall| wall.movable).count();
        for lettering in LETTERINGS {
            let grips = grips(&home, &derived, lettering);
            assert_eq!(grips.items.len(), movable, "lettering {lettering}, {selection:?}");
            let plan_drawing = draw_plan(&home, &derived, lettering);
            for text in tags(&plan_drawing) {
                let struck = segments(&grips).find(|line| strikes(*line, text.bounds()));
                assert!(struck.is_none(), "\"{}\", lettering {lettering}, {selection:?}", text.text);
            }
        }
    }
}

#[test]
fn a_rod_stops_at_a_wall_that_was_moved_into_it() {
    let mut plan = demo();
    // 12 in into the closet of bedroom 2, whose rod hangs on the other side.
    let wall = plan.base.walls.iter_mut().find(|wall| wall.id.as_str() == "bedroom-3-closet-wall").expect("the wall");
    wall.from.x = wall.from.x - Length::inches(12);
    wall.to.x = wall.to.x - Length::inches(12);
    let home = plan.home(&Selection::included(&plan));
    let derived = derive(&home);
    let drawing = draw_plan(&home, &derived, 4.5);
    let hangers = drawing.items.iter().filter_map(|item| match item {
        Item::Stroke { path, ink: Ink::Furniture, pen } if *pen == plan_drawing::Pen::LIGHT => Some(path),
        _ => None,
    });
    let (face, other) = (578.75 - 12.0 - 2.25, 578.75 - 12.0 + 2.25);
    for line in hangers.flat_map(segments_of).filter(|line| line.p0.x > 552.0 && line.p0.x < 577.0 && line.p0.y < 117.0)
    {
        let (low, high) = (line.p0.x.min(line.p1.x), line.p0.x.max(line.p1.x));
        assert!(high <= face + 1e-6 || low >= other - 1e-6, "{line:?}");
    }
}

#[test]
fn a_tub_has_its_drain_at_the_end_that_the_plan_names() {
    let plan = demo();
    let home = plan.home(&Selection::included(&plan));
    let drawing = draw_plan(&home, &derive(&home), 4.5);
    // The drain is the only full circle of 1.1 in radius on the tub, which takes x from 432 to 492 in.
    let drain = drawing.items.iter().find_map(|item| match item {
        Item::Stroke { path, .. } => {
            let bounds = path.bounding_box();
            let is_drain = (bounds.width() - 2.2).abs() < 0.1 && (bounds.height() - 2.2).abs() < 0.1;
            (is_drain && bounds.y0 > 237.0 && bounds.x0 > 432.0 && bounds.x1 < 492.0).then(|| bounds.center())
        }
        _ => None,
    });
    assert!(drain.is_some_and(|at| at.x > 470.0), "{drain:?}");
}

#[test]
fn no_two_texts_of_the_drawing_touch() {
    let plan = demo();
    for selection in selections(&plan) {
        let home = plan.home(&selection);
        let derived = derive(&home);
        for lettering in LETTERINGS {
            let mut drawing = draw_plan(&home, &derived, lettering);
            drawing.append(dimension_strings(&home, &derived, Rows::All, lettering));
            let boxes: Vec<(&str, Rect)> = texts(&drawing).map(|text| (text.text.as_str(), text.bounds())).collect();
            for (index, (one, first)) in boxes.iter().enumerate() {
                for (other, second) in &boxes[index + 1..] {
                    assert!(
                        first.intersect(*second).area() == 0.0,
                        "\"{one}\" {first:?} and \"{other}\" {second:?}, lettering {lettering}, {selection:?}"
                    );
                }
            }
        }
    }
}

#[test]
fn strings_stand_clear_of_the_house_and_its_porch() {
    let plan = demo();
    let answer = "front-porch=porch-20x8".parse().expect("an answer");
    let selection = Selection::included(&plan).with(&plan, &answer).expect("an answer of the plan");
    let home = plan.home(&selection);
    let derived = derive(&home);
    let porch = home.elements.porches.first().expect("the porch that was chosen");
    let outermost = porch.from.y.min(porch.to.y).to_inches();
    let strings = dimension_strings(&home, &derived, Rows::All, 4.5);
    let below: Vec<_> = texts(&strings).filter(|text| text.at.y < 0.0 && text.angle == 0.0).collect();
    assert!(below.len() > 5);
    assert!(below.iter().all(|text| text.bounds().y1 < outermost));
}

#[test]
fn a_porch_says_its_size_and_that_it_is_not_heated() {
    let plan = demo();
    let answer = "front-porch=porch-20x8".parse().expect("an answer");
    let selection = Selection::included(&plan).with(&plan, &answer).expect("an answer of the plan");
    let home = plan.home(&selection);
    let derived = derive(&home);
    for lettering in LETTERINGS {
        let drawing = draw_plan(&home, &derived, lettering);
        let said: Vec<_> = texts(&drawing).filter(|text| text.at.y < 0.0).map(|text| text.text.as_str()).collect();
        assert_eq!(said, ["PORCH", "20'-0\" \u{d7} 8'-0\"", "unheated"]);
    }
}

#[test]
fn walls_turned_by_45_degrees_draw_as_well() {
    let turned = turned_by_an_eighth(demo());
    let home = turned.home(&Selection::included(&turned));
    let drawing = draw_plan(&home, &derive(&home), 4.5);
    assert_finite(&drawing);
    assert!(tags(&drawing).count() > 10);
}

#[test]
fn half_drawn_homes_draw_what_is_there() {
    let empty = empty_plan();
    let without_walls = {
        let mut plan = demo();
        plan.base.walls.clear();
        plan
    };
    let with_gaps = {
        let mut plan = demo();
        plan.base.walls.truncate(3);
        plan
    };
    for plan in [empty, without_walls, with_gaps] {
        let home = plan.home(&Selection::included(&plan));
        let derived = derive(&home);
        assert_finite(&everything(&home, &derived, 4.5));
    }
}

#[test]
fn lettering_of_no_height_is_drawn_very_small() {
    let plan = demo();
    let home = plan.home(&Selection::included(&plan));
    let derived = derive(&home);
    for lettering in [0.0, -3.0, f64::NAN] {
        assert_finite(&everything(&home, &derived, lettering));
    }
}

#[test]
fn a_plan_in_millimetres_shows_millimetres() {
    let plan = SmallHome::new("bedroom", Length::from_steps(3600 * 640), Length::from_steps(3000 * 640))
        .in_millimetres()
        .plan();
    let home = plan.home(&Selection::included(&plan));
    let derived = derive(&home);
    let drawing = draw_plan(&home, &derived, 4.5);
    let said: Vec<_> = tags(&drawing).map(|text| text.text.as_str()).collect();
    assert_eq!(said, ["BEDROOM", "3600 \u{d7} 3000", "10.8 sq m"]);
}

#[test]
fn north_is_drawn_only_once_the_lot_is_known() {
    let mut plan = demo();
    let says_north = |plan: &Plan| {
        let home = plan.home(&Selection::included(plan));
        let mark = front_mark(&home, Rect::new(0.0, 0.0, 696.0, 330.0), 4.5);
        texts(&mark).find(|text| text.text == "N").map(|text| text.at)
    };
    plan.home.up_bearing = None;
    assert_eq!(says_north(&plan), None);
    plan.home.up_bearing = Some(0);
    let up = says_north(&plan).expect("a north arrow");
    plan.home.up_bearing = Some(90);
    let left = says_north(&plan).expect("a north arrow");
    assert!(left.x < up.x && left.y < up.y, "where up is east, north is to the left");
}

#[test]
fn the_graphic_scale_is_true() {
    let feet = graphic_scale(Units::In, Point::ORIGIN, 4.5);
    let bars = |drawing: &Drawing| {
        let fills = drawing.items.iter().filter_map(|item| match item {
            Item::Fill { path, .. } => Some(path.bounding_box()),
            Item::Stroke { .. } | Item::Text(_) => None,
        });
        fills.reduce(|all, bar| all.union(bar)).map(|all| all.width())
    };
    assert_eq!(bars(&feet), Some(24.0 * 12.0));
    let metres = bars(&graphic_scale(Units::Mm, Point::ORIGIN, 4.5)).expect("bars");
    assert!((metres * 25.4 - 6000.0).abs() < 1e-6);
}

/// The same walls, openings, rooms and loose things, turned; what is given by two corners of a rectangle is left out.
fn turned_by_an_eighth(mut plan: Plan) -> Plan {
    let turn = |at: plan_model::Point| {
        let (x, y, root) = (at.x.to_inches(), at.y.to_inches(), std::f64::consts::FRAC_1_SQRT_2);
        plan_model::Point::new(Length::nearest_to_inches((x - y) * root), Length::nearest_to_inches((x + y) * root))
    };
    let face = |facing: plan_model::Facing| {
        let (dx, dy) = facing.direction();
        plan_model::Facing::new(dx - dy, dx + dy).expect("not zero")
    };
    for elements in plan.all_elements_mut() {
        for wall in &mut elements.walls {
            (wall.from, wall.to) = (turn(wall.from), turn(wall.to));
        }
        for boundary in &mut elements.open_boundaries {
            (boundary.from, boundary.to) = (turn(boundary.from), turn(boundary.to));
        }
        for room in &mut elements.rooms {
            room.at = turn(room.at);
        }
        for fixture in &mut elements.fixtures {
            (fixture.at, fixture.faces) = (turn(fixture.at), face(fixture.faces));
        }
        for piece in &mut elements.furniture {
            (piece.at, piece.faces) = (turn(piece.at), face(piece.faces));
        }
        elements.columns.clear();
        elements.porches.clear();
        elements.landings.clear();
        elements.soffits.clear();
        elements.detectors.clear();
        elements.fans.clear();
    }
    plan
}

fn everything(home: &Home<'_>, derived: &Derived, lettering: f64) -> Drawing {
    let mut drawing = draw_plan(home, derived, lettering);
    drawing.append(dimension_strings(home, derived, Rows::All, lettering));
    drawing
}

fn assert_finite(drawing: &Drawing) {
    for item in &drawing.items {
        match item {
            Item::Fill { path, .. } | Item::Stroke { path, .. } => assert!(path.is_finite(), "{item:?}"),
            Item::Text(text) => assert!(text.at.is_finite() && text.height.is_finite(), "{text:?}"),
        }
    }
}
