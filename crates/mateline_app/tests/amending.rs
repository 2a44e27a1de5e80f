//! Amending a limit in the window: verdicts follow at once, and the code comes back.

use std::fs;
use std::path::PathBuf;
use std::sync::Arc;

use egui::Key;
use egui_kittest::kittest::Queryable;
use egui_kittest::{Harness, SnapshotResults};
use mateline_app::files::{Dialog, Files, Recent, Wanted, open_book};
use mateline_app::{Mateline, demo};
use plan_rules::{Limit, RuleBook};

fn window(size: [f32; 2]) -> Harness<'static, Mateline> {
    window_with(size, Files::unsaved(Recent::default()))
}

fn window_with(size: [f32; 2], files: Files) -> Harness<'static, Mateline> {
    let book = RuleBook::built_in("irc-2021").expect("it comes with the program");
    let plan = demo().unwrap_or_else(|error| panic!("{error}"));
    let builder = Harness::builder().with_size(size).with_max_steps(20).with_render_cursor(false).wgpu();
    let mut harness = builder.build_eframe(|created| Mateline::new(&created.egui_ctx, plan, book, files, None));
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
    assert!(shows(&harness, "Leave the amendment Local amendment? It is not saved."));
    click(&mut harness, "Stay");
    assert_eq!(book(&harness).facts().amendments.len(), 1);
    click(&mut harness, "Judged by");
    click(&mut harness, "Back to the code");
    harness.get_by_label("Leave").click();
    harness.run();
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

/// A folder of its own that goes with the test.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("mateline-amending-{}-{name}", std::process::id()));
        fs::create_dir_all(&folder).expect("a temporary folder");
        Self(folder)
    }

    fn path(&self, name: &str) -> String {
        self.0.join(name).to_str().expect("plain names").to_owned()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// Asks 20 in before the furnace.
fn amend(harness: &mut Harness<'_, Mateline>) {
    amend_the_furnace(harness);
    enter(harness, "depth", "20 in");
    say_who(harness);
    click(harness, "Apply");
}

fn choose_in_menu(harness: &mut Harness<'_, Mateline>, item: &str) {
    click(harness, "Judged by");
    click(harness, item);
}

/// Puts a path into the field of the question and presses Enter.
fn enter_path(harness: &mut Harness<'_, Mateline>, path: &str) {
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
    harness.event(egui::Event::Paste(path.to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
}

#[test]
fn an_amendment_is_saved_and_opened_again_and_amended_further() {
    let folder = Folder::new("saved");
    let (town, county) = (folder.path("town.toml"), folder.path("county.toml"));
    let mut harness = window([1440.0, 900.0]);
    amend(&mut harness);
    assert!(shows(&harness, "amended by Local amendment (not saved)"));
    choose_in_menu(&mut harness, "Save amendment as...");
    harness.remove_cursor();
    harness.run();
    harness.snapshot("save_amendment");
    enter_path(&mut harness, &town);
    let told = harness.state().notices().text().unwrap_or_default().to_owned();
    assert_eq!(told, format!("Saved the amendment. File: {town}"));
    assert!(!shows(&harness, "(not saved)"));
    let saved = open_book(&town).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(saved.facts(), book(&harness).facts(), "what judges is what stands in the file");

    let mut other = window([1440.0, 900.0]);
    choose_in_menu(&mut other, "Open rule book or amendment...");
    enter_path(&mut other, &town);
    assert_eq!(book(&other).facts(), saved.facts());
    assert_eq!(advisories(&other), advisories(&harness));

    click(&mut other, "Advisory: The space before the front of the furnace");
    click(&mut other, "Explain");
    click(&mut other, "Amend...");
    assert_eq!(other.get_by_label("Reason").value().as_deref(), Some(""), "it is another amendment");
    enter(&mut other, "depth", "24 in");
    say_who(&mut other);
    click(&mut other, "Apply");
    choose_in_menu(&mut other, "Save amendment as...");
    enter_path(&mut other, &county);
    assert!(fs::read_to_string(&county).expect("saved").contains("amends = \"town.toml\""));
    let both = open_book(&county).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(both.facts().amendments.len(), 2);
    assert_eq!(both.rule("equipment-front").and_then(|rule| rule.limit("depth")), Limit::parse("24 in").ok());
    choose_in_menu(&mut other, "Back to the code");
    assert_eq!(book(&other).facts().amendments, []);
}

#[test]
fn a_file_is_neither_replaced_unasked_nor_opened_as_what_it_is_not() {
    let folder = Folder::new("letter");
    let letter = folder.path("letter.toml");
    fs::write(&letter, "Dear Sir,").expect("written");
    let mut harness = window([1440.0, 900.0]);
    amend(&mut harness);
    choose_in_menu(&mut harness, "Save amendment as...");
    enter_path(&mut harness, &letter);
    assert!(shows(&harness, "is there already"));
    click(&mut harness, "Cancel");
    assert_eq!(fs::read_to_string(&letter).expect("kept"), "Dear Sir,");
    choose_in_menu(&mut harness, "Open rule book or amendment...");
    harness.get_by_label("Leave").click();
    harness.run();
    enter_path(&mut harness, &letter);
    assert!(shows(&harness, "line 1, column"));
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(book(&harness).facts().amendments.len(), 1, "nothing was opened, so nothing is lost");
}

#[test]
fn closing_asks_about_an_amendment_that_is_not_saved() {
    let mut harness = window([1440.0, 900.0]);
    amend(&mut harness);
    let root = harness.input_mut().viewports.entry(egui::ViewportId::ROOT).or_default();
    root.events.push(egui::ViewportEvent::Close);
    harness.run();
    assert!(shows(&harness, "Leave the amendment Local amendment? It is not saved."));
    click(&mut harness, "Stay");
    assert_eq!(book(&harness).facts().amendments.len(), 1);
}

#[test]
fn the_desktops_dialog_gives_the_file() {
    let folder = Folder::new("dialog");
    let path = folder.path("picked.toml");
    let picked = PathBuf::from(&path);
    let dialog: Dialog = Arc::new(move |wanted: &Wanted| match wanted {
        Wanted::SaveAmendment { name } if name == "local-amendment.toml" => Some(picked.clone()),
        _ => None,
    });
    let mut harness = window_with([1440.0, 900.0], Files::unsaved(Recent::default()).with_dialog(dialog));
    amend(&mut harness);
    choose_in_menu(&mut harness, "Save amendment as...");
    click(&mut harness, "Browse...");
    for _ in 0..1000 {
        if fs::exists(&path).expect("readable") {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
        harness.run();
    }
    assert!(open_book(&path).is_ok());
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
