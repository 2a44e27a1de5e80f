//! Conflicts in space, told in the words of the choices that cause them.

use plan_geometry::{Derived, Problem, ProblemKind};
use plan_model::{Alternate, AlternateRef, Choice, Home, Id, Plan, Point};

use crate::words;

/// What cannot stand together in a home: one for each sentence, with every place that it is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Conflict {
    /// What is told: it begins with a capital and ends with a full stop.
    pub sentence: String,
    /// The alternates that bring what is in conflict, in the order of the file; none where the base of the plan does.
    pub alternates: Vec<AlternateRef>,
    /// Where; one place for each problem.
    pub places: Vec<Point>,
    /// The ground that two things need, for each problem that knows it.
    pub outlines: Vec<Vec<Point>>,
}

/// Everything that cannot stand together, in the order in which it was found.
#[must_use]
pub fn conflicts(home: &Home<'_>, derived: &Derived) -> Vec<Conflict> {
    let mut found: Vec<Conflict> = Vec::new();
    for problem in derived.problems.iter().filter(|problem| problem.kind.is_conflict()) {
        let sentence = conflict_sentence(home, derived, problem);
        let outline = (!problem.outline.is_empty()).then(|| problem.outline.clone());
        if let Some(known) = found.iter_mut().find(|known| known.sentence == sentence) {
            known.places.push(problem.at);
            known.outlines.extend(outline);
        } else {
            let alternates = brought_by(&home.plan, &problem.kind).into_iter().map(Brought::answer).collect();
            let outlines = outline.into_iter().collect();
            found.push(Conflict { sentence, alternates, places: vec![problem.at], outlines });
        }
    }
    found
}

/// A problem in people's words: by the alternates, where two choices bring what does not go together, else by kind and
/// room. Begins with a capital and ends with a full stop; names ids only of what lies in no room.
#[must_use]
pub fn conflict_sentence(home: &Home<'_>, derived: &Derived, problem: &Problem) -> String {
    if let [one, other] = brought_by(&home.plan, &problem.kind).as_slice()
        && one.choice.id != other.choice.id
    {
        let clash = clash(&problem.kind);
        return format!("{} and {} {clash}. Change one of them.", one.words(), other.words());
    }
    let mut sentence = by_kind_and_room(home, derived, &problem.kind);
    if let Some(first) = sentence.get(..1).map(str::to_uppercase) {
        sentence.replace_range(..1, &first);
    }
    sentence
}

/// Why two alternates do not go together.
const fn clash(kind: &ProblemKind) -> &'static str {
    match kind {
        ProblemKind::InWall { .. } | ProblemKind::Overlap { .. } | ProblemKind::TwoAnchors { .. } => {
            "need the same floor"
        }
        ProblemKind::OpeningsOverlap { .. } | ProblemKind::WallInOpening { .. } => "need the same part of a wall",
        ProblemKind::TwoCeilings { .. } => "each set the ceiling of the same rooms",
        _ => "do not go together",
    }
}

fn by_kind_and_room(home: &Home<'_>, derived: &Derived, kind: &ProblemKind) -> String {
    let name = |id: &Id| words::element(home, derived, id);
    let room = |id: &Id| words::room(home, id).to_owned();
    match kind {
        ProblemKind::RoomNotClosed { room: id } => format!("the walls around {} do not close.", room(id)),
        ProblemKind::AnchorInWall { room: id } => format!("{} stands where a wall or column is.", room(id)),
        ProblemKind::TwoAnchors { first, second } => format!("nothing divides {} from {}.", room(first), room(second)),
        ProblemKind::SpaceWithoutRoom => "a closed space here is no room of the plan.".to_owned(),
        ProblemKind::LooseBoundary { .. } => "a line between two rooms ends here on no wall.".to_owned(),
        ProblemKind::NoHost { opening, .. } => format!("{} has no wall to stand in.", name(opening)),
        ProblemKind::OpeningLeavesWall { opening, .. } => {
            format!("{} reaches past the end of its wall.", name(opening))
        }
        ProblemKind::NotThrough { opening, .. } => {
            format!("{} does not lead through both walls at the mate line.", name(opening))
        }
        ProblemKind::OpensIntoWall { opening, wall } => format!("{} opens into {}.", name(opening), name(wall)),
        ProblemKind::TwoCeilings { .. } => "two ceilings are set for the same rooms; expected one.".to_owned(),
        ProblemKind::OpeningsOverlap { first, second } => {
            format!("{} and {} need the same part of a wall.", name(first), name(second))
        }
        ProblemKind::WallInOpening { wall, opening } => format!("{} runs into {}.", name(wall), name(opening)),
        ProblemKind::ColumnAtOpening { column, opening } => {
            format!("{} stands in the way of {}.", name(column), name(opening))
        }
        ProblemKind::InWall { thing, wall } => format!("{} and {} need the same floor.", name(thing), name(wall)),
        ProblemKind::Overlap { first, second } => {
            format!("{} and {} need the same floor.", name(first), name(second))
        }
        ProblemKind::Gap { wall, other, gap } => {
            format!("{} ends {} short of {}.", name(wall), gap.some_feet_inches(), name(other))
        }
    }
}

/// An alternate together with its choice.
#[derive(Clone, Copy)]
struct Brought<'a> {
    choice: &'a Choice,
    alternate: &'a Alternate,
}

impl Brought<'_> {
    fn answer(self) -> AlternateRef {
        AlternateRef { choice: self.choice.id.clone(), alternate: self.alternate.id.clone() }
    }

    /// `Owner's bath: 48 x 90 walk-in shower`; what the choice has said already is not said again.
    fn words(&self) -> String {
        let (choice, alternate) = (&self.choice.name, &self.alternate.name);
        let rest = alternate.len().checked_sub(choice.len()).filter(|rest| alternate.is_char_boundary(*rest));
        let short = rest.map(|rest| alternate.split_at(rest)).filter(|(_, end)| end.eq_ignore_ascii_case(choice));
        let said = short.map(|(start, _)| start.trim()).filter(|start| !start.is_empty()).unwrap_or(alternate);
        format!("{choice}: {said}")
    }
}

/// An alternate with its choice as people say it: `Owner's bath: 48 x 90 walk-in shower`; its id where the plan has none such.
#[must_use]
pub fn alternate_in_words(plan: &Plan, answer: &AlternateRef) -> String {
    let choice = plan.choice(&answer.choice);
    let brought = choice.and_then(|choice| Some(Brought { choice, alternate: choice.alternate(&answer.alternate)? }));
    brought.map_or_else(|| answer.to_string(), |brought| brought.words())
}

/// The alternates that bring the elements of a problem, each once, in the order of the file.
fn brought_by<'a>(plan: &'a Plan, kind: &ProblemKind) -> Vec<Brought<'a>> {
    let ids = kind.ids();
    let brings = |alternate: &Alternate| alternate.brings.ids().any(|(id, ..)| ids.contains(&id));
    let of_choice = |choice: &'a Choice| {
        choice
            .alternates
            .iter()
            .filter(|alternate| brings(alternate))
            .map(move |alternate| Brought { choice, alternate })
    };
    plan.choices.iter().flat_map(of_choice).collect()
}
