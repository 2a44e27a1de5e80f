//! Opening and saving as a person does it, with paths typed into the window.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use mateline_app::files::{Dialog, Files, Recent, Wanted};
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
    window_on(Files::unsaved(Recent::default()))
}

fn window_on(files: Files) -> Harness<'static, Mateline> {
    let mut harness = Harness::builder().with_size([1440.0, 900.0]).with_max_steps(20).build_eframe(|created| {
        let plan = demo().unwrap_or_else(|error| panic!("{error}"));
        let book = RuleBook::built_in("irc-2021").expect("it comes with the program");
        Mateline::new(&created.egui_ctx, plan, book, files, None)
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

/// File dialogs that stay open until the test answers them.
struct Dialogs {
    opened: Receiver<(Wanted, Sender<Option<PathBuf>>)>,
}

impl Dialogs {
    fn window() -> (Harness<'static, Mateline>, Self) {
        let (sender, opened) = channel();
        let sender = Mutex::new(sender);
        let dialog: Dialog = Arc::new(move |wanted: &Wanted| {
            let (answer, answered) = channel();
            let told = sender.lock().expect("no test panics while it tells").send((wanted.clone(), answer));
            told.ok().and_then(|()| answered.recv().ok()).flatten()
        });
        (window_on(Files::unsaved(Recent::default()).with_dialog(dialog)), Self { opened })
    }

    /// The dialog that was opened last, and how it is answered.
    fn next(&self) -> (Wanted, Sender<Option<PathBuf>>) {
        self.opened.recv_timeout(Duration::from_secs(10)).expect("a dialog opens")
    }
}

/// Draws the window until something is so; the dialog answers from a thread of its own.
fn until(harness: &mut Harness<'_, Mateline>, mut is_so: impl FnMut(&Harness<'_, Mateline>) -> bool) {
    let began = Instant::now();
    while !is_so(harness) {
        assert!(began.elapsed() < Duration::from_secs(10), "it never becomes so");
        std::thread::sleep(Duration::from_millis(5));
        harness.run();
    }
}

fn a_plan_named(name: &str) -> String {
    let mut plan = demo().unwrap_or_else(|error| panic!("{error}"));
    plan.name = name.to_owned();
    plan_model::file::write(&plan)
}

fn plan_name(harness: &Harness<'_, Mateline>) -> String {
    harness.state().session().shown().document.plan.name.clone()
}

#[test]
fn a_file_picked_for_a_question_that_is_gone_is_neither_opened_nor_overwritten() {
    let folder = Folder::new("late");
    let (victim, mine) = (folder.path("victim.json"), folder.path("mine.json"));
    fs::write(&victim, a_plan_named("Victim")).expect("written");
    let (mut harness, dialogs) = Dialogs::window();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    answer(&mut harness, "Browse...");
    let (wanted, late) = dialogs.next();
    assert_eq!(wanted, Wanted::Open);
    harness.key_press(Key::Escape);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    late.send(Some(PathBuf::from(&victim))).expect("the dialog is still open");
    // Long enough for the answer to arrive, were anybody listening.
    std::thread::sleep(Duration::from_millis(100));
    harness.run();
    assert_eq!(fs::read_to_string(&victim).expect("kept"), a_plan_named("Victim"));
    assert_eq!(plan_name(&harness), "Dunlin 58");
    harness.get_by_label("Save Dunlin 58");

    // The question that stands has a dialog of its own.
    answer(&mut harness, "Browse...");
    let (wanted, save) = dialogs.next();
    assert_eq!(wanted, Wanted::Save { name: "dunlin-58.json".to_owned() });
    save.send(Some(PathBuf::from(&mine))).expect("the dialog is open");
    until(&mut harness, |_| fs::exists(&mine).expect("readable"));
    assert!(told(&harness).starts_with("Saved."), "{}", told(&harness));
    assert_eq!(fs::read_to_string(&victim).expect("kept"), a_plan_named("Victim"));
}

#[test]
fn a_file_picked_to_open_is_opened_and_one_that_is_no_plan_is_asked_for_again() {
    let folder = Folder::new("picked");
    let (letter, plan) = (folder.path("letter.json"), folder.path("plan.json"));
    fs::write(&letter, "Dear Sir,").expect("written");
    fs::write(&plan, a_plan_named("Picked")).expect("written");
    let (mut harness, dialogs) = Dialogs::window();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    answer(&mut harness, "Browse...");
    dialogs.next().1.send(Some(PathBuf::from(&letter))).expect("the dialog is open");
    until(&mut harness, |harness| harness.query_by_label_contains("letter.json").is_some());
    answer(&mut harness, "Browse...");
    dialogs.next().1.send(Some(PathBuf::from(&plan))).expect("the dialog is open");
    until(&mut harness, |harness| plan_name(harness) == "Picked");
    assert!(harness.query_by_label("Open a plan").is_none());
    assert_eq!(fs::read_to_string(&letter).expect("kept"), "Dear Sir,");
}

/// A file as the desktop drops it.
#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        fs::read(&self.0).map_err(|error| error.to_string())
    }
}

fn drop_file(harness: &mut Harness<'_, Mateline>, path: &str) {
    harness.input_mut().dropped_files.push(Arc::new(Dropped(PathBuf::from(path))));
    harness.run();
}

#[test]
fn a_file_dropped_on_the_question_answers_it() {
    let folder = Folder::new("dropped");
    let (letter, plan) = (folder.path("letter.json"), folder.path("plan.json"));
    fs::write(&letter, "Dear Sir,").expect("written");
    fs::write(&plan, a_plan_named("Dropped")).expect("written");
    let mut harness = window();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    drop_file(&mut harness, &letter);
    harness.get_by_label("Open a plan");
    harness.get_by_label_contains("letter.json");
    drop_file(&mut harness, &plan);
    assert_eq!(plan_name(&harness), "Dropped");
    assert!(harness.query_by_label("Open a plan").is_none());
}

#[test]
fn a_save_that_fails_asks_again_with_the_path_ready_to_be_changed() {
    let folder = Folder::new("nodir");
    let (wrong, right) = (folder.path("nodir/mine.json"), folder.path("mine.json"));
    let mut harness = window();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    enter_path(&mut harness, &wrong);
    harness.get_by_label_contains("There is no folder ");
    assert_eq!(harness.get_by_label("Path of the file").value().as_deref(), Some(wrong.as_str()));
    // What is pasted takes the place of the path: the keyboard is in the field and all of it is selected.
    harness.event(egui::Event::Paste(right.clone()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    assert!(fs::exists(&right).expect("readable"));
    assert!(told(&harness).starts_with("Saved."), "{}", told(&harness));
}
