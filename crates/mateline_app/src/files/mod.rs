//! The plan's file: opening, saving, and the questions that go with them.

mod book_files;
mod browse;
mod disk;
mod open_book;
mod open_prices;
mod question;
mod recent;
mod selection_disk;
mod selection_files;
mod typed_path;

use std::path::{Path, PathBuf};

use egui::Context;
use plan_model::Plan;

pub(crate) use book_files::{Amendment, BookDone, BookFiles, BookStep};
use browse::{Browse, Picked, system_dialog};
pub use browse::{Dialog, Wanted};
pub use disk::{Expected, OpenError, ReadPlan, SaveError, read_plan, read_text, save_text, sentences_about};
pub use open_book::{OpenBookError, open_book};
pub use open_prices::{OpenPricesError, lay_prices_over};
use question::{Answer, PathField, Question};
pub use recent::Recent;
pub use selection_disk::{OpenSelectionError, ReadSelection, SaveSelectionError, read_selection, save_selection};
pub(crate) use selection_files::{SelectionDone, SelectionFiles};

use crate::session::Unkept;

/// Where the plan is kept, and what is being asked about it.
pub struct Files {
    kept: Option<Kept>,
    recent: Recent,
    question: Option<Question>,
    dialog: Dialog,
}

/// The file of the plan, as this program last read or wrote it.
struct Kept {
    path: PathBuf,
    text: String,
}

/// What a person wants once the plan is saved or given up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Next {
    /// End the program.
    Close,
    /// Ask for a plan to open.
    AskOpen,
    /// Open this plan.
    Open(PathBuf),
}

/// What came of a request.
pub enum Done {
    /// Another plan was read.
    Opened(Box<Plan>),
    /// The plan was written.
    Saved {
        /// To this file.
        path: PathBuf,
        /// What was wanted after it.
        then: Option<Next>,
    },
    /// The program may end.
    Close,
    /// It could not be done; a sentence.
    Failed(String),
}

impl Files {
    /// A plan that has no file yet.
    #[must_use]
    pub fn unsaved(recent: Recent) -> Self {
        Self { kept: None, recent, question: None, dialog: system_dialog() }
    }

    /// A plan as it was read.
    #[must_use]
    pub fn of(path: &Path, text: String, mut recent: Recent) -> Self {
        recent.add(path);
        Self { kept: Some(Kept { path: path.to_owned(), text }), ..Self::unsaved(recent) }
    }

    /// The same, browsing with another dialog than the desktop's.
    #[must_use]
    pub fn with_dialog(self, dialog: Dialog) -> Self {
        Self { dialog, ..self }
    }

    /// What the person browses with.
    #[must_use]
    pub(crate) const fn dialog(&self) -> &Dialog {
        &self.dialog
    }

    /// The file, if the plan has one.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.kept.as_ref().map(|kept| kept.path.as_path())
    }

    /// Whether something is being asked, so that nothing else should be done.
    #[must_use]
    pub const fn is_asking(&self) -> bool {
        self.question.is_some()
    }

    /// What is told beside the question that is being asked.
    #[must_use]
    pub fn told(&self) -> Option<&str> {
        match self.question.as_ref()? {
            Question::Replace { why, .. } => Some(why),
            question => question.field()?.note(),
        }
    }

    /// Does the next thing, after asking about what would be lost.
    pub fn request(&mut self, next: Next, unkept: Unkept) -> Option<Done> {
        if unkept.is_nothing() {
            return self.proceed(next);
        }
        self.question = Some(Question::Unkept { unkept, next });
        None
    }

    fn proceed(&mut self, next: Next) -> Option<Done> {
        match next {
            Next::Close => Some(Done::Close),
            Next::Open(path) => match self.question.take() {
                Some(Question::Open(field)) => self.open_or_ask_again(&path, field),
                question => {
                    let done = self.open(&path);
                    if matches!(done, Done::Failed(_)) {
                        self.question = question;
                    }
                    Some(done)
                }
            },
            Next::AskOpen => {
                self.question = Some(Question::Open(PathField::default()));
                None
            }
        }
    }

    fn open(&mut self, path: &Path) -> Done {
        match read_plan(path) {
            Ok(ReadPlan { plan, text }) => {
                self.recent.add(path);
                self.kept = Some(Kept { path: path.to_owned(), text });
                Done::Opened(Box::new(plan))
            }
            Err(error) => Done::Failed(error.to_string()),
        }
    }

    /// Saves to the plan's file, or asks for one; then goes on.
    pub fn save(&mut self, plan: &Plan, then: Option<Next>) -> Option<Done> {
        let Some(kept) = &self.kept else {
            self.ask_where_to_save(plan, then);
            return None;
        };
        let (path, known) = (kept.path.clone(), kept.text.clone());
        self.write(plan, &path, Expected::Text(&known), then)
    }

    /// Asks for a file to save to, and for what comes after it.
    pub fn ask_where_to_save(&mut self, plan: &Plan, then: Option<Next>) {
        let suggested = match self.path() {
            Some(path) => path.display().to_string(),
            None => format!("{}.json", file_name(&plan.name)),
        };
        self.question = Some(Question::SaveAs { field: PathField::of(suggested), then });
    }

    fn write(&mut self, plan: &Plan, path: &Path, expected: Expected<'_>, then: Option<Next>) -> Option<Done> {
        let text = plan_model::file::write(plan);
        match save_text(path, &text, expected) {
            Ok(()) => {
                self.recent.add(path);
                self.kept = Some(Kept { path: path.to_owned(), text });
                Some(Done::Saved { path: path.to_owned(), then })
            }
            Err(error @ (SaveError::Exists { .. } | SaveError::Changed { .. })) => {
                self.question = Some(Question::Replace { path: path.to_owned(), why: error.to_string(), then });
                None
            }
            Err(error) => {
                let field = PathField::of(path.display().to_string()).with_note(error.to_string());
                self.question = Some(Question::SaveAs { field, then });
                None
            }
        }
    }

    /// Goes on with what a file dialog gave to the question it was opened from.
    pub fn receive_picked(&mut self, plan: &Plan) -> Option<Done> {
        let picked = self.question.as_mut()?.field_mut()?.picked()?;
        match (picked, self.question.take()?) {
            (Picked::Path(path), Question::Open(field)) => self.open_or_ask_again(&path, field),
            // The dialog has asked whether a file may be replaced; it knows nothing of changes made meanwhile.
            (Picked::Path(path), Question::SaveAs { then, .. }) => {
                let known = self.text_last_seen_at(&path);
                self.write(plan, &path, known.as_deref().map_or(Expected::Anything, Expected::Text), then)
            }
            (Picked::NoDialog, Question::Open(field)) => {
                self.question = Some(Question::Open(field.without_dialog()));
                None
            }
            (Picked::NoDialog, Question::SaveAs { field, then }) => {
                self.question = Some(Question::SaveAs { field: field.without_dialog(), then });
                None
            }
            (_, question) => {
                self.question = Some(question);
                None
            }
        }
    }

    fn open_or_ask_again(&mut self, path: &Path, field: PathField) -> Option<Done> {
        match self.open(path) {
            Done::Failed(why) => {
                self.question = Some(Question::Open(field.with_note(why)));
                None
            }
            done => Some(done),
        }
    }

    /// What this program last read from or wrote to a file, if the plan is kept there.
    fn text_last_seen_at(&self, path: &Path) -> Option<String> {
        self.kept.as_ref().filter(|kept| kept.path == path).map(|kept| kept.text.clone())
    }

    /// Draws the question that is being asked, and does what is answered.
    pub fn question_ui(&mut self, context: &Context, plan: &Plan) -> Option<Done> {
        let mut question = self.question.take()?;
        let Some(answer) = question.question_ui(context, plan, &self.recent) else {
            self.question = Some(question);
            return None;
        };
        match (answer, question) {
            (Answer::Browse, mut question) => {
                let wanted = match &question {
                    Question::SaveAs { .. } => Wanted::Save { name: format!("{}.json", file_name(&plan.name)) },
                    _ => Wanted::Open,
                };
                if let Some(field) = question.field_mut() {
                    field.wait_for(Browse::start(context, &self.dialog, wanted));
                }
                self.question = Some(question);
                None
            }
            (Answer::Path(path), Question::Open(field)) => self.open_or_ask_again(&path, field),
            (Answer::Path(path), Question::SaveAs { then, .. }) => {
                let known = self.text_last_seen_at(&path);
                self.write(plan, &path, known.as_deref().map_or(Expected::Nothing, Expected::Text), then)
            }
            (Answer::Save, Question::Unkept { next, .. }) => self.save(plan, Some(next)),
            (Answer::Discard, Question::Unkept { next, .. }) => self.proceed(next),
            (Answer::Replace, Question::Replace { path, then, .. }) => {
                self.write(plan, &path, Expected::Anything, then)
            }
            (Answer::Elsewhere, Question::Replace { then, .. }) => {
                self.ask_where_to_save(plan, then);
                None
            }
            _ => None,
        }
    }
}

/// A plan's name as the name of a file.
fn file_name(name: &str) -> String {
    let plain = |c: char| if c.is_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    name.chars().map(plain).collect::<String>().trim_matches('-').to_owned()
}
