use plan_geometry::derive;
use plan_model::file::read;
use plan_model::{Plan, Selection};

use super::*;

fn demo() -> Plan {
    read(include_str!("../../../../sample-plans/dunlin-58.json")).expect("the demo plan is sound")
}

fn parsed(text: &str) -> Length {
    Length::parse(text, Units::In).expect("a string's figure reads back as a length")
}

#[test]
fn the_figures_of_every_string_add_up_to_the_whole() {
    let plan = demo();
    let home = plan.home(&Selection::included(&plan));
    let derived = derive(&home);
    for (side, whole) in [(Side::Front, 696), (Side::Back, 696), (Side::Left, 330), (Side::Right, 330)] {
        let rows = wanted_rows(&home, &derived, Direction::new(side), Rows::All, 4.5);
        assert!(rows.len() > 1, "{side:?}");
        for row in rows {
            let sum: Length = row.figures().iter().map(|figure| parsed(figure)).sum();
            assert_eq!(sum, Length::inches(whole), "{side:?}: {row:?}");
        }
    }
}

#[test]
fn the_ends_of_the_house_show_each_module() {
    let plan = demo();
    let home = plan.home(&Selection::included(&plan));
    let derived = derive(&home);
    let rows = wanted_rows(&home, &derived, Direction::new(Side::Left), Rows::All, 4.5);
    let figures: Vec<_> = rows.iter().rev().take(2).map(Row::figures).collect();
    assert_eq!(figures, [&["27'-6\""][..], &["13'-9\"", "13'-9\""][..]]);
}

#[test]
fn large_lettering_measures_openings_by_their_middle() {
    let plan = demo();
    let home = plan.home(&Selection::included(&plan));
    let derived = derive(&home);
    let front = |lettering| wanted_rows(&home, &derived, Direction::new(Side::Front), Rows::All, lettering);
    let cuts = |lettering: f64| front(lettering)[0].at().len();
    assert!(cuts(40.0) < cuts(4.5));
}
