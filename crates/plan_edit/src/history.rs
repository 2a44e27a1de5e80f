use crate::{Command, Document, Refused, apply};

/// The current document and every step that led to it; unlimited, since snapshots share what they do not change.
#[derive(Clone, Debug)]
pub struct History {
    current: Document,
    past: Vec<Step>,
    future: Vec<Step>,
    saved: Document,
}

/// A step away from the current document.
#[derive(Clone, Debug)]
struct Step {
    /// What was done, or undone.
    name: String,
    /// The document on the other side of the step.
    document: Document,
}

impl History {
    /// A document as it was read from its file: saved, with nothing to undo.
    #[must_use]
    pub fn new(document: Document) -> Self {
        Self { saved: document.clone(), current: document, past: Vec::new(), future: Vec::new() }
    }

    /// The document as it is now.
    #[must_use]
    pub const fn document(&self) -> &Document {
        &self.current
    }

    /// Carries out a command as one step. A command that changes nothing leaves no step.
    ///
    /// # Errors
    /// When the command is refused; nothing changes then.
    pub fn do_command(&mut self, command: &Command) -> Result<(), Refused> {
        let changed = apply(&self.current, command)?;
        if !changed.is_same(&self.current) {
            let name = command.name(&self.current.plan);
            let before = std::mem::replace(&mut self.current, changed);
            self.past.push(Step { name, document: before });
            self.future.clear();
        }
        Ok(())
    }

    /// The name of the step that [`undo`](Self::undo) would take back, if there is one.
    #[must_use]
    pub fn can_undo(&self) -> Option<&str> {
        self.past.last().map(|step| step.name.as_str())
    }

    /// The name of the step that [`redo`](Self::redo) would do again, if there is one.
    #[must_use]
    pub fn can_redo(&self) -> Option<&str> {
        self.future.last().map(|step| step.name.as_str())
    }

    /// Takes the last step back and gives its name; does nothing if there is none.
    pub fn undo(&mut self) -> Option<&str> {
        Self::step(&mut self.current, &mut self.past, &mut self.future)
    }

    /// Does the step that was last taken back again and gives its name; does nothing if there is none.
    pub fn redo(&mut self) -> Option<&str> {
        Self::step(&mut self.current, &mut self.future, &mut self.past)
    }

    fn step<'to>(current: &mut Document, from: &mut Vec<Step>, to: &'to mut Vec<Step>) -> Option<&'to str> {
        let mut step = from.pop()?;
        std::mem::swap(current, &mut step.document);
        to.push(step);
        to.last().map(|step| step.name.as_str())
    }

    /// Whether the plan is the one that was read or last saved. What is chosen does not count: it is not in the plan.
    #[must_use]
    pub fn is_saved(&self) -> bool {
        self.current.has_same_plan(&self.saved)
    }

    /// Remembers the plan as it is now as the one in the file.
    pub fn mark_saved(&mut self) {
        self.saved = self.current.clone();
    }
}
