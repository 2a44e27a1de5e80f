//! A published model whose numbers are known: the mobile phone of Benavides, Segura and Ruiz-Cortes, "Automated analysis of
//! feature models 20 years later: a literature review", Information Systems 35 (2010), figure 1 and its worked numbers.
//!
//! A phone has calls and one screen of three, perhaps GPS, and perhaps media: a camera, a music player or both. A camera needs
//! the high-resolution screen; GPS cannot be had with the basic one.

use std::ops::ControlFlow;

use num_bigint::BigUint;
use plan_model::{AlternateRef, Plan, file};
use plan_proof::Compatibility;

const PHONE: &str = r#"{
    "mateline_plan": 1, "name": "Phone", "maker": "Test", "units": "in", "currency": "USD",
    "base_price": "100", "home": { "legal_kind": "state-label" }, "modules": [], "base": {},
    "choices": [
        { "id": "screen", "name": "Screen", "alternates": [
            { "id": "basic", "name": "Basic", "included": true, "excludes": ["gps=yes"] },
            { "id": "colour", "name": "Colour" },
            { "id": "high-resolution", "name": "High resolution" } ] },
        { "id": "gps", "name": "GPS", "alternates": [
            { "id": "no", "name": "No", "included": true }, { "id": "yes", "name": "Yes" } ] },
        { "id": "media", "name": "Media", "alternates": [
            { "id": "no", "name": "No", "included": true }, { "id": "yes", "name": "Yes" } ] },
        { "id": "camera", "name": "Camera", "alternates": [
            { "id": "no", "name": "No", "included": true },
            { "id": "yes", "name": "Yes", "needs": ["screen=high-resolution", "media=yes"] } ] },
        { "id": "mp3", "name": "Music", "alternates": [
            { "id": "no", "name": "No", "included": true }, { "id": "yes", "name": "Yes", "needs": ["media=yes"] } ] }
    ],
    "counts": [ { "name": "what media are", "of": ["camera=yes", "mp3=yes"], "at_least": 1, "with": "media=yes" } ]
}"#;

fn phone() -> Plan {
    file::read(PHONE).unwrap_or_else(|error| panic!("{error}"))
}

fn compatibility(plan: &Plan) -> Compatibility<'_> {
    Compatibility::of(plan, &mut |_| ControlFlow::Continue(())).expect("nobody stops it")
}

fn with(answers: &[&str], plan: &Plan) -> BigUint {
    let answers: Vec<AlternateRef> = answers.iter().map(|answer| answer.parse().expect("CHOICE=ALTERNATE")).collect();
    compatibility(plan).possible_with(&answers)
}

#[test]
fn fourteen_products_and_how_many_have_each_feature() {
    let plan = phone();
    assert_eq!(compatibility(&plan).possible(), BigUint::from(14_u8));
    for (feature, count) in [
        ("screen=basic", 2_u8),
        ("screen=colour", 4),
        ("screen=high-resolution", 8),
        ("gps=yes", 6),
        ("media=yes", 9),
        ("camera=yes", 4),
        ("mp3=yes", 7),
    ] {
        assert_eq!(with(&[feature], &plan), BigUint::from(count), "{feature}");
    }
}

#[test]
fn six_pairs_can_never_meet_and_two_of_them_nobody_declared() {
    let plan = phone();
    let features =
        ["screen=basic", "screen=colour", "screen=high-resolution", "gps=yes", "media=yes", "camera=yes", "mp3=yes"];
    let mut never = Vec::new();
    for (at, one) in features.iter().enumerate() {
        for other in &features[at + 1..] {
            if with(&[one, other], &plan) == BigUint::ZERO {
                never.push([*one, *other]);
            }
        }
    }
    let expected = [
        ["screen=basic", "screen=colour"],
        ["screen=basic", "screen=high-resolution"],
        ["screen=basic", "gps=yes"],
        ["screen=basic", "camera=yes"],
        ["screen=colour", "screen=high-resolution"],
        ["screen=colour", "camera=yes"],
    ];
    assert_eq!(never, expected);
}

#[test]
fn whoever_wants_a_camera_is_told_what_stands_against_it_and_what_could_be_had() {
    let plan = phone();
    let chosen = plan_model::Selection::included(&plan);
    let why = compatibility(&plan).why_not(&chosen, &"camera=yes".parse().expect("an answer")).expect("it is refused");
    let names = |answers: &[AlternateRef]| answers.iter().map(ToString::to_string).collect::<Vec<_>>();
    // One that stands against it is enough to tell: the screen, the first in the plan.
    assert_eq!(names(&why.blocked_by), ["screen=basic"]);
    let [nearest] = why.nearest.as_slice() else { panic!("one is nearest: {:?}", why.nearest) };
    for answer in ["screen=high-resolution", "media=yes", "camera=yes", "gps=no", "mp3=no"] {
        assert!(nearest.takes(&answer.parse().expect("an answer")), "{answer}");
    }
    let reversed = compatibility(&plan).why_not(&chosen.with_reversed(true), &"camera=yes".parse().expect("an answer"));
    assert_eq!(reversed.map(|why| why.nearest), Some(vec![nearest.with_reversed(true)]));
    let fits = compatibility(&plan).why_not(nearest, &"gps=yes".parse().expect("an answer"));
    assert_eq!(fits, None);
}
