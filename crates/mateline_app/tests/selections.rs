//! Selections in the window: reversed, kept for a buyer, and opened again.

use std::fs;
use std::path::PathBuf;

use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use mateline_app::files::{Files, Recent, read_selection};
use mateline_app::{Mateline, demo};
use plan_model::{Id, Plan, Selection};
use plan_rules::RuleBook;
use plan_selection::{As, SelectionFile};

fn window_on(plan: Plan) -> Harness<'static, Mateline> {
    let builder = Harness::builder().with_size([1440.0, 900.0]).with_max_steps(20).with_render_cursor(false);
    let mut harness = builder.wgpu().build_eframe(|created| {
        let book = RuleBook::built_in("irc-2021").expect("it comes with the program");
        Mateline::new(&created.egui_ctx, plan, book, Files::unsaved(Recent::default()), None)
    });
    harness.run();
    harness
}

fn demo_plan() -> Plan {
    demo().unwrap_or_else(|error| panic!("{error}"))
}

/// A folder of its own that goes with the test.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("mateline-selections-{}-{name}", std::process::id()));
        fs::create_dir_all(&folder).expect("a temporary folder");
        Self(folder)
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn click(harness: &mut Harness<'_, Mateline>, label: &str) {
    harness.get_by_label(label).click();
    harness.run();
}

/// Opens the menu of the selection, under the words it has, and takes an entry.
fn take(harness: &mut Harness<'_, Mateline>, menu: &str, entry: &str) {
    click(harness, menu);
    click(harness, entry);
}

fn fill(harness: &mut Harness<'_, Mateline>, field: &str, text: &str) {
    let is_field = |node: &egui_kittest::kittest::AccessKitNode<'_>| node.role() == egui::accesskit::Role::TextInput;
    harness.get_by(|node| is_field(node) && node.label().as_deref() == Some(field)).focus();
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.event(egui::Event::Paste(text.to_owned()));
    harness.run();
}

fn save_as(harness: &mut Harness<'_, Mateline>, path: &std::path::Path, date: &str) {
    fill(harness, "Date, such as 2026-03-02", date);
    fill(harness, "Path of the file", path.to_str().expect("plain names"));
    click(harness, "Save");
}

fn selection(harness: &Harness<'_, Mateline>) -> Selection {
    harness.state().session().settled().document.selection.clone()
}

fn told(harness: &Harness<'_, Mateline>) -> String {
    harness.state().notices().text().unwrap_or_default().to_owned()
}

const REVERSED: &str = "Reversed, mirrored left to right";

#[test]
fn a_selection_is_kept_for_a_buyer_and_opened_again() {
    let folder = Folder::new("round-trip");
    let path = folder.path("lot-14.json");
    let mut harness = window_on(demo_plan());
    take(&mut harness, "Selection", REVERSED);
    assert!(selection(&harness).is_reversed());
    assert_eq!(harness.state().session().can_undo(), Some("reverse the plan"));
    harness.snapshot("reversed");
    take(&mut harness, "Selection, reversed", "Save selection...");
    fill(&mut harness, "Buyer", "Lot 14");
    harness.snapshot("save_selection");
    save_as(&mut harness, &path, "2026-02-30");
    assert!(!path.exists(), "there is no such day");
    save_as(&mut harness, &path, "2026-03-02");
    assert!(told(&harness).starts_with("Saved the selection."), "{}", told(&harness));
    harness.get_by_label("Selection: Lot 14, reversed");
    let file = read_selection(&path).unwrap_or_else(|error| panic!("{error}")).file;
    assert!(file.is_reversed() && file.buyer == "Lot 14");
    click(&mut harness, "Undo: reverse the plan");
    harness.get_by_label("Selection: Lot 14 (not saved)");

    let mut other = window_on(demo_plan());
    take(&mut other, "Selection", "Open selection...");
    fill(&mut other, "Path of the file", path.to_str().expect("plain names"));
    click(&mut other, "Open");
    assert_eq!(told(&other), "Opened the selection of Lot 14.");
    assert!(selection(&other).is_reversed());
    assert_eq!(other.state().session().can_undo(), Some("open a selection"));
    // It stands in a file: nothing is lost with it.
    other.key_press_modifiers(Modifiers::COMMAND, Key::O);
    other.run();
    assert!(other.query_by_label("Leave these choices? They are not kept.").is_none());
}

#[test]
fn what_was_changed_of_the_plan_is_told() {
    let folder = Folder::new("changed");
    let path = folder.path("lot-14.json");
    let mut plan = demo_plan();
    let date = "2026-03-02".parse().expect("a day");
    let stated = As { buyer: "Lot 14".to_owned(), date, notes: Vec::new() };
    let file = SelectionFile::record(&plan, &Selection::included(&plan), stated);
    fs::write(&path, plan_selection::write(&file)).expect("written");
    plan.base_price = 150_000.into();
    let mut harness = window_on(plan);
    take(&mut harness, "Selection", "Open selection...");
    fill(&mut harness, "Path of the file", path.to_str().expect("plain names"));
    click(&mut harness, "Open");
    assert!(told(&harness).contains("cost 148,900 and costs 150,000 now (+1,100)."), "{}", told(&harness));
}

#[test]
fn a_signed_selection_is_followed_by_a_change_order() {
    let folder = Folder::new("signed");
    let path = folder.path("lot-14.json");
    let plan = demo_plan();
    let date: plan_model::Date = "2026-03-02".parse().expect("a day");
    let stated = As { buyer: "Lot 14".to_owned(), date, notes: Vec::new() };
    let file = SelectionFile::record(&plan, &Selection::included(&plan), stated);
    let file = file.sign(&plan, "R. Alder", date).unwrap_or_else(|error| panic!("{error}"));
    fs::write(&path, plan_selection::write(&file)).expect("written");
    let mut harness = window_on(plan);
    take(&mut harness, "Selection", "Open selection...");
    fill(&mut harness, "Path of the file", path.to_str().expect("plain names"));
    click(&mut harness, "Open");
    take(&mut harness, "Selection: Lot 14", REVERSED);
    take(&mut harness, "Selection: Lot 14, reversed (not saved)", "Save selection...");
    harness.get_by_label("Save as change order 1");
    save_as(&mut harness, &path, "2026-04-01");
    let ordered = read_selection(&path).unwrap_or_else(|error| panic!("{error}")).file;
    assert_eq!(SelectionFile { change_orders: Vec::new(), ..ordered.clone() }, file, "what was signed stays");
    assert!(ordered.is_reversed());
}

#[test]
fn a_wall_of_a_reversed_home_follows_the_pointer() {
    let mut harness = window_on(demo_plan());
    take(&mut harness, "Selection", REVERSED);
    let wall: Id = "flex-wall".into();
    let drawn = |harness: &Harness<'_, Mateline>| {
        let home = harness.state().session().settled().document.home();
        home.elements.walls.iter().find(|it| it.id == wall).expect("the wall stands").clone()
    };
    let stood = drawn(&harness);
    let (area, camera) = harness.state().board().view().expect("the board was drawn");
    let at = |by: f64| camera.to_screen(kurbo::Point::new(stood.from.x.to_inches() + by, 205.0), area);
    harness.hover_at(at(0.0));
    harness.run();
    harness.drag_at(at(0.0));
    harness.run();
    harness.hover_at(at(4.0));
    harness.run();
    harness.drop_at(at(4.0));
    harness.run();
    let went = drawn(&harness);
    let by = went.from.x - stood.from.x;
    assert!((3.0..=5.0).contains(&by.to_inches()), "it went {} in with a pointer that went 4 in", by.to_inches());
    assert!(!harness.state().session().is_saved(), "the plan was changed, as the mirror shows it");
}
