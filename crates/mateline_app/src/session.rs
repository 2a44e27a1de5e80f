//! What is being worked on, with everything that follows from it.

use std::sync::Arc;

use plan_edit::{Command, Document, Effect, Event, History, Refused, Tool};
use plan_model::Plan;
use plan_rules::RuleBook;

pub use crate::shown::{Fault, Outdoors, RoomSize, Shown};

/// A plan being worked on, and everything that follows from it.
///
/// Figures, verdicts and price are derived in one place and once for each change; everything that draws only reads them.
pub struct Session {
    history: History,
    tool: Tool,
    book: Arc<RuleBook>,
    /// The current document of the history.
    settled: Arc<Shown>,
    /// The same, or what it would become by the drag that is under way.
    shown: Arc<Shown>,
    derived_so_far: u64,
}

/// What is lost when another plan is opened or the program ends.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Unkept {
    /// Whether the plan has changes that are not in its file.
    pub plan_is_changed: bool,
    /// The answers that are not the included ones: `Flex room: Fourth bedroom`.
    pub choices: Vec<String>,
    /// The name of an amendment of the rule book that stands in no file.
    pub amendment: Option<String>,
}

impl Unkept {
    /// Whether nothing is lost.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        !self.plan_is_changed && self.choices.is_empty() && self.amendment.is_none()
    }
}

impl Session {
    /// Begins to work on a plan, judged by a book.
    #[must_use]
    pub fn new(plan: Plan, book: Arc<RuleBook>) -> Self {
        let document = Document::new(plan);
        let shown = Arc::new(Shown::new(document.clone(), &book, 1, None));
        let settled = Arc::clone(&shown);
        Self { history: History::new(document), tool: Tool::Idle, book, settled, shown, derived_so_far: 1 }
    }

    /// The rule book in force.
    #[must_use]
    pub fn book(&self) -> &RuleBook {
        &self.book
    }

    /// Judges by another book from now on. The plan and its history stay as they are; what was being dragged is let go.
    pub fn judge_by(&mut self, book: Arc<RuleBook>) {
        self.tool = Tool::Idle;
        self.book = book;
        self.settled = self.derived(self.history.document().clone());
        self.shown = Arc::clone(&self.settled);
    }

    /// What is shown; during a drag, what the document would become.
    #[must_use]
    pub fn shown(&self) -> &Shown {
        &self.shown
    }

    /// The current document, whatever is being dragged.
    #[must_use]
    pub fn settled(&self) -> &Shown {
        &self.settled
    }

    /// What the pointer is doing.
    #[must_use]
    pub const fn tool(&self) -> &Tool {
        &self.tool
    }

    /// The name of the step that undo would take back.
    #[must_use]
    pub fn can_undo(&self) -> Option<&str> {
        self.history.can_undo()
    }

    /// The name of the step that redo would do again.
    #[must_use]
    pub fn can_redo(&self) -> Option<&str> {
        self.history.can_redo()
    }

    /// Whether the plan is as it was read or last saved.
    #[must_use]
    pub fn is_saved(&self) -> bool {
        self.history.is_saved()
    }

    /// What would be lost with this session.
    #[must_use]
    pub fn unkept(&self) -> Unkept {
        Unkept { plan_is_changed: !self.is_saved(), choices: self.settled.choices_made(), amendment: None }
    }

    /// Remembers the plan as it is now as the one in the file.
    pub fn mark_saved(&mut self) {
        self.history.mark_saved();
    }

    /// Carries out a command as one step.
    ///
    /// # Errors
    /// When the command makes no sense for this plan; nothing changes then.
    pub fn do_command(&mut self, command: &Command) -> Result<(), Refused> {
        self.tool = Tool::Idle;
        let done = self.history.do_command(command);
        self.refresh();
        done
    }

    /// Takes the last step back.
    pub fn undo(&mut self) {
        self.tool = Tool::Idle;
        self.history.undo();
        self.refresh();
    }

    /// Does the step that was last taken back again.
    pub fn redo(&mut self) {
        self.tool = Tool::Idle;
        self.history.redo();
        self.refresh();
    }

    /// Leads the tool on by something that the pointer or a key did.
    ///
    /// # Errors
    /// When the command that it ends in is refused; nothing changes then.
    pub fn on_event(&mut self, event: Event) -> Result<(), Refused> {
        let (tool, effect) = std::mem::take(&mut self.tool).on(event, self.history.document());
        self.tool = tool;
        let done = match effect {
            Effect::None => return Ok(()),
            Effect::ShowAgain => Ok(()),
            Effect::Commit(command) => self.history.do_command(&command),
        };
        self.refresh();
        done
    }

    fn refresh(&mut self) {
        if !self.history.document().is_same(&self.settled.document) {
            self.settled = self.derived(self.history.document().clone());
        }
        let wanted = self.tool.shown(self.history.document());
        if wanted.is_same(&self.settled.document) {
            self.shown = Arc::clone(&self.settled);
        } else if !wanted.is_same(&self.shown.document) {
            self.shown = self.derived(wanted.clone());
        }
    }

    /// The one place where figures are derived.
    fn derived(&mut self, document: Document) -> Arc<Shown> {
        self.derived_so_far += 1;
        Arc::new(Shown::new(document, &self.book, self.derived_so_far, Some(&self.shown.derived)))
    }
}
