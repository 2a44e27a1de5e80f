//! The selection's file: opening, saving, and the questions that go with them.

use std::path::{Path, PathBuf};

use egui::{Context, Id, Modal, TextEdit, Ui};
use plan_model::{Date, NotADate, Plan, Selection};
use plan_selection::{As, Finding, Opened, SelectionFile, open};

use super::browse::{Browse, Picked};
use super::question::{Answer, PathField, replace_ui};
use super::{Dialog, Expected, ReadSelection, SaveError, SaveSelectionError, Wanted, read_selection, save_selection};
use crate::theme;

/// Where the selection is kept, and what is being asked about it.
#[derive(Default)]
pub(crate) struct SelectionFiles {
    kept: Option<Kept>,
    question: Option<Question>,
}

/// A selection file, as this program last read or wrote it.
struct Kept {
    path: PathBuf,
    text: String,
    file: SelectionFile,
    /// What it came to with the plan; none where the plan no longer has all of it.
    selection: Option<Selection>,
}

enum Question {
    Open(PathField),
    SaveAs(Form),
    Replace { form: Form, path: PathBuf, file: Box<SelectionFile>, why: String },
}

/// What is stated when a selection is saved.
#[derive(Default)]
struct Form {
    buyer: String,
    date: String,
    path: PathField,
    /// Whether the keyboard is already led to the first field.
    is_ready: bool,
}

/// What came of a request.
pub(crate) enum SelectionDone {
    /// A selection was opened against the plan.
    Opened {
        /// Whose.
        buyer: String,
        /// What it comes to.
        opened: Box<Opened>,
    },
    /// The selection was written to this file.
    Saved(PathBuf),
}

impl SelectionFiles {
    /// Whether something is being asked, so that nothing else should be done.
    pub(crate) const fn is_asking(&self) -> bool {
        self.question.is_some()
    }

    /// What the buyer is called whose selection is kept.
    pub(crate) fn buyer(&self) -> Option<&str> {
        self.kept.as_ref().map(|kept| kept.file.buyer.as_str())
    }

    /// Whether this selection stands in the file.
    pub(crate) fn keeps(&self, selection: &Selection) -> bool {
        self.kept.as_ref().is_some_and(|kept| kept.selection.as_ref() == Some(selection))
    }

    /// Asks for a selection file to open.
    pub(crate) fn ask_what_to_open(&mut self) {
        self.question = Some(Question::Open(PathField::default()));
    }

    /// Asks for whom, for which day and where the selection is saved.
    pub(crate) fn ask_where_to_save(&mut self, plan: &Plan) {
        let form = match &self.kept {
            Some(kept) => Form {
                buyer: kept.file.buyer.clone(),
                date: String::new(),
                path: PathField::of(kept.path.display().to_string()).after_others(),
                is_ready: false,
            },
            None => Form { path: PathField::of(suggested(plan)).after_others(), ..Form::default() },
        };
        self.question = Some(Question::SaveAs(form));
    }

    fn open(&mut self, path: &Path, field: PathField, plan: &Plan) -> Option<SelectionDone> {
        match read_selection(path) {
            Ok(ReadSelection { file, text }) => {
                let (opened, buyer) = (open(&file, plan), file.buyer.clone());
                let is_whole = opened.findings.iter().all(Finding::holds);
                let selection = is_whole.then(|| opened.selection.clone());
                self.kept = Some(Kept { path: path.to_owned(), text, file, selection });
                Some(SelectionDone::Opened { buyer, opened: Box::new(opened) })
            }
            Err(error) => {
                self.question = Some(Question::Open(field.with_note(error.to_string())));
                None
            }
        }
    }

    /// What is to be written: the selection kept anew, or, once it is signed, with one more change order.
    fn stated(&self, form: &Form, plan: &Plan, selection: &Selection) -> Result<SelectionFile, String> {
        let date: Date = form.date.trim().parse().map_err(|error: NotADate| error.to_string())?;
        let before = self.kept.as_ref().map(|kept| &kept.file);
        if let Some(signed) = before.filter(|file| file.signed.is_some()) {
            return signed.order_change(plan, selection, date, None).map_err(|error| error.to_string());
        }
        let notes = before.map(|file| file.notes.clone()).unwrap_or_default();
        let mut file = SelectionFile::record(plan, selection, As { buyer: form.buyer.trim().to_owned(), date, notes });
        if let Some(before) = before {
            file.keep_remarks_of(before);
        }
        Ok(file)
    }

    fn save(
        &mut self,
        form: Form,
        path: &Path,
        plan: &Plan,
        selection: &Selection,
        is_agreed: bool,
    ) -> Option<SelectionDone> {
        let known = self.kept.as_ref().filter(|kept| kept.path == path).map(|kept| kept.text.clone());
        let otherwise = if is_agreed { Expected::Anything } else { Expected::Nothing };
        match self.stated(&form, plan, selection) {
            Ok(file) => self.write(form, path, file, selection, known.as_deref().map_or(otherwise, Expected::Text)),
            Err(why) => {
                self.ask_again(form, path, why);
                None
            }
        }
    }

    fn write(
        &mut self,
        form: Form,
        path: &Path,
        file: SelectionFile,
        selection: &Selection,
        expected: Expected<'_>,
    ) -> Option<SelectionDone> {
        match save_selection(path, &file, expected) {
            Ok(text) => {
                self.kept = Some(Kept { path: path.to_owned(), text, file, selection: Some(selection.clone()) });
                Some(SelectionDone::Saved(path.to_owned()))
            }
            Err(SaveSelectionError::File(error @ (SaveError::Exists { .. } | SaveError::Changed { .. }))) => {
                let (path, file, why) = (path.to_owned(), Box::new(file), error.to_string());
                self.question = Some(Question::Replace { form, path, file, why });
                None
            }
            Err(error) => {
                self.ask_again(form, path, error.to_string());
                None
            }
        }
    }

    fn ask_again(&mut self, form: Form, path: &Path, why: String) {
        let path = PathField::of(path.display().to_string()).with_note(why);
        self.question = Some(Question::SaveAs(Form { path, ..form }));
    }

    /// Draws the question that is being asked, and does what is answered there or in its file dialog.
    pub(crate) fn question_ui(
        &mut self,
        context: &Context,
        dialog: &Dialog,
        plan: &Plan,
        selection: &Selection,
    ) -> Option<SelectionDone> {
        let mut question = self.question.take()?;
        if let Some(picked) = question.field_mut().and_then(PathField::picked) {
            return self.take_picked(picked, question, plan, selection);
        }
        let order = self.kept.as_ref().filter(|kept| kept.file.signed.is_some());
        let order = order.map(|kept| kept.file.change_orders.len() + 1);
        let Some(answer) = question.ui(context, order) else {
            self.question = Some(question);
            return None;
        };
        match (answer, question) {
            (Answer::Browse, mut question) => {
                let wanted = match &question {
                    Question::SaveAs(_) => Wanted::SaveSelection { name: suggested(plan) },
                    _ => Wanted::OpenSelection,
                };
                if let Some(field) = question.field_mut() {
                    field.wait_for(Browse::start(context, dialog, wanted));
                }
                self.question = Some(question);
                None
            }
            (Answer::Path(path), Question::Open(field)) => self.open(&path, field, plan),
            (Answer::Path(path), Question::SaveAs(form)) => self.save(form, &path, plan, selection, false),
            (Answer::Replace, Question::Replace { form, path, file, .. }) => {
                self.write(form, &path, *file, selection, Expected::Anything)
            }
            (Answer::Elsewhere, Question::Replace { form, .. }) => {
                self.question = Some(Question::SaveAs(form));
                None
            }
            _ => None,
        }
    }

    fn take_picked(
        &mut self,
        picked: Picked,
        question: Question,
        plan: &Plan,
        selection: &Selection,
    ) -> Option<SelectionDone> {
        match (picked, question) {
            (Picked::Path(path), Question::Open(field)) => self.open(&path, field, plan),
            // The dialog has asked whether a file may be replaced.
            (Picked::Path(path), Question::SaveAs(form)) => self.save(form, &path, plan, selection, true),
            (Picked::NoDialog, Question::Open(field)) => {
                self.question = Some(Question::Open(field.without_dialog()));
                None
            }
            (Picked::NoDialog, Question::SaveAs(form)) => {
                self.question = Some(Question::SaveAs(Form { path: form.path.without_dialog(), ..form }));
                None
            }
            (_, question) => {
                self.question = Some(question);
                None
            }
        }
    }
}

/// The name of a first selection file beside a plan.
fn suggested(plan: &Plan) -> String {
    format!("{}-selection.json", super::file_name(&plan.name))
}

impl Question {
    const fn field_mut(&mut self) -> Option<&mut PathField> {
        match self {
            Self::Open(field) | Self::SaveAs(Form { path: field, .. }) => Some(field),
            Self::Replace { .. } => None,
        }
    }

    fn ui(&mut self, context: &Context, order: Option<usize>) -> Option<Answer> {
        let modal = Modal::new(Id::unique("selection question")).frame(theme::modal(context)).show(context, |ui| {
            ui.set_width(520.0);
            match self {
                Self::Open(field) => {
                    ui.heading("Open a selection");
                    field.path_field_ui(ui, "Open")
                }
                Self::SaveAs(form) => form.ui(ui, order),
                Self::Replace { why, .. } => replace_ui(ui, why),
            }
        });
        let closed = modal.should_close();
        modal.inner.or(closed.then_some(Answer::Cancel))
    }
}

impl Form {
    fn ui(&mut self, ui: &mut Ui, order: Option<usize>) -> Option<Answer> {
        match order {
            Some(number) => {
                ui.heading(format!("Save as change order {number}"));
                ui.label(format!("The selection of {} is signed: what is changed is added to it.", self.buyer));
            }
            None => {
                ui.heading("Save the selection");
                field_ui(ui, "Buyer", &mut self.buyer, &mut self.is_ready);
            }
        }
        field_ui(ui, "Date, such as 2026-03-02", &mut self.date, &mut self.is_ready);
        self.path.path_field_ui(ui, "Save")
    }
}

/// A field; the first one is led the keyboard when the question is first asked.
fn field_ui(ui: &mut Ui, name: &str, typed: &mut String, is_ready: &mut bool) {
    let label = ui.label(name);
    let field = ui.add(TextEdit::singleline(typed).desired_width(f32::INFINITY)).labelled_by(label.id);
    if !std::mem::replace(is_ready, true) {
        field.request_focus();
    }
}
