//! The window without a screen: what a person does with the pointer, and what is then shown.

use std::time::Duration;

use egui::{Key, Modifiers, Pos2, ViewportId, vec2};
use egui_kittest::kittest::Queryable;
use egui_kittest::{Harness, SnapshotResults};
use mateline_app::board::Highlight;
use mateline_app::files::{Files, Recent};
use mateline_app::{Mateline, demo};
use plan_model::{Id, Length, Plan};
use plan_rules::RuleBook;

fn window() -> Harness<'static, Mateline> {
    window_on(demo().unwrap_or_else(|error| panic!("{error}")), [1440.0, 900.0])
}

fn window_on(plan: Plan, size: [f32; 2]) -> Harness<'static, Mateline> {
    let mut harness =
        Harness::builder().with_size(size).with_max_steps(20).with_render_cursor(false).wgpu().build_eframe(
            |created| {
                let book = RuleBook::built_in("irc-2021").expect("it comes with the program");
                Mateline::new(&created.egui_ctx, plan, book, Files::unsaved(Recent::default()), None)
            },
        );
    harness.run();
    harness
}

/// Where a place of the plan, in inches, is seen.
fn seen(harness: &Harness<'_, Mateline>, x: f64, y: f64) -> Pos2 {
    let (area, camera) = harness.state().board().view().expect("the board was drawn");
    camera.to_screen(kurbo::Point::new(x, y), area)
}

fn choose_on_the_plan(harness: &mut Harness<'_, Mateline>, choice: &str, alternate: &str) {
    harness.get_by_label_contains(&format!("On the plan: {choice}")).click();
    harness.run();
    harness.get_by_label_contains(alternate).click();
    harness.run();
    // The list stays open, so that another alternate can be tried.
    harness.key_press(Key::Escape);
    harness.run();
}

fn press(harness: &mut Harness<'_, Mateline>, at: Pos2) {
    harness.hover_at(at);
    harness.run();
    harness.drag_at(at);
    harness.run();
}

fn move_to(harness: &mut Harness<'_, Mateline>, at: Pos2) {
    harness.hover_at(at);
    harness.run();
}

fn release(harness: &mut Harness<'_, Mateline>, at: Pos2) {
    harness.drop_at(at);
    harness.run();
}

/// Rules that the home falls short of, each with the room or opening that it is about.
fn corrections(harness: &Harness<'_, Mateline>) -> Vec<(&'static str, String)> {
    let subject = |subject: &Option<Id>| subject.as_ref().map(Id::to_string).unwrap_or_default();
    harness.state().session().shown().corrections().map(|verdict| (verdict.rule, subject(&verdict.subject))).collect()
}

/// A place on the wall between the flex room and the closets or utility room, away from its openings.
const ON_FLEX_WALL: (f64, f64) = (570.75, 205.0);

#[test]
fn an_alternate_is_swapped_in_place() {
    let mut harness = window();
    assert!(harness.state().session().shown().room(&"bedroom-4".into()).is_none());
    let before = harness.state().board().view();
    choose_on_the_plan(&mut harness, "Flex room", "Fourth bedroom");
    assert!(harness.state().session().shown().room(&"bedroom-4".into()).is_some());
    assert_eq!(harness.state().board().view(), before, "the plan stays where it was");
    assert_eq!(harness.state().session().can_undo(), Some("choose Fourth bedroom"));
    harness.get_by_label_contains("$153,750 USD");
}

#[test]
fn the_list_beside_the_plan_swaps_too() {
    let mut harness = window();
    harness.get_by_label("Hall bath: Tub").click();
    harness.run();
    harness.get_by_label_contains("Accessible shower").click();
    harness.run();
    harness.get_by_label("Hall bath: Accessible shower, +$1,150");
}

#[test]
fn a_dragged_wall_brings_a_correction_and_takes_it_away_again() {
    let mut harness = window();
    choose_on_the_plan(&mut harness, "Flex room", "Fourth bedroom");
    assert_eq!(corrections(&harness), []);
    let (x, y) = ON_FLEX_WALL;
    let (from, far, near) = (seen(&harness, x, y), seen(&harness, x + 40.0, y), seen(&harness, x + 2.0, y));
    press(&mut harness, from);
    move_to(&mut harness, far);
    let short = corrections(&harness);
    assert!(short.iter().any(|(_, subject)| subject == "bedroom-4"), "{short:?}");
    harness.get_by_label_contains("Moved 3'-4\"");
    move_to(&mut harness, near);
    assert_eq!(corrections(&harness), []);
    move_to(&mut harness, far);
    release(&mut harness, far);
    assert_eq!(corrections(&harness), short);
    assert_eq!(harness.state().session().can_undo(), Some("move wall flex-wall"), "the whole gesture is one step");

    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(corrections(&harness), []);
    assert_eq!(harness.state().session().can_undo(), Some("choose Fourth bedroom"));
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    harness.run();
    assert_eq!(corrections(&harness), short);
}

#[test]
fn escape_puts_a_dragged_wall_back() {
    let mut harness = window();
    let before = harness.state().session().shown().document.clone();
    let (x, y) = ON_FLEX_WALL;
    let (from, to) = (seen(&harness, x, y), seen(&harness, x + 30.0, y));
    press(&mut harness, from);
    move_to(&mut harness, to);
    assert!(!harness.state().session().shown().document.is_same(&before));
    harness.key_press(Key::Escape);
    harness.run();
    assert!(harness.state().session().shown().document.is_same(&before));
    let view = harness.state().board().view();
    move_to(&mut harness, from);
    release(&mut harness, from);
    assert_eq!(harness.state().board().view(), view, "what is left of the gesture moves nothing");
    assert_eq!(harness.state().session().can_undo(), None);
}

#[test]
fn free_paper_moves_the_plan_and_the_wheel_magnifies_about_the_pointer() {
    let mut harness = window();
    let at = seen(&harness, 100.0, -150.0);
    press(&mut harness, at);
    move_to(&mut harness, at + vec2(60.0, 25.0));
    release(&mut harness, at + vec2(60.0, 25.0));
    assert!((seen(&harness, 100.0, -150.0) - at - vec2(60.0, 25.0)).length() < 0.5);

    let pointer = seen(&harness, 348.0, 165.0);
    harness.hover_at(pointer);
    harness.event(egui::Event::MouseWheel {
        unit: egui::MouseWheelUnit::Line,
        source: egui::MouseWheelSource::Wheel,
        delta: vec2(0.0, 3.0),
        phase: egui::TouchPhase::Move,
        modifiers: Modifiers::NONE,
    });
    let zoom = harness.state().board().view().expect("drawn").1.zoom;
    harness.run();
    assert!(harness.state().board().view().expect("drawn").1.zoom > zoom);
    assert!((seen(&harness, 348.0, 165.0) - pointer).length() < 0.5);
}

#[test]
fn a_room_chosen_in_the_list_comes_into_view() {
    let mut harness = window();
    harness.get_by_label_contains("Bedroom 3, ").click();
    harness.run();
    let (area, camera) = harness.state().board().view().expect("drawn");
    let room = harness.state().session().shown().derived.room(&"bedroom-3".into()).expect("it closed");
    let inches = |length: Length| length.to_inches();
    for (corner, _) in room.region.sides() {
        assert!(area.contains(camera.to_screen(kurbo::Point::new(inches(corner.x), inches(corner.y)), area)));
    }
}

#[test]
fn at_rest_nothing_is_drawn_again() {
    let mut harness = window();
    choose_on_the_plan(&mut harness, "Front porch", "Porch 8 x 6 ft");
    harness.remove_cursor();
    harness.run();
    harness.step();
    let root = harness.output().viewport_output.get(&ViewportId::ROOT).expect("the window");
    assert_eq!(root.repaint_delay, Duration::MAX);
}

#[test]
fn pictures() {
    let mut harness = window();
    harness.snapshot("base");

    harness.get_by_label_contains("On the plan: Flex room").click();
    harness.run();
    harness.remove_cursor();
    harness.run();
    harness.snapshot("alternates_on_the_plan");
    harness.get_by_label_contains("Fourth bedroom").click();
    harness.run();
    harness.remove_cursor();
    harness.run();
    harness.snapshot("fourth_bedroom");

    let (x, y) = ON_FLEX_WALL;
    let (from, to) = (seen(&harness, x, y), seen(&harness, x + 40.0, y));
    press(&mut harness, from);
    move_to(&mut harness, to);
    harness.snapshot("drag_with_correction");
    release(&mut harness, to);
    harness.key_press(Key::F4);
    harness.run();
    harness.remove_cursor();
    harness.run();
    harness.snapshot("correction_in_view");
    harness.key_press(Key::F1);
    harness.run();
    harness.snapshot("about");
}

#[test]
fn everything_is_done_by_keyboard_too() {
    let mut harness = window();
    let press = |harness: &mut Harness<'_, Mateline>, key: Key| {
        harness.key_press(key);
        harness.run();
    };
    harness.get_by_label_contains("On the plan: Flex room").focus();
    harness.run();
    press(&mut harness, Key::Enter);
    assert!(harness.state().board().choice_places().offered.is_some());
    harness.get_by_label_contains("Fourth bedroom").focus();
    harness.run();
    press(&mut harness, Key::Enter);
    assert_eq!(harness.state().session().can_undo(), Some("choose Fourth bedroom"));

    harness.get_by_label("Flex wall").focus();
    harness.run();
    press(&mut harness, Key::Enter);
    for _ in 0..66 {
        press(&mut harness, Key::ArrowRight);
    }
    let short = corrections(&harness);
    assert!(short.iter().any(|(_, subject)| subject == "bedroom-4"), "{short:?}");
    press(&mut harness, Key::F4);
    assert!(harness.state().board().highlight().is_some());
}

#[test]
fn arrow_keys_move_the_plan() {
    let mut harness = window();
    harness.get_by_label_contains("Drawing board").focus();
    harness.run();
    let before = seen(&harness, 348.0, 165.0);
    harness.key_press(Key::ArrowLeft);
    harness.run();
    assert!(seen(&harness, 348.0, 165.0).x > before.x + 50.0);
    let zoom = harness.state().board().view().expect("drawn").1.zoom;
    harness.key_press(Key::Plus);
    harness.run();
    assert!(harness.state().board().view().expect("drawn").1.zoom > zoom);
}

#[test]
fn a_selection_that_cannot_be_built_is_told_and_stands_in_nobodys_way() {
    let mut harness = window();
    choose_on_the_plan(&mut harness, "Owner's bath", "48 x 90 walk-in shower");
    assert_eq!(harness.state().session().shown().conflicts.len(), 0);
    choose_on_the_plan(&mut harness, "Water-closet room", "36 x 66 water-closet room");
    assert!(!harness.state().session().shown().conflicts.is_empty());
    harness.get_by_label("This selection cannot be built as drawn");
    harness.get_by_label("Not judged: cannot be built");
    choose_on_the_plan(&mut harness, "Owner's bath", "48 x 66 walk-in shower");
    assert!(harness.query_by_label("This selection cannot be built as drawn").is_none());
}

#[test]
fn a_click_marks_a_room_on_the_plan_and_in_the_list() {
    let mut harness = window();
    let bedroom = seen(&harness, 480.0, 60.0);
    press(&mut harness, bedroom);
    release(&mut harness, bedroom);
    assert!(
        matches!(harness.state().board().highlight(), Some(Highlight::Room { id, .. }) if id.as_str() == "bedroom-2")
    );
    let paper = seen(&harness, 480.0, -200.0);
    press(&mut harness, paper);
    release(&mut harness, paper);
    assert!(harness.state().board().highlight().is_none());
}

#[test]
fn a_wall_clicked_in_the_list_is_moved_by_the_arrow_keys() {
    let mut harness = window();
    harness.get_by_label("Flex wall").scroll_to_me();
    harness.run();
    harness.get_by_label("Flex wall").click();
    harness.run();
    assert!(harness.get_by_label("Flex wall").is_focused());
    assert!(matches!(harness.state().board().highlight(), Some(Highlight::Wall { .. })));
    harness.key_press(Key::ArrowRight);
    harness.run();
    assert_eq!(harness.state().session().can_undo(), Some("move wall flex-wall"));
    let moved = |harness: &Harness<'_, Mateline>| {
        let home = harness.state().session().shown().document.home();
        let start = demo().unwrap_or_else(|error| panic!("{error}"));
        let x = |walls: &[plan_model::elements::Wall]| {
            walls.iter().find(|wall| wall.id.as_str() == "flex-wall").expect("it stands").from.x
        };
        x(&home.elements.walls) - x(&start.base.walls)
    };
    assert_eq!(moved(&harness), Length::from_steps(16_256 / 2));
    harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowRight);
    harness.run();
    assert_eq!(moved(&harness), Length::from_steps(16_256 / 2 + 254), "with Shift by 1/64 in");
}

/// The demo home with ceilings of 6'-8" over some rooms, where 7'-0" is required.
fn with_low_ceilings(rooms: &[&str]) -> Plan {
    let mut plan = demo().unwrap_or_else(|error| panic!("{error}"));
    let lists =
        plan.choices.iter_mut().flat_map(|choice| &mut choice.alternates).map(|alternate| &mut alternate.brings);
    let ceilings = lists.map(|brought| &mut brought.ceilings).find(|ceilings| !ceilings.is_empty());
    let ceilings = ceilings.expect("a choice brings the ceiling");
    let mut low = ceilings[0].clone();
    low.id = "low-ceiling".into();
    low.height = Length::inches(80);
    low.rooms = rooms.iter().map(|room| (*room).into()).collect();
    ceilings.push(low);
    plan
}

#[test]
fn many_corrections_leave_the_rooms_in_view_and_are_gone_through_one_by_one() {
    let mut pictures = SnapshotResults::new();
    let rooms = ["living", "kitchen", "bedroom-2", "bedroom-3", "owner-bedroom", "hall"];
    for (name, size) in [("many_corrections", [1440.0, 900.0]), ("many_corrections_small", [1100.0, 700.0])] {
        let mut harness = window_on(with_low_ceilings(&rooms), size);
        assert_eq!(corrections(&harness).len(), rooms.len(), "{:?}", corrections(&harness));
        harness.snapshot(name);
        let findings = harness.get_by_label("6 corrections").rect().top();
        let heading = harness.get_by_label("Rooms").rect();
        let room = harness.get_by_label_contains("Owner's bath, 5'").rect();
        assert!(heading.top() > harness.get_by_label("Choices").rect().bottom() + 100.0);
        assert!(room.top() >= heading.bottom() && room.bottom() <= findings, "{heading:?} {room:?} {findings}");
        let foot = harness.get_by_label_contains("rules met").rect();
        assert!(foot.bottom() < harness.get_by_label_contains("Judged by").rect().top());

        let mut gone_to = Vec::new();
        for _ in 0..rooms.len() {
            harness.get_by_label("Next correction").click();
            harness.run();
            gone_to.push(harness.state().board().highlight().cloned());
        }
        for (index, place) in gone_to.iter().enumerate() {
            assert!(place.is_some() && !gone_to[..index].contains(place), "{place:?}");
        }
        harness.key_press(Key::F4);
        harness.run();
        assert_eq!(harness.state().board().highlight(), gone_to[0].as_ref(), "after the last comes the first");
        pictures.extend_harness(&mut harness);
    }
}

#[test]
fn conflicts_are_gone_to_like_corrections() {
    let mut harness = window();
    choose_on_the_plan(&mut harness, "Owner's bath", "48 x 90 walk-in shower");
    choose_on_the_plan(&mut harness, "Water-closet room", "36 x 66 water-closet room");
    let sentence = harness.state().session().shown().conflicts[0].sentence.clone();
    harness.key_press(Key::F4);
    harness.run();
    let marked = harness.state().board().highlight();
    assert!(matches!(marked, Some(Highlight::Finding { message, .. }) if *message == sentence), "{marked:?}");
}
