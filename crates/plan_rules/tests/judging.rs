//! What a judgement as a whole promises, whatever the rules.

use plan_geometry::{Derived, derive};
use plan_model::elements::Swing;
use plan_model::{Exact, ExactLength, Home, LegalKind, Length, Plan, Point, Selection, Side, Units};
use plan_rules::{Judgement, Outcome, RuleBook, Verdict, judge, registry};
use plan_testkit::{Between, DoorSpec, SmallHome, WindowSpec, turned};

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
    let text = text.replacen("id = \"irc-2021\"", "id = \"amended\"", 1);
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
        // A hung window could not leave as much clear as is published here.
        operation: if clear.is_some() { "casement" } else { "single-hung" },
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
    let counted = [Outcome::Correction, Outcome::Unknown, Outcome::Advisory, Outcome::Met, Outcome::DoesNotApply];
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
        .window(Side::Front, &WindowSpec { height: inches("44"), ..window(Some(("30", "40")), "50") })
        .window(Side::Front, &window(Some(("20", "24")), "36"));
    let judgement = judged_by(&home, &book());
    let egress: Vec<&Verdict> =
        judgement.verdicts.iter().filter(|verdict| verdict.rule.starts_with("egress-")).take(4).collect();
    assert!(egress.iter().all(|verdict| verdict.subject == egress[0].subject), "{egress:?}");
    assert_eq!(egress.iter().filter(|verdict| verdict.outcome == Outcome::Correction).count(), 1);
}

#[test]
fn an_opening_that_does_not_lead_outdoors_is_no_way_of_escape() {
    // Behind the partition lies a closed space that nobody named.
    let home = bedroom()
        .element(
            "walls",
            serde_json::json!({
                "id": "partition", "kind": "partition", "from": [3, 106], "to": [129, 106], "thickness": 4
            }),
        )
        .window(Side::Front, &window(Some(("30", "40")), "24"));
    let mut plan = home.plan();
    plan.base.windows[0].wall = "partition".into();
    let judged = |plan: &Plan| with_home(plan, |home, derived| judge(home, derived, &book()).expect("of one kind"));
    let area = verdict(&judged(&plan), "egress-area");
    assert_eq!((area.outcome, area.measured), (Outcome::Correction, None));
    assert!(area.message.starts_with("Bedroom 2 has no window or door that opens to the outside"), "{}", area.message);
    plan.base.windows[0].wall = "front".into();
    assert_eq!(verdict(&judged(&plan), "egress-area").outcome, Outcome::Met);
}

#[test]
fn whatever_the_book_calls_a_hall_has_its_width_judged() {
    let door = DoorSpec { operation: "hinged", width: inches("24"), height: inches("80"), clear: None };
    let entry = SmallHome::new("entry", inches("35"), inches("144")).door(Side::Front, &door).door(Side::Back, &door);
    let judged = |book: &RuleBook| verdict(&judged_by(&entry, book), "hallway-width");
    assert_eq!(judged(&book()).outcome, Outcome::DoesNotApply);
    let verdict = judged(&amended("rooms = [\"hall\"]", "rooms = [\"hall\", \"entry\"]"));
    assert_eq!(verdict.outcome, Outcome::Correction);
    let [from, to] = verdict.place.dimension.expect("the pinch is drawn");
    assert_eq!(verdict.place.at + verdict.place.at, from + to, "half-way between the ends of the pinch");
}

#[test]
fn an_outside_door_that_does_not_count_is_named_with_the_reason() {
    let sentence = |home: &SmallHome| {
        let verdict = verdict(&judged_by(home, &book()), "egress-door-width");
        assert_eq!((verdict.outcome, verdict.measured), (Outcome::Correction, None));
        (verdict.message, verdict.place.at.y)
    };
    let door = |operation| DoorSpec { operation, width: inches("36"), height: inches("80"), clear: None };
    let garage = SmallHome::new("garage", inches("240"), inches("240")).door(Side::Back, &door("hinged"));
    let required = "a side-hinged outside door with a clear width of 2'-8\" is required.";
    let because = "The home has no egress door: the outside door of Garage does not count, because the book takes no way \
                   out through that room";
    assert_eq!(sentence(&garage), (format!("{because}; {required}"), inches("249")));
    let slider = bedroom().door(Side::Back, &door("sliding"));
    let because =
        "The home has no egress door: the outside door of Bedroom 2 does not count, because it is not side-hinged";
    assert_eq!(sentence(&slider), (format!("{because}; {required}"), inches("153")));
    let none = "The home has no side-hinged outside door; one with a clear width of 2'-8\" is required.";
    assert_eq!(sentence(&bedroom()), (none.to_owned(), inches("0")));
}

#[test]
fn a_sill_that_is_too_far_from_the_ground_is_told_with_its_distance() {
    let home = bedroom().window(Side::Front, &window(Some(("30", "24")), "30")).floor_above_grade(inches("20"));
    let notes = verdict(&judged_by(&home, &book()), "egress-area").notes;
    assert_eq!(notes[0], "its sill is 4'-2\" above the ground outside, more than 3'-8\": the larger area holds");
}

#[test]
fn what_a_plan_says_against_itself_is_unknown() {
    let sill = |home: &SmallHome| verdict(&judged_by(home, &book()), "egress-sill");
    let below = sill(&bedroom().window(Side::Front, &window(Some(("30", "40")), "-1")));
    assert_eq!(below.outcome, Outcome::Unknown);
    assert!(below.message.contains("the plan puts its sill below the floor"), "{}", below.message);
    let above = sill(&bedroom().window(Side::Front, &window(Some(("30", "40")), "40")));
    assert_eq!(above.outcome, Outcome::Unknown, "a unit 60 high under a ceiling of 96");
    assert!(above.message.contains("the plan puts its head above the ceiling"), "{}", above.message);
}

#[test]
fn a_room_that_cannot_be_entered_is_told_by_name() {
    let door = DoorSpec { operation: "hinged", width: inches("36"), height: inches("80"), clear: None };
    let home = SmallHome::new("living", inches("144"), inches("240")).door(Side::Front, &door);
    let judged = judged_by(&home.back_part("bedroom", inches("100"), Between::Wall), &book());
    let shut = judged.corrections().find(|shut| shut.rule == "room-entered").expect("the part behind the wall is shut");
    assert_eq!(shut.message, "Bedroom cannot be entered: no doorway or opening leads to it.");
    assert_eq!(shut.subject, Some("part".into()));
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
    let area = |home: &SmallHome| verdict(&judged_by(home, &book()), "habitable-area").message;
    assert_eq!(area(&narrow), "Bedroom 2 has 73.1 sq ft, none of it at least 7'-0\" wide; 70 sq ft is required.");
    assert_eq!(area(&bedroom()), "Bedroom 2 has 120 sq ft, all of it at least 7'-0\" wide; 70 sq ft is required.");
    let small = SmallHome::new("bedroom", inches("78"), inches("96")).named("Bedroom 2");
    assert_eq!(message(&small), "Bedroom 2 is 6'-6\" in its least dimension; 7'-0\" is required.");
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
        .ceiling(inches("96"))
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

/// A cabinet in the corner where the leaf would stand open stops it: its near corner is 3 in outside of the hinge's jamb
/// and 9 in along, 12 in out; the leaf, 36 in wide, stands open by 53.13 degrees and covers 36 x 3/5 = 21.6 of its 33-5/8.
#[test]
fn a_leaf_that_cannot_open_square_leaves_less() {
    let door = DoorSpec { operation: "hinged", width: inches("36"), height: inches("80"), clear: None };
    let cabinet = serde_json::json!({
        "id": "cabinet", "kind": "tall-cabinet", "at": [6, 24], "faces": "right", "width": 12, "depth": 12
    });
    let mut plan = bedroom().door(Side::Front, &door).element("fixtures", cabinet).plan();
    plan.base.doors[0].swing = Some(Swing::Left);
    let judgement = with_home(&plan, |home, derived| judge(home, derived, &book()).expect("of one kind"));
    let width = verdict(&judgement, "egress-door-width");
    assert_eq!(width.outcome, Outcome::Correction);
    assert!(width.message.contains("is 1'-0\""), "12.025 in: {}", width.message);
    assert!(width.notes.contains(&"\"cabinet\" stops the leaf at 53.1 degrees.".to_owned()), "{:?}", width.notes);
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
        let mut plan = SmallHome::new("bedroom", inches("84"), inches("120")).ceiling(inches("96")).plan();
        plan.base.walls.iter_mut().for_each(|wall| [&mut wall.from, &mut wall.to].into_iter().for_each(turn));
        plan.base.rooms.iter_mut().for_each(|room| turn(&mut room.at));
        let judgement = with_home(&plan, |home, derived| judge(home, derived, &book()).expect("of one kind"));
        for rule in ["habitable-area", "least-dimension"] {
            let verdict = verdict(&judgement, rule);
            assert_eq!(verdict.outcome, Outcome::Met, "{degrees} degrees: {}", verdict.message);
        }
    }
}

/// A room of 84 x 168 whose ceiling begins at 3'-8" and rises 4" in each foot along the length: 84 x 120, 70 sq ft and 7'-0"
/// wide, is at 5'-0" or more, exactly on both limits; and 84 x 48 is at 7'-0", of which 28 sq ft falls short of 35.
#[test]
fn a_sloped_room_on_its_limits_stays_on_them_at_any_angle() {
    for degrees in [0.0, 0.1, 7.3, 33.7, 45.0, 90.0, 211.0_f64] {
        let mut plan =
            SmallHome::new("bedroom", inches("84"), inches("168")).rising_ceiling(inches("44"), inches("4")).plan();
        let turn = |point: &mut Point| *point = turned(&[*point], degrees)[0];
        plan.base.walls.iter_mut().for_each(|wall| [&mut wall.from, &mut wall.to].into_iter().for_each(turn));
        plan.base.rooms.iter_mut().for_each(|room| turn(&mut room.at));
        let slopes = plan.base.ceilings.iter_mut().filter_map(|ceiling| ceiling.slope.as_mut());
        slopes.for_each(|slope| [&mut slope.from, &mut slope.to].into_iter().for_each(turn));
        let judgement = with_home(&plan, |home, derived| judge(home, derived, &book()).expect("of one kind"));
        for (rule, outcome) in [
            ("habitable-area", Outcome::Met),
            ("least-dimension", Outcome::Met),
            ("ceiling-height", Outcome::Correction),
        ] {
            let verdict = verdict(&judgement, rule);
            assert_eq!(verdict.outcome, outcome, "{degrees} degrees: {}", verdict.message);
        }
    }
}

/// A book that states no counted heights leaves no floor out, and asks for no ceiling.
#[test]
fn a_book_may_count_floor_under_any_ceiling() {
    let text = include_str!("../../../assets/rule-books/irc-2021.toml");
    let without = text.lines().filter(|line| !line.starts_with("counted_under_")).collect::<Vec<_>>().join("\n");
    let without = without.replace("id = \"irc-2021\"", "id = \"any-ceiling\"");
    let book = RuleBook::parse(&without).expect("a readable book");
    let home = SmallHome::new("bedroom", inches("84"), inches("120"));
    for home in [home.clone(), home.rising_ceiling(inches("44"), inches("4"))] {
        let judgement = judged_by(&home, &book);
        assert_eq!(verdict(&judgement, "habitable-area").outcome, Outcome::Met);
        assert_eq!(verdict(&judgement, "least-dimension").outcome, Outcome::Met);
    }
}

/// The ceiling is over the living room only: how much of the dining room that is open to it counts, the plan does not say.
#[test]
fn a_space_with_a_part_without_a_ceiling_is_unknown_unless_it_is_too_small_anyway() {
    let home = |length: &str| {
        SmallHome::new("living", inches("84"), inches(length))
            .back_part("dining", inches("40"), Between::OpenBoundary)
            .element("ceilings", serde_json::json!({ "id": "flat", "rooms": ["room"], "height": "96 in" }))
    };
    let large = judged_by(&home("144"), &book());
    let area = verdict(&large, "habitable-area");
    assert_eq!((area.outcome, area.measured), (Outcome::Unknown, None));
    assert!(area.notes[0].starts_with("the plan has no ceiling over room \"part\""), "{:?}", area.notes);
    let small = judged_by(&home("119"), &book());
    assert_eq!(verdict(&small, "habitable-area").outcome, Outcome::Correction);
}

#[test]
fn a_room_that_an_exception_lets_off_is_named_with_the_section() {
    let let_off = |home: &SmallHome| {
        let judgement = judged_by(home, &book());
        let of_kitchen: Vec<Verdict> =
            judgement.does_not_apply().filter(|verdict| verdict.rule == "habitable-area").cloned().collect();
        of_kitchen
    };
    let home = SmallHome::new("living", inches("144"), inches("240"));
    let [apart] = &let_off(&home.clone().back_part("kitchen", inches("80"), Between::Doorway))[..] else {
        panic!("the kitchen alone is let off")
    };
    assert_eq!((apart.subject_name.as_str(), apart.message.as_str()), ("Kitchen", "Kitchens have no required area."));
    let exception = apart.exception.as_ref().expect("the book has one");
    assert_eq!((exception.text.as_str(), exception.section.as_deref()), (apart.message.as_str(), Some("R304.1")));
    assert_eq!((apart.measured, apart.required, apart.margin()), (None, None, None));
    // Open to the living room it is judged with it, and covered by the book it is judged by itself.
    assert_eq!(let_off(&home.back_part("kitchen", inches("80"), Between::OpenBoundary)), []);
    let covered = amended(
        "rooms = [\"living\", \"dining\", \"bedroom\", \"study\", \"hobby\"]",
        "rooms = [\"living\", \"kitchen\"]",
    );
    let kitchen = judged_by(&SmallHome::new("kitchen", inches("144"), inches("80")), &covered);
    assert_eq!(verdict(&kitchen, "habitable-area").outcome, Outcome::Correction, "it is nowhere 7 ft wide");
}

#[test]
fn what_does_not_apply_fails_no_plan_and_is_no_finding() {
    let judgement = judged_by(&SmallHome::new("closet", inches("60"), inches("60")), &planning());
    let rules = |outcome| judgement.with_outcome(outcome).map(|verdict| verdict.rule).collect::<Vec<_>>();
    assert_eq!(rules(Outcome::Correction), [] as [&str; 0]);
    assert_eq!(rules(Outcome::Unknown), [] as [&str; 0]);
    assert!(rules(Outcome::DoesNotApply).contains(&"toilet-side"));
    let toilet = verdict(&judgement, "toilet-side");
    assert_eq!((toilet.message.as_str(), toilet.subject), ("The home has no toilet.", None));
}

fn planning() -> RuleBook {
    RuleBook::built_in("planning-guidelines").expect("it is built in")
}
