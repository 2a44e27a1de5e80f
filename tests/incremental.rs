//! Deriving a home after a change gives what deriving it from nothing gives, whatever the change.

use plan_geometry::{Derived, derive, derive_after};
use plan_model::elements::{Elements, RoomUse};
use plan_model::{AlternateRef, Id, Length, Plan, Point, Selection, file};
use plan_testkit::block_of_rooms;

const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");

/// A sequence of numbers that looks random and is always the same: SplitMix64 (Steele, Lea, Flood 2014).
struct Numbers(u64);

impl Numbers {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, end: usize) -> usize {
        usize::try_from(self.next() % u64::try_from(end.max(1)).unwrap_or(1)).unwrap_or(0)
    }

    /// Up to a foot either way, in eighths of an inch.
    fn a_little(&mut self) -> Length {
        let eighths = i64::try_from(self.below(193)).unwrap_or(0) - 96;
        Length::from_steps(eighths * Length::INCH.steps() / 8)
    }

    fn pick<'a, T>(&mut self, list: &'a mut [T]) -> Option<&'a mut T> {
        let at = self.below(list.len());
        list.get_mut(at)
    }
}

/// Everything that is derived of a home, in an order of its own.
fn everything(derived: &Derived) -> String {
    let rooms = derived.rooms.iter().map(|room| {
        (&room.id, room.usage, room.space, room.region.clone(), room.floor_area, room.doorways(), room.passages())
    });
    let spaces = derived.spaces.iter().map(|space| (&space.rooms, space.free_floor(), space.obstructions()));
    format!(
        "{:#?}\n{:#?}\n{:#?}\n{:#?}\n{:#?}\n{:#?}\n{:#?}\n{:#?}",
        derived.measures(),
        derived.problems,
        derived.doors,
        derived.windows,
        derived.walls,
        derived.footprint,
        rooms.collect::<Vec<_>>(),
        spaces.collect::<Vec<_>>(),
    )
}

/// One change that a person may make to a plan by hand or in a text editor, sensible or not.
fn change(plan: &mut Plan, selection: &mut Selection, numbers: &mut Numbers) -> &'static str {
    let by = Point::new(numbers.a_little(), numbers.a_little());
    let along = [Point::new(by.x, Length::ZERO), Point::new(Length::ZERO, by.y), by][numbers.below(3)];
    match numbers.below(18) {
        0 => choose(plan, selection, numbers),
        1 | 2 => on(plan, numbers, |elements, numbers| {
            if let Some(wall) = numbers.pick(&mut elements.walls) {
                (wall.from, wall.to) = (wall.from + along, wall.to + along);
            }
        }),
        3 => on(plan, numbers, |elements, numbers| {
            if let Some(wall) = numbers.pick(&mut elements.walls) {
                wall.to = wall.to + along;
            }
        }),
        4 => on(plan, numbers, |elements, numbers| {
            if let Some(wall) = numbers.pick(&mut elements.walls) {
                wall.thickness = Length::inches(4) + by.x.abs();
            }
        }),
        5 | 6 => on(plan, numbers, |elements, numbers| {
            if let Some(fixture) = numbers.pick(&mut elements.fixtures) {
                fixture.at = fixture.at + along;
            }
        }),
        7 => on(plan, numbers, |elements, numbers| {
            if let Some(fixture) = numbers.pick(&mut elements.fixtures) {
                fixture.depth = (fixture.depth + by.x).max(Length::INCH);
            }
        }),
        8 => on(plan, numbers, |elements, numbers| {
            if let Some(door) = numbers.pick(&mut elements.doors) {
                door.at += by.x;
            }
        }),
        9 => on(plan, numbers, |elements, numbers| {
            if let Some(window) = numbers.pick(&mut elements.windows) {
                (window.at, window.head) = (window.at + by.x, Some(Length::inches(80) + by.y));
            }
        }),
        10 => on(plan, numbers, |elements, numbers| {
            if let Some(room) = numbers.pick(&mut elements.rooms) {
                room.at = room.at + along;
            }
        }),
        11 => on(plan, numbers, |elements, numbers| {
            let usage =
                [RoomUse::Bedroom, RoomUse::Bath, RoomUse::Garage, RoomUse::Hall, RoomUse::Kitchen][numbers.below(5)];
            if let Some(room) = numbers.pick(&mut elements.rooms) {
                room.usage = usage;
            }
        }),
        12 => on(plan, numbers, |elements, numbers| {
            if let Some(ceiling) = numbers.pick(&mut elements.ceilings) {
                ceiling.height = Length::inches(84) + by.x;
            }
        }),
        13 => on(plan, numbers, |elements, numbers| {
            if let Some(detector) = numbers.pick(&mut elements.detectors) {
                detector.at = detector.at + along;
            }
            if let Some(bed) = numbers.pick(&mut elements.furniture) {
                bed.at = bed.at + along;
            }
        }),
        14 => {
            if let Some(unit) = numbers.pick(&mut plan.catalogue.doors) {
                unit.width = (unit.width + by.x).max(Length::INCH);
            }
            if let Some(unit) = numbers.pick(&mut plan.catalogue.windows) {
                unit.height = (unit.height + by.x).max(Length::INCH);
            }
            "a unit of another size"
        }
        15 => {
            if let Some(eave) = numbers.pick(&mut plan.home.eaves) {
                eave.depth = by.x.abs();
            }
            if let Some(module) = numbers.pick(&mut plan.modules) {
                module.to = module.to + along;
            }
            "a module of another size"
        }
        16 => on(plan, numbers, |elements, numbers| {
            let at = numbers.below(elements.fixtures.len());
            if at < elements.fixtures.len() {
                elements.fixtures.remove(at);
            }
        }),
        _ => on(plan, numbers, |elements, numbers| {
            if let Some(column) = numbers.pick(&mut elements.columns) {
                (column.from, column.to) = (column.from + along, column.to + along);
            }
            if let Some(line) = numbers.pick(&mut elements.open_boundaries) {
                (line.from, line.to) = (line.from + along, line.to + along);
            }
            if let Some(soffit) = numbers.pick(&mut elements.soffits) {
                soffit.height += by.x;
            }
            if let Some(porch) = numbers.pick(&mut elements.porches) {
                porch.to = porch.to + along;
            }
        }),
    }
}

fn choose(plan: &Plan, selection: &mut Selection, numbers: &mut Numbers) -> &'static str {
    if let Some(choice) = plan.choices.get(numbers.below(plan.choices.len())) {
        let alternate = &choice.alternates[numbers.below(choice.alternates.len())];
        let answer = AlternateRef { choice: choice.id.clone(), alternate: alternate.id.clone() };
        *selection = selection.with(plan, &answer).unwrap_or_else(|error| panic!("{error}"));
    }
    "another alternate"
}

/// A change to the base or to what some alternate brings.
fn on(plan: &mut Plan, numbers: &mut Numbers, change: impl FnOnce(&mut Elements, &mut Numbers)) -> &'static str {
    let lists = plan.all_elements().count();
    // The base holds most of a home.
    let at = if numbers.below(3) < 2 { 0 } else { numbers.below(lists) };
    if let Some(elements) = plan.all_elements_mut().nth(at) {
        change(elements, numbers);
    }
    "a changed element"
}

/// Makes so many changes one after another, and starts again from the plan after every fifty, so that it does not end as
/// a heap of rubble.
fn changes_one_after_another(plan: &Plan, seed: u64, steps: usize) {
    let mut numbers = Numbers(seed);
    let (mut changed, mut selection) = (plan.clone(), Selection::included(plan));
    let mut derived = derive(&changed.home(&selection));
    for step in 0..steps {
        if step % 50 == 49 {
            (changed, selection) = (plan.clone(), Selection::included(plan));
        }
        let what = change(&mut changed, &mut selection, &mut numbers);
        let home = changed.home(&selection);
        derived = derive_after(&derived, &home);
        let (after, from_nothing) = (everything(&derived), everything(&derive(&home)));
        if after != from_nothing {
            let differing = after.lines().zip(from_nothing.lines()).find(|(one, other)| one != other);
            panic!("seed {seed}, step {step}, {what}: {differing:#?}");
        }
    }
}

fn dunlin() -> Plan {
    file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn a_home_derived_after_a_change_is_the_home_derived_anew() {
    changes_one_after_another(&dunlin(), 1, 60);
    changes_one_after_another(&block_of_rooms(3, 3), 2, 60);
}

#[test]
#[cfg_attr(debug_assertions, ignore = "thousands of homes; run with optimisation")]
fn thousands_of_changes_one_after_another() {
    for seed in 10..14 {
        changes_one_after_another(&dunlin(), seed, 1_000);
        changes_one_after_another(&block_of_rooms(4, 3), 100 + seed, 250);
    }
}

#[test]
fn what_a_change_does_not_touch_is_not_worked_out_again() {
    let mut changed = dunlin();
    let selection = Selection::included(&changed);
    let before = derive(&changed.home(&selection));
    let _ = before.measures();
    on(&mut changed, &mut Numbers(0), |elements, _| {
        let wall = elements.walls.iter_mut().find(|wall| wall.id.as_str() == "closet-divider");
        assert!(wall.is_some(), "the demo home has a wall between its bedrooms' closets");
        if let Some(wall) = wall {
            (wall.from.y, wall.to.y) = (wall.from.y + Length::INCH, wall.to.y + Length::INCH);
        }
    });
    let after = derive_after(&before, &changed.home(&selection));
    let worked_out_again = after.spaces.iter().filter(|space| {
        let earlier = before.spaces.iter().find(|earlier| earlier.rooms == space.rooms);
        !earlier.is_some_and(|earlier| std::ptr::eq(earlier.free_floor(), space.free_floor()))
    });
    let mut rooms: Vec<&str> = worked_out_again.flat_map(|space| &space.rooms).map(Id::as_str).collect();
    rooms.sort_unstable();
    assert_eq!(rooms, ["bedroom-2-closet", "bedroom-3-closet"]);
}
