//! What is proven of all selections of the demo home against judging each of them by itself.

mod common;

use plan_model::{Choice, Plan, Selection, file};
use plan_rules::RuleBook;
use plan_testkit::{Random, every_selection};

use common::{compare, proven};

fn sample(name: &str) -> Plan {
    let path = format!("{}/../../sample-plans/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    file::read(&text).unwrap_or_else(|error| panic!("{error}"))
}

/// The choices that change what is drawn, or what can be taken with it: others are finishes.
fn draws(choice: &&Choice) -> bool {
    choice.alternates.iter().any(|a| !a.brings.is_empty() || !a.removes.is_empty())
}

fn book(id: &str) -> RuleBook {
    RuleBook::built_in(id).expect("a built-in book")
}

#[test]
#[cfg_attr(debug_assertions, ignore = "hundreds of homes take too long without optimisation")]
fn every_drawing_of_the_demo_home_comes_out_as_proven() {
    let plan = sample("dunlin-58");
    let all = every_selection(&plan, plan.choices.iter().filter(draws));
    for id in ["irc-2021", "property-maintenance", "factory-limits"] {
        compare(&plan, &all, &book(id));
    }
}

/// Seed 58; any of the plan's selections, finishes and all.
#[test]
#[cfg_attr(debug_assertions, ignore = "thousands of homes take too long without optimisation")]
fn two_thousand_selections_of_the_demo_home_come_out_as_proven() {
    let plan = sample("dunlin-58");
    let drawn = |index: u64| {
        let mut random = Random::for_plan(58, index);
        plan.choices.iter().fold(Selection::included(&plan), |selection, choice| {
            let alternates: Vec<usize> = (0..choice.alternates.len()).collect();
            let alternate = choice.alternates[random.one_of(&alternates)].id.clone();
            let answer = plan_model::AlternateRef { choice: choice.id.clone(), alternate };
            selection.with(&plan, &answer).expect("the plan has it")
        })
    };
    let selections: Vec<Selection> = (0..2_000).map(drawn).collect();
    compare(&plan, &selections, &book("irc-2021"));
}

#[test]
fn the_other_samples_come_out_as_proven() {
    for (name, id) in [("sandpiper-50", "irc-2021"), ("turnstone-50", "hud-3280"), ("avocet-53", "irc-2021")] {
        let plan = sample(name);
        let all = every_selection(&plan, plan.choices.iter().filter(draws));
        compare(&plan, &all, &book(id));
    }
}

/// Product of the alternates of each choice, and of what the longest shower leaves: by hand.
#[test]
fn the_longest_shower_and_the_water_closet_room_cannot_be_had_together_and_only_they() {
    let plan = sample("dunlin-58");
    let proof = proven(&plan, &book("irc-2021"));
    let together: Vec<String> = proof.clashes()[0].caused_by[0].iter().map(ToString::to_string).collect();
    assert_eq!(together, ["owner-bath-layout=shower-90", "water-closet-room=room-36x66"]);
    for clash in proof.clashes() {
        assert_eq!(clash.caused_by, proof.clashes()[0].caused_by, "{:?}", clash.of);
    }
}
