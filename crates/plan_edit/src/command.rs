use std::sync::Arc;

use plan_model::{AlternateRef, Id, Length, Plan, Selection, SelectionError};
use thiserror::Error;

use crate::Document;
use crate::move_wall::move_wall;

/// A change that a person can make and take back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Command {
    /// Answer a choice with one of its alternates. Changes the selection and leaves the plan as it is.
    Choose(AlternateRef),
    /// Answer all choices at once, and have the plan built reversed or not. Leaves the plan as it is.
    Select(Selection),
    /// Have the plan built reversed, mirrored left to right, or as it is drawn. Changes the selection and leaves the plan as
    /// it is.
    Reverse(bool),
    /// Move a movable wall square to itself, with everything that is attached to it.
    ///
    /// What is attached: walls and open boundaries that end on it stretch along their own line, and openings in a
    /// stretched wall keep their place on the drawing; fixtures and furniture with their back against it, chases and
    /// detectors that touch it go along; an end of the wall that meets another wall at an angle slides along that wall;
    /// the points of rooms, detectors and fans that the wall would sweep over are pushed ahead of it. Elements of
    /// alternates that are not chosen go along as well, wherever the wall can stand beside them: what is drawn against
    /// the wall stays against it. Off the axes, ends are rounded to the grid.
    MoveWall {
        /// The wall.
        wall: Id,
        /// How far, square to the wall: positive to its left, walking from its `from` point to its `to` point, in the home
        /// that is drawn: in a reversed home what was left is right.
        by: Length,
    },
}

impl Command {
    /// What the command does, for the undo menu: "choose Fourth bedroom", "move wall flex-closet-wall".
    #[must_use]
    pub fn name(&self, plan: &Plan) -> String {
        match self {
            Self::Choose(answer) => {
                let alternate = plan.choice(&answer.choice).and_then(|choice| choice.alternate(&answer.alternate));
                format!("choose {}", alternate.map_or(answer.alternate.as_str(), |alternate| &alternate.name))
            }
            Self::Select(_) => "open a selection".to_owned(),
            Self::Reverse(true) => "reverse the plan".to_owned(),
            Self::Reverse(false) => "build the plan as drawn".to_owned(),
            Self::MoveWall { wall, .. } => format!("move wall {wall}"),
        }
    }
}

/// Why a command was not carried out, as one sentence.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum Refused {
    /// The plan has no such choice or alternate.
    #[error(transparent)]
    Selection(#[from] SelectionError),
    /// The wall is not in the home that is drawn.
    #[error("the wall \"{wall}\" is not in this home")]
    NoSuchWall {
        /// The wall.
        wall: Id,
    },
    /// The plan does not mark the wall as movable.
    #[error("the wall \"{wall}\" stays where it is: the plan does not mark it as movable")]
    NotMovable {
        /// The wall.
        wall: Id,
    },
    /// A stretched wall or open boundary would be left without length.
    #[error("moving the wall \"{wall}\" that far would leave nothing of \"{shortened}\"")]
    NothingLeft {
        /// The wall that was to move.
        wall: Id,
        /// The wall (it may be the same one) or open boundary.
        shortened: Id,
    },
    /// Something would leave the largest drawing that a plan may hold.
    #[error("moving the wall \"{wall}\" that far would take it more than 200 m from the corner of the house")]
    TooFar {
        /// The wall that was to move.
        wall: Id,
    },
    /// Off the axes, ends are rounded to the grid: here, moving the wall back would not restore them exactly.
    #[error(
        "the ends of \"{follower}\" miss the grid when the wall \"{wall}\" is moved exactly that far; a little less or more will do"
    )]
    OffGrid {
        /// The wall that was to move.
        wall: Id,
        /// The wall (it may be the same one) or open boundary that cannot follow.
        follower: Id,
    },
}

/// Carries out a command: the one place where a document changes. The given document is left untouched.
///
/// A command that changes nothing (moving a wall by zero, choosing what is chosen) gives the same document again.
///
/// # Errors
/// When the command makes no sense for this document; the sentence says why.
pub fn apply(document: &Document, command: &Command) -> Result<Document, Refused> {
    match command {
        Command::Choose(answer) => {
            let selection = document.selection.with(&document.plan, answer)?;
            Ok(Document { plan: Arc::clone(&document.plan), selection })
        }
        Command::Select(wanted) => {
            let included = Selection::included(&document.plan).with_reversed(wanted.is_reversed());
            let selection = wanted.iter().try_fold(included, |selection, (choice, alternate)| {
                let answer = AlternateRef { choice: choice.clone(), alternate: alternate.clone() };
                selection.with(&document.plan, &answer)
            })?;
            Ok(Document { plan: Arc::clone(&document.plan), selection })
        }
        Command::Reverse(reversed) => {
            Ok(Document { plan: Arc::clone(&document.plan), selection: document.selection.with_reversed(*reversed) })
        }
        Command::MoveWall { wall, by } => {
            let by = if document.selection.is_reversed() { -*by } else { *by };
            let plan = move_wall(document, wall, by)?;
            Ok(Document { plan, selection: document.selection.clone() })
        }
    }
}
