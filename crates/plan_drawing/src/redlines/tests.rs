use plan_geometry::derive;
use plan_model::{Exact, Id, Length, Plan, Selection};
use plan_rules::{AnsweredBy, Place, Quantity, RestsOn, What};
use plan_testkit::SmallHome;

use super::*;
use crate::Item;

fn small() -> Plan {
    SmallHome::new("bedroom", Length::inches(120), Length::inches(100)).plan()
}

fn verdict(outcome: Outcome, inches: i128) -> Verdict {
    let exact = |inches: i128| Exact::from(inches * i128::from(Length::INCH.steps()));
    Verdict {
        rule: "a-rule",
        section: None,
        outcome,
        subject: Some(Id::from("room")),
        subject_name: "Bedroom".to_owned(),
        quantity: Quantity::LengthAtLeast,
        measured: Some(exact(inches)),
        required: Some(exact(84)),
        message: String::new(),
        notes: vec![],
        place: Place {
            at: plan_model::Point::inches(60, 50),
            dimension: Some([plan_model::Point::inches(10, 50), plan_model::Point::inches(93, 50)]),
            outline: vec![],
        },
        answered_by: AnsweredBy::Factory,
        rests_on: RestsOn::Surroundings,
        what: What::Everything,
        enter: None,
        exception: None,
    }
}

fn texts(drawing: &Drawing) -> Vec<(&str, Ink)> {
    drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Text(text) => Some((text.text.as_str(), text.ink)),
            Item::Fill { .. } | Item::Stroke { .. } => None,
        })
        .collect()
}

fn marked(verdicts: &[Verdict]) -> Drawing {
    let plan = small();
    let home = plan.home(&Selection::included(&plan));
    redlines(&home, &derive(&home), verdicts, 4.5)
}

#[test]
fn rules_that_are_met_leave_no_mark() {
    assert!(marked(&[verdict(Outcome::Met, 90), verdict(Outcome::DoesNotApply, 0)]).items.is_empty());
}

#[test]
fn corrections_are_numbered_in_their_own_order() {
    let outcomes = [Outcome::Advisory, Outcome::Correction, Outcome::Met, Outcome::Unknown, Outcome::Correction];
    let drawing = marked(&outcomes.map(|outcome| verdict(outcome, 83)));
    let signs: Vec<_> = texts(&drawing).into_iter().map(|(text, _)| text).filter(|text| text.len() == 1).collect();
    assert_eq!(signs, ["A", "1", "?", "2"]);
}

#[test]
fn a_correction_says_measured_and_required() {
    let drawing = marked(&[verdict(Outcome::Correction, 83)]);
    assert_eq!(texts(&drawing)[0], ("6'-11\" / 7'-0\" MIN", Ink::Redline));
}

#[test]
fn a_flag_says_what_is_measured() {
    let plan = small();
    let derived = derive(&plan.home(&Selection::included(&plan)));
    let figures = |verdict: &Verdict| words::figures(verdict, &derived, plan_model::Units::In);
    let mut sill = verdict(Outcome::Correction, 90);
    (sill.quantity, sill.rule) = (Quantity::LengthAtMost, "egress-sill");
    assert_eq!(figures(&sill).as_deref(), Some("SILL 7'-6\" / 7'-0\" MAX"));
    let mut unknown = verdict(Outcome::Unknown, 0);
    unknown.measured = None;
    assert_eq!(figures(&unknown).as_deref(), Some("7'-0\" MIN"));
    // The small home's room is 120 x 100 in: 83.3 sq ft.
    let mut counted = verdict(Outcome::Correction, 0);
    (counted.quantity, counted.rule) = (Quantity::AreaAtLeast, "habitable-area");
    counted.required = Some(plan_geometry::Area::SQUARE_FOOT.exact() * Exact::from(90));
    assert_eq!(figures(&counted).as_deref(), Some("COUNTED 0 of 83.3 sq ft / 90 sq ft MIN"));
    counted.measured = Some(derived.rooms[0].floor_area.exact());
    assert_eq!(figures(&counted).as_deref(), Some("AREA 83.3 sq ft / 90 sq ft MIN"));
}

#[test]
fn flags_of_a_window_stand_outside_the_house_clear_of_tags_and_of_each_other() {
    let text = include_str!("../../../../sample-plans/dunlin-58.json");
    let plan = plan_model::file::read(text).expect("the demo plan is sound");
    let home = plan.home(&Selection::included(&plan));
    let derived = derive(&home);
    let window = derived.window(&Id::from("flex-window")).expect("a window of the demo home");
    let of_window = |rule, inches| {
        let mut verdict = verdict(Outcome::Correction, inches);
        verdict.rule = rule;
        verdict.subject = Some(window.id.clone());
        verdict.place =
            Place { at: plan_model::Point::inches(631, 327), dimension: None, outline: window.outline.to_vec() };
        verdict
    };
    let verdicts = [of_window("egress-width", 19), of_window("egress-height", 21), of_window("egress-sill", 60)];
    for lettering in [4.5, 5.625, 7.03, 8.79] {
        let drawing = redlines(&home, &derived, &verdicts, lettering);
        let of = |drawing: &Drawing| -> Vec<Rect> {
            let bounds = |item: &Item| match item {
                Item::Text(text) => Some(text.bounds()),
                Item::Fill { .. } | Item::Stroke { .. } => None,
            };
            drawing.items.iter().filter_map(bounds).collect()
        };
        let flags = of(&drawing);
        assert_eq!(flags.len(), 6, "a number and figures each");
        let house = crate::plan_drawing::house(&home, &derived).expect("a house");
        let tags = of(&crate::draw_plan(&home, &derived, lettering));
        for (index, flag) in flags.iter().enumerate() {
            assert!(flag.intersect(house).area() == 0.0, "{flag:?}, lettering {lettering}");
            let others = flags[index + 1..].iter().chain(&tags);
            assert!(others.into_iter().all(|other| other.intersect(*flag).area() == 0.0), "lettering {lettering}");
        }
    }
}

#[test]
fn flags_do_not_cover_each_other() {
    let drawing = marked(&[83, 82, 81, 80].map(|inches| verdict(Outcome::Correction, inches)));
    let bounds: Vec<Rect> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Text(text) => Some(text.bounds()),
            Item::Fill { .. } | Item::Stroke { .. } => None,
        })
        .collect();
    for (index, one) in bounds.iter().enumerate() {
        assert!(bounds[index + 1..].iter().all(|other| one.intersect(*other).area() == 0.0));
    }
}

#[test]
fn a_place_without_shape_or_dimension_is_still_marked() {
    let mut bare = verdict(Outcome::Correction, 83);
    bare.place.dimension = None;
    bare.subject = None;
    assert!(marked(&[bare]).bounds().is_some_and(|bounds| bounds.contains(Point::new(60.0, 50.0))));
}
