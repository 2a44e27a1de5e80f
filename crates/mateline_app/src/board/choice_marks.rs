use egui::{Align2, Button, CornerRadius, FontId, Popup, Pos2, Rect, RichText, Stroke, Ui, UiBuilder, Vec2, vec2};
use plan_edit::Command;
use plan_model::{AlternateRef, Choice, Id, Plan, Selection};

use super::Camera;
use super::highlight::inches;
use crate::session::Shown;
use crate::{price_text, theme};

/// A list of alternates that is open on the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Offered {
    /// The choice that is asked.
    pub choice: Id,
    /// The middle of each alternate's row, in screen points.
    pub rows: Vec<(Id, Pos2)>,
}

/// A tag for each choice at the place that it changes; a tag opens the list of its alternates there.
///
/// Gives the command that was asked for.
pub(super) fn choice_marks_ui(
    ui: &mut Ui,
    board: Rect,
    camera: &Camera,
    shown: &Shown,
    offered: &mut Option<Offered>,
) -> Option<Command> {
    let (plan, selection) = (&shown.document.plan, &shown.document.selection);
    let mut taken: Vec<Rect> = Vec::new();
    let mut command = None;
    *offered = None;
    ui.scope_builder(UiBuilder::new().max_rect(board), |ui| {
        ui.set_clip_rect(board);
        for choice in &plan.choices {
            let Some(at) = choice.at else { continue };
            let text = tag_text(choice, selection);
            let size = tag_size(ui, &text);
            let place = free_place(Rect::from_center_size(camera.to_screen(inches(at), board), size), &taken);
            taken.push(place);
            if !board.intersects(place) {
                continue;
            }
            let asked = ui.push_id(&choice.id, |ui| mark_ui(ui, place, &text, choice, plan, selection, offered)).inner;
            command = command.take().or(asked);
        }
    });
    command
}

fn tag_text(choice: &Choice, selection: &Selection) -> String {
    let alternate = selection.alternate(&choice.id).and_then(|id| choice.alternate(id));
    format!("{}: {}", choice.name, alternate.map_or("not chosen", |alternate| alternate.name.as_str()))
}

fn tag_font() -> FontId {
    FontId::proportional(theme::SMALL)
}

fn tag_size(ui: &Ui, text: &str) -> Vec2 {
    let galley = ui.painter().layout_no_wrap(text.to_owned(), tag_font(), theme::TEXT);
    galley.size() + vec2(18.0, 8.0)
}

/// The place itself, or the first one below it that no other tag takes.
fn free_place(mut place: Rect, taken: &[Rect]) -> Rect {
    while let Some(other) = taken.iter().find(|other| other.expand(2.0).intersects(place)) {
        place = Align2::CENTER_TOP.anchor_size(egui::pos2(place.center().x, other.bottom() + 3.0), place.size());
    }
    place
}

fn mark_ui(
    ui: &mut Ui,
    place: Rect,
    text: &str,
    choice: &Choice,
    plan: &Plan,
    selection: &Selection,
    offered: &mut Option<Offered>,
) -> Option<Command> {
    let tag = Button::new(RichText::new(text).font(tag_font()).color(theme::ACCENT))
        .fill(theme::CARD)
        .stroke(Stroke::new(1.0, theme::ACCENT))
        .corner_radius(CornerRadius::same(10));
    let response = ui.put(place, tag).on_hover_text("Choose another alternate here");
    let popup = Popup::menu(&response).gap(4.0).width(300.0).accessible_name(format!("Alternates: {}", choice.name));
    let listed = popup.show(|ui| list_ui(ui, choice, plan, selection))?.inner;
    *offered = Some(Offered { choice: choice.id.clone(), rows: listed.rows });
    listed.command
}

struct Listed {
    rows: Vec<(Id, Pos2)>,
    command: Option<Command>,
}

fn list_ui(ui: &mut Ui, choice: &Choice, plan: &Plan, selection: &Selection) -> Listed {
    ui.label(RichText::new(&choice.name).family(theme::bold()));
    let mut listed = Listed { rows: Vec::new(), command: None };
    for alternate in &choice.alternates {
        let answer = AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
        let row = Button::selectable(selection.takes(&answer), &alternate.name)
            .right_text(RichText::new(price_text::of_alternate(alternate, &plan.currency)).color(theme::QUIET))
            .min_size(vec2(ui.available_width(), ui.spacing().interact_size.y));
        let response = ui.add(row);
        listed.rows.push((alternate.id.clone(), response.rect.center()));
        if response.clicked() {
            listed.command = Some(Command::Choose(answer));
        }
    }
    listed
}
