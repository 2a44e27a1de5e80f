//! Homes whose choices matter to rooms beyond a door, a cased opening or the whole house: each was once proven wrongly.

mod common;

use plan_model::{LegalKind, Plan, file};
use plan_rules::RuleBook;
use plan_testkit::every_selection;

use common::compare;

fn home(name: &str) -> Plan {
    let path = format!("{}/tests/homes/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    file::read(&text).unwrap_or_else(|error| panic!("{path}: {error}"))
}

#[test]
fn what_lies_beyond_doors_and_openings_is_not_forgotten() {
    let names = [
        "gas-or-electric",
        "bath-beside-alarm",
        "range-beyond-opening",
        "alarm-beyond-opening",
        "den-or-bedroom",
        "door-in-mate-wall",
    ];
    for name in names {
        let plan = home(name);
        let books: &[&str] = match plan.home.legal_kind {
            LegalKind::StateLabel => &["irc-2021", "property-maintenance", "factory-limits"],
            LegalKind::FederalLabel => &["hud-3280", "factory-limits"],
        };
        let all = every_selection(&plan, plan.choices.iter());
        for book in books {
            println!("{name} by {book}");
            compare(&plan, &all, &RuleBook::built_in(book).expect("a built-in book"));
        }
    }
}
