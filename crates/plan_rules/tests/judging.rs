//! What a judgement as a whole promises, whatever the rules.

use plan_geometry::{Derived, derive};
use plan_model::elements::Swing;
use plan_model::{Exact, ExactLength, Home, LegalKind, Length, Plan, Point, Selection, Side, Units};
use plan_rules::{Judgement, Outcome, RuleBook, Verdict, judge, registry};
use plan_testkit::{DoorSpec, SmallHome, WindowSpec};

fn inches(text: &str) -> Length {
    Length::parse(text, Units::In).expect("a length")
}

fn book() -> RuleBook {
    RuleBook::built_in("irc-2021").expect("it is built in")
}

/// The built-in book with one passage of its text changed.
fn amended(from: &str, to: &str) -> RuleBook {
    let text = include_str!("../../../assets/rule-books/irc-2021.toml");
    assert!(text.contains(from), "the book says {from}");
    RuleBook::parse(&text.replacen(from, to, 1)).unwrap_or_else(|error| panic!("{error}"))
}

fn with_home<T>(plan: &Plan, work: impl FnOnce(&Home<'_>, &Derived) -> T) -> T {
    let home = plan.home(&Selection::included(plan));
    work(&home, &derive(&home))
}

fn judged_by(home: &SmallHome, book: &RuleBook) -> Judgement {
    with_home(&home.plan(), |home, derived| judge(home, derived, book).expect("book and home are of one kind"))
}

fn verdict(judgement: &Judgement, rule: &str) -> Verdict {
    judgement.verdicts.iter().find(|verdict| verdict.rule == rule).expect("the rule judged something").clone()
}

fn window(clear: Option<(&str, &str)>, sill: &str) -> WindowSpec {
    let exact = |text| ExactLength::parse(text, Units::In).expect("a length");
    WindowSpec {
        operation: "single-hung",
        width: inches("36"),
        height: inches("60"),
        clear: clear.map(|(width, height)| (exact(width), exact(height))),
        sill: Some(inches(sill)),
    }
}

fn bedroom() -> SmallHome {
    SmallHome::new("bedroom", inches("120"), inches("144")).named("Bedroom 2").ceiling(inches("96"))
}

#[test]
fn a_book_for_another_label_is_refused_and_never_mixed() {
    let plan = bedroom().under_federal_label().plan();
    let error = with_home(&plan, |home, derived| judge(home, derived, &book())).expect_err("the labels differ");
    assert_eq!((error.book_kind, error.plan_kind), (LegalKind::StateLabel, LegalKind::FederalLabel));
    assert_eq!(
        error.to_string(),
        "the rule book \"irc-2021\" is for homes under a state label, and the plan is sold under a federal label; the \
         two are never mixed"
    );
}

#[test]
fn verdicts_stand_in_the_order_of_the_registry() {
    let judgement = judged_by(&bedroom().window(Side::Front, &window(None, "24")), &book());
    let place = |verdict: &Verdict| registry().position(|rule| rule.id == verdict.rule);
    assert!(judgement.verdicts.is_sorted_by_key(place));
    let counted = [Outcome::Correction, Outcome::Unknown, Outcome::Advisory, Outcome::Met];
    let sum: usize = counted.iter().map(|outcome| judgement.with_outcome(*outcome).count()).sum();
    assert_eq!(sum, judgement.verdicts.len());
}

#[test]
fn a_recommendation_never_fails_a_plan() {
    let narrow = SmallHome::new("study", inches("83.5"), inches("126"));
    let required = judged_by(&narrow, &book());
    assert_eq!(verdict(&required, "least-dimension").outcome, Outcome::Correction);
    assert_eq!(verdict(&required, "ceiling-height").outcome, Outcome::Unknown);
    let rule = "[rules.least-dimension]\nlevel = \"required\"";
    let advised = judged_by(&narrow, &amended(rule, "[rules.least-dimension]\nlevel = \"advisory\""));
    assert_eq!(verdict(&advised, "least-dimension").outcome, Outcome::Advisory);
    let rule = "[rules.ceiling-height]\nlevel = \"required\"";
    let advised = judged_by(&narrow, &amended(rule, "[rules.ceiling-height]\nlevel = \"advisory\""));
    assert_eq!(verdict(&advised, "ceiling-height").outcome, Outcome::Advisory);
}

#[test]
fn limits_come_from_the_book_alone() {
    let home = bedroom().window(Side::Front, &window(Some(("21", "40")), "36"));
    let width = |book: &RuleBook| verdict(&judged_by(&home, book), "egress-width").outcome;
    assert_eq!(width(&book()), Outcome::Met);
    assert_eq!(width(&amended("width = \"20 in\"", "width = \"22 in\"")), Outcome::Correction);
}

#[test]
fn all_limits_of_an_escape_opening_hold_on_one_and_the_same() {
    // The one window is large but high, the other low but small: neither will do, and no mixture of them does.
    let home = bedroom()
        .window(Side::Front, &window(Some(("30", "40")), "50"))
        .window(Side::Front, &window(Some(("20", "24")), "36"));
    let judgement = judged_by(&home, &book());
    let egress: Vec<&Verdict> =
        judgement.verdicts.iter().filter(|verdict| verdict.rule.starts_with("egress-")).take(4).collect();
    assert!(egress.iter().all(|verdict| verdict.subject == egress[0].subject), "{egress:?}");
    assert_eq!(egress.iter().filter(|verdict| verdict.outcome == Outcome::Correction).count(), 1);
}

#[test]
fn an_estimate_is_marked_and_a_published_figure_is_not() {
    let marked = |clear| {
        let home = bedroom().window(Side::Front, &window(clear, "24"));
        verdict(&judged_by(&home, &book()), "egress-area").notes.iter().any(|note| note.starts_with("estimated"))
    };
    assert!(marked(None));
    assert!(!marked(Some(("34.2", "24"))));
}

#[test]
fn near_the_ground_is_near_from_above_and_only_where_the_plan_says_so() {
    let outcome = |floor: Option<&str>| {
        let home = bedroom().window(Side::Front, &window(Some(("30", "24")), "30"));
        let home = floor.map_or_else(|| home.clone(), |floor| home.clone().floor_above_grade(inches(floor)));
        verdict(&judged_by(&home, &book()), "egress-area")
    };
    assert_eq!(outcome(Some("14")).outcome, Outcome::Met);
    assert_eq!(outcome(Some("14.25")).outcome, Outcome::Correction);
    let unknown = outcome(None);
    assert_eq!(unknown.outcome, Outcome::Correction);
    assert!(unknown.notes.iter().any(|note| note.contains("does not say how high the floor")), "{unknown:?}");
}

#[test]
fn messages_say_what_where_and_both_figures() {
    let narrow = SmallHome::new("bedroom", inches("83.5"), inches("126")).named("Bedroom 2");
    let message = |home: &SmallHome| verdict(&judged_by(home, &book()), "least-dimension").message;
    assert_eq!(message(&narrow), "Bedroom 2 is 6'-11 1/2\" in its least dimension; 7'-0\" is required.");
    assert_eq!(
        message(&narrow.in_millimetres()),
        "Bedroom 2 is 2120.9 mm in its least dimension; 2133.6 mm is required."
    );
}

#[test]
fn a_place_on_the_plan_comes_with_every_verdict() {
    let home = bedroom().window(Side::Front, &window(None, "24"));
    let judgement = judged_by(&home, &book());
    let dimension = verdict(&judgement, "least-dimension").place.dimension.expect("a width is drawn");
    let length = |[a, b]: [Point; 2]| (b.x - a.x).abs() + (b.y - a.y).abs();
    assert_eq!(Exact::from(i128::from(length(dimension).steps())), Exact::from(i128::from(inches("120").steps())));
    assert_eq!(verdict(&judgement, "habitable-area").place.outline.len(), 4);
    let width = verdict(&judgement, "egress-width");
    assert_eq!(width.place.dimension.map(length), Some(inches("36")));
    assert_eq!(width.place.at.y, inches("3"));
    assert_eq!(width.subject_name, "window of Bedroom 2");
}

#[test]
fn rooms_without_walls_between_them_are_judged_once() {
    // A dining corner of 8 x 8 ft in a living room of 20 x 12 ft is no correction.
    let at = |x: &str, y: &str| serde_json::json!([x, y]);
    let home = SmallHome::new("living", inches("240"), inches("144"))
        .element(
            "rooms",
            serde_json::json!({ "id": "dining", "name": "Dining", "use": "dining", "at": at("200", "20") }),
        )
        .element("open_boundaries", serde_json::json!({ "id": "a", "from": at("150", "6"), "to": at("150", "102") }))
        .element("open_boundaries", serde_json::json!({ "id": "b", "from": at("150", "102"), "to": at("246", "102") }));
    let judgement = judged_by(&home, &book());
    let areas: Vec<&Verdict> = judgement.verdicts.iter().filter(|verdict| verdict.rule == "habitable-area").collect();
    assert_eq!(areas.len(), 1);
    assert_eq!((areas[0].outcome, areas[0].subject_name.as_str()), (Outcome::Met, "Living and dining"));
}

#[test]
fn a_door_serves_as_egress_door_whatever_room_it_is_in() {
    let door = DoorSpec { operation: "hinged", width: inches("36"), height: inches("80"), clear: None };
    let judgement = judged_by(&bedroom().door(Side::Back, &door), &book());
    assert_eq!(verdict(&judgement, "egress-door-width").subject_name, "outside door of Bedroom 2");
    let none = judged_by(&bedroom(), &book());
    assert_eq!(verdict(&none, "egress-door-width").place.at, Point::new(inches("66"), inches("0")));
}

#[test]
fn a_leaf_that_cannot_open_square_leaves_its_width_unknown() {
    // A cabinet in the corner where the leaf would stand open.
    let door = DoorSpec { operation: "hinged", width: inches("36"), height: inches("80"), clear: None };
    let cabinet = serde_json::json!({
        "id": "cabinet", "kind": "tall-cabinet", "at": [6, 24], "faces": "right", "width": 24, "depth": 12
    });
    let mut plan = bedroom().door(Side::Front, &door).element("fixtures", cabinet).plan();
    plan.base.doors[0].swing = Some(Swing::Left);
    let judgement = with_home(&plan, |home, derived| judge(home, derived, &book()).expect("of one kind"));
    assert_eq!(verdict(&judgement, "egress-door-width").outcome, Outcome::Unknown);
    assert_eq!(verdict(&judgement, "egress-door-height").outcome, Outcome::Met);
}

#[test]
fn a_room_on_its_limits_stays_on_them_at_any_angle() {
    // Faces that are not square to the axes lie within a step of true; what that takes off is no shortfall.
    for degrees in [0_i32, 7, 30, 45, 53, 81, 90, 135, 211] {
        let turn = |point: &mut Point| {
            let (sin, cos) = f64::from(degrees).to_radians().sin_cos();
            let (x, y) = (point.x.to_inches(), point.y.to_inches());
            *point =
                Point::new(Length::nearest_to_inches(x * cos - y * sin), Length::nearest_to_inches(x * sin + y * cos));
        };
        let mut plan = SmallHome::new("bedroom", inches("84"), inches("120")).plan();
        plan.base.walls.iter_mut().for_each(|wall| [&mut wall.from, &mut wall.to].into_iter().for_each(turn));
        plan.base.rooms.iter_mut().for_each(|room| turn(&mut room.at));
        let judgement = with_home(&plan, |home, derived| judge(home, derived, &book()).expect("of one kind"));
        for rule in ["habitable-area", "least-dimension"] {
            let verdict = verdict(&judgement, rule);
            assert_eq!(verdict.outcome, Outcome::Met, "{degrees} degrees: {}", verdict.message);
        }
    }
}
