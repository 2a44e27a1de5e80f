use plan_model::{Id, Length, Point};

use crate::hit::Hit;
use crate::line::{Line, nearest_quotient};
use crate::snap::{Pace, Snap, snap};
use crate::standing::Standing;
use crate::{Command, Document, Refused, apply};

/// What the pointer is doing: a state that events lead from one to the next.
#[derive(Clone, Debug, Default)]
pub enum Tool {
    /// Nothing.
    #[default]
    Idle,
    /// A movable wall was pressed and follows the pointer.
    DraggingWall(Box<WallDrag>),
}

/// A wall that follows the pointer.
#[derive(Clone, Debug)]
pub struct WallDrag {
    /// The wall.
    pub wall: Id,
    /// Where the pointer was last.
    pointer: Point,
    /// How finely it followed there.
    pace: Pace,
    /// How far the pointer has led the wall to its left, in eighths of a grid step: a fine drag goes an eighth as far.
    led: i64,
    /// Where it comes to rest if it is let go now; none until the pointer moves.
    pub snap: Option<Snap>,
    /// The document as it would become; the last one that could be, while the pointer is where the wall cannot go.
    pub preview: Option<Document>,
    /// Why the wall does not follow to where the pointer is.
    pub refused: Option<Refused>,
}

/// Something that the pointer or a key did, on the plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Event {
    /// The main button went down.
    PointerDown {
        /// Where.
        at: Point,
        /// What stands there.
        hit: Option<Hit>,
    },
    /// The pointer moved.
    PointerMoved {
        /// Where to.
        at: Point,
        /// How finely to follow.
        pace: Pace,
        /// How near a face of another wall attracts: a few screen points as a length.
        tolerance: Length,
    },
    /// The main button went up.
    PointerUp,
    /// Escape was pressed, or the pointer was lost.
    Escape,
}

/// What the window has to do after an event.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Effect {
    /// Nothing: what is shown stays as it is.
    None,
    /// Show what [`Tool::shown`] gives now: the preview changed, or is gone.
    ShowAgain,
    /// Carry out the command as one step of history; it gives what was shown.
    Commit(Command),
}

impl Tool {
    /// Leads the state on by one event. `document` is the current one of the history, and stays the same from the
    /// press to the release.
    #[must_use]
    pub fn on(self, event: Event, document: &Document) -> (Self, Effect) {
        match (self, event) {
            (Self::Idle, Event::PointerDown { at, hit: Some(Hit::Wall { id, movable: true }) }) => {
                (Self::DraggingWall(Box::new(WallDrag::new(id, at))), Effect::None)
            }
            (Self::DraggingWall(drag), Event::PointerMoved { at, pace, tolerance }) => {
                drag.follow(document, at, pace, tolerance)
            }
            (Self::DraggingWall(drag), Event::PointerUp) => (Self::Idle, drag.let_go()),
            (Self::DraggingWall(drag), Event::Escape) => (Self::Idle, drag.leave()),
            (tool, _) => (tool, Effect::None),
        }
    }

    /// The document to be shown: the preview of a drag, or the current one.
    #[must_use]
    pub fn shown<'a>(&'a self, current: &'a Document) -> &'a Document {
        match self {
            Self::DraggingWall(drag) => drag.preview.as_ref().unwrap_or(current),
            Self::Idle => current,
        }
    }
}

/// In so many parts of a grid step the way of a drag is counted: the slowest pace then needs no rounding.
const PARTS: i64 = Pace::Fine.reduction();

impl WallDrag {
    const fn new(wall: Id, pointer: Point) -> Self {
        Self { wall, pointer, pace: Pace::Normal, led: 0, snap: None, preview: None, refused: None }
    }

    fn follow(mut self: Box<Self>, document: &Document, at: Point, pace: Pace, tolerance: Length) -> (Tool, Effect) {
        let Some(wall) = Standing::in_home(document).wall(&self.wall) else {
            return (Tool::Idle, self.leave());
        };
        let line = Line::new(wall.from, wall.to);
        let led = |from: Point, to: Point| line.place(to).left - line.place(from).left;
        // The line is where the plan has it; in a reversed home the pointer is elsewhere, and what is left there is right.
        let across = match document.mirror() {
            Some(mirror) => -led(mirror.point(self.pointer), mirror.point(at)),
            None => led(self.pointer, at),
        };
        self.pointer = at;
        if self.pace != pace {
            self.pace = pace;
            // The hand goes on from where the wall rests, so that Shift alone moves nothing.
            self.led = self.snap.as_ref().map_or(0, |snap| snap.by.steps() * PARTS);
        }
        self.led += across * (PARTS / pace.reduction());
        if across == 0 && self.snap.is_some() {
            return (Tool::DraggingWall(self), Effect::None);
        }
        let by = Length::from_steps(nearest_quotient(self.led.into(), PARTS.into()));
        let snap = snap(document, wall, by, pace, tolerance);
        if self.snap.as_ref() == Some(&snap) && self.refused.is_none() {
            return (Tool::DraggingWall(self), Effect::None);
        }
        match apply(document, &Command::MoveWall { wall: self.wall.clone(), by: snap.by }) {
            Ok(preview) => {
                self.preview = (!preview.is_same(document)).then_some(preview);
                self.snap = Some(snap);
                self.refused = None;
            }
            // The wall stays where it last could be.
            Err(refused) if self.refused.as_ref() == Some(&refused) => {
                return (Tool::DraggingWall(self), Effect::None);
            }
            Err(refused) => self.refused = Some(refused),
        }
        (Tool::DraggingWall(self), Effect::ShowAgain)
    }

    fn let_go(self) -> Effect {
        let leave = self.leave();
        match (self.preview, self.snap) {
            (Some(_), Some(snap)) => Effect::Commit(Command::MoveWall { wall: self.wall, by: snap.by }),
            _ => leave,
        }
    }

    /// Ends without a step. A press that never moved has shown nothing.
    const fn leave(&self) -> Effect {
        if self.snap.is_some() || self.refused.is_some() { Effect::ShowAgain } else { Effect::None }
    }
}
