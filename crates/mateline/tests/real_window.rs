//! The real window on a screen of its own, worked by mouse and keyboard.
//!
//! What the window shows is read from the log that `--log` writes; pictures of it land in `target/pictures`.

mod desk;

use std::fs;
use std::os::unix::fs::PermissionsExt;

use desk::Desk;
use plan_model::elements::Wall;
use plan_model::{Id, Plan, Selection};
use serde_json::Value;

fn demo() -> Plan {
    mateline_app::demo().unwrap_or_else(|error| panic!("{error}"))
}

fn fourth_bedroom(plan: &Plan) -> Selection {
    let answer = "flex-room=fourth-bedroom".parse().expect("CHOICE=ALTERNATE");
    Selection::included(plan).with(plan, &answer).expect("the demo home has it")
}

/// The wall between closets and flex room, which moves.
fn flex_wall(plan: &Plan) -> Wall {
    let home = plan.home(&fourth_bedroom(plan));
    let wall = home.elements.walls.iter().find(|wall| wall.id == Id::from("flex-wall"));
    wall.expect("the demo home has it").clone()
}

#[test]
fn a_person_chooses_drags_and_undoes() {
    let desk = Desk::with_window();
    let state = desk.wait_for("state", |_| true);
    assert_eq!(state["heated_square_feet"], "1595");
    assert_eq!(state["corrections"], Value::Array(Vec::new()));
    desk.picture("real_window_base");

    let choices = desk.wait_for("choices", |line| line["marks"].as_array().is_some_and(|marks| !marks.is_empty()));
    desk.click(place(&choices["marks"], "choice", "flex-room"));
    let choices = desk.wait_for("choices", |line| line["offered"] == "flex-room");
    desk.picture("real_window_alternates");
    desk.click(place(&choices["alternates"], "alternate", "fourth-bedroom"));
    let state = desk.wait_for("state", |line| line["selection"]["flex-room"] == "fourth-bedroom");
    assert_eq!(state["corrections"], Value::Array(Vec::new()));
    assert_eq!(state["price"], "153,750");

    let wall = flex_wall(&demo());
    let (x, y) = (wall.from.x.to_inches(), wall.from.y.to_inches() + 36.0);
    desk.press(desk.on_plan(x, y));
    for inches in [4.0, 12.0, 24.0, 40.0] {
        desk.move_to(desk.on_plan(x + inches, y));
    }
    let short = desk.wait_for("state", |line| corrections(line).contains(&"bedroom-4".to_owned()));
    assert_eq!(short["undo"], "choose Fourth bedroom", "during the drag nothing is a step yet");
    desk.picture("real_window_drag");
    desk.release();
    desk.wait_for("state", |line| line["undo"] == "move wall flex-wall" && !corrections(line).is_empty());

    desk.keys("ctrl+z");
    let state = desk.wait_for("state", |line| corrections(line).is_empty() && line["redo"] == "move wall flex-wall");
    assert_eq!(state["undo"], "choose Fourth bedroom");
    desk.picture("real_window_undone");
}

#[test]
fn at_rest_the_window_takes_no_time() {
    let desk = Desk::with_window();
    desk.wait_for("choices", |_| true);
    // On a busy machine the first pictures are not drawn within a second.
    let comes_to_rest = (0..10).any(|_| {
        let before = desk.processor_time();
        desk.rest();
        desk.rest();
        desk.processor_time() - before <= 2
    });
    assert!(comes_to_rest, "it never takes less than three hundredths of a second in two seconds");
}

/// Asks for the system's file dialog by keyboard.
fn browse(desk: &Desk) {
    desk.keys("ctrl+o");
    desk.keys("Tab");
    desk.keys("Return");
}

#[test]
fn a_desktop_without_a_file_dialog_is_told_what_would_bring_one() {
    let desk = Desk::with_window_where(|program, folder| {
        program.env("PATH", folder).env("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nowhere");
    });
    browse(&desk);
    desk.wait_for("told", |line| {
        let told = line["text"].as_str().unwrap_or_default();
        told.contains("xdg-desktop-portal") && told.contains("zenity")
    });
    desk.picture("real_window_no_dialog");
}

#[test]
fn a_plan_picked_in_the_systems_dialog_is_opened() {
    let desk = Desk::with_window_where(|program, folder| {
        let mut other = demo();
        other.name = "Picked".to_owned();
        let plan = folder.join("picked.json");
        fs::write(&plan, plan_model::file::write(&other)).expect("a plan");
        // Stands in for the desktop's dialog: prints the path that a person would have picked.
        let dialog = folder.join("zenity");
        fs::write(&dialog, format!("#!/bin/sh\necho '{}'\n", plan.display())).expect("a dialog");
        fs::set_permissions(&dialog, fs::Permissions::from_mode(0o755)).expect("to be run");
        program.env("PATH", folder).env("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nowhere");
    });
    browse(&desk);
    desk.wait_for("state", |line| line["plan"] == "Picked");
}

fn corrections(line: &Value) -> Vec<String> {
    let subjects = line["corrections"].as_array().into_iter().flatten();
    subjects.filter_map(|correction| correction["subject"].as_str()).map(str::to_owned).collect()
}

/// Where something of a list in the log stands.
fn place(list: &Value, kind: &str, id: &str) -> (f64, f64) {
    let found = list.as_array().into_iter().flatten().find(|entry| entry[kind] == id);
    let at = &found.unwrap_or_else(|| panic!("{id} is not in {list}"))["at"];
    (at[0].as_f64().expect("a number"), at[1].as_f64().expect("a number"))
}
