//! Opening and saving as a person does it, with paths typed into the window.

use std::fs;
use std::path::PathBuf;

use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use mateline_app::files::{Files, Recent};
use mateline_app::{Mateline, demo};
use plan_rules::RuleBook;

/// A folder of its own that goes with the test.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("mateline-window-{}-{name}", std::process::id()));
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

fn window() -> Harness<'static, Mateline> {
    let mut harness = Harness::builder().with_size([1440.0, 900.0]).with_max_steps(20).build_eframe(|created| {
        let plan = demo().unwrap_or_else(|error| panic!("{error}"));
        let book = RuleBook::built_in("irc-2021").expect("it comes with the program");
        Mateline::new(&created.egui_ctx, plan, book, Files::unsaved(Recent::default()), None)
    });
    harness.run();
    harness
}

/// Moves a wall by dragging, so that the plan has a change to save.
fn change(harness: &mut Harness<'_, Mateline>) {
    let (area, camera) = harness.state().board().view().expect("the board was drawn");
    let at = |x: f64| camera.to_screen(kurbo::Point::new(x, 205.0), area);
    harness.hover_at(at(570.75));
    harness.run();
    harness.drag_at(at(570.75));
    harness.run();
    harness.hover_at(at(560.0));
    harness.run();
    harness.drop_at(at(560.0));
    harness.run();
    assert!(!harness.state().session().is_saved());
}

fn answer(harness: &mut Harness<'_, Mateline>, button: &str) {
    harness.get_by_label(button).click();
    harness.run();
}

/// Puts another path into the field and presses Enter.
fn enter_path(harness: &mut Harness<'_, Mateline>, path: &str) {
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.event(egui::Event::Paste(path.to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
}

fn told(harness: &Harness<'_, Mateline>) -> String {
    harness.state().notices().text().unwrap_or_default().to_owned()
}

#[test]
fn a_plan_is_saved_under_a_typed_path_and_opened_again() {
    let folder = Folder::new("typed");
    let path = folder.path("mine.json");
    let mut harness = window();
    change(&mut harness);
    let changed = harness.state().session().shown().document.plan.clone();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    enter_path(&mut harness, &path);
    assert!(told(&harness).starts_with("Saved."), "{}", told(&harness));
    assert!(harness.state().session().is_saved());

    let mut other = window();
    other.key_press_modifiers(Modifiers::COMMAND, Key::O);
    other.run();
    enter_path(&mut other, &format!("\"{path}\""));
    assert_eq!(*other.state().session().shown().document.plan, *changed);
}

#[test]
fn a_file_that_is_there_already_is_kept_until_the_person_agrees() {
    let folder = Folder::new("there");
    let path = folder.path("theirs.json");
    fs::write(&path, "theirs").expect("written");
    let mut harness = window();
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    harness.run();
    enter_path(&mut harness, &path);
    assert_eq!(fs::read_to_string(&path).expect("kept"), "theirs");
    harness.get_by_label_contains("is there already");
    answer(&mut harness, "Replace it");
    assert!(fs::read_to_string(&path).expect("saved").contains("Dunlin 58"));
}

#[test]
fn a_plan_that_another_program_changed_is_not_overwritten() {
    let folder = Folder::new("changed");
    let path = folder.path("plan.json");
    let mut harness = window();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    enter_path(&mut harness, &path);
    fs::write(&path, "theirs").expect("written");
    change(&mut harness);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    harness.get_by_label_contains("changed by another program");
    answer(&mut harness, "Cancel");
    assert_eq!(fs::read_to_string(&path).expect("kept"), "theirs");
    assert!(!harness.state().session().is_saved());
}

#[test]
fn a_broken_plan_leaves_everything_as_it_is() {
    let folder = Folder::new("broken");
    let path = folder.path("broken.json");
    fs::write(&path, "{ \"mateline_plan\": 1, \"nam\": 2 }").expect("written");
    let mut harness = window();
    let before = harness.state().session().shown().document.clone();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    enter_path(&mut harness, &path);
    harness.get_by_label_contains("line 1, column");
    answer(&mut harness, "Cancel");
    assert!(harness.state().session().shown().document.is_same(&before));
}

#[test]
fn opening_asks_about_changes_that_are_not_saved() {
    let folder = Folder::new("unsaved");
    let path = folder.path("other.json");
    fs::write(&path, plan_model::file::write(&demo().unwrap_or_else(|error| panic!("{error}")))).expect("written");
    let mut harness = window();
    change(&mut harness);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    answer(&mut harness, "Keep working");
    assert!(!harness.state().session().is_saved());
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    answer(&mut harness, "Do not save");
    enter_path(&mut harness, &path);
    assert!(harness.state().session().is_saved());
    assert_eq!(harness.state().session().can_undo(), None);
}

#[test]
fn what_was_saved_on_the_way_to_another_plan_stays_saved() {
    let folder = Folder::new("on-the-way");
    let path = folder.path("mine.json");
    let mut harness = window();
    change(&mut harness);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    answer(&mut harness, "Save");
    enter_path(&mut harness, &path);
    assert!(fs::exists(&path).expect("readable"));
    harness.get_by_label("Open a plan");
    answer(&mut harness, "Cancel");
    assert!(harness.state().session().is_saved());
}

#[test]
fn closing_asks_about_changes_that_are_not_saved() {
    let mut harness = window();
    change(&mut harness);
    let close = |harness: &mut Harness<'_, Mateline>| {
        let root = harness.input_mut().viewports.entry(egui::ViewportId::ROOT).or_default();
        root.events.push(egui::ViewportEvent::Close);
        harness.run();
    };
    close(&mut harness);
    harness.get_by_label_contains("Save the changes to Dunlin 58?");
    answer(&mut harness, "Keep working");
    assert!(harness.query_by_label_contains("Save the changes").is_none());
}

#[test]
fn undo_in_a_field_is_the_fields_own() {
    let mut harness = window();
    change(&mut harness);
    let step = harness.state().session().can_undo().map(str::to_owned);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    harness.event(egui::Event::Text("abc".to_owned()));
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().session().can_undo().map(str::to_owned), step);
}
