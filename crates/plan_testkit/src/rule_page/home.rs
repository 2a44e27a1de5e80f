//! Small homes in words.

use plan_model::elements::{Detector, ExhaustFan, FanRun, Furniture, FurnitureKind, Landing};
use plan_model::{
    Eave, ExactLength, Length, MateLine, Module, Plan, Point, PublishedClear, Side, Units, Ventilation, VentilationKind,
};

use crate::{Between, DoorSpec, SmallHome, WindowSpec, standing};

/// The plan that the words of a case describe.
pub(super) fn plan(input: &str) -> Plan {
    let mut parts = input.split(';').map(|part| part.split_whitespace().collect::<Vec<_>>());
    let first = parts.next().expect("the input begins with the room");
    let [usage, width, "x", length_of_room] = first[..] else { panic!("{input}: `bedroom 120 x 144` begins a case") };
    let mut home = SmallHome::new(usage, length(width), length(length_of_room));
    let mut later = Vec::new();
    for part in parts {
        home = match part[..] {
            ["ceiling", height] => home.ceiling(length(height)),
            ["ceiling", low, "rising", rise] => home.rising_ceiling(length(low), length(rise)),
            [what @ ("soffit" | "beam"), depth, "at", height] => {
                home.lowered_at_the_back(length(depth), length(height), what)
            }
            ["chase", width, "x", depth] => home.chase(length(width), length(depth)),
            [usage, depth, "behind", "a", "door", "of", width] => {
                home.back_part(usage, length(depth), Between::Door(length(width)))
            }
            [usage, depth, "behind", "an", "opening", "of", width, "x", height] => {
                home.back_part(usage, length(depth), Between::Opening(length(width), length(height)))
            }
            [usage, depth, "behind", _, ref between @ ..] => {
                let between = match between {
                    ["wall"] => Between::Wall,
                    ["doorway"] => Between::Doorway,
                    ["open", "boundary"] => Between::OpenBoundary,
                    _ => panic!("{input}: a wall, a doorway or an open boundary parts two rooms"),
                };
                home.back_part(usage, length(depth), between)
            }
            ["floor", height, "above", "ground"] => home.floor_above_grade(length(height)),
            ["window", ref spec @ ..] => home.window(Side::Front, &window(spec)),
            ["door", operation, ref spec @ .., "in", wall] => home.door(side(wall), &door(operation, spec)),
            _ => {
                later.push(part);
                home
            }
        };
    }
    let mut plan = home.plan();
    for (number, part) in later.iter().enumerate() {
        add(&mut plan, number, part)
            .unwrap_or_else(|| panic!("{input}: `{}` is no part of a small home", part.join(" ")));
    }
    plan
}

/// What stands in the home, and what else is told of it.
fn add(plan: &mut Plan, number: usize, part: &[&str]) -> Option<()> {
    let base = &mut plan.base;
    match *part {
        ["front", "wall", "missing"] => {
            base.walls.retain(|wall| wall.id.as_str() != "front");
            base.windows.retain(|window| window.wall.as_str() != "front");
            base.doors.retain(|door| door.wall.as_str() != "front");
        }
        ["no", "deductions"] => plan.catalogue.deductions.clear(),
        ["whole-house", "ventilation"] => {
            plan.home.whole_house_ventilation =
                Some(Ventilation { kind: VentilationKind::Balanced, airflow_cfm: None });
        }
        ["ventilation", airflow, "cfm"] => {
            let airflow_cfm = Some(airflow.parse().ok()?);
            plan.home.whole_house_ventilation = Some(Ventilation { kind: VentilationKind::Balanced, airflow_cfm });
        }
        ["glass", width, "x", height] => {
            let clear = PublishedClear { width: exact(width), height: exact(height) };
            plan.catalogue.windows.iter_mut().for_each(|unit| unit.glass = Some(clear));
        }
        ["vent", width, "x", height] => {
            let clear = PublishedClear { width: exact(width), height: exact(height) };
            plan.catalogue.windows.iter_mut().for_each(|unit| unit.vent = Some(clear));
        }
        ["fan", airflow, "cfm", ref runs @ ..] => {
            let runs = if runs.is_empty() { FanRun::Intermittent } else { FanRun::Continuous };
            let (id, room) = (format!("fan-{number}").into(), "room".into());
            base.fans.push(ExhaustFan { id, room, at: place("12,12"), airflow_cfm: airflow.parse().ok()?, runs });
        }
        ["alarm", kind, "at", at] => {
            base.detectors.push(Detector { id: format!("alarm-{number}").into(), kind: word(kind)?, at: place(at) });
        }
        ["landing", "at", left, "w", width, "d", depth, "below", below] => base.landings.push(Landing {
            id: "landing".into(),
            door: "door-1".into(),
            from: Point::new(length(left) + Length::inches(3), Length::ZERO),
            to: Point::new(length(left) + Length::inches(3) + length(width), -length(depth)),
            below_threshold: length(below),
        }),
        ["bed", width, "x", depth, "at", at, "facing", way] => base.furniture.push(Furniture {
            id: format!("bed-{number}").into(),
            kind: FurnitureKind::Bed,
            at: place(at),
            faces: word(way)?,
            width: length(width),
            depth: length(depth),
        }),
        ["module", width, "x", length_of_module] => {
            let module = plan.modules.first_mut()?;
            module.to = module.from + Point::new(length(length_of_module), length(width));
        }
        ["eave", depth, "on", "the", "road"] => {
            let (module, side) = (plan.modules.first()?.id.clone(), Side::Front);
            plan.home.eaves.push(Eave { module, side, depth: length(depth), in_transit: true });
        }
        ["mate", "line", "at", height] => {
            let module = plan.modules.first_mut()?;
            let y = length(height) + Length::inches(6);
            let (from, to) = (Point::new(module.from.x, y), Point::new(module.to.x, y));
            let other = Module { id: "other".into(), name: "Other".to_owned(), from, to: module.to };
            module.to = to;
            plan.modules.push(other);
            plan.mate_line = Some(MateLine { from, to });
        }
        [kind, width, "x", depth, "at", at, "facing", way, ref more @ ..] => {
            let id = format!("{kind}-{number}");
            let mut fixture = standing(word(kind)?, &id, place(at), word(way)?, [length(width), length(depth)]);
            match *more {
                [] => {}
                ["entry", entry] => fixture.entry = Some(length(entry)),
                ["burns", fuel] => fixture.fuel = Some(word(fuel)?),
                ["bowls", ref bowls @ ..] => fixture.bowls = bowls.iter().map(|bowl| length(bowl)).collect(),
                _ => return None,
            }
            base.fixtures.push(fixture);
        }
        _ => return None,
    }
    Some(())
}

/// A place in inches from the left front corner of the room, behind walls of 6 in.
fn place(at: &str) -> Point {
    let (x, y) = at.split_once(',').expect("a place has two parts");
    Point::new(length(x) + Length::inches(6), length(y) + Length::inches(6))
}

/// A word of the plan file.
fn word<T: serde::de::DeserializeOwned>(word: &str) -> Option<T> {
    serde_json::from_value(word.into()).ok()
}

fn window(spec: &[&str]) -> WindowSpec {
    let (spec, sill) = match spec {
        [spec @ .., "sill", "below", "floor"] => (spec, Some(-Length::INCH)),
        [spec @ .., "sill", sill] => (spec, Some(length(sill))),
        _ => (spec, None),
    };
    match *spec {
        ["clear", width, "x", height] => {
            let (width, height) = (exact(width), exact(height));
            WindowSpec {
                operation: "casement",
                width: frame_around(width),
                height: frame_around(height),
                clear: Some((width, height)),
                sill,
            }
        }
        [operation, width, "x", height] => {
            let operation = known(operation, &["single-hung", "slider", "casement", "awning", "fixed"]);
            WindowSpec { operation, width: length(width), height: length(height), clear: None, sill }
        }
        _ => panic!("`{}` is no window", spec.join(" ")),
    }
}

fn door(operation: &str, spec: &[&str]) -> DoorSpec {
    let operation = known(operation, &["hinged", "sliding", "cased-opening"]);
    match *spec {
        ["clear", width, "x", height] => {
            let (width, height) = (exact(width), exact(height));
            let clear = Some((width, height));
            DoorSpec { operation, width: frame_around(width), height: frame_around(height), clear }
        }
        [width, "x", height] => DoorSpec { operation, width: length(width), height: length(height), clear: None },
        _ => panic!("`{}` is no door", spec.join(" ")),
    }
}

/// A unit some inches larger than its clear opening, on the grid.
fn frame_around(clear: ExactLength) -> Length {
    let steps = clear.steps().ceil().to_integer();
    Length::from_steps(i64::try_from(steps).expect("a window is small")) + Length::inches(4)
}

fn known(word: &str, words: &[&'static str]) -> &'static str {
    words.iter().find(|known| **known == word).unwrap_or_else(|| panic!("`{word}` is none of {words:?}"))
}

fn side(word: &str) -> Side {
    match word {
        "front" => Side::Front,
        "right" => Side::Right,
        "back" => Side::Back,
        "left" => Side::Left,
        _ => panic!("`{word}` is no wall"),
    }
}

fn length(text: &str) -> Length {
    Length::parse(&text.replace('-', " "), Units::In).unwrap_or_else(|error| panic!("{error}"))
}

fn exact(text: &str) -> ExactLength {
    ExactLength::parse(&text.replace('-', " "), Units::In).unwrap_or_else(|error| panic!("{error}"))
}
