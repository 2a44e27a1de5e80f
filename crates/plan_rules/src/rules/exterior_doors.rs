use std::collections::BTreeSet;
use std::sync::Arc;

use plan_geometry::DoorFigures;
use plan_model::elements::RoomUse;
use plan_model::{DoorOperation, Exact};

use crate::book::Entry;
use crate::rule::{Case, Check, Figures};
use crate::{Outcome, Quantity, RestsOn, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "exterior-doors",
    name: "Number of exterior doors",
    measures: "How many doors lead outdoors from rooms that count, of the kinds and clear sizes that the book asks for; if it says \
               so, the doors of rooms without walls between them are one.",
    read,
};

#[derive(Debug)]
struct ExteriorDoors {
    count: Exact,
    not_from: Vec<RoomUse>,
    /// The clear size of each kind of door that counts; empty where all do.
    sizes: Vec<Size>,
    one_for_each_open_space: bool,
}

/// The least clear opening of a kind of door.
#[derive(Debug)]
struct Size {
    operation: DoorOperation,
    width: Exact,
    height: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let size = |name, operation| {
        let group = entry.group(name)?;
        let size = Size { operation, width: group.length("width"), height: group.length("height") };
        group.finish();
        Some(size)
    };
    let sizes = [size("swinging", DoorOperation::Hinged), size("sliding", DoorOperation::Sliding)];
    Arc::new(ExteriorDoors {
        count: entry.count("count"),
        not_from: entry.uses("not_from"),
        sizes: sizes.into_iter().flatten().collect(),
        one_for_each_open_space: entry.is_said("one_for_each_open_space"),
    })
}

impl Check for ExteriorDoors {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let from_rooms_that_count = |door: &&DoorFigures| {
            let rooms = door.sides.iter().filter_map(|side| case.room(side.room.as_ref()?));
            door.is_exterior && rooms.map(|room| room.usage).all(|usage| !self.not_from.contains(&usage))
        };
        let doors: Vec<_> = case.derived.doors.iter().filter(from_rooms_that_count).collect();
        let of = |outcomes: &[Outcome]| {
            let found = doors.iter().filter(|door| outcomes.contains(&self.serves(case, door)));
            found.copied().collect::<Vec<_>>()
        };
        let certain = self.counted(case, &of(&[Outcome::Met]));
        let possible = self.counted(case, &of(&[Outcome::Met, Outcome::Unknown]));
        let undecided = certain < self.count && possible >= self.count;
        let shown = if certain == Exact::from(1) {
            "1 exterior door that counts".to_owned()
        } else {
            format!("{certain} exterior doors that count")
        };
        let asked = format!("{} are asked for", self.count);
        let message = if undecided {
            format!("The home has {shown}, and more of which the clear opening is not known; {asked}.")
        } else {
            format!("The home has {shown}; {asked}.")
        };
        let mut notes = Vec::new();
        for door in of(&[Outcome::Correction]) {
            notes.push(format!("{} does not count: {}", case.named_or_home(Some(&door.id)).name, self.asks_for(case)));
        }
        if self.one_for_each_open_space && certain < Exact::from(of(&[Outcome::Met]).len() as i128) {
            notes.push("doors of rooms without walls between them count as one".to_owned());
        }
        let measured = (!undecided).then_some(certain);
        let figures = Figures { quantity: Quantity::CountAtLeast, measured, required: self.count };
        let enter = || of(&[Outcome::Unknown]).first().map(|door| case.enter_clear(&door.id)).unwrap_or_default();
        let counted = of(&[Outcome::Met]).iter().map(|door| door.id.clone()).collect();
        let verdict = case.compare(case.whole_home(), figures, message, notes).entering(enter);
        vec![verdict.held_by(RestsOn::OneOfMany(Some(counted)))]
    }

    fn nothing(&self, _: &Case<'_>) -> Option<String> {
        None
    }
}

impl ExteriorDoors {
    /// Whether a door is of a kind and size that counts.
    fn serves(&self, case: &Case<'_>, door: &DoorFigures) -> Outcome {
        if self.sizes.is_empty() {
            return Outcome::Met;
        }
        let placed = case.home.elements.doors.get(door.index);
        let unit = placed.and_then(|placed| case.home.plan.catalogue.door(&placed.unit));
        let Some(size) = self.sizes.iter().find(|size| unit.is_some_and(|unit| unit.operation == size.operation))
        else {
            return Outcome::Correction;
        };
        let tests = [(&door.clear_width, size.width), (&door.clear_height, size.height)].map(|(figure, required)| {
            Figures { quantity: Quantity::LengthAtLeast, measured: figure.value(), required }.outcome()
        });
        // A correction comes before what is not known, and both before what is met.
        tests.into_iter().min().unwrap_or(Outcome::Met)
    }

    /// How many of some doors count.
    fn counted(&self, case: &Case<'_>, doors: &[&DoorFigures]) -> Exact {
        let space = |door: &&DoorFigures| {
            let mut rooms = door.sides.iter().filter_map(|side| case.derived.room(side.room.as_ref()?));
            rooms.next().map(|room| room.space)
        };
        let count = if self.one_for_each_open_space {
            doors.iter().filter_map(space).collect::<BTreeSet<_>>().len()
        } else {
            doors.len()
        };
        Exact::from(count as i128)
    }

    /// The kinds and sizes that count, as a clause.
    fn asks_for(&self, case: &Case<'_>) -> String {
        let kind = |size: &Size| {
            let word = if size.operation == DoorOperation::Sliding { "sliding" } else { "swinging" };
            let [width, height] = [size.width, size.height].map(|length| show::length(length, case.units()));
            format!("a {word} door of {width} x {height}")
        };
        let kinds: Vec<String> = self.sizes.iter().map(kind).collect();
        format!("{} clear does", kinds.join(" or "))
    }
}
