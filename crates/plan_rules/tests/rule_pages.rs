//! Each rule has a page in `tests/rules`: prose for people, and tables of cases that this test builds and judges.
//!
//! A table has the columns `case`, `input`, `measured` and `outcome`. The input is a small home in words, apart by
//! semicolons: `bedroom 120 x 144` (use and clear size in inches) and then any of
//! `ceiling H`, `ceiling H rising R` (for each foot from the front), `soffit D at H` or `beam D at H` (so deep along the back
//! wall, so high), `chase W x L` (a corner taken from the room),
//! `window clear W x H`, `window OPERATION W x H` (frame size), either with `sill S`,
//! `door OPERATION W x H` (leaf), `door OPERATION clear W x H`, both with `in WALL`,
//! `USE L behind a wall`, `behind a doorway` or `behind an open boundary` (a further room that takes the back of the
//! first), `floor H above ground`, and `front wall missing`.
//! The measured figure carries its unit, or is `unknown`, or `none` where there is nothing to measure; the outcome is `met`, `correction`, `unknown`, `advisory`, or
//! `no verdict`.

use std::fs;
use std::path::PathBuf;

use plan_geometry::derive;
use plan_model::{ExactLength, Length, Plan, Selection, Side, Units};
use plan_rules::{Limit, Outcome, Quantity, RuleBook, Verdict, judge, registry};
use plan_testkit::{Between, DoorSpec, SmallHome, WindowSpec};

#[test]
fn every_rule_has_a_page_and_every_page_a_rule() {
    let mut pages: Vec<String> = fs::read_dir(folder())
        .expect("the pages are there")
        .map(|page| page.expect("a page can be listed").path())
        .map(|path| path.file_stem().expect("a page has a name").to_string_lossy().into_owned())
        .collect();
    pages.sort();
    let mut rules: Vec<&str> = registry().map(|rule| rule.id).collect();
    rules.sort_unstable();
    assert_eq!(pages, rules);
}

#[test]
fn every_case_comes_out_as_its_page_says() {
    let book = RuleBook::built_in("irc-2021").expect("it is built in");
    let mut wrong = Vec::new();
    for rule in registry() {
        let page = fs::read_to_string(folder().join(rule.id).with_extension("md")).expect("the rule has a page");
        let cases: Vec<Case> = page.lines().filter_map(Case::of_line).collect();
        for outcome in ["met", "correction"] {
            assert!(cases.iter().any(|case| case.outcome == outcome), "{}: no case is {outcome}", rule.id);
        }
        for case in cases {
            let found = case.judge(rule.id, &book);
            if found != (case.measured.clone(), case.outcome.clone()) {
                wrong.push(format!("{} {}: {} came out as {found:?}", rule.id, case.name, case.input));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/rules")
}

struct Case {
    name: String,
    input: String,
    measured: String,
    outcome: String,
}

impl Case {
    /// A row of a table of cases; none for prose, heads and rules between.
    fn of_line(line: &str) -> Option<Self> {
        let cells: Vec<&str> = line.strip_prefix('|')?.strip_suffix('|')?.split('|').map(str::trim).collect();
        let [name, input, measured, outcome, ..] = cells[..] else { return None };
        if name == "case" || name.starts_with("--") {
            return None;
        }
        let [name, input, measured, outcome] = [name, input, measured, outcome].map(str::to_owned);
        Some(Self { name, input, measured, outcome })
    }

    /// The measured figure as the page would write it, and the outcome.
    fn judge(&self, rule: &str, book: &RuleBook) -> (String, String) {
        let plan = home(&self.input);
        let home = plan.home(&Selection::included(&plan));
        let judgement = judge(&home, &derive(&home), book).expect("book and home are of one kind");
        let verdicts = || judgement.verdicts.iter().filter(|verdict| verdict.rule == rule);
        // What falls short is what the case is about.
        let Some(verdict) = verdicts().min_by_key(|verdict| verdict.outcome) else {
            return (self.measured.clone(), "no verdict".to_owned());
        };
        let outcome = match verdict.outcome {
            Outcome::Correction => "correction",
            Outcome::Unknown => "unknown",
            Outcome::Advisory => "advisory",
            Outcome::Met => "met",
        };
        (self.measured_as_written(verdict), outcome.to_owned())
    }

    fn measured_as_written(&self, verdict: &Verdict) -> String {
        let Some(measured) = verdict.measured else {
            return if verdict.outcome == Outcome::Correction { "none" } else { "unknown" }.to_owned();
        };
        let expected = match verdict.quantity {
            Quantity::CountAtLeast => self.measured.parse().ok().map(i128::into),
            _ => Limit::parse(&self.measured).ok().map(|limit| match limit {
                Limit::Length(figure) | Limit::Area(figure) | Limit::Share(figure) => figure,
            }),
        };
        if expected == Some(measured) { self.measured.clone() } else { verdict.message.clone() }
    }
}

fn home(input: &str) -> Plan {
    let mut parts = input.split(';').map(|part| part.split_whitespace().collect::<Vec<_>>());
    let first = parts.next().expect("the input begins with the room");
    let [usage, width, "x", length_of_room] = first[..] else { panic!("{input}: `bedroom 120 x 144` begins a case") };
    let mut home = SmallHome::new(usage, length(width), length(length_of_room));
    let mut without_front = false;
    for part in parts {
        home = match part[..] {
            ["front", "wall", "missing"] => {
                without_front = true;
                home
            }
            ["ceiling", height] => home.ceiling(length(height)),
            ["ceiling", low, "rising", rise] => home.rising_ceiling(length(low), length(rise)),
            [what @ ("soffit" | "beam"), depth, "at", height] => {
                home.lowered_at_the_back(length(depth), length(height), what)
            }
            ["chase", width, "x", depth] => home.chase(length(width), length(depth)),
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
            _ => panic!("{input}: `{}` is no part of a small home", part.join(" ")),
        };
    }
    let mut plan = home.plan();
    if without_front {
        plan.base.walls.retain(|wall| wall.id.as_str() != "front");
        plan.base.windows.retain(|window| window.wall.as_str() != "front");
        plan.base.doors.retain(|door| door.wall.as_str() != "front");
    }
    plan
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
