//! The reports: figures with all their digits, what is not known, and the same bytes every time.

use plan_geometry::derive;
use plan_model::{ExactLength, Length, Plan, Selection, Side, Units};
use plan_rules::report::{
    check_json, check_schema, check_text, clauses_page, measure_json, measure_schema, measure_text,
};
use plan_rules::{BookSource, CAUTIONS, Confidence, RuleBook, judge};
use plan_testkit::{DoorSpec, SmallHome, WindowSpec};
use serde_json::Value;

struct Reports {
    check_json: String,
    check_text: String,
    measure_json: String,
    measure_text: String,
}

fn reports(home: &SmallHome) -> Reports {
    reports_by(home, &RuleBook::built_in("irc-2021").expect("it is built in"))
}

fn reports_by(home: &SmallHome, book: &RuleBook) -> Reports {
    reports_of(&home.plan(), book)
}

fn reports_of(plan: &Plan, book: &RuleBook) -> Reports {
    let selection = Selection::included(plan);
    let home = plan.home(&selection);
    let derived = derive(&home);
    let judgement = judge(&home, &derived, book).expect("book and home are of one kind");
    Reports {
        check_json: check_json(&home, &selection, &derived, &judgement),
        check_text: check_text(&home, &selection, &derived, &judgement),
        measure_json: measure_json(&home, &selection, &derived, Some(book)),
        measure_text: measure_text(&home, &selection, &derived, Some(book)),
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
    let [from, to] = ["from", "to"].map(|end| dimension[end][0].as_f64().expect("a number"));
    assert_eq!((from - to).abs(), 83.0);
    assert_eq!(dimension["outline"].as_array().map(Vec::len), Some(4));
    assert_eq!(report["book"]["source"], "built-in");
    assert_eq!(report["book"]["digest"].as_str().map(str::len), Some(64));
    let ceiling = find("unknown", "ceiling-height");
    assert_eq!((&ceiling["measured"], &ceiling["margin"]), (&Value::Null, &Value::Null));
    assert_eq!(ceiling["enter"], "the ceiling over Bedroom 2");
    assert_eq!(dimension["enter"], Value::Null, "it is known");
    let sill = find("met", "egress-sill");
    assert_eq!(sill["margin"], 8);
    let not_judged = report["not_judged"].as_array().expect("a list");
    assert!(not_judged.iter().any(|clause| clause["section"] == "R308.4"));
    let clauses = |list: &str| report[list].as_array().expect("a list").clone();
    let sections = |list: &str| clauses(list).iter().map(|clause| clause["section"].clone()).collect::<Vec<_>>();
    assert!(sections("not_applicable").contains(&"R311.6".into()), "the plan has no hall");
    let area = clauses("judged").into_iter().find(|clause| clause["section"] == "R304.1").expect("it is judged");
    assert_eq!(area["confidence"], "confirm with the adopted text");
    assert!(clauses("judged").iter().all(|clause| clause["section"] != "R311.6"));
    assert_eq!(report["problems"], serde_json::json!([]));
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
    // There is no ceiling, so that which floor counts is not known.
    assert_eq!((&room["least_dimension"], &room["qualifying_area"]), (&Value::Null, &Value::Null));
    let [published, fixed] = [&report["windows"][0], &report["windows"][1]];
    assert_eq!((&published["clear_height"], &published["basis"]), (&41.into(), &"stated".into()));
    assert_eq!(published["unknown_because"], serde_json::json!({}));
    assert_eq!(fixed["sill"], Value::Null);
    assert!(fixed["unknown_because"]["sill"].is_string(), "{fixed}");
}

/// The entries of the list of measures that have this name.
fn listed(report: &Value, name: &str) -> Vec<Value> {
    let measures = report["measures"].as_array().expect("a list").iter();
    measures.filter(|measure| measure["measure"] == name).cloned().collect()
}

#[test]
fn what_is_counted_has_the_unit_count() {
    let report = parsed(&reports(&bedroom()).measure_json);
    let [bedrooms] = &listed(&report, "bedrooms-in-sleeping-area")[..] else { panic!("one bedroom") };
    assert_eq!((&bedrooms["value"], &bedrooms["unit"]), (&1.into(), &"count".into()));
}

#[test]
fn the_text_says_why_a_figure_is_unknown() {
    let text = reports(&bedroom()).measure_text;
    let line = |of: &[&str]| {
        let is_it = |line: &&str| of.iter().all(|part| line.contains(part));
        text.lines().find(is_it).unwrap_or_else(|| panic!("{of:?} in\n{text}")).to_owned()
    };
    assert!(line(&["window", "clear area"]).ends_with("unknown because"), "{text}");
    let head = "neither the window nor its unit \"window-unit-2\" says how high its head is";
    assert!(line(&["window-2", "0'-0\" x 0'-0\""]).ends_with(&format!("unknown  {head}")), "{text}");
    assert!(line(&["sill ", "window-2"]).ends_with(&format!("unknown: {head}")), "{text}");
    assert!(line(&["qualifying area"]).ends_with("unknown: the plan has no ceiling over room \"room\""), "{text}");
    assert!(line(&["way out"]).ends_with("unknown: no door leads outdoors"), "{text}");
    // All figures are known: nothing stands over a column of reasons.
    let door = DoorSpec { operation: "hinged", width: Length::inches(36), height: Length::inches(80), clear: None };
    let known = SmallHome::new("hall", Length::inches(40), Length::inches(144)).door(Side::Front, &door);
    assert!(!reports(&known).measure_text.contains("unknown because"));
}

/// A book with the hallway rule alone and a section that it would need another rule for.
const ONE_RULE: &str = "
mateline_rule_book = 1
id = \"one\"
name = \"One\"
edition = \"1\"
legal_kind = \"state-label\"
[rules.hallway-width]
level = \"required\"
rooms = [\"hall\", \"entry\"]
width = \"36 in\"
[[clauses]]
section = \"R304.2\"
subject = \"Least dimension\"
status = \"judged\"
rules = [\"least-dimension\"]
";

#[test]
fn a_section_without_its_rule_is_not_judged_and_a_rule_without_a_subject_does_not_apply() {
    let book = RuleBook::parse(ONE_RULE).expect("a readable book").found_at(BookSource::File("a\u{1b}b.toml".into()));
    let json = parsed(&reports_by(&bedroom(), &book).check_json);
    let clauses = |list: &str| json[list].as_array().expect("a list").clone();
    assert_eq!((clauses("judged").len(), clauses("not_judged")[0]["section"].as_str()), (0, Some("R304.2")));
    assert_eq!(clauses("not_applicable"), [] as [Value; 0]);
    let [hall] = &clauses("does_not_apply")[..] else { panic!("one rule has nothing to judge") };
    assert_eq!(
        (&hall["rule"], &hall["section"], &hall["subject"]),
        (&"hallway-width".into(), &Value::Null, &Value::Null)
    );
    assert_eq!(hall["reason"], "The home has no room of these uses: hall, entry.");
    assert_eq!(hall["exception"], Value::Null);
    assert_eq!(json["book"]["source"], "a\u{1b}b.toml");
    let text = reports_by(&bedroom(), &book).check_text;
    assert!(
        text.contains(
            "\nDOES NOT APPLY\n  rule           section  subject   why\n  hallway-width  -        the home  The home has no room of \
             these uses: hall, entry.\n"
        ),
        "{text}"
    );
    assert!(text.contains("           from: a\\u{1b}b.toml\n           SHA-256: "), "{text}");
}

#[test]
fn what_an_exception_lets_off_is_told_quietly_with_its_section() {
    let kitchen = SmallHome::new("kitchen", Length::inches(120), Length::inches(144));
    let Reports { check_json, check_text, .. } = reports(&kitchen);
    let items = parsed(&check_json)["does_not_apply"].as_array().expect("a list").clone();
    let area = items.iter().find(|item| item["rule"] == "habitable-area").expect("kitchens are let off").clone();
    assert_eq!((&area["subject"], &area["subject_name"]), (&"room".into(), &"Kitchen".into()));
    let exception = serde_json::json!({ "text": "Kitchens have no required area.", "section": "R304.1" });
    assert_eq!(area["exception"], exception);
    let line = check_text.lines().find(|line| line.contains("Kitchens have no required area.")).expect("a line");
    assert_eq!(line.split_whitespace().take(3).collect::<Vec<_>>(), ["habitable-area", "R304.1", "Kitchen"]);
    let head = check_text.lines().find(|line| line.starts_with("Corrections: ")).expect("the counts");
    assert!(head.contains(&format!("Does not apply: {} ", items.len())), "{head}");
    // After what somebody must act on, before what is met; what the home has nothing of comes first.
    let places = ["\nUNKNOWN\n", "\nDOES NOT APPLY\n", "The home has no hallway.", "Kitchens have no", "\nMET\n"];
    let places = places.map(|part| check_text.find(part).unwrap_or_else(|| panic!("{part} in\n{check_text}")));
    assert!(places.is_sorted(), "{check_text}");
}

#[test]
fn what_the_drawing_keeps_from_being_judged_is_not_judged() {
    let mut plan = bedroom().plan();
    plan.base.walls.retain(|wall| wall.id.as_str() != "back");
    let json = parsed(&reports_of(&plan, &RuleBook::built_in("irc-2021").expect("it is built in")).check_json);
    let sections = |list: &str| -> Vec<String> {
        let clauses = json[list].as_array().expect("a list").iter();
        clauses.filter_map(|clause| clause["section"].as_str().map(str::to_owned)).collect()
    };
    // What is drawn is there, closed or not.
    assert_eq!(sections("judged"), ["R306.1"]);
    assert_eq!(sections("partly_judged"), ["R306.2", "R311.2"]);
    assert!(sections("not_judged").contains(&"R304.2".to_owned()));
}

#[test]
fn no_control_character_reaches_a_reader() {
    // A plan file with such a name is refused; a plan that a program makes is not read.
    let mut plan = bedroom().plan();
    plan.base.rooms[0].name = "Bed\u{1b}[2J\u{9b}room".to_owned();
    let reports = reports_of(&plan, &RuleBook::built_in("irc-2021").expect("it is built in"));
    for report in [reports.check_json, reports.check_text, reports.measure_json, reports.measure_text] {
        assert!(report.chars().all(|letter| letter == '\n' || !letter.is_control()), "{report}");
    }
}

#[test]
fn passages_are_measured_where_the_book_asks_for_them_and_say_where_they_are_narrow() {
    let door = DoorSpec { operation: "hinged", width: Length::inches(24), height: Length::inches(80), clear: None };
    let room = |usage| {
        SmallHome::new(usage, Length::inches(37), Length::inches(144)).door(Side::Front, &door).door(Side::Back, &door)
    };
    let one_rule = RuleBook::parse(ONE_RULE).expect("a readable book");
    let built_in = RuleBook::built_in("irc-2021").expect("it is built in");
    let passages = |usage, book| {
        let report = parsed(&reports_by(&room(usage), book).measure_json);
        report["passages"].as_array().expect("a list").clone()
    };
    assert_eq!(passages("entry", &built_in), [] as [Value; 0]);
    assert_eq!(passages("study", &one_rule), [] as [Value; 0]);
    for passage in [&passages("entry", &one_rule)[0], &passages("hall", &built_in)[0]] {
        let across = |end: usize| passage["pinch"][end][0].as_f64().expect("a number");
        assert_eq!((passage["clear_width"].as_f64(), (across(0) - across(1)).abs()), (Some(37.0), 37.0));
    }
    let text = reports_by(&room("hall"), &built_in).measure_text;
    assert!(text.contains("narrowest (along the house, from the front)"), "{text}");
}

#[test]
fn faults_of_the_drawing_are_told_beside_the_verdicts() {
    let loose = serde_json::json!({ "id": "loose", "from": [20, 20], "to": [40, 20] });
    let reports = reports(&bedroom().element("open_boundaries", loose));
    let problem = &parsed(&reports.check_json)["problems"][0];
    assert_eq!((&problem["elements"][0], &problem["conflict"]), (&"loose".into(), &false.into()));
    assert_eq!(problem["at"], serde_json::json!([30, 20]));
    assert!(reports.check_text.contains("\nDRAWING FAULTS\n  - the open boundary \"loose\" divides nothing"));
}

#[test]
fn faults_of_the_drawing_lie_at_places_in_the_unit_of_the_plan() {
    let loose = serde_json::json!({ "id": "loose", "from": ["20 in", "20 in"], "to": ["40 in", "20 in"] });
    let messages = [bedroom(), bedroom().in_millimetres()].map(|home| {
        let reports = reports(&home.element("open_boundaries", loose.clone()));
        parsed(&reports.check_json)["problems"][0]["message"].as_str().expect("a sentence").to_owned()
    });
    for (message, place) in
        messages.iter().zip(["at 2'-6\" along the house and 1'-8\" from", "at 762 mm along the house and 508 mm from"])
    {
        assert!(message.contains(place), "{message}");
    }
}

#[test]
fn units_change_the_numbers_and_not_the_verdicts() {
    let [inches, millimetres] = [bedroom(), bedroom().in_millimetres()].map(|home| parsed(&reports(&home).check_json));
    let corrections = millimetres["corrections"].as_array().expect("a list");
    let dimension = corrections.iter().find(|item| item["rule"] == "least-dimension").expect("it is too narrow");
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
        "            enter: the ceiling over Bedroom 2\n",
        "  egress-width   R310.2.2  window of Bedroom 2  1'-8\"       1'-8\"          0'-0\"\n",
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

#[test]
fn the_page_of_sections_tells_all_of_them_and_prints_no_doubtful_number() {
    let books: Vec<RuleBook> = RuleBook::built_in_ids().filter_map(RuleBook::built_in).collect();
    let page = clauses_page(&books);
    let rows: Vec<&str> =
        page.lines().filter(|line| line.starts_with("| ") && !line.starts_with("| section")).collect();
    let clauses: Vec<_> = books.iter().flat_map(|book| &book.facts().clauses).collect();
    assert_eq!(rows.iter().filter(|row| !row.starts_with("| ---")).count(), clauses.len());
    for clause in clauses {
        let number = format!("| {} | {} |", clause.section, clause.subject);
        let doubt = format!("| *number to be confirmed with the adopted text* | {} |", clause.subject);
        let (told, other) = match clause.confidence {
            Confidence::Confirmed => (number, doubt),
            Confidence::ConfirmWithAdoptedText => (doubt, number),
        };
        let row = rows.iter().find(|row| row.starts_with(&told)).unwrap_or_else(|| panic!("{told}"));
        assert!(rows.iter().all(|row| !row.starts_with(&other)), "{other}");
        assert!(row.contains(&format!("| {} |", clause.status.words())), "{row}");
        assert!(clause.rules.iter().all(|rule| row.contains(&format!("`{rule}`"))), "{row}");
    }
    // No number that is doubtful in some book stands anywhere on the page, unless it is certain in another.
    let doubtful = |section: &str| {
        let mut all = books.iter().flat_map(|book| &book.facts().clauses).filter(|clause| clause.section == section);
        all.all(|clause| clause.confidence == Confidence::ConfirmWithAdoptedText)
    };
    for clause in books.iter().flat_map(|book| &book.facts().clauses).filter(|clause| doubtful(&clause.section)) {
        let is_number = |word: &str| word.trim_matches(|letter: char| !letter.is_alphanumeric()) == clause.section;
        assert!(!page.split_whitespace().any(is_number), "{}", clause.section);
    }
}
