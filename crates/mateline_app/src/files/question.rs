use std::path::PathBuf;

use egui::text::{CCursor, CCursorRange};
use egui::{Button, Context, Id, Key, Modal, RichText, ScrollArea, TextEdit, Ui};
use plan_drawing::Ink;
use plan_model::Plan;

use super::browse::{Browse, Picked};
use super::typed_path::typed_path;
use super::{Next, Recent};
use crate::session::Unkept;
use crate::theme;

/// What is being asked about files.
pub(super) enum Question {
    /// Which plan to open.
    Open(PathField),
    /// Where to save, and what comes after it.
    SaveAs {
        /// The path.
        field: PathField,
        /// What comes after it.
        then: Option<Next>,
    },
    /// What becomes of changes and choices that are not kept.
    Unkept {
        /// What would be lost.
        unkept: Unkept,
        /// What comes after it.
        next: Next,
    },
    /// Whether a file may be replaced.
    Replace {
        /// The file.
        path: PathBuf,
        /// Why it is asked.
        why: String,
        /// What comes after it.
        then: Option<Next>,
    },
}

/// What was answered.
pub(super) enum Answer {
    /// Take this file.
    Path(PathBuf),
    /// Show the system's file dialog.
    Browse,
    /// Save first.
    Save,
    /// Give the changes up.
    Discard,
    /// Replace the file.
    Replace,
    /// Save under another name.
    Elsewhere,
    /// Leave everything as it is.
    Cancel,
}

/// A path that is typed, pasted or picked in a dialog.
#[derive(Default)]
pub(super) struct PathField {
    typed: String,
    note: Option<String>,
    /// The dialog that was opened from here. It goes with the field, so that no other question takes its answer.
    browse: Option<Browse>,
    /// Whether the keyboard is already led here, with the text selected.
    is_ready: bool,
}

const NO_DIALOG: &str = "This desktop offers no file dialog. The package xdg-desktop-portal with your desktop's backend, \
                         or zenity, would bring one. Type or paste a path above, or drop a file on the window.";

impl PathField {
    pub(super) fn of(typed: String) -> Self {
        Self { typed, ..Self::default() }
    }

    /// The same field with what is wrong, to be typed into again.
    pub(super) fn with_note(self, note: String) -> Self {
        Self { typed: self.typed, note: Some(note), ..Self::default() }
    }

    /// The same field below others, which are filled in first.
    pub(super) fn after_others(self) -> Self {
        Self { is_ready: true, ..self }
    }

    pub(super) fn note(&self) -> Option<&str> {
        self.note.as_deref()
    }

    /// The same field, with the advice for a desktop that has no file dialog.
    pub(super) fn without_dialog(self) -> Self {
        self.with_note(NO_DIALOG.to_owned())
    }

    /// Waits for the answer of a dialog.
    pub(super) fn wait_for(&mut self, browse: Browse) {
        self.browse = Some(browse);
    }

    /// What the dialog gave, once it has.
    pub(super) fn picked(&mut self) -> Option<Picked> {
        let picked = self.browse.as_ref()?.picked()?;
        self.browse = None;
        Some(picked)
    }

    pub(super) fn path_field_ui(&mut self, ui: &mut Ui, verb: &str) -> Option<Answer> {
        let label = ui.label("Path of the file");
        let mut output = TextEdit::singleline(&mut self.typed).desired_width(f32::INFINITY).show(ui);
        let field = output.response.response.clone().labelled_by(label.id);
        if !self.is_ready {
            field.request_focus();
            let end = CCursor::new(self.typed.chars().count());
            output.state.cursor.set_char_range(Some(CCursorRange::two(CCursor::default(), end)));
            output.state.store(ui.ctx(), field.id);
            self.is_ready = true;
        }
        let entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        if let Some(note) = &self.note {
            ui.label(RichText::new(note).color(theme::ink(Ink::Redline)));
        }
        ui.add_space(8.0);
        let named = !self.typed.trim().is_empty();
        ui.horizontal(|ui| {
            let go = ui.add_enabled(named, Button::new(verb)).clicked() || entered && named;
            let browse = ui.add_enabled(self.browse.is_none(), Button::new("Browse...")).clicked();
            let cancel = ui.button("Cancel").clicked();
            match (go, browse, cancel) {
                (true, ..) => Some(Answer::Path(typed_path(&self.typed))),
                (_, true, _) => Some(Answer::Browse),
                (.., true) => Some(Answer::Cancel),
                _ => None,
            }
        })
        .inner
    }
}

impl Question {
    /// The path that is asked for, if one is.
    pub(super) const fn field(&self) -> Option<&PathField> {
        match self {
            Self::Open(field) | Self::SaveAs { field, .. } => Some(field),
            Self::Unkept { .. } | Self::Replace { .. } => None,
        }
    }

    /// The same, to change.
    pub(super) const fn field_mut(&mut self) -> Option<&mut PathField> {
        match self {
            Self::Open(field) | Self::SaveAs { field, .. } => Some(field),
            Self::Unkept { .. } | Self::Replace { .. } => None,
        }
    }

    pub(super) fn question_ui(&mut self, context: &Context, plan: &Plan, recent: &Recent) -> Option<Answer> {
        let modal = Modal::new(Id::unique("file question")).frame(theme::modal(context)).show(context, |ui| {
            ui.set_width(520.0);
            match self {
                Self::Open(field) => open_ui(ui, field, recent),
                Self::SaveAs { field, .. } => {
                    ui.heading(format!("Save {}", plan.name));
                    field.path_field_ui(ui, "Save")
                }
                Self::Unkept { unkept, .. } => unkept_ui(ui, plan, unkept),
                Self::Replace { why, .. } => replace_ui(ui, why),
            }
        });
        let closed = modal.should_close();
        modal.inner.or(closed.then_some(Answer::Cancel))
    }
}

/// The last used files that are seen at once, in points; to the others the list is scrolled.
const MOST_OF_RECENT: f32 = 290.0;

fn open_ui(ui: &mut Ui, field: &mut PathField, recent: &Recent) -> Option<Answer> {
    ui.heading("Open a plan");
    let answer = field.path_field_ui(ui, "Open");
    if recent.iter().next().is_none() {
        return answer;
    }
    ui.add_space(8.0);
    ui.label(RichText::new("Last used").family(theme::bold()));
    let rows: f32 = recent.iter().map(|_| ui.spacing().interact_size.y + ui.spacing().item_spacing.y).sum();
    let height = rows.min(MOST_OF_RECENT);
    let chosen = ScrollArea::vertical().min_scrolled_height(height).max_height(height).show(ui, |ui| {
        let rows =
            recent.iter().map(|path| (path, ui.add(Button::new(path.display().to_string()).truncate()).clicked()));
        rows.fold(None, |chosen, (path, clicked)| if clicked { Some(path.to_owned()) } else { chosen })
    });
    answer.or(chosen.inner.map(Answer::Path))
}

fn unkept_ui(ui: &mut Ui, plan: &Plan, unkept: &Unkept) -> Option<Answer> {
    if !unkept.plan_is_changed {
        if !unkept.choices.is_empty() {
            ui.heading("Leave these choices? They are not kept.");
            choices_ui(ui, &unkept.choices);
        }
        amendment_ui(ui, unkept);
        ui.add_space(8.0);
        return row_ui(ui, [("Leave", Answer::Discard), ("Stay", Answer::Cancel)]);
    }
    ui.heading(format!("Save the changes to {}?", plan.name));
    ui.label("They are lost if they are not saved.");
    if !unkept.choices.is_empty() {
        ui.add_space(4.0);
        ui.label("These choices are not part of the plan file and are not kept either way:");
        choices_ui(ui, &unkept.choices);
    }
    amendment_ui(ui, unkept);
    ui.add_space(8.0);
    row_ui(ui, [("Save", Answer::Save), ("Do not save", Answer::Discard), ("Keep working", Answer::Cancel)])
}

fn amendment_ui(ui: &mut Ui, unkept: &Unkept) {
    let Some(name) = &unkept.amendment else { return };
    let stands_alone = !unkept.plan_is_changed && unkept.choices.is_empty();
    if stands_alone {
        ui.heading(format!("Leave the amendment {name}? It is not saved."));
    } else {
        ui.add_space(4.0);
        ui.label(format!("The amendment {name} is not saved either way."));
    }
}

fn choices_ui(ui: &mut Ui, choices: &[String]) {
    /// More fit on no small screen.
    const MOST: usize = 12;
    for choice in choices.iter().take(MOST) {
        ui.label(choice);
    }
    if choices.len() > MOST {
        ui.label(format!("and {} more", choices.len() - MOST));
    }
}

pub(super) fn replace_ui(ui: &mut Ui, why: &str) -> Option<Answer> {
    ui.heading("Replace the file?");
    ui.label(why);
    ui.add_space(8.0);
    let answers =
        [("Save under another name", Answer::Elsewhere), ("Replace it", Answer::Replace), ("Cancel", Answer::Cancel)];
    row_ui(ui, answers)
}

pub(super) fn row_ui<const N: usize>(ui: &mut Ui, answers: [(&str, Answer); N]) -> Option<Answer> {
    let mut given = None;
    ui.horizontal(|ui| {
        for (label, answer) in answers {
            if ui.button(label).clicked() {
                given = Some(answer);
            }
        }
    });
    given
}
