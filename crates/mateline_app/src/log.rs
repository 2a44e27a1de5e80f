use std::fs::File;
use std::io::{self, Write};
use std::path::Path;

use egui::{Pos2, Rect};
use plan_model::Id;
use serde_json::{Map, Value, json};

use crate::board::{Board, Camera, ChoicePlaces};
use crate::session::Session;

/// A file to which one JSON line is added for each change of what the window shows.
///
/// It tells a person who helps from afar what somebody saw: `state` lines say what the figures were, `board` lines what
/// part of the plan was in view, `choices` lines where the choices' marks stood and which alternates were offered,
/// `told` lines what the window told the person.
pub struct Log {
    file: File,
    last: [Option<Value>; 4],
}

impl Log {
    /// Begins or continues a log.
    ///
    /// # Errors
    /// When the file cannot be opened for adding to it.
    pub fn open(path: &Path) -> io::Result<Self> {
        let file = File::options().create(true).append(true).open(path)?;
        Ok(Self { file, last: [const { None }; 4] })
    }

    /// Writes what changed since the last time.
    ///
    /// # Errors
    /// When the file cannot be written to.
    pub fn note(
        &mut self,
        session: &Session,
        plan: &Board,
        told: Option<&str>,
        pixels_per_point: f32,
    ) -> io::Result<()> {
        let lines = [
            Some(state(session)),
            plan.view().map(|(area, camera)| board(area, &camera, pixels_per_point)),
            Some(choices(plan.choice_places())),
            Some(json!({ "line": "told", "text": told })),
        ];
        for (last, line) in self.last.iter_mut().zip(lines) {
            if let Some(line) = line
                && last.as_ref() != Some(&line)
            {
                writeln!(self.file, "{line}")?;
                *last = Some(line);
            }
        }
        Ok(())
    }
}

fn state(session: &Session) -> Value {
    let shown = session.shown();
    let selection: Map<String, Value> = shown
        .document
        .selection
        .iter()
        .map(|(choice, alternate)| (choice.to_string(), alternate.as_str().into()))
        .collect();
    let corrections: Vec<Value> = shown
        .corrections()
        .map(|verdict| json!({ "rule": verdict.rule, "subject": verdict.subject.as_ref().map(|id| id.as_str()) }))
        .collect();
    json!({
        "line": "state",
        "plan": shown.document.plan.name,
        "revision": shown.revision,
        "selection": selection,
        "heated_square_feet": shown.derived.heated_area.map(|area| area.whole_square_feet().to_string()),
        "price": shown.price.to_string(),
        "corrections": corrections,
        "conflicts": shown.conflicts.len(),
        "undo": session.can_undo(),
        "redo": session.can_redo(),
        "is_saved": session.is_saved(),
    })
}

fn board(area: Rect, camera: &Camera, pixels_per_point: f32) -> Value {
    json!({
        "line": "board",
        "left": area.left(),
        "top": area.top(),
        "width": area.width(),
        "height": area.height(),
        "centre_inches": [camera.centre.x, camera.centre.y],
        "points_per_inch": camera.zoom,
        "pixels_per_point": pixels_per_point,
    })
}

fn choices(places: &ChoicePlaces) -> Value {
    let listed = |name: &str, places: &[(Id, Pos2)]| -> Vec<Value> {
        places.iter().map(|(id, at)| json!({ name: id.as_str(), "at": [at.x, at.y] })).collect()
    };
    let offered = places.offered.as_ref();
    json!({
        "line": "choices",
        "marks": listed("choice", &places.marks),
        "offered": offered.map(|offered| offered.choice.as_str()),
        "alternates": offered.map(|offered| listed("alternate", &offered.rows)),
    })
}
