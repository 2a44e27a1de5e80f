//! The check of every selection in the window: it is worked on beside the window, and what it finds can be shown.

use std::thread;
use std::time::{Duration, Instant};

use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use mateline_app::files::{Files, Recent};
use mateline_app::{Mateline, demo};
use plan_rules::RuleBook;

fn window() -> Harness<'static, Mateline> {
    let book = RuleBook::built_in("irc-2021").expect("it comes with the program");
    let plan = demo().unwrap_or_else(|error| panic!("{error}"));
    let files = Files::unsaved(Recent::default());
    let builder = Harness::builder().with_size([1440.0, 900.0]).with_max_steps(20).with_render_cursor(false).wgpu();
    let mut harness = builder.build_eframe(|created| Mateline::new(&created.egui_ctx, plan, book, files, None));
    harness.run();
    harness
}

fn shows(harness: &Harness<'_, Mateline>, text: &str) -> bool {
    harness.query_all_by_label_contains(text).next().is_some()
}

/// However slow the machine is, it is done long before.
const LONGEST: Duration = Duration::from_secs(300);

fn wait_for(harness: &mut Harness<'_, Mateline>, text: &str) {
    let since = Instant::now();
    while !shows(harness, text) {
        assert!(since.elapsed() < LONGEST, "{text} does not come");
        thread::sleep(Duration::from_millis(20));
        harness.step();
    }
}

#[test]
fn every_selection_is_checked_beside_the_window_and_a_fault_can_be_shown() {
    let mut harness = window();
    harness.key_press(Key::F8);
    harness.step();
    harness.step();
    assert!(shows(&harness, "homes looked at so far"), "the window goes on while it is worked on");
    wait_for(&mut harness, "can be sold");
    harness.run();
    for told in [
        "Of 276,480 selections, 228,480 can be sold.",
        "195,840 of those meet the book; 32,640 fall short of it.",
        "With Owner's bath: 48 x 66 walk-in shower and Water-closet room: 36 x 66.",
        "Each of these choices meets the rule without the others.",
        "With Owner's bath: 48 x 90 walk-in shower and Water-closet room: 36 x 66.",
    ] {
        assert!(shows(&harness, told), "{told}");
    }
    harness.snapshot("every_selection");
    let show = harness.get_all_by_label("Show").next();
    show.expect("the fault can be shown").click_accesskit();
    harness.run();
    let shown = harness.state().session().shown();
    assert_eq!(shown.corrections().count(), 1, "the one that was told");
    assert!(!shows(&harness, "can be sold"), "the check is closed");
    assert_eq!(harness.state().session().can_undo(), Some("open a selection"));
}

#[test]
fn whoever_stops_the_check_has_the_window_back() {
    let mut harness = window();
    harness.key_press(Key::F8);
    harness.step();
    harness.step();
    harness.get_by_label("Stop").click_accesskit();
    harness.run();
    assert!(!shows(&harness, "homes looked at so far") && !shows(&harness, "can be sold"));
}
