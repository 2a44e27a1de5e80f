//! Drawings as SVG, read back by a library of XML.

use std::collections::BTreeSet;

use kurbo::{BezPath, ParamCurve as _, Point, Rect, Shape};
use plan_drawing::{Align, Drawing, Face, Ink, Item, Lettering, Pen, draw_example, draw_plan};
use plan_geometry::derive;
use plan_model::elements::RoomUse;
use plan_model::{Length, Plan, Selection};
use plan_rules::{Example, registry};
use plan_svg::{Picture, svg};
use plan_testkit::room_with_outline;
use roxmltree::{Document, Node};

/// A room of 10 by 12 ft within walls of 6 in.
fn plan() -> Plan {
    let corners = [(0, 0), (120, 0), (120, 144), (0, 144)].map(|(x, y)| plan_model::Point::inches(x, y));
    room_with_outline(&corners, Length::inches(6), RoomUse::Bedroom, plan_model::Point::inches(60, 72))
}

fn drawn(plan: &Plan) -> Drawing {
    let home = plan.home(&Selection::included(plan));
    draw_plan(&home, &derive(&home), 4.5)
}

fn picture<'a>(view: Rect, title: &'a str, description: &'a str) -> Picture<'a> {
    Picture { view, scale: 48.0, ground: Some(Ink::Paper), title, description }
}

/// Every shape, with its fill.
fn with_fill<'a>(document: &'a Document<'_>, ink: Ink) -> Vec<Node<'a, 'a>> {
    let plan_drawing::Rgba { red, green, blue, .. } = ink.rgba();
    let colour = format!("#{red:02x}{green:02x}{blue:02x}");
    document.descendants().filter(|node| node.attribute("fill") == Some(&colour)).collect()
}

/// The places that a path's data names, back on the plan.
fn places(node: Node<'_, '_>) -> Vec<(f64, f64)> {
    let data = node.attribute("d").expect("a path has data");
    let path = BezPath::from_svg(data).unwrap_or_else(|error| panic!("{data}: {error}"));
    path.segments().map(|segment| (segment.start().x, 0.0 - segment.start().y)).collect()
}

#[test]
fn walls_stand_where_the_plan_has_them() {
    let text = svg(&drawn(&plan()), &picture(Rect::new(-20.0, -20.0, 140.0, 164.0), "A room", "Four walls."));
    let document = Document::parse(&text).unwrap_or_else(|error| panic!("{error}"));
    let walls: BTreeSet<(i64, i64)> = with_fill(&document, Ink::Wall)
        .into_iter()
        .flat_map(places)
        .map(|(x, y)| {
            assert!(x.fract() == 0.0 && y.fract() == 0.0, "{x}, {y}: whole inches are written exactly");
            (x as i64, y as i64)
        })
        .collect();
    let inside = [(0, 0), (120, 0), (120, 144), (0, 144)];
    let outside = [(-6, -6), (126, -6), (126, 150), (-6, 150)];
    assert_eq!(walls, inside.into_iter().chain(outside).collect());
}

#[test]
fn what_the_picture_is_stands_at_its_head() {
    let (title, description) = ("Sides < 15\" & more", "1'-1\" \u{d7} 1'-3\"\u{1}");
    let text = svg(&Drawing::default(), &picture(Rect::new(-10.0, -20.0, 86.0, 28.0), title, description));
    let document = Document::parse(&text).unwrap_or_else(|error| panic!("{error}"));
    let root = document.root_element();
    let told = |name: &str| root.children().find(|node| node.has_tag_name(name)).and_then(|node| node.text());
    assert_eq!(told("title"), Some(title));
    assert_eq!(told("desc"), Some("1'-1\" \u{d7} 1'-3\"\u{fffd}"), "XML has no place for a control character");
    assert_eq!(root.attribute("role"), Some("img"));
    assert_eq!(root.attribute("viewBox"), Some("-10 -28 96 48"));
    // 8 ft by 4 ft at 1/4" = 1'-0".
    assert_eq!((root.attribute("width"), root.attribute("height")), (Some("50.8mm"), Some("25.4mm")));
}

#[test]
fn every_item_is_written_in_its_order() {
    let square = Rect::new(0.0, 0.0, 10.0, 10.0).to_path(0.1);
    let letters = Lettering {
        text: "8'-0\"".to_owned(),
        at: Point::new(5.0, 6.0),
        height: 4.299,
        angle: 90.0,
        face: Face::Bold,
        align: Align::Right,
        ink: Ink::Dimension,
    };
    let drawing = Drawing {
        items: vec![
            Item::Fill { path: square.clone(), ink: Ink::RedlineWash },
            Item::Stroke { path: square.clone(), pen: Pen::CAUTION, ink: Ink::Caution },
            Item::Text(letters.clone()),
            Item::Text(Lettering { angle: 0.0, face: Face::Italic, align: Align::Left, ..letters.clone() }),
            Item::Text(Lettering { face: Face::Regular, align: Align::Centre, ..letters }),
            Item::Stroke { path: square, pen: Pen::solid(0.254), ink: Ink::Fine },
        ],
    };
    let text = svg(&drawing, &Picture { ground: None, ..picture(Rect::new(0.0, 0.0, 10.0, 10.0), "t", "d") });
    let document = Document::parse(&text).unwrap_or_else(|error| panic!("{error}"));
    let elements: Vec<Node<'_, '_>> = document.root_element().children().filter(Node::is_element).skip(2).collect();
    let names: Vec<&str> = elements.iter().map(|node| node.tag_name().name()).collect();
    assert_eq!(names, ["path", "path", "text", "text", "text", "path"]);
    let [wash, dashed, upright, italic, centred, fine] = elements[..] else { panic!("six items") };
    assert_eq!((wash.attribute("fill"), wash.attribute("fill-rule")), (Some("#be2a18"), Some("evenodd")));
    assert_eq!(wash.attribute("fill-opacity").and_then(|part| part.parse().ok()), Some(24.0 / 255.0));
    // At 1/4" = 1'-0" a millimetre of paper is 48 / 25.4 in of the plan.
    let on_plan = |mm: f64| mm * (48.0 / 25.4);
    let number = |node: Node<'_, '_>, name: &str| node.attribute(name).and_then(|value| value.parse::<f64>().ok());
    assert_eq!(number(dashed, "stroke-width"), Some(on_plan(0.35)));
    assert_eq!(dashed.attribute("stroke-dasharray"), Some(&*format!("{} {}", on_plan(2.0), on_plan(1.0))));
    assert_eq!((dashed.attribute("fill"), fine.attribute("stroke-dasharray")), (Some("none"), None));
    assert_eq!((upright.text(), upright.attribute("font-weight")), (Some("8'-0\""), Some("700")));
    assert_eq!(
        (upright.attribute("transform"), upright.attribute("text-anchor")),
        (Some("rotate(-90 5 -6)"), Some("end"))
    );
    // Capitals of 4.299 in are those of Lato at 6 in; the baseline is half of them below the middle.
    assert_eq!((number(upright, "font-size"), number(upright, "y")), (Some(6.0), Some(-6.0 + 4.299 / 2.0)));
    assert!(upright.attribute("font-family").is_some_and(|family| family.starts_with("Lato")));
    assert_eq!((italic.attribute("font-style"), italic.attribute("text-anchor")), (Some("italic"), Some("start")));
    assert_eq!((italic.attribute("transform"), centred.attribute("text-anchor")), (None, Some("middle")));
}

#[test]
fn what_has_no_place_leaves_the_rest_whole() {
    let mut nowhere = BezPath::new();
    nowhere.move_to((f64::NAN, 0.0));
    nowhere.line_to((1.0, f64::INFINITY));
    let mut drawing = drawn(&plan());
    let view = Rect::new(-20.0, -20.0, 140.0, 164.0);
    let whole = svg(&drawing, &picture(view, "t", "d"));
    drawing.items.push(Item::Stroke { path: nowhere, pen: Pen::FINE, ink: Ink::Fine });
    drawing.items.push(Item::Fill { path: BezPath::new(), ink: Ink::Fine });
    assert_eq!(svg(&drawing, &picture(view, "t", "d")), whole);
}

#[test]
fn the_example_of_every_rule_is_a_picture_with_its_figures_in_view() {
    for rule in registry() {
        let draw = || {
            let example = Example::of(rule, None).expect("every rule has one");
            let drawn = draw_example(&example, 1.0 / 44.0);
            let text = svg(&drawn.drawing, &picture(drawn.view, rule.name, &example.caption()));
            (drawn, text)
        };
        let (drawn, text) = draw();
        let document = Document::parse(&text).unwrap_or_else(|error| panic!("{}: {error}", rule.id));
        let written = document.root_element().children().filter(Node::is_element).count();
        // Besides the items: title, description and paper.
        assert_eq!(written, drawn.drawing.items.len() + 3, "{}", rule.id);
        let marks = [Ink::Redline, Ink::Caution, Ink::Measure];
        assert!(marks.into_iter().any(|ink| !with_fill(&document, ink).is_empty()), "{}: nothing is marked", rule.id);
        assert_eq!(draw().1, text, "{}: the same example makes the same bytes", rule.id);
    }
}
