//! What is being worked on, with everything that follows from it.

use std::sync::Arc;

use plan_choices::Refusal;
use plan_edit::{Command, Document, Effect, Event, History, Refused, Tool};
use plan_geometry::{Derived, Problem, RoomFigures};
use plan_model::{Exact, Home, Id, Length, Money, Plan};
use plan_rules::{Judgement, RuleBook, Verdict, WrongLegalKind, show};

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

/// A document with all that follows from it.
pub struct Shown {
    /// The document.
    pub document: Document,
    /// Figures of the home.
    pub derived: Derived,
    /// Verdicts on it, unless the book is for another kind of home.
    pub judgement: Result<Judgement, WrongLegalKind>,
    /// Why the selection cannot be had, as the plan declares.
    pub refusals: Vec<Refusal>,
    /// What the selection costs.
    pub price: Money,
    /// Each room that closed, in the order of the file.
    pub rooms: Vec<RoomSize>,
    /// No other document shown in this session has the same.
    pub revision: u64,
}

/// The figures of one room as its tag says them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RoomSize {
    /// The room.
    pub id: Id,
    /// Its name.
    pub name: String,
    /// Its clear rectangle as it lies on the drawing, across by up: `9'-8" \u{d7} 9'-2"`.
    pub size: String,
    /// Its floor area.
    pub area: String,
    /// Numbers of the corrections that concern it.
    pub corrections: Vec<usize>,
}

impl Shown {
    fn new(document: Document, book: &RuleBook, revision: u64) -> Self {
        let home = document.home();
        let derived = plan_geometry::derive(&home);
        let judgement = plan_rules::judge(&home, &derived, book);
        let refusals = plan_choices::refusals(&document.plan, &document.selection);
        let price = plan_choices::price(&document.plan, &document.selection);
        let corrections = judgement.iter().flat_map(Judgement::corrections).collect::<Vec<_>>();
        let rooms = room_sizes(&home, &derived, &corrections);
        drop(home);
        Self { document, derived, judgement, refusals, price, rooms, revision }
    }

    /// The figures of a room, if it closed.
    #[must_use]
    pub fn room(&self, id: &Id) -> Option<&RoomSize> {
        self.rooms.iter().find(|room| room.id == *id)
    }

    /// Required rules that the home falls short of, numbered from 1 in this order on the plan and in the list.
    pub fn corrections(&self) -> impl Iterator<Item = &Verdict> {
        self.judgement.iter().flat_map(Judgement::corrections)
    }

    /// What cannot stand together in space.
    pub fn conflicts(&self) -> impl Iterator<Item = &Problem> {
        self.derived.problems.iter().filter(|problem| problem.kind.is_conflict())
    }

    /// What keeps figures from being derived: faults of the drawing.
    pub fn faults(&self) -> impl Iterator<Item = &Problem> {
        self.derived.problems.iter().filter(|problem| !problem.kind.is_conflict())
    }
}

fn room_sizes(home: &Home<'_>, derived: &Derived, corrections: &[&Verdict]) -> Vec<RoomSize> {
    let units = home.plan.units;
    let length = |length: Length| show::length(Exact::from(i128::from(length.steps())), units);
    let size = |figures: &RoomFigures| {
        let authored = home.elements.rooms.iter().find(|room| room.id == figures.id)?;
        let [across, up] = figures.sizes.rectangle().across_and_up();
        let numbered = corrections.iter().zip(1..);
        Some(RoomSize {
            id: figures.id.clone(),
            name: authored.name.clone(),
            size: format!("{} \u{d7} {}", length(across), length(up)),
            area: show::area(figures.floor_area.exact(), units),
            corrections: numbered.filter(|(verdict, _)| concerns(verdict, figures)).map(|(_, number)| number).collect(),
        })
    };
    derived.rooms.iter().filter_map(size).collect()
}

/// Whether a verdict is about this room: it is judged itself, or the place lies in it.
fn concerns(verdict: &Verdict, room: &RoomFigures) -> bool {
    verdict.subject.as_ref() == Some(&room.id) || room.region.contains(verdict.place.at)
}

impl Session {
    /// Begins to work on a plan, judged by a book.
    #[must_use]
    pub fn new(plan: Plan, book: Arc<RuleBook>) -> Self {
        let document = Document::new(plan);
        let shown = Arc::new(Shown::new(document.clone(), &book, 1));
        let settled = Arc::clone(&shown);
        Self { history: History::new(document), tool: Tool::Idle, book, settled, shown, derived_so_far: 1 }
    }

    /// The rule book in force.
    #[must_use]
    pub fn book(&self) -> &RuleBook {
        &self.book
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
        Arc::new(Shown::new(document, &self.book, self.derived_so_far))
    }
}
