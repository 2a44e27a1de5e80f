//! Answering choices: on the plan, beside it, and what is said of answers that do not go together.

use egui::{Key, Modifiers, Pos2, Rect};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use mateline_app::board::{ChoicePlaces, Highlight};
use mateline_app::files::{Files, Recent};
use mateline_app::session::Session;
use mateline_app::{Mateline, Trial, demo};
use plan_rules::RuleBook;

fn window_of(size: [f32; 2]) -> Harness<'static, Mateline> {
    let builder = Harness::builder().with_size(size).with_max_steps(20).with_render_cursor(false).wgpu();
    let mut harness = builder.build_eframe(|created| {
        let plan = demo().unwrap_or_else(|error| panic!("{error}"));
        let book = RuleBook::built_in("irc-2021").expect("it comes with the program");
        Mateline::new(&created.egui_ctx, plan, book, Files::unsaved(Recent::default()), None)
    });
    harness.run();
    harness
}

fn window() -> Harness<'static, Mateline> {
    window_of([1440.0, 900.0])
}

fn open_list(harness: &mut Harness<'_, Mateline>, choice: &str) {
    harness.get_by_label_contains(&format!("On the plan: {choice}")).click();
    harness.run();
}

fn click(harness: &mut Harness<'_, Mateline>, label: &str) {
    harness.get_by_label_contains(label).click();
    harness.run();
}

fn press(harness: &mut Harness<'_, Mateline>, key: Key) {
    harness.key_press(key);
    harness.run();
}

fn session<'a>(harness: &'a Harness<'_, Mateline>) -> &'a Session {
    harness.state().session()
}

fn chosen(harness: &Harness<'_, Mateline>, choice: &str) -> String {
    let chosen = session(harness).shown().document.selection.alternate(&choice.into());
    chosen.expect("the plan has it").to_string()
}

fn places<'a>(harness: &'a Harness<'_, Mateline>) -> &'a ChoicePlaces {
    harness.state().board().choice_places()
}

fn seen(harness: &Harness<'_, Mateline>, x: f64, y: f64) -> Pos2 {
    let (area, camera) = harness.state().board().view().expect("the board was drawn");
    camera.to_screen(kurbo::Point::new(x, y), area)
}

/// Chooses two baths that need the same floor, from the list beside the plan.
fn choose_what_does_not_fit(harness: &mut Harness<'_, Mateline>) {
    open_list(harness, "Owner's bath");
    click(harness, "48 x 90 walk-in shower, ");
    open_list(harness, "Water-closet room");
    click(harness, "36 x 66 water-closet room, ");
    press(harness, Key::Escape);
}

#[test]
fn one_alternate_after_another_is_tried_in_an_open_list() {
    let mut harness = window();
    open_list(&mut harness, "Flex room");
    click(&mut harness, "Fourth bedroom, +$4,850");
    assert_eq!(chosen(&harness, "flex-room"), "fourth-bedroom");
    assert!(places(&harness).offered.is_some());
    click(&mut harness, "Hobby room, +$1,950");
    assert_eq!(chosen(&harness, "flex-room"), "hobby-room");
    press(&mut harness, Key::Escape);
    assert!(places(&harness).offered.is_none());
    open_list(&mut harness, "Flex room");
    let paper = seen(&harness, 480.0, 60.0);
    harness.hover_at(paper);
    harness.run();
    harness.drag_at(paper);
    harness.run();
    assert!(places(&harness).offered.is_none(), "a press elsewhere closes it");
}

#[test]
fn the_list_stands_outside_the_house_where_there_is_room() {
    let mut harness = window();
    let house = Rect::from_two_pos(seen(&harness, 0.0, 0.0), seen(&harness, 696.0, 330.0));
    for choice in ["Flex room", "Owner's bath", "Water-closet room", "Hall bath", "Back door", "Ceiling height"] {
        open_list(&mut harness, choice);
        let offered = places(&harness).offered.as_ref().expect("it is open");
        assert!(offered.rows.iter().all(|(_, row)| !house.contains(*row)), "{choice}");
        press(&mut harness, Key::Escape);
    }
}

#[test]
fn an_open_list_has_the_keyboard_on_what_is_chosen() {
    let mut harness = window();
    harness.get_by_label_contains("On the plan: Flex room").focus();
    harness.run();
    press(&mut harness, Key::Enter);
    assert!(harness.get_by_label("Study, included").is_focused());
    press(&mut harness, Key::ArrowDown);
    assert!(harness.get_by_label("Fourth bedroom, +$4,850").is_focused());
    harness.snapshot("keyboard_in_a_list");
    press(&mut harness, Key::ArrowUp);
    press(&mut harness, Key::Escape);
    assert!(harness.get_by_label_contains("On the plan: Flex room").is_focused());
    harness.get_by_label("Hall bath: Tub").focus();
    harness.run();
    press(&mut harness, Key::Enter);
    assert!(harness.get_by_label("Tub, included").is_focused());
}

#[test]
fn marks_keep_clear_of_lettering_and_of_each_other() {
    let harness = window();
    let marks = &places(&harness).marks;
    assert!(marks.len() >= 7);
    for (index, (one, at)) in marks.iter().enumerate() {
        for (other, there) in &marks[..index] {
            assert!((*at - *there).abs().max_elem() >= 20.0, "{one} and {other}");
        }
    }
}

#[test]
fn an_alternate_that_would_not_fit_says_so_before_it_is_chosen() {
    let mut harness = window();
    open_list(&mut harness, "Owner's bath");
    click(&mut harness, "48 x 90 walk-in shower, ");
    let shown = session(&harness).shown();
    let water_closet = shown.document.plan.choice(&"water-closet-room".into()).expect("the demo home has it");
    let against = Trial::Not("does not fit with 48 x 90 walk-in shower".to_owned());
    assert_eq!(shown.trials(water_closet), [Trial::Fits, against]);
    let flooring = shown.document.plan.choice(&"flooring".into()).expect("the demo home has it");
    assert!(shown.trials(flooring).iter().all(|trial| *trial == Trial::Fits));
    open_list(&mut harness, "Water-closet room");
    click(&mut harness, "does not fit with 48 x 90 walk-in shower");
    assert_eq!(chosen(&harness, "water-closet-room"), "room-36x66", "it can be chosen all the same");
}

#[test]
fn a_conflict_is_told_in_words_and_comes_into_view() {
    let mut harness = window();
    choose_what_does_not_fit(&mut harness);
    let shown = session(&harness).shown();
    let [conflict] = shown.conflicts.as_slice() else { panic!("{:?}", shown.conflicts) };
    let sentence = conflict.sentence.clone();
    harness.get_by_label_contains("Cannot be built\nas chosen");
    harness.get_by_label("Not judged: cannot be built");
    assert!(harness.query_by_label_contains("rules met").is_none());
    click(&mut harness, &format!("Conflict: {sentence}"));
    let marked = harness.state().board().highlight().cloned();
    assert!(matches!(marked, Some(Highlight::Finding { message, .. }) if message == sentence));
    harness.remove_cursor();
    harness.run();
    harness.snapshot("conflict_in_view");
}

#[test]
fn a_row_that_gains_the_keyboard_comes_into_view() {
    let mut harness = window();
    let last = "Flex wall";
    harness.get_by_label(last).focus();
    harness.run();
    harness.run();
    let row = harness.get_by_label(last).rect();
    assert!(row.top() > 40.0 && row.bottom() < 860.0, "{row:?}");
}

#[test]
fn saving_choices_alone_says_that_they_are_not_kept() {
    let mut harness = window();
    open_list(&mut harness, "Flex room");
    click(&mut harness, "Hobby room, ");
    press(&mut harness, Key::Escape);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    let told = harness.state().notices().text().unwrap_or_default();
    assert_eq!(
        told,
        "The plan has no changes to save. Your choices are not part of the plan file; Save selection... in the menu \
         beside them keeps them."
    );
}

#[test]
fn leaving_choices_is_asked_about() {
    let mut harness = window();
    open_list(&mut harness, "Flex room");
    click(&mut harness, "Hobby room, ");
    press(&mut harness, Key::Escape);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    harness.get_by_label("Leave these choices? They are not kept.");
    harness.get_by_label("Flex room: Hobby room");
    click(&mut harness, "Stay");
    assert_eq!(chosen(&harness, "flex-room"), "hobby-room");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    harness.get_by_label("Leave").click();
    harness.run();
    harness.get_by_label("Open a plan");
}

#[test]
fn the_price_says_what_it_is_made_of() {
    let mut harness = window();
    open_list(&mut harness, "Flex room");
    click(&mut harness, "Fourth bedroom, ");
    press(&mut harness, Key::Escape);
    harness.get_by_label("Flex room: Fourth bedroom, +$4,850");
    click(&mut harness, "Price: $153,750 USD");
    harness.get_by_label("Base price");
    harness.get_by_label("$148,900");
    harness.get_by_label("+$4,850");
    // The plan's price book adds to that; reckoned by hand beside the test of the command line.
    harness.get_by_label("+$9,024.63");
    harness.get_by_label("$183,674.63 USD");
    harness.remove_cursor();
    harness.run();
    harness.snapshot("price_lines");
}

#[test]
fn prices_can_be_hidden_all_at_once() {
    let mut harness = window();
    open_list(&mut harness, "Flex room");
    click(&mut harness, "Fourth bedroom, +$4,850");
    press(&mut harness, Key::Escape);
    click(&mut harness, "Price: $153,750 USD");
    harness.get_by_label("Prices").click();
    harness.run();
    press(&mut harness, Key::Escape);
    // In the bar, in the lists beside the plan and on it.
    open_list(&mut harness, "Flex room");
    harness.get_by_label("Flex room: Fourth bedroom");
    harness.get_by_label("Study, included");
    assert_eq!(harness.query_all_by_label_contains("$").count(), 0);
    harness.remove_cursor();
    harness.run();
    harness.snapshot("prices_hidden");
    press(&mut harness, Key::Escape);
    harness.get_by_label("Prices").click();
    harness.run();
    harness.get_by_label("Price: $153,750 USD");
    harness.get_by_label("Flex room: Fourth bedroom, +$4,850");
}

#[test]
fn small_windows() {
    let mut harness = window_of([1100.0, 700.0]);
    open_list(&mut harness, "Owner's bath");
    harness.remove_cursor();
    harness.run();
    harness.snapshot("small_window");
    press(&mut harness, Key::Escape);
    choose_what_does_not_fit(&mut harness);
    harness.remove_cursor();
    harness.run();
    harness.snapshot("small_window_conflict");
}
