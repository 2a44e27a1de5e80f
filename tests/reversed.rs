//! Homes reversed, mirrored left to right: reversed twice they are the same; their figures and verdicts are the same, but that
//! left is right; and everything stands where the mirror shows it.

use std::collections::BTreeSet;

use plan_geometry::{Amount, Derived, FixtureSide, Measure, MeasureName, Part, derive};
use plan_model::elements::{Ceiling, Slope};
use plan_model::{Eave, Id, Length, Mirror, Plan, Point, Selection, Side, file};
use plan_rules::{RuleBook, judge};
use plan_testkit::Transform;
use proptest::prelude::*;

use crate::laws::{dunlin, figures, picks, selection};

const SAMPLES: [&str; 5] = [
    include_str!("../sample-plans/dunlin-58.json"),
    include_str!("../sample-plans/sandpiper-50.json"),
    include_str!("../sample-plans/turnstone-50.json"),
    include_str!("../sample-plans/dotterel-15.json"),
    include_str!("../sample-plans/avocet-53.json"),
];

fn samples() -> impl Iterator<Item = Plan> {
    SAMPLES.into_iter().map(|text| file::read(text).unwrap_or_else(|error| panic!("{error}")))
}

/// Whether every wall stands square to the axes, where figures are exact.
fn is_square(plan: &Plan) -> bool {
    let walls = || plan.all_elements().flat_map(|elements| &elements.walls);
    walls().all(|wall| wall.from.x == wall.to.x || wall.from.y == wall.to.y)
}

/// The demo home with what it has none of: eaves at its ends and a slope.
fn with_eaves_and_a_slope() -> Plan {
    let mut plan = dunlin();
    let module = plan.modules[0].id.clone();
    let eave = |side| Eave { module: module.clone(), side, depth: Length::inches(7), in_transit: true };
    plan.home.eaves = vec![eave(Side::Left), eave(Side::Front)];
    let (from, to) = (plan.modules[0].from, plan.modules[0].to);
    let slope = Slope { from, to: Point::new(to.x, from.y), rise_per_foot: Length::inches(2), highest: None };
    let rooms = vec![plan.base.rooms[0].id.clone()];
    plan.base.ceilings.push(Ceiling { id: "vault".into(), rooms, height: Length::inches(96), slope: Some(slope) });
    plan
}

/// What a measure is told by in the reversed home, where bowls of each fixture are counted from the other end.
fn told_reversed(plan: &Plan, measure: &Measure) -> (MeasureName, Option<Part>) {
    use MeasureName::{BedLeft, BedRight, LavatoryLeft, LavatoryRight, ToiletLeft, ToiletRight};
    let name = match measure.name {
        ToiletLeft => ToiletRight,
        ToiletRight => ToiletLeft,
        LavatoryLeft => LavatoryRight,
        LavatoryRight => LavatoryLeft,
        BedLeft => BedRight,
        BedRight => BedLeft,
        name => name,
    };
    let fixtures = || plan.all_elements().flat_map(|elements| &elements.fixtures);
    let bowls = fixtures().find(|fixture| measure.of.contains(&fixture.id)).map_or(0, |fixture| fixture.bowls.len());
    let from_other_end = |bowl: usize| bowls + 1 - bowl;
    let part = measure.part.map(|part| match part {
        Part::Bowl(bowl) => Part::Bowl(from_other_end(bowl)),
        Part::Bowls([one, other]) => Part::Bowls([from_other_end(other), from_other_end(one)]),
        Part::Side(FixtureSide::Left) => Part::Side(FixtureSide::Right),
        Part::Side(FixtureSide::Right) => Part::Side(FixtureSide::Left),
        Part::LeftOfMateLine => Part::RightOfMateLine,
        Part::RightOfMateLine => Part::LeftOfMateLine,
        part => part,
    });
    (name, part)
}

/// A measure as text, by what it is told by; numbers of what nothing else tells apart follow the place on the drawing.
fn as_text((name, part): (MeasureName, Option<Part>), of: &[Id]) -> String {
    let mut of: Vec<&str> = of.iter().map(Id::as_str).collect();
    of.sort_unstable();
    let part = part.filter(|part| !matches!(part, Part::Number(_)));
    format!("{} {of:?} {part:?}", name.word())
}

fn sorted(all: impl Iterator<Item = String>) -> Vec<String> {
    let mut all: Vec<String> = all.collect();
    all.sort_unstable();
    all
}

fn assert_measures_are_those_of_the_reversed(plan: &Plan, here: &Derived, there: &Derived) {
    let amount = |text: String, measure: &Measure| format!("{text} {:?}", measure.amount);
    let image = |it: &Measure| amount(as_text(told_reversed(plan, it), &it.of), it);
    let itself = |it: &Measure| amount(as_text((it.name, it.part), &it.of), it);
    let expected = sorted(here.measures().iter().map(image));
    let found = sorted(there.measures().iter().map(itself));
    assert_same(&expected, &found, &plan.name);
}

/// The verdicts of every book that applies, without their places; sentences by their words: one that
/// names a side names the other one.
fn verdicts(plan: &Plan, selection: &Selection) -> Vec<String> {
    let home = plan.home(selection);
    let derived = derive(&home);
    let judged =
        RuleBook::built_in_ids().filter_map(RuleBook::built_in).filter(|book| book.is_for(plan.home.legal_kind));
    let of_book = |book: RuleBook| {
        let judgement = judge(&home, &derived, &book).unwrap_or_else(|error| panic!("{error}"));
        let told = judgement.verdicts.iter().map(|verdict| {
            // A door is between the room to the left of its wall and the other.
            let mut words: Vec<&str> = verdict.message.split([' ', '.', ',', ';']).collect();
            words.iter_mut().filter(|word| ["left", "right"].contains(word)).for_each(|word| *word = "side");
            words.sort_unstable();
            format!(
                "{} {:?} {:?} {:?} {} {:?} {:?} {:?}",
                verdict.rule,
                verdict.section,
                verdict.outcome,
                verdict.subject,
                words.join(" "),
                verdict.measured,
                verdict.required,
                verdict.notes,
            )
        });
        told.collect::<Vec<_>>()
    };
    sorted(judged.flat_map(of_book))
}

fn assert_same(here: &[String], there: &[String], what: &str) {
    let differing: Vec<_> = here.iter().zip(there).filter(|(one, other)| one != other).take(4).collect();
    assert!(differing.is_empty() && here.len() == there.len(), "{what}: {differing:#?}");
}

fn assert_verdicts_are_the_same_reversed(plan: &Plan, selection: &Selection) {
    let reversed = selection.with_reversed(true);
    assert_same(&verdicts(plan, selection), &verdicts(plan, &reversed), &format!("{} {selection:?}", plan.name));
}

#[test]
fn a_home_reversed_twice_is_the_same_home() {
    for plan in samples().chain([with_eaves_and_a_slope()]) {
        let reversed = plan.reversed();
        assert_ne!(reversed, plan);
        assert_eq!(reversed.reversed(), plan, "{}", plan.name);
        assert_eq!(Mirror::of(&reversed), Mirror::of(&plan), "{}", plan.name);
        let selection = Selection::included(&plan);
        let home = plan.home(&selection);
        assert_eq!(home.reversed().reversed(), home);
        assert_eq!(plan.home(&selection.with_reversed(true)), home.reversed());
        assert_eq!(reversed.home(&selection), home.reversed(), "the home of the reversed plan");
    }
}

#[test]
fn a_reversed_plan_is_a_plan_and_stands_where_the_plan_stood() {
    for plan in samples() {
        let reversed = plan.reversed();
        let read = file::read(&file::write(&reversed)).unwrap_or_else(|error| panic!("{}: {error}", plan.name));
        assert_eq!(read, reversed);
        let extent = |plan: &Plan| {
            let ends = plan.modules.iter().flat_map(|module| [module.from.x, module.to.x]);
            (ends.clone().min(), ends.max())
        };
        assert_eq!(extent(&reversed), extent(&plan));
    }
}

/// The mirror of the test kit, which was written for itself, moved to where the modules stand.
#[test]
fn it_is_the_home_that_the_test_kit_mirrors() {
    for plan in samples() {
        let ends = || plan.modules.iter().flat_map(|module| [module.from.x, module.to.x]);
        let sum = ends().min().unwrap_or_default() + ends().max().unwrap_or_default();
        let elsewhere = Transform::Moved(Point::new(sum, Length::ZERO)).plan(&Transform::Mirrored.plan(&plan));
        let selection = Selection::included(&plan);
        let (one, other) = (derive(&plan.home(&selection.with_reversed(true))), derive(&elsewhere.home(&selection)));
        assert_eq!(one.footprint, other.footprint, "{}", plan.name);
        let outlines = |derived: &Derived| -> Vec<_> {
            let doors = derived.doors.iter().map(|door| door.outline);
            doors.chain(derived.windows.iter().map(|window| window.outline)).collect()
        };
        assert_eq!(outlines(&one), outlines(&other), "{}", plan.name);
        assert_eq!(figures(&one), figures(&other), "{}", plan.name);
    }
}

#[test]
fn figures_and_verdicts_of_every_sample_plan_are_the_same_reversed() {
    for plan in samples().filter(is_square) {
        let alternates = plan.choices.iter().flat_map(|choice| choice.alternates.iter().map(move |it| (choice, it)));
        let alone = alternates.filter(|(_, alternate)| !alternate.included).map(|(choice, alternate)| {
            let answer = format!("{}={}", choice.id, alternate.id).parse().expect("an answer");
            Selection::included(&plan).with(&plan, &answer).expect("an alternate of the plan")
        });
        for selection in alone.chain([Selection::included(&plan)]) {
            let reversed = selection.with_reversed(true);
            let (here, there) = (derive(&plan.home(&selection)), derive(&plan.home(&reversed)));
            assert_measures_are_those_of_the_reversed(&plan, &here, &there);
            assert_verdicts_are_the_same_reversed(&plan, &selection);
        }
    }
}

/// Faces of walls off the axes lie within a step of true, and so do those of their images: each figure is the other within
/// what both claim to be off by.
#[test]
fn figures_of_walls_off_the_axes_agree_within_their_slack() {
    let plan = samples().find(|plan| !is_square(plan)).expect("a plan with walls at an angle");
    let selection = Selection::included(&plan);
    let (here, there) = (derive(&plan.home(&selection)), derive(&plan.home(&selection.with_reversed(true))));
    let lengths = |derived: &Derived, told: &dyn Fn(&Measure) -> (MeasureName, Option<Part>)| {
        let length = |measure: &Measure| match &measure.amount {
            Amount::Length(length) => Some((as_text(told(measure), &measure.of), *length)),
            _ => None,
        };
        let mut lengths: Vec<_> = derived.measures().iter().filter_map(length).collect();
        lengths.sort_unstable_by(|one, other| one.0.cmp(&other.0).then(one.1.value.cmp(&other.1.value)));
        lengths
    };
    let expected = lengths(&here, &|measure| told_reversed(&plan, measure));
    let found = lengths(&there, &|measure| (measure.name, measure.part));
    assert_eq!(expected.len(), found.len());
    assert!(expected.iter().any(|(_, length)| length.slack > Length::ZERO), "the plan has walls at an angle");
    for ((one, length), (other, image)) in expected.iter().zip(&found) {
        assert_eq!(one, other);
        assert!((length.value - image.value).abs() <= length.slack + image.slack, "{one}: {length:?} and {image:?}");
    }
    let outcomes = |selection: &Selection| {
        let home = plan.home(selection);
        let book = RuleBook::built_in("irc-2021").expect("a built-in book");
        let judgement = judge(&home, &derive(&home), &book).unwrap_or_else(|error| panic!("{error}"));
        let told =
            |verdict: &plan_rules::Verdict| format!("{} {:?} {:?}", verdict.rule, verdict.subject, verdict.outcome);
        sorted(judgement.verdicts.iter().map(told))
    };
    assert_same(&outcomes(&selection), &outcomes(&selection.with_reversed(true)), &plan.name);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn any_selection_of_the_demo_home_reversed_keeps_its_figures_and_verdicts(picks in picks()) {
        let plan = with_eaves_and_a_slope();
        let selection = selection(&plan, &picks);
        let reversed = selection.with_reversed(true);
        let (here, there) = (derive(&plan.home(&selection)), derive(&plan.home(&reversed)));
        prop_assert_eq!(figures(&here), figures(&there));
        assert_measures_are_those_of_the_reversed(&plan, &here, &there);
        if here.problems.iter().all(|problem| !problem.kind.is_conflict()) {
            assert_verdicts_are_the_same_reversed(&plan, &selection);
        }
    }

    #[test]
    fn everything_stands_where_the_mirror_shows_it(picks in picks()) {
        let plan = dunlin();
        let mirror = Mirror::of(&plan);
        let selection = selection(&plan, &picks);
        let (here, there) = (derive(&plan.home(&selection)), derive(&plan.home(&selection.with_reversed(true))));
        let corners = |corners: &[Point]| corners.iter().copied().collect::<BTreeSet<_>>();
        let images = |corners: &[Point]| corners.iter().map(|corner| mirror.point(*corner)).collect::<BTreeSet<_>>();
        for (wall, image) in here.walls.iter().zip(&there.walls) {
            prop_assert_eq!(images(&wall.outline), corners(&image.outline), "{}", &wall.id);
        }
        for (room, image) in here.rooms.iter().zip(&there.rooms) {
            prop_assert_eq!(images(&room.region.outer), corners(&image.region.outer), "{}", &room.id);
        }
        for (door, image) in here.doors.iter().zip(&there.doors) {
            prop_assert_eq!(images(&door.outline), corners(&image.outline), "{}", &door.id);
            let leaf = |door: &plan_geometry::DoorFigures| door.leaf.as_ref().map(|leaf| leaf.stopped_by.clone());
            prop_assert_eq!(leaf(door), leaf(image), "{}", &door.id);
        }
    }
}
