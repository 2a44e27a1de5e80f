//! Amending a limit in the window: verdicts follow at once, and the code comes back.

use egui::Key;
use egui_kittest::kittest::Queryable;
use egui_kittest::{Harness, SnapshotResults};
use mateline_app::files::{Files, Recent};
use mateline_app::{Mateline, demo};
use plan_rules::{Limit, RuleBook};

fn window(size: [f32; 2]) -> Harness<'static, Mateline> {
    let book = RuleBook::built_in("irc-2021").expect("it comes with the program");
    let plan = demo().unwrap_or_else(|error| panic!("{error}"));
    let builder = Harness::builder().with_size(size).with_max_steps(20).with_render_cursor(false).wgpu();
    let mut harness = builder
        .build_eframe(|created| Mateline::new(&created.egui_ctx, plan, book, Files::unsaved(Recent::default()), None));
    harness.run();
    harness
}

/// Clicks what is labelled so, wherever it is scrolled.
fn click(harness: &mut Harness<'_, Mateline>, label: &str) {
    let found = harness.get_all_by_label_contains(label).next();
    found.unwrap_or_else(|| panic!("{label}")).click_accesskit();
    harness.run();
}

/// Puts another text into the field of this name.
fn enter(harness: &mut Harness<'_, Mateline>, field: &str, text: &str) {
    harness.get_by_label(field).focus();
    harness.run();
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
    harness.event(egui::Event::Paste(text.to_owned()));
    harness.run();
}

fn shows(harness: &Harness<'_, Mateline>, text: &str) -> bool {
    harness.query_all_by_label_contains(text).next().is_some()
}

fn book<'a>(harness: &'a Harness<'_, Mateline>) -> &'a RuleBook {
    harness.state().session().book()
}

/// Opens the form for the depth before the furnace, of which 2'-6" is asked and 1'-7" is there.
fn amend_the_furnace(harness: &mut Harness<'_, Mateline>) {
    click(harness, "Advisory: The space before the front of the furnace");
    click(harness, "Explain");
    click(harness, "Amend...");
}

fn say_who(harness: &mut Harness<'_, Mateline>) {
    enter(harness, "Authority that adopted it", "Town of Alder");
    enter(harness, "Date from which it holds", "2026-07-01");
    enter(harness, "Reason", "Small closets.");
}

fn advisories(harness: &Harness<'_, Mateline>) -> Vec<String> {
    let shown = harness.state().session().shown();
    let judged = shown.judgement.as_ref().expect("the book is for it");
    judged.advisories().map(|verdict| verdict.message.clone()).collect()
}

#[test]
fn a_limit_is_amended_and_verdicts_follow_until_the_code_comes_back() {
    let mut harness = window([1440.0, 900.0]);
    let before = advisories(&harness);
    assert_eq!(before.len(), 2, "{before:?}");
    amend_the_furnace(&mut harness);
    enter(&mut harness, "depth", "20 in");
    say_who(&mut harness);
    click(&mut harness, "Apply");
    assert_eq!(
        advisories(&harness),
        before[..1].iter().map(|told| told.replace("2'-6\"", "1'-8\"")).collect::<Vec<_>>()
    );
    assert!(shows(&harness, "Judged by International Residential Code, 2021, amended by Local amendment"));
    assert!(shows(&harness, "2'-6\" in the code"), "the explanation tells both figures");
    assert_eq!(harness.state().session().can_undo(), None, "an amendment is no part of the plan");
    let judged = harness.state().session().shown().judgement.as_ref().expect("the book is for it");
    let notes = judged.advisories().flat_map(|verdict| &verdict.notes).cloned().collect::<Vec<_>>();
    assert!(notes.contains(&"amended: `depth` is 1'-8\", 2'-6\" in the code".to_owned()), "{notes:?}");

    click(&mut harness, "Judged by");
    click(&mut harness, "Back to the code");
    assert_eq!(advisories(&harness), before);
    assert!(!shows(&harness, "amended by"));
}

#[test]
fn what_is_refused_stands_beside_its_field_and_changes_nothing() {
    let mut harness = window([1440.0, 900.0]);
    amend_the_furnace(&mut harness);
    for (typed, refusal) in [
        ("30", "`30` has no unit"),
        ("3 sq ft", "`3 sq ft` is not a length such as 7 ft or 36 in"),
        ("0 in", "`depth` cannot be 0"),
    ] {
        enter(&mut harness, "depth", typed);
        if typed == "30" {
            click(&mut harness, "Apply");
            assert!(shows(&harness, "Say who adopted it."));
            say_who(&mut harness);
        }
        click(&mut harness, "Apply");
        assert!(shows(&harness, refusal), "{typed}");
        assert!(!shows(&harness, "Say who adopted it."));
        assert_eq!(book(&harness).facts().amendments, []);
    }
    click(&mut harness, "Cancel");
    assert!(shows(&harness, "Close the explanation"));
}

#[test]
fn a_rule_is_made_required_or_dropped_and_one_amendment_holds_all_changes() {
    let mut harness = window([1440.0, 900.0]);
    amend_the_furnace(&mut harness);
    click(&mut harness, "Required, a shortfall");
    say_who(&mut harness);
    click(&mut harness, "Apply");
    let corrections = harness.state().session().shown().corrections().count();
    assert_eq!(corrections, 2);
    assert!(shows(&harness, "`level` is required, advisory in the code"));

    click(&mut harness, "Amend...");
    assert_eq!(harness.get_by_label("Reason").value().as_deref(), Some("Small closets."), "it is the same amendment");
    click(&mut harness, "Drop the rule");
    click(&mut harness, "Apply");
    assert!(book(&harness).rule("equipment-front").is_none());
    assert_eq!(book(&harness).facts().amendments.len(), 1);
    assert!(shows(&harness, "dropped; the code has it"));

    click(&mut harness, "Amend...");
    click(&mut harness, "Advisory, a shortfall");
    enter(&mut harness, "depth", "30 in");
    click(&mut harness, "Apply");
    let code = RuleBook::built_in("irc-2021").expect("it comes with the program");
    assert_eq!(book(&harness).facts(), code.facts(), "nothing is amended any more");
    let depth = book(&harness).rule("equipment-front").and_then(|rule| rule.limit("depth"));
    assert_eq!(depth, Limit::parse("30 in").ok());
}

#[test]
fn pictures_of_amending() {
    let mut results = SnapshotResults::new();
    for (suffix, size) in [("", [1440.0, 900.0]), ("_small", [1100.0, 700.0])] {
        let mut harness = window(size);
        let mut picture = |harness: &mut Harness<'_, Mateline>, name: &str| {
            harness.remove_cursor();
            harness.run();
            results.add(harness.try_snapshot(format!("{name}{suffix}")));
        };
        amend_the_furnace(&mut harness);
        picture(&mut harness, "amend_form");
        enter(&mut harness, "depth", "30");
        click(&mut harness, "Apply");
        picture(&mut harness, "amend_refused");
        enter(&mut harness, "depth", "40 in");
        click(&mut harness, "Required, a shortfall");
        say_who(&mut harness);
        click(&mut harness, "Apply");
        picture(&mut harness, "amended");
        click(&mut harness, "Judged by");
        picture(&mut harness, "amended_book_menu");
    }
}
