//! The drawing of whole homes: what must hold whatever is chosen and however large the lettering.

use kurbo::{Point, Rect, Shape};
use plan_drawing::{Drawing, Face, Ink, Item, Lettering, dimension_strings, draw_plan, front_mark, graphic_scale};
use plan_geometry::{Derived, Region, derive};
use plan_model::file::read;
use plan_model::{Home, Length, Plan, Selection, Units};
use plan_testkit::{SmallHome, empty_plan};

/// Heights of capitals: on paper, and as a screen asks for when zoomed out.
const LETTERINGS: [f64; 4] = [4.5, 5.6, 7.0, 9.0];

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
fn on_paper_every_room_has_its_name() {
    let plan = demo();
    for selection in selections(&plan) {
        let home = plan.home(&selection);
        let derived = derive(&home);
        let drawing = draw_plan(&home, &derived, 4.5);
        for room in &derived.rooms {
            let named = tags(&drawing).any(|text| text.face == Face::Bold && holds(&room.region, text.bounds()));
            assert!(named, "{} in {selection:?}", room.id);
        }
    }
}

#[test]
fn no_two_texts_of_the_drawing_touch() {
    let plan = demo();
    for selection in selections(&plan) {
        let home = plan.home(&selection);
        let derived = derive(&home);
        for lettering in LETTERINGS {
            let mut drawing = draw_plan(&home, &derived, lettering);
            drawing.append(dimension_strings(&home, &derived, lettering));
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
    let strings = dimension_strings(&home, &derived, 4.5);
    let below: Vec<_> = texts(&strings).filter(|text| text.at.y < 0.0 && text.angle == 0.0).collect();
    assert!(below.len() > 5);
    assert!(below.iter().all(|text| text.bounds().y1 < outermost));
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
    drawing.append(dimension_strings(home, derived, lettering));
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
