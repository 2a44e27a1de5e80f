//! The files of rule books and amendments: opening, saving, and the questions that go with them.

use std::path::{Path, PathBuf, absolute};

use egui::{Context, Id, Modal, Ui};
use plan_rules::{AmendmentDraft, RuleBook};

use super::browse::{Browse, Picked};
use super::question::{Answer, PathField, replace_ui, row_ui};
use super::{Dialog, Expected, SaveError, Wanted, open_book, save_text};
use crate::theme;

/// What is being asked about books.
#[derive(Default)]
pub(crate) struct BookFiles {
    question: Option<Question>,
}

/// An amendment with the file of what it is laid over, if that has one.
#[derive(Clone)]
pub(crate) struct Amendment {
    /// What it says.
    pub(crate) draft: AmendmentDraft,
    /// The file of its base.
    pub(crate) base: Option<PathBuf>,
}

enum Question {
    Open(PathField),
    SaveAs(PathField, Amendment),
    Replace { path: PathBuf, why: String, amendment: Amendment },
    Leave { amendment: Amendment, then: BookStep },
}

/// What a person wants instead of the amendment that is being written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum BookStep {
    /// Judge by the built-in book of this id.
    JudgeBy(String),
    /// Take every amendment away.
    BackToTheCode,
    /// Open a file.
    Open,
}

/// What came of a request.
pub(crate) enum BookDone {
    /// A book was read.
    Opened(Box<RuleBook>),
    /// The amendment was written.
    Saved {
        /// To this file.
        path: PathBuf,
        /// As it stands there.
        draft: AmendmentDraft,
    },
    /// The amendment is given up for this.
    Left(BookStep),
}

impl Amendment {
    /// As it is written to a file: what it is laid over is found from there.
    fn beside(&self, path: &Path) -> AmendmentDraft {
        let mut draft = self.draft.clone();
        if let Some(base) = &self.base {
            let (base, path) = (absolute(base).unwrap_or_else(|_| base.clone()), absolute(path));
            let is_beside = path.is_ok_and(|path| path.parent() == base.parent());
            let name = base.file_name().filter(|_| is_beside).map_or(base.as_os_str(), |name| name);
            draft.amends = name.to_string_lossy().into_owned();
        }
        draft
    }

    fn file_name(&self) -> String {
        format!("{}.toml", self.draft.id())
    }
}

impl BookFiles {
    /// Whether something is being asked, so that nothing else should be done.
    pub(crate) const fn is_asking(&self) -> bool {
        self.question.is_some()
    }

    /// Asks for a book to open.
    pub(crate) fn ask_what_to_open(&mut self) {
        self.question = Some(Question::Open(PathField::default()));
    }

    /// Asks for a file to save an amendment to.
    pub(crate) fn ask_where_to_save(&mut self, amendment: Amendment) {
        self.question = Some(Question::SaveAs(PathField::of(amendment.file_name()), amendment));
    }

    /// Asks whether an amendment that is not saved is given up.
    pub(crate) fn ask_whether_to_leave(&mut self, amendment: Amendment, then: BookStep) {
        self.question = Some(Question::Leave { amendment, then });
    }

    fn open(&mut self, path: &Path, field: PathField) -> Option<BookDone> {
        match open_book(&path.display().to_string()) {
            Ok(book) => Some(BookDone::Opened(Box::new(book))),
            Err(error) => {
                self.question = Some(Question::Open(field.with_note(error.to_string())));
                None
            }
        }
    }

    fn write(&mut self, amendment: Amendment, path: &Path, expected: Expected<'_>) -> Option<BookDone> {
        let draft = amendment.beside(path);
        match save_text(path, &draft.text(), expected) {
            Ok(()) => Some(BookDone::Saved { path: path.to_owned(), draft }),
            Err(error @ (SaveError::Exists { .. } | SaveError::Changed { .. })) => {
                self.question = Some(Question::Replace { path: path.to_owned(), why: error.to_string(), amendment });
                None
            }
            Err(error) => {
                let field = PathField::of(path.display().to_string()).with_note(error.to_string());
                self.question = Some(Question::SaveAs(field, amendment));
                None
            }
        }
    }

    /// Draws the question that is being asked, and does what is answered there or in its file dialog.
    pub(crate) fn question_ui(&mut self, context: &Context, dialog: &Dialog) -> Option<BookDone> {
        let mut question = self.question.take()?;
        if let Some(picked) = question.field_mut().and_then(PathField::picked) {
            return self.take_picked(picked, question);
        }
        let Some(answer) = question.ui(context) else {
            self.question = Some(question);
            return None;
        };
        match (answer, question) {
            (Answer::Browse, mut question) => {
                let wanted = match &question {
                    Question::SaveAs(_, amendment) => Wanted::SaveAmendment { name: amendment.file_name() },
                    _ => Wanted::OpenBook,
                };
                if let Some(field) = question.field_mut() {
                    field.wait_for(Browse::start(context, dialog, wanted));
                }
                self.question = Some(question);
                None
            }
            (Answer::Path(path), Question::Open(field)) => self.open(&path, field),
            (Answer::Path(path), Question::SaveAs(_, amendment)) => self.write(amendment, &path, Expected::Nothing),
            (Answer::Replace, Question::Replace { path, amendment, .. }) => {
                self.write(amendment, &path, Expected::Anything)
            }
            (
                Answer::Elsewhere | Answer::Save,
                Question::Replace { amendment, .. } | Question::Leave { amendment, .. },
            ) => {
                self.ask_where_to_save(amendment);
                None
            }
            (Answer::Discard, Question::Leave { then, .. }) => Some(BookDone::Left(then)),
            _ => None,
        }
    }

    fn take_picked(&mut self, picked: Picked, question: Question) -> Option<BookDone> {
        match (picked, question) {
            (Picked::Path(path), Question::Open(field)) => self.open(&path, field),
            // The dialog has asked whether a file may be replaced.
            (Picked::Path(path), Question::SaveAs(_, amendment)) => self.write(amendment, &path, Expected::Anything),
            (Picked::NoDialog, Question::Open(field)) => {
                self.question = Some(Question::Open(field.without_dialog()));
                None
            }
            (Picked::NoDialog, Question::SaveAs(field, amendment)) => {
                self.question = Some(Question::SaveAs(field.without_dialog(), amendment));
                None
            }
            (_, question) => {
                self.question = Some(question);
                None
            }
        }
    }
}

impl Question {
    const fn field_mut(&mut self) -> Option<&mut PathField> {
        match self {
            Self::Open(field) | Self::SaveAs(field, _) => Some(field),
            Self::Replace { .. } | Self::Leave { .. } => None,
        }
    }

    fn ui(&mut self, context: &Context) -> Option<Answer> {
        let modal = Modal::new(Id::unique("book question")).frame(theme::modal(context)).show(context, |ui| {
            ui.set_width(520.0);
            match self {
                Self::Open(field) => {
                    ui.heading("Open rule book or amendment");
                    field.path_field_ui(ui, "Open")
                }
                Self::SaveAs(field, amendment) => {
                    ui.heading(format!("Save amendment: {}", amendment.draft.name));
                    field.path_field_ui(ui, "Save")
                }
                Self::Replace { why, .. } => replace_ui(ui, why),
                Self::Leave { amendment, .. } => leave_ui(ui, &amendment.draft.name),
            }
        });
        let closed = modal.should_close();
        modal.inner.or(closed.then_some(Answer::Cancel))
    }
}

fn leave_ui(ui: &mut Ui, name: &str) -> Option<Answer> {
    ui.heading(format!("Leave the amendment {name}? It is not saved."));
    ui.add_space(8.0);
    row_ui(ui, [("Save amendment as...", Answer::Save), ("Leave", Answer::Discard), ("Stay", Answer::Cancel)])
}
