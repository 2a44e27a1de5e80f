//! The reports: figures with all their digits, what is not known, and the same bytes every time.

use plan_geometry::derive;
use plan_model::{ExactLength, Length, Selection, Side, Units};
use plan_rules::report::{check_json, check_schema, check_text, measure_json, measure_schema, measure_text};
use plan_rules::{CAUTIONS, RuleBook, judge};
use plan_testkit::{DoorSpec, SmallHome, WindowSpec};
use serde_json::Value;

struct Reports {
    check_json: String,
    check_text: String,
    measure_json: String,
    measure_text: String,
}

fn reports(home: &SmallHome) -> Reports {
    let plan = home.plan();
    let selection = Selection::included(&plan);
    let home = plan.home(&selection);
    let derived = derive(&home);
    let book = RuleBook::built_in("irc-2021").expect("it is built in");
    let judgement = judge(&home, &derived, &book).expect("book and home are of one kind");
    Reports {
        check_json: check_json(&home, &selection, &judgement),
        check_text: check_text(&home, &selection, &judgement),
        measure_json: measure_json(&home, &selection, &derived, Some(&book)),
        measure_text: measure_text(&home, &selection, &derived, Some(&book)),
    }
}

fn parsed(json: &str) -> Value {
    serde_json::from_str(json).expect("a report is JSON")
}

fn exact(text: &str) -> ExactLength {
    ExactLength::parse(text, Units::In).expect("a length")
}

/// Falls short in its least dimension and in the area of its window; one window is unknown, and there is no ceiling.
fn bedroom() -> SmallHome {
    let window = |operation, clear, sill| WindowSpec {
        operation,
        width: Length::inches(36),
        height: Length::inches(48),
        clear,
        sill,
    };
    let published = window("casement", Some((exact("20"), exact("41"))), Some(Length::inches(36)));
    SmallHome::new("bedroom", Length::inches(83), Length::inches(132))
        .named("Bedroom 2")
        .window(Side::Front, &published)
        .window(Side::Front, &window("fixed", None, None))
}

#[test]
fn reports_keep_to_their_schemas() {
    let hall = Length::inches(37);
    let door = DoorSpec { operation: "hinged", width: Length::inches(24), height: Length::inches(80), clear: None };
    let hall = SmallHome::new("hall", hall, Length::inches(144)).door(Side::Front, &door).door(Side::Back, &door);
    for home in [bedroom(), hall.clone(), hall.in_millimetres()] {
        let reports = reports(&home);
        for (schema, json) in [(check_schema(), reports.check_json), (measure_schema(), reports.measure_json)] {
            let validator = jsonschema::validator_for(schema.as_value()).expect("the schema is one");
            let errors: Vec<String> = validator.iter_errors(&parsed(&json)).map(|error| error.to_string()).collect();
            assert!(errors.is_empty(), "{errors:?}\n{json}");
        }
    }
}

#[test]
fn the_check_report_carries_every_verdict_with_its_figures() {
    let json = reports(&bedroom()).check_json;
    // Twelve places are more than a floating-point reader may keep: look at the text.
    assert!(json.contains("\"measured\": 5.694444444444,\n"), "{json}");
    let report = parsed(&json);
    assert_eq!(report["mateline_check"], 1);
    assert_eq!(report["units"], serde_json::json!({ "length": "in", "area": "sq ft" }));
    assert_eq!(report["book"]["id"], "irc-2021");
    let find = |list: &str, rule: &str| {
        let items = report[list].as_array().expect("a list").iter();
        items.clone().find(|item| item["rule"] == rule).unwrap_or_else(|| panic!("{rule} in {list}")).clone()
    };
    let dimension = find("corrections", "least-dimension");
    assert_eq!(
        (&dimension["measured"], &dimension["required"], &dimension["margin"]),
        (&83.into(), &84.into(), &(-1).into())
    );
    assert_eq!((&dimension["unit"], &dimension["section"]), (&"in".into(), &"R304.2".into()));
    assert_eq!(dimension["at"], serde_json::json!([47.5, 72]));
    let ceiling = find("unknown", "ceiling-height");
    assert_eq!((&ceiling["measured"], &ceiling["margin"]), (&Value::Null, &Value::Null));
    let sill = find("met", "egress-sill");
    assert_eq!(sill["margin"], 8);
    let not_judged = report["not_judged"].as_array().expect("a list");
    assert!(not_judged.iter().any(|clause| clause["section"] == "R303.1"));
    assert_eq!(report["cautions"].as_array().map(Vec::len), Some(CAUTIONS.len()));
}

#[test]
fn the_measure_report_says_why_a_figure_is_unknown() {
    let report = parsed(&reports(&bedroom()).measure_json);
    assert_eq!(report["mateline_measure"], 1);
    assert_eq!(report["heated_area"], 95.0);
    assert_eq!(report["heated_area_whole"], 95);
    let room = &report["rooms"][0];
    assert_eq!((&room["clear_width"], &room["clear_length"]), (&83.into(), &132.into()));
    assert_eq!((&room["least_dimension"], &room["qualifying_area"]), (&83.into(), &0.into()));
    let [published, fixed] = [&report["windows"][0], &report["windows"][1]];
    assert_eq!((&published["clear_height"], &published["basis"]), (&41.into(), &"stated".into()));
    assert_eq!(published["unknown_because"], serde_json::json!({}));
    assert_eq!(fixed["sill"], Value::Null);
    assert!(fixed["unknown_because"]["sill"].is_string(), "{fixed}");
}

#[test]
fn units_change_the_numbers_and_not_the_verdicts() {
    let [inches, millimetres] = [bedroom(), bedroom().in_millimetres()].map(|home| parsed(&reports(&home).check_json));
    let dimension = &millimetres["corrections"][1];
    assert_eq!((&dimension["measured"], &dimension["unit"]), (&2108.2.into(), &"mm".into()));
    for list in ["corrections", "advisories", "unknown", "met"] {
        let rules = |report: &Value| -> Vec<Value> {
            report[list].as_array().expect("a list").iter().map(|item| item["rule"].clone()).collect()
        };
        assert_eq!(rules(&inches), rules(&millimetres));
    }
}

#[test]
fn the_text_says_what_is_wrong_where_and_what_was_not_judged() {
    let text = reports(&bedroom()).check_text;
    for part in [
        "Rule book: International Residential Code, edition 2021 (irc-2021)",
        "  R304.2    Bedroom 2 is 6'-11\" in its least dimension; 7'-0\" is required.\n            at 3'-11 1/2\" along the house, 6'-0\" from the front\n",
        "The clear opening of the window of Bedroom 2 is 5.69 sq ft; 5.7 sq ft is required.",
        "UNKNOWN\n  R305.1    The plan has no ceiling over Bedroom 2; 7'-0\" is required.",
        "  egress-width   R310.2.2  window of Bedroom 2  1'-8\"     1'-8\"          0'-0\"\n",
        "SECTIONS NOT JUDGED\n",
    ] {
        assert!(text.contains(part), "{part}\nin\n{text}");
    }
    assert!(text.lines().all(|line| line == line.trim_end()), "no line ends in blanks");
}

#[test]
fn every_text_ends_with_the_cautions() {
    let reports = reports(&bedroom());
    for text in [reports.check_text, reports.measure_text] {
        let end = text.split("CAUTIONS\n").nth(1).expect("the cautions are there");
        let words = |text: &str| text.split_whitespace().filter(|word| *word != "-").collect::<Vec<_>>().join(" ");
        assert_eq!(words(end), words(&CAUTIONS.join(" ")));
    }
}

#[test]
fn the_same_inputs_make_the_same_bytes() {
    let [one, other] = [reports(&bedroom()), reports(&bedroom())];
    assert_eq!((one.check_json, one.check_text), (other.check_json, other.check_text));
    assert_eq!((one.measure_json, one.measure_text), (other.measure_json, other.measure_text));
}
