//! Plan files, whole and broken: whatever a file holds, it is read or refused with a place, and never half read.

use plan_model::{Plan, file};
use proptest::prelude::*;

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");

fn refused(text: &str) -> String {
    match file::read(text) {
        Ok(_) => panic!("the file was read"),
        Err(error) => error.to_string(),
    }
}

fn with(what: &str, instead: &str) -> String {
    assert!(DUNLIN.contains(what), "the demo home holds {what}");
    DUNLIN.replacen(what, instead, 1)
}

#[test]
fn a_slip_of_the_hand_gets_the_nearest_name() {
    let sentence = refused(&with("\"thickness\"", "\"thicknes\""));
    assert!(sentence.contains("unknown field `thicknes`; did you mean `thickness`?"), "{sentence}");
    assert!(sentence.starts_with("line "), "{sentence}");
    let sentence = refused(&with("\"partition\"", "\"partiton\""));
    assert!(sentence.contains("did you mean `partition`?"), "{sentence}");
}

#[test]
fn a_reference_to_nothing_is_placed_at_the_reference() {
    let sentence = refused(&with("\"wall\": \"front-wall\"", "\"wall\": \"front-wal\""));
    assert!(
        sentence.contains(
            "base.doors[0].wall (\"front-door\"): there is no wall \"front-wal\"; did you mean \"front-wall\"?"
        ),
        "{sentence}"
    );
    let line = DUNLIN.lines().position(|line| line.contains("\"front-door\"")).map(|line| line + 1);
    assert!(sentence.starts_with(&format!("line {},", line.unwrap_or_default())), "{sentence}");
}

#[test]
fn every_problem_is_told_at_once() {
    let broken =
        with("\"id\": \"back-wall\"", "\"id\": \"front-wall\"").replacen("\"thickness\": 6.5", "\"thickness\": 0", 1);
    let problems = file::read(&broken).expect_err("two faults").problems;
    let told: Vec<String> = problems.iter().map(ToString::to_string).collect();
    assert!(told.iter().any(|t| t.contains("the id \"front-wall\" is taken by base.walls[0]")), "{told:?}");
    assert!(told.iter().any(|t| t.contains("expected a length greater than zero")), "{told:?}");
}

/// The plan that README.md shows is a whole plan.
#[test]
fn the_plan_in_the_readme_is_read() {
    let readme = include_str!("../README.md");
    let plan = readme.split("```json\n").nth(1).and_then(|rest| rest.split("```").next()).unwrap_or_default();
    let plan = file::read(plan).unwrap_or_else(|error| panic!("{error}"));
    let derived = plan_geometry::derive(&plan.home(&plan_model::Selection::included(&plan)));
    assert_eq!(derived.problems, []);
    assert_eq!(derived.rooms.len(), 1);
}

#[test]
fn another_version_is_named() {
    let sentence = refused(&with("\"mateline_plan\": 1", "\"mateline_plan\": 2"));
    assert!(sentence.contains("reads version 1 of the plan file, not 2"), "{sentence}");
}

#[test]
fn deep_nesting_ends_in_a_sentence() {
    let sentence = refused(&"[".repeat(1_000_000));
    assert!(sentence.contains("recursion limit exceeded"), "{sentence}");
}

#[test]
fn units_are_read_before_lengths_wherever_they_stand() {
    let inches = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let moved = with("  \"units\": \"in\",\n", "").replacen("\"base\": {", "\"units\": \"in\", \"base\": {", 1);
    assert_eq!(file::read(&moved).unwrap_or_else(|error| panic!("{error}")), inches);
}

proptest! {
    /// Whatever happens to the bytes of a plan, it is read or refused with a sentence.
    #[test]
    fn damage_never_panics(at in 0..DUNLIN.len(), length in 0..40_usize, text in "[-0-9a-z\"{}\\[\\]:,.' ]{0,12}") {
        let start = (0..=at).rev().find(|at| DUNLIN.is_char_boundary(*at)).unwrap_or(0);
        let end = (start + length..DUNLIN.len()).find(|at| DUNLIN.is_char_boundary(*at)).unwrap_or(DUNLIN.len());
        let damaged = format!("{}{text}{}", &DUNLIN[..start], &DUNLIN[end..]);
        match file::read(&damaged) {
            Ok(plan) => prop_assert_eq!(file::read(&file::write(&plan)), Ok::<Plan, _>(plan)),
            Err(error) => prop_assert!(!error.problems.is_empty() && !error.to_string().is_empty()),
        }
    }
}
