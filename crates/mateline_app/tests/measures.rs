//! Every measure can be shown on the plan: it is listed under its room, and drawn where it was taken.

use egui_kittest::kittest::Queryable;
use egui_kittest::{Harness, SnapshotResults};
use mateline_app::board::Highlight;
use mateline_app::files::{Files, Recent};
use mateline_app::{Mateline, demo};
use plan_geometry::MeasureName;
use plan_rules::RuleBook;

fn window() -> Harness<'static, Mateline> {
    let plan = demo().unwrap_or_else(|error| panic!("{error}"));
    let builder = Harness::builder().with_size([1440.0, 900.0]).with_max_steps(20).with_render_cursor(false);
    let mut harness = builder.wgpu().build_eframe(|created| {
        let book = RuleBook::built_in("irc-2021").expect("it comes with the program");
        Mateline::new(&created.egui_ctx, plan, book, Files::unsaved(Recent::default()), None)
    });
    harness.run();
    harness
}

/// Clicks the first row of the lists whose label has this in it, wherever it is scrolled.
fn choose(harness: &mut Harness<'_, Mateline>, label: &str) {
    let row = harness.get_all_by_label_contains(label).next();
    row.unwrap_or_else(|| panic!("a row {label}")).click_accesskit();
    harness.run();
}

fn marked(harness: &Harness<'_, Mateline>) -> Option<MeasureName> {
    match harness.state().board().highlight() {
        Some(Highlight::Measure { known, .. }) => Some(known.name),
        _ => None,
    }
}

#[test]
fn what_is_measured_in_a_room_is_listed_under_it_and_shown_on_the_plan() {
    let mut harness = window();
    assert!(harness.query_by_label_contains("Toilet front").is_none(), "no room is chosen");
    choose(&mut harness, "Owner's bath, 5'-7 1/2\"");
    choose(&mut harness, "Toilet front, owner toilet");
    assert_eq!(marked(&harness), Some(MeasureName::ToiletFront));
    harness.get_by_label_contains("Toilet front, owner toilet");
    choose(&mut harness, "Bedroom 2, 9'-8\"");
    assert!(harness.query_by_label_contains("Toilet front").is_none(), "another room is chosen");
}

#[test]
fn what_is_measured_of_the_whole_home_is_listed_too() {
    let mut harness = window();
    choose(&mut harness, "Whole home, heated area 1595 sq ft");
    assert!(matches!(harness.state().board().highlight(), Some(Highlight::Home { .. })));
    choose(&mut harness, "Heated area: ");
    assert_eq!(marked(&harness), Some(MeasureName::HeatedArea));
}

/// The awning window of the owner's bath has no published clear opening, and the catalogue no deduction for awnings.
#[test]
fn what_is_unknown_is_listed_with_the_reason() {
    let mut harness = window();
    choose(&mut harness, "Owner's bath, 5'-7 1/2\"");
    let row = "Window clear width, owner bath window: unknown: unit \"awning-36x24\" has no published clear width";
    harness.get_by_label_contains(row);
    let below = harness.get_all_by_label_contains("unit \"awning-36x24\" has no published clear width");
    assert!(below.count() > 1, "it stands below the row as well");
}

/// Two bowls of one vanity are two rows that somebody who reads or hears them can tell apart.
#[test]
fn bowls_of_one_vanity_are_told_apart() {
    let mut harness = window();
    choose(&mut harness, "Owner's bath, 5'-7 1/2\"");
    for (bowl, left) in [(1, "4'-9\""), (2, "7'-9\"")] {
        harness.get_by_label_contains(&format!("Lavatory left, bowl {bowl}, owner vanity: {left}"));
    }
}

#[test]
fn pictures_of_measures() {
    let mut results = SnapshotResults::new();
    for (picture, room, measure) in [
        ("measure_toilet_front", "Owner's bath, 5'-7 1/2\"", "Toilet front, owner toilet"),
        ("measure_way_out", "Bedroom 3, 9'-0 1/2\"", "Way out"),
        ("measure_turning_circle", "Living, 19'-4\"", "Turning circle"),
        ("measure_whole_home", "Whole home", "Module shipping width"),
    ] {
        let mut harness = window();
        choose(&mut harness, room);
        choose(&mut harness, measure);
        harness.remove_cursor();
        harness.run();
        results.add(harness.try_snapshot(picture));
    }
    // Far down in the list; what has the keyboard comes into view.
    let mut harness = window();
    choose(&mut harness, "Linen, ");
    choose(&mut harness, "Least dimension");
    let below = harness.get_all_by_label_contains("Turning circle").next();
    below.expect("a row below the reason").focus();
    harness.run();
    harness.remove_cursor();
    harness.run();
    results.add(harness.try_snapshot("measure_unknown"));
}
