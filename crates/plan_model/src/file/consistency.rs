//! What the schema cannot say: names used once, references that lead somewhere, sizes that are sizes.

use std::collections::BTreeMap;

use super::nearest;
use super::price_faults::{self, Standing};
use crate::elements::Elements;
use crate::{DoorOperation, Exact, ExactLength, Id, Length, Money, Plan, Point, PublishedClear, WindowOperation};

/// Longer names fit on no drawing.
const LONGEST_NAME: usize = 200;

/// A wall thicker than this is a slip of the hand.
const THICKEST: Length = Length::from_steps(640_000);

fn exact(length: Length) -> Exact {
    Exact::from(i128::from(length.steps()))
}

/// Something wrong, with its JSON path.
pub(super) struct Found {
    pub(super) path: String,
    pub(super) id: Option<Id>,
    pub(super) message: String,
}

pub(super) fn problems(plan: &Plan) -> Vec<Found> {
    let mut checker = Checker { plan, lists: element_lists(plan), found: Vec::new() };
    checker.names();
    checker.choices();
    checker.counts();
    checker.catalogue();
    checker.home();
    for (prefix, elements) in checker.lists.clone() {
        checker.sizes(&prefix, elements);
        checker.references(&prefix, elements);
    }
    checker.found.extend(plan.prices.iter().flat_map(|book| price_faults::problems(plan, book, Standing::InThePlan)));
    checker.found
}

/// Every list of elements with its JSON path.
fn element_lists(plan: &Plan) -> Vec<(String, &Elements)> {
    let mut lists = vec![("base".to_owned(), &plan.base)];
    for (c, choice) in plan.choices.iter().enumerate() {
        for (a, alternate) in choice.alternates.iter().enumerate() {
            lists.push((format!("choices[{c}].alternates[{a}].brings"), &alternate.brings));
        }
    }
    lists
}

/// What keeps a text from being a name: one line of plain text.
pub(super) fn fault_of_name(text: &str) -> Option<String> {
    if text.chars().any(char::is_control) {
        Some("a name is one line of text without control characters".to_owned())
    } else {
        (text.len() > LONGEST_NAME).then(|| format!("a name has at most {LONGEST_NAME} bytes"))
    }
}

/// What is said of an id with other letters than ids have.
pub(super) const WELL_FORMED: &str =
    "an id is made of small letters, digits, hyphens and points, and starts with a letter or digit";

struct Checker<'plan> {
    plan: &'plan Plan,
    lists: Vec<(String, &'plan Elements)>,
    found: Vec<Found>,
}

/// Into how many parts a unit's size is divided at most; no window has as many sashes.
const MOST_PARTS: u8 = 8;

impl<'plan> Checker<'plan> {
    fn report(&mut self, path: String, id: Option<&Id>, message: impl Into<String>) {
        self.found.push(Found { path, id: id.cloned(), message: message.into() });
    }

    fn names(&mut self) {
        let mut named: Vec<(&'plan Id, String)> = Vec::new();
        for (index, module) in self.plan.modules.iter().enumerate() {
            named.push((&module.id, format!("modules[{index}]")));
        }
        for (index, unit) in self.plan.catalogue.doors.iter().enumerate() {
            named.push((&unit.id, format!("catalogue.doors[{index}]")));
        }
        for (index, unit) in self.plan.catalogue.windows.iter().enumerate() {
            named.push((&unit.id, format!("catalogue.windows[{index}]")));
        }
        for (index, choice) in self.plan.choices.iter().enumerate() {
            named.push((&choice.id, format!("choices[{index}]")));
        }
        for (prefix, elements) in &self.lists {
            named.extend(elements.ids().map(|(id, list, index)| (id, format!("{prefix}.{list}[{index}]"))));
        }
        let mut first: BTreeMap<&Id, String> = BTreeMap::new();
        for (id, path) in named {
            self.well_formed(id, &path);
            if let Some(earlier) = first.get(id) {
                let message = format!("the id \"{id}\" is taken by {earlier}; every id stands once in a plan");
                self.report(format!("{path}.id"), Some(id), message);
            } else {
                first.insert(id, path);
            }
        }
    }

    fn well_formed(&mut self, id: &Id, path: &str) {
        if !id.is_well_formed() {
            self.report(format!("{path}.id"), Some(id), WELL_FORMED);
        }
    }

    fn counts(&mut self) {
        let plan = self.plan;
        for (index, count) in plan.counts.iter().enumerate() {
            let path = format!("counts[{index}]");
            let named = count.of.iter().enumerate().map(|(at, answer)| (format!("{path}.of[{at}]"), answer));
            for (path, answer) in named.chain(count.with.iter().map(|answer| (format!("{path}.with"), answer))) {
                if let Err(error) = crate::Selection::default().with(plan, answer) {
                    self.report(path, None, error.to_string());
                }
            }
            let (least, most) = (count.at_least.unwrap_or(0), count.at_most.unwrap_or(count.of.len()));
            if count.at_least.is_none() && count.at_most.is_none() {
                self.report(path, None, "a count says `at_least` or `at_most`, or both");
            } else if least > most || least > count.of.len() {
                let message = format!("no selection has at least {least} and at most {most} of {}", count.of.len());
                self.report(path, None, message);
            }
        }
    }

    fn choices(&mut self) {
        let plan = self.plan;
        for (c, choice) in plan.choices.iter().enumerate() {
            let included = choice.alternates.iter().filter(|alternate| alternate.included).count();
            if included != 1 {
                let message = format!("exactly one alternate of a choice is included; here {included} are");
                self.report(format!("choices[{c}].alternates"), Some(&choice.id), message);
            }
            for (a, alternate) in choice.alternates.iter().enumerate() {
                let path = format!("choices[{c}].alternates[{a}]");
                self.well_formed(&alternate.id, &path);
                if choice.alternates[..a].iter().any(|earlier| earlier.id == alternate.id) {
                    let message = format!("the choice has two alternates \"{}\"", alternate.id);
                    self.report(format!("{path}.id"), Some(&alternate.id), message);
                }
                for (list, answers) in [("needs", &alternate.needs), ("excludes", &alternate.excludes)] {
                    for (index, answer) in answers.iter().enumerate() {
                        if let Err(error) = crate::Selection::default().with(plan, answer) {
                            self.report(format!("{path}.{list}[{index}]"), Some(&alternate.id), error.to_string());
                        } else if answer.choice == choice.id {
                            let message = "an alternate needs or excludes alternates of other choices, not of its own";
                            self.report(format!("{path}.{list}[{index}]"), Some(&alternate.id), message);
                        }
                    }
                }
                for (index, id) in alternate.removes.iter().enumerate() {
                    self.known(format!("{path}.removes[{index}]"), &alternate.id, id, "element", Self::element_ids);
                }
            }
        }
    }

    fn catalogue(&mut self) {
        let catalogue = &self.plan.catalogue;
        for (index, unit) in catalogue.doors.iter().enumerate() {
            self.positive(format!("catalogue.doors[{index}].width"), &unit.id, unit.width);
            self.positive(format!("catalogue.doors[{index}].height"), &unit.id, unit.height);
            self.published(&format!("catalogue.doors[{index}].clear"), &unit.id, unit.clear, unit.width, unit.height);
            self.published(&format!("catalogue.doors[{index}].glass"), &unit.id, unit.glass, unit.width, unit.height);
            if unit.operation == DoorOperation::CasedOpening && unit.glass.is_some() {
                let message = "a cased opening has no leaf that could hold glass";
                self.report(format!("catalogue.doors[{index}].glass"), Some(&unit.id), message);
            }
        }
        for (index, unit) in catalogue.windows.iter().enumerate() {
            self.positive(format!("catalogue.windows[{index}].width"), &unit.id, unit.width);
            self.positive(format!("catalogue.windows[{index}].height"), &unit.id, unit.height);
            self.published(&format!("catalogue.windows[{index}].clear"), &unit.id, unit.clear, unit.width, unit.height);
            self.published(&format!("catalogue.windows[{index}].glass"), &unit.id, unit.glass, unit.width, unit.height);
            self.published(&format!("catalogue.windows[{index}].vent"), &unit.id, unit.vent, unit.width, unit.height);
            for (field, opening) in [("clear", unit.clear), ("vent", unit.vent)] {
                if unit.operation == WindowOperation::Fixed && opening.is_some() {
                    let message = "a fixed window does not open: it has no clear opening";
                    self.report(format!("catalogue.windows[{index}].{field}"), Some(&unit.id), message);
                }
            }
            let deduction = catalogue.deduction(unit.operation.deduction());
            let above = unit.sill_above_frame.or_else(|| deduction?.sill_above_frame).map(ExactLength::steps);
            let opening = unit.clear.map_or(Exact::from(0), |clear| clear.height.steps());
            if above.is_some_and(|above| above < Exact::from(0) || above + opening > exact(unit.height)) {
                let message = "the clear opening lies within the frame: `sill_above_frame` and the clear height add up to the unit's height at the most";
                self.report(format!("catalogue.windows[{index}].sill_above_frame"), Some(&unit.id), message);
            }
        }
        for (index, deduction) in catalogue.deductions.iter().enumerate() {
            let less = [Some(deduction.width_less), Some(deduction.height_less), deduction.sill_above_frame];
            let glass = [deduction.glass_width_less, deduction.glass_height_less];
            if less.into_iter().chain(glass).flatten().any(|less| less.steps() < Exact::from(0)) {
                let message = "what is taken off a unit's size is not negative";
                self.report(format!("catalogue.deductions[{index}]"), None, message);
            }
            if [deduction.width_parts, deduction.height_parts].iter().any(|parts| !(1..=MOST_PARTS).contains(parts)) {
                let message = "a size is divided into one to eight parts";
                self.report(format!("catalogue.deductions[{index}]"), None, message);
            }
            if catalogue.deductions[..index].iter().any(|earlier| earlier.operation == deduction.operation) {
                let message = "a deduction for this operation stands above";
                self.report(format!("catalogue.deductions[{index}].operation"), None, message);
            }
        }
    }

    /// A published opening lies within its unit.
    fn published(&mut self, path: &str, id: &Id, opening: Option<PublishedClear>, width: Length, height: Length) {
        let Some(opening) = opening else { return };
        for (name, size, unit) in [("width", opening.width, width), ("height", opening.height, height)] {
            if size.steps() < Exact::from(0) || size.steps() > exact(unit) {
                let message = format!("expected from 0 to the unit's own {name}");
                self.report(format!("{path}.{name}"), Some(id), message);
            }
        }
    }

    fn home(&mut self) {
        let plan = self.plan;
        self.text("name".to_owned(), None, &plan.name);
        self.text("maker".to_owned(), None, &plan.maker);
        self.amount("base_price".to_owned(), None, plan.base_price);
        if plan.currency.len() != 3 || !plan.currency.bytes().all(|b| b.is_ascii_uppercase()) {
            self.report("currency".to_owned(), None, "expected an ISO 4217 code of three capitals, such as USD");
        }
        for (index, module) in plan.modules.iter().enumerate() {
            self.rectangle(&format!("modules[{index}]"), &module.id, module.from, module.to);
            self.text(format!("modules[{index}].name"), Some(&module.id), &module.name);
        }
        for (c, choice) in plan.choices.iter().enumerate() {
            self.text(format!("choices[{c}].name"), Some(&choice.id), &choice.name);
            for (a, alternate) in choice.alternates.iter().enumerate() {
                self.text(format!("choices[{c}].alternates[{a}].name"), Some(&alternate.id), &alternate.name);
                self.amount(format!("choices[{c}].alternates[{a}].price"), Some(&alternate.id), alternate.price);
            }
        }
        for (index, eave) in self.plan.home.eaves.iter().enumerate() {
            if !self.plan.modules.iter().any(|module| module.id == eave.module) {
                let message = format!("there is no module \"{}\"", eave.module);
                self.report(format!("home.eaves[{index}].module"), None, message);
            }
        }
        if let Some(line) = self.plan.mate_line
            && line.from == line.to
        {
            self.report("mate_line".to_owned(), None, "the mate line has no length");
        }
        if self.plan.home.up_bearing.is_some_and(|bearing| bearing > 359) {
            self.report("home.up_bearing".to_owned(), None, "a bearing is from 0 to 359 degrees");
        }
    }

    fn sizes(&mut self, prefix: &str, elements: &Elements) {
        for (index, wall) in elements.walls.iter().enumerate() {
            if wall.from == wall.to {
                let message = "the wall has no length: `from` and `to` are the same point";
                self.report(format!("{prefix}.walls[{index}].to"), Some(&wall.id), message);
            }
            let path = format!("{prefix}.walls[{index}].thickness");
            if wall.thickness > THICKEST {
                self.report(path, Some(&wall.id), "no wall is thicker than 1 m");
            } else {
                self.positive(path, &wall.id, wall.thickness);
            }
        }
        for (index, room) in elements.rooms.iter().enumerate() {
            self.text(format!("{prefix}.rooms[{index}].name"), Some(&room.id), &room.name);
        }
        for (index, porch) in elements.porches.iter().enumerate() {
            self.text(format!("{prefix}.porches[{index}].name"), Some(&porch.id), &porch.name);
        }
        for (index, boundary) in elements.open_boundaries.iter().enumerate() {
            if boundary.from == boundary.to {
                let message = "the open boundary has no length: `from` and `to` are the same point";
                self.report(format!("{prefix}.open_boundaries[{index}].to"), Some(&boundary.id), message);
            }
        }
        for (index, column) in elements.columns.iter().enumerate() {
            self.rectangle(&format!("{prefix}.columns[{index}]"), &column.id, column.from, column.to);
        }
        for (index, fixture) in elements.fixtures.iter().enumerate() {
            self.positive(format!("{prefix}.fixtures[{index}].width"), &fixture.id, fixture.width);
            self.positive(format!("{prefix}.fixtures[{index}].depth"), &fixture.id, fixture.depth);
            if fixture.entry.is_some_and(|entry| entry <= Length::ZERO || entry > fixture.width) {
                let message = "an entry is wider than nothing and no wider than the fixture";
                self.report(format!("{prefix}.fixtures[{index}].entry"), Some(&fixture.id), message);
            }
            if fixture.bowls.iter().any(|bowl| *bowl < Length::ZERO || *bowl > fixture.width) {
                let message = "bowls stand within the width of their cabinet";
                self.report(format!("{prefix}.fixtures[{index}].bowls"), Some(&fixture.id), message);
            }
        }
        for (index, piece) in elements.furniture.iter().enumerate() {
            self.positive(format!("{prefix}.furniture[{index}].width"), &piece.id, piece.width);
            self.positive(format!("{prefix}.furniture[{index}].depth"), &piece.id, piece.depth);
        }
        for (index, ceiling) in elements.ceilings.iter().enumerate() {
            self.positive(format!("{prefix}.ceilings[{index}].height"), &ceiling.id, ceiling.height);
            if let Some(slope) = &ceiling.slope {
                let path = format!("{prefix}.ceilings[{index}].slope");
                if slope.rise_per_foot <= Length::ZERO {
                    let message = "a slope rises: give the low edge, and a rise greater than zero to the left of it";
                    self.report(format!("{path}.rise_per_foot"), Some(&ceiling.id), message);
                }
                if slope.highest.is_some_and(|highest| highest <= ceiling.height) {
                    let message = "a slope becomes flat above its low edge";
                    self.report(format!("{path}.highest"), Some(&ceiling.id), message);
                }
            }
            if ceiling.slope.as_ref().is_some_and(|slope| slope.from == slope.to) {
                let message = "the low edge has no length: `from` and `to` are the same point";
                self.report(format!("{prefix}.ceilings[{index}].slope"), Some(&ceiling.id), message);
            }
        }
        for (index, soffit) in elements.soffits.iter().enumerate() {
            self.rectangle(&format!("{prefix}.soffits[{index}]"), &soffit.id, soffit.from, soffit.to);
            self.positive(format!("{prefix}.soffits[{index}].height"), &soffit.id, soffit.height);
        }
        for (index, landing) in elements.landings.iter().enumerate() {
            self.rectangle(&format!("{prefix}.landings[{index}]"), &landing.id, landing.from, landing.to);
        }
        for (index, porch) in elements.porches.iter().enumerate() {
            self.rectangle(&format!("{prefix}.porches[{index}]"), &porch.id, porch.from, porch.to);
        }
    }

    fn references(&mut self, prefix: &str, elements: &Elements) {
        for (index, door) in elements.doors.iter().enumerate() {
            let path = format!("{prefix}.doors[{index}]");
            self.known(format!("{path}.wall"), &door.id, &door.wall, "wall", Self::wall_ids);
            if let Some(through) = &door.through {
                self.known(format!("{path}.through"), &door.id, through, "wall", Self::wall_ids);
            }
            let plan = self.plan;
            self.known(format!("{path}.unit"), &door.id, &door.unit, "door unit", |plan| {
                plan.catalogue.doors.iter().map(|unit| &unit.id).collect()
            });
            let hinged = plan.catalogue.door(&door.unit).map(|unit| unit.operation == DoorOperation::Hinged);
            let hung = door.hinge.is_some() && door.swing.is_some();
            if hinged == Some(true) && !hung {
                self.report(
                    path,
                    Some(&door.id),
                    "a hinged door has a `hinge` (near or far) and a `swing` (left or right)",
                );
            } else if hinged == Some(false) && (door.hinge.is_some() || door.swing.is_some()) {
                self.report(path, Some(&door.id), "only a hinged door has a `hinge` and a `swing`");
            }
        }
        for (index, window) in elements.windows.iter().enumerate() {
            let path = format!("{prefix}.windows[{index}]");
            self.known(format!("{path}.wall"), &window.id, &window.wall, "wall", Self::wall_ids);
            self.known(format!("{path}.unit"), &window.id, &window.unit, "window unit", |plan| {
                plan.catalogue.windows.iter().map(|unit| &unit.id).collect()
            });
        }
        for (index, ceiling) in elements.ceilings.iter().enumerate() {
            for (r, room) in ceiling.rooms.iter().enumerate() {
                let path = format!("{prefix}.ceilings[{index}].rooms[{r}]");
                self.known(path, &ceiling.id, room, "room", Self::room_ids);
            }
        }
        for (index, fan) in elements.fans.iter().enumerate() {
            self.known(format!("{prefix}.fans[{index}].room"), &fan.id, &fan.room, "room", Self::room_ids);
        }
        for (index, landing) in elements.landings.iter().enumerate() {
            let path = format!("{prefix}.landings[{index}].door");
            self.known(path, &landing.id, &landing.door, "door", |plan| {
                plan.all_elements().flat_map(|elements| &elements.doors).map(|door| &door.id).collect()
            });
        }
    }

    fn known(&mut self, path: String, owner: &Id, id: &Id, what: &str, names: fn(&Plan) -> Vec<&Id>) {
        let names = names(self.plan);
        if names.contains(&id) {
            return;
        }
        let hint = nearest(id.as_str(), names.iter().map(|name| name.as_str()))
            .map_or_else(String::new, |name| format!("; did you mean \"{name}\"?"));
        self.report(path, Some(owner), format!("there is no {what} \"{id}\"{hint}"));
    }

    fn element_ids(plan: &Plan) -> Vec<&Id> {
        plan.all_elements().flat_map(Elements::ids).map(|(id, ..)| id).collect()
    }

    fn wall_ids(plan: &Plan) -> Vec<&Id> {
        plan.all_elements().flat_map(|elements| &elements.walls).map(|wall| &wall.id).collect()
    }

    fn room_ids(plan: &Plan) -> Vec<&Id> {
        plan.all_elements().flat_map(|elements| &elements.rooms).map(|room| &room.id).collect()
    }

    /// Names are printed in reports and drawn on plans.
    fn text(&mut self, path: String, id: Option<&Id>, text: &str) {
        if let Some(fault) = fault_of_name(text) {
            self.report(path, id, fault);
        }
    }

    fn amount(&mut self, path: String, id: Option<&Id>, amount: Money) {
        if let Some(fault) = price_faults::fault_of_amount(amount, &self.plan.currency) {
            self.report(path, id, fault);
        }
    }

    fn positive(&mut self, path: String, id: &Id, length: Length) {
        if length <= Length::ZERO {
            self.report(path, Some(id), "expected a length greater than zero");
        }
    }

    fn rectangle(&mut self, path: &str, id: &Id, from: Point, to: Point) {
        if from.x == to.x || from.y == to.y {
            let message = "`from` and `to` are opposite corners; here they lie on one line";
            self.report(format!("{path}.to"), Some(id), message);
        }
    }
}
